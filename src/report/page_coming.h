/* What the pages that look ahead share: the nights as forecast, and what the chances rest on. */
#ifndef REPORT_PAGE_COMING_H
#define REPORT_PAGE_COMING_H

#include "base/text.h"
#include "report/page.h"

/* The curves of the nights as forecast and, where the story has a ledger, its heat. NULL = none. */
void dawn_page_coming_nights(struct dawn_page *page, enum dawn_units units,
                             const struct dawn_nights_story *nights);

struct dawn_page_coming {
    const struct dawn_scenario *scenario;
    const struct dawn_weather *weather;
    struct dawn_text *assumed; /* released; data NULL = nothing to say */
    size_t members;
    uint64_t seed;
};
/* dawn_page_end for them. */
enum dawn_status dawn_page_coming_end(struct dawn_page *page,
                                      const struct dawn_page_coming *coming);

#endif
