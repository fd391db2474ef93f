/* Layered walls. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/wall.h"
#include "support/near.h"

static void test_resistance(void **state)
{
    /* ISO 6946: board 12.5 mm 0.25, insulation 100 mm 0.035, masonry 200 mm 1.3, heat sideways
     * (0.13 and 0.04): 3.230989 m2K/W, U 0.309503; computed closed form */
    static const double thickness_m[] = {0.0125, 0.100, 0.200};
    static const double conductivity[] = {0.25, 0.035, 1.3};
    (void)state;
    double r = dawn_wall_resistance_m2K_W(3, thickness_m, conductivity, 0.13, 0.04);
    near(r, 3.230989, 1e-6, "resistance");
    near(1.0 / r, 0.309503, 1e-6, "U");
    near(dawn_wall_resistance_m2K_W(0, NULL, NULL, 0.13, 0.04), 0.17, 1e-15, "films alone");
}

static void test_slices(void **state)
{
    /* ceil(L / sqrt(a 3600)), computed closed form. 200 mm of concrete (1.8, 2400, 1000): the wave
     * of an hour reaches 52 mm */
    (void)state;
    assert_int_equal(dawn_wall_slices(0.200, 1.8, 2400.0, 1000.0), 4);
    /* masonry of 200 mm is usually cut in 4 to 6 (common practice, no source) */
    int brick = dawn_wall_slices(0.200, 0.8, 1700.0, 840.0);
    assert_true(brick >= 4 && brick <= 6);
    assert_int_equal(dawn_wall_slices(0.100, 0.035, 20.0, 1450.0), 2);
    assert_int_equal(dawn_wall_slices(0.001, 0.2, 1000.0, 1000.0), 1);
    assert_int_equal(dawn_wall_slices(0.0, 0.2, 1000.0, 1000.0), 1);
    assert_int_equal(dawn_wall_slices(5.0, 0.2, 1000.0, 1000.0), 8);
}

static void test_slices_against_the_daily_wave(void **state)
{
    /* ISO 13786: the daily wave in that concrete reaches 0.143619 m (computed closed form); a slice
     * must be a small part of it or the wave is lost: here at most half */
    (void)state;
    double slice_m = 0.200 / dawn_wall_slices(0.200, 1.8, 2400.0, 1000.0);
    assert_true(slice_m < 0.5 * 0.143619);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_resistance),
        cmocka_unit_test(test_slices),
        cmocka_unit_test(test_slices_against_the_daily_wave),
    };
    return cmocka_run_group_tests_name("wall", tests, NULL, NULL);
}
