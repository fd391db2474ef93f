/* Thermostat settings as a page: how warm the cold nights stay for each start that was tried. */
#include "report/page.h"
#include "report/picture.h"
#include "report/report_studies.h"

static void put_curve(struct dawn_page *page, const struct dawn_setpoint *setpoint,
                      enum dawn_units units)
{
    struct dawn_picture picture;

    if (!dawn_picture_setpoint(&picture, setpoint, units)) {
        page->xml.failed = true;
        return;
    }
    dawn_page_chart(page, &picture.chart, NULL);
    dawn_picture_release(&picture);
}

static void put_tables(struct dawn_page *page, const struct dawn_setpoint *setpoint,
                       enum dawn_units units)
{
    struct dawn_tableout table;
    struct dawn_text band = {0};

    dawn_page_section(page, "Every start");
    dawn_report_setpoint_starts(&table, units, setpoint);
    dawn_page_table(page, &table, 2, NULL);
    dawn_page_words(page,
                    "Cold: mean low of the coldest tenth of the nights, by which settings are "
                    "judged. Power: electricity of the fan. Hot: hours in which the house is "
                    "too hot for plants.");
    dawn_report_setpoint_band(&band, units, setpoint);
    dawn_page_said(page, "Band", &band);
    dawn_page_section(page, "Month by month");
    dawn_report_setpoint_months(&table, units, setpoint);
    dawn_page_table(page, &table, 1, NULL);
}

enum dawn_status dawn_report_setpoint_page(FILE *out, enum dawn_units units,
                                           const struct dawn_study_story *story,
                                           const struct dawn_setpoint *setpoint)
{
    struct dawn_text decision = {0};
    struct dawn_page page;

    dawn_report_setpoint_decision(&decision, units, setpoint);
    dawn_page_begin(&page, out,
                    &(struct dawn_page_head){
                        .name = story->scenario->name,
                        .kind = "When the fan should start",
                        .decision = decision.data != NULL ? decision.data : "",
                        .caution = "A model's estimate: keep an alarm thermometer, and look at the "
                                   "fan after you have set it."});
    page.xml.failed = decision.failed;
    dawn_text_release(&decision);
    if (setpoint->best < setpoint->count) {
        put_curve(&page, setpoint, units);
    }
    put_tables(&page, setpoint, units);
    dawn_report_study_words(&decision, story, setpoint->nights);
    dawn_page_said(&page, "For", &decision);
    return dawn_page_end(&page,
                         &(struct dawn_page_basis){.scenario = story->scenario,
                                                   .weather = story->years->year[0].weather});
}
