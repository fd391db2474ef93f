/* libcsv behind one row reader that knows file, line and column.
 *
 * Strips a byte order mark, takes CR, LF and CRLF, quoted fields (also with newlines inside), and
 * counts lines itself because libcsv does not. Bytes beyond ASCII are left as they are; a NUL byte,
 * which would cut a field short unseen, becomes '?'. */
#ifndef BASE_CSVROWS_H
#define BASE_CSVROWS_H

#include <stddef.h>

struct dawn_csvrow {
    int line; /* where the row starts, 1-based */
    size_t count;
    const char *const *field; /* trimmed, unquoted, NUL-terminated */
};
struct dawn_csvrows {
    struct dawn_csvrow *row;
    size_t count;
    char delimiter;
    int open_quote_line; /* where a quote opens that is never closed and so takes all the rest; or 0
                          */
    struct dawn_csvrows_store *store;
};
/* Splits text; delimiter 0 = find out (the one of , ; tab | that splits most lines evenly).
 * Empty lines give no row. 0 on success, -1 when memory ran out; a malformed quote is no failure,
 * the field is taken as it stands. */
int dawn_csvrows_split(struct dawn_csvrows *rows, const char *text, size_t size, char delimiter);
/* The same of the first rows only. */
int dawn_csvrows_split_first(struct dawn_csvrows *rows, const char *text, size_t size,
                             char delimiter, size_t most_rows);
void dawn_csvrows_release(struct dawn_csvrows *rows);
/* Where a field (or its quote) starts: 1-based byte column in its line, a byte order mark not
 * counted; 0 when memory ran out. Looked up in the text that was split, for only messages ask. */
int dawn_csvrows_column(const struct dawn_csvrows *rows, const char *text, size_t size, size_t row,
                        size_t field);
/* The text of a 1-based line, for carets, without its end and without a byte order mark; allocated,
 * NULL when there is none. */
char *dawn_csvrows_line(const char *text, size_t size, int line);

#endif
