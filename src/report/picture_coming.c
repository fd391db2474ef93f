/* Pictures of what lies ahead: the coming nights with the band they may fall in, and chances. */
#include <math.h>

#include "base/text.h"
#include "report/picture.h"

/* ---- where the crops are ---- */

static const char *place_name(enum dawn_crop_place place)
{
    return place == DAWN_CROP_IN_AIR ? "house air" : dawn_nights_crop_place_word(place);
}

static const struct dawn_forecast_range *low_of(const struct dawn_forecast_night *night,
                                                enum dawn_crop_place place)
{
    switch (place) {
    case DAWN_CROP_AT_LEAVES:
        return &night->leaf_C;
    case DAWN_CROP_AT_TRAYS:
        return &night->tray_C;
    case DAWN_CROP_IN_AIR:
        break;
    }
    return &night->air_C;
}

/* The most tender crop's line, as the pictures of nights have it. */
static void add_levels(struct dawn_picture *picture, const struct dawn_forecast_story *story,
                       enum dawn_units units)
{
    const struct dawn_crop *crops = story->scenario->crops;
    struct dawn_nights nights = {.crop_line_C = NAN};

    for (size_t i = 0; i < story->forecast->crop_count; i++) {
        if (!(crops[i].damage_C <= nights.crop_line_C)) {
            nights.crop_line_C = crops[i].damage_C;
            (void)dawn_text_copy(nights.crop_name, sizeof nights.crop_name, crops[i].name);
        }
    }
    dawn_picture_levels(picture, &nights, units);
}

/* ---- the coming nights ---- */

static void fill_lines(struct dawn_picture *picture, const struct dawn_forecast_story *story,
                       enum dawn_units units)
{
    const struct dawn_forecast *forecast = story->forecast;
    const size_t count = forecast->nights;
    double *value = picture->values;

    for (size_t i = 0; i < count; i++) {
        const struct dawn_forecast_night *night = &forecast->night[i];
        const struct dawn_forecast_range *low = low_of(night, forecast->crop_place);
        value[i] = (double)night->dusk_s;
        value[count + i] = dawn_picture_degrees(low->middle, units);
        value[2 * count + i] = dawn_picture_degrees(low->tenth, units);
        value[3 * count + i] = dawn_picture_degrees(low->ninth, units);
        value[4 * count + i] = dawn_picture_degrees(night->outside_C.middle, units);
    }
    picture->chart.x = value;
    picture->chart.count = count;
    picture->chart.dots = true;
    picture->chart.line[0] = (struct dawn_chart_line){.name = place_name(forecast->crop_place),
                                                      .y = value + count,
                                                      .look = DAWN_CHART_TRAYS,
                                                      .low = value + 2 * count,
                                                      .high = value + 3 * count};
    picture->chart.line[1] = (struct dawn_chart_line){
        .name = "outside", .y = value + 4 * count, .look = DAWN_CHART_OUTSIDE};
    picture->chart.line_count = 2;
}

/* The three lows of the only night there is. */
static void fill_single(struct dawn_picture *picture, const struct dawn_forecast_story *story,
                        enum dawn_units units)
{
    const struct dawn_forecast_range *low =
        low_of(&story->forecast->night[0], story->forecast->crop_place);

    picture->bar[0] = (struct dawn_chart_bar){"1 run in 10 is colder than",
                                              dawn_picture_degrees(low->tenth, units)};
    picture->bar[1] = (struct dawn_chart_bar){"half of the runs are colder than",
                                              dawn_picture_degrees(low->middle, units)};
    picture->bar[2] = (struct dawn_chart_bar){"9 runs in 10 are colder than",
                                              dawn_picture_degrees(low->ninth, units)};
    picture->bars = (struct dawn_chart_bars){
        .unit = picture->y_name, .decimals = 1, .bar = picture->bar, .count = 3};
    dawn_picture_entitle(picture, "coming");
}

static void fill_words(struct dawn_picture *picture, const struct dawn_forecast_story *story,
                       enum dawn_units units)
{
    const struct dawn_forecast *forecast = story->forecast;
    const struct dawn_forecast_night *worst = &forecast->night[forecast->worst];
    const struct dawn_forecast_range *low = low_of(worst, forecast->crop_place);
    const struct dawn_night named = {.dusk_s = worst->dusk_s, .dawn_s = worst->dawn_s};
    const char *place = dawn_nights_crop_place_words(forecast->crop_place);
    char night[DAWN_REPORT_ROOM];
    char tenth[DAWN_REPORT_ROOM];
    char ninth[DAWN_REPORT_ROOM];

    snprintf(picture->title, sizeof picture->title, "Coming lows %s; 8 of 10 runs are in the band",
             place);
    snprintf(
        picture->description, sizeof picture->description,
        "Lows %s in the coming nights of %zu runs: half are below the line, one in ten is "
        "below the band and one in ten above it. In the worst night, %.40s, the band goes from "
        "%.20s to %.20s.",
        place, forecast->members,
        dawn_report_night_name(&named, story->scenario->site.utc_offset_h, night),
        dawn_report_degrees_unit(low->tenth, units, tenth),
        dawn_report_degrees_unit(low->ninth, units, ninth));
    dawn_picture_entitle(picture, "coming");
}

bool dawn_picture_forecast(struct dawn_picture *picture, const struct dawn_forecast_story *story,
                           enum dawn_units units)
{
    const struct dawn_nights_story clock = {.scenario = story->scenario};
    const size_t nights = story->forecast->nights;

    *picture = (struct dawn_picture){.chart = {.scale = DAWN_CHART_DAYS}};
    if (!dawn_picture_room(picture, 5 * nights, 3)) {
        return false;
    }
    dawn_picture_axes(picture, &clock, units);
    fill_words(picture, story, units);
    if (nights == 1) {
        fill_single(picture, story, units);
        return true;
    }
    fill_lines(picture, story, units);
    add_levels(picture, story, units);
    return true;
}

/* ---- chances ---- */

static void bars_of_chances(struct dawn_picture *picture, const char *id, size_t count)
{
    picture->bars =
        (struct dawn_chart_bars){.unit = "chance (%)", .bar = picture->bar, .count = count};
    dawn_picture_entitle(picture, id);
}

bool dawn_picture_chances(struct dawn_picture *picture, const struct dawn_forecast_story *story)
{
    const struct dawn_forecast *forecast = story->forecast;
    const double offset_h = story->scenario->site.utc_offset_h;
    const char *place = dawn_nights_crop_place_words(forecast->crop_place);

    *picture = (struct dawn_picture){0};
    if (!dawn_picture_room(picture, 0, forecast->nights)) {
        return false;
    }
    for (size_t i = 0; i < forecast->nights; i++) {
        const struct dawn_forecast_night *night = &forecast->night[i];
        const struct dawn_night named = {.dusk_s = night->dusk_s, .dawn_s = night->dawn_s};
        dawn_report_night_name(&named, offset_h, picture->word[i]);
        picture->bar[i] = (struct dawn_chart_bar){picture->word[i], 100.0 * night->any_harmed};
    }
    if (forecast->crop_count > 0) {
        snprintf(picture->title, sizeof picture->title, "Chance that a crop is harmed %s", place);
    } else {
        snprintf(picture->title, sizeof picture->title, "Chance of frost %s",
                 forecast->at_trays ? "at the trays" : "in the house air");
    }
    snprintf(picture->description, sizeof picture->description,
             "A bar for each coming night: the share of %zu runs in which it happens.",
             forecast->members);
    bars_of_chances(picture, "chances", forecast->nights);
    return true;
}

bool dawn_picture_tonight(struct dawn_picture *picture, const struct dawn_tonight_story *story)
{
    const struct dawn_tonight *tonight = story->tonight;
    char share[DAWN_REPORT_ROOM];
    size_t count = 0;

    *picture = (struct dawn_picture){0};
    if (!dawn_picture_room(picture, 0, tonight->count)) {
        return false;
    }
    for (size_t i = 0; i < tonight->count; i++) {
        const struct dawn_tonight_row *row = &tonight->row[i];
        if (!row->carried) {
            snprintf(picture->word[count], DAWN_REPORT_ROOM, "%.36s%s",
                     row->action != NULL ? row->action->name : "nothing done",
                     i == tonight->least ? " \xE2\x80\xA2" : "");
            picture->bar[count] =
                (struct dawn_chart_bar){picture->word[count], 100.0 * row->harmed};
            count++;
        }
    }
    snprintf(picture->title, sizeof picture->title, "Tonight's chance of %s %s%s",
             tonight->crop_count > 0 ? "damage" : "frost",
             dawn_nights_crop_place_words(tonight->crop_place),
             tonight->least < tonight->count ? "; \xE2\x80\xA2 marks what to do" : "");
    snprintf(picture->description, sizeof picture->description,
             "A bar for each thing that can be done: the share of %zu runs in which harm is done "
             "all the same. Least first; the one to do is marked with a dot.",
             tonight->members);
    snprintf(picture->mark, sizeof picture->mark, "you accept %.20s %%",
             dawn_report_fixed(100.0 * tonight->accepted, 0, share));
    bars_of_chances(picture, "actions", count);
    picture->bars.limit = 100.0 * tonight->accepted;
    picture->bars.limit_name = picture->mark;
    return true;
}
