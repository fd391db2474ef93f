/* Where the nursery is: latitude, longitude, height above the sea, clock. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/draft.h"

/* One bearing of a place as it is being read. */
struct bearing {
    double deg;
    char letter; /* N S E W; 0 = not said */
};

static const char *skip(const char *at, const char *bytes)
{
    return at + strspn(at, bytes);
}

/* A mark of minutes or seconds, plain or typographic. Returns what is behind it, or NULL. */
static const char *behind_mark(const char *at, const char *const marks[], size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strncmp(at, marks[i], strlen(marks[i])) == 0)
            return at + strlen(marks[i]);
    return NULL;
}

/* "12' 30\"" behind the degrees; adds to *deg. Returns what is behind. */
static const char *read_minutes(const char *at, double *deg)
{
    static const char *const minutes[] = {"'", "\xe2\x80\xb2", "\xe2\x80\x99", "min"};
    static const char *const seconds[] = {"\"", "\xe2\x80\xb3", "\xe2\x80\x9d", "''"};
    double value = 0;
    const char *end = at;
    double sign = *deg < 0 ? -1 : 1;
    if (!dawn_text_number(at, &end, &value))
        return at;
    const char *behind = behind_mark(skip(end, " "), minutes, 4);
    if (behind == NULL || value < 0 || value >= 60)
        return at;
    *deg += sign * value / 60;
    if (!dawn_text_number(behind, &end, &value))
        return behind;
    const char *last = behind_mark(skip(end, " "), seconds, 4);
    if (last == NULL || value < 0 || value >= 60)
        return behind;
    *deg += sign * value / 3600;
    return last;
}

/* "45.2 N", "45\xc2\xb0 12' N", "-73.5"; returns what is behind it, NULL when there is none. */
static const char *read_bearing(const char *at, struct bearing *bearing)
{
    static const char *const degrees[] = {"\xc2\xb0", "degrees", "deg"};
    const char *end = NULL;
    *bearing = (struct bearing){0};
    if (!dawn_text_number(at, &end, &bearing->deg))
        return NULL;
    at = skip(end, " ");
    end = behind_mark(at, degrees, 3);
    if (end != NULL)
        at = skip(read_minutes(skip(end, " "), &bearing->deg), " ");
    if (*at != '\0' && strchr("NSEWnsew", *at) != NULL && strchr(" ,;", at[1]) != NULL) {
        bearing->letter = (char)(*at & ~0x20);
        at++;
    }
    return skip(at, " ,;");
}

static bool is_along(struct bearing bearing) /* of the equator */
{
    return bearing.letter == 'E' || bearing.letter == 'W';
}

static double signed_deg(struct bearing bearing)
{
    return bearing.letter == 'S' || bearing.letter == 'W' ? -bearing.deg : bearing.deg;
}

static bool keep_place(struct dawn_draft *draft, struct bearing first, struct bearing second,
                       struct dawn_text *why)
{
    if (is_along(first) || second.letter == 'N' || second.letter == 'S') {
        struct bearing held = first;
        first = second;
        second = held;
    }
    double latitude = signed_deg(first);
    double longitude = signed_deg(second);
    if (is_along(first) || second.letter == 'N' || second.letter == 'S' || fabs(latitude) > 90 ||
        fabs(longitude) > 180 || (first.letter != 0 && first.deg < 0) ||
        (second.letter != 0 && second.deg < 0)) {
        dawn_text_add(why, "that is no place on earth: latitude up to 90 N or S, longitude up to "
                           "180 E or W");
        return false;
    }
    draft->latitude_deg = latitude;
    draft->longitude_deg = longitude;
    return true;
}

bool dawn_draft_read_place(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    struct bearing first = {0};
    struct bearing second = {0};
    double elevation_m = NAN;
    const char *at = read_bearing(answer, &first);
    at = at == NULL ? NULL : read_bearing(at, &second);
    if (at == NULL) {
        dawn_text_add(why, "'%s' is not latitude and longitude, such as 45.2 N 6.9 E", answer);
        return false;
    }
    if (*at != '\0' && !dawn_draft_quantity(at, "site", "elevation", &elevation_m, why))
        return false;
    if (!keep_place(draft, first, second, why))
        return false;
    draft->elevation_m = elevation_m;
    return true;
}

bool dawn_draft_read_clock(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    char with_unit[DAWN_DRAFT_ANSWER_SIZE];
    const char *end = NULL;
    double hours = 0;
    bool bare = dawn_text_number(answer, &end, &hours) && *skip(end, " ") == '\0';
    (void)snprintf(with_unit, sizeof with_unit, "%s%s", answer, bare ? " h" : "");
    return dawn_draft_quantity(with_unit, "site", "utc_offset", &draft->utc_offset_h, why);
}

bool dawn_draft_demo_fits(const struct dawn_draft *draft)
{
    /* The valley of the invented weather, and how far its sun is about the same: half of what the
     * reader of weather refuses. */
    static const double latitude_deg = 45.2;
    static const double longitude_deg = 6.9;
    static const double near_deg = 7.5;
    return draft->demo_weather[0] != '\0' && fabs(draft->latitude_deg - latitude_deg) < near_deg &&
           fabs(draft->longitude_deg - longitude_deg) < near_deg;
}
