/* One nursery tried in many ways over the same years: a trial is a handful of values laid over the
 * scenario, as --set would, so that whoever reads of it can run it again. */
#ifndef DAWNLOW_STUDIES_TRIALS_H
#define DAWNLOW_STUDIES_TRIALS_H

#include "dawnlow/studies/batch.h"
#include "dawnlow/studies/years.h"

enum { DAWN_TRIAL_SETS = 24, DAWN_TRIAL_SET_SIZE = 160 };

struct dawn_trial {
    size_t sets;
    char set[DAWN_TRIAL_SETS][DAWN_TRIAL_SET_SIZE]; /* "section.key=value" */
};
/* Adds a printf-formatted "section.key=value", numbers as in the C locale; what does not fit is a
 * mistake of the caller's and makes the trial fail. */
void dawn_trials_set(struct dawn_trial *trial, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

struct dawn_trials_plan {
    const struct dawn_scenario *scenario;
    const struct dawn_years *years;
    struct dawn_trajectory_plan run; /* of every run; from and to come from the year */
    size_t count;
    const struct dawn_trial *trial; /* [count] */
    unsigned threads;
    /* Takes what it needs of a trial's year; one at a time, in no particular order. */
    void (*take)(size_t trial, size_t year, const struct dawn_batch_outcome *outcome, void *user);
    /* Called before each run with how many are done; false = begin no more. NULL = go on. */
    bool (*keep_going)(size_t done, size_t runs, void *user);
    void *keep_going_user;
    void *user; /* of take */
};

/* Runs every trial through every year. stopped (may be NULL): keep_going said no. A trial the
 * scenario's rules refuse has the outcome DAWN_ERR_SCENARIO with the reason. */
enum dawn_status dawn_trials_run(const struct dawn_trials_plan *plan, bool *stopped,
                                 struct dawn_problems *problems);

#endif
