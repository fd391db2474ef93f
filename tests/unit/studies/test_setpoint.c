/* Thermostat settings: what is measured is what the nights say, and the choice follows its rule. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "dawnlow/studies/setpoint.h"
#include "support/near.h"
#include "support/shipped.h"

#define DEMO "scenarios/alder-hollow.yaml"

struct tried {
    struct shipped it;
    struct dawn_year year[2];
    struct dawn_years years;
    struct dawn_setpoint setpoint;
};

/* A few nights of March, with or without the days before them; once, or the same stretch as two
 * years. */
static void try_march(struct tried *tried, size_t years, unsigned threads, bool spin_up)
{
    shipped_read(&tried->it, DEMO, NULL, 0);
    for (size_t i = 0; i < 2; i++)
        tried->year[i] =
            (struct dawn_year){&tried->it.weather, shipped_noon_s(12), shipped_noon_s(14)};
    tried->years = (struct dawn_years){years, tried->year};
    struct dawn_setpoint_plan plan = {.years = &tried->years,
                                      .run = dawn_trajectory_plan_usual(),
                                      .least_on_C = 16,
                                      .most_on_C = 28,
                                      .step_K = 6,
                                      .line_C = 3,
                                      .threads = threads};
    plan.run.spin_up = spin_up;
    shipped_fine(
        &tried->it,
        dawn_setpoint_find(&tried->setpoint, &tried->it.scenario, &plan, &tried->it.problems),
        "settings");
}

static void put_away(struct tried *tried)
{
    dawn_setpoint_release(&tried->setpoint);
    shipped_release(&tried->it);
}

/* The first row is the scenario as it is: as the nights have it. */
static void as_the_nights_have_it(void **state)
{
    struct tried tried = {.years = {0, NULL}};
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    double coldest_C = INFINITY;
    double below = 0;

    (void)state;
    try_march(&tried, 1, 2, false);
    plan.from_s = shipped_noon_s(12);
    plan.to_s = shipped_noon_s(14);
    plan.spin_up = false;
    shipped_build(&tried.it);
    shipped_run(&tried.it, &plan);
    for (size_t i = 0; i < tried.it.nights.count; i++) {
        coldest_C = fmin(coldest_C, tried.it.nights.night[i].place_low_C);
        below += tried.it.nights.night[i].place_low_C < 3;
    }
    const struct dawn_setpoint_row *own = &tried.setpoint.row[0];
    near(own->sum.coldest_C, coldest_C, 1e-12, "coldest");
    near(own->month[2].coldest_C, coldest_C, 1e-12, "coldest of March");
    near(own->below, below, 0, "nights below the line");
    assert_int_equal(own->month[2].nights, tried.it.nights.count);
    /* Hour by hour or in one go, the fan runs as long. */
    near(own->month[2].fan_h,
         dawn_trajectory_fan_s(tried.it.run, (double)plan.from_s, (double)plan.to_s) / 3600, 1e-6,
         "fan hours");
    assert_true(own->month[2].starts <= (double)dawn_trajectory_facts(tried.it.run).switches);
    assert_true(tried.setpoint.month[2].known && !tried.setpoint.month[3].known);
    assert_int_equal(tried.setpoint.count, 1 + 3 * 3 * 3);
    put_away(&tried);
}

/* The rule, done again the long way round. */
static void chosen_by_its_rule(void **state)
{
    struct tried tried = {.years = {0, NULL}};
    double fewest = INFINITY;
    double warmest_C = -INFINITY;

    (void)state;
    try_march(&tried, 1, 1, false);
    const struct dawn_setpoint *it = &tried.setpoint;
    assert_true(it->best < it->count);
    const struct dawn_setpoint_row *best = &it->row[it->best];
    for (size_t i = 0; i < it->count; i++)
        if (!it->row[i].failed)
            fewest = fmin(fewest, it->row[i].below);
    for (size_t i = 0; i < it->count; i++)
        if (!it->row[i].failed && it->row[i].below <= fewest)
            warmest_C = fmax(warmest_C, it->row[i].cold_C);
    near(best->below, fewest, 0, "fewest nights");
    assert_true(best->cold_C >= warmest_C - DAWN_SETPOINT_FLAT_K);
    for (size_t i = 0; i < it->count; i++)
        if (!it->row[i].failed && it->row[i].below <= fewest &&
            it->row[i].cold_C >= warmest_C - DAWN_SETPOINT_FLAT_K)
            assert_true(best->sum.fan_kWh <= it->row[i].sum.fan_kWh + 1e-6);
    assert_true(it->from_C <= best->on_C && best->on_C <= it->to_C);
    put_away(&tried);
}

/* A later start never stores more: growers' experience, and here row by row. */
static void a_later_start_runs_less(void **state)
{
    struct tried tried = {.years = {0, NULL}};

    (void)state;
    try_march(&tried, 1, 1, true);
    const struct dawn_setpoint *it = &tried.setpoint;
    size_t compared = 0;
    for (size_t i = 1; i < it->count; i++)
        for (size_t k = 1; k < it->count; k++) {
            const struct dawn_setpoint_row *early = &it->row[i];
            const struct dawn_setpoint_row *late = &it->row[k];
            if (early->failed || late->failed || early->gap_K != late->gap_K ||
                early->margin_K != late->margin_K || early->on_C > 20 || late->on_C < 27)
                continue;
            assert_true(late->month[2].day_fan_h <= early->month[2].day_fan_h);
            compared += late->month[2].day_fan_h < early->month[2].day_fan_h;
        }
    assert_true(compared > 0);
    put_away(&tried);
}

/* The same year twice: sums double, lows and the choice stay; threads do not show. */
static void years_add_up(void **state)
{
    struct tried once = {.years = {0, NULL}};
    struct tried twice = {.years = {0, NULL}};

    (void)state;
    try_march(&once, 1, 1, false);
    try_march(&twice, 2, 3, false);
    assert_int_equal(once.setpoint.best, twice.setpoint.best);
    near(twice.setpoint.nights, 2 * once.setpoint.nights, 0, "nights");
    for (size_t i = 0; i < once.setpoint.count; i++) {
        const struct dawn_setpoint_row *a = &once.setpoint.row[i];
        const struct dawn_setpoint_row *b = &twice.setpoint.row[i];
        assert_int_equal(a->failed, b->failed);
        if (a->failed)
            continue;
        near(b->sum.coldest_C, a->sum.coldest_C, 0, "coldest");
        near(b->cold_C, a->cold_C, 1e-12, "cold nights");
        near(b->sum.fan_kWh, 2 * a->sum.fan_kWh, 1e-9, "electricity");
        near(b->starts_a_day, a->starts_a_day, 1e-9, "starts a day");
        near(b->month[2].cooling_h, 2 * a->month[2].cooling_h, 1e-9, "cooling");
    }
    put_away(&once);
    put_away(&twice);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_the_nights_have_it), cmocka_unit_test(chosen_by_its_rule),
        cmocka_unit_test(a_later_start_runs_less), cmocka_unit_test(years_add_up)};

    return cmocka_run_group_tests(tests, NULL, NULL);
}
