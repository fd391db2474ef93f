/* "rock.mass=6 t..24 t/4" to the values a key takes. */
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "dawnlow/studies/sweep.h"

static bool refuse(struct dawn_problems *problems, const char *text, const char *what)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                      "for example \"rock.mass=6 t..24 t/4\" or \"glazing.south "
                      "roof.type=film|glass\"",
                      "cannot vary '%s': %s", text, what);
    return false;
}

/* Copies from..end without blanks around it; false when it is empty or does not fit. */
static bool cut(char *out, size_t size, const char *from, const char *end)
{
    size_t length = (size_t)(end - from);

    while (length > 0 && isspace((unsigned char)*from)) {
        from++;
        length--;
    }
    while (length > 0 && isspace((unsigned char)from[length - 1])) {
        length--;
    }
    if (length == 0 || length >= size) {
        return false;
    }
    memcpy(out, from, length);
    out[length] = '\0';
    return true;
}

static bool read_words(struct dawn_sweep_axis *axis, const char *text, const char *values,
                       struct dawn_problems *problems)
{
    axis->by_words = true;
    for (const char *at = values; at != NULL;) {
        const char *bar = strchr(at, '|');
        const char *end = bar != NULL ? bar : at + strlen(at);
        if (axis->steps == DAWN_SWEEP_WORDS) {
            return refuse(problems, text, "more than 32 values; use a range");
        }
        if (!cut(axis->words[axis->steps], sizeof axis->words[0], at, end)) {
            return refuse(problems, text, "a value between the bars is empty or too long");
        }
        axis->steps++;
        at = bar != NULL ? bar + 1 : NULL;
    }
    return true;
}

/* A number and, behind it, a unit. */
static bool read_end(const char *from, const char *end, double *number, char *unit, size_t size)
{
    char text[DAWN_SWEEP_TEXT];
    const char *rest = NULL;

    unit[0] = '\0';
    if (!cut(text, sizeof text, from, end) || !dawn_text_number(text, &rest, number)) {
        return false;
    }
    rest += strspn(rest, " ");
    return dawn_text_copy(unit, size, rest);
}

static bool read_steps(struct dawn_sweep_axis *axis, const char *slash, const char *text,
                       struct dawn_problems *problems)
{
    double steps = 0.0;
    const char *rest = NULL;

    if (!dawn_text_number(slash + 1, &rest, &steps) || *rest != '\0' || steps < 2.0 ||
        steps > DAWN_SWEEP_ROWS || steps != floor(steps)) {
        return refuse(problems, text,
                      "behind the / stands how many values to take, 2 or more, both ends included");
    }
    axis->steps = (size_t)steps;
    return true;
}

static bool read_range(struct dawn_sweep_axis *axis, const char *text, const char *values,
                       const char *dots, struct dawn_problems *problems)
{
    char from_unit[sizeof axis->unit];
    /* Units hold a / too ("m3/h"): the one that counts has only digits behind it. */
    const char *slash = strrchr(dots, '/');
    const char *end = dots + strlen(dots);

    if (slash != NULL && isdigit((unsigned char)slash[1 + strspn(slash + 1, " ")])) {
        end = slash;
        if (!read_steps(axis, slash, text, problems)) {
            return false;
        }
    }
    if (!read_end(values, dots, &axis->from, from_unit, sizeof from_unit) ||
        !read_end(dots + 2, end, &axis->to, axis->unit, sizeof axis->unit)) {
        return refuse(problems, text, "both ends of the range must be numbers with their unit");
    }
    if (from_unit[0] != '\0' && strcmp(from_unit, axis->unit) != 0) {
        return refuse(problems, text, "both ends must be in the same unit");
    }
    if (!(axis->from < axis->to)) {
        return refuse(problems, text, "the range is empty; the smaller end comes first");
    }
    return true;
}

bool dawn_sweep_axis_parse(struct dawn_sweep_axis *axis, const char *text,
                           struct dawn_problems *problems)
{
    const char *equals = strchr(text, '=');

    *axis = (struct dawn_sweep_axis){0};
    if (equals == NULL || !cut(axis->key, sizeof axis->key, text, equals)) {
        return refuse(problems, text, "a key and its values with = between");
    }
    const char *dots = strstr(equals + 1, "..");
    if (dots != NULL) {
        return read_range(axis, text, equals + 1, dots, problems);
    }
    return read_words(axis, text, equals + 1, problems);
}
