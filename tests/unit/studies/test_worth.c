/* Improvements and guesses: each as if the scenario had been written so, and in their order. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/studies/worth.h"
#include "support/near.h"
#include "support/shipped.h"

#define DEMO "scenarios/alder-hollow.yaml"

struct tried {
    struct shipped it;
    struct dawn_year year;
    struct dawn_years years;
    struct dawn_worth worth;
};

static struct dawn_trajectory_plan one_night(void)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    plan.from_s = shipped_noon_s(12);
    plan.to_s = shipped_noon_s(13);
    plan.spin_up = false;
    return plan;
}

static void try_night(struct tried *tried)
{
    shipped_read(&tried->it, DEMO, NULL, 0);
    tried->year = (struct dawn_year){&tried->it.weather, shipped_noon_s(12), shipped_noon_s(13)};
    tried->years = (struct dawn_years){1, &tried->year};
    const struct dawn_worth_plan plan = {
        .years = &tried->years, .run = one_night(), .line_C = 1, .threads = 2};
    shipped_fine(&tried->it,
                 dawn_worth_find(&tried->worth, &tried->it.scenario, &plan, &tried->it.problems),
                 "worth");
    assert_true(tried->worth.ways > 5 && tried->worth.guesses > 5);
}

static double coldest_air_of(const struct dawn_trial *trial)
{
    const char *set[DAWN_TRIAL_SETS];
    struct shipped it = {0};
    const struct dawn_trajectory_plan plan = one_night();
    for (size_t i = 0; i < trial->sets; i++)
        set[i] = trial->set[i];
    shipped_read(&it, DEMO, set, trial->sets);
    shipped_build(&it);
    shipped_run(&it, &plan);
    const double low_C = it.nights.night[0].air_low_C;
    shipped_release(&it);
    return low_C;
}

static void as_if_written_so(void **state)
{
    struct tried tried = {.years = {0, NULL}};
    (void)state;
    try_night(&tried);
    for (size_t i = 0; i < tried.worth.ways; i++)
        near(tried.worth.way[i].lows.air_coldest_C, coldest_air_of(&tried.worth.way[i].trial),
             1e-12, tried.worth.way[i].key);
    near(tried.worth.guess[0].at_high.air_coldest_C, coldest_air_of(&tried.worth.guess[0].high),
         1e-12, "widest guess");
    shipped_release(&tried.it);
}

static void in_their_order(void **state)
{
    struct tried tried = {.years = {0, NULL}};
    (void)state;
    try_night(&tried);
    const struct dawn_worth *worth = &tried.worth;
    for (size_t i = 1; i < worth->ways; i++) {
        const struct dawn_worth_way *a = &worth->way[i - 1];
        const struct dawn_worth_way *b = &worth->way[i];
        if (a->gain_K > 0 && b->gain_K > 0)
            assert_true(a->gain_K / a->cost >= b->gain_K / b->cost);
        else
            assert_true(a->gain_K >= b->gain_K);
    }
    for (size_t i = 1; i < worth->guesses; i++)
        assert_true(worth->guess[i - 1].swing_K >= worth->guess[i].swing_K);
    for (size_t i = 0; i < worth->ways; i++) {
        const struct dawn_worth_way *way = &worth->way[i];
        assert_true(way->cost > 0);
        if (strcmp(way->key, "seal") == 0 || strcmp(way->key, "skin") == 0 ||
            strcmp(way->key, "curtain") == 0 || strcmp(way->key, "barrel") == 0)
            assert_true(way->lows.air_coldest_C > worth->as_it_is.air_coldest_C - 0.01);
        if (strcmp(way->key, "barrel") == 0)
            near(way->cost, tried.it.scenario.prices.barrel, 1e-9, "a barrel");
        if (strcmp(way->key, "rock") == 0) /* 1 t at 2650 kg/m3 with 42 % gaps */
            near(way->cost, 32.0 + 30.0 / 2.65 / 0.58, 1e-6, "a tonne, dug in");
    }
    shipped_release(&tried.it);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(as_if_written_so),
                                       cmocka_unit_test(in_their_order)};

    return cmocka_run_group_tests(tests, NULL, NULL);
}
