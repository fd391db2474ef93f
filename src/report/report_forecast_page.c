/* The coming nights as a page: the decision and the band of lows, then chances, tables, and every
 * night as the forecast has it. */
#include "report/page.h"
#include "report/page_coming.h"
#include "report/picture.h"
#include "report/report_forecast.h"

static void put_first(struct dawn_page *page, const struct dawn_forecast_story *story,
                      enum dawn_units units)
{
    struct dawn_picture picture;

    if (!dawn_picture_forecast(&picture, story, units)) {
        page->xml.failed = true;
    } else if (picture.chart.line_count == 0) {
        dawn_page_bars(page, &picture.bars);
    } else {
        dawn_page_chart(page, &picture.chart, NULL);
    }
    dawn_picture_release(&picture);
}

static void put_chances(struct dawn_page *page, const struct dawn_forecast_story *story,
                        enum dawn_units units)
{
    struct dawn_picture picture;
    struct dawn_tableout table;
    struct dawn_text text = {0};

    dawn_page_section(page, "The chances, night by night");
    if (dawn_picture_chances(&picture, story)) {
        dawn_page_bars(page, &picture.bars);
    } else {
        page->xml.failed = true;
    }
    dawn_picture_release(&picture);
    dawn_report_forecast_lows(&table, story, units);
    dawn_page_table(page, &table, 2, NULL);
    dawn_report_forecast_more(&table, story, units);
    dawn_page_table(page, &table, 2, NULL);
    dawn_report_forecast_reading(&text, story, units);
    dawn_page_said(page, "Read", &text);
}

enum dawn_status dawn_report_forecast_page(FILE *out, enum dawn_units units,
                                           const struct dawn_forecast_story *story,
                                           const struct dawn_nights_story *nights)
{
    struct dawn_text decision = {0};
    struct dawn_text assumed = {0};
    struct dawn_text context = {0};
    struct dawn_page page;

    dawn_report_forecast_decision(story, units, &decision);
    dawn_page_begin(&page, out,
                    &(struct dawn_page_head){
                        .name = story->scenario->name,
                        .kind = "The coming nights",
                        .decision = decision.data != NULL ? decision.data : "",
                        .caution = "A small chance is not none, and leaves can freeze in "
                                   "air of 2 to 4 C under a clear sky: hang an alarm "
                                   "thermometer at the coldest tray, have covers at hand."});
    page.xml.failed = decision.failed;
    dawn_text_release(&decision);
    put_first(&page, story, units);
    put_chances(&page, story, units);
    dawn_report_forecast_context(&context, story);
    dawn_page_said(&page, "For", &context);
    dawn_page_coming_nights(&page, units, nights);
    dawn_report_forecast_assumed(&assumed, story, units);
    return dawn_page_coming_end(&page,
                                &(struct dawn_page_coming){.scenario = story->scenario,
                                                           .weather = story->weather,
                                                           .assumed = &assumed,
                                                           .members = story->forecast->members,
                                                           .seed = story->seed});
}
