/* The coldest night against what was varied: lines where every combination was run, dots where
 * places were drawn by lot, bars where nothing that was varied is a number. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "report/picture.h"

enum { LINES_MOST = 6, BARS_MOST = 40, COUNTED = 256 };

static const char *value_at(const struct dawn_picture_swept *swept, size_t row, size_t key)
{
    return swept->value[row * swept->keys + key];
}

/* A value such as "12" or "27 C" as a number; what stands behind it goes to rest. */
static double number_at(const struct dawn_picture_swept *swept, size_t row, size_t key,
                        const char **rest)
{
    double value = NAN;

    return dawn_text_number(value_at(swept, row, key), rest, &value) ? value : NAN;
}

/* How many different values a key takes, as far as the first rows tell; 0 when they are not all
 * numbers with one unit. */
static size_t levels_of(const struct dawn_picture_swept *swept, size_t key)
{
    const char *unit = NULL;
    size_t levels = 0;

    for (size_t i = 0; i < swept->rows; i++) {
        const char *rest = NULL;
        bool new = true;
        if (isnan(number_at(swept, i, key, &rest)) || (unit != NULL && strcmp(rest, unit) != 0)) {
            return 0;
        }
        unit = rest;
        for (size_t k = 0; k < i && k < COUNTED && new; k++) {
            new = strcmp(value_at(swept, k, key), value_at(swept, i, key)) != 0;
        }
        levels += new;
    }
    return levels;
}

/* The key that takes most values; swept->keys when none is a number that varies. */
static size_t choose_key(const struct dawn_picture_swept *swept)
{
    size_t chosen = swept->keys;
    size_t most = 1;

    for (size_t i = 0; i < swept->keys; i++) {
        const size_t levels = levels_of(swept, i);
        if (levels > most) {
            most = levels;
            chosen = i;
        }
    }
    return chosen;
}

/* ---- names ---- */

/* "rock.mass [t]" is "rock.mass" and "t". */
static void part_name(const char *name, char key[DAWN_REPORT_ROOM], char unit[DAWN_REPORT_ROOM])
{
    const char *bracket = strstr(name, " [");
    const size_t length = bracket != NULL ? (size_t)(bracket - name) : strlen(name);

    snprintf(key, DAWN_REPORT_ROOM, "%.*s", (int)length, name);
    snprintf(unit, DAWN_REPORT_ROOM, "%.*s", bracket != NULL ? (int)strcspn(bracket + 2, "]") : 0,
             bracket != NULL ? bracket + 2 : "");
}

/* The values of all keys but one: "27 C", "film, 12 t". */
static void name_row(const struct dawn_picture_swept *swept, size_t row, size_t without,
                     char out[DAWN_REPORT_ROOM])
{
    struct dawn_text text = {0};
    char key[DAWN_REPORT_ROOM];
    char unit[DAWN_REPORT_ROOM];

    for (size_t i = 0; i < swept->keys; i++) {
        if (i != without) {
            part_name(swept->key[i], key, unit);
            dawn_text_add(&text, "%s%s%s%s", text.size > 0 ? ", " : "", value_at(swept, row, i),
                          unit[0] != '\0' ? " " : "", unit);
        }
    }
    snprintf(out, DAWN_REPORT_ROOM, "%s", text.data != NULL ? text.data : "coldest night");
    dawn_text_release(&text);
}

static void name_picture(struct dawn_picture *picture, const struct dawn_picture_swept *swept,
                         size_t key, enum dawn_units units)
{
    char name[DAWN_REPORT_ROOM];
    char unit[DAWN_REPORT_ROOM];
    const char *rest = "";

    part_name(swept->key[key], name, unit);
    if (unit[0] == '\0') {
        (void)number_at(swept, 0, key, &rest);
        snprintf(unit, sizeof unit, "%.20s", rest + strspn(rest, " "));
    }
    snprintf(picture->x_name, sizeof picture->x_name, unit[0] != '\0' ? "%.40s (%.20s)" : "%.40s%s",
             name, unit);
    snprintf(picture->y_name, sizeof picture->y_name, "temperature (%s)",
             dawn_report_unit_letter(units));
    snprintf(picture->title, sizeof picture->title, "The coldest night, by %.40s", name);
    if (swept->keys == 2) {
        char other[DAWN_REPORT_ROOM];
        part_name(swept->key[1 - key], other, unit);
        snprintf(picture->title, sizeof picture->title, "The coldest night, by %.40s and %.40s",
                 name, other);
    }
    snprintf(picture->description, sizeof picture->description,
             "The low of the coldest night of each nursery that was tried, against its %.40s; the "
             "warmest is marked.",
             name);
}

/* ---- lines and dots ---- */

struct point {
    double x, y;
    size_t group; /* the first row with the same values of all other keys */
};

static int by_x(const void *a, const void *b)
{
    const struct point *first = a;
    const struct point *second = b;

    return (first->x > second->x) - (first->x < second->x);
}

static bool alike(const struct dawn_picture_swept *swept, size_t row, size_t other, size_t but)
{
    for (size_t i = 0; i < swept->keys; i++) {
        if (i != but && strcmp(value_at(swept, row, i), value_at(swept, other, i)) != 0) {
            return false;
        }
    }
    return true;
}

/* Their points by x, and how many groups they fall into (LINES_MOST + 1: too many for lines). */
static size_t gather(const struct dawn_picture_swept *swept, size_t key, enum dawn_units units,
                     struct point point[], size_t group[LINES_MOST])
{
    size_t groups = 0;

    for (size_t i = 0; i < swept->rows; i++) {
        size_t k = 0;
        while (k < groups && k < LINES_MOST && !alike(swept, i, group[k], key)) {
            k++;
        }
        if (k == groups && groups < LINES_MOST) {
            group[groups++] = i;
        } else if (k == LINES_MOST) {
            groups = LINES_MOST + 1;
        }
        point[i] = (struct point){number_at(swept, i, key, &(const char *){NULL}),
                                  dawn_picture_degrees(swept->coldest_C[i], units), k};
    }
    qsort(point, swept->rows, sizeof *point, by_x);
    return groups;
}

static void draw_lines(struct dawn_picture *picture, const struct dawn_picture_swept *swept,
                       size_t key, const struct point point[], const size_t group[], size_t groups)
{
    double *x = picture->values;
    size_t count = 0;

    for (size_t i = 0; i < swept->rows; i++) {
        if (i == 0 || point[i].x > x[count - 1]) {
            x[count++] = point[i].x;
            for (size_t k = 0; k < groups; k++) {
                x[(k + 1) * swept->rows + count - 1] = NAN;
            }
        }
        x[(point[i].group + 1) * swept->rows + count - 1] = point[i].y;
    }
    picture->chart.count = count;
    for (size_t k = 0; k < groups; k++) {
        name_row(swept, group[k], key, picture->word[k]);
        picture->chart.line[k] = (struct dawn_chart_line){
            .name = picture->word[k], .y = x + (k + 1) * swept->rows, .look = (int)k};
    }
    picture->chart.line_count = groups;
}

/* Gaps between the values leave dots alone. */
static void draw_dots(struct dawn_picture *picture, size_t rows, const struct point point[])
{
    double *x = picture->values;

    for (size_t i = 0; i < rows; i++) {
        x[2 * i] = x[2 * i + 1] = point[i].x;
        x[2 * rows + 2 * i] = point[i].y;
        x[2 * rows + 2 * i + 1] = NAN;
    }
    picture->chart.count = 2 * rows;
    picture->chart.line[0] =
        (struct dawn_chart_line){.name = "each one", .y = x + 2 * rows, .look = DAWN_CHART_TRAYS};
    picture->chart.line_count = 1;
}

static void mark_warmest(struct dawn_picture *picture, size_t rows, const struct point point[])
{
    size_t best = 0;

    for (size_t i = 1; i < rows; i++) {
        best = point[i].y > point[best].y || isnan(point[best].y) ? i : best;
    }
    if (!isnan(point[best].y)) {
        picture->chart.mark[picture->chart.mark_count++] =
            (struct dawn_chart_mark){"warmest", point[best].x, point[best].y};
    }
}

static bool draw_against(struct dawn_picture *picture, const struct dawn_picture_swept *swept,
                         size_t key, enum dawn_units units)
{
    struct point *point = calloc(swept->rows + 1, sizeof *point);
    size_t group[LINES_MOST] = {0};

    if (point == NULL || !dawn_picture_room(picture, (LINES_MOST + 2) * swept->rows, LINES_MOST)) {
        free(point);
        return false;
    }
    const size_t groups = gather(swept, key, units, point, group);
    picture->chart.x = picture->values;
    picture->chart.dots = true;
    picture->chart.x_decimals = 2;
    picture->chart.y_decimals = 2;
    picture->chart.x_name = picture->x_name;
    picture->chart.y_name = picture->y_name;
    name_picture(picture, swept, key, units);
    dawn_picture_entitle(picture, "swept");
    if (groups <= LINES_MOST) {
        draw_lines(picture, swept, key, point, group, groups);
    } else {
        draw_dots(picture, swept->rows, point);
    }
    mark_warmest(picture, swept->rows, point);
    free(point);
    return true;
}

/* ---- bars ---- */

static bool draw_bars(struct dawn_picture *picture, const struct dawn_picture_swept *swept,
                      enum dawn_units units)
{
    size_t count = 0;

    if (!dawn_picture_room(picture, 0, BARS_MOST)) {
        return false;
    }
    for (; count < swept->rows && count < BARS_MOST; count++) {
        name_row(swept, count, swept->keys, picture->word[count]);
        picture->bar[count] = (struct dawn_chart_bar){
            picture->word[count], dawn_picture_degrees(swept->coldest_C[count], units)};
    }
    snprintf(picture->title, sizeof picture->title, "The coldest night of each");
    snprintf(picture->description, sizeof picture->description,
             "A bar for each nursery: the low of its coldest night%s.",
             count < swept->rows ? "; the first 40 rows" : "");
    picture->bars =
        (struct dawn_chart_bars){.unit = units == DAWN_US ? "temperature (F)" : "temperature (C)",
                                 .decimals = 1,
                                 .bar = picture->bar,
                                 .count = count};
    dawn_picture_entitle(picture, "swept");
    return true;
}

bool dawn_picture_sweep(struct dawn_picture *picture, const struct dawn_picture_swept *swept,
                        enum dawn_units units)
{
    const size_t key = choose_key(swept);

    *picture = (struct dawn_picture){.chart = {.scale = DAWN_CHART_NUMBERS}};
    return key < swept->keys ? draw_against(picture, swept, key, units)
                             : draw_bars(picture, swept, units);
}
