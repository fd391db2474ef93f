/* libcsv behind one row reader that knows file, line and column. */
#include "base/csvrows.h"

#include <csv.h>
#include <limits.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

/* Everything grows while reading, so positions are kept as offsets and made pointers at the end. */
struct dawn_csvrows_store {
    char *text; /* all fields, each with its NUL */
    size_t text_size, text_capacity;
    size_t *offset;
    int *column;
    size_t fields, fields_capacity, columns_capacity;
    const char **field;
};

struct reading {
    struct dawn_csvrows *rows;
    struct dawn_csvrows_store *store;
    size_t rows_capacity;
    size_t first_field; /* of the row being read */
    int row_line;
    int field_line, field_column;
    bool in_row, in_field;
    bool failed;
};

/* Makes room for one more item of the given size; *block moves. */
static bool grow(void **block, size_t *capacity, size_t need, size_t item)
{
    if (need <= *capacity)
        return true;
    size_t more = *capacity ? *capacity * 2 : 256;
    while (more < need)
        more *= 2;
    void *moved = realloc(*block, more * item);
    if (!moved)
        return false;
    *block = moved;
    *capacity = more;
    return true;
}

static bool blank(char c)
{
    return c == ' ' || c == '\t';
}

/* What stands for a byte in a C string. */
static char visible(char c)
{
    if (c == '\0')
        return '?';
    return c;
}

static bool grow_fields(struct dawn_csvrows_store *store, size_t size)
{
    void *text = store->text;
    void *offset = store->offset;
    void *column = store->column;
    const bool good =
        grow(&text, &store->text_capacity, store->text_size + size + 1, 1) &&
        grow(&offset, &store->fields_capacity, store->fields + 1, sizeof *store->offset) &&
        grow(&column, &store->columns_capacity, store->fields + 1, sizeof *store->column);
    store->text = text;
    store->offset = offset;
    store->column = column;
    return good;
}

/* libcsv: a field has ended. */
static void take_field(void *bytes, size_t size, void *data)
{
    struct reading *reading = data;
    struct dawn_csvrows_store *store = reading->store;
    const char *from = bytes;
    /* libcsv trims around quotes but not inside them. */
    while (size > 0 && blank(from[0])) {
        from++;
        size--;
    }
    while (size > 0 && blank(from[size - 1]))
        size--;
    if (reading->failed || !grow_fields(store, size)) {
        reading->failed = true;
        return;
    }
    char *to = store->text + store->text_size;
    for (size_t i = 0; i < size; i++)
        to[i] = visible(from[i]);
    to[size] = '\0';
    store->offset[store->fields] = store->text_size;
    store->column[store->fields] = reading->field_column;
    store->text_size += size + 1;
    store->fields++;
    reading->in_field = false;
}

/* libcsv: a row has ended. */
static void take_row(int ended_by, void *data)
{
    (void)ended_by;
    struct reading *reading = data;
    struct dawn_csvrows *rows = reading->rows;
    void *block = rows->row;
    if (reading->failed ||
        !grow(&block, &reading->rows_capacity, rows->count + 1, sizeof *rows->row)) {
        reading->failed = true;
        return;
    }
    rows->row = block;
    rows->row[rows->count++] = (struct dawn_csvrow){
        .line = reading->row_line, .count = reading->store->fields - reading->first_field};
    reading->first_field = reading->store->fields;
    reading->in_row = false;
    reading->in_field = false;
}

static bool ends_line(const char *text, size_t size, size_t i)
{
    return text[i] == '\n' || (text[i] == '\r' && (i + 1 == size || text[i + 1] != '\n'));
}

/* Notes where a field, and with it perhaps a row, begins. */
static void note_start(struct reading *reading, char c, char delimiter, int line, int column)
{
    const bool terminator = c == '\r' || c == '\n';
    if (reading->in_field || (blank(c) && c != delimiter) || (terminator && !reading->in_row))
        return;
    reading->in_field = true;
    reading->field_line = line;
    reading->field_column = column;
    if (!reading->in_row)
        reading->row_line = line;
    reading->in_row = true;
}

static int as_int(size_t n)
{
    return n < INT_MAX ? (int)n : INT_MAX;
}

/* Bytes from i on that neither end a field nor open or close quotes; at least the one at i. */
static size_t plain_run(const char *text, size_t size, size_t i, char delimiter)
{
    size_t end = i;
    while (end < size && text[end] != delimiter && text[end] != '\n' && text[end] != '\r' &&
           text[end] != '"')
        end++;
    return end > i ? end - i : 1;
}

/* One byte at a time, because only so do we know where libcsv's fields begin; inside a field what
 * cannot end it goes at once. */
static void read_rows(struct reading *reading, struct csv_parser *parser, const char *text,
                      size_t size)
{
    const char delimiter = reading->rows->delimiter;
    int line = 1;
    size_t line_start = 0;
    size_t run = 1;
    for (size_t i = 0; i < size && !reading->failed; i += run) {
        note_start(reading, text[i], delimiter, line, as_int(i - line_start + 1));
        run = reading->in_field ? plain_run(text, size, i, delimiter) : 1;
        if (csv_parse(parser, text + i, run, take_field, take_row, reading) != run)
            reading->failed = true;
        if (ends_line(text, size, i)) {
            line += line < INT_MAX;
            line_start = i + 1;
        }
    }
    /* A text that ends behind a delimiter ends in an empty field. */
    if (!reading->in_field)
        reading->field_column = as_int(size - line_start + 1);
}

/* Ends the last row. libcsv tells an open quote only when asked to be strict about the end. */
static bool finish(struct reading *reading, struct csv_parser *parser)
{
    (void)csv_set_opts(parser, CSV_STRICT | CSV_STRICT_FINI);
    int ended = csv_fini(parser, take_field, take_row, reading);
    if (ended != 0 && csv_error(parser) == CSV_EPARSE) {
        reading->rows->open_quote_line = reading->field_line;
        (void)csv_set_opts(parser, 0);
        ended = csv_fini(parser, take_field, take_row, reading);
    }
    return ended == 0;
}

static void point_at_fields(struct dawn_csvrows *rows, struct dawn_csvrows_store *store)
{
    for (size_t i = 0; i < store->fields; i++)
        store->field[i] = store->text + store->offset[i];
    size_t first = 0;
    for (size_t i = 0; i < rows->count; i++) {
        rows->row[i].field = store->field + first;
        rows->row[i].column = store->column + first;
        first += rows->row[i].count;
    }
}

/* ---- which delimiter ----------------------------------------------------------------------- */

enum { SAMPLE_LINES = 400, MOST_ON_A_LINE = 255 };

/* How many of the first lines hold the commonest number (not none) of this delimiter. Quoted text
 * does not count. */
static size_t even_lines(const char *text, size_t size, char delimiter)
{
    size_t lines_with[MOST_ON_A_LINE + 1] = {0};
    size_t seen = 0;
    size_t lines = 0;
    bool quoted = false;
    for (size_t i = 0; i < size && lines < SAMPLE_LINES; i++) {
        quoted = quoted != (text[i] == '"');
        if (!quoted && text[i] == delimiter && seen < MOST_ON_A_LINE)
            seen++;
        const bool ends = text[i] == '\n' || text[i] == '\r';
        if ((ends && !quoted) || i + 1 == size) {
            lines_with[seen]++;
            lines++;
            seen = 0;
        }
    }
    size_t most = 0;
    for (size_t n = 1; n <= MOST_ON_A_LINE; n++)
        most = lines_with[n] > most ? lines_with[n] : most;
    return most;
}

/* On a draw the comma loses: where another mark parts fields, the comma is the decimal mark. */
static char find_delimiter(const char *text, size_t size)
{
    static const char candidates[] = {'\t', ';', '|', ','};
    char best = ',';
    size_t most = 0;
    for (size_t i = 0; i < sizeof candidates; i++) {
        const size_t lines = even_lines(text, size, candidates[i]);
        if (lines > most) {
            most = lines;
            best = candidates[i];
        }
    }
    return best;
}

/* ---- in and out ---------------------------------------------------------------------------- */

static size_t mark_size(const char *text, size_t size)
{
    return size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
}

int dawn_csvrows_split(struct dawn_csvrows *rows, const char *text, size_t size, char delimiter)
{
    *rows = (struct dawn_csvrows){0};
    const size_t mark = mark_size(text, size);
    text += mark;
    size -= mark;
    rows->delimiter = delimiter;
    if (!delimiter)
        rows->delimiter = find_delimiter(text, size);
    rows->store = calloc(1, sizeof *rows->store);
    if (!rows->store)
        return -1;
    struct csv_parser parser;
    if (csv_init(&parser, 0) != 0) {
        dawn_csvrows_release(rows);
        return -1;
    }
    csv_set_delim(&parser, (unsigned char)rows->delimiter);
    struct reading reading = {.rows = rows, .store = rows->store};
    read_rows(&reading, &parser, text, size);
    if (!reading.failed && !finish(&reading, &parser))
        reading.failed = true;
    csv_free(&parser);
    if (!reading.failed && rows->store->fields) {
        rows->store->field = malloc(rows->store->fields * sizeof *rows->store->field);
        reading.failed = !rows->store->field;
    }
    if (reading.failed) {
        dawn_csvrows_release(rows);
        return -1;
    }
    point_at_fields(rows, rows->store);
    return 0;
}

void dawn_csvrows_release(struct dawn_csvrows *rows)
{
    if (rows->store) {
        free(rows->store->text);
        free(rows->store->offset);
        free(rows->store->column);
        free(rows->store->field);
        free(rows->store);
    }
    free(rows->row);
    *rows = (struct dawn_csvrows){0};
}

char *dawn_csvrows_line(const char *text, size_t size, int line)
{
    size_t start = mark_size(text, size);
    int at = 1;
    while (at < line && start < size) {
        at += ends_line(text, size, start);
        start++;
    }
    if (line < 1 || at < line || start >= size)
        return NULL;
    size_t end = start;
    while (end < size && text[end] != '\n' && text[end] != '\r')
        end++;
    char *copy = malloc(end - start + 1);
    if (!copy)
        return NULL;
    for (size_t i = start; i < end; i++)
        copy[i - start] = visible(text[i]);
    copy[end - start] = '\0';
    return copy;
}
