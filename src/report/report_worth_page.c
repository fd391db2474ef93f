/* What money buys, as a page: a bar an improvement, a bar a guess. */
#include "report/page.h"
#include "report/picture.h"
#include "report/report_studies.h"

static void put_ways(struct dawn_page *page, enum dawn_units units, const struct dawn_worth *worth)
{
    struct dawn_picture picture;

    if (!dawn_picture_worth(&picture, worth, units)) {
        page->xml.failed = true;
        return;
    }
    dawn_page_bars(page, &picture.bars);
    dawn_picture_release(&picture);
}

static void put_guesses(struct dawn_page *page, enum dawn_units units,
                        const struct dawn_study_story *story, const struct dawn_worth *worth)
{
    struct dawn_picture picture;
    struct dawn_tableout table;

    if (!dawn_picture_guesses(&picture, worth, units)) {
        page->xml.failed = true;
        return;
    }
    if (picture.bars.count == 0) {
        dawn_picture_release(&picture);
        return;
    }
    dawn_page_section(page, "What to measure next");
    dawn_page_words(page, "%s: %s", worth->guess[0].name, worth->guess[0].measure);
    dawn_page_bars(page, &picture.bars);
    dawn_picture_release(&picture);
    dawn_report_worth_guesses(&table, units, story, worth);
    dawn_page_table(page, &table, 1, NULL);
}

enum dawn_status dawn_report_worth_page(FILE *out, enum dawn_units units,
                                        const struct dawn_study_story *story,
                                        const struct dawn_worth *worth)
{
    struct dawn_text decision = {0};
    struct dawn_tableout table;
    struct dawn_page page;

    dawn_report_worth_decision(&decision, units, story, worth);
    dawn_page_begin(&page, out,
                    &(struct dawn_page_head){
                        .name = story->scenario->name,
                        .kind = "What money buys",
                        .decision = decision.data != NULL ? decision.data : "",
                        .caution = "A model's estimate: the order is worth more than the tenths."});
    page.xml.failed = decision.failed;
    dawn_text_release(&decision);
    put_ways(&page, units, worth);
    dawn_page_section(&page, "Every improvement, one at a time");
    dawn_report_worth_ways(&table, units, story, worth);
    dawn_page_table(&page, &table, 2, NULL);
    dawn_page_words(&page, "Each alone, against the nursery as it is; two together give less than "
                           "their sum. Prices are those of the scenario and its defaults.");
    for (size_t i = 0; i < worth->ways; i++) {
        if (worth->way[i].care != NULL) {
            dawn_page_words(&page, "%s: %s.", worth->way[i].name, worth->way[i].care);
        }
    }
    put_guesses(&page, units, story, worth);
    dawn_report_study_words(&decision, story, worth->nights);
    dawn_page_said(&page, "For", &decision);
    return dawn_page_end(&page,
                         &(struct dawn_page_basis){.scenario = story->scenario,
                                                   .weather = story->years->year[0].weather});
}
