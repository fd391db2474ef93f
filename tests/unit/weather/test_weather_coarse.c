/* Rows some hours apart: a day's lowest and highest survive, means keep their light, gaps stay
 * gaps. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "weather_try.h"

static const double two_pi = 6.283185307179586;

/* A day's wave of 5 K, coldest at an hour that the rows may miss. */
static double wave_C(double hour, double coldest)
{
    return 4.0 - 5.0 * cos(two_pi * (hour - coldest) / 24.0);
}

/* Rows `step` hours apart from 1 March on, over five days; hourly in the first `hourly` hours. */
static void wave_rows(struct weather_try *try, long step, long hourly, double coldest)
{
    dawn_text_add(&try->text, "time,temperature (C),dew point (C)\n");
    for (long h = 0; h <= 120; h += h < hourly ? 1 : step) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&try->text, "%s,%.6f,-3\n", stamp, wave_C((double)h, coldest));
    }
}

static double lowest(const struct dawn_weather *weather, size_t from, size_t to)
{
    double low = weather->air_C[from];
    for (size_t i = from; i < to; i++)
        low = fmin(low, weather->air_C[i]);
    return low;
}

/* Between rows of a cosine the cubic with central slopes gives, halfway, 9/8 cos(a) - 1/8 cos(3a)
 * of the amplitude, a = pi step/24 (computed closed form): 99.16 % for 3 h, 88.39 % for 6 h, where
 * a straight line has 92.39 % and 70.71 %. */
static void days_keep_their_extremes(void **state)
{
    (void)state;
    for (long step = 3; step <= 6; step += 3) {
        struct weather_try try = try_begin();
        const double a = two_pi * (double)step / 48.0;
        const double kept = 1.125 * cos(a) - 0.125 * cos(3.0 * a);
        /* The coldest hour lies halfway between two rows. */
        wave_rows(&try, step, 0, step == 3 ? 4.5 : 3.0);
        try_read_well(&try);
        assert_int_equal(try.weather.count, 121);
        near(lowest(&try.weather, 48, 72), 4.0 - 5.0 * kept, step == 3 ? 0.06 : 1e-4,
             "the third day's low");
        assert_true(lowest(&try.weather, 48, 72) < 4.0 - 5.0 * cos(a) - 0.2);
        for (size_t h = 0; h <= 120; h += (size_t)step)
            near(try.weather.air_C[h], wave_C((double)h, step == 3 ? 4.5 : 3.0), 1e-6, "a row");
        assert_non_null(try_find(&try, step == 3 ? "rows are 3 hours apart from 2026-03-01 00:00"
                                                 : "rows are 6 hours apart from 2026-03-01 00:00"));
        try_end(&try);
    }
}

static void hours_first_and_coarse_later(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    wave_rows(&try, 3, 48, 5.0);
    try_read_well(&try);
    assert_int_equal(try.weather.count, 121);
    assert_int_equal(try.weather.filled_hours, 0);
    for (size_t h = 0; h <= 120; h++)
        near(try.weather.air_C[h], wave_C((double)h, 5.0), h < 48 ? 1e-6 : 0.12, "air");
    const struct dawn_problem *said = try_said(&try, DAWN_NOTE, "rows are 3 hours apart");
    assert_int_equal(said->line, 50);
    assert_null(try_find(&try, "missing"));
    try_end(&try);
}

/* Means of three hours, stamped at their end: the hours of each row have its mean, and none of its
 * light at night. */
static void means_keep_their_light(void **state)
{
    static const double mean[8] = {0, 0, 0, 150, 420, 380, 90, 0};
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "# stamp: hour-before\ntime (UTC+1),temp (C),GHI (W/m2)\n");
    for (long h = 0; h <= 96; h += 3) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&try.text, "%s,%.2f,%g\n", stamp, wave_C((double)h, 5.0),
                      h == 0 ? 0.0 : mean[((h + 21) / 3) % 8]);
    }
    try_read_well(&try);
    const int64_t midnight_s = dawn_civil_days(2026, 3, 2) * 86400 - 3600;
    const size_t first = (size_t)((midnight_s - try.weather.mean_first_s) / 3600);
    for (size_t row = 0; row < 8; row++) {
        const double *hour = &try.weather.ghi_W_m2[first + 3 * row];
        near((hour[0] + hour[1] + hour[2]) / 3.0, mean[row], 1e-6, "mean of a row's hours");
    }
    /* The sun of 2 March at 45 N, 7 E rises after 7:00 by this clock (almanacs, from memory). */
    near(try.weather.ghi_W_m2[first + 6], 0.0, 1e-9, "before sunrise");
    assert_true(try.weather.ghi_W_m2[first + 11] > try.weather.ghi_W_m2[first + 9]);
    try_end(&try);
}

static void a_hole_in_hours_is_still_a_hole(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temperature (C)\n");
    for (long h = 0; h < 72; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        if (h % 24 != 10 && h != 31 && h != 32)
            dawn_text_add(&try.text, "%s,%.2f\n", stamp, wave_C((double)h, 5.0));
    }
    try_read_well(&try);
    assert_int_equal(try.weather.filled_hours, 5);
    assert_null(try_find(&try, "hours apart"));
    try_end(&try);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_keep_their_extremes),
        cmocka_unit_test(hours_first_and_coarse_later),
        cmocka_unit_test(means_keep_their_light),
        cmocka_unit_test(a_hole_in_hours_is_still_a_hole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
