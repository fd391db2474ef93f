/* The cheapest that holds, against trying everything. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "dawnlow/studies/size.h"
#include "support/near.h"
#include "support/shipped.h"

#define DEMO "scenarios/alder-hollow.yaml"

struct tried {
    struct shipped it;
    struct dawn_year year;
    struct dawn_years years;
    struct dawn_size_lever lever[DAWN_SIZE_KINDS];
    struct dawn_size_plan plan;
    struct dawn_size size;
};

static void search(struct tried *tried, const char *vary, double line_C, bool fast)
{
    shipped_read(&tried->it, DEMO, NULL, 0);
    tried->year = (struct dawn_year){&tried->it.weather, shipped_noon_s(12), shipped_noon_s(13)};
    tried->years = (struct dawn_years){1, &tried->year};
    tried->plan = (struct dawn_size_plan){
        .years = &tried->years,
        .run = dawn_trajectory_plan_usual(),
        .goal = {.place = DAWN_GOAL_AIR, .line_C = line_C, .springs = 10, .spring_only = true},
        .lever = tried->lever,
        .budget = NAN,
        .threads = 2};
    tried->plan.run.spin_up = false;
    tried->plan.run.fast = tried->plan.confirm = fast;
    shipped_fine(&tried->it,
                 dawn_size_levers(tried->lever, &tried->plan.levers, vary, &tried->it.scenario,
                                  &tried->it.problems),
                 "levers");
    shipped_fine(
        &tried->it,
        dawn_size_find(&tried->size, &tried->it.scenario, &tried->plan, &tried->it.problems),
        "search");
}

/* Low of the house air with so much rock and so many barrels, by way of the reader and the run. */
static double low_of(double rock_t, double barrels, double *cost)
{
    char rock[64];
    char count[64];
    const char *const set[] = {rock, count};
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    struct shipped it = {0};

    (void)snprintf(rock, sizeof rock, "rock.mass=%g t", rock_t);
    (void)snprintf(count, sizeof count, "barrels.1.count=%g", barrels);
    plan.from_s = shipped_noon_s(12);
    plan.to_s = shipped_noon_s(13);
    plan.spin_up = false;
    shipped_read(&it, DEMO, set, 2);
    shipped_build(&it);
    shipped_run(&it, &plan);
    const double low_C = it.nights.night[0].air_low_C;
    *cost = dawn_cost_of(&it.scenario).total;
    shipped_release(&it);
    return low_C;
}

/* The search is as cheap or cheaper, and what it found holds by the accurate engine. */
static void holds_as_cheap(double line_C, double cheapest, bool fast)
{
    struct tried tried = {.plan = {.levers = 0}};
    double cost = 0;

    search(&tried, "rock=8..16 t,barrels=4..20", line_C, fast);
    assert_true(tried.size.met);
    assert_true(tried.size.confirmed == fast);
    assert_true(tried.size.best.cost.total <= cheapest + 1e-9);
    const double low_C = low_of(tried.size.best.value[0], tried.size.best.value[1], &cost);
    near(low_C, tried.size.best.low_C, 1e-9, "low of the answer");
    near(cost, tried.size.best.cost.total, 1e-9, "its cost");
    assert_true(low_C >= line_C);
    shipped_release(&tried.it);
}

/* Everything on a coarse grid, by way of the reader and the run. */
static void against_trying_everything(void **state)
{
    double cost = 0;
    double cheapest = INFINITY;
    const double few_C = low_of(8, 4, &cost);
    const double many_C = low_of(16, 20, &cost);
    const double line_C = few_C + 0.5 * (many_C - few_C);

    (void)state;
    assert_true(many_C > few_C);
    for (double rock = 8; rock <= 16; rock += 4)
        for (double barrels = 4; barrels <= 20; barrels += 4)
            if (low_of(rock, barrels, &cost) >= line_C && cost < cheapest)
                cheapest = cost;
    assert_true(isfinite(cheapest));
    holds_as_cheap(line_C, cheapest, false);
    holds_as_cheap(line_C, cheapest, true);
}

static void what_cannot_be_held(void **state)
{
    struct tried tried = {.plan = {.levers = 0}};

    (void)state;
    search(&tried, "barrels=0..4", 30, false);
    assert_false(tried.size.met);
    near(tried.size.reach.value[0], 4, 0, "most barrels come nearest");
    assert_true(tried.size.reach.slack_K < 0);
    shipped_release(&tried.it);
}

static void what_cannot_be_varied(void **state)
{
    static const char *const wrong[] = {"rocks",        "rock=20..4 t",  "rock=4 t",
                                        "rock,,fan",    "rock=4..20 m2", "rock,rock",
                                        "barrels=-4..2"};
    struct shipped it = {0};

    (void)state;
    shipped_read(&it, DEMO, NULL, 0);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        struct dawn_size_lever lever[DAWN_SIZE_KINDS];
        struct dawn_problems problems = {0};
        size_t count = 0;
        if (dawn_size_levers(lever, &count, wrong[i], &it.scenario, &problems) == DAWN_OK)
            fail_msg("'%s' is taken", wrong[i]);
        assert_int_equal(problems.errors, 1);
        dawn_problems_release(&problems);
    }
    shipped_release(&it);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(against_trying_everything),
                                       cmocka_unit_test(what_cannot_be_held),
                                       cmocka_unit_test(what_cannot_be_varied)};

    return cmocka_run_group_tests(tests, NULL, NULL);
}
