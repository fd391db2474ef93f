/* The order of the rows: months of different years, newest first, an hour twice, a step back. */
#include <math.h>

#include "base/civil.h"
#include "weather/weather_stamp.h"

enum { DAY_S = 86400 };

static int64_t nominal_seconds(const struct dawn_weather_parts *parts, int year)
{
    struct dawn_weather_parts nominal = *parts;
    nominal.year = (int16_t)year;
    nominal.has_offset = false;
    return dawn_weather_stamp_seconds(&nominal, 0.0);
}

/* From one row to the next as if both were of one year; December to January goes on. */
static int64_t nominal_step(const struct dawn_weather_parts *a, const struct dawn_weather_parts *b)
{
    int64_t step = nominal_seconds(b, 2000) - nominal_seconds(a, 2000);
    return step < -300 * (int64_t)DAY_S ? step + 366 * (int64_t)DAY_S : step;
}

/* Do the rows go on like a calendar while the years jump, and only where months meet? */
static bool is_mosaic(const struct dawn_weather_readings *readings)
{
    size_t seams = 0;
    for (size_t i = 1; i < readings->count; i++) {
        int64_t step = readings->stamp_s[i] - readings->stamp_s[i - 1];
        if (step > 0 && step <= DAY_S)
            continue;
        int64_t nominal = nominal_step(&readings->parts[i - 1], &readings->parts[i]);
        bool new_month = readings->parts[i].day == 1;
        if (nominal <= 0 || nominal > DAY_S + 3600 || !new_month ||
            readings->parts[i].year == readings->parts[i - 1].year)
            return false;
        seams++;
    }
    return seams > 0;
}

/* Months of different years get the stamps of one year without a 29 February. */
static void make_nominal(struct dawn_weather_job *job)
{
    struct dawn_weather_readings *readings = &job->readings;
    struct dawn_weather_spot spot = {DAWN_WEATHER_NO_ROW, -1};
    int year = 2001;
    for (size_t i = 0; i < readings->count; i++)
        if (readings->parts[i].month == 2 && readings->parts[i].day == 29)
            year = 2000;
    for (size_t i = 0; i < readings->count; i++) {
        struct dawn_weather_parts *parts = &readings->parts[i];
        if (i > 0 && parts->month == 1 && readings->parts[i - 1].month == 12)
            year++;
        parts->year = (int16_t)year;
        if (parts->month == 2 && parts->day == 29 && !dawn_civil_valid(year, 2, 29)) {
            dawn_weather_say(job, DAWN_WEATHER_SAY_DATE, DAWN_ERROR,
                             (struct dawn_weather_spot){readings->row[i], -1}, NULL,
                             "a year put together from several has its 29 February in the second "
                             "year");
            return;
        }
        readings->stamp_s[i] = dawn_weather_stamp_seconds(parts, job->weather->utc_offset_h);
    }
    job->weather->typical_year = true;
    dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_NOTE, spot, NULL,
                     "the months come from different years (a typical year); all are shown as "
                     "%d",
                     readings->parts[0].year);
}

static void swap_rows(struct dawn_weather_readings *readings, size_t a, size_t b)
{
    struct dawn_weather_parts parts = readings->parts[a];
    int64_t stamp = readings->stamp_s[a];
    size_t row = readings->row[a];
    readings->parts[a] = readings->parts[b];
    readings->parts[b] = parts;
    readings->stamp_s[a] = readings->stamp_s[b];
    readings->stamp_s[b] = stamp;
    readings->row[a] = readings->row[b];
    readings->row[b] = row;
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
        if (readings->value[q]) {
            double value = readings->value[q][a];
            readings->value[q][a] = readings->value[q][b];
            readings->value[q][b] = value;
        }
}

/* Loggers like to print the newest reading first. */
static void turn_newest_first(struct dawn_weather_job *job)
{
    struct dawn_weather_readings *readings = &job->readings;
    for (size_t i = 1; i < readings->count; i++)
        if (readings->stamp_s[i] >= readings->stamp_s[i - 1])
            return;
    if (readings->count < 3)
        return;
    for (size_t i = 0; i < readings->count / 2; i++)
        swap_rows(readings, i, readings->count - 1 - i);
    dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_NOTE,
                     (struct dawn_weather_spot){DAWN_WEATHER_NO_ROW, -1}, NULL,
                     "the rows run from the newest to the oldest; read from the end");
}

static bool same_values(const struct dawn_weather_readings *readings, size_t a, size_t b)
{
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++) {
        const double *value = readings->value[q];
        if (value && !(isnan(value[a]) && isnan(value[b])) && value[a] != value[b])
            return false;
    }
    return true;
}

static int stamp_field(const struct dawn_weather_job *job)
{
    return job->when.whole >= 0 ? job->when.whole : job->when.date >= 0 ? job->when.date : 0;
}

/* Would the row follow the one before if day and month changed places? */
static bool follows_when_turned(const struct dawn_weather_job *job, size_t before, size_t i)
{
    const struct dawn_weather_readings *readings = &job->readings;
    struct dawn_weather_parts parts = readings->parts[i];
    int16_t month = parts.month;
    parts.month = parts.day;
    parts.day = month;
    if (parts.unix_time || parts.day == parts.month ||
        !dawn_civil_valid(parts.year, parts.month, parts.day))
        return false;
    int64_t step =
        dawn_weather_stamp_seconds(&parts, job->weather->utc_offset_h) - readings->stamp_s[before];
    return step > 0 && step <= DAY_S;
}

static void refuse_step_back(struct dawn_weather_job *job, size_t before, size_t i)
{
    const struct dawn_weather_readings *readings = &job->readings;
    struct dawn_weather_spot spot = {readings->row[i], stamp_field(job)};
    int64_t step = readings->stamp_s[i] - readings->stamp_s[before];
    char earlier[24];
    char now[24];
    dawn_weather_say_time(job, readings->stamp_s[before], earlier);
    dawn_weather_say_time(job, readings->stamp_s[i], now);
    if (follows_when_turned(job, before, i)) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_ORDER, DAWN_ERROR, spot,
                         "from here on day and month look exchanged; write all dates one way",
                         "%s follows %s; with day and month exchanged it would follow in order",
                         now, earlier);
        return;
    }
    dawn_weather_say(job, DAWN_WEATHER_SAY_ORDER, DAWN_ERROR, spot,
                     step >= -3600 ? "stamps that follow summer time repeat an hour in autumn; "
                                     "export in standard time or UTC"
                                   : "sort the rows by time; join files in their order",
                     "the time goes backwards: %s follows %s", now, earlier);
}

/* The same stamp again: the same values are dropped with a warning, others refused. */
static void same_hour_twice(struct dawn_weather_job *job, size_t before, size_t i)
{
    const struct dawn_weather_readings *readings = &job->readings;
    struct dawn_weather_spot spot = {readings->row[i], stamp_field(job)};
    int line = job->rows.row[readings->row[before]].line;
    char now[24];
    dawn_weather_say_time(job, readings->stamp_s[i], now);
    if (same_values(readings, before, i))
        dawn_weather_say(job, DAWN_WEATHER_SAY_TWICE, DAWN_WARNING, spot, NULL,
                         "the row of %s stands twice with the same values (also line %d); used "
                         "once",
                         now, line);
    else
        dawn_weather_say(job, DAWN_WEATHER_SAY_TWICE, DAWN_ERROR, spot,
                         "keep the right one; stamps that follow summer time repeat an hour in "
                         "autumn, then export in standard time or UTC",
                         "two rows with different values have the stamp %s (also line %d)", now,
                         line);
}

static void keep_row(struct dawn_weather_readings *readings, size_t to, size_t from)
{
    if (to == from)
        return;
    readings->parts[to] = readings->parts[from];
    readings->stamp_s[to] = readings->stamp_s[from];
    readings->row[to] = readings->row[from];
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
        if (readings->value[q])
            readings->value[q][to] = readings->value[q][from];
}

static bool jumps_by_turned_date(const struct dawn_weather_job *job, size_t before, size_t i)
{
    return job->readings.stamp_s[i] - job->readings.stamp_s[before] > 20 * (int64_t)DAY_S &&
           follows_when_turned(job, before, i);
}

void dawn_weather_order(struct dawn_weather_job *job)
{
    struct dawn_weather_readings *readings = &job->readings;
    if (readings->count == 0)
        return;
    turn_newest_first(job);
    if (job->month_mosaic || is_mosaic(readings))
        make_nominal(job);
    size_t kept = 1;
    for (size_t i = 1; i < readings->count; i++) {
        int64_t step = readings->stamp_s[i] - readings->stamp_s[kept - 1];
        if (step == 0) {
            same_hour_twice(job, kept - 1, i);
            continue;
        }
        if (step < 0 || jumps_by_turned_date(job, kept - 1, i))
            refuse_step_back(job, kept - 1, i);
        keep_row(readings, kept++, i);
    }
    readings->count = kept;
}
