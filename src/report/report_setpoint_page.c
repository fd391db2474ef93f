/* Thermostat settings as a page: how warm the cold nights stay for each start that was tried. */
#include <math.h>

#include "report/page.h"
#include "report/picture.h"
#include "report/report_studies.h"

/* The starts tried with the gap and the margin that are recommended. */
struct starts {
    double x[DAWN_SETPOINT_MOST], cold[DAWN_SETPOINT_MOST], coldest[DAWN_SETPOINT_MOST];
    size_t count;
};

static void insert(struct starts *starts, double x, double cold, double coldest)
{
    size_t at = starts->count;

    for (; at > 0 && starts->x[at - 1] > x; at--) {
        starts->x[at] = starts->x[at - 1];
        starts->cold[at] = starts->cold[at - 1];
        starts->coldest[at] = starts->coldest[at - 1];
    }
    starts->x[at] = x;
    starts->cold[at] = cold;
    starts->coldest[at] = coldest;
    starts->count++;
}

static void fill_starts(struct starts *starts, const struct dawn_setpoint *setpoint,
                        enum dawn_units units)
{
    const struct dawn_setpoint_row *best = &setpoint->row[setpoint->best];

    starts->count = 0;
    for (size_t i = 1; i < setpoint->count && starts->count < DAWN_SETPOINT_MOST; i++) {
        const struct dawn_setpoint_row *row = &setpoint->row[i];
        if (!row->failed && fabs(row->gap_K - best->gap_K) < 1e-9 &&
            fabs(row->margin_K - best->margin_K) < 1e-9) {
            insert(starts, dawn_picture_degrees(row->on_C, units),
                   dawn_picture_degrees(row->cold_C, units),
                   dawn_picture_degrees(row->sum.coldest_C, units));
        }
    }
}

static void put_curve(struct dawn_page *page, const struct dawn_setpoint *setpoint,
                      enum dawn_units units)
{
    const struct dawn_setpoint_row *best = &setpoint->row[setpoint->best];
    const struct dawn_chart_span good = {dawn_picture_degrees(setpoint->from_C, units),
                                         dawn_picture_degrees(setpoint->to_C, units)};
    struct starts starts;

    fill_starts(&starts, setpoint, units);
    dawn_page_chart(
        page,
        &(struct dawn_chart){
            .id = "starts",
            .title = "Cold nights, by the temperature at which the fan starts",
            .description = "The mean low of the coldest tenth of the nights and the coldest night, "
                           "for each start that was tried, with the recommended one marked.",
            .x_name = units == DAWN_US ? "fan starts at (F)" : "fan starts at (C)",
            .y_name = units == DAWN_US ? "temperature (F)" : "temperature (C)",
            .x = starts.x,
            .count = starts.count,
            .dots = true,
            .x_decimals = 1,
            .y_decimals = 2,
            .line = {{"coldest tenth", starts.cold, DAWN_CHART_TRAYS, NULL, NULL},
                     {"coldest night", starts.coldest, DAWN_CHART_AIR, NULL, NULL}},
            .line_count = 2,
            .shade = {{"as good", DAWN_CHART_COVER, &good, 1}},
            .shade_count = good.to > good.from ? 1 : 0,
            .mark = {{"recommended", dawn_picture_degrees(best->on_C, units),
                      dawn_picture_degrees(best->cold_C, units)}},
            .mark_count = 1},
        NULL);
}

static void put_tables(struct dawn_page *page, const struct dawn_setpoint *setpoint,
                       enum dawn_units units)
{
    struct dawn_tableout table;

    dawn_page_section(page, "Every start");
    dawn_report_setpoint_starts(&table, units, setpoint);
    dawn_page_table(page, &table, 2, NULL);
    dawn_page_words(page,
                    "Cold: mean low of the coldest tenth of the nights, by which settings are "
                    "judged. Power: electricity of the fan. Hot: hours in which the house is "
                    "too hot for plants.");
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
    return dawn_page_end(&page,
                         &(struct dawn_page_basis){.scenario = story->scenario,
                                                   .weather = story->years->year[0].weather});
}
