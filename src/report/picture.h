/* The pictures of a nights report, as charts: built from the story, drawn elsewhere. */
#ifndef REPORT_PICTURE_H
#define REPORT_PICTURE_H

#include "dawnlow/report.h"
#include "report/chart.h"
#include "report/report_parts.h"

enum { DAWN_PICTURE_WORDS = 320 };

/* A chart and what it points to. Must not be moved once it is built. */
struct dawn_picture {
    struct dawn_chart chart;
    struct dawn_chart_bars bars; /* of the heat picture */
    double *values;
    struct dawn_chart_span *spans;
    struct dawn_chart_bar *bar;
    char (*word)[DAWN_REPORT_ROOM]; /* names that are nobody else's */
    char id[DAWN_REPORT_ROOM], title[DAWN_PICTURE_WORDS], description[DAWN_PICTURE_WORDS];
    char x_name[DAWN_REPORT_ROOM], y_name[DAWN_REPORT_ROOM];
    char level[DAWN_CHART_LEVELS][2 * DAWN_REPORT_ROOM], mark[DAWN_REPORT_ROOM];
};
/* picture is {0} or released before; release is fine after a failure. */
void dawn_picture_release(struct dawn_picture *picture);

/* One night from noon to noon: every place that has a curve (few: the protected place and the
 * outdoor air), the crop's line, night, fan and covers as shades. The run must hold a series. False
 * when memory ran out. */
bool dawn_picture_night(struct dawn_picture *picture, const struct dawn_nights_story *story,
                        const struct dawn_night *night, enum dawn_units units, bool few);
/* The lows of all nights. */
bool dawn_picture_lows(struct dawn_picture *picture, const struct dawn_nights_story *story,
                       enum dawn_units units);
/* The story's ledger as bars. */
bool dawn_picture_heat(struct dawn_picture *picture, const struct dawn_nights_story *story);

/* The coming nights: the middle low at the crops' place in the band of 8 of 10 runs; of a single
 * night, its three lows as bars (chart.line_count is 0 then). */
bool dawn_picture_forecast(struct dawn_picture *picture, const struct dawn_forecast_story *story,
                           enum dawn_units units);
/* Every coming night's chance of damage, as bars. */
bool dawn_picture_chances(struct dawn_picture *picture, const struct dawn_forecast_story *story);
/* The chance that each action leaves, as bars, beside the accepted one. */
bool dawn_picture_tonight(struct dawn_picture *picture, const struct dawn_tonight_story *story);

/* What studies found: the low against rock or barrels, with knee, goal and answer; cold nights by
 * the fan's start (needs a recommended one); what each improvement, each effect changes; the
 * coldest night of each of several nurseries. */
bool dawn_picture_size(struct dawn_picture *picture, const struct dawn_size *size,
                       const struct dawn_size_plan *plan, enum dawn_units units);
bool dawn_picture_setpoint(struct dawn_picture *picture, const struct dawn_setpoint *setpoint,
                           enum dawn_units units);
bool dawn_picture_worth(struct dawn_picture *picture, const struct dawn_worth *worth,
                        enum dawn_units units);
bool dawn_picture_guesses(struct dawn_picture *picture, const struct dawn_worth *worth,
                          enum dawn_units units);
bool dawn_picture_effects(struct dawn_picture *picture, const struct dawn_effects *effects,
                          enum dawn_units units);
bool dawn_picture_compare(struct dawn_picture *picture, const char *const *name,
                          const double *coldest_C, size_t count, enum dawn_units units);

/* The rows of a sweep: keys with their units as its table has them ("rock.mass [t]"), the values as
 * texts [row * keys + key], the coldest night of each (NAN: it has no result). At least one row. */
struct dawn_picture_swept {
    size_t keys, rows;
    const char *const *key;
    const char *const *value;
    const double *coldest_C;
};
/* Against the key with most values where it is a number (chart), else as bars. */
bool dawn_picture_sweep(struct dawn_picture *picture, const struct dawn_picture_swept *swept,
                        enum dawn_units units);

/* For the files that build them: names of axes, levels, the mark of the low. */
double dawn_picture_degrees(double value_C, enum dawn_units units);
void dawn_picture_axes(struct dawn_picture *picture, const struct dawn_nights_story *story,
                       enum dawn_units units);
void dawn_picture_levels(struct dawn_picture *picture, const struct dawn_nights *nights,
                         enum dawn_units units);
void dawn_picture_mark(struct dawn_picture *picture, const struct dawn_nights_story *story,
                       const struct dawn_night *night, double x, enum dawn_units units);
/* Room for so many values and bars; false, and nothing is held, when memory ran out. */
bool dawn_picture_room(struct dawn_picture *picture, size_t values, size_t bars);
/* The chart's or the bars' id, and title and description from the picture. */
void dawn_picture_entitle(struct dawn_picture *picture, const char *id);
/* "at the trays", "in the house air"; "trays", "house air". */
const char *dawn_picture_place(const struct dawn_nights *nights);
const char *dawn_picture_place_name(const struct dawn_nights *nights);

#endif
