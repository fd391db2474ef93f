/* Every nursery that is shipped keeps the heat's account over the demo's weather: the whole run,
 * and each night's ledger. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include <glob.h>

#include "support/near.h"
#include "support/shipped.h"

static glob_t found;

static int find_scenarios(void **state)
{
    (void)state;
    return glob("scenarios/*.yaml", 0, NULL, &found);
}

static int forget_scenarios(void **state)
{
    (void)state;
    globfree(&found);
    return 0;
}

static double imbalance(struct shipped *it, const struct dawn_trajectory_plan *plan)
{
    shipped_run(it, plan);
    return dawn_trajectory_facts(it->run).imbalance;
}

/* First law: what crossed the boundary is what was stored. The tolerances are a promise to the
 * grower; the account is kept by Simpson's rule on Hermite states and shares no formula with the
 * solver, so that its own error and the solver's must both be this small. */
static void heat_agrees(void **state)
{
    (void)state;
    assert_true(found.gl_pathc >= 4);
    for (size_t i = 0; i < found.gl_pathc; ++i) {
        struct shipped it = {0};
        shipped_read(&it, found.gl_pathv[i], NULL, 0);
        shipped_build(&it);
        struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
        near(imbalance(&it, &plan), 0.0, 1e-4, found.gl_pathv[i]);
        /* A season has one night less than it has days; at another place's clock one more may be
         * cut. */
        assert_in_range(it.nights.count, it.weather.count / 24 - 2, it.weather.count / 24);
        shipped_release(&it);
    }
}

/* The same at tight tolerances: what is left of the error falls with them. */
static void heat_agrees_tightly(void **state)
{
    (void)state;
    for (size_t i = 0; i < found.gl_pathc; ++i) {
        struct shipped it = {0};
        shipped_read(&it, found.gl_pathv[i], NULL, 0);
        shipped_build(&it);
        struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
        plan.from_s = shipped_noon_s(8);
        plan.to_s = shipped_noon_s(22);
        plan.rtol = 1e-8;
        plan.atol_K = 1e-7;
        near(imbalance(&it, &plan), 0.0, 1e-6, found.gl_pathv[i]);
        shipped_release(&it);
    }
}

static void ledger_closes(struct shipped *it, size_t night, const char *what)
{
    struct dawn_ledger ledger = {0};
    shipped_fine(
        it,
        dawn_nights_ledger(&ledger, &it->nights.night[night], it->run, it->network, &it->problems),
        "ledger");
    double sum = 0;
    double size = 0;
    assert_true(ledger.boundary_count > 0 && ledger.store_count > 0);
    for (size_t i = 0; i < ledger.boundary_count; ++i) {
        sum += ledger.boundary[i].J;
        size += fabs(ledger.boundary[i].J);
    }
    for (size_t i = 0; i < ledger.store_count; ++i) {
        sum += ledger.stores[i].J;
        size += fabs(ledger.stores[i].J);
    }
    assert_true(size > 1e6);
    /* Flows of one group can cancel in their row, so the rows never add up to more than the flows.
     */
    assert_true(0.5 * size <= ledger.throughput_J * (1 + 1e-9));
    near(sum, 0.0, 1e-3 * ledger.throughput_J, what);
    near(ledger.imbalance_J, sum, 1e-9 * size, what);
    dawn_nights_ledger_release(&ledger);
}

/* A clear cold night, a mild dull one, and one after the other's day. */
static void nights_ledger_closes(void **state)
{
    (void)state;
    for (size_t i = 0; i < found.gl_pathc; ++i) {
        struct shipped it = {0};
        shipped_read(&it, found.gl_pathv[i], NULL, 0);
        shipped_build(&it);
        struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
        plan.from_s = shipped_noon_s(8);
        plan.to_s = shipped_noon_s(22);
        plan.ledger = true;
        shipped_run(&it, &plan);
        assert_true(it.nights.count >= 13);
        ledger_closes(&it, 1, found.gl_pathv[i]);
        ledger_closes(&it, 4, found.gl_pathv[i]);
        ledger_closes(&it, 12, found.gl_pathv[i]);
        shipped_release(&it);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(heat_agrees),
        cmocka_unit_test(heat_agrees_tightly),
        cmocka_unit_test(nights_ledger_closes),
    };
    return cmocka_run_group_tests_name("shipped", tests, find_scenarios, forget_scenarios);
}
