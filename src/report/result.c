/* A result read again, and its picture. */
#include "report/result.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/civil.h"
#include "base/text.h"

static const char hint_write[] = "write one: dawnlow nights SCENARIO --json --output result.json";

static enum dawn_status refuse(const struct dawn_result *result, const char *hint,
                               struct dawn_problems *problems, const char *before, const char *what,
                               const char *after)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){.file = result->path}, hint,
                      "%s%.60s%s", before, what, after);
    return DAWN_ERR_USAGE;
}

/* ---- reading ---- */

bool dawn_result_is(const char *path)
{
    FILE *file = fopen(path, "rb");
    int first = ' ';

    if (file == NULL) {
        return false;
    }
    while (first == ' ' || first == '\t' || first == '\r' || first == '\n') {
        first = fgetc(file);
    }
    (void)fclose(file);
    return first == '{';
}

static enum dawn_status read_text(struct dawn_result *result, const char *path,
                                  struct dawn_problems *problems)
{
    size_t size = 0;

    result->path = strdup(path);
    result->text = dawn_text_read_file(path, DAWN_JSONIN_SIZE_MOST, &size);
    if (result->path == NULL) {
        return DAWN_ERR_NOMEM;
    }
    if (result->text == NULL) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){.file = path}, NULL,
                          "cannot be read: %s", strerror(errno));
        return DAWN_ERR_IO;
    }
    return dawn_jsonin_read(&result->json, result->path, result->text, size, problems);
}

enum dawn_status dawn_result_read(struct dawn_result **result, const char *path,
                                  struct dawn_problems *problems)
{
    *result = calloc(1, sizeof **result);
    if (*result == NULL) {
        return DAWN_ERR_NOMEM;
    }
    const enum dawn_status status = read_text(*result, path, problems);
    (*result)->root = dawn_jsonin_root(&(*result)->json);
    if (status != DAWN_OK) {
        dawn_result_free(*result);
        *result = NULL;
    }
    return status;
}

void dawn_result_free(struct dawn_result *result)
{
    if (result == NULL) {
        return;
    }
    for (size_t i = 0; i < result->held_count; i++) {
        free(result->held[i]);
    }
    dawn_jsonin_release(&result->json);
    free(result->text);
    free(result->path);
    free(result);
}

/* ---- looking things up ---- */

void *dawn_result_hold(struct dawn_result *result, size_t count, size_t size)
{
    void *room = result->held_count < DAWN_RESULT_HELD ? calloc(count + 1, size) : NULL;

    if (room != NULL) {
        result->held[result->held_count++] = room;
    }
    return room;
}

double dawn_result_number(const struct dawn_result *result, dawn_jsonin_node object,
                          const char *key)
{
    return dawn_jsonin_number(&result->json, dawn_jsonin_member(&result->json, object, key));
}

const char *dawn_result_text(const struct dawn_result *result, dawn_jsonin_node object,
                             const char *key)
{
    const char *text =
        dawn_jsonin_text(&result->json, dawn_jsonin_member(&result->json, object, key));

    return text != NULL ? text : "";
}

double dawn_result_moment(const struct dawn_result *result, dawn_jsonin_node object,
                          const char *key, double *offset_h)
{
    const char *text = dawn_result_text(result, object, key);

    /* As dawn_civil_iso writes it: 2026-03-13T07:09:41+01:00. */
    if (strlen(text) != 25 || (text[19] != '+' && text[19] != '-')) {
        return NAN;
    }
    const struct dawn_civil civil = {.year = dawn_text_digits(text, 4),
                                     .month = dawn_text_digits(text + 5, 2),
                                     .day = dawn_text_digits(text + 8, 2),
                                     .hour = dawn_text_digits(text + 11, 2),
                                     .minute = dawn_text_digits(text + 14, 2),
                                     .second = dawn_text_digits(text + 17, 2)};
    const double zone_h = dawn_text_digits(text + 20, 2) + dawn_text_digits(text + 23, 2) / 60.0;
    if (civil.year < 0 || civil.month < 1 || civil.month > 12 || civil.day < 1 || civil.day > 31 ||
        civil.hour < 0 || civil.minute < 0 || civil.second < 0 || zone_h < 0.0) {
        return NAN;
    }
    *offset_h = text[19] == '-' ? -zone_h : zone_h;
    return (double)dawn_civil_seconds(&civil, *offset_h);
}

bool dawn_result_night(const struct dawn_result *result, dawn_jsonin_node night, int64_t *dusk_s,
                       int64_t *dawn_s, double *offset_h)
{
    const double from_s = dawn_result_moment(result, night, "dusk", offset_h);
    const double to_s = dawn_result_moment(result, night, "dawn", offset_h);

    if (isnan(from_s) || isnan(to_s)) {
        return false;
    }
    *dusk_s = llround(from_s);
    *dawn_s = llround(to_s);
    return true;
}

enum dawn_status dawn_result_lacks(const struct dawn_result *result, const char *what,
                                   struct dawn_problems *problems)
{
    return refuse(result, hint_write, problems, "this result lacks \"", what,
                  "\": it is not whole, or was not written by this dawnlow");
}

/* ---- its picture ---- */

/* what: NULL = the one its page begins with. */
static const struct {
    const char *report, *what;
    dawn_result_build *build;
} kinds[] = {
    {"nights", NULL, dawn_result_nights_lows},
    {"nights", "lows", dawn_result_nights_lows},
    {"nights", "heat", dawn_result_nights_heat},
    {"forecast", NULL, dawn_result_coming_forecast},
    {"forecast", "chances", dawn_result_coming_chances},
    {"tonight", NULL, dawn_result_coming_tonight},
    {"size", NULL, dawn_result_studies_size},
    {"setpoint", NULL, dawn_result_studies_setpoint},
    {"worth", NULL, dawn_result_studies_worth},
    {"worth", "guesses", dawn_result_studies_guesses},
    {"effects", NULL, dawn_result_studies_effects},
    {"compare", NULL, dawn_result_studies_compare},
    {"sweep", NULL, dawn_result_studies_sweep},
};

static bool is_what(const char *there, const char *wanted)
{
    return there == wanted || (there != NULL && wanted != NULL && strcmp(there, wanted) == 0);
}

static enum dawn_status build(struct dawn_picture *picture, struct dawn_result *result,
                              enum dawn_units units, const char *what,
                              struct dawn_problems *problems)
{
    const char *report = dawn_result_text(result, result->root, "report");
    bool known = false;

    *picture = (struct dawn_picture){0};
    if (report[0] == '\0') {
        return dawn_result_lacks(result, "report", problems);
    }
    if (dawn_result_number(result, result->root, "schema") != 1.0) {
        return refuse(result, hint_write, problems, "", "this result",
                      " is of another form than this dawnlow writes");
    }
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        known = known || strcmp(report, kinds[i].report) == 0;
        if (strcmp(report, kinds[i].report) == 0 && is_what(kinds[i].what, what)) {
            return kinds[i].build(picture, result, units, problems);
        }
    }
    if (known) {
        return refuse(result,
                      "lows and heat are of nights, chances of forecast, guesses of worth; without "
                      "--what the picture its page begins with is drawn",
                      problems, "--what does not fit; this one is of ", report, "");
    }
    return refuse(
        result,
        "results of nights, forecast, tonight, size, setpoint, worth, effects, compare and "
        "sweep have one",
        problems, "a result of ", report, " has no picture");
}

enum dawn_status dawn_result_picture(FILE *out, struct dawn_result *result, enum dawn_units units,
                                     const char *what, struct dawn_problems *problems)
{
    struct dawn_picture picture;
    struct dawn_xmlout xml;
    enum dawn_status status = build(&picture, result, units, what, problems);

    if (status == DAWN_OK) {
        fputs("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n", out);
        dawn_xmlout_begin(&xml, out);
        if (picture.chart.line_count > 0) {
            dawn_chart_svg(&xml, &picture.chart, true);
        } else {
            dawn_chart_bars_svg(&xml, &picture.bars, true);
        }
        status = xml.failed ? DAWN_ERR_NOMEM : DAWN_OK;
    }
    dawn_picture_release(&picture);
    return status;
}

enum dawn_status dawn_result_screen(FILE *out, struct dawn_result *result, enum dawn_units units,
                                    const char *what, size_t columns, size_t rows, bool braille,
                                    struct dawn_problems *problems)
{
    struct dawn_picture picture;
    enum dawn_status status = build(&picture, result, units, what, problems);

    if (status == DAWN_OK && picture.chart.line_count == 0) {
        status = refuse(result, "add --svg FILE", problems, "", "bars",
                        " cannot be drawn with characters");
    }
    if (status == DAWN_OK) {
        fprintf(out, "%.*s\n", (int)columns, picture.title);
        dawn_chart_screen(out, &picture.chart, columns, rows, braille);
    }
    dawn_picture_release(&picture);
    return status;
}
