/* The decision a nights report starts with, and the way to its three forms. */
#include <math.h>

#include "base/text.h"
#include "dawnlow/physics/water.h"
#include "report/report_parts.h"

static const char *place_words(const struct dawn_nights *nights)
{
    return nights->at_trays ? "at the trays" : "in the house air";
}

/* "4 of 14 nights", "none of 1 night". */
static void add_share(struct dawn_text *text, size_t some, size_t all)
{
    if (some == 0) {
        dawn_text_add(text, "none of %zu %s", all, all == 1 ? "night" : "nights");
    } else {
        dawn_text_add(text, "%zu of %zu %s", some, all, all == 1 ? "night" : "nights");
    }
}

/* Freezing water holds its place near 0 C; a reader must not take that for a mild night. */
static void add_freezing(const struct dawn_night *night, enum dawn_units units,
                         struct dawn_text *text)
{
    char air[DAWN_REPORT_ROOM];

    if (night->place_low_C > 0.0 || night->place_low_C < -DAWN_WATER_FREEZING_WIDTH_K) {
        return;
    }
    dawn_text_add(text, " (freezing; air %s)",
                  dawn_report_degrees_unit(night->air_low_C, units, air));
}

void dawn_report_decision(const struct dawn_nights_story *story, enum dawn_units units,
                          struct dawn_text *text)
{
    const struct dawn_nights *nights = story->nights;
    const size_t coldest = dawn_nights_coldest(nights);
    const double offset_h = story->scenario->site.utc_offset_h;

    char line[DAWN_REPORT_ROOM];

    add_share(text, dawn_nights_below_zero(nights), nights->count);
    dawn_text_add(text, " below %s %s", dawn_report_line(0.0, units, line), place_words(nights));
    if (coldest < nights->count) {
        const struct dawn_night *night = &nights->night[coldest];
        char name[DAWN_REPORT_ROOM];
        char low[DAWN_REPORT_ROOM];
        char at[DAWN_REPORT_ROOM];
        dawn_text_add(text, "; coldest %s, %s at %s", dawn_report_night_name(night, offset_h, name),
                      dawn_report_degrees_unit(night->place_low_C, units, low),
                      dawn_report_clock(night->low_at_s, offset_h, at));
        add_freezing(night, units, text);
    }
}

/* A crop that is harmed below 0 C on as many nights as the first line says adds nothing to it. */
static bool crop_adds_something(const struct dawn_nights *nights)
{
    return nights->crop_line_C != 0.0 ||
           dawn_nights_below_crop(nights) != dawn_nights_below_zero(nights);
}

void dawn_report_crop_decision(const struct dawn_nights_story *story, enum dawn_units units,
                               struct dawn_text *text)
{
    const struct dawn_nights *nights = story->nights;
    char line[DAWN_REPORT_ROOM];

    if (isnan(nights->crop_line_C) || !crop_adds_something(nights)) {
        return;
    }
    add_share(text, dawn_nights_below_crop(nights), nights->count);
    dawn_text_add(text, " below %s %s, where %s is damaged",
                  dawn_report_line(nights->crop_line_C, units, line),
                  dawn_nights_crop_place_words(nights->crop_place), nights->crop_name);
}

void dawn_report_nights(FILE *out, enum dawn_format format, enum dawn_units units,
                        const struct dawn_nights_story *story)
{
    switch (format) {
    case DAWN_TEXT:
        dawn_report_nights_text(out, units, story);
        break;
    case DAWN_CSV:
        dawn_report_nights_csv(out, story);
        break;
    case DAWN_JSON:
        dawn_report_nights_json(out, story);
        break;
    }
}
