/* What was understood of a weather file: a summary for people, every hour for programs. */
#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "base/civil.h"
#include "base/jsonout.h"
#include "base/text.h"
#include "report/report_parts.h"

struct spread {
    double least, mean, most;
    size_t least_at;
};

static struct spread spread_of(const double *value, size_t count)
{
    struct spread spread = {NAN, NAN, NAN, 0};
    double sum = 0.0;

    for (size_t i = 0; i < count; i++) {
        if (i == 0 || value[i] < spread.least) {
            spread.least = value[i];
            spread.least_at = i;
        }
        spread.most = i == 0 || value[i] > spread.most ? value[i] : spread.most;
        sum += value[i];
    }
    spread.mean = count > 0 ? sum / (double)count : NAN;
    return spread;
}

/* ---- for people ---- */

static void put_place(FILE *out, const struct dawn_weather *weather, enum dawn_units units)
{
    char number[DAWN_REPORT_ROOM];

    fprintf(out, "file        %s (%s%s)\n", weather->path, weather->layout,
            weather->typical_year ? ", months of different years" : "");
    if (weather->station[0] != '\0') {
        fprintf(out, "station     %s\n", weather->station);
    }
    if (isfinite(weather->latitude_deg) && isfinite(weather->longitude_deg)) {
        fprintf(out, "place       %s %c, ",
                dawn_report_fixed(fabs(weather->latitude_deg), 3, number),
                weather->latitude_deg < 0.0 ? 'S' : 'N');
        fprintf(out, "%s %c\n", dawn_report_fixed(fabs(weather->longitude_deg), 3, number),
                weather->longitude_deg < 0.0 ? 'W' : 'E');
    }
    if (isfinite(weather->elevation_m)) {
        const bool us = units == DAWN_US;
        fprintf(
            out, "elevation   %s %s\n",
            dawn_report_fixed(us ? weather->elevation_m / 0.3048 : weather->elevation_m, 0, number),
            us ? "ft" : "m");
    }
}

static void put_times(FILE *out, const struct dawn_weather *weather)
{
    const double offset_h = weather->utc_offset_h;
    const int64_t last_s =
        weather->first_s + (weather->count > 0 ? (int64_t)weather->count - 1 : 0) * 3600;
    char day[DAWN_REPORT_ROOM];
    char clock[DAWN_REPORT_ROOM];

    fprintf(out, "hours       %zu, %s %s", weather->count,
            dawn_report_day(weather->first_s, offset_h, day),
            dawn_report_clock((double)weather->first_s, offset_h, clock));
    fprintf(out, " to %s %s\n", dawn_report_day(last_s, offset_h, day),
            dawn_report_clock((double)last_s, offset_h, clock));
    fprintf(out, "clock       %s, %s\n", dawn_report_zone(offset_h, day),
            weather->utc_offset_from_file ? "as the file says" : "as told or assumed");
    fprintf(out, "stamp       %s, %s\n", dawn_weather_stamp_words(weather->stamp),
            weather->stamp_from_file ? "as the file says" : "as told or assumed");
}

static void put_temperatures(FILE *out, const struct dawn_weather *weather, enum dawn_units units)
{
    const struct spread air = spread_of(weather->air_C, weather->count);
    const struct spread dew = spread_of(weather->dew_C, weather->count);
    const int64_t least_s = weather->first_s + (int64_t)air.least_at * 3600;
    char low[DAWN_REPORT_ROOM];
    char high[DAWN_REPORT_ROOM];
    char mean[DAWN_REPORT_ROOM];

    fprintf(out, "air         %s to %s, mean %s", dawn_report_degrees_unit(air.least, units, low),
            dawn_report_degrees_unit(air.most, units, high),
            dawn_report_degrees_unit(air.mean, units, mean));
    fprintf(out, "; coldest %s %s\n", dawn_report_day(least_s, weather->utc_offset_h, low),
            dawn_report_clock((double)least_s, weather->utc_offset_h, high));
    fprintf(out, "dew point   %s to %s, mean %s\n", dawn_report_degrees_unit(dew.least, units, low),
            dawn_report_degrees_unit(dew.most, units, high),
            dawn_report_degrees_unit(dew.mean, units, mean));
}

static void put_sky(FILE *out, const struct dawn_weather *weather, enum dawn_units units)
{
    const bool us = units == DAWN_US;
    const double speed = us ? 3600.0 / 1609.344 : 1.0;
    const struct spread wind = spread_of(weather->wind_m_s, weather->count);
    const struct spread cloud = spread_of(weather->cloud, weather->count);
    const struct spread longwave = spread_of(weather->longwave_W_m2, weather->count);
    const struct spread light = spread_of(weather->ghi_W_m2, weather->count);
    char low[DAWN_REPORT_ROOM];
    char high[DAWN_REPORT_ROOM];

    fprintf(out, "wind        mean %s, most %s %s\n", dawn_report_fixed(wind.mean * speed, 1, low),
            dawn_report_fixed(wind.most * speed, 1, high), us ? "mph" : "m/s");
    fprintf(out, "cloud       mean %s %%\n", dawn_report_fixed(cloud.mean * 100.0, 0, low));
    fprintf(out, "daylight    %s kWh/m2 a day, most %s W/m2\n",
            dawn_report_fixed(light.mean * 0.024, 2, low), dawn_report_fixed(light.most, 0, high));
    fprintf(out, "long-wave   %s to %s W/m2 from the sky\n",
            dawn_report_fixed(longwave.least, 0, low), dawn_report_fixed(longwave.most, 0, high));
    if (weather->snow_m != NULL && spread_of(weather->snow_m, weather->count).most > 0.0) {
        const double deepest_m = spread_of(weather->snow_m, weather->count).most;
        fprintf(out, "snow        up to %s %s\n",
                dawn_report_fixed(us ? deepest_m / 0.0254 : deepest_m * 100.0, 0, low),
                us ? "in" : "cm");
    }
}

static void write_text(FILE *out, const struct dawn_weather *weather, enum dawn_units units)
{
    struct dawn_report_estimate estimate[DAWN_REPORT_ESTIMATES];
    const size_t count = dawn_report_estimates(weather, estimate);

    put_place(out, weather, units);
    put_times(out, weather);
    put_temperatures(out, weather, units);
    put_sky(out, weather, units);
    for (size_t i = 0; i < count; i++) {
        fprintf(out, "%-12s%s: %s\n", i == 0 ? "estimated" : "", estimate[i].quantity,
                estimate[i].how);
    }
    if (count == 0) {
        fputs("estimated   nothing\n", out);
    }
    fprintf(out, "filled in   %zu missing hours\n", weather->filled_hours);
}

/* ---- for programs ---- */

struct column {
    const char *key;
    size_t offset; /* of a double pointer in struct dawn_weather */
    int decimals;
    bool mean; /* over the hour from mean_from, not at time */
};

#define SERIES(field) offsetof(struct dawn_weather, field)
static const struct column columns[] = {
    {"air_C", SERIES(air_C), 3, false},       {"dew_C", SERIES(dew_C), 3, false},
    {"wind_m_s", SERIES(wind_m_s), 3, false}, {"pressure_Pa", SERIES(pressure_Pa), 0, false},
    {"cloud", SERIES(cloud), 3, false},       {"longwave_W_m2", SERIES(longwave_W_m2), 2, false},
    {"snow_m", SERIES(snow_m), 3, false},     {"ghi_W_m2", SERIES(ghi_W_m2), 2, true},
    {"dni_W_m2", SERIES(dni_W_m2), 2, true},  {"dhi_W_m2", SERIES(dhi_W_m2), 2, true},
};
enum { COLUMNS = sizeof columns / sizeof columns[0] };

static double value_of(const struct dawn_weather *weather, const struct column *column, size_t hour)
{
    const double *series = NULL;

    memcpy(&series, (const char *)weather + column->offset, sizeof series);
    return series != NULL ? series[hour] : NAN;
}

static void iso_hour(int64_t first_s, size_t hour, double offset_h, char stamp[32])
{
    dawn_civil_iso(first_s + (int64_t)hour * 3600, offset_h, stamp);
}

static void write_csv(FILE *out, const struct dawn_weather *weather)
{
    char stamp[32];
    char number[DAWN_REPORT_ROOM];

    fputs("time", out);
    for (size_t c = 0; c < COLUMNS; c++) {
        const bool first_mean = columns[c].mean && !columns[c - 1].mean;
        fprintf(out, "%s,%s", first_mean ? ",mean_from" : "", columns[c].key);
    }
    fputs("\r\n", out);
    for (size_t hour = 0; hour < weather->count; hour++) {
        iso_hour(weather->first_s, hour, weather->utc_offset_h, stamp);
        fputs(stamp, out);
        for (size_t c = 0; c < COLUMNS; c++) {
            const double value = value_of(weather, &columns[c], hour);
            if (columns[c].mean && !columns[c - 1].mean) {
                iso_hour(weather->mean_first_s, hour, weather->utc_offset_h, stamp);
                fprintf(out, ",%s", stamp);
            }
            fprintf(out, ",%s",
                    isfinite(value) ? dawn_report_fixed(value, columns[c].decimals, number) : "");
        }
        fputs("\r\n", out);
    }
}

static void put_json_facts(struct dawn_jsonout *json, const struct dawn_weather *weather)
{
    struct dawn_report_estimate estimate[DAWN_REPORT_ESTIMATES];
    const size_t count = dawn_report_estimates(weather, estimate);

    dawn_report_json_head(json, "weather");
    dawn_jsonout_text(json, "path", weather->path);
    dawn_jsonout_text(json, "layout", weather->layout);
    dawn_jsonout_text(json, "station", weather->station);
    dawn_jsonout_number(json, "latitude_deg", weather->latitude_deg, 6);
    dawn_jsonout_number(json, "longitude_deg", weather->longitude_deg, 6);
    dawn_jsonout_number(json, "elevation_m", weather->elevation_m, 3);
    dawn_jsonout_number(json, "utc_offset_h", weather->utc_offset_h, 4);
    dawn_jsonout_bool(json, "utc_offset_from_file", weather->utc_offset_from_file);
    dawn_jsonout_text(json, "stamp", dawn_weather_stamp_words(weather->stamp));
    dawn_jsonout_bool(json, "stamp_from_file", weather->stamp_from_file);
    dawn_jsonout_bool(json, "typical_year", weather->typical_year);
    dawn_jsonout_integer(json, "filled_hours", (int64_t)weather->filled_hours);
    dawn_jsonout_array(json, "estimated");
    for (size_t i = 0; i < count; i++) {
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "quantity", estimate[i].quantity);
        dawn_jsonout_text(json, "how", estimate[i].how);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
}

static void write_json(FILE *out, const struct dawn_weather *weather)
{
    struct dawn_jsonout json;
    char stamp[32];

    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    put_json_facts(&json, weather);
    dawn_jsonout_array(&json, "hours");
    for (size_t hour = 0; hour < weather->count; hour++) {
        dawn_jsonout_object(&json, NULL);
        iso_hour(weather->first_s, hour, weather->utc_offset_h, stamp);
        dawn_jsonout_text(&json, "time", stamp);
        iso_hour(weather->mean_first_s, hour, weather->utc_offset_h, stamp);
        dawn_jsonout_text(&json, "mean_from", stamp);
        for (size_t c = 0; c < COLUMNS; c++) {
            dawn_jsonout_number(&json, columns[c].key, value_of(weather, &columns[c], hour),
                                columns[c].decimals);
        }
        dawn_jsonout_close_object(&json);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
}

void dawn_report_weather(FILE *out, enum dawn_format format, enum dawn_units units,
                         const struct dawn_weather *weather)
{
    switch (format) {
    case DAWN_TEXT:
        write_text(out, weather, units);
        break;
    case DAWN_CSV:
        write_csv(out, weather);
        break;
    case DAWN_JSON:
        write_json(out, weather);
        break;
    }
}
