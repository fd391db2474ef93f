/* Thermostat settings: which to try, and which to recommend. */
#include "dawnlow/studies/setpoint.h"

#include <math.h>
#include <stdlib.h>

#include "studies/setpoint_measure.h"

/* The scenario's own stands in the middle, unless it is one of the others. Gaps of 2 to 5 K keep a
 * fan from starting again and again; margins below 2 K move air for nothing (common practice, no
 * source). */
static const double gaps_K[] = {2.0, 3.0, 5.0};
static const double margins_K[] = {2.0, 4.0, 8.0};
enum { CHOICES = 3 };

static bool same(double a, double b)
{
    return fabs(a - b) < 1e-6;
}

static double choice(const double usual[CHOICES], size_t i, double own)
{
    return i == 1 && !same(own, usual[0]) && !same(own, usual[2]) ? own : usual[i];
}

static const double rests_h = 1.0; /* a fan that runs less in a month does not run */
static const double cools_share = 0.1;

struct study {
    const struct dawn_setpoint_plan *plan;
    struct dawn_setpoint *setpoint;
    struct dawn_trial *trial;
    struct setpoint_measure *measure; /* [row * years + year] */
    struct setpoint_measure *whole;   /* [row] */
    struct dawn_problems why;         /* of the scenario's own setting */
};

/* ---- the settings ---- */

static void add_setting(struct study *study, double on_C, double gap_K, double margin_K)
{
    const size_t row = study->setpoint->count;
    struct dawn_trial *trial = &study->trial[row];
    const struct dawn_setpoint_row *own = &study->setpoint->row[0];
    const double stop_K = same(margin_K, own->margin_K) ? own->stop_margin_K
                                                        : fmin(own->stop_margin_K, 0.5 * margin_K);

    if (row >= DAWN_SETPOINT_MOST) {
        return;
    }
    dawn_trials_set(trial, "fan.on_at=%.6g C", on_C);
    dawn_trials_set(trial, "fan.off_at=%.6g C", on_C - gap_K);
    dawn_trials_set(trial, "fan.start_margin=%.6g K", margin_K);
    dawn_trials_set(trial, "fan.stop_margin=%.6g K", stop_K);
    study->setpoint->row[row] = (struct dawn_setpoint_row){
        .on_C = on_C, .gap_K = gap_K, .margin_K = margin_K, .stop_margin_K = stop_K};
    study->setpoint->count++;
}

static void list_settings(struct study *study, const struct dawn_fan *fan)
{
    const struct dawn_setpoint_plan *plan = study->plan;
    const int steps = (int)floor((plan->most_on_C - plan->least_on_C) / plan->step_K + 1e-6);

    study->setpoint->row[0] = (struct dawn_setpoint_row){.on_C = fan->on_C,
                                                         .gap_K = fan->on_C - fan->off_C,
                                                         .margin_K = fan->start_margin_K,
                                                         .stop_margin_K = fan->stop_margin_K};
    study->setpoint->count = 1;
    for (size_t g = 0; g < CHOICES; g++) {
        for (size_t m = 0; m < CHOICES; m++) {
            for (int i = 0; i <= steps; i++) {
                add_setting(study, plan->least_on_C + i * plan->step_K,
                            choice(gaps_K, g, study->setpoint->row[0].gap_K),
                            choice(margins_K, m, study->setpoint->row[0].margin_K));
            }
        }
    }
}

/* ---- the runs ---- */

static void take(size_t trial, size_t year, const struct dawn_batch_outcome *outcome, void *user)
{
    struct study *study = user;

    dawn_setpoint_measure(&study->measure[trial * study->plan->years->count + year], outcome,
                          study->plan->line_C);
    if (trial == 0) {
        dawn_problems_add_all(&study->why, outcome->problems);
    }
}

static enum dawn_status run_settings(struct study *study, const struct dawn_scenario *scenario,
                                     struct dawn_problems *problems)
{
    const struct dawn_setpoint_plan *plan = study->plan;
    const struct dawn_trials_plan trials = {.scenario = scenario,
                                            .years = plan->years,
                                            .run = plan->run,
                                            .count = study->setpoint->count,
                                            .trial = study->trial,
                                            .threads = plan->threads,
                                            .take = take,
                                            .keep_going = plan->keep_going,
                                            .keep_going_user = plan->user,
                                            .user = study};

    return dawn_trials_run(&trials, &study->setpoint->stopped, problems);
}

/* Every row's years in their order, so that sums do not depend on who finished first. */
static void join_years(struct study *study)
{
    const size_t years = study->plan->years->count;
    struct dawn_summary *sum = calloc(years + 1, sizeof *sum);

    for (size_t i = 0; sum != NULL && i < study->setpoint->count; i++) {
        for (size_t y = 0; y < years; y++) {
            dawn_setpoint_measure_join(&study->whole[i], &study->measure[i * years + y]);
            sum[y] = study->measure[i * years + y].row.sum;
        }
        dawn_summary_of_years(&study->whole[i].row.sum, sum, years);
    }
    free(sum);
}

static void fill_row(struct dawn_setpoint_row *row, const struct setpoint_measure *whole,
                     bool by_air)
{
    const struct dawn_setpoint_row setting = *row;

    *row = whole->row;
    row->on_C = setting.on_C;
    row->gap_K = setting.gap_K;
    row->margin_K = setting.margin_K;
    row->stop_margin_K = setting.stop_margin_K;
    row->failed = !whole->known || whole->status != DAWN_OK;
    if (row->failed) {
        return;
    }
    for (int i = 0; i < DAWN_SETPOINT_MONTHS; i++) {
        row->starts_a_day += row->month[i].starts / whole->days;
        row->cooling_h += row->month[i].cooling_h;
        if (by_air) {
            row->month[i].cold_C = whole->month_air_cold_C[i];
        }
    }
    row->cold = whole->years > 1 ? whole->cold_years : whole->cold_nights;
    if (by_air) {
        row->cold_C = whole->air_cold_C;
        row->cold = whole->years > 1 ? whole->air_cold_years : whole->air_cold_nights;
    }
}

static void fill_rows(struct study *study)
{
    struct dawn_setpoint *setpoint = study->setpoint;

    for (size_t i = 0; i < setpoint->count; i++) {
        setpoint->by_air = setpoint->by_air || study->whole[i].held;
    }
    for (size_t i = 0; i < setpoint->count; i++) {
        fill_row(&setpoint->row[i], &study->whole[i], setpoint->by_air);
    }
    setpoint->at_trays = study->whole[0].at_trays;
    setpoint->nights = study->whole[0].nights;
    setpoint->days = study->whole[0].days;
    setpoint->years = study->whole[0].years;
}

/* ---- the choice ---- */

/* What a row is judged by: the whole run (month < 0) or one month of it. */
struct worth {
    double below, cold_C, kWh, starts;
};
static struct worth worth_of(const struct dawn_setpoint_row *row, int month)
{
    if (month < 0) {
        return (struct worth){row->below, row->cold_C, row->sum.fan_kWh, row->starts_a_day};
    }
    const struct dawn_setpoint_month *it = &row->month[month];
    return (struct worth){(double)it->below, it->cold_C, it->fan_kWh, it->starts};
}

static bool like(const struct dawn_setpoint_row *row, const struct dawn_setpoint_row *other)
{
    return other == NULL ||
           (fabs(row->gap_K - other->gap_K) < 1e-9 && fabs(row->margin_K - other->margin_K) < 1e-9);
}

/* Least electricity, then fewest starts, then the lower start, so that the choice is one. */
static bool cheaper(const struct worth *worth, const struct worth *than)
{
    if (fabs(worth->kWh - than->kWh) > 1e-6) {
        return worth->kWh < than->kWh;
    }
    return worth->starts < than->starts - 1e-9;
}

/* The best of the rows with gap and margin like another's (NULL = of all). */
static size_t choose(const struct dawn_setpoint *setpoint, int month,
                     const struct dawn_setpoint_row *other)
{
    double fewest = INFINITY;
    double warmest_C = -INFINITY;
    size_t best = setpoint->count;

    for (size_t i = 0; i < setpoint->count; i++) {
        const struct worth worth = worth_of(&setpoint->row[i], month);
        if (setpoint->row[i].failed || !like(&setpoint->row[i], other)) {
            continue;
        }
        if (worth.below < fewest) {
            fewest = worth.below;
            warmest_C = worth.cold_C;
        } else if (worth.below <= fewest) {
            warmest_C = fmax(warmest_C, worth.cold_C);
        }
    }
    for (size_t i = 0; i < setpoint->count; i++) {
        const struct worth worth = worth_of(&setpoint->row[i], month);
        if (setpoint->row[i].failed || !like(&setpoint->row[i], other) || worth.below > fewest ||
            worth.cold_C < warmest_C - DAWN_SETPOINT_FLAT_K) {
            continue;
        }
        const struct worth held =
            worth_of(&setpoint->row[best < setpoint->count ? best : i], month);
        if (best == setpoint->count || cheaper(&worth, &held)) {
            best = i;
        }
    }
    return best;
}

/* The stretch of starts around a row, with its gap and margin, that are as good. */
static void flat_region(const struct dawn_setpoint *setpoint, int month, size_t best,
                        double *from_C, double *to_C)
{
    const struct dawn_setpoint_row *chosen = &setpoint->row[best];
    const struct worth have = worth_of(chosen, month);
    double below_C = -INFINITY; /* nearest start on either side that is not as good */
    double above_C = INFINITY;

    for (int pass = 0; pass < 2; pass++) {
        *from_C = *to_C = chosen->on_C;
        for (size_t i = 0; i < setpoint->count; i++) {
            const struct dawn_setpoint_row *row = &setpoint->row[i];
            const struct worth worth = worth_of(row, month);
            if (row->failed || !like(row, chosen)) {
                continue;
            }
            const bool good =
                worth.below <= have.below && worth.cold_C >= have.cold_C - DAWN_SETPOINT_FLAT_K;
            if (!good && row->on_C < chosen->on_C) {
                below_C = fmax(below_C, row->on_C);
            } else if (!good) {
                above_C = fmin(above_C, row->on_C);
            } else if (row->on_C > below_C && row->on_C < above_C) {
                *from_C = fmin(*from_C, row->on_C);
                *to_C = fmax(*to_C, row->on_C);
            }
        }
    }
}

static bool makes_no_difference(const struct dawn_setpoint *setpoint)
{
    const struct worth own = worth_of(&setpoint->row[0], -1);

    for (size_t i = 1; i < setpoint->count; i++) {
        const struct worth worth = worth_of(&setpoint->row[i], -1);
        if (!setpoint->row[i].failed && (fabs(worth.cold_C - own.cold_C) > DAWN_SETPOINT_FLAT_K ||
                                         fabs(worth.below - own.below) > 0.5)) {
            return false;
        }
    }
    return true;
}

static void advise(struct dawn_setpoint *setpoint)
{
    setpoint->no_difference = makes_no_difference(setpoint);
    setpoint->best = choose(setpoint, -1, NULL);
    if (setpoint->best == setpoint->count) {
        return;
    }
    const struct dawn_setpoint_row *chosen = &setpoint->row[setpoint->best];
    flat_region(setpoint, -1, setpoint->best, &setpoint->from_C, &setpoint->to_C);
    for (int i = 0; i < DAWN_SETPOINT_MONTHS; i++) {
        struct dawn_setpoint_advice *advice = &setpoint->month[i];
        const struct dawn_setpoint_month *own = &setpoint->row[0].month[i];
        advice->known = own->nights > 0;
        if (!advice->known) {
            continue;
        }
        const size_t best = choose(setpoint, i, chosen);
        advice->on_C = setpoint->row[best].on_C;
        flat_region(setpoint, i, best, &advice->from_C, &advice->to_C);
        advice->never_runs = own->fan_h < rests_h;
        advice->advice_rests = chosen->month[i].fan_h < rests_h;
        advice->cools = own->cooling_h > cools_share * own->day_fan_h && own->cooling_h >= rests_h;
    }
}

static enum dawn_status judge(struct study *study, struct dawn_problems *problems)
{
    struct dawn_setpoint *setpoint = study->setpoint;

    dawn_problems_add_all(problems, &study->why);
    if (!study->measure[0].known) {
        return DAWN_OK; /* stopped before the first */
    }
    join_years(study);
    if (study->whole[0].status != DAWN_OK) {
        return study->whole[0].status;
    }
    fill_rows(study);
    if (setpoint->nights > 0.0) {
        advise(setpoint);
    }
    return DAWN_OK;
}

enum dawn_status dawn_setpoint_find(struct dawn_setpoint *setpoint,
                                    const struct dawn_scenario *scenario,
                                    const struct dawn_setpoint_plan *plan,
                                    struct dawn_problems *problems)
{
    const size_t runs = (size_t)DAWN_SETPOINT_MOST * plan->years->count;
    struct study study = {.plan = plan,
                          .setpoint = setpoint,
                          .trial = calloc(DAWN_SETPOINT_MOST, sizeof *study.trial),
                          .measure = calloc(runs, sizeof *study.measure),
                          .whole = calloc(DAWN_SETPOINT_MOST, sizeof *study.whole)};
    enum dawn_status status = DAWN_ERR_NOMEM;

    *setpoint = (struct dawn_setpoint){.row = calloc(DAWN_SETPOINT_MOST, sizeof *setpoint->row)};
    if (study.trial != NULL && study.measure != NULL && study.whole != NULL &&
        setpoint->row != NULL) {
        list_settings(&study, &scenario->fan);
        setpoint->best = setpoint->count;
        status = run_settings(&study, scenario, problems);
    }
    if (status == DAWN_OK) {
        status = judge(&study, problems);
    }
    free(study.trial);
    free(study.measure);
    free(study.whole);
    dawn_problems_release(&study.why);
    return status;
}

void dawn_setpoint_release(struct dawn_setpoint *setpoint)
{
    free(setpoint->row);
    *setpoint = (struct dawn_setpoint){.row = NULL};
}
