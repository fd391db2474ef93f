/* What the files that report a forecast share. */
#ifndef REPORT_REPORT_FORECAST_H
#define REPORT_REPORT_FORECAST_H

#include "base/text.h"
#include "report/report_parts.h"

/* The crop most likely harmed in a night; of several the most tender. */
size_t dawn_report_forecast_crop(const struct dawn_forecast_story *story, size_t night);
/* The first line: the worst night, and the week. */
void dawn_report_forecast_decision(const struct dawn_forecast_story *story, enum dawn_units units,
                                   struct dawn_text *text);
void dawn_report_forecast_text(FILE *out, enum dawn_units units,
                               const struct dawn_forecast_story *story);

#endif
