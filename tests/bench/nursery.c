#include "bench/nursery.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/memory.h"

static bool fine(const struct nursery *nursery, enum dawn_status status)
{
    for (size_t i = 0; status != DAWN_OK && i < nursery->problems.count; ++i)
        if (nursery->problems.items[i].severity == DAWN_ERROR)
            (void)fprintf(stderr, "bench: %s: %s\n", nursery->scenario_path,
                          nursery->problems.items[i].message);
    return status == DAWN_OK;
}

/* Where the scenario's own weather lies. One without goes to the demo's place. */
static void choose_weather(struct nursery *nursery, const char *weather_path)
{
    const char *own = nursery->scenario.weather.file;
    const char *slash = strrchr(nursery->scenario_path, '/');
    const int folder = slash ? (int)(slash - nursery->scenario_path) + 1 : 0;
    if (weather_path || own[0] == '\0')
        (void)snprintf(nursery->weather_path, sizeof nursery->weather_path, "%s",
                       weather_path ? weather_path : BENCH_WEATHER);
    else
        (void)snprintf(nursery->weather_path, sizeof nursery->weather_path, "%.*s%s", folder,
                       nursery->scenario_path, own);
    if (own[0] != '\0')
        return;
    nursery->scenario.site.latitude_deg = 45.2;
    nursery->scenario.site.longitude_deg = 6.9;
    nursery->scenario.site.elevation_m = 480;
    nursery->scenario.site.utc_offset_h = 1;
}

static bool read_scenario_with(struct nursery *nursery, const char *const *overrides,
                               size_t override_count)
{
    dawn_scenario_release(&nursery->scenario);
    return fine(nursery, dawn_scenario_read(&nursery->scenario, nursery->scenario_path, overrides,
                                            override_count, &nursery->problems));
}

bool nursery_open(struct nursery *nursery, const char *scenario_path, const char *weather_path,
                  const char *const *overrides, size_t override_count)
{
    *nursery =
        (struct nursery){.scenario_path = scenario_path, .plan = dawn_trajectory_plan_usual()};
    dawn_memory_keep(); /* as the program does */
    if (!read_scenario_with(nursery, overrides, override_count))
        return false;
    choose_weather(nursery, weather_path);
    return nursery_read_weather(nursery) && nursery_build(nursery);
}

void nursery_close(struct nursery *nursery)
{
    dawn_trajectory_free(nursery->run);
    dawn_network_free(nursery->network);
    dawn_weather_release(&nursery->weather);
    dawn_scenario_release(&nursery->scenario);
    dawn_problems_release(&nursery->problems);
}

bool nursery_read_scenario(void *user)
{
    return read_scenario_with(user, NULL, 0);
}

bool nursery_read_weather(void *user)
{
    struct nursery *nursery = user;
    const struct dawn_site *site = &nursery->scenario.site;
    const struct dawn_weather_wish *wish = &nursery->scenario.weather;
    const struct dawn_weather_hints hints = {.latitude_deg = site->latitude_deg,
                                             .longitude_deg = site->longitude_deg,
                                             .elevation_m = site->elevation_m,
                                             .utc_offset_h = wish->utc_offset_h,
                                             .site_utc_offset_h = site->utc_offset_h,
                                             .stamp = wish->stamp - 1,
                                             .temperature_unit = wish->temperature_unit};
    return fine(nursery, dawn_weather_read(&nursery->weather, nursery->weather_path, &hints,
                                           &nursery->problems));
}

bool nursery_build(void *user)
{
    struct nursery *nursery = user;
    dawn_network_free(nursery->network);
    nursery->network = NULL;
    return fine(nursery, dawn_network_build(&nursery->network, &nursery->scenario,
                                            &nursery->weather, &nursery->problems));
}

bool nursery_run(void *user)
{
    struct nursery *nursery = user;
    dawn_trajectory_free(nursery->run);
    nursery->run = NULL;
    return fine(nursery, dawn_trajectory_run(&nursery->run, nursery->network, &nursery->plan,
                                             &nursery->problems));
}

bool nursery_run_members(void *user)
{
    struct nursery *nursery = user;
    struct dawn_ensemble_member *members = calloc(nursery->members, sizeof *members);
    bool all = members != NULL;
    for (size_t i = 0; members && i < nursery->members; ++i) {
        members[i].network = nursery->network;
        members[i].plan = nursery->plan;
    }
    if (members)
        dawn_ensemble_run(members, nursery->members);
    for (size_t i = 0; members && i < nursery->members; ++i) {
        all = all && members[i].status == DAWN_OK;
        if (members[i].status == DAWN_OK)
            nursery->member_facts = dawn_trajectory_facts(members[i].trajectory);
        dawn_trajectory_free(members[i].trajectory);
        dawn_problems_release(&members[i].problems);
    }
    free(members);
    return all;
}

bool nursery_find_nights(void *user)
{
    struct nursery *nursery = user;
    struct dawn_nights nights = {0};
    const enum dawn_status status = dawn_nights_find(&nights, nursery->run, nursery->network,
                                                     &nursery->scenario, &nursery->problems);
    dawn_nights_release(&nights);
    return fine(nursery, status);
}

double nursery_lived_days(const struct dawn_trajectory *run)
{
    const struct dawn_trajectory_facts facts = dawn_trajectory_facts(run);
    return (double)(dawn_trajectory_to_s(run) - dawn_trajectory_from_s(run)) / 86400.0 +
           facts.lead_days + facts.spin_up_days;
}
