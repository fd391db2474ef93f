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

static const double two_dozen_C[] = {-11.2, -8.4,  -14.9, -9.7, -12.3, -7.1,  -10.8, -16.4,
                                     -9.1,  -12,   -13.6, -8.8, -10.1, -9.9,  -17.2, -11.5,
                                     -8,    -12.8, -10.3, -9.4, -13.1, -11.0, -7.7,  -14.2};

/* scipy.stats.genextreme (SciPy 1.10) whose L-moments, integrated from its quantiles, are those of
 * the 24 lows with their sign turned; its quantiles and distribution. Its own fit, by maximum
 * likelihood, has -14.706 and -17.745 C: within a standard error. */
static void general_as_scipy(void **state)
{
    const struct dawn_return_level_fit fit = dawn_return_level_fit(two_dozen_C, 24);

    (void)state;
    near(fit.shape, 0.05201046, 1e-7, "shape");
    near(fit.location_C, -9.99504221, 1e-7, "location");
    near(fit.scale_K, 2.33692353, 1e-7, "scale");
    near(dawn_return_level_C(&fit, 2.0), -10.8434429, 1e-6, "once in 2 years");
    near(dawn_return_level_C(&fit, 10.0), -14.9578824, 1e-6, "once in 10 years");
    near(dawn_return_level_C(&fit, 50.0), -18.2478502, 1e-6, "once in 50 years");
    near(dawn_return_level_chance(&fit, -15.0), 0.0980951353, 1e-7, "chance below -15 C");
    near(dawn_return_level_C(&fit, 10.0), -14.706, dawn_return_level_error_K(&fit, 10.0),
         "maximum likelihood");
    assert_string_equal(dawn_return_level_method(24), "generalised extreme value");
    assert_string_equal(dawn_return_level_method(19), "gumbel");
}

/* Hosking, Wallis & Wood 1985, from memory: k = 7.8590 c + 2.9554 c^2 with
 * c = 2 / (3 + t3) - ln 2 / ln 3, to 9e-4 of the shape for -0.5 < t3 < 0.5. Samples are quantiles
 * of distributions of known shape; their own t3 by the sums printed there. */
static void shape_as_published(void **state)
{
    enum { YEARS = 200 };

    (void)state;
    for (int tenths = -3; tenths <= 3; tenths++) {
        const double shape = tenths == 0 ? 0.01 : 0.1 * tenths;
        double lows_C[YEARS];
        double b[3] = {0};
        for (int i = 0; i < YEARS; i++) {
            const double p = (i + 0.5) / YEARS;
            const double high = (1.0 - pow(-log(p), shape)) / shape;
            lows_C[(i * 77) % YEARS] = -high;
            b[0] += high / YEARS;
            b[1] += high / YEARS * i / (YEARS - 1.0);
            b[2] += high / YEARS * i * (i - 1.0) / ((YEARS - 1.0) * (YEARS - 2.0));
        }
        const double t3 = (6 * b[2] - 6 * b[1] + b[0]) / (2 * b[1] - b[0]);
        const double c = 2.0 / (3.0 + t3) - log(2.0) / log(3.0);
        const struct dawn_return_level_fit fit = dawn_return_level_fit(lows_C, YEARS);
        near(fit.shape, 7.8590 * c + 2.9554 * c * c, 9e-4, "shape");
        near(fit.shape, shape, 0.05, "shape the sample was made with");
    }
}

/* The error of the generalised level: half with four times the years, and of the size of Gumbel's
 * where the shape is 0 (more, because the shape is fitted too). */
static void drawn_error_is_sound(void **state)
{
    const struct dawn_return_level_fit few = {25, -10.0, 2.0, 0.0};
    const struct dawn_return_level_fit many = {100, -10.0, 2.0, 0.0};
    const struct dawn_return_level_fit ended = {40, -10.0, 2.0, 0.25};
    const struct dawn_return_level_fit open_ended = {40, -10.0, 2.0, -0.25};
    const double y = -log(-log1p(-0.1));
    const double gumbel_K = 2.0 * sqrt((1.1087 + 0.5140 * y + 0.6079 * y * y) / 25.0);

    (void)state;
    near(dawn_return_level_error_K(&few, 10.0) / dawn_return_level_error_K(&many, 10.0), 2.0, 0.3,
         "four times the years (400 samples scatter by 5 %)");
    assert_true(dawn_return_level_error_K(&few, 10.0) > 0.9 * gumbel_K);
    assert_true(dawn_return_level_error_K(&few, 10.0) < 1.6 * gumbel_K);
    near(dawn_return_level_chance(&ended, -18.0), 0.0, 0, "beyond location - scale / shape");
    near(dawn_return_level_chance(&open_ended, -2.0), 1.0, 0, "above where it begins");
    near(dawn_return_level_chance(&ended, dawn_return_level_C(&ended, 25.0)), 0.04, 1e-12, "ended");
    near(dawn_return_level_chance(&open_ended, dawn_return_level_C(&open_ended, 25.0)), 0.04, 1e-12,
         "open-ended");
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
    const struct dawn_return_level_fit few = {4, -10.0, 2.0, 0.0};
    const struct dawn_return_level_fit many = {16, -10.0, 2.0, 0.0};
    const double one_in = 1.0 / (1.0 - exp(-1.0));

    (void)state;
    near(dawn_return_level_error_K(&few, one_in), 2.0 * sqrt(1.1087 / 4.0), 1e-12, "at y = 0");
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
    const struct CMUnitTest tests[] = {cmocka_unit_test(as_scipy),
                                       cmocka_unit_test(general_as_scipy),
                                       cmocka_unit_test(shape_as_published),
                                       cmocka_unit_test(drawn_error_is_sound),
                                       cmocka_unit_test(level_and_chance_agree),
                                       cmocka_unit_test(error_falls_with_years),
                                       cmocka_unit_test(too_few_and_all_alike)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
