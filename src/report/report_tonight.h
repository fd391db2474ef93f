/* What the files that report tonight share. */
#ifndef REPORT_REPORT_TONIGHT_H
#define REPORT_REPORT_TONIGHT_H

#include "base/tableout.h"
#include "base/text.h"
#include "report/report_parts.h"

/* "nothing", or the action's name. */
const char *dawn_report_tonight_name(const struct dawn_tonight_row *row);
/* The first line: what to do, and the chance with and without it. */
void dawn_report_tonight_decision(const struct dawn_tonight_story *story, struct dawn_text *text);
/* Every action, below two rows of headings; begins the table. */
void dawn_report_tonight_table(struct dawn_tableout *table, const struct dawn_tonight_story *story,
                               enum dawn_units units);
/* Parts of sentences, nothing where there is nothing to say: how to read the table; what the
 * thermometer should read in the night; what if the fan fails; what went in; when covers must be
 * off; cautions. */
void dawn_report_tonight_reading(struct dawn_text *text, const struct dawn_tonight_story *story);
void dawn_report_tonight_checks(struct dawn_text *text, const struct dawn_tonight_story *story,
                                enum dawn_units units);
void dawn_report_tonight_failure(struct dawn_text *text, const struct dawn_tonight_story *story,
                                 enum dawn_units units);
void dawn_report_tonight_context(struct dawn_text *text, const struct dawn_tonight_story *story);
void dawn_report_tonight_uncover(struct dawn_text *text, const struct dawn_tonight_story *story);
void dawn_report_tonight_caution(struct dawn_text *text, const struct dawn_tonight_story *story);
void dawn_report_tonight_text(FILE *out, enum dawn_units units,
                              const struct dawn_tonight_story *story);

#endif
