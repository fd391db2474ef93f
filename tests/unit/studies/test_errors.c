/* The noise of forecasts: its stated deviation and memory. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "../../support/near.h"
#include "studies/errors.h"

/* A first-order autoregression has deviation 1 and correlation kept^h over h hours (Box & Jenkins
 * 1970, from memory). Over independent series the standard error of a mean product is at most
 * sqrt(2/n); five of them. */
static void hours_remember_as_stated(void **state)
{
    enum { SERIES = 8000, HOURS = 24 };
    const double memory_h = 3.0;
    const int lag[] = {0, 1, 3, 12};
    double product[4] = {0};

    (void)state;
    for (uint64_t i = 0; i < SERIES; i++) {
        double z[HOURS];
        struct dawn_random random = dawn_random_stream(9, i);
        dawn_errors_hourly(z, HOURS, memory_h, &random);
        for (int k = 0; k < 4; k++) {
            product[k] += z[5] * z[5 + lag[k]] / SERIES;
        }
    }
    for (int k = 0; k < 4; k++) {
        near(product[k], exp(-lag[k] / memory_h), 5.0 * sqrt(2.0 / SERIES), "correlation");
    }
}

/* Correlation memory^n over n days; deviation 1 at every hour between. Halfway between two days of
 * correlation m, a moment has with either of them the correlation sqrt((1 + m)/2) (computed closed
 * form). */
static void days_remember_as_stated(void **state)
{
    enum { SERIES = 8000, DAYS = 5 };
    const double memory = 0.5;
    double variance[8] = {0};
    double two_days = 0.0;
    double half_day = 0.0;

    (void)state;
    for (uint64_t i = 0; i < SERIES; i++) {
        double node[DAYS];
        struct dawn_random random = dawn_random_stream(10, i);
        for (int day = 0; day < DAYS; day++) {
            node[day] = dawn_random_normal(&random);
        }
        dawn_errors_chain(node, DAYS, memory);
        for (int k = 0; k < 8; k++) {
            const double z = dawn_errors_daily(node, DAYS, memory, 1.0 + k / 4.0);
            variance[k] += z * z / SERIES;
        }
        two_days += node[1] * node[3] / SERIES;
        half_day += node[2] * dawn_errors_daily(node, DAYS, memory, 2.5) / SERIES;
        near(dawn_errors_daily(node, DAYS, memory, 99.0), node[DAYS - 1], 0.0, "held at the end");
    }
    for (int k = 0; k < 8; k++) {
        near(variance[k], 1.0, 5.0 * sqrt(2.0 / SERIES), "variance");
    }
    near(two_days, 0.25, 5.0 * sqrt(2.0 / SERIES), "two days");
    near(half_day, sqrt(0.75), 5.0 * sqrt(2.0 / SERIES), "half a day");
}

static void errors_grow_evenly(void **state)
{
    const struct dawn_doubt doubt = {.air_first_day_K = 1.5, .air_seventh_day_K = 4.5};

    (void)state;
    near(dawn_errors_air_K(&doubt, 6.0), 1.5, 1e-12, "first day");
    near(dawn_errors_air_K(&doubt, 24.0), 1.5, 1e-12, "its end");
    near(dawn_errors_air_K(&doubt, 96.0), 3.0, 1e-12, "fourth day");
    near(dawn_errors_air_K(&doubt, 168.0), 4.5, 1e-12, "a week");
    near(dawn_errors_air_K(&doubt, 300.0), 4.5, 1e-12, "beyond");
    near(dawn_errors_onset(0.0), 0.0, 0.0, "now");
    near(dawn_errors_onset(3.0), 0.5, 1e-12, "soon");
    near(dawn_errors_onset(8.0), 1.0, 0.0, "later");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hours_remember_as_stated),
        cmocka_unit_test(days_remember_as_stated),
        cmocka_unit_test(errors_grow_evenly),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
