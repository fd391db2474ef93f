/* Many members at once against one after another: the same to the bit whatever the lanes and the
 * neighbours, and close to what CVODE finds. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/nights.h"
#include "support/near.h"
#include "support/random_nursery.h"
#include "support/tiny.h"
#include "trajectory/ensemble_shape.h"

enum { HOUSES = 20, DAYS = 4 };

struct house {
    struct dawn_scenario scenario;
    struct dawn_weather weather;
    struct dawn_network *network;
};

/* Its first cover, if it has one, is put on at a time of its own; NAN = as the dice fell. */
static struct dawn_ensemble_member drawn_and_covered(struct house *house, uint64_t seed,
                                                     double put_on_s)
{
    struct dice dice = {seed};
    struct dawn_problems problems = {0};
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    memset(house, 0, sizeof *house);
    plan.spin_up = false;
    assert_true(random_nursery(&dice, &house->scenario));
    assert_true(random_weather(&dice, &house->weather, DAYS * 24));
    if (!isnan(put_on_s))
        house->scenario.covers[0].put_on_s = put_on_s;
    assert_int_equal(
        dawn_network_build(&house->network, &house->scenario, &house->weather, &problems), DAWN_OK);
    return (struct dawn_ensemble_member){.network = house->network, .plan = plan};
}

static struct dawn_ensemble_member drawn(struct house *house, uint64_t seed)
{
    return drawn_and_covered(house, seed, NAN);
}

static void undraw(struct house *house, struct dawn_ensemble_member *member)
{
    dawn_trajectory_free(member->trajectory);
    dawn_problems_release(&member->problems);
    dawn_network_free(house->network);
    dawn_weather_release(&house->weather);
    dawn_scenario_release(&house->scenario);
}

/* Everything a run tells of the air, to the bit. */
static void same_run(const struct dawn_ensemble_member *a, const struct dawn_ensemble_member *b)
{
    int air = dawn_network_air(a->network);
    assert_int_equal(a->status, DAWN_OK);
    assert_int_equal(b->status, DAWN_OK);
    assert_int_equal(dawn_trajectory_facts(a->trajectory).steps,
                     dawn_trajectory_facts(b->trajectory).steps);
    double from_s = (double)dawn_trajectory_from_s(a->trajectory);
    for (double t = from_s; t <= (double)dawn_trajectory_to_s(a->trajectory); t += 1234.5) {
        double x = dawn_trajectory_watched_C(a->trajectory, air, t);
        double y = dawn_trajectory_watched_C(b->trajectory, air, t);
        assert_memory_equal(&x, &y, sizeof x);
    }
}

static void lanes_and_neighbours_do_not_matter(void **state)
{
    const int lanes[] = {1, 4, 8, 16};
    (void)state;
    for (size_t k = 0; k < sizeof lanes / sizeof *lanes; ++k) {
        struct house house[HOUSES];
        struct dawn_ensemble_member member[HOUSES], alone[HOUSES];
        for (size_t i = 0; i < HOUSES; ++i)
            /* Twice the same houses, among others of other shapes. */
            member[i] = alone[i] = drawn(&house[i], 1 + i % 8);
        dawn_ensemble_run_in(member, HOUSES, lanes[k]);
        for (size_t i = 0; i < HOUSES; ++i) {
            dawn_ensemble_run_in(&alone[i], 1, 1);
            same_run(&member[i], &alone[i]);
            dawn_trajectory_free(alone[i].trajectory);
            undraw(&house[i], &member[i]);
        }
    }
}

/* Four houses of one shape whose covers are drawn at different times: while one moves the others'
 * rest. */
static void a_neighbours_cover_does_not_matter(void **state)
{
    enum { NEIGHBOURS = 4 };
    (void)state;
    for (uint64_t seed = 1, found = 0; found < 3; ++seed) {
        struct house house[NEIGHBOURS];
        struct dawn_ensemble_member member[NEIGHBOURS];
        for (size_t i = 0; i < NEIGHBOURS; ++i)
            member[i] = drawn_and_covered(&house[i], seed, (16 + (double)i) * 3600.0 + 100.0);
        if (house[0].scenario.cover_count > 0) {
            ++found;
            dawn_ensemble_run_in(member, NEIGHBOURS, 4);
            for (size_t i = 0; i < NEIGHBOURS; ++i) {
                struct dawn_ensemble_member alone = {.network = member[i].network,
                                                     .plan = member[i].plan};
                dawn_ensemble_run_in(&alone, 1, 1);
                same_run(&member[i], &alone);
                dawn_trajectory_free(alone.trajectory);
                dawn_problems_release(&alone.problems);
            }
        }
        for (size_t i = 0; i < NEIGHBOURS; ++i)
            undraw(&house[i], &member[i]);
    }
}

static bool is_listed(const struct flow_list *list, size_t flow)
{
    for (size_t i = 0; i < list->first[KIND_COUNT]; ++i)
        if (list->flow[i] == flow)
            return true;
    return false;
}

static bool covers_rest(const struct dawn_network *net, double a_s, double b_s)
{
    for (size_t i = 0; i < net->cover_count; ++i)
        if (dawn_network_forcing_drawn(&net->forcing, i, a_s) !=
            dawn_network_forcing_drawn(&net->forcing, i, b_s))
            return false;
    return true;
}

/* From noon on, hour by hour: a flow that is not listed as driven is the same under any weather. */
static void only_what_is_listed_follows_the_weather(void **state)
{
    size_t compared = 0;
    (void)state;
    for (uint64_t seed = 1; seed <= 12; ++seed) {
        struct house house;
        struct dawn_ensemble_member member = drawn(&house, seed);
        const struct dawn_network *net = house.network;
        size_t flows = dawn_network_flow_count(net);
        struct shape *shape = dawn_ensemble_shape_new(net);
        double *y = calloc(dawn_network_node_count(net), sizeof *y);
        double *dydt = calloc(dawn_network_node_count(net), sizeof *dydt);
        double *noon_W = calloc(flows, sizeof *noon_W);
        double *later_W = calloc(flows, sizeof *later_W);
        assert_true(shape && y && dydt && noon_W && later_W);
        double noon_s = (double)dawn_network_from_s(net) + 12 * 3600.0;
        dawn_network_start(net, noon_s, y);
        dawn_network_flows_W(net, true, noon_s, y, noon_W, dydt);
        for (double t_s = noon_s + 3600.0; t_s < noon_s + 24 * 3600.0; t_s += 3600.0) {
            if (!covers_rest(net, noon_s, t_s))
                continue;
            dawn_network_flows_W(net, true, t_s, y, later_W, dydt);
            ++compared;
            for (size_t i = 0; i < flows; ++i)
                if (noon_W[i] != later_W[i])
                    assert_true(is_listed(&shape->driven, i));
        }
        free(later_W);
        free(noon_W);
        free(dydt);
        free(y);
        dawn_ensemble_shape_free(shape);
        undraw(&house, &member);
    }
    assert_true(compared > 100);
}

/* A reversed night run that must go on while the sensed air grows warmer than the rock: it keeps
 * its way. Were the way told anew in every state, it would turn to and fro within milliseconds. */
static void a_held_fan_keeps_its_way(void **state)
{
    const uint64_t held = 112;
    struct house house;
    struct dawn_ensemble_member fast = drawn(&house, held);
    struct dawn_trajectory *run = NULL;
    (void)state;
    assert_int_equal(house.scenario.fan.night_way, DAWN_NIGHT_REVERSED);
    assert_true(dawn_network_fan_least_run_s(house.network) > 0);
    dawn_ensemble_run_in(&fast, 1, 1);
    assert_int_equal(dawn_trajectory_run(&run, house.network, &fast.plan, &fast.problems), DAWN_OK);
    assert_true(dawn_trajectory_facts(run).steps < 20000);
    assert_int_equal(dawn_trajectory_facts(run).switches,
                     dawn_trajectory_facts(fast.trajectory).switches);
    int air = dawn_network_air(house.network);
    double to_s = (double)dawn_trajectory_to_s(run);
    near(dawn_trajectory_watched_C(fast.trajectory, air, to_s),
         dawn_trajectory_watched_C(run, air, to_s), 0.01, "both engines at the end");
    dawn_trajectory_free(run);
    undraw(&house, &fast);
}

/* One lump that cools through one resistance: T = T0 exp(-t/tau) (closed form). */
static double lump_error_K(double hours)
{
    struct dawn_network *net = dawn_network_new();
    int node = dawn_network_add_node(net, DAWN_ROLE_AIR, 3.6e5, 0, 0, "lump");
    double start = 20.0;
    net->air = node;
    net->sensor = node;
    dawn_network_add_conduction(net, node, OUTSIDE(OUTSIDE_AIR), "walls", 50.0);
    tiny_finish(net, (size_t)hours, 0.0);
    struct dawn_ensemble_member member = {.network = net, .plan = dawn_trajectory_plan_usual()};
    member.plan.spin_up = false;
    member.plan.start = &start;
    dawn_ensemble_run(&member, 1);
    assert_int_equal(member.status, DAWN_OK);
    double t = hours * 3600.0;
    double got = dawn_trajectory_watched_C(member.trajectory, node,
                                           (double)dawn_trajectory_to_s(member.trajectory));
    dawn_trajectory_free(member.trajectory);
    dawn_network_free(net);
    return got - start * exp(-t * 50.0 / 3.6e5);
}

static void a_lump_cools_as_it_must(void **state)
{
    (void)state;
    near(lump_error_K(4), 0.0, 0.002, "after 4 hours");
    near(lump_error_K(24), 0.0, 0.002, "after a day");
}

/* More members than lanes and none at all; a plan that cannot be run fails by itself. */
static void every_member_has_its_own_outcome(void **state)
{
    struct house house[3];
    struct dawn_ensemble_member member[3];
    (void)state;
    dawn_ensemble_run(member, 0);
    for (size_t i = 0; i < 3; ++i)
        member[i] = drawn(&house[i], 7);
    member[1].plan.from_s = 1;
    member[1].plan.to_s = 2;
    dawn_ensemble_run(member, 3);
    assert_int_equal(member[1].status, DAWN_ERR_SOLVER);
    assert_int_equal(member[1].problems.count, 1);
    assert_null(member[1].trajectory);
    same_run(&member[0], &member[2]);
    for (size_t i = 0; i < 3; ++i)
        undraw(&house[i], &member[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lanes_and_neighbours_do_not_matter),
        cmocka_unit_test(a_neighbours_cover_does_not_matter),
        cmocka_unit_test(only_what_is_listed_follows_the_weather),
        cmocka_unit_test(a_held_fan_keeps_its_way),
        cmocka_unit_test(a_lump_cools_as_it_must),
        cmocka_unit_test(every_member_has_its_own_outcome),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
