/* Time stamps: the many ways to write one, and the one instant it means. */
#include "weather/weather_stamp.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/civil.h"
#include "base/text.h"

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool blank(char c)
{
    return c == ' ' || c == '\t';
}

/* Reads a run of at most 14 digits; returns how many, 0 = none or too many. */
static int digits(const char **s, int64_t *value)
{
    int count = 0;
    *value = 0;
    while (digit(**s) && count < 15) {
        *value = *value * 10 + (**s - '0');
        (*s)++;
        count++;
    }
    return count < 15 ? count : 0;
}

static int month_name(const char **s)
{
    static const char names[12][4] = {"jan", "feb", "mar", "apr", "may", "jun",
                                      "jul", "aug", "sep", "oct", "nov", "dec"};
    for (int m = 0; m < 12; m++)
        if (dawn_text_starts(*s, names[m])) {
            while ((**s >= 'a' && **s <= 'z') || (**s >= 'A' && **s <= 'Z') || **s == '.')
                (*s)++;
            return m + 1;
        }
    return 0;
}

static int16_t full_year(int64_t year, int count)
{
    if (count == 2)
        return (int16_t)(year < 70 ? 2000 + year : 1900 + year);
    return (int16_t)year;
}

/* YYYYMMDD[HH[MM[SS]]] and seconds since 1970, told apart by the year they would give. */
static bool packed_date(int64_t number, int count, struct dawn_weather_parts *parts)
{
    if (count == 10 && number < 1900000000 && number >= 300000000) {
        parts->unix_time = parts->has_date = parts->has_time = true;
        parts->unix_s = number;
        return true;
    }
    if (count == 14) {
        parts->second = (int16_t)(number % 100);
        number /= 100;
    }
    if (count >= 12) {
        parts->minute = (int16_t)(number % 100);
        number /= 100;
    }
    if (count >= 10) {
        parts->hour = (int16_t)(number % 100);
        parts->has_time = true;
        number /= 100;
    }
    parts->year = (int16_t)(number / 10000);
    parts->month = (int16_t)(number / 100 % 100);
    parts->day = (int16_t)(number % 100);
    parts->has_date = true;
    return true;
}

/* The rest of a date whose first number is read and whose separator stands at *s. */
static bool split_date(const char **s, int64_t first, int first_count,
                       struct dawn_weather_parts *parts)
{
    char mark = **s;
    int64_t second = 0;
    int64_t third = 0;
    (*s)++;
    int named = digit(**s) ? 0 : month_name(s);
    int second_count = named ? 2 : digits(s, &second);
    if (second_count < 1 || second_count > 2 || **s != mark)
        return false;
    (*s)++;
    int third_count = digits(s, &third);
    if (named)
        second = named;
    parts->has_date = true;
    if (first_count == 4) {
        parts->year = (int16_t)first;
        parts->month = (int16_t)second;
        parts->day = (int16_t)third;
        return third_count >= 1 && third_count <= 2;
    }
    parts->year = full_year(third, third_count);
    /* dots are written by people who put the day first; so are named months */
    bool day_first = named || mark == '.';
    parts->undecided = !day_first;
    parts->day = (int16_t)(day_first ? first : second);
    parts->month = (int16_t)(day_first ? second : first);
    return first_count <= 2 && (third_count == 2 || third_count == 4);
}

static bool scan_date(const char **s, struct dawn_weather_parts *parts)
{
    int64_t first = 0;
    int count = digits(s, &first);
    if (count == 8 || count == 10 || count == 12 || count == 14)
        return packed_date(first, count, parts);
    if ((count == 1 || count == 2 || count == 4) && (**s == '-' || **s == '/' || **s == '.'))
        return split_date(s, first, count, parts);
    return false;
}

/* The seconds and their fraction behind "HH:MM". */
static bool scan_seconds(const char **s, struct dawn_weather_parts *parts)
{
    int64_t number = 0;
    if (**s != ':')
        return true;
    (*s)++;
    int count = digits(s, &number);
    if (count != 2)
        return false;
    parts->second = (int16_t)number;
    if (**s == '.' || **s == ',') {
        (*s)++;
        while (digit(**s))
            (*s)++;
    }
    return true;
}

static bool scan_clock(const char **s, struct dawn_weather_parts *parts)
{
    int64_t number = 0;
    int count = digits(s, &number);
    if (count < 1 || count > 6 || count == 5)
        return false;
    parts->has_time = true;
    if (count == 6) {
        parts->second = (int16_t)(number % 100);
        number /= 100;
    }
    if (count >= 3) {
        parts->hour = (int16_t)(number / 100);
        parts->minute = (int16_t)(number % 100);
        return true;
    }
    parts->hour = (int16_t)number;
    if (**s != ':')
        return true;
    (*s)++;
    count = digits(s, &number);
    if (count != 2)
        return false;
    parts->minute = (int16_t)number;
    return scan_seconds(s, parts);
}

/* AM and PM; false when the hour does not suit them. */
static bool scan_half_day(const char **s, struct dawn_weather_parts *parts)
{
    bool am = dawn_text_starts(*s, "AM") || dawn_text_starts(*s, "a.m.");
    bool pm = dawn_text_starts(*s, "PM") || dawn_text_starts(*s, "p.m.");
    if (!am && !pm)
        return true;
    *s += (*s)[1] == '.' ? 4 : 2;
    if (!parts->has_time || parts->hour < 1 || parts->hour > 12)
        return false;
    parts->hour = (int16_t)(parts->hour % 12 + (pm ? 12 : 0));
    return true;
}

bool dawn_weather_stamp_offset(const char *text, double *offset_h)
{
    const char *s = text;
    while (blank(*s))
        s++;
    bool named = false;
    if (dawn_text_starts(s, "UTC") || dawn_text_starts(s, "GMT")) {
        named = true;
        s += 3;
    } else if (*s == 'Z' || *s == 'z') {
        named = true;
        s++;
    }
    while (blank(*s))
        s++;
    *offset_h = 0.0;
    if (*s == '\0')
        return named;
    double sign = *s == '-' ? -1.0 : 1.0;
    if (*s == '+' || *s == '-')
        s++;
    else if (named)
        return false;
    int64_t hours = 0;
    int64_t minutes = 0;
    int count = digits(&s, &hours);
    if (count == 4) {
        minutes = hours % 100;
        hours /= 100;
    } else if (count < 1 || count > 2) {
        return false;
    } else if (*s == ':') {
        s++;
        if (digits(&s, &minutes) != 2)
            return false;
    }
    double fraction = 0.0;
    if (*s == '.' && digit(s[1])) {
        double place = 0.1;
        for (s++; digit(*s); s++) {
            fraction += (*s - '0') * place;
            place /= 10.0;
        }
    }
    while (blank(*s))
        s++;
    if (*s == 'h' || *s == 'H')
        s++;
    *offset_h = sign * ((double)hours + (double)minutes / 60.0 + fraction);
    return *s == '\0' && minutes < 60 && fabs(*offset_h) <= 14.0;
}

static void skip_blanks(const char **s)
{
    while (blank(**s))
        (*s)++;
}

/* The minutes behind an hour that was packed with its date: "2023021005:20". */
static bool scan_packed_minute(const char **s, struct dawn_weather_parts *parts)
{
    int64_t minute = 0;
    if (**s != ':')
        return true;
    (*s)++;
    parts->minute = (int16_t)(digits(s, &minute) == 2 ? minute : 99);
    return parts->has_time && minute < 60;
}

static bool scan_date_and_clock(const char **s, struct dawn_weather_parts *parts)
{
    if (!scan_date(s, parts))
        return false;
    if (parts->has_time)
        return scan_packed_minute(s, parts);
    if (**s != '\0' && strchr("Tt:_,", **s))
        (*s)++;
    skip_blanks(s);
    return !digit(**s) || scan_clock(s, parts);
}

bool dawn_weather_stamp_scan(const char *text, struct dawn_weather_parts *parts)
{
    const char *s = text;
    *parts = (struct dawn_weather_parts){0};
    skip_blanks(&s);
    size_t leading = strspn(s, "0123456789");
    /* "05:00" and "5" are times; "20260312:0500" and "2026-03-12 05:00" begin with a date */
    bool clock_only = leading > 0 && leading <= 4 && (s[leading] == ':' || s[leading] == '\0');
    if (!(clock_only ? scan_clock(&s, parts) : scan_date_and_clock(&s, parts)))
        return false;
    skip_blanks(&s);
    if (*s == '\0')
        return true;
    if (!scan_half_day(&s, parts))
        return false;
    skip_blanks(&s);
    if (*s == '\0')
        return true;
    double offset = 0.0;
    parts->has_offset = dawn_weather_stamp_offset(s, &offset);
    parts->offset_h = (float)offset;
    return parts->has_offset;
}

int64_t dawn_weather_stamp_seconds(const struct dawn_weather_parts *parts, double offset_h)
{
    if (parts->unix_time)
        return parts->unix_s;
    double offset = parts->has_offset ? (double)parts->offset_h : offset_h;
    int64_t minutes = (int64_t)parts->hour * 60 + parts->minute;
    return dawn_civil_days(parts->year, parts->month, parts->day) * 86400 + minutes * 60 +
           parts->second - (int64_t)llround(offset * 3600.0);
}

/* ---- which columns make the stamp ---------------------------------------------------------- */

static const char *cell(const struct dawn_csvrow *row, int index)
{
    return index >= 0 && (size_t)index < row->count ? row->field[index] : "";
}

void dawn_weather_stamp_plan(struct dawn_weather_job *job)
{
    struct dawn_weather_when *when = &job->when;
    if (job->first >= job->end)
        return;
    const struct dawn_csvrow *row = &job->rows.row[job->first];
    struct dawn_weather_parts parts;
    bool parted = when->year >= 0 && when->month >= 0 && when->day >= 0;
    if (when->whole >= 0)
        return;
    if (when->date >= 0 && dawn_weather_stamp_scan(cell(row, when->date), &parts) &&
        parts.has_date && parts.has_time) {
        when->whole = when->date;
        return;
    }
    if (when->time >= 0 && dawn_weather_stamp_scan(cell(row, when->time), &parts) &&
        parts.has_date && (parts.has_time || (when->date < 0 && !parted))) {
        when->whole = when->time;
        return;
    }
    if (when->date >= 0 && when->time < 0 && when->hour < 0)
        when->whole = when->date; /* a daily file; the rows will say so */
}

/* The zone a header text names: "Date Time, GMT-07:00", "time(UTC)". */
static void zone_from_header(struct dawn_weather_job *job)
{
    const struct dawn_csvrow *header = &job->rows.row[job->header];
    const int candidates[] = {job->when.whole, job->when.time, job->when.date, job->when.hour};
    for (size_t i = 0; i < sizeof candidates / sizeof candidates[0]; i++) {
        char name[64];
        char unit[64];
        double offset = 0.0;
        if (candidates[i] < 0)
            continue;
        const char *text = cell(header, candidates[i]);
        dawn_weather_columns_plain(text, name, unit);
        size_t size = strlen(name);
        if (dawn_weather_stamp_offset(unit, &offset) && (unit[0] < '0' || unit[0] > '9'))
            job->zone_h = offset;
        else if (strcmp(name, "utc") == 0 || (size > 4 && strcmp(name + size - 4, " utc") == 0))
            job->zone_h = 0.0;
        job->local_standard = job->local_standard || dawn_text_same(unit, "LST");
        job->month_first = job->month_first || dawn_text_starts(unit, "MM/DD");
        job->day_first = job->day_first || dawn_text_starts(unit, "DD/MM");
    }
}

/* ---- one row ------------------------------------------------------------------------------- */

static bool read_number(const char *text, int16_t *out)
{
    int64_t number = 0;
    const char *s = text;
    int count = digits(&s, &number);
    if (count < 1 || count > 4)
        return false;
    if (s[0] == '.' && strspn(s + 1, "0") == strlen(s + 1)) /* "3.0" from a spreadsheet */
        s += strlen(s);
    *out = (int16_t)number;
    return *s == '\0';
}

/* Year, month and day from columns of their own; *bad = the column that holds no number. */
static bool date_columns(const struct dawn_weather_when *when, const struct dawn_csvrow *row,
                         struct dawn_weather_parts *parts, int *bad)
{
    const int index[3] = {when->year, when->month, when->day};
    int16_t *const slot[3] = {&parts->year, &parts->month, &parts->day};
    for (int i = 0; i < 3; i++)
        if (!read_number(cell(row, index[i]), slot[i])) {
            *bad = index[i];
            return false;
        }
    parts->has_date = true;
    return true;
}

static bool hour_columns(const struct dawn_weather_when *when, const struct dawn_csvrow *row,
                         struct dawn_weather_parts *parts, int *bad)
{
    struct dawn_weather_parts clock;
    *bad = when->time >= 0 ? when->time : when->hour;
    if (when->time >= 0) {
        if (!dawn_weather_stamp_scan(cell(row, when->time), &clock) || !clock.has_time ||
            clock.has_date)
            return false;
        parts->hour = clock.hour;
        parts->minute = clock.minute;
        parts->second = clock.second;
        parts->has_time = true;
        return true;
    }
    if (when->hour < 0)
        return true; /* no time at all: said by the caller */
    /* "5", but also "05:00" */
    if (!dawn_weather_stamp_scan(cell(row, when->hour), &clock) || !clock.has_time)
        return false;
    parts->hour = clock.hour;
    parts->minute = clock.minute;
    parts->has_time = true;
    *bad = when->minute;
    return when->minute < 0 || read_number(cell(row, when->minute), &parts->minute);
}

static bool row_parts(const struct dawn_weather_job *job, const struct dawn_csvrow *row,
                      struct dawn_weather_parts *parts, int *bad)
{
    const struct dawn_weather_when *when = &job->when;
    *bad = when->whole;
    if (when->whole >= 0)
        return dawn_weather_stamp_scan(cell(row, when->whole), parts) && parts->has_date;
    *bad = when->date;
    if (when->date >= 0) {
        if (!dawn_weather_stamp_scan(cell(row, when->date), parts) || !parts->has_date)
            return false;
    } else {
        *parts = (struct dawn_weather_parts){0};
        if (!date_columns(when, row, parts, bad))
            return false;
    }
    return hour_columns(when, row, parts, bad);
}

static bool refuse_parts(struct dawn_weather_job *job, struct dawn_weather_spot spot,
                         const struct dawn_weather_parts *parts)
{
    if (parts->unix_time)
        return false;
    if (!parts->has_time) {
        job->daily = true; /* said once; the rows are not read on */
        dawn_weather_say(job, DAWN_WEATHER_SAY_STAMP, DAWN_ERROR, spot,
                         "night lows need hourly values; look for an hourly export",
                         "the stamp holds a date but no time of day");
        return true;
    }
    bool turned = parts->undecided && parts->month > 12 && parts->month <= 31;
    if (!dawn_civil_valid(parts->year, turned ? parts->day : parts->month,
                          turned ? parts->month : parts->day) ||
        parts->year < 1850) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_DATE, DAWN_ERROR, spot, NULL,
                         "there is no such date: year %d, month %d, day %d", parts->year,
                         parts->month, parts->day);
        return true;
    }
    bool midnight = parts->hour == 24 && parts->minute == 0 && parts->second == 0;
    if ((parts->hour > 23 && !midnight) || parts->minute > 59 || parts->second > 59) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_STAMP, DAWN_ERROR, spot,
                         "hours go from 00:00 to 23:59; 24:00 is midnight at the end of the day",
                         "there is no such time of day: %02d:%02d:%02d", parts->hour, parts->minute,
                         parts->second);
        return true;
    }
    return false;
}

/* ---- day before month, or month before day -------------------------------------------------- */

static void turn(struct dawn_weather_parts *parts)
{
    int16_t month = parts->month;
    parts->month = parts->day;
    parts->day = month;
}

/* How many rows follow the one before within two hours, in one reading of the dates. */
static size_t steady_steps(const struct dawn_weather_readings *readings, bool day_first)
{
    size_t steady = 0;
    int64_t before = INT64_MIN;
    for (size_t i = 0; i < readings->count; i++) {
        struct dawn_weather_parts parts = readings->parts[i];
        if (parts.undecided && day_first)
            turn(&parts);
        int64_t now = dawn_weather_stamp_seconds(&parts, 0.0);
        int64_t step = before == INT64_MIN ? 0 : now > before ? now - before : before - now;
        steady += step > 0 && step <= 7200;
        before = now;
    }
    return steady;
}

enum { FIRST_OVER_12 = 1, SECOND_OVER_12 = 2 };

/* Which of the two numbers goes beyond 12, and where that was seen first. */
static int orders_seen(const struct dawn_weather_readings *readings, size_t seen_at[2])
{
    int seen = 0;
    for (size_t i = 0; i < readings->count; i++) {
        const struct dawn_weather_parts *parts = &readings->parts[i];
        if (!parts->undecided)
            continue;
        if (parts->month > 12 && !(seen & FIRST_OVER_12)) {
            seen |= FIRST_OVER_12;
            seen_at[0] = i;
        }
        if (parts->day > 12 && !(seen & SECOND_OVER_12)) {
            seen |= SECOND_OVER_12;
            seen_at[1] = i;
        }
    }
    return seen;
}

static void refuse_mixed_order(struct dawn_weather_job *job, const size_t seen_at[2])
{
    const struct dawn_weather_readings *readings = &job->readings;
    size_t later = seen_at[0] > seen_at[1] ? seen_at[0] : seen_at[1];
    size_t earlier = seen_at[0] > seen_at[1] ? seen_at[1] : seen_at[0];
    int column = job->when.whole >= 0 ? job->when.whole : job->when.date;
    dawn_weather_say(job, DAWN_WEATHER_SAY_DATE, DAWN_ERROR,
                     (struct dawn_weather_spot){readings->row[later], column},
                     "write all dates one way, best as 2026-03-12",
                     "day and month change places: line %d can only be %s first, this line only "
                     "%s first",
                     job->rows.row[readings->row[earlier]].line,
                     earlier == seen_at[0] ? "day" : "month",
                     later == seen_at[0] ? "day" : "month");
}

/* Decides how 1/2/2026 is meant and puts all dates right. False when it cannot be told. */
static bool settle_order(struct dawn_weather_job *job)
{
    struct dawn_weather_readings *readings = &job->readings;
    size_t seen_at[2] = {0, 0};
    size_t undecided = 0;
    for (size_t i = 0; i < readings->count; i++)
        undecided += readings->parts[i].undecided;
    if (undecided == 0)
        return true;
    int seen = orders_seen(readings, seen_at);
    bool day_first = job->day_first || seen == FIRST_OVER_12;
    bool month_first = job->month_first || seen == SECOND_OVER_12;
    if (seen == (FIRST_OVER_12 | SECOND_OVER_12)) {
        refuse_mixed_order(job, seen_at);
        return false;
    }
    if (!day_first && !month_first) {
        size_t as_days = steady_steps(readings, true);
        size_t as_months = steady_steps(readings, false);
        day_first = as_days > as_months;
        month_first = as_months > as_days;
    }
    if (day_first == month_first) {
        int column = job->when.whole >= 0 ? job->when.whole : job->when.date;
        dawn_weather_say(job, DAWN_WEATHER_SAY_DATE, DAWN_ERROR,
                         (struct dawn_weather_spot){readings->row[0], column},
                         "write the dates as 2026-03-12, or say DD/MM/YYYY or MM/DD/YYYY in the "
                         "header: \"Date (DD/MM/YYYY)\"",
                         "the dates can be read as day/month or as month/day, and nothing in the "
                         "file tells which");
        return false;
    }
    for (size_t i = 0; i < readings->count && day_first; i++)
        if (readings->parts[i].undecided)
            turn(&readings->parts[i]);
    return true;
}

/* ---- all rows ------------------------------------------------------------------------------- */

static bool make_room(struct dawn_weather_readings *readings, size_t rows)
{
    size_t capacity = rows ? rows : 1;
    readings->parts = malloc(capacity * sizeof *readings->parts);
    readings->stamp_s = malloc(capacity * sizeof *readings->stamp_s);
    readings->row = malloc(capacity * sizeof *readings->row);
    readings->capacity = capacity;
    return readings->parts && readings->stamp_s && readings->row;
}

/* A borrowed zone must at least be near the sun's at the station. */
static void doubt_site_zone(struct dawn_weather_job *job)
{
    const struct dawn_weather *weather = job->weather;
    double by_sun = weather->longitude_deg / 15.0;
    if (isnan(by_sun) || fabs(by_sun - weather->utc_offset_h) <= 2.0)
        return;
    dawn_weather_say(job, DAWN_WEATHER_SAY_CLOCK, DAWN_WARNING,
                     (struct dawn_weather_spot){DAWN_WEATHER_NO_ROW, -1},
                     "say weather.utc_offset in the scenario",
                     "the station's longitude of %.2f speaks for a clock near UTC%+.0f h, not "
                     "UTC%+g h",
                     weather->longitude_deg, round(by_sun), weather->utc_offset_h);
}

/* The offset of stamps that carry none, and where it came from. */
static void settle_zone(struct dawn_weather_job *job)
{
    struct dawn_weather *weather = job->weather;
    const struct dawn_weather_hints *hints = job->hints;
    struct dawn_weather_spot spot = {DAWN_WEATHER_NO_ROW, -1};
    weather->utc_offset_from_file = false;
    if (job->stamps_carry_zone || !isnan(job->zone_h)) {
        weather->utc_offset_from_file = true;
        weather->utc_offset_h =
            job->stamps_carry_zone ? (double)job->readings.parts[0].offset_h : job->zone_h;
        if (!isnan(hints->utc_offset_h) && hints->utc_offset_h != weather->utc_offset_h)
            dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_WARNING, spot, NULL,
                             "the scenario says the stamps are UTC%+g h, the file says UTC%+g h; "
                             "the file is believed",
                             hints->utc_offset_h, weather->utc_offset_h);
        return;
    }
    if (!isnan(hints->utc_offset_h)) {
        weather->utc_offset_h = hints->utc_offset_h;
        return;
    }
    if (!isnan(hints->site_utc_offset_h)) {
        weather->utc_offset_h = hints->site_utc_offset_h;
        doubt_site_zone(job);
        dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_NOTE, spot,
                         "say weather.utc_offset in the scenario if this is wrong",
                         "the file does not say its time zone%s; taken as the site's, UTC%+g h",
                         job->local_standard ? " beyond \"local standard time\"" : "",
                         hints->site_utc_offset_h);
        return;
    }
    weather->utc_offset_h = 0.0;
    dawn_weather_say(job, DAWN_WEATHER_SAY_FILE, DAWN_ERROR, spot,
                     "say weather.utc_offset in the scenario or add a line \"# utc_offset: +1 h\" "
                     "above the header",
                     "the file does not say which time zone its stamps are in%s",
                     job->local_standard ? " beyond \"local standard time\"" : "");
}

static bool has_when(struct dawn_weather_job *job)
{
    const struct dawn_weather_when *when = &job->when;
    struct dawn_weather_spot spot = {job->header, -1};
    bool parted = when->year >= 0 && when->month >= 0 && when->day >= 0;
    if (when->whole < 0 && when->date < 0 && !parted) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_HEADER, DAWN_ERROR, spot,
                         "a column \"date\" beside \"time\", or stamps like 2026-03-12 05:00",
                         "the rows have a time of day but no date");
        return false;
    }
    if (when->whole < 0 && when->time < 0 && when->hour < 0) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_HEADER, DAWN_ERROR, spot,
                         "night lows need hourly values; look for an hourly export",
                         "the rows have a date but no time of day");
        return false;
    }
    return true;
}

static void read_row(struct dawn_weather_job *job, size_t r)
{
    struct dawn_weather_readings *readings = &job->readings;
    const struct dawn_csvrow *row = &job->rows.row[r];
    struct dawn_weather_parts parts = {0};
    int bad = -1;
    if (row->count > 0 && row->field[0][0] == '#')
        return;
    if (!row_parts(job, row, &parts, &bad)) {
        struct dawn_weather_spot spot = {r, bad};
        if ((size_t)bad >= row->count)
            dawn_weather_say(job, DAWN_WEATHER_SAY_SHORT_ROW, DAWN_ERROR,
                             (struct dawn_weather_spot){r, -1},
                             "the file may have been cut off; fetch it again",
                             "the row has only %zu of %zu columns and no time stamp", row->count,
                             job->rows.row[job->header].count);
        else
            dawn_weather_say(job, DAWN_WEATHER_SAY_STAMP, DAWN_ERROR, spot,
                             "write stamps as 2026-03-12 05:00 or 2026-03-12T05:00+01:00",
                             "\"%.40s\" is no time stamp", row->field[bad]);
        return;
    }
    int column = bad >= 0 ? bad : job->when.whole;
    if (refuse_parts(job, (struct dawn_weather_spot){r, column}, &parts))
        return;
    if (readings->count > 0 && parts.has_offset != readings->parts[0].has_offset) {
        dawn_weather_say(
            job, DAWN_WEATHER_SAY_STAMP, DAWN_ERROR, (struct dawn_weather_spot){r, column}, NULL,
            "this stamp %s a UTC offset, the first one %s", parts.has_offset ? "carries" : "lacks",
            parts.has_offset ? "does not" : "has one");
        return;
    }
    readings->parts[readings->count] = parts;
    readings->row[readings->count++] = r;
}

/* Seconds since 1970 get a date too, for the questions of order. */
static void name_unix_time(struct dawn_weather_parts *parts)
{
    struct dawn_civil civil = dawn_civil_at(parts->unix_s, 0.0);
    parts->year = (int16_t)civil.year;
    parts->month = (int16_t)civil.month;
    parts->day = (int16_t)civil.day;
    parts->hour = (int16_t)civil.hour;
    parts->minute = (int16_t)civil.minute;
    parts->second = (int16_t)civil.second;
}

void dawn_weather_stamp_read(struct dawn_weather_job *job)
{
    struct dawn_weather_readings *readings = &job->readings;
    size_t rows = job->end > job->first ? job->end - job->first : 0;
    if (!make_room(readings, rows)) {
        job->no_memory = true;
        return;
    }
    if (rows == 0) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_FILE, DAWN_ERROR,
                         (struct dawn_weather_spot){job->header, -1}, NULL,
                         "no data rows follow the header line");
        return;
    }
    if (!has_when(job))
        return;
    zone_from_header(job);
    for (size_t r = job->first; r < job->end && !job->daily; r++)
        read_row(job, r);
    if (readings->count == 0) {
        if (!dawn_weather_failed(job))
            dawn_weather_say(job, DAWN_WEATHER_SAY_FILE, DAWN_ERROR,
                             (struct dawn_weather_spot){job->header, -1}, NULL,
                             "nothing but comments follows the header line");
        return;
    }
    if (job->daily) {
        readings->count = 0;
        return;
    }
    const struct dawn_weather_parts *first = &readings->parts[0];
    job->stamps_carry_zone = first->has_offset || first->unix_time;
    settle_zone(job);
    for (size_t i = 0; i < readings->count; i++)
        if (readings->parts[i].unix_time)
            name_unix_time(&readings->parts[i]);
    if (!settle_order(job))
        readings->count = 0;
    for (size_t i = 0; i < readings->count; i++)
        readings->stamp_s[i] =
            dawn_weather_stamp_seconds(&readings->parts[i], job->weather->utc_offset_h);
}
