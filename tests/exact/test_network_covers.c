/* Covers in the network against closed forms: radiation past shields, air past a sheet. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/physics/cover.h"
#include "network/network_build.h"
#include "support/near.h"
#include "support/tiny.h"

static const double sigma = 5.670374419e-8; /* CODATA 2018 */
static const double held_J_K = 1e15;        /* so large that the node keeps its state */
static const double warm_C = 20.0, cold_C = -20.0;

/* Two large black faces of 1 m2 across from each other, the warm one below covers. */
struct gap {
    struct building building;
    int warm, cold;
};

static void begin(struct gap *gap)
{
    memset(gap, 0, sizeof *gap);
    gap->building.network = dawn_network_new();
    gap->warm = dawn_network_add_node(gap->building.network, DAWN_ROLE_FLOOR, held_J_K, 0, 0, "a");
    gap->cold = dawn_network_add_node(gap->building.network, DAWN_ROLE_WALL, held_J_K, 0, 0, "b");
}

/* A thin sheet that lets some through and takes some, the same on both faces. */
static void hang(struct gap *gap, double passes, double takes)
{
    struct dawn_network *net = gap->building.network;
    int cover = (int)net->cover_count++;
    int sheet = dawn_network_add_node(net, DAWN_ROLE_COVER, 10.0, 0, 0, "sheet %d", cover + 1);
    net->covers[cover] =
        (struct network_cover){.passes = passes, .takes_inside = takes, .takes_outside = takes};
    gap->building.cover_faces[cover] = (struct cover_faces){sheet, sheet};
}

/* What passes from the warm to the cold face once the sheets have come to rest, W; all covers over
 * the warm face, or the last of them over the cold one. */
static double crosses_W(struct gap *gap, double drawn, size_t over_cold)
{
    struct building *building = &gap->building;
    struct dawn_network *net = building->network;
    struct radiant_surface a = {.node = gap->warm, .area_m2 = 1, .emissivity = 1, .group = 0};
    struct radiant_surface b = {.node = gap->cold, .area_m2 = 1, .emissivity = 1, .group = 1};
    for (size_t i = 0; i < net->cover_count; ++i) {
        struct cover_stack *below = i + over_cold < net->cover_count ? &a.below : &b.below;
        below->cover[below->count++] = (int)i;
    }
    dawn_network_radiant_add(building, a);
    dawn_network_radiant_add(building, b);
    dawn_network_radiant_link(building);
    tiny_finish(net, 2, 0.0);
    for (size_t i = 0; i < net->forcing.knots * net->forcing.covers; ++i)
        net->forcing.drawn[i] = drawn;
    double start[2 + COVERS_MOST] = {warm_C, cold_C};
    struct dawn_trajectory *run = tiny_run(net, start, 3600, false);
    const double *T = dawn_trajectory_series_C(run, 2);
    double watts[32];
    double rates[2 + COVERS_MOST];
    assert_true(dawn_network_flow_count(net) <= 32);
    dawn_network_flows_W(net, false, 3600, T, watts, rates);
    double sum = 0;
    for (size_t i = 0; i < dawn_network_flow_count(net); ++i)
        if (dawn_network_flow(net, i).to == gap->cold)
            sum += watts[i];
    dawn_trajectory_free(run);
    dawn_network_free(net);
    return sum;
}

static double black_W(void)
{
    double warm = warm_C + 273.15;
    double cold = cold_C + 273.15;
    return sigma * (warm * warm * warm * warm - cold * cold * cold * cold);
}

/* n black shields between two black faces leave 1/(n + 1) of the exchange (textbooks on radiation;
 * computed closed form), whichever face they belong to. */
static void shields_divide_the_exchange(void **state)
{
    (void)state;
    for (size_t shields = 0; shields <= 3; ++shields) {
        for (size_t over_cold = 0; over_cold <= shields; ++over_cold) {
            struct gap gap;
            begin(&gap);
            for (size_t i = 0; i < shields; ++i)
                hang(&gap, 0, 1);
            near(crosses_W(&gap, 1.0, over_cold), black_W() / (double)(shields + 1), 1e-6,
                 "behind shields");
        }
    }
}

/* One sheet that lets tau through, takes eps and throws back the rest: at rest it gives off to each
 * side half of what it takes from both, so tau + eps/2 crosses (computed closed form); drawn half
 * way, half of it is as if there were none. Away, all crosses. */
static void a_sheet_passes_and_takes(void **state)
{
    (void)state;
    const double tau = 0.5;
    const double eps = 0.3;
    for (int half = 0; half <= 2; ++half) {
        double drawn = half / 2.0;
        struct gap gap;
        begin(&gap);
        hang(&gap, tau, eps);
        near(crosses_W(&gap, drawn, 0), black_W() * (1.0 - drawn + drawn * (tau + 0.5 * eps)), 1e-6,
             "past a sheet");
    }
}

/* Two things under the same cover see each other as if there were none. */
static void under_one_cover_nothing_hinders(void **state)
{
    (void)state;
    struct gap gap;
    begin(&gap);
    hang(&gap, 0.2, 0.7);
    struct building *building = &gap.building;
    struct radiant_surface a = {.node = gap.warm, .area_m2 = 1, .emissivity = 1, .below = {1, {0}}};
    struct radiant_surface b = a;
    b.node = gap.cold;
    b.group = 1;
    dawn_network_radiant_add(building, a);
    dawn_network_radiant_add(building, b);
    dawn_network_radiant_link(building);
    assert_int_equal(building->network->longwave_count, 1);
    assert_int_equal(building->network->longwave[0].veil, NO_VEIL);
    near(building->network->longwave[0].law.exchange_m2, 1.0, 1e-9, "all of the face");
    dawn_network_free(building->network);
}

/* Air shut off between a held surface and held air around: its temperature lies between the two as
 * film and exchange weigh (computed closed form); the exchange is the leak when drawn, all but
 * without hindrance when away, and falls by equal factors between. */
static void air_below_lies_between(void **state)
{
    (void)state;
    const double film_W_K = 2.0;
    const double leak_W_K = 0.5;
    const double open_W_K = 1000.0;
    for (int quarter = 0; quarter <= 4; ++quarter) {
        double drawn = quarter / 4.0;
        struct dawn_network *net = dawn_network_new();
        int surface = dawn_network_add_node(net, DAWN_ROLE_BED, held_J_K, 0, 0, "bed");
        int around = dawn_network_add_node(net, DAWN_ROLE_AIR, held_J_K, 0, 0, "air");
        int below = dawn_network_add_node(net, DAWN_ROLE_AIR, 300.0, 0, 0, "air below");
        net->cover_count = 1;
        dawn_network_add_natural(
            net, surface, below,
            (struct natural_link){.law = {.area_m2 = 1, .least_W_m2K = film_W_K}});
        dawn_network_add_exchange(net, below, around, leak_W_K,
                                  dawn_network_veil_of(net, 0, VEIL_DRAWN));
        dawn_network_add_exchange(net, below, around, open_W_K,
                                  dawn_network_veil_of(net, 0, VEIL_GAP));
        tiny_finish(net, 2, 0.0);
        for (size_t i = 0; i < net->forcing.knots; ++i)
            net->forcing.drawn[i] = drawn;
        const double start[] = {15.0, 5.0, 10.0};
        struct dawn_trajectory *run = tiny_run(net, start, 3600, false);
        double exchange = drawn * leak_W_K + open_W_K * (pow(1000, 1 - drawn) - 1) / 999;
        near(dawn_trajectory_series_C(run, 2)[below],
             (film_W_K * 15.0 + exchange * 5.0) / (film_W_K + exchange), 1e-6, "air below");
        dawn_trajectory_free(run);
        dawn_network_free(net);
    }
}

/* A film that lets all long-wave through, with water on it that shuts 55 % when there is much of
 * it: what the thing behind loses through it, what the water takes, what the water itself loses
 * through the film (computed closed form). */
static void water_on_a_film_shuts_the_window(void **state)
{
    (void)state;
    for (int wet = 0; wet < 2; ++wet) {
        struct gap gap;
        begin(&gap);
        struct building *building = &gap.building;
        struct dawn_network *net = building->network;
        net->air = net->ridge = dawn_network_add_node(net, DAWN_ROLE_AIR, held_J_K, 0, 0, "air");
        net->vapour = net->ridge_vapour =
            dawn_network_add_node(net, DAWN_ROLE_VAPOUR, held_J_K, 0, 0, "vapour");
        dawn_network_add_natural(net, gap.cold, net->air,
                                 (struct natural_link){.law = {.area_m2 = 1}});
        dawn_network_add_condense(net, gap.cold, 1.0, 100.0);
        dawn_network_radiant_add(
            building, (struct radiant_surface){.node = gap.warm, .area_m2 = 1, .emissivity = 1});
        dawn_network_radiant_add(building, (struct radiant_surface){.node = DAWN_NO_NODE,
                                                                    .area_m2 = 1,
                                                                    .emissivity = 1,
                                                                    .group = 1,
                                                                    .sky_view = 1,
                                                                    .wets = true});
        dawn_network_radiant_link(building);
        tiny_finish(net, 2, 0.0);
        for (size_t i = 0; i < net->forcing.knots; ++i)
            net->forcing.sky_W_m2[i] = 200;
        const double y[] = {warm_C, cold_C, 0, 0, wet ? 1000.0 : 0.0};
        double watts[32];
        double rates[8];
        dawn_network_flows_W(net, false, 3600, y, watts, rates);
        double to_sky[2] = {0, 0};
        double to_water = 0;
        for (size_t i = 0; i < dawn_network_flow_count(net); ++i) {
            const struct dawn_flow flow = dawn_network_flow(net, i);
            if (strncmp(flow.kind, "long-wave", 9) != 0)
                continue;
            if (flow.to == gap.cold)
                to_water += watts[i];
            else
                to_sky[flow.from == gap.cold] += watts[i];
        }
        double warm = pow(warm_C + 273.15, 4) * sigma;
        double cold = pow(cold_C + 273.15, 4) * sigma;
        near(to_sky[0], (warm - 200) * (wet ? 0.45 : 1.0), 1e-9, "through the film");
        near(to_water, (warm - cold) * (wet ? 0.55 : 0.0), 1e-9, "to the water");
        near(to_sky[1], (cold - 200) * (wet ? 0.55 : 0.0), 1e-9, "from the water");
        dawn_network_free(net);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shields_divide_the_exchange),
        cmocka_unit_test(a_sheet_passes_and_takes),
        cmocka_unit_test(under_one_cover_nothing_hinders),
        cmocka_unit_test(air_below_lies_between),
        cmocka_unit_test(water_on_a_film_shuts_the_window),
    };
    return cmocka_run_group_tests_name("covers in the network", tests, NULL, NULL);
}
