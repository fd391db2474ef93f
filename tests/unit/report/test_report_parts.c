/* Numbers, clocks, CSV fields and broken lines. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "../../support/near.h"
#include "../../support/written.h"
#include "report/report_parts.h"

static void numbers(void **state)
{
    (void)state;
    char out[DAWN_REPORT_ROOM];
    assert_string_equal(dawn_report_fixed(1.25, 1, out), "1.2"); /* IEEE 754: ties to even */
    assert_string_equal(dawn_report_fixed(-0.04, 1, out), "-0.0");
    assert_string_equal(dawn_report_fixed(-0.0, 1, out), "0.0");
    assert_string_equal(dawn_report_fixed(NAN, 1, out), "-");
    assert_string_equal(dawn_report_fixed(INFINITY, 1, out), "-");
    assert_string_equal(dawn_report_fixed(1e300, 3, out), "-");
    assert_string_equal(dawn_report_scientific(3.14159e-10, out), "3.1e-10");
    assert_string_equal(dawn_report_scientific(0.0, out), "0.0e+00");
    assert_string_equal(dawn_report_scientific(NAN, out), "-");
    near(dawn_report_two_digits(3.14159e-10), 3.1e-10, 0, "two digits");
    assert_true(isnan(dawn_report_two_digits(NAN)));
}

/* F = 1.8 C + 32: computed closed form. */
static void degrees(void **state)
{
    (void)state;
    char out[DAWN_REPORT_ROOM];
    assert_string_equal(dawn_report_degrees_unit(-40.0, DAWN_METRIC, out), "-40.0 C");
    assert_string_equal(dawn_report_degrees_unit(-40.0, DAWN_US, out), "-40.0 F");
    assert_string_equal(dawn_report_degrees_unit(0.0, DAWN_US, out), "32.0 F");
    assert_string_equal(dawn_report_line(0.0, DAWN_METRIC, out), "0 C");
    assert_string_equal(dawn_report_line(0.0, DAWN_US, out), "32 F");
    assert_string_equal(dawn_report_line(-1.5, DAWN_METRIC, out), "-1.5 C");
    assert_string_equal(dawn_report_line(10.0, DAWN_METRIC, out), "10 C");
}

/* So many decimals that something other than 0 is to be seen, but no more than 9. */
static void decimals_of_temperatures(void **state)
{
    (void)state;
    assert_int_equal(dawn_report_decimals(-0.043), 3);
    assert_int_equal(dawn_report_decimals(21.5), 3);
    assert_int_equal(dawn_report_decimals(-0.0006), 3);
    assert_int_equal(dawn_report_decimals(-0.0003), 4);
    assert_int_equal(dawn_report_decimals(0.000021), 5);
    assert_int_equal(dawn_report_decimals(-1e-12), 9);
    assert_int_equal(dawn_report_decimals(0.0), 3);
    assert_int_equal(dawn_report_decimals(NAN), 3);
}

static void clocks(void **state)
{
    (void)state;
    char out[DAWN_REPORT_ROOM];
    assert_string_equal(dawn_report_clock(29.9, 0.0, out), "00:00");
    assert_string_equal(dawn_report_clock(30.0, 0.0, out), "00:01");
    assert_string_equal(dawn_report_clock(86390.0, 0.0, out), "00:00");
    assert_string_equal(dawn_report_clock(-60.0, 5.75, out), "05:44");
    assert_string_equal(dawn_report_clock(NAN, 0.0, out), "-");
    assert_string_equal(dawn_report_zone(5.75, out), "UTC+05:45");
    assert_string_equal(dawn_report_zone(-3.5, out), "UTC-03:30");
    assert_string_equal(dawn_report_zone(0.0, out), "UTC+00:00");
    assert_string_equal(dawn_report_date(0, -1.0, out), "1969-12-31");
    assert_string_equal(dawn_report_day(0, 0.0, out), "Thu 1 Jan 1970");
}

/* RFC 4180, section 2, rules 5 to 7. */
static void csv_fields(void **state)
{
    (void)state;
    struct written written;
    written_start(&written);
    dawn_report_csv_field(written.stream, "plain");
    dawn_report_csv_field(written.stream, "a,b");
    dawn_report_csv_field(written.stream, "say \"x\"");
    dawn_report_csv_field(written.stream, "two\nlines");
    written_is(&written, "plain\"a,b\"\"say \"\"x\"\"\"\"two\nlines\"");
}

static void lines_break_before_column_81(void **state)
{
    (void)state;
    struct written written;
    written_start(&written);
    dawn_report_wrapped(written.stream, "  ",
                        "123456789 123456789 123456789 123456789 123456789 123456789 123456789 "
                        "1234567890 next");
    written_is(&written, "123456789 123456789 123456789 123456789 123456789 123456789 123456789 "
                         "1234567890\n  next\n");
}

static void estimates_leave_out_what_the_file_said(void **state)
{
    (void)state;
    const struct dawn_weather weather = {.ghi_from = DAWN_FROM_RANGE};
    struct dawn_report_estimate estimate[DAWN_REPORT_ESTIMATES];
    assert_int_equal(dawn_report_estimates(&weather, estimate), 1);
    assert_string_equal(estimate[0].quantity, "daylight");
    assert_string_equal(estimate[0].how, dawn_weather_source_words(DAWN_FROM_RANGE));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers),
        cmocka_unit_test(degrees),
        cmocka_unit_test(decimals_of_temperatures),
        cmocka_unit_test(clocks),
        cmocka_unit_test(csv_fields),
        cmocka_unit_test(lines_break_before_column_81),
        cmocka_unit_test(estimates_leave_out_what_the_file_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
