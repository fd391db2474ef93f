/* One night from noon to noon, from the run's series. */
#include <math.h>
#include <stdlib.h>

#include "base/civil.h"
#include "base/text.h"
#include "report/picture.h"

/* Close enough for a curve over 24 h, and far enough apart for a table to be read and a page
 * mailed. */
static const double drawn_step_s = 1800.0;

/* The rows of the series a picture covers, every stride-th of them drawn. */
struct rows {
    size_t first, last, stride, count;
};

/* Noon before dusk, and noon behind the end of the watch, by the site's clock. */
static int64_t noon_by(int64_t utc_s, double utc_offset_h, bool behind)
{
    struct dawn_civil at = dawn_civil_at(utc_s, utc_offset_h);

    at.hour = 12;
    at.minute = at.second = 0;
    const int64_t noon_s = dawn_civil_seconds(&at, utc_offset_h);
    const int64_t day_s = 86400;
    if (behind) {
        return noon_s < utc_s ? noon_s + day_s : noon_s;
    }
    return noon_s > utc_s ? noon_s - day_s : noon_s;
}

static struct rows rows_of(const struct dawn_nights_story *story, const struct dawn_night *night)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    const double from_s = (double)noon_by(night->dusk_s, offset_h, false);
    const double to_s = (double)noon_by(night->until_s, offset_h, true);
    const size_t all = dawn_trajectory_series_count(story->run);
    struct rows rows = {.stride = 1};

    for (size_t row = 0; row < all; row++) {
        const double at_s = dawn_trajectory_series_time_s(story->run, row);
        rows.first += at_s < from_s;
        rows.last += at_s <= to_s;
    }
    if (rows.last <= rows.first) {
        return (struct rows){.stride = 1};
    }
    if (all > 1) {
        const double step_s = dawn_trajectory_series_time_s(story->run, 1) -
                              dawn_trajectory_series_time_s(story->run, 0);
        rows.stride = (size_t)fmax(floor(drawn_step_s / step_s + 0.5), 1.0);
    }
    rows.count = (rows.last - rows.first + rows.stride - 1) / rows.stride;
    return rows;
}

/* Stretches there can be at most: every other row. */
static size_t rows_most(struct rows rows)
{
    return (rows.last - rows.first) / 2 + 1;
}

/* ---- the curves ---- */

struct place {
    const char *name;
    int node; /* DAWN_NO_NODE: the outdoor air */
    int look;
};

static size_t add_place(struct place place[], size_t count, const char *name, int node, int look)
{
    if (node == DAWN_NO_NODE || count == DAWN_CHART_LINES) {
        return count;
    }
    place[count] = (struct place){name, node, look};
    return count + 1;
}

static size_t add_barrels(struct place place[], size_t count, const struct dawn_network *network)
{
    size_t rows = 0;
    int only = DAWN_NO_NODE;

    for (size_t i = 0; i < dawn_network_node_count(network); i++) {
        const struct dawn_node *node = dawn_network_node(network, i);
        if (node->role == DAWN_ROLE_BARRELS) {
            only = (int)i;
            rows++;
            count = add_place(place, count, node->name, (int)i, DAWN_CHART_BARRELS);
        }
    }
    if (rows == 1) {
        place[count - 1] = (struct place){"barrels", only, DAWN_CHART_BARRELS};
    }
    return count;
}

/* The most important first. */
static size_t places_of(struct place place[DAWN_CHART_LINES], const struct dawn_nights_story *story,
                        bool few)
{
    const struct dawn_network *network = story->network;
    const bool trays = story->nights->at_trays;
    const int ridge = dawn_network_ridge(network);
    const char *air = ridge == DAWN_NO_NODE ? "house air" : "bench air";
    size_t count = 0;

    count = add_place(place, count, trays ? "trays" : air,
                      trays ? dawn_network_trays(network) : dawn_network_air(network),
                      DAWN_CHART_TRAYS);
    place[count++] = (struct place){"outside", DAWN_NO_NODE, DAWN_CHART_OUTSIDE};
    if (few) {
        return count;
    }
    count = add_place(place, count, "leaves", dawn_network_leaf(network), DAWN_CHART_LEAVES);
    if (trays) {
        count = add_place(place, count, air, dawn_network_air(network), DAWN_CHART_AIR);
    }
    count = add_place(place, count, "ridge air", ridge, DAWN_CHART_RIDGE);
    count = add_place(place, count, "rock, in", dawn_network_rock_in(network), DAWN_CHART_ROCK_IN);
    count =
        add_place(place, count, "rock, out", dawn_network_rock_out(network), DAWN_CHART_ROCK_OUT);
    return add_barrels(place, count, network);
}

static void fill_curves(struct dawn_picture *picture, const struct dawn_nights_story *story,
                        struct rows rows, const struct place place[], enum dawn_units units)
{
    struct dawn_chart *chart = &picture->chart;
    double *x = picture->values;

    for (size_t i = 0; i < rows.count; i++) {
        const size_t row = rows.first + i * rows.stride;
        const double *node_C = dawn_trajectory_series_C(story->run, row);
        x[i] = dawn_trajectory_series_time_s(story->run, row);
        for (size_t k = 0; k < chart->line_count; k++) {
            const double value_C = place[k].node == DAWN_NO_NODE
                                       ? dawn_network_outside_C(story->network, x[i])
                                       : node_C[place[k].node];
            picture->values[(k + 1) * rows.count + i] = dawn_picture_degrees(value_C, units);
        }
    }
    chart->x = x;
    chart->count = rows.count;
    for (size_t k = 0; k < chart->line_count; k++) {
        chart->line[k] = (struct dawn_chart_line){
            .name = place[k].name, .y = x + (k + 1) * rows.count, .look = place[k].look};
    }
}

/* ---- shades ---- */

/* What a shade shows at a row of the series: a cover's number, or the fan. */
enum { THE_FAN = -1 };
static bool shows(const struct dawn_nights_story *story, int what, size_t row)
{
    const double half_drawn = 0.5;

    if (what == THE_FAN) {
        return dawn_trajectory_series_fan_on(story->run, row);
    }
    return dawn_network_cover_drawn(story->network, (size_t)what,
                                    dawn_trajectory_series_time_s(story->run, row)) >= half_drawn;
}

/* Stretches of rows into spans behind those there are. */
static void add_shade(struct dawn_picture *picture, const struct dawn_nights_story *story,
                      struct rows rows, int what, const char *name)
{
    struct dawn_chart *chart = &picture->chart;
    struct dawn_chart_shade shade = {.name = name,
                                     .tint = what == THE_FAN ? DAWN_CHART_FAN : DAWN_CHART_COVER};
    struct dawn_chart_span *span = picture->spans + 1 + (chart->shade_count - 1) * rows_most(rows);
    bool before = false;

    for (size_t row = rows.first; row < rows.last; row++) {
        const bool on = shows(story, what, row);
        const double at_s = dawn_trajectory_series_time_s(story->run, row);
        if (on && !before) {
            span[shade.count++].from = at_s;
        }
        if (on || before) {
            span[shade.count - 1].to = at_s;
        }
        before = on;
    }
    shade.span = span;
    chart->shade[chart->shade_count++] = shade;
}

static void fill_shades(struct dawn_picture *picture, const struct dawn_nights_story *story,
                        const struct dawn_night *night, struct rows rows)
{
    struct dawn_chart *chart = &picture->chart;
    const size_t covers = dawn_network_cover_count(story->network);

    picture->spans[0] = (struct dawn_chart_span){(double)night->dusk_s, (double)night->dawn_s};
    chart->shade[chart->shade_count++] =
        (struct dawn_chart_shade){"night", DAWN_CHART_DARK, picture->spans, 1};
    if (dawn_network_has_fan(story->network)) {
        add_shade(picture, story, rows, THE_FAN, "fan runs");
    }
    for (size_t i = 0; i < covers && chart->shade_count < DAWN_CHART_SHADES; i++) {
        add_shade(picture, story, rows, (int)i, dawn_network_cover_name(story->network, i));
    }
}

/* ---- words ---- */

static void fill_words(struct dawn_picture *picture, const struct dawn_nights_story *story,
                       const struct dawn_night *night, enum dawn_units units)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    char name[DAWN_REPORT_ROOM];
    char low[DAWN_REPORT_ROOM];
    char outside[DAWN_REPORT_ROOM];
    char at[DAWN_REPORT_ROOM];

    snprintf(picture->id, sizeof picture->id, "night-%.40s",
             dawn_report_date(night->dusk_s, offset_h, at));
    dawn_report_night_name(night, offset_h, name);
    dawn_report_degrees_unit(night->place_low_C, units, low);
    snprintf(picture->title, sizeof picture->title, "%.40s: %.20s %s", name, low,
             dawn_picture_place(story->nights));
    snprintf(picture->description, sizeof picture->description,
             "Temperatures of the night %.40s from noon to noon. Outside it falls to %.20s, %s to "
             "%.20s at %.20s: %s.",
             name, dawn_report_degrees_unit(night->outside_low_C, units, outside),
             dawn_picture_place(story->nights), low,
             dawn_report_clock(night->low_at_s, offset_h, at), dawn_nights_risk_words(night->risk));
    picture->chart.id = picture->id;
    picture->chart.title = picture->title;
    picture->chart.description = picture->description;
}

bool dawn_picture_night(struct dawn_picture *picture, const struct dawn_nights_story *story,
                        const struct dawn_night *night, enum dawn_units units, bool few)
{
    struct place place[DAWN_CHART_LINES];
    const struct rows rows = rows_of(story, night);

    *picture = (struct dawn_picture){.chart = {.scale = DAWN_CHART_CLOCK}};
    picture->chart.line_count = places_of(place, story, few);
    picture->values =
        calloc((picture->chart.line_count + 1) * (rows.count + 1), sizeof *picture->values);
    picture->spans = calloc(1 + DAWN_CHART_SHADES * rows_most(rows), sizeof *picture->spans);
    if (picture->values == NULL || picture->spans == NULL) {
        dawn_picture_release(picture);
        return false;
    }
    fill_curves(picture, story, rows, place, units);
    fill_shades(picture, story, night, rows);
    fill_words(picture, story, night, units);
    dawn_picture_axes(picture, story, units);
    dawn_picture_levels(picture, story->nights, units);
    dawn_picture_mark(picture, story, night, night->low_at_s, units);
    return true;
}
