/* What the readers of answers share: parts, quantities within a key's bounds, figures for the file.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/draft.h"
#include "scenario/scenario_parts.h"

bool dawn_draft_trimmed(char *out, size_t size, const char *text, size_t length)
{
    while (length > 0 && (*text == ' ' || *text == '\t')) {
        text++;
        length--;
    }
    while (length > 0 && strchr(" \t\r\n", text[length - 1]) != NULL)
        length--;
    if (length >= size)
        return false;
    memcpy(out, text, length);
    out[length] = '\0';
    return true;
}

bool dawn_draft_none(const char *text)
{
    static const char *const words[] = {"none", "no", "0", "nothing", "not", "-"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (dawn_text_same(text, words[i]))
            return true;
    return false;
}

/* ---- two parts ---- */

/* Where a separator stands in text, or NULL. Words stand between blanks; a comma before one, for
 * "1,8 m" has a comma too; an x may touch the numbers. */
static const char *separator(const char *text, size_t *size)
{
    static const char *const marks[] = {" by ", " and ", " to ", ", ", ";", "\xc3\x97", "*"};
    const char *best = NULL;
    for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++) {
        const char *at = strstr(text, marks[i]);
        if (at != NULL && (best == NULL || at < best)) {
            best = at;
            *size = strlen(marks[i]);
        }
    }
    const char *x = strpbrk(text, "xX");
    if (x != NULL && (best == NULL || x < best)) {
        best = x;
        *size = 1;
    }
    return best;
}

bool dawn_draft_two(const char *text, char first[DAWN_DRAFT_ANSWER_SIZE],
                    char second[DAWN_DRAFT_ANSWER_SIZE])
{
    size_t size = 0;
    const char *at = separator(text, &size);
    return at != NULL &&
           dawn_draft_trimmed(first, DAWN_DRAFT_ANSWER_SIZE, text, (size_t)(at - text)) &&
           dawn_draft_trimmed(second, DAWN_DRAFT_ANSWER_SIZE, at + size, strlen(at + size)) &&
           first[0] != '\0' && second[0] != '\0';
}

/* ---- quantities ---- */

static void say_fault(enum dawn_quantity_fault fault, enum dawn_measure measure, const char *text,
                      struct dawn_text *why)
{
    const char *hint = dawn_unit_hint(measure, text);
    if (hint != NULL)
        dawn_text_add(why, "'%s': %s", text, hint);
    else if (fault == DAWN_QUANTITY_NO_UNIT)
        dawn_text_add(why, "write the unit behind '%s': %s", text, dawn_unit_list(measure));
    else
        dawn_text_add(why, "'%s' is not %s (%s)", text, dawn_unit_measure_words(measure),
                      dawn_unit_list(measure));
}

static bool in_bounds(const struct dawn_key *key, double si, const char *text,
                      struct dawn_text *why)
{
    double value = dawn_scenario_in_table_unit(key, si);
    if (value >= key->least - 1e-9 && value <= key->most + 1e-9)
        return true;
    dawn_text_add(why, "'%s' is outside what is possible, %g to %g %s", text, key->least, key->most,
                  key->unit);
    return false;
}

bool dawn_draft_quantity(const char *text, const char *section, const char *key_name, double *si,
                         struct dawn_text *why)
{
    char unit[32];
    double value = NAN;
    const struct dawn_key *key = dawn_scenario_key_named(section, key_name);
    enum dawn_measure measure = (enum dawn_measure)key->measure;
    enum dawn_quantity_fault fault = dawn_unit_quantity(text, measure, &value, unit);
    if (fault != DAWN_QUANTITY_OK) {
        say_fault(fault, measure, text, why);
        return false;
    }
    if (!in_bounds(key, value, text, why))
        return false;
    *si = value;
    return true;
}

/* "33" of "33 x 20 ft" is in feet too. */
static void lend_unit(char first[DAWN_DRAFT_ANSWER_SIZE], const char *second)
{
    char unit[32];
    double unused = 0;
    if (dawn_unit_quantity(first, DAWN_MEASURE_LENGTH, &unused, unit) != DAWN_QUANTITY_NO_UNIT ||
        dawn_unit_quantity(second, DAWN_MEASURE_LENGTH, &unused, unit) != DAWN_QUANTITY_OK)
        return;
    const char *word = second + strspn(second, "0123456789.,/ ");
    size_t used = strlen(first);
    (void)snprintf(first + used, DAWN_DRAFT_ANSWER_SIZE - used, " %.*s",
                   (int)strcspn(word, " 0123456789"), word);
}

bool dawn_draft_lengths(const char *text, const char *first_key, const char *second_key,
                        double *first, double *second, struct dawn_text *why)
{
    char parts[2][DAWN_DRAFT_ANSWER_SIZE];
    if (!dawn_draft_two(text, parts[0], parts[1])) {
        dawn_text_add(why, "'%s' is one measure, two are wanted, such as 10 m x 6 m or 33 x 20 ft",
                      text);
        return false;
    }
    lend_unit(parts[0], parts[1]);
    return dawn_draft_quantity(parts[0], "house", first_key, first, why) &&
           dawn_draft_quantity(parts[1], "house", second_key, second, why);
}

bool dawn_draft_area(const char *text, const char *section, double *m2, struct dawn_text *why)
{
    char parts[2][DAWN_DRAFT_ANSWER_SIZE];
    char unit[32];
    double sides[2];
    const struct dawn_key *key = dawn_scenario_key_named(section, "area");
    if (!dawn_draft_two(text, parts[0], parts[1]))
        return dawn_draft_quantity(text, section, "area", m2, why);
    lend_unit(parts[0], parts[1]);
    for (int i = 0; i < 2; i++) {
        enum dawn_quantity_fault fault =
            dawn_unit_quantity(parts[i], DAWN_MEASURE_LENGTH, &sides[i], unit);
        if (fault != DAWN_QUANTITY_OK) {
            say_fault(fault, DAWN_MEASURE_LENGTH, parts[i], why);
            return false;
        }
    }
    if (!in_bounds(key, sides[0] * sides[1], text, why))
        return false;
    *m2 = sides[0] * sides[1];
    return true;
}

/* ---- figures ---- */

/* Four digits are more than a tape gives. */
static double rounded(double value)
{
    if (value == 0 || !isfinite(value))
        return 0;
    double step = pow(10, floor(log10(fabs(value))) - 3);
    return floor(value / step + 0.5) * step;
}

static struct dawn_draft_figure figure(double si, enum dawn_measure measure, const char *unit)
{
    struct dawn_draft_figure out;
    const struct dawn_unit *row = dawn_unit_find(measure, unit);
    double value = rounded((si - row->shift) / row->scale);
    (void)snprintf(out.text, sizeof out.text, "%s %s", dawn_scenario_figure_of(value).text, unit);
    return out;
}

struct dawn_draft_figure dawn_draft_figure_of(double si, enum dawn_measure measure, bool us)
{
    static const char *const units[DAWN_MEASURES][2] = {
        [DAWN_MEASURE_LENGTH] = {"m", "ft"},      [DAWN_MEASURE_AREA] = {"m2", "sq ft"},
        [DAWN_MEASURE_VOLUME] = {"m3", "yd3"},    [DAWN_MEASURE_MASS] = {"t", "short ton"},
        [DAWN_MEASURE_FLOW] = {"m3/h", "cfm"},    [DAWN_MEASURE_PRESSURE] = {"Pa", "in wg"},
        [DAWN_MEASURE_TEMPERATURE] = {"C", "F"},  [DAWN_MEASURE_POWER] = {"W", "W"},
        [DAWN_MEASURE_HOURS_OFFSET] = {"h", "h"}, [DAWN_MEASURE_RATE] = {"/h", "/h"},
    };
    return figure(si, measure, units[measure][us]);
}

struct dawn_draft_figure dawn_draft_small(double si, bool us)
{
    return figure(si, DAWN_MEASURE_LENGTH, us ? "in" : "mm");
}
