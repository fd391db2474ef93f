/* The Latin hypercube: one member in each slice, unknowns apart, the same for the same seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "../../support/near.h"
#include "studies/latin.h"

enum { MEMBERS = 200, UNKNOWNS = 6 };

static void every_slice_is_used_once(void **state)
{
    static double share[MEMBERS * UNKNOWNS];

    (void)state;
    assert_true(dawn_latin_fill(share, MEMBERS, UNKNOWNS, 3));
    for (size_t u = 0; u < UNKNOWNS; u++) {
        int seen[MEMBERS] = {0};
        for (size_t m = 0; m < MEMBERS; m++) {
            const double place = share[m * UNKNOWNS + u];
            assert_true(place > 0.0 && place < 1.0);
            seen[(size_t)(place * MEMBERS)]++;
        }
        for (size_t m = 0; m < MEMBERS; m++) {
            assert_int_equal(seen[m], 1);
        }
    }
}

/* Correlation of two independent columns of n: standard error 1/sqrt(n - 1) (closed form). */
static void unknowns_are_apart(void **state)
{
    static double share[MEMBERS * UNKNOWNS];

    (void)state;
    assert_true(dawn_latin_fill(share, MEMBERS, UNKNOWNS, 3));
    for (size_t u = 1; u < UNKNOWNS; u++) {
        double sum = 0.0;
        for (size_t m = 0; m < MEMBERS; m++) {
            sum += 12.0 * (share[m * UNKNOWNS + u] - 0.5) * (share[m * UNKNOWNS + u - 1] - 0.5);
        }
        near(sum / MEMBERS, 0.0, 4.0 / sqrt(MEMBERS - 1.0), "correlation");
    }
}

/* The mean of an even spread's square, 1/3, comes out far closer than by independent draws, whose
 * standard error is sqrt(4/45/n) = 0.021 (closed form): a slice's middle is off by 1/(12 n^2). */
static void it_covers_better_than_draws(void **state)
{
    static double share[MEMBERS];
    double sum = 0.0;

    (void)state;
    assert_true(dawn_latin_fill(share, MEMBERS, 1, 8));
    for (size_t m = 0; m < MEMBERS; m++) {
        sum += share[m] * share[m] / MEMBERS;
    }
    near(sum, 1.0 / 3.0, 1e-3, "mean square");
}

static void one_more_unknown_leaves_the_others(void **state)
{
    static double few[MEMBERS * 2];
    static double more[MEMBERS * 3];
    static double again[MEMBERS * 2];

    (void)state;
    assert_true(dawn_latin_fill(few, MEMBERS, 2, 5) && dawn_latin_fill(more, MEMBERS, 3, 5) &&
                dawn_latin_fill(again, MEMBERS, 2, 5));
    assert_memory_equal(few, again, sizeof few);
    for (size_t m = 0; m < MEMBERS; m++) {
        assert_memory_equal(&few[m * 2], &more[m * 3], 2 * sizeof *few);
    }
    assert_true(dawn_latin_fill(again, MEMBERS, 2, 6));
    assert_true(memcmp(few, again, sizeof few) != 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_slice_is_used_once),
        cmocka_unit_test(unknowns_are_apart),
        cmocka_unit_test(it_covers_better_than_draws),
        cmocka_unit_test(one_more_unknown_leaves_the_others),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
