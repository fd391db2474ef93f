/* Tonight as a page: what to do, every action's chance as a bar, what to look for, the curves. */
#include "report/page.h"
#include "report/page_coming.h"
#include "report/picture.h"
#include "report/report_forecast.h"
#include "report/report_tonight.h"

static void put_first(struct dawn_page *page, const struct dawn_tonight_story *story)
{
    struct dawn_picture picture;

    if (dawn_picture_tonight(&picture, story)) {
        dawn_page_bars(page, &picture.bars);
    } else {
        page->xml.failed = true;
    }
    dawn_picture_release(&picture);
}

static void put_actions(struct dawn_page *page, const struct dawn_tonight_story *story,
                        enum dawn_units units)
{
    struct dawn_tableout table;
    struct dawn_text text = {0};

    dawn_page_section(page, "Everything that can be done");
    dawn_report_tonight_table(&table, story, units);
    dawn_page_table(page, &table, 2, NULL);
    dawn_report_tonight_reading(&text, story);
    dawn_page_said(page, "Read", &text);
    dawn_page_section(page, "In the night");
    dawn_report_tonight_checks(&text, story, units);
    dawn_page_said(page, "Look", &text);
    dawn_report_tonight_failure(&text, story, units);
    dawn_page_said(page, "Fan", &text);
    dawn_report_tonight_uncover(&text, story);
    dawn_page_said(page, "Uncover", &text);
    dawn_report_tonight_caution(&text, story);
    dawn_page_said(page, "Caution", &text);
    dawn_report_tonight_context(&text, story);
    dawn_page_said(page, "For", &text);
}

enum dawn_status dawn_report_tonight_page(FILE *out, enum dawn_units units,
                                          const struct dawn_tonight_story *story,
                                          const struct dawn_nights_story *nights)
{
    struct dawn_text decision = {0};
    struct dawn_text assumed = {0};
    struct dawn_page page;

    dawn_report_tonight_decision(story, &decision);
    dawn_page_begin(&page, out,
                    &(struct dawn_page_head){
                        .name = story->scenario->name,
                        .kind = "Tonight",
                        .decision = decision.data != NULL ? decision.data : "",
                        .caution = "A small chance is not none: hang an alarm thermometer at the "
                                   "coldest tray, and look at it in the night."});
    page.xml.failed = decision.failed;
    dawn_text_release(&decision);
    put_first(&page, story);
    put_actions(&page, story, units);
    dawn_page_coming_nights(&page, units, nights);
    dawn_report_forecast_assumed(&assumed,
                                 &(struct dawn_forecast_story){.scenario = story->scenario}, units);
    return dawn_page_coming_end(&page,
                                &(struct dawn_page_coming){.scenario = story->scenario,
                                                           .weather = story->weather,
                                                           .assumed = &assumed,
                                                           .members = story->tonight->members,
                                                           .seed = story->seed});
}
