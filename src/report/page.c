/* A page from top to bottom. */
#include "report/page.h"

#include <stdarg.h>
#include <stdlib.h>

#include "base/text.h"
#include "dawnlow/version.h"

/* ---- what elements are made of ---- */

static void put_meta(struct dawn_xmlout *xml, const char *name, const char *content)
{
    dawn_xmlout_leaf(xml, "meta");
    dawn_xmlout_attribute(xml, "name", "%s", name);
    dawn_xmlout_attribute(xml, "content", "%s", content);
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
}

static void put_classed(struct dawn_xmlout *xml, const char *element, const char *kind,
                        const char *text)
{
    dawn_xmlout_open(xml, element);
    dawn_xmlout_attribute(xml, "class", "%s", kind);
    dawn_xmlout_text(xml, "%s", text);
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
}

static void put_head(struct dawn_xmlout *xml, const struct dawn_page_head *head)
{
    dawn_xmlout_open(xml, "head");
    dawn_xmlout_line(xml);
    dawn_xmlout_leaf(xml, "meta");
    dawn_xmlout_attribute(xml, "charset", "utf-8");
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
    /* The page may not ask anybody for anything, nor run anything. */
    dawn_xmlout_leaf(xml, "meta");
    dawn_xmlout_attribute(xml, "http-equiv", "Content-Security-Policy");
    dawn_xmlout_attribute(xml, "content", "default-src 'none'; style-src 'unsafe-inline'");
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
    put_meta(xml, "viewport", "width=device-width, initial-scale=1");
    put_meta(xml, "color-scheme", "light dark");
    put_meta(xml, "generator", "dawnlow " DAWN_VERSION);
    dawn_xmlout_open(xml, "title");
    dawn_xmlout_text(xml, "%s%s%s", head->name, head->name[0] != '\0' ? ": " : "", head->kind);
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
    dawn_xmlout_open(xml, "style");
    dawn_xmlout_text(xml, "\n%s%s", dawn_chart_style(), dawn_page_style());
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
}

static void put_decision(struct dawn_xmlout *xml, const struct dawn_page_head *head)
{
    dawn_xmlout_open(xml, "p");
    dawn_xmlout_attribute(xml, "class", "over");
    dawn_xmlout_text(xml, "%s%s%s", head->name, head->name[0] != '\0' ? " \xC2\xB7 " : "",
                     head->kind);
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
    dawn_xmlout_open(xml, "h1");
    dawn_xmlout_attribute(xml, "id", "decision");
    dawn_xmlout_text(xml, "%s", head->decision);
    dawn_xmlout_close(xml);
    dawn_xmlout_line(xml);
    if (head->detail != NULL) {
        put_classed(xml, "p", "detail", head->detail);
    }
    if (head->caution != NULL) {
        put_classed(xml, "p", "caution", head->caution);
    }
}

void dawn_page_begin(struct dawn_page *page, FILE *out, const struct dawn_page_head *head)
{
    *page = (struct dawn_page){0};
    dawn_xmlout_begin(&page->xml, out);
    page->gathered = open_memstream(&page->text, &page->size);
    dawn_xmlout_begin(&page->numbers, page->gathered);
    fputs("<!DOCTYPE html>\n", out);
    dawn_xmlout_open(&page->xml, "html");
    dawn_xmlout_attribute(&page->xml, "xmlns", "http://www.w3.org/1999/xhtml");
    dawn_xmlout_attribute(&page->xml, "lang", "en");
    dawn_xmlout_line(&page->xml);
    put_head(&page->xml, head);
    dawn_xmlout_open(&page->xml, "body");
    dawn_xmlout_line(&page->xml);
    dawn_xmlout_open(&page->xml, "section");
    dawn_xmlout_attribute(&page->xml, "class", "first");
    dawn_xmlout_line(&page->xml);
    put_decision(&page->xml, head);
}

/* ---- its parts ---- */

void dawn_page_section(struct dawn_page *page, const char *title)
{
    dawn_xmlout_close(&page->xml);
    dawn_xmlout_line(&page->xml);
    dawn_xmlout_open(&page->xml, "section");
    dawn_xmlout_line(&page->xml);
    dawn_xmlout_element(&page->xml, "h2", title);
    dawn_xmlout_line(&page->xml);
}

void dawn_page_words(struct dawn_page *page, const char *format, ...)
{
    struct dawn_text text = {0};
    va_list arguments;

    va_start(arguments, format);
    dawn_text_vadd(&text, format, arguments);
    va_end(arguments);
    page->xml.failed = page->xml.failed || text.failed;
    dawn_xmlout_element(&page->xml, "p", text.data);
    dawn_xmlout_line(&page->xml);
    dawn_text_release(&text);
}

void dawn_page_said(struct dawn_page *page, const char *lead, struct dawn_text *text)
{
    page->xml.failed = page->xml.failed || text->failed;
    if (!text->failed && text->data != NULL) {
        dawn_page_words(page, "%s: %s.", lead, text->data);
    }
    dawn_text_release(text);
}

static void open_figure(struct dawn_page *page, const char *id, const char *title)
{
    dawn_xmlout_open(&page->xml, "figure");
    dawn_xmlout_attribute(&page->xml, "id", "%s", id);
    dawn_xmlout_line(&page->xml);
    dawn_xmlout_open(&page->xml, "figcaption");
    dawn_xmlout_text(&page->xml, "%s", title);
}

static void close_caption(struct dawn_page *page)
{
    dawn_xmlout_close(&page->xml);
    dawn_xmlout_line(&page->xml);
}

static void close_figure(struct dawn_page *page)
{
    dawn_xmlout_close(&page->xml);
    dawn_xmlout_line(&page->xml);
}

void dawn_page_chart(struct dawn_page *page, const struct dawn_chart *chart, const char *where)
{
    open_figure(page, chart->id, chart->title);
    if (where != NULL) {
        dawn_xmlout_text(&page->xml, " (numbers: %s)", where);
    } else if (page->gathered != NULL) {
        dawn_xmlout_text(&page->xml, " ");
        dawn_xmlout_open(&page->xml, "a");
        dawn_xmlout_attribute(&page->xml, "href", "#%s-numbers", chart->id);
        dawn_xmlout_text(&page->xml, "numbers");
        dawn_xmlout_close(&page->xml);
        dawn_page_numbers(&page->numbers, chart);
    }
    close_caption(page);
    dawn_chart_svg(&page->xml, chart, false);
    close_figure(page);
}

void dawn_page_bars(struct dawn_page *page, const struct dawn_chart_bars *bars)
{
    open_figure(page, bars->id, bars->title);
    close_caption(page);
    dawn_chart_bars_svg(&page->xml, bars, false);
    close_figure(page);
}

void dawn_page_side_by_side(struct dawn_page *page, bool yes)
{
    if (page->side_by_side && !yes) {
        dawn_xmlout_close(&page->xml);
    } else if (!page->side_by_side && yes) {
        dawn_xmlout_open(&page->xml, "div");
        dawn_xmlout_attribute(&page->xml, "class", "side");
    }
    dawn_xmlout_line(&page->xml);
    page->side_by_side = yes;
}

/* ---- the end ---- */

static void put_numbers(struct dawn_page *page)
{
    if (page->size > 0) {
        dawn_page_section(page, "The numbers behind the pictures");
        dawn_xmlout_line(&page->xml);
        (void)fwrite(page->text, 1, page->size, page->xml.out);
    }
}

enum dawn_status dawn_page_end(struct dawn_page *page, const struct dawn_page_basis *basis)
{
    bool whole = page->gathered != NULL && !page->numbers.failed;

    dawn_page_basis(page, basis);
    if (page->gathered != NULL) {
        whole = fclose(page->gathered) == 0 && whole;
        put_numbers(page);
    }
    free(page->text);
    dawn_page_cautions(page);
    for (int i = page->xml.depth; i > 0; i--) {
        dawn_xmlout_close(&page->xml);
        dawn_xmlout_line(&page->xml);
    }
    return whole && !page->xml.failed ? DAWN_OK : DAWN_ERR_NOMEM;
}
