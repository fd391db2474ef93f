/* TMY3: one station line, then a header whose names carry their units; hours end at their stamp
 * (01:00 .. 24:00 local standard time), months come from different years.
 * Source: S. Wilcox, W. Marion, Users Manual for TMY3 Data Sets, NREL/TP-581-43156, 2008. */
#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "weather/weather_job.h"

bool dawn_weather_tmy3_matches(const struct dawn_weather_job *job)
{
    const struct dawn_csvrow *header = &job->rows.row[job->header];
    return job->header == 1 && dawn_weather_columns_named(header, "Date (MM/DD/YYYY)") == 0 &&
           dawn_weather_columns_named(header, "Time (HH:MM)") == 1 &&
           dawn_weather_columns_named(header, "Dry-bulb (C)") >= 0;
}

void dawn_weather_tmy3_prepare(struct dawn_weather_job *job)
{
    /* number, name, state, UTC offset (h), latitude, longitude, elevation (m) */
    static const struct {
        int field;
        const char *key;
    } places[] = {{3, "utc offset"}, {4, "latitude"}, {5, "longitude"}, {6, "elevation"}};
    const struct dawn_csvrow *station = &job->rows.row[0];
    struct dawn_weather *weather = job->weather;
    (void)dawn_text_copy(weather->layout, sizeof weather->layout, "TMY3");
    weather->stamp = DAWN_STAMP_MEAN_BEFORE;
    weather->stamp_from_file = true;
    if (station->count < 7) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_PREAMBLE, DAWN_ERROR,
                         (struct dawn_weather_spot){0, -1}, NULL,
                         "the station line of a TMY3 file has number, name, state, UTC offset, "
                         "latitude, longitude and elevation; only %zu fields are there",
                         station->count);
        return;
    }
    (void)snprintf(weather->station, sizeof weather->station, "%.60s %.20s", station->field[1],
                   station->field[2]);
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
        dawn_weather_preamble_set(job, places[i].key, station->field[places[i].field],
                                  (struct dawn_weather_spot){0, places[i].field});
}
