/* A table of rows that grows while a sweep runs: kept row by row in FILE.unfinished, so that
 * nothing finished is lost, and put in order into FILE when all are there. */
#ifndef CLI_ROWFILE_H
#define CLI_ROWFILE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/text.h"
#include "dawnlow/problems.h"

/* Released with dawn_rowfile_release; {0} is fine. */
struct dawn_rowfile {
    const char *path; /* NULL = rows are kept in memory only */
    struct dawn_text unfinished;
    struct dawn_text header; /* a line with its end, as every line here */
    char **line;             /* [row]; NULL = not there yet */
    size_t rows, kept;
    FILE *stream;
    bool failed; /* a row could not be written or kept */
};

/* Opens the table. header is the first line, which also names the columns; every row's third field
 * is fingerprint. With resume, rows that are there already are taken over; what belongs to another
 * sweep is refused, and so is an unfinished table without resume. */
enum dawn_status dawn_rowfile_open(struct dawn_rowfile *file, const char *path, const char *header,
                                   const char *fingerprint, size_t rows, bool resume,
                                   struct dawn_problems *problems);
/* Takes over the rows of another table of the same sweep; a row that is there already is refused.
 */
enum dawn_status dawn_rowfile_take(struct dawn_rowfile *file, const char *path,
                                   const char *fingerprint, struct dawn_problems *problems);
/* Keeps a finished row: a line with its end. */
void dawn_rowfile_add(struct dawn_rowfile *file, size_t row, const char *line);
/* All rows are there: writes FILE, whole or not at all, and removes FILE.unfinished. */
enum dawn_status dawn_rowfile_finish(struct dawn_rowfile *file, struct dawn_problems *problems);
/* Header and rows in order, as the file holds them. */
void dawn_rowfile_text(const struct dawn_rowfile *file, struct dawn_text *text);
void dawn_rowfile_release(struct dawn_rowfile *file);

#endif
