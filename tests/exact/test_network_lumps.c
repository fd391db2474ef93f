/* One and two lumps against their closed forms. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/tiny.h"

static const double hour_s = 3600.0;

/* RC-1. T = Ta + (T0 - Ta) exp(-t UA / C); computed closed form. */
static void one_lump_cools_exponentially(void **state)
{
    (void)state;
    struct dawn_network *net = dawn_network_new();
    int lump = dawn_network_add_node(net, DAWN_ROLE_AIR, 1e6, 0, 0, "lump");
    dawn_network_add_conduction(net, lump, OUTSIDE(OUTSIDE_AIR), "loss", 50.0);
    tiny_finish(net, 12, -5.0);
    const double start[] = {15.0};
    struct dawn_trajectory *run = tiny_run(net, start, hour_s, false);
    near(dawn_trajectory_series_C(run, 12)[0], -2.693498, 1e-5, "after 12 h");
    near(dawn_trajectory_facts(run).imbalance, 0.0, 1e-6, "imbalance");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* RC-2. Gain 1/sqrt(1 + (w tau)^2), lag atan(w tau)/w; computed closed form. Between knots the
 * outdoor air is a chain of straight lines, whose first harmonic is sinc^2 lower: made up for. */
static void one_lump_follows_the_day(void **state)
{
    (void)state;
    const double w = 2 * 3.14159265358979323846 / 86400.0, half = 0.5 * w * FORCING_STEP_S;
    const double chain = pow(sin(half) / half, 2);
    struct dawn_network *net = dawn_network_new();
    int lump = dawn_network_add_node(net, DAWN_ROLE_AIR, 1e6, 0, 0, "lump");
    dawn_network_add_conduction(net, lump, OUTSIDE(OUTSIDE_AIR), "loss", 50.0);
    net->air = lump;
    tiny_finish(net, 24 * 10, 0.0);
    for (size_t i = 0; i < net->forcing.knots; ++i)
        net->forcing.air_C[i] = sin(w * (double)i * FORCING_STEP_S) / chain;
    const double start[] = {0.0};
    struct dawn_trajectory *run = tiny_run(net, start, 0, false);
    struct dawn_low low = dawn_trajectory_low(run, lump, 8 * 86400.0, 9 * 86400.0);
    near(-low.low_C, 0.566556, 1e-4, "gain");
    near((low.at_s - 8 * 86400.0) / hour_s - 18.0, 3.699304, 3e-3, "lag, h");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* RC-3. Two coupled lumps; computed matrix exponential. */
static void two_lumps_cool_together(void **state)
{
    (void)state;
    struct dawn_network *net = dawn_network_new();
    int air = dawn_network_add_node(net, DAWN_ROLE_AIR, 2e5, 0, 0, "air");
    int mass = dawn_network_add_node(net, DAWN_ROLE_ROCK, 5e6, 0, 0, "mass");
    dawn_network_add_conduction(net, air, OUTSIDE(OUTSIDE_AIR), "loss", 60.0);
    dawn_network_add_conduction(net, mass, air, NULL, 200.0);
    tiny_finish(net, 12, -5.0);
    const double start[] = {18.0, 20.0};
    struct dawn_trajectory *run = tiny_run(net, start, 1800.0, false);
    static const struct {
        size_t row;
        double air_C, mass_C;
    } want[] = {{1, 14.460553, 19.695754},
                {2, 13.858563, 19.307157},
                {12, 11.008465, 15.666674},
                {24, 8.175704, 12.009625}};
    for (size_t i = 0; i < sizeof want / sizeof *want; ++i) {
        const double *got = dawn_trajectory_series_C(run, want[i].row);
        near(got[0], want[i].air_C, 1e-5, "air");
        near(got[1], want[i].mass_C, 1e-5, "mass");
    }
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* FRZ-5. A full drum in air of -5 C: 17.8963 h from 10 C to 0 C, 259.317 h more until all is ice;
 * computed closed form (latent 333.5 kJ/kg). The freezing range of 0.1 K delays the end by the
 * falling difference: the mean of the range, 0.05 K of 5 K, is allowed for. */
static void drum_freezes_through(void **state)
{
    (void)state;
    const double kg = 200.0, W_K = 8.0 * 1.786209;
    struct dawn_network *net = dawn_network_new();
    int drum = dawn_network_add_node(net, DAWN_ROLE_BARRELS, kg * 4190.0, kg * 2050.0, kg * 333.5e3,
                                     "drum");
    dawn_network_add_conduction(net, drum, OUTSIDE(OUTSIDE_AIR), "loss", W_K);
    tiny_finish(net, 300, -5.0);
    const double start[] = {10.0};
    struct dawn_trajectory *run = tiny_run(net, start, 60.0, false);
    size_t rows = dawn_trajectory_series_count(run), zero = 0, ice = 0;
    for (size_t i = 0; i < rows; ++i) {
        double T = dawn_trajectory_series_C(run, i)[0];
        if (T >= 0.0)
            zero = i;
        if (T >= -0.1)
            ice = i;
    }
    near((double)zero / 60.0, 17.8963, 0.02, "hours to 0 C");
    near((double)(ice - zero) / 60.0, 259.317 * 5.0 / 4.95, 0.3, "hours to ice");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* A box that nothing leaves keeps its heat whatever goes on inside; computed (conservation). */
static void closed_box_keeps_its_heat(void **state)
{
    (void)state;
    struct dawn_network *net = dawn_network_new();
    int a = dawn_network_add_node(net, DAWN_ROLE_AIR, 2e5, 0, 0, "a");
    int b = dawn_network_add_node(net, DAWN_ROLE_BARRELS, 4e5, 2e5, 3e7, "b");
    int c = dawn_network_add_node(net, DAWN_ROLE_ROCK, 3e5, 0, 0, "c");
    dawn_network_add_natural(net, b, a,
                             (struct natural_link){.law = {.area_m2 = 5,
                                                           .warm_coefficient = 1.5,
                                                           .cool_coefficient = 0.5,
                                                           .least_W_m2K = 0.5}});
    dawn_network_add_longwave(net, c, b, 7.0);
    dawn_network_add_stream(net, a, a, c, 300.0, 0.8);
    tiny_finish(net, 48, 0.0);
    const double start[] = {30.0, -20.0, 25.0};
    struct dawn_trajectory *run = tiny_run(net, start, 0, false);
    near_share(dawn_trajectory_stored_all_J(run, 48 * hour_s), 2e5 * 30 - 4e5 * 20 + 3e5 * 25, 1e-6,
               "heat of the box");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_lump_cools_exponentially), cmocka_unit_test(one_lump_follows_the_day),
        cmocka_unit_test(two_lumps_cool_together),      cmocka_unit_test(drum_freezes_through),
        cmocka_unit_test(closed_box_keeps_its_heat),
    };
    return cmocka_run_group_tests_name("network lumps", tests, NULL, NULL);
}
