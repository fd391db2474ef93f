/* The lines above the header: place, zone and meaning of the stamps, in the shapes such lines take:
 * "# key: value", "key: value", "key,value", and a line of keys over a line of values. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "weather/weather_stamp.h"

enum key {
    NO_KEY,
    LATITUDE,
    LONGITUDE,
    ELEVATION,
    UTC_OFFSET,
    UTC_OFFSET_SECONDS,
    STATION,
    STAMP,
    LIGHT_OFFSET
};

static enum key key_of(const char *text)
{
    static const struct {
        const char *name;
        enum key key;
    } keys[] = {{"latitude", LATITUDE},
                {"lat", LATITUDE},
                {"longitude", LONGITUDE},
                {"lon", LONGITUDE},
                {"long", LONGITUDE},
                {"elevation", ELEVATION},
                {"elev", ELEVATION},
                {"altitude", ELEVATION},
                {"utc offset", UTC_OFFSET},
                {"time zone", UTC_OFFSET},
                {"timezone", UTC_OFFSET},
                {"zone", UTC_OFFSET},
                {"utc offset seconds", UTC_OFFSET_SECONDS},
                {"station name", STATION},
                {"station", STATION},
                {"site", STATION},
                {"place", STATION},
                {"stamp", STAMP},
                {"irradiance time offset", LIGHT_OFFSET}};
    char name[64];
    char unit[64];
    dawn_weather_columns_plain(text, name, unit);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (strcmp(name, keys[i].name) == 0)
            return keys[i].key;
    return NO_KEY;
}

/* A number with an optional unit or compass letter behind it: "45.2", "45.2 N", "480 m". */
static bool number_of(const char *value, double *number)
{
    const char *end = NULL;
    if (!dawn_text_number(value, &end, number))
        return false;
    while (*end == ' ' || *end == '\t')
        end++;
    if (*end == 'S' || *end == 's' || *end == 'W' || *end == 'w')
        *number = -*number;
    return *end == '\0' || strlen(end) <= 4;
}

static void set_place(struct dawn_weather_job *job, enum key key, const char *value,
                      struct dawn_weather_spot spot)
{
    struct dawn_weather *weather = job->weather;
    double *const slot = key == LATITUDE    ? &weather->latitude_deg
                         : key == LONGITUDE ? &weather->longitude_deg
                                            : &weather->elevation_m;
    const double most = key == LATITUDE ? 90.0 : key == LONGITUDE ? 180.0 : 6000.0;
    const double least = key == ELEVATION ? -450.0 : -most;
    const char *what = key == LATITUDE ? "latitude" : key == LONGITUDE ? "longitude" : "elevation";
    double number = NAN;
    if (dawn_weather_values_missing(value))
        return;
    if (!number_of(value, &number))
        dawn_weather_say(job, DAWN_WEATHER_SAY_PREAMBLE, DAWN_ERROR, spot,
                         "write it as a plain number, west and south negative",
                         "\"%.32s\" is no %s", value, what);
    else if (number < least || number > most)
        dawn_weather_say(job, DAWN_WEATHER_SAY_PREAMBLE, DAWN_ERROR, spot, NULL,
                         "a %s of %g is not possible; %g to %g is expected", what, number, least,
                         most);
    else if (isnan(*slot))
        *slot = number;
}

static void set_zone(struct dawn_weather_job *job, enum key key, const char *value,
                     struct dawn_weather_spot spot)
{
    double offset = NAN;
    const char *end = NULL;
    if (dawn_weather_values_missing(value))
        return;
    if (key == UTC_OFFSET_SECONDS) {
        if (dawn_text_number(value, &end, &offset) && *end == '\0' && fabs(offset) <= 14 * 3600) {
            job->zone_h = offset / 3600.0;
            return;
        }
    } else if (dawn_weather_stamp_offset(value, &offset)) {
        if (isnan(job->zone_h))
            job->zone_h = offset;
        return;
    } else if (strchr(value, '/')) {
        return; /* a zone by its town: utc_offset_seconds or the hints give the number */
    }
    dawn_weather_say(job, DAWN_WEATHER_SAY_PREAMBLE, DAWN_ERROR, spot,
                     "write it as +1 h, -05:00 or UTC", "\"%.32s\" is no offset from UTC", value);
}

static void set_stamp(struct dawn_weather_job *job, const char *value,
                      struct dawn_weather_spot spot)
{
    static const struct {
        const char *name;
        enum dawn_stamp stamp;
    } stamps[] = {{"instant", DAWN_STAMP_INSTANT},
                  {"hour-before", DAWN_STAMP_MEAN_BEFORE},
                  {"hour-after", DAWN_STAMP_MEAN_AFTER},
                  {"hour-around", DAWN_STAMP_MEAN_AROUND}};
    for (size_t i = 0; i < sizeof stamps / sizeof stamps[0]; i++)
        if (dawn_text_same(value, stamps[i].name)) {
            job->weather->stamp = stamps[i].stamp;
            job->weather->stamp_from_file = true;
            return;
        }
    dawn_weather_say(job, DAWN_WEATHER_SAY_PREAMBLE, DAWN_ERROR, spot, NULL,
                     "\"%.32s\" is no meaning of a stamp; instant, hour-before, hour-after or "
                     "hour-around is expected",
                     value);
}

void dawn_weather_preamble_set(struct dawn_weather_job *job, const char *key, const char *value,
                               struct dawn_weather_spot spot)
{
    enum key found = key_of(key);
    const char *end = NULL;
    double number = NAN;
    switch (found) {
    case LATITUDE:
    case LONGITUDE:
    case ELEVATION:
        set_place(job, found, value, spot);
        break;
    case UTC_OFFSET:
    case UTC_OFFSET_SECONDS:
        set_zone(job, found, value, spot);
        break;
    case STATION:
        if (job->weather->station[0] == '\0')
            (void)dawn_text_copy(job->weather->station, sizeof job->weather->station, value);
        break;
    case STAMP:
        set_stamp(job, value, spot);
        break;
    case LIGHT_OFFSET:
        if (dawn_text_number(value, &end, &number) && fabs(number) <= 1.0)
            job->light_lead_s = number * 3600.0;
        break;
    case NO_KEY:
        break;
    }
}

/* "# key: value" or "key: value" in one line of text. */
static void read_colon(struct dawn_weather_job *job, size_t r, char *line)
{
    char *start = line + strspn(line, "# \t\"");
    char *colon = strchr(start, ':');
    if (!colon)
        return;
    *colon = '\0';
    char *value = colon + 1 + strspn(colon + 1, " \t,;");
    size_t size = strlen(value);
    while (size > 0 && strchr(" \t,;\"\r", value[size - 1]))
        value[--size] = '\0';
    dawn_weather_preamble_set(job, start, value, (struct dawn_weather_spot){r, 0});
}

/* A line of keys over a line of values. True when it was one. */
static bool read_pair(struct dawn_weather_job *job, size_t r)
{
    const struct dawn_csvrow *keys = &job->rows.row[r];
    int known = 0;
    for (size_t i = 0; i < keys->count; i++)
        known += key_of(keys->field[i]) != NO_KEY;
    if (known < 2 || r + 1 >= job->header)
        return false;
    const struct dawn_csvrow *values = &job->rows.row[r + 1];
    for (size_t i = 0; i < keys->count && i < values->count; i++)
        dawn_weather_preamble_set(job, keys->field[i], values->field[i],
                                  (struct dawn_weather_spot){r + 1, (int)i});
    return true;
}

void dawn_weather_preamble_read(struct dawn_weather_job *job)
{
    for (size_t r = 0; r < job->header; r++) {
        const struct dawn_csvrow *row = &job->rows.row[r];
        if (row->field[0][0] == '#' || row->count == 1) {
            char *line = dawn_csvrows_line(job->text, job->size, row->line);
            if (line)
                read_colon(job, r, line);
            free(line);
        } else if (read_pair(job, r)) {
            r++;
        } else {
            size_t key_size = strlen(row->field[0]);
            char key[64];
            (void)dawn_text_copy(key, sizeof key, row->field[0]);
            if (key_size > 0 && key_size < sizeof key && key[key_size - 1] == ':')
                key[key_size - 1] = '\0';
            if (row->field[1][0])
                dawn_weather_preamble_set(job, key, row->field[1],
                                          (struct dawn_weather_spot){r, 1});
        }
    }
}
