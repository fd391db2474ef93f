/* A sweep as a page: the coldest night against what was varied, and the first rows. */
#include <math.h>
#include <stdlib.h>

#include "report/page.h"
#include "report/picture.h"
#include "report/report_sweep.h"

static bool draw(struct dawn_page *page, const struct dawn_swept_table *table,
                 enum dawn_units units)
{
    const size_t keys = table->keys_end - DAWN_SWEPT_FIRST_KEY;
    const size_t rows = table->rows.count - 1;
    const char **text = calloc((rows + 1) * keys, sizeof *text);
    double *coldest_C = calloc(rows, sizeof *coldest_C);
    struct dawn_picture picture;
    bool drawn = false;

    if (text != NULL && coldest_C != NULL) {
        for (size_t i = 0; i < (rows + 1) * keys; i++) {
            text[i] = dawn_report_sweep_field(table, i / keys, DAWN_SWEPT_FIRST_KEY + i % keys);
        }
        for (size_t i = 0; i < rows; i++) {
            coldest_C[i] = dawn_report_sweep_number(table, i + 1, table->coldest);
        }
        drawn = dawn_picture_sweep(
            &picture, &(struct dawn_picture_swept){keys, rows, text, text + keys, coldest_C},
            units);
    }
    if (drawn && picture.chart.line_count > 0) {
        dawn_page_chart(page, &picture.chart, "the table of rows");
    } else if (drawn) {
        dawn_page_bars(page, &picture.bars);
    }
    if (drawn) {
        dawn_picture_release(&picture);
    }
    free(text);
    free(coldest_C);
    return drawn;
}

static void put_rows(struct dawn_page *page, const struct dawn_swept_table *table,
                     enum dawn_units units)
{
    struct dawn_tableout cells;

    dawn_page_section(page, "Every row");
    const size_t more = dawn_report_sweep_rows(&cells, table, units);
    dawn_page_table(page, &cells, 1, NULL);
    if (more > 0) {
        dawn_page_words(page, "And %zu more rows; --csv FILE holds them all.", more);
    }
    dawn_page_words(page, "Lows at the trays where there are some, else in the house air.");
}

enum dawn_status dawn_report_sweep_page(FILE *out, enum dawn_units units,
                                        const struct dawn_study_story *story,
                                        const struct dawn_text *table, const char *chance)
{
    struct dawn_swept_table read = {.keys_end = 0};
    struct dawn_text decision = {0};
    struct dawn_page page;

    if (!dawn_report_sweep_read(&read, table)) {
        return DAWN_ERR_NOMEM;
    }
    dawn_report_sweep_decision(&decision, &read, units);
    dawn_page_begin(&page, out,
                    &(struct dawn_page_head){
                        .name = story->scenario->name,
                        .kind = "Values varied",
                        .decision = decision.data != NULL ? decision.data : "",
                        .caution = "A model's estimate: compare rows rather than trusting one."});
    page.xml.failed = decision.failed;
    dawn_text_release(&decision);
    if (read.rows.count > 1) {
        page.xml.failed = !draw(&page, &read, units) || page.xml.failed;
        put_rows(&page, &read, units);
    }
    dawn_csvrows_release(&read.rows);
    return dawn_page_end(&page, &(struct dawn_page_basis){.scenario = story->scenario,
                                                          .weather = story->years->year[0].weather,
                                                          .chance = chance});
}
