/* The coming nights run once, as forecast and with nothing done: the curves of a page. */
#ifndef CLI_COMING_NIGHTS_H
#define CLI_COMING_NIGHTS_H

#include "cli/study.h"
#include "dawnlow/studies/forecast.h"

/* {0} to start. */
struct dawn_coming_nights {
    struct dawn_network *network;
    struct dawn_trajectory *run;
    struct dawn_nights nights;
    struct dawn_ledger ledger;
    const struct dawn_night *explained;
    double *start;
};
/* Lives through the past, for the study and these nights: plan->run.start is the house as it stands
 * now. Only where the study writes a page: else nothing is done. */
enum dawn_status dawn_coming_nights_begin(struct dawn_coming_nights *coming,
                                          const struct dawn_study *study,
                                          struct dawn_forecast_plan *plan,
                                          struct dawn_problems *problems);
/* Runs the plan's time from the house as it stands now, with a series, and a ledger of the night
 * that begins at dusk_s. Nothing is done unless they were begun. */
enum dawn_status dawn_coming_nights_find(struct dawn_coming_nights *coming,
                                         const struct dawn_study *study,
                                         const struct dawn_forecast_plan *plan, int64_t dusk_s,
                                         struct dawn_problems *problems);
/* For the page; it points into coming and study. */
struct dawn_nights_story dawn_coming_nights_story(const struct dawn_coming_nights *coming,
                                                  const struct dawn_study *study);
void dawn_coming_nights_release(struct dawn_coming_nights *coming);

#endif
