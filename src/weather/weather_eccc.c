/* Environment and Climate Change Canada, hourly data, one month a file. Three shapes of it: with 16
 * lines above the header, or with the station repeated in each row; the degree sign of "Temp (°C)"
 * arrives in any encoding. Stamps are local standard time, a number for which is nowhere given.
 * Source: the header lines of the files themselves (climate.weather.gc.ca, "Glossary"). */
#include <math.h>
#include <stdlib.h>

#include "base/text.h"
#include "weather/weather_job.h"

bool dawn_weather_eccc_matches(const struct dawn_weather_job *job)
{
    const struct dawn_csvrow *header = &job->rows.row[job->header];
    bool stamp = dawn_weather_columns_named(header, "Date/Time") >= 0 ||
                 dawn_weather_columns_named(header, "Date/Time (LST)") >= 0;
    return stamp && dawn_weather_columns_named(header, "Temp Flag") > 0 &&
           dawn_weather_columns_named(header, "Dew Point Temp Flag") > 0;
}

/* The station of files that repeat it in each row. */
static void station_columns(struct dawn_weather_job *job)
{
    static const char *const names[3][2] = {{"Latitude (y)", "latitude"},
                                            {"Longitude (x)", "longitude"},
                                            {"Station Name", "station name"}};
    const struct dawn_csvrow *header = &job->rows.row[job->header];
    if (job->first >= job->end)
        return;
    const struct dawn_csvrow *row = &job->rows.row[job->first];
    for (size_t i = 0; i < 3; i++) {
        int field = dawn_weather_columns_named(header, names[i][0]);
        if (field >= 0 && (size_t)field < row->count)
            dawn_weather_preamble_set(job, names[i][1], row->field[field],
                                      (struct dawn_weather_spot){job->first, field});
    }
}

void dawn_weather_eccc_prepare(struct dawn_weather_job *job)
{
    (void)dawn_text_copy(job->weather->layout, sizeof job->weather->layout, "ECCC hourly");
    station_columns(job);
    job->local_standard = true;
    job->weather->stamp = DAWN_STAMP_INSTANT;
    job->weather->stamp_from_file = true;
}
