/* From days on the command line to the stretch of weather a run goes over. */
#include "cli/window.h"

#include <stdbool.h>
#include <stdio.h>

#include "base/civil.h"

static const struct dawn_place_in_file nowhere = {0};

enum { DAY_ROOM = 48 };

static void write_day(int64_t utc_s, double utc_offset_h, char out[DAY_ROOM])
{
    const struct dawn_civil day = dawn_civil_at(utc_s, utc_offset_h);

    snprintf(out, DAY_ROOM, "%04d-%02d-%02d", day.year, day.month, day.day);
}

static void write_date(struct dawn_options_date date, char out[DAY_ROOM])
{
    if (date.year != 0) {
        snprintf(out, DAY_ROOM, "%04d-%02d-%02d", date.year, date.month, date.day);
    } else {
        snprintf(out, DAY_ROOM, "%02d-%02d", date.month, date.day);
    }
}

static int64_t noon_of(int year, struct dawn_options_date date, double utc_offset_h)
{
    const struct dawn_civil noon = {.year = year, .month = date.month, .day = date.day, .hour = 12};

    return dawn_civil_seconds(&noon, utc_offset_h);
}

/* Whether a day has a moment inside the stretch. */
static bool day_touches(int64_t noon_s, struct dawn_window stretch)
{
    const int64_t half_day_s = 43200;

    return noon_s + half_day_s > stretch.from_s && noon_s - half_day_s <= stretch.to_s;
}

/* Noon of a date inside a stretch; without a year, the first that fits. False when none does. */
static bool find_noon(int64_t *noon_s, struct dawn_options_date date, struct dawn_window stretch,
                      double utc_offset_h)
{
    const int first = date.year != 0 ? date.year : dawn_civil_at(stretch.from_s, utc_offset_h).year;
    const int last = date.year != 0 ? date.year : dawn_civil_at(stretch.to_s, utc_offset_h).year;

    for (int year = first; year <= last; year++) {
        if (dawn_civil_valid(year, date.month, date.day)) {
            *noon_s = noon_of(year, date, utc_offset_h);
            if (day_touches(*noon_s, stretch)) {
                return true;
            }
        }
    }
    return false;
}

static void say_outside(const char *option, struct dawn_options_date date,
                        struct dawn_window covered, double utc_offset_h,
                        struct dawn_problems *problems)
{
    char day[DAY_ROOM];
    char first[DAY_ROOM];
    char last[DAY_ROOM];
    char hint[128];

    write_date(date, day);
    write_day(covered.from_s, utc_offset_h, first);
    write_day(covered.to_s, utc_offset_h, last);
    snprintf(hint, sizeof hint, "the weather goes from %s to %s", first, last);
    dawn_problems_add(problems, DAWN_ERROR, nowhere, hint, "%s %s is not in the weather", option,
                      day);
}

static int64_t within(int64_t value, struct dawn_window covered)
{
    if (value < covered.from_s) {
        return covered.from_s;
    }
    return value > covered.to_s ? covered.to_s : value;
}

struct dawn_window dawn_window_covered(const struct dawn_network *network,
                                       const struct dawn_weather *weather)
{
    const struct dawn_window forcing = {dawn_network_from_s(network), dawn_network_to_s(network)};

    return (struct dawn_window){within(weather->first_s, forcing), forcing.to_s};
}

enum dawn_status dawn_window_find(struct dawn_window *window, struct dawn_options_date from,
                                  struct dawn_options_date to, struct dawn_window covered,
                                  double utc_offset_h, struct dawn_problems *problems)
{
    struct dawn_window rest = covered;
    int64_t noon_s = 0;

    *window = covered;
    if (from.month != 0) {
        if (!find_noon(&noon_s, from, covered, utc_offset_h)) {
            say_outside("--from", from, covered, utc_offset_h, problems);
            return DAWN_ERR_USAGE;
        }
        window->from_s = within(noon_s, covered);
        rest.from_s = within(noon_s + 43200, covered); /* the last morning is a later day */
    }
    if (to.month != 0) {
        if (!find_noon(&noon_s, to, rest, utc_offset_h) &&
            !find_noon(&noon_s, to, covered, utc_offset_h)) {
            say_outside("--to", to, covered, utc_offset_h, problems);
            return DAWN_ERR_USAGE;
        }
        window->to_s = within(noon_s, covered);
    }
    if (window->from_s >= window->to_s) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere,
                          "--from is the day of the first evening, --to the day of the last "
                          "morning: at least one day later",
                          "there is no night between --from and --to");
        return DAWN_ERR_USAGE;
    }
    return DAWN_OK;
}

/* The network is built for its forcing's ends alone: they bound the window. */
enum dawn_status dawn_window_of(struct dawn_window *window, const struct dawn_scenario *scenario,
                                const struct dawn_weather *weather,
                                const struct dawn_options *options, struct dawn_problems *problems)
{
    struct dawn_network *network = NULL;
    enum dawn_status status = dawn_network_build(&network, scenario, weather, problems);

    if (status == DAWN_OK) {
        status = dawn_window_find(window, options->from, options->to,
                                  dawn_window_covered(network, weather),
                                  scenario->site.utc_offset_h, problems);
    }
    dawn_network_free(network);
    return status;
}

const struct dawn_night *dawn_window_night(const struct dawn_nights *nights,
                                           struct dawn_options_date evening, double utc_offset_h,
                                           struct dawn_problems *problems)
{
    char day[DAY_ROOM];
    char hint[160] = "";

    for (size_t i = 0; i < nights->count; i++) {
        const struct dawn_civil dusk = dawn_civil_at(nights->night[i].dusk_s, utc_offset_h);
        if (dusk.month == evening.month && dusk.day == evening.day &&
            (evening.year == 0 || evening.year == dusk.year)) {
            return &nights->night[i];
        }
    }
    write_date(evening, day);
    if (nights->count > 0) {
        char first[DAY_ROOM];
        char last[DAY_ROOM];
        write_day(nights->night[0].dusk_s, utc_offset_h, first);
        write_day(nights->night[nights->count - 1].dusk_s, utc_offset_h, last);
        snprintf(hint, sizeof hint, "a night is named by its evening: %s to %s are there", first,
                 last);
    }
    dawn_problems_add(problems, DAWN_ERROR, nowhere, hint[0] != '\0' ? hint : NULL,
                      "no night begins on the evening of %s", day);
    return NULL;
}
