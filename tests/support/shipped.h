/* The nurseries and the weather that are shipped, read as the program reads them, for tests that
 * ask what a grower would see. Include <cmocka.h> (and what it needs) before this file; tests start
 * at the top of the tree. */
#ifndef SUPPORT_SHIPPED_H
#define SUPPORT_SHIPPED_H

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "dawnlow/nights.h"
#include "support/shipped_place.h"

/* The clock of the demo's weather is UTC + 1 h: noon of a day of March 2026 (1 March 2026 00:00 UTC
 * is 1772323200 s). */
static inline int64_t shipped_noon_s(int day_of_march)
{
    return 1772323200 + (int64_t)(day_of_march - 1) * 86400 + 11 * 3600;
}

struct shipped {
    struct dawn_scenario scenario;
    struct dawn_weather weather;
    struct dawn_network *network;
    struct dawn_trajectory *run;
    struct dawn_nights nights;
    struct dawn_problems problems;
};

static inline void shipped_fine(struct shipped *it, enum dawn_status status, const char *what)
{
    if (status == DAWN_OK)
        return;
    for (size_t i = 0; i < it->problems.count; ++i)
        print_error("%s: %s\n", what, it->problems.items[i].message);
    assert_int_equal(status, DAWN_OK);
}

/* overrides are "section.key=value" as --set takes them; it is {0}. */
static inline void shipped_read(struct shipped *it, const char *path, const char *const *overrides,
                                size_t override_count)
{
    shipped_fine(it,
                 dawn_scenario_read(&it->scenario, path, overrides, override_count, &it->problems),
                 path);
    if (it->scenario.weather.file[0] == '\0')
        shipped_move(&it->scenario.site);
    const struct dawn_weather_hints hints = shipped_hints(&it->scenario);
    char file[2 * DAWN_PATH_SIZE];
    shipped_weather_path(file, sizeof file, path, &it->scenario);
    shipped_fine(it, dawn_weather_read(&it->weather, file, &hints, &it->problems), file);
}

static inline void shipped_build(struct shipped *it)
{
    shipped_fine(it, dawn_network_build(&it->network, &it->scenario, &it->weather, &it->problems),
                 "network");
}

static inline void shipped_run(struct shipped *it, const struct dawn_trajectory_plan *plan)
{
    dawn_nights_release(&it->nights);
    dawn_trajectory_free(it->run);
    it->run = NULL;
    shipped_fine(it, dawn_trajectory_run(&it->run, it->network, plan, &it->problems), "run");
    shipped_fine(it,
                 dawn_nights_find(&it->nights, it->run, it->network, &it->scenario, &it->problems),
                 "nights");
}

static inline void shipped_release(struct shipped *it)
{
    dawn_nights_release(&it->nights);
    dawn_trajectory_free(it->run);
    dawn_network_free(it->network);
    dawn_weather_release(&it->weather);
    dawn_scenario_release(&it->scenario);
    dawn_problems_release(&it->problems);
    memset(it, 0, sizeof *it);
}

#endif
