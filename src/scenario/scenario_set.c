/* --set: "section.key=value", "glazing.1.area=20 m2", "glazing.south roof.area=20 m2",
 * "walls.north.layers.2.thickness=100 mm" applied to a scenario that has been read; "fan=none"
 * leaves a part of the house out, and "barrels.+north row.count=12" adds an item with that name. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "scenario/scenario_parts.h"

enum { PART_SIZE = 96 };

struct override {
    struct dawn_scenario_reading *reading;
    struct dawn_place_in_file place;
    char section[PART_SIZE]; /* "walls.layers" */
    char item[PART_SIZE], layer[PART_SIZE], key[PART_SIZE];
    const char *value;
};

static bool refuse(const struct override *override, const char *hint, const char *message)
{
    dawn_scenario_complain(override->reading, DAWN_ERROR, override->place, hint, "%s", message);
    return false;
}

static bool copy_part(char *part, const char *text, size_t size)
{
    while (size > 0 && *text == ' ') {
        text++;
        size--;
    }
    while (size > 0 && text[size - 1] == ' ')
        size--;
    if (size >= PART_SIZE)
        return false;
    memcpy(part, text, size);
    part[size] = '\0';
    return true;
}

/* ---- taking the path apart ---- */

static const char *find_in(const char *text, size_t size, const char *wanted)
{
    size_t length = strlen(wanted);
    for (size_t i = 0; i + length <= size; i++)
        if (memcmp(text + i, wanted, length) == 0)
            return text + i;
    return NULL;
}

static const char *last_dot(const char *text, size_t size)
{
    for (size_t i = size; i > 0; i--)
        if (text[i - 1] == '.')
            return text + i - 1;
    return NULL;
}

/* Between the section and the key: "1", "south roof", "north.layers.2". */
static bool split_items(struct override *override, const char *text, size_t size)
{
    static const char between[] = ".layers.";
    const char *layers =
        strcmp(override->section, "walls") == 0 ? find_in(text, size, between) : NULL;
    if (layers == NULL)
        return copy_part(override->item, text, size);
    (void)dawn_text_copy(override->section, sizeof override->section, "walls.layers");
    const char *behind = layers + strlen(between);
    return copy_part(override->item, text, (size_t)(layers - text)) &&
           copy_part(override->layer, behind, size - (size_t)(behind - text));
}

static bool split_path(struct override *override, const char *path, size_t size)
{
    const char *first = find_in(path, size, ".");
    const char *last = last_dot(path, size);
    if (first == NULL)
        return copy_part(override->key, path, size);
    bool fits = copy_part(override->section, path, (size_t)(first - path)) &&
                copy_part(override->key, last + 1, size - (size_t)(last + 1 - path));
    if (fits && last > first)
        fits = split_items(override, first + 1, (size_t)(last - first) - 1);
    return fits;
}

bool dawn_scenario_plain_key(const char *path, char *out, size_t size)
{
    struct override override = {.place.line = 0};
    int length = 0;

    (void)dawn_text_copy(out, size, "");
    if (!split_path(&override, path, strlen(path)) || override.item[0] == '\0')
        return false;
    const struct dawn_scenario_section *section = dawn_scenario_section_named(override.section);
    if (section == NULL || section->form < DAWN_SCENARIO_LIST)
        return false;
    length = snprintf(out, size, "%s.%s", section->name, override.key);
    if (length >= 0 && (size_t)length < size)
        return true;
    (void)dawn_text_copy(out, size, "");
    return false;
}

/* ---- finding the spot ---- */

static bool read_index(const char *text, size_t *index)
{
    size_t value = 0;
    if (text[0] == '\0' || strlen(text) > 4 || strspn(text, "0123456789") != strlen(text))
        return false;
    for (; *text != '\0'; text++)
        value = 10 * value + (size_t)(*text - '0');
    *index = value - 1; /* 0 wraps and is refused as beyond the end */
    return true;
}

/* "+north row": an item of that name, added with its defaults where there is none yet. False when
 * the list is full; wanted is left without the plus. */
static bool add_item(const struct override *override, struct dawn_scenario_spot spot,
                     const char **wanted)
{
    struct dawn_scenario *scenario = override->reading->scenario;
    const struct dawn_key *name = dawn_scenario_key_named(spot.section->name, "name");
    size_t count = dawn_scenario_item_count_const(scenario, spot);
    if ((*wanted)[0] != '+' || spot.section->form != DAWN_SCENARIO_LIST || (*wanted)[1] == '\0')
        return true;
    ++*wanted;
    for (spot.item = 0; spot.item < count; spot.item++)
        if (dawn_text_same((const char *)dawn_scenario_at_const(scenario, spot) + name->offset,
                           *wanted))
            return true;
    if (count >= spot.section->most)
        return false;
    *dawn_scenario_item_count(scenario, spot) = count + 1;
    spot.item = count;
    char *base = dawn_scenario_at(scenario, spot);
    memset(base, 0, spot.section->item_size);
    dawn_scenario_set_usual(spot.section, base);
    (void)dawn_text_copy(base + name->offset, name->size, *wanted);
    struct dawn_scenario_origin origin = {spot, NULL, DAWN_SCENARIO_GIVEN, 0, 0};
    struct dawn_scenario_origin named = {spot, name, DAWN_SCENARIO_GIVEN, 0, 0};
    override->reading->no_memory = !dawn_scenario_note_origin(scenario, origin) ||
                                   !dawn_scenario_note_origin(scenario, named) ||
                                   override->reading->no_memory;
    return true;
}

static bool find_item(const struct override *override, struct dawn_scenario_spot spot,
                      size_t *index, const char *wanted)
{
    if (!add_item(override, spot, &wanted))
        return refuse(override, NULL, "this list is full; no more can be added");
    const struct dawn_scenario *scenario = override->reading->scenario;
    size_t count = dawn_scenario_item_count_const(scenario, spot);
    const struct dawn_key *name = dawn_scenario_key_named(spot.section->name, "name");
    if (wanted[0] == '\0')
        return refuse(override, "write the item's number or name between, as in glazing.1.area",
                      "this section is a list; say which of its items is meant");
    if (read_index(wanted, index) && *index < count)
        return true;
    for (*index = 0; *index < count; (*index)++) {
        if (spot.section->form == DAWN_SCENARIO_SUBLIST)
            spot.layer = *index;
        else
            spot.item = *index;
        const char *base = dawn_scenario_at_const(scenario, spot);
        if (dawn_text_same(base + name->offset, wanted))
            return true;
    }
    dawn_scenario_complain(override->reading, DAWN_ERROR, override->place,
                           "items are counted from 1, or called by their name",
                           "there is no %s '%s'; this scenario has %zu in the list",
                           spot.section->item, wanted, count);
    return false;
}

static bool find_section(const struct override *override, struct dawn_scenario_spot *spot)
{
    char hint[160];
    spot->section = dawn_scenario_section_named(override->section);
    if (spot->section != NULL)
        return true;
    const struct dawn_scenario_section *nearest = dawn_scenario_nearest_section(override->section);
    (void)snprintf(hint, sizeof hint, "did you mean '%s'?", nearest == NULL ? "" : nearest->name);
    dawn_scenario_complain(override->reading, DAWN_ERROR, override->place,
                           nearest == NULL ? "write section.key=value" : hint,
                           "unknown section '%s'", override->section);
    return false;
}

static bool find_spot(const struct override *override, struct dawn_scenario_spot *spot)
{
    if (!find_section(override, spot))
        return false;
    if (spot->section->form < DAWN_SCENARIO_LIST) {
        if (override->item[0] != '\0')
            return refuse(override, "write section.key=value", "this section is not a list");
        return true;
    }
    if (spot->section->form == DAWN_SCENARIO_LIST)
        return find_item(override, *spot, &spot->item, override->item);
    struct dawn_scenario_spot parent = {dawn_scenario_section_named(spot->section->parent), 0, 0};
    return find_item(override, parent, &spot->item, override->item) &&
           find_item(override, *spot, &spot->layer, override->layer);
}

/* ---- applying ---- */

static void note(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot,
                 const struct dawn_key *key, enum dawn_scenario_fate fate)
{
    struct dawn_scenario_origin origin = {spot, key, fate, 0, 0};
    if (!dawn_scenario_note_origin(reading->scenario, origin))
        reading->no_memory = true;
}

static void make_present(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot)
{
    bool yes = true;
    if (dawn_scenario_is_present(reading->scenario, spot))
        return;
    memcpy((char *)dawn_scenario_at(reading->scenario, spot) + spot.section->present_offset, &yes,
           sizeof yes);
    note(reading, spot, NULL, DAWN_SCENARIO_GIVEN);
}

/* "fan=none", "barrels=none": a part that may be left out is. False when it is no such wish. */
static bool leave_out(struct override *override)
{
    struct dawn_scenario *scenario = override->reading->scenario;
    struct dawn_scenario_spot spot = {dawn_scenario_section_named(override->key), 0, 0};
    bool no = false;

    if (override->section[0] != '\0' || spot.section == NULL || override->key[0] == '\0' ||
        (spot.section->form != DAWN_SCENARIO_OPTIONAL &&
         spot.section->form != DAWN_SCENARIO_LIST) ||
        !dawn_text_same(override->value, "none"))
        return false;
    if (spot.section->form == DAWN_SCENARIO_LIST)
        *dawn_scenario_item_count(scenario, spot) = 0;
    else
        memcpy((char *)dawn_scenario_at(scenario, spot) + spot.section->present_offset, &no,
               sizeof no);
    return true;
}

/* "rock=4": which of its keys is meant? */
static bool names_a_section(const struct override *override)
{
    char hint[160];
    const struct dawn_scenario_section *section = dawn_scenario_section_named(override->key);
    if (override->section[0] != '\0' || section == NULL || override->key[0] == '\0')
        return false;
    (void)snprintf(hint, sizeof hint, "write %s.%sKEY=value; dawnlow explain %s tells its keys",
                   section->name, section->form == DAWN_SCENARIO_LIST ? "1." : "", section->name);
    dawn_scenario_complain(override->reading, DAWN_ERROR, override->place, hint,
                           "'%s' is a section; say which of its keys is meant", section->name);
    return true;
}

static void apply(struct override *override)
{
    struct dawn_scenario_spot spot = {NULL, 0, 0};
    if (leave_out(override) || names_a_section(override))
        return;
    if (!find_spot(override, &spot))
        return;
    const struct dawn_key *key = dawn_scenario_key_named(spot.section->name, override->key);
    if (key == NULL) {
        dawn_scenario_complain_of_key(override->reading, spot, override->key, override->place);
        return;
    }
    make_present(override->reading, spot);
    void *base = dawn_scenario_at(override->reading->scenario, spot);
    bool good =
        dawn_scenario_set_value(override->reading, key, base, override->value, override->place);
    note(override->reading, spot, key, good ? DAWN_SCENARIO_GIVEN : DAWN_SCENARIO_REFUSED);
}

void dawn_scenario_set_override(struct dawn_scenario_reading *reading, const char *text)
{
    char name[128];
    struct override override = {.reading = reading};
    (void)snprintf(name, sizeof name, "%s %s", reading->way != NULL ? reading->way : "--set",
                   dawn_scenario_quote_of(text).text);
    override.place.file = name;
    const char *equals = strchr(text, '=');
    if (equals == NULL) {
        (void)refuse(&override, "for example --set 'fan.on_at=25 C'",
                     "there is no '='; write section.key=value");
        return;
    }
    override.value = equals + 1 + strspn(equals + 1, " ");
    if (split_path(&override, text, (size_t)(equals - text)))
        apply(&override);
    else
        (void)refuse(&override, "write section.key=value", "a part of this name is too long");
}
