/* Where an axis has its ticks and what stands at them. */
#ifndef REPORT_CHART_AXIS_H
#define REPORT_CHART_AXIS_H

#include "report/chart.h"

enum { DAWN_CHART_TICKS = 48, DAWN_CHART_TICK_ROOM = 24 };

struct dawn_chart_tick {
    double at;
    char text[DAWN_CHART_TICK_ROOM];  /* "" = a small tick without a number */
    char below[DAWN_CHART_TICK_ROOM]; /* a second line: the day at midnight; "" = none */
};
struct dawn_chart_axis {
    double from, to; /* what it covers */
    struct dawn_chart_tick tick[DAWN_CHART_TICKS];
    size_t count;
};

/* Steps of 1, 2 or 5 times a power of ten, at most `most` numbers (>= 2). out_to_ticks: the axis
 * begins and ends on a tick. from <= to; where they are equal the axis is one wide. */
void dawn_chart_axis_numbers(struct dawn_chart_axis *axis, double from, double to, size_t most,
                             bool out_to_ticks);
/* Whole hours of the site's clock, with the day below each midnight and each noon that begins. */
void dawn_chart_axis_clock(struct dawn_chart_axis *axis, double from_s, double to_s, size_t most,
                           double utc_offset_h);
/* Days as "12 Mar", every day or every few of them. */
void dawn_chart_axis_days(struct dawn_chart_axis *axis, double from_s, double to_s, size_t most,
                          double utc_offset_h);
/* The one the chart's scale asks for. */
void dawn_chart_axis_x(struct dawn_chart_axis *axis, const struct dawn_chart *chart, size_t most);
/* Whatever the chart has to show, levels and marks included, in round numbers. */
void dawn_chart_axis_y(struct dawn_chart_axis *axis, const struct dawn_chart *chart, size_t most);

#endif
