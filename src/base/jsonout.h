/* JSON written as it comes: commas, nesting, escapes and numbers are kept right here. */
#ifndef BASE_JSONOUT_H
#define BASE_JSONOUT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

enum { DAWN_JSON_DEPTH = 32 };
struct dawn_jsonout {
    FILE *out;
    int depth;
    bool first[DAWN_JSON_DEPTH];  /* nothing written yet at this depth */
    bool list[DAWN_JSON_DEPTH];   /* an array: its plain values share a line */
    bool nested[DAWN_JSON_DEPTH]; /* what was last written at this depth is an array or object */
};
void dawn_jsonout_begin(struct dawn_jsonout *json, FILE *out);
void dawn_jsonout_end(struct dawn_jsonout *json);                     /* final newline */
void dawn_jsonout_object(struct dawn_jsonout *json, const char *key); /* key NULL in arrays, root */
void dawn_jsonout_close_object(struct dawn_jsonout *json);
void dawn_jsonout_array(struct dawn_jsonout *json, const char *key);
void dawn_jsonout_close_array(struct dawn_jsonout *json);
/* Bytes that are no UTF-8 become U+FFFD, so that the output is always JSON. */
void dawn_jsonout_text(struct dawn_jsonout *json, const char *key,
                       const char *value); /* NULL = null */
/* decimals >= 0: rounded to that many; -1: the shortest text that reads back the same. NaN and
 * infinities become null; -0 becomes 0. Never the locale's decimal mark. */
void dawn_jsonout_number(struct dawn_jsonout *json, const char *key, double value, int decimals);
void dawn_jsonout_integer(struct dawn_jsonout *json, const char *key, int64_t value);
void dawn_jsonout_bool(struct dawn_jsonout *json, const char *key, bool value);
void dawn_jsonout_null(struct dawn_jsonout *json, const char *key);

#endif
