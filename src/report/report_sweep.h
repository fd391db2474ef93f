/* What the files that report a sweep share: its table, read again. */
#ifndef REPORT_REPORT_SWEEP_H
#define REPORT_REPORT_SWEEP_H

#include "base/csvrows.h"
#include "base/tableout.h"
#include "base/text.h"
#include "report/report_parts.h"

/* In each row, the first varied key stands behind row, rows, fingerprint and state. */
enum { DAWN_SWEPT_FIRST_KEY = 4 };
struct dawn_swept_table {
    struct dawn_csvrows rows; /* the first one names the columns */
    size_t keys_end;          /* field behind the last varied key */
    size_t coldest, frosts, fan_kWh, one_in_10, years;
};

/* False when memory ran out; else table->rows are released by the caller. */
bool dawn_report_sweep_read(struct dawn_swept_table *table, const struct dawn_text *text);
/* A field as text, "" without one, and as number, NAN without. Row 0 names the columns. */
const char *dawn_report_sweep_field(const struct dawn_swept_table *table, size_t row, size_t field);
double dawn_report_sweep_number(const struct dawn_swept_table *table, size_t row, size_t field);

/* The first line. */
void dawn_report_sweep_decision(struct dawn_text *text, const struct dawn_swept_table *table,
                                enum dawn_units units);
/* Begins the table of the first rows, one row of headings; returns how many are left out. There
 * must be one. */
size_t dawn_report_sweep_rows(struct dawn_tableout *cells, const struct dawn_swept_table *table,
                              enum dawn_units units);

#endif
