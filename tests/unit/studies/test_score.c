/* Scores of probability forecasts against closed forms worked out apart from the code. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "../../support/near.h"
#include "base/random.h"
#include "dawnlow/studies/score.h"

/* Gneiting et al. 2005, eq. 5, evaluated apart from the code (computed closed form). */
static void crps_of_normals(void **state)
{
    (void)state;
    near(dawn_score_crps_normal(0.0, 1.0, 0.0), 0.233694977, 1e-8, "0, 1 at 0");
    near(dawn_score_crps_normal(0.0, 1.0, 1.0), 0.602441358, 1e-8, "0, 1 at 1");
    near(dawn_score_crps_normal(2.0, 1.5, -1.0), 2.179187733, 1e-8, "2, 1.5 at -1");
    near(dawn_score_crps_normal(-1.0, 2.0, 0.0), 0.662807063, 1e-8, "-1, 2 at 0");
}

/* Five members by hand: mean distance 1.5, all pairs' mean distance 1.92, that of different ones
 * 2.4 (computed closed form). */
static void crps_of_an_ensemble(void **state)
{
    const double member[] = {2.0, -1.0, 4.0, 0.0, 1.0};

    (void)state;
    near(dawn_score_crps(member, 5, 0.5), 0.54, 1e-12, "as it stands");
    near(dawn_score_crps_fair(member, 5, 0.5), 0.30, 1e-12, "fair");
    near(dawn_score_crps(member, 1, -1.0), 3.0, 1e-12, "one member: its distance");
}

/* The fair score of members drawn from a normal has the mean of the normal's own (Ferro 2014). */
static void fair_crps_needs_no_many_members(void **state)
{
    enum { TIMES = 20000, MEMBERS = 4 };
    struct dawn_random random = {4};
    double sum = 0.0;

    (void)state;
    for (int i = 0; i < TIMES; i++) {
        double member[MEMBERS];
        for (int m = 0; m < MEMBERS; m++) {
            member[m] = dawn_random_normal(&random);
        }
        sum += dawn_score_crps_fair(member, MEMBERS, 1.0) / TIMES;
    }
    /* deviation of one score is below 0.7; five standard errors */
    near(sum, 0.602441358, 5.0 * 0.7 / sqrt(TIMES), "mean of fair scores");
}

/* (0.01 + 0.04 + 0.16 + 0.01) / 4 (computed closed form). */
static void brier(void **state)
{
    const double chance[] = {0.9, 0.2, 0.6, 0.1};
    const double happened[] = {1.0, 0.0, 1.0, 0.0};

    (void)state;
    near(dawn_score_brier(chance, happened, 4), 0.055, 1e-12, "four nights");
}

static void ranks_and_their_unevenness(void **state)
{
    const double member[] = {2.0, -1.0, 4.0};
    const size_t even[] = {5, 5, 5, 5};
    /* (25 + 0 + 1 + 16) / 10 by hand */
    const size_t uneven[] = {15, 10, 9, 6};

    (void)state;
    assert_int_equal(dawn_score_rank(member, 3, -2.0), 0);
    assert_int_equal(dawn_score_rank(member, 3, 3.0), 2);
    assert_int_equal(dawn_score_rank(member, 3, 9.0), 3);
    near(dawn_score_unevenness(even, 4), 0.0, 1e-12, "even");
    near(dawn_score_unevenness(uneven, 4), 4.2, 1e-12, "uneven");
}

/* Hyndman & Fan 1996, type 7: the place (n - 1) p, by hand. */
static void quantiles(void **state)
{
    double value[] = {4.0, 1.0, 3.0, 2.0};

    (void)state;
    qsort(value, 4, sizeof *value, dawn_score_ascending);
    near(dawn_score_quantile(value, 4, 0.0), 1.0, 1e-12, "least");
    near(dawn_score_quantile(value, 4, 0.1), 1.3, 1e-12, "10 %");
    near(dawn_score_quantile(value, 4, 0.5), 2.5, 1e-12, "median");
    near(dawn_score_quantile(value, 4, 1.0), 4.0, 1e-12, "most");
    near(dawn_score_quantile(value, 1, 0.7), 1.0, 1e-12, "one alone");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(crps_of_normals),
        cmocka_unit_test(crps_of_an_ensemble),
        cmocka_unit_test(fair_crps_needs_no_many_members),
        cmocka_unit_test(brier),
        cmocka_unit_test(ranks_and_their_unevenness),
        cmocka_unit_test(quantiles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
