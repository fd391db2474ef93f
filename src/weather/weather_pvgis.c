/* PVGIS: "key: value" lines, a table of the months' years, a header of symbols without units, and a
 * footer that explains the symbols. Stamps are UTC; radiation holds at stamp + "Irradiance Time
 * Offset"; IR(h) is the long-wave radiation from the sky.
 * Source: the footer and header lines the service itself writes (European Commission, Joint
 * Research Centre, PVGIS). */
#include <string.h>

#include "base/text.h"
#include "weather/weather_job.h"

static bool begins(const struct dawn_csvrow *row, const char *prefix)
{
    return dawn_text_starts(row->field[0], prefix);
}

bool dawn_weather_pvgis_matches(const struct dawn_weather_job *job)
{
    const struct dawn_csvrow *header = &job->rows.row[job->header];
    return job->header >= 3 && begins(&job->rows.row[0], "Latitude (decimal degrees)") &&
           begins(&job->rows.row[1], "Longitude (decimal degrees)") &&
           (begins(header, "time(UTC)") || begins(header, "time")) &&
           dawn_weather_columns_named(header, "T2m") > 0;
}

/* The hourly product gives light on the planes of panels; say so instead of "no radiation". */
static void refuse_planes(struct dawn_weather_job *job, const struct dawn_csvrow *header)
{
    static const char *const planes[] = {"Gb(i)", "Gd(i)", "Gr(i)", "G(i)"};
    for (size_t i = 0; i < sizeof planes / sizeof planes[0]; i++) {
        int field = dawn_weather_columns_named(header, planes[i]);
        if (field < 0 || job->column[DAWN_WEATHER_GHI].index >= 0)
            continue;
        dawn_weather_say(job, DAWN_WEATHER_SAY_HEADER, DAWN_ERROR,
                         (struct dawn_weather_spot){job->header, field},
                         "download the typical meteorological year (TMY) instead: it has the light "
                         "on the level, the humidity and the sky's long-wave radiation",
                         "the light is given on a tilted plane (%s); light on the level, G(h), is "
                         "needed",
                         planes[i]);
        return;
    }
}

static void months_of_years(struct dawn_weather_job *job)
{
    char first_year[16] = "";
    for (size_t r = 0; r < job->header; r++) {
        const struct dawn_csvrow *row = &job->rows.row[r];
        size_t month_digits = strspn(row->field[0], "0123456789");
        if (row->count != 2 || month_digits == 0 || row->field[0][month_digits] != '\0')
            continue;
        if (first_year[0] == '\0')
            (void)dawn_text_copy(first_year, sizeof first_year, row->field[1]);
        else if (strcmp(first_year, row->field[1]) != 0)
            job->month_mosaic = true;
    }
}

void dawn_weather_pvgis_prepare(struct dawn_weather_job *job)
{
    static const struct {
        enum dawn_weather_quantity quantity;
        const char *name, *unit;
    } columns[] = {{DAWN_WEATHER_AIR, "T2m", "C"},      {DAWN_WEATHER_HUMIDITY, "RH", "%"},
                   {DAWN_WEATHER_GHI, "G(h)", "W/m2"},  {DAWN_WEATHER_DNI, "Gb(n)", "W/m2"},
                   {DAWN_WEATHER_DHI, "Gd(h)", "W/m2"}, {DAWN_WEATHER_LONGWAVE, "IR(h)", "W/m2"},
                   {DAWN_WEATHER_WIND, "WS10m", "m/s"}, {DAWN_WEATHER_PRESSURE, "SP", "Pa"}};
    const struct dawn_csvrow *header = &job->rows.row[job->header];
    struct dawn_weather *weather = job->weather;
    (void)dawn_text_copy(weather->layout, sizeof weather->layout,
                         dawn_weather_columns_named(header, "G(h)") >= 0 ? "PVGIS TMY"
                                                                         : "PVGIS hourly");
    for (size_t i = 0; i < sizeof columns / sizeof columns[0]; i++) {
        struct dawn_weather_column *column = &job->column[columns[i].quantity];
        column->index = dawn_weather_columns_named(header, columns[i].name);
        if (column->index >= 0)
            (void)dawn_weather_columns_unit(column, columns[i].quantity, columns[i].unit);
    }
    refuse_planes(job, header);
    months_of_years(job);
    job->zone_h = 0.0;
    weather->stamp = DAWN_STAMP_INSTANT;
    weather->stamp_from_file = true;
    for (size_t r = job->first; r < job->end; r++) {
        char c = job->rows.row[r].field[0][0];
        if (c < '0' || c > '9') { /* the footer */
            job->end = r;
            break;
        }
    }
}
