/* Nurseries side by side, as a page. */
#include "report/page.h"
#include "report/picture.h"
#include "report/report_studies.h"

static void put_coldest(struct dawn_page *page, enum dawn_units units,
                        const struct dawn_compare_story *story)
{
    double coldest_C[DAWN_COMPARE_MOST];
    struct dawn_picture picture;

    for (size_t i = 0; i < story->compare->count; i++) {
        coldest_C[i] = story->compare->sum[i].coldest_C;
    }
    if (!dawn_picture_compare(&picture, story->name, coldest_C, story->compare->count, units)) {
        page->xml.failed = true;
        return;
    }
    dawn_page_bars(page, &picture.bars);
    dawn_picture_release(&picture);
}

enum dawn_status dawn_report_compare_page(FILE *out, enum dawn_units units,
                                          const struct dawn_compare_story *story)
{
    struct dawn_text decision = {0};
    struct dawn_tableout table;
    struct dawn_page page;

    dawn_report_compare_decision(&decision, story, units);
    dawn_page_begin(&page, out,
                    &(struct dawn_page_head){
                        .name = "",
                        .kind = "Nurseries compared",
                        .decision = decision.data != NULL ? decision.data : "",
                        .caution = "A model's estimate: the difference is surer than each number; "
                                   "keep an alarm thermometer."});
    page.xml.failed = decision.failed;
    dawn_text_release(&decision);
    put_coldest(&page, units, story);
    dawn_page_section(&page, "What comes of it");
    dawn_report_compare_results(&table, units, story);
    dawn_page_table(&page, &table, 1, NULL);
    dawn_page_words(&page,
                    "%.0f nights each; lows at the trays where there are some, else in the house "
                    "air. Cost at the scenario's prices; what you pay may differ.",
                    story->compare->sum[0].nights);
    dawn_page_section(&page, "What differs");
    dawn_report_compare_inputs(&table, story);
    dawn_page_table(&page, &table, 1, NULL);
    for (size_t i = 0; i < story->compare->count; i++) {
        dawn_page_words(&page, "%s: %s, weather %s.", story->name[i], story->scenario[i]->path,
                        story->weather[i]);
    }
    /* The values of the first; how the others differ stands above. */
    return dawn_page_end(&page, &(struct dawn_page_basis){.scenario = story->scenario[0]});
}
