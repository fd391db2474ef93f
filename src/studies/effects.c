/* Each effect of a nursery switched off in turn. An effect is a row of the table below: when the
 * scenario describes it, and how a copy of the scenario (and of the weather's head) loses it. */
#include <math.h>
#include <stdlib.h>

#include "dawnlow/physics/sky.h"
#include "dawnlow/physics/water.h"
#include "dawnlow/studies.h"
#include "dawnlow/studies/batch.h"

/* ---- the effects ---- */

/* A nursery that may be edited: values are copies, what they point to is not. */
struct edited {
    struct dawn_scenario scenario;
    struct dawn_weather weather;
    double *warm_sky_W_m2; /* long-wave of a sky as warm as the outdoor air */
};

static bool has_moisture(const struct dawn_scenario *s)
{
    return s->moisture.present;
}
static void drop_moisture(struct edited *it)
{
    it->scenario.moisture.present = false;
}

static bool has_zones(const struct dawn_scenario *s)
{
    return s->house.zones > 1.5;
}
static void drop_zones(struct edited *it)
{
    it->scenario.house.zones = 1.0;
}

static bool has_leaks(const struct dawn_scenario *s)
{
    return dawn_scenario_air_changes_per_h(s) > 0.0 || s->house.steady_air_changes_per_h > 0.0;
}
static void drop_leaks(struct edited *it)
{
    it->scenario.house.air_changes_per_h = 0.0;
    it->scenario.house.steady_air_changes_per_h = 0.0;
}

static bool has_outdoor_fan(const struct dawn_scenario *s)
{
    return s->outdoor_fan.present;
}
static void drop_outdoor_fan(struct edited *it)
{
    it->scenario.outdoor_fan.present = false;
}

static bool has_always(const struct dawn_scenario *s)
{
    (void)s;
    return true;
}
static void drop_sky(struct edited *it)
{
    it->weather.longwave_W_m2 = it->warm_sky_W_m2;
}

static bool has_wind(const struct dawn_scenario *s)
{
    return s->site.wind_share > 0.0;
}
static void drop_wind(struct edited *it)
{
    it->scenario.site.wind_share = 0.0;
}

static bool has_fan(const struct dawn_scenario *s)
{
    return s->fan.present && s->rock.present;
}
static void drop_fan(struct edited *it)
{
    it->scenario.fan.present = false;
}

static bool has_night_run(const struct dawn_scenario *s)
{
    return has_fan(s) && !isnan(s->fan.night_on_C);
}
static void drop_night_run(struct edited *it)
{
    it->scenario.fan.night_on_C = NAN;
    it->scenario.fan.night_off_C = NAN;
}

static bool has_reversed_run(const struct dawn_scenario *s)
{
    return has_night_run(s) && s->fan.night_way == DAWN_NIGHT_REVERSED;
}
static void drop_reversed_run(struct edited *it)
{
    it->scenario.fan.night_way = DAWN_NIGHT_ONWARD;
}

static bool has_sunlit_sensor(const struct dawn_scenario *s)
{
    return has_fan(s) && s->fan.sensor_sun > 0.0;
}
static void drop_sunlit_sensor(struct edited *it)
{
    it->scenario.fan.sensor_sun = 0.0;
}

static bool has_rock_only(const struct dawn_scenario *s)
{
    return s->rock.present && !s->fan.present;
}
static void drop_rock(struct edited *it)
{
    it->scenario.rock.present = false;
    it->scenario.fan.present = false;
}

static bool has_rock_insulation(const struct dawn_scenario *s)
{
    return s->rock.present && s->rock.insulation_m2K_W > 0.0;
}
static void drop_rock_insulation(struct edited *it)
{
    it->scenario.rock.insulation_m2K_W = 0.0;
}

static bool has_barrels(const struct dawn_scenario *s)
{
    double count = 0.0;

    for (size_t i = 0; i < s->barrels_count; i++) {
        count += s->barrels[i].count;
    }
    return count > 0.0;
}
static void drop_barrels(struct edited *it)
{
    it->scenario.barrels_count = 0;
}

static bool has_openings(const struct dawn_scenario *s)
{
    return s->opening_count > 0;
}
static void drop_openings(struct edited *it)
{
    it->scenario.opening_count = 0;
}

static double longwave_of(const struct dawn_glazing *glazing)
{
    size_t types = 0;
    const struct dawn_glazing_type *type = dawn_scenario_glazing_types(&types) + glazing->type;

    return isnan(glazing->longwave_transmittance) ? type->longwave_transmittance
                                                  : glazing->longwave_transmittance;
}
static bool has_clear_film(const struct dawn_scenario *s)
{
    for (size_t i = 0; i < s->glazing_count; i++) {
        if (longwave_of(&s->glazing[i]) > 0.0) {
            return true;
        }
    }
    return false;
}
/* What the film no longer lets through it absorbs: made a mirror, it would be another effect. */
static void drop_clear_film(struct edited *it)
{
    size_t types = 0;
    const struct dawn_glazing_type *type = dawn_scenario_glazing_types(&types);

    for (size_t i = 0; i < it->scenario.glazing_count; i++) {
        struct dawn_glazing *glazing = &it->scenario.glazing[i];
        const double own =
            isnan(glazing->emissivity) ? type[glazing->type].emissivity : glazing->emissivity;
        glazing->emissivity = fmin(own + longwave_of(glazing), 1.0);
        glazing->longwave_transmittance = 0.0;
    }
}

static bool has_edge_board(const struct dawn_scenario *s)
{
    return s->ground.edge_depth_m > 0.0;
}
static void drop_edge_board(struct edited *it)
{
    it->scenario.ground.edge_depth_m = 0.0;
}

static bool has_dirt(const struct dawn_scenario *s)
{
    for (size_t i = 0; i < s->glazing_count; i++) {
        if (s->glazing[i].dirt_factor < 1.0) {
            return true;
        }
    }
    return false;
}
static void drop_dirt(struct edited *it)
{
    for (size_t i = 0; i < it->scenario.glazing_count; i++) {
        it->scenario.glazing[i].dirt_factor = 1.0;
    }
}

static bool has_wet_soil(const struct dawn_scenario *s)
{
    return s->ground.water_share > 0.0 || (s->bed.present && s->bed.water_share > 0.0);
}
static void drop_wet_soil(struct edited *it)
{
    it->scenario.ground.water_share = 0.0;
    it->scenario.bed.water_share = 0.0;
}

static bool has_cover_over(const struct dawn_scenario *s, bool house)
{
    for (size_t i = 0; i < s->cover_count; i++) {
        if ((s->covers[i].over == DAWN_OVER_HOUSE) == house) {
            return true;
        }
    }
    return false;
}
static void drop_covers_over(struct edited *it, bool house)
{
    const size_t count = it->scenario.cover_count;

    it->scenario.cover_count = 0;
    for (size_t i = 0; i < count; i++) {
        if ((it->scenario.covers[i].over == DAWN_OVER_HOUSE) != house) {
            it->scenario.covers[it->scenario.cover_count++] = it->scenario.covers[i];
        }
    }
}
static bool has_row_covers(const struct dawn_scenario *s)
{
    return has_cover_over(s, false);
}
static void drop_row_covers(struct edited *it)
{
    drop_covers_over(it, false);
}
static bool has_curtain(const struct dawn_scenario *s)
{
    return has_cover_over(s, true);
}
static void drop_curtain(struct edited *it)
{
    drop_covers_over(it, true);
}

static bool has_snow(const struct dawn_scenario *s)
{
    return s->snow_count > 0;
}
static void drop_snow(struct edited *it)
{
    it->scenario.snow_count = 0;
}

static bool has_heat(const struct dawn_scenario *s)
{
    return s->house.heat_W > 0.0;
}
static void drop_heat(struct edited *it)
{
    it->scenario.house.heat_W = 0.0;
}

static const struct effect {
    const char *key, *name, *instead;
    bool many;
    bool (*described)(const struct dawn_scenario *scenario);
    void (*drop)(struct edited *edited);
} effects_known[] = {
    {"moisture", "water in the air", "a dry house, its panes never wet", false, has_moisture,
     drop_moisture},
    {"zones", "ridge and bench apart", "one air in all the house", false, has_zones, drop_zones},
    {"leaks", "leaks", "a tight house", true, has_leaks, drop_leaks},
    {"sky", "the cold sky", "a sky as warm as the outdoor air", false, has_always, drop_sky},
    {"wind", "wind", "calm air around the house", false, has_wind, drop_wind},
    {"fan", "the fan", "the rock lies there, no air is blown through it", false, has_fan, drop_fan},
    {"night_fan", "the fan's runs at night", "the fan runs by day only", true, has_night_run,
     drop_night_run},
    {"night_way", "the night run's reversed air", "it goes through the rock as by day", false,
     has_reversed_run, drop_reversed_run},
    {"sensor_sun", "sun on the thermostat", "its bulb shaded", false, has_sunlit_sensor,
     drop_sunlit_sensor},
    {"rock", "the rock and its fan", "neither rock nor fan", true, has_fan, drop_rock},
    {"rock", "the rock", "no rock", false, has_rock_only, drop_rock},
    {"rock_insulation", "the rock's insulation", "the rock touches the ground", false,
     has_rock_insulation, drop_rock_insulation},
    {"barrels", "the water barrels", "no barrels", true, has_barrels, drop_barrels},
    {"openings", "vents and doors", "kept shut day and night", true, has_openings, drop_openings},
    {"outdoor_fan", "the outdoor fan", "switched off", false, has_outdoor_fan, drop_outdoor_fan},
    {"film", "long-wave through the glazing", "glazing that takes it up instead", false,
     has_clear_film, drop_clear_film},
    {"edge", "the board along the edge", "no board", false, has_edge_board, drop_edge_board},
    {"dirt", "dirt on the glazing", "clean glazing", false, has_dirt, drop_dirt},
    {"soil_freezing", "freezing of the soil", "soil whose water stays liquid", false, has_wet_soil,
     drop_wet_soil},
    {"covers", "the covers over trays and bed", "never put on", true, has_row_covers,
     drop_row_covers},
    {"curtain", "the curtain below the roof", "never drawn", false, has_curtain, drop_curtain},
    {"snow", "snow on the roof", "the roof kept clear", false, has_snow, drop_snow},
    {"heat", "the heat source inside", "no heat source", false, has_heat, drop_heat},
};
enum { KNOWN = sizeof effects_known / sizeof effects_known[0] };
_Static_assert((int)KNOWN <= (int)DAWN_EFFECTS_MOST, "a row each");

/* ---- what one run says ---- */

static bool held_by_freezing(double low_C)
{
    return low_C <= 0.0 && low_C >= -DAWN_WATER_FREEZING_WIDTH_K;
}

struct outcome {
    struct dawn_effects_lows place, air;
    size_t nights;
    bool at_trays, held;
};

static struct outcome outcome_of(const struct dawn_nights *nights)
{
    struct outcome out = {.place = {NAN, 0.0},
                          .air = {NAN, 0.0},
                          .nights = nights->count,
                          .at_trays = nights->at_trays};

    for (size_t i = 0; i < nights->count; i++) {
        const struct dawn_night *night = &nights->night[i];
        out.place.coldest_C = fmin(out.place.coldest_C, night->place_low_C);
        out.air.coldest_C = fmin(out.air.coldest_C, night->air_low_C);
        out.place.mean_C += night->place_low_C / (double)nights->count;
        out.air.mean_C += night->air_low_C / (double)nights->count;
    }
    out.held = out.at_trays && held_by_freezing(out.place.coldest_C);
    return out;
}

/* ---- the study ---- */

struct dawn_effects_change dawn_effects_change_at_place(const struct dawn_effects *effects,
                                                        size_t row)
{
    const struct dawn_effects_lows *without = &effects->row[row].place;

    return (struct dawn_effects_change){without->coldest_C - effects->place.coldest_C,
                                        without->mean_C - effects->place.mean_C};
}

struct dawn_effects_change dawn_effects_change_in_air(const struct dawn_effects *effects,
                                                      size_t row)
{
    const struct dawn_effects_lows *without = &effects->row[row].air;

    return (struct dawn_effects_change){without->coldest_C - effects->air.coldest_C,
                                        without->mean_C - effects->air.mean_C};
}

/* How much a row matters: by the coldest low; -1 for a failed one, so that it comes last. */
static double weight_of(const struct dawn_effects *effects, size_t row)
{
    if (effects->row[row].failed) {
        return -1.0;
    }
    return fabs(effects->by_air ? dawn_effects_change_in_air(effects, row).coldest_K
                                : dawn_effects_change_at_place(effects, row).coldest_K);
}

/* By insertion: a handful of rows, and equal ones stay in the table's order. */
static void sort_rows(struct dawn_effects *effects)
{
    for (size_t i = 1; i < effects->count; i++) {
        for (size_t k = i; k > 0 && weight_of(effects, k) > weight_of(effects, k - 1); k--) {
            const struct dawn_effects_row swap = effects->row[k];
            effects->row[k] = effects->row[k - 1];
            effects->row[k - 1] = swap;
        }
    }
}

static void say_failed(const struct effect *effect, const struct dawn_problems *why,
                       struct dawn_problems *problems)
{
    dawn_problems_add(problems, DAWN_WARNING, (struct dawn_place_in_file){0}, NULL,
                      "no result without %s: %s", effect->name,
                      why->count > 0 ? why->items[why->count - 1].message
                                     : "the calculation could not go on");
}

/* ---- the runs: the nursery as it is, then one without each effect it describes ---- */

/* In place of a status: the study was stopped before this case. */
#define NOT_RUN ((enum dawn_status) - 1)

struct study {
    const struct effect *effect[KNOWN + 1]; /* [case]; 0 = as it is */
    struct outcome out[KNOWN + 1];
    enum dawn_status status[KNOWN + 1];
    struct dawn_problems why[KNOWN + 1];
    double *warm_sky_W_m2;
    const struct dawn_effects_plan *plan;
};

static enum dawn_status vary(size_t index, struct dawn_batch_case *it,
                             struct dawn_problems *problems, void *user)
{
    const struct study *study = user;
    struct edited edited = {it->scenario, it->weather, study->warm_sky_W_m2};

    (void)problems;
    if (index > 0 && index <= KNOWN) {
        study->effect[index]->drop(&edited);
    }
    it->scenario = edited.scenario;
    it->weather = edited.weather;
    return DAWN_OK;
}

static void take(size_t index, const struct dawn_batch_outcome *outcome, void *user)
{
    struct study *study = user;

    study->status[index] = outcome->status;
    if (outcome->status == DAWN_OK) {
        study->out[index] = outcome_of(outcome->nights);
    }
    dawn_problems_add_all(&study->why[index], outcome->problems);
}

static bool keep_going(size_t done, size_t cases, void *user)
{
    const struct study *study = user;
    const struct dawn_effects_plan *plan = study->plan;

    return plan->keep_going == NULL || plan->keep_going(done, cases, plan->user);
}

static size_t describe(struct study *study, const struct dawn_scenario *scenario)
{
    size_t count = 1;

    for (size_t i = 0; i < KNOWN; i++) {
        if (effects_known[i].described(scenario)) {
            study->effect[count++] = &effects_known[i];
        }
    }
    return count;
}

static void add_row(struct dawn_effects *effects, const struct study *study, size_t index,
                    struct dawn_problems *problems)
{
    const struct effect *effect = study->effect[index];
    struct dawn_effects_row row = {
        .key = effect->key, .name = effect->name, .instead = effect->instead, .many = effect->many};

    row.failed = study->status[index] != DAWN_OK;
    row.place = row.air = (struct dawn_effects_lows){NAN, NAN};
    if (row.failed) {
        say_failed(effect, &study->why[index], problems);
    } else {
        row.place = study->out[index].place;
        row.air = study->out[index].air;
        effects->by_air = effects->by_air || study->out[index].held;
    }
    effects->row[effects->count++] = row;
}

/* What the runs that were made say; those that were not have no status of their own. */
static enum dawn_status judge(struct dawn_effects *effects, const struct study *study, size_t cases,
                              struct dawn_problems *problems)
{
    const struct outcome *as_it_is = &study->out[0];

    dawn_problems_add_all(problems, &study->why[0]);
    if (study->status[0] != DAWN_OK || as_it_is->nights == 0) {
        return study->status[0] == NOT_RUN ? DAWN_OK : study->status[0];
    }
    effects->nights = as_it_is->nights;
    effects->at_trays = as_it_is->at_trays;
    effects->by_air = as_it_is->held;
    effects->place = as_it_is->place;
    effects->air = as_it_is->air;
    for (size_t i = 1; i < cases; i++) {
        if (study->status[i] == DAWN_ERR_NOMEM) {
            return DAWN_ERR_NOMEM;
        }
        if (study->status[i] != NOT_RUN) {
            add_row(effects, study, i, problems);
        }
    }
    sort_rows(effects);
    return DAWN_OK;
}

static enum dawn_status find(struct dawn_effects *effects, struct study *study,
                             const struct dawn_scenario *scenario,
                             const struct dawn_weather *weather, struct dawn_problems *problems)
{
    const struct dawn_batch_plan batch = {.scenario = scenario,
                                          .weather = weather,
                                          .run = study->plan->run,
                                          .cases = describe(study, scenario),
                                          .threads = study->plan->threads,
                                          .vary = vary,
                                          .take = take,
                                          .keep_going = keep_going,
                                          .user = study};
    size_t done = 0;

    for (size_t i = 0; i < batch.cases; i++) {
        study->status[i] = NOT_RUN;
    }
    enum dawn_status status = dawn_batch_run(&batch, &done, problems);
    effects->stopped = done < batch.cases;
    if (status == DAWN_OK) {
        status = judge(effects, study, batch.cases, problems);
    }
    for (size_t i = 0; i < batch.cases; i++) {
        dawn_problems_release(&study->why[i]);
    }
    return status;
}

enum dawn_status dawn_effects_find(struct dawn_effects *effects,
                                   const struct dawn_scenario *scenario,
                                   const struct dawn_weather *weather,
                                   const struct dawn_effects_plan *plan,
                                   struct dawn_problems *problems)
{
    struct study study = {.plan = plan};

    *effects = (struct dawn_effects){.place = {NAN, NAN}, .air = {NAN, NAN}};
    study.warm_sky_W_m2 = calloc(weather->count, sizeof *study.warm_sky_W_m2);
    if (study.warm_sky_W_m2 == NULL) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                          "out of memory while the effects were compared");
        return DAWN_ERR_NOMEM;
    }
    for (size_t i = 0; i < weather->count; i++) {
        const double air_K = weather->air_C[i] + 273.15;
        study.warm_sky_W_m2[i] = DAWN_STEFAN_BOLTZMANN * air_K * air_K * air_K * air_K;
    }
    const enum dawn_status status = find(effects, &study, scenario, weather, problems);
    free(study.warm_sky_W_m2);
    return status;
}
