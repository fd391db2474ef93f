#include "bench/nursery.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/memory.h"
#include "support/shipped_place.h"

static bool fine(const struct nursery *nursery, enum dawn_status status)
{
    for (size_t i = 0; status != DAWN_OK && i < nursery->problems.count; ++i)
        if (nursery->problems.items[i].severity == DAWN_ERROR)
            (void)fprintf(stderr, "bench: %s: %s\n", nursery->scenario_path,
                          nursery->problems.items[i].message);
    return status == DAWN_OK;
}

/* The weather that is asked for, else the scenario's own. One without goes to the demo's place. */
static void choose_weather(struct nursery *nursery, const char *weather_path)
{
    if (weather_path)
        (void)snprintf(nursery->weather_path, sizeof nursery->weather_path, "%s", weather_path);
    else
        shipped_weather_path(nursery->weather_path, sizeof nursery->weather_path,
                             nursery->scenario_path, &nursery->scenario);
    if (nursery->scenario.weather.file[0] == '\0')
        shipped_move(&nursery->scenario.site);
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
    const struct dawn_weather_hints hints = shipped_hints(&nursery->scenario);
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
