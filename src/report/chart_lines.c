/* Lines, their bands and names, levels not to fall below, and marked points. */
#include <math.h>

#include "report/chart_parts.h"

static const double name_gap = 13.5;

/* ---- lines ---- */

static void put_line(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame,
                     const struct dawn_chart *chart, const struct dawn_chart_line *line)
{
    struct dawn_text path = {0};
    bool pen_down = false;

    for (size_t i = 0; i < chart->count; i++) {
        const bool there = isfinite(line->y[i]);
        if (there) {
            dawn_text_add(&path, "%s%.1f %.1f", pen_down ? "L" : "M",
                          dawn_chart_frame_x(frame, chart->x[i]),
                          dawn_chart_frame_y(frame, line->y[i]));
        }
        pen_down = there;
    }
    dawn_chart_path(xml, &path, "line look%d", line->look);
}

/* Where both edges are known: along the upper one and back along the lower. */
static void put_band(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame,
                     const struct dawn_chart *chart, const struct dawn_chart_line *line)
{
    struct dawn_text path = {0};
    const char *step = "M";

    for (size_t i = 0; i < 2 * chart->count; i++) {
        const bool back = i >= chart->count;
        const size_t at = back ? 2 * chart->count - 1 - i : i;
        if (isfinite(line->low[at]) && isfinite(line->high[at])) {
            dawn_text_add(&path, "%s%.1f %.1f", step, dawn_chart_frame_x(frame, chart->x[at]),
                          dawn_chart_frame_y(frame, back ? line->low[at] : line->high[at]));
            step = "L";
        }
    }
    dawn_chart_path(xml, &path, "band look%d", line->look);
}

/* Circle, square, triangle or diamond around a point. */
static void add_dot(struct dawn_text *path, int look, double x, double y)
{
    switch (look % 4) {
    case 0:
        dawn_text_add(path, "M%.1f %.1fa3 3 0 1 0 6 0a3 3 0 1 0-6 0", x - 3.0, y);
        break;
    case 1:
        dawn_text_add(path, "M%.1f %.1fh5v5h-5z", x - 2.5, y - 2.5);
        break;
    case 2:
        dawn_text_add(path, "M%.1f %.1fl3.4 6h-6.8z", x, y - 3.6);
        break;
    default:
        dawn_text_add(path, "M%.1f %.1fl3.6 3.6-3.6 3.6-3.6-3.6z", x, y - 3.6);
        break;
    }
}

static void put_dots(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame,
                     const struct dawn_chart *chart, const struct dawn_chart_line *line)
{
    struct dawn_text path = {0};

    for (size_t i = 0; i < chart->count; i++) {
        if (isfinite(line->y[i])) {
            add_dot(&path, line->look, dawn_chart_frame_x(frame, chart->x[i]),
                    dawn_chart_frame_y(frame, line->y[i]));
        }
    }
    dawn_chart_path(xml, &path, "dot look%d", line->look);
}

/* ---- names ---- */

/* The last value of a line; NAN when it has none. */
static double end_of(const struct dawn_chart *chart, const struct dawn_chart_line *line, double *x)
{
    for (size_t i = chart->count; i > 0; i--) {
        if (isfinite(line->y[i - 1])) {
            *x = chart->x[i - 1];
            return line->y[i - 1];
        }
    }
    return NAN;
}

static void put_names(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame,
                      const struct dawn_chart *chart)
{
    double end_x[DAWN_CHART_LINES];
    double end_y[DAWN_CHART_LINES];
    double name_y[DAWN_CHART_LINES];
    size_t of[DAWN_CHART_LINES];
    size_t count = 0;

    for (size_t i = 0; i < chart->line_count; i++) {
        double x = 0.0;
        const double y = end_of(chart, &chart->line[i], &x);
        if (isfinite(y)) {
            end_x[count] = dawn_chart_frame_x(frame, x);
            end_y[count] = name_y[count] = dawn_chart_frame_y(frame, y);
            of[count++] = i;
        }
    }
    dawn_chart_labels_apart(name_y, count, name_gap, frame->top + 4.0, frame->bottom - 2.0);
    for (size_t i = 0; i < count; i++) {
        const struct dawn_chart_line *line = &chart->line[of[i]];
        struct dawn_text lead = {0};
        char kind[24];
        dawn_text_add(&lead, "M%.1f %.1fL%.1f %.1f", end_x[i] + 1.0, end_y[i], frame->right + 10.0,
                      name_y[i]);
        dawn_chart_path(xml, &lead, "lead look%d", line->look);
        snprintf(kind, sizeof kind, "name ink%d", line->look);
        dawn_chart_text(xml, kind, "start", frame->right + 12.0, name_y[i] + 4.0, line->name);
    }
}

/* ---- levels and marks ---- */

/* A line's height at x, between its points; NAN beyond them. */
static double height_at(const struct dawn_chart_frame *frame, const struct dawn_chart *chart,
                        const double *y, double x)
{
    for (size_t i = 1; i < chart->count && y != NULL; i++) {
        const double from = dawn_chart_frame_x(frame, chart->x[i - 1]);
        const double to = dawn_chart_frame_x(frame, chart->x[i]);
        if (from <= x && x <= to && to > from) {
            const double value = y[i - 1] + (y[i] - y[i - 1]) * (x - from) / (to - from);
            return dawn_chart_frame_y(frame, value);
        }
    }
    return NAN;
}

/* How much of a text with this left end and base line has a line, a band's edge or a mark's ring
 * behind it. */
static int crossed(const struct dawn_chart_frame *frame, const struct dawn_chart *chart,
                   double left, double width, double base)
{
    int count = 0;

    for (size_t i = 0; i < chart->line_count; i++) {
        const double *const edge[] = {chart->line[i].y, chart->line[i].low, chart->line[i].high};
        for (int k = 0; k < 3 * 16; k++) {
            const double x = left + width * (k % 16) / 15.0;
            const double y = height_at(frame, chart, edge[k / 16], x);
            count += y > base - 11.0 && y < base + 3.0;
        }
    }
    for (size_t i = 0; i < chart->mark_count; i++) {
        const double x = dawn_chart_frame_x(frame, chart->mark[i].x);
        const double y = dawn_chart_frame_y(frame, chart->mark[i].y);
        if (x > left - 5.0 && x < left + width + 5.0 && y > base - 16.0 && y < base + 8.0) {
            count += 16;
        }
    }
    return count;
}

/* The first level's name stands above its line, the next below, away from the first. A single one
 * stands where it covers less. */
static double level_name_y(const struct dawn_chart_frame *frame, const struct dawn_chart *chart,
                           size_t level)
{
    const double y = dawn_chart_frame_y(frame, chart->level[level].y);
    const double above = y - 4.0;
    const double below = y + 17.0;

    if (chart->level_count == 1 && below + 2.0 < frame->bottom) {
        const double left = frame->left + 4.0;
        const double width = dawn_chart_text_width(chart->level[level].name);
        return crossed(frame, chart, left, width, below) < crossed(frame, chart, left, width, above)
                   ? below
                   : above;
    }
    return level == 0 ? above : below;
}

/* Whether a name with this base line and left end would cover a level or its name. */
static bool covers_level(const struct dawn_chart_frame *frame, const struct dawn_chart *chart,
                         double left, double y)
{
    for (size_t i = 0; i < chart->level_count; i++) {
        const double right = frame->left + 8.0 + dawn_chart_text_width(chart->level[i].name);
        const double line = dawn_chart_frame_y(frame, chart->level[i].y);
        const bool name = left < right && fabs(level_name_y(frame, chart, i) - y) < name_gap;
        if (name || (line > y - name_gap && line < y + 4.0)) {
            return true;
        }
    }
    return false;
}

static void put_levels(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame,
                       const struct dawn_chart *chart)
{
    for (size_t i = 0; i < chart->level_count; i++) {
        const double y = dawn_chart_frame_y(frame, chart->level[i].y);
        /* The barbs: a broad line just below, dashed so that only its short strokes are seen. */
        for (int part = 0; part < 2; part++) {
            struct dawn_text path = {0};
            dawn_text_add(&path, "M%.1f %.1fH%.1f", frame->left, part == 0 ? y : y + 3.0,
                          frame->right);
            dawn_chart_path(xml, &path, part == 0 ? "level" : "barb");
        }
        dawn_chart_text(xml, "note", "start", frame->left + 4.0, level_name_y(frame, chart, i),
                        chart->level[i].name);
    }
}

/* Below its ring, but for what lies there and not above. */
static double mark_name_y(const struct dawn_chart_frame *frame, const struct dawn_chart *chart,
                          double left, double width, double y)
{
    const double above = y - 10.0;
    const double below = y + 19.0;

    if (below + 5.0 > frame->bottom || covers_level(frame, chart, left, below)) {
        return above;
    }
    return above - 12.0 > frame->top && !covers_level(frame, chart, left, above) &&
                   crossed(frame, chart, left, width, above) <
                       crossed(frame, chart, left, width, below)
               ? above
               : below;
}

static void put_marks(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame,
                      const struct dawn_chart *chart)
{
    for (size_t i = 0; i < chart->mark_count; i++) {
        const double x = dawn_chart_frame_x(frame, chart->mark[i].x);
        const double y = dawn_chart_frame_y(frame, chart->mark[i].y);
        const double width = dawn_chart_text_width(chart->mark[i].name);
        const double left = fmin(fmax(x - 0.5 * width, frame->left), frame->right - width);
        struct dawn_text ring = {0};
        dawn_text_add(&ring, "M%.1f %.1fa4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0-9 0", x - 4.5, y);
        dawn_chart_path(xml, &ring, "mark");
        dawn_chart_text(xml, "note", "middle", left + 0.5 * width,
                        mark_name_y(frame, chart, left, width, y), chart->mark[i].name);
    }
}

void dawn_chart_svg(struct dawn_xmlout *xml, const struct dawn_chart *chart, bool alone)
{
    struct dawn_chart_frame frame;

    dawn_chart_frame_of(&frame, chart, alone);
    dawn_chart_open(xml, chart->id, chart->title, chart->description, frame.width, frame.height,
                    alone);
    dawn_chart_frame_svg(xml, &frame, chart);
    for (size_t i = 0; i < chart->line_count; i++) {
        if (chart->line[i].low != NULL && chart->line[i].high != NULL) {
            put_band(xml, &frame, chart, &chart->line[i]);
        }
    }
    put_levels(xml, &frame, chart);
    /* The most important line comes last and lies on top. */
    for (size_t i = chart->line_count; i > 0; i--) {
        put_line(xml, &frame, chart, &chart->line[i - 1]);
        if (chart->dots) {
            put_dots(xml, &frame, chart, &chart->line[i - 1]);
        }
    }
    put_names(xml, &frame, chart);
    put_marks(xml, &frame, chart);
    dawn_chart_close(xml);
}
