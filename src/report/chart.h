/* Pictures: what is to be seen goes in as numbers in the reader's units, and one module draws it,
 * as SVG for a page or a file, or with characters for a terminal. Nothing is copied or kept.
 *
 * Whoever makes a chart need not think of how it looks: axes, ticks, room for labels, dashes,
 * markers, colours for light and dark paper all come from here. No line is told by its colour
 * alone: each has its own dashes or markers, and its name stands at its end. */
#ifndef REPORT_CHART_H
#define REPORT_CHART_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/xmlout.h"

/* What the x axis counts: plain numbers; moments within days or a few; days. The last two are
 * seconds UTC, shown by the clock of utc_offset_h. */
enum dawn_chart_scale { DAWN_CHART_NUMBERS, DAWN_CHART_CLOCK, DAWN_CHART_DAYS };

/* Dashes, markers and colour of a line. A place looks the same in every picture; what is no place
 * takes the looks in order, from the most important. */
enum dawn_chart_look {
    DAWN_CHART_TRAYS, /* strong, solid: what the picture is about */
    DAWN_CHART_OUTSIDE,
    DAWN_CHART_LEAVES,
    DAWN_CHART_AIR,
    DAWN_CHART_RIDGE,
    DAWN_CHART_ROCK_IN,
    DAWN_CHART_ROCK_OUT,
    DAWN_CHART_BARRELS,
    DAWN_CHART_SOIL,
    DAWN_CHART_LOOKS
};

struct dawn_chart_line {
    const char *name;  /* stands at its end */
    const double *y;   /* as many as the chart's x; NAN leaves a gap */
    int look;          /* enum dawn_chart_look */
    const double *low; /* with high: the band the line is uncertain by; NULL = none */
    const double *high;
};
/* Stretches of x, tinted over the whole height and drawn as a named bar below the axis. */
struct dawn_chart_span {
    double from, to;
};
enum dawn_chart_tint { DAWN_CHART_DARK, DAWN_CHART_FAN, DAWN_CHART_COVER, DAWN_CHART_TINTS };
struct dawn_chart_shade {
    const char *name; /* short: "fan", "covers" */
    int tint;         /* enum dawn_chart_tint */
    const struct dawn_chart_span *span;
    size_t count;
};
/* A line not to fall below: a named level with barbs on its lower side. */
struct dawn_chart_level {
    const char *name;
    double y;
};
/* A point worth naming: the low, the knee, the choice. */
struct dawn_chart_mark {
    const char *name;
    double x, y;
};

enum { DAWN_CHART_LINES = 12, DAWN_CHART_SHADES = 5, DAWN_CHART_LEVELS = 3, DAWN_CHART_MARKS = 3 };
struct dawn_chart {
    const char *id;    /* a letter, then letters, digits, '-'; unique in its page */
    const char *title; /* what is shown; one line of 60 characters at most */
    const char
        *description; /* the same for who cannot see it: what it says, in a sentence or two */
    const char *x_name, *y_name; /* with the unit: "rock (t)", "temperature (C)" */
    enum dawn_chart_scale scale;
    double utc_offset_h;
    const double *x; /* rising */
    size_t count;
    bool dots;      /* a marker at each value; for few values */
    int x_decimals; /* of plain numbers in the table */
    int y_decimals;
    struct dawn_chart_line line[DAWN_CHART_LINES];
    size_t line_count;
    struct dawn_chart_shade shade[DAWN_CHART_SHADES];
    size_t shade_count;
    struct dawn_chart_level level[DAWN_CHART_LEVELS];
    size_t level_count;
    struct dawn_chart_mark mark[DAWN_CHART_MARKS];
    size_t mark_count;
};

/* Signed amounts side by side, one bar each, its number at its end. */
struct dawn_chart_bar {
    const char *name;
    double value; /* NAN: the name is a heading for the bars below it */
};
struct dawn_chart_bars {
    const char *id, *title, *description; /* as above */
    const char *unit;                     /* "kWh" */
    int decimals;
    bool signs;             /* numbers above 0 get a plus */
    const char *limit_name; /* a line across the bars, at limit; NULL = none */
    double limit;
    const struct dawn_chart_bar *bar;
    size_t count;
};

/* One svg element. alone: a file of its own, with its title, style and paper in it; else the page
 * around it brings these. */
void dawn_chart_svg(struct dawn_xmlout *xml, const struct dawn_chart *chart, bool alone);
void dawn_chart_bars_svg(struct dawn_xmlout *xml, const struct dawn_chart_bars *bars, bool alone);
/* The style sheet both need: colours for light, dark and print, dashes, type. */
const char *dawn_chart_style(void);

/* The chart drawn with characters, at most so many columns and rows (at least 24 and 8 are taken),
 * without blanks at line ends. braille: dots of U+2800 to U+28FF, lines as in the chart; else
 * ASCII, a letter for each line. */
void dawn_chart_screen(FILE *out, const struct dawn_chart *chart, size_t columns, size_t rows,
                       bool braille);

#endif
