/* The numbers behind a picture: a folded table with every value that is drawn. */
#include <math.h>

#include "report/page.h"
#include "report/report_parts.h"

static void put_heading(struct dawn_xmlout *xml, const struct dawn_chart *chart)
{
    dawn_xmlout_open(xml, "thead");
    dawn_xmlout_open(xml, "tr");
    dawn_xmlout_element(xml, "th", chart->x_name);
    for (size_t i = 0; i < chart->line_count; i++) {
        const struct dawn_chart_line *line = &chart->line[i];
        const char *names[] = {line->name, line->low != NULL ? "from" : NULL,
                               line->high != NULL ? "to" : NULL};
        for (size_t k = 0; k < 3; k++) {
            if (names[k] != NULL) {
                dawn_xmlout_open(xml, "th");
                dawn_xmlout_attribute(xml, "class", "n");
                dawn_xmlout_text(xml, "%s", names[k]);
                dawn_xmlout_close(xml);
            }
        }
    }
    dawn_xmlout_close(xml);
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
}

static const char *x_words(const struct dawn_chart *chart, double x, char out[DAWN_REPORT_ROOM])
{
    switch (chart->scale) {
    case DAWN_CHART_CLOCK:
        return dawn_report_clock(x, chart->utc_offset_h, out);
    case DAWN_CHART_DAYS:
        return dawn_report_day(llround(x), chart->utc_offset_h, out);
    case DAWN_CHART_NUMBERS:
        break;
    }
    return dawn_report_fixed(x, chart->x_decimals, out);
}

static void put_value(struct dawn_xmlout *xml, double value, int decimals)
{
    char number[DAWN_REPORT_ROOM];

    dawn_xmlout_open(xml, "td");
    dawn_xmlout_text(xml, "%s", dawn_report_fixed(value, decimals, number));
    dawn_xmlout_close(xml);
}

static void put_row(struct dawn_xmlout *xml, const struct dawn_chart *chart, size_t row)
{
    char x[DAWN_REPORT_ROOM];

    dawn_xmlout_open(xml, "tr");
    dawn_xmlout_element(xml, "td", x_words(chart, chart->x[row], x));
    for (size_t i = 0; i < chart->line_count; i++) {
        const struct dawn_chart_line *line = &chart->line[i];
        const double *values[] = {line->y, line->low, line->high};
        for (size_t k = 0; k < 3; k++) {
            if (values[k] != NULL) {
                put_value(xml, values[k][row], chart->y_decimals);
            }
        }
    }
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
}

/* "fan: 12:10-14:30, 15:05-16:40" */
static void put_spans(struct dawn_xmlout *xml, const struct dawn_chart *chart,
                      const struct dawn_chart_shade *shade)
{
    char from[DAWN_REPORT_ROOM];
    char to[DAWN_REPORT_ROOM];

    dawn_xmlout_open(xml, "p");
    dawn_xmlout_text(xml, "%s:", shade->name);
    for (size_t i = 0; i < shade->count; i++) {
        dawn_xmlout_text(xml, "%s %s\xE2\x80\x93%s", i > 0 ? "," : "",
                         x_words(chart, shade->span[i].from, from),
                         x_words(chart, shade->span[i].to, to));
    }
    if (shade->count == 0) {
        dawn_xmlout_text(xml, " never");
    }
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
}

static void put_points(struct dawn_xmlout *xml, const struct dawn_chart *chart)
{
    char x[DAWN_REPORT_ROOM];
    char y[DAWN_REPORT_ROOM];

    for (size_t i = 0; i < chart->mark_count; i++) {
        dawn_xmlout_open(xml, "p");
        dawn_xmlout_text(xml, "%s: %s at %s", chart->mark[i].name,
                         dawn_report_fixed(chart->mark[i].y, chart->y_decimals, y),
                         x_words(chart, chart->mark[i].x, x));
        dawn_xmlout_close(xml);
    }
    for (size_t i = 0; i < chart->level_count; i++) {
        dawn_xmlout_open(xml, "p");
        dawn_xmlout_text(xml, "%s: line at %s", chart->level[i].name,
                         dawn_report_fixed(chart->level[i].y, chart->y_decimals, y));
        dawn_xmlout_close(xml);
    }
}

void dawn_page_numbers(struct dawn_xmlout *xml, const struct dawn_chart *chart)
{
    dawn_xmlout_open(xml, "details");
    dawn_xmlout_attribute(xml, "id", "%s-numbers", chart->id);
    dawn_xmlout_open(xml, "summary");
    dawn_xmlout_text(xml, "%s, %s", chart->title, chart->y_name);
    dawn_xmlout_close(xml);
    dawn_xmlout_open(xml, "div");
    dawn_xmlout_attribute(xml, "class", "scroll");
    dawn_xmlout_open(xml, "table");
    dawn_xmlout_attribute(xml, "class", "figures");
    put_heading(xml, chart);
    dawn_xmlout_open(xml, "tbody");
    for (size_t row = 0; row < chart->count; row++) {
        put_row(xml, chart, row);
    }
    dawn_xmlout_close(xml);
    dawn_xmlout_close(xml);
    dawn_xmlout_close(xml);
    for (size_t i = 0; i < chart->shade_count; i++) {
        put_spans(xml, chart, &chart->shade[i]);
    }
    put_points(xml, chart);
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
}
