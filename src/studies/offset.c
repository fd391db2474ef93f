/* Nights in common, and a line of least squares through their differences. */
#include "dawnlow/studies/offset.h"

#include <math.h>

#include "dawnlow/physics/sun.h"

static const int64_t hour_s = 3600;
/* Nights more alike than this in cloud and wind do not tell what those do. */
static const double told_deviation = 0.08;

/* Sums of a line of least squares, y over x. */
struct sums {
    double n, x, y, xx, xy, yy;
};

static bool is_dark(const struct dawn_weather *station, int64_t at_s)
{
    return dawn_sun_cos_zenith((double)at_s, station->latitude_deg, station->longitude_deg) < 0.0;
}

static double air_at(const struct dawn_weather *weather, int64_t at_s)
{
    const int64_t since_s = at_s - weather->first_s;
    const size_t before = (size_t)(since_s / hour_s);
    const double share = (double)(since_s % hour_s) / (double)hour_s;

    return before + 1 < weather->count
               ? weather->air_C[before] +
                     share * (weather->air_C[before + 1] - weather->air_C[before])
               : weather->air_C[before];
}

static bool covers(const struct dawn_weather *weather, int64_t from_s, int64_t to_s)
{
    return weather->first_s <= from_s &&
           weather->first_s + (int64_t)(weather->count - 1) * hour_s >= to_s;
}

static void add_night(struct dawn_offset *offset, struct sums *sums,
                      const struct dawn_weather *mine, const struct dawn_weather *station,
                      int64_t from_s, int64_t to_s)
{
    double mine_C = INFINITY;
    double station_C = INFINITY;
    double clear = 0.0;
    double hours = 0.0;

    for (int64_t at_s = from_s; at_s <= to_s; at_s += hour_s) {
        mine_C = fmin(mine_C, air_at(mine, at_s));
        station_C = fmin(station_C, air_at(station, at_s));
        clear += dawn_weather_clear_calm(station, (double)at_s);
        hours += 1.0;
    }
    const double x = clear / hours;
    const double y = station_C - mine_C;
    offset->least_K = offset->nights == 0 ? y : fmin(offset->least_K, y);
    offset->most_K = offset->nights == 0 ? y : fmax(offset->most_K, y);
    offset->nights++;
    sums->n += 1.0;
    sums->x += x;
    sums->y += y;
    sums->xx += x * x;
    sums->xy += x * y;
    sums->yy += y * y;
}

/* Every stretch of dark hours of the station that begins and ends inside it. */
static void gather(struct dawn_offset *offset, struct sums *sums, const struct dawn_weather *mine,
                   const struct dawn_weather *station)
{
    int64_t dusk_s = 0;
    bool dark_before = true;

    for (size_t i = 0; i < station->count; i++) {
        const int64_t at_s = station->first_s + (int64_t)i * hour_s;
        const bool dark = is_dark(station, at_s);
        if (dark && !dark_before) {
            dusk_s = at_s;
        }
        if (!dark && dark_before && dusk_s != 0 && covers(mine, dusk_s, at_s)) {
            add_night(offset, sums, mine, station, dusk_s, at_s);
        }
        dark_before = dark;
    }
}

static void lay_line(struct dawn_offset *offset, const struct sums *sums)
{
    const double mean_x = sums->x / sums->n;
    const double mean_y = sums->y / sums->n;
    const double xx = sums->xx - sums->n * mean_x * mean_x;
    const double xy = sums->xy - sums->n * mean_x * mean_y;
    const double yy = sums->yy - sums->n * mean_y * mean_y;

    offset->mean_K = mean_y;
    offset->clear_told = xx > sums->n * told_deviation * told_deviation;
    /* Warmer on clear nights is no hollow: then the mean alone is told. */
    offset->clear_K = offset->clear_told ? fmax(xy / xx, 0.0) : 0.0;
    offset->always_K = mean_y - offset->clear_K * mean_x;
    const double left = yy - 2.0 * offset->clear_K * xy + offset->clear_K * offset->clear_K * xx;
    offset->spread_K = sqrt(fmax(left, 0.0) / (sums->n - (offset->clear_K > 0.0 ? 2.0 : 1.0)));
}

enum dawn_status dawn_offset_fit(struct dawn_offset *offset, const struct dawn_weather *mine,
                                 const struct dawn_weather *station, struct dawn_problems *problems)
{
    const struct dawn_place_in_file place = {.file = mine->path};
    struct sums sums = {0};

    *offset = (struct dawn_offset){0};
    gather(offset, &sums, mine, station);
    if (offset->nights < DAWN_OFFSET_NIGHTS_LEAST) {
        dawn_problems_add(problems, DAWN_ERROR, place,
                          "take a station file of the same weeks; check the years and the clock",
                          "only %zu whole nights are both in it and in %s; %d at least are needed",
                          offset->nights, station->path, DAWN_OFFSET_NIGHTS_LEAST);
        return DAWN_ERR_WEATHER;
    }
    if (offset->nights < DAWN_OFFSET_NIGHTS_ENOUGH) {
        dawn_problems_add(problems, DAWN_WARNING, place, NULL,
                          "only %zu nights are in both files; %d and more tell it better",
                          offset->nights, DAWN_OFFSET_NIGHTS_ENOUGH);
    }
    lay_line(offset, &sums);
    return DAWN_OK;
}
