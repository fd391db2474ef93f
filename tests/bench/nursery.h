/* A nursery and its weather, read as the program reads them, and its runs by either engine. */
#ifndef BENCH_NURSERY_H
#define BENCH_NURSERY_H

#include "dawnlow/dawnlow.h"

#define BENCH_DEMO "scenarios/alder-hollow.yaml"
/* Noon to noon of 8 and 22 March 2026, UTC + 1 h, as `nights --from 03-08 --to 03-22` runs. */
#define BENCH_WEEKS_FROM_S 1772967600
#define BENCH_WEEKS_TO_S   1774177200
#define BENCH_YEAR_S       (365.25 * 86400.0)
enum { BENCH_PATH_SIZE = 2 * DAWN_PATH_SIZE };

struct nursery {
    struct dawn_scenario scenario;
    struct dawn_weather weather;
    struct dawn_network *network;
    struct dawn_trajectory_plan plan; /* of all its runs; as usual when it is opened */
    struct dawn_trajectory *run;      /* the last by CVODE */
    size_t members;                   /* of nursery_run_members */
    struct dawn_trajectory_facts member_facts;
    struct dawn_problems problems;
    const char *scenario_path;
    char weather_path[BENCH_PATH_SIZE];
};

/* Reads scenario, weather and builds the network. Overrides are "section.key=value". weather_path
 * NULL: the scenario's own; one that names none is moved to where the demo's weather is, because
 * its sun must shine by day. False with the reason on standard error. */
bool nursery_open(struct nursery *nursery, const char *scenario_path, const char *weather_path,
                  const char *const *overrides, size_t override_count);
void nursery_close(struct nursery *nursery);

/* Jobs for a race; user is the nursery. */
bool nursery_read_scenario(void *user); /* without overrides */
bool nursery_read_weather(void *user);
bool nursery_build(void *user);
bool nursery_run(void *user);         /* by CVODE, into run */
bool nursery_run_members(void *user); /* members times the same plan at once, nothing kept */
bool nursery_find_nights(void *user); /* of run */

/* The days of a run, those lived through before it included: all of them are work. */
double nursery_lived_days(const struct dawn_trajectory *run);

#endif
