/* Results as text, CSV and JSON, written to a stream the caller opened. Nothing here knows a
 * terminal, a clock or the locale: the same result gives the same bytes. */
#ifndef DAWNLOW_REPORT_H
#define DAWNLOW_REPORT_H

#include <stdbool.h>
#include <stdio.h>

#include "dawnlow/nights.h"
#include "dawnlow/studies.h"
#include "dawnlow/studies/compare.h"
#include "dawnlow/studies/forecast.h"
#include "dawnlow/studies/offset.h"
#include "dawnlow/studies/setpoint.h"
#include "dawnlow/studies/size.h"
#include "dawnlow/studies/sweep.h"
#include "dawnlow/studies/tonight.h"
#include "dawnlow/studies/worth.h"

enum dawn_format { DAWN_TEXT, DAWN_CSV, DAWN_JSON };
enum dawn_units { DAWN_METRIC, DAWN_US };

/* Everything a nights report speaks of; ledger may be NULL. Nothing is copied or kept. */
struct dawn_nights_story {
    const struct dawn_scenario *scenario;
    const struct dawn_weather *weather;
    const struct dawn_network *network;
    const struct dawn_trajectory *run;
    const struct dawn_nights *nights;
    const struct dawn_ledger *ledger;
    const struct dawn_night *explained; /* the ledger's night */
    bool fan_kept_off;                  /* the run was asked to leave the fan off */
    const char *const *overrides;       /* "section.key=value" laid over the scenario file */
    size_t override_count;
    size_t series_every; /* rows from one to the next that dawn_report_series writes */
};
/* The nights: text for people, CSV (RFC 4180, so lines end in CR LF) and JSON for programs. CSV and
 * JSON are always metric, whatever units says; the ledger has no CSV form. */
void dawn_report_nights(FILE *out, enum dawn_format format, enum dawn_units units,
                        const struct dawn_nights_story *story);
/* The nights as one HTML page that needs nothing else: decision, pictures, tables, what it rests
 * on. The run must hold a series; the ledger, where there is one, becomes a picture. DAWN_ERR_NOMEM
 * when the page is not whole. */
enum dawn_status dawn_report_nights_page(FILE *out, enum dawn_units units,
                                         const struct dawn_nights_story *story);
/* Single pictures: one night's curves, all nights' lows, where the heat of the story's explained
 * night came from. night is of the story's; the run must hold a series, heat needs the ledger. */
enum dawn_picture_kind { DAWN_PICTURE_NIGHT, DAWN_PICTURE_LOWS, DAWN_PICTURE_HEAT };
/* As an SVG file of its own. DAWN_ERR_NOMEM when it is not whole. */
enum dawn_status dawn_report_picture(FILE *out, enum dawn_picture_kind kind, enum dawn_units units,
                                     const struct dawn_nights_story *story,
                                     const struct dawn_night *night);
/* With characters, for a terminal: so many columns (24 to 160 are taken) and rows (8 to 48) at
 * most. braille: in UTF-8, U+2800 to U+28FF; else ASCII. Heat has no such form. */
enum dawn_status dawn_report_screen(FILE *out, enum dawn_picture_kind kind, enum dawn_units units,
                                    const struct dawn_nights_story *story,
                                    const struct dawn_night *night, size_t columns, size_t rows,
                                    bool braille);
/* A result that was written as JSON, for drawing it again. */
struct dawn_result;
/* Whether a file looks like JSON: its first character is a brace. */
bool dawn_result_is(const char *path);
/* Reads a file: DAWN_ERR_IO, DAWN_ERR_USAGE with what is wrong with it, DAWN_ERR_NOMEM. */
enum dawn_status dawn_result_read(struct dawn_result **result, const char *path,
                                  struct dawn_problems *problems);
void dawn_result_free(struct dawn_result *result);
/* Its picture as an SVG file of its own: what is NULL for the one its page begins with (of nights
 * the lows), or "lows", "heat" (of the night explained), "chances" (of a forecast), "guesses" (of
 * worth). DAWN_ERR_USAGE where it has none. */
enum dawn_status dawn_result_picture(FILE *out, struct dawn_result *result, enum dawn_units units,
                                     const char *what, struct dawn_problems *problems);
/* With characters, as dawn_report_screen. DAWN_ERR_USAGE also for bars. */
enum dawn_status dawn_result_screen(FILE *out, struct dawn_result *result, enum dawn_units units,
                                    const char *what, size_t columns, size_t rows, bool braille,
                                    struct dawn_problems *problems);
/* Every series_every-th row (0 and 1: each) of the run's series with all node temperatures, RFC
 * 4180 (CR LF) with ISO 8601 stamps; means are stamped with the end of their time. Needs only
 * scenario, network and run of the story. */
void dawn_report_series(FILE *out, const struct dawn_nights_story *story);
/* What was understood of a weather file; CSV and JSON hold every hour as it will be used. */
void dawn_report_weather(FILE *out, enum dawn_format format, enum dawn_units units,
                         const struct dawn_weather *weather);
/* "What was understood" of a scenario, with the origin of each value. */
void dawn_report_scenario(FILE *out, enum dawn_format format, const struct dawn_scenario *scenario);
/* What a scenario comes to: a sketch across the house, sizes, heat lost and stored per kelvin,
 * weights with their caution. boxes: drawn with Unicode's box-drawing characters, else plain ASCII.
 */
void dawn_report_house(FILE *out, enum dawn_units units, const struct dawn_scenario *scenario,
                       bool boxes);
/* Nodes and flows; JSON holds every parameter so that anyone can integrate it. */
void dawn_report_network(FILE *out, enum dawn_format format, const struct dawn_network *network,
                         int64_t from_s, int64_t to_s);
/* The fan against its rock: a verdict with its reason, what lies behind it, a caution. JSON is
 * always metric. */
void dawn_report_fan(FILE *out, enum dawn_format format, enum dawn_units units,
                     const struct dawn_fan_work *work);
/* Which effect matters, and over which days; nothing is copied or kept. CSV and JSON are always
 * metric. */
struct dawn_effects_story {
    const struct dawn_scenario *scenario;
    const struct dawn_weather *weather;
    const struct dawn_effects *effects;
    int64_t from_s, to_s;
    const char *const *overrides; /* "section.key=value" laid over the scenario file */
    size_t override_count;
};
void dawn_report_effects(FILE *out, enum dawn_format format, enum dawn_units units,
                         const struct dawn_effects_story *story);
enum dawn_status dawn_report_effects_page(FILE *out, enum dawn_units units,
                                          const struct dawn_effects_story *story);
/* Nurseries side by side; nothing is copied or kept. CSV and JSON are always metric. */
struct dawn_compare_story {
    const struct dawn_compare *compare;
    const char *const *name;    /* [count] short, as the columns are headed */
    const char *const *weather; /* [count] the first year's file */
    const struct dawn_scenario *const *scenario;
};
void dawn_report_compare(FILE *out, enum dawn_format format, enum dawn_units units,
                         const struct dawn_compare_story *story);
enum dawn_status dawn_report_compare_page(FILE *out, enum dawn_units units,
                                          const struct dawn_compare_story *story);
/* A sweep's table is RFC 4180 (CR LF), a row a nursery; its first line and a row of it, as texts:
 */
struct dawn_text;
void dawn_report_sweep_header(struct dawn_text *text, const struct dawn_sweep_plan *plan);
void dawn_report_sweep_row(struct dawn_text *text, const struct dawn_sweep_plan *plan, size_t row,
                           uint64_t fingerprint, const struct dawn_sweep_result *result);
/* The whole table, text of such lines, told to people or as JSON. DAWN_CSV: as it stands. False
 * when memory ran out. */
bool dawn_report_sweep(FILE *out, enum dawn_format format, enum dawn_units units,
                       const char *scenario_name, const struct dawn_text *table);
/* What a study over one or several years went through; nothing is copied or kept. */
struct dawn_study_story {
    const struct dawn_scenario *scenario;
    const struct dawn_years *years;
    const char *const *overrides; /* "section.key=value" laid over the scenario file */
    size_t override_count;
};
/* The same table as a page; chance says what was drawn by lot, NULL = nothing. */
enum dawn_status dawn_report_sweep_page(FILE *out, enum dawn_units units,
                                        const struct dawn_study_story *story,
                                        const struct dawn_text *table, const char *chance);
/* Thermostat settings and which to choose. CSV and JSON are always metric. */
void dawn_report_setpoint(FILE *out, enum dawn_format format, enum dawn_units units,
                          const struct dawn_study_story *story,
                          const struct dawn_setpoint *setpoint, double line_C);
enum dawn_status dawn_report_setpoint_page(FILE *out, enum dawn_units units,
                                           const struct dawn_study_story *story,
                                           const struct dawn_setpoint *setpoint);
/* What money buys and what to measure next. CSV and JSON are always metric. */
void dawn_report_worth(FILE *out, enum dawn_format format, enum dawn_units units,
                       const struct dawn_study_story *story, const struct dawn_worth *worth,
                       double line_C);
enum dawn_status dawn_report_worth_page(FILE *out, enum dawn_units units,
                                        const struct dawn_study_story *story,
                                        const struct dawn_worth *worth);
/* What to build for a goal. CSV and JSON are always metric. */
void dawn_report_size(FILE *out, enum dawn_format format, enum dawn_units units,
                      const struct dawn_study_story *story, const struct dawn_size *size,
                      const struct dawn_size_plan *plan);
enum dawn_status dawn_report_size_page(FILE *out, enum dawn_units units,
                                       const struct dawn_study_story *story,
                                       const struct dawn_size *size,
                                       const struct dawn_size_plan *plan);
/* The coming nights as chances. history and readings as the user wrote them; NULL = none. */
struct dawn_forecast_story {
    const struct dawn_scenario *scenario;
    const struct dawn_weather *weather;
    const struct dawn_forecast *forecast; /* with a night at least */
    const char *history, *readings;
    const char *const *overrides;
    size_t override_count;
    uint64_t seed;
};
void dawn_report_forecast(FILE *out, enum dawn_format format, enum dawn_units units,
                          const struct dawn_forecast_story *story);
/* The same as a page. nights: the nursery run once as forecast, with a series and, for the worst
 * night, a ledger; its nights are pictured. NULL = without them. */
enum dawn_status dawn_report_forecast_page(FILE *out, enum dawn_units units,
                                           const struct dawn_forecast_story *story,
                                           const struct dawn_nights_story *nights);
/* One line for a text message. */
void dawn_report_forecast_brief(FILE *out, enum dawn_units units,
                                const struct dawn_forecast_story *story);
/* What to do tonight; the row of nothing is always there. */
struct dawn_tonight_story {
    const struct dawn_scenario *scenario;
    const struct dawn_weather *weather;
    const struct dawn_tonight *tonight; /* with a night */
    const char *history, *readings;     /* as the user wrote them; NULL = none */
    const char *const *overrides;
    size_t override_count;
    uint64_t seed;
};
void dawn_report_tonight(FILE *out, enum dawn_format format, enum dawn_units units,
                         const struct dawn_tonight_story *story);
/* nights: tonight as forecast with nothing done, as for dawn_report_forecast_page. */
enum dawn_status dawn_report_tonight_page(FILE *out, enum dawn_units units,
                                          const struct dawn_tonight_story *story,
                                          const struct dawn_nights_story *nights);
/* The decision alone, in one line. */
void dawn_report_tonight_brief(FILE *out, const struct dawn_tonight_story *story);
/* The site's offset from the station, also as keys of a scenario; CSV is the text. */
void dawn_report_offset(FILE *out, enum dawn_format format, enum dawn_units units,
                        const struct dawn_offset *offset);
/* The built-in table of crops with its sources. */
void dawn_report_crops(FILE *out, enum dawn_format format, enum dawn_units units);
/* States and rates, a line a sample and node, exact numbers: RFC 4180 (CR LF), stamps in UTC. */
void dawn_report_rates(FILE *out, const struct dawn_network *network,
                       const struct dawn_rates *rates);
/* Problems as file:line:column: severity: message, the line, a caret, a hint. Control characters
 * in what a file brought along are shown as '?', so no file can talk to the terminal. */
void dawn_report_problems(FILE *out, const struct dawn_problems *problems);

#endif
