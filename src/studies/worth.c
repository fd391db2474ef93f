/* Improvements and guesses run one at a time, and ranked. */
#include "dawnlow/studies/worth.h"

#include <math.h>
#include <stdlib.h>

#include "dawnlow/physics/water.h"
#include "dawnlow/studies/cost.h"
#include "dawnlow/studies/return_level.h"
#include "studies/worth_tables.h"

/* What one trial's year says. */
struct outcome {
    bool known;
    enum dawn_status status;
    bool at_trays, held;
    double nights;
    struct dawn_worth_lows lows;
};

enum { TRIALS_MOST = 1 + 3 * DAWN_WORTH_MOST };

struct study {
    const struct dawn_worth_plan *plan;
    struct dawn_trial *trial; /* as it is; the ways; low and high of each guess */
    size_t count;
    struct outcome *outcome;  /* [trial * years + year] */
    struct dawn_problems why; /* of the nursery as it is */
};

/* ---- the runs ---- */

static struct outcome outcome_of(const struct dawn_nights *nights, double line_C)
{
    struct outcome out = {.known = true,
                          .at_trays = nights->at_trays,
                          .nights = (double)nights->count,
                          .lows = {.coldest_C = INFINITY,
                                   .air_coldest_C = INFINITY,
                                   .one_in_10_C = NAN,
                                   .air_one_in_10_C = NAN,
                                   .below_crop = NAN}};

    for (size_t i = 0; i < nights->count; i++) {
        const struct dawn_night *night = &nights->night[i];
        out.lows.coldest_C = fmin(out.lows.coldest_C, night->place_low_C);
        out.lows.air_coldest_C = fmin(out.lows.air_coldest_C, night->air_low_C);
        out.lows.below += night->place_low_C < line_C;
    }
    if (!isnan(nights->crop_line_C)) {
        out.lows.below_crop = (double)dawn_nights_below_crop(nights);
    }
    out.held = out.at_trays && out.lows.coldest_C <= 0.0 &&
               out.lows.coldest_C >= -DAWN_WATER_FREEZING_WIDTH_K;
    return out;
}

static void take(size_t trial, size_t year, const struct dawn_batch_outcome *outcome, void *user)
{
    struct study *study = user;
    struct outcome *out = &study->outcome[trial * study->plan->years->count + year];

    if (outcome->status == DAWN_OK) {
        *out = outcome_of(outcome->nights, study->plan->line_C);
    }
    out->known = true;
    out->status = outcome->status;
    if (trial == 0) {
        dawn_problems_add_all(&study->why, outcome->problems);
    }
}

static enum dawn_status run_trials(struct study *study, struct dawn_worth *worth,
                                   const struct dawn_scenario *scenario,
                                   struct dawn_problems *problems)
{
    const struct dawn_worth_plan *plan = study->plan;
    const struct dawn_trials_plan trials = {.scenario = scenario,
                                            .years = plan->years,
                                            .run = plan->run,
                                            .count = study->count,
                                            .trial = study->trial,
                                            .threads = plan->threads,
                                            .take = take,
                                            .keep_going = plan->keep_going,
                                            .keep_going_user = plan->user,
                                            .user = study};

    return dawn_trials_run(&trials, &worth->stopped, problems);
}

/* The low of one year in ten, from the years of a trial. */
static double one_in_10_C(const struct outcome year[], size_t years, bool air)
{
    double *lows_C = calloc(years + 1, sizeof *lows_C);
    double level_C = NAN;

    for (size_t y = 0; lows_C != NULL && y < years; y++) {
        lows_C[y] = air ? year[y].lows.air_coldest_C : year[y].lows.coldest_C;
    }
    if (lows_C != NULL) {
        const struct dawn_return_level_fit fit = dawn_return_level_fit(lows_C, years);
        level_C = dawn_return_level_C(&fit, 10.0);
    }
    free(lows_C);
    return level_C;
}

/* All years of a trial; false when one is missing or failed. */
static bool join(const struct study *study, size_t trial, struct outcome *whole)
{
    const size_t years = study->plan->years->count;

    *whole = study->outcome[trial * years];
    for (size_t y = 0; y < years; y++) {
        const struct outcome *year = &study->outcome[trial * years + y];
        if (!year->known || year->status != DAWN_OK) {
            whole->status = year->known ? year->status : whole->status;
            return false;
        }
        if (y > 0) {
            whole->nights += year->nights;
            whole->held = whole->held || year->held;
            whole->lows.coldest_C = fmin(whole->lows.coldest_C, year->lows.coldest_C);
            whole->lows.air_coldest_C = fmin(whole->lows.air_coldest_C, year->lows.air_coldest_C);
            whole->lows.below += year->lows.below;
            whole->lows.below_crop += year->lows.below_crop;
        }
    }
    whole->lows.one_in_10_C = one_in_10_C(&study->outcome[trial * years], years, false);
    whole->lows.air_one_in_10_C = one_in_10_C(&study->outcome[trial * years], years, true);
    return true;
}

/* ---- what they come to ---- */

static double judged_C(const struct dawn_worth *worth, const struct dawn_worth_lows *lows)
{
    return worth->by_air ? lows->air_coldest_C : lows->coldest_C;
}

/* Kelvin for the money; what costs nothing comes first, what gains nothing last. */
static double rank_of(const struct dawn_worth_way *way)
{
    if (way->failed) {
        return -INFINITY;
    }
    return way->gain_K > 0.0 ? way->gain_K / fmax(way->cost, 1e-6) : way->gain_K;
}

/* By insertion: a handful of rows, and equal ones keep their order. */
static void sort_ways(struct dawn_worth *worth)
{
    for (size_t i = 1; i < worth->ways; i++) {
        for (size_t k = i; k > 0 && rank_of(&worth->way[k]) > rank_of(&worth->way[k - 1]); k--) {
            const struct dawn_worth_way swap = worth->way[k];
            worth->way[k] = worth->way[k - 1];
            worth->way[k - 1] = swap;
        }
    }
}

static void sort_guesses(struct dawn_worth *worth)
{
    for (size_t i = 1; i < worth->guesses; i++) {
        for (size_t k = i; k > 0 && worth->guess[k].swing_K > worth->guess[k - 1].swing_K; k--) {
            const struct dawn_worth_guess swap = worth->guess[k];
            worth->guess[k] = worth->guess[k - 1];
            worth->guess[k - 1] = swap;
        }
    }
}

static void fill_lows(struct dawn_worth *worth, const struct study *study)
{
    struct outcome out;

    for (size_t i = 0; i < worth->ways; i++) {
        struct dawn_worth_way *way = &worth->way[i];
        way->failed = !join(study, 1 + i, &out);
        way->lows = out.lows;
        worth->by_air = worth->by_air || (!way->failed && out.held);
    }
    for (size_t i = 0; i < worth->guesses; i++) {
        struct dawn_worth_guess *guess = &worth->guess[i];
        const size_t at = 1 + worth->ways + 2 * i;
        guess->failed = !join(study, at, &out);
        guess->at_low = out.lows;
        worth->by_air = worth->by_air || (!guess->failed && out.held);
        guess->failed = !join(study, at + 1, &out) || guess->failed;
        guess->at_high = out.lows;
        worth->by_air = worth->by_air || (!guess->failed && out.held);
    }
}

static void judge_rows(struct dawn_worth *worth)
{
    const double now_C = judged_C(worth, &worth->as_it_is);

    for (size_t i = 0; i < worth->ways; i++) {
        struct dawn_worth_way *way = &worth->way[i];
        way->gain_K = way->failed ? NAN : judged_C(worth, &way->lows) - now_C;
        way->nights_less = way->failed ? NAN : worth->as_it_is.below - way->lows.below;
    }
    for (size_t i = 0; i < worth->guesses; i++) {
        struct dawn_worth_guess *guess = &worth->guess[i];
        guess->swing_K =
            guess->failed
                ? -1.0
                : fabs(judged_C(worth, &guess->at_high) - judged_C(worth, &guess->at_low));
    }
    sort_ways(worth);
    sort_guesses(worth);
}

static enum dawn_status judge(struct dawn_worth *worth, const struct study *study,
                              struct dawn_problems *problems)
{
    struct outcome own;

    dawn_problems_add_all(problems, &study->why);
    if (!join(study, 0, &own)) {
        worth->ways = worth->guesses = 0;
        return own.status;
    }
    worth->nights = own.nights;
    worth->at_trays = own.at_trays;
    worth->as_it_is = own.lows;
    worth->by_air = own.held;
    if (own.nights <= 0.0) {
        worth->ways = worth->guesses = 0;
        return DAWN_OK;
    }
    fill_lows(worth, study);
    judge_rows(worth);
    return DAWN_OK;
}

/* ---- the study ---- */

/* What a way's amounts cost more than what is there, beside what it costs by itself. */
static void add_cost(struct dawn_worth_way *way, const struct dawn_scenario *scenario)
{
    const char *set[DAWN_TRIAL_SETS];
    struct dawn_problems unheard = {0};
    struct dawn_scenario with;

    for (size_t i = 0; i < way->trial.sets && i < DAWN_TRIAL_SETS; i++) {
        set[i] = way->trial.set[i];
    }
    if (dawn_scenario_with(&with, scenario, set, way->trial.sets, &unheard) == DAWN_OK) {
        way->cost += dawn_cost_of(&with).total - dawn_cost_of(scenario).total;
    }
    dawn_scenario_release(&with);
    dawn_problems_release(&unheard);
}

static void list_trials(struct study *study, struct dawn_worth *worth,
                        const struct dawn_scenario *scenario)
{
    worth->ways = dawn_worth_ways(worth->way, scenario);
    worth->guesses = dawn_worth_guesses(worth->guess, scenario);
    study->count = 1;
    for (size_t i = 0; i < worth->ways; i++) {
        add_cost(&worth->way[i], scenario);
        study->trial[study->count++] = worth->way[i].trial;
    }
    for (size_t i = 0; i < worth->guesses; i++) {
        study->trial[study->count++] = worth->guess[i].low;
        study->trial[study->count++] = worth->guess[i].high;
    }
}

enum dawn_status dawn_worth_find(struct dawn_worth *worth, const struct dawn_scenario *scenario,
                                 const struct dawn_worth_plan *plan, struct dawn_problems *problems)
{
    struct study study = {
        .plan = plan,
        .trial = calloc(TRIALS_MOST, sizeof *study.trial),
        .outcome = calloc((size_t)TRIALS_MOST * plan->years->count, sizeof *study.outcome)};
    enum dawn_status status = DAWN_ERR_NOMEM;

    *worth = (struct dawn_worth){.ways = 0};
    if (study.trial != NULL && study.outcome != NULL) {
        list_trials(&study, worth, scenario);
        status = run_trials(&study, worth, scenario, problems);
    }
    if (status == DAWN_OK) {
        status = judge(worth, &study, problems);
    }
    free(study.trial);
    free(study.outcome);
    dawn_problems_release(&study.why);
    return status;
}
