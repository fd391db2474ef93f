/* What the weather tests share: a file written in the test, read, and what was said about it.
 * Include <cmocka.h> (and what it needs) before this file. */
#ifndef WEATHER_TRY_H
#define WEATHER_TRY_H

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/civil.h"
#include "base/text.h"
#include "dawnlow/weather.h"

struct weather_try {
    struct dawn_weather_hints hints;
    struct dawn_text text;
    struct dawn_weather weather;
    struct dawn_problems problems;
    enum dawn_status status;
};

/* Hints that know the place (45 N, 7 E, 500 m) and its zone, and leave the rest to the file. */
static inline struct weather_try try_begin(void)
{
    struct weather_try try = {.hints = {45.0, 7.0, 500.0, NAN, 1.0, -1, NULL}};
    return try;
}

static inline void try_read(struct weather_try *try)
{
    dawn_problems_release(&try->problems);
    try->status = dawn_weather_parse(&try->weather, "try.csv", try->text.data ? try->text.data : "",
                                     try->text.size, &try->hints, &try->problems);
}

static inline void try_end(struct weather_try *try)
{
    dawn_weather_release(&try->weather);
    dawn_problems_release(&try->problems);
    dawn_text_release(&try->text);
}

static inline void try_print(const struct weather_try *try)
{
    for (size_t i = 0; i < try->problems.count; i++)
        print_error("  %d %d:%d %s | %s\n", (int)try->problems.items[i].severity,
                    try->problems.items[i].line, try->problems.items[i].column,
                    try->problems.items[i].message,
                    try->problems.items[i].hint ? try->problems.items[i].hint : "");
}

static inline void try_read_well(struct weather_try *try)
{
    try_read(try);
    if (try->status != DAWN_OK)
        try_print(try);
    assert_int_equal(try->status, DAWN_OK);
    assert_true(try->weather.count > 0);
}

/* The first problem that says words, or NULL. */
static inline const struct dawn_problem *try_find(const struct weather_try *try, const char *words)
{
    for (size_t i = 0; i < try->problems.count; i++)
        if (strstr(try->problems.items[i].message, words))
            return &try->problems.items[i];
    return NULL;
}

static inline const struct dawn_problem *try_said(const struct weather_try *try,
                                                  enum dawn_severity severity, const char *words)
{
    const struct dawn_problem *found = try_find(try, words);
    if (!found) {
        print_error("nobody said \"%s\"\n", words);
        try_print(try);
    }
    assert_non_null(found);
    assert_int_equal(found->severity, severity);
    return found;
}

/* "2026-03-01 05:00" plus hours, in the file's own clock. */
static inline void try_stamp(char out[24], int year, int month, int day, long hours)
{
    struct dawn_civil civil =
        dawn_civil_at(dawn_civil_days(year, month, day) * 86400 + (int64_t)hours * 3600, 0.0);
    (void)snprintf(out, 24, "%04d-%02d-%02d %02d:%02d", civil.year, civil.month, civil.day,
                   civil.hour, civil.minute);
}

/* A smooth day: coldest about 5 h, warmest about 15 h (no measured data). */
static inline double try_air_C(long hour)
{
    return 6.0 - 5.0 * cos((double)(hour % 24 - 4) * 3.14159265358979 / 12.0);
}

/* header, then hourly rows "stamp,temperature" from 1 March 2026. */
static inline void try_hours(struct weather_try *try, const char *header, long hours)
{
    dawn_text_add(&try->text, "%s\n", header);
    for (long h = 0; h < hours; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&try->text, "%s,%.1f\n", stamp, try_air_C(h));
    }
}

#endif
