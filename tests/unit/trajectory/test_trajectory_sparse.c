/* Sparse factors against the equations themselves. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/random_nursery.h"
#include "trajectory/trajectory_sparse.h"

/* A random sparse J whose rows lean on their diagonal, as those of thermal networks do. */
static void random_jacobian(struct dice *dice, size_t n, bool pattern[], double jacobian[])
{
    for (size_t i = 0; i < n * n; ++i) {
        pattern[i] = false;
        jacobian[i] = 0;
    }
    for (size_t i = 0; i < n; ++i) {
        double lost = dice_between(dice, 0, 1);
        for (size_t j = 0; j < n; ++j) {
            if (i == j || !dice_yes(dice, 0.15))
                continue;
            double gained = dice_between(dice, 0, 2);
            pattern[j * n + i] = true;
            jacobian[j * n + i] = gained;
            lost += gained;
        }
        pattern[i * n + i] = true;
        jacobian[i * n + i] = -lost;
    }
}

/* (I - gamma J) x = b, put back into the equations (computed). */
static void solution_satisfies_the_equations(void **state)
{
    (void)state;
    enum { N = 23 };
    for (uint64_t seed = 1; seed <= 20; ++seed) {
        struct dice dice = {seed};
        bool pattern[N * N];
        double jacobian[N * N];
        double b[N];
        double x[N];
        double gamma = dice_between(&dice, 0.01, 50);
        random_jacobian(&dice, N, pattern, jacobian);
        for (size_t i = 0; i < N; ++i)
            b[i] = dice_between(&dice, -10, 10);
        struct sparse *sparse = dawn_trajectory_sparse_new(N, pattern);
        assert_non_null(sparse);
        assert_true(dawn_trajectory_sparse_factor(sparse, jacobian, gamma));
        dawn_trajectory_sparse_solve(sparse, x, b);
        for (size_t i = 0; i < N; ++i) {
            double left = x[i];
            for (size_t j = 0; j < N; ++j)
                left -= gamma * jacobian[j * N + i] * x[j];
            near(left, b[i], 1e-9, "row");
        }
        dawn_trajectory_sparse_free(sparse);
    }
}

/* A star (one hub, leaves around it) is eliminated leaf by leaf: no entry is filled in. */
static void star_gains_no_entries(void **state)
{
    (void)state;
    enum { N = 12 };
    bool pattern[N * N] = {false};
    for (size_t i = 0; i < N; ++i)
        pattern[i * N + i] = pattern[i] = pattern[i * N] = true;
    struct sparse *sparse = dawn_trajectory_sparse_new(N, pattern);
    assert_non_null(sparse);
    assert_int_equal(dawn_trajectory_sparse_entries(sparse), N + 2 * (N - 1));
    dawn_trajectory_sparse_free(sparse);
}

static void vanishing_pivot_is_told(void **state)
{
    (void)state;
    bool pattern[1] = {true};
    double one[1] = {1.0};
    double broken[1] = {NAN};
    struct sparse *sparse = dawn_trajectory_sparse_new(1, pattern);
    assert_non_null(sparse);
    assert_false(dawn_trajectory_sparse_factor(sparse, one, 1.0)); /* 1 - 1 */
    assert_false(dawn_trajectory_sparse_factor(sparse, broken, 1.0));
    assert_true(dawn_trajectory_sparse_factor(sparse, one, 0.5));
    dawn_trajectory_sparse_free(sparse);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(solution_satisfies_the_equations),
        cmocka_unit_test(star_gains_no_entries),
        cmocka_unit_test(vanishing_pivot_is_told),
    };
    return cmocka_run_group_tests_name("trajectory sparse", tests, NULL, NULL);
}
