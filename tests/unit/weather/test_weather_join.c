/* A past and a forecast on one row of hours: each value from where it belongs. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "weather_try.h"

/* Hours from one of March 2026 on, air = level. */
static void read_flat(struct weather_try *try, long first_hour, long hours, double level,
                      const char *minute)
{
    *try = try_begin();
    dawn_text_add(&try->text, "# stamp: hour-before\ntime,temp (C),dew point (C),cloud (%%)\n");
    for (long h = first_hour; h < first_hour + hours; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        stamp[14] = '\0';
        dawn_text_add(&try->text, "%s%s,%.2f,%.2f,50\n", stamp, minute, level + 0.01 * (double)h,
                      level - 5.0);
    }
    try_read_well(try);
}

static int64_t march_s(long hour)
{
    return dawn_civil_days(2026, 3, 1) * 86400 - 3600 + (int64_t)hour * 3600;
}

static void each_hour_is_whose_it_is(void **state)
{
    struct weather_try past;
    struct weather_try coming;
    struct dawn_weather joined = {0};
    struct dawn_problems problems = {0};

    (void)state;
    read_flat(&past, 0, 100, 0.0, "00");
    read_flat(&coming, 90, 60, 10.0, "00");
    assert_int_equal(dawn_weather_join(&joined, &past.weather, &coming.weather, march_s(95),
                                       40.0 * 3600.0, &problems),
                     DAWN_OK);
    assert_true(joined.first_s == march_s(55)); /* 40 h kept */
    assert_int_equal(joined.count, 95);
    near(joined.air_C[40], 0.95, 1e-9, "the last known hour");
    near(joined.air_C[41], 10.96, 1e-9, "the first of the forecast");
    near(joined.air_C[94], 11.49, 1e-9, "the end");
    near(joined.dew_C[0], -5.0, 1e-9, "dew point");
    near(joined.ghi_W_m2[10], past.weather.ghi_W_m2[65], 1e-9, "light of the past");
    near(joined.ghi_W_m2[70], coming.weather.ghi_W_m2[35], 1e-9, "light of the forecast");
    dawn_weather_release(&joined);
    try_end(&past);
    try_end(&coming);
}

static void another_minute_and_a_short_gap_are_bridged(void **state)
{
    struct weather_try past;
    struct weather_try coming;
    struct dawn_weather joined = {0};
    struct dawn_problems problems = {0};

    (void)state;
    read_flat(&past, 0, 50, 0.0, "30");     /* last at 49:30 */
    read_flat(&coming, 52, 48, 10.0, "00"); /* first at 52:00 */
    assert_int_equal(
        dawn_weather_join(&joined, &past.weather, &coming.weather, march_s(52), 1e9, &problems),
        DAWN_OK);
    near(joined.air_C[49], 0.49, 1e-9, "the last known hour");
    /* 50:30 lies two fifths on the way from 0.49 to 10.52. */
    near(joined.air_C[50], 0.49 + 0.4 * (10.52 - 0.49), 1e-9, "between");
    near(joined.air_C[52], 10.525, 1e-9, "between two hours of the forecast");
    dawn_weather_release(&joined);
    try_end(&past);
    try_end(&coming);
}

static void a_long_gap_is_refused(void **state)
{
    struct weather_try past;
    struct weather_try coming;
    struct dawn_weather joined = {0};
    struct dawn_problems problems = {0};

    (void)state;
    read_flat(&past, 0, 50, 0.0, "00");
    read_flat(&coming, 60, 48, 10.0, "00");
    assert_int_equal(
        dawn_weather_join(&joined, &past.weather, &coming.weather, march_s(60), 1e9, &problems),
        DAWN_ERR_WEATHER);
    assert_non_null(strstr(problems.items[0].message, "begins 11 h after"));
    dawn_problems_release(&problems);
    try_end(&past);
    try_end(&coming);
}

/* By day nothing but offset_K; on a clear calm night all of clear_K, under half a sky of cloud and
 * 2 m/s half of e^-1 of it (computed closed form). */
static void the_hollow_is_colder_on_clear_calm_nights(void **state)
{
    struct weather_try try;

    (void)state;
    read_flat(&try, 0, 48, 4.0, "00");
    for (size_t i = 0; i < 24; i++) {
        try.weather.wind_m_s[i] = 0.0;
        try.weather.cloud[i] = 0.0;
    }
    for (size_t i = 24; i < 48; i++)
        try.weather.wind_m_s[i] = 2.0;
    dawn_weather_shift(&try.weather, 1.5, 3.0);
    near(try.weather.air_C[2], 4.02 - 4.5, 1e-9, "clear calm night");
    near(try.weather.air_C[12], 4.12 - 1.5, 1e-9, "day");
    near(try.weather.air_C[26], 4.26 - 1.5 - 3.0 * 0.5 * exp(-1.0), 1e-9, "cloud and wind");
    near(try.weather.dew_C[2], -1.0, 1e-9, "dew point stays where it can");
    dawn_weather_shift(&try.weather, 3.0, 0.0);
    near(try.weather.dew_C[2], 4.02 - 7.5, 1e-9, "and is never above the air");
    try_end(&try);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_hour_is_whose_it_is),
        cmocka_unit_test(another_minute_and_a_short_gap_are_bridged),
        cmocka_unit_test(a_long_gap_is_refused),
        cmocka_unit_test(the_hollow_is_colder_on_clear_calm_nights),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
