/* Rows of a sweep: their values, and their runs over all years. */
#include "dawnlow/studies/sweep.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "studies/latin.h"

/* ---- values ---- */

double *dawn_sweep_sample(size_t samples, size_t axes, uint64_t seed)
{
    double *share = calloc(samples * axes + 1, sizeof *share);

    if (share != NULL && !dawn_latin_fill(share, samples, axes, seed)) {
        free(share);
        return NULL;
    }
    return share;
}

size_t dawn_sweep_rows(const struct dawn_sweep_plan *plan)
{
    size_t rows = 1;

    if (plan->samples > 0) {
        return plan->samples <= DAWN_SWEEP_ROWS ? plan->samples : 0;
    }
    for (size_t i = 0; i < plan->axes; i++) {
        if (plan->axis[i].steps > DAWN_SWEEP_ROWS / rows) {
            return 0;
        }
        rows *= plan->axis[i].steps;
    }
    return rows;
}

/* Which of its values the axis takes: the last axis turns fastest. */
static size_t step_of(const struct dawn_sweep_plan *plan, size_t row, size_t axis)
{
    for (size_t i = plan->axes - 1; i > axis; i--) {
        row /= plan->axis[i].steps;
    }
    return row % plan->axis[axis].steps;
}

static void write_number(char out[DAWN_SWEEP_TEXT], double value)
{
    /* Nine digits: 0.1 stays 0.1, and no grower measures finer. */
    struct dawn_text text = {0};
    dawn_text_add(&text, "%.9g", value);
    (void)dawn_text_copy(out, DAWN_SWEEP_TEXT, text.data != NULL ? text.data : "");
    dawn_text_release(&text);
}

void dawn_sweep_value(const struct dawn_sweep_plan *plan, size_t row, size_t axis,
                      char out[DAWN_SWEEP_TEXT])
{
    const struct dawn_sweep_axis *it = &plan->axis[axis];
    double share = 0.0;

    if (plan->samples > 0) {
        share = plan->share[row * plan->axes + axis];
        if (it->by_words) {
            (void)dawn_text_copy(out, DAWN_SWEEP_TEXT,
                                 it->words[(size_t)(share * (double)it->steps)]);
            return;
        }
    } else {
        const size_t step = step_of(plan, row, axis);
        if (it->by_words) {
            (void)dawn_text_copy(out, DAWN_SWEEP_TEXT, it->words[step]);
            return;
        }
        share = (double)step / (double)(it->steps - 1);
    }
    write_number(out, it->from + share * (it->to - it->from));
}

void dawn_sweep_override(const struct dawn_sweep_plan *plan, size_t row, size_t axis,
                         char out[2 * DAWN_SWEEP_TEXT])
{
    const struct dawn_sweep_axis *it = &plan->axis[axis];
    char value[DAWN_SWEEP_TEXT];

    dawn_sweep_value(plan, row, axis, value);
    (void)snprintf(out, (size_t)2 * DAWN_SWEEP_TEXT, "%s=%s%s%s", it->key, value,
                   it->unit[0] != '\0' ? " " : "", it->unit);
}

static enum dawn_status scenario_of_row(const struct dawn_sweep_plan *plan, size_t row,
                                        struct dawn_scenario *scenario,
                                        struct dawn_problems *problems)
{
    char text[DAWN_SWEEP_AXES][2 * DAWN_SWEEP_TEXT];
    const char *override[DAWN_SWEEP_AXES];

    for (size_t i = 0; i < plan->axes; i++) {
        dawn_sweep_override(plan, row, i, text[i]);
        override[i] = text[i];
    }
    return dawn_scenario_with(scenario, plan->scenario, override, plan->axes, problems);
}

static void say_row(const struct dawn_sweep_plan *plan, size_t row, struct dawn_problems *problems)
{
    struct dawn_text values = {0};

    for (size_t i = 0; i < plan->axes; i++) {
        char override[2 * DAWN_SWEEP_TEXT];
        dawn_sweep_override(plan, row, i, override);
        dawn_text_add(&values, "%s%s", i > 0 ? ", " : "", override);
    }
    dawn_problems_add(problems, DAWN_NOTE, (struct dawn_place_in_file){0}, NULL,
                      "that is in row %zu of the sweep, with %s", row + 1,
                      values.failed ? "its values" : values.data);
    dawn_text_release(&values);
}

/* What the weather was read by, before the first row: no row could tell a difference. */
static bool is_read_before(const char *key)
{
    static const char *const keys[] = {"site.utc_offset", "site.offset", "site.offset_clear_calm",
                                       "site.offset_spread"};

    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (dawn_text_same(key, keys[i])) {
            return true;
        }
    }
    return dawn_text_starts(key, "weather.");
}

static enum dawn_status check_keys(const struct dawn_sweep_plan *plan,
                                   struct dawn_problems *problems)
{
    for (size_t i = 0; i < plan->axes; i++) {
        if (is_read_before(plan->axis[i].key)) {
            dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                              "one sweep for each value, with --set",
                              "cannot vary '%s': the weather is read by it once, before the rows",
                              plan->axis[i].key);
            return DAWN_ERR_USAGE;
        }
    }
    return DAWN_OK;
}

enum dawn_status dawn_sweep_check(const struct dawn_sweep_plan *plan,
                                  struct dawn_problems *problems)
{
    const size_t rows = dawn_sweep_rows(plan);
    enum dawn_status status = check_keys(plan, problems);

    for (size_t row = 0; row < rows && status == DAWN_OK; row++) {
        struct dawn_scenario scenario;
        status = scenario_of_row(plan, row, &scenario, problems);
        dawn_scenario_release(&scenario);
        if (status == DAWN_ERR_SCENARIO) {
            say_row(plan, row, problems);
        }
    }
    return status;
}

/* ---- runs ---- */

/* A row waits for all its years. */
struct row {
    size_t row, left;
    struct dawn_summary *year; /* one for each */
    bool failed;
};

struct sweep {
    const struct dawn_sweep_plan *plan;
    const struct dawn_sweep_work *work;
    struct row *row;
    size_t rows;
    struct dawn_summary *years;
};

static enum dawn_status vary(size_t index, struct dawn_batch_case *it,
                             struct dawn_problems *problems, void *user)
{
    const struct sweep *sweep = user;
    const struct dawn_years *years = &sweep->plan->years;
    const struct dawn_year *year = &years->year[index % years->count];

    it->weather = *year->weather;
    it->run.from_s = year->from_s;
    it->run.to_s = year->to_s;
    it->own_scenario = true;
    return scenario_of_row(sweep->plan, sweep->row[index / years->count].row, &it->scenario,
                           problems);
}

static struct dawn_sweep_result result_of(const struct row *row, size_t years)
{
    struct dawn_sweep_result result = {.failed = row->failed};

    if (!row->failed) {
        dawn_summary_of_years(&result.sum, row->year, years);
    }
    return result;
}

static void take(size_t index, const struct dawn_batch_outcome *outcome, void *user)
{
    struct sweep *sweep = user;
    const size_t years = sweep->plan->years.count;
    struct row *row = &sweep->row[index / years];

    row->failed = row->failed || outcome->status != DAWN_OK || outcome->nights->count == 0;
    if (!row->failed) {
        dawn_summary_of(&row->year[index % years], outcome->nights, outcome->run, outcome->network);
    }
    if (--row->left == 0) {
        const struct dawn_sweep_result result = result_of(row, years);
        sweep->work->row(row->row, &result, sweep->work->user);
    }
}

static bool keep_going(size_t done, size_t cases, void *user)
{
    const struct sweep *sweep = user;
    const struct dawn_sweep_work *work = sweep->work;

    return work->keep_going == NULL || work->keep_going(done, cases, work->keep_going_user);
}

static enum dawn_status prepare(struct sweep *sweep, struct dawn_problems *problems)
{
    const size_t rows = dawn_sweep_rows(sweep->plan);
    const size_t years = sweep->plan->years.count;

    sweep->row = calloc(rows + 1, sizeof *sweep->row);
    sweep->years = calloc((rows + 1) * years, sizeof *sweep->years);
    if (sweep->row == NULL || sweep->years == NULL) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                          "out of memory for the rows of the sweep");
        return DAWN_ERR_NOMEM;
    }
    for (size_t i = 0; i < rows; i++) {
        if (sweep->work->wanted == NULL || sweep->work->wanted(i, sweep->work->user)) {
            sweep->row[sweep->rows] =
                (struct row){.row = i, .left = years, .year = sweep->years + sweep->rows * years};
            sweep->rows++;
        }
    }
    return DAWN_OK;
}

enum dawn_status dawn_sweep_run(const struct dawn_sweep_plan *plan,
                                const struct dawn_sweep_work *work, bool *stopped,
                                struct dawn_problems *problems)
{
    struct sweep sweep = {.plan = plan, .work = work};
    enum dawn_status status = prepare(&sweep, problems);

    if (status == DAWN_OK) {
        const struct dawn_batch_plan batch = {.scenario = plan->scenario,
                                              .weather = plan->years.year[0].weather,
                                              .run = plan->run,
                                              .cases = sweep.rows * plan->years.count,
                                              .threads = work->threads,
                                              .vary = vary,
                                              .take = take,
                                              .keep_going = keep_going,
                                              .user = &sweep};
        size_t done = 0;
        status = dawn_batch_run(&batch, &done, problems);
        if (stopped != NULL) {
            *stopped = done < batch.cases;
        }
    }
    free(sweep.row);
    free(sweep.years);
    return status;
}
