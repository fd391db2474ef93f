/* Ticks: round numbers, whole hours, days; and labels that keep apart. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "report/chart_axis.h"
#include "report/chart_parts.h"

/* 2026-03-12T00:00Z, a Thursday: see test_report_nights.c. */
static const double midnight_s = 20524.0 * 86400.0;

static void texts_are(const struct dawn_chart_axis *axis, const char *want)
{
    struct dawn_text text = {0};

    for (size_t i = 0; i < axis->count; i++) {
        if (axis->tick[i].text[0] != '\0') {
            dawn_text_add(&text, "%s%s", text.size > 0 ? " " : "", axis->tick[i].text);
        }
        if (axis->tick[i].below[0] != '\0') {
            dawn_text_add(&text, "/%s", axis->tick[i].below);
        }
    }
    assert_string_equal(text.data, want);
    dawn_text_release(&text);
}

static void numbers_are_round(void **state)
{
    (void)state;
    struct dawn_chart_axis axis;
    dawn_chart_axis_numbers(&axis, -9.7, 28.3, 8, true);
    texts_are(&axis, "-10 0 10 20 30");
    assert_true(axis.from == -10.0 && axis.to == 30.0);
    dawn_chart_axis_numbers(&axis, 0.0, 0.3, 5, true);
    texts_are(&axis, "0.0 0.1 0.2 0.3");
    dawn_chart_axis_numbers(&axis, 6.0, 36.0, 9, false);
    texts_are(&axis, "10 15 20 25 30 35");
    assert_true(axis.from == 6.0 && axis.to == 36.0);
    dawn_chart_axis_numbers(&axis, 2.0, 2.0, 8, true); /* nothing to span is spanned all the same */
    assert_true(axis.from < 2.0 && axis.to > 2.0 && axis.count >= 2);
}

/* Any span: ticks rise, lie within, are no more than asked for, differ as printed, and what is to
 * be seen is within. The spans are drawn by a fixed rule, not by chance. */
static void any_span_gets_few_different_ticks(void **state)
{
    (void)state;
    double from = -1e4;
    for (int i = 0; i < 5000; i++) {
        const double width = pow(10.0, -3.0 + 7.0 * fmod(i * 0.6180339887, 1.0));
        from = -1e4 + 2e4 * fmod(i * 0.7548776662, 1.0);
        struct dawn_chart_axis axis;
        dawn_chart_axis_numbers(&axis, from, from + width, 8, true);
        assert_in_range(axis.count, 2, 8);
        assert_true(axis.from <= from + 1e-6 * width && axis.to >= from + width * (1.0 - 1e-6));
        for (size_t k = 1; k < axis.count; k++) {
            assert_true(axis.tick[k].at > axis.tick[k - 1].at);
            assert_string_not_equal(axis.tick[k].text, axis.tick[k - 1].text);
        }
    }
}

/* 18:00 UTC is 19 o'clock one hour ahead, and half past eleven at night at UTC+5:30. */
static void hours_are_the_sites(void **state)
{
    (void)state;
    struct dawn_chart_axis axis;
    const double noon_s = midnight_s + 11.0 * 3600.0;
    dawn_chart_axis_clock(&axis, noon_s, noon_s + 86400.0, 9, 1.0);
    texts_are(&axis, "12 15 18 21 0/13 Mar 3 6 9 12");
    assert_int_equal(axis.count, 25); /* a small tick every hour */
    dawn_chart_axis_clock(&axis, midnight_s + 18.0 * 3600.0, midnight_s + 21.0 * 3600.0, 9, 5.5);
    texts_are(&axis, "0/13 Mar 1 2");
    assert_true(axis.tick[0].at == midnight_s + 18.5 * 3600.0);
    dawn_chart_axis_clock(&axis, noon_s, noon_s + 3.0 * 86400.0, 9, 1.0);
    texts_are(&axis, "12 0/13 Mar 12 0/14 Mar 12 0/15 Mar 12");
}

static void days_step_by_weeks_in_a_season(void **state)
{
    (void)state;
    struct dawn_chart_axis axis;
    dawn_chart_axis_days(&axis, midnight_s, midnight_s + 4.0 * 86400.0, 6, 0.0);
    texts_are(&axis, "12 Mar 13 Mar 14 Mar 15 Mar 16 Mar");
    dawn_chart_axis_days(&axis, midnight_s, midnight_s + 120.0 * 86400.0, 6, 0.0);
    texts_are(&axis, "12 Mar 9 Apr 7 May 4 Jun 2 Jul");
    dawn_chart_axis_days(&axis, midnight_s, midnight_s + 3650.0 * 86400.0, 6, 0.0);
    assert_in_range(axis.count, 2, 6);
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Two that wish for one place share the way (computed closed form); who has room stays. */
static void names_move_no_further_than_they_must(void **state)
{
    (void)state;
    double wish[] = {100.0, 50.0, 100.0};
    dawn_chart_labels_apart(wish, 3, 10.0, 0.0, 200.0);
    assert_true(wish[0] == 95.0 && wish[1] == 50.0 && wish[2] == 105.0);
    double low[] = {199.0, 198.0};
    dawn_chart_labels_apart(low, 2, 10.0, 0.0, 200.0);
    assert_true(low[0] == 200.0 && low[1] == 190.0);
    for (int i = 0; i < 500; i++) {
        double many[DAWN_CHART_LINES];
        for (int k = 0; k < DAWN_CHART_LINES; k++) {
            many[k] = 200.0 * fmod((i * 12 + k) * 0.6180339887, 1.0) * (i % 7) / 6.0;
        }
        dawn_chart_labels_apart(many, DAWN_CHART_LINES, 13.0, 0.0, 200.0);
        qsort(many, DAWN_CHART_LINES, sizeof many[0], by_size);
        assert_true(many[0] >= -1e-9 && many[DAWN_CHART_LINES - 1] <= 200.0 + 1e-9);
        for (int k = 1; k < DAWN_CHART_LINES; k++) {
            assert_true(many[k] - many[k - 1] >= 13.0 - 1e-9);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_round),
        cmocka_unit_test(any_span_gets_few_different_ticks),
        cmocka_unit_test(hours_are_the_sites),
        cmocka_unit_test(days_step_by_weeks_in_a_season),
        cmocka_unit_test(names_move_no_further_than_they_must),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
