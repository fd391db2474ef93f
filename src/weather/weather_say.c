/* One voice for everything this room finds: place, source line, and a limit for each kind, because
 * a year of one mistake is 8,760 messages nobody reads. */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/civil.h"
#include "base/text.h"
#include "weather/weather_job.h"

/* Length of the UTF-8 character at s, 0 when it is none. */
static size_t character_length(const unsigned char *s)
{
    size_t length = s[0] < 0x80 ? 1 : s[0] >= 0xF0 ? 4 : s[0] >= 0xE0 ? 3 : 2;
    if (s[0] >= 0xF5 || (s[0] >= 0x80 && s[0] < 0xC2))
        return 0;
    for (size_t i = 1; i < length; i++)
        if ((s[i] & 0xC0) != 0x80)
            return 0;
    return length;
}

/* Files come in any encoding; what reaches the terminal must be printable UTF-8. */
static void make_printable(char *text)
{
    unsigned char *s = (unsigned char *)text;
    while (*s) {
        size_t length = character_length(s);
        if (length == 0 || *s == 0x7F || (*s < 0x20 && *s != '\t')) {
            *s = '?';
            length = 1;
        }
        s += length;
    }
}

void dawn_weather_say(struct dawn_weather_job *job, enum dawn_weather_kind kind,
                      enum dawn_severity severity, struct dawn_weather_spot spot, const char *hint,
                      const char *format, ...)
{
    const struct dawn_csvrow *row = spot.row < job->rows.count ? &job->rows.row[spot.row] : NULL;
    int line = row ? row->line : 0;
    if (job->said[kind] >= DAWN_WEATHER_SAY_MOST) {
        struct dawn_weather_unsaid *unsaid = &job->unsaid[kind];
        if (unsaid->count++ == 0)
            unsaid->line = line;
        if (unsaid->count == 1 || severity < unsaid->severity)
            unsaid->severity = severity;
        return;
    }
    job->said[kind]++;
    va_list arguments;
    va_start(arguments, format);
    char *message = dawn_text_format(format, arguments);
    va_end(arguments);
    if (message)
        make_printable(message);
    char *source = row ? dawn_csvrows_line(job->text, job->size, line) : NULL;
    if (source)
        make_printable(source);
    struct dawn_place_in_file place = {job->name, line, 0, source};
    if (row && spot.field >= 0 && (size_t)spot.field < row->count)
        place.column =
            dawn_csvrows_column(&job->rows, job->text, job->size, spot.row, (size_t)spot.field);
    dawn_problems_add(job->problems, severity, place, hint, "%s",
                      message ? message : "there is no memory left to say what is wrong here");
    free(message);
    free(source);
}

void dawn_weather_say_rest(struct dawn_weather_job *job)
{
    for (int kind = 0; kind < DAWN_WEATHER_KINDS; kind++) {
        const struct dawn_weather_unsaid *unsaid = &job->unsaid[kind];
        if (unsaid->count == 0)
            continue;
        struct dawn_place_in_file place = {job->name, unsaid->line, 0, NULL};
        dawn_problems_add(job->problems, unsaid->severity, place, NULL,
                          "and %zu more of this kind from here on", unsaid->count);
    }
}

bool dawn_weather_failed(const struct dawn_weather_job *job)
{
    if (job->no_memory || job->problems->errors > job->errors_before)
        return true;
    for (int kind = 0; kind < DAWN_WEATHER_KINDS; kind++)
        if (job->unsaid[kind].count && job->unsaid[kind].severity == DAWN_ERROR)
            return true;
    return false;
}

const char *dawn_weather_quantity_words(enum dawn_weather_quantity quantity)
{
    static const char *const words[DAWN_WEATHER_QUANTITIES] = {
        [DAWN_WEATHER_AIR] = "air temperature",
        [DAWN_WEATHER_DEW] = "dew point",
        [DAWN_WEATHER_HUMIDITY] = "relative humidity",
        [DAWN_WEATHER_WIND] = "wind speed",
        [DAWN_WEATHER_GHI] = "global radiation",
        [DAWN_WEATHER_DHI] = "diffuse radiation",
        [DAWN_WEATHER_DNI] = "direct normal radiation",
        [DAWN_WEATHER_CLOUD] = "cloud cover",
        [DAWN_WEATHER_LONGWAVE] = "long-wave radiation",
        [DAWN_WEATHER_PRESSURE] = "air pressure",
        [DAWN_WEATHER_SNOW] = "snow depth",
    };
    return words[quantity];
}

void dawn_weather_say_time(const struct dawn_weather_job *job, int64_t utc_s, char out[24])
{
    struct dawn_civil civil = dawn_civil_at(utc_s, job->weather->utc_offset_h);
    (void)snprintf(out, 24, "%04d-%02d-%02d %02d:%02d", civil.year % 10000, civil.month, civil.day,
                   civil.hour, civil.minute);
}
