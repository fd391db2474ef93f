/* What the files that draw charts share: where things lie on the paper. In SVG units; a page shows
 * them at 0.8 (phone) to 1.5 of a CSS pixel. */
#ifndef REPORT_CHART_PARTS_H
#define REPORT_CHART_PARTS_H

#include "base/text.h"
#include "report/chart_axis.h"

/* Paper, and the field the lines are drawn in. */
struct dawn_chart_frame {
    double width, height;
    double left, right, top, bottom; /* of the field */
    double lanes;                    /* below it, for the shades */
    struct dawn_chart_axis x, y;
};
/* Finds room for everything that has a name. */
void dawn_chart_frame_of(struct dawn_chart_frame *frame, const struct dawn_chart *chart,
                         bool alone);
double dawn_chart_frame_x(const struct dawn_chart_frame *frame, double x);
double dawn_chart_frame_y(const struct dawn_chart_frame *frame, double y);
/* Tints, grid, axes, bars of the shades. */
void dawn_chart_frame_svg(struct dawn_xmlout *xml, const struct dawn_chart_frame *frame,
                          const struct dawn_chart *chart);

/* Where the svg element begins and ends, with title and description; `alone` as in chart.h. */
void dawn_chart_open(struct dawn_xmlout *xml, const char *id, const char *title,
                     const char *description, double width, double height, bool alone);
void dawn_chart_close(struct dawn_xmlout *xml);

/* One path, its class formatted ("line look3"); nothing when it is empty. Releases it. */
void dawn_chart_path(struct dawn_xmlout *xml, struct dawn_text *path, const char *kind, ...)
    __attribute__((format(printf, 3, 4)));
/* One text; anchor is start, middle or end. */
void dawn_chart_text(struct dawn_xmlout *xml, const char *kind, const char *anchor, double x,
                     double y, const char *text);
/* How wide a text is at the size labels have. An estimate: type differs from machine to machine. */
double dawn_chart_text_width(const char *text);

/* Moves wishes (any order) apart so that they lie at least gap from each other and within least to
 * most, each as near to where it wished to be as the others allow (least squares, by pooling
 * neighbours). count <= DAWN_CHART_LINES. */
void dawn_chart_labels_apart(double wish[], size_t count, double gap, double least, double most);

#endif
