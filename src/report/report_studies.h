/* What the text and the page of a study share: its decision, and its tables (each begins one). */
#ifndef REPORT_REPORT_STUDIES_H
#define REPORT_REPORT_STUDIES_H

#include "base/tableout.h"
#include "base/text.h"
#include "report/report_parts.h"

void dawn_report_setpoint_decision(struct dawn_text *text, enum dawn_units units,
                                   const struct dawn_setpoint *setpoint);
void dawn_report_setpoint_band(struct dawn_text *text, enum dawn_units units,
                               const struct dawn_setpoint *setpoint);
void dawn_report_setpoint_starts(struct dawn_tableout *table, enum dawn_units units,
                                 const struct dawn_setpoint *setpoint);
void dawn_report_setpoint_months(struct dawn_tableout *table, enum dawn_units units,
                                 const struct dawn_setpoint *setpoint);

void dawn_report_worth_decision(struct dawn_text *text, enum dawn_units units,
                                const struct dawn_study_story *story,
                                const struct dawn_worth *worth);
void dawn_report_worth_ways(struct dawn_tableout *table, enum dawn_units units,
                            const struct dawn_study_story *story, const struct dawn_worth *worth);
void dawn_report_worth_guesses(struct dawn_tableout *table, enum dawn_units units,
                               const struct dawn_study_story *story,
                               const struct dawn_worth *worth);

void dawn_report_compare_decision(struct dawn_text *text, const struct dawn_compare_story *story,
                                  enum dawn_units units);
void dawn_report_compare_inputs(struct dawn_tableout *table,
                                const struct dawn_compare_story *story);
void dawn_report_compare_results(struct dawn_tableout *table, enum dawn_units units,
                                 const struct dawn_compare_story *story);

#endif
