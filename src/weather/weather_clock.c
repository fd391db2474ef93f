/* Does the light fit the clock? The sun keeps exact time; a file whose light comes at night, or
 * fits the sun better when moved, has a wrong zone or a wrong meaning of its stamps. */
#include <math.h>
#include <stdlib.h>

#include "dawnlow/physics/light.h"
#include "dawnlow/physics/sun.h"
#include "weather/weather_job.h"

enum {
    HOUR_S = 3600,
    HALF_S = 1800,
    FARTHEST_H = 14,
    FARTHEST = 2 * FARTHEST_H, /* half hours */
    SHIFTS = 2 * FARTHEST + 1, /* as far to either side, and none */
    LEAST_H = 72,              /* three days to judge by */
    MOST_H = 24 * 200,
    NIGHT_HOURS_ALLOWED = 2
};
#define NIGHT_COS   (-0.05) /* the sun 3 degrees below the horizon */
#define HALF_COS    0.132 /* half an hour turns the earth by 0.1313, and the cosine changes less */
#define NIGHT_W_M2  20.0
#define BETTER_HALF 0.004 /* gain in correlation that makes half an hour worth a word */
#define BETTER_HOUR 0.008

/* Every half hour, from FARTHEST before the first mean on: the cosine of the zenith (in the depth
 * of night a bound above it that is below NIGHT_COS), and the light of a clear sky over the hour
 * that begins there. */
struct track {
    double *cosine, *clear;
    size_t hours;
};

static bool make_track(const struct dawn_weather_job *job, struct track *track)
{
    const struct dawn_weather *weather = job->weather;
    track->hours = job->hours.count < MOST_H ? job->hours.count : MOST_H;
    size_t points = 2 * (track->hours + (size_t)FARTHEST) + 1;
    track->cosine = malloc(2 * points * sizeof(double));
    if (!track->cosine)
        return false;
    double *clear = track->clear = track->cosine + points;
    double most = 1.0; /* that the cosine can have come to */
    for (size_t i = 0; i < points; i++) {
        int64_t at_s = job->hours.mean_first_s + ((int64_t)i - FARTHEST) * HALF_S;
        if (most >= NIGHT_COS)
            most = dawn_sun_cos_zenith((double)at_s, weather->latitude_deg, weather->longitude_deg);
        track->cosine[i] = most; /* deep in the night this will do: dark is dark */
        clear[i] = dawn_light_clear_W_m2(most);
        most += HALF_COS;
    }
    for (size_t i = 0; i + 2 < points; i++)
        clear[i] = (clear[i] + 4.0 * clear[i + 1] + clear[i + 2]) / 6.0;
    return true;
}

/* What the correlation of the file's light y with the clear sky's x is made of, for each shift by
 * half hours: all of them in one pass, because side by side they do not wait for each other. */
struct sums {
    double n, y, yy;
    double x[SHIFTS], xx[SHIFTS], xy[SHIFTS];
};

static void add_hour(struct sums *sums, const double *restrict clear, double y)
{
    sums->n += 1.0;
    sums->y += y;
    sums->yy += y * y;
    for (int s = 0; s < SHIFTS; s++) {
        double x = clear[s];
        sums->x[s] += x;
        sums->xx[s] += x * x;
        sums->xy[s] += x * y;
    }
}

static double correlation(const struct sums *sums, int s)
{
    double n = sums->n;
    double variance =
        (sums->xx[s] * n - sums->x[s] * sums->x[s]) * (sums->yy * n - sums->y * sums->y);
    return variance > 0.0 ? (sums->xy[s] * n - sums->x[s] * sums->y) / sqrt(variance) : 0.0;
}

static int best_shift(const struct track *track, const double *ghi, double *gain)
{
    struct sums sums = {0};
    for (size_t h = 0; h < track->hours; h++)
        if (!isnan(ghi[h]))
            add_hour(&sums, &track->clear[2 * h], ghi[h]);
    double here = correlation(&sums, FARTHEST);
    double best = here;
    int shift = 0;
    for (int s = 0; s < SHIFTS; s++) {
        double fit = correlation(&sums, s);
        if (fit > best) {
            best = fit;
            shift = s - FARTHEST;
        }
    }
    *gain = best - here;
    return shift;
}

/* Hours in which the sun stays well below the horizon and the file has light. */
static size_t night_light(const struct track *track, const double *ghi, size_t *first)
{
    size_t lit = 0;
    for (size_t h = 0; h < track->hours; h++) {
        const double *cosine = &track->cosine[2 * h + FARTHEST];
        bool dark = cosine[0] < NIGHT_COS && cosine[1] < NIGHT_COS && cosine[2] < NIGHT_COS;
        if (!dark || !(ghi[h] > NIGHT_W_M2))
            continue;
        if (lit++ == 0)
            *first = h;
    }
    return lit;
}

static void complain(struct dawn_weather_job *job, size_t lit, size_t first, int shift)
{
    struct dawn_weather_spot spot = {lit ? job->hours.row[first] : DAWN_WEATHER_NO_ROW,
                                     job->column[DAWN_WEATHER_GHI].index};
    double hours = fabs(shift * 0.5);
    const char *hint = "check weather.utc_offset, whether the stamps follow summer time, and "
                       "weather.stamp (what hour a radiation value belongs to)";
    if (lit > NIGHT_HOURS_ALLOWED && shift != 0)
        dawn_weather_say(job, DAWN_WEATHER_SAY_CLOCK, DAWN_ERROR, spot, hint,
                         "the file has light in %zu hours of night; it would fit the sun if its "
                         "stamps were %g h %s",
                         lit, hours, shift > 0 ? "later" : "earlier");
    else if (lit > NIGHT_HOURS_ALLOWED)
        dawn_weather_say(job, DAWN_WEATHER_SAY_CLOCK, DAWN_ERROR, spot,
                         "check latitude and longitude; leave radiation cells empty if the "
                         "sensor is faulty",
                         "the file has light in %zu hours in which the sun is down, the first "
                         "with %.0f W/m2",
                         lit, job->hours.value[DAWN_WEATHER_GHI][first]);
    else if (shift != 0)
        dawn_weather_say(job, DAWN_WEATHER_SAY_CLOCK, DAWN_WARNING,
                         (struct dawn_weather_spot){DAWN_WEATHER_NO_ROW, -1}, hint,
                         "the light comes about %g h too %s for the sun at this place", hours,
                         shift > 0 ? "early" : "late");
}

/* ---- files without light: the coldest hour of the mean day ------------------------------------
 */

static void check_coldest_hour(struct dawn_weather_job *job)
{
    const struct dawn_weather_hours *hours = &job->hours;
    const struct dawn_weather *weather = job->weather;
    double sum[24] = {0};
    size_t count[24] = {0};
    if (hours->count < (size_t)LEAST_H * 2 || isnan(weather->longitude_deg) ||
        fabs(weather->latitude_deg) > 60.0)
        return;
    for (size_t i = 0; i < hours->count; i++) {
        int64_t solar_s = hours->first_s + (int64_t)i * HOUR_S +
                          (int64_t)lround(weather->longitude_deg * 240.0) + HALF_S;
        size_t of_day = (size_t)(((solar_s / HOUR_S) % 24 + 24) % 24);
        sum[of_day] += hours->value[DAWN_WEATHER_AIR][i];
        count[of_day]++;
    }
    size_t coldest = 0;
    size_t warmest = 0;
    for (size_t h = 0; h < 24; h++) {
        if (count[h] == 0)
            return;
        sum[h] /= (double)count[h];
        coldest = sum[h] < sum[coldest] ? h : coldest;
        warmest = sum[h] > sum[warmest] ? h : warmest;
    }
    if (sum[warmest] - sum[coldest] < 3.0 || coldest <= 9)
        return;
    dawn_weather_say(job, DAWN_WEATHER_SAY_CLOCK, DAWN_WARNING,
                     (struct dawn_weather_spot){DAWN_WEATHER_NO_ROW, -1},
                     "check weather.utc_offset and site.longitude",
                     "the coldest hour of the mean day is %zu:00 by the sun; nights are coldest "
                     "about sunrise, so the stamps may be in another time zone",
                     coldest);
}

/* Light in three columns must add up: global = beam on the level + diffuse. */
static void check_sum(struct dawn_weather_job *job, const struct track *track)
{
    double *const *value = job->hours.value;
    double parts = 0.0;
    double global = 0.0;
    if (!value[DAWN_WEATHER_DNI] || !value[DAWN_WEATHER_DHI])
        return;
    for (size_t h = 0; h < track->hours; h++) {
        const double *cosine = &track->cosine[2 * h + FARTHEST];
        double mean =
            (fmax(0.0, cosine[0]) + 4.0 * fmax(0.0, cosine[1]) + fmax(0.0, cosine[2])) / 6.0;
        double sum = value[DAWN_WEATHER_DNI][h] * mean + value[DAWN_WEATHER_DHI][h];
        if (isnan(sum) || isnan(value[DAWN_WEATHER_GHI][h]))
            continue;
        parts += sum;
        global += value[DAWN_WEATHER_GHI][h];
    }
    if (global > 0.0 && fabs(parts / global - 1.0) > 0.15)
        dawn_weather_say(job, DAWN_WEATHER_SAY_CLOCK, DAWN_WARNING,
                         (struct dawn_weather_spot){DAWN_WEATHER_NO_ROW, -1},
                         "the columns may be mixed up, or \"direct\" is on the level, not normal "
                         "to the beam",
                         "beam and diffuse light add up to %.0f %% of the global light",
                         100.0 * parts / global);
}

void dawn_weather_clock_check(struct dawn_weather_job *job)
{
    const double *ghi = job->hours.value[DAWN_WEATHER_GHI];
    struct track track = {NULL, NULL, 0};
    if (!ghi || isnan(job->weather->latitude_deg) || isnan(job->weather->longitude_deg)) {
        check_coldest_hour(job);
        return;
    }
    if (!make_track(job, &track)) {
        job->no_memory = true;
        return;
    }
    double gain = 0.0;
    size_t first = 0;
    size_t lit = night_light(&track, ghi, &first);
    int shift = track.hours >= LEAST_H ? best_shift(&track, ghi, &gain) : 0;
    if (gain < (abs(shift) == 1 ? BETTER_HALF : BETTER_HOUR))
        shift = 0;
    complain(job, lit, first, shift);
    if (shift == 0)
        check_sum(job, &track);
    free(track.cosine);
}
