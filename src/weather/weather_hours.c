/* Rows to hours: rows an hour apart keep their own minute; rows closer together are brought to the
 * full hour, states by their value there, radiation by its mean. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "weather/weather_job.h"

enum { HOUR_S = 3600, LONGEST_GAP_H = 3 };

static int compare_steps(const void *a, const void *b)
{
    int64_t x = *(const int64_t *)a;
    int64_t y = *(const int64_t *)b;
    return (x > y) - (x < y);
}

static int64_t step_at(const struct dawn_weather_readings *readings, size_t i)
{
    return readings->stamp_s[i + 1] - readings->stamp_s[i];
}

/* The median distance of two rows (the smaller of two middle ones), s; 0 without memory. */
static int64_t usual_step(const struct dawn_weather_readings *readings)
{
    size_t count = readings->count - 1;
    size_t alike = 1;
    for (size_t i = 1; i < count; i++)
        alike += step_at(readings, i) == step_at(readings, 0);
    if (2 * alike > count) /* it fills the middle, however the rest is sorted */
        return step_at(readings, 0);
    int64_t *step = malloc(count * sizeof *step);
    if (!step)
        return 0;
    for (size_t i = 0; i < count; i++)
        step[i] = step_at(readings, i);
    qsort(step, count, sizeof *step, compare_steps);
    int64_t median = step[(count - 1) / 2];
    free(step);
    return median;
}

static bool is_radiation(int quantity)
{
    return quantity == DAWN_WEATHER_GHI || quantity == DAWN_WEATHER_DHI ||
           quantity == DAWN_WEATHER_DNI;
}

static bool has_radiation(const struct dawn_weather_readings *readings)
{
    return readings->value[DAWN_WEATHER_GHI] || readings->value[DAWN_WEATHER_DHI] ||
           readings->value[DAWN_WEATHER_DNI];
}

static bool make_grid(struct dawn_weather_job *job, size_t count)
{
    struct dawn_weather_hours *hours = &job->hours;
    hours->count = count;
    hours->row = malloc(count * sizeof *hours->row);
    if (!hours->row)
        return false;
    for (size_t i = 0; i < count; i++)
        hours->row[i] = DAWN_WEATHER_NO_ROW;
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++) {
        if (!job->readings.value[q])
            continue;
        hours->value[q] = malloc(count * sizeof(double));
        if (!hours->value[q])
            return false;
        for (size_t i = 0; i < count; i++)
            hours->value[q][i] = NAN;
        hours->given[q] = true;
    }
    return true;
}

void dawn_weather_hours_release(struct dawn_weather_hours *hours)
{
    free(hours->row);
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
        free(hours->value[q]);
    memset(hours, 0, sizeof *hours);
}

/* Where the mean of an hour starts when its row is stamped at 0. */
static int64_t mean_start_s(const struct dawn_weather_job *job)
{
    switch (job->weather->stamp) {
    case DAWN_STAMP_MEAN_BEFORE:
        return -HOUR_S;
    case DAWN_STAMP_MEAN_AFTER:
        return 0;
    case DAWN_STAMP_INSTANT:
    case DAWN_STAMP_MEAN_AROUND:
        break;
    }
    return -HOUR_S / 2 + (int64_t)lround(job->light_lead_s);
}

static bool hours_of_hourly_rows(struct dawn_weather_job *job)
{
    const struct dawn_weather_readings *readings = &job->readings;
    struct dawn_weather_hours *hours = &job->hours;
    int64_t first = readings->stamp_s[0];
    int64_t last = readings->stamp_s[readings->count - 1];
    if (!make_grid(job, (size_t)((last - first) / HOUR_S) + 1))
        return false;
    hours->first_s = first;
    hours->mean_first_s = has_radiation(readings) ? first + mean_start_s(job) : first;
    for (size_t i = 0; i < readings->count; i++) {
        size_t h = (size_t)((readings->stamp_s[i] - first) / HOUR_S);
        hours->row[h] = readings->row[i];
        for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
            if (hours->value[q])
                hours->value[q][h] = readings->value[q][i];
    }
    return true;
}

/* ---- rows closer than an hour ---------------------------------------------------------------- */

/* The value at a moment between the nearest rows that have one, at most an hour away each. */
static double value_at(const struct dawn_weather_readings *readings, const double *value,
                       size_t after, int64_t at_s)
{
    size_t right = after;
    while (right < readings->count && isnan(value[right]) &&
           readings->stamp_s[right] <= at_s + HOUR_S)
        right++;
    if (right >= readings->count || readings->stamp_s[right] > at_s + HOUR_S || isnan(value[right]))
        return NAN;
    if (readings->stamp_s[right] == at_s)
        return value[right];
    size_t left = after;
    while (left > 0 && (readings->stamp_s[left - 1] >= at_s - HOUR_S)) {
        left--;
        if (!isnan(value[left])) {
            double span = (double)(readings->stamp_s[right] - readings->stamp_s[left]);
            double share = (double)(at_s - readings->stamp_s[left]) / span;
            return value[left] + (value[right] - value[left]) * share;
        }
    }
    return NAN;
}

static void states_at_hours(struct dawn_weather_job *job)
{
    const struct dawn_weather_readings *readings = &job->readings;
    struct dawn_weather_hours *hours = &job->hours;
    size_t after = 0; /* first row at or behind the hour */
    for (size_t h = 0; h < hours->count; h++) {
        int64_t at_s = hours->first_s + (int64_t)h * HOUR_S;
        while (after < readings->count && readings->stamp_s[after] < at_s)
            after++;
        if (after < readings->count && readings->stamp_s[after] - at_s < HOUR_S)
            hours->row[h] = readings->row[after];
        for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
            if (hours->value[q] && !is_radiation(q))
                hours->value[q][h] = value_at(readings, readings->value[q], after, at_s);
    }
}

/* Spreads one row's mean, holding from start for width seconds, over the hours it touches. */
static void spread(const struct dawn_weather_hours *hours, int64_t start, int64_t width,
                   double value, double sum[], double weight[])
{
    int64_t from = start;
    int64_t until = start + width;
    while (from < until) {
        int64_t since = from - hours->mean_first_s;
        int64_t h = since >= 0 ? since / HOUR_S : -1;
        int64_t edge = since >= 0 ? hours->mean_first_s + (h + 1) * HOUR_S : hours->mean_first_s;
        int64_t to = edge < until ? edge : until;
        if (h >= 0 && (size_t)h < hours->count) {
            sum[h] += value * (double)(to - from);
            weight[h] += (double)(to - from);
        }
        from = to;
    }
}

static bool means_of_hours(struct dawn_weather_job *job, int quantity, int64_t step)
{
    const struct dawn_weather_readings *readings = &job->readings;
    struct dawn_weather_hours *hours = &job->hours;
    double *sum = calloc(hours->count * 2, sizeof *sum);
    if (!sum)
        return false;
    double *weight = sum + hours->count;
    int64_t start = mean_start_s(job) * step / HOUR_S;
    if (job->light_lead_s != 0.0)
        start = -step / 2 + (int64_t)lround(job->light_lead_s);
    for (size_t i = 0; i < readings->count; i++)
        if (!isnan(readings->value[quantity][i]))
            spread(hours, readings->stamp_s[i] + start, step, readings->value[quantity][i], sum,
                   weight);
    for (size_t h = 0; h < hours->count; h++)
        if (weight[h] >= HOUR_S / 2.0)
            hours->value[quantity][h] = sum[h] / weight[h];
    free(sum);
    return true;
}

/* The last hour has no mean when the rows end with it. */
static void drop_open_end(struct dawn_weather_hours *hours)
{
    if (hours->count < 2)
        return;
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
        if (is_radiation(q) && hours->value[q] && isnan(hours->value[q][hours->count - 1])) {
            hours->count--;
            return;
        }
}

static bool hours_of_close_rows(struct dawn_weather_job *job, int64_t step)
{
    const struct dawn_weather_readings *readings = &job->readings;
    struct dawn_weather_hours *hours = &job->hours;
    int64_t offset = (int64_t)llround(job->weather->utc_offset_h * HOUR_S);
    /* full hours of the file's own clock; stamps are far from the ends of int64_t */
    int64_t phase = ((readings->stamp_s[0] + offset) % HOUR_S + HOUR_S) % HOUR_S;
    int64_t first = readings->stamp_s[0] + (phase ? HOUR_S - phase : 0);
    int64_t last = readings->stamp_s[readings->count - 1];
    if (last < first + HOUR_S) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_FILE, DAWN_ERROR,
                         (struct dawn_weather_spot){DAWN_WEATHER_NO_ROW, -1}, NULL,
                         "the rows span less than two full hours");
        return true;
    }
    if (!make_grid(job, (size_t)((last - first) / HOUR_S) + 1))
        return false;
    hours->first_s = first;
    hours->mean_first_s = first;
    states_at_hours(job);
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
        if (is_radiation(q) && hours->value[q] && !means_of_hours(job, q, step))
            return false;
    drop_open_end(hours);
    dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_NOTE,
                     (struct dawn_weather_spot){DAWN_WEATHER_NO_ROW, -1}, NULL,
                     "rows %.4g min apart are brought to full hours%s", (double)step / 60.0,
                     has_radiation(readings) ? "; radiation is averaged" : "");
    return true;
}

/* ---- */

static void refuse_gaps(struct dawn_weather_job *job)
{
    const struct dawn_weather_readings *readings = &job->readings;
    for (size_t i = 1; i < readings->count; i++) {
        int64_t step = readings->stamp_s[i] - readings->stamp_s[i - 1];
        if (step <= (LONGEST_GAP_H + 1) * (int64_t)HOUR_S)
            continue;
        char from[24];
        char to[24];
        dawn_weather_say_time(job, readings->stamp_s[i - 1], from);
        dawn_weather_say_time(job, readings->stamp_s[i], to);
        dawn_weather_say(job, DAWN_WEATHER_SAY_GAP, DAWN_ERROR,
                         (struct dawn_weather_spot){readings->row[i], -1},
                         "fill the gap from a neighbouring station, or use the part before or "
                         "after it",
                         "%.4g hours are missing between %s and %s; up to %d are filled",
                         (double)step / HOUR_S - 1.0, from, to, LONGEST_GAP_H);
    }
}

static bool same_minute(const struct dawn_weather_readings *readings)
{
    for (size_t i = 1; i < readings->count; i++)
        if ((readings->stamp_s[i] - readings->stamp_s[0]) % HOUR_S != 0)
            return false;
    return true;
}

static void refuse_step(struct dawn_weather_job *job, int64_t step)
{
    struct dawn_weather_spot spot = {job->readings.row[1], -1};
    if (step >= 23 * (int64_t)HOUR_S)
        dawn_weather_say(job, DAWN_WEATHER_SAY_STEP, DAWN_ERROR, spot,
                         "night lows need hourly values; look for an hourly export",
                         "the rows are %.4g h apart, like daily values; one row an hour or more is "
                         "needed",
                         (double)step / HOUR_S);
    else
        dawn_weather_say(job, DAWN_WEATHER_SAY_STEP, DAWN_ERROR, spot,
                         "look for an hourly export of the same station",
                         "the rows are %.4g hours apart; one row an hour or more is needed",
                         (double)step / HOUR_S);
}

bool dawn_weather_hours_make(struct dawn_weather_job *job)
{
    const struct dawn_weather_readings *readings = &job->readings;
    if (readings->count < 2) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_FILE, DAWN_ERROR,
                         (struct dawn_weather_spot){job->header, -1}, NULL,
                         "only %zu row of values follows the header; hours of at least one night "
                         "are needed",
                         readings->count);
        return true;
    }
    int64_t step = dawn_weather_coarse_refine(job) ? usual_step(readings) : 0;
    if (step == 0)
        return false;
    job->step_s = (double)step;
    if (step > HOUR_S) {
        refuse_step(job, step);
        return true;
    }
    refuse_gaps(job);
    if (dawn_weather_failed(job))
        return true;
    return same_minute(readings) ? hours_of_hourly_rows(job) : hours_of_close_rows(job, step);
}
