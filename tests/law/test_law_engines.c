/* The two engines agree: nights of the ensemble's Rosenbrock steps against CVODE at tight
 * tolerances, on every shipped nursery and on random ones. Neither shares a formula of integration
 * with the other. */
#include <glob.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/random_nursery.h"
#include "support/sanitized.h"
#include "support/shipped.h"

enum { NIGHTS_MOST = 4000 };

/* How far the lows of the protected place lie apart, night by night. */
struct apart {
    double K[NIGHTS_MOST];
    size_t count;
    double worst_cold_K; /* of nights below 5 C */
};

static void compare(struct apart *apart, const struct dawn_network *network,
                    const struct dawn_scenario *scenario, const struct dawn_trajectory *close,
                    struct dawn_trajectory_plan plan)
{
    struct dawn_ensemble_member member = {.network = network, .plan = plan};
    struct dawn_nights a = {0};
    struct dawn_nights b = {0};
    dawn_ensemble_run(&member, 1);
    for (size_t i = 0; i < member.problems.count; ++i)
        print_error("%s\n", member.problems.items[i].message);
    assert_int_equal(member.status, DAWN_OK);
    assert_int_equal(dawn_nights_find(&a, close, network, scenario, &member.problems), DAWN_OK);
    assert_int_equal(dawn_nights_find(&b, member.trajectory, network, scenario, &member.problems),
                     DAWN_OK);
    assert_int_equal(a.count, b.count);
    for (size_t i = 0; i < a.count && apart->count < NIGHTS_MOST; ++i) {
        double K = fabs(a.night[i].place_low_C - b.night[i].place_low_C);
        apart->K[apart->count++] = K;
        if (a.night[i].place_low_C < 5.0)
            apart->worst_cold_K = fmax(apart->worst_cold_K, K);
    }
    dawn_nights_release(&a);
    dawn_nights_release(&b);
    dawn_trajectory_free(member.trajectory);
    dawn_problems_release(&member.problems);
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static double share_K(struct apart *apart, double share)
{
    qsort(apart->K, apart->count, sizeof *apart->K, by_size);
    return apart->K[(size_t)(share * (double)(apart->count - 1))];
}

/* What a thermometer shows, and what one night in a hundred may be off by. Whether a fan that just
 * reaches its limit starts is chance and tells on the nights after it: such a night may be further
 * off, if it is not cold. */
static void hold(struct apart *apart, const char *what)
{
    print_message("%s: %d nights, p99 %.4f K, cold ones %.4f K at most\n", what, (int)apart->count,
                  share_K(apart, 0.99), apart->worst_cold_K);
    near(share_K(apart, 0.99), 0.0, 0.01, "one night in a hundred");
    near(apart->worst_cold_K, 0.0, 0.03, "the worst of cold nights");
}

static struct dawn_trajectory_plan plan_at(double rtol, double atol_K)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    /* A sanitized build looks for other faults: rough and few will do. */
    plan.rtol = SANITIZED ? 1e-6 : rtol;
    plan.atol_K = SANITIZED ? 1e-4 : atol_K;
    return plan;
}

/* The cold week of March in every nursery that is shipped. */
static void shipped_nurseries(void **state)
{
    static struct apart apart;
    glob_t found;
    (void)state;
    apart = (struct apart){0};
    assert_int_equal(glob("scenarios/*.yaml", 0, NULL, &found), 0);
    for (size_t i = 0; i < (SANITIZED ? 1 : found.gl_pathc); ++i) {
        struct shipped it = {0};
        struct dawn_trajectory_plan plan = plan_at(1e-9, 1e-7);
        plan.from_s = shipped_noon_s(8);
        plan.to_s = shipped_noon_s(SANITIZED ? 11 : 15);
        shipped_read(&it, found.gl_pathv[i], NULL, 0);
        shipped_build(&it);
        shipped_run(&it, &plan);
        compare(&apart, it.network, &it.scenario, it.run, plan);
        shipped_release(&it);
    }
    globfree(&found);
    hold(&apart, "shipped");
}

enum { SEED_STEP = SANITIZED ? 40 : 1, SEEDS = 200, DAYS = 2 };
static void random_nurseries(void **state)
{
    static struct apart apart;
    (void)state;
    apart = (struct apart){0};
    for (uint64_t seed = 1; seed <= SEEDS; seed += SEED_STEP) {
        struct dice dice = {seed};
        struct dawn_scenario scenario = {0};
        struct dawn_weather weather = {0};
        struct dawn_network *network = NULL;
        struct dawn_trajectory *run = NULL;
        struct dawn_problems problems = {0};
        struct dawn_trajectory_plan plan = plan_at(1e-7, 1e-5);
        plan.spin_up = false;
        assert_true(random_nursery(&dice, &scenario));
        assert_true(random_weather(&dice, &weather, DAYS * 24));
        assert_int_equal(dawn_network_build(&network, &scenario, &weather, &problems), DAWN_OK);
        assert_int_equal(dawn_trajectory_run(&run, network, &plan, &problems), DAWN_OK);
        compare(&apart, network, &scenario, run, plan);
        dawn_trajectory_free(run);
        dawn_network_free(network);
        dawn_weather_release(&weather);
        dawn_scenario_release(&scenario);
        dawn_problems_release(&problems);
    }
    hold(&apart, "random");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shipped_nurseries),
        cmocka_unit_test(random_nurseries),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
