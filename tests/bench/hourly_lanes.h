/* To be included by one file for each width and processor, with DAWN_LANES set, like the engine's
 * ensemble_lanes.h, whose step it takes. */
#ifndef BENCH_HOURLY_LANES_H
#define BENCH_HOURLY_LANES_H

/* The engine's own loop, its step control and judge are in there too and not wanted here. */
#pragma GCC diagnostic ignored "-Wunused-function"
#include "bench/hourly.h"
#include "trajectory/ensemble_lanes.h"

/* An hour's beginning in every lane, and the weather at its end; the fan by the clock, a third of
 * the day. */
static void begin_hour(struct group *group, const struct hours *hours, long hour)
{
    const size_t nodes = group->shape->nodes;
    for (int at = 0; at < DAWN_LANES; ++at) {
        *in_lane(group->length_s, at) = 3600.0F;
        *in_lane(group->fan, at) = hour % 24 >= 16 ? 1.0F : 0.0F;
        for (size_t i = 0; i < nodes; ++i)
            *in_lane(group->y + i, at) = (float)hours->state[(size_t)hour * nodes + i];
        for (size_t i = 0; i < nodes; ++i)
            *in_lane(group->y_rest + i, at) = 0.0F;
        dawn_ensemble_member_forcing(group->member[at], 3600.0 * (double)(hour + 1),
                                     in_lane(group->forced[1], at), DAWN_LANES);
    }
}

/* Every lane needs a member; what judges steps is the engine's and stays out. */
static bool run_hourly(struct queue *queue, const struct hours *hours)
{
    struct group group;
    int here = begin_group(&group, queue);
    if (!group.block)
        return false;
    for (long hour = 0; here == DAWN_LANES && hour < hours->count; ++hour) {
        begin_hour(&group, hours, hour);
        (void)attempt_step(&group);
        go_on(&group, *group.length_s > 0.0);
    }
    for (int at = 0; at < here; ++at)
        dawn_ensemble_queue_end(queue, group.member[at]);
    free(group.block);
    return here == DAWN_LANES;
}

#endif
