/* The table of nights: one row a night, the columns that tell something of this nursery. */
#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/tableout.h"
#include "report/report_columns.h"
#include "report/report_parts.h"

/* "Tue 12-13 Mar": the row's short name, evening and morning. */
static void put_short_name(struct dawn_tableout *table, const struct dawn_night *night,
                           double offset_h)
{
    const struct dawn_civil evening = dawn_civil_at(night->dusk_s, offset_h);
    const struct dawn_civil morning = dawn_civil_at(night->dawn_s, offset_h);
    const bool same_month = evening.month == morning.month;

    dawn_tableout_cell(table, "%s %d%s%s-%d %s", dawn_civil_weekday(evening.weekday), evening.day,
                       same_month ? "" : " ", same_month ? "" : dawn_civil_month(evening.month),
                       morning.day, dawn_civil_month(morning.month));
}

static void put_heading(struct dawn_tableout *table, const struct dawn_report_column *column,
                        enum dawn_units units)
{
    char line[DAWN_REPORT_ROOM];

    if (strcmp(column->heading, "<0") == 0) {
        dawn_tableout_cell(table, "<%s", dawn_report_line(0.0, units, line));
    } else {
        dawn_tableout_cell(table, "%s", column->heading);
    }
}

static const char *unit_words(enum dawn_report_kind kind, enum dawn_units units)
{
    switch (kind) {
    case DAWN_REPORT_DEGREES:
        return dawn_report_unit_letter(units);
    case DAWN_REPORT_MOMENT:
        return "time";
    case DAWN_REPORT_HOURS:
        return "h";
    case DAWN_REPORT_ENERGY:
        break;
    }
    return "kWh";
}

static void put_value(struct dawn_tableout *table, const struct dawn_report_column *column,
                      const struct dawn_nights_story *story, const struct dawn_night *night,
                      enum dawn_units units)
{
    const double value = dawn_report_column_value(column, story, night);
    char text[DAWN_REPORT_ROOM];

    switch (column->kind) {
    case DAWN_REPORT_DEGREES:
        dawn_report_degrees(value, units, text);
        break;
    case DAWN_REPORT_MOMENT:
        dawn_report_clock(value, story->scenario->site.utc_offset_h, text);
        break;
    case DAWN_REPORT_HOURS:
    case DAWN_REPORT_ENERGY:
        dawn_report_fixed(value, 1, text);
        break;
    }
    dawn_tableout_cell(table, "%s", text);
}

/* A crop damaged below 0 C often has the same as the column before. */
bool dawn_report_crop_column(const struct dawn_nights *nights)
{
    const double shown_h = 0.05;

    if (isnan(nights->crop_line_C)) {
        return false;
    }
    for (size_t i = 0; i < nights->count; i++) {
        const struct dawn_night *night = &nights->night[i];
        if (nights->crop_line_C != 0.0 ||
            fabs(night->below_crop_h - night->below_0C_h) >= shown_h) {
            return true;
        }
    }
    return false;
}

static bool has_column(const struct dawn_report_column *column,
                       const struct dawn_nights_story *story)
{
    if (strcmp(column->heading, "Crop") == 0) {
        return dawn_report_crop_column(story->nights);
    }
    return column->heading[0] != '\0' && dawn_report_column_shown(column, story);
}

/* The columns of the text table: those with a heading that tell something of this nursery. */
static size_t shown_columns(const struct dawn_nights_story *story,
                            const struct dawn_report_column *shown[DAWN_TABLE_COLUMNS])
{
    size_t count = 0;
    size_t kept = 0;
    const struct dawn_report_column *column = dawn_report_columns(&count);

    for (size_t i = 0; i < count && kept < DAWN_TABLE_COLUMNS - 2; i++) {
        if (has_column(&column[i], story)) {
            shown[kept++] = &column[i];
        }
    }
    return kept;
}

static void put_headings(struct dawn_tableout *table, enum dawn_units units,
                         const struct dawn_report_column *const shown[], size_t count)
{
    dawn_tableout_cell(table, "Night");
    for (size_t i = 0; i < count; i++) {
        put_heading(table, shown[i], units);
    }
    dawn_tableout_cell(table, "Risk");
    dawn_tableout_cell(table, "%s", "");
    for (size_t i = 0; i < count; i++) {
        dawn_tableout_cell(table, "%s", unit_words(shown[i]->kind, units));
    }
    dawn_tableout_cell(table, "%s", "");
}

void dawn_report_nights_table(struct dawn_tableout *table, enum dawn_units units,
                              const struct dawn_nights_story *story)
{
    const struct dawn_report_column *shown[DAWN_TABLE_COLUMNS];
    const size_t count = shown_columns(story, shown);
    const struct dawn_nights *nights = story->nights;
    char alignment[DAWN_TABLE_COLUMNS + 1] = "l";

    memset(alignment + 1, 'r', count);
    alignment[count + 1] = 'l';
    alignment[count + 2] = '\0';
    dawn_tableout_begin(table, count + 2, alignment);
    put_headings(table, units, shown, count);
    for (size_t n = 0; n < nights->count; n++) {
        put_short_name(table, &nights->night[n], story->scenario->site.utc_offset_h);
        for (size_t i = 0; i < count; i++) {
            put_value(table, shown[i], story, &nights->night[n], units);
        }
        dawn_tableout_cell(table, "%s", dawn_nights_risk_words(nights->night[n].risk));
    }
}
