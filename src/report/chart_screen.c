/* A chart drawn with characters. With braille every place holds two by four dots; without, a letter
 * a line stands in every column. */
#include <math.h>
#include <string.h>

#include "report/chart_parts.h"

enum { COLUMNS_MOST = 160, ROWS_MOST = 48, COLUMNS_LEAST = 24, ROWS_LEAST = 8 };

/* The field: rows from the top; what is written goes before dots. */
struct field {
    size_t columns, rows;
    bool braille;
    unsigned char dots[ROWS_MOST][COLUMNS_MOST];
    char ink[ROWS_MOST][COLUMNS_MOST];
    char name[ROWS_MOST][COLUMNS_MOST]; /* at the right of a row */
    char letter[DAWN_CHART_LINES];      /* of each line, without braille */
    struct dawn_chart_axis x, y;
};

/* ---- where things are ---- */

/* Places are counted in dots: two a column, four a row. */
static double dot_x(const struct field *field, double x)
{
    return (2.0 * (double)field->columns - 1.0) * (x - field->x.from) /
           (field->x.to - field->x.from);
}

static double dot_y(const struct field *field, double y)
{
    return (4.0 * (double)field->rows - 1.0) * (field->y.to - y) / (field->y.to - field->y.from);
}

static size_t place(double dots, double per, size_t count)
{
    const double at = floor(dots / per);

    return at < 0.0 ? 0 : (at >= (double)count ? count - 1 : (size_t)at);
}

static size_t column_of(const struct field *field, double x)
{
    return place(dot_x(field, x) + 0.5, 2.0, field->columns);
}

static size_t row_of(const struct field *field, double y)
{
    return place(dot_y(field, y) + 0.5, 4.0, field->rows);
}

/* ---- lines ---- */

static void put_dot(struct field *field, long x, long y)
{
    /* U+2800 and eight bits: ISO/IEC 10646, "Braille Patterns"; dots 1 to 3 and 7 down the left,
     * 4 to 6 and 8 down the right (from memory). */
    static const unsigned char bit[4][2] = {{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}};

    if (x >= 0 && y >= 0 && x < 2 * (long)field->columns && y < 4 * (long)field->rows) {
        field->dots[y / 4][x / 2] |= bit[y % 4][x % 2];
    }
}

/* Dots of a line's dashes: the most important is whole. */
static bool dash_shows(int look, long step)
{
    static const struct {
        long on, off;
    } dash[] = {{1, 0}, {4, 3}, {1, 1}, {1, 2}};
    const size_t kind = (size_t)look < 4 ? (size_t)look : 3;

    return step % (dash[kind].on + dash[kind].off) < dash[kind].on;
}

/* A value between gaps, which no stretch of line shows. */
static bool stands_alone(const struct dawn_chart *chart, const struct dawn_chart_line *line,
                         size_t i)
{
    return isfinite(line->y[i]) && (i == 0 || !isfinite(line->y[i - 1])) &&
           (i + 1 == chart->count || !isfinite(line->y[i + 1]));
}

static void draw_dots(struct field *field, const struct dawn_chart *chart,
                      const struct dawn_chart_line *line)
{
    long drawn = 0;

    for (size_t i = 0; i < chart->count; i++) {
        if (stands_alone(chart, line, i)) {
            put_dot(field, lround(dot_x(field, chart->x[i])), lround(dot_y(field, line->y[i])));
        }
    }
    for (size_t i = 1; i < chart->count; i++) {
        if (!isfinite(line->y[i - 1]) || !isfinite(line->y[i])) {
            continue;
        }
        const double x = dot_x(field, chart->x[i - 1]);
        const double y = dot_y(field, line->y[i - 1]);
        const double wide = dot_x(field, chart->x[i]) - x;
        const double high = dot_y(field, line->y[i]) - y;
        const long steps = 1 + (long)fmax(fabs(wide), fabs(high));
        for (long k = 0; k <= steps; k++) {
            const double share = (double)k / (double)steps;
            if (dash_shows(line->look, drawn++)) {
                put_dot(field, lround(x + share * wide), lround(y + share * high));
            }
        }
    }
}

/* The value at a column's middle, between the values beside it; NAN where there are none. */
static double value_at(const struct dawn_chart *chart, const struct dawn_chart_line *line, double x)
{
    for (size_t i = 1; i < chart->count; i++) {
        if (x >= chart->x[i - 1] && x <= chart->x[i]) {
            const double share = (x - chart->x[i - 1]) / (chart->x[i] - chart->x[i - 1]);
            return line->y[i - 1] + share * (line->y[i] - line->y[i - 1]);
        }
    }
    return NAN;
}

/* Each line's letter: the first of its name that no line before it has, else a digit. */
static void choose_letters(struct field *field, const struct dawn_chart *chart)
{
    for (size_t i = 0; i < chart->line_count; i++) {
        field->letter[i] = (char)('1' + (char)(i % 9));
        for (const char *c = chart->line[i].name; *c != '\0'; c++) {
            if (*c >= 'a' && *c <= 'z' && memchr(field->letter, *c, i) == NULL) {
                field->letter[i] = *c;
                break;
            }
        }
    }
}

static void draw_letters(struct field *field, const struct dawn_chart *chart, size_t line)
{
    for (size_t column = 0; column < field->columns; column++) {
        const double x = field->x.from + (field->x.to - field->x.from) * (double)column /
                                             (double)(field->columns - 1);
        const double y = value_at(chart, &chart->line[line], x);
        if (isfinite(y)) {
            field->ink[row_of(field, y)][column] = field->letter[line];
        }
    }
    for (size_t i = 0; i < chart->count; i++) {
        if (stands_alone(chart, &chart->line[line], i)) {
            const double share = (chart->x[i] - field->x.from) / (field->x.to - field->x.from);
            field->ink[row_of(field, chart->line[line].y[i])]
                      [lround(share * (double)(field->columns - 1))] = field->letter[line];
        }
    }
}

/* ---- words in the field ---- */

static void write_at(struct field *field, size_t row, size_t column, const char *text)
{
    for (; *text != '\0' && column < field->columns; text++, column++) {
        field->ink[row][column] = *text;
    }
}

/* First their lines, which others may cross, and in the end their names. */
static void draw_levels(struct field *field, const struct dawn_chart *chart, bool names)
{
    for (size_t i = 0; i < chart->level_count; i++) {
        const size_t row = row_of(field, chart->level[i].y);
        if (names) {
            write_at(field, row, 1, chart->level[i].name);
        } else {
            memset(field->ink[row], '-', field->columns);
        }
    }
}

/* Below its point where there is room. */
static void draw_marks(struct field *field, const struct dawn_chart *chart)
{
    for (size_t i = 0; i < chart->mark_count; i++) {
        const size_t size = strlen(chart->mark[i].name);
        const size_t row = row_of(field, chart->mark[i].y);
        const size_t column = column_of(field, chart->mark[i].x);
        const size_t words = row + 1 < field->rows ? row + 1 : row - 1;
        const size_t half = size / 2 < column ? size / 2 : column;
        const size_t last = field->columns > size ? field->columns - size : 0;
        field->ink[row][column] = '*';
        write_at(field, words, column - half < last ? column - half : last, chart->mark[i].name);
    }
}

static void place_names(struct field *field, const struct dawn_chart *chart)
{
    double wish[DAWN_CHART_LINES] = {0};

    for (size_t i = 0; i < chart->line_count; i++) {
        for (size_t k = chart->count; k > 0; k--) {
            if (isfinite(chart->line[i].y[k - 1])) {
                wish[i] = (double)row_of(field, chart->line[i].y[k - 1]);
                break;
            }
        }
    }
    dawn_chart_labels_apart(wish, chart->line_count, 1.0, 0.0, (double)field->rows - 1.0);
    for (size_t i = 0; i < chart->line_count; i++) {
        char *name = field->name[(size_t)floor(wish[i] + 0.5)];
        if (field->braille) {
            snprintf(name, COLUMNS_MOST, " %.60s", chart->line[i].name);
        } else {
            snprintf(name, COLUMNS_MOST, " %c %.60s", field->letter[i], chart->line[i].name);
        }
    }
}

/* ---- on paper ---- */

/* Blanks are owed until something stands behind them, so that no line ends in one. */
static void put_char(FILE *out, size_t *owed, unsigned char dots, char ink)
{
    const bool drawn = dots != 0 && (ink == '\0' || ink == '-'); /* a line crosses a level */

    if (ink == ' ' || (ink == '\0' && !drawn)) {
        ++*owed;
        return;
    }
    fprintf(out, "%*s", (int)*owed, "");
    *owed = 0;
    if (!drawn) {
        fputc(ink, out);
    } else { /* U+2800 + dots in UTF-8 */
        fputc(0xE2, out);
        fputc(0xA0 + (dots >> 6), out);
        fputc(0x80 + (dots & 0x3F), out);
    }
}

static void put_text(FILE *out, size_t *owed, const char *text)
{
    for (; *text != '\0'; text++) {
        put_char(out, owed, 0, *text);
    }
}

/* The number of a tick in this row. */
static const char *number_in(const struct field *field, size_t row)
{
    for (size_t i = 0; i < field->y.count; i++) {
        if (row_of(field, field->y.tick[i].at) == row) {
            return field->y.tick[i].text;
        }
    }
    return "";
}

static void put_row(FILE *out, const struct field *field, size_t row, size_t gutter)
{
    size_t owed = gutter - strlen(number_in(field, row));

    put_text(out, &owed, number_in(field, row));
    put_text(out, &owed, " |");
    for (size_t column = 0; column < field->columns; column++) {
        put_char(out, &owed, field->dots[row][column], field->ink[row][column]);
    }
    put_text(out, &owed, field->name[row]);
    fputc('\n', out);
}

static void put_shade(FILE *out, const struct field *field, const struct dawn_chart_shade *shade,
                      size_t gutter)
{
    char lane[COLUMNS_MOST + 1];
    size_t owed = gutter + 2;

    memset(lane, ' ', sizeof lane);
    lane[field->columns] = '\0';
    for (size_t i = 0; i < shade->count; i++) {
        if (shade->span[i].to > field->x.from && shade->span[i].from < field->x.to) {
            const size_t from = column_of(field, shade->span[i].from);
            const size_t to = column_of(field, shade->span[i].to);
            memset(lane + from, '=', to >= from ? to - from + 1 : 0);
        }
    }
    put_text(out, &owed, lane);
    put_text(out, &owed, " ");
    put_text(out, &owed, shade->name);
    fputc('\n', out);
}

/* One of the two lines of words below the axis; a word that would run into the one before is left
 * out. */
static void put_below(FILE *out, const struct field *field, size_t gutter, bool second,
                      const char *tail)
{
    char line[2 * COLUMNS_MOST];
    size_t end = 0;
    size_t owed = 0;

    memset(line, ' ', sizeof line);
    for (size_t i = 0; i < field->x.count; i++) {
        const char *text = second ? field->x.tick[i].below : field->x.tick[i].text;
        const size_t size = strlen(text);
        const size_t middle = gutter + 2 + column_of(field, field->x.tick[i].at);
        const size_t from = middle >= size / 2 ? middle - size / 2 : 0;
        if (size > 0 && (end == 0 || from > end) && from + size <= gutter + 2 + field->columns) {
            memcpy(line + from, text, size);
            end = from + size;
        }
    }
    const size_t last = gutter + 2 + field->columns;
    if (tail != NULL && strlen(tail) + end + 2 <= last) {
        memcpy(line + last - strlen(tail), tail, strlen(tail));
    }
    line[last] = '\0';
    put_text(out, &owed, line);
    fputc('\n', out);
}

static size_t widest_number(const struct field *field)
{
    size_t widest = 0;

    for (size_t i = 0; i < field->y.count; i++) {
        const size_t size = strlen(field->y.tick[i].text);
        widest = size > widest ? size : widest;
    }
    return widest;
}

static size_t widest_name(const struct dawn_chart *chart)
{
    size_t widest = 0;

    for (size_t i = 0; i < chart->line_count; i++) {
        const size_t size = strlen(chart->line[i].name) + 3;
        widest = size > widest ? size : widest;
    }
    for (size_t i = 0; i < chart->shade_count; i++) {
        const size_t size = strlen(chart->shade[i].name) + 1;
        widest = size > widest ? size : widest;
    }
    return widest;
}

static size_t within(size_t value, size_t least, size_t most)
{
    return value < least ? least : (value > most ? most : value);
}

void dawn_chart_screen(FILE *out, const struct dawn_chart *chart, size_t columns, size_t rows,
                       bool braille)
{
    struct field field = {.braille = braille};

    columns = within(columns, COLUMNS_LEAST, COLUMNS_MOST);
    field.rows = within(rows, ROWS_LEAST, ROWS_MOST) - 3 - chart->shade_count;
    dawn_chart_axis_y(&field.y, chart, field.rows / 2 + 1);
    const size_t gutter = widest_number(&field);
    const size_t taken = gutter + 2 + widest_name(chart);
    field.columns = columns > taken + 8 ? columns - taken : 8;
    dawn_chart_axis_x(&field.x, chart,
                      field.columns / (chart->scale == DAWN_CHART_DAYS ? 9 : 4) + 1);

    choose_letters(&field, chart);
    draw_levels(&field, chart, false);
    for (size_t i = chart->line_count; i > 0; i--) {
        if (braille) {
            draw_dots(&field, chart, &chart->line[i - 1]);
        } else {
            draw_letters(&field, chart, i - 1);
        }
    }
    draw_levels(&field, chart, true);
    draw_marks(&field, chart);
    place_names(&field, chart);
    fprintf(out, "%s\n", chart->y_name);
    for (size_t row = 0; row < field.rows; row++) {
        put_row(out, &field, row, gutter);
    }
    for (size_t i = 0; i < chart->shade_count; i++) {
        put_shade(out, &field, &chart->shade[i], gutter);
    }
    put_below(out, &field, gutter, false, NULL);
    put_below(out, &field, gutter, true, chart->x_name);
}
