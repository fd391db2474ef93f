/* Rows as they finish: FILE.unfinished, then FILE. */
#include "cli/rowfile.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/csvrows.h"
#include "base/fileout.h"

enum { TABLE_MOST = 512 * 1024 * 1024 };

static struct dawn_place_in_file in_file(const char *path, int line)
{
    return (struct dawn_place_in_file){.file = path, .line = line};
}

static enum dawn_status no_memory(struct dawn_problems *problems)
{
    dawn_problems_add(problems, DAWN_ERROR, in_file(NULL, 0), NULL,
                      "out of memory for the rows of the table");
    return DAWN_ERR_NOMEM;
}

/* ---- rows that are there already ---- */

static void keep(struct dawn_rowfile *file, size_t row, const char *line, size_t size)
{
    char *copy = file->line[row] == NULL ? malloc(size + 1) : NULL;

    if (copy != NULL) {
        memcpy(copy, line, size);
        copy[size] = '\0';
        file->line[row] = copy;
        file->kept++;
    } else if (file->line[row] == NULL) {
        file->failed = true;
    }
}

/* The row's number, from 1, in its first field; 0 when it is none of this table's. */
static size_t row_number(const struct dawn_csvrow *row, size_t rows)
{
    double number = 0.0;
    const char *rest = NULL;

    if (!dawn_text_number(row->field[0], &rest, &number) || *rest != '\0' || number < 1.0 ||
        number > (double)rows) {
        return 0;
    }
    return (size_t)number;
}

static enum dawn_status refuse_other(const char *path, int line, const char *fingerprint,
                                     const char *found, struct dawn_problems *problems)
{
    dawn_problems_add(problems, DAWN_ERROR, in_file(path, line),
                      "give the sweep another file, or remove this one and begin anew",
                      "these rows belong to another sweep: scenario, weather, days, what is varied "
                      "or the program's version has changed (fingerprint %.24s, now %s)",
                      found, fingerprint);
    return DAWN_ERR_USAGE;
}

/* Takes over the whole lines of a table. The end of one that was being written when the program was
 * killed has no line end and is run again. */
static enum dawn_status take_lines(struct dawn_rowfile *file, const char *path, const char *text,
                                   size_t size, const char *fingerprint,
                                   struct dawn_problems *problems)
{
    int number = 1;

    for (const char *at = text, *end = NULL;
         (end = memchr(at, '\n', (size_t)(text + size - at))) != NULL; at = end + 1, number++) {
        struct dawn_csvrows rows = {0};
        const size_t length = (size_t)(end + 1 - at);
        if (number == 1) {
            continue;
        }
        if (dawn_csvrows_split(&rows, at, length, ',') != 0) {
            return no_memory(problems);
        }
        const bool whole = rows.count == 1 && rows.row[0].count >= 3;
        const size_t row = whole ? row_number(&rows.row[0], file->rows) : 0;
        const bool own = row > 0 && strcmp(rows.row[0].field[2], fingerprint) == 0;
        enum dawn_status status = DAWN_OK;
        if (own && file->line[row - 1] != NULL) {
            dawn_problems_add(problems, DAWN_ERROR, in_file(path, number), "name each part once",
                              "row %zu is there already", row);
            status = DAWN_ERR_USAGE;
        } else if (own) {
            keep(file, row - 1, at, length);
        } else {
            status = refuse_other(path, number, fingerprint, whole ? rows.row[0].field[2] : "none",
                                  problems);
        }
        dawn_csvrows_release(&rows);
        if (status != DAWN_OK) {
            return status;
        }
    }
    return file->failed ? no_memory(problems) : DAWN_OK;
}

enum dawn_status dawn_rowfile_take(struct dawn_rowfile *file, const char *path,
                                   const char *fingerprint, struct dawn_problems *problems)
{
    size_t size = 0;
    char *text = dawn_text_read_file(path, TABLE_MOST, &size);
    enum dawn_status status = DAWN_OK;

    if (text == NULL) {
        dawn_problems_add(problems, DAWN_ERROR, in_file(path, 0), NULL,
                          "the rows that are there cannot be read: %s", strerror(errno));
        return DAWN_ERR_IO;
    }
    if (size < file->header.size || memcmp(text, file->header.data, file->header.size) != 0) {
        status = refuse_other(path, 1, fingerprint, "of other columns", problems);
    } else {
        status = take_lines(file, path, text, size, fingerprint, problems);
    }
    free(text);
    return status;
}

/* ---- opening ---- */

static bool is_there(const char *path)
{
    struct stat state;

    return stat(path, &state) == 0;
}

static enum dawn_status resume_from(struct dawn_rowfile *file, const char *fingerprint, bool resume,
                                    struct dawn_problems *problems)
{
    const char *unfinished = file->unfinished.data;

    if (is_there(unfinished)) {
        if (resume) {
            return dawn_rowfile_take(file, unfinished, fingerprint, problems);
        }
        dawn_problems_add(problems, DAWN_ERROR, in_file(unfinished, 0),
                          "go on with --resume, or remove this file to begin anew",
                          "an earlier sweep into this table is not finished");
        return DAWN_ERR_USAGE;
    }
    return resume && is_there(file->path)
               ? dawn_rowfile_take(file, file->path, fingerprint, problems)
               : DAWN_OK;
}

/* Begins FILE.unfinished anew with what is kept: so a cut-off last line is gone. */
static enum dawn_status begin_unfinished(struct dawn_rowfile *file, struct dawn_problems *problems)
{
    struct dawn_fileout begun = {0};
    struct dawn_text text = {0};
    enum dawn_status status = dawn_fileout_open(&begun, file->unfinished.data, problems);

    dawn_rowfile_text(file, &text);
    if (status == DAWN_OK && !text.failed) {
        (void)fwrite(text.data, 1, text.size, begun.stream);
        status = dawn_fileout_keep(&begun, problems);
    }
    dawn_fileout_drop(&begun);
    if (text.failed) {
        status = no_memory(problems);
    }
    dawn_text_release(&text);
    if (status != DAWN_OK) {
        return status;
    }
    file->stream = fopen(file->unfinished.data, "a");
    if (file->stream == NULL) {
        dawn_problems_add(problems, DAWN_ERROR, in_file(file->unfinished.data, 0), NULL,
                          "the rows cannot be written: %s", strerror(errno));
        return DAWN_ERR_IO;
    }
    return DAWN_OK;
}

enum dawn_status dawn_rowfile_open(struct dawn_rowfile *file, const char *path, const char *header,
                                   const char *fingerprint, size_t rows, bool resume,
                                   struct dawn_problems *problems)
{
    *file = (struct dawn_rowfile){.path = path, .rows = rows};
    file->line = calloc(rows + 1, sizeof *file->line);
    dawn_text_add(&file->header, "%s", header);
    dawn_text_add(&file->unfinished, "%s.unfinished", path != NULL ? path : "");
    if (file->line == NULL || file->header.failed || file->unfinished.failed) {
        return no_memory(problems);
    }
    if (path == NULL) {
        return DAWN_OK;
    }
    const enum dawn_status status = resume_from(file, fingerprint, resume, problems);
    return status == DAWN_OK ? begin_unfinished(file, problems) : status;
}

/* ---- growing ---- */

void dawn_rowfile_add(struct dawn_rowfile *file, size_t row, const char *line)
{
    keep(file, row, line, strlen(line));
    if (file->stream != NULL && (fputs(line, file->stream) < 0 || fflush(file->stream) != 0)) {
        file->failed = true;
    }
}

void dawn_rowfile_text(const struct dawn_rowfile *file, struct dawn_text *text)
{
    dawn_text_add(text, "%s", file->header.data);
    for (size_t i = 0; i < file->rows; i++) {
        if (file->line[i] != NULL) {
            dawn_text_add(text, "%s", file->line[i]);
        }
    }
}

static enum dawn_status write_whole(const struct dawn_rowfile *file, struct dawn_problems *problems)
{
    struct dawn_fileout whole = {0};
    struct dawn_text text = {0};
    enum dawn_status status = dawn_fileout_open(&whole, file->path, problems);

    dawn_rowfile_text(file, &text);
    if (text.failed) {
        status = no_memory(problems);
    }
    if (status == DAWN_OK) {
        (void)fwrite(text.data, 1, text.size, whole.stream);
        status = dawn_fileout_keep(&whole, problems);
    }
    dawn_fileout_drop(&whole);
    dawn_text_release(&text);
    return status;
}

enum dawn_status dawn_rowfile_finish(struct dawn_rowfile *file, struct dawn_problems *problems)
{
    if (file->failed) {
        dawn_problems_add(problems, DAWN_ERROR, in_file(file->unfinished.data, 0),
                          "free some space, then go on with --resume",
                          "not every row could be written: %s", strerror(errno));
        return DAWN_ERR_IO;
    }
    if (file->path == NULL) {
        return DAWN_OK;
    }
    const enum dawn_status status = write_whole(file, problems);
    if (status == DAWN_OK) {
        (void)unlink(file->unfinished.data);
    }
    return status;
}

void dawn_rowfile_release(struct dawn_rowfile *file)
{
    if (file->stream != NULL) {
        (void)fclose(file->stream);
    }
    for (size_t i = 0; file->line != NULL && i < file->rows; i++) {
        free(file->line[i]);
    }
    free(file->line);
    dawn_text_release(&file->header);
    dawn_text_release(&file->unfinished);
    *file = (struct dawn_rowfile){0};
}
