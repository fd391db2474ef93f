/* JSON written as it comes: commas, nesting, escapes and numbers are kept right here. */
#include "base/jsonout.h"

#include <assert.h>
#include <inttypes.h>
#include <string.h>

#include "base/text.h"
#include "base/utf8.h"

static void put(struct dawn_jsonout *json, const char *text)
{
    (void)fputs(text, json->out);
}

/* "</" is broken up so that the text may stand inside an HTML script element. */
static void put_ascii(struct dawn_jsonout *json, char c, char before)
{
    static const char letters[] = "\"\\\b\f\n\r\t";
    static const char escapes[] = "\"\\bfnrt";
    const char *known = strchr(letters, c);
    if (known)
        (void)fprintf(json->out, "\\%c", escapes[known - letters]);
    else if (c == '/' && before == '<')
        put(json, "\\/");
    else if ((unsigned char)c < 0x20 || c == 0x7F)
        (void)fprintf(json->out, "\\u%04x", (unsigned)c);
    else
        (void)fputc(c, json->out);
}

static void put_string(struct dawn_jsonout *json, const char *text)
{
    put(json, "\"");
    char before = '\0';
    size_t length = 0;
    for (const char *s = text; *s; s += length) {
        length = dawn_utf8_length(s);
        if (length == 0) {
            put(json, "\xEF\xBF\xBD");
            length = 1;
        } else if (length == 1) {
            put_ascii(json, *s, before);
        } else {
            (void)fwrite(s, 1, length, json->out);
        }
        before = *s;
    }
    put(json, "\"");
}

static void new_line(struct dawn_jsonout *json)
{
    (void)fprintf(json->out, "\n%*s", json->depth * 2, "");
}

/* Comma, place and key of the next value. Plain values of an array follow each other on a line: an
 * hourly series is not worth a line a number. */
static void lead_in(struct dawn_jsonout *json, const char *key, bool nesting)
{
    const int depth = json->depth;
    const bool inside = depth > 0;
    const bool own_line = inside && (!json->list[depth] || nesting || json->nested[depth]);
    assert(!inside || json->list[depth] == !key);
    if (inside && !json->first[depth])
        put(json, own_line ? "," : ", ");
    if (own_line)
        new_line(json);
    json->first[depth] = false;
    json->nested[depth] = nesting;
    if (key) {
        put_string(json, key);
        put(json, ": ");
    }
}

static void open_one(struct dawn_jsonout *json, const char *key, bool list)
{
    lead_in(json, key, true);
    put(json, list ? "[" : "{");
    assert(json->depth + 1 < DAWN_JSON_DEPTH);
    json->depth++;
    json->first[json->depth] = true;
    json->list[json->depth] = list;
    json->nested[json->depth] = false;
}

static void close_one(struct dawn_jsonout *json, bool list)
{
    const int depth = json->depth;
    assert(depth > 0 && json->list[depth] == list);
    json->depth--;
    if (!json->first[depth] && (!list || json->nested[depth]))
        new_line(json);
    put(json, list ? "]" : "}");
}

void dawn_jsonout_begin(struct dawn_jsonout *json, FILE *out)
{
    *json = (struct dawn_jsonout){.out = out};
    json->first[0] = true;
}

void dawn_jsonout_end(struct dawn_jsonout *json)
{
    assert(json->depth == 0);
    put(json, "\n");
}

void dawn_jsonout_object(struct dawn_jsonout *json, const char *key)
{
    open_one(json, key, false);
}

void dawn_jsonout_close_object(struct dawn_jsonout *json)
{
    close_one(json, false);
}

void dawn_jsonout_array(struct dawn_jsonout *json, const char *key)
{
    open_one(json, key, true);
}

void dawn_jsonout_close_array(struct dawn_jsonout *json)
{
    close_one(json, true);
}

void dawn_jsonout_text(struct dawn_jsonout *json, const char *key, const char *value)
{
    lead_in(json, key, false);
    if (value)
        put_string(json, value);
    else
        put(json, "null");
}

void dawn_jsonout_number(struct dawn_jsonout *json, const char *key, double value, int decimals)
{
    char text[512]; /* 309 digits before the mark at most */
    lead_in(json, key, false);
    put(json, dawn_text_from_number(text, sizeof text, value, decimals) ? text : "null");
}

void dawn_jsonout_integer(struct dawn_jsonout *json, const char *key, int64_t value)
{
    lead_in(json, key, false);
    (void)fprintf(json->out, "%" PRId64, value);
}

void dawn_jsonout_bool(struct dawn_jsonout *json, const char *key, bool value)
{
    lead_in(json, key, false);
    put(json, value ? "true" : "false");
}

void dawn_jsonout_null(struct dawn_jsonout *json, const char *key)
{
    lead_in(json, key, false);
    put(json, "null");
}
