/* What the pictures of a nights report share. */
#include "report/picture.h"

#include <math.h>
#include <stdlib.h>

#include "base/text.h"

void dawn_picture_release(struct dawn_picture *picture)
{
    free(picture->values);
    free(picture->spans);
    free(picture->bar);
    free(picture->word);
    *picture = (struct dawn_picture){0};
}

bool dawn_picture_room(struct dawn_picture *picture, size_t values, size_t bars)
{
    picture->values = calloc(values + 1, sizeof *picture->values);
    picture->bar = calloc(bars + 1, sizeof *picture->bar);
    picture->word = calloc(bars + 1, sizeof *picture->word);
    picture->spans = calloc(1, sizeof *picture->spans);
    if (picture->values != NULL && picture->bar != NULL && picture->word != NULL &&
        picture->spans != NULL) {
        return true;
    }
    dawn_picture_release(picture);
    return false;
}

void dawn_picture_entitle(struct dawn_picture *picture, const char *id)
{
    picture->chart.id = picture->bars.id = id;
    picture->chart.title = picture->bars.title = picture->title;
    picture->chart.description = picture->bars.description = picture->description;
}

double dawn_picture_degrees(double value_C, enum dawn_units units)
{
    return units == DAWN_US ? value_C * 1.8 + 32.0 : value_C;
}

const char *dawn_picture_place(const struct dawn_nights *nights)
{
    return nights->at_trays ? "at the trays" : "in the house air";
}

const char *dawn_picture_place_name(const struct dawn_nights *nights)
{
    return nights->at_trays ? "trays" : "house air";
}

void dawn_picture_axes(struct dawn_picture *picture, const struct dawn_nights_story *story,
                       enum dawn_units units)
{
    char zone[DAWN_REPORT_ROOM];

    snprintf(picture->y_name, sizeof picture->y_name, "temperature (%s)",
             dawn_report_unit_letter(units));
    if (picture->chart.scale == DAWN_CHART_CLOCK) {
        snprintf(picture->x_name, sizeof picture->x_name, "o'clock, %.20s",
                 dawn_report_zone(story->scenario->site.utc_offset_h, zone));
    } else {
        (void)dawn_text_copy(picture->x_name, sizeof picture->x_name, "evening");
    }
    picture->chart.x_name = picture->x_name;
    picture->chart.y_name = picture->y_name;
    picture->chart.y_decimals = 1;
    picture->chart.utc_offset_h = story->scenario->site.utc_offset_h;
}

static char *add_level(struct dawn_picture *picture, double line_C, enum dawn_units units)
{
    struct dawn_chart *chart = &picture->chart;
    char *name = picture->level[chart->level_count];

    chart->level[chart->level_count++] =
        (struct dawn_chart_level){name, dawn_picture_degrees(line_C, units)};
    return name;
}

/* The higher one first: the chart names it above its line, the next below. */
void dawn_picture_levels(struct dawn_picture *picture, const struct dawn_nights *nights,
                         enum dawn_units units)
{
    const size_t room = sizeof picture->level[0];
    const bool crop = !isnan(nights->crop_line_C);
    char line[DAWN_REPORT_ROOM];

    if (crop && nights->crop_line_C >= 0.0) {
        snprintf(add_level(picture, nights->crop_line_C, units), room, "%.63s is damaged below %s",
                 nights->crop_name, dawn_report_line(nights->crop_line_C, units, line));
    }
    if (!crop || nights->crop_line_C != 0.0) {
        snprintf(add_level(picture, 0.0, units), room, "freezing, %s",
                 dawn_report_line(0.0, units, line));
    }
    if (crop && nights->crop_line_C < 0.0) {
        snprintf(add_level(picture, nights->crop_line_C, units), room, "%.63s is damaged below %s",
                 nights->crop_name, dawn_report_line(nights->crop_line_C, units, line));
    }
}

void dawn_picture_mark(struct dawn_picture *picture, const struct dawn_nights_story *story,
                       const struct dawn_night *night, double x, enum dawn_units units)
{
    struct dawn_chart *chart = &picture->chart;
    char low[DAWN_REPORT_ROOM];
    char at[DAWN_REPORT_ROOM];

    snprintf(picture->mark, sizeof picture->mark, "%.20s at %.20s",
             dawn_report_degrees_unit(night->place_low_C, units, low),
             dawn_report_clock(night->low_at_s, story->scenario->site.utc_offset_h, at));
    chart->mark[chart->mark_count++] =
        (struct dawn_chart_mark){picture->mark, x, dawn_picture_degrees(night->place_low_C, units)};
}
