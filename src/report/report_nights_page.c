/* The nights as a page: the decision and one picture, every night in a table and in a picture,
 * where the heat went, and what it all rests on. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "report/page.h"
#include "report/picture.h"

/* So many nights get a picture: with more of them the page would be too large to mail. */
enum { PICTURED_MOST = 21 };

static void head_of(struct dawn_page *page, FILE *out, enum dawn_units units,
                    const struct dawn_nights_story *story)
{
    struct dawn_text decision = {0};
    struct dawn_text crop = {0};

    dawn_report_decision(story, units, &decision);
    dawn_report_crop_decision(story, units, &crop);
    const struct dawn_page_head head = {
        .name = story->scenario->name,
        .kind = "Nights",
        .decision = decision.data != NULL ? decision.data : "",
        .detail = crop.data,
        .caution = story->nights->at_trays
                       ? "A model's estimate: keep an alarm thermometer at the trays."
                       : "A model's estimate: keep an alarm thermometer in the house.",
    };
    dawn_page_begin(page, out, &head);
    page->xml.failed = decision.failed || crop.failed;
    dawn_text_release(&decision);
    dawn_text_release(&crop);
}

/* Draws one picture and lets go of it. where as in dawn_page_chart. */
static void put_chart(struct dawn_page *page, struct dawn_picture *picture, bool built,
                      const char *where)
{
    if (built) {
        dawn_page_chart(page, &picture->chart, where);
    } else {
        page->xml.failed = true;
    }
    dawn_picture_release(picture);
}

static void put_night(struct dawn_page *page, const struct dawn_nights_story *story, size_t night,
                      enum dawn_units units)
{
    struct dawn_picture picture;
    const bool built =
        dawn_picture_night(&picture, story, &story->nights->night[night], units, false);

    put_chart(page, &picture, built, NULL);
}

static void put_first(struct dawn_page *page, const struct dawn_nights_story *story,
                      enum dawn_units units)
{
    struct dawn_picture picture;

    if (story->nights->count == 1) {
        put_night(page, story, 0, units);
        return;
    }
    const bool built = dawn_picture_lows(&picture, story, units);
    put_chart(page, &picture, built, "in the table of every night");
}

static void put_every_night(struct dawn_page *page, const struct dawn_nights_story *story,
                            enum dawn_units units)
{
    struct dawn_tableout table;
    char line[DAWN_REPORT_ROOM];

    dawn_page_section(page, "Every night");
    dawn_report_nights_table(&table, units, story);
    dawn_page_table(page, &table, 2, NULL);
    dawn_page_words(page,
                    "Lowest temperatures outside, in the house air, at trays, leaves and "
                    "roots; At: when it is coldest %s; heat: what the stores gave back from "
                    "dusk to dawn (below 0: took up); fan hours since the night before.",
                    dawn_picture_place(story->nights));
    if (dawn_report_crop_column(story->nights)) {
        dawn_page_words(page, "Crop: hours below %s %s.",
                        dawn_report_line(story->nights->crop_line_C, units, line),
                        dawn_nights_crop_place_words(story->nights->crop_place));
    }
}

static void put_snow(struct dawn_page *page, const struct dawn_nights_story *story,
                     enum dawn_units units)
{
    const size_t nights = dawn_nights_cover_of_snow(story->nights, story->network);
    struct dawn_text load = {0};

    if (nights == 0) {
        return;
    }
    dawn_report_snow_load(&load, units, story->scenario);
    page->xml.failed = page->xml.failed || load.failed;
    dawn_page_words(page, "Snow lies on the roof at dawn of %zu of %zu nights: %s.", nights,
                    story->nights->count, load.failed ? "" : load.data);
    dawn_text_release(&load);
}

static void put_pictures(struct dawn_page *page, const struct dawn_nights_story *story,
                         enum dawn_units units)
{
    size_t index[PICTURED_MOST];
    const size_t count = dawn_nights_coldest_few(story->nights, index, PICTURED_MOST);

    if (story->nights->count < 2) {
        return;
    }
    dawn_page_section(page, "Night by night");
    if (count < story->nights->count) {
        dawn_page_words(page,
                        "The %zu coldest of %zu nights; others can be had with --from and "
                        "--to.",
                        count, story->nights->count);
    }
    dawn_page_side_by_side(page, true);
    for (size_t i = 0; i < count; i++) {
        put_night(page, story, index[i], units);
    }
    dawn_page_side_by_side(page, false);
}

static void put_heat(struct dawn_page *page, const struct dawn_nights_story *story)
{
    struct dawn_picture picture;

    if (story->ledger == NULL) {
        return;
    }
    dawn_page_section(page, "Where the heat came from and went");
    if (dawn_picture_heat(&picture, story)) {
        dawn_page_bars(page, &picture.bars);
    } else {
        page->xml.failed = true;
    }
    dawn_picture_release(&picture);
}

static enum dawn_status end(struct dawn_page *page, const struct dawn_nights_story *story)
{
    const struct dawn_trajectory_facts facts = dawn_trajectory_facts(story->run);
    struct dawn_text assumed = {0};
    struct dawn_text checked = {0};

    dawn_report_past(&assumed, &facts);
    dawn_text_add(&assumed, "%s", story->fan_kept_off ? "the fan was kept off" : "");
    dawn_report_checked(&checked, &facts);
    page->xml.failed = page->xml.failed || assumed.failed || checked.failed;
    for (size_t i = assumed.size; i > 0 && strchr("; ", assumed.data[i - 1]) != NULL; i--) {
        assumed.data[i - 1] = '\0';
    }
    const struct dawn_page_basis basis = {.scenario = story->scenario,
                                          .weather = story->weather,
                                          .assumed = assumed.data,
                                          .checked = checked.data};
    const enum dawn_status status = dawn_page_end(page, &basis);
    dawn_text_release(&assumed);
    dawn_text_release(&checked);
    return status;
}

enum dawn_status dawn_report_nights_page(FILE *out, enum dawn_units units,
                                         const struct dawn_nights_story *story)
{
    struct dawn_page page;

    head_of(&page, out, units, story);
    put_first(&page, story, units);
    put_every_night(&page, story, units);
    put_snow(&page, story, units);
    put_pictures(&page, story, units);
    put_heat(&page, story);
    return end(&page, story);
}
