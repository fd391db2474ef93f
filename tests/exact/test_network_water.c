/* Water in the network against closed forms: evaporation into a closed room, condensation on a cold
 * pane, a film that dries, air that turns over. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/physics/moistair.h"
#include "support/near.h"
#include "support/tiny.h"

static const double hour_s = 3600.0;
static const double held_J_K = 1e15; /* so large that the node keeps its state */
static const double film_W_m2K = 2.0;

/* Air, a surface of 1 m2 beside it and vapour; both temperatures are held and alike, so that the
 * film between them is its least value. */
struct room {
    struct dawn_network *net;
    int surface;
    double start[8];
};

static struct room room_with(double vapour_J_K)
{
    struct room room = {.net = dawn_network_new()};
    struct dawn_network *net = room.net;
    net->air = net->ridge = dawn_network_add_node(net, DAWN_ROLE_AIR, held_J_K, 0, 0, "air");
    net->vapour = net->ridge_vapour =
        dawn_network_add_node(net, DAWN_ROLE_VAPOUR, vapour_J_K, 0, 0, "vapour");
    room.surface = dawn_network_add_node(net, DAWN_ROLE_GLAZING, held_J_K, 0, 0, "surface");
    dawn_network_add_natural(
        net, room.surface, net->air,
        (struct natural_link){.law = {.area_m2 = 1, .least_W_m2K = film_W_m2K}});
    return room;
}

static double saturated_K(double temperature_C)
{
    return dawn_moistair_latent_saturated(temperature_C, 101325.0).y_K;
}

/* dy/dt = h/(0.9 C) (y_sat - y): an exponential (computed closed form). */
static void closed_room_fills_with_vapour(void **state)
{
    (void)state;
    const double heat = 2e4;
    struct room room = room_with(heat);
    dawn_network_add_evaporate(room.net, room.surface, 0.5);
    tiny_finish(room.net, 12, 20.0);
    const double start[] = {20.0, 0.0, 20.0};
    struct dawn_trajectory *run = tiny_run(room.net, start, hour_s, false);
    double rate = 0.5 * film_W_m2K / 0.9 / heat;
    for (size_t hour = 1; hour <= 12; ++hour)
        near(dawn_trajectory_series_C(run, hour)[1],
             saturated_K(20.0) * (1 - exp(-rate * (double)hour * hour_s)), 1e-6, "vapour");
    dawn_trajectory_free(run);
    dawn_network_free(room.net);
}

/* Vapour over a cold pane falls to the pane's saturation; what it lost stands on the pane. */
static void cold_pane_takes_the_surplus(void **state)
{
    (void)state;
    const double heat = 2e4;
    struct room room = room_with(heat);
    dawn_network_add_condense(room.net, room.surface, 1.0, 10.0);
    tiny_finish(room.net, 48, 5.0);
    const double start[] = {5.0, 30.0, 5.0, 0.0};
    struct dawn_trajectory *run = tiny_run(room.net, start, hour_s, false);
    double rate = film_W_m2K / 0.9 / heat;
    double surplus = 30.0 - saturated_K(5.0);
    double film_J_K = dawn_network_node(room.net, 3)->heat_J_K;
    for (size_t hour = 1; hour <= 48; hour += 4) {
        const double *T = dawn_trajectory_series_C(run, hour);
        double left = surplus * exp(-rate * (double)hour * hour_s);
        near(T[1], saturated_K(5.0) + left, 1e-6, "vapour");
        near(T[1] * heat + T[3] * film_J_K, 30.0 * heat, 1e-5 * heat, "water");
    }
    dawn_trajectory_free(run);
    dawn_network_free(room.net);
}

/* A film dries as F/(F + f): F + f ln F falls in a straight line (computed closed form). */
static void film_dries(void **state)
{
    (void)state;
    const double thin = 0.5;
    const double thick = 8.0;
    struct room room = room_with(held_J_K);
    dawn_network_add_condense(room.net, room.surface, 1.0, 10.0);
    tiny_finish(room.net, 24, 20.0);
    const double start[] = {20.0, 10.0, 20.0, thick};
    struct dawn_trajectory *run = tiny_run(room.net, start, hour_s, false);
    double rate =
        film_W_m2K / 0.9 * (saturated_K(20.0) - 10.0) / dawn_network_node(room.net, 3)->heat_J_K;
    for (size_t hour = 1; hour <= 24; ++hour) {
        double film = dawn_trajectory_series_C(run, hour)[3];
        assert_true(film > -1e-6); /* never overdrawn */
        double want = thick + thin * log(thick) - rate * (double)hour * hour_s;
        if (film > 1e-3) /* below, the logarithm of what is left shows nothing but its rounding */
            near(film + thin * log(film), want, 1e-5, "film");
    }
    dawn_trajectory_free(run);
    dawn_network_free(room.net);
}

/* More than a pane holds runs off with a time constant of ten minutes. */
static void full_pane_drips(void **state)
{
    (void)state;
    struct room room = room_with(held_J_K);
    dawn_network_add_condense(room.net, room.surface, 1.0, 0.05); /* holds 5 K of film */
    tiny_finish(room.net, 2, 20.0);
    const double start[] = {20.0, 0, 20.0, 9.0};
    double saturated[4];
    memcpy(saturated, start, sizeof saturated);
    saturated[1] = saturated_K(20.0); /* nothing condenses, nothing dries */
    struct dawn_trajectory *run = tiny_run(room.net, saturated, 600.0, false);
    for (size_t i = 1; i <= 6; ++i)
        near(dawn_trajectory_series_C(run, i)[3], 5.0 + 4.0 * exp(-(double)i), 1e-4, "film");
    dawn_trajectory_free(run);
    dawn_network_free(room.net);
}

/* Warm below cool turns over by 0.07 A sqrt(g H dT/T) joined to its limit, layered air hardly;
 * evaluated by hand for 60 m2, 2.5 m, 4 K and 1200 J/m3K (computed closed form). */
static void air_turns_over(void **state)
{
    (void)state;
    struct dawn_network *net = dawn_network_new();
    net->air = dawn_network_add_node(net, DAWN_ROLE_AIR, 1e5, 0, 0, "bench");
    net->ridge = dawn_network_add_node(net, DAWN_ROLE_AIR, 1e5, 0, 0, "ridge");
    dawn_network_add_mixing(net, dawn_network_mixing_law(60, 2.5, 1200));
    tiny_finish(net, 2, 0.0);
    double free_W_K = 1200 * 0.07 * 60 * sqrt(9.80665 * 2.5 * 4 / 285.0);
    double most_W_K = 30.0 / 3600 * 60 * 2.5 * 1200;
    double watts = 0;
    double rates[2];
    const double unstable[] = {14.0, 10.0};
    const double layered[] = {10.0, 14.0};
    dawn_network_flows_W(net, false, 0, unstable, &watts, rates);
    near(watts, 4 * (1.5 * 60 + 1 / (1 / free_W_K + 1 / most_W_K)), 1e-6, "turning");
    dawn_network_flows_W(net, false, 0, layered, &watts, rates);
    near(watts, -4 * 1.5 * 60, 1e-9, "layered");
    dawn_network_free(net);
}

/* Fan air goes ridge, rock, bench: rock and bench together gain what the ridge loses, the bench the
 * difference between what comes out of the rock and itself (computed). */
static void fan_air_comes_back_to_the_bench(void **state)
{
    (void)state;
    struct dawn_network *net = dawn_network_new();
    net->air = dawn_network_add_node(net, DAWN_ROLE_AIR, 1.0, 0, 0, "bench");
    net->ridge = dawn_network_add_node(net, DAWN_ROLE_AIR, 1.0, 0, 0, "ridge");
    int rock = dawn_network_add_node(net, DAWN_ROLE_ROCK, 1.0, 0, 0, "rock");
    dawn_network_add_stream(net, net->ridge, net->air, rock, 400.0, 0.75);
    dawn_network_add_displace(net, 400.0);
    tiny_finish(net, 2, 0.0);
    const double y[] = {20.0, 32.0, 12.0};
    double rates[3];
    dawn_network_rates(net, true, 0, y, rates, NULL);
    double out_C = 32.0 - 0.75 * (32.0 - 12.0);
    near(rates[1], 400.0 * (20.0 - 32.0), 1e-9, "ridge");
    near(rates[0], 400.0 * (out_C - 20.0), 1e-9, "bench");
    near(rates[2], 400.0 * (32.0 - out_C), 1e-9, "rock");
    dawn_network_free(net);
}

/* What condenses on a pane of -5 C becomes frost and gives the pane the heat of fusion on top; when
 * the pane thaws it takes it back (computed closed form: Lf over L of what condensed). */
static void frost_gives_and_takes_the_heat_of_fusion(void **state)
{
    (void)state;
    const double heat = 2e4;
    const double fusion = 333.5 / 2500.0;
    for (int thaw = 0; thaw < 2; ++thaw) {
        struct room room = room_with(heat);
        dawn_network_add_condense(room.net, room.surface, 1.0, 10.0);
        dawn_network_add_frost(room.net);
        tiny_finish(room.net, 48, 5.0);
        const double pane_C = thaw ? 3.0 : -5.0;
        /* thawing: frozen all, and air that neither gives nor takes water */
        const double start[] = {5.0, thaw ? saturated_K(3.0) : 30.0, pane_C, thaw ? 4.0 : 0.0,
                                thaw ? -4.0 : 0.0};
        struct dawn_trajectory *run = tiny_run(room.net, start, hour_s, false);
        const double *T = dawn_trajectory_series_C(run, 48);
        const double film_J_K = dawn_network_node(room.net, 3)->heat_J_K;
        double freezing_J = 0;
        double condensing_J = 0;
        for (size_t i = 0; i < dawn_network_flow_count(room.net); ++i) {
            const char *kind = dawn_network_flow(room.net, i).kind;
            double J = dawn_trajectory_flow_J(run, i, 0, 48 * hour_s);
            freezing_J += strcmp(kind, "freezing") == 0 ? J : 0;
            condensing_J += strcmp(kind, "condensation") == 0 ? J : 0;
        }
        near(T[4], thaw ? 0.0 : -T[3], 1e-5, "ice");
        near(freezing_J, (thaw ? -4.0 : T[3]) * film_J_K * fusion, 1e-5 * film_J_K, "fusion");
        /* as closely as the balance closes at tight tolerances */
        near(condensing_J, (T[3] - start[3]) * film_J_K, 1e-6 * condensing_J + 1.0, "condensed");
        assert_true(thaw || condensing_J > 1e5);
        dawn_trajectory_free(run);
        dawn_network_free(room.net);
    }
}

/* Moist air that the fan blows through held cool stones: each segment leaves F/(F + K) of the
 * surplus over what they hold; what is missing stands on them and has given its heat to them
 * (computed closed form for stones wet all over). When the air turns dry they give it back. */
static void rock_takes_the_water(void **state)
{
    (void)state;
    enum { SEGMENTS = 3 };
    const double flow = 400.0;
    const double W_K = 300.0;
    for (int dry = 0; dry < 2; ++dry) {
        struct dawn_network *net = dawn_network_new();
        const double before_K = dry ? 4.0 : 40.0;
        double start[2 + 3 * SEGMENTS] = {before_K, 0};
        int intake = dawn_network_add_node(net, DAWN_ROLE_VAPOUR, held_J_K, 0, 0, "intake");
        int back = dawn_network_add_node(net, DAWN_ROLE_VAPOUR, held_J_K, 0, 0, "back");
        int last = intake;
        for (int i = 0; i < SEGMENTS; ++i) {
            int rock = dawn_network_add_node(net, DAWN_ROLE_ROCK, held_J_K, 0, 0, "rock %d", i);
            int vapour = dawn_network_add_node(net, DAWN_ROLE_VAPOUR, 500.0, 0, 0, "air %d", i);
            start[rock] = 10.0;
            start[vapour] = before_K;
            dawn_network_add_carry(net, last, vapour, flow);
            dawn_network_add_damp(net, vapour, rock, W_K, 1000.0, 1e9);
            start[vapour + 1] = 1e6; /* the film: so much that all is covered */
            last = vapour;
        }
        dawn_network_add_carry(net, last, back, flow);
        tiny_finish(net, 2, 10.0);
        double watts[16];
        double rates[2 + 3 * SEGMENTS];
        double surplus = before_K - saturated_K(10.0);
        double gave = 0;
        for (int i = 0; i < SEGMENTS; ++i) { /* at rest */
            surplus *= flow / (flow + W_K);
            start[3 + 3 * i] = saturated_K(10.0) + surplus;
            gave += W_K * surplus;
        }
        dawn_network_flows_W(net, true, 3600, start, watts, rates);
        double to_rock = 0;
        double to_films = 0;
        for (int i = 0; i < SEGMENTS; ++i) {
            near(rates[3 + 3 * i], 0.0, 1e-5, "vapour between the stones rests");
            to_rock += rates[2 + 3 * i] * held_J_K;
            to_films += rates[4 + 3 * i] * dawn_network_node(net, (size_t)(4 + 3 * i))->heat_J_K;
        }
        near(to_rock, gave, 1e-5 * fabs(gave), "heat");
        near(to_films, gave, 1e-5 * fabs(gave), "water");
        assert_true(dry ? gave < -500 : gave > 1000);
        near(flow * (before_K - start[3 * SEGMENTS]), gave, 1e-9 * fabs(gave), "what the air lost");
        dawn_network_free(net);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(closed_room_fills_with_vapour),
        cmocka_unit_test(cold_pane_takes_the_surplus),
        cmocka_unit_test(film_dries),
        cmocka_unit_test(full_pane_drips),
        cmocka_unit_test(air_turns_over),
        cmocka_unit_test(fan_air_comes_back_to_the_bench),
        cmocka_unit_test(frost_gives_and_takes_the_heat_of_fusion),
        cmocka_unit_test(rock_takes_the_water),
    };
    return cmocka_run_group_tests_name("network water", tests, NULL, NULL);
}
