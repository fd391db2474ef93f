/* What the report files share: numbers without the locale, units for people, names of nights. */
#include "report/report_parts.h"

#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/text.h"

/* A program that uses the library may have called setlocale; the decimal mark stays a point. */
static void restore_point(char *number)
{
    for (char *c = number; *c != '\0'; c++) {
        if (strchr("+-0123456789e", *c) == NULL) {
            *c = '.';
        }
    }
}

const char *dawn_report_fixed(double value, int decimals, char out[DAWN_REPORT_ROOM])
{
    if (!isfinite(value) || fabs(value) > 1e30) {
        dawn_text_copy(out, DAWN_REPORT_ROOM, "-");
        return out;
    }
    /* Adding 0 turns the -0 of an empty difference into 0; -0.04 still shows as -0.0. */
    snprintf(out, DAWN_REPORT_ROOM, "%.*f", decimals, value + 0.0);
    restore_point(out);
    return out;
}

const char *dawn_report_scientific(double value, char out[DAWN_REPORT_ROOM])
{
    if (!isfinite(value)) {
        dawn_text_copy(out, DAWN_REPORT_ROOM, "-");
        return out;
    }
    snprintf(out, DAWN_REPORT_ROOM, "%.1e", value + 0.0);
    restore_point(out);
    return out;
}

double dawn_report_two_digits(double value)
{
    char text[DAWN_REPORT_ROOM];
    const char *end = NULL;
    double rounded = NAN;

    if (!isfinite(value) ||
        !dawn_text_number(dawn_report_scientific(value, text), &end, &rounded)) {
        return NAN;
    }
    return rounded;
}

const char *dawn_report_unit_letter(enum dawn_units units)
{
    return units == DAWN_US ? "F" : "C";
}

const char *dawn_report_degrees(double value_C, enum dawn_units units, char out[DAWN_REPORT_ROOM])
{
    return dawn_report_fixed(units == DAWN_US ? value_C * 1.8 + 32.0 : value_C, 1, out);
}

const char *dawn_report_degrees_unit(double value_C, enum dawn_units units,
                                     char out[DAWN_REPORT_ROOM])
{
    char number[DAWN_REPORT_ROOM];

    snprintf(out, DAWN_REPORT_ROOM, "%.40s %s", dawn_report_degrees(value_C, units, number),
             dawn_report_unit_letter(units));
    return out;
}

const char *dawn_report_line(double value_C, enum dawn_units units, char out[DAWN_REPORT_ROOM])
{
    char number[DAWN_REPORT_ROOM];

    dawn_report_degrees(value_C, units, number);
    char *zero = strstr(number, ".0");
    if (zero != NULL) {
        *zero = '\0';
    }
    snprintf(out, DAWN_REPORT_ROOM, "%.40s %s", number, dawn_report_unit_letter(units));
    return out;
}

int dawn_report_decimals(double value_C)
{
    const int most = 9;
    int decimals = 3;
    double last_place = fabs(value_C) * 1000.0;

    while (last_place > 0.0 && last_place <= 0.5 && decimals < most) {
        last_place *= 10.0;
        decimals++;
    }
    return decimals;
}

const char *dawn_report_clock(double utc_s, double utc_offset_h, char out[DAWN_REPORT_ROOM])
{
    if (!isfinite(utc_s)) {
        dawn_text_copy(out, DAWN_REPORT_ROOM, "-");
        return out;
    }
    const struct dawn_civil at =
        dawn_civil_at((int64_t)floor(utc_s / 60.0 + 0.5) * 60, utc_offset_h);
    snprintf(out, DAWN_REPORT_ROOM, "%02d:%02d", at.hour, at.minute);
    return out;
}

const char *dawn_report_date(int64_t utc_s, double utc_offset_h, char out[DAWN_REPORT_ROOM])
{
    const struct dawn_civil at = dawn_civil_at(utc_s, utc_offset_h);

    snprintf(out, DAWN_REPORT_ROOM, "%04d-%02d-%02d", at.year, at.month, at.day);
    return out;
}

const char *dawn_report_day(int64_t utc_s, double utc_offset_h, char out[DAWN_REPORT_ROOM])
{
    const struct dawn_civil at = dawn_civil_at(utc_s, utc_offset_h);

    snprintf(out, DAWN_REPORT_ROOM, "%s %d %s %d", dawn_civil_weekday(at.weekday), at.day,
             dawn_civil_month(at.month), at.year);
    return out;
}

const char *dawn_report_zone(double utc_offset_h, char out[DAWN_REPORT_ROOM])
{
    const long minutes = isfinite(utc_offset_h) ? lround(utc_offset_h * 60.0) : 0;
    const long size = minutes < 0 ? -minutes : minutes;

    snprintf(out, DAWN_REPORT_ROOM, "UTC%c%02ld:%02ld", minutes < 0 ? '-' : '+', size / 60,
             size % 60);
    return out;
}

const char *dawn_report_night_name(const struct dawn_night *night, double utc_offset_h,
                                   char out[DAWN_REPORT_ROOM])
{
    const struct dawn_civil evening = dawn_civil_at(night->dusk_s, utc_offset_h);
    const struct dawn_civil morning = dawn_civil_at(night->dawn_s, utc_offset_h);
    char month[8] = "";

    if (evening.month != morning.month) {
        snprintf(month, sizeof month, " %.3s", dawn_civil_month(evening.month));
    }
    snprintf(out, DAWN_REPORT_ROOM, "%s %d%s -> %s %d %s", dawn_civil_weekday(evening.weekday),
             evening.day, month, dawn_civil_weekday(morning.weekday), morning.day,
             dawn_civil_month(morning.month));
    return out;
}

void dawn_report_csv_field(FILE *out, const char *text)
{
    if (strpbrk(text, ",\"\r\n") == NULL) {
        fputs(text, out);
        return;
    }
    fputc('"', out);
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '"') {
            fputc('"', out);
        }
        fputc(*c, out);
    }
    fputc('"', out);
}

/* Characters, not bytes: UTF-8 continuation bytes take no column. */
static size_t columns_of(const char *text, size_t bytes)
{
    size_t columns = 0;

    for (size_t i = 0; i < bytes; i++) {
        columns += ((unsigned char)text[i] & 0xC0U) != 0x80U;
    }
    return columns;
}

void dawn_report_wrapped(FILE *out, const char *indent, const char *text)
{
    size_t column = 0;
    const char *word = text + strspn(text, " ");

    while (*word != '\0') {
        const size_t bytes = strcspn(word, " ");
        const size_t width = columns_of(word, bytes);
        if (column > 0 && column + 1 + width > 80) {
            fprintf(out, "\n%s", indent);
            column = strlen(indent);
        } else if (column > 0) {
            fputc(' ', out);
            column++;
        }
        fwrite(word, 1, bytes, out);
        column += width;
        word += bytes;
        word += strspn(word, " ");
    }
    fputc('\n', out);
}

size_t dawn_report_estimates(const struct dawn_weather *weather,
                             struct dawn_report_estimate estimates[DAWN_REPORT_ESTIMATES])
{
    const struct {
        const char *quantity;
        enum dawn_weather_source from;
    } parts[] = {{"humidity", weather->humidity_from},      {"wind", weather->wind_from},
                 {"air pressure", weather->pressure_from},  {"cloud cover", weather->cloud_from},
                 {"sky long-wave", weather->longwave_from}, {"daylight", weather->ghi_from},
                 {"beam and diffuse", weather->split_from}};
    size_t count = 0;

    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        /* A dew point in the file is as good as a humidity. */
        if (parts[i].from != DAWN_FROM_FILE && parts[i].from != DAWN_FROM_DEW_POINT) {
            estimates[count].quantity = parts[i].quantity;
            estimates[count].how = dawn_weather_source_words(parts[i].from);
            count++;
        }
    }
    return count;
}
