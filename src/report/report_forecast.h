/* What the files that report a forecast share. */
#ifndef REPORT_REPORT_FORECAST_H
#define REPORT_REPORT_FORECAST_H

#include "base/tableout.h"
#include "base/text.h"
#include "report/report_parts.h"

/* The crop most likely harmed in a night; of several the most tender. */
size_t dawn_report_forecast_crop(const struct dawn_forecast_story *story, size_t night);
/* The first line: the worst night, and the week. */
void dawn_report_forecast_decision(const struct dawn_forecast_story *story, enum dawn_units units,
                                   struct dawn_text *text);
/* The night's ranges of trays and leaves; of air and roots, with each crop's chance: two rows of
 * headings each. Both begin the table. */
void dawn_report_forecast_lows(struct dawn_tableout *table, const struct dawn_forecast_story *story,
                               enum dawn_units units);
void dawn_report_forecast_more(struct dawn_tableout *table, const struct dawn_forecast_story *story,
                               enum dawn_units units);
/* How to read them; how far forecast and scenario may be off; what went in. Parts of sentences. */
void dawn_report_forecast_reading(struct dawn_text *text, const struct dawn_forecast_story *story,
                                  enum dawn_units units);
void dawn_report_forecast_assumed(struct dawn_text *text, const struct dawn_forecast_story *story,
                                  enum dawn_units units);
void dawn_report_forecast_context(struct dawn_text *text, const struct dawn_forecast_story *story);
void dawn_report_forecast_text(FILE *out, enum dawn_units units,
                               const struct dawn_forecast_story *story);

#endif
