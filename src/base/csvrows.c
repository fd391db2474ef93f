/* libcsv behind one row reader that knows file, line and column. */
#include "base/csvrows.h"

#include <csv.h>
#include <limits.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Room for as much as the text can hold is made before, so that nothing moves while it is read. */
struct dawn_csvrows_store {
    char *text; /* all fields, each with its NUL */
    const char **field;
    size_t text_size, fields;
};

struct reading {
    struct dawn_csvrows *rows;
    struct dawn_csvrows_store *store;
    size_t first_field; /* of the row being read */
    int row_line;
    bool in_row;
};

static bool blank(char c)
{
    return c == ' ' || c == '\t';
}

static bool ends_row(char c)
{
    return c == '\n' || c == '\r';
}

static bool ends_line(const char *text, size_t size, size_t i)
{
    return text[i] == '\n' || (text[i] == '\r' && (i + 1 == size || text[i + 1] != '\n'));
}

static int as_int(size_t n)
{
    return n < INT_MAX ? (int)n : INT_MAX;
}

/* What stands for a byte in a C string. */
static char visible(char c)
{
    if (c == '\0')
        return '?';
    return c;
}

/* ---- fields and rows ----------------------------------------------------------------------- */

/* Every field and every row but the last is ended by a byte of its own. */
static bool make_room(struct dawn_csvrows *rows, const char *text, size_t size)
{
    const char delimiter = rows->delimiter;
    size_t most_rows = 1;
    size_t most_fields = 1;
    for (size_t i = 0; i < size; i++) {
        const char c = text[i];
        most_rows += (c == '\n') | (c == '\r');
        most_fields += (c == '\n') | (c == '\r') | (c == delimiter);
    }
    rows->row = malloc(most_rows * sizeof *rows->row);
    rows->store = calloc(1, sizeof *rows->store);
    if (!rows->row || !rows->store)
        return false;
    rows->store->text = malloc(size + 1);
    rows->store->field = malloc(most_fields * sizeof *rows->store->field);
    return rows->store->text && rows->store->field;
}

/* libcsv: a field has ended. */
static void take_field(void *bytes, size_t size, void *data)
{
    struct dawn_csvrows_store *store = ((struct reading *)data)->store;
    const char *from = bytes;
    /* libcsv trims around quotes but not inside them. */
    while (size > 0 && blank(from[0])) {
        from++;
        size--;
    }
    while (size > 0 && blank(from[size - 1]))
        size--;
    char *to = store->text + store->text_size;
    for (size_t i = 0; i < size; i++)
        to[i] = visible(from[i]);
    to[size] = '\0';
    store->field[store->fields++] = to;
    store->text_size += size + 1;
}

/* libcsv: a row has ended. */
static void take_row(int ended_by, void *data)
{
    (void)ended_by;
    struct reading *reading = data;
    const struct dawn_csvrows_store *store = reading->store;
    reading->rows->row[reading->rows->count++] =
        (struct dawn_csvrow){.line = reading->row_line,
                             .count = store->fields - reading->first_field,
                             .field = store->field + reading->first_field};
    reading->first_field = store->fields;
    reading->in_row = false;
}

/* The place behind the next byte like this; size when there is none. */
static size_t behind(const char *text, size_t size, size_t from, char byte)
{
    const char *at = memchr(text + from, byte, size - from);
    return at ? (size_t)(at - text) + 1 : size;
}

/* Does a byte begin a field, where none is open? Behind the first of a row its end does too. */
static bool begins_field(char c, char delimiter, bool in_row)
{
    return ends_row(c) ? in_row : c == delimiter || !blank(c);
}

static bool begins_row(const char *line, size_t length, char delimiter)
{
    for (size_t i = 0; i < length; i++)
        if (begins_field(line[i], delimiter, false))
            return true;
    return false;
}

/* One line at a time, because only so do we know where libcsv's rows begin. */
static bool read_lines(struct reading *reading, struct csv_parser *parser, const char *text,
                       size_t size, size_t most_rows)
{
    int line = 1;
    size_t end = 0;
    size_t feed = 0; /* behind the next line feed */
    for (size_t i = 0; i < size && reading->rows->count < most_rows; i = end) {
        feed = i < feed ? feed : behind(text, size, i, '\n');
        end = behind(text, feed, i, '\r');
        if (end + 1 == feed && text[end] == '\n')
            end = feed;
        const size_t length = end - i;
        if (!reading->in_row) {
            reading->in_row = begins_row(text + i, length, reading->rows->delimiter);
            reading->row_line = line;
        }
        if (csv_parse(parser, text + i, length, take_field, take_row, reading) != length)
            return false;
        line += line < INT_MAX;
    }
    return true;
}

/* ---- where a field begins ------------------------------------------------------------------ */

/* Where a 1-based line starts; size when there is none. */
static size_t find_line(const char *text, size_t size, int line)
{
    size_t start = 0;
    int at = 1;
    while (at < line && start < size) {
        at += ends_line(text, size, start);
        start++;
    }
    return at == line ? start : size;
}

struct place {
    int line, column; /* 0 = memory ran out */
};

struct seeking {
    size_t passed;
    bool in_field, in_row;
};

static void pass_field(void *bytes, size_t size, void *data)
{
    (void)bytes;
    (void)size;
    struct seeking *seeking = data;
    seeking->passed++;
    seeking->in_field = false;
}

static void pass_row(int ended_by, void *data)
{
    (void)ended_by;
    ((struct seeking *)data)->in_row = false;
}

/* Goes through a row, from the start of its line on, to one of its fields. A text that ends behind
 * a delimiter ends in an empty field. */
static struct place seek_field(struct csv_parser *parser, const char *text, size_t size,
                               char delimiter, int line, size_t wanted)
{
    struct seeking seeking = {0};
    size_t line_start = find_line(text, size, line);
    for (size_t i = line_start; i < size; i++) {
        if (!seeking.in_field && begins_field(text[i], delimiter, seeking.in_row)) {
            if (seeking.passed == wanted)
                return (struct place){line, as_int(i - line_start + 1)};
            seeking.in_field = seeking.in_row = true;
        }
        if (csv_parse(parser, text + i, 1, pass_field, pass_row, &seeking) != 1)
            return (struct place){0};
        if (ends_line(text, size, i)) {
            line += line < INT_MAX;
            line_start = i + 1;
        }
    }
    return (struct place){line, as_int(size - line_start + 1)};
}

static struct place find_field(const char *text, size_t size, char delimiter, int line,
                               size_t wanted)
{
    struct csv_parser parser;
    if (csv_init(&parser, 0) != 0)
        return (struct place){0};
    csv_set_delim(&parser, (unsigned char)delimiter);
    const struct place place = seek_field(&parser, text, size, delimiter, line, wanted);
    csv_free(&parser);
    return place;
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
        if ((ends_row(text[i]) && !quoted) || i + 1 == size) {
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

/* Ends the last row. libcsv tells an open quote only when asked to be strict about the end. */
static bool finish(struct reading *reading, struct csv_parser *parser, const char *text,
                   size_t size)
{
    struct dawn_csvrows *rows = reading->rows;
    (void)csv_set_opts(parser, CSV_STRICT | CSV_STRICT_FINI);
    int ended = csv_fini(parser, take_field, take_row, reading);
    if (ended != 0 && csv_error(parser) == CSV_EPARSE) {
        rows->open_quote_line = find_field(text, size, rows->delimiter, reading->row_line,
                                           rows->store->fields - reading->first_field)
                                    .line;
        if (rows->open_quote_line == 0)
            return false; /* no memory to find it */
        (void)csv_set_opts(parser, 0);
        ended = csv_fini(parser, take_field, take_row, reading);
    }
    return ended == 0;
}

static bool read_text(struct dawn_csvrows *rows, const char *text, size_t size, size_t most_rows)
{
    struct csv_parser parser;
    struct reading reading = {.rows = rows, .store = rows->store};
    if (csv_init(&parser, 0) != 0)
        return false;
    csv_set_delim(&parser, (unsigned char)rows->delimiter);
    const bool good = read_lines(&reading, &parser, text, size, most_rows) &&
                      finish(&reading, &parser, text, size);
    csv_free(&parser);
    return good;
}

int dawn_csvrows_split_first(struct dawn_csvrows *rows, const char *text, size_t size,
                             char delimiter, size_t most_rows)
{
    *rows = (struct dawn_csvrows){0};
    const size_t mark = mark_size(text, size);
    text += mark;
    size -= mark;
    rows->delimiter = delimiter;
    if (!delimiter)
        rows->delimiter = find_delimiter(text, size);
    if (make_room(rows, text, size) && read_text(rows, text, size, most_rows))
        return 0;
    dawn_csvrows_release(rows);
    return -1;
}

int dawn_csvrows_split(struct dawn_csvrows *rows, const char *text, size_t size, char delimiter)
{
    return dawn_csvrows_split_first(rows, text, size, delimiter, SIZE_MAX);
}

void dawn_csvrows_release(struct dawn_csvrows *rows)
{
    if (rows->store) {
        free(rows->store->text);
        free(rows->store->field);
        free(rows->store);
    }
    free(rows->row);
    *rows = (struct dawn_csvrows){0};
}

int dawn_csvrows_column(const struct dawn_csvrows *rows, const char *text, size_t size, size_t row,
                        size_t field)
{
    const size_t mark = mark_size(text, size);
    return find_field(text + mark, size - mark, rows->delimiter, rows->row[row].line, field).column;
}

char *dawn_csvrows_line(const char *text, size_t size, int line)
{
    const size_t mark = mark_size(text, size);
    text += mark;
    size -= mark;
    const size_t start = find_line(text, size, line);
    if (start == size)
        return NULL;
    size_t end = start;
    while (end < size && !ends_row(text[end]))
        end++;
    char *copy = malloc(end - start + 1);
    if (!copy)
        return NULL;
    for (size_t i = start; i < end; i++)
        copy[i - start] = visible(text[i]);
    copy[end - start] = '\0';
    return copy;
}
