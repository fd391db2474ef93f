/* What was understood: every value in the table's unit, and where it came from. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "base/unit.h"
#include "scenario/scenario_parts.h"

struct show {
    const struct dawn_scenario *scenario;
    void (*visit)(const struct dawn_understood *, void *user);
    void *user;
};

/* ---- values ---- */

static void show_figure(const struct dawn_key *key, double field, const char *remark, char *out,
                        size_t size)
{
    struct dawn_scenario_figure figure =
        dawn_scenario_figure_of(dawn_scenario_in_table_unit(key, field));
    (void)snprintf(out, size, "%s%s%s%s%s%s", figure.text, key->unit[0] == '\0' ? "" : " ",
                   key->unit, remark[0] == '\0' ? "" : " (", remark, remark[0] == '\0' ? "" : ")");
}

/* What the program makes of a value that was left to it; NAN when it has to be found out later. */
static double worked_out(const struct dawn_scenario *scenario, struct dawn_scenario_spot spot,
                         const struct dawn_key *key)
{
    size_t count = 0;
    (void)dawn_scenario_glazing_types(&count);
    int type = scenario->glazing[spot.item < DAWN_GLAZING_MOST ? spot.item : 0].type;
    if (strcmp(key->section, "house") == 0 && strcmp(key->name, "floor_area") == 0)
        return dawn_scenario_floor_m2(scenario);
    if (strcmp(key->section, "house") == 0 && strcmp(key->name, "air_volume") == 0)
        return dawn_scenario_air_m3(scenario);
    if (strcmp(key->section, "house") == 0 && strcmp(key->name, "air_changes") == 0)
        return dawn_scenario_air_changes_per_h(scenario);
    if (strcmp(key->section, "rock") == 0 && strcmp(key->name, "volume") == 0)
        return dawn_scenario_rock_m3(scenario);
    if (strcmp(key->section, "rock") == 0 && strcmp(key->name, "mass") == 0)
        return dawn_scenario_rock_kg(scenario);
    if (strcmp(key->section, "glazing") != 0 || type < 0 || (size_t)type >= count)
        return NAN;
    struct dawn_glazing_build build = dawn_scenario_glazing_build(&scenario->glazing[spot.item]);
    if (strcmp(key->name, "skins") == 0)
        return (double)build.skins;
    if (strcmp(key->name, "solar_transmittance") == 0)
        return build.solar_transmittance;
    if (strcmp(key->name, "gap_resistance") == 0)
        return build.gap_m2K_W;
    if (strcmp(key->name, "longwave_transmittance") == 0)
        return build.longwave_transmittance;
    if (strcmp(key->name, "refractive_index") == 0)
        return build.layers[0].index;
    return build.emissivity;
}

static void show_compass(const struct dawn_key *key, double deg, char *out, size_t size)
{
    char word[8];
    double step = deg / 22.5;
    bool exact = fabs(step - floor(step + 0.5)) < 1e-9;
    if (exact && dawn_scenario_word(key->words, (int)floor(step + 0.5) % 16, word, sizeof word))
        show_figure(key, deg, word, out, size);
    else
        show_figure(key, deg, "", out, size);
}

/* Seconds since midnight as a clock shows them. */
static void show_clock(double field, char *out, size_t size)
{
    long minutes = lround(field / 60);
    (void)snprintf(out, size, "%02ld:%02ld", minutes / 60, minutes % 60);
}

static void show_number(const struct show *show, struct dawn_scenario_spot spot,
                        const struct dawn_key *key, double field, char *out, size_t size)
{
    bool left_open = isnan(field) && key->words != NULL;
    double value = left_open ? worked_out(show->scenario, spot, key) : field;
    if (left_open && isnan(value))
        (void)dawn_text_copy(out, size, key->words);
    else if (left_open)
        show_figure(key, value, key->words, out, size);
    else if (isnan(value))
        (void)dawn_text_copy(out, size, "missing");
    else if (key->measure == DAWN_MEASURE_CLOCK)
        show_clock(value, out, size);
    else if (key->measure == DAWN_MEASURE_ANGLE && key->words != NULL && strlen(key->words) > 3)
        show_compass(key, value, out, size);
    else
        show_figure(key, value, "", out, size);
}

static void show_value(const struct show *show, struct dawn_scenario_spot spot,
                       const struct dawn_key *key, char *out, size_t size)
{
    const char *base = dawn_scenario_at_const(show->scenario, spot);
    const double *number = dawn_scenario_number_of(key, base);
    int choice = -1;
    if (number != NULL) {
        show_number(show, spot, key, *number, out, size);
    } else if (key->kind == DAWN_KIND_CHOICE) {
        memcpy(&choice, base + key->offset, sizeof choice);
        if (!dawn_scenario_word(key->words, choice, out, size))
            (void)dawn_text_copy(out, size, "missing");
    } else if (base[key->offset] != '\0') {
        (void)dawn_text_copy(out, size, dawn_scenario_quote_of(base + key->offset).text);
    } else if (key->words == NULL || !dawn_scenario_word(key->words, 0, out, size)) {
        (void)dawn_text_copy(out, size, "none");
    }
}

/* ---- lines ---- */

static void show_name(const struct show *show, struct dawn_scenario_spot spot,
                      const struct dawn_key *key, char *out, size_t size)
{
    const struct dawn_scenario *scenario = show->scenario;
    if (spot.section->form == DAWN_SCENARIO_TOP)
        (void)dawn_text_copy(out, size, key->name);
    else if (spot.section->form < DAWN_SCENARIO_LIST)
        (void)snprintf(out, size, "%s.%s", spot.section->name, key->name);
    else if (spot.section->form == DAWN_SCENARIO_SUBLIST)
        (void)snprintf(out, size, "walls[%s].layers[%zu].%s", scenario->walls[spot.item].name,
                       spot.layer + 1, key->name);
    else {
        const struct dawn_key *name = dawn_scenario_key_named(spot.section->name, "name");
        const char *base = dawn_scenario_at_const(scenario, spot);
        (void)snprintf(out, size, "%s[%s].%s", spot.section->name, base + name->offset, key->name);
    }
}

static void show_key(const struct show *show, struct dawn_scenario_spot spot,
                     const struct dawn_key *key)
{
    struct dawn_understood line = {.meaning = key->meaning};
    const struct dawn_scenario_origin *origin =
        dawn_scenario_find_origin(show->scenario, spot, key);
    line.given = origin != NULL && origin->fate == DAWN_SCENARIO_GIVEN;
    line.line = origin == NULL ? 0 : origin->line;
    show_name(show, spot, key, line.key, sizeof line.key);
    show_value(show, spot, key, line.value, sizeof line.value);
    show->visit(&line, show->user);
}

static void show_spot(const struct show *show, struct dawn_scenario_spot spot)
{
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(keys[i].section, spot.section->name) == 0)
            show_key(show, spot, &keys[i]);
}

static void show_absent(const struct show *show, const struct dawn_scenario_section *section)
{
    struct dawn_understood line = {.value = "none", .meaning = section->meaning};
    (void)dawn_text_copy(line.key, sizeof line.key, section->name);
    show->visit(&line, show->user);
}

static void show_layers(const struct show *show, size_t wall)
{
    struct dawn_scenario_spot spot = {dawn_scenario_section_named("walls.layers"), wall, 0};
    size_t count = dawn_scenario_item_count_const(show->scenario, spot);
    for (spot.layer = 0; spot.layer < count; spot.layer++)
        show_spot(show, spot);
}

static void show_list(const struct show *show, struct dawn_scenario_spot spot)
{
    size_t count = dawn_scenario_item_count_const(show->scenario, spot);
    if (count == 0)
        show_absent(show, spot.section);
    for (spot.item = 0; spot.item < count; spot.item++) {
        show_spot(show, spot);
        if (strcmp(spot.section->name, "walls") == 0)
            show_layers(show, spot.item);
    }
}

void dawn_scenario_understood(const struct dawn_scenario *scenario,
                              void (*visit)(const struct dawn_understood *, void *user), void *user)
{
    struct show show = {scenario, visit, user};
    size_t count = 0;
    const struct dawn_scenario_section *sections = dawn_scenario_sections(&count);
    for (size_t i = 0; i < count; i++) {
        struct dawn_scenario_spot spot = {&sections[i], 0, 0};
        if (spot.section->form == DAWN_SCENARIO_SUBLIST)
            continue;
        if (spot.section->form == DAWN_SCENARIO_LIST)
            show_list(&show, spot);
        else if (dawn_scenario_is_present(scenario, spot))
            show_spot(&show, spot);
        else
            show_absent(&show, spot.section);
    }
}
