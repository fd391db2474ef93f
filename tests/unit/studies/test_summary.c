/* A run's nights summed up, and two halves of a run joined to the whole. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/studies/return_level.h"
#include "dawnlow/studies/summary.h"
#include "support/near.h"
#include "support/shipped.h"

static void begin(struct shipped *it, const char *path)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();

    shipped_read(it, path, NULL, 0);
    shipped_build(it);
    plan.from_s = shipped_noon_s(9);
    plan.to_s = shipped_noon_s(13);
    plan.spin_up = false;
    shipped_run(it, &plan);
}

static void sums_are_those_of_the_nights(void **state)
{
    struct shipped it = {0};
    struct dawn_summary sum;
    double coldest = INFINITY, fan_h = 0.0, mean = 0.0, rock_kWh = 0.0;

    (void)state;
    begin(&it, "scenarios/alder-hollow.yaml");
    dawn_summary_of(&sum, &it.nights, it.run, it.network);
    for (size_t i = 0; i < it.nights.count; i++) {
        coldest = fmin(coldest, it.nights.night[i].place_low_C);
        mean += it.nights.night[i].place_low_C / (double)it.nights.count;
        fan_h += it.nights.night[i].fan_h;
        rock_kWh += it.nights.night[i].rock_kWh;
    }
    near(sum.nights, 4.0, 0, "nights");
    near(sum.coldest_C, coldest, 0, "coldest");
    near(sum.mean_low_C, mean, 1e-12, "mean");
    near(sum.fan_h, fan_h, 1e-12, "fan");
    near(sum.rock_kWh, rock_kWh, 1e-12, "rock");
    /* Rock that gives back more each night than it takes up by day would cool for ever. */
    assert_true(sum.rock_stored_kWh > 0.5 * sum.rock_kWh);
    near(sum.hot_h, 0.0, 24.0, "hot hours of March");
    assert_true(sum.hot_h >= 0.0);
    shipped_release(&it);
}

static void what_is_not_there_has_no_number(void **state)
{
    struct shipped it = {0};
    struct dawn_summary sum;

    (void)state;
    begin(&it, "scenarios/film-tunnel.yaml");
    dawn_summary_of(&sum, &it.nights, it.run, it.network);
    assert_true(isnan(sum.rock_kWh) && isnan(sum.fan_h) && isnan(sum.barrels_kWh));
    assert_true(sum.nights > 0.0 && sum.coldest_air_C > -40.0);
    shipped_release(&it);
}

static void parts_join_to_the_whole(void **state)
{
    const struct dawn_summary a = {.nights = 3, .coldest_C = -1.0, .mean_low_C = 2.0, .fan_h = 5.0};
    const struct dawn_summary b = {
        .nights = 1, .coldest_C = -4.0, .mean_low_C = -4.0, .fan_h = 1.0};
    const struct dawn_summary year[] = {a, b, a, a};
    struct dawn_summary whole = {0};

    (void)state;
    dawn_summary_of_years(&whole, year, 2);
    near(whole.nights, 4.0, 0, "nights");
    near(whole.coldest_C, -4.0, 0, "coldest");
    near(whole.mean_low_C, 0.5, 1e-12, "mean weighed by nights");
    near(whole.fan_h, 6.0, 0, "hours");
    assert_true(isnan(whole.one_in_10_C)); /* two years tell nothing */
    dawn_summary_of_years(&whole, year, 4);
    static const double lows_C[] = {-1.0, -4.0, -1.0, -1.0};
    const struct dawn_return_level_fit fit = dawn_return_level_fit(lows_C, 4);
    near(whole.one_in_10_C, dawn_return_level_C(&fit, 10.0), 0, "one year in ten");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(sums_are_those_of_the_nights),
                                       cmocka_unit_test(what_is_not_there_has_no_number),
                                       cmocka_unit_test(parts_join_to_the_whole)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
