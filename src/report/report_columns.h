/* The numbers of a night in the order CSV and JSON give them, and which of them exist. */
#ifndef REPORT_REPORT_COLUMNS_H
#define REPORT_REPORT_COLUMNS_H

#include <stdbool.h>
#include <stddef.h>

#include "dawnlow/report.h"

enum dawn_report_kind {
    DAWN_REPORT_DEGREES, /* C */
    DAWN_REPORT_MOMENT,  /* seconds UTC */
    DAWN_REPORT_HOURS,
    DAWN_REPORT_ENERGY /* kWh */
};

struct dawn_report_column {
    const char *key;     /* in CSV and JSON, never renamed within a schema */
    const char *heading; /* in the text table; "" = not there */
    enum dawn_report_kind kind;
    size_t offset; /* of a double in struct dawn_night */
};

const struct dawn_report_column *dawn_report_columns(size_t *count);
/* The night's value; NaN when the nursery has no such place or part. */
double dawn_report_column_value(const struct dawn_report_column *column,
                                const struct dawn_nights_story *story,
                                const struct dawn_night *night);
/* Whether any night has a value to show. */
bool dawn_report_column_shown(const struct dawn_report_column *column,
                              const struct dawn_nights_story *story);

#endif
