/* The thermostat's limit cycle against its closed form. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/tiny.h"
#include "trajectory/trajectory_store.h"

/* A lump of 5e5 J/K that loses 80 W/K to 5 C and gains 4000 W; fan on at 28, off at 25 C. */
static struct dawn_network *relay(int *lump)
{
    struct dawn_network *net = dawn_network_new();
    *lump = dawn_network_add_node(net, DAWN_ROLE_AIR, 5e5, 0, 0, "lump");
    dawn_network_add_conduction(net, *lump, OUTSIDE(OUTSIDE_AIR), "loss", 80.0);
    dawn_network_add_power(net, *lump, 4000.0, false, "gain");
    net->air = net->sensor = *lump;
    net->has_fan = true;
    net->fan = (struct dawn_fan){.present = true, .on_C = 28.0, .off_C = 25.0, .night_on_C = NAN};
    net->rock = calloc(1, sizeof *net->rock);
    net->rock_count = 1;
    return net;
}

/* Mean lengths of the on and off phases after the first few cycles. */
static void phases(const struct dawn_trajectory *run, double *on_s, double *off_s)
{
    double sum[2] = {0, 0};
    int count[2] = {0, 0};
    for (size_t i = 6; i + 1 < run->switch_count; ++i) {
        int on = run->switches[i].on;
        sum[on] += run->switches[i + 1].at_s - run->switches[i].at_s;
        ++count[on];
    }
    assert_true(count[0] > 5 && count[1] > 5);
    *on_s = sum[1] / count[1];
    *off_s = sum[0] / count[0];
}

/* THM-1: the fan carries a fixed 3500 W away. t_off = tau ln((Ta + Qs/UA - off)/(Ta + Qs/UA - on)),
 * t_on = tau ln((on - Tinf)/(off - Tinf)); computed closed form. */
static void fixed_power_cycle(void **state)
{
    (void)state;
    int lump;
    struct dawn_network *net = relay(&lump);
    net->rock[0] = dawn_network_add_node(net, DAWN_ROLE_ROCK, 1e6, 0, 0, "rock");
    dawn_network_add_power(net, lump, -3500.0, true, "carried away");
    tiny_finish(net, 12, 5.0);
    const double start[] = {20.0, 10.0};
    struct dawn_trajectory *run = tiny_run(net, start, 0, true);
    double on_s = 0, off_s = 0;
    phases(run, &on_s, &off_s);
    near(off_s, 658.503223, 0.1, "rise, s");
    near(on_s, 1233.496463, 0.1, "fall, s");
    near(on_s / (on_s + off_s), 0.651954, 1e-4, "duty");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* THM-2: the fan couples the lump with 250 W/K to rock that stays at 15 C; computed closed form. */
static void rock_cycle(void **state)
{
    (void)state;
    int lump;
    struct dawn_network *net = relay(&lump);
    net->rock[0] = dawn_network_add_node(net, DAWN_ROLE_ROCK, 1e15, 0, 0, "rock");
    dawn_network_add_stream(net, lump, lump, net->rock[0], 250.0, 1.0);
    tiny_finish(net, 24, 5.0);
    const double start[] = {20.0, 15.0};
    struct dawn_trajectory *run = tiny_run(net, start, 0, true);
    double on_s = 0, off_s = 0;
    phases(run, &on_s, &off_s);
    near(on_s, 3619.338, 0.1, "fall, s");
    near(on_s + off_s, 4277.841, 0.1, "period, s");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* The same with a least run of 2000 s or 1800 s, longer than the fall takes: the lump cools on
 * towards 11.25 C (tau 6250 s), in 1800 s to 23.8088 C, and rises from there; a least run of 600 s
 * changes nothing. */
static void least_run_cycle(void **state)
{
    (void)state;
    const double least_s[] = {2000.0, 1800.0, 600.0};
    const double want_on_s[] = {2000.0, 1800.0, 1233.496463};
    const double want_low_C[] = {11.25 + (28.0 - 11.25) * exp(-2000.0 / 6250.0), 23.8088, 25.0};
    for (int i = 0; i < 3; ++i) {
        const double want_off_s = 6250.0 * log((55.0 - want_low_C[i]) / (55.0 - 28.0));
        int lump;
        struct dawn_network *net = relay(&lump);
        net->fan.least_run_s = least_s[i];
        net->rock[0] = dawn_network_add_node(net, DAWN_ROLE_ROCK, 1e6, 0, 0, "rock");
        dawn_network_add_power(net, lump, -3500.0, true, "carried away");
        tiny_finish(net, 18, 5.0);
        const double start[] = {20.0, 10.0};
        struct dawn_trajectory *run = tiny_run(net, start, 0, true);
        double on_s = 0, off_s = 0;
        phases(run, &on_s, &off_s);
        near(on_s, want_on_s[i], 0.1, "runs, s");
        near(off_s, want_off_s, 0.1, "rests, s");
        near(dawn_trajectory_low(run, lump, 6 * 3600.0, 18 * 3600.0).low_C, want_low_C[i], 1e-3,
             "cools to");
        assert_true(dawn_trajectory_facts(run).imbalance < 1e-6);
        dawn_trajectory_free(run);
        dawn_network_free(net);
    }
}

/* Air no warmer than the rock by the margin never starts the fan, however hot it is. */
static void fan_waits_for_the_margin(void **state)
{
    (void)state;
    int lump;
    struct dawn_network *net = relay(&lump);
    net->fan.start_margin_K = 8.0;
    net->fan.stop_margin_K = 7.0;
    net->rock[0] = dawn_network_add_node(net, DAWN_ROLE_ROCK, 1e15, 0, 0, "rock");
    dawn_network_add_stream(net, lump, lump, net->rock[0], 250.0, 1.0);
    tiny_finish(net, 24, 5.0);
    const double hot[] = {40.0, 52.0}, warm[] = {40.0, 30.0};
    struct dawn_trajectory *run = tiny_run(net, hot, 0, true);
    assert_int_equal(dawn_trajectory_facts(run).switches, 0);
    dawn_trajectory_free(run);
    /* Over rock of 30 C the running fan would bring the lump to 36.1 C: it stops at 37 C, long
     * before off_C, and starts again at 38 C. */
    run = tiny_run(net, warm, 0, true);
    assert_true(run->switch_count >= 4);
    near(dawn_trajectory_watched_C(run, lump, run->switches[2].at_s), 37.0, 1e-3, "off at margin");
    near(dawn_trajectory_watched_C(run, lump, run->switches[3].at_s), 38.0, 1e-3, "on at margin");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* A gap too small for the lump's inertia ends in an error that says so, not in a hang. */
static void chatter_is_refused(void **state)
{
    (void)state;
    int lump;
    struct dawn_network *net = relay(&lump);
    net->nodes[lump].facts.heat_J_K = 2e3;
    net->fan.off_C = 27.5;
    net->rock[0] = dawn_network_add_node(net, DAWN_ROLE_ROCK, 1e6, 0, 0, "rock");
    dawn_network_add_power(net, lump, -3500.0, true, "carried away");
    tiny_finish(net, 12, 5.0);
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    plan.spin_up = false;
    const double start[] = {20.0, 10.0};
    plan.start = start;
    struct dawn_problems problems = {0};
    struct dawn_trajectory *run = NULL;
    assert_int_equal(dawn_trajectory_run(&run, net, &plan, &problems), DAWN_ERR_SOLVER);
    assert_null(run);
    assert_non_null(strstr(problems.items[0].message, "more than 60 times"));
    dawn_problems_release(&problems);
    dawn_network_free(net);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fixed_power_cycle),  cmocka_unit_test(rock_cycle),
        cmocka_unit_test(least_run_cycle),    cmocka_unit_test(fan_waits_for_the_margin),
        cmocka_unit_test(chatter_is_refused),
    };
    return cmocka_run_group_tests_name("network fan", tests, NULL, NULL);
}
