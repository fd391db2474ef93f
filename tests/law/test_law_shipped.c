/* Every nursery that is shipped keeps the heat's account over the demo's weather: the whole run,
 * and each night's ledger. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include <unistd.h>

#include "support/near.h"
#include "support/shipped.h"

/* By name: a grower's own nursery in the same folder is not shipped. */
static const char *const shipped_paths[] = {
    "scenarios/alder-hollow.yaml",        "scenarios/alder-hollow-no-storage.yaml",
    "scenarios/film-tunnel.yaml",         "scenarios/lean-to-with-barrels.yaml",
    "scenarios/tunnel-under-fleece.yaml", "scenarios/tunnel-with-barrels.yaml",
    "scenarios/twinwall-with-rock.yaml",  "scenarios/bed-too-small.yaml",
    "scenarios/fan-too-weak.yaml",        "scenarios/leaky-house.yaml",
    "scenarios/house-under-snow.yaml",
};
/* The first few go through the whole season: they hold all kinds of parts between them. */
enum { SHIPPED = sizeof shipped_paths / sizeof *shipped_paths, THROUGH_SEASON = 5 };

static void each_is_there(void **state)
{
    (void)state;
    for (size_t i = 0; i < SHIPPED; ++i)
        if (access(shipped_paths[i], R_OK) != 0)
            fail_msg("%s is not there", shipped_paths[i]);
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
    for (size_t i = 0; i < THROUGH_SEASON; ++i) {
        struct shipped it = {0};
        shipped_read(&it, shipped_paths[i], NULL, 0);
        shipped_build(&it);
        struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
        near(imbalance(&it, &plan), 0.0, 1e-4, shipped_paths[i]);
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
    for (size_t i = 0; i < SHIPPED; ++i) {
        struct shipped it = {0};
        shipped_read(&it, shipped_paths[i], NULL, 0);
        shipped_build(&it);
        struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
        plan.from_s = shipped_noon_s(8);
        plan.to_s = shipped_noon_s(22);
        plan.rtol = 1e-8;
        plan.atol_K = 1e-7;
        near(imbalance(&it, &plan), 0.0, 1e-6, shipped_paths[i]);
        shipped_release(&it);
    }
}

/* What a side's flows bring, its stores aside; and that its parts make the whole. */
static double flows_J(const struct dawn_ledger_side *side, double *stores_J)
{
    double flows = 0;
    double percent = 0;
    *stores_J = 0;
    for (size_t i = 0; i < side->count; ++i) {
        assert_true(side->share[i].J > 0);
        *(side->share[i].store ? stores_J : &flows) += side->share[i].J;
        percent += side->share[i].percent;
    }
    near(flows + *stores_J, side->J, 1e-9 * side->J, "a side's parts");
    near(percent, 100.0, 1e-9, "a side's shares");
    return flows;
}

/* First law again, for what has a temperature: what came less what went is what the stores gained,
 * within 0.1 % of it all. */
static void shares_close(const struct dawn_ledger *ledger, const char *what)
{
    double taken_up = 0;
    double given_back = 0;
    double went = flows_J(&ledger->went, &taken_up);
    double came = flows_J(&ledger->paid, &given_back);
    near(came - went, taken_up - given_back, 1e-3 * ledger->paid.J, what);
}

/* And for each part by itself: what it gave the others and the outdoors less what it took from them
 * is what it gave back as a store, within 0.1 % of all that moved. */
static void passages_close(const struct dawn_ledger *ledger, const char *what)
{
    assert_true(ledger->passage_count > 0);
    for (size_t i = 0; i < ledger->store_count; ++i) {
        double given = 0;
        for (size_t k = 0; k < ledger->passage_count; ++k) {
            const struct dawn_ledger_passage *row = &ledger->passage[k];
            assert_true(row->J >= 0 && row->water_kg >= 0);
            given += strcmp(row->from, ledger->stores[i].name) == 0 ? row->J : 0;
            given -= strcmp(row->to, ledger->stores[i].name) == 0 ? row->J : 0;
        }
        near(given, ledger->stores[i].J, 1e-3 * ledger->throughput_J, what);
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
    shares_close(&ledger, what);
    passages_close(&ledger, what);
    dawn_nights_ledger_release(&ledger);
}

/* A clear cold night, a mild dull one, and one after the other's day. */
static void nights_ledger_closes(void **state)
{
    (void)state;
    for (size_t i = 0; i < SHIPPED; ++i) {
        struct shipped it = {0};
        shipped_read(&it, shipped_paths[i], NULL, 0);
        shipped_build(&it);
        struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
        plan.from_s = shipped_noon_s(8);
        plan.to_s = shipped_noon_s(22);
        plan.ledger = true;
        shipped_run(&it, &plan);
        assert_true(it.nights.count >= 13);
        ledger_closes(&it, 1, shipped_paths[i]);
        ledger_closes(&it, 4, shipped_paths[i]);
        ledger_closes(&it, 12, shipped_paths[i]);
        shipped_release(&it);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_is_there),
        cmocka_unit_test(heat_agrees),
        cmocka_unit_test(heat_agrees_tightly),
        cmocka_unit_test(nights_ledger_closes),
    };
    return cmocka_run_group_tests_name("shipped", tests, NULL, NULL);
}
