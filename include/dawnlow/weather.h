/* Hourly weather as a series of SI numbers, complete: what the file lacked has been estimated and
 * the estimate is named.
 *
 * Two clocks: air_C and its like hold at the instant first_s + i * 3600; ghi_W_m2 and its like are
 * means over the hour that starts at mean_first_s + i * 3600. All stamps are seconds since
 * 1970-01-01T00:00Z. Radiation given as an instant is treated as the mean of the hour around it; a
 * file without radiation has mean_first_s = first_s. mean_first_s lies at most 5400 s from first_s,
 * but need not differ from it by whole hours. */
#ifndef DAWNLOW_WEATHER_H
#define DAWNLOW_WEATHER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "dawnlow/problems.h"

/* What the stamp of a row stands for, for the quantities that are means. */
enum dawn_stamp {
    DAWN_STAMP_INSTANT,     /* everything holds at the stamp */
    DAWN_STAMP_MEAN_BEFORE, /* radiation is the mean of the hour that ends at the stamp */
    DAWN_STAMP_MEAN_AFTER,  /* ... of the hour that starts at the stamp */
    DAWN_STAMP_MEAN_AROUND  /* ... of the hour centred on the stamp */
};

/* What the caller knows; NAN / -1 / NULL / "" = not known, take it from the file. */
struct dawn_weather_hints {
    double latitude_deg, longitude_deg, elevation_m;
    double utc_offset_h;      /* of the stamps, when the file does not say; NAN = must be there */
    double site_utc_offset_h; /* fallback with a note, and the zone of printed times */
    int stamp;                /* enum dawn_stamp, or -1 */
    const char *temperature_unit;
};

enum dawn_weather_source {
    DAWN_FROM_FILE,
    DAWN_FROM_DEW_POINT, /* humidity from the file's dew point (FROM_FILE: its relative humidity) */
    DAWN_FROM_CLOUD,     /* radiation from clear sky and cloud cover */
    DAWN_FROM_RANGE,     /* radiation from the daily temperature range */
    DAWN_FROM_LIGHT,     /* cloud from daylight against clear sky, carried through the night */
    DAWN_FROM_SPLIT,     /* beam and diffuse split from global */
    DAWN_FROM_SKY_MODEL, /* long-wave from air, dew point and cloud */
    DAWN_FROM_DEFAULT
};

struct dawn_weather {
    char path[512];
    char layout[48];  /* "TMY3", "NSRDB", "PVGIS TMY", "general columns" ... */
    char station[96]; /* as the file names it; "" = not named */
    double latitude_deg, longitude_deg, elevation_m; /* NAN = neither file nor hints say */
    double utc_offset_h;                             /* of the file's stamps */
    bool utc_offset_from_file;
    enum dawn_stamp stamp;
    bool stamp_from_file;
    bool typical_year; /* months of different years: stamps carry one nominal year */

    size_t count; /* hours */
    int64_t first_s, mean_first_s;
    double *air_C, *dew_C, *wind_m_s, *pressure_Pa, *cloud; /* instants; wind at the station */
    double *longwave_W_m2;                                  /* instants, from the sky downward */
    double *snow_m;                                         /* instants, on the ground */
    double *ghi_W_m2, *dni_W_m2, *dhi_W_m2;                 /* hour means */
    enum dawn_weather_source humidity_from, wind_from, pressure_from, cloud_from, longwave_from,
        ghi_from, split_from, snow_from;
    size_t filled_hours; /* short gaps (up to 3 h) mended, in the column with most of them */
};

/* Reads, checks, mends short gaps and completes a weather CSV. Problems (with file, line, column)
 * are collected; errors lead to DAWN_ERR_WEATHER (DAWN_ERR_IO when the file cannot be read at all)
 * and leave weather empty. weather is zero-initialised by the caller or holds an earlier result,
 * which is released. hints NULL = nothing known. */
enum dawn_status dawn_weather_read(struct dawn_weather *weather, const char *path,
                                   const struct dawn_weather_hints *hints,
                                   struct dawn_problems *problems);
enum dawn_status dawn_weather_parse(struct dawn_weather *weather, const char *name,
                                    const char *text, size_t size,
                                    const struct dawn_weather_hints *hints,
                                    struct dawn_problems *problems);
void dawn_weather_release(struct dawn_weather *weather);

/* What columns a file may have: a quantity and the names, ended by NULL, that are known for it; a
 * name that begins with '=' must stand alone. quantity counts from 0. Returns how many there are.
 */
size_t dawn_weather_column_names(size_t quantity, const char **what, const char *const **names);
/* How far into a clear calm night a moment is, 0 (day, overcast or windy) to 1: the clear share of
 * the sky times exp(-wind/2 m/s) of the station's wind, while the sun is down, in an hour's passage
 * from sunset on (a shape of our own: cold air gathers when nothing warms or stirs it). */
double dawn_weather_clear_calm(const struct dawn_weather *weather, double t_s);
/* Cools the weather to a site that is offset_K colder than where it is from, and clear_K more on
 * clear calm nights; the dew point is lowered to the air where it must be, and the sky's long-wave
 * is left as it is, for the sky is the same. */
void dawn_weather_shift(struct dawn_weather *weather, double offset_K, double clear_K);

/* Past and future in one: history up to now_s (its last hour at or before it), forecast after it,
 * history cut to at most keep_s before now. The hours are the history's. DAWN_ERR_WEATHER with a
 * problem when more than 3 hours lie between them. joined is {0} or released before. */
enum dawn_status dawn_weather_join(struct dawn_weather *joined, const struct dawn_weather *history,
                                   const struct dawn_weather *forecast, int64_t now_s,
                                   double keep_s, struct dawn_problems *problems);

/* Words for people: "instant", "mean of the hour before the stamp" ...; "from cloud cover" ... */
const char *dawn_weather_stamp_words(enum dawn_stamp stamp);
const char *dawn_weather_source_words(enum dawn_weather_source source);

#endif
