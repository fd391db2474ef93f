/* Networks of a few nodes under hand-made weather, for closed forms. */
#ifndef SUPPORT_TINY_H
#define SUPPORT_TINY_H

#include <stdlib.h>

#include "dawnlow/trajectory.h"
#include "network/network_parts.h"

/* Settles a hand-made network and gives it hours of constant outdoor air. Gains stay zero until
 * the test writes forcing.gain_W. */
static inline void tiny_finish(struct dawn_network *net, size_t hours, double air_C)
{
    assert_true(dawn_network_finish(net));
    assert_true(dawn_network_forcing_allocate(&net->forcing, hours * FORCING_PER_HOUR + 1,
                                              net->gain_count, net->cover_count));
    for (size_t i = 0; i < net->forcing.knots; ++i)
        net->forcing.air_C[i] = net->forcing.edge_C[i] = net->forcing.deep_C[i] = air_C;
}

/* Runs all the weather from a start state at a tight tolerance, all node temperatures kept every
 * step_s. */
static inline struct dawn_trajectory *tiny_run(const struct dawn_network *net, const double start[],
                                               double step_s, bool fan_allowed)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    plan.rtol = 1e-10;
    plan.atol_K = 1e-10;
    plan.spin_up = false;
    plan.start = start;
    plan.series_step_s = step_s;
    plan.fan_allowed = fan_allowed;
    plan.ledger = true;
    struct dawn_problems problems = {0};
    struct dawn_trajectory *run = NULL;
    enum dawn_status status = dawn_trajectory_run(&run, net, &plan, &problems);
    for (size_t i = 0; i < problems.count; ++i)
        print_error("%s\n", problems.items[i].message);
    dawn_problems_release(&problems);
    assert_int_equal(status, DAWN_OK);
    return run;
}

#endif
