/* What rock, barrels and a tight house are worth in the demo nursery: on the clear cold nights of
 * its March, and on one clear day that comes again and again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/shipped.h"

static const char *const demo = "scenarios/alder-hollow.yaml";
static const char *const without = "scenarios/alder-hollow-no-storage.yaml";

/* ---- the clear nights ---- */

/* Light of the 24 hours before a moment, Wh/m2 on the level. */
static double light_before_Wh_m2(const struct dawn_weather *weather, int64_t moment_s)
{
    const size_t end = (size_t)((moment_s - weather->mean_first_s) / 3600);
    double sum = 0;
    for (size_t i = end - 24; i < end; ++i)
        sum += weather->ghi_W_m2[i];
    return sum;
}

/* The first row of the night that begins in the evening of a day of March. */
static const struct dawn_night *evening_of(const struct shipped *it, int day_of_march)
{
    const int64_t noon_s = shipped_noon_s(day_of_march);
    for (size_t i = 0; i < it->nights.count; ++i)
        if (it->nights.night[i].dusk_s > noon_s && it->nights.night[i].dusk_s < noon_s + 43200)
            return &it->nights.night[i];
    fail_msg("no night begins on %d March", day_of_march);
    return NULL;
}

static void clear_nights(int64_t from_s, int64_t to_s)
{
    struct shipped with = {0};
    struct shipped bare = {0};
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    int cold_nights = 0;
    plan.from_s = from_s;
    plan.to_s = to_s;
    shipped_read(&with, demo, NULL, 0);
    shipped_read(&bare, without, NULL, 0);
    shipped_build(&with);
    shipped_build(&bare);
    shipped_run(&with, &plan);
    shipped_run(&bare, &plan);
    for (int day = 11; day <= 14; ++day) {
        const struct dawn_night *held = evening_of(&with, day);
        const struct dawn_night *lost = evening_of(&bare, day);
        near(held->outside_low_C, lost->outside_low_C, 0.0, "the same night outside");
        if (held->outside_low_C > -9.0)
            continue;
        ++cold_nights;
        assert_true(light_before_Wh_m2(&with.weather, held->dusk_s) > 4000.0);
        if (held->air_low_C <= 0.0 || held->tray_low_C <= 0.0 || lost->air_low_C >= 0.0) {
            print_error("night of %d March, %.1f C outside: stores hold air %.2f, trays %.2f C; "
                        "without them air %.2f C\n",
                        day, held->outside_low_C, held->air_low_C, held->tray_low_C,
                        lost->air_low_C);
            fail();
        }
    }
    assert_true(cold_nights >= 3);
    shipped_release(&with);
    shipped_release(&bare);
}

/* A well-glazed nursery of 60 m2 with 18 t of rock, a fan and 12 barrels stays above freezing on
 * clear nights of -9 C and somewhat colder after sunny days; the same house without them does not
 * (common practice, no source). */
static void stores_hold_clear_nights(void **state)
{
    (void)state;
    clear_nights(shipped_noon_s(8), shipped_noon_s(22));
}

/* The same when the house has lived through all the weather since 1 February: the outcome must not
 * hang on how the run was begun. */
static void stores_hold_in_the_season(void **state)
{
    (void)state;
    clear_nights(0, 0);
}

/* ---- one clear day, again and again ---- */

/* From the noon of 15 March, clear and calm with a frost between its two noons that no store needs
 * to freeze in. */
enum { CLEAR_DAY = 15, DAYS = 14 };

static void repeat_day(struct dawn_weather *weather)
{
    double **series[] = {&weather->air_C,       &weather->dew_C,    &weather->wind_m_s,
                         &weather->pressure_Pa, &weather->cloud,    &weather->snow_m,
                         &weather->ghi_W_m2,    &weather->dni_W_m2, &weather->longwave_W_m2,
                         &weather->dhi_W_m2};
    const size_t first = (size_t)((shipped_noon_s(CLEAR_DAY) - weather->first_s) / 3600);
    const size_t count = (size_t)DAYS * 24 + 1;
    for (size_t k = 0; k < sizeof series / sizeof *series; ++k) {
        double *again = calloc(count, sizeof *again);
        assert_non_null(again);
        for (size_t i = 0; i < count; ++i)
            again[i] = (*series[k])[first + i % 24];
        free(*series[k]);
        *series[k] = again;
    }
    weather->first_s += 3600 * (int64_t)first;
    weather->mean_first_s += 3600 * (int64_t)first;
    weather->count = count;
}

/* The demo house with one value laid over it, run through the repeated day. */
static void run_repeated(struct shipped *it, const char *override, bool fan_allowed, bool moist)
{
    const char *const overrides[] = {override};
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    plan.rtol = 1e-7;
    plan.atol_K = 1e-5;
    plan.series_step_s = 3600;
    plan.fan_allowed = fan_allowed;
    shipped_read(it, demo, overrides, 1);
    it->scenario.moisture.present = it->scenario.moisture.present && moist;
    repeat_day(&it->weather);
    shipped_build(it);
    shipped_run(it, &plan);
    assert_int_equal(it->nights.count, DAYS);
}

/* Each value must leave every night at least as warm as the value before it. */
static void lows_rise(const char *const overrides[], size_t count, bool fan_allowed)
{
    struct shipped before = {0};
    run_repeated(&before, overrides[0], fan_allowed, true);
    for (size_t i = 1; i < count; ++i) {
        struct shipped after = {0};
        run_repeated(&after, overrides[i], fan_allowed, true);
        for (size_t k = 0; k < after.nights.count; ++k) {
            const struct dawn_night *was = &before.nights.night[k];
            const struct dawn_night *is = &after.nights.night[k];
            if (is->tray_low_C < was->tray_low_C || is->air_low_C < was->air_low_C) {
                print_error("night %zu: trays %.4f, air %.4f C with %s; %.4f, %.4f C with %s\n", k,
                            was->tray_low_C, was->air_low_C, overrides[i - 1], is->tray_low_C,
                            is->air_low_C, overrides[i]);
                fail();
            }
        }
        shipped_release(&before);
        before = after;
    }
    shipped_release(&before);
}

static const char *const barrels[] = {"barrels.north row.count=1",  "barrels.north row.count=4",
                                      "barrels.north row.count=8",  "barrels.north row.count=12",
                                      "barrels.north row.count=16", "barrels.north row.count=24"};
static const char *const leaks[] = {"house.air_changes=4 /h", "house.air_changes=2.4 /h",
                                    "house.air_changes=1.2 /h", "house.air_changes=0.6 /h",
                                    "house.air_changes=0.3 /h"};

/* Dark water takes no less light than what stood there, so the day's mean does not fall; and more
 * heat capacity beside the air makes the swing about that mean smaller (harmonic analysis of a heat
 * store under a daily wave, textbook matter). */
static void more_barrels_never_colder(void **state)
{
    (void)state;
    lows_rise(barrels, sizeof barrels / sizeof *barrels, false);
}

/* With the thermostat at work no theorem holds, as less surplus by day may mean less fan; that the
 * barrels still help is common practice, no source. */
static void more_barrels_never_colder_with_fan(void **state)
{
    (void)state;
    lows_rise(barrels, sizeof barrels / sizeof *barrels, true);
}

static void tighter_never_colder(void **state)
{
    (void)state;
    lows_rise(leaks, sizeof leaks / sizeof *leaks, false);
}

static void tighter_never_colder_with_fan(void **state)
{
    (void)state;
    lows_rise(leaks, sizeof leaks / sizeof *leaks, true);
}

/* Comparison theorem for cooperative systems (Kamke 1932, Mueller 1927, from memory): where every
 * node's rate rises with every other node's temperature, a rate that is nowhere lowered lowers no
 * temperature at any time. Less leakage raises the air's rate as long as the air is the warmer
 * side, which is asked first. The house is dry: a warmer pane has less water on it, and what that
 * lets through of long-wave would lower the rates of others. Ten times the absolute tolerance of
 * the runs is left for the solver.
 */
static void tighter_never_colder_anywhere(void **state)
{
    (void)state;
    struct shipped loose = {0};
    struct shipped tight = {0};
    run_repeated(&loose, "house.air_changes=2.4 /h", false, false);
    run_repeated(&tight, "house.air_changes=0.6 /h", false, false);
    const size_t nodes = dawn_network_node_count(loose.network);
    const size_t rows = dawn_trajectory_series_count(loose.run);
    const size_t air = (size_t)dawn_network_air(loose.network);
    double most_K = 0;
    assert_true(rows >= (size_t)DAYS * 24);
    assert_int_equal(rows, dawn_trajectory_series_count(tight.run));
    for (size_t row = 0; row < rows; ++row) {
        const double *loose_C = dawn_trajectory_series_C(loose.run, row);
        const double *tight_C = dawn_trajectory_series_C(tight.run, row);
        const double t_s = dawn_trajectory_series_time_s(loose.run, row);
        assert_true(loose_C[air] > dawn_network_outside_C(loose.network, t_s));
        for (size_t i = 0; i < nodes; ++i) {
            near(fmin(tight_C[i] - loose_C[i], 0.0), 0.0, 1e-4,
                 dawn_network_node(loose.network, i)->name);
            most_K = fmax(most_K, tight_C[i] - loose_C[i]);
        }
    }
    assert_true(most_K > 0.5);
    shipped_release(&loose);
    shipped_release(&tight);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stores_hold_clear_nights),
        cmocka_unit_test(stores_hold_in_the_season),
        cmocka_unit_test(more_barrels_never_colder),
        cmocka_unit_test(more_barrels_never_colder_with_fan),
        cmocka_unit_test(tighter_never_colder),
        cmocka_unit_test(tighter_never_colder_with_fan),
        cmocka_unit_test(tighter_never_colder_anywhere),
    };
    return cmocka_run_group_tests_name("storage", tests, NULL, NULL);
}
