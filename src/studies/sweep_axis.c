/* "rock.mass=6 t..24 t/4" to the values a key takes. */
#include <string.h>

#include "base/text.h"
#include "dawnlow/studies/sweep.h"
#include "studies/range.h"

static bool refuse(struct dawn_problems *problems, const char *text, const char *what)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                      "for example \"rock.mass=6 t..24 t/4\" or \"glazing.south "
                      "roof.type=film|glass\"",
                      "cannot vary '%s': %s", text, what);
    return false;
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
        if (!dawn_text_cut(axis->words[axis->steps], sizeof axis->words[0], at, end)) {
            return refuse(problems, text, "a value between the bars is empty or too long");
        }
        axis->steps++;
        at = bar != NULL ? bar + 1 : NULL;
    }
    return true;
}

static bool read_range(struct dawn_sweep_axis *axis, const char *text, const char *values,
                       struct dawn_problems *problems)
{
    struct dawn_range range;
    const char *wrong = dawn_range_read(&range, values);

    if (wrong != NULL) {
        return refuse(problems, text, wrong);
    }
    axis->from = range.from;
    axis->to = range.to;
    axis->steps = range.steps;
    return dawn_text_copy(axis->unit, sizeof axis->unit, range.unit);
}

bool dawn_sweep_axis_parse(struct dawn_sweep_axis *axis, const char *text,
                           struct dawn_problems *problems)
{
    const char *equals = strchr(text, '=');

    *axis = (struct dawn_sweep_axis){0};
    if (equals == NULL || !dawn_text_cut(axis->key, sizeof axis->key, text, equals)) {
        return refuse(problems, text, "a key and its values with = between");
    }
    if (dawn_range_is(equals + 1)) {
        return read_range(axis, text, equals + 1, problems);
    }
    return read_words(axis, text, equals + 1, problems);
}
