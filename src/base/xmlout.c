/* XML written as it comes. */
#include "base/xmlout.h"

#include <assert.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/utf8.h"

static void put(struct dawn_xmlout *xml, const char *text)
{
    (void)fputs(text, xml->out);
}

/* A character XML 1.0 has a place for (its production 2), given that it is whole. */
static bool welcome(const char *s, size_t length)
{
    if (length == 1)
        return (unsigned char)*s >= 0x20 || *s == '\t' || *s == '\n';
    return length != 3 || (memcmp(s, "\xEF\xBF\xBE", 3) != 0 && memcmp(s, "\xEF\xBF\xBF", 3) != 0);
}

static const char *escape_of(char c)
{
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    default:
        return NULL;
    }
}

static void put_escaped(struct dawn_xmlout *xml, const char *text)
{
    size_t length = 0;
    for (const char *s = text; *s; s += length) {
        length = dawn_utf8_length(s);
        if (length == 0 || !welcome(s, length)) {
            put(xml, "\xEF\xBF\xBD");
            length = length ? length : 1;
        } else if (escape_of(*s)) {
            put(xml, escape_of(*s));
        } else {
            (void)fwrite(s, 1, length, xml->out);
        }
    }
}

static void put_formatted(struct dawn_xmlout *xml, const char *format, va_list arguments)
{
    char *text = dawn_text_format(format, arguments);
    if (text)
        put_escaped(xml, text);
    else
        xml->failed = true;
    free(text);
}

static void end_start_tag(struct dawn_xmlout *xml)
{
    if (xml->in_tag)
        put(xml, xml->leaf ? "/>" : ">");
    xml->in_tag = false;
}

void dawn_xmlout_begin(struct dawn_xmlout *xml, FILE *out)
{
    *xml = (struct dawn_xmlout){.out = out};
}

static void open_one(struct dawn_xmlout *xml, const char *name, bool leaf)
{
    assert(!xml->leaf && xml->depth < DAWN_XML_DEPTH);
    end_start_tag(xml);
    (void)fprintf(xml->out, "<%s", name);
    xml->name[xml->depth++] = name;
    xml->in_tag = true;
    xml->leaf = leaf;
}

void dawn_xmlout_open(struct dawn_xmlout *xml, const char *name)
{
    open_one(xml, name, false);
}

void dawn_xmlout_leaf(struct dawn_xmlout *xml, const char *name)
{
    open_one(xml, name, true);
}

void dawn_xmlout_attribute(struct dawn_xmlout *xml, const char *name, const char *format, ...)
{
    assert(xml->in_tag);
    va_list arguments;
    (void)fprintf(xml->out, " %s=\"", name);
    va_start(arguments, format);
    put_formatted(xml, format, arguments);
    va_end(arguments);
    put(xml, "\"");
}

void dawn_xmlout_text(struct dawn_xmlout *xml, const char *format, ...)
{
    assert(!xml->leaf);
    va_list arguments;
    end_start_tag(xml);
    va_start(arguments, format);
    put_formatted(xml, format, arguments);
    va_end(arguments);
}

void dawn_xmlout_close(struct dawn_xmlout *xml)
{
    assert(xml->depth > 0);
    end_start_tag(xml);
    xml->depth--;
    if (!xml->leaf)
        (void)fprintf(xml->out, "</%s>", xml->name[xml->depth]);
    xml->leaf = false;
}

void dawn_xmlout_line(struct dawn_xmlout *xml)
{
    end_start_tag(xml);
    put(xml, "\n");
}

void dawn_xmlout_element(struct dawn_xmlout *xml, const char *name, const char *text)
{
    dawn_xmlout_open(xml, name);
    if (text)
        dawn_xmlout_text(xml, "%s", text);
    dawn_xmlout_close(xml);
}
