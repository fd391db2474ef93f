/* The end of pages that look ahead. */
#include "report/page_coming.h"

#include <inttypes.h>

#include "report/picture.h"

static void put_heat(struct dawn_page *page, const struct dawn_nights_story *nights)
{
    struct dawn_picture picture;

    dawn_page_section(page, "Where the heat would come from and go");
    if (dawn_picture_heat(&picture, nights)) {
        dawn_page_bars(page, &picture.bars);
    } else {
        page->xml.failed = true;
    }
    dawn_picture_release(&picture);
}

void dawn_page_coming_nights(struct dawn_page *page, enum dawn_units units,
                             const struct dawn_nights_story *nights)
{
    if (nights == NULL || nights->nights->count == 0) {
        return;
    }
    dawn_page_section(page, "If forecast and nursery were just as told");
    dawn_page_words(page, "One run without any error, nothing done by hand: what would be seen "
                          "where. The true night lies to one side of it.");
    dawn_page_side_by_side(page, nights->nights->count > 1);
    for (size_t i = 0; i < nights->nights->count; i++) {
        struct dawn_picture picture;
        if (dawn_picture_night(&picture, nights, &nights->nights->night[i], units, false)) {
            dawn_page_chart(page, &picture.chart, NULL);
        } else {
            page->xml.failed = true;
        }
        dawn_picture_release(&picture);
    }
    dawn_page_side_by_side(page, false);
    if (nights->ledger != NULL) {
        put_heat(page, nights);
    }
}

enum dawn_status dawn_page_coming_end(struct dawn_page *page, const struct dawn_page_coming *coming)
{
    struct dawn_text chance = {0};

    dawn_text_add(&chance,
                  "%zu runs, drawn with seed %" PRIu64 "; the same seed gives the same page",
                  coming->members, coming->seed);
    page->xml.failed = page->xml.failed || chance.failed || coming->assumed->failed;
    const struct dawn_page_basis basis = {.scenario = coming->scenario,
                                          .weather = coming->weather,
                                          .assumed = coming->assumed->data,
                                          .chance = chance.data};
    const enum dawn_status status = dawn_page_end(page, &basis);
    dawn_text_release(&chance);
    dawn_text_release(coming->assumed);
    return status;
}
