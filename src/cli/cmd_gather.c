/* dawnlow gather: the parts of a sweep into the table one run would have written. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/csvrows.h"
#include "cli/cmd.h"
#include "cli/output.h"
#include "cli/rowfile.h"
#include "cli/study.h"

static const struct dawn_option table[] = {DAWN_STUDY_OUTPUT};
static const char *const examples[] = {
    "dawnlow gather part1.csv part2.csv part3.csv --output rock.csv", NULL};
const struct dawn_options_command dawn_cmd_gather_options = {
    .name = "gather",
    .operands = "PART...",
    .purpose = "Puts the parts of a sweep (dawnlow sweep --shard 1/3 and so on) together into the "
               "table that one run would have written, byte for byte.",
    .examples = examples,
    .notes = "Every row's fingerprint must be the same, and no row may be missing or there twice.",
    .operands_least = 1,
    .operands_most = DAWN_OPTIONS_OPERANDS,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

enum { PART_MOST = 512 * 1024 * 1024, FINGERPRINT_SIZE = 24 };

/* What the first part says about all: its heading, how many rows there are, their fingerprint. */
struct first {
    struct dawn_text header;
    size_t rows;
    char fingerprint[FINGERPRINT_SIZE];
};

static enum dawn_status refuse_part(const char *path, const char *what,
                                    struct dawn_problems *problems)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){.file = path},
                      "name the files that 'dawnlow sweep --csv FILE --shard I/N' wrote", "%s",
                      what);
    return DAWN_ERR_USAGE;
}

/* The heading line and, from the row below it, fields 2 and 3. */
static enum dawn_status look_at(struct first *first, const char *path, const char *text,
                                size_t size, struct dawn_problems *problems)
{
    static const char begins[] = "row,rows,fingerprint,";
    const char *end = memchr(text, '\n', size);
    struct dawn_csvrows rows = {0};
    enum dawn_status status = DAWN_OK;

    if (strncmp(text, begins, sizeof begins - 1) != 0 || end == NULL) {
        return refuse_part(path, "this is not the table of a sweep", problems);
    }
    dawn_text_add_bytes(&first->header, text, (size_t)(end + 1 - text));
    if (first->header.failed || dawn_csvrows_split(&rows, text, size, ',') != 0) {
        return DAWN_ERR_NOMEM;
    }
    const struct dawn_csvrow *row = rows.count > 1 ? &rows.row[1] : NULL;
    const char *rest = NULL;
    double count = 0.0;
    if (row == NULL || row->count < 3 || !dawn_text_number(row->field[1], &rest, &count) ||
        *rest != '\0' || count < 1.0 || count > DAWN_SWEEP_ROWS ||
        !dawn_text_copy(first->fingerprint, sizeof first->fingerprint, row->field[2])) {
        status = refuse_part(path, "this part of a sweep holds no row", problems);
    }
    first->rows = (size_t)count;
    dawn_csvrows_release(&rows);
    return status;
}

static enum dawn_status read_first(struct first *first, const char *path,
                                   struct dawn_problems *problems)
{
    size_t size = 0;
    char *text = dawn_text_read_file(path, PART_MOST, &size);

    if (text == NULL) {
        return refuse_part(path, "this part cannot be read", problems);
    }
    const enum dawn_status status = look_at(first, path, text, size, problems);
    free(text);
    return status;
}

static enum dawn_status check_complete(const struct dawn_rowfile *rows,
                                       struct dawn_problems *problems)
{
    size_t missing = 0;

    while (missing < rows->rows && rows->line[missing] != NULL) {
        missing++;
    }
    if (missing == rows->rows) {
        return DAWN_OK;
    }
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                      "name all the parts, each finished",
                      "%zu of %zu rows are missing, the first of them row %zu",
                      rows->rows - rows->kept, rows->rows, missing + 1);
    return DAWN_ERR_USAGE;
}

static enum dawn_status write_out(const struct dawn_rowfile *rows, const char *path,
                                  struct dawn_problems *problems)
{
    struct dawn_output result = {0};
    struct dawn_text text = {0};
    enum dawn_status status = dawn_output_open(&result, path, problems);

    dawn_rowfile_text(rows, &text);
    if (text.failed) {
        status = DAWN_ERR_NOMEM;
    }
    if (status == DAWN_OK) {
        (void)fwrite(text.data, 1, text.size, result.stream);
        status = dawn_output_arrived(&result, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_output_keep(&result, problems);
    }
    dawn_output_drop(&result);
    dawn_text_release(&text);
    return status;
}

static enum dawn_status gather(struct dawn_rowfile *rows, struct first *first,
                               const struct dawn_options *options, struct dawn_problems *problems)
{
    enum dawn_status status = read_first(first, options->operand[0], problems);

    if (status == DAWN_OK) {
        status = dawn_rowfile_open(rows, NULL, first->header.data, first->fingerprint, first->rows,
                                   false, problems);
    }
    for (size_t i = 0; i < options->operand_count && status == DAWN_OK; i++) {
        if (dawn_output_same(options->output, options->operand[i])) {
            return dawn_study_refuse(problems, "give the result another name",
                                     "--output would write over one of the parts");
        }
        status = dawn_rowfile_take(rows, options->operand[i], first->fingerprint, problems);
    }
    if (status == DAWN_OK) {
        status = check_complete(rows, problems);
    }
    return status == DAWN_OK ? write_out(rows, options->output, problems) : status;
}

enum dawn_status dawn_cmd_gather(int argument_count, const char *const *arguments,
                                 struct dawn_problems *problems)
{
    struct dawn_options options;
    struct dawn_rowfile rows = {0};
    struct first first = {0};
    enum dawn_status status =
        dawn_options_parse(&options, &dawn_cmd_gather_options, argument_count, arguments, problems);

    if (status == DAWN_OK && options.help) {
        dawn_options_help(stdout, &dawn_cmd_gather_options);
        return DAWN_OK;
    }
    if (status == DAWN_OK) {
        status = gather(&rows, &first, &options, problems);
    }
    dawn_rowfile_release(&rows);
    dawn_text_release(&first.header);
    return status;
}
