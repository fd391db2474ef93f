/* NSRDB (PSM): a line of keys and a line of values above the header; the header has no units, the
 * keys "... Units" have. "Time Zone" is that of the stamps, "Local Time Zone" is not. Values are
 * those of the middle of the interval (stamps at :30 in hourly files).
 * Source: M. Sengupta et al., The National Solar Radiation Data Base (NSRDB), Renewable and
 * Sustainable Energy Reviews 89, 2018, 51-60, and the file's own header lines. */
#include <stdio.h>

#include "base/text.h"
#include "weather/weather_job.h"

bool dawn_weather_nsrdb_matches(const struct dawn_weather_job *job)
{
    if (job->header != 2)
        return false;
    const struct dawn_csvrow *keys = &job->rows.row[0];
    const struct dawn_csvrow *header = &job->rows.row[2];
    return dawn_weather_columns_named(keys, "Source") == 0 &&
           dawn_weather_columns_named(keys, "Time Zone") > 0 &&
           dawn_weather_columns_named(header, "Year") == 0 &&
           dawn_weather_columns_named(header, "Minute") > 0;
}

/* The unit a column has by the preamble, else the one the product is known by. */
static void unit_of(struct dawn_weather_job *job, enum dawn_weather_quantity quantity,
                    const char *name, const char *usual)
{
    struct dawn_weather_column *column = &job->column[quantity];
    const struct dawn_csvrow *keys = &job->rows.row[0];
    const struct dawn_csvrow *values = &job->rows.row[1];
    char key[64];
    if (column->index < 0)
        return;
    (void)snprintf(key, sizeof key, "%s Units", name);
    int field = dawn_weather_columns_named(keys, key);
    const char *unit = field >= 0 && (size_t)field < values->count ? values->field[field] : usual;
    if (dawn_weather_columns_unit(column, quantity, unit))
        return;
    dawn_weather_say(job, DAWN_WEATHER_SAY_UNIT, DAWN_ERROR, (struct dawn_weather_spot){1, field},
                     NULL, "the unit \"%.24s\" of the %s is not known", unit,
                     dawn_weather_quantity_words(quantity));
    column->has_unit = true;
    column->unlimited = true;
}

void dawn_weather_nsrdb_prepare(struct dawn_weather_job *job)
{
    struct dawn_weather *weather = job->weather;
    (void)dawn_text_copy(weather->layout, sizeof weather->layout, "NSRDB");
    weather->stamp = DAWN_STAMP_MEAN_AROUND;
    weather->stamp_from_file = true;
    const struct dawn_csvrow *keys = &job->rows.row[0];
    const struct dawn_csvrow *values = &job->rows.row[1];
    int zone = dawn_weather_columns_named(keys, "Time Zone");
    if (zone >= 0 && (size_t)zone < values->count)
        dawn_weather_preamble_set(job, "time zone", values->field[zone],
                                  (struct dawn_weather_spot){1, zone});
    int number = dawn_weather_columns_named(keys, "Location ID");
    if (number >= 0 && (size_t)number < values->count)
        (void)snprintf(weather->station, sizeof weather->station, "NSRDB cell %.32s",
                       values->field[number]);
    unit_of(job, DAWN_WEATHER_AIR, "Temperature", "c");
    unit_of(job, DAWN_WEATHER_DEW, "Dew Point", "c");
    unit_of(job, DAWN_WEATHER_HUMIDITY, "Relative Humidity", "%");
    unit_of(job, DAWN_WEATHER_WIND, "Wind Speed", "m/s");
    unit_of(job, DAWN_WEATHER_GHI, "GHI", "w/m2");
    unit_of(job, DAWN_WEATHER_DHI, "DHI", "w/m2");
    unit_of(job, DAWN_WEATHER_DNI, "DNI", "w/m2");
    unit_of(job, DAWN_WEATHER_PRESSURE, "Pressure", "mbar");
}
