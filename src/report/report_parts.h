/* What the report files share: numbers without the locale, units for people, names of nights. */
#ifndef REPORT_REPORT_PARTS_H
#define REPORT_REPORT_PARTS_H

#include <stdint.h>
#include <stdio.h>

#include "dawnlow/report.h"

/* Room for any number, clock time or name of a night below. */
enum { DAWN_REPORT_ROOM = 64 };

/* value with so many decimals and a point, whatever the program's locale; "-" for NaN. A value
 * just below zero keeps its sign ("-0.0"): at the frost line that is the news. Returns out. */
const char *dawn_report_fixed(double value, int decimals, char out[DAWN_REPORT_ROOM]);
/* Two digits and a power of ten: "3.1e-10". */
const char *dawn_report_scientific(double value, char out[DAWN_REPORT_ROOM]);
/* The same rounded to those two digits, for JSON. */
double dawn_report_two_digits(double value);

/* A temperature in the reader's unit, one decimal, without and with the unit's letter. */
const char *dawn_report_degrees(double value_C, enum dawn_units units, char out[DAWN_REPORT_ROOM]);
const char *dawn_report_degrees_unit(double value_C, enum dawn_units units,
                                     char out[DAWN_REPORT_ROOM]);
const char *dawn_report_unit_letter(enum dawn_units units);
/* A line to stay above: "0 C", "32 F", "-1.5 C", without decimals when they are zero. */
const char *dawn_report_line(double value_C, enum dawn_units units, char out[DAWN_REPORT_ROOM]);
/* How many decimals a temperature needs for CSV and JSON: 3, more when it would be rounded to 0, so
 * that what is counted as below 0 C is seen to be below 0 C. */
int dawn_report_decimals(double value_C);

/* "06:20" to the nearest minute; "2026-03-12"; "Thu 12 Mar 2026"; "UTC+01:00". */
const char *dawn_report_clock(double utc_s, double utc_offset_h, char out[DAWN_REPORT_ROOM]);
const char *dawn_report_date(int64_t utc_s, double utc_offset_h, char out[DAWN_REPORT_ROOM]);
const char *dawn_report_day(int64_t utc_s, double utc_offset_h, char out[DAWN_REPORT_ROOM]);
const char *dawn_report_zone(double utc_offset_h, char out[DAWN_REPORT_ROOM]);
/* A night by its evening and its morning: "Tue 12 -> Wed 13 Mar". */
const char *dawn_report_night_name(const struct dawn_night *night, double utc_offset_h,
                                   char out[DAWN_REPORT_ROOM]);

/* One CSV field, quoted when RFC 4180 asks for it. */
void dawn_report_csv_field(FILE *out, const char *text);

/* The cautions that README.md, the manual and the reports share, and the sentence that ends them.
 */
struct dawn_report_caution {
    const char *key;   /* "weight" */
    const char *title; /* "Weight." or the first words of the sentence */
    const char *text;
};
const struct dawn_report_caution *dawn_report_cautions(size_t *count);
const char *dawn_report_deference(void);

/* What a scenario comes to, as a member "figures" of the open object. */
struct dawn_jsonout;
void dawn_report_house_json(struct dawn_jsonout *json, const struct dawn_scenario *scenario);

/* A word of caution with the load of the snow that is described; there must be some. */
struct dawn_text;
void dawn_report_snow_load(struct dawn_text *text, enum dawn_units units,
                           const struct dawn_scenario *scenario);

/* Words broken at 80 columns; lines after the first are indented. */
void dawn_report_wrapped(FILE *out, const char *indent, const char *text);

struct dawn_jsonout;
/* A difference of temperatures in the reader's unit, with its sign, and that unit: K or F. What
 * rounds to nothing has no sign. */
const char *dawn_report_change(double change_K, int decimals, enum dawn_units units,
                               char out[DAWN_REPORT_ROOM]);
const char *dawn_report_change_unit(enum dawn_units units);
/* "for: Alder Hollow, 119 nights, Sun 1 Feb 2026 to ..., weather ...; set for this run: ..." */
struct dawn_text;
void dawn_report_study_words(struct dawn_text *text, const struct dawn_study_story *story,
                             double nights); /* without "for: " */
void dawn_report_study_for(FILE *out, const struct dawn_study_story *story, double nights);
/* How the low of one year in ten was come by, of how many years; with its value in front where
 * level_C is one. Nothing with one year. */
void dawn_report_return_level(FILE *out, enum dawn_units units, size_t years, const char *place,
                              double level_C);
/* The same as member "return_level" of the object that is open; null below 3 years. */
void dawn_report_return_level_json(struct dawn_jsonout *json, size_t years);
/* As members of the object that is open: schema, report (the command that wrote it), version. */
void dawn_report_json_head(struct dawn_jsonout *json, const char *report);
/* The same, decision, nights, scenario, weather. */
void dawn_report_study_json(struct dawn_jsonout *json, const char *report,
                            const struct dawn_study_story *story, const char *decision,
                            double nights);
/* A JSON list of texts. */
void dawn_report_texts_json(struct dawn_jsonout *json, const char *key, const char *const *text,
                            size_t count);
/* A CSV number: with a comma before it, empty when there is none. */
void dawn_report_csv_number(FILE *out, double value, int decimals);

/* What the weather file did not say: a quantity and how it was made up for. */
struct dawn_report_estimate {
    const char *quantity, *how;
};
enum { DAWN_REPORT_ESTIMATES = 8 };
/* Fills estimates and returns how many there are. */
size_t dawn_report_estimates(const struct dawn_weather *weather,
                             struct dawn_report_estimate estimates[DAWN_REPORT_ESTIMATES]);

/* The JSON body of dawn_report_network. */
void dawn_report_network_json(FILE *out, const struct dawn_network *network, int64_t from_s,
                              int64_t to_s);

/* The decision of a nights report: how many nights fall below 0 C where, and the coldest. */
struct dawn_text;
void dawn_report_decision(const struct dawn_nights_story *story, enum dawn_units units,
                          struct dawn_text *text);
/* The same for the crop's damage line at the crop's place; adds nothing when there is no crop, or
 * its line is 0 C and it is harmed on as many nights as the decision says. */
void dawn_report_crop_decision(const struct dawn_nights_story *story, enum dawn_units units,
                               struct dawn_text *text);
/* What the house went through before the first evening; ends in "; ". */
void dawn_report_past(struct dawn_text *text, const struct dawn_trajectory_facts *facts);
/* "heat in, out and stored agree within ..." */
void dawn_report_checked(struct dawn_text *text, const struct dawn_trajectory_facts *facts);
/* One row a night below two rows of headings; begins the table. */
struct dawn_tableout;
void dawn_report_nights_table(struct dawn_tableout *table, enum dawn_units units,
                              const struct dawn_nights_story *story);
/* "K" or "F": what differences of temperature are in. */
const char *dawn_report_difference_unit(enum dawn_units units);
/* The decision of an effects report, and its table below two rows of headings (begins it). */
void dawn_report_effects_decision(struct dawn_text *text, enum dawn_units units,
                                  const struct dawn_effects *effects);
void dawn_report_effects_table(struct dawn_tableout *table, enum dawn_units units,
                               const struct dawn_effects *effects);
/* Whether hours below the crop's line are worth a column of it. */
bool dawn_report_crop_column(const struct dawn_nights *nights);
void dawn_report_nights_text(FILE *out, enum dawn_units units,
                             const struct dawn_nights_story *story);
/* Where one night's heat came from and went; the story must have its ledger. */
void dawn_report_ledger(FILE *out, enum dawn_units units, const struct dawn_nights_story *story);
void dawn_report_nights_csv(FILE *out, const struct dawn_nights_story *story);
void dawn_report_nights_json(FILE *out, const struct dawn_nights_story *story);

#endif
