/* A page and its pictures from numbers made by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../../support/comma_locale.h"
#include "report/page.h"

static const double x[] = {6.0, 12.0, 18.0, 24.0};
static const double low[] = {-1.5, 0.25, NAN, 1.75};
static const double high[] = {2.0, 3.0, 3.5, 4.0};
static const struct dawn_chart_span span[] = {{7.0, 9.0}, {20.0, 30.0}};

static struct dawn_chart sample(void)
{
    return (struct dawn_chart){
        .id = "rock",
        .title = "How much rock & why <here>",
        .description = "The low rises from -1.5 C.",
        .x_name = "rock (t)",
        .y_name = "temperature (C)",
        .x = x,
        .count = 4,
        .dots = true,
        .y_decimals = 2,
        .line = {{.name = "coldest tray", .y = low, .look = DAWN_CHART_TRAYS},
                 {.name = "mean", .y = high, .look = DAWN_CHART_AIR, .low = low, .high = high}},
        .line_count = 2,
        .shade = {{"too small", DAWN_CHART_FAN, span, 2}},
        .shade_count = 1,
        .level = {{"tomato \"Rosa\"", 0.0}},
        .level_count = 1,
        .mark = {{"enough", 12.0, 0.25}},
        .mark_count = 1,
    };
}

static char *text;
static size_t size;
static FILE *out;

static void start(void)
{
    text = NULL;
    out = open_memstream(&text, &size);
    assert_non_null(out);
}

static void has(const char *part)
{
    if (strstr(text, part) == NULL) {
        fail_msg("'%s' is not in:\n%s", part, text);
    }
}

static size_t count_of(const char *part)
{
    size_t count = 0;
    for (const char *at = strstr(text, part); at != NULL; at = strstr(at + 1, part)) {
        count++;
    }
    return count;
}

static void draw(const struct dawn_chart *chart)
{
    struct dawn_xmlout xml;
    start();
    dawn_xmlout_begin(&xml, out);
    dawn_chart_svg(&xml, chart, true);
    assert_int_equal(xml.depth, 0);
    assert_false(xml.failed);
    assert_int_equal(fclose(out), 0);
}

static void a_picture_says_what_it_shows(void **state)
{
    (void)state;
    const struct dawn_chart chart = sample();
    assert_true(comma_locale());
    draw(&chart);
    plain_locale();
    has("<title id=\"rock-title\">How much rock &amp; why &lt;here&gt;</title>");
    has("<desc id=\"rock-desc\">The low rises from -1.5 C.</desc>");
    has("aria-labelledby=\"rock-title rock-desc\"");
    has(">coldest tray</text>");
    has(">mean</text>");
    has(">tomato &quot;Rosa&quot;</text>");
    has(">enough</text>");
    has(">too small</text>");
    has(">rock (t)</text>");
    has(">temperature (C)</text>");
    assert_null(strstr(text, "nan"));
    assert_null(strstr(text, "inf"));
    free(text);
}

/* Three values, a gap, one value: two strokes of the pen, and no dot in the gap. */
static void a_gap_is_left_open(void **state)
{
    (void)state;
    struct dawn_chart chart = sample();
    chart.line_count = 1;
    draw(&chart);
    const char *line = strstr(text, "class=\"line look0\" d=\"");
    assert_non_null(line);
    const char *path = line + strlen("class=\"line look0\" d=\"");
    const size_t length = strcspn(path, "\"");
    size_t pens = 0;
    for (size_t i = 0; i < length; i++) {
        pens += path[i] == 'M';
    }
    assert_int_equal(pens, 2);
    free(text);
}

/* A straight line's points lie on a straight line, and its ends at the field's corners. */
static void values_stand_where_they_belong(void **state)
{
    (void)state;
    static const double straight[] = {0.0, 10.0, 20.0, 30.0};
    const struct dawn_chart chart = {.id = "s",
                                     .title = "t",
                                     .description = "d",
                                     .x_name = "x",
                                     .y_name = "y",
                                     .x = x,
                                     .count = 4,
                                     .line = {{.name = "n", .y = straight}},
                                     .line_count = 1};
    double px[4];
    double py[4];
    draw(&chart);
    const char *at = strstr(text, "class=\"line look0\" d=\"");
    assert_non_null(at);
    at += strlen("class=\"line look0\" d=\"");
    for (int i = 0; i < 4; i++) {
        char *end = NULL;
        px[i] = strtod(at + 1, &end);
        py[i] = strtod(end, &end);
        at = end;
    }
    for (int i = 1; i < 4; i++) { /* 0.1 is the last digit written */
        assert_true(fabs(px[i] - px[0] - i / 3.0 * (px[3] - px[0])) <= 0.1 + 1e-9);
        assert_true(fabs(py[i] - py[0] - i / 3.0 * (py[3] - py[0])) <= 0.1 + 1e-9);
    }
    assert_true(px[3] > px[0] && py[3] < py[0]);
    free(text);
}

static void nothing_to_draw_is_drawn(void **state)
{
    (void)state;
    struct dawn_chart chart = sample();
    chart.count = chart.mark_count = chart.level_count = 0;
    draw(&chart);
    assert_null(strstr(text, "nan"));
    free(text);
    static const double none[] = {NAN, NAN, NAN, NAN};
    chart.count = 4;
    chart.line[0].y = chart.line[1].y = chart.line[1].low = chart.line[1].high = none;
    draw(&chart);
    assert_null(strstr(text, "nan"));
    free(text);
}

static void bars_go_both_ways_from_nought(void **state)
{
    (void)state;
    const struct dawn_chart_bar bar[] = {
        {"given back", NAN}, {"rock", 8.38}, {"leaks", -5.34}, {"next to nothing", 0.04}};
    const struct dawn_chart_bars bars = {.id = "heat",
                                         .title = "Heat",
                                         .description = "d",
                                         .unit = "kWh",
                                         .decimals = 1,
                                         .signs = true,
                                         .bar = bar,
                                         .count = 4};
    struct dawn_xmlout xml;
    start();
    dawn_xmlout_begin(&xml, out);
    dawn_chart_bars_svg(&xml, &bars, false);
    assert_int_equal(fclose(out), 0);
    has(">given back</text>");
    has(">+8.4</text>");
    has(">-5.3</text>");
    has(">0.0</text>");
    assert_int_equal(count_of("class=\"bar gain\""), 2);
    assert_int_equal(count_of("class=\"bar loss\""), 1);
    free(text);
}

static void write_page(const char *decision)
{
    struct dawn_scenario scenario;
    struct dawn_page page;
    struct dawn_tableout table;
    const struct dawn_chart chart = sample();
    assert_int_equal(dawn_scenario_usual(&scenario), DAWN_OK);
    start();
    dawn_page_begin(&page, out,
                    &(struct dawn_page_head){.name = "A <b>house</b>",
                                             .kind = "How much rock",
                                             .decision = decision,
                                             .caution = "keep an alarm thermometer"});
    dawn_page_chart(&page, &chart, NULL);
    dawn_page_section(&page, "Every size");
    dawn_page_words(&page, "%d sizes & more", 4);
    dawn_tableout_begin(&table, 2, "lr");
    for (int i = 0; i < 3; i++) {
        dawn_tableout_cell(&table, i == 0 ? "Rock" : "size %d", i);
        dawn_tableout_cell(&table, i == 0 ? "C" : "<%d", i);
    }
    dawn_page_table(&page, &table, 1, NULL);
    assert_int_equal(
        dawn_page_end(&page, &(struct dawn_page_basis){.scenario = &scenario, .chance = "seed 7"}),
        DAWN_OK);
    assert_int_equal(fclose(out), 0);
    dawn_scenario_release(&scenario);
}

static void a_page_has_decision_pictures_numbers_and_basis(void **state)
{
    (void)state;
    write_page("12 t of rock & no more");
    has("<title>A &lt;b&gt;house&lt;/b&gt;: How much rock</title>");
    has("<h1 id=\"decision\">12 t of rock &amp; no more</h1>");
    has("<p>4 sizes &amp; more</p>");
    has("<th class=\"n\">C</th>");
    has("<td>size 1</td><td class=\"n\">&lt;1</td>");
    has("href=\"#rock-numbers\"");
    has("<details id=\"rock-numbers\">");
    /* every plotted number: x, both lines, the band's edges, the spans, the mark, the level */
    has("<tr><td>6</td><td>-1.50</td><td>2.00</td><td>-1.50</td><td>2.00</td></tr>");
    has("<tr><td>18</td><td>-</td><td>3.50</td><td>-</td><td>3.50</td></tr>");
    has("<p>too small: 7\xE2\x80\x93"
        "9, 20\xE2\x80\x93"
        "30</p>");
    has("<p>enough: 0.25 at 12</p>");
    has("<p>tomato &quot;Rosa&quot;: line at 0.00</p>");
    has("Left to chance: seed 7.");
    has("carbon monoxide");
    has("local building and electrical codes");
    assert_int_equal(count_of("<svg"), 1);
    assert_null(strstr(text, "<script"));
    assert_null(strstr(text, "<b>"));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_picture_says_what_it_shows),
        cmocka_unit_test(a_gap_is_left_open),
        cmocka_unit_test(values_stand_where_they_belong),
        cmocka_unit_test(nothing_to_draw_is_drawn),
        cmocka_unit_test(bars_go_both_ways_from_nought),
        cmocka_unit_test(a_page_has_decision_pictures_numbers_and_basis),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
