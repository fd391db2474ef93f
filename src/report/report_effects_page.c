/* Which effect matters, as a page: a bar an effect, and the table. */
#include "base/text.h"
#include "report/page.h"
#include "report/picture.h"

static void put_bars(struct dawn_page *page, enum dawn_units units,
                     const struct dawn_effects *effects)
{
    struct dawn_picture picture;

    if (!dawn_picture_effects(&picture, effects, units)) {
        page->xml.failed = true;
        return;
    }
    dawn_page_bars(page, &picture.bars);
    dawn_picture_release(&picture);
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
