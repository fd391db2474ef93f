/* A table of the text report, on the page. */
#include "report/page.h"

/* Cells are padded with nothing here, but a cell may begin with blanks that mean "part of". */
static void put_row(struct dawn_xmlout *xml, const struct dawn_tableout *table, size_t first,
                    const char *element)
{
    dawn_xmlout_open(xml, "tr");
    for (size_t i = 0; i < table->columns && first + i < table->cells; i++) {
        dawn_xmlout_open(xml, element);
        if (!table->left[i]) {
            dawn_xmlout_attribute(xml, "class", "n");
        }
        dawn_xmlout_text(xml, "%s", table->cell[first + i]);
        dawn_xmlout_close(xml);
    }
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
}

static void put_rows(struct dawn_xmlout *xml, const struct dawn_tableout *table,
                     size_t heading_rows)
{
    const size_t heading = heading_rows * table->columns;

    dawn_xmlout_open(xml, "thead");
    for (size_t i = 0; i < heading && i < table->cells; i += table->columns) {
        put_row(xml, table, i, "th");
    }
    dawn_xmlout_close(xml);
    dawn_xmlout_open(xml, "tbody");
    dawn_xmlout_line(xml);
    for (size_t i = heading; i < table->cells; i += table->columns) {
        put_row(xml, table, i, "td");
    }
    dawn_xmlout_close(xml);
}

void dawn_page_table(struct dawn_page *page, struct dawn_tableout *table, size_t heading_rows,
                     const char *folded)
{
    struct dawn_xmlout *xml = &page->xml;

    if (folded != NULL) {
        dawn_xmlout_open(xml, "details");
        dawn_xmlout_element(xml, "summary", folded);
    }
    dawn_xmlout_open(xml, "div");
    dawn_xmlout_attribute(xml, "class", "scroll");
    dawn_xmlout_open(xml, "table");
    put_rows(xml, table, heading_rows);
    dawn_xmlout_close(xml);
    dawn_xmlout_close(xml);
    if (folded != NULL) {
        dawn_xmlout_close(xml);
    }
    dawn_xmlout_line(xml);
    xml->failed = xml->failed || table->failed;
    dawn_tableout_drop(table);
}
