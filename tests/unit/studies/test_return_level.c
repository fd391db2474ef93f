/* Yearly lows against SciPy, a Gumbel sample by quantiles, and the ends. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/studies/return_level.h"
#include "support/near.h"

/* scipy.stats.gumbel_l (SciPy 1.10) on the same twelve lows: fit, quantiles, distribution. */
static void as_scipy(void **state)
{
    static const double lows_C[] = {-11.2, -8.4,  -14.9, -9.7,  -12.3, -7.1,
                                    -10.8, -16.4, -9.1,  -12.0, -13.6, -8.8};
    const struct dawn_return_level_fit fit = dawn_return_level_fit(lows_C, 12);

    (void)state;
    near(fit.location_C, -9.91510447, 1e-6, "location");
    near(fit.scale_K, 2.23917075, 1e-6, "scale");
    near(dawn_return_level_C(&fit, 10.0), -14.9540612, 1e-5, "once in 10 years");
    near(dawn_return_level_C(&fit, 50.0), -18.6522114, 1e-5, "once in 50 years");
    near(dawn_return_level_chance(&fit, -15.0), 0.0980723, 1e-6, "chance below -15 C");
}

/* The level of one year in T and the chance below it are inverse to each other. */
static void level_and_chance_agree(void **state)
{
    static const double lows_C[] = {-3.0, -5.5, -9.0, -4.0};
    const struct dawn_return_level_fit fit = dawn_return_level_fit(lows_C, 4);

    (void)state;
    for (double one_in = 1.5; one_in < 200.0; one_in *= 2.0)
        near(dawn_return_level_chance(&fit, dawn_return_level_C(&fit, one_in)), 1.0 / one_in, 1e-12,
             "chance of the level");
}

/* Four times the years, half the error; y = 0 at one in e/(e-1) leaves sqrt(1.1087 / years). */
static void error_falls_with_years(void **state)
{
    const struct dawn_return_level_fit few = {9, -10.0, 2.0};
    const struct dawn_return_level_fit many = {36, -10.0, 2.0};
    const double one_in = 1.0 / (1.0 - exp(-1.0));

    (void)state;
    near(dawn_return_level_error_K(&few, one_in), 2.0 * sqrt(1.1087 / 9.0), 1e-12, "at y = 0");
    near(dawn_return_level_error_K(&few, 10.0) / dawn_return_level_error_K(&many, 10.0), 2.0, 1e-12,
         "four times the years");
}

static void too_few_and_all_alike(void **state)
{
    static const double lows_C[] = {-7.0, -7.0, -7.0};
    const struct dawn_return_level_fit none = dawn_return_level_fit(lows_C, 2);
    const struct dawn_return_level_fit alike = dawn_return_level_fit(lows_C, 3);

    (void)state;
    assert_true(isnan(dawn_return_level_C(&none, 10.0)));
    assert_true(isnan(dawn_return_level_chance(&none, 0.0)));
    near(dawn_return_level_C(&alike, 10.0), -7.0, 0, "always the same");
    near(dawn_return_level_chance(&alike, -6.9), 1.0, 0, "certain");
    near(dawn_return_level_chance(&alike, -7.1), 0.0, 0, "never");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_scipy), cmocka_unit_test(level_and_chance_agree),
        cmocka_unit_test(error_falls_with_years), cmocka_unit_test(too_few_and_all_alike)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
