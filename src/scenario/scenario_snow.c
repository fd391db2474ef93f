/* Snow on the roof: its days, read from their text and held against the calendar; what bears it and
 * what it weighs. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/civil.h"
#include "dawnlow/physics/snow.h"
#include "scenario/scenario_parts.h"

/* Without a last day snow lies until it slides, but not through the summer. */
static const int64_t days_most = 180;
static const int64_t days_doubtful = 120;

static bool day_of(const char *text, struct dawn_snow_day *day)
{
    return dawn_civil_read_day(text, &day->year, &day->month, &day->day);
}

struct dawn_snow_days dawn_scenario_snow_days(const struct dawn_scenario *scenario,
                                              const struct dawn_snow *snow)
{
    struct dawn_snow_days days = {.ends = snow->until[0] != '\0',
                                  .utc_offset_h = scenario->site.utc_offset_h};
    days.right = day_of(snow->from, &days.from) && (!days.ends || day_of(snow->until, &days.until));
    return days;
}

/* How many days after its first, in a year, it still lies; below 0 when the days are not right. */
static int64_t length_of(const struct dawn_snow_days *days, int year)
{
    const struct dawn_snow_day *from = &days->from;
    const struct dawn_snow_day *until = &days->until;
    if (!days->right)
        return -1;
    if (!days->ends)
        return days_most;
    int64_t first = dawn_civil_days(year, from->month, from->day);
    int64_t last = dawn_civil_days(until->year > 0 ? until->year : year, until->month, until->day);
    if (last < first && until->year == 0)
        last = dawn_civil_days(year + 1, until->month, until->day);
    return last - first;
}

int64_t dawn_scenario_snow_age_days(const struct dawn_snow_days *days, int64_t utc_s)
{
    const struct dawn_snow_day *from = &days->from;
    const struct dawn_civil at = dawn_civil_at(utc_s, days->utc_offset_h);
    int64_t today = dawn_civil_days(at.year, at.month, at.day);
    int year = from->year > 0 ? from->year : at.year;
    if (from->year == 0 && today < dawn_civil_days(year, from->month, from->day))
        --year;
    int64_t age = today - dawn_civil_days(year, from->month, from->day);
    return age <= length_of(days, year) && age >= 0 ? age : -1;
}

bool dawn_scenario_bears_snow(const struct dawn_scenario *scenario, double slope_deg)
{
    return scenario->snow_count > 0 && slope_deg <= scenario->house.snow_steepest_deg;
}

double dawn_scenario_snow_m2(const struct dawn_scenario *scenario)
{
    double area_m2 = 0;
    for (size_t i = 0; i < scenario->glazing_count; i++)
        if (dawn_scenario_bears_snow(scenario, scenario->glazing[i].slope_deg))
            area_m2 += scenario->glazing[i].area_m2;
    for (size_t i = 0; i < scenario->wall_count; i++)
        if (scenario->walls[i].outside == DAWN_OUTSIDE_WEATHER &&
            dawn_scenario_bears_snow(scenario, scenario->walls[i].slope_deg))
            area_m2 += scenario->walls[i].area_m2;
    return area_m2;
}

/* What lies at a moment by the days of all falls. */
static double load_at_kg_m2(const struct dawn_scenario *scenario, int64_t utc_s)
{
    double load = 0;
    for (size_t i = 0; i < scenario->snow_count; i++) {
        const struct dawn_snow *snow = &scenario->snow[i];
        const struct dawn_snow_days days = dawn_scenario_snow_days(scenario, snow);
        if (dawn_scenario_snow_age_days(&days, utc_s) >= 0)
            load += dawn_snow_load_kg_m2(snow->depth_m, snow->density_kg_m3);
    }
    return load;
}

/* What lies at once is most on a day on which some of it falls. */
double dawn_scenario_snow_load_kg_m2(const struct dawn_scenario *scenario)
{
    double most = 0;
    for (size_t i = 0; i < scenario->snow_count; i++) {
        const struct dawn_snow_day from =
            dawn_scenario_snow_days(scenario, &scenario->snow[i]).from;
        struct dawn_civil noon = {.year = from.year > 0 ? from.year : 2001,
                                  .month = from.month,
                                  .day = from.day,
                                  .hour = 12};
        most = fmax(
            most, load_at_kg_m2(scenario, dawn_civil_seconds(&noon, scenario->site.utc_offset_h)));
    }
    return most;
}

/* ---- rules ---- */

static void blame(struct dawn_scenario_reading *reading, enum dawn_severity severity, size_t item,
                  const char *key_name, const char *hint, const char *message)
{
    const struct dawn_scenario_spot spot = {dawn_scenario_section_named("snow"), item, 0};
    const struct dawn_key *key = dawn_scenario_key_named("snow", key_name);
    const struct dawn_scenario_origin *origin =
        dawn_scenario_find_origin(reading->scenario, spot, key);
    dawn_scenario_complain(reading, severity,
                           dawn_scenario_place(reading, origin == NULL ? 0 : origin->line,
                                               origin == NULL ? 0 : origin->column),
                           hint, "%s: %s", dawn_scenario_title_of(reading->scenario, spot).text,
                           message);
}

/* A text that is missing has been complained of. */
static bool check_day(struct dawn_scenario_reading *reading, size_t item, const char *key_name,
                      const char *text)
{
    char message[160];
    struct dawn_snow_day day;
    if (text[0] == '\0' || day_of(text, &day))
        return text[0] != '\0';
    (void)snprintf(message, sizeof message, "'%s' is no day; %s is written as 2026-03-04 or 03-04",
                   dawn_scenario_quote_of(text).text, key_name);
    blame(reading, DAWN_ERROR, item, key_name, "year-month-day, or month-day for every year",
          message);
    return false;
}

static void check_fall(struct dawn_scenario_reading *reading, size_t item)
{
    const struct dawn_snow *snow = &reading->scenario->snow[item];
    bool both = check_day(reading, item, "from", snow->from);
    both = check_day(reading, item, "until", snow->until) && both;
    if (!both)
        return;
    const struct dawn_snow_days days = dawn_scenario_snow_days(reading->scenario, snow);
    int64_t length = length_of(&days, days.from.year > 0 ? days.from.year : 2001);
    if ((days.from.year > 0) != (days.until.year > 0))
        blame(reading, DAWN_ERROR, item, "until", "give both days a year, or neither",
              "one of from and until has a year, the other has none");
    else if (length < 0)
        blame(reading, DAWN_ERROR, item, "until", "until is the last day on which it lies",
              "until is earlier than from");
    else if (length > days_doubtful)
        blame(reading, DAWN_WARNING, item, "until", "until is the last day on which it lies",
              "it would lie for more than four months");
}

void dawn_scenario_check_snow(struct dawn_scenario_reading *reading)
{
    const struct dawn_scenario *scenario = reading->scenario;
    for (size_t i = 0; i < scenario->snow_count; i++)
        check_fall(reading, i);
    if (scenario->snow_count > 0 && dawn_scenario_snow_m2(scenario) <= 0)
        blame(reading, DAWN_WARNING, 0, "from", "look at snow_steepest of the house and at slopes",
              "no pane and no roof is flat enough for snow to lie on, so none does");
}
