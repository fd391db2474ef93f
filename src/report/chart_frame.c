/* The field of a chart: room for everything, tints, grid and axes. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "report/chart_parts.h"

static const double paper_width = 420.0;
static const double field_height = 205.0;
static const double lane_height = 14.0;
static const double letter_width = 6.9; /* of 12 units of a plain sans-serif, on average */

double dawn_chart_text_width(const char *text)
{
    size_t letters = 0;

    for (; *text != '\0'; text++) {
        letters += ((unsigned char)*text & 0xC0U) != 0x80U;
    }
    return (double)letters * letter_width;
}

static double room_for_names(const struct dawn_chart *chart)
{
    double widest = 0.0;

    for (size_t i = 0; i < chart->line_count; i++) {
        widest = fmax(widest, dawn_chart_text_width(chart->line[i].name));
    }
    for (size_t i = 0; i < chart->shade_count; i++) {
        widest = fmax(widest, dawn_chart_text_width(chart->shade[i].name));
    }
    return fmin(fmax(widest + 18.0, 30.0), 150.0);
}

void dawn_chart_frame_of(struct dawn_chart_frame *frame, const struct dawn_chart *chart, bool alone)
{
    const bool two_rows = chart->scale == DAWN_CHART_CLOCK;

    *frame = (struct dawn_chart_frame){.width = paper_width, .left = 36.0};
    frame->right = paper_width - room_for_names(chart);
    frame->top = alone ? 48.0 : 22.0;
    frame->bottom = frame->top + field_height;
    frame->lanes = 4.0 + lane_height * (double)chart->shade_count;
    frame->height = frame->bottom + frame->lanes + (two_rows ? 46.0 : 34.0);
    dawn_chart_axis_x(&frame->x, chart, chart->scale == DAWN_CHART_DAYS ? 6 : 9);
    dawn_chart_axis_y(&frame->y, chart, 8);
}

double dawn_chart_frame_x(const struct dawn_chart_frame *frame, double x)
{
    return frame->left +
           (frame->right - frame->left) * (x - frame->x.from) / (frame->x.to - frame->x.from);
}

double dawn_chart_frame_y(const struct dawn_chart_frame *frame, double y)
{
    return frame->bottom -
           (frame->bottom - frame->top) * (y - frame->y.from) / (frame->y.to - frame->y.from);
}

void dawn_chart_text(struct dawn_xmlout *xml, const char *kind, const char *anchor, double x,
                     double y, const char *text)
{
    dawn_xmlout_open(xml, "text");
    dawn_xmlout_attribute(xml, "class", "%s", kind);
    if (strcmp(anchor, "start") != 0) {
        dawn_xmlout_attribute(xml, "text-anchor", "%s", anchor);
    }
    dawn_xmlout_attribute(xml, "x", "%.1f", x);
    dawn_xmlout_attribute(xml, "y", "%.1f", y);
    dawn_xmlout_text(xml, "%s", text);
    dawn_xmlout_close(xml);
}

void dawn_chart_path(struct dawn_xmlout *xml, struct dawn_text *path, const char *kind, ...)
{
    struct dawn_text name = {0};
    va_list arguments;

    va_start(arguments, kind);
    dawn_text_vadd(&name, kind, arguments);
    va_end(arguments);
    if (path->failed || name.failed) {
        xml->failed = true;
    } else if (path->data != NULL) {
        dawn_xmlout_leaf(xml, "path");
        dawn_xmlout_attribute(xml, "class", "%s", name.data);
        dawn_xmlout_attribute(xml, "d", "%s", path->data);
        dawn_xmlout_close(xml);
    }
    dawn_text_release(&name);
    dawn_text_release(path);
}

/* ---- shades ---- */

/* All spans of a shade as one path of boxes from y over height. */
static void add_boxes(struct dawn_text *path, const struct dawn_chart_frame *frame,
                      const struct dawn_chart_shade *shade, double y, double height)
{
    for (size_t i = 0; i < shade->count; i++) {
        const double from = dawn_chart_frame_x(frame, fmax(shade->span[i].from, frame->x.from));
        const double to = dawn_chart_frame_x(frame, fmin(shade->span[i].to, frame->x.to));
        if (to > from) {
            dawn_text_add(path, "M%.1f %.1fh%.1fv%.1fh%.1fz", from, y, to - from, height,
                          from - to);
        }
    }
}

static void put_shades(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame,
                       const struct dawn_chart *chart)
{
    for (size_t i = 0; i < chart->shade_count; i++) {
        const struct dawn_chart_shade *shade = &chart->shade[i];
        const double lane = frame->bottom + 4.0 + lane_height * (double)i;
        struct dawn_text tint = {0};
        struct dawn_text bar = {0};
        add_boxes(&tint, frame, shade, frame->top, frame->bottom - frame->top);
        add_boxes(&bar, frame, shade, lane + 2.0, lane_height - 6.0);
        dawn_chart_path(xml, &tint, "tint tint%d", shade->tint);
        dawn_chart_path(xml, &bar, "lane lane%d", shade->tint);
        dawn_chart_text(xml, "name", "start", frame->right + 12.0, lane + 10.0, shade->name);
    }
}

/* ---- axes ---- */

static void put_grid(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame)
{
    const double foot = frame->bottom + frame->lanes;
    struct dawn_text grid = {0};
    struct dawn_text axes = {0};

    for (size_t i = 0; i < frame->y.count; i++) {
        dawn_text_add(&grid, "M%.1f %.1fH%.1f", frame->left,
                      dawn_chart_frame_y(frame, frame->y.tick[i].at), frame->right);
    }
    dawn_text_add(&axes, "M%.1f %.1fH%.1f", frame->left, foot, frame->right);
    for (size_t i = 0; i < frame->x.count; i++) {
        const bool large = frame->x.tick[i].text[0] != '\0';
        dawn_text_add(&axes, "M%.1f %.1fv%d", dawn_chart_frame_x(frame, frame->x.tick[i].at), foot,
                      large ? 6 : 3);
    }
    dawn_chart_path(xml, &grid, "grid");
    dawn_chart_path(xml, &axes, "axis");
}

/* A text below a tick at the paper's edge must not leave the paper. */
static const char *anchor_at(const struct dawn_chart_frame *frame, double x, const char *text)
{
    return x + 0.5 * dawn_chart_text_width(text) > frame->width ? "end" : "middle";
}

static void put_numbers(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame)
{
    const double foot = frame->bottom + frame->lanes;

    for (size_t i = 0; i < frame->y.count; i++) {
        dawn_chart_text(xml, "tick", "end", frame->left - 6.0,
                        dawn_chart_frame_y(frame, frame->y.tick[i].at) + 4.0,
                        frame->y.tick[i].text);
    }
    for (size_t i = 0; i < frame->x.count; i++) {
        const struct dawn_chart_tick *tick = &frame->x.tick[i];
        const double x = dawn_chart_frame_x(frame, tick->at);
        if (tick->text[0] != '\0') {
            dawn_chart_text(xml, "tick", anchor_at(frame, x, tick->text), x, foot + 17.0,
                            tick->text);
        }
        if (tick->below[0] != '\0') {
            dawn_chart_text(xml, "tick", "middle", x, foot + 30.0, tick->below);
        }
    }
}

void dawn_chart_frame_svg(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame,
                          const struct dawn_chart *chart)
{
    put_shades(xml, frame, chart);
    put_grid(xml, frame);
    put_numbers(xml, frame);
    dawn_chart_text(xml, "unit", "start", 4.0, frame->top - 10.0, chart->y_name);
    dawn_chart_text(xml, "unit", "end", frame->right, frame->height - 4.0, chart->x_name);
}

void dawn_chart_open(struct dawn_xmlout *xml, const char *id, const char *title,
                     const char *description, double width, double height, bool alone)
{
    dawn_xmlout_open(xml, "svg");
    if (alone) {
        dawn_xmlout_attribute(xml, "xmlns", "http://www.w3.org/2000/svg");
        dawn_xmlout_attribute(xml, "width", "%.0f", 2.0 * width);
        dawn_xmlout_attribute(xml, "height", "%.0f", 2.0 * height);
    }
    dawn_xmlout_attribute(xml, "class", "chart");
    dawn_xmlout_attribute(xml, "viewBox", "0 0 %.0f %.0f", width, height);
    dawn_xmlout_attribute(xml, "role", "img");
    dawn_xmlout_attribute(xml, "aria-labelledby", "%s-title %s-desc", id, id);
    dawn_xmlout_open(xml, "title");
    dawn_xmlout_attribute(xml, "id", "%s-title", id);
    dawn_xmlout_text(xml, "%s", title);
    dawn_xmlout_close(xml);
    dawn_xmlout_open(xml, "desc");
    dawn_xmlout_attribute(xml, "id", "%s-desc", id);
    dawn_xmlout_text(xml, "%s", description);
    dawn_xmlout_close(xml);
    if (alone) {
        dawn_xmlout_open(xml, "style");
        dawn_xmlout_attribute(xml, "type", "text/css");
        dawn_xmlout_text(xml, "%s", dawn_chart_style());
        dawn_xmlout_close(xml);
        dawn_xmlout_leaf(xml, "path");
        dawn_xmlout_attribute(xml, "class", "paper");
        dawn_xmlout_attribute(xml, "d", "M0 0h%.0fv%.0fH0z", width, height);
        dawn_xmlout_close(xml);
        dawn_chart_text(xml, "head", "start", 4.0, 18.0, title);
    }
    dawn_xmlout_line(xml);
}

void dawn_chart_close(struct dawn_xmlout *xml)
{
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
}
