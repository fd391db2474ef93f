/* Nurseries side by side: only what differs, of what goes in and of what comes out. */
#ifndef DAWNLOW_STUDIES_COMPARE_H
#define DAWNLOW_STUDIES_COMPARE_H

#include "dawnlow/studies/batch.h"
#include "dawnlow/studies/summary.h"
#include "dawnlow/studies/years.h"

enum { DAWN_COMPARE_MOST = 16, DAWN_COMPARE_TEXT = 96 };

/* One nursery and its weather; both must have passed their checks and live on. */
struct dawn_compare_nursery {
    const struct dawn_scenario *scenario;
    struct dawn_years years;
};
struct dawn_compare_plan {
    const struct dawn_compare_nursery *nursery;
    size_t count;                    /* 2 .. DAWN_COMPARE_MOST */
    struct dawn_trajectory_plan run; /* from and to come from the years */
    unsigned threads;
    bool (*keep_going)(size_t done, size_t runs, void *user);
    void *user;
};

/* A value that is not the same in all: "" where a nursery has no such thing. */
struct dawn_compare_input {
    char key[DAWN_COMPARE_TEXT];
    char value[DAWN_COMPARE_MOST][DAWN_COMPARE_TEXT];
    bool given; /* somebody wrote it; else it is a default everywhere */
};
struct dawn_compare {
    size_t count;
    struct dawn_summary sum[DAWN_COMPARE_MOST];
    double cost[DAWN_COMPARE_MOST];         /* to build, at the nursery's own prices */
    double running_cost[DAWN_COMPARE_MOST]; /* electricity over the springs its prices count */
    struct dawn_compare_input *input;       /* in the order of the scenario's table */
    size_t inputs;
    size_t years; /* of weather, where it is least */
    bool stopped;
};
/* Runs all of them over their years. compare is {0} or released before. DAWN_ERR_SOLVER with the
 * reason when one finds no result. */
enum dawn_status dawn_compare_find(struct dawn_compare *compare,
                                   const struct dawn_compare_plan *plan,
                                   struct dawn_problems *problems);
void dawn_compare_release(struct dawn_compare *compare);
/* The nursery with the warmest coldest night; of alike ones the first. */
size_t dawn_compare_warmest(const struct dawn_compare *compare);

#endif
