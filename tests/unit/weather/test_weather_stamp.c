/* Time stamps as people and programs write them. The notations are those of ISO 8601 and of the
 * exports they were seen in; the instants they mean are counted by hand from 1970-01-01. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "weather/weather_stamp.h"
#include "weather_try.h"

struct writing {
    const char *text;
    int year, month, day, hour, minute, second;
    double offset_h; /* NAN = none written */
};

static void each_writing_is_read(void **state)
{
    static const struct writing writings[] = {
        {"2026-03-12T05:00", 2026, 3, 12, 5, 0, 0, NAN},
        {"2026-03-12 05:00:30", 2026, 3, 12, 5, 0, 30, NAN},
        {"2026-03-12T05:00:00Z", 2026, 3, 12, 5, 0, 0, 0.0},
        {"2026-03-12T05:00:00.000Z", 2026, 3, 12, 5, 0, 0, 0.0},
        {"2026-03-12T05:00+01:00", 2026, 3, 12, 5, 0, 0, 1.0},
        {"2026-03-12T05:00-0330", 2026, 3, 12, 5, 0, 0, -3.5},
        {"2026-03-12 05:00 UTC", 2026, 3, 12, 5, 0, 0, 0.0},
        {"2026/3/12 5:00", 2026, 3, 12, 5, 0, 0, NAN},
        {"2021-04-18T18:42:12.958950", 2021, 4, 18, 18, 42, 12, NAN},
        {"20260312:0500", 2026, 3, 12, 5, 0, 0, NAN},
        {"20260312 0500", 2026, 3, 12, 5, 0, 0, NAN},
        {"20260312T050030Z", 2026, 3, 12, 5, 0, 30, 0.0}, /* ISO 8601, basic form */
        {"2026031205", 2026, 3, 12, 5, 0, 0, NAN},
        {"202603120510", 2026, 3, 12, 5, 10, 0, NAN},
        {"20260312051007", 2026, 3, 12, 5, 10, 7, NAN},
        {"2023021005:20", 2023, 2, 10, 5, 20, 0, NAN},
        {"12.03.2026 05:00", 2026, 3, 12, 5, 0, 0, NAN},
        {"01-jan-1987 00:00", 1987, 1, 1, 0, 0, 0, NAN},
        {"12 05:00", 0, 0, 0, 0, 0, 0, NAN},
        {"12-Mar-26 5:00 PM", 2026, 3, 12, 17, 0, 0, NAN},
        {"2026-03-12 12:00 AM", 2026, 3, 12, 0, 0, 0, NAN},
        {"2026-03-12 12:30 pm", 2026, 3, 12, 12, 30, 0, NAN},
        {"2026-03-12 24:00", 2026, 3, 12, 24, 0, 0, NAN},
        {"2026-03-12 13:00 PM", 0, 0, 0, 0, 0, 0, NAN},
        {"2026-03", 0, 0, 0, 0, 0, 0, NAN},
        {"2026-03-12 5 o'clock", 0, 0, 0, 0, 0, 0, NAN},
        {"yesterday", 0, 0, 0, 0, 0, 0, NAN},
        {"1/2/3/4", 0, 0, 0, 0, 0, 0, NAN},
        {"", 0, 0, 0, 0, 0, 0, NAN},
    };
    (void)state;
    for (size_t i = 0; i < sizeof writings / sizeof writings[0]; i++) {
        const struct writing *w = &writings[i];
        struct dawn_weather_parts parts;
        bool read = dawn_weather_stamp_scan(w->text, &parts);
        if (read != (w->year != 0))
            print_error("\"%s\"\n", w->text);
        assert_int_equal(read, w->year != 0);
        if (!read)
            continue;
        assert_int_equal(parts.year, w->year);
        assert_int_equal(parts.month, w->month);
        assert_int_equal(parts.day, w->day);
        assert_int_equal(parts.hour, w->hour);
        assert_int_equal(parts.minute, w->minute);
        assert_int_equal(parts.second, w->second);
        assert_int_equal(parts.has_offset, !isnan(w->offset_h));
        if (parts.has_offset)
            near(parts.offset_h, w->offset_h, 1e-6, w->text);
    }
}

static void offsets_are_read(void **state)
{
    static const struct {
        const char *text;
        double hours; /* NAN = refused */
    } offsets[] = {{"UTC", 0.0},        {"Z", 0.0},     {"+1 h", 1.0},  {"-05:00", -5.0},
                   {"GMT-07:00", -7.0}, {"UTC+1", 1.0}, {"-3.5", -3.5}, {"+0545", 5.75},
                   {"0", 0.0},          {"-9", -9.0},   {"15", NAN},    {"east", NAN},
                   {"", NAN},           {"UTC1", NAN},  {"+1:75", NAN}};
    (void)state;
    for (size_t i = 0; i < sizeof offsets / sizeof offsets[0]; i++) {
        double hours = NAN;
        bool read = dawn_weather_stamp_offset(offsets[i].text, &hours);
        if (read != !isnan(offsets[i].hours))
            print_error("\"%s\"\n", offsets[i].text);
        assert_int_equal(read, !isnan(offsets[i].hours));
        if (read)
            near(hours, offsets[i].hours, 1e-12, offsets[i].text);
    }
}

/* 2026-03-12T05:00Z: 20,524 days after 1970-01-01 (56 years, 14 leap days, 70 days) and 5 h. */
#define MARCH_12_5_UTC (20524 * 86400LL + 5 * 3600)

static void seconds_are_counted_from_1970(void **state)
{
    struct dawn_weather_parts parts;
    (void)state;
    assert_true(dawn_weather_stamp_scan("2026-03-12T05:00Z", &parts));
    assert_int_equal(dawn_weather_stamp_seconds(&parts, 9.0), MARCH_12_5_UTC);
    assert_true(dawn_weather_stamp_scan("2026-03-12 06:00", &parts));
    assert_int_equal(dawn_weather_stamp_seconds(&parts, 1.0), MARCH_12_5_UTC);
    assert_true(dawn_weather_stamp_scan("1773291600", &parts)); /* the same as Unix time */
    assert_int_equal(dawn_weather_stamp_seconds(&parts, 1.0), MARCH_12_5_UTC);
}

/* Reads rows "stamp,5.0" and returns the first stamp. */
static int64_t first_of(struct weather_try *try, const char *header, const char *rows)
{
    dawn_text_add(&try->text, "%s\n%s", header, rows);
    try_read_well(try);
    return try->weather.first_s;
}

static void a_zone_in_the_stamps_beats_all_hints(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    try.hints.utc_offset_h = 9.0;
    int64_t first = first_of(&try, "time,temperature (C)",
                             "2026-03-12T06:00+01:00,5.0\n2026-03-12T07:00+01:00,6.0\n");
    assert_int_equal(first, MARCH_12_5_UTC);
    assert_true(try.weather.utc_offset_from_file);
    near(try.weather.utc_offset_h, 1.0, 0.0, "offset of the stamps");
    try_said(&try, DAWN_WARNING, "the file is believed");
    try_end(&try);
}

static void a_zone_may_stand_in_the_header(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    int64_t first = first_of(&try,
                             "\"Date Time, GMT-07:00\",\"Temp, \xC2\xB0"
                             "C (sensor 1)\"",
                             "2026-03-11 22:00,5.0\n2026-03-11 23:00,6.0\n");
    assert_int_equal(first, MARCH_12_5_UTC);
    near(try.weather.utc_offset_h, -7.0, 0.0, "offset in the header");
    try_end(&try);
}

static void without_a_zone_the_sites_is_taken_and_said(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    int64_t first =
        first_of(&try, "time,temperature (C)", "2026-03-12 06:00,5.0\n2026-03-12 07:00,6.0\n");
    assert_int_equal(first, MARCH_12_5_UTC);
    assert_false(try.weather.utc_offset_from_file);
    try_said(&try, DAWN_NOTE, "does not say its time zone");
    try_end(&try);
}

static void date_and_time_may_be_columns_of_their_own(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    assert_int_equal(
        first_of(&try, "Date,Time (UTC),temp (C)", "12.03.2026,5:00,5.0\n12.03.2026,6:00,6.0\n"),
        MARCH_12_5_UTC);
    try_end(&try);
    try = try_begin();
    assert_int_equal(first_of(&try, "Year,Month,Day,Hour,Minute,temp (C)",
                              "2026,3,12,6,0,5.0\n2026,03,12,07,00,6.0\n"),
                     MARCH_12_5_UTC);
    try_end(&try);
}

/* Hour 24 is midnight at the end of the day it is written with. */
static void hour_24_ends_its_day(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    int64_t first = first_of(&try, "date,hour,temp (C)",
                             "2026-03-11,23,5.0\n2026-03-11,24,6.0\n2026-03-12,1,7.0\n");
    assert_int_equal(first, MARCH_12_5_UTC - 7 * 3600);
    assert_int_equal(try.weather.count, 3);
    try_end(&try);
}

/* Writes hourly rows with numeric dates, day or month first. */
static void numeric_dates(struct weather_try *try, const char *header, int month, int day,
                          long hours, bool day_first)
{
    dawn_text_add(&try->text, "%s\n", header);
    for (long h = 0; h < hours; h++) {
        struct dawn_civil civil =
            dawn_civil_at(dawn_civil_days(2026, month, day) * 86400 + (int64_t)h * 3600, 0.0);
        dawn_text_add(&try->text, "%d/%d/2026 %d:00,%.1f\n", day_first ? civil.day : civil.month,
                      day_first ? civil.month : civil.day, civil.hour, try_air_C(h));
    }
}

static void day_or_month_first_is_told_by_the_whole_file(void **state)
{
    (void)state;
    for (int day_first = 0; day_first <= 1; day_first++) {
        /* a number above 12 tells */
        struct weather_try try = try_begin();
        numeric_dates(&try, "time,temperature (C)", 3, 11, 72, day_first);
        try_read_well(&try);
        assert_int_equal(try.weather.first_s, MARCH_12_5_UTC - 30 * 3600);
        try_end(&try);
        /* all below 13, but only one way makes the hours follow each other */
        try = try_begin();
        numeric_dates(&try, "time,temperature (C)", 3, 2, 72, day_first);
        try_read_well(&try);
        assert_int_equal(try.weather.first_s, MARCH_12_5_UTC - 246 * 3600);
        try_end(&try);
    }
}

static void one_day_that_fits_both_ways_is_refused(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    numeric_dates(&try, "time,temperature (C)", 3, 2, 24, true);
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    try_said(&try, DAWN_ERROR, "day/month or as month/day");
    try_end(&try);
    try = try_begin(); /* the header may say it */
    numeric_dates(&try, "Date (DD/MM/YYYY HH:MM),temperature (C)", 3, 2, 24, true);
    try_read_well(&try);
    assert_int_equal(try.weather.first_s, MARCH_12_5_UTC - 246 * 3600);
    try_end(&try);
}

static void dates_that_change_sides_are_refused(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    numeric_dates(&try, "time,temperature (C)", 3, 13, 24, true);
    dawn_text_add(&try.text, "3/14/2026 0:00,5.0\n3/14/2026 1:00,5.0\n");
    try_read(&try);
    const struct dawn_problem *said = try_said(&try, DAWN_ERROR, "day and month change places");
    assert_int_equal(said->line, 26);
    try_end(&try);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_writing_is_read),
        cmocka_unit_test(offsets_are_read),
        cmocka_unit_test(seconds_are_counted_from_1970),
        cmocka_unit_test(a_zone_in_the_stamps_beats_all_hints),
        cmocka_unit_test(a_zone_may_stand_in_the_header),
        cmocka_unit_test(without_a_zone_the_sites_is_taken_and_said),
        cmocka_unit_test(date_and_time_may_be_columns_of_their_own),
        cmocka_unit_test(hour_24_ends_its_day),
        cmocka_unit_test(day_or_month_first_is_told_by_the_whole_file),
        cmocka_unit_test(one_day_that_fits_both_ways_is_refused),
        cmocka_unit_test(dates_that_change_sides_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
