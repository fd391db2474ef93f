/* A report as one page for a browser and a printer: it needs no network and no scripts, reads on a
 * phone, in the dark and on paper, and begins with a decision and one picture.
 *
 * Written from top to bottom:
 *
 *     struct dawn_page page;
 *     dawn_page_begin(&page, out, &head);                title, decision
 *     dawn_page_chart(&page, &chart, NULL);              the one picture of page one
 *     dawn_page_section(&page, "Every size tried");
 *     dawn_page_words(&page, "More than %s ...", ...);
 *     dawn_page_table(&page, &table, 2, NULL);           the table of the text report, as it is
 *     dawn_page_bars(&page, &bars);
 *     return dawn_page_end(&page, &basis);               inputs, numbers, cautions, sources
 *
 * The numbers behind each picture come by themselves. Nothing is kept of what is handed in, but its
 * texts must live until the call returns. */
#ifndef REPORT_PAGE_H
#define REPORT_PAGE_H

#include "base/tableout.h"
#include "base/text.h"
#include "base/xmlout.h"
#include "dawnlow/report.h"
#include "report/chart.h"

struct dawn_page {
    struct dawn_xmlout xml;
    struct dawn_xmlout numbers; /* gathered for the page's end */
    FILE *gathered;
    char *text;
    size_t size;
    bool side_by_side;
};

struct dawn_page_head {
    const char *name;     /* the nursery's; "" = it has none */
    const char *kind;     /* "Nights", "How much rock" */
    const char *decision; /* the first line of the text report, word for word */
    const char *detail;   /* what else belongs to it; NULL = nothing */
    const char *caution;  /* what to do all the same; one line, stands on page one */
};
void dawn_page_begin(struct dawn_page *page, FILE *out, const struct dawn_page_head *head);

/* Ends the section before. */
void dawn_page_section(struct dawn_page *page, const char *title);
/* A paragraph. */
void dawn_page_words(struct dawn_page *page, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* A paragraph "Lead: text." where the text holds something; releases it. */
void dawn_page_said(struct dawn_page *page, const char *lead, struct dawn_text *text);
/* A picture. where NULL: its numbers go into a table of their own at the page's end; else the words
 * say where they stand already. */
void dawn_page_chart(struct dawn_page *page, const struct dawn_chart *chart, const char *where);
/* Bars carry their numbers themselves. */
void dawn_page_bars(struct dawn_page *page, const struct dawn_chart_bars *bars);
/* Between them, pictures stand two abreast where there is room. */
void dawn_page_side_by_side(struct dawn_page *page, bool yes);
/* A table whose first heading_rows rows are its heading. folded: it opens under these words, and by
 * itself in print; NULL = open. Empties the table, as dawn_tableout_end does. */
void dawn_page_table(struct dawn_page *page, struct dawn_tableout *table, size_t heading_rows,
                     const char *folded);

/* What the result rests on. */
struct dawn_page_basis {
    const struct dawn_scenario *scenario;
    const struct dawn_weather *weather; /* NULL = none was needed */
    const char *assumed;                /* "the house had lived through ..."; NULL = nothing */
    const char *chance;  /* the seed and what was drawn with it; NULL = nothing is left to chance */
    const char *checked; /* "heat in, out and stored agree ..."; NULL = nothing to say */
};
/* Writes the rest and ends the page. DAWN_ERR_NOMEM when memory ran out anywhere: the page is not
 * whole then. Whether the stream took it is for its owner to ask. */
enum dawn_status dawn_page_end(struct dawn_page *page, const struct dawn_page_basis *basis);

/* Of the page's files, for each other. */
const char *dawn_page_style(void);
void dawn_page_numbers(struct dawn_xmlout *xml, const struct dawn_chart *chart);
void dawn_page_basis(struct dawn_page *page, const struct dawn_page_basis *basis);
void dawn_page_cautions(struct dawn_page *page);

#endif
