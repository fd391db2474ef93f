/* Many runs at once: what every study stands on. A study varies one nursery, the batch runs the
 * cases on several threads, and the study takes from each what it needs. */
#ifndef DAWNLOW_STUDIES_BATCH_H
#define DAWNLOW_STUDIES_BATCH_H

#include "dawnlow/nights.h"

/* One case: copies of the plan's scenario, weather and run, to be changed. What they point to is
 * shared and must not be changed; point to something else instead. */
struct dawn_batch_case {
    struct dawn_scenario scenario;
    bool own_scenario; /* made by dawn_scenario_with: released when the case is done */
    struct dawn_weather weather;
    struct dawn_trajectory_plan run;
};

/* What came of a case. Everything is freed after take returns. */
struct dawn_batch_outcome {
    enum dawn_status status;              /* not DAWN_OK: nights, run and network are NULL */
    const struct dawn_problems *problems; /* why not, and warnings */
    const struct dawn_nights *nights;
    const struct dawn_trajectory *run;
    const struct dawn_network *network;
    const struct dawn_scenario *scenario; /* as it was varied */
};

struct dawn_batch_plan {
    const struct dawn_scenario *scenario;
    const struct dawn_weather *weather;
    struct dawn_trajectory_plan run;
    size_t cases;
    unsigned threads; /* at the same time; 0 counts as 1 */
    /* Makes case `index` out of the copies in *it. Called by several threads at once, each for
     * another case: it only reads what user points to. Another status than DAWN_OK is the case's
     * outcome. */
    enum dawn_status (*vary)(size_t index, struct dawn_batch_case *it,
                             struct dawn_problems *problems, void *user);
    /* Takes what it needs, one case at a time, in no particular order: results go to places of
     * their own by index, so that the number of threads never shows. */
    void (*take)(size_t index, const struct dawn_batch_outcome *outcome, void *user);
    /* Called before each case with how many are done; false = begin no more. NULL = go on. */
    bool (*keep_going)(size_t done, size_t cases, void *user);
    void *user;
};

/* Runs all cases, or as many as keep_going lets. done (may be NULL) is how many were taken: fewer
 * than plan->cases when it was stopped. A case that fails is the study's to judge;
 * DAWN_ERR_NOMEM only when there is no memory for the batch itself. */
enum dawn_status dawn_batch_run(const struct dawn_batch_plan *plan, size_t *done,
                                struct dawn_problems *problems);

#endif
