/* One value: a text into its field, checked against the table; and the table's defaults. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "base/unit.h"
#include "scenario/scenario_parts.h"

/* ---- units of the table and of the struct ---- */

static struct dawn_unit unit_named(const struct dawn_key *key, const char *name)
{
    struct dawn_unit none = {
        .name = "", .measure = (enum dawn_measure)key->measure, .scale = 1.0, .shift = 0.0};
    const struct dawn_unit *unit =
        name[0] == '\0' ? NULL : dawn_unit_find((enum dawn_measure)key->measure, name);
    return unit == NULL ? none : *unit;
}

static double convert(double value, struct dawn_unit from, struct dawn_unit to)
{
    return (value * from.scale + from.shift - to.shift) / to.scale;
}

double dawn_scenario_in_table_unit(const struct dawn_key *key, double field)
{
    struct dawn_unit unit = unit_named(key, key->unit);
    return (field - unit.shift) / unit.scale;
}

const double *dawn_scenario_number_of(const struct dawn_key *key, const void *base)
{
    bool number = key->kind == DAWN_KIND_QUANTITY || key->kind == DAWN_KIND_COUNT;
    return number ? (const double *)(const void *)((const char *)base + key->offset) : NULL;
}

static double *number_at(const struct dawn_key *key, void *base)
{
    return (double *)(void *)((char *)base + key->offset);
}

/* ---- words ---- */

struct dawn_scenario_figure dawn_scenario_figure_of(double value)
{
    struct dawn_scenario_figure figure;
    bool large = fabs(value) >= 1e6 && fabs(value) < 1e15;
    (void)snprintf(figure.text, sizeof figure.text, large ? "%.0f" : "%.6g",
                   value == 0.0 ? 0.0 : value);
    return figure;
}

bool dawn_scenario_word(const char *words, int n, char *out, size_t size)
{
    for (; words != NULL && n > 0; n--) {
        words = strchr(words, '|');
        words = words == NULL ? NULL : words + 1;
    }
    if (words == NULL || n < 0)
        return false;
    size_t length = strcspn(words, "|");
    if (length >= size)
        return false;
    memcpy(out, words, length);
    out[length] = '\0';
    return true;
}

enum { WORD_SIZE = 40 };

static int find_word(const char *words, const char *text)
{
    char word[WORD_SIZE];
    for (int n = 0; dawn_scenario_word(words, n, word, sizeof word); n++)
        if (dawn_text_same(word, text))
            return n;
    return -1;
}

struct hint {
    char text[512];
};

static void hint_nearest_word(struct hint *hint, const char *words, const char *text)
{
    char word[WORD_SIZE];
    size_t best = 3;
    for (int n = 0; dawn_scenario_word(words, n, word, sizeof word); n++) {
        size_t distance = dawn_text_distance(word, text, 2);
        if (distance < best && distance < strlen(word)) {
            best = distance;
            (void)snprintf(hint->text, sizeof hint->text, "did you mean '%s'?", word);
        }
    }
}

static void list_words(const char *words, char *out, size_t size)
{
    size_t used = 0;
    char word[WORD_SIZE];
    out[0] = '\0';
    for (int n = 0; dawn_scenario_word(words, n, word, sizeof word); n++) {
        int added = snprintf(out + used, size - used, "%s%s", n == 0 ? "" : ", ", word);
        if (added < 0 || (size_t)added >= size - used)
            return;
        used += (size_t)added;
    }
}

/* ---- angles in compass words ---- */

static const struct {
    const char *name;
    double deg;
} LONG_WORDS[] = {
    {"north", 0},   {"northeast", 45},  {"north-east", 45},  {"north east", 45},
    {"east", 90},   {"southeast", 135}, {"south-east", 135}, {"south east", 135},
    {"south", 180}, {"southwest", 225}, {"south-west", 225}, {"south west", 225},
    {"west", 270},  {"northwest", 315}, {"north-west", 315}, {"north west", 315},
};

static bool read_compass(const struct dawn_key *key, const char *text, double *deg)
{
    int n = find_word(key->words, text);
    if (n >= 0) {
        *deg = n * 22.5;
        return true;
    }
    for (size_t i = 0; i < sizeof LONG_WORDS / sizeof LONG_WORDS[0]; i++) {
        if (dawn_text_same(LONG_WORDS[i].name, text)) {
            *deg = LONG_WORDS[i].deg;
            return true;
        }
    }
    return false;
}

/* "45.2 N", "6.9 deg W": words are "N|S" or "E|W", of which the second turns the sign. */
static bool read_hemisphere(const struct dawn_key *key, const char *text, double *deg)
{
    size_t length = strlen(text);
    char shortened[WORD_SIZE];
    char unit[32];
    if (length < 2 || length >= sizeof shortened)
        return false;
    char mark[2] = {text[length - 1], '\0'};
    int n = find_word(key->words, mark);
    if (n < 0)
        return false;
    memcpy(shortened, text, length - 1);
    shortened[length - 1] = '\0';
    enum dawn_quantity_fault fault = dawn_unit_quantity(shortened, DAWN_MEASURE_ANGLE, deg, unit);
    const char *end = NULL;
    bool plain = fault == DAWN_QUANTITY_NO_UNIT && dawn_text_number(shortened, &end, deg);
    if ((fault != DAWN_QUANTITY_OK && !plain) || *deg < 0.0)
        return false;
    *deg = n == 1 ? -*deg : *deg;
    return true;
}

static bool is_hemisphere(const struct dawn_key *key)
{
    return key->measure == DAWN_MEASURE_ANGLE && key->words != NULL && strlen(key->words) == 3;
}

static bool read_words(const struct dawn_key *key, const char *text, double *si)
{
    if (key->words == NULL)
        return false;
    if (key->measure == DAWN_MEASURE_ANGLE)
        return is_hemisphere(key) ? read_hemisphere(key, text, si) : read_compass(key, text, si);
    *si = NAN;
    return dawn_text_same(key->words, text);
}

/* ---- complaints about numbers ---- */

struct trial {
    struct dawn_scenario_reading *reading;
    const struct dawn_key *key;
    const char *text;
    struct dawn_place_in_file place;
};

static const char *units_of(const struct dawn_key *key)
{
    return dawn_unit_list((enum dawn_measure)key->measure);
}

static const char *measure_of(const struct dawn_key *key)
{
    return dawn_unit_measure_words((enum dawn_measure)key->measure);
}

static void complain_no_number(const struct trial *trial)
{
    const struct dawn_key *key = trial->key;
    struct dawn_scenario_quote quote = dawn_scenario_quote_of(trial->text);
    const char *unit_hint = dawn_unit_hint((enum dawn_measure)key->measure, trial->text);
    struct hint hint = {""};
    hint_nearest_word(&hint, key->words, trial->text);
    if (hint.text[0] == '\0')
        (void)dawn_text_copy(hint.text, sizeof hint.text,
                             unit_hint != NULL ? unit_hint : key->meaning);
    if (key->measure == DAWN_MEASURE_NONE)
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, hint.text,
                               "'%s' is not a number; %s takes a number such as %s", quote.text,
                               key->name, key->kind == DAWN_KIND_COUNT ? "8" : "0.3 or 30 %");
    else
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, hint.text,
                               "'%s' is not a number; %s takes a number and a unit: %s", quote.text,
                               key->name, units_of(key));
}

static void complain_no_unit(const struct trial *trial)
{
    const struct dawn_key *key = trial->key;
    struct hint hint = {""};
    struct dawn_scenario_quote quote = dawn_scenario_quote_of(trial->text);
    if (is_hemisphere(key))
        (void)snprintf(hint.text, sizeof hint.text, "write '%s %c' or '%s deg'", quote.text,
                       key->words[0], quote.text);
    else
        (void)snprintf(hint.text, sizeof hint.text, "write '%s %s' if that is the unit you mean",
                       quote.text, key->unit);
    dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, hint.text,
                           "the unit is missing behind '%s'; %s is %s: %s", quote.text, key->name,
                           measure_of(key), units_of(key));
}

static void complain_unknown_unit(const struct trial *trial, const char *unit)
{
    const struct dawn_key *key = trial->key;
    enum dawn_measure measure = (enum dawn_measure)key->measure;
    struct hint hint = {""};
    const char *unit_hint = dawn_unit_hint(measure, trial->text);
    const char *nearest = dawn_unit_nearest(measure, unit);
    if (is_hemisphere(key) && strlen(unit) == 1 && strchr("NSEWnsew", unit[0]) != NULL)
        (void)dawn_text_copy(hint.text, sizeof hint.text,
                             "N and S go with latitude, E and W with longitude");
    else if (unit_hint != NULL)
        (void)dawn_text_copy(hint.text, sizeof hint.text, unit_hint);
    else if (nearest != NULL)
        (void)snprintf(hint.text, sizeof hint.text, "did you mean '%s'?", nearest);
    if (measure == DAWN_MEASURE_NONE)
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, hint.text,
                               "unknown unit '%s'; %s takes no unit%s", unit, key->name,
                               key->kind == DAWN_KIND_COUNT ? "" : " but %");
    else
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, hint.text,
                               "unknown unit '%s'; %s is needed: %s", unit, measure_of(key),
                               units_of(key));
}

static void complain_wrong_unit(const struct trial *trial, const char *unit)
{
    const struct dawn_key *key = trial->key;
    const struct dawn_unit *other = dawn_unit_find_any(unit);
    const char *other_words =
        other == NULL ? "another measure" : dawn_unit_measure_words(other->measure);
    const char *hint = dawn_unit_hint((enum dawn_measure)key->measure, trial->text);
    if (hint == NULL)
        hint = key->meaning;
    if (key->measure == DAWN_MEASURE_NONE)
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, hint,
                               "%s is %s; %s takes no unit%s", unit, other_words, key->name,
                               key->kind == DAWN_KIND_COUNT ? "" : " but %");
    else
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, hint,
                               "%s is %s; %s is needed: %s", unit, other_words, measure_of(key),
                               units_of(key));
}

static void complain_of_fault(const struct trial *trial, enum dawn_quantity_fault fault,
                              const char *unit)
{
    switch (fault) {
    case DAWN_QUANTITY_NO_UNIT:
        complain_no_unit(trial);
        break;
    case DAWN_QUANTITY_UNKNOWN_UNIT:
        complain_unknown_unit(trial, unit);
        break;
    case DAWN_QUANTITY_WRONG_UNIT:
        complain_wrong_unit(trial, unit);
        break;
    case DAWN_QUANTITY_REST:
        dawn_scenario_complain(
            trial->reading, DAWN_ERROR, trial->place, "put remarks behind a blank and #",
            "something stands behind the unit in '%s'", dawn_scenario_quote_of(trial->text).text);
        break;
    default:
        complain_no_number(trial);
        break;
    }
}

/* ---- bounds ---- */

static bool lies_within(double value, double least, double most)
{
    double slack = 1e-9 * (fabs(least) + fabs(most));
    return value >= least - slack && value <= most + slack;
}

static const char *range_hint(const struct trial *trial, bool impossible)
{
    const struct dawn_key *key = trial->key;
    if (key->words != NULL && strlen(key->words) > 3 && key->measure == DAWN_MEASURE_ANGLE)
        return "from north by east: east is 90 deg, south 180 deg, west 270 deg";
    if (impossible && key->measure == DAWN_MEASURE_NONE && key->kind == DAWN_KIND_QUANTITY &&
        key->most <= 1.0)
        return "a share lies between 0 and 1; write percent as '30 %'";
    return impossible ? key->meaning : "check the number and its unit";
}

/* The table's bounds are told in the unit the user wrote. */
static bool check_bounds(const struct trial *trial, double si, const char *unit_text)
{
    const struct dawn_key *key = trial->key;
    struct dawn_unit table = unit_named(key, key->unit);
    struct dawn_unit theirs = unit_named(key, unit_text);
    if (theirs.name[0] == '\0')
        theirs = table;
    double value = (si - table.shift) / table.scale;
    bool impossible = !lies_within(value, key->least, key->most);
    if (!impossible && lies_within(value, key->doubt_least, key->doubt_most))
        return true;
    double least = convert(impossible ? key->least : key->doubt_least, table, theirs);
    double most = convert(impossible ? key->most : key->doubt_most, table, theirs);
    dawn_scenario_complain(trial->reading, impossible ? DAWN_ERROR : DAWN_WARNING, trial->place,
                           range_hint(trial, impossible), "%s: %s is %s %s to %s%s%s", key->name,
                           dawn_scenario_quote_of(trial->text).text,
                           impossible ? "impossible here; it can be" : "unusual; it mostly is",
                           dawn_scenario_figure_of(least).text, dawn_scenario_figure_of(most).text,
                           theirs.name[0] == '\0' ? "" : " ", theirs.name);
    return !impossible;
}

static bool check_version(const struct trial *trial, double value)
{
    if (trial->key->section[0] != '\0' || value == 1.0)
        return true;
    dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place,
                           "write 'dawnlow: 1'; a newer form needs a newer program",
                           "this program reads scenarios of form 1, not '%s'",
                           dawn_scenario_quote_of(trial->text).text);
    return false;
}

static bool check_count(const struct trial *trial, double value, const char *unit)
{
    if (unit[0] != '\0') {
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, trial->key->meaning,
                               "%s takes no unit, but '%s' stands behind the number",
                               trial->key->name, dawn_scenario_quote_of(unit).text);
        return false;
    }
    if (value != floor(value)) {
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, trial->key->meaning,
                               "'%s' is not a whole number",
                               dawn_scenario_quote_of(trial->text).text);
        return false;
    }
    return true;
}

static bool set_number(const struct trial *trial, void *base)
{
    const struct dawn_key *key = trial->key;
    double *field = number_at(key, base);
    double si = NAN;
    char unit[32] = "";
    if (read_words(key, trial->text, &si)) {
        *field = si;
        return isnan(si) || check_bounds(trial, si, unit);
    }
    *field = NAN;
    enum dawn_quantity_fault fault =
        dawn_unit_quantity(trial->text, (enum dawn_measure)key->measure, &si, unit);
    if (fault != DAWN_QUANTITY_OK) {
        complain_of_fault(trial, fault, unit);
        return false;
    }
    if (key->kind == DAWN_KIND_COUNT &&
        (!check_count(trial, si, unit) || !check_version(trial, si)))
        return false;
    if (!check_bounds(trial, si, unit))
        return false;
    *field = si;
    return true;
}

/* ---- choices and texts ---- */

static bool complain_of_word(const struct trial *trial)
{
    char list[400];
    struct hint hint = {""};
    list_words(trial->key->words, list, sizeof list);
    hint_nearest_word(&hint, trial->key->words, trial->text);
    if (hint.text[0] == '\0')
        (void)dawn_text_copy(hint.text, sizeof hint.text, trial->key->meaning);
    struct dawn_scenario_quote quote = dawn_scenario_quote_of(trial->text);
    if (trial->reading->listed == trial->key)
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, hint.text,
                               "unknown %s '%s'; what it can be is told above", trial->key->name,
                               quote.text);
    else
        dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, hint.text,
                               "unknown %s '%s'; it is one of: %s", trial->key->name, quote.text,
                               list);
    trial->reading->listed = trial->key;
    return false;
}

static bool set_choice(const struct trial *trial, void *base)
{
    int n = find_word(trial->key->words, trial->text);
    memcpy((char *)base + trial->key->offset, &n, sizeof n);
    return n >= 0 || complain_of_word(trial);
}

static bool set_text(const struct trial *trial, void *base)
{
    const struct dawn_key *key = trial->key;
    char *field = (char *)base + key->offset;
    field[0] = '\0';
    if (key->words != NULL) {
        int n = find_word(key->words, trial->text);
        if (n < 0)
            return complain_of_word(trial);
        return n == 0 || dawn_scenario_word(key->words, n, field, key->size);
    }
    if (dawn_text_copy(field, key->size, trial->text))
        return true;
    field[0] = '\0';
    dawn_scenario_complain(trial->reading, DAWN_ERROR, trial->place, "shorten it",
                           "%s is too long: %zu bytes are the most", key->name, key->size - 1);
    return false;
}

static void clear(const struct dawn_key *key, void *base)
{
    int none = -1;
    if (key->kind == DAWN_KIND_CHOICE)
        memcpy((char *)base + key->offset, &none, sizeof none);
    else if (key->kind == DAWN_KIND_TEXT)
        ((char *)base)[key->offset] = '\0';
    else
        *number_at(key, base) = NAN;
}

bool dawn_scenario_set_value(struct dawn_scenario_reading *reading, const struct dawn_key *key,
                             void *base, const char *text, struct dawn_place_in_file place)
{
    struct trial trial = {reading, key, text, place};
    bool may_be_empty = key->kind == DAWN_KIND_TEXT && key->usual != NULL && key->usual[0] == '\0';
    if (text[0] == '\0' && !may_be_empty) {
        clear(key, base);
        dawn_scenario_complain(reading, DAWN_ERROR, place, key->meaning,
                               "nothing stands behind '%s:'", key->name);
        return false;
    }
    switch (key->kind) {
    case DAWN_KIND_CHOICE:
        return set_choice(&trial, base);
    case DAWN_KIND_TEXT:
        return set_text(&trial, base);
    default:
        return set_number(&trial, base);
    }
}

void dawn_scenario_set_usual(const struct dawn_scenario_section *section, void *base)
{
    struct dawn_scenario_reading nobody = {0};
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(keys[i].section, section->name) != 0)
            continue;
        clear(&keys[i], base);
        if (keys[i].usual != NULL)
            (void)dawn_scenario_set_value(&nobody, &keys[i], base, keys[i].usual,
                                          (struct dawn_place_in_file){0});
    }
}
