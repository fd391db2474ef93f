/* Roots and powers over lanes of floats against the C library's in long double, and the same bits
 * whatever the width: test_lane_wide.c includes this file with DAWN_LANES 4. */
#ifndef DAWN_LANES
#define DAWN_LANES 1
#endif

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "base/lane.h"
#include "base/random.h"

enum { DRAWS = 200000 / DAWN_LANES };

/* Every lane a number of its own. */
static lane drawn(struct dawn_random *random, double least, double most)
{
    float each[DAWN_LANES];
    lane x;
    for (int i = 0; i < DAWN_LANES; ++i)
        each[i] = (float)dawn_random_between(random, least, most);
    memcpy(&x, each, sizeof x);
    return x;
}

/* The largest relative error of lane_f(x) against f, x spread evenly or by its logarithm. */
static double worst(lane (*lane_f)(lane), long double (*f)(long double), double least, double most,
                    bool by_logarithm)
{
    struct dawn_random random = {1};
    double found = 0.0;
    for (int i = 0; i < DRAWS; ++i) {
        float x[DAWN_LANES];
        float got[DAWN_LANES];
        lane at = drawn(&random, least, most);
        memcpy(x, &at, sizeof x);
        for (int k = 0; k < DAWN_LANES; ++k)
            x[k] = by_logarithm ? expf(x[k]) : x[k];
        memcpy(&at, x, sizeof at);
        lane result = lane_f(at);
        memcpy(got, &result, sizeof got);
        for (int k = 0; k < DAWN_LANES; ++k) {
            long double exact = f((long double)x[k]);
            found = fmax(found, (double)fabsl(((long double)got[k] - exact) / exact));
        }
    }
    return found;
}

/* Oracle: expl, cbrtl, sqrtl of the C library (64 bits of mantissa). The bounds are what lane.h
 * promises; a square root is rounded correctly, half a unit of the last place (IEEE 754). */
static void close_to_the_library(void **state)
{
    (void)state;
    assert_true(worst(lane_exp, expl, -20.0, 20.0, false) < 1e-7);
    assert_true(worst(lane_exp, expl, -86.0, 86.0, false) < 1e-7);
    assert_true(worst(lane_exp, expl, -1e-3, 1e-3, false) < 1e-7);
    assert_true(worst(lane_cbrt, cbrtl, -69.0, 69.0, true) < 3e-7);
    assert_true(worst(lane_cbrt, cbrtl, 0.5, 30.0, false) < 3e-7);
    assert_true(worst(lane_sqrt, sqrtl, 1e-6, 1e6, false) < 6e-8);
}

static float first(lane x)
{
    float each[DAWN_LANES];
    memcpy(each, &x, sizeof each);
    return each[0];
}

static void at_the_ends(void **state)
{
    (void)state;
    assert_true(first(lane_exp(lane_of(0.0))) == 1.0F);
    assert_true(first(lane_exp(lane_of(-1e9))) == first(lane_exp(lane_of(-87.0))));
    assert_true(first(lane_exp(lane_of(1e9))) == first(lane_exp(lane_of(87.0))));
    assert_true(first(lane_cbrt(lane_of(0.0))) == 0.0F);
    assert_true(first(lane_abs(lane_of(-2.0))) == 2.0F);
    assert_true(first(lane_signed(lane_of(2.0), lane_of(-3.0))) == -2.0F);
    assert_true(first(lane_signed(lane_of(-2.0), lane_of(3.0))) == 2.0F);
    assert_true(first(lane_max(lane_of(-2.0), lane_of(3.0))) == 3.0F);
    assert_true(first(lane_ramp(lane_of(-2.0), 0.5).value) == 0.0F);
    assert_true(first(lane_ramp(lane_of(0.0), 0.5).value) == 0.125F); /* a quarter of its width */
    assert_true(first(lane_ramp(lane_of(0.0), 0.5).slope) == 0.5F);
    assert_true(first(lane_ramp(lane_of(3.0), 0.5).value) == 3.0F);
    assert_true(first(lane_min(lane_of(-2.0), lane_of(3.0))) == -2.0F);
}

static void picks_lane_by_lane(void **state)
{
    struct dawn_random random = {2};
    (void)state;
    for (int i = 0; i < 100; ++i) {
        float x[DAWN_LANES];
        float got[DAWN_LANES];
        lane at = drawn(&random, -1.0, 1.0);
        bool any = false;
        memcpy(x, &at, sizeof x);
        lane result = lane_select(at > 0.0, at, lane_of(7.0));
        memcpy(got, &result, sizeof got);
        for (int k = 0; k < DAWN_LANES; ++k) {
            any = any || x[k] > 0.0F;
            assert_true(got[k] == (x[k] > 0.0F ? x[k] : 7.0F));
        }
        assert_true(lane_any(at > 0.0) == any);
    }
}

/* The bits of many results, mixed into one number (FNV-1a): what one lane gave when it was
 * written. Another width, compiler or processor must give the same. */
static void the_same_bits_everywhere(void **state)
{
    struct dawn_random random = {3};
    uint64_t hash = UINT64_C(14695981039346656037);
    (void)state;
    for (int i = 0; i < 40000 / DAWN_LANES; ++i) {
        lane x = drawn(&random, -40.0, 40.0);
        lane mixed = lane_exp(x) + lane_cbrt(lane_abs(x)) * lane_sqrt(lane_abs(x)) / (x * x + 1.0);
        uint32_t bits[DAWN_LANES];
        memcpy(bits, &mixed, sizeof bits);
        for (int k = 0; k < DAWN_LANES; ++k)
            hash = (hash ^ bits[k]) * UINT64_C(1099511628211);
    }
    assert_true(hash == UINT64_C(15515578960471393409));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(close_to_the_library),
        cmocka_unit_test(at_the_ends),
        cmocka_unit_test(picks_lane_by_lane),
        cmocka_unit_test(the_same_bits_everywhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
