/* Civil dates and seconds, with a fixed offset from UTC; no time zone data, no locale. */
#ifndef BASE_CIVIL_H
#define BASE_CIVIL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct dawn_civil {
    int year, month, day; /* month 1..12, day 1..31 */
    int hour, minute, second;
    int weekday;     /* 0 = Monday */
    int day_of_year; /* 1..366 */
};
/* Days since 1970-01-01 of a proleptic Gregorian date. */
int64_t dawn_civil_days(int year, int month, int day);
bool dawn_civil_valid(int year, int month, int day);
/* A day as people type it, "2026-03-04", or "03-04" for every year (year 0). False, and nothing
 * written, when it is not that or no such day exists. */
bool dawn_civil_read_day(const char *text, int *year, int *month, int *day);
/* Seconds since 1970-01-01T00:00Z split into a date at an offset (h) from UTC, and back. */
struct dawn_civil dawn_civil_at(int64_t utc_s, double utc_offset_h);
int64_t dawn_civil_seconds(const struct dawn_civil *civil, double utc_offset_h);
/* "Mon", "Jan": never from the locale. weekday 0..6, month 1..12. */
const char *dawn_civil_weekday(int weekday);
const char *dawn_civil_month(int month);
/* "2026-03-12T06:20:00+01:00"; out has 26 bytes at least. */
void dawn_civil_iso(int64_t utc_s, double utc_offset_h, char out[32]);

#endif
