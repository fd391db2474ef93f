/* Time stamps as text: what is written, before anyone decides what it means. */
#ifndef WEATHER_WEATHER_STAMP_H
#define WEATHER_WEATHER_STAMP_H

#include "weather/weather_job.h"

struct dawn_weather_parts {
    int16_t year, month, day; /* month, day: as first guessed when undecided */
    int16_t hour, minute, second;
    bool has_date, has_time, has_offset;
    bool undecided; /* 1/2/2026: month = first number, day = second number */
    bool unix_time;
    float offset_h;
    int64_t unix_s;
};

/* Reads "2026-03-12T05:00Z", "20260312:0500", "12.03.2026 5:00", "3/12/2026 5:00 PM",
 * "01-jan-1987 00:00", "2026031205" ... False when it is not a stamp. Ranges are not judged. */
bool dawn_weather_stamp_scan(const char *text, struct dawn_weather_parts *parts);
/* "+01:00", "-5", "+1 h", "UTC", "Z", "GMT-07:00" -> hours; false when it is none of these. */
bool dawn_weather_stamp_offset(const char *text, double *offset_h);
/* Reads the stamps of all data rows into job->readings, which it makes. */
void dawn_weather_stamp_read(struct dawn_weather_job *job);
/* Chooses between the columns that could make a stamp by what the rows hold. */
void dawn_weather_stamp_plan(struct dawn_weather_job *job);
/* The seconds of parts whose ranges are good, at an offset. */
int64_t dawn_weather_stamp_seconds(const struct dawn_weather_parts *parts, double offset_h);

#endif
