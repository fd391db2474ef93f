/* A strict subset of YAML as a flat list of events that is always well formed.
 *
 * Only sections (block mappings), lists (block sequences) and one-line values come through. What
 * the subset leaves out (anchors, aliases, tags, brackets, several-line values, second documents,
 * tabs before the text of a line) is complained of with its place and arrives as a refused event,
 * so a reader need not know of it. libyaml's parser does the work; its emitter is never linked. */
#ifndef BASE_YAMLIN_H
#define BASE_YAMLIN_H

#include <stdbool.h>
#include <stddef.h>

#include "dawnlow/problems.h"

enum {
    DAWN_YAMLIN_SIZE_MOST = 1 << 20, /* bytes */
    DAWN_YAMLIN_DEPTH_MOST = 8,
    DAWN_YAMLIN_EVENTS_MOST = 20000,
    DAWN_YAMLIN_PROBLEMS_MOST = 100 /* more are not worth reading */
};

enum dawn_yamlin_kind {
    DAWN_YAMLIN_KEY, /* always followed by a value, section or list */
    DAWN_YAMLIN_VALUE,
    DAWN_YAMLIN_SECTION,
    DAWN_YAMLIN_SECTION_END,
    DAWN_YAMLIN_LIST,
    DAWN_YAMLIN_LIST_END,
    DAWN_YAMLIN_END /* exactly one, last */
};

struct dawn_yamlin_event {
    enum dawn_yamlin_kind kind;
    bool refused;      /* a problem names it already: pass over it in silence */
    int line, column;  /* 1-based; column in bytes */
    size_t start, end; /* bytes in the text that was read, quotation marks included */
    const char *text;  /* of a key or value, unquoted; "" else */
};

struct dawn_yamlin_store; /* private */
struct dawn_yamlin {
    const struct dawn_yamlin_event *event;
    size_t count;
    bool whole; /* false: reading broke off, so what is missing may well stand further down */
    struct dawn_yamlin_store *store;
};

/* Reads text (UTF-8, at most DAWN_YAMLIN_SIZE_MOST bytes; a byte order mark is passed over). name
 * stands for the file in problems. yaml is zero-initialised by the caller and must be released.
 * DAWN_OK also when problems were found: compare problems->errors; DAWN_ERR_NOMEM otherwise. The
 * list ends with DAWN_YAMLIN_END unless memory ran out. */
enum dawn_status dawn_yamlin_read(struct dawn_yamlin *yaml, const char *name, const char *text,
                                  size_t size, struct dawn_problems *problems);

/* A line of the text without its end, for carets; NULL when there is none or it is too long. */
const char *dawn_yamlin_line(const struct dawn_yamlin *yaml, int line);

void dawn_yamlin_release(struct dawn_yamlin *yaml);

#endif
