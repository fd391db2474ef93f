/* The way in: from a file or a text to complete hourly weather. */
#include "dawnlow/weather.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "physics/constants.h"
#include "weather/weather_stamp.h"

enum { MOST_MB = 256 };

static const struct dawn_weather_spot nowhere = {DAWN_WEATHER_NO_ROW, -1};

static bool starts_with(const struct dawn_weather_job *job, const char *bytes, size_t size)
{
    return job->size >= size && memcmp(job->text, bytes, size) == 0;
}

/* Files that are no CSV at all deserve to be told what they are. */
static bool is_csv(struct dawn_weather_job *job)
{
    const char *what = NULL;
    const char *hint = "export it as CSV";
    if (job->size == 0) {
        what = "the file is empty";
        hint = NULL;
    } else if (starts_with(job, "PK\3\4", 4)) {
        what = "this is a spreadsheet or zip file, not a CSV";
        hint = "open it and save the table as CSV";
    } else if (starts_with(job, "\xD0\xCF\x11\xE0", 4)) {
        what = "this is an old spreadsheet file, not a CSV";
    } else if (starts_with(job, "\x1F\x8B", 2)) {
        what = "this file is compressed";
        hint = "unpack it first (gunzip)";
    } else if (starts_with(job, "\xFF\xFE", 2) || starts_with(job, "\xFE\xFF", 2)) {
        what = "the text is in UTF-16";
        hint = "save it as CSV in UTF-8";
    } else if (starts_with(job, "{", 1) || starts_with(job, "[{", 2)) {
        what = "this is JSON, not a CSV";
    } else if (starts_with(job, "<", 1)) {
        what = "this is a web page or XML, not a CSV";
        hint = "the download may have failed; fetch it again as CSV";
    } else if (memchr(job->text, '\0', job->size)) {
        what = "the file holds binary data";
    }
    if (what)
        dawn_weather_say(job, DAWN_WEATHER_SAY_FILE, DAWN_ERROR, nowhere, hint, "%s", what);
    return !what;
}

static bool blank_text(const struct dawn_weather_job *job)
{
    for (size_t i = 0; i < job->size; i++)
        if (!strchr(" \t\r\n", job->text[i]))
            return false;
    return true;
}

struct layout {
    bool (*matches)(const struct dawn_weather_job *job);
    void (*prepare)(struct dawn_weather_job *job);
};

/* A layout is known by its header; what the preamble says in any file is read for all of them. */
static void wear_layout(struct dawn_weather_job *job)
{
    static const struct layout layouts[] = {
        {dawn_weather_tmy3_matches, dawn_weather_tmy3_prepare},
        {dawn_weather_nsrdb_matches, dawn_weather_nsrdb_prepare},
        {dawn_weather_pvgis_matches, dawn_weather_pvgis_prepare},
        {dawn_weather_eccc_matches, dawn_weather_eccc_prepare}};
    (void)dawn_text_copy(job->weather->layout, sizeof job->weather->layout, "general columns");
    for (size_t i = 0; i < sizeof layouts / sizeof layouts[0]; i++)
        if (layouts[i].matches(job)) {
            layouts[i].prepare(job);
            break;
        }
}

/* Great-circle distance, km (haversine). */
static double distance_km(double lat_a, double lon_a, double lat_b, double lon_b)
{
    double s = sin((lat_b - lat_a) * PHYSICS_RADIANS / 2.0);
    double t = sin((lon_b - lon_a) * PHYSICS_RADIANS / 2.0);
    double h = s * s + cos(lat_a * PHYSICS_RADIANS) * cos(lat_b * PHYSICS_RADIANS) * t * t;
    return 2.0 * 6371.0 * asin(sqrt(fmin(1.0, h)));
}

/* An hour of sun, or its height by this much: such weather belongs to another place's days. */
static const double other_sun_deg = 15.0;

/* The file's own place counts for its light; the site's stands in, and they should be near. */
static void settle_place(struct dawn_weather_job *job)
{
    struct dawn_weather *weather = job->weather;
    const struct dawn_weather_hints *hints = job->hints;
    bool known = !isnan(weather->latitude_deg) && !isnan(weather->longitude_deg);
    bool site_known = !isnan(hints->latitude_deg) && !isnan(hints->longitude_deg);
    if (known && site_known) {
        double apart = distance_km(weather->latitude_deg, weather->longitude_deg,
                                   hints->latitude_deg, hints->longitude_deg);
        bool other_sun = fabs(weather->latitude_deg - hints->latitude_deg) > other_sun_deg ||
                         fabs(weather->longitude_deg - hints->longitude_deg) > other_sun_deg;
        if (other_sun)
            dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_ERROR, nowhere,
                             "mixed up N and S, or E and W? else give the site the place and zone "
                             "of its weather, or take weather from nearer",
                             "the weather is from %.2f N %.2f E, %.0f km from the site at %.2f N "
                             "%.2f E: another sun, so days and nights would not fit",
                             weather->latitude_deg, weather->longitude_deg, apart,
                             hints->latitude_deg, hints->longitude_deg);
        else if (apart > 100.0)
            dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_WARNING, nowhere, NULL,
                             "the weather is from a place %.0f km away from the site, at %.2f N "
                             "%.2f E",
                             apart, weather->latitude_deg, weather->longitude_deg);
    }
    double higher = weather->elevation_m - hints->elevation_m;
    if (fabs(higher) > 200.0)
        dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_WARNING, nowhere, NULL,
                         "the weather is from a place %.0f m %s than the site; air there is about "
                         "%.0f K %s",
                         fabs(higher), higher > 0.0 ? "higher" : "lower", fabs(higher) * 0.0065,
                         higher > 0.0 ? "colder" : "warmer");
    if (!known) {
        weather->latitude_deg = hints->latitude_deg;
        weather->longitude_deg = hints->longitude_deg;
    }
    if (isnan(weather->elevation_m))
        weather->elevation_m = hints->elevation_m;
}

static void settle_stamp(struct dawn_weather_job *job)
{
    struct dawn_weather *weather = job->weather;
    int hint = job->hints->stamp;
    bool light = job->column[DAWN_WEATHER_GHI].index >= 0 ||
                 job->column[DAWN_WEATHER_DNI].index >= 0 ||
                 job->column[DAWN_WEATHER_DHI].index >= 0;
    if (weather->stamp_from_file) {
        if (hint >= 0 && hint != (int)weather->stamp && light)
            dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_WARNING, nowhere, NULL,
                             "the scenario says a stamp means \"%s\", the file says \"%s\"; the "
                             "file is believed",
                             dawn_weather_stamp_words((enum dawn_stamp)hint),
                             dawn_weather_stamp_words(weather->stamp));
        return;
    }
    if (hint >= 0 && hint <= DAWN_STAMP_MEAN_AROUND) {
        weather->stamp = (enum dawn_stamp)hint;
        return;
    }
    weather->stamp = light ? DAWN_STAMP_MEAN_BEFORE : DAWN_STAMP_INSTANT;
    if (light)
        dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_NOTE, nowhere,
                         "say weather.stamp in the scenario if it is the hour after or around",
                         "the file does not say which hour a radiation value belongs to; taken as "
                         "the mean of the hour before its stamp");
}

static void release_readings(struct dawn_weather_readings *readings)
{
    free(readings->parts);
    free(readings->stamp_s);
    free(readings->row);
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
        free(readings->value[q]);
    memset(readings, 0, sizeof *readings);
}

/* Header and preamble; the rows are only worth reading when these make sense. */
static bool understand(struct dawn_weather_job *job)
{
    if (!is_csv(job))
        return false;
    if (blank_text(job)) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_FILE, DAWN_ERROR, nowhere, NULL,
                         "the file holds nothing but blank lines");
        return false;
    }
    if (!dawn_weather_columns_open(job))
        return false;
    dawn_weather_columns_map(job);
    wear_layout(job);
    dawn_weather_preamble_read(job);
    dawn_weather_columns_units(job);
    settle_place(job);
    settle_stamp(job);
    return !job->no_memory;
}

static void run(struct dawn_weather_job *job)
{
    if (!understand(job))
        return;
    dawn_weather_stamp_plan(job);
    dawn_weather_stamp_read(job);
    if (job->no_memory || job->readings.count == 0 || job->column[DAWN_WEATHER_AIR].index < 0)
        return;
    dawn_weather_values_read(job);
    if (job->no_memory)
        return;
    if (dawn_weather_failed(job)) { /* the order is still worth a look */
        dawn_weather_order(job);
        return;
    }
    dawn_weather_mend(job);
    if (dawn_weather_failed(job))
        return;
    dawn_weather_clock_check(job);
    if (!dawn_weather_failed(job))
        dawn_weather_fill(job);
}

enum dawn_status dawn_weather_parse(struct dawn_weather *weather, const char *name,
                                    const char *text, size_t size,
                                    const struct dawn_weather_hints *hints,
                                    struct dawn_problems *problems)
{
    static const struct dawn_weather_hints no_hints = {NAN, NAN, NAN, NAN, NAN, -1, NULL};
    struct dawn_weather_job job = {.name = name,
                                   .text = text,
                                   .size = size,
                                   .hints = hints ? hints : &no_hints,
                                   .problems = problems,
                                   .weather = weather,
                                   .errors_before = problems->errors,
                                   .zone_h = NAN};
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
        job.column[q].index = -1;
    dawn_weather_release(weather);
    (void)dawn_text_copy(weather->path, sizeof weather->path, name);
    weather->latitude_deg = weather->longitude_deg = weather->elevation_m = NAN;
    run(&job);
    dawn_weather_say_rest(&job);
    bool failed = dawn_weather_failed(&job);
    dawn_weather_hours_release(&job.hours);
    release_readings(&job.readings);
    dawn_csvrows_release(&job.rows);
    if (failed)
        dawn_weather_release(weather);
    if (job.no_memory)
        return DAWN_ERR_NOMEM;
    return failed ? DAWN_ERR_WEATHER : DAWN_OK;
}

enum dawn_status dawn_weather_read(struct dawn_weather *weather, const char *path,
                                   const struct dawn_weather_hints *hints,
                                   struct dawn_problems *problems)
{
    size_t size = 0;
    char *text = dawn_text_read_file(path, (size_t)MOST_MB * 1024 * 1024, &size);
    if (!text) {
        int reason = errno;
        struct dawn_place_in_file place = {path, 0, 0, NULL};
        if (reason == ENOMEM)
            return DAWN_ERR_NOMEM;
        if (reason == EFBIG)
            dawn_problems_add(problems, DAWN_ERROR, place, "cut out the months you need",
                              "the weather file is larger than %d MB", MOST_MB);
        else
            dawn_problems_add(problems, DAWN_ERROR, place,
                              reason == ENOENT ? "check the name and the folder" : NULL,
                              "the weather file cannot be read: %s", strerror(reason));
        return DAWN_ERR_IO;
    }
    enum dawn_status status = dawn_weather_parse(weather, path, text, size, hints, problems);
    free(text);
    return status;
}

void dawn_weather_release(struct dawn_weather *weather)
{
    if (!weather)
        return;
    free(weather->air_C);
    free(weather->dew_C);
    free(weather->wind_m_s);
    free(weather->pressure_Pa);
    free(weather->cloud);
    free(weather->longwave_W_m2);
    free(weather->snow_m);
    free(weather->ghi_W_m2);
    free(weather->dni_W_m2);
    free(weather->dhi_W_m2);
    memset(weather, 0, sizeof *weather);
}

const char *dawn_weather_stamp_words(enum dawn_stamp stamp)
{
    switch (stamp) {
    case DAWN_STAMP_INSTANT:
        return "instant";
    case DAWN_STAMP_MEAN_BEFORE:
        return "mean of the hour before the stamp";
    case DAWN_STAMP_MEAN_AFTER:
        return "mean of the hour after the stamp";
    case DAWN_STAMP_MEAN_AROUND:
        return "mean of the hour around the stamp";
    }
    return "unknown";
}

const char *dawn_weather_source_words(enum dawn_weather_source source)
{
    switch (source) {
    case DAWN_FROM_FILE:
        return "from the file";
    case DAWN_FROM_DEW_POINT:
        return "from the dew point in the file";
    case DAWN_FROM_CLOUD:
        return "from clear sky and cloud cover";
    case DAWN_FROM_RANGE:
        return "from the daily range of temperature";
    case DAWN_FROM_LIGHT:
        return "from the daylight, carried through the night";
    case DAWN_FROM_SPLIT:
        return "split from the global light";
    case DAWN_FROM_SKY_MODEL:
        return "from air temperature, dew point and cloud";
    case DAWN_FROM_DEFAULT:
        return "assumed";
    }
    return "unknown";
}
