/* Numbers by lot: the published generator, evenly spread. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "../../support/near.h"
#include "base/random.h"

/* splitmix64 with seed 1234567: the first values of its public-domain reference implementation
 * (from memory). */
static void bits_are_the_published_ones(void **state)
{
    static const uint64_t published[] = {6457827717110365317U, 3203168211198807973U,
                                         9817491932198370423U, 4593380528125082431U,
                                         16408922859458223821U};
    struct dawn_random random = {1234567};

    (void)state;
    for (size_t i = 0; i < sizeof published / sizeof published[0]; i++) {
        assert_true(dawn_random_bits(&random) == published[i]);
    }
}

/* Mean (a + b) / 2 and variance (b - a)^2 / 12 of an even spread; over 20000 draws their standard
 * errors are (b - a) / sqrt(12 n) and (b - a)^2 / sqrt(180 n) (computed closed form). Five of
 * them. */
static void spread_is_even(void **state)
{
    enum { DRAWS = 20000 };
    struct dawn_random random = {1};
    double sum = 0.0;
    double squares = 0.0;

    (void)state;
    for (int i = 0; i < DRAWS; i++) {
        const double value = dawn_random_between(&random, -15.0, 45.0);
        assert_true(value >= -15.0 && value < 45.0);
        sum += value;
        squares += (value - 15.0) * (value - 15.0);
    }
    near(sum / DRAWS, 15.0, 5.0 * 60.0 / 489.9, "mean");
    near(squares / DRAWS, 300.0, 5.0 * 3600.0 / 1897.4, "variance");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bits_are_the_published_ones),
        cmocka_unit_test(spread_is_even),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
