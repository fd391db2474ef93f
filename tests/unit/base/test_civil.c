/* Dates and seconds against the C library and against known instants. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <time.h>

#include "base/civil.h"

/* Oracle: the C library's gmtime_r. A step of 37 days less a second visits every kind of day. */
static void agrees_with_the_c_library(void **state)
{
    (void)state;
    const int64_t step_s = 37 * 86400 - 1;
    for (int64_t at = -20000LL * step_s; at < 20000LL * step_s; at += step_s) {
        const time_t when = (time_t)at;
        struct tm want;
        assert_non_null(gmtime_r(&when, &want));
        const struct dawn_civil got = dawn_civil_at(at, 0);
        assert_int_equal(got.year, want.tm_year + 1900);
        assert_int_equal(got.month, want.tm_mon + 1);
        assert_int_equal(got.day, want.tm_mday);
        assert_int_equal(got.hour, want.tm_hour);
        assert_int_equal(got.minute, want.tm_min);
        assert_int_equal(got.second, want.tm_sec);
        assert_int_equal(got.weekday, (want.tm_wday + 6) % 7);
        assert_int_equal(got.day_of_year, want.tm_yday + 1);
        assert_int_equal(dawn_civil_seconds(&got, 0), at);
    }
}

/* The C library's epoch and its billionth second are common knowledge; 2000-01-01 was a Saturday.
 */
static void known_instants(void **state)
{
    (void)state;
    char text[32];
    dawn_civil_iso(0, 0, text);
    assert_string_equal(text, "1970-01-01T00:00:00+00:00");
    dawn_civil_iso(1000000000, 0, text);
    assert_string_equal(text, "2001-09-09T01:46:40+00:00");
    dawn_civil_iso(2147483647, 0, text);
    assert_string_equal(text, "2038-01-19T03:14:07+00:00");
    assert_int_equal(dawn_civil_days(1970, 1, 1), 0);
    assert_int_equal(dawn_civil_days(2000, 3, 1) - dawn_civil_days(2000, 2, 28), 2);
    assert_int_equal(dawn_civil_days(1900, 3, 1) - dawn_civil_days(1900, 2, 28), 1);
    const struct dawn_civil new_year = dawn_civil_at(dawn_civil_days(2000, 1, 1) * 86400, 0);
    assert_string_equal(dawn_civil_weekday(new_year.weekday), "Sat");
}

static void offsets_shift_the_clock(void **state)
{
    (void)state;
    char text[32];
    dawn_civil_iso(1000000000, 1, text);
    assert_string_equal(text, "2001-09-09T02:46:40+01:00");
    dawn_civil_iso(1000000000, -5, text);
    assert_string_equal(text, "2001-09-08T20:46:40-05:00");
    dawn_civil_iso(1000000000, 5.5, text);
    assert_string_equal(text, "2001-09-09T07:16:40+05:30");
    dawn_civil_iso(1000000000, -3.5, text);
    assert_string_equal(text, "2001-09-08T22:16:40-03:30");
    for (int quarter = -48; quarter <= 56; quarter++) {
        const double offset_h = quarter / 4.0;
        const struct dawn_civil local = dawn_civil_at(1000000000, offset_h);
        assert_int_equal(dawn_civil_seconds(&local, offset_h), 1000000000);
    }
}

static void dates_that_do_not_exist(void **state)
{
    (void)state;
    assert_true(dawn_civil_valid(2024, 2, 29));
    assert_false(dawn_civil_valid(2023, 2, 29));
    assert_true(dawn_civil_valid(2000, 2, 29));
    assert_false(dawn_civil_valid(1900, 2, 29));
    assert_false(dawn_civil_valid(2026, 4, 31));
    assert_true(dawn_civil_valid(2026, 12, 31));
    assert_false(dawn_civil_valid(2026, 13, 1));
    assert_false(dawn_civil_valid(2026, 0, 1));
    assert_false(dawn_civil_valid(2026, 1, 0));
    assert_false(dawn_civil_valid(2026, 1, 32));
}

static void days_are_read(void **state)
{
    (void)state;
    int year = -1;
    int month = -1;
    int day = -1;
    assert_true(dawn_civil_read_day("2026-03-04", &year, &month, &day));
    assert_true(year == 2026 && month == 3 && day == 4);
    assert_true(dawn_civil_read_day("02-29", &year, &month, &day));
    assert_true(year == 0 && month == 2 && day == 29);
    const char *const wrong[] = {"",      "2026-02-29", "0000-03-04", "13-01", "3-4",
                                 "03/04", "2026/03-04", "03-04x",     "-1-04", "2026-03-4 "};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_false(dawn_civil_read_day(wrong[i], &year, &month, &day));
    assert_true(year == 0 && month == 2 && day == 29);
}

static void names_are_english(void **state)
{
    (void)state;
    assert_string_equal(dawn_civil_weekday(0), "Mon");
    assert_string_equal(dawn_civil_weekday(6), "Sun");
    assert_string_equal(dawn_civil_weekday(7), "?");
    assert_string_equal(dawn_civil_weekday(-1), "?");
    assert_string_equal(dawn_civil_month(1), "Jan");
    assert_string_equal(dawn_civil_month(12), "Dec");
    assert_string_equal(dawn_civil_month(0), "?");
    assert_string_equal(dawn_civil_month(13), "?");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_with_the_c_library),
        cmocka_unit_test(known_instants),
        cmocka_unit_test(offsets_shift_the_clock),
        cmocka_unit_test(dates_that_do_not_exist),
        cmocka_unit_test(days_are_read),
        cmocka_unit_test(names_are_english),
    };
    return cmocka_run_group_tests_name("base/civil", tests, NULL, NULL);
}
