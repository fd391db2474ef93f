/* The low against what is built in: where the goal lies, from where on more adds little, and what
 * was chosen. */
#include <math.h>

#include "report/picture.h"

/* Around the low itself, or around that of one year in ten where the years bear a guess at it. */
static void add_band(struct dawn_picture *picture, const struct dawn_size *size, bool spring)
{
    struct dawn_chart *chart = &picture->chart;
    const double *value = picture->values;
    const size_t most = size->curve_count + 1;

    if (!isnan(size->own.fit.scale_K)) {
        chart->line[chart->line_count++] =
            (struct dawn_chart_line){.name = spring ? "1 spring in 10" : "1 year in 10",
                                     .y = value + 4 * most,
                                     .look = DAWN_CHART_AIR};
    }
    chart->line[chart->line_count - 1].low = value + 2 * most;
    chart->line[chart->line_count - 1].high = value + 3 * most;
}

static void add_point(struct dawn_picture *picture, const struct dawn_size_design *design,
                      size_t lever, size_t most, enum dawn_units units)
{
    double *value = &picture->values[picture->chart.count++];

    value[0] = design->value[lever];
    value[most] = dawn_picture_degrees(design->low_C, units);
    value[2 * most] = dawn_picture_degrees(design->band_low_C, units);
    value[3 * most] = dawn_picture_degrees(design->band_high_C, units);
    value[4 * most] = 0.5 * (value[2 * most] + value[3 * most]);
}

/* What cannot be built or has no result is left out; the line goes on to the next. The answer,
 * where it lies between, is a point of the line too. */
static void fill_curve(struct dawn_picture *picture, const struct dawn_size *size,
                       const struct dawn_size_plan *plan, enum dawn_units units)
{
    const size_t most = size->curve_count + 1;
    const size_t lever = size->curve_lever;
    bool answer = size->met;

    for (size_t i = 0; i < size->curve_count; i++) {
        const struct dawn_size_design *design = &size->curve[i];
        const double ahead = design->value[lever] - size->best.value[lever];
        if (answer && ahead > 1e-9 && i > 0) {
            add_point(picture, &size->best, lever, most, units);
        }
        answer = answer && ahead < -1e-9;
        if (design->excluded == NULL && !design->failed) {
            add_point(picture, design, lever, most, units);
        }
    }
    picture->chart.x = picture->values;
    picture->chart.dots = true;
    picture->chart.x_decimals = 1;
    picture->chart.y_decimals = 2;
    picture->chart.line[picture->chart.line_count++] =
        (struct dawn_chart_line){.name = dawn_goal_place_words(plan->goal.place),
                                 .y = picture->values + most,
                                 .look = DAWN_CHART_TRAYS};
    add_band(picture, size, plan->goal.spring_only);
}

static void add_goal(struct dawn_picture *picture, const struct dawn_goal *goal,
                     enum dawn_units units)
{
    char line[DAWN_REPORT_ROOM];

    snprintf(picture->level[0], sizeof picture->level[0], "the goal, %.20s",
             dawn_report_line(goal->line_C, units, line));
    picture->chart.level[picture->chart.level_count++] =
        (struct dawn_chart_level){picture->level[0], dawn_picture_degrees(goal->line_C, units)};
}

/* The curve's height there; NAN where it was not run. */
static double low_at(const struct dawn_size *size, double x)
{
    for (size_t i = 0; i < size->curve_count; i++) {
        const struct dawn_size_design *design = &size->curve[i];
        if (fabs(design->value[size->curve_lever] - x) < 1e-9 && design->excluded == NULL &&
            !design->failed) {
            return design->low_C;
        }
    }
    return NAN;
}

static void add_mark(struct dawn_picture *picture, const char *name, double x, double low_C,
                     enum dawn_units units)
{
    const double *all = picture->chart.x;

    if (isfinite(low_C) && x >= all[0] && x <= all[picture->chart.count - 1]) {
        picture->chart.mark[picture->chart.mark_count++] =
            (struct dawn_chart_mark){name, x, dawn_picture_degrees(low_C, units)};
    }
}

/* Names of marks side by side would cover each other. */
static void add_marks(struct dawn_picture *picture, const struct dawn_size *size,
                      enum dawn_units units)
{
    const double *all = picture->chart.x;
    const double end = all[picture->chart.count - 1];
    const double answer = size->best.value[size->curve_lever];
    const bool apart = !size->met || fabs(answer - size->knee) > 0.25 * (end - all[0]);

    if (size->met) {
        add_mark(picture, "the answer", answer, size->best.low_C, units);
    }
    if (!isnan(size->knee) && apart) {
        add_mark(picture, "the knee", size->knee, low_at(size, size->knee), units);
    }
    if (!isnan(size->knee) && size->knee < end) {
        picture->spans[0] = (struct dawn_chart_span){size->knee, end};
        picture->chart.shade[picture->chart.shade_count++] =
            (struct dawn_chart_shade){"little gain", DAWN_CHART_COVER, picture->spans, 1};
    }
}

bool dawn_picture_size(struct dawn_picture *picture, const struct dawn_size *size,
                       const struct dawn_size_plan *plan, enum dawn_units units)
{
    const struct dawn_size_lever *lever = &plan->lever[size->curve_lever];
    const char *place = dawn_goal_place_words(plan->goal.place);
    static const char nights[] = "the band holds the three coldest nights";
    static const char years[] = "the band is the coldest night of one in ten, give or take";

    *picture = (struct dawn_picture){.chart = {.scale = DAWN_CHART_NUMBERS}};
    if (!dawn_picture_room(picture, 5 * (size->curve_count + 1), 0)) {
        return false;
    }
    snprintf(picture->x_name, sizeof picture->x_name, "%.40s%s%.10s%s", lever->words,
             lever->unit[0] != '\0' ? " (" : "", lever->unit, lever->unit[0] != '\0' ? ")" : "");
    snprintf(picture->y_name, sizeof picture->y_name, "temperature (%s)",
             dawn_report_unit_letter(units));
    snprintf(picture->title, sizeof picture->title, "The low that decides, by %.30s", lever->words);
    snprintf(picture->description, sizeof picture->description,
             "The low at the %s that decides, for several amounts of %.30s with all else as found; "
             "%s; the goal as a line; shaded where more adds less than a tenth of a kelvin a step.",
             place, lever->words, isnan(size->own.fit.scale_K) ? nights : years);
    picture->chart.x_name = picture->x_name;
    picture->chart.y_name = picture->y_name;
    dawn_picture_entitle(picture, "curve");
    fill_curve(picture, size, plan, units);
    add_goal(picture, &plan->goal, units);
    if (picture->chart.count > 1) {
        add_marks(picture, size, units);
    }
    return true;
}
