/* Each nursery of the gallery teaches one thing, and says so in its head: that it is so. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/shipped.h"

/* Clear cold nights, -5 to -10 C outside, after sunny days. */
enum { FROM_MARCH = 10, TO_MARCH = 15, NIGHTS = 5 };

struct outcome {
    double coldest_C, mean_C, rock_kWh;
};

static struct outcome outcome_of(const char *path, bool fan_allowed)
{
    struct shipped it = {0};
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    struct outcome out = {.coldest_C = 99};
    plan.from_s = shipped_noon_s(FROM_MARCH);
    plan.to_s = shipped_noon_s(TO_MARCH);
    plan.fan_allowed = fan_allowed;
    shipped_read(&it, path, NULL, 0);
    shipped_build(&it);
    shipped_run(&it, &plan);
    assert_int_equal(it.nights.count, NIGHTS);
    for (size_t i = 0; i < NIGHTS; ++i) {
        out.coldest_C = fmin(out.coldest_C, it.nights.night[i].air_low_C);
        out.mean_C += it.nights.night[i].air_low_C / NIGHTS;
        out.rock_kWh += it.nights.night[i].rock_kWh;
    }
    shipped_release(&it);
    return out;
}

static struct dawn_fan_work fan_of(const char *path)
{
    struct dawn_scenario scenario;
    struct dawn_problems problems = {0};
    struct dawn_fan_work work = {0};
    assert_int_equal(dawn_scenario_read(&scenario, path, NULL, 0, &problems), DAWN_OK);
    assert_int_equal(dawn_network_fan_work(&scenario, &work, &problems), DAWN_OK);
    dawn_scenario_release(&scenario);
    dawn_problems_release(&problems);
    return work;
}

static const char *const good = "scenarios/twinwall-with-rock.yaml";

/* A tight double skin makes rock and fan worth their trouble. */
static void rock_and_fan_hold_a_tight_house(void **state)
{
    (void)state;
    struct outcome with = outcome_of(good, true);
    struct outcome still = outcome_of(good, false);
    print_message("air %.1f C with the fan, %.1f C without\n", with.coldest_C, still.coldest_C);
    assert_int_equal(fan_of(good).verdict, DAWN_FAN_FITS);
    assert_true(with.coldest_C > still.coldest_C + 3.0);
    assert_true(with.coldest_C > 3.0);
}

/* The fan can only store what the rock can take. */
static void a_bed_too_small_stores_little(void **state)
{
    (void)state;
    static const char *const small = "scenarios/bed-too-small.yaml";
    struct outcome with = outcome_of(good, true);
    struct outcome little = outcome_of(small, true);
    print_message("rock gave %.0f and %.0f kWh, air %.1f and %.1f C\n", with.rock_kWh,
                  little.rock_kWh, with.coldest_C, little.coldest_C);
    assert_int_equal(fan_of(small).verdict, DAWN_FAN_AIR_LEAVES_WARM);
    assert_true(little.rock_kWh < with.rock_kWh / 3.0);
    assert_true(little.coldest_C < with.coldest_C - 1.0);
}

/* Against hose and rock a weak fan moves less than a third of its label, and is worth less than a
 * third of the right one. */
static void a_weak_fan_is_worth_little(void **state)
{
    (void)state;
    static const char *const weak = "scenarios/fan-too-weak.yaml";
    struct outcome with = outcome_of(weak, true);
    struct outcome still = outcome_of(weak, false);
    double right_K = outcome_of(good, true).coldest_C - outcome_of(good, false).coldest_C;
    struct dawn_fan_work work = fan_of(weak);
    print_message("worth %.2f K, the right fan %.2f K\n", with.coldest_C - still.coldest_C,
                  right_K);
    assert_int_equal(work.verdict, DAWN_FAN_CHOKED_BY_DUCTS);
    assert_true(work.flow_m3_s < work.free_air_m3_s / 3.0);
    assert_true(with.coldest_C - still.coldest_C < right_K / 3.0);
}

/* The same rock and fan cannot keep up with the draught. */
static void a_leaky_house_wastes_its_rock(void **state)
{
    (void)state;
    static const char *const leaky = "scenarios/leaky-house.yaml";
    struct outcome tight = outcome_of(good, true);
    struct outcome torn = outcome_of(leaky, true);
    print_message("air %.1f C tight, %.1f C leaky\n", tight.coldest_C, torn.coldest_C);
    assert_int_equal(fan_of(leaky).verdict, DAWN_FAN_FITS);
    assert_true(torn.coldest_C < tight.coldest_C - 4.0);
    assert_true(torn.coldest_C < 0.0 && tight.coldest_C > 0.0);
}

/* Water under one skin of film: a degree or two. */
static void barrels_are_worth_a_degree_or_two(void **state)
{
    (void)state;
    struct outcome bare = outcome_of("scenarios/film-tunnel.yaml", true);
    struct outcome with = outcome_of("scenarios/tunnel-with-barrels.yaml", true);
    print_message("air lows %.2f C on the mean, %.2f C with barrels\n", bare.mean_C, with.mean_C);
    assert_true(with.mean_C - bare.mean_C > 1.0 && with.mean_C - bare.mean_C < 3.0);
    assert_true(with.coldest_C > bare.coldest_C);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rock_and_fan_hold_a_tight_house),
        cmocka_unit_test(a_bed_too_small_stores_little),
        cmocka_unit_test(a_weak_fan_is_worth_little),
        cmocka_unit_test(a_leaky_house_wastes_its_rock),
        cmocka_unit_test(barrels_are_worth_a_degree_or_two),
    };
    return cmocka_run_group_tests_name("gallery", tests, NULL, NULL);
}
