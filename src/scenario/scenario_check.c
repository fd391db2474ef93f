/* What must be there, and rules that look at more than one key.
 *
 * A number that was refused is NAN here, and every comparison is written so that NAN complains of
 * nothing twice. Figures that name a source: standing room of a drum, see
 * dawn_scenario_barrel_stand_m2; the others are common practice, no source. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "dawnlow/physics/airflow.h"
#include "scenario/scenario_parts.h"

static struct dawn_scenario_spot spot_of(const char *section, size_t item)
{
    return (struct dawn_scenario_spot){dawn_scenario_section_named(section), item, 0};
}

/* Puts a complaint at the value of a key, else at its section, else at the file. */
static void blame(struct dawn_scenario_reading *reading, enum dawn_severity severity,
                  struct dawn_scenario_spot spot, const char *key_name, const char *hint,
                  const char *message, ...) __attribute__((format(printf, 6, 7)));

static void blame(struct dawn_scenario_reading *reading, enum dawn_severity severity,
                  struct dawn_scenario_spot spot, const char *key_name, const char *hint,
                  const char *message, ...)
{
    char text[512];
    va_list arguments;
    va_start(arguments, message);
    (void)vsnprintf(text, sizeof text, message, arguments);
    va_end(arguments);
    const struct dawn_key *key =
        key_name == NULL ? NULL : dawn_scenario_key_named(spot.section->name, key_name);
    const struct dawn_scenario_origin *origin =
        dawn_scenario_find_origin(reading->scenario, spot, key);
    if (origin == NULL)
        origin = dawn_scenario_find_origin(reading->scenario, spot, NULL);
    struct dawn_place_in_file place = dawn_scenario_place(
        reading, origin == NULL ? 0 : origin->line, origin == NULL ? 0 : origin->column);
    dawn_scenario_complain(reading, severity, place, hint, "%s", text);
}

/* A mistyped or misused heading has been complained of: what it holds is not missing. */
static bool was_meant(const struct dawn_scenario_reading *reading, const char *section)
{
    const struct dawn_scenario_origin *origin =
        dawn_scenario_find_origin(reading->scenario, spot_of(section, 0), NULL);
    return origin != NULL && origin->fate != DAWN_SCENARIO_GIVEN;
}

static bool was_given(const struct dawn_scenario_reading *reading, const char *section,
                      const char *key_name)
{
    return dawn_scenario_find_origin(reading->scenario, spot_of(section, 0),
                                     dawn_scenario_key_named(section, key_name)) != NULL;
}

/* A value was complained of already, or a mistyped key meant it. */
static bool was_spoilt_at(const struct dawn_scenario_reading *reading,
                          struct dawn_scenario_spot spot, const char *key_name)
{
    const struct dawn_scenario_origin *origin = dawn_scenario_find_origin(
        reading->scenario, spot, dawn_scenario_key_named(spot.section->name, key_name));
    return origin != NULL && origin->fate != DAWN_SCENARIO_GIVEN;
}
static bool was_spoilt(const struct dawn_scenario_reading *reading, const char *section,
                       const char *key_name)
{
    return was_spoilt_at(reading, spot_of(section, 0), key_name);
}

#define FIGURE(value) dawn_scenario_figure_of(value).text

/* ---- required ---- */

static void require_keys(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot)
{
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);
    for (size_t i = 0; i < count; i++) {
        if (keys[i].usual != NULL || strcmp(keys[i].section, spot.section->name) != 0 ||
            dawn_scenario_find_origin(reading->scenario, spot, &keys[i]) != NULL)
            continue;
        blame(reading, DAWN_ERROR, spot, NULL, keys[i].meaning, "'%s' is missing in %s",
              keys[i].name, dawn_scenario_title_of(reading->scenario, spot).text);
    }
}

static void require_section(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot)
{
    char needed[200] = "";
    size_t used = 0;
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);
    for (size_t i = 0; i < count && used < sizeof needed - 60; i++)
        if (keys[i].usual == NULL && strcmp(keys[i].section, spot.section->name) == 0)
            used += (size_t)snprintf(needed + used, sizeof needed - used, "%s%s",
                                     used == 0 ? "" : ", ", keys[i].name);
    blame(reading, DAWN_ERROR, spot, NULL, spot.section->meaning,
          "the section '%s' is missing; it must give %s", spot.section->name, needed);
}

static void require_items(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot)
{
    size_t count = dawn_scenario_item_count_const(reading->scenario, spot);
    for (spot.item = 0; spot.item < count; spot.item++)
        require_keys(reading, spot);
}

static void require_layers(struct dawn_scenario_reading *reading)
{
    struct dawn_scenario_spot spot = spot_of("walls.layers", 0);
    for (spot.item = 0; spot.item < reading->scenario->wall_count; spot.item++) {
        size_t count = dawn_scenario_item_count_const(reading->scenario, spot);
        if (count == 0)
            blame(reading, DAWN_ERROR, spot_of("walls", spot.item), NULL,
                  "list its layers from outside to inside under 'layers:'", "%s has no layers",
                  dawn_scenario_title_of(reading->scenario, spot_of("walls", spot.item)).text);
        for (spot.layer = 0; spot.layer < count; spot.layer++)
            require_keys(reading, spot);
    }
}

static void require_in(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot)
{
    switch (spot.section->form) {
    case DAWN_SCENARIO_LIST:
        require_items(reading, spot);
        break;
    case DAWN_SCENARIO_SUBLIST:
        require_layers(reading);
        break;
    case DAWN_SCENARIO_REQUIRED:
        if (was_meant(reading, spot.section->name))
            break;
        if (dawn_scenario_find_origin(reading->scenario, spot, NULL) == NULL)
            require_section(reading, spot);
        else
            require_keys(reading, spot);
        break;
    default:
        if (dawn_scenario_is_present(reading->scenario, spot))
            require_keys(reading, spot);
        break;
    }
}

void dawn_scenario_check_required(struct dawn_scenario_reading *reading)
{
    size_t count = 0;
    const struct dawn_scenario_section *sections = dawn_scenario_sections(&count);
    for (size_t i = 0; i < count; i++)
        require_in(reading, (struct dawn_scenario_spot){&sections[i], 0, 0});
}

/* ---- names ---- */

static void name_item(struct dawn_scenario *scenario, struct dawn_scenario_spot spot, size_t index)
{
    const struct dawn_key *key = dawn_scenario_key_named(spot.section->name, "name");
    char *name = (char *)dawn_scenario_at(scenario, spot) + key->offset;
    if (name[0] == '\0' && key->usual != NULL)
        (void)snprintf(name, key->size, "%s %zu", dawn_scenario_section_word(spot.section),
                       index + 1);
}

void dawn_scenario_name_items(struct dawn_scenario *scenario)
{
    static const char *const lists[] = {"openings", "glazing", "walls", "ducts",
                                        "barrels",  "covers",  "snow"};
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        struct dawn_scenario_spot spot = spot_of(lists[i], 0);
        size_t count = dawn_scenario_item_count_const(scenario, spot);
        for (spot.item = 0; spot.item < count; spot.item++)
            name_item(scenario, spot, spot.item);
    }
    struct dawn_scenario_spot spot = spot_of("walls.layers", 0);
    for (spot.item = 0; spot.item < scenario->wall_count; spot.item++)
        for (spot.layer = 0; spot.layer < scenario->walls[spot.item].layer_count; spot.layer++)
            name_item(scenario, spot, spot.layer);
}

static const char *name_at(const struct dawn_scenario *scenario, struct dawn_scenario_spot spot)
{
    const struct dawn_key *key = dawn_scenario_key_named(spot.section->name, "name");
    return (const char *)dawn_scenario_at_const(scenario, spot) + key->offset;
}

static void check_names(struct dawn_scenario_reading *reading, const char *list)
{
    struct dawn_scenario_spot first = spot_of(list, 0);
    struct dawn_scenario_spot second = first;
    size_t count = dawn_scenario_item_count_const(reading->scenario, first);
    for (second.item = 1; second.item < count; second.item++) {
        const char *name = name_at(reading->scenario, second);
        for (first.item = 0; first.item < second.item; first.item++) {
            if (name[0] == '\0' || !dawn_text_same(name, name_at(reading->scenario, first)))
                continue;
            blame(reading, DAWN_ERROR, second, "name", "give each its own name",
                  "two items of '%s' are called '%s'", list, name);
            break;
        }
    }
}

/* ---- values left to the program ---- */

double dawn_scenario_floor_m2(const struct dawn_scenario *scenario)
{
    const struct dawn_house *house = &scenario->house;
    return isnan(house->floor_area_m2) ? house->length_m * house->width_m : house->floor_area_m2;
}

double dawn_scenario_air_m3(const struct dawn_scenario *scenario)
{
    const struct dawn_house *house = &scenario->house;
    return isnan(house->air_volume_m3) ? dawn_scenario_floor_m2(scenario) * house->height_m
                                       : house->air_volume_m3;
}

bool dawn_scenario_is_clocked(const struct dawn_opening *opening)
{
    return opening->from_s > 0 || opening->until_s < 86400;
}

double dawn_scenario_air_changes_per_h(const struct dawn_scenario *scenario)
{
    const struct dawn_house *house = &scenario->house;
    size_t count = 0;
    const struct dawn_airflow_class *classes = dawn_airflow_classes(&count);
    if (!isnan(house->air_changes_per_h))
        return house->air_changes_per_h;
    if (!isnan(house->fan_test_per_h))
        return dawn_airflow_changes_of_fan_test(house->fan_test_per_h);
    return house->leakage >= 0 && (size_t)house->leakage < count
               ? classes[house->leakage].changes_per_h
               : NAN;
}

double dawn_scenario_rock_m3(const struct dawn_scenario *scenario)
{
    const struct dawn_rock *rock = &scenario->rock;
    return isnan(rock->volume_m3) ? rock->mass_kg / (rock->density_kg_m3 * (1 - rock->void_share))
                                  : rock->volume_m3;
}

double dawn_scenario_rock_kg(const struct dawn_scenario *scenario)
{
    const struct dawn_rock *rock = &scenario->rock;
    return isnan(rock->mass_kg) ? rock->volume_m3 * rock->density_kg_m3 * (1 - rock->void_share)
                                : rock->mass_kg;
}

bool dawn_scenario_is_floor(const struct dawn_wall *wall)
{
    return wall->slope_deg > 120.0;
}

double dawn_scenario_built_floor_m2(const struct dawn_scenario *scenario)
{
    double area_m2 = 0;
    for (size_t i = 0; i < scenario->wall_count; i++)
        if (dawn_scenario_is_floor(&scenario->walls[i]))
            area_m2 += scenario->walls[i].area_m2;
    return area_m2;
}

/* ---- the house and its surroundings ---- */

static void check_site(struct dawn_scenario_reading *reading)
{
    const struct dawn_site *site = &reading->scenario->site;
    double sun_offset_h = site->longitude_deg / 15;
    /* China keeps one clock over 60 degrees of longitude: up to three hours off are real. */
    if (fabs(site->utc_offset_h - sun_offset_h) > 3)
        blame(
            reading, DAWN_WARNING, spot_of("site", 0), "utc_offset",
            "west of Greenwich both longitude and utc_offset are a minus",
            "utc_offset %+.4g h does not fit longitude %.4g deg, where the sun keeps about %+.0f h",
            site->utc_offset_h, site->longitude_deg, sun_offset_h);
}

static void check_floor(struct dawn_scenario_reading *reading)
{
    const struct dawn_house *house = &reading->scenario->house;
    double outline_m2 = house->length_m * house->width_m;
    if (house->floor_area_m2 > 1.05 * outline_m2)
        blame(reading, DAWN_ERROR, spot_of("house", 0), "floor_area",
              "leave floor_area out, or correct length or width",
              "floor_area is %s m2, but length x width is only %s m2", FIGURE(house->floor_area_m2),
              FIGURE(outline_m2));
    else if (house->floor_area_m2 < 0.6 * outline_m2)
        blame(reading, DAWN_WARNING, spot_of("house", 0), "floor_area",
              "check floor_area, length and width",
              "floor_area is %s m2, far less than length x width, %s m2",
              FIGURE(house->floor_area_m2), FIGURE(outline_m2));
}

static void check_air(struct dawn_scenario_reading *reading)
{
    const struct dawn_house *house = &reading->scenario->house;
    double block_m3 = dawn_scenario_floor_m2(reading->scenario) * house->height_m;
    if (house->air_volume_m3 > 1.4 * block_m3 || house->air_volume_m3 < 0.6 * block_m3)
        blame(reading, DAWN_WARNING, spot_of("house", 0), "air_volume",
              "height is the mean height of the air space, halfway between eave and ridge",
              "air_volume is %s m3, but floor x height is %s m3", FIGURE(house->air_volume_m3),
              FIGURE(block_m3));
}

/* Floors close nothing in that the soil would not. */
/* Told by --set, a way to tell the leaks lies over what the file says in another way. */
static bool told_by_set(const struct dawn_scenario_reading *reading, const char *name)
{
    const struct dawn_scenario_origin *origin = dawn_scenario_find_origin(
        reading->scenario, spot_of("house", 0), dawn_scenario_key_named("house", name));
    return origin != NULL && origin->line == 0;
}

/* The leaks are told once: a word, a rate or a measurement. */
static void check_leaks(struct dawn_scenario_reading *reading)
{
    static const char *const ways[] = {"leakage", "air_changes", "fan_test"};
    struct dawn_house *house = &reading->scenario->house;
    double *const rates[] = {NULL, &house->air_changes_per_h, &house->fan_test_per_h};
    bool set = told_by_set(reading, ways[0]) || told_by_set(reading, ways[1]) ||
               told_by_set(reading, ways[2]);
    const char *told = NULL;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        if (set && !told_by_set(reading, ways[i])) {
            if (rates[i] != NULL)
                *rates[i] = NAN;
            continue;
        }
        if (!was_given(reading, "house", ways[i]) || (rates[i] != NULL && isnan(*rates[i])))
            continue;
        if (told != NULL)
            blame(reading, DAWN_ERROR, spot_of("house", 0), ways[i],
                  "keep the one you trust more and leave the other out",
                  "both %s and %s tell how leaky the house is", told, ways[i]);
        told = ways[i];
    }
}

static double wall_area_m2(const struct dawn_scenario *scenario)
{
    double area_m2 = -dawn_scenario_built_floor_m2(scenario);
    for (size_t i = 0; i < scenario->wall_count; i++)
        area_m2 += scenario->walls[i].area_m2;
    return area_m2;
}

static void check_faces(struct dawn_scenario_reading *reading)
{
    const struct dawn_scenario *scenario = reading->scenario;
    double floor_m2 = dawn_scenario_floor_m2(scenario);
    double glazing_m2 = 0;
    struct dawn_scenario_spot first = spot_of("glazing", 0);
    if (scenario->glazing_count == 0 && was_meant(reading, "glazing"))
        return;
    if (scenario->glazing_count == 0) {
        blame(reading, DAWN_ERROR, first, NULL, "list its glazed faces under 'glazing:'",
              "the house has no glazing at all, so no light comes in");
        return;
    }
    for (size_t i = 0; i < scenario->glazing_count; i++)
        glazing_m2 += scenario->glazing[i].area_m2;
    if (glazing_m2 < 0.25 * floor_m2 || glazing_m2 > 5 * floor_m2)
        blame(reading, DAWN_WARNING, first, "area", "check the areas of the faces and of the floor",
              "all glazing is %s m2 together, over a floor of %s m2", FIGURE(glazing_m2),
              FIGURE(floor_m2));
    double shell_m2 = glazing_m2 + wall_area_m2(scenario);
    if (shell_m2 < floor_m2)
        blame(reading, DAWN_WARNING, first, NULL, "is a roof or a wall missing?",
              "glazing and walls are %s m2 together, too little to close in a floor of %s m2",
              FIGURE(shell_m2), FIGURE(floor_m2));
}

static void check_built_floor(struct dawn_scenario_reading *reading)
{
    const struct dawn_scenario *scenario = reading->scenario;
    double floor_m2 = dawn_scenario_floor_m2(scenario);
    double built_m2 = dawn_scenario_built_floor_m2(scenario);
    double bed_m2 = scenario->bed.present ? scenario->bed.area_m2 : 0;
    if (built_m2 <= 0 || !(built_m2 + bed_m2 > 1.02 * floor_m2))
        return;
    for (size_t i = 0; i < scenario->wall_count; i++) {
        if (!dawn_scenario_is_floor(&scenario->walls[i]))
            continue;
        blame(reading, DAWN_ERROR, spot_of("walls", i), "area",
              "a floor is a wall with slope 180 deg; check the areas",
              "built floors and bed, %s m2 together, are larger than the floor, %s m2",
              FIGURE(built_m2 + bed_m2), FIGURE(floor_m2));
        return;
    }
}

static void check_outdoor_fan(struct dawn_scenario_reading *reading)
{
    const struct dawn_outdoor_fan *fan = &reading->scenario->outdoor_fan;
    if (fan->present && fan->from_s == fan->until_s)
        blame(reading, DAWN_ERROR, spot_of("outdoor_fan", 0), "until",
              "for a fan that never stops write 'from: 00:00' and 'until: 24:00'",
              "the outdoor fan starts and stops at the same time of day");
}

/* A gap lies between skins: with one there is none, with more there must be some. */
static void check_skins(struct dawn_scenario_reading *reading, size_t item)
{
    const struct dawn_glazing *pane = &reading->scenario->glazing[item];
    if (isnan(pane->skins) || isnan(pane->gap_resistance_m2K_W))
        return;
    if ((pane->skins > 1) != (pane->gap_resistance_m2K_W > 0))
        blame(reading, DAWN_ERROR, spot_of("glazing", item), "gap_resistance",
              "leave gap_resistance out: the type's or that of a closed layer of air is taken",
              "skins %s and gap_resistance %s m2K/W do not go together", FIGURE(pane->skins),
              FIGURE(pane->gap_resistance_m2K_W));
}

static void check_angles(struct dawn_scenario_reading *reading, size_t item)
{
    const struct dawn_glazing *pane = &reading->scenario->glazing[item];
    struct dawn_glazing_angles angles;
    const char *wrong = dawn_scenario_angles_of(pane->by_angle, &angles);
    if (wrong != NULL)
        blame(reading, DAWN_ERROR, spot_of("glazing", item), "transmittance_by_angle",
              "pairs of angle and share of light, with commas between",
              "transmittance_by_angle '%s': %s", dawn_scenario_quote_of(pane->by_angle).text,
              wrong);
    if (pane->by_angle[0] != '\0' && !isnan(pane->solar_transmittance))
        blame(reading, DAWN_ERROR, spot_of("glazing", item), "solar_transmittance",
              "leave it out: the table has it, at 0 deg",
              "solar_transmittance and transmittance_by_angle tell the same");
}

static void check_pane(struct dawn_scenario_reading *reading, size_t item)
{
    size_t count = 0;
    const struct dawn_glazing_type *types = dawn_scenario_glazing_types(&count);
    const struct dawn_glazing *pane = &reading->scenario->glazing[item];
    if (pane->type < 0 || (size_t)pane->type >= count)
        return;
    const struct dawn_glazing_type *type = &types[pane->type];
    double through = isnan(pane->longwave_transmittance) ? type->longwave_transmittance
                                                         : pane->longwave_transmittance;
    double emitted = isnan(pane->emissivity) ? type->emissivity : pane->emissivity;
    if (through + emitted > 1.0 + 1e-9)
        blame(reading, DAWN_ERROR, spot_of("glazing", item),
              isnan(pane->emissivity) ? "longwave_transmittance" : "emissivity",
              "what goes through cannot be radiated again: their sum is at most 1",
              "longwave_transmittance %s and emissivity %s are more than 1 together",
              FIGURE(through), FIGURE(emitted));
    check_skins(reading, item);
    check_angles(reading, item);
    if (type->skins == 1 && isnan(pane->skins) && pane->gap_resistance_m2K_W > 0)
        blame(reading, DAWN_WARNING, spot_of("glazing", item), "gap_resistance",
              "say skins: 2, or leave gap_resistance out",
              "%s is one skin, yet a gap is given; it is reckoned as two skins", type->word);
}

static void check_opening_by_warmth(struct dawn_scenario_reading *reading, size_t item)
{
    const struct dawn_scenario *scenario = reading->scenario;
    const struct dawn_opening *opening = &scenario->openings[item];
    struct dawn_scenario_spot spot = spot_of("openings", item);
    if (opening->fully_open_at_C <= opening->opens_at_C)
        blame(reading, DAWN_ERROR, spot, "fully_open_at",
              "a wax opener needs some 8 K from shut to fully open",
              "fully_open_at %s C must be warmer than opens_at %s C",
              FIGURE(opening->fully_open_at_C), FIGURE(opening->opens_at_C));
    bool senses_air =
        scenario->fan.senses == DAWN_SENSE_AIR || scenario->fan.senses == DAWN_SENSE_RIDGE;
    if (scenario->fan.present && senses_air && opening->opens_at_C < scenario->fan.on_C)
        blame(reading, DAWN_WARNING, spot, "opens_at", "let it open some 3 K above the fan's on_at",
              "%s opens at %s C and lets out heat before the fan stores it from %s C",
              dawn_scenario_title_of(scenario, spot).text, FIGURE(opening->opens_at_C),
              FIGURE(scenario->fan.on_C));
}

/* How an opening is opened; what was spoilt has been complained of. */
static void check_opening(struct dawn_scenario_reading *reading, size_t item)
{
    const struct dawn_opening *opening = &reading->scenario->openings[item];
    struct dawn_scenario_spot spot = spot_of("openings", item);
    check_opening_by_warmth(reading, item);
    if (opening->from_s == opening->until_s)
        blame(reading, DAWN_ERROR, spot, "until",
              "for all day leave both out; for never leave the opening out",
              "it may open and must be shut at the same time of day");
    bool by_clock = isnan(opening->opens_at_C) && !was_spoilt_at(reading, spot, "opens_at");
    if (by_clock && !isnan(opening->fully_open_at_C))
        blame(reading, DAWN_ERROR, spot, "fully_open_at", "write opens_at as well",
              "fully_open_at needs opens_at, the temperature at which it begins to open");
    else if (by_clock && !dawn_scenario_is_clocked(opening) && opening->least_open == 0.0)
        blame(reading, DAWN_ERROR, spot, NULL,
              "write opens_at: 30 C, or from: 10:00 and until: 16:00, or how far it always stands "
              "open as least_open",
              "nothing ever opens %s", dawn_scenario_title_of(reading->scenario, spot).text);
}

/* ---- what stands and lies in the house ---- */

/* A 208 L drum stands on 0.572 m across, 0.257 m2 (from memory); others are taken as alike in
 * shape. */
double dawn_scenario_barrel_stand_m2(double volume_m3)
{
    return 0.257 * pow(volume_m3 / 0.208, 2.0 / 3.0);
}

double dawn_scenario_barrels_m2(const struct dawn_scenario *scenario)
{
    double area_m2 = 0;
    for (size_t i = 0; i < scenario->barrels_count; i++)
        area_m2 += scenario->barrels[i].count *
                   dawn_scenario_barrel_stand_m2(scenario->barrels[i].volume_m3);
    return area_m2;
}

static void check_room(struct dawn_scenario_reading *reading)
{
    const struct dawn_scenario *scenario = reading->scenario;
    double floor_m2 = dawn_scenario_floor_m2(scenario);
    double bed_m2 = scenario->bed.present ? scenario->bed.area_m2 : 0;
    double trays_m2 = scenario->trays.present ? scenario->trays.area_m2 : 0;
    bool on_bed = scenario->trays.present && scenario->trays.stand_on == DAWN_ON_BED;
    if (bed_m2 > floor_m2)
        blame(reading, DAWN_ERROR, spot_of("bed", 0), "area", "check the areas",
              "the bed, %s m2, is larger than the floor, %s m2", FIGURE(bed_m2), FIGURE(floor_m2));
    else if (on_bed && scenario->bed.present && trays_m2 > bed_m2)
        blame(reading, DAWN_ERROR, spot_of("trays", 0), "area",
              "trays on the bed cannot cover more than the bed",
              "the trays, %s m2, are larger than the bed they stand on, %s m2", FIGURE(trays_m2),
              FIGURE(bed_m2));
    else if (!on_bed && trays_m2 > floor_m2)
        blame(reading, DAWN_ERROR, spot_of("trays", 0), "area", "check the areas",
              "the trays, %s m2, are larger than the floor, %s m2", FIGURE(trays_m2),
              FIGURE(floor_m2));
    else if (!on_bed && bed_m2 + trays_m2 > floor_m2)
        blame(reading, DAWN_WARNING, spot_of("trays", 0), "area",
              "fine for benches above the bed; trays that stand on the bed have 'stand_on: bed'",
              "bed and trays, %s m2 together, are larger than the floor, %s m2",
              FIGURE(bed_m2 + trays_m2), FIGURE(floor_m2));
}

static void check_barrels(struct dawn_scenario_reading *reading)
{
    const struct dawn_scenario *scenario = reading->scenario;
    double floor_m2 = dawn_scenario_floor_m2(scenario);
    double bed_m2 = scenario->bed.present ? scenario->bed.area_m2 : 0;
    double barrels_m2 = dawn_scenario_barrels_m2(scenario);
    if (barrels_m2 > floor_m2)
        blame(reading, DAWN_ERROR, spot_of("barrels", 0), "count",
              "check how many there are and what one holds",
              "the barrels need %s m2 to stand on, more than the floor, %s m2", FIGURE(barrels_m2),
              FIGURE(floor_m2));
    else if (barrels_m2 + bed_m2 > floor_m2)
        blame(reading, DAWN_WARNING, spot_of("barrels", 0), "count",
              "do they stand in the bed, or on each other?",
              "the barrels need %s m2 to stand on, but beside the bed only %s m2 are left",
              FIGURE(barrels_m2), FIGURE(floor_m2 - bed_m2));
}

static void check_water(struct dawn_scenario_reading *reading, const char *section, double heat,
                        double share)
{
    double water = share * 4.186e6; /* J/(m3 K): water's own, 4186 J/(kg K) */
    if (heat < water)
        blame(reading, DAWN_ERROR, spot_of(section, 0), "heat_capacity",
              "heat_capacity includes the water: raise it, or lower water_share",
              "heat_capacity %s MJ/m3K is less than its water alone holds, %s MJ/m3K",
              FIGURE(heat / 1e6), FIGURE(water / 1e6));
}

static void check_soils(struct dawn_scenario_reading *reading)
{
    const struct dawn_scenario *scenario = reading->scenario;
    check_water(reading, "ground", scenario->ground.heat_J_m3K, scenario->ground.water_share);
    if (scenario->bed.present)
        check_water(reading, "bed", scenario->bed.heat_J_m3K, scenario->bed.water_share);
    if (scenario->trays.present)
        check_water(reading, "trays", scenario->trays.heat_J_m3K, scenario->trays.water_share);
}

static void check_trays(struct dawn_scenario_reading *reading)
{
    const struct dawn_scenario *scenario = reading->scenario;
    if (scenario->trays.present && scenario->trays.stand_on == DAWN_ON_BED &&
        !scenario->bed.present && !was_meant(reading, "bed"))
        blame(reading, DAWN_ERROR, spot_of("trays", 0), "stand_on",
              "write a section 'bed:', or 'stand_on: bench'",
              "the trays stand on the bed, but there is no section 'bed'");
}

/* ---- rock and fan ---- */

/* ---- covers ---- */

static void check_cover_place(struct dawn_scenario_reading *reading, size_t item)
{
    const struct dawn_scenario *scenario = reading->scenario;
    const struct dawn_cover *cover = &scenario->covers[item];
    struct dawn_scenario_spot spot = spot_of("covers", item);
    double usual_m2 = dawn_scenario_floor_m2(scenario);
    if (cover->over == DAWN_OVER_TRAYS && !scenario->trays.present) {
        if (!was_meant(reading, "trays"))
            blame(reading, DAWN_ERROR, spot, "over", "write a section 'trays:', or 'over: bed'",
                  "%s hangs over the trays, but there are none",
                  dawn_scenario_title_of(reading->scenario, spot).text);
        return;
    }
    if (cover->over == DAWN_OVER_BED && !scenario->bed.present) {
        if (!was_meant(reading, "bed"))
            blame(reading, DAWN_ERROR, spot, "over", "write a section 'bed:', or 'over: trays'",
                  "%s hangs over the bed, but there is none",
                  dawn_scenario_title_of(reading->scenario, spot).text);
        return;
    }
    if (cover->over == DAWN_OVER_TRAYS)
        usual_m2 = scenario->trays.area_m2;
    else if (cover->over == DAWN_OVER_BED)
        usual_m2 = scenario->bed.area_m2;
    if (cover->area_m2 < 0.8 * usual_m2)
        blame(reading, DAWN_WARNING, spot, "area",
              "leave 'area' out, and it is as large as what it covers",
              "%s of %s m2 is smaller than the %s m2 below it; all of them are taken as "
              "covered",
              dawn_scenario_title_of(reading->scenario, spot).text, FIGURE(cover->area_m2),
              FIGURE(usual_m2));
}

static void check_cover_times(struct dawn_scenario_reading *reading, size_t item)
{
    const struct dawn_cover *cover = &reading->scenario->covers[item];
    struct dawn_scenario_spot spot = spot_of("covers", item);
    if (cover->put_on_s == cover->take_off_s)
        blame(reading, DAWN_ERROR, spot, "take_off_at", "give two times, such as 18:00 and 08:00",
              "%s would be taken off when it is put on",
              dawn_scenario_title_of(reading->scenario, spot).text);
    if (!isnan(cover->put_on_s) && fabs(cover->after_sunset_s) > 0)
        blame(reading, DAWN_WARNING, spot, "after_sunset", "drop one of the two",
              "put_on_at gives the time; after_sunset counts for nothing");
    if (!isnan(cover->take_off_s) && fabs(cover->after_sunrise_s) > 0)
        blame(reading, DAWN_WARNING, spot, "after_sunrise", "drop one of the two",
              "take_off_at gives the time; after_sunrise counts for nothing");
}

static void check_cover_layers(struct dawn_scenario_reading *reading)
{
    static const char *const words[] = {"trays", "bed", "house"};
    static const int most[] = {2, 2, 1};
    int layers[3] = {0};
    for (size_t i = 0; i < reading->scenario->cover_count; i++) {
        int over = reading->scenario->covers[i].over;
        if (over < 0 || over > 2 || ++layers[over] != most[over] + 1)
            continue;
        blame(reading, DAWN_ERROR, spot_of("covers", i), "over",
              "two layers do nearly what three would", "more than %s over the %s",
              most[over] == 1 ? "one cover" : "two covers", words[over]);
    }
}

static void check_covers(struct dawn_scenario_reading *reading)
{
    for (size_t i = 0; i < reading->scenario->cover_count; i++) {
        check_cover_place(reading, i);
        check_cover_times(reading, i);
    }
    check_cover_layers(reading);
}

static void check_rock_amount(struct dawn_scenario_reading *reading)
{
    const struct dawn_rock *rock = &reading->scenario->rock;
    struct dawn_scenario_spot spot = spot_of("rock", 0);
    bool nothing = isnan(rock->volume_m3) && isnan(rock->mass_kg);
    if (nothing && !was_spoilt(reading, "rock", "volume") && !was_spoilt(reading, "rock", "mass")) {
        blame(reading, DAWN_ERROR, spot, NULL, "the invoice gives one of them",
              "rock needs its volume or its mass");
        return;
    }
    double from_volume_kg = rock->volume_m3 * rock->density_kg_m3 * (1 - rock->void_share);
    if (fabs(from_volume_kg - rock->mass_kg) > 0.1 * rock->mass_kg)
        blame(reading, DAWN_ERROR, spot, "mass",
              "give only one of the two, or correct density or void_share; mind which ton it is",
              "mass %s t contradicts volume %s m3, which weighs %s t with these gaps",
              FIGURE(rock->mass_kg / 1000), FIGURE(rock->volume_m3), FIGURE(from_volume_kg / 1000));
}

static void check_rock_shape(struct dawn_scenario_reading *reading)
{
    const struct dawn_scenario *scenario = reading->scenario;
    const struct dawn_rock *rock = &scenario->rock;
    struct dawn_scenario_spot spot = spot_of("rock", 0);
    double volume_m3 = dawn_scenario_rock_m3(scenario);
    double deep_m = volume_m3 / scenario->bed.area_m2;
    const char *amount = isnan(rock->volume_m3) ? "mass" : "volume";
    if (scenario->bed.present && (deep_m < 0.1 || deep_m > 1.6))
        blame(reading, DAWN_WARNING, spot, amount, "mostly it is 0.3 to 1 m deep",
              "%s m3 of rock under a bed of %s m2 lie %s m deep", FIGURE(volume_m3),
              FIGURE(scenario->bed.area_m2), FIGURE(deep_m));
    if (!scenario->bed.present && !was_given(reading, "rock", "path_length") &&
        !was_given(reading, "rock", "face_area"))
        blame(reading, DAWN_ERROR, spot, NULL,
              "path_length is how far the air goes through it, face_area its cross-section",
              "rock without a bed needs path_length or face_area");
    if (fabs(rock->path_m * rock->face_m2 - volume_m3) > 0.25 * volume_m3)
        blame(reading, DAWN_WARNING, spot, "face_area",
              "check them; one of the two may be left out",
              "path_length x face_area is %s m3, but there are %s m3 of rock",
              FIGURE(rock->path_m * rock->face_m2), FIGURE(volume_m3));
    if (rock->stone_m > 0.25 * rock->path_m)
        blame(reading, DAWN_WARNING, spot, "stone_size", "check the number and its unit",
              "stones of %s mm are very large for a path of only %s m",
              FIGURE(rock->stone_m * 1000), FIGURE(rock->path_m));
}

static void check_rock_use(struct dawn_scenario_reading *reading)
{
    if (!reading->scenario->fan.present && !was_meant(reading, "fan"))
        blame(reading, DAWN_WARNING, spot_of("rock", 0), NULL,
              "write a section 'fan:' with its flow through the rock and its power",
              "rock without a fan stores little: the house's warmth hardly gets into it");
}

static void check_fan_switching(struct dawn_scenario_reading *reading)
{
    const struct dawn_fan *fan = &reading->scenario->fan;
    struct dawn_scenario_spot spot = spot_of("fan", 0);
    if (fan->off_C > fan->on_C - 0.5 + 1e-9)
        blame(reading, DAWN_ERROR, spot, "off_at", "2 to 3 K apart is usual",
              "off_at %s C must be at least 0.5 K below on_at %s C, or the fan never rests",
              FIGURE(fan->off_C), FIGURE(fan->on_C));
    if (fan->stop_margin_K >= fan->start_margin_K)
        blame(reading, DAWN_ERROR, spot, "stop_margin", "start at 5 K and stop at 2 K is usual",
              "stop_margin %s K must be smaller than start_margin %s K", FIGURE(fan->stop_margin_K),
              FIGURE(fan->start_margin_K));
}

/* One of the two temperatures of the night run is there, the other is not. */
static void blame_half_night(struct dawn_scenario_reading *reading)
{
    const struct dawn_fan *fan = &reading->scenario->fan;
    bool on = !isnan(fan->night_on_C);
    const char *given = on ? "night_on_at" : "night_off_at";
    const char *open = on ? "night_off_at" : "night_on_at";
    const struct dawn_scenario_origin *origin = dawn_scenario_find_origin(
        reading->scenario, spot_of("fan", 0), dawn_scenario_key_named("fan", open));
    if (origin == NULL || origin->fate == DAWN_SCENARIO_GIVEN)
        blame(reading, DAWN_ERROR, spot_of("fan", 0), given,
              "set both to never, or both to a temperature, such as 6 C and 8 C",
              "%s is %s C, but %s is never; they belong together", given,
              FIGURE(on ? fan->night_on_C : fan->night_off_C), open);
}

static void check_fan_way(struct dawn_scenario_reading *reading)
{
    const struct dawn_fan *fan = &reading->scenario->fan;
    struct dawn_scenario_spot spot = spot_of("fan", 0);
    if (fan->night_way != DAWN_NIGHT_REVERSED)
        return;
    if (isnan(fan->night_on_C))
        blame(reading, DAWN_WARNING, spot, "night_way", "give night_on_at and night_off_at as well",
              "night_way is reversed, but the fan never runs at night");
    else if (fan->senses == DAWN_SENSE_RIDGE)
        blame(reading, DAWN_WARNING, spot, "night_way",
              "let it sense the air at the benches (senses: air)",
              "night_way is reversed, so that the warm air comes out under the ridge, where the "
              "thermostat hangs and soon stops the fan");
}

static void check_fan_night(struct dawn_scenario_reading *reading)
{
    const struct dawn_fan *fan = &reading->scenario->fan;
    struct dawn_scenario_spot spot = spot_of("fan", 0);
    if (isnan(fan->night_on_C) != isnan(fan->night_off_C))
        blame_half_night(reading);
    if (isnan(fan->night_on_C) || isnan(fan->night_off_C))
        return;
    if (fan->night_off_C < fan->night_on_C + 0.5 - 1e-9)
        blame(reading, DAWN_ERROR, spot, "night_off_at", "2 K above night_on_at is usual",
              "night_off_at %s C must be at least 0.5 K above night_on_at %s C",
              FIGURE(fan->night_off_C), FIGURE(fan->night_on_C));
    if (fan->night_off_C > fan->off_C)
        blame(reading, DAWN_ERROR, spot, "night_off_at", "let the night run end well below off_at",
              "night_off_at %s C lies above off_at %s C, so that the fan would never rest",
              FIGURE(fan->night_off_C), FIGURE(fan->off_C));
}

static void check_fan_place(struct dawn_scenario_reading *reading)
{
    const struct dawn_scenario *scenario = reading->scenario;
    const struct dawn_fan *fan = &scenario->fan;
    struct dawn_scenario_spot spot = spot_of("fan", 0);
    double watts_per_m3_h = fan->power_W / (fan->flow_m3_s * 3600);
    if (!scenario->rock.present && !was_meant(reading, "rock"))
        blame(reading, DAWN_ERROR, spot, NULL, "write a section 'rock:', or leave out 'fan:'",
              "the fan blows through the rock, but there is no section 'rock'");
    if (fan->senses == DAWN_SENSE_TRAYS && !scenario->trays.present && !was_meant(reading, "trays"))
        blame(reading, DAWN_ERROR, spot, "senses", "write a section 'trays:', or 'senses: air'",
              "the fan senses the trays, but there is no section 'trays'");
    if (fan->senses == DAWN_SENSE_BED && !scenario->bed.present && !was_meant(reading, "bed"))
        blame(reading, DAWN_ERROR, spot, "senses", "write a section 'bed:', or 'senses: air'",
              "the fan senses the bed, but there is no section 'bed'");
    bool in_sun = fan->sensor_sun > 0;
    if (in_sun && (fan->senses == DAWN_SENSE_BED || fan->sensor_lag_s <= 0))
        blame(reading, DAWN_ERROR, spot, "sensor_sun",
              "leave sensor_sun out, or let the fan sense the air and give sensor_lag",
              fan->senses == DAWN_SENSE_BED ? "a bulb in the bed's soil stands in no sun"
                                            : "a thermostat without sensor_lag has no bulb that "
                                              "the sun could warm");
    if (watts_per_m3_h < 0.015 || watts_per_m3_h > 0.8)
        blame(reading, DAWN_WARNING, spot, "power", "0.05 to 0.2 W for each m3/h is usual",
              "%s W for %s m3/h is unusual; check flow and power", FIGURE(fan->power_W),
              FIGURE(fan->flow_m3_s * 3600));
}

/* ---- the fan's curve ---- */

static bool is_missing(const struct dawn_scenario_reading *reading, const char *name, double value)
{
    return isnan(value) && !was_spoilt(reading, "fan", name);
}

static void check_curve_pair(struct dawn_scenario_reading *reading, const char *flow_name,
                             double flow_m3_s, const char *pressure_name, double pressure_Pa,
                             const char *hint)
{
    bool no_flow = is_missing(reading, flow_name, flow_m3_s);
    bool no_pressure = is_missing(reading, pressure_name, pressure_Pa);
    if (no_flow == no_pressure)
        return;
    blame(reading, DAWN_ERROR, spot_of("fan", 0), no_flow ? pressure_name : flow_name, hint,
          "%s and %s belong together; %s is missing", flow_name, pressure_name,
          no_flow ? flow_name : pressure_name);
}

static void check_curve_middle(struct dawn_scenario_reading *reading)
{
    const struct dawn_fan *fan = &reading->scenario->fan;
    struct dawn_scenario_spot spot = spot_of("fan", 0);
    check_curve_pair(reading, "middle_flow", fan->middle_m3_s, "middle_pressure", fan->middle_Pa,
                     "read both off the same point of the maker's curve, or leave both out");
    bool given = !isnan(fan->middle_m3_s) || !isnan(fan->middle_Pa);
    if (given && !isnan(fan->flow_m3_s) && is_missing(reading, "free_air", fan->free_air_m3_s) &&
        is_missing(reading, "greatest_pressure", fan->greatest_Pa))
        blame(reading, DAWN_ERROR, spot,
              isnan(fan->middle_m3_s) ? "middle_pressure" : "middle_flow",
              "add free_air and greatest_pressure, the curve's ends",
              "a point in the middle alone makes no curve");
    if (fan->middle_m3_s >= fan->free_air_m3_s)
        blame(reading, DAWN_ERROR, spot, "middle_flow", "look at the flows and their units",
              "middle_flow %s m3/h must be less than free_air %s m3/h",
              FIGURE(fan->middle_m3_s * 3600), FIGURE(fan->free_air_m3_s * 3600));
    if (fan->middle_Pa >= fan->greatest_Pa)
        blame(reading, DAWN_ERROR, spot, "middle_pressure",
              "take a point right of any hump in the maker's curve; look at the units",
              "middle_pressure %s Pa must be less than greatest_pressure %s Pa",
              FIGURE(fan->middle_Pa), FIGURE(fan->greatest_Pa));
}

/* What a fan gives the air comes out of its socket. A curve p (1 - (Q/Qmost)^2) gives most where
 * Q = Qmost/sqrt(3): 2/(3 sqrt(3)) p Qmost. */
static void check_curve_power(struct dawn_scenario_reading *reading)
{
    const struct dawn_fan *fan = &reading->scenario->fan;
    bool middle = !isnan(fan->middle_m3_s) && !isnan(fan->middle_Pa);
    double air_W = middle ? fan->middle_m3_s * fan->middle_Pa
                          : 0.3849001794597505 * fan->free_air_m3_s * fan->greatest_Pa;
    if (air_W > fan->power_W)
        blame(reading, DAWN_WARNING, spot_of("fan", 0), "power",
              "fans of this size turn 10 to 40 % of it into moving air; look at the units",
              "by its curve the fan would give the air %s W and yet take only %s W", FIGURE(air_W),
              FIGURE(fan->power_W));
}

static void check_fan_flow(struct dawn_scenario_reading *reading)
{
    const struct dawn_fan *fan = &reading->scenario->fan;
    struct dawn_scenario_spot spot = spot_of("fan", 0);
    bool no_free_air = is_missing(reading, "free_air", fan->free_air_m3_s);
    bool no_pressure = is_missing(reading, "greatest_pressure", fan->greatest_Pa);
    bool curve = !no_free_air || !no_pressure;
    bool flow = !isnan(fan->flow_m3_s);
    if (flow && curve)
        blame(reading, DAWN_ERROR, spot, "flow",
              "drop 'flow' and it is worked out from the curve, or drop free_air and "
              "greatest_pressure and the flow is taken as it stands",
              "the fan has both a flow and a curve");
    if (!curve && is_missing(reading, "flow", fan->flow_m3_s))
        blame(reading, DAWN_ERROR, spot, NULL,
              "the label gives free_air (m3/h, cfm) and greatest_pressure (Pa, in wg); or write "
              "the flow you measured",
              "the fan needs its flow, or free_air and greatest_pressure");
    check_curve_pair(reading, "free_air", fan->free_air_m3_s, "greatest_pressure", fan->greatest_Pa,
                     "a fan's curve needs both its ends; the maker's sheet has them");
    check_curve_middle(reading);
    check_curve_power(reading);
}

void dawn_scenario_check_rules(struct dawn_scenario_reading *reading)
{
    static const char *const lists[] = {"openings", "glazing", "walls", "ducts", "barrels",
                                        "covers",   "snow",    "crops", "fans",  "actions"};
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++)
        check_names(reading, lists[i]);
    check_site(reading);
    check_floor(reading);
    check_air(reading);
    check_leaks(reading);
    check_faces(reading);
    for (size_t i = 0; i < reading->scenario->glazing_count; i++)
        check_pane(reading, i);
    check_built_floor(reading);
    check_outdoor_fan(reading);
    for (size_t i = 0; i < reading->scenario->opening_count; i++)
        check_opening(reading, i);
    check_room(reading);
    check_barrels(reading);
    check_soils(reading);
    check_trays(reading);
    check_covers(reading);
    dawn_scenario_check_snow(reading);
    dawn_scenario_check_offers(reading);
    dawn_scenario_check_evening(reading);
    if (reading->scenario->rock.present) {
        check_rock_amount(reading);
        check_rock_shape(reading);
        check_rock_use(reading);
    }
    if (reading->scenario->fan.present) {
        check_fan_switching(reading);
        check_fan_night(reading);
        check_fan_way(reading);
        check_fan_place(reading);
        check_fan_flow(reading);
    } else if (reading->scenario->duct_count > 0 && !was_meant(reading, "fan")) {
        blame(
            reading, DAWN_WARNING, spot_of("ducts", 0), NULL,
            "write a section 'fan:', or leave out 'ducts:'",
            "the ducts lead the fan's air, but there is no section 'fan'; they count for nothing");
    }
}
