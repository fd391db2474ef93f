/* Cases in a batch: each is what a run of its own is, on any number of threads. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "dawnlow/studies/batch.h"
#include "support/near.h"
#include "support/shipped.h"

enum { CASES = 5, BAD = 3 };
struct study {
    const struct dawn_scenario *scenario;
    double low_C[CASES];
    enum dawn_status status[CASES];
    size_t errors[CASES], stop_after;
};

static enum dawn_status vary(size_t index, struct dawn_batch_case *it,
                             struct dawn_problems *problems, void *user)
{
    const struct study *study = user;
    char text[64];
    const char *override = text;

    (void)snprintf(text, sizeof text, "rock.mass=%s",
                   index == BAD ? "plenty"
                                : (const char *[]){"6 t", "9 t", "12 t", "", "18 t"}[index]);
    it->own_scenario = true;
    return dawn_scenario_with(&it->scenario, study->scenario, &override, 1, problems);
}

static void take(size_t index, const struct dawn_batch_outcome *outcome, void *user)
{
    struct study *study = user;

    study->status[index] = outcome->status;
    study->errors[index] = outcome->problems->errors;
    if (outcome->status == DAWN_OK)
        study->low_C[index] = outcome->nights->night[0].place_low_C;
}

static bool keep_going(size_t done, size_t cases, void *user)
{
    const struct study *study = user;

    return cases == CASES && done < study->stop_after;
}

/* A night in March without the days before it; what is done with the cases is the caller's. */
static struct dawn_batch_plan one_night(const struct shipped *it, size_t cases, unsigned threads)
{
    struct dawn_batch_plan plan = {.scenario = &it->scenario,
                                   .weather = &it->weather,
                                   .run = dawn_trajectory_plan_usual(),
                                   .cases = cases,
                                   .threads = threads};

    plan.run.from_s = shipped_noon_s(9);
    plan.run.to_s = shipped_noon_s(10);
    plan.run.spin_up = false;
    return plan;
}

static struct study run(struct shipped *it, unsigned threads, size_t stop_after, size_t *done)
{
    struct study study = {.scenario = &it->scenario, .stop_after = stop_after};
    struct dawn_batch_plan plan = one_night(it, CASES, threads);
    plan.vary = vary;
    plan.take = take;
    plan.keep_going = keep_going;
    plan.user = &study;
    shipped_fine(it, dawn_batch_run(&plan, done, &it->problems), "batch");
    return study;
}

static double low_of_own_run(const char *mass)
{
    struct shipped it = {0};
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();

    shipped_read(&it, "scenarios/alder-hollow.yaml", &mass, 1);
    shipped_build(&it);
    plan.from_s = shipped_noon_s(9);
    plan.to_s = shipped_noon_s(10);
    plan.spin_up = false;
    shipped_run(&it, &plan);
    const double low_C = it.nights.night[0].place_low_C;
    shipped_release(&it);
    return low_C;
}

static void cases_are_runs_of_their_own(void **state)
{
    struct shipped it = {0};
    size_t done = 0;

    (void)state;
    shipped_read(&it, "scenarios/alder-hollow.yaml", NULL, 0);
    const struct study one = run(&it, 1, CASES, &done);
    assert_int_equal(done, CASES);
    const struct study two = run(&it, 2, CASES, &done);
    for (size_t i = 0; i < CASES; i++) {
        assert_int_equal(one.status[i], i == BAD ? DAWN_ERR_SCENARIO : DAWN_OK);
        assert_int_equal(two.status[i], one.status[i]);
        assert_int_equal(one.errors[i], i == BAD ? 1 : 0);
        assert_true(one.low_C[i] == two.low_C[i]);
    }
    assert_true(one.low_C[0] == low_of_own_run("rock.mass=6 t"));
    assert_true(one.low_C[4] == low_of_own_run("rock.mass=18 t"));
    assert_true(one.low_C[0] < one.low_C[4]);
    shipped_release(&it);
}

static void stops_when_told(void **state)
{
    struct shipped it = {0};
    size_t done = 0;

    (void)state;
    shipped_read(&it, "scenarios/alder-hollow.yaml", NULL, 0);
    (void)run(&it, 1, 2, &done);
    assert_int_equal(done, 2);
    shipped_release(&it);
}

/* ---- side by side in the lanes ---- */

enum { MANY = 24, WRONG_EVERY = 7 };
struct crowd {
    const struct dawn_scenario *scenario;
    double low_C[MANY];
    enum dawn_status status[MANY];
    bool taken[MANY];
    size_t stop_after;
};

static bool is_wrong(size_t index)
{
    return index % WRONG_EVERY == 3;
}

/* Networks of two shapes, and some that cannot be. */
static enum dawn_status vary_crowd(size_t index, struct dawn_batch_case *it,
                                   struct dawn_problems *problems, void *user)
{
    const struct crowd *crowd = user;
    char mass[64];
    const char *overrides[] = {mass, index % 3 == 0 ? "house.zones=1" : "house.zones=2"};

    (void)snprintf(mass, sizeof mass, "rock.mass=%zu %s", 6 + index, is_wrong(index) ? "?" : "t");
    it->own_scenario = true;
    return dawn_scenario_with(&it->scenario, crowd->scenario, overrides, 2, problems);
}

static void take_crowd(size_t index, const struct dawn_batch_outcome *outcome, void *user)
{
    struct crowd *crowd = user;

    assert_false(crowd->taken[index]);
    crowd->taken[index] = true;
    crowd->status[index] = outcome->status;
    if (outcome->status == DAWN_OK)
        crowd->low_C[index] = outcome->nights->night[0].place_low_C;
}

static bool keep_on(size_t done, size_t cases, void *user)
{
    const struct crowd *crowd = user;

    return cases == MANY && done < crowd->stop_after;
}

static struct crowd run_crowd(struct shipped *it, unsigned threads, bool fast, size_t stop_after,
                              size_t *done)
{
    struct crowd crowd = {.scenario = &it->scenario, .stop_after = stop_after};
    struct dawn_batch_plan plan = one_night(it, MANY, threads);
    plan.vary = vary_crowd;
    plan.take = take_crowd;
    plan.keep_going = keep_on;
    plan.user = &crowd;
    plan.run.fast = fast;
    shipped_fine(it, dawn_batch_run(&plan, done, &it->problems), "batch");
    return crowd;
}

static void lanes_and_threads_do_not_matter(void **state)
{
    const unsigned threads[] = {1, 2, 7, MANY + 5};
    struct shipped it = {0};
    size_t done = 0;

    (void)state;
    shipped_read(&it, "scenarios/alder-hollow.yaml", NULL, 0);
    const struct crowd close = run_crowd(&it, 2, false, MANY, &done);
    const struct crowd first = run_crowd(&it, 1, true, MANY, &done);
    for (size_t k = 0; k < sizeof threads / sizeof *threads; k++) {
        const struct crowd crowd = run_crowd(&it, threads[k], true, MANY, &done);
        assert_int_equal(done, MANY);
        for (size_t i = 0; i < MANY; i++) {
            assert_true(crowd.taken[i]);
            assert_int_equal(crowd.status[i], is_wrong(i) ? DAWN_ERR_SCENARIO : DAWN_OK);
            assert_true(crowd.low_C[i] == first.low_C[i]);
            near(crowd.low_C[i], close.low_C[i], 0.01, "the accurate engine's low");
        }
    }
    shipped_release(&it);
}

static void lanes_stop_when_told(void **state)
{
    struct shipped it = {0};
    size_t done = 0;

    (void)state;
    shipped_read(&it, "scenarios/alder-hollow.yaml", NULL, 0);
    const struct crowd crowd = run_crowd(&it, 1, true, 2, &done);
    assert_true(done >= 2 && done < MANY);
    size_t taken = 0;
    for (size_t i = 0; i < MANY; i++)
        taken += crowd.taken[i];
    assert_int_equal(taken, done);
    shipped_release(&it);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cases_are_runs_of_their_own), cmocka_unit_test(stops_when_told),
        cmocka_unit_test(lanes_and_threads_do_not_matter), cmocka_unit_test(lanes_stop_when_told)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
