/* What studies found, as bars: improvements, effects, nurseries side by side; and cold nights by
 * the fan's start. */
#include <math.h>

#include "report/picture.h"

static double scaled(double change_K, enum dawn_units units)
{
    return units == DAWN_US ? change_K * 1.8 : change_K;
}

static void set_bars(struct dawn_picture *picture, const char *id, const char *unit, int decimals,
                     size_t count)
{
    picture->bars = (struct dawn_chart_bars){
        .unit = unit, .decimals = decimals, .bar = picture->bar, .count = count};
    dawn_picture_entitle(picture, id);
}

bool dawn_picture_worth(struct dawn_picture *picture, const struct dawn_worth *worth,
                        enum dawn_units units)
{
    size_t count = 0;

    *picture = (struct dawn_picture){0};
    if (!dawn_picture_room(picture, 0, worth->ways)) {
        return false;
    }
    for (size_t i = 0; i < worth->ways; i++) {
        if (!worth->way[i].failed) {
            picture->bar[count++] =
                (struct dawn_chart_bar){worth->way[i].name, scaled(worth->way[i].gain_K, units)};
        }
    }
    snprintf(picture->title, sizeof picture->title,
             "How much warmer the coldest night gets; most for the money first");
    snprintf(picture->description, sizeof picture->description,
             "A bar for each improvement, alone, against the nursery as it is.");
    set_bars(picture, "gains", dawn_report_change_unit(units), 2, count);
    picture->bars.signs = true;
    return true;
}

bool dawn_picture_guesses(struct dawn_picture *picture, const struct dawn_worth *worth,
                          enum dawn_units units)
{
    size_t count = 0;

    *picture = (struct dawn_picture){0};
    if (!dawn_picture_room(picture, 0, worth->guesses)) {
        return false;
    }
    for (size_t i = 0; i < worth->guesses; i++) {
        if (!worth->guess[i].failed) {
            picture->bar[count++] = (struct dawn_chart_bar){worth->guess[i].name,
                                                            scaled(worth->guess[i].swing_K, units)};
        }
    }
    snprintf(picture->title, sizeof picture->title,
             "How far the coldest night is apart at both ends of a guess");
    snprintf(picture->description, sizeof picture->description,
             "A bar for each guess the result rests on.");
    set_bars(picture, "guesses", dawn_report_change_unit(units), 2, count);
    return true;
}

static double effect_K(const struct dawn_effects *effects, size_t row)
{
    return (effects->by_air ? dawn_effects_change_in_air(effects, row)
                            : dawn_effects_change_at_place(effects, row))
        .coldest_K;
}

bool dawn_picture_effects(struct dawn_picture *picture, const struct dawn_effects *effects,
                          enum dawn_units units)
{
    const char *place = effects->at_trays && !effects->by_air ? "at the trays" : "in the house air";
    size_t count = 0;

    *picture = (struct dawn_picture){0};
    if (!dawn_picture_room(picture, 0, effects->count)) {
        return false;
    }
    for (size_t i = 0; i < effects->count; i++) {
        if (!effects->row[i].failed) {
            picture->bar[count++] =
                (struct dawn_chart_bar){effects->row[i].name, scaled(effect_K(effects, i), units)};
        }
    }
    snprintf(picture->title, sizeof picture->title, "The coldest night %s, without ...", place);
    snprintf(picture->description, sizeof picture->description,
             "A bar for each effect: how much warmer (to the right) or colder (to the left) the "
             "low of the coldest night would be without it.");
    set_bars(picture, "effects", dawn_report_difference_unit(units), 1, count);
    picture->bars.signs = true;
    return true;
}

bool dawn_picture_compare(struct dawn_picture *picture, const char *const *name,
                          const double *coldest_C, size_t count, enum dawn_units units)
{
    *picture = (struct dawn_picture){0};
    if (!dawn_picture_room(picture, 0, count)) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        picture->bar[i] =
            (struct dawn_chart_bar){name[i], dawn_picture_degrees(coldest_C[i], units)};
    }
    snprintf(picture->title, sizeof picture->title, "The coldest night of each");
    snprintf(picture->description, sizeof picture->description,
             "A bar for each nursery: the low of its coldest night.");
    set_bars(picture, "coldest", units == DAWN_US ? "temperature (F)" : "temperature (C)", 1,
             count);
    return true;
}

/* ---- the fan's start ---- */

enum { START_VALUES = 5 }; /* of a start: it, the cold nights, their band, the coldest */

/* Puts a start where it belongs; those tried are few. Each kind of value has room for `most`. */
static void insert(struct dawn_picture *picture, size_t most, const struct dawn_setpoint_row *row,
                   enum dawn_units units)
{
    const double new_C[START_VALUES] = {row->on_C, row->cold_C, row->cold.from_C, row->cold.to_C,
                                        row->sum.coldest_C};
    double *x = picture->values;
    size_t at = picture->chart.count++;

    for (; at > 0 && x[at - 1] > dawn_picture_degrees(row->on_C, units); at--) {
        for (size_t k = 0; k < START_VALUES; k++) {
            x[k * most + at] = x[k * most + at - 1];
        }
    }
    for (size_t k = 0; k < START_VALUES; k++) {
        x[k * most + at] = dawn_picture_degrees(new_C[k], units);
    }
}

static void fill_starts(struct dawn_picture *picture, const struct dawn_setpoint *setpoint,
                        enum dawn_units units)
{
    const struct dawn_setpoint_row *best = &setpoint->row[setpoint->best];
    const size_t most = setpoint->count;

    for (size_t i = 1; i < setpoint->count; i++) {
        const struct dawn_setpoint_row *row = &setpoint->row[i];
        if (!row->failed && fabs(row->gap_K - best->gap_K) < 1e-9 &&
            fabs(row->margin_K - best->margin_K) < 1e-9) {
            insert(picture, most, row, units);
        }
    }
    picture->chart.x = picture->values;
    picture->chart.line[0] = (struct dawn_chart_line){.name = "coldest tenth",
                                                      .y = picture->values + most,
                                                      .look = DAWN_CHART_TRAYS,
                                                      .low = picture->values + 2 * most,
                                                      .high = picture->values + 3 * most};
    picture->chart.line[1] = (struct dawn_chart_line){
        .name = "coldest night", .y = picture->values + 4 * most, .look = DAWN_CHART_AIR};
    picture->chart.line_count = 2;
}

bool dawn_picture_setpoint(struct dawn_picture *picture, const struct dawn_setpoint *setpoint,
                           enum dawn_units units)
{
    const struct dawn_setpoint_row *best = &setpoint->row[setpoint->best];
    struct dawn_chart *chart = &picture->chart;

    *picture = (struct dawn_picture){.chart = {.scale = DAWN_CHART_NUMBERS}};
    if (!dawn_picture_room(picture, START_VALUES * setpoint->count, 0)) {
        return false;
    }
    snprintf(picture->title, sizeof picture->title,
             "Cold nights, by the temperature at which the fan starts");
    snprintf(picture->description, sizeof picture->description,
             "The mean low of the coldest tenth of the nights and the coldest night, for each "
             "start that was tried, with the recommended one marked; the band holds %s.",
             setpoint->years > 1 ? "that mean of each year" : "the nights of that tenth");
    dawn_picture_entitle(picture, "starts");
    chart->x_name = units == DAWN_US ? "fan starts at (F)" : "fan starts at (C)";
    chart->y_name = units == DAWN_US ? "temperature (F)" : "temperature (C)";
    chart->dots = true;
    chart->x_decimals = 1;
    chart->y_decimals = 2;
    fill_starts(picture, setpoint, units);
    picture->spans[0] = (struct dawn_chart_span){dawn_picture_degrees(setpoint->from_C, units),
                                                 dawn_picture_degrees(setpoint->to_C, units)};
    if (picture->spans[0].to > picture->spans[0].from) {
        chart->shade[chart->shade_count++] =
            (struct dawn_chart_shade){"as good", DAWN_CHART_COVER, picture->spans, 1};
    }
    chart->mark[chart->mark_count++] =
        (struct dawn_chart_mark){"recommended", dawn_picture_degrees(best->on_C, units),
                                 dawn_picture_degrees(best->cold_C, units)};
    return true;
}
