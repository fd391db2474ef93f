/* Signed amounts as bars from a common line of zero. */
#include <math.h>
#include <string.h>

#include "report/chart_parts.h"

static const double paper_width = 420.0;
static const double row_height = 19.0;
/* Names wider than that leave the bars too little room and stand above them. */
static const double beside_most = 266.0;

/* Where bars, names and numbers lie. */
struct field {
    double left, zero, right, top;
    double scale; /* units a value */
    double over;  /* a name's room above its bar; 0 = it stands beside it */
};

static void write_number(const struct dawn_chart_bars *bars, double value,
                         char out[DAWN_CHART_TICK_ROOM])
{
    out[0] = value > 0.0 && bars->signs ? '+' : '\0';
    const size_t sign = out[0] != '\0';
    (void)dawn_text_from_number(out + sign, DAWN_CHART_TICK_ROOM - sign, value, bars->decimals);
    /* What rounds to nothing has no sign. */
    if (sign == 1 && strspn(out + 1, "0.") == strlen(out + 1)) {
        memmove(out, out + 1, strlen(out));
    }
}

static double widest_number(const struct dawn_chart_bars *bars)
{
    char number[DAWN_CHART_TICK_ROOM];
    double widest = 0.0;

    for (size_t i = 0; i < bars->count; i++) {
        if (isfinite(bars->bar[i].value)) {
            write_number(bars, bars->bar[i].value, number);
            widest = fmax(widest, dawn_chart_text_width(number));
        }
    }
    return widest + 6.0;
}

static struct field field_of(const struct dawn_chart_bars *bars, bool alone)
{
    double names = 0.0;
    double least = 0.0;
    double most = 0.0;

    for (size_t i = 0; i < bars->count; i++) {
        if (isfinite(bars->bar[i].value)) {
            names = fmax(names, dawn_chart_text_width(bars->bar[i].name));
            least = fmin(least, bars->bar[i].value);
            most = fmax(most, bars->bar[i].value);
        }
    }
    if (bars->limit_name != NULL) {
        least = fmin(least, bars->limit);
        most = fmax(most, bars->limit);
    }
    const double number = widest_number(bars);
    struct field field = {.left = names + 10.0, .top = alone ? 48.0 : 22.0};
    if (names > beside_most) {
        field.left = 8.0;
        field.over = 15.0;
    }
    /* A number stands beyond its bar: room on the left only where a bar goes left. */
    const double from = field.left + (least < 0.0 ? number : 0.0);
    const double to = paper_width - 4.0 - (most > 0.0 ? number : 0.0);
    field.scale = most > least ? (to - from) / (most - least) : 0.0;
    field.zero = from - least * field.scale;
    field.right = paper_width - 4.0;
    return field;
}

static void put_bar(struct dawn_xmlout *xml, const struct dawn_chart_bars *bars,
                    const struct field *field, const struct dawn_chart_bar *bar, double y)
{
    const double width = fabs(bar->value) * field->scale;
    const bool up = bar->value >= 0.0;
    char number[DAWN_CHART_TICK_ROOM];
    struct dawn_text box = {0};

    write_number(bars, bar->value, number);
    dawn_chart_text(xml, field->over > 0.0 ? "name note" : "name",
                    field->over > 0.0 ? "start" : "end",
                    field->over > 0.0 ? 4.0 : field->left - 6.0, y + 13.0, bar->name);
    y += field->over;
    dawn_text_add(&box, "M%.1f %.1fh%.1fv%.1fh%.1fz", up ? field->zero : field->zero - width,
                  y + 3.0, width, row_height - 6.0, -width);
    dawn_chart_path(xml, &box, up ? "bar gain" : "bar loss");
    dawn_chart_text(xml, "tick", up ? "start" : "end",
                    up ? field->zero + width + 4.0 : field->zero - width - 4.0, y + 13.0, number);
}

/* Its name stands above the bars, on whichever side there is room. */
static void put_limit(struct dawn_xmlout *xml, const struct dawn_chart_bars *bars,
                      const struct field *field, double foot)
{
    const double x = field->zero + bars->limit * field->scale;
    const double width = dawn_chart_text_width(bars->limit_name);
    const bool after = x + width < field->right;
    struct dawn_text line = {0};

    dawn_text_add(&line, "M%.1f %.1fV%.1f", x, field->top - 6.0, foot);
    dawn_chart_path(xml, &line, "level");
    dawn_chart_text(xml, "note", after ? "start" : "end", after ? x - 2.0 : x + 2.0,
                    field->top - 10.0, bars->limit_name);
}

void dawn_chart_bars_svg(struct dawn_xmlout *xml, const struct dawn_chart_bars *bars, bool alone)
{
    const struct field field = field_of(bars, alone);
    const double row = row_height + field.over;
    const double foot = field.top + row * (double)bars->count;
    struct dawn_text axis = {0};

    dawn_chart_open(xml, bars->id, bars->title, bars->description, paper_width, foot + 8.0, alone);
    dawn_chart_text(xml, "unit", "start", 4.0, field.top - 10.0, bars->unit);
    dawn_text_add(&axis, "M%.1f %.1fV%.1f", field.zero, field.top, foot);
    dawn_chart_path(xml, &axis, "axis");
    for (size_t i = 0; i < bars->count; i++) {
        const struct dawn_chart_bar *bar = &bars->bar[i];
        const double y = field.top + row * (double)i;
        if (isfinite(bar->value)) {
            put_bar(xml, bars, &field, bar, y);
        } else {
            dawn_chart_text(xml, "head", "start", 4.0, y + 14.0, bar->name);
        }
    }
    if (bars->limit_name != NULL) {
        put_limit(xml, bars, &field, foot);
    }
    dawn_chart_close(xml);
}
