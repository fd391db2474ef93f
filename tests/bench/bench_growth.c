/* What a fortnight costs with more states, and what more years cost, on one core. The nurseries
 * with other numbers of states are others in other ways too: what they share is the weather. Years
 * are members of the ensemble, each a spring of its own. */
#include <stdio.h>

#include "bench/figures.h"
#include "bench/nursery.h"
#include "bench/race.h"

struct size {
    const char *key, *path;
    const char *const override[1];
    size_t overrides;
};
static const struct size sizes[] = {
    {"20", "scenarios/lean-to-with-barrels.yaml", {NULL}, 0},
    {"40", "scenarios/house-under-snow.yaml", {NULL}, 0},
    {"80", BENCH_DEMO, {NULL}, 0},
    {"160", BENCH_DEMO, {"rock.segments=32"}, 1},
};

static void tell_size(const struct size *size, const struct nursery *it, double one_s,
                      double many_s)
{
    char key[64];
    const double states = (double)dawn_network_node_count(it->network);
    const double days = nursery_lived_days(it->run);
    (void)snprintf(key, sizeof key, "states.%s", size->key);
    bench_figure(key, states, "", "states, about %s (%s)", size->key, size->path);
    (void)snprintf(key, sizeof key, "states.%s.cvode", size->key);
    bench_figure(key, 1e3 * one_s / days, "ms", "%.0f states: a day by CVODE, %ld steps kept",
                 states, dawn_trajectory_facts(it->run).steps);
    (void)snprintf(key, sizeof key, "states.%s.ensemble", size->key);
    bench_figure(key, 1e3 * many_s / days / (double)it->members, "ms",
                 "%.0f states: a day by the ensemble, %ld steps tried", states,
                 it->member_facts.jacobian_evaluations);
}

static bool bench_size(const struct size *size)
{
    struct nursery it;
    const bool open = nursery_open(&it, size->path, NULL, size->override, size->overrides);
    it.plan.from_s = BENCH_WEEKS_FROM_S;
    it.plan.to_s = BENCH_WEEKS_TO_S;
    it.members = (size_t)dawn_ensemble_lanes();
    struct runner both[] = {{.run = nursery_run, .user = &it},
                            {.run = nursery_run_members, .user = &it}};
    const bool ran = open && bench_race(both, 2, 3, false);
    if (ran)
        tell_size(size, &it, both[0].least_s, both[1].least_s);
    nursery_close(&it);
    return ran;
}

static bool bench_years(void)
{
    static const size_t years[] = {1, 10, 100};
    struct nursery it;
    bool fine = nursery_open(&it, BENCH_DEMO, NULL, NULL, 0);
    for (size_t i = 0; fine && i < sizeof years / sizeof *years; ++i) {
        char key[64];
        it.members = years[i];
        struct runner alone = {.run = nursery_run_members, .user = &it};
        fine = bench_race(&alone, 1, i == 0 ? 3 : 1, false);
        (void)snprintf(key, sizeof key, "years.%zu", years[i]);
        if (fine)
            bench_figure(key, alone.least_s, "s", "%zu %s of the demo by the ensemble", years[i],
                         years[i] == 1 ? "spring" : "springs");
    }
    nursery_close(&it);
    return fine;
}

int main(void)
{
    bool fine = true;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; ++i)
        fine = bench_size(&sizes[i]) && fine;
    fine = bench_years() && fine;
    return fine ? 0 : bench_failed("not all of it ran");
}
