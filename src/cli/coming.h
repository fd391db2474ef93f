/* What commands share that look ahead: where the past ends and the forecast begins, what was read
 * off now, and when to raise an alarm. */
#ifndef CLI_COMING_H
#define CLI_COMING_H

#include "cli/study.h"
#include "dawnlow/studies/forecast.h"

/* Reads --history, lays it before the forecast in study->inputs.weather, and settles when now is:
 * --at, else the end of the history, else the forecast's first hour. */
enum dawn_status dawn_coming_settle(struct dawn_study *study, int64_t *now_s,
                                    struct dawn_problems *problems);

/* The plan of an ensemble from now_s to the forecast's end, by --now, --members, --seed, -j. */
enum dawn_status dawn_coming_plan(struct dawn_study *study, int64_t now_s,
                                  struct dawn_forecast_plan *plan, struct dawn_problems *problems);

/* --brief is text alone. */
enum dawn_status dawn_coming_check(const struct dawn_options *options,
                                   struct dawn_problems *problems);

/* An ensemble that was stopped has no chances; DAWN_STOPPED. */
enum dawn_status dawn_coming_stopped(struct dawn_problems *problems);

/* DAWN_ALARM with a warning when the chance is above --fail-above; what names the night. */
enum dawn_status dawn_coming_alarm(const struct dawn_options *options, double chance,
                                   const char *what, struct dawn_problems *problems);

enum { DAWN_COMING_MEMBERS = 200, DAWN_COMING_SEED = 1 };

#define DAWN_COMING_WEATHER                                                                        \
    {.group = "Which nights",                                                                      \
     .name = "weather",                                                                            \
     .argument = "FORECAST.csv",                                                                   \
     .kind = DAWN_OPTIONS_TEXT,                                                                    \
     .offset = DAWN_STUDY_OPTION_AT(weather),                                                      \
     .help = "the forecast: hourly rows, later ones up to 6 hours apart; the scenario's own "      \
             "weather when left out"},                                                             \
        {.name = "history",                                                                        \
         .argument = "PAST.csv",                                                                   \
         .kind = DAWN_OPTIONS_TEXT,                                                                \
         .offset = DAWN_STUDY_OPTION_AT(history),                                                  \
         .help =                                                                                   \
             "hourly weather of the days before: they bring rock, barrels and soil to where they " \
             "stand now"},                                                                         \
        {.name = "at",                                                                             \
         .argument = "DATETIME",                                                                   \
         .kind = DAWN_OPTIONS_MOMENT,                                                              \
         .offset = DAWN_STUDY_OPTION_AT(at),                                                       \
         .help = "now, as 2026-03-11T18:00 by the site's clock; the end of the history when left " \
                 "out, "                                                                           \
                 "else the beginning of the forecast"},                                            \
    {                                                                                              \
        .name = "now", .argument = "READINGS", .kind = DAWN_OPTIONS_PHRASE,                        \
        .offset = DAWN_STUDY_OPTION_AT(now),                                                       \
        .help = "what you read off just now, as rock=14C,barrels=9C,air=6C; also bed, soil, trays" \
    }
#define DAWN_COMING_ALARM                                                                          \
    {                                                                                              \
        .name = "fail-above", .argument = "CHANCE", .kind = DAWN_OPTIONS_QUANTITY,                 \
        .offset = DAWN_STUDY_OPTION_AT(fail_above), .measure = DAWN_MEASURE_NONE, .bare = true,    \
        .least = 0.0, .most = 1.0,                                                                 \
        .help = "end with exit status 10 when a night's chance of damage is above this, as 20%"    \
    }
#define DAWN_COMING_ENSEMBLE                                                                       \
    {.name = "members",                                                                            \
     .argument = "N",                                                                              \
     .kind = DAWN_OPTIONS_WHOLE,                                                                   \
     .offset = DAWN_STUDY_OPTION_AT(members),                                                      \
     .least = 10.0,                                                                                \
     .most = 10000.0,                                                                              \
     .help = "how many times the nights are run, each a little different; 200 when left out"},     \
    {                                                                                              \
        .name = "seed", .argument = "N", .kind = DAWN_OPTIONS_WHOLE,                               \
        .offset = DAWN_STUDY_OPTION_AT(seed), .least = 0.0, .most = 9007199254740992.0,            \
        .help = "another seed draws other errors; the same gives the same result"                  \
    }

#endif
