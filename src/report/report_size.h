/* What the files that report what to build share. */
#ifndef REPORT_REPORT_SIZE_H
#define REPORT_REPORT_SIZE_H

#include "base/tableout.h"
#include "base/text.h"
#include "report/report_parts.h"

struct dawn_report_sizing {
    enum dawn_units units;
    const struct dawn_study_story *story;
    const struct dawn_size *size;
    const struct dawn_size_plan *plan;
};

/* What to build, or what comes nearest to the goal. */
const struct dawn_size_design *dawn_report_size_shown(const struct dawn_size *size);
/* Its settings for a run of the nights. */
const struct dawn_trial *dawn_report_size_tried(const struct dawn_report_sizing *page);
const char *dawn_report_size_money(const struct dawn_report_sizing *page);

/* What it costs, part by part; those that cost nothing are left out. */
enum { DAWN_REPORT_SIZE_PARTS = 7 };
struct dawn_report_size_part {
    const char *words;
    double money;
};
size_t dawn_report_size_parts(const struct dawn_report_sizing *page,
                              struct dawn_report_size_part part[DAWN_REPORT_SIZE_PARTS]);

/* The first line. */
void dawn_report_size_decision(struct dawn_text *text, const struct dawn_report_sizing *page);
/* Parts of sentences, nothing where there is nothing to say: the goal; the night that decides; how
 * far the weather bears it out; what it costs; from where on more adds little; what the curve's
 * band means; how it was found. */
void dawn_report_size_goal(struct dawn_text *text, const struct dawn_report_sizing *page);
void dawn_report_size_decides(struct dawn_text *text, const struct dawn_report_sizing *page);
void dawn_report_size_sure(struct dawn_text *text, const struct dawn_report_sizing *page);
void dawn_report_size_costs(struct dawn_text *text, const struct dawn_report_sizing *page);
void dawn_report_size_knee(struct dawn_text *text, const struct dawn_report_sizing *page);
void dawn_report_size_band(struct dawn_text *text, const struct dawn_report_sizing *page);
void dawn_report_size_found(struct dawn_text *text, const struct dawn_report_sizing *page);
const char *dawn_report_size_caution(void);

/* Tables with one row of headings; each begins one. The first two need changes, a curve. */
void dawn_report_size_changes(struct dawn_tableout *table, const struct dawn_report_sizing *page);
void dawn_report_size_curve(struct dawn_tableout *table, const struct dawn_report_sizing *page);
void dawn_report_size_usual(struct dawn_tableout *table, const struct dawn_report_sizing *page);
/* Why what was found is not what is usual; nothing where it is. */
void dawn_report_size_unusual(struct dawn_text *text, const struct dawn_report_sizing *page);

void dawn_report_size_text(FILE *out, const struct dawn_report_sizing *page);

#endif
