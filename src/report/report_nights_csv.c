/* The nights as CSV after RFC 4180: metric, a heading, CR LF at the end of every line. */
#include <math.h>

#include "base/civil.h"
#include "report/report_columns.h"
#include "report/report_parts.h"

static void put_stamp(FILE *out, int64_t utc_s, double offset_h)
{
    char stamp[32];
    dawn_civil_iso(utc_s, offset_h, stamp);
    fputs(stamp, out);
}

static void put_value(FILE *out, const struct dawn_report_column *column,
                      const struct dawn_nights_story *story, const struct dawn_night *night)
{
    const double value = dawn_report_column_value(column, story, night);

    fputc(',', out);
    if (!isfinite(value)) {
        return;
    }
    if (column->kind == DAWN_REPORT_MOMENT) {
        put_stamp(out, (int64_t)llround(value), story->scenario->site.utc_offset_h);
    } else {
        char text[DAWN_REPORT_ROOM];
        const int decimals = column->kind == DAWN_REPORT_DEGREES ? dawn_report_decimals(value) : 3;
        fputs(dawn_report_fixed(value, decimals, text), out);
    }
}

void dawn_report_nights_csv(FILE *out, const struct dawn_nights_story *story)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    size_t count = 0;
    const struct dawn_report_column *column = dawn_report_columns(&count);
    char evening[DAWN_REPORT_ROOM];
    char morning[DAWN_REPORT_ROOM];

    fputs("evening,morning,dusk,dawn", out);
    for (size_t i = 0; i < count; i++) {
        fprintf(out, ",%s", column[i].key);
    }
    fputs(",risk\r\n", out);
    for (size_t n = 0; n < story->nights->count; n++) {
        const struct dawn_night *night = &story->nights->night[n];
        fprintf(out, "%s,%s", dawn_report_date(night->dusk_s, offset_h, evening),
                dawn_report_date(night->dawn_s, offset_h, morning));
        fputc(',', out);
        put_stamp(out, night->dusk_s, offset_h);
        fputc(',', out);
        put_stamp(out, night->dawn_s, offset_h);
        for (size_t i = 0; i < count; i++) {
            put_value(out, &column[i], story, night);
        }
        fprintf(out, ",%s\r\n", dawn_nights_risk_words(night->risk));
    }
}
