/* Completes the hours: what the file lacks is estimated, and the estimate is named. */
#include <math.h>
#include <stdlib.h>

#include "dawnlow/physics/light.h"
#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/sky.h"
#include "dawnlow/physics/sun.h"
#include "weather/weather_job.h"

enum { HOUR_S = 3600, SUB_STEPS = 12, HALF_DAY_H = 12, WHOLE_DAY_H = 20 };

/* FAO Irrigation and drainage paper 56 (Allen et al. 1998), chapter 3: 2 m/s where no wind data are
 * available; k_rs 0.16 for places inland; a clear day lets 0.75 of the light through (from memory).
 */
#define USUAL_WIND_M_S  2.0
#define K_RS            0.16
#define CLEAR_DAY_SHARE 0.75
#define LOW_SUN_COS     0.052 /* 3 degrees: no beam worth dividing by below */
#define MOST_BEAM_W_M2  1100.0
#define USUAL_CLOUD     0.5

static const struct dawn_weather_spot nowhere = {DAWN_WEATHER_NO_ROW, -1};

/* The sun over each hour of means. */
struct sun_hours {
    double *mean_cos, *clear_W_m2, *outside_W_m2;
};

static int64_t mean_middle_s(const struct dawn_weather_job *job, size_t hour)
{
    return job->hours.mean_first_s + (int64_t)hour * HOUR_S + HOUR_S / 2;
}

/* Twelve moments an hour, so that the hours of sunrise and sunset get their share of sun. */
static void watch_sun(const struct dawn_weather_job *job, struct sun_hours *sun)
{
    const struct dawn_weather *weather = job->weather;
    for (size_t h = 0; h < job->hours.count; h++) {
        double middle_s = (double)mean_middle_s(job, h);
        double cosine =
            dawn_sun_cos_zenith(middle_s, weather->latitude_deg, weather->longitude_deg);
        double sum = 0.0;
        double clear = 0.0;
        for (int i = 0; i < SUB_STEPS && cosine > -0.2; i++) {
            double at_s = middle_s + HOUR_S * ((i + 0.5) / SUB_STEPS - 0.5);
            double here = dawn_sun_cos_zenith(at_s, weather->latitude_deg, weather->longitude_deg);
            sum += fmax(0.0, here);
            clear += dawn_light_clear_W_m2(here);
        }
        sun->mean_cos[h] = sum / SUB_STEPS;
        sun->clear_W_m2[h] = clear / SUB_STEPS;
        sun->outside_W_m2[h] = dawn_sun_extraterrestrial_W_m2(middle_s);
    }
}

static double *need(struct dawn_weather_job *job, enum dawn_weather_quantity quantity)
{
    struct dawn_weather_hours *hours = &job->hours;
    if (!hours->value[quantity]) {
        hours->value[quantity] = calloc(hours->count, sizeof(double));
        for (size_t i = 0; hours->value[quantity] && i < hours->count; i++)
            hours->value[quantity][i] = NAN;
    }
    if (!hours->value[quantity])
        job->no_memory = true;
    return hours->value[quantity];
}

static bool complete(const struct dawn_weather_job *job, enum dawn_weather_quantity quantity)
{
    const double *value = job->hours.value[quantity];
    for (size_t i = 0; value && i < job->hours.count; i++)
        if (isnan(value[i]))
            return false;
    return value != NULL;
}

static void fill_constant(double *value, size_t count, double constant)
{
    for (size_t i = 0; i < count; i++)
        if (isnan(value[i]))
            value[i] = constant;
}

/* Linear between known values, held at the ends; constant when nothing is known. */
static void carry(double *value, size_t count, double constant)
{
    size_t last = count; /* the last known one */
    for (size_t i = 0; i < count; i++) {
        if (isnan(value[i]))
            continue;
        size_t from = last == count ? 0 : last + 1;
        for (size_t k = from; k < i; k++)
            value[k] = last == count ? value[i]
                                     : value[last] + (value[i] - value[last]) * (double)(k - last) /
                                                         (double)(i - last);
        last = i;
    }
    for (size_t k = last == count ? 0 : last + 1; k < count; k++)
        value[k] = last == count ? constant : value[last];
}

/* ---- simple quantities ---------------------------------------------------------------------- */

static void fill_pressure(struct dawn_weather_job *job)
{
    struct dawn_weather *weather = job->weather;
    double *pressure = need(job, DAWN_WEATHER_PRESSURE);
    if (!pressure)
        return;
    bool given = job->hours.given[DAWN_WEATHER_PRESSURE];
    weather->pressure_from = given ? DAWN_FROM_FILE : DAWN_FROM_DEFAULT;
    double elevation = isnan(weather->elevation_m) ? 0.0 : weather->elevation_m;
    if (!given && isnan(weather->elevation_m))
        dawn_weather_say(job, DAWN_WEATHER_SAY_ESTIMATE, DAWN_NOTE, nowhere,
                         "say site.elevation in the scenario",
                         "neither air pressure nor elevation is known; taken as sea level");
    fill_constant(pressure, job->hours.count, dawn_moistair_pressure_Pa(elevation));
}

static void fill_wind(struct dawn_weather_job *job)
{
    double *wind = need(job, DAWN_WEATHER_WIND);
    if (!wind)
        return;
    bool given = job->hours.given[DAWN_WEATHER_WIND];
    job->weather->wind_from = given ? DAWN_FROM_FILE : DAWN_FROM_DEFAULT;
    if (given)
        carry(wind, job->hours.count, USUAL_WIND_M_S);
    else
        dawn_weather_say(job, DAWN_WEATHER_SAY_ESTIMATE, DAWN_NOTE, nowhere, NULL,
                         "the file has no wind; %.0f m/s is assumed", USUAL_WIND_M_S);
    fill_constant(wind, job->hours.count, USUAL_WIND_M_S);
}

static void fill_snow(struct dawn_weather_job *job)
{
    double *snow = need(job, DAWN_WEATHER_SNOW);
    bool given = job->hours.given[DAWN_WEATHER_SNOW];
    job->weather->snow_from = given ? DAWN_FROM_FILE : DAWN_FROM_DEFAULT;
    if (snow && given)
        carry(snow, job->hours.count, 0.0);
    if (snow)
        fill_constant(snow, job->hours.count, 0.0);
}

/* Where nothing tells the humidity, the air is taken as near saturation in the coldest hour of the
 * night: dew point = lowest air temperature within half a day (FAO 56, equation 48). */
static double lowest_around(const double *air, size_t count, size_t i)
{
    size_t from = i > HALF_DAY_H ? i - HALF_DAY_H : 0;
    size_t to = i + HALF_DAY_H < count ? i + HALF_DAY_H : count - 1;
    double lowest = air[i];
    for (size_t k = from; k <= to; k++)
        lowest = fmin(lowest, air[k]);
    return lowest;
}

static double dew_of_humidity(double air_C, double humidity)
{
    double share = fmax(0.005, humidity); /* a share of 0 has no dew point */
    return fmin(air_C, dawn_moistair_dew_C(share * dawn_moistair_saturation_water_Pa(air_C)));
}

static void fill_dew(struct dawn_weather_job *job)
{
    const struct dawn_weather_hours *hours = &job->hours;
    const double *air = hours->value[DAWN_WEATHER_AIR];
    const double *humidity = hours->value[DAWN_WEATHER_HUMIDITY];
    double *dew = need(job, DAWN_WEATHER_DEW);
    if (!dew)
        return;
    job->weather->humidity_from = hours->given[DAWN_WEATHER_DEW] ? DAWN_FROM_DEW_POINT
                                  : humidity                     ? DAWN_FROM_FILE
                                                                 : DAWN_FROM_DEFAULT;
    if (job->weather->humidity_from == DAWN_FROM_DEFAULT)
        dawn_weather_say(job, DAWN_WEATHER_SAY_ESTIMATE, DAWN_NOTE, nowhere, NULL,
                         "the file has neither dew point nor humidity; the dew point is taken as "
                         "the lowest air temperature within 12 h");
    for (size_t i = 0; i < hours->count; i++) {
        if (isnan(dew[i]) && humidity && !isnan(humidity[i]))
            dew[i] = dew_of_humidity(air[i], humidity[i]);
        if (isnan(dew[i]))
            dew[i] = lowest_around(air, hours->count, i);
    }
}

/* ---- cloud and light ------------------------------------------------------------------------ */

/* A series at a place between its hours, held at the ends. */
static double between(const double *value, size_t count, double place)
{
    double x = fmax(0.0, place);
    size_t i = x < (double)(count - 1) ? (size_t)x : count - 1;
    if (i + 1 >= count)
        return value[count - 1];
    return value[i] + (value[i + 1] - value[i]) * (x - (double)i);
}

/* Cloud at the middle of a mean hour, from the states at the instants around it. */
static double cloud_at_mean(const struct dawn_weather_job *job, size_t hour)
{
    double place = (double)(mean_middle_s(job, hour) - job->hours.first_s) / HOUR_S;
    return between(job->hours.value[DAWN_WEATHER_CLOUD], job->hours.count, place);
}

/* The cloud that dims a clear hour to this light; NAN when the sun is too low to tell. */
static double cloud_of_light(const struct dawn_weather_job *job, const struct sun_hours *sun,
                             size_t hour, double least_cos)
{
    double ghi = job->hours.value[DAWN_WEATHER_GHI][hour];
    if (isnan(ghi) || sun->mean_cos[hour] < least_cos || sun->clear_W_m2[hour] <= 0.0)
        return NAN;
    return dawn_light_cloud_from_factor(ghi / sun->clear_W_m2[hour]);
}

/* Mean of an hour and its daylight neighbours: single passing clouds shall not stand for a night.
 */
static double smoothed(const double *value, size_t count, size_t i)
{
    double sum = 0.0;
    int known = 0;
    for (size_t k = i > 0 ? i - 1 : 0; k <= i + 1 && k < count; k++)
        if (!isnan(value[k])) {
            sum += value[k];
            known++;
        }
    return isnan(value[i]) || known == 0 ? NAN : sum / known;
}

/* Fills empty cloud from light by day, carried through the night. False without any light to see.
 */
static bool cloud_from_light(struct dawn_weather_job *job, const struct sun_hours *sun)
{
    /* 10 degrees is high enough to tell cloud by the light; far north in winter less must do */
    static const double fair_cos[] = {0.17, 0.06, 0.02};
    size_t count = job->hours.count;
    double *cloud = job->hours.value[DAWN_WEATHER_CLOUD];
    double *seen = calloc(2 * count, sizeof *seen);
    if (!seen) {
        job->no_memory = true;
        return false;
    }
    double *even = seen + count;
    bool any = false;
    for (size_t i = 0; !any && i < sizeof fair_cos / sizeof fair_cos[0]; i++)
        for (size_t h = 0; h < count; h++) {
            seen[h] = cloud_of_light(job, sun, h, fair_cos[i]);
            any = any || !isnan(seen[h]);
        }
    for (size_t h = 0; h < count; h++)
        even[h] = smoothed(seen, count, h);
    carry(even, count, USUAL_CLOUD);
    double lead = (double)(job->hours.first_s - mean_middle_s(job, 0)) / HOUR_S;
    for (size_t i = 0; i < count; i++)
        if (isnan(cloud[i]))
            cloud[i] = between(even, count, (double)i + lead);
    free(seen);
    return any;
}

static int64_t solar_day(const struct dawn_weather_job *job, int64_t at_s)
{
    int64_t solar_s = at_s + (int64_t)lround(job->weather->longitude_deg * 240.0);
    return (solar_s - (((solar_s % 86400) + 86400) % 86400)) / 86400;
}

/* Share of the outside light that comes through on the day of hours [from, to). */
static double day_share(const double *air, size_t from, size_t to)
{
    double least = air[from];
    double most = air[from];
    for (size_t i = from; i < to; i++) {
        least = fmin(least, air[i]);
        most = fmax(most, air[i]);
    }
    return fmin(CLEAR_DAY_SHARE, dawn_light_day_from_range_MJ_m2(most, least, 1.0, K_RS));
}

/* For each instant the share of its solar day; days cut short by the file's ends take their
 * neighbour's. */
static void day_shares(const struct dawn_weather_job *job, double *share)
{
    const struct dawn_weather_hours *hours = &job->hours;
    size_t count = hours->count;
    for (size_t from = 0; from < count;) {
        int64_t day = solar_day(job, hours->first_s + (int64_t)from * HOUR_S);
        size_t to = from;
        while (to < count && solar_day(job, hours->first_s + (int64_t)to * HOUR_S) == day)
            to++;
        bool whole = to - from >= WHOLE_DAY_H || count < 2 * (size_t)WHOLE_DAY_H;
        double here = whole ? day_share(hours->value[DAWN_WEATHER_AIR], from, to) : NAN;
        for (size_t i = from; i < to; i++)
            share[i] = here;
        from = to;
    }
    /* hold, not slope: a share belongs to a day */
    for (size_t i = 1; i < count; i++)
        if (isnan(share[i]))
            share[i] = share[i - 1];
    for (size_t i = count; i-- > 1;)
        if (isnan(share[i - 1]))
            share[i - 1] = share[i];
    fill_constant(share, count, 0.5);
}

static void light_from_range(struct dawn_weather_job *job, const struct sun_hours *sun)
{
    struct dawn_weather_hours *hours = &job->hours;
    double *ghi = hours->value[DAWN_WEATHER_GHI];
    double *share = malloc(hours->count * sizeof *share);
    if (!share) {
        job->no_memory = true;
        return;
    }
    day_shares(job, share);
    for (size_t h = 0; h < hours->count; h++) {
        int64_t instant = (mean_middle_s(job, h) - hours->first_s) / HOUR_S;
        size_t i = instant < 0                       ? 0
                   : (size_t)instant >= hours->count ? hours->count - 1
                                                     : (size_t)instant;
        if (isnan(ghi[h]))
            ghi[h] = share[i] * sun->outside_W_m2[h] * sun->mean_cos[h];
    }
    free(share);
}

static void light_from_cloud(struct dawn_weather_job *job, const struct sun_hours *sun)
{
    double *ghi = job->hours.value[DAWN_WEATHER_GHI];
    for (size_t h = 0; h < job->hours.count; h++)
        if (isnan(ghi[h]))
            ghi[h] = sun->clear_W_m2[h] * dawn_light_cloud_factor(cloud_at_mean(job, h));
}

/* Global light where beam and diffuse are there. */
static void light_from_parts(struct dawn_weather_job *job, const struct sun_hours *sun)
{
    const struct dawn_weather_hours *hours = &job->hours;
    const double *dni = hours->value[DAWN_WEATHER_DNI];
    const double *dhi = hours->value[DAWN_WEATHER_DHI];
    double *ghi = hours->value[DAWN_WEATHER_GHI];
    for (size_t h = 0; dni && dhi && h < hours->count; h++)
        if (isnan(ghi[h]))
            ghi[h] = dni[h] * sun->mean_cos[h] + dhi[h];
}

static void fill_light(struct dawn_weather_job *job, const struct sun_hours *sun)
{
    struct dawn_weather *weather = job->weather;
    const bool *given = job->hours.given;
    bool clouds = given[DAWN_WEATHER_CLOUD];
    bool parts = given[DAWN_WEATHER_DNI] && given[DAWN_WEATHER_DHI];
    if (!need(job, DAWN_WEATHER_GHI) || !need(job, DAWN_WEATHER_CLOUD))
        return;
    weather->ghi_from = given[DAWN_WEATHER_GHI] || parts ? DAWN_FROM_FILE
                        : clouds                         ? DAWN_FROM_CLOUD
                                                         : DAWN_FROM_RANGE;
    light_from_parts(job, sun);
    if (clouds) {
        if (weather->ghi_from == DAWN_FROM_FILE && !complete(job, DAWN_WEATHER_CLOUD))
            (void)cloud_from_light(job, sun);
        carry(job->hours.value[DAWN_WEATHER_CLOUD], job->hours.count, USUAL_CLOUD);
        light_from_cloud(job, sun);
        weather->cloud_from = DAWN_FROM_FILE;
    } else if (weather->ghi_from == DAWN_FROM_FILE) {
        bool seen = cloud_from_light(job, sun);
        weather->cloud_from = seen ? DAWN_FROM_LIGHT : DAWN_FROM_DEFAULT;
        if (!job->no_memory)
            light_from_cloud(job, sun);
    } else {
        light_from_range(job, sun);
        if (!job->no_memory)
            (void)cloud_from_light(job, sun);
        weather->cloud_from = DAWN_FROM_RANGE;
    }
    if (weather->ghi_from == DAWN_FROM_CLOUD)
        dawn_weather_say(job, DAWN_WEATHER_SAY_ESTIMATE, DAWN_NOTE, nowhere, NULL,
                         "the file has no solar radiation; estimated from clear sky and cloud "
                         "cover");
    if (weather->ghi_from == DAWN_FROM_RANGE)
        dawn_weather_say(job, DAWN_WEATHER_SAY_ESTIMATE, DAWN_WARNING, nowhere,
                         "a file with cloud cover or solar radiation gives better nights",
                         "the file has neither solar radiation nor cloud; both are estimated from "
                         "the daily range of temperature");
    else if (weather->cloud_from == DAWN_FROM_LIGHT)
        dawn_weather_say(job, DAWN_WEATHER_SAY_ESTIMATE, DAWN_NOTE, nowhere, NULL,
                         "the file has no cloud cover; seen from the daylight and carried through "
                         "the nights");
}

/* ---- beam and diffuse ----------------------------------------------------------------------- */

/* Diffuse and beam of one hour; an unknown one is NAN on entry. */
static void split_hour(double ghi, double mean_cos, double outside, double *dhi, double *dni)
{
    if (!isnan(*dhi) && !isnan(*dni))
        return;
    if (mean_cos < LOW_SUN_COS) {
        *dhi = isnan(*dhi) ? ghi : *dhi;
        *dni = isnan(*dni) ? 0.0 : *dni;
        return;
    }
    if (!isnan(*dni)) {
        *dhi = fmax(0.0, ghi - *dni * mean_cos);
        return;
    }
    bool measured = !isnan(*dhi);
    if (!measured)
        *dhi = ghi * dawn_light_diffuse_share(ghi / (outside * mean_cos));
    *dni = fmax(0.0, ghi - *dhi) / mean_cos;
    if (*dni > MOST_BEAM_W_M2) {
        *dni = MOST_BEAM_W_M2;
        if (!measured)
            *dhi = fmax(0.0, ghi - *dni * mean_cos);
    }
}

static void fill_split(struct dawn_weather_job *job, const struct sun_hours *sun)
{
    const struct dawn_weather_hours *hours = &job->hours;
    bool both = hours->given[DAWN_WEATHER_DNI] && hours->given[DAWN_WEATHER_DHI];
    double *dhi = need(job, DAWN_WEATHER_DHI);
    double *dni = need(job, DAWN_WEATHER_DNI);
    if (!dhi || !dni)
        return;
    job->weather->split_from = both ? DAWN_FROM_FILE : DAWN_FROM_SPLIT;
    for (size_t h = 0; h < hours->count; h++)
        split_hour(hours->value[DAWN_WEATHER_GHI][h], sun->mean_cos[h], sun->outside_W_m2[h],
                   &dhi[h], &dni[h]);
    if (!both && job->weather->ghi_from == DAWN_FROM_FILE)
        dawn_weather_say(job, DAWN_WEATHER_SAY_ESTIMATE, DAWN_NOTE, nowhere, NULL,
                         "beam and diffuse light are split from the global light");
}

/* ---- long-wave ------------------------------------------------------------------------------ */

/* Hour of the mean solar day, 0..24. */
static double solar_hour(const struct dawn_weather *weather, int64_t at_s)
{
    double ahead_h =
        isnan(weather->longitude_deg) ? weather->utc_offset_h : weather->longitude_deg / 15.0;
    double hours = fmod((double)at_s / HOUR_S + ahead_h, 24.0);
    return hours < 0.0 ? hours + 24.0 : hours;
}

static void fill_longwave(struct dawn_weather_job *job)
{
    const struct dawn_weather_hours *hours = &job->hours;
    double *const *value = hours->value;
    bool given = hours->given[DAWN_WEATHER_LONGWAVE];
    double *longwave = need(job, DAWN_WEATHER_LONGWAVE);
    if (!longwave)
        return;
    job->weather->longwave_from = given ? DAWN_FROM_FILE : DAWN_FROM_SKY_MODEL;
    for (size_t i = 0; i < hours->count; i++) {
        if (!isnan(longwave[i]))
            continue;
        double hour = solar_hour(job->weather, hours->first_s + (int64_t)i * HOUR_S);
        double clear = dawn_sky_emissivity_berdahl(value[DAWN_WEATHER_DEW][i], hour,
                                                   value[DAWN_WEATHER_PRESSURE][i]);
        longwave[i] = dawn_sky_longwave_W_m2(dawn_sky_cloudy(clear, value[DAWN_WEATHER_CLOUD][i]),
                                             value[DAWN_WEATHER_AIR][i]);
    }
}

/* ---- all of it ------------------------------------------------------------------------------ */

static bool sun_needed(const struct dawn_weather_job *job)
{
    return !complete(job, DAWN_WEATHER_GHI) || !complete(job, DAWN_WEATHER_DNI) ||
           !complete(job, DAWN_WEATHER_DHI) || !complete(job, DAWN_WEATHER_CLOUD);
}

static void fill_under_sun(struct dawn_weather_job *job)
{
    size_t count = job->hours.count;
    double *block = calloc(3 * count, sizeof *block);
    if (!block) {
        job->no_memory = true;
        return;
    }
    struct sun_hours sun = {block, block + count, block + 2 * count};
    if (sun_needed(job))
        watch_sun(job, &sun);
    fill_light(job, &sun);
    if (!job->no_memory)
        fill_split(job, &sun);
    free(block);
}

static double *take(struct dawn_weather_job *job, enum dawn_weather_quantity quantity)
{
    double *value = job->hours.value[quantity];
    job->hours.value[quantity] = NULL;
    return value;
}

static void hand_over(struct dawn_weather_job *job)
{
    struct dawn_weather *weather = job->weather;
    weather->count = job->hours.count;
    weather->first_s = job->hours.first_s;
    weather->mean_first_s = job->hours.mean_first_s;
    weather->air_C = take(job, DAWN_WEATHER_AIR);
    weather->dew_C = take(job, DAWN_WEATHER_DEW);
    weather->wind_m_s = take(job, DAWN_WEATHER_WIND);
    weather->pressure_Pa = take(job, DAWN_WEATHER_PRESSURE);
    weather->cloud = take(job, DAWN_WEATHER_CLOUD);
    weather->longwave_W_m2 = take(job, DAWN_WEATHER_LONGWAVE);
    weather->snow_m = take(job, DAWN_WEATHER_SNOW);
    weather->ghi_W_m2 = take(job, DAWN_WEATHER_GHI);
    weather->dni_W_m2 = take(job, DAWN_WEATHER_DNI);
    weather->dhi_W_m2 = take(job, DAWN_WEATHER_DHI);
}

void dawn_weather_fill(struct dawn_weather_job *job)
{
    const struct dawn_weather *weather = job->weather;
    if (sun_needed(job) && (isnan(weather->latitude_deg) || isnan(weather->longitude_deg))) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_FILE, DAWN_ERROR, nowhere,
                         "say site.latitude and site.longitude in the scenario, or write \"# "
                         "latitude: 45.2\" and \"# longitude: 6.9\" above the header",
                         "light or cloud must be estimated, and neither the file nor the scenario "
                         "says where the place is");
        return;
    }
    fill_pressure(job);
    fill_wind(job);
    fill_snow(job);
    if (!job->no_memory)
        fill_dew(job);
    if (!job->no_memory)
        fill_under_sun(job);
    if (!job->no_memory)
        fill_longwave(job);
    if (!job->no_memory)
        hand_over(job);
}
