/* Snow in the network against closed forms: series resistance, a window shut, when it lies. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/physics/snow.h"
#include "network/network_build.h"
#include "support/near.h"
#include "support/tiny.h"

static const double sigma = 5.670374419e-8; /* CODATA 2018 */
static const double held_J_K = 1e15;        /* so large that the node keeps its state */
static const int64_t from_s = 1772323200;   /* 1 March 2026, 00:00 UTC */

/* A pane of 2 m2 that is held warm, and two hours or days of weather. */
struct roof {
    struct building building;
    struct dawn_scenario scenario;
    int pane;
};

static void begin(struct roof *roof)
{
    memset(roof, 0, sizeof *roof);
    roof->building.network = dawn_network_new();
    roof->building.scenario = &roof->scenario;
    roof->scenario.house.snow_steepest_deg = 60;
    roof->scenario.house.snow_slides_above_C = 2;
    roof->pane = dawn_network_add_node(roof->building.network, DAWN_ROLE_GLAZING, held_J_K,
                                       held_J_K, 0, "pane");
}

static void snow(struct roof *roof, const char *from, const char *until, double depth_m)
{
    struct dawn_snow *fall = &roof->scenario.snow[roof->scenario.snow_count++];
    *fall = (struct dawn_snow){.depth_m = depth_m, .density_kg_m3 = 150};
    memcpy(fall->from, from, strlen(from));
    memcpy(fall->until, until, strlen(until));
}

static void fill(struct roof *roof, size_t hours, double air_C)
{
    tiny_finish(roof->building.network, hours, air_C);
    roof->building.network->forcing.from_s = from_s;
    dawn_network_fill_snow(&roof->building);
}

/* Heat from a pane of 2 m2 at 20 C to air of -10 C past 5 W/m2K of film: without snow behind the
 * film alone, below it behind film and snow in series (computed closed form; 1 in 1000 for the
 * 10,000 W/m2K that make pane and surface one). Falls that lie together are one on the other. */
static void snow_stands_in_series(void **state)
{
    (void)state;
    for (int falls = 0; falls <= 2; ++falls) {
        struct roof roof;
        begin(&roof);
        snow(&roof, falls > 0 ? "03-01" : "06-01", "", 0.10);
        snow(&roof, falls > 1 ? "03-01" : "06-01", "", 0.05);
        dawn_network_build_snow(&roof.building);
        struct dawn_network *net = roof.building.network;
        int surface = dawn_network_snow_over(&roof.building, roof.pane, 2.0);
        dawn_network_add_conduction(net, surface, OUTSIDE(OUTSIDE_AIR), "film", 2.0 * 5.0);
        fill(&roof, 2, -10.0);
        double start[2] = {20.0, 20.0};
        struct dawn_trajectory *run = tiny_run(net, start, 7200, false);
        double watts[8];
        double rates[2];
        dawn_network_flows_W(net, false, (double)from_s + 7200, dawn_trajectory_series_C(run, 1),
                             watts, rates);
        const double depth_m[] = {0, 0.10, 0.15};
        double resistance = depth_m[falls] / dawn_snow_conductivity_W_mK(150) + 1.0 / 5.0;
        near_share(watts[0], 2.0 * 30.0 / resistance, 1e-3, "heat past the snow");
        assert_int_equal(dawn_network_flow(net, 0).from, surface);
        dawn_trajectory_free(run);
        dawn_network_free(net);
    }
}

/* A black floor of 20 C below 1 m2 of film that passes all long-wave: to a sky of no radiation it
 * loses what a black body does; below snow it trades with the pane, 0 C, instead (computed closed
 * form). */
static void snow_shuts_a_window(void **state)
{
    (void)state;
    for (int lies = 0; lies <= 1; ++lies) {
        struct roof roof;
        begin(&roof);
        snow(&roof, lies > 0 ? "03-01" : "06-01", "", 0.10);
        dawn_network_build_snow(&roof.building);
        struct dawn_network *net = roof.building.network;
        int floor = dawn_network_add_node(net, DAWN_ROLE_FLOOR, held_J_K, 0, 0, "floor");
        dawn_network_radiant_add(
            &roof.building,
            (struct radiant_surface){.node = floor, .area_m2 = 1, .emissivity = 1, .group = 0});
        dawn_network_radiant_add(&roof.building, (struct radiant_surface){.node = DAWN_NO_NODE,
                                                                          .area_m2 = 1,
                                                                          .emissivity = 1,
                                                                          .group = 1,
                                                                          .sky_view = 1,
                                                                          .snowed = true,
                                                                          .pane = roof.pane});
        dawn_network_radiant_link(&roof.building);
        fill(&roof, 2, -10.0);
        double y[2] = {0.0, 20.0};
        double watts[8];
        double rates[2];
        double to_sky = 0;
        double to_pane = 0;
        dawn_network_flows_W(net, false, (double)from_s + 3600, y, watts, rates);
        for (size_t i = 0; i < dawn_network_flow_count(net); ++i)
            *(dawn_network_flow(net, i).to == roof.pane ? &to_pane : &to_sky) += watts[i];
        double warm = sigma * pow(293.15, 4);
        near(to_sky, lies ? 0.0 : warm, 1e-9 * warm, "to the sky");
        near(to_pane, lies ? warm - sigma * pow(273.15, 4) : 0.0, 1e-9 * warm, "to the pane");
        dawn_network_free(net);
    }
}

/* Ten days at -5 C but for a mild hour: it lies from its first day on, slides in that hour and does
 * not come back; what is too warm on its first day waits until it is cold. */
static void it_lies_until_it_slides(void **state)
{
    (void)state;
    static const struct {
        double mild_day, slides_C, first_day, last_day;
        const char *until;
    } cases[] = {
        {7.5, 2, 2, 7.5, ""}, /* 03-03 is the third day */
        {7.5, NAN, 2, 10, ""}, {7.5, NAN, 2, 6, "03-06"}, {2.0, 2, 2.0 + 1.0 / 24.0, 10, ""},
        {1.0, 2, 2, 10, ""},
    };
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; ++k) {
        struct roof roof;
        begin(&roof);
        roof.scenario.house.snow_slides_above_C = cases[k].slides_C;
        snow(&roof, "03-03", cases[k].until, 0.10);
        dawn_network_build_snow(&roof.building);
        tiny_finish(roof.building.network, 240, -5.0);
        struct forcing *forcing = &roof.building.network->forcing;
        forcing->from_s = from_s;
        size_t mild = (size_t)(cases[k].mild_day * 96);
        for (size_t i = mild; i < mild + 4; ++i)
            forcing->air_C[i] = 3.0;
        dawn_network_fill_snow(&roof.building);
        for (size_t i = 0; i < forcing->knots; ++i) {
            bool lies = (double)i / 96.0 > cases[k].first_day - 1e-9 &&
                        (double)i / 96.0 < cases[k].last_day + (cases[k].last_day == 10) - 1e-9;
            assert_true(dawn_network_snow_lies(roof.building.network,
                                               (double)(from_s + (int64_t)i * 900)) == lies);
            near(dawn_network_snow_stops(&roof.building, i),
                 lies ? 1.0 - dawn_snow_light(0.10, 150) : 0.0, 1e-12, "light stopped");
        }
        dawn_network_free(roof.building.network);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(snow_stands_in_series),
        cmocka_unit_test(snow_shuts_a_window),
        cmocka_unit_test(it_lies_until_it_slides),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
