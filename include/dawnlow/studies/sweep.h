/* Any keys of a scenario varied over ranges: every combination, or a sample spread evenly. */
#ifndef DAWNLOW_STUDIES_SWEEP_H
#define DAWNLOW_STUDIES_SWEEP_H

#include <stdint.h>

#include "dawnlow/studies/batch.h"
#include "dawnlow/studies/summary.h"
#include "dawnlow/studies/years.h"

enum {
    DAWN_SWEEP_AXES = 8,
    DAWN_SWEEP_WORDS = 32,
    DAWN_SWEEP_ROWS = 1000000,
    DAWN_SWEEP_TEXT = 192
};

/* One key and the values it takes: numbers evenly from..to, or words one by one. */
struct dawn_sweep_axis {
    char key[128];
    char unit[32]; /* behind every number; "" = none */
    double from, to;
    size_t steps; /* values, both ends included; 0 = a range only */
    char words[DAWN_SWEEP_WORDS][DAWN_SWEEP_TEXT / 3]; /* when given one by one: steps of them */
    bool by_words;
};
/* Reads "rock.mass=6 t..24 t/4", "rock.mass=6..24 t" (a range without steps, for samples) or
 * "glazing.south roof.type=film|twin-wall". False with a problem that says what is wrong. */
bool dawn_sweep_axis_parse(struct dawn_sweep_axis *axis, const char *text,
                           struct dawn_problems *problems);

/* What is swept. */
struct dawn_sweep_plan {
    const struct dawn_scenario *scenario;
    struct dawn_years years;
    struct dawn_trajectory_plan run; /* from and to come from the years */
    const struct dawn_sweep_axis *axis;
    size_t axes;
    size_t samples;      /* 0 = every combination; else a Latin hypercube of so many */
    const double *share; /* [row * axes + axis]: the samples' places in their ranges, 0..1 */
    uint64_t seed;       /* they were drawn with */
};
/* The places of a Latin hypercube's samples for plan.share; NULL when memory ran out. The caller
 * frees it. */
double *dawn_sweep_sample(size_t samples, size_t axes, uint64_t seed);
/* How many rows it has; 0 when they are more than DAWN_SWEEP_ROWS. */
size_t dawn_sweep_rows(const struct dawn_sweep_plan *plan);
/* The value of one axis in one row, as text without its unit: "12.5", "film". */
void dawn_sweep_value(const struct dawn_sweep_plan *plan, size_t row, size_t axis,
                      char out[DAWN_SWEEP_TEXT]);
/* The same as a "key=value unit" for a scenario. */
void dawn_sweep_override(const struct dawn_sweep_plan *plan, size_t row, size_t axis,
                         char out[2 * DAWN_SWEEP_TEXT]);
/* Tries every row's values on the scenario, without running any: DAWN_ERR_SCENARIO and why for the
 * first that is refused; DAWN_ERR_USAGE for a key that the weather was read by. */
enum dawn_status dawn_sweep_check(const struct dawn_sweep_plan *plan,
                                  struct dawn_problems *problems);
/* One number for everything a row's result depends on: version, scenario, weather, days, axes. */
uint64_t dawn_sweep_fingerprint(const struct dawn_sweep_plan *plan);

/* What came of a row: the sums over all years. */
struct dawn_sweep_result {
    bool failed; /* the calculation found no result for one of its years */
    struct dawn_summary sum;
};
/* Which rows are run, and who is told. */
struct dawn_sweep_work {
    unsigned threads;
    /* Whether a row is to be run; NULL = all. */
    bool (*wanted)(size_t row, void *user);
    /* A finished row; one at a time, as they finish. */
    void (*row)(size_t row, const struct dawn_sweep_result *result, void *user);
    /* As in a batch; counts runs, not rows. */
    bool (*keep_going)(size_t done, size_t runs, void *user);
    void *user, *keep_going_user;
};
/* Runs them. stopped (may be NULL) tells whether keep_going ended it early. */
enum dawn_status dawn_sweep_run(const struct dawn_sweep_plan *plan,
                                const struct dawn_sweep_work *work, bool *stopped,
                                struct dawn_problems *problems);

#endif
