/* A recent past and a forecast on one row of hours. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "dawnlow/weather.h"

enum { HOUR_S = 3600, LONGEST_GAP_H = 3, INSTANTS = 7, MEANS = 3 };

struct join {
    const struct dawn_weather *history, *forecast;
    int64_t until_s; /* the history's last instant that counts */
};

static int64_t last_s(const struct dawn_weather *weather)
{
    return weather->first_s + (int64_t)(weather->count - 1) * HOUR_S;
}

static double *const *instants_of(const struct dawn_weather *weather, double *out[INSTANTS])
{
    double *const from[INSTANTS] = {weather->air_C,       weather->dew_C, weather->wind_m_s,
                                    weather->pressure_Pa, weather->cloud, weather->longwave_W_m2,
                                    weather->snow_m};
    memcpy(out, from, sizeof from);
    return out;
}

static double *const *means_of(const struct dawn_weather *weather, double *out[MEANS])
{
    double *const from[MEANS] = {weather->ghi_W_m2, weather->dni_W_m2, weather->dhi_W_m2};
    memcpy(out, from, sizeof from);
    return out;
}

/* ---- values ---- */

static double state_at(const struct dawn_weather *weather, const double *series, int64_t at_s)
{
    const int64_t since_s = at_s - weather->first_s;
    if (since_s <= 0)
        return series[0];
    const size_t before = (size_t)(since_s / HOUR_S);
    if (before + 1 >= weather->count)
        return series[weather->count - 1];
    const double share = (double)(since_s % HOUR_S) / HOUR_S;
    return series[before] + share * (series[before + 1] - series[before]);
}

/* Between the history's end and the forecast's beginning in a straight line. */
static double joined_state(const struct join *join, const double *past, const double *coming,
                           int64_t at_s)
{
    const int64_t begins_s = join->forecast->first_s;
    if (at_s <= join->until_s)
        return state_at(join->history, past, at_s);
    if (at_s >= begins_s)
        return state_at(join->forecast, coming, at_s);
    const double from = state_at(join->history, past, join->until_s);
    const double share = (double)(at_s - join->until_s) / (double)(begins_s - join->until_s);
    return from + share * (coming[0] - from);
}

/* Mean of the hour from a moment on, of hours that may begin at another minute. */
static double mean_from(const struct dawn_weather *weather, const double *series, int64_t from_s)
{
    const int64_t since_s = from_s - weather->mean_first_s;
    const int64_t before = since_s >= 0 ? since_s / HOUR_S : -1;
    const double late = (double)(since_s - before * HOUR_S) / HOUR_S;
    const int64_t last = (int64_t)weather->count - 1;
    const int64_t first = before < 0 ? 0 : before > last ? last : before;
    const int64_t second = before + 1 < 0 ? 0 : before + 1 > last ? last : before + 1;
    return (1.0 - late) * series[first] + late * series[second];
}

static double joined_mean(const struct join *join, const double *past, const double *coming,
                          int64_t from_s)
{
    const bool known =
        from_s + HOUR_S / 2 <= join->until_s &&
        from_s < join->history->mean_first_s + (int64_t)join->history->count * HOUR_S;
    return known ? mean_from(join->history, past, from_s)
                 : mean_from(join->forecast, coming, from_s);
}

/* ---- the whole ---- */

static bool fill(struct dawn_weather *joined, const struct join *join)
{
    double *past[INSTANTS];
    double *coming[INSTANTS];
    double *fresh[INSTANTS + MEANS];
    bool fine = true;
    for (size_t k = 0; k < INSTANTS + MEANS; k++) {
        fresh[k] = malloc(joined->count * sizeof *fresh[k]);
        fine = fine && fresh[k] != NULL;
    }
    joined->air_C = fresh[0];
    joined->dew_C = fresh[1];
    joined->wind_m_s = fresh[2];
    joined->pressure_Pa = fresh[3];
    joined->cloud = fresh[4];
    joined->longwave_W_m2 = fresh[5];
    joined->snow_m = fresh[6];
    joined->ghi_W_m2 = fresh[7];
    joined->dni_W_m2 = fresh[8];
    joined->dhi_W_m2 = fresh[9];
    (void)instants_of(join->history, past);
    (void)instants_of(join->forecast, coming);
    for (size_t k = 0; fine && k < INSTANTS; k++)
        for (size_t i = 0; i < joined->count; i++)
            fresh[k][i] =
                joined_state(join, past[k], coming[k], joined->first_s + (int64_t)i * HOUR_S);
    (void)means_of(join->history, past);
    (void)means_of(join->forecast, coming);
    for (size_t k = 0; fine && k < MEANS; k++)
        for (size_t i = 0; i < joined->count; i++)
            fresh[INSTANTS + k][i] =
                joined_mean(join, past[k], coming[k], joined->mean_first_s + (int64_t)i * HOUR_S);
    return fine;
}

static enum dawn_status refuse(const struct dawn_weather *forecast, double missing_h,
                               struct dawn_problems *problems)
{
    const struct dawn_place_in_file place = {.file = forecast->path};
    dawn_problems_add(problems, DAWN_ERROR, place,
                      "take a forecast that begins sooner, or a history that reaches further",
                      "the forecast begins %.4g h after what is known of the past; up to %d h are "
                      "bridged",
                      missing_h, LONGEST_GAP_H);
    return DAWN_ERR_WEATHER;
}

enum dawn_status dawn_weather_join(struct dawn_weather *joined, const struct dawn_weather *history,
                                   const struct dawn_weather *forecast, int64_t now_s,
                                   double keep_s, struct dawn_problems *problems)
{
    struct join join = {history, forecast, last_s(history)};
    if (join.until_s > now_s)
        join.until_s -= (join.until_s - now_s + HOUR_S - 1) / HOUR_S * HOUR_S;
    const int64_t gap_s = forecast->first_s - join.until_s;
    dawn_weather_release(joined);
    if (gap_s > (LONGEST_GAP_H + 1) * (int64_t)HOUR_S || join.until_s < history->first_s)
        return refuse(forecast, (double)gap_s / HOUR_S, problems);
    const double known_s = (double)(join.until_s - history->first_s);
    const int64_t cut_s =
        known_s > keep_s ? (int64_t)((known_s - keep_s) / HOUR_S) * HOUR_S : (int64_t)0;
    *joined = *forecast;
    joined->first_s = history->first_s + cut_s;
    joined->mean_first_s = history->mean_first_s + cut_s;
    /* As far as both the forecast's instants and its means reach. */
    const int64_t instants_s = last_s(forecast) - joined->first_s;
    const int64_t means_s =
        forecast->mean_first_s + (int64_t)(forecast->count - 1) * HOUR_S - joined->mean_first_s;
    joined->count = (size_t)((instants_s < means_s ? instants_s : means_s) / HOUR_S) + 1;
    if (!fill(joined, &join)) {
        dawn_weather_release(joined);
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                          "out of memory while the history was read");
        return DAWN_ERR_NOMEM;
    }
    return DAWN_OK;
}
