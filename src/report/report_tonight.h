/* What the files that report tonight share. */
#ifndef REPORT_REPORT_TONIGHT_H
#define REPORT_REPORT_TONIGHT_H

#include "report/report_parts.h"

/* "nothing", or the action's name. */
const char *dawn_report_tonight_name(const struct dawn_tonight_row *row);
/* The first line: what to do, and the chance with and without it. */
void dawn_report_tonight_decision(const struct dawn_tonight_story *story, struct dawn_text *text);
void dawn_report_tonight_text(FILE *out, enum dawn_units units,
                              const struct dawn_tonight_story *story);

#endif
