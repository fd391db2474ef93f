/* Rows two to six hours apart, as forecasts have them some days ahead: hours are drawn between
 * them. The air follows a cubic, for a straight line would cut off the day's warmest and coldest
 * hours; everything else goes straight, and radiation is shared out as a clear sky would. */
#include <math.h>
#include <stdlib.h>

#include "dawnlow/physics/light.h"
#include "dawnlow/physics/sun.h"
#include "weather/weather_job.h"

/* So many equal steps in a row are a habit of the file; fewer are a gap. */
enum { HOUR_S = 3600, LONGEST_STEP_H = 6, STEPS_LEAST = 3, LOOKS = 6 };

static int64_t step_after(const struct dawn_weather_readings *readings, size_t i)
{
    return i + 1 < readings->count ? readings->stamp_s[i + 1] - readings->stamp_s[i] : 0;
}

static bool coarse_step(int64_t step)
{
    return step > HOUR_S && step <= LONGEST_STEP_H * (int64_t)HOUR_S && step % HOUR_S == 0;
}

/* Marks the rows that coarse stretches begin at or go on from; returns how many rows are to be
 * added. */
static size_t find_stretches(const struct dawn_weather_readings *readings, bool *coarse)
{
    size_t added = 0;
    for (size_t i = 0; i + 1 < readings->count;) {
        const int64_t step = step_after(readings, i);
        size_t end = i;
        while (end + 1 < readings->count && step_after(readings, end) == step)
            end++;
        if (coarse_step(step) && end - i >= STEPS_LEAST)
            for (size_t k = i; k < end; k++) {
                coarse[k] = true;
                added += (size_t)(step / HOUR_S) - 1;
            }
        i = end > i ? end : i + 1;
    }
    return added;
}

/* ---- between two rows ---- */

/* Slope at a row: of the parabola through it and its neighbours, per second. */
static double slope_at(const struct dawn_weather_readings *readings, const double *value, size_t i)
{
    const bool left = i > 0 && !isnan(value[i - 1]);
    const bool right = i + 1 < readings->count && !isnan(value[i + 1]);
    const double before_s = left ? (double)step_after(readings, i - 1) : 1.0;
    const double after_s = right ? (double)step_after(readings, i) : 1.0;
    const double before = left ? (value[i] - value[i - 1]) / before_s : 0.0;
    const double after = right ? (value[i + 1] - value[i]) / after_s : 0.0;
    if (left && right)
        return (before * after_s + after * before_s) / (before_s + after_s);
    return left ? before : after;
}

static double cubic_at(const struct dawn_weather_readings *readings, const double *value, size_t i,
                       double share)
{
    const double length_s = (double)step_after(readings, i);
    const double s2 = share * share;
    const double s3 = s2 * share;
    return value[i] * (2.0 * s3 - 3.0 * s2 + 1.0) + value[i + 1] * (3.0 * s2 - 2.0 * s3) +
           length_s * (slope_at(readings, value, i) * (s3 - 2.0 * s2 + share) +
                       slope_at(readings, value, i + 1) * (s3 - s2));
}

static bool is_light(int quantity)
{
    return quantity == DAWN_WEATHER_GHI || quantity == DAWN_WEATHER_DHI ||
           quantity == DAWN_WEATHER_DNI;
}

/* What a clear sky would give in the hour from a moment on; even light where the place is unknown.
 */
static double clear_hour(const struct dawn_weather_job *job, int64_t from_s)
{
    const struct dawn_weather *weather = job->weather;
    double sum = 0.0;
    if (isnan(weather->latitude_deg) || isnan(weather->longitude_deg))
        return 1.0;
    for (int k = 0; k < LOOKS; k++)
        sum += dawn_light_clear_W_m2(
            dawn_sun_cos_zenith((double)from_s + HOUR_S * (k + 0.5) / LOOKS, weather->latitude_deg,
                                weather->longitude_deg));
    return sum / LOOKS;
}

/* The stretch a coarse row's mean stands for, and which row's. */
struct mean_of {
    size_t row;
    int64_t from_s;
};

/* Light of the hour stamped at_s, between rows i and i + 1: its row's mean, shared out. */
static double light_at(const struct dawn_weather_job *job, const double *value, size_t i,
                       int64_t at_s)
{
    const struct dawn_weather_readings *readings = &job->readings;
    const enum dawn_stamp stamp = job->weather->stamp;
    const int64_t step_s = step_after(readings, i);
    const bool before = stamp == DAWN_STAMP_MEAN_BEFORE;
    const int64_t lead_s = before ? -HOUR_S : stamp == DAWN_STAMP_MEAN_AFTER ? 0 : -HOUR_S / 2;
    struct mean_of mean = {before ? i + 1 : i, readings->stamp_s[i]};
    if (stamp == DAWN_STAMP_INSTANT || stamp == DAWN_STAMP_MEAN_AROUND) {
        /* The nearer row's stretch lies around it. */
        mean.row = 2 * (at_s - readings->stamp_s[i]) > step_s ? i + 1 : i;
        mean.from_s = readings->stamp_s[mean.row] - step_s / 2;
    }
    double all = 0.0;
    for (int64_t from_s = mean.from_s; from_s < mean.from_s + step_s; from_s += HOUR_S)
        all += clear_hour(job, from_s) * HOUR_S / (double)step_s;
    return all > 0.0 ? value[mean.row] * clear_hour(job, at_s + lead_s) / all : 0.0;
}

/* ---- the rows anew ---- */

/* A row's own light is the mean of its whole step, not of its hour. */
static double own_light(const struct dawn_weather_job *job, const bool *coarse, const double *value,
                        size_t i)
{
    const bool before = job->weather->stamp == DAWN_STAMP_MEAN_BEFORE;
    if (before && i > 0 && coarse[i - 1])
        return light_at(job, value, i - 1, job->readings.stamp_s[i]);
    if (!before && coarse[i])
        return light_at(job, value, i, job->readings.stamp_s[i]);
    return value[i];
}

static double value_between(const struct dawn_weather_job *job, int quantity, size_t i,
                            int64_t at_s)
{
    const struct dawn_weather_readings *readings = &job->readings;
    const double *value = readings->value[quantity];
    const double share = (double)(at_s - readings->stamp_s[i]) / (double)step_after(readings, i);
    if (is_light(quantity))
        return light_at(job, value, i, at_s);
    if (quantity == DAWN_WEATHER_AIR)
        return cubic_at(readings, value, i, share);
    const double straight = value[i] + share * (value[i + 1] - value[i]);
    if (quantity != DAWN_WEATHER_DEW)
        return straight;
    return fmin(straight, cubic_at(readings, readings->value[DAWN_WEATHER_AIR], i, share));
}

/* Fills column `to` of the longer readings from the coarse ones. */
static void refine_column(const struct dawn_weather_job *job, const bool *coarse, int quantity,
                          double *to)
{
    const struct dawn_weather_readings *readings = &job->readings;
    const double *value = readings->value[quantity];
    size_t k = 0;
    for (size_t i = 0; i < readings->count; i++) {
        to[k++] = is_light(quantity) ? own_light(job, coarse, value, i) : value[i];
        if (!coarse[i])
            continue;
        for (int64_t at_s = readings->stamp_s[i] + HOUR_S; at_s < readings->stamp_s[i + 1];
             at_s += HOUR_S)
            to[k++] = value_between(job, quantity, i, at_s);
    }
}

static bool refine_columns(struct dawn_weather_job *job, const bool *coarse, size_t count)
{
    struct dawn_weather_readings *readings = &job->readings;
    double *fresh[DAWN_WEATHER_QUANTITIES] = {NULL};
    bool fine = true;
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++) {
        if (!readings->value[q])
            continue;
        fresh[q] = malloc(count * sizeof *fresh[q]);
        fine = fine && fresh[q] != NULL;
    }
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES && fine; q++)
        if (fresh[q])
            refine_column(job, coarse, q, fresh[q]);
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++) {
        free(fine ? readings->value[q] : fresh[q]);
        readings->value[q] = fine ? fresh[q] : readings->value[q];
    }
    return fine;
}

/* Stamps and origins of the longer readings; an added row points at the one before it. */
static bool refine_stamps(struct dawn_weather_readings *readings, const bool *coarse, size_t count)
{
    int64_t *stamp_s = malloc(count * sizeof *stamp_s);
    size_t *row = malloc(count * sizeof *row);
    size_t k = 0;
    if (!stamp_s || !row) {
        free(stamp_s);
        free(row);
        return false;
    }
    for (size_t i = 0; i < readings->count; i++) {
        const int64_t hours = coarse[i] ? step_after(readings, i) / HOUR_S : 1;
        for (int64_t h = 0; h < hours; h++) {
            stamp_s[k] = readings->stamp_s[i] + h * HOUR_S;
            row[k++] = readings->row[i];
        }
    }
    free(readings->stamp_s);
    free(readings->row);
    readings->stamp_s = stamp_s;
    readings->row = row;
    readings->count = readings->capacity = count;
    return true;
}

static void say_coarse(struct dawn_weather_job *job, const bool *coarse)
{
    const struct dawn_weather_readings *readings = &job->readings;
    for (size_t i = 0; i < readings->count; i++) {
        if (!coarse[i] ||
            (i > 0 && coarse[i - 1] && step_after(readings, i - 1) == step_after(readings, i)))
            continue;
        char from[24];
        dawn_weather_say_time(job, readings->stamp_s[i], from);
        dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_NOTE,
                         (struct dawn_weather_spot){readings->row[i], -1}, NULL,
                         "rows are %lld hours apart from %s on; the hours between are drawn, the "
                         "air along a curve",
                         (long long)(step_after(readings, i) / HOUR_S), from);
    }
}

bool dawn_weather_coarse_refine(struct dawn_weather_job *job)
{
    struct dawn_weather_readings *readings = &job->readings;
    bool *coarse = calloc(readings->count + 1, sizeof *coarse);
    if (!coarse)
        return false;
    const size_t added = find_stretches(readings, coarse);
    bool fine = true;
    if (added > 0) {
        const size_t count = readings->count + added;
        say_coarse(job, coarse);
        /* The order has been settled: nobody looks at the stamps' parts any more. */
        free(readings->parts);
        readings->parts = NULL;
        fine = refine_columns(job, coarse, count) && refine_stamps(readings, coarse, count);
    }
    free(coarse);
    return fine;
}
