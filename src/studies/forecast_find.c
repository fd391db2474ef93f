/* The ensemble: every member's nights, then what a tenth, half and nine tenths of them say. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/parallel.h"
#include "dawnlow/studies/batch.h"
#include "dawnlow/studies/forecast.h"
#include "dawnlow/studies/score.h"
#include "studies/members.h"

/* What is kept of a member's night, each a row of a table over the members. */
enum { OUTSIDE, AIR, TRAY, LEAF, ROOT, PLACE, LOW_AT, HARMED };
enum { KEPT = HARMED + DAWN_CROPS_MOST };

struct study {
    const struct dawn_forecast_plan *plan;
    const struct dawn_scenario *scenario;
    struct dawn_forecast *forecast;
    struct dawn_members members;
    double *start;
    double *kept;   /* [(night * KEPT + what) * members + member] */
    double *sorted; /* [members] */
    bool *came;     /* [members] */
    size_t nights_most;
    enum dawn_status status; /* of the nursery as forecast */
    struct dawn_problems why;
};

static double *row_of(const struct study *study, size_t night, size_t what)
{
    return study->kept + (night * KEPT + what) * study->plan->members;
}

/* ---- runs ---- */

/* Case 0 is the nursery with the forecast as it stands; the members follow. */
static enum dawn_status vary(size_t index, struct dawn_batch_case *it,
                             struct dawn_problems *problems, void *user)
{
    const struct study *study = user;

    (void)problems;
    it->run.start = study->start;
    it->run.spin_up = false;
    if (index > 0) {
        dawn_members_apply(&study->members.member[index - 1], &it->scenario, &it->weather);
    }
    return DAWN_OK;
}

static bool is_harmed(const struct dawn_crop *crop, const struct dawn_batch_outcome *outcome,
                      const struct dawn_night *night)
{
    const int node = dawn_nights_crop_node(outcome->network, outcome->nights->crop_place);
    const double below_s = dawn_trajectory_below_s(outcome->run, node, crop->damage_C,
                                                   (double)night->dusk_s, (double)night->until_s);
    return below_s > crop->damage_after_s;
}

static void keep_night(struct study *study, size_t member, size_t index,
                       const struct dawn_batch_outcome *outcome)
{
    const struct dawn_night *night = &outcome->nights->night[index];
    const double value[HARMED] = {night->outside_low_C, night->air_low_C,  night->tray_low_C,
                                  night->leaf_low_C,    night->root_low_C, night->place_low_C,
                                  night->low_at_s};

    for (size_t what = 0; what < HARMED; what++) {
        row_of(study, index, what)[member] = value[what];
    }
    for (size_t crop = 0; crop < study->scenario->crop_count; crop++) {
        row_of(study, index, HARMED + crop)[member] =
            is_harmed(&study->scenario->crops[crop], outcome, night) ? 1.0 : 0.0;
    }
}

static void take_as_forecast(struct study *study, const struct dawn_batch_outcome *outcome)
{
    struct dawn_forecast *forecast = study->forecast;

    study->status = outcome->status;
    if (outcome->status != DAWN_OK) {
        dawn_problems_add_all(&study->why, outcome->problems);
        return;
    }
    forecast->at_trays = outcome->nights->at_trays;
    forecast->crop_place = outcome->nights->crop_place;
    forecast->nights =
        outcome->nights->count < study->nights_most ? outcome->nights->count : study->nights_most;
    for (size_t i = 0; i < forecast->nights; i++) {
        forecast->night[i].dusk_s = outcome->nights->night[i].dusk_s;
        forecast->night[i].dawn_s = outcome->nights->night[i].dawn_s;
        forecast->night[i].as_forecast_C = outcome->nights->night[i].place_low_C;
    }
}

static void take(size_t index, const struct dawn_batch_outcome *outcome, void *user)
{
    struct study *study = user;

    if (index == 0) {
        take_as_forecast(study, outcome);
        return;
    }
    if (outcome->status != DAWN_OK) {
        return;
    }
    study->came[index - 1] = true;
    for (size_t i = 0; i < outcome->nights->count && i < study->nights_most; i++) {
        keep_night(study, index - 1, i, outcome);
    }
}

static bool keep_going(size_t done, size_t runs, void *user)
{
    const struct study *study = user;

    return study->plan->keep_going == NULL ||
           study->plan->keep_going(done, runs, study->plan->user);
}

/* ---- chances ---- */

/* The members that came through, ascending; NAN wherever the nursery has no such place. */
static struct dawn_forecast_range range_of(struct study *study, const double *row)
{
    size_t count = 0;

    for (size_t i = 0; i < study->plan->members; i++) {
        if (study->came[i] && !isnan(row[i])) {
            study->sorted[count++] = row[i];
        }
    }
    if (count == 0) {
        return (struct dawn_forecast_range){NAN, NAN, NAN};
    }
    qsort(study->sorted, count, sizeof *study->sorted, dawn_score_ascending);
    return (struct dawn_forecast_range){dawn_score_quantile(study->sorted, count, 0.1),
                                        dawn_score_quantile(study->sorted, count, 0.5),
                                        dawn_score_quantile(study->sorted, count, 0.9)};
}

/* Whether a member has it in a night: crop < crop_count that one, crop_count any, above that 0 C at
 * the protected place. */
static bool has_it(const struct study *study, size_t night, size_t member, size_t crop)
{
    const size_t crops = study->scenario->crop_count;

    if (crop < crops) {
        return row_of(study, night, HARMED + crop)[member] > 0.0;
    }
    if (crop > crops || crops == 0) {
        return row_of(study, night, PLACE)[member] < 0.0;
    }
    for (size_t i = 0; i < crops; i++) {
        if (row_of(study, night, HARMED + i)[member] > 0.0) {
            return true;
        }
    }
    return false;
}

/* Chance of it in at least one of the nights from..to - 1. */
static double chance_of(const struct study *study, size_t from, size_t to, size_t crop)
{
    size_t count = 0;

    for (size_t member = 0; member < study->plan->members; member++) {
        bool had = false;
        for (size_t night = from; night < to && study->came[member]; night++) {
            had = had || has_it(study, night, member, crop);
        }
        count += had ? 1 : 0;
    }
    return (double)count / (double)study->forecast->members;
}

static void judge_night(struct study *study, size_t index)
{
    struct dawn_forecast_night *night = &study->forecast->night[index];
    const size_t crops = study->scenario->crop_count;

    night->outside_C = range_of(study, row_of(study, index, OUTSIDE));
    night->air_C = range_of(study, row_of(study, index, AIR));
    night->tray_C = range_of(study, row_of(study, index, TRAY));
    night->leaf_C = range_of(study, row_of(study, index, LEAF));
    night->root_C = range_of(study, row_of(study, index, ROOT));
    night->low_at_s = range_of(study, row_of(study, index, LOW_AT));
    for (size_t crop = 0; crop < crops; crop++) {
        night->harmed[crop] = chance_of(study, index, index + 1, crop);
    }
    night->any_harmed = chance_of(study, index, index + 1, crops);
    night->below_zero = chance_of(study, index, index + 1, crops + 1);
}

static double place_middle_C(const struct dawn_forecast *forecast, size_t night)
{
    return forecast->at_trays ? forecast->night[night].tray_C.middle
                              : forecast->night[night].air_C.middle;
}

static bool is_worse(const struct dawn_forecast *forecast, size_t night, size_t than)
{
    const double chance = forecast->night[night].any_harmed;
    const double other = forecast->night[than].any_harmed;

    return chance > other ||
           (chance == other && place_middle_C(forecast, night) < place_middle_C(forecast, than));
}

static void judge(struct study *study)
{
    struct dawn_forecast *forecast = study->forecast;
    const size_t crops = study->scenario->crop_count;

    forecast->worst = forecast->nights;
    for (size_t i = 0; i < forecast->nights; i++) {
        judge_night(study, i);
        if (forecast->worst == forecast->nights || is_worse(forecast, i, forecast->worst)) {
            forecast->worst = i;
        }
    }
    for (size_t crop = 0; crop < crops; crop++) {
        forecast->week_harmed[crop] = chance_of(study, 0, forecast->nights, crop);
    }
    forecast->week_any = chance_of(study, 0, forecast->nights, crops);
    forecast->week_below_zero = chance_of(study, 0, forecast->nights, crops + 1);
}

static enum dawn_status came_through(struct study *study, struct dawn_problems *problems)
{
    const size_t wanted = study->plan->members;

    if (study->status != DAWN_OK) {
        dawn_problems_add_all(problems, &study->why);
        return study->status;
    }
    for (size_t i = 0; i < wanted; i++) {
        study->forecast->members += study->came[i] ? 1 : 0;
    }
    if (study->forecast->members * 2 < wanted) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                          "look for extreme values in the scenario (check SCENARIO), or for large "
                          "spreads under forecast:",
                          "%zu of %zu members found no result", wanted - study->forecast->members,
                          wanted);
        return DAWN_ERR_SOLVER;
    }
    if (study->forecast->members < wanted) {
        dawn_problems_add(problems, DAWN_WARNING, (struct dawn_place_in_file){0}, NULL,
                          "%zu of %zu members found no result and are left out",
                          wanted - study->forecast->members, wanted);
    }
    return DAWN_OK;
}

/* ---- the whole ---- */

static enum dawn_status run_all(struct study *study, const struct dawn_weather *weather,
                                struct dawn_problems *problems)
{
    const struct dawn_batch_plan batch = {.scenario = study->scenario,
                                          .weather = weather,
                                          .run = study->plan->run,
                                          .cases = study->plan->members + 1,
                                          .threads = study->plan->threads,
                                          .vary = vary,
                                          .take = take,
                                          .keep_going = keep_going,
                                          .user = study};
    size_t done = 0;
    enum dawn_status status = dawn_batch_run(&batch, &done, problems);

    study->forecast->stopped = done < batch.cases;
    if (status == DAWN_OK && !study->forecast->stopped) {
        status = came_through(study, problems);
        if (status == DAWN_OK) {
            judge(study);
        }
    }
    return status;
}

static bool reserve(struct study *study, const struct dawn_weather *weather)
{
    const size_t members = study->plan->members;
    const double span_s = (double)(study->plan->run.to_s - study->plan->run.from_s);

    study->nights_most = (size_t)(span_s / 86400.0) + 2;
    study->kept = calloc(study->nights_most * KEPT * members, sizeof *study->kept);
    study->sorted = calloc(members, sizeof *study->sorted);
    study->came = calloc(members, sizeof *study->came);
    study->forecast->night = calloc(study->nights_most, sizeof *study->forecast->night);
    return study->kept != NULL && study->sorted != NULL && study->came != NULL &&
           study->forecast->night != NULL &&
           dawn_members_draw(&study->members, members, study->plan->seed, study->scenario, weather,
                             study->plan->run.from_s);
}

/* What the members need does not need each other: how the house stands, and what they differ by. */
struct preparation {
    struct study *study;
    const struct dawn_weather *weather;
    struct dawn_problems *problems;
    enum dawn_status status;
    bool reserved;
};
enum { PRESENT, MEMBERS, PREPARATIONS };

static void prepare(size_t job, void *user)
{
    struct preparation *it = user;

    if (job == PRESENT) {
        it->study->start = dawn_forecast_present(it->study->scenario, it->weather, it->study->plan,
                                                 &it->status, it->problems);
    } else {
        it->reserved = reserve(it->study, it->weather);
    }
}

enum dawn_status dawn_forecast_find(struct dawn_forecast *forecast,
                                    const struct dawn_scenario *scenario,
                                    const struct dawn_weather *weather,
                                    const struct dawn_forecast_plan *plan,
                                    struct dawn_problems *problems)
{
    struct study study = {.plan = plan, .scenario = scenario, .forecast = forecast};
    struct preparation it = {.study = &study, .weather = weather, .problems = problems};

    *forecast =
        (struct dawn_forecast){.from_s = plan->run.from_s, .crop_count = scenario->crop_count};
    dawn_parallel_for(PREPARATIONS, plan->threads, prepare, &it);
    enum dawn_status status = it.status;
    if (status == DAWN_OK && !it.reserved) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                          "ask for fewer members", "out of memory for the members of the forecast");
        status = DAWN_ERR_NOMEM;
    }
    if (status == DAWN_OK) {
        status = run_all(&study, weather, problems);
    }
    dawn_members_release(&study.members);
    dawn_problems_release(&study.why);
    free(study.start);
    free(study.kept);
    free(study.sorted);
    free(study.came);
    if (status != DAWN_OK) {
        dawn_forecast_release(forecast);
    }
    return status;
}

void dawn_forecast_release(struct dawn_forecast *forecast)
{
    free(forecast->night);
    *forecast = (struct dawn_forecast){0};
}

const char *dawn_forecast_odds(double chance, size_t members, char out[32])
{
    const double tenths = round(chance * 10.0);

    if (chance <= 0.0) {
        snprintf(out, 32, "fewer than 1 in %zu", members);
    } else if (chance < 0.075) {
        snprintf(out, 32, "1 in %.0f", round(1.0 / chance));
    } else if (chance >= 1.0) {
        snprintf(out, 32, "as good as certain");
    } else {
        snprintf(out, 32, "%.0f in 10", fmin(fmax(tenths, 1.0), 9.0));
    }
    return out;
}
