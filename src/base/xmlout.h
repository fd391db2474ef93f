/* XML written as it comes: nesting, quoting and escapes are kept right here, so that what is
 * written is always well-formed. Chosen so that a page written with it reads the same as XML and as
 * HTML: only elements that are empty by nature (dawn_xmlout_leaf) have no closing tag. */
#ifndef BASE_XMLOUT_H
#define BASE_XMLOUT_H

#include <stdbool.h>
#include <stdio.h>

enum { DAWN_XML_DEPTH = 32 };
struct dawn_xmlout {
    FILE *out;
    int depth;
    const char *name[DAWN_XML_DEPTH]; /* of the open elements; not copied */
    bool leaf;                        /* the innermost one is empty by nature */
    bool in_tag;                      /* its start tag still takes attributes */
    bool failed;                      /* memory ran out: something is missing */
};
void dawn_xmlout_begin(struct dawn_xmlout *xml, FILE *out);
/* Names are literals of the caller and not checked. */
void dawn_xmlout_open(struct dawn_xmlout *xml, const char *name);
void dawn_xmlout_leaf(struct dawn_xmlout *xml, const char *name);
/* Right behind open or leaf. Numbers are written with a point whatever the locale. */
void dawn_xmlout_attribute(struct dawn_xmlout *xml, const char *name, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* Text content; bytes that are no UTF-8 and characters XML has no place for become U+FFFD. */
void dawn_xmlout_text(struct dawn_xmlout *xml, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Closes the innermost element. */
void dawn_xmlout_close(struct dawn_xmlout *xml);
/* A line break between elements, for whoever reads the source. */
void dawn_xmlout_line(struct dawn_xmlout *xml);
/* open, text, close in one; text NULL = none. */
void dawn_xmlout_element(struct dawn_xmlout *xml, const char *name, const char *text);

#endif
