/* The lows of all nights, one point a night. */
#include <math.h>
#include <stdlib.h>

#include "report/picture.h"

/* More points than this and the markers run into each other. */
static const size_t dots_most = 40;

static bool any(const struct dawn_nights *nights, size_t offset)
{
    for (size_t i = 0; i < nights->count; i++) {
        const double *value =
            (const double *)(const void *)((const char *)&nights->night[i] + offset);
        if (isfinite(*value)) {
            return true;
        }
    }
    return false;
}

static void add_line(struct dawn_picture *picture, const struct dawn_nights *nights,
                     const char *name, size_t offset, int look, enum dawn_units units)
{
    struct dawn_chart *chart = &picture->chart;
    double *y = picture->values + (chart->line_count + 1) * nights->count;

    if (!any(nights, offset)) {
        return;
    }
    for (size_t i = 0; i < nights->count; i++) {
        const double *value_C =
            (const double *)(const void *)((const char *)&nights->night[i] + offset);
        y[i] = dawn_picture_degrees(*value_C, units);
    }
    chart->line[chart->line_count++] = (struct dawn_chart_line){.name = name, .y = y, .look = look};
}

static void fill_words(struct dawn_picture *picture, const struct dawn_nights_story *story,
                       enum dawn_units units)
{
    const struct dawn_nights *nights = story->nights;
    struct dawn_chart *chart = &picture->chart;
    char low[DAWN_REPORT_ROOM];
    char name[DAWN_REPORT_ROOM];
    const struct dawn_night *coldest = &nights->night[dawn_nights_coldest(nights)];

    snprintf(picture->title, sizeof picture->title, "The lowest temperatures of each night");
    snprintf(picture->description, sizeof picture->description,
             "Lows of %zu nights %s, at the leaves and outside. The coldest is %.40s with %.20s.",
             nights->count, dawn_picture_place(nights),
             dawn_report_night_name(coldest, story->scenario->site.utc_offset_h, name),
             dawn_report_degrees_unit(coldest->place_low_C, units, low));
    chart->id = "lows";
    chart->title = picture->title;
    chart->description = picture->description;
}

bool dawn_picture_lows(struct dawn_picture *picture, const struct dawn_nights_story *story,
                       enum dawn_units units)
{
    const struct dawn_nights *nights = story->nights;
    const size_t coldest = dawn_nights_coldest(nights);

    *picture = (struct dawn_picture){.chart = {.scale = DAWN_CHART_DAYS, .count = nights->count}};
    picture->values = calloc(4 * (nights->count + 1), sizeof *picture->values);
    if (picture->values == NULL) {
        return false;
    }
    for (size_t i = 0; i < nights->count; i++) {
        picture->values[i] = (double)nights->night[i].dusk_s;
    }
    picture->chart.x = picture->values;
    picture->chart.dots = nights->count <= dots_most;
    add_line(picture, nights, dawn_picture_place_name(nights),
             offsetof(struct dawn_night, place_low_C), DAWN_CHART_TRAYS, units);
    add_line(picture, nights, "leaves", offsetof(struct dawn_night, leaf_low_C), DAWN_CHART_LEAVES,
             units);
    add_line(picture, nights, "outside", offsetof(struct dawn_night, outside_low_C),
             DAWN_CHART_OUTSIDE, units);
    dawn_picture_axes(picture, story, units);
    dawn_picture_levels(picture, nights, units);
    if (coldest < nights->count) {
        fill_words(picture, story, units);
        dawn_picture_mark(picture, story, &nights->night[coldest], picture->values[coldest], units);
    }
    return true;
}
