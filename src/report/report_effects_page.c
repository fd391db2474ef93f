/* Which effect matters, as a page: a bar an effect, and the table. */
#include "base/text.h"
#include "report/page.h"
#include "report/report_parts.h"

static struct dawn_effects_change change_of(const struct dawn_effects *effects, size_t row)
{
    return effects->by_air ? dawn_effects_change_in_air(effects, row)
                           : dawn_effects_change_at_place(effects, row);
}

static void put_bars(struct dawn_page *page, enum dawn_units units,
                     const struct dawn_effects *effects)
{
    struct dawn_chart_bar bar[DAWN_EFFECTS_MOST];
    const char *place = effects->at_trays && !effects->by_air ? "at the trays" : "in the house air";
    char title[DAWN_REPORT_ROOM];
    size_t count = 0;

    snprintf(title, sizeof title, "The coldest night %s, without ...", place);
    for (size_t i = 0; i < effects->count; i++) {
        if (!effects->row[i].failed) {
            bar[count++] =
                (struct dawn_chart_bar){effects->row[i].name, change_of(effects, i).coldest_K *
                                                                  (units == DAWN_US ? 1.8 : 1.0)};
        }
    }
    const struct dawn_chart_bars bars = {
        .id = "effects",
        .title = title,
        .description = "A bar for each effect: how much warmer (to the right) or colder (to the "
                       "left) the low of the coldest night would be without it.",
        .unit = dawn_report_difference_unit(units),
        .decimals = 1,
        .signs = true,
        .bar = bar,
        .count = count};
    dawn_page_bars(page, &bars);
}

enum dawn_status dawn_report_effects_page(FILE *out, enum dawn_units units,
                                          const struct dawn_effects_story *story)
{
    const struct dawn_effects *effects = story->effects;
    struct dawn_text decision = {0};
    struct dawn_tableout table;
    struct dawn_page page;

    dawn_report_effects_decision(&decision, units, effects);
    dawn_page_begin(&page, out,
                    &(struct dawn_page_head){
                        .name = story->scenario->name,
                        .kind = "What matters",
                        .decision = decision.data != NULL ? decision.data : "",
                        .caution = "A model's estimate: the order is worth more than the tenths."});
    page.xml.failed = decision.failed;
    dawn_text_release(&decision);
    put_bars(&page, units, effects);
    dawn_page_section(&page, "Every effect");
    dawn_report_effects_table(&table, units, effects);
    dawn_page_table(&page, &table, 2, NULL);
    dawn_page_words(
        &page,
        "How much warmer (+) or colder (-) the low of the coldest night, and the mean of "
        "all %zu nights' lows, without that effect; one at a time, so they do not add up.",
        effects->nights);
    if (effects->by_air) {
        dawn_page_words(&page, "Where the trays' water freezes it holds them at the freezing point "
                               "and hides what else changes; so the order follows the air.");
    }
    for (size_t i = 0; i < effects->count; i++) {
        dawn_page_words(&page, "Without %s: %s.", effects->row[i].name, effects->row[i].instead);
    }
    return dawn_page_end(
        &page, &(struct dawn_page_basis){.scenario = story->scenario, .weather = story->weather});
}
