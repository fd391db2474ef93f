/* Designs run through the weather, and the continuous part of one worked out with NLopt. */
#include <math.h>
#include <nlopt.h>
#include <stdlib.h>

#include "studies/size_parts.h"

/* ---- running ---- */

struct running {
    struct size_search *search;
    struct dawn_size_design *design;
    const size_t *index; /* [trial]: which design it is */
    size_t years;
    struct size_low *low; /* [(trial * years + year) * DAWN_SIZE_LOWS], lowest first */
    size_t *low_count;    /* [trial * years + year] */
    size_t *counted;      /* [trial * years + year]: nights that count */
    bool *failed;         /* [trial] */
    double *year_low_C; /* [year] of the trial that is judged; NULL = not all the weather is run */
};

/* Keeps the lowest, by insertion. */
static void keep_low(struct size_low *low, size_t *count, struct size_low it)
{
    if (*count == DAWN_SIZE_LOWS && it.low_C >= low[*count - 1].low_C) {
        return;
    }
    size_t at = *count < DAWN_SIZE_LOWS ? (*count)++ : DAWN_SIZE_LOWS - 1;
    for (; at > 0 && low[at - 1].low_C > it.low_C; at--) {
        low[at] = low[at - 1];
    }
    low[at] = it;
}

static void take(size_t trial, size_t year, const struct dawn_batch_outcome *outcome, void *user)
{
    struct running *running = user;
    const struct dawn_size_plan *plan = running->search->plan;
    const size_t at = trial * running->years + year;

    running->search->finished++;
    if (outcome->status != DAWN_OK) {
        running->failed[trial] = true;
        return;
    }
    for (size_t i = 0; i < outcome->nights->count; i++) {
        const struct dawn_night *night = &outcome->nights->night[i];
        if (dawn_goal_counts(&plan->goal, outcome->scenario, night)) {
            running->counted[at]++;
            keep_low(&running->low[at * DAWN_SIZE_LOWS], &running->low_count[at],
                     (struct size_low){dawn_goal_low_C(&plan->goal, night), night->dusk_s});
        }
    }
}

static bool keep_going(size_t done, size_t runs, void *user)
{
    struct size_search *search = user;
    const struct dawn_size_plan *plan = search->plan;

    (void)done;
    (void)runs;
    if (search->expected <= search->finished) {
        search->expected = search->finished + 1;
    }
    if (!search->stopped && plan->keep_going != NULL) {
        search->stopped = !plan->keep_going(search->finished, search->expected, plan->user);
    }
    return !search->stopped;
}

/* What all the weather says beyond the night that decides. lows are the lowest of all years. */
static void bear_out(const struct running *running, size_t trial, const struct size_low lows[],
                     size_t count)
{
    for (size_t y = 0; y < running->years; y++) {
        const size_t at = trial * running->years + y;
        running->year_low_C[y] =
            running->low_count[at] > 0 ? running->low[at * DAWN_SIZE_LOWS].low_C : NAN;
    }
    dawn_size_band(&running->design[running->index[trial]], lows, count, running->year_low_C,
                   running->years);
}

/* All years of a trial together: the night that decides is the lowest after those allowed. */
static void judge(const struct running *running, size_t trial, struct size_low lows[])
{
    struct dawn_size_design *design = &running->design[running->index[trial]];
    const struct size_search *search = running->search;
    struct size_low all[DAWN_SIZE_LOWS];
    size_t count = 0;

    for (size_t y = 0; y < running->years; y++) {
        const size_t at = trial * running->years + y;
        for (size_t i = 0; i < running->low_count[at]; i++) {
            keep_low(all, &count, running->low[at * DAWN_SIZE_LOWS + i]);
        }
    }
    dawn_size_unborne(design);
    design->nights = 0;
    for (size_t y = 0; y < running->years; y++) {
        design->nights += running->counted[trial * running->years + y];
    }
    design->failed = running->failed[trial] || count == 0;
    if (design->failed) {
        design->slack_K = design->low_C = NAN;
        return;
    }
    const struct size_low *decides = &all[search->allowed < count ? search->allowed : count - 1];
    design->low_C = decides->low_C;
    design->night_s = decides->dusk_s;
    design->slack_K = decides->low_C - search->plan->goal.line_C;
    if (running->year_low_C != NULL) {
        bear_out(running, trial, all, count);
    }
    for (size_t i = 0; lows != NULL && i < DAWN_SIZE_LOWS; i++) {
        lows[i] = i < count ? all[i] : (struct size_low){NAN, 0};
    }
}

/* Spells are lived up to in fewer days than the house's own spin-up where that is long: the proof
 * over all the weather makes good what that leaves out. */
static const double lead_d = 10.0;

static size_t list_trials(struct size_search *search, const struct dawn_size_design *design,
                          size_t count, bool spells, struct dawn_trial *trial, size_t *index)
{
    const bool shorter = spells && search->scenario->start.spin_up_s > lead_d * 86400.0;

    size_t trials = 0;

    for (size_t i = 0; i < count; i++) {
        if (design[i].excluded == NULL) {
            trial[trials] = design[i].trial;
            if (shorter) {
                dawn_trials_set(&trial[trials], "start.spin_up=%g d", lead_d);
            }
            index[trials++] = i;
        }
    }
    search->tried += trials;
    search->excluded += count - trials;
    return trials;
}

void dawn_size_run(struct size_search *search, struct dawn_size_design *design, size_t count,
                   const struct dawn_years *years, unsigned threads, struct size_low *lows,
                   struct dawn_problems *problems)
{
    const size_t runs = (count + 1) * years->count;
    const bool whole = years == search->plan->years;
    struct dawn_trial *trial = calloc(count + 1, sizeof *trial);
    size_t *index = calloc(count + 1, sizeof *index);
    struct running running = {.search = search,
                              .design = design,
                              .index = index,
                              .years = years->count,
                              .low = calloc(runs * DAWN_SIZE_LOWS, sizeof *running.low),
                              .low_count = calloc(runs, sizeof *running.low_count),
                              .counted = calloc(runs, sizeof *running.counted),
                              .failed = calloc(count + 1, sizeof *running.failed),
                              .year_low_C =
                                  whole ? calloc(years->count, sizeof *running.year_low_C) : NULL};

    if (trial == NULL || index == NULL || running.low == NULL || running.low_count == NULL ||
        running.counted == NULL || running.failed == NULL ||
        (whole && running.year_low_C == NULL)) {
        search->no_memory = search->stopped = true;
    } else {
        struct dawn_trials_plan plan = {
            .scenario = search->scenario,
            .years = years,
            .run = search->plan->run,
            .count = list_trials(search, design, count, years == &search->spells, trial, index),
            .trial = trial,
            .threads = threads,
            .take = take,
            .keep_going = keep_going,
            .keep_going_user = search,
            .user = &running};
        plan.run.fast = plan.run.fast && !search->closely;
        if (plan.count > 0 && dawn_trials_run(&plan, NULL, problems) != DAWN_OK) {
            search->no_memory = search->stopped = true;
        }
        for (size_t i = 0; i < plan.count && !search->stopped; i++) {
            judge(&running, i, lows == NULL ? NULL : &lows[index[i] * DAWN_SIZE_LOWS]);
        }
    }
    free(trial);
    free(index);
    free(running.low);
    free(running.low_count);
    free(running.counted);
    free(running.failed);
    free(running.year_low_C);
}

/* ---- NLopt ---- */

enum { EVALUATIONS_MOST = 16 };

struct polish {
    struct size_search *search;
    struct dawn_size_design now, best;
    size_t lever[DAWN_SIZE_KINDS]; /* [dimension] */
    unsigned dimensions;
    double margin_K, scale; /* of cost */
    double at[DAWN_SIZE_KINDS];
    bool run;
};

/* Each evaluation is a run; the constraint asks at the same place as the cost. */
static void look_at(struct polish *polish, const double x[])
{
    bool same = polish->run;

    for (unsigned i = 0; i < polish->dimensions; i++) {
        same = same && polish->at[i] == x[i];
    }
    if (same) {
        return;
    }
    for (unsigned i = 0; i < polish->dimensions; i++) {
        const struct dawn_size_lever *lever = &polish->search->plan->lever[polish->lever[i]];
        polish->at[i] = x[i];
        polish->now.value[polish->lever[i]] = lever->least + x[i] * (lever->most - lever->least);
    }
    struct dawn_problems unheard = {0};
    dawn_size_make(&polish->now, polish->search);
    dawn_size_run(polish->search, &polish->now, 1, &polish->search->spells, 1, NULL, &unheard);
    dawn_problems_release(&unheard);
    polish->run = true;
    if (polish->now.excluded == NULL && !polish->now.failed &&
        polish->now.slack_K >= polish->margin_K &&
        polish->now.cost.total < polish->best.cost.total) {
        polish->best = polish->now;
    }
}

/* The form NLopt calls. */
/* NOLINTNEXTLINE(readability-non-const-parameter) */
static double cost_at(unsigned n, const double *x, double *gradient, void *user)
{
    struct polish *polish = user;

    (void)n;
    (void)gradient; /* COBYLA asks for none */
    look_at(polish, x);
    return isnan(polish->now.cost.total) ? 10.0 : polish->now.cost.total / polish->scale;
}

/* NOLINTNEXTLINE(readability-non-const-parameter) */
static double lack_at(unsigned n, const double *x, double *gradient, void *user)
{
    struct polish *polish = user;

    (void)n;
    (void)gradient;
    look_at(polish, x);
    if (polish->now.excluded != NULL || polish->now.failed) {
        return 10.0;
    }
    return polish->margin_K - polish->now.slack_K;
}

static void optimise(struct polish *polish)
{
    nlopt_opt opt = nlopt_create(NLOPT_LN_COBYLA, polish->dimensions);
    double x[DAWN_SIZE_KINDS];
    double lowest = 0.0;

    if (opt == NULL) {
        return;
    }
    for (unsigned i = 0; i < polish->dimensions; i++) {
        const struct dawn_size_lever *lever = &polish->search->plan->lever[polish->lever[i]];
        x[i] = fmin(fmax((polish->best.value[polish->lever[i]] - lever->least) /
                             (lever->most - lever->least),
                         0.0),
                    1.0);
    }
    (void)nlopt_set_lower_bounds1(opt, 0.0);
    (void)nlopt_set_upper_bounds1(opt, 1.0);
    (void)nlopt_set_initial_step1(opt, 0.15);
    (void)nlopt_set_min_objective(opt, cost_at, polish);
    (void)nlopt_add_inequality_constraint(opt, lack_at, polish, 1e-4);
    (void)nlopt_set_xtol_abs1(opt, 0.01);
    (void)nlopt_set_maxeval(opt, EVALUATIONS_MOST);
    (void)nlopt_optimize(opt, x, &lowest); /* what it came by is kept in best, however it ended */
    nlopt_destroy(opt);
}

void dawn_size_polish(struct size_search *search, struct dawn_size_design *design, double margin_K)
{
    struct polish polish = {.search = search,
                            .now = *design,
                            .best = *design,
                            .margin_K = margin_K,
                            .scale = fmax(design->cost.total, 1.0)};

    for (size_t i = 0; i < search->plan->levers; i++) {
        if (search->plan->lever[i].continuous) {
            polish.lever[polish.dimensions++] = i;
        }
    }
    if (polish.dimensions > 0) {
        optimise(&polish);
    }
    *design = polish.best;
}
