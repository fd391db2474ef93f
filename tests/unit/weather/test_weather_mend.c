/* Order, gaps, steps and doubts. What is checked are the promises of include/dawnlow/weather.h and
 * the limits of src/weather/weather_mend.c; the sun's clock is checked against the sun itself. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/light.h"
#include "dawnlow/physics/sun.h"
#include "support/near.h"
#include "weather_try.h"

/* Hours from 1 March 2026 without those from missing on. */
static void hours_without(struct weather_try *try, long hours, long missing, long count)
{
    dawn_text_add(&try->text, "time,temperature (C)\n");
    for (long h = 0; h < hours; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        if (h < missing || h >= missing + count)
            dawn_text_add(&try->text, "%s,%.1f\n", stamp, try_air_C(h));
    }
}

static void gaps_up_to_three_hours_are_filled_and_said(void **state)
{
    (void)state;
    for (long count = 1; count <= 3; count++) {
        struct weather_try try = try_begin();
        hours_without(&try, 72, 30, count);
        try_read_well(&try);
        assert_int_equal(try.weather.count, 72);
        assert_int_equal(try.weather.filled_hours, count);
        for (long i = 0; i < count; i++) {
            double before = round(try_air_C(29) * 10.0) / 10.0;
            double after = round(try_air_C(30 + count) * 10.0) / 10.0;
            double want = before + (after - before) * (double)(i + 1) / (double)(count + 1);
            near(try.weather.air_C[30 + i], want, 1e-9, "on the straight line");
        }
        const struct dawn_problem *said =
            try_said(&try, DAWN_NOTE, "missing from 2026-03-02 06:00");
        assert_int_equal(said->line, 31);
        try_end(&try);
    }
}

static void longer_gaps_are_refused_with_their_place(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    hours_without(&try, 72, 30, 4);
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    const struct dawn_problem *said = try_said(
        &try, DAWN_ERROR, "4 hours are missing between 2026-03-02 05:00 and 2026-03-02 10:00");
    assert_int_equal(said->line, 32);
    assert_int_equal(try.weather.count, 0);
    try_end(&try);
}

/* The clock put forward on 29 March 2026 (a Sunday; EU directive 2000/84/EC): 02:00 is not there.
 */
static void the_missing_hour_of_summer_time_is_filled_with_a_hint(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    hours_without(&try, 24 * 31, 28 * 24 + 2, 1);
    try_read_well(&try);
    const struct dawn_problem *said =
        try_said(&try, DAWN_NOTE, "1 h missing from 2026-03-29 02:00");
    assert_non_null(said->hint);
    assert_non_null(strstr(said->hint, "summer time"));
    assert_int_equal(try.weather.filled_hours, 1);
    try_end(&try);
}

static void empty_cells_are_gaps_too(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temperature (C),wind (m/s)\n");
    for (long h = 0; h < 48; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        if (h >= 10 && h < 12)
            dawn_text_add(&try.text, "%s,,2\n", stamp);
        else if (h >= 20 && h < 28)
            dawn_text_add(&try.text, "%s,5,\n", stamp);
        else
            dawn_text_add(&try.text, "%s,%ld,3\n", stamp, h % 24);
    }
    try_read_well(&try);
    near(try.weather.air_C[10], 9.0 + 1.0, 1e-9, "air between 9 and 12");
    near(try.weather.air_C[11], 11.0, 1e-9, "air between 9 and 12");
    try_said(&try, DAWN_NOTE, "air temperature missing for 2 h from 2026-03-01 10:00");
    assert_int_equal(try_said(&try, DAWN_WARNING, "wind speed missing for 8 h")->line, 22);
    near(try.weather.wind_m_s[24], 3.0, 1e-9, "wind carried over the long gap");
    assert_int_equal(try.weather.wind_from, DAWN_FROM_FILE);
    try_end(&try);
}

static void long_empty_air_is_refused(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temperature (C)\n");
    for (long h = 0; h < 48; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&try.text, h >= 20 && h < 24 ? "%s,\n" : "%s,5.%ld\n", stamp, h % 10);
    }
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    assert_int_equal(try_said(&try, DAWN_ERROR, "air temperature missing for 4 h")->line, 22);
    try_end(&try);
}

static void empty_ends_are_left_out_with_a_warning(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temperature (C)\n");
    for (long h = 0; h < 72; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        if (h < 2 || h >= 60)
            dawn_text_add(&try.text, "%s,\n", stamp);
        else
            dawn_text_add(&try.text, "%s,%.1f\n", stamp, try_air_C(h));
    }
    try_read_well(&try);
    assert_int_equal(try.weather.count, 58);
    near(try.weather.air_C[0], try_air_C(2), 0.05001, "first hour with a value");
    try_said(&try, DAWN_WARNING, "14 of 72 hours at the start and end");
    try_end(&try);
}

static void the_same_row_twice_is_used_once(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temp (C)\n2026-03-01 00:00,1\n2026-03-01 01:00,2\n"
                             "2026-03-01 01:00,2\n2026-03-01 02:00,3\n");
    try_read_well(&try);
    assert_int_equal(try.weather.count, 3);
    const struct dawn_problem *said = try_said(&try, DAWN_WARNING, "stands twice");
    assert_int_equal(said->line, 4);
    try_end(&try);
}

static void the_newest_first_is_turned_round(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temp (C)\n2026-03-01 03:00,4\n2026-03-01 02:00,3\n"
                             "2026-03-01 01:00,2\n2026-03-01 00:00,1\n");
    try_read_well(&try);
    for (int i = 0; i < 4; i++)
        near(try.weather.air_C[i], i + 1.0, 1e-9, "in order of time");
    try_said(&try, DAWN_NOTE, "from the newest to the oldest");
    try_end(&try);
}

/* 1 to 12 of a month written the other way round: 11/01/2021 after 31/10/2021. */
static void exchanged_day_and_month_are_named(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temp (C)\n");
    for (int h = 0; h < 24; h++)
        dawn_text_add(&try.text, "31/10/2021 %02d:00,5.%d\n", h, h % 10);
    for (int h = 0; h < 24; h++)
        dawn_text_add(&try.text, "11/01/2021 %02d:00,5.%d\n", h, h % 10);
    try_read(&try);
    const struct dawn_problem *said =
        try_said(&try, DAWN_ERROR, "with day and month exchanged it would follow in order");
    assert_int_equal(said->line, 26);
    try_end(&try);
}

/* Rows every ten minutes: states by their value at the hour, radiation by its mean. The mean of
 * the six values of an hour is an average by definition. */
static void ten_minutes_become_hours(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "# stamp: hour-before\ntime,temp (C),global (W/m2)\n");
    for (int i = 0; i <= 24 * 6; i++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, i / 6);
        stamp[14] = (char)('0' + i % 6);
        /* light in hour 12 only: 0, 10 .. 50 W/m2 for the six intervals that end in it */
        int in_noon = i > 12 * 6 && i <= 13 * 6;
        dawn_text_add(&try.text, "%s,%.2f,%d\n", stamp, i / 6.0,
                      in_noon ? (i - 12 * 6 - 1) * 10 : 0);
    }
    try_read_well(&try);
    assert_int_equal(try.weather.count, 24);
    assert_int_equal(try.weather.first_s, try.weather.mean_first_s);
    for (int h = 0; h < 24; h++)
        near(try.weather.air_C[h], h, 1e-9, "value at the hour");
    near(try.weather.ghi_W_m2[12], 25.0, 1e-9, "mean of 0, 10 .. 50");
    near(try.weather.ghi_W_m2[11], 0.0, 1e-9, "hour before");
    near(try.weather.ghi_W_m2[13], 0.0, 1e-9, "hour after");
    try_said(&try, DAWN_NOTE, "rows 10 min apart are brought to full hours");
    try_end(&try);
}

/* A logger started at 22 minutes past: the straight line between its readings. */
static void odd_minutes_are_read_between_the_rows(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temp (C)\n");
    for (int i = 0; i < 96; i++) {
        int minutes = 22 + 15 * i;
        dawn_text_add(&try.text, "2026-03-01 %02d:%02d,%.4f\n", minutes / 60, minutes % 60,
                      minutes / 60.0);
        if (minutes / 60 == 23 && minutes % 60 > 40)
            break;
    }
    try_read_well(&try);
    for (size_t i = 0; i < try.weather.count; i++)
        near(try.weather.air_C[i], (double)(i + 1), 1e-3, "on the straight line");
    try_end(&try);
}

/* Hourly rows stamped at half past keep their minute. */
static void hourly_rows_keep_their_minute(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "# stamp: hour-around\ntime,temp (C),global (W/m2)\n"
                             "2026-03-01 00:30,1,0\n2026-03-01 01:30,2,0\n");
    try_read_well(&try);
    assert_int_equal(try.weather.first_s % 3600, 1800);
    assert_int_equal(try.weather.first_s - try.weather.mean_first_s, 1800);
    assert_int_equal(try.weather.count, 2);
    try_end(&try);
}

/* What a stamp means decides where the hour of the mean starts: by definition of the words. */
static void each_meaning_of_a_stamp_places_the_mean(void **state)
{
    static const struct {
        const char *words;
        int64_t start_s;
    } meanings[] = {
        {"instant", -1800}, {"hour-before", -3600}, {"hour-after", 0}, {"hour-around", -1800}};
    (void)state;
    for (size_t i = 0; i < sizeof meanings / sizeof meanings[0]; i++) {
        struct weather_try try = try_begin();
        dawn_text_add(&try.text, "# stamp: %s\n", meanings[i].words);
        dawn_text_add(&try.text, "time,temp (C),global (W/m2)\n"
                                 "2026-03-01 00:00,1,0\n2026-03-01 01:00,2,0\n");
        try_read_well(&try);
        assert_int_equal(try.weather.mean_first_s - try.weather.first_s, meanings[i].start_s);
        try_end(&try);
        /* and by the scenario, when the file does not say */
        try = try_begin();
        try.hints.stamp = (int)i;
        dawn_text_add(&try.text, "time,temp (C),global (W/m2)\n"
                                 "2026-03-01 00:00,1,0\n2026-03-01 01:00,2,0\n");
        try_read_well(&try);
        assert_int_equal(try.weather.stamp, (int)i);
        assert_int_equal(try.weather.mean_first_s - try.weather.first_s, meanings[i].start_s);
        try_end(&try);
    }
    struct weather_try try = try_begin();
    dawn_text_add(&try.text, "time,temp (C),global (W/m2)\n"
                             "2026-03-01 00:00,1,0\n2026-03-01 01:00,2,0\n");
    try_read_well(&try);
    assert_int_equal(try.weather.stamp, DAWN_STAMP_MEAN_BEFORE);
    try_said(&try, DAWN_NOTE, "does not say which hour a radiation value belongs to");
    try_end(&try);
}

static void leaps_and_standstill_are_doubted(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temp (C)\n");
    for (long h = 0; h < 72; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&try.text, "%s,%.1f\n", stamp, h == 10 ? 30.0 : h >= 40 ? 7.7 : try_air_C(h));
    }
    try_read_well(&try);
    assert_int_equal(try_said(&try, DAWN_WARNING, "the air temperature rises by")->line, 12);
    assert_int_equal(try_said(&try, DAWN_WARNING, "the air temperature falls by")->line, 13);
    assert_int_equal(try_said(&try, DAWN_WARNING, "stays at 7.7 C for 32 hours")->line, 42);
    try_end(&try);
}

/* Light of a clear sky at the true place and time, written late_h late, in watts. */
static void clear_sky_file(struct weather_try *try, double late_h, long hours)
{
    dawn_text_add(&try->text, "# stamp: hour-before\ntime,temp (C),global (W/m2)\n");
    for (long h = 0; h < hours; h++) {
        char stamp[24];
        double sum = 0.0;
        try_stamp(stamp, 2026, 3, 1, h);
        double until_s =
            (double)dawn_civil_days(2026, 3, 1) * 86400.0 + ((double)h - 1.0 - late_h) * 3600.0;
        for (int i = 0; i < 12; i++) {
            double at_s = until_s - 3600.0 * (i + 0.5) / 12.0;
            sum += dawn_light_clear_W_m2(dawn_sun_position(at_s, 45.0, 7.0).cos_zenith);
        }
        /* clouds of different days, so that the light is not too regular */
        double share = 0.3 + 0.1 * (double)(h / 24 % 7);
        dawn_text_add(&try->text, "%s,%.1f,%.0f\n", stamp, try_air_C(h), share * sum / 12.0);
    }
}

static void light_that_fits_the_sun_is_not_doubted(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    clear_sky_file(&try, 0.0, 240);
    try_read_well(&try);
    assert_null(try_find(&try, "light comes"));
    assert_null(try_find(&try, "of night"));
    try_end(&try);
}

static void the_shift_that_would_mend_the_light_is_named(void **state)
{
    static const struct {
        double late_h;
        enum dawn_severity severity;
        const char *words;
    } shifts[] = {
        {0.5, DAWN_WARNING, "the light comes about 0.5 h too late"},
        {-0.5, DAWN_WARNING, "the light comes about 0.5 h too early"},
        {3.0, DAWN_ERROR, "it would fit the sun if its stamps were 3 h earlier"},
        {-5.0, DAWN_ERROR, "it would fit the sun if its stamps were 5 h later"},
        {12.0, DAWN_ERROR, "it would fit the sun if its stamps were 12 h"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof shifts / sizeof shifts[0]; i++) {
        struct weather_try try = try_begin();
        clear_sky_file(&try, shifts[i].late_h, 240);
        try_read(&try);
        try_said(&try, shifts[i].severity, shifts[i].words);
        assert_int_equal(try.status, shifts[i].severity == DAWN_ERROR ? DAWN_ERR_WEATHER : DAWN_OK);
        try_end(&try);
    }
}

/* Nights are coldest about sunrise (common practice, no source). */
static void a_cold_afternoon_speaks_for_another_zone(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    try_hours(&try, "time,temperature (C)", 240);
    try_read_well(&try);
    assert_null(try_find(&try, "coldest hour of the mean day"));
    try.hints.site_utc_offset_h = -10.0; /* eleven hours wrong */
    try_read_well(&try);
    try_said(&try, DAWN_WARNING, "coldest hour of the mean day");
    try_end(&try);
}

/* Rows of January 2010 and February 2003 in one file, months in the calendar's order. */
static void months_of_different_years_become_one(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temperature (C)\n");
    for (int part = 0; part < 2; part++) {
        long hours = part ? 24 * 28 : 24 * 31;
        for (long h = 0; h < hours; h++) {
            char stamp[24];
            try_stamp(stamp, part ? 2003 : 2010, part ? 2 : 1, 1, h);
            dawn_text_add(&try.text, "%s,%.1f\n", stamp, try_air_C(h));
        }
    }
    try_read_well(&try);
    assert_true(try.weather.typical_year);
    assert_int_equal(try.weather.count, 59 * 24);
    struct dawn_civil first = dawn_civil_at(try.weather.first_s, try.weather.utc_offset_h);
    assert_int_equal(first.year, 2001);
    assert_int_equal(first.month, 1);
    assert_int_equal(first.hour, 0);
    try_said(&try, DAWN_NOTE, "different years");
    try_end(&try);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gaps_up_to_three_hours_are_filled_and_said),
        cmocka_unit_test(longer_gaps_are_refused_with_their_place),
        cmocka_unit_test(the_missing_hour_of_summer_time_is_filled_with_a_hint),
        cmocka_unit_test(empty_cells_are_gaps_too),
        cmocka_unit_test(long_empty_air_is_refused),
        cmocka_unit_test(empty_ends_are_left_out_with_a_warning),
        cmocka_unit_test(the_same_row_twice_is_used_once),
        cmocka_unit_test(the_newest_first_is_turned_round),
        cmocka_unit_test(exchanged_day_and_month_are_named),
        cmocka_unit_test(ten_minutes_become_hours),
        cmocka_unit_test(odd_minutes_are_read_between_the_rows),
        cmocka_unit_test(hourly_rows_keep_their_minute),
        cmocka_unit_test(each_meaning_of_a_stamp_places_the_mean),
        cmocka_unit_test(leaps_and_standstill_are_doubted),
        cmocka_unit_test(light_that_fits_the_sun_is_not_doubted),
        cmocka_unit_test(the_shift_that_would_mend_the_light_is_named),
        cmocka_unit_test(a_cold_afternoon_speaks_for_another_zone),
        cmocka_unit_test(months_of_different_years_become_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
