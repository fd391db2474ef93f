/* From rows to hours one can calculate with: short gaps filled, long ones refused, doubts said. */
#include <math.h>
#include <stdlib.h>

#include "base/civil.h"
#include "weather/weather_job.h"

enum { LONGEST_GAP_H = 3, LONGEST_FLAT_H = 24, HOUR_S = 3600 };
#define DEW_ROUNDING_K 0.6 /* whole degrees of one and tenths of the other */
#define SPIKE_K        15.0 /* in an hour; fronts and foehn stay below (common practice, no source) */

static const struct dawn_weather_spot nowhere = {DAWN_WEATHER_NO_ROW, -1};

/* Rows before the first and behind the last air temperature serve nobody. */
static void trim_empty_ends(struct dawn_weather_job *job)
{
    struct dawn_weather_readings *readings = &job->readings;
    const double *air = readings->value[DAWN_WEATHER_AIR];
    size_t valid = 0;
    size_t first = readings->count;
    size_t last = 0;
    for (size_t i = 0; i < readings->count; i++) {
        if (isnan(air[i]))
            continue;
        valid++;
        first = first == readings->count ? i : first;
        last = i;
    }
    size_t empty = readings->count - valid;
    if (valid * 2 < readings->count) {
        dawn_weather_say(
            job, DAWN_WEATHER_SAY_EMPTY, DAWN_ERROR,
            (struct dawn_weather_spot){job->header, job->column[DAWN_WEATHER_AIR].index},
            "the station has no data for this time, or the month is not over; take "
            "another file",
            "%zu of %zu hours have no air temperature", empty, readings->count);
        return;
    }
    size_t trimmed = first + (readings->count - 1 - last);
    if (trimmed == 0)
        return;
    dawn_weather_say(job, DAWN_WEATHER_SAY_EMPTY, DAWN_WARNING,
                     (struct dawn_weather_spot){readings->row[first > 0 ? 0 : last + 1], -1}, NULL,
                     "%zu of %zu hours at the %s have no air temperature; they are left out",
                     trimmed, readings->count,
                     first == 0                    ? "end"
                     : last + 1 == readings->count ? "start"
                                                   : "start and end");
    readings->count = last + 1 - first;
    for (size_t i = 0; first > 0 && i < readings->count; i++) {
        readings->stamp_s[i] = readings->stamp_s[i + first];
        readings->row[i] = readings->row[i + first];
        for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
            if (readings->value[q])
                readings->value[q][i] = readings->value[q][i + first];
    }
}

/* A clock put forward leaves one hour out, on a Sunday in spring. */
static bool like_summer_time(const struct dawn_weather_job *job, int64_t missing_s)
{
    struct dawn_civil civil = dawn_civil_at(missing_s, job->weather->utc_offset_h);
    bool spring = civil.month == 3 || civil.month == 4 || civil.month == 9 || civil.month == 10;
    return !job->weather->utc_offset_from_file && spring && civil.weekday == 6 && civil.hour <= 3;
}

static size_t row_before(const struct dawn_weather_hours *hours, size_t i)
{
    while (i > 0 && hours->row[i - 1] == DAWN_WEATHER_NO_ROW)
        i--;
    return i > 0 ? hours->row[i - 1] : DAWN_WEATHER_NO_ROW;
}

/* Hours without a row: one note for each gap, whatever the number of columns. */
static void note_missing_rows(struct dawn_weather_job *job)
{
    const struct dawn_weather_hours *hours = &job->hours;
    for (size_t i = 0; i < hours->count; i++) {
        size_t end = i;
        while (end < hours->count && hours->row[end] == DAWN_WEATHER_NO_ROW)
            end++;
        if (end == i)
            continue;
        char at[24];
        int64_t missing_s = hours->first_s + (int64_t)i * HOUR_S;
        dawn_weather_say_time(job, missing_s, at);
        dawn_weather_say(job, DAWN_WEATHER_SAY_FILLED, DAWN_NOTE,
                         (struct dawn_weather_spot){row_before(hours, i), -1},
                         end == i + 1 && like_summer_time(job, missing_s)
                             ? "if the clock was put forward to summer time here, all later rows "
                               "are an hour late; export in standard time or UTC"
                             : NULL,
                         "%zu h missing from %s on; filled between its neighbours", end - i, at);
        i = end;
    }
}

static void fill_linear(double *value, size_t from, size_t to)
{
    for (size_t i = from; i < to; i++) {
        double share = (double)(i - from + 1) / (double)(to - from + 1);
        value[i] = value[from - 1] + (value[to] - value[from - 1]) * share;
    }
}

static bool all_without_row(const struct dawn_weather_hours *hours, size_t from, size_t to)
{
    for (size_t i = from; i < to; i++)
        if (hours->row[i] != DAWN_WEATHER_NO_ROW)
            return false;
    return true;
}

/* One run of empty hours [from, to) of one quantity. Returns whether it was filled. */
static bool mend_run(struct dawn_weather_job *job, enum dawn_weather_quantity quantity, size_t from,
                     size_t to)
{
    struct dawn_weather_hours *hours = &job->hours;
    bool inside = from > 0 && to < hours->count;
    struct dawn_weather_spot spot = {hours->row[from], job->column[quantity].index};
    char at[24];
    dawn_weather_say_time(job, hours->first_s + (int64_t)from * HOUR_S, at);
    if (inside && to - from <= LONGEST_GAP_H) {
        fill_linear(hours->value[quantity], from, to);
        if (!all_without_row(hours, from, to))
            dawn_weather_say(job, DAWN_WEATHER_SAY_FILLED, DAWN_NOTE, spot, NULL,
                             "%s missing for %zu h from %s on; filled between its neighbours",
                             dawn_weather_quantity_words(quantity), to - from, at);
        return true;
    }
    if (quantity == DAWN_WEATHER_AIR)
        dawn_weather_say(job, DAWN_WEATHER_SAY_GAP, DAWN_ERROR, spot,
                         "fill the gap from a neighbouring station, or use the part before or "
                         "after it",
                         "air temperature missing for %zu h from %s on; up to %d h are filled",
                         to - from, at, LONGEST_GAP_H);
    else
        dawn_weather_say(job, DAWN_WEATHER_SAY_GAP, DAWN_WARNING, spot, NULL,
                         "%s missing for %zu h from %s on; estimated for these hours",
                         dawn_weather_quantity_words(quantity), to - from, at);
    return false;
}

static size_t count_empty(const double *value, size_t count)
{
    size_t empty = 0;
    for (size_t i = 0; i < count; i++)
        empty += isnan(value[i]) ? 1 : 0;
    return empty;
}

/* A column that is mostly empty is as good as none. */
static bool too_empty(struct dawn_weather_job *job, enum dawn_weather_quantity quantity)
{
    struct dawn_weather_hours *hours = &job->hours;
    size_t empty = count_empty(hours->value[quantity], hours->count);
    if (quantity == DAWN_WEATHER_AIR || empty * 2 <= hours->count)
        return false;
    dawn_weather_say(job, DAWN_WEATHER_SAY_EMPTY, empty == hours->count ? DAWN_NOTE : DAWN_WARNING,
                     (struct dawn_weather_spot){job->header, job->column[quantity].index}, NULL,
                     "the column of %s has no value in %zu of %zu hours and is left out",
                     dawn_weather_quantity_words(quantity), empty, hours->count);
    hours->given[quantity] = false;
    free(hours->value[quantity]);
    hours->value[quantity] = NULL;
    return true;
}

static void mend_gaps(struct dawn_weather_job *job)
{
    struct dawn_weather_hours *hours = &job->hours;
    size_t most_filled = 0;
    note_missing_rows(job);
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++) {
        enum dawn_weather_quantity quantity = (enum dawn_weather_quantity)q;
        size_t filled = 0;
        if (!hours->value[q] || too_empty(job, quantity))
            continue;
        for (size_t i = 0; i < hours->count; i++) {
            size_t end = i;
            while (end < hours->count && isnan(hours->value[q][end]))
                end++;
            if (end == i)
                continue;
            filled += mend_run(job, quantity, i, end) ? end - i : 0;
            i = end;
        }
        most_filled = filled > most_filled ? filled : most_filled;
    }
    job->weather->filled_hours = most_filled;
}

static void warn_spikes(struct dawn_weather_job *job)
{
    const struct dawn_weather_hours *hours = &job->hours;
    const double *air = hours->value[DAWN_WEATHER_AIR];
    for (size_t i = 1; i < hours->count; i++) {
        double step = air[i] - air[i - 1];
        if (fabs(step) <= SPIKE_K)
            continue;
        dawn_weather_say(
            job, DAWN_WEATHER_SAY_SPIKE, DAWN_WARNING,
            (struct dawn_weather_spot){hours->row[i], job->column[DAWN_WEATHER_AIR].index},
            "look for a sensor unplugged, moved or in the sun",
            "the air temperature %s by %.1f K in one hour (%.1f to %.1f C)",
            step > 0.0 ? "rises" : "falls", fabs(step), air[i - 1], air[i]);
    }
}

static void warn_flat(struct dawn_weather_job *job)
{
    const struct dawn_weather_hours *hours = &job->hours;
    const double *air = hours->value[DAWN_WEATHER_AIR];
    for (size_t i = 0; i < hours->count;) {
        size_t end = i + 1;
        while (end < hours->count && fabs(air[end] - air[i]) < 1e-9)
            end++;
        if (end - i > LONGEST_FLAT_H)
            dawn_weather_say(
                job, DAWN_WEATHER_SAY_FLAT, DAWN_WARNING,
                (struct dawn_weather_spot){hours->row[i], job->column[DAWN_WEATHER_AIR].index},
                NULL,
                "the air temperature stays at %.1f C for %zu hours; the sensor may "
                "have been stuck",
                air[i], end - i);
        i = end;
    }
}

/* Dew points above the air temperature: rounding, or columns mixed up. */
static void check_dew(struct dawn_weather_job *job)
{
    const struct dawn_weather_hours *hours = &job->hours;
    const double *dew = hours->value[DAWN_WEATHER_DEW];
    const double *air = hours->value[DAWN_WEATHER_AIR];
    size_t above = 0;
    size_t worst = 0;
    double most_K = DEW_ROUNDING_K;
    for (size_t i = 0; dew && i < hours->count; i++) {
        double excess_K = dew[i] - air[i]; /* NAN when either is missing */
        above += excess_K > DEW_ROUNDING_K ? 1 : 0;
        if (excess_K > most_K) {
            most_K = excess_K;
            worst = i;
        }
    }
    if (above == 0)
        return;
    struct dawn_weather_spot spot = {hours->row[worst], job->column[DAWN_WEATHER_DEW].index};
    bool mixed_up = above * 10 > hours->count;
    dawn_weather_say(job, DAWN_WEATHER_SAY_RANGE, mixed_up ? DAWN_ERROR : DAWN_WARNING, spot,
                     mixed_up ? "the columns or their units may be mixed up" : NULL,
                     "the dew point is above the air temperature in %zu of %zu hours, here by "
                     "%.1f K%s",
                     above, hours->count, most_K, mixed_up ? "" : "; lowered to it");
}

/* Also where a filled gap put the dew point above the air. */
static void lower_dew(struct dawn_weather_hours *hours)
{
    double *dew = hours->value[DAWN_WEATHER_DEW];
    const double *air = hours->value[DAWN_WEATHER_AIR];
    for (size_t i = 0; dew && i < hours->count; i++)
        if (dew[i] > air[i])
            dew[i] = air[i];
}

void dawn_weather_mend(struct dawn_weather_job *job)
{
    struct dawn_weather_readings *readings = &job->readings;
    dawn_weather_order(job);
    if (dawn_weather_failed(job) || readings->count == 0)
        return;
    trim_empty_ends(job);
    if (dawn_weather_failed(job))
        return;
    if (!dawn_weather_hours_make(job))
        job->no_memory = true;
    if (dawn_weather_failed(job))
        return;
    check_dew(job);
    mend_gaps(job);
    if (dawn_weather_failed(job))
        return;
    lower_dew(&job->hours);
    warn_spikes(job);
    warn_flat(job);
    if (job->hours.count < 24)
        dawn_weather_say(job, DAWN_WEATHER_SAY_FILE, DAWN_WARNING, nowhere, NULL,
                         "only %zu hours of weather: too short for one whole night",
                         job->hours.count);
}
