/* What to build, as a page: the answer, the low against it, the money, the nearest other designs.
 */
#include "report/page.h"
#include "report/picture.h"
#include "report/report_size.h"

static void put_curve(struct dawn_page *page, const struct dawn_report_sizing *sizing)
{
    struct dawn_picture picture;

    if (!dawn_picture_size(&picture, sizing->size, sizing->plan, sizing->units)) {
        page->xml.failed = true;
        return;
    }
    dawn_page_chart(page, &picture.chart, NULL);
    dawn_picture_release(&picture);
}

static void put_money(struct dawn_page *page, const struct dawn_report_sizing *sizing)
{
    struct dawn_chart_bar bar[DAWN_REPORT_SIZE_PARTS];
    struct dawn_report_size_part part[DAWN_REPORT_SIZE_PARTS];
    const size_t count = dawn_report_size_parts(sizing, part);

    for (size_t i = 0; i < count; i++) {
        bar[i] = (struct dawn_chart_bar){part[i].words, part[i].money};
    }
    dawn_page_bars(page, &(struct dawn_chart_bars){
                             .id = "money",
                             .title = "What it costs, what you have included",
                             .description = "A bar for each part of what is to be built, at the "
                                            "scenario's prices.",
                             .unit = dawn_report_size_money(sizing),
                             .bar = bar,
                             .count = count});
}

static void put_words(struct dawn_page *page, const char *lead,
                      void (*add)(struct dawn_text *text, const struct dawn_report_sizing *sizing),
                      const struct dawn_report_sizing *sizing)
{
    struct dawn_text text = {0};

    add(&text, sizing);
    dawn_page_said(page, lead, &text);
}

static void put_why(struct dawn_page *page, const struct dawn_report_sizing *sizing)
{
    struct dawn_tableout table;
    const struct dawn_trial *tried = dawn_report_size_tried(sizing);

    dawn_page_section(page, "Why this");
    put_words(page, "Goal", dawn_report_size_goal, sizing);
    put_words(page, "What decides", dawn_report_size_decides, sizing);
    put_words(page, "How sure", dawn_report_size_sure, sizing);
    put_words(page, "Enough", dawn_report_size_knee, sizing);
    if (sizing->size->changes > 0) {
        dawn_report_size_changes(&table, sizing);
        dawn_page_table(page, &table, 1, NULL);
    }
    if (sizing->size->curve_count > 0) {
        dawn_report_size_curve(&table, sizing);
        dawn_page_table(page, &table, 1, NULL);
        put_words(page, "Band", dawn_report_size_band, sizing);
    }
    if (sizing->size->ranges > 0) {
        dawn_report_size_usual(&table, sizing);
        dawn_page_table(page, &table, 1, NULL);
        put_words(page, "Why", dawn_report_size_unusual, sizing);
    }
    dawn_page_section(page, "The money");
    if (sizing->size->curve_count > 0) {
        put_money(page, sizing);
    }
    put_words(page, "Cost", dawn_report_size_costs, sizing);
    dawn_page_section(page, "How it was found");
    put_words(page, "Tried", dawn_report_size_found, sizing);
    dawn_page_words(page, "To see its nights, put behind dawnlow nights:");
    for (size_t i = 0; i < tried->sets && i < DAWN_TRIAL_SETS; i++) {
        dawn_page_words(page, "--set \"%s\"", tried->set[i]);
    }
}

enum dawn_status dawn_report_size_page(FILE *out, enum dawn_units units,
                                       const struct dawn_study_story *story,
                                       const struct dawn_size *size,
                                       const struct dawn_size_plan *plan)
{
    const struct dawn_report_sizing sizing = {units, story, size, plan};
    struct dawn_text text = {0};
    struct dawn_page page;

    dawn_report_size_decision(&text, &sizing);
    dawn_page_begin(&page, out,
                    &(struct dawn_page_head){
                        .name = story->scenario->name,
                        .kind = "What to build",
                        .decision = text.data != NULL ? text.data : "",
                        .caution = "A model's estimate. Rock and water are heavy: a licensed "
                                   "engineer says what ground and walls carry."});
    page.xml.failed = text.failed;
    dawn_text_release(&text);
    if (!size->stopped) {
        /* Where nothing varies there is no curve, and what it costs is the picture. */
        (size->curve_count > 0 ? put_curve : put_money)(&page, &sizing);
        put_why(&page, &sizing);
    }
    dawn_page_words(&page, "Caution: %s.", dawn_report_size_caution());
    dawn_report_study_words(&text, story, size->nights);
    dawn_page_said(&page, "For", &text);
    return dawn_page_end(&page,
                         &(struct dawn_page_basis){.scenario = story->scenario,
                                                   .weather = story->years->year[0].weather});
}
