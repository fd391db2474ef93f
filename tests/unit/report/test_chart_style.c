/* The colours of pages and pictures: read from the style sheet and measured. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "report/page.h"

/* Relative luminance and contrast: WCAG 2.1, definitions of these words (from memory). */
static double linear(long byte)
{
    const double c = (double)byte / 255.0;
    return c <= 0.03928 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
}

static double luminance(const char *hex)
{
    const long rgb = strtol(hex, NULL, 16);
    return 0.2126 * linear(rgb >> 16) + 0.7152 * linear(rgb >> 8 & 255) +
           0.0722 * linear(rgb & 255);
}

static double contrast(double a, double b)
{
    return (fmax(a, b) + 0.05) / (fmin(a, b) + 0.05);
}

/* Black on white is 21 to 1: the largest there is (WCAG 2.1, contrast ratio). */
static void the_yardstick_is_right(void **state)
{
    (void)state;
    assert_true(fabs(contrast(luminance("000000"), luminance("ffffff")) - 21.0) < 1e-9);
}

/* Each custom property of one :root block, but for hairlines (--rule), against its --paper. */
static void measure(const char *block, size_t least_count)
{
    const char *end = strchr(block, '}');
    const char *paper = strstr(block, "--paper:#");
    size_t count = 0;

    assert_non_null(paper);
    const double white = luminance(paper + strlen("--paper:#"));
    for (const char *name = strstr(block, "--"); name != NULL && name < end;
         name = strstr(name + 2, "--")) {
        const char *hex = strchr(name, '#') + 1;
        if (name == paper || strncmp(name, "--rule:", 7) == 0) {
            continue;
        }
        const double found = contrast(luminance(hex), white);
        if (found < 4.5) {
            fail_msg("%.9s has %.2f to 1 on its paper", name, found);
        }
        count++;
    }
    assert_true(count >= least_count);
}

/* 4.5 to 1 for text: WCAG 2.1, success criterion 1.4.3 (from memory). */
static void every_colour_is_seen_on_its_paper(void **state)
{
    (void)state;
    const char *light = strstr(dawn_chart_style(), ":root{");
    assert_non_null(light);
    measure(light, DAWN_CHART_LOOKS + 6);
    const char *dark = strstr(light + 1, ":root{");
    assert_non_null(dark);
    measure(dark, DAWN_CHART_LOOKS + 6);
}

static const char *rule_of(const char *style, int look, char out[160])
{
    char name[32];
    snprintf(name, sizeof name, ".line.look%d{", look);
    const char *rule = strstr(style, name);
    const char *end = rule != NULL ? strchr(rule, '}') : NULL;
    out[0] = '\0';
    if (end != NULL) {
        const char *body = strchr(rule, '{') + 1;
        snprintf(out, 160, "%.*s", (int)(end - body), body);
    }
    return out;
}

/* Without colour: dashes or thickness tell any two lines apart. */
static void every_line_has_its_own_dashes(void **state)
{
    (void)state;
    char a[160];
    char b[160];
    for (int i = 0; i < DAWN_CHART_LOOKS; i++) {
        for (int k = 0; k < i; k++) {
            assert_string_not_equal(rule_of(dawn_chart_style(), i, a),
                                    rule_of(dawn_chart_style(), k, b));
        }
    }
}

/* The sheets stand in HTML, where nothing is unescaped in them, and in XML, where it is. */
static void sheets_need_no_escapes(void **state)
{
    (void)state;
    assert_null(strpbrk(dawn_chart_style(), "<>&\""));
    assert_null(strpbrk(dawn_page_style(), "<>&\""));
    assert_null(strstr(dawn_page_style(), "url("));
    assert_null(strstr(dawn_page_style(), "@import"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_yardstick_is_right),
        cmocka_unit_test(every_colour_is_seen_on_its_paper),
        cmocka_unit_test(every_line_has_its_own_dashes),
        cmocka_unit_test(sheets_need_no_escapes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
