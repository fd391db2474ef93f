/* Civil dates and seconds, with a fixed offset from UTC; no time zone data, no locale. */
#include "base/civil.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"

enum { DAY_S = 86400, DAYS_400_YEARS = 146097 };

/* Division that rounds down, so that times before 1970 fall into the right day. */
static int64_t floor_div(int64_t a, int64_t b)
{
    const int64_t quotient = a / b;
    return a % b != 0 && (a < 0) != (b < 0) ? quotient - 1 : quotient;
}

static bool leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int month_days(int year, int month)
{
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return month == 2 && leap(year) ? 29 : days[month - 1];
}

/* Days of the years from 0000-03-01 on: a year that starts in March has its odd day last. */
int64_t dawn_civil_days(int year, int month, int day)
{
    const int64_t march_year = (int64_t)year - (month <= 2);
    const int64_t march_month = month > 2 ? month - 3 : month + 9;
    const int64_t in_year = (153 * march_month + 2) / 5 + day - 1;
    const int64_t leaps =
        floor_div(march_year, 4) - floor_div(march_year, 100) + floor_div(march_year, 400);
    return march_year * 365 + leaps + in_year - 719468; /* 0000-03-01 to 1970-01-01 */
}

bool dawn_civil_valid(int year, int month, int day)
{
    return month >= 1 && month <= 12 && day >= 1 && day <= month_days(year, month);
}

static int64_t offset_s(double utc_offset_h)
{
    return (int64_t)llround(utc_offset_h * 3600.0);
}

/* The inverse of dawn_civil_days. */
static void split_days(int64_t days, struct dawn_civil *civil)
{
    const int64_t since = days + 719468;
    const int64_t era = floor_div(since, DAYS_400_YEARS);
    const int64_t of_era = since - era * DAYS_400_YEARS;
    const int64_t year_of_era =
        (of_era - of_era / 1460 + of_era / 36524 - of_era / (DAYS_400_YEARS - 1)) / 365;
    const int64_t in_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    const int64_t march_month = (5 * in_year + 2) / 153;
    civil->day = (int)(in_year - (153 * march_month + 2) / 5 + 1);
    civil->month = (int)(march_month < 10 ? march_month + 3 : march_month - 9);
    civil->year = (int)(year_of_era + era * 400 + (civil->month <= 2));
    civil->day_of_year = (int)(days - dawn_civil_days(civil->year, 1, 1)) + 1;
    civil->weekday = (int)(days + 3 - floor_div(days + 3, 7) * 7); /* 1970-01-01: a Thursday */
}

bool dawn_civil_read_day(const char *text, int *year, int *month, int *day)
{
    const bool has_year = strlen(text) == 10;
    const char *rest = has_year ? text + 5 : text;

    if (strlen(rest) != 5 || rest[2] != '-' || (has_year && text[4] != '-'))
        return false;
    const int y = has_year ? dawn_text_digits(text, 4) : 0;
    const int m = dawn_text_digits(rest, 2);
    const int d = dawn_text_digits(rest + 3, 2);
    /* Without a year the day may be a leap day: 2000 had one. */
    if (y < 0 || m < 0 || d < 0 || (has_year && y == 0) ||
        !dawn_civil_valid(has_year ? y : 2000, m, d))
        return false;
    *year = y;
    *month = m;
    *day = d;
    return true;
}

struct dawn_civil dawn_civil_at(int64_t utc_s, double utc_offset_h)
{
    const int64_t local_s = utc_s + offset_s(utc_offset_h);
    const int64_t days = floor_div(local_s, DAY_S);
    const int second = (int)(local_s - days * DAY_S);
    struct dawn_civil civil = {
        .hour = second / 3600, .minute = second / 60 % 60, .second = second % 60};
    split_days(days, &civil);
    return civil;
}

int64_t dawn_civil_seconds(const struct dawn_civil *civil, double utc_offset_h)
{
    return dawn_civil_days(civil->year, civil->month, civil->day) * DAY_S +
           (int64_t)civil->hour * 3600 + (int64_t)civil->minute * 60 + civil->second -
           offset_s(utc_offset_h);
}

const char *dawn_civil_weekday(int weekday)
{
    static const char *const name[7] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    return weekday >= 0 && weekday < 7 ? name[weekday] : "?";
}

const char *dawn_civil_month(int month)
{
    static const char *const name[12] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                         "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    return month >= 1 && month <= 12 ? name[month - 1] : "?";
}

void dawn_civil_iso(int64_t utc_s, double utc_offset_h, char out[32])
{
    const struct dawn_civil at = dawn_civil_at(utc_s, utc_offset_h);
    const int offset_min = (int)lround(fabs(utc_offset_h) * 60.0);
    char whole[96]; /* room for years nobody will see, so that nothing is cut in the middle */
    (void)snprintf(whole, sizeof whole, "%04d-%02d-%02dT%02d:%02d:%02d%c%02d:%02d", at.year,
                   at.month, at.day, at.hour, at.minute, at.second, utc_offset_h < 0 ? '-' : '+',
                   offset_min / 60, offset_min % 60);
    (void)dawn_text_copy(out, 32, whole);
}
