/* Nights of a house whose places keep their temperatures: which place counts for what. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "dawnlow/nights.h"
#include "dawnlow/physics/sun.h"
#include "support/near.h"
#include "support/tiny.h"

/* A house with the places asked for (NAN = not there), each so heavy that it keeps its temperature,
 * and one crop (NAN = none). */
struct house {
    double air_C, trays_C, leaf_C, damage_C;
};

struct found {
    struct dawn_network *network;
    struct dawn_trajectory *run;
    struct dawn_nights nights;
    struct dawn_problems problems;
};

static int add_place(struct dawn_network *net, double C, enum dawn_role role, double start[])
{
    if (isnan(C))
        return DAWN_NO_NODE;
    int node = dawn_network_add_node(net, role, 1e15, 0, 0, "place");
    dawn_network_add_conduction(net, node, OUTSIDE(OUTSIDE_AIR), "loss", 1e-3);
    start[node] = C;
    return node;
}

static void look(struct found *found, const struct house *house)
{
    double start[3] = {0};
    struct dawn_scenario scenario = {.site = {.latitude_deg = 45.0, .longitude_deg = 0.0}};
    struct dawn_network *net = dawn_network_new();
    net->air = add_place(net, house->air_C, DAWN_ROLE_AIR, start);
    net->trays = add_place(net, house->trays_C, DAWN_ROLE_TRAYS, start);
    net->leaf = add_place(net, house->leaf_C, DAWN_ROLE_LEAF, start);
    tiny_finish(net, 72, 0.0);
    if (!isnan(house->damage_C)) {
        scenario.crop_count = 2;
        scenario.crops[0] = (struct dawn_crop){.name = "kale", .damage_C = house->damage_C - 5.0};
        scenario.crops[1] = (struct dawn_crop){.name = "tomato", .damage_C = house->damage_C};
    }
    *found = (struct found){.network = net, .run = tiny_run(net, start, 0, false)};
    assert_int_equal(dawn_nights_find(&found->nights, found->run, net, &scenario, &found->problems),
                     DAWN_OK);
    assert_true(found->nights.count >= 2);
}

static void put_away(struct found *found)
{
    dawn_nights_release(&found->nights);
    dawn_trajectory_free(found->run);
    dawn_network_free(found->network);
    dawn_problems_release(&found->problems);
}

/* "holds" more than 3 K above, "close" to 1 K, "touch and go" to 0 K, as README.md says it. */
static const struct expected {
    const char *what;
    struct house house;
    enum dawn_crop_place place;
    double crop_low_C;
    enum dawn_risk risk;
    bool crop_below;
} expected[] = {
    {"frost on leaves over mild trays",
     {3, 2, -0.5, 0},
     DAWN_CROP_AT_LEAVES,
     -0.5,
     DAWN_FREEZES,
     true},
    {"a hardy crop's leaves", {3, 2, -0.5, -2}, DAWN_CROP_AT_LEAVES, -0.5, DAWN_CLOSE, false},
    {"leaves near their line", {9, 8, 6.4, 6}, DAWN_CROP_AT_LEAVES, 6.4, DAWN_TOUCH_AND_GO, false},
    {"frozen trays under a hardy crop",
     {1, -1, 0, -20},
     DAWN_CROP_AT_LEAVES,
     0,
     DAWN_FREEZES,
     false},
    {"no leaves", {3, 2, NAN, 5}, DAWN_CROP_AT_TRAYS, 2, DAWN_FREEZES, true},
    {"no trays either", {3, NAN, NAN, 2.5}, DAWN_CROP_IN_AIR, 3, DAWN_TOUCH_AND_GO, false},
    {"no crop", {9, 8, -0.5, NAN}, DAWN_CROP_AT_LEAVES, NAN, DAWN_HOLDS, false},
};

static void crops_are_held_against_their_leaves(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof expected / sizeof *expected; ++i) {
        const struct expected *want = &expected[i];
        struct found found;
        look(&found, &want->house);
        const struct dawn_night *night = &found.nights.night[1];
        const double night_h = (double)(night->until_s - night->dusk_s) / 3600.0;
        print_message("%s\n", want->what);
        assert_int_equal(found.nights.crop_place, want->place);
        assert_int_equal(night->risk, want->risk);
        assert_int_equal(dawn_nights_below_crop(&found.nights),
                         want->crop_below ? found.nights.count : 0);
        if (isnan(want->house.damage_C)) {
            assert_true(isnan(night->crop_low_C) && isnan(night->below_crop_h));
        } else {
            assert_string_equal(found.nights.crop_name, "tomato");
            near(night->crop_low_C, want->crop_low_C, 1e-6, "crop low");
            near(night->below_crop_h, want->crop_below ? night_h : 0.0, 1e-6, "hours below");
        }
        put_away(&found);
    }
}

/* The place of the first line stays the trays, where there are trays. */
static void the_protected_place_is_the_trays(void **state)
{
    (void)state;
    struct found found;
    look(&found, &(struct house){3, 2, -0.5, 0});
    assert_true(found.nights.at_trays);
    near(found.nights.night[0].place_low_C, 2.0, 1e-6, "place low");
    assert_int_equal(dawn_nights_below_zero(&found.nights), 0);
    put_away(&found);
}

/* The nights that three days hold at a latitude on the Greenwich meridian. */
static struct found nights_at(double latitude_deg, int64_t from_s)
{
    double start[3] = {0};
    struct dawn_scenario scenario = {.site = {.latitude_deg = latitude_deg}};
    struct found found = {.network = dawn_network_new()};
    found.network->air = add_place(found.network, 3.0, DAWN_ROLE_AIR, start);
    tiny_finish(found.network, 72, 0.0);
    found.network->forcing.from_s = from_s;
    found.run = tiny_run(found.network, start, 0, false);
    assert_int_equal(
        dawn_nights_find(&found.nights, found.run, found.network, &scenario, &found.problems),
        DAWN_OK);
    return found;
}

/* In late July the mean sun's midnight is 6.5 minutes before the sun's own (equation of time,
 * almanacs, from memory): far north it may set between the two. */
static void short_summer_nights_are_found(void **state)
{
    (void)state;
    const double horizon_cos = sin(-0.833 * 3.141592653589793 / 180.0);
    double shortest_s = 86400.0;
    for (double latitude = 68.6; latitude < 69.3; latitude += 0.01) {
        struct found found = nights_at(latitude, 1784764800); /* 2026-07-23 */
        const struct dawn_night *night = &found.nights.night[0];
        double lowest = dawn_sun_position(1784851200.0 + 390.0, latitude, 0.0).cos_zenith;
        assert_true(found.nights.count > 0);
        if (lowest < horizon_cos - 2e-5) {
            near(dawn_sun_position((double)night->dusk_s, latitude, 0).cos_zenith, horizon_cos,
                 1e-5, "sunset");
            near(dawn_sun_position((double)night->dawn_s, latitude, 0).cos_zenith, horizon_cos,
                 1e-5, "sunrise");
            shortest_s = fmin(shortest_s, (double)(night->dawn_s - night->dusk_s));
        }
        put_away(&found);
    }
    assert_true(shortest_s < 2 * 390.0);
}

/* A midwinter sun that rises near noon: the run's last night is kept, its watch ends with the run.
 */
static void a_late_dawn_does_not_lose_the_night(void **state)
{
    (void)state;
    struct found found = nights_at(66.0, 1797854400); /* 2026-12-21 noon */
    const struct dawn_night *last = &found.nights.night[found.nights.count - 1];
    assert_int_equal(found.nights.count, 3);
    assert_true(last->dawn_s < last->until_s);
    assert_int_equal(last->until_s, dawn_trajectory_to_s(found.run));
    put_away(&found);
}

static void places_have_words(void **state)
{
    (void)state;
    assert_string_equal(dawn_nights_crop_place_words(DAWN_CROP_AT_LEAVES), "at the leaves");
    assert_string_equal(dawn_nights_crop_place_words(DAWN_CROP_AT_TRAYS), "at the trays");
    assert_string_equal(dawn_nights_crop_place_words(DAWN_CROP_IN_AIR), "in the house air");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(crops_are_held_against_their_leaves),
        cmocka_unit_test(the_protected_place_is_the_trays),
        cmocka_unit_test(short_summer_nights_are_found),
        cmocka_unit_test(a_late_dawn_does_not_lose_the_night),
        cmocka_unit_test(places_have_words),
    };
    return cmocka_run_group_tests_name("nights/find", tests, NULL, NULL);
}
