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

/* Quantiles of the normal distribution as tables print them (from memory), and erfc as the way
 * back over all shares (closed form). */
static void normal_shares_are_the_tables_ones(void **state)
{
    (void)state;
    near(dawn_random_normal_at(0.5), 0.0, 1e-15, "median");
    near(dawn_random_normal_at(0.975), 1.959963984540054, 1e-12, "97.5 %");
    near(dawn_random_normal_at(0.9), 1.2815515655446004, 1e-12, "90 %");
    near(dawn_random_normal_at(0.001), -3.090232306167813, 1e-12, "0.1 %");
    for (double share = 1e-12; share < 1.0; share = share < 0.01 ? share * 3.0 : share + 0.01) {
        near_share(0.5 * erfc(-dawn_random_normal_at(share) / 1.4142135623730951), share, 1e-11,
                   "there and back");
    }
}

/* Standard errors over n draws: mean 1/sqrt(n), variance sqrt(2/n), fourth moment sqrt(96/n)
 * (closed form). Five of them. */
static void normals_have_their_moments(void **state)
{
    enum { DRAWS = 20000 };
    double sum[5] = {0};
    struct dawn_random random = {7};

    (void)state;
    for (int i = 0; i < DRAWS; i++) {
        const double x = dawn_random_normal(&random);
        sum[1] += x / DRAWS;
        sum[2] += x * x / DRAWS;
        sum[3] += x * x * x / DRAWS;
        sum[4] += x * x * x * x / DRAWS;
    }
    near(sum[1], 0.0, 5.0 / sqrt(DRAWS), "mean");
    near(sum[2], 1.0, 5.0 * sqrt(2.0 / DRAWS), "variance");
    near(sum[3], 0.0, 5.0 * sqrt(15.0 / DRAWS), "skewness");
    near(sum[4], 3.0, 5.0 * sqrt(96.0 / DRAWS), "fourth moment");
}

/* Each stream is its own: the first numbers of neighbouring streams are as even and as unrelated
 * as those of one (correlation of n pairs: standard error 1/sqrt(n), closed form). */
static void streams_are_apart(void **state)
{
    enum { STREAMS = 4000 };
    double sum = 0.0;
    double product = 0.0;
    double before = 0.0;

    (void)state;
    for (uint64_t i = 0; i < STREAMS; i++) {
        struct dawn_random one = dawn_random_stream(5, i);
        const double x = dawn_random_normal(&one);
        struct dawn_random again = dawn_random_stream(5, i);
        near(dawn_random_normal(&again), x, 0.0, "the same stream again");
        struct dawn_random other = dawn_random_stream(6, i);
        assert_true(dawn_random_normal(&other) != x);
        sum += x;
        product += x * before;
        before = x;
    }
    near(sum / STREAMS, 0.0, 5.0 / sqrt(STREAMS), "mean over streams");
    near(product / STREAMS, 0.0, 5.0 / sqrt(STREAMS), "neighbours");
}

static void whole_numbers_are_as_likely(void **state)
{
    enum { SIDES = 6, THROWS = 60000 };
    int seen[SIDES] = {0};
    struct dawn_random random = {11};

    (void)state;
    for (int i = 0; i < THROWS; i++) {
        const uint64_t side = dawn_random_below(&random, SIDES);
        assert_true(side < SIDES);
        seen[side]++;
    }
    for (int i = 0; i < SIDES; i++) {
        near(seen[i], THROWS / SIDES, 5.0 * sqrt(THROWS * 5.0 / 36.0), "a side");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bits_are_the_published_ones),
        cmocka_unit_test(spread_is_even),
        cmocka_unit_test(normal_shares_are_the_tables_ones),
        cmocka_unit_test(normals_have_their_moments),
        cmocka_unit_test(streams_are_apart),
        cmocka_unit_test(whole_numbers_are_as_likely),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
