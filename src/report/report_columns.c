/* The numbers of a night in the order CSV and JSON give them, and which of them exist. */
#include "report/report_columns.h"

#include <math.h>
#include <string.h>

#define NIGHT(field) offsetof(struct dawn_night, field)

static const struct dawn_report_column columns[] = {
    {"outside_low_C", "Out", DAWN_REPORT_DEGREES, NIGHT(outside_low_C)},
    {"air_low_C", "Air", DAWN_REPORT_DEGREES, NIGHT(air_low_C)},
    {"tray_low_C", "Tray", DAWN_REPORT_DEGREES, NIGHT(tray_low_C)},
    {"leaf_low_C", "Leaf", DAWN_REPORT_DEGREES, NIGHT(leaf_low_C)},
    {"root_low_C", "Root", DAWN_REPORT_DEGREES, NIGHT(root_low_C)},
    {"crop_low_C", "", DAWN_REPORT_DEGREES, NIGHT(crop_low_C)},
    {"low_at", "At", DAWN_REPORT_MOMENT, NIGHT(low_at_s)},
    {"hours_below_0C", "<0", DAWN_REPORT_HOURS, NIGHT(below_0C_h)},
    {"hours_below_crop", "Crop", DAWN_REPORT_HOURS, NIGHT(below_crop_h)},
    {"fan_h", "Fan", DAWN_REPORT_HOURS, NIGHT(fan_h)},
    {"fan_kWh", "", DAWN_REPORT_ENERGY, NIGHT(fan_kWh)},
    {"rock_kWh", "Rock", DAWN_REPORT_ENERGY, NIGHT(rock_kWh)},
    {"barrels_kWh", "Water", DAWN_REPORT_ENERGY, NIGHT(barrels_kWh)},
    {"soil_kWh", "Soil", DAWN_REPORT_ENERGY, NIGHT(soil_kWh)},
};

const struct dawn_report_column *dawn_report_columns(size_t *count)
{
    *count = sizeof columns / sizeof columns[0];
    return columns;
}

/* A store that is not there gives back nothing, but to print 0 would say it had been tried. */
static bool part_exists(size_t offset, const struct dawn_scenario *scenario)
{
    switch (offset) {
    case NIGHT(rock_kWh):
        return scenario->rock.present;
    case NIGHT(barrels_kWh):
        return scenario->barrels_count > 0;
    case NIGHT(fan_h):
    case NIGHT(fan_kWh):
        return scenario->fan.present;
    default:
        return true;
    }
}

double dawn_report_column_value(const struct dawn_report_column *column,
                                const struct dawn_nights_story *story,
                                const struct dawn_night *night)
{
    double value = NAN;

    if (part_exists(column->offset, story->scenario)) {
        memcpy(&value, (const char *)night + column->offset, sizeof value);
    }
    return value;
}

bool dawn_report_column_shown(const struct dawn_report_column *column,
                              const struct dawn_nights_story *story)
{
    for (size_t i = 0; i < story->nights->count; i++) {
        if (isfinite(dawn_report_column_value(column, story, &story->nights->night[i]))) {
            return true;
        }
    }
    return false;
}
