/* Ground below and around. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/soil.h"
#include "support/near.h"

static void test_kusuda(void **state)
{
    /* Kusuda & Achenbach 1965, mean 10, swing 12, 0.05 m2/day, coldest on day 35; computed closed
     * form
     */
    static const double depth_m[] = {0.0, 0.3, 1.0, 3.0};
    static const double day[] = {35, 100, 300};
    static const double want_C[4][3] = {{-2.00000, 4.76019, 11.80066},
                                        {-0.51361, 4.22582, 12.87816},
                                        {2.74750, 3.95931, 14.24661},
                                        {8.89277, 6.57098, 13.40325}};
    (void)state;
    for (int z = 0; z < 4; z++)
        for (int d = 0; d < 3; d++)
            near(dawn_soil_kusuda_C(depth_m[z], day[d], 10.0, 12.0, 35.0, 0.05), want_C[z][d], 1e-4,
                 "ground");
}

static void test_kusuda_damping_and_lag(void **state)
{
    /* at 0.3 m damping 0.882965, lag 7.2307 days; computed closed form */
    (void)state;
    near(dawn_soil_kusuda_C(0.3, 35.0 + 7.2307, 10.0, 12.0, 35.0, 0.05), 10.0 - 12.0 * 0.882965,
         1e-4, "coldest day at 0.3 m");
    near(dawn_soil_kusuda_C(0.3, 400.0, 10.0, 12.0, 35.0, 0.05),
         dawn_soil_kusuda_C(0.3, 35.0, 10.0, 12.0, 35.0, 0.05), 1e-9, "a year later");
    near(dawn_soil_kusuda_C(50.0, 200.0, 10.0, 12.0, 35.0, 0.05), 10.0, 1e-6, "deep down");
}

static void test_layers(void **state)
{
    (void)state;
    double sum = 0.0;
    for (int i = 0; i < DAWN_SOIL_LAYERS; i++) {
        assert_true(dawn_soil_layer_m(i) > (i ? dawn_soil_layer_m(i - 1) : 0.0));
        sum += dawn_soil_layer_m(i);
    }
    near(sum, 1.50, 1e-12, "depth of them all");
    near(dawn_soil_layer_m(-1), 0.0, 0.0, "above the floor");
    near(dawn_soil_layer_m(DAWN_SOIL_LAYERS), 0.0, 0.0, "below the last");
}

static void test_diurnal_depth(void **state)
{
    /* sqrt(2 a/omega), a 5e-7 m2/s: 0.117265 m; computed closed form */
    (void)state;
    near(dawn_soil_diurnal_depth_m(1.0, 2e6), 0.117265, 1e-6, "daily wave");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_kusuda),
        cmocka_unit_test(test_kusuda_damping_and_lag),
        cmocka_unit_test(test_layers),
        cmocka_unit_test(test_diurnal_depth),
    };
    return cmocka_run_group_tests_name("soil", tests, NULL, NULL);
}
