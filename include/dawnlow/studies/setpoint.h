/* At what temperature the fan should start: thermostat settings tried over the weather. */
#ifndef DAWNLOW_STUDIES_SETPOINT_H
#define DAWNLOW_STUDIES_SETPOINT_H

#include "dawnlow/studies/summary.h"
#include "dawnlow/studies/trials.h"

enum { DAWN_SETPOINT_MOST = 400, DAWN_SETPOINT_MONTHS = 12 };

struct dawn_setpoint_plan {
    const struct dawn_years *years;
    struct dawn_trajectory_plan run;
    double least_on_C, most_on_C, step_K; /* fan.on_at tried; least < most, step > 0 */
    double line_C;                        /* nights with a low below it are counted */
    unsigned threads;
    bool (*keep_going)(size_t done, size_t runs, void *user); /* NULL = go on */
    void *user;
};

/* What a setting comes to in one calendar month, over all years; nights by their evening. */
struct dawn_setpoint_month {
    size_t nights, below;
    double coldest_C; /* at the protected place; NAN without a night */
    double cold_C;    /* what settings are judged by, of this month's nights alone */
    double fan_h, fan_kWh, hot_h;
    double starts;    /* of the fan */
    double day_fan_h; /* fan hours between two hours after sunrise and sunset, without those in
                         which it brings heat back on purpose (fan.night_on_at) */
    double cooling_h; /* of these, those that left the rock colder */
};
struct dawn_setpoint_range {
    double from_C, to_C;
};
struct dawn_setpoint_row {
    double on_C, gap_K, margin_K; /* fan.on_at, on_at less off_at, start_margin */
    double stop_margin_K;
    bool failed; /* no such setting, or no result with it */
    struct dawn_summary sum;
    double below;  /* nights */
    double cold_C; /* mean low of the coldest tenth of the nights, at least three of a year, at the
                      place settings are judged at: the higher the better */
    /* How far that goes: of one year the nights of the tenth, of several each year's mean. */
    struct dawn_setpoint_range cold;
    double starts_a_day, cooling_h;
    struct dawn_setpoint_month month[DAWN_SETPOINT_MONTHS]; /* January first */
};
/* Of one month: the best start with gap and margin as recommended. */
struct dawn_setpoint_advice {
    bool known; /* the month has nights */
    double on_C, from_C, to_C;
    bool never_runs;   /* with the scenario's own setting: less than an hour in the month */
    bool advice_rests; /* the same with the recommended one */
    bool cools;        /* own setting: of its day hours more than a tenth cool the rock */
};
struct dawn_setpoint {
    bool stopped;
    bool at_trays; /* the protected place: trays, else air */
    bool by_air;   /* freezing holds the trays: settings are judged by the house air */
    double nights, days;
    size_t years; /* with nights */
    size_t count; /* rows; the first is the scenario's own setting */
    struct dawn_setpoint_row *row;
    bool no_difference;  /* all settings are alike within DAWN_SETPOINT_FLAT_K */
    size_t best;         /* the row recommended; count = none */
    double from_C, to_C; /* starts as good as that within DAWN_SETPOINT_FLAT_K */
    struct dawn_setpoint_advice month[DAWN_SETPOINT_MONTHS];
};
/* Settings that differ by less are alike. */
#define DAWN_SETPOINT_FLAT_K 0.1

/* Tries every start with three gaps and three margins beside the scenario's own. Recommended is,
 * of those with the fewest nights below the line and within DAWN_SETPOINT_FLAT_K of the warmest
 * cold nights, the one that takes least electricity, and of those alike the one that starts least
 * often. The scenario must have passed its checks and have a fan. {0} or released before;
 * DAWN_ERR_SOLVER is for the scenario's own setting. */
enum dawn_status dawn_setpoint_find(struct dawn_setpoint *setpoint,
                                    const struct dawn_scenario *scenario,
                                    const struct dawn_setpoint_plan *plan,
                                    struct dawn_problems *problems);
void dawn_setpoint_release(struct dawn_setpoint *setpoint);

#endif
