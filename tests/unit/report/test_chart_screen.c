/* Charts with characters: where values stand, how wide it gets, what braille holds. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "report/chart.h"

static const double x[] = {0.0, 10.0, 20.0, 30.0};
static const double rising[] = {0.0, 10.0, 20.0, 30.0};
static const double gap[] = {5.0, NAN, 5.0, 5.0};
static const struct dawn_chart_span span[] = {{0.0, 10.0}};

static struct dawn_chart sample(void)
{
    return (struct dawn_chart){.id = "s",
                               .title = "t",
                               .description = "d",
                               .x_name = "rock (t)",
                               .y_name = "low (C)",
                               .x = x,
                               .count = 4,
                               .line = {{.name = "trays", .y = rising}},
                               .line_count = 1};
}

static char *draw(const struct dawn_chart *chart, size_t columns, size_t rows, bool braille)
{
    static char *text; /* as in test_report_nights.c */
    text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    dawn_chart_screen(out, chart, columns, rows, braille);
    assert_int_equal(fclose(out), 0);
    return text;
}

/* Line by line: its length in characters, and whether it ends in a blank. */
static size_t widest(const char *text)
{
    size_t width = 0;
    size_t most = 0;
    for (const char *c = text; *c != '\0'; c += dawn_utf8_length(c)) {
        assert_int_not_equal(dawn_utf8_length(c), 0);
        if (*c == '\n') {
            assert_true(c == text || c[-1] != ' ');
            most = width > most ? width : most;
            width = 0;
        } else {
            width++;
        }
    }
    return most;
}

static void it_keeps_to_its_width_and_height(void **state)
{
    (void)state;
    struct dawn_chart chart = sample();
    chart.line[1] = (struct dawn_chart_line){.name = "outside", .y = gap, .look = 1};
    chart.line_count = 2;
    chart.shade[0] = (struct dawn_chart_shade){"fan runs", DAWN_CHART_FAN, span, 1};
    chart.shade_count = 1;
    chart.level[0] = (struct dawn_chart_level){"a name too long for a narrow screen, surely", 0.0};
    chart.level_count = 1;
    chart.mark[0] = (struct dawn_chart_mark){"2.3 C at 07:09", 30.0, 0.0};
    chart.mark_count = 1;
    for (int scale = DAWN_CHART_NUMBERS; scale <= DAWN_CHART_DAYS; scale++) {
        chart.scale = (enum dawn_chart_scale)scale;
        for (size_t columns = 24; columns <= 200; columns++) {
            for (int braille = 0; braille < 2; braille++) {
                char *text = draw(&chart, columns, 20, braille == 1);
                assert_true(widest(text) <= columns);
                size_t lines = 0;
                for (const char *c = text; *c != '\0'; c++) {
                    lines += *c == '\n';
                }
                assert_true(lines <= 20);
                free(text);
            }
        }
    }
}

/* A straight line from corner to corner: in every row of letters those right of the ones below. */
static void letters_stand_where_values_are(void **state)
{
    (void)state;
    const struct dawn_chart chart = sample();
    char *text = draw(&chart, 60, 16, false);
    long before = -1;
    size_t rows = 0;
    char *line = strchr(text, '\n') + 1;
    const char *first = strchr(line, '|');
    assert_non_null(first);
    for (char *bar = strchr(line, '|'); bar != NULL; bar = strchr(bar + 1, '|')) {
        const char *end = strchr(bar, '\n');
        const char *letter = memchr(bar, 't', (size_t)(end - bar));
        assert_non_null(letter);
        const long at = (long)(letter - bar);
        assert_true(before < 0 || at < before);
        before = at;
        rows++;
    }
    assert_true(rows >= 10);
    assert_int_equal(before, 1); /* the lowest begins at the axis */
    free(text);
}

/* The dots of ISO/IEC 10646, from memory: dot 7 is the lowest on the left, dot 4 the highest on the
 * right. A rising line begins with the one and ends with the other. */
static void braille_puts_its_dots_right(void **state)
{
    (void)state;
    const struct dawn_chart chart = sample();
    char *text = draw(&chart, 60, 16, true);
    const char *last = NULL;
    for (const char *bar = strchr(text, '|'); bar != NULL; bar = strchr(bar + 1, '|')) {
        last = bar;
    }
    assert_non_null(last);
    const unsigned char *cell = (const unsigned char *)last + 1;
    assert_int_equal(cell[0], 0xE2);
    assert_int_equal(((cell[1] & 3U) << 6U | (cell[2] & 0x3FU)) & 0x40U, 0x40U);
    const char *top = strchr(text, '|');
    const unsigned char *end = (const unsigned char *)strchr(top, '\n');
    while (end[-3] != 0xE2) { /* behind the dots stands the name */
        end--;
    }
    assert_int_equal(((end[-2] & 3U) << 6U | (end[-1] & 0x3FU)) & 0x08U, 0x08U);
    assert_null(strstr(text, "\xE2\xA0\x80")); /* no empty pattern: a blank does */
    free(text);
}

static void lines_have_letters_of_their_own(void **state)
{
    (void)state;
    struct dawn_chart chart = sample();
    static const double flat[] = {3.0, 3.0, 3.0, 3.0};
    chart.line[1] = (struct dawn_chart_line){.name = "tray", .y = flat};
    chart.line_count = 2;
    char *text = draw(&chart, 60, 20, false);
    assert_non_null(strstr(text, " t trays"));
    assert_non_null(strstr(text, " r tray"));
    assert_non_null(strstr(text, "rrrr"));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_keeps_to_its_width_and_height),
        cmocka_unit_test(letters_stand_where_values_are),
        cmocka_unit_test(braille_puts_its_dots_right),
        cmocka_unit_test(lines_have_letters_of_their_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
