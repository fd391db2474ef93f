/* Two numbers, their unit and how many values. */
#include "studies/range.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#include "base/text.h"

bool dawn_range_is(const char *text)
{
    return strstr(text, "..") != NULL;
}

/* A number and, behind it, a unit. */
static bool read_end(const char *from, const char *end, double *number,
                     char unit[DAWN_RANGE_UNIT_SIZE])
{
    char text[128];
    const char *rest = NULL;

    unit[0] = '\0';
    if (!dawn_text_cut(text, sizeof text, from, end) || !dawn_text_number(text, &rest, number)) {
        return false;
    }
    rest += strspn(rest, " ");
    return dawn_text_copy(unit, DAWN_RANGE_UNIT_SIZE, rest);
}

static bool read_steps(size_t *steps, const char *text)
{
    double value = 0.0;
    const char *rest = NULL;

    if (!dawn_text_number(text, &rest, &value) || *rest != '\0' || value < 2.0 ||
        value > DAWN_RANGE_STEPS_MOST || value != floor(value)) {
        return false;
    }
    *steps = (size_t)value;
    return true;
}

const char *dawn_range_read(struct dawn_range *range, const char *text)
{
    char from_unit[DAWN_RANGE_UNIT_SIZE];
    const char *dots = strstr(text, "..");

    *range = (struct dawn_range){0};
    if (dots == NULL) {
        return "a range is written FROM..TO";
    }
    /* Units hold a / too ("m3/h"): the one that counts has only digits behind it. */
    const char *slash = strrchr(dots, '/');
    const char *end = dots + strlen(dots);
    if (slash != NULL && isdigit((unsigned char)slash[1 + strspn(slash + 1, " ")])) {
        end = slash;
        if (!read_steps(&range->steps, slash + 1)) {
            return "behind the / stands how many values to take, 2 or more, both ends included";
        }
    }
    if (!read_end(text, dots, &range->from, from_unit) ||
        !read_end(dots + 2, end, &range->to, range->unit)) {
        return "both ends of the range must be numbers with their unit";
    }
    if (from_unit[0] != '\0' && strcmp(from_unit, range->unit) != 0) {
        return "both ends must be in the same unit";
    }
    return range->from < range->to ? NULL : "the range is empty; the smaller end comes first";
}
