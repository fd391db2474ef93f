/* A nursery as its grower describes it: read from a scenario file, every value in SI.
 *
 * The struct is open because it is only numbers; fill it with dawn_scenario_usual and the readers.
 * Angles are in degrees as growers and surveyors give them; temperatures are in degrees Celsius.
 * NAN in a field documented "NAN = ..." means the value was left to the program. */
#ifndef DAWNLOW_SCENARIO_H
#define DAWNLOW_SCENARIO_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "dawnlow/physics/glazing.h"
#include "dawnlow/problems.h"

enum {
    DAWN_NAME_SIZE = 64,
    DAWN_PATH_SIZE = 512,
    DAWN_GLAZING_MOST = 12,
    DAWN_WALLS_MOST = 12,
    DAWN_LAYERS_MOST = 8,
    DAWN_BARRELS_MOST = 8,
    DAWN_CROPS_MOST = 12,
    DAWN_DUCTS_MOST = 6,
    DAWN_COVERS_MOST = 4,
    DAWN_OPENINGS_MOST = 8,
    DAWN_SNOW_MOST = 8,
    DAWN_DAY_SIZE = 16,
    DAWN_FANS_MOST = 12,
    DAWN_ACTIONS_MOST = 12,
    DAWN_CURRENCY_SIZE = 16,
    DAWN_ANGLES_SIZE = 200
};

struct dawn_site {
    double latitude_deg, longitude_deg; /* north and east positive */
    double elevation_m;
    double utc_offset_h;       /* standard time of the grower's clock; all output uses it */
    double ground_C;           /* steady deep-ground temperature; NAN = estimate from the weather */
    double ground_reflectance; /* of the land around, 0..1 */
    double wind_share;         /* wind at the house / wind at the station, 0..1 */
    /* How much colder than the weather file's place it is here: always, so much more on a clear
     * calm night, and how far that may be off (one standard deviation). */
    double offset_K, offset_clear_K, offset_spread_K;
};

struct dawn_house {
    double length_m, width_m;
    double floor_area_m2;            /* NAN = length x width */
    double height_m;                 /* mean height of the air space */
    double air_volume_m3;            /* NAN = floor area x height */
    int leakage;                     /* index into dawn_airflow_classes */
    double air_changes_per_h;        /* leaks at 15 K and 2 m/s at the house; NAN = from leakage */
    double fan_test_per_h;           /* air changes at 50 Pa; NAN = not measured */
    double zones;                    /* 1 = one air volume; 2 = ridge and bench apart */
    double steady_air_changes_per_h; /* beside the leaks, whatever wind and warmth do */
    double heat_W;                   /* constant heat source inside: a lamp, a pump, an animal */
    double heat_radiant_share;       /* of it, radiated to the surfaces, not given to the air */
    double snow_steepest_deg;        /* steeper faces bear no snow */
    double snow_slides_above_C;      /* outdoor air at which it comes off; NAN = never */
};

/* A fan that blows outdoor air through the house, by the clock. */
struct dawn_outdoor_fan {
    bool present;
    double air_changes_per_h;
    double from_s, until_s; /* since midnight, site's standard time; until may lie before from */
};

enum dawn_opening_place { DAWN_OPENING_AT_RIDGE, DAWN_OPENING_AT_SIDE };

/* A vent, a window, a door. It opens in proportion to the air temperature as a wax-filled opener
 * does, within its hours; without a temperature its hours alone open it. */
struct dawn_opening {
    char name[DAWN_NAME_SIZE];
    double area_m2, height_m;
    int place;                          /* enum dawn_opening_place */
    double middle_m;                    /* of the opening, above the floor; NAN = from the place */
    double opens_at_C, fully_open_at_C; /* NAN = by the clock; 8 K above opens_at */
    double from_s, until_s; /* since midnight, site's standard time; until may lie before from */
    double least_open;      /* share that stands open when it is shut */
};
bool dawn_scenario_is_clocked(const struct dawn_opening *opening);

/* Water in the air: what is wet, and what a pane can hold. Without this section the house is dry.
 */
struct dawn_moisture {
    bool present;
    double floor_wet, bed_wet,
        trays_wet; /* share of each that gives off water as if it were open */
    double film_m; /* thickness of water a pane holds before it drips */
};

struct dawn_glazing {
    char name[DAWN_NAME_SIZE];
    double area_m2, slope_deg, azimuth_deg; /* slope 0 = flat, 90 = upright; azimuth from north */
    int type;                               /* index into dawn_scenario_glazing_types */
    double frame_share;                     /* opaque share of the area, 0..0.6 */
    double dirt_factor;                     /* light let through by dirt, 0..1 */
    double solar_transmittance;             /* normal incidence, clean; NAN = from the type */
    char by_angle[DAWN_ANGLES_SIZE];        /* "0 deg 0.82, 60 deg 0.70"; "" = as layers do */
    double skins;                           /* one behind the other; NAN = from type or gap */
    double gap_resistance_m2K_W; /* of each gap between skins; NAN = from the type; 0 = one skin */
    double longwave_transmittance; /* of all skins together; NAN = from the type */
    double emissivity;             /* both faces; NAN = from the type */
    double refractive_index;       /* NAN = from the type */
};

struct dawn_layer {
    char name[DAWN_NAME_SIZE];
    double thickness_m, conductivity_W_mK, density_kg_m3, specific_heat_J_kgK;
};

enum dawn_outside { DAWN_OUTSIDE_WEATHER, DAWN_OUTSIDE_SHADED, DAWN_OUTSIDE_GROUND };

struct dawn_wall {
    char name[DAWN_NAME_SIZE];
    double area_m2, slope_deg, azimuth_deg; /* slope 180 = a floor, its outside looking down */
    int outside;                            /* enum dawn_outside */
    double outside_absorptance, outside_emissivity;
    double inside_absorptance; /* of light */
    double inside_emissivity;
    double soil_behind_m; /* outside: ground; between the wall and the deep ground */
    struct dawn_layer layers[DAWN_LAYERS_MOST]; /* from outside to inside */
    size_t layer_count;
};

/* Soil of the floor and below the house. */
struct dawn_ground {
    double conductivity_W_mK, heat_J_m3K;  /* unfrozen, water included */
    double water_share;                    /* by volume; it freezes */
    double edge_loss_W_mK;                 /* perimeter loss to outdoor air per metre and kelvin */
    double edge_depth_m, edge_thickness_m; /* foam board upright along the edge; 0 = none */
    double floor_absorptance;
};

/* Planting bed: soil to grow in, lying on the rock where there is rock. */
struct dawn_bed {
    bool present;
    double area_m2, depth_m;
    double conductivity_W_mK, heat_J_m3K;
    double water_share;
    double absorptance;
};

struct dawn_rock {
    bool present;
    double volume_m3;       /* gross, stones and gaps; NAN = from the mass */
    double mass_kg;         /* NAN = from the volume */
    double stone_m;         /* equivalent diameter */
    double void_share;      /* 0.25..0.55 */
    double path_m, face_m2; /* along and across the air path; NAN = bed area and depth decide */
    double density_kg_m3, specific_heat_J_kgK, conductivity_W_mK; /* of the stone */
    double insulation_m2K_W; /* around sides and bottom, to the ground */
    double active_share;     /* share of the rock the air reaches, 0..1 */
    double segments;         /* along the air path, whole number */
};

enum dawn_sensor { DAWN_SENSE_AIR, DAWN_SENSE_TRAYS, DAWN_SENSE_BED, DAWN_SENSE_RIDGE };

enum dawn_night_way { DAWN_NIGHT_ONWARD, DAWN_NIGHT_REVERSED };

struct dawn_fan {
    bool present;
    double flow_m3_s; /* through the bed, as it runs; NAN = from the curve */
    double power_W;
    double free_air_m3_s, greatest_Pa; /* the curve's ends, in air of 1.2 kg/m3; NAN = no curve */
    double middle_m3_s, middle_Pa;     /* a point between them; NAN = not known */
    double on_C, off_C;
    double start_margin_K, stop_margin_K; /* sensed air warmer than the rock's mean by */
    double night_on_C, night_off_C; /* also runs below night_on_C to bring the rock's heat back,
                                       until night_off_C; NAN = never */
    int night_way;       /* enum dawn_night_way: which way that air goes through the rock */
    int senses;          /* enum dawn_sensor */
    double least_run_s;  /* once started, whatever the thermostat says */
    double sensor_sun;   /* share of the sun that reaches the bulb, 0..1 */
    double sensor_lag_s; /* how slowly the bulb follows: its time constant in still air */
    double price;        /* bought and hung; NAN = by its flow (struct dawn_prices) */
};

/* A fan one could buy, by its maker's curve: what a choice of fan is made from. */
struct dawn_fan_offer {
    char name[DAWN_NAME_SIZE];
    double free_air_m3_s, greatest_Pa; /* the curve's ends, in air of 1.2 kg/m3 */
    double middle_m3_s, middle_Pa;     /* a point between them; NAN = not known */
    double power_W;
    double price;
};

/* What things cost, in the grower's own currency. */
struct dawn_prices {
    char currency[DAWN_CURRENCY_SIZE];
    double rock_kg;       /* delivered */
    double digging_m3;    /* of rock: dug out and laid */
    double barrel;        /* each, filled and standing */
    double fan_m3_s;      /* of flow through the rock; thermostat and ducts with it */
    double skin_m2;       /* of glazing, for each skin beyond the first */
    double edge_board_m2; /* set into the ground */
    double curtain_m2, row_cover_m2;
    double sealing_m2;  /* of glazing, to halve the leaks */
    double cleaning_m2; /* of glazing, washed once */
    double electricity_J;
    double springs; /* so many springs of electricity count */
};

struct dawn_barrels {
    char name[DAWN_NAME_SIZE];
    double count, volume_m3, fill_share;
    double absorptance;
    double sun_share; /* share of one side's outline that stands in the sun, 0..1 */
};

enum dawn_duct_kind { DAWN_DUCT_SMOOTH, DAWN_DUCT_CORRUGATED };

/* A pipe on the fan's way, before or behind the rock; several in one list lie one after another. */
struct dawn_duct {
    char name[DAWN_NAME_SIZE];
    double length_m, diameter_m;
    int kind; /* enum dawn_duct_kind */
    double bends, screens;
    double side_by_side; /* so many of them share the air */
};

enum dawn_stand { DAWN_ON_BENCH, DAWN_ON_BED };

struct dawn_trays {
    bool present;
    double area_m2, depth_m;
    double heat_J_m3K, water_share;
    double absorptance;
    double leaf_area_index; /* 0 = sown, nothing up yet */
    int stand_on;           /* enum dawn_stand */
};

/* What a cover hangs over: the trays, the planting bed with what stands on it, or all the house, as
 * a curtain drawn from eave to eave below the roof. */
enum dawn_cover_place { DAWN_OVER_TRAYS, DAWN_OVER_BED, DAWN_OVER_HOUSE };

/* A night cover. Several over one place lie above each other, the first in the list below. */
struct dawn_cover {
    char name[DAWN_NAME_SIZE];
    int over;                    /* enum dawn_cover_place */
    int sheet;                   /* index into dawn_cover_table */
    double area_m2;              /* NAN = of what it covers */
    double height_m;             /* of the air below it; over the house nobody asks */
    double leak_changes_per_h;   /* of the air it shuts off; NAN = from the sheet */
    double put_on_s, take_off_s; /* times of day; NAN = by the sun */
    double after_sunset_s, after_sunrise_s;
    double only_below_C; /* drawn on nights that get colder outdoors; NAN = on all */
};

/* Snow that lies on the roof, on all panes and roofs flat enough. Of falls that lie at the same
 * time one lies on the other. Days are local, "2026-03-04" or "03-04" for every year. */
struct dawn_snow {
    char name[DAWN_NAME_SIZE];
    /* First and last day on which it lies; no last day: until it slides. */
    char from[DAWN_DAY_SIZE], until[DAWN_DAY_SIZE];
    double depth_m, density_kg_m3;
};

struct dawn_crop {
    char name[DAWN_NAME_SIZE];
    double damage_C;
    double damage_after_s; /* so long below it in a night before it is harmed */
};

/* How the weather file is to be understood where the file itself does not say. */
struct dawn_weather_wish {
    char file[DAWN_PATH_SIZE]; /* relative to the scenario file; "" = none named */
    double utc_offset_h;       /* NAN = from the file, else the site's */
    int stamp;                 /* enum dawn_stamp + 1; 0 = from the file or usual */
    char temperature_unit[8];  /* "" = from the header */
};

/* Something the grower can do on a cold evening, for this one night. */
struct dawn_action {
    char name[DAWN_NAME_SIZE];
    double at_s;                      /* time of day; NAN = at sunset */
    int cover;                        /* 0 = none, else 1 + index into dawn_cover_table */
    double cover_layers;              /* 1 or 2 */
    int cover_over;                   /* enum dawn_cover_place */
    int vents_shut, fan_all_night;    /* 0 = as they are */
    double heat_W;                    /* of a heater, from then on */
    double hot_water_m3, hot_water_C; /* in jugs that stand among the trays */
    int carry_in;                     /* the trays go to a warm room */
    double work_s, cost;
};

/* How far forecasts and guesses may be off: one standard deviation each. */
struct dawn_doubt {
    double air_first_day_K, air_seventh_day_K; /* of the air through the first and the 7th day */
    double air_hourly_K;                       /* the part of it that changes from hour to hour */
    double memory_s;                           /* how long such an hour's error lasts */
    double day_memory; /* share of a day's error that the next day still has */
    double cloud;      /* share of the sky */
    double wind;       /* share of the wind */
    double dew_K;
    double leaks, light, active_rock, soil; /* shares of what the scenario says */
    double accepted_risk;                   /* chance of damage in a night that is accepted */
};

struct dawn_start {
    double spin_up_s;     /* lived through before the run */
    double temperature_C; /* everything starts here; NAN = estimate */
};

struct dawn_scenario {
    char path[DAWN_PATH_SIZE]; /* of the scenario file; "" = none */
    double version;            /* of the scenario form: 1 */
    char name[DAWN_NAME_SIZE];
    struct dawn_site site;
    struct dawn_house house;
    struct dawn_opening openings[DAWN_OPENINGS_MOST];
    size_t opening_count;
    struct dawn_outdoor_fan outdoor_fan;
    struct dawn_moisture moisture;
    struct dawn_glazing glazing[DAWN_GLAZING_MOST];
    size_t glazing_count;
    struct dawn_wall walls[DAWN_WALLS_MOST];
    size_t wall_count;
    struct dawn_ground ground;
    struct dawn_bed bed;
    struct dawn_rock rock;
    struct dawn_fan fan;
    struct dawn_duct ducts[DAWN_DUCTS_MOST];
    size_t duct_count;
    struct dawn_barrels barrels[DAWN_BARRELS_MOST];
    size_t barrels_count;
    struct dawn_trays trays;
    struct dawn_cover covers[DAWN_COVERS_MOST];
    size_t cover_count;
    struct dawn_snow snow[DAWN_SNOW_MOST];
    size_t snow_count;
    struct dawn_crop crops[DAWN_CROPS_MOST];
    size_t crop_count;
    struct dawn_weather_wish weather;
    struct dawn_action actions[DAWN_ACTIONS_MOST];
    size_t action_count;
    struct dawn_doubt forecast;
    struct dawn_start start;
    struct dawn_fan_offer fans[DAWN_FANS_MOST];
    size_t fan_offer_count;
    struct dawn_prices prices;
    /* Which values the user gave, and where. A copy of the struct shares it: release only one. */
    struct dawn_scenario_origins *origins;
};

/* A glazing the grower can name: what light and heat do in it. */
struct dawn_glazing_type {
    const char *word;            /* as written in a scenario */
    const char *meaning;         /* for people */
    int skins;                   /* 1, or more with gaps between */
    double solar_transmittance;  /* normal incidence, whole build-up, clean */
    double refractive_index;     /* shapes the transmittance with the angle */
    double gap_resistance_m2K_W; /* of each gap; 0 when there is one skin */
    double longwave_transmittance;
    double emissivity;
    double heat_J_m2K; /* of the whole build-up per area */
    const char *source;
};
const struct dawn_glazing_type *dawn_scenario_glazing_types(size_t *count);

/* What a face is made of once the scenario's own values stand over its type's: equal skins, 1 to 4,
 * with equal gaps. Skins that the type has not let through what the type's own do, one after the
 * other. The glazing must have a type. */
struct dawn_glazing_build {
    size_t skins;
    double gap_m2K_W;                                           /* of each gap; 0 with one skin */
    double solar_transmittance;                                 /* straight on, through all skins */
    double longwave_transmittance;                              /* through all skins */
    double emissivity;                                          /* of every face */
    double heat_J_m2K;                                          /* of each skin */
    struct dawn_glazing_layer layers[DAWN_GLAZING_LAYERS_MOST]; /* all alike */
    struct dawn_glazing_angles angles; /* of all skins together, as measured */
};
struct dawn_glazing_build dawn_scenario_glazing_build(const struct dawn_glazing *glazing);

/* ---- the key table ---- */

enum dawn_kind { DAWN_KIND_QUANTITY, DAWN_KIND_COUNT, DAWN_KIND_CHOICE, DAWN_KIND_TEXT };

/* What a number of this kind may be measured in; DAWN_MEASURE_NONE takes no unit. */
struct dawn_key {
    const char *section; /* "site", "glazing", "walls.layers" ...; "" = at the top of the file */
    const char *name;
    enum dawn_kind kind;
    int measure;                    /* enum dawn_measure of the unit table (base/unit.h) */
    const char *unit;               /* the unit the table's own numbers are in, for people */
    double least, most;             /* impossible outside: refused. In the table's unit */
    double doubt_least, doubt_most; /* odd outside: warned about */
    const char *usual;              /* default as it would be written; NULL = must be given */
    const char *words;   /* for choices: "air|trays|bed"; for quantities: the word that may
                            stand instead of a number, such as "estimate" (the field is NAN
                            then); for angles: compass words; for texts: the only texts
                            allowed, of which the first means "nothing said" (the field is
                            "" then) */
    const char *meaning; /* one or two sentences for the grower */
    size_t offset;       /* of the value in its section's struct */
    size_t size;         /* of the field: double for quantities and counts, int for choices,
                            char[size] for texts */
};
const struct dawn_key *dawn_scenario_keys(size_t *count);
/* What a section of the table is for, in a grower's words; NULL for a name that is none. */
const char *dawn_scenario_section_meaning(const char *section);

/* ---- reading ---- */

/* Fills every value with its default; no glazing, walls, barrels, crops, no optional section. */
enum dawn_status dawn_scenario_usual(struct dawn_scenario *scenario);

/* Reads and checks a scenario file (strict YAML subset, at most 1 MB). Every problem goes to
 * problems, sorted by line. overrides are "section.key=value" texts (from --set), applied before
 * the checks across keys. On failure *scenario holds nothing that must be released beyond
 * dawn_scenario_release, which is always allowed. */
enum dawn_status dawn_scenario_read(struct dawn_scenario *scenario, const char *path,
                                    const char *const *overrides, size_t override_count,
                                    struct dawn_problems *problems);
/* The same from memory; name stands for the file in messages. */
enum dawn_status dawn_scenario_parse(struct dawn_scenario *scenario, const char *name,
                                     const char *text, size_t size, const char *const *overrides,
                                     size_t override_count, struct dawn_problems *problems);
/* Another like base, with "section.key=value" texts laid over it and checked like a whole scenario.
 * Without an error nothing is added to problems: base has given its warnings already. The new one
 * is released like any other, also after a failure. */
enum dawn_status dawn_scenario_with(struct dawn_scenario *scenario,
                                    const struct dawn_scenario *base, const char *const *overrides,
                                    size_t override_count, struct dawn_problems *problems);
void dawn_scenario_release(struct dawn_scenario *scenario);

/* One line of "what was understood": a key, its value in SI and in words, where it came from. */
struct dawn_understood {
    char key[96];   /* "glazing[south roof].area" */
    char value[96]; /* "30 m2" */
    bool given;     /* true = the user's, false = default or derived */
    int line;       /* in the scenario file; 0 = not from there */
    const char *meaning;
};
/* Calls visit for every value of the scenario, in table order. */
void dawn_scenario_understood(const struct dawn_scenario *scenario,
                              void (*visit)(const struct dawn_understood *, void *user),
                              void *user);

/* Values that may have been left to the program: the floor as given or length x width, the
 * air as given or floor x height, the rock's gross volume and mass each as given or from the other;
 * NAN where nothing says. */
double dawn_scenario_floor_m2(const struct dawn_scenario *scenario);
double dawn_scenario_air_m3(const struct dawn_scenario *scenario);
/* Air changes an hour through the leaks at 15 K and 2 m/s, however the scenario tells them. */
double dawn_scenario_air_changes_per_h(const struct dawn_scenario *scenario);
double dawn_scenario_rock_m3(const struct dawn_scenario *scenario);
double dawn_scenario_rock_kg(const struct dawn_scenario *scenario);
/* The floor all barrels stand on, as drums do. */
double dawn_scenario_barrels_m2(const struct dawn_scenario *scenario);
/* Floors among the walls: those that look down by more than 120 degrees. */
bool dawn_scenario_is_floor(const struct dawn_wall *wall);
double dawn_scenario_built_floor_m2(const struct dawn_scenario *scenario);

/* The days of a fall of snow, read from their texts. */
struct dawn_snow_days {
    struct dawn_snow_day {
        int year, month, day; /* year 0: every year */
    } from, until;
    bool right, ends; /* all that is written is a day; there is a last one */
    double utc_offset_h;
};
struct dawn_snow_days dawn_scenario_snow_days(const struct dawn_scenario *scenario,
                                              const struct dawn_snow *snow);
/* Whole days since it began to lie, by the days of the site's standard time; -1 when by its days it
 * does not lie. Whether it has slid off is for the weather to say. */
int64_t dawn_scenario_snow_age_days(const struct dawn_snow_days *days, int64_t utc_s);
/* Whether a face open to the sky is flat enough for the snow that is described; the area of all
 * that are; and the most that lies on them at once by its days, kg per m2 of face. 0 without snow.
 */
bool dawn_scenario_bears_snow(const struct dawn_scenario *scenario, double slope_deg);
double dawn_scenario_snow_m2(const struct dawn_scenario *scenario);
double dawn_scenario_snow_load_kg_m2(const struct dawn_scenario *scenario);

/* The name of a key without the item that --set names in it: "glazing.south roof.area" is
 * "glazing.area", "walls.1.layers.2.thickness" is "walls.layers.thickness". Neither the key nor the
 * item need be there. False (out is "") when the path names no item of a list or does not fit. */
bool dawn_scenario_plain_key(const char *path, char *out, size_t size);

/* The key of a section nearest to a mistyped one (edit distance <= 2), or NULL. */
const struct dawn_key *dawn_scenario_nearest_key(const char *section, const char *name);

#endif
