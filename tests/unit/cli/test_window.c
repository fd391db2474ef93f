/* Days on the command line become a stretch of the weather, or a clear refusal. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "cli/window.h"

/* 2026-03-01T00:00Z: day 20513 since 1970, computed closed form (56 * 365 + 14 + 59). */
static const int64_t march_s = 20513LL * 86400;
static const int64_t day_s = 86400;
static const struct dawn_options_date none = {0};

static struct dawn_options_date date(const char *text)
{
    struct dawn_options_date read = {0};
    assert_true(dawn_options_date(text, &read));
    return read;
}

static struct dawn_window covered_days(int days)
{
    return (struct dawn_window){march_s, march_s + days * day_s};
}

static void accept(struct dawn_options_date from, struct dawn_options_date to,
                   struct dawn_window covered, int64_t from_s, int64_t to_s)
{
    struct dawn_window window;
    struct dawn_problems problems = {0};
    if (dawn_window_find(&window, from, to, covered, 1.0, &problems) != DAWN_OK) {
        fail_msg("refused: %s", problems.items[0].message);
    }
    assert_int_equal(window.from_s, from_s);
    assert_int_equal(window.to_s, to_s);
}

static void refuse(struct dawn_options_date from, struct dawn_options_date to,
                   struct dawn_window covered, const char *message, const char *hint)
{
    struct dawn_window window;
    struct dawn_problems problems = {0};
    assert_int_equal(dawn_window_find(&window, from, to, covered, 1.0, &problems), DAWN_ERR_USAGE);
    assert_int_equal(problems.errors, 1);
    if (strstr(problems.items[0].message, message) == NULL) {
        fail_msg("'%s' lacks '%s'", problems.items[0].message, message);
    }
    assert_non_null(problems.items[0].hint);
    if (strstr(problems.items[0].hint, hint) == NULL) {
        fail_msg("'%s' lacks '%s'", problems.items[0].hint, hint);
    }
    dawn_problems_release(&problems);
}

/* Noon at UTC+1 is 11:00Z. */
static void noon_to_noon_on_the_sites_clock(void **state)
{
    (void)state;
    const int64_t noon_s = 11 * 3600;
    const struct dawn_window covered = covered_days(31);
    accept(none, none, covered, march_s, march_s + 31 * day_s);
    accept(date("2026-03-02"), date("2026-03-05"), covered, march_s + day_s + noon_s,
           march_s + 4 * day_s + noon_s);
    accept(date("03-02"), date("03-05"), covered, march_s + day_s + noon_s,
           march_s + 4 * day_s + noon_s);
    accept(date("03-02"), none, covered, march_s + day_s + noon_s, march_s + 31 * day_s);
    accept(none, date("03-05"), covered, march_s, march_s + 4 * day_s + noon_s);
}

static void the_weather_is_the_limit(void **state)
{
    (void)state;
    const struct dawn_window covered = {march_s + 15 * 3600, march_s + 3 * day_s + 6 * 3600};
    accept(date("03-01"), date("03-04"), covered, covered.from_s, covered.to_s);
    refuse(date("02-27"), none, covered, "--from 02-27 is not in the weather",
           "from 2026-03-01 to 2026-03-04");
    refuse(date("2025-03-01"), none, covered, "--from 2025-03-01 is not in the weather", "2026");
    refuse(none, date("03-06"), covered, "--to 03-06 is not in the weather", "2026-03-04");
    refuse(date("02-29"), none, covered, "--from 02-29 is not in the weather", "2026");
}

static void a_winter_runs_over_the_new_year(void **state)
{
    (void)state;
    const struct dawn_window covered = {march_s, march_s + 500 * day_s};
    const int64_t noon_s = 11 * 3600;
    /* 1 November 2026 is 245 days after 1 March, 1 February 2027 another 92. */
    accept(date("11-01"), date("02-01"), covered, march_s + 245 * day_s + noon_s,
           march_s + 337 * day_s + noon_s);
    /* 1 April comes twice; the last morning is the first one after --from. */
    accept(date("11-01"), date("04-01"), covered, march_s + 245 * day_s + noon_s,
           march_s + 396 * day_s + noon_s);
}

static void a_night_needs_two_days(void **state)
{
    (void)state;
    refuse(date("03-05"), date("03-05"), covered_days(31), "no night between", "one day later");
    refuse(date("03-05"), date("03-02"), covered_days(31), "no night between", "one day later");
}

static void a_night_is_named_by_its_evening(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    struct dawn_night night[2] = {
        {.dusk_s = march_s + 17 * 3600, .dawn_s = march_s + day_s + 6 * 3600},
        {.dusk_s = march_s + day_s + 17 * 3600, .dawn_s = march_s + 2 * day_s + 6 * 3600}};
    const struct dawn_nights nights = {.count = 2, .night = night};
    assert_ptr_equal(dawn_window_night(&nights, date("03-01"), 1.0, &problems), &night[0]);
    assert_ptr_equal(dawn_window_night(&nights, date("2026-03-02"), 1.0, &problems), &night[1]);
    assert_int_equal(problems.count, 0);
    assert_null(dawn_window_night(&nights, date("2025-03-02"), 1.0, &problems));
    assert_null(dawn_window_night(&nights, date("03-03"), 1.0, &problems));
    assert_int_equal(problems.errors, 2);
    assert_non_null(strstr(problems.items[1].hint, "2026-03-01 to 2026-03-02"));
    dawn_problems_release(&problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(noon_to_noon_on_the_sites_clock),
        cmocka_unit_test(the_weather_is_the_limit),
        cmocka_unit_test(a_winter_runs_over_the_new_year),
        cmocka_unit_test(a_night_needs_two_days),
        cmocka_unit_test(a_night_is_named_by_its_evening),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
