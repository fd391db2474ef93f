/* Where values sit in the struct and where each of them came from. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "scenario/scenario_parts.h"

/* ---- in the struct ---- */

static const char *list_holder(const struct dawn_scenario *scenario, struct dawn_scenario_spot spot)
{
    const char *holder = (const char *)scenario;
    if (spot.section->form == DAWN_SCENARIO_SUBLIST) {
        const struct dawn_scenario_section *parent =
            dawn_scenario_section_named(spot.section->parent);
        holder += parent->offset + spot.item * parent->item_size;
    }
    return holder;
}

static size_t offset_of(const struct dawn_scenario *scenario, struct dawn_scenario_spot spot)
{
    size_t index = spot.section->form == DAWN_SCENARIO_SUBLIST ? spot.layer : spot.item;
    const char *at = list_holder(scenario, spot) + spot.section->offset;
    if (spot.section->form >= DAWN_SCENARIO_LIST)
        at += index * spot.section->item_size;
    return (size_t)(at - (const char *)scenario);
}

void *dawn_scenario_at(struct dawn_scenario *scenario, struct dawn_scenario_spot spot)
{
    return (char *)scenario + offset_of(scenario, spot);
}

const void *dawn_scenario_at_const(const struct dawn_scenario *scenario,
                                   struct dawn_scenario_spot spot)
{
    return (const char *)scenario + offset_of(scenario, spot);
}

static size_t count_offset(const struct dawn_scenario *scenario, struct dawn_scenario_spot spot)
{
    return (size_t)(list_holder(scenario, spot) - (const char *)scenario) +
           spot.section->count_offset;
}

size_t *dawn_scenario_item_count(struct dawn_scenario *scenario, struct dawn_scenario_spot spot)
{
    return (size_t *)(void *)((char *)scenario + count_offset(scenario, spot));
}

size_t dawn_scenario_item_count_const(const struct dawn_scenario *scenario,
                                      struct dawn_scenario_spot spot)
{
    size_t count = 0;
    memcpy(&count, (const char *)scenario + count_offset(scenario, spot), sizeof count);
    return count;
}

bool dawn_scenario_is_present(const struct dawn_scenario *scenario, struct dawn_scenario_spot spot)
{
    bool present = true;
    if (spot.section->form == DAWN_SCENARIO_OPTIONAL)
        memcpy(&present,
               (const char *)dawn_scenario_at_const(scenario, spot) + spot.section->present_offset,
               sizeof present);
    return present;
}

/* ---- in the file ---- */

static bool same_spot(struct dawn_scenario_spot a, struct dawn_scenario_spot b)
{
    return a.section == b.section && a.item == b.item && a.layer == b.layer;
}

const struct dawn_scenario_origin *dawn_scenario_find_origin(const struct dawn_scenario *scenario,
                                                             struct dawn_scenario_spot spot,
                                                             const struct dawn_key *key)
{
    const struct dawn_scenario_origins *origins = scenario->origins;
    for (size_t i = origins == NULL ? 0 : origins->count; i > 0; i--) {
        const struct dawn_scenario_origin *origin = &origins->item[i - 1];
        if (origin->key == key && same_spot(origin->spot, spot))
            return origin;
    }
    return NULL;
}

static bool grow(struct dawn_scenario_origins *origins)
{
    size_t capacity = origins->capacity == 0 ? 128 : 2 * origins->capacity;
    struct dawn_scenario_origin *item = realloc(origins->item, capacity * sizeof *item);
    if (item == NULL)
        return false;
    origins->item = item;
    origins->capacity = capacity;
    return true;
}

bool dawn_scenario_note_origin(struct dawn_scenario *scenario, struct dawn_scenario_origin origin)
{
    if (scenario->origins == NULL)
        scenario->origins = calloc(1, sizeof *scenario->origins);
    struct dawn_scenario_origins *origins = scenario->origins;
    if (origins == NULL)
        return false;
    const struct dawn_scenario_origin *old =
        dawn_scenario_find_origin(scenario, origin.spot, origin.key);
    if (old != NULL) {
        origins->item[old - origins->item] = origin;
        return true;
    }
    if (origins->count == origins->capacity && !grow(origins))
        return false;
    origins->item[origins->count++] = origin;
    return true;
}

void dawn_scenario_release(struct dawn_scenario *scenario)
{
    if (scenario == NULL)
        return;
    if (scenario->origins != NULL)
        free(scenario->origins->item);
    free(scenario->origins);
    scenario->origins = NULL;
}

/* ---- for messages ---- */

struct dawn_place_in_file dawn_scenario_place(const struct dawn_scenario_reading *reading, int line,
                                              int column)
{
    return (struct dawn_place_in_file){reading->name, line, column,
                                       dawn_yamlin_line(reading->yaml, line)};
}

static void title_item(char *out, size_t size, const struct dawn_scenario *scenario,
                       struct dawn_scenario_spot spot)
{
    size_t index = spot.section->form == DAWN_SCENARIO_SUBLIST ? spot.layer : spot.item;
    const struct dawn_key *key = dawn_scenario_key_named(spot.section->name, "name");
    const char *name = (const char *)dawn_scenario_at_const(scenario, spot) + key->offset;
    if (name[0] != '\0')
        (void)snprintf(out, size, "%s '%s'", spot.section->item, name);
    else
        (void)snprintf(out, size, "%s %zu", spot.section->item, index + 1);
}

struct dawn_scenario_title dawn_scenario_title_of(const struct dawn_scenario *scenario,
                                                  struct dawn_scenario_spot spot)
{
    struct dawn_scenario_title title = {""};
    char item[88];
    if (spot.section->form < DAWN_SCENARIO_LIST) {
        (void)dawn_text_copy(title.text, sizeof title.text, spot.section->item);
        return title;
    }
    title_item(item, sizeof item, scenario, spot);
    if (spot.section->form == DAWN_SCENARIO_SUBLIST) {
        char holder[88];
        struct dawn_scenario_spot parent = {dawn_scenario_section_named(spot.section->parent),
                                            spot.item, 0};
        title_item(holder, sizeof holder, scenario, parent);
        (void)snprintf(title.text, sizeof title.text, "%s of %s", item, holder);
    } else {
        (void)dawn_text_copy(title.text, sizeof title.text, item);
    }
    return title;
}
