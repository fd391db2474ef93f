/* How near the ensemble comes to what its kernels could do with one step an hour and nothing else:
 * for each hour of weather one Jacobian, one LU, four solves, four sweeps of the rates (hourly.h).
 * In turns with the engine itself, every lane full, over the demo's season without spin-up. Each
 * hour's step begins where CVODE was at that hour. */
#include <stdlib.h>
#include <string.h>

#include "bench/figures.h"
#include "bench/hourly.h"
#include "bench/nursery.h"
#include "bench/race.h"

struct limit {
    struct nursery nursery;
    struct hours hours;
};

/* The same lanes as the engine takes. */
static bool run_in_lanes(struct queue *queue, const struct hours *hours)
{
    switch (dawn_ensemble_lanes()) {
    case 16:
        return bench_hourly_level4(queue, hours);
    case 8:
        return bench_hourly_level3(queue, hours);
    default:
        return bench_hourly_plain(queue, hours);
    }
}

static bool run_engine(void *user)
{
    return nursery_run_members(&((struct limit *)user)->nursery);
}

struct alike {
    const struct nursery *nursery;
    struct dawn_ensemble_member members[16];
    size_t next;
};

static struct dawn_ensemble_member *next_alike(void *user)
{
    struct alike *alike = user;
    if (alike->next == alike->nursery->members)
        return NULL;
    struct dawn_ensemble_member *member = &alike->members[alike->next++];
    *member = (struct dawn_ensemble_member){.network = alike->nursery->network,
                                            .plan = alike->nursery->plan};
    return member;
}

static void forget(struct dawn_ensemble_member *member, void *user)
{
    (void)user;
    dawn_trajectory_free(member->trajectory);
    dawn_problems_release(&member->problems);
}

static bool run_limit(void *user)
{
    struct limit *limit = user;
    struct alike alike = {.nursery = &limit->nursery};
    const struct dawn_ensemble_source source = {
        .count = limit->nursery.members, .next = next_alike, .done = forget, .user = &alike};
    struct feed feed = {.source = &source};
    struct shape *shape = dawn_ensemble_shape_new(limit->nursery.network);
    struct queue queue = {.shape = shape, .feed = &feed};
    const bool fine = shape && run_in_lanes(&queue, &limit->hours);
    dawn_ensemble_shape_free(shape);
    return fine;
}

static void tell(const struct limit *limit, double engine_s, double limit_s)
{
    const double count = (double)limit->nursery.members;
    const double years = (double)limit->hours.count * 3600.0 / BENCH_YEAR_S;
    bench_figure("limit.engine", years * count / engine_s, "years/s",
                 "ensemble without spin-up: nursery-years a second and core");
    bench_figure("limit.limit", years * count / limit_s, "years/s",
                 "the same kernels, really run at one step an hour");
    bench_figure("limit.step", 1e6 * limit_s / (double)limit->hours.count / count, "us",
                 "a step there, for each lane");
    bench_figure("limit.tried",
                 (double)limit->nursery.member_facts.jacobian_evaluations /
                     (double)limit->hours.count,
                 "", "steps the ensemble tries an hour");
    bench_figure("limit.share", 100.0 * limit_s / engine_s, "%",
                 "ensemble: share of the one-step-an-hour limit");
}

/* The states the steps begin at, hour by hour; the caller frees them. */
static double *hourly_states(struct limit *limit)
{
    const struct dawn_network *network = limit->nursery.network;
    const size_t nodes = dawn_network_node_count(network);
    const int64_t from_s = dawn_network_from_s(network);
    limit->hours.count = (long)((dawn_network_to_s(network) - from_s) / 3600);
    double *states = calloc((size_t)limit->hours.count * nodes, sizeof *states);
    if (!states || !nursery_run(&limit->nursery))
        limit->hours.count = 0;
    for (long hour = 0; hour < limit->hours.count; ++hour) {
        int64_t at_s = 0;
        const double *state =
            dawn_trajectory_state_from(limit->nursery.run, (double)(from_s + 3600 * hour), &at_s);
        memcpy(states + (size_t)hour * nodes, state, nodes * sizeof *states);
    }
    limit->hours.state = states;
    return states;
}

int main(void)
{
    struct limit limit;
    if (!nursery_open(&limit.nursery, BENCH_DEMO, NULL, NULL, 0))
        return bench_failed("the demo nursery cannot be read");
    limit.nursery.members = (size_t)dawn_ensemble_lanes();
    limit.nursery.plan.spin_up = false;
    double *states = hourly_states(&limit);
    struct runner both[] = {{.run = run_engine, .user = &limit},
                            {.run = run_limit, .user = &limit}};
    const bool ran = limit.hours.count > 0 && bench_race(both, 2, 3, false);
    if (ran)
        tell(&limit, both[0].least_s, both[1].least_s);
    free(states);
    nursery_close(&limit.nursery);
    return ran ? 0 : bench_failed("the limit could not be run");
}
