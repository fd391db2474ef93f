/* The coming nights as chances: the nursery run over a forecast again and again, each time with the
 * forecast and the scenario a little different, as far as both may be off. */
#ifndef DAWNLOW_STUDIES_FORECAST_H
#define DAWNLOW_STUDIES_FORECAST_H

#include "dawnlow/nights.h"

/* What the grower has read off just now: all that play this part are moved to it. */
struct dawn_forecast_reading {
    enum dawn_role role;
    double temperature_C;
};
enum { DAWN_FORECAST_READINGS_MOST = 8 };

struct dawn_forecast_plan {
    struct dawn_trajectory_plan run; /* from_s is now; tolerances are those of the members */
    size_t members;
    uint64_t seed;
    unsigned threads;
    struct dawn_forecast_reading reading[DAWN_FORECAST_READINGS_MOST];
    size_t reading_count;
    /* Called before each run with how many are done; false stops the study. NULL = go on. */
    bool (*keep_going)(size_t done, size_t runs, void *user);
    void *user;
};

/* A low as one of ten nights, five of ten and nine of ten are below it; NAN = no such place. */
struct dawn_forecast_range {
    double tenth, middle, ninth;
};
struct dawn_forecast_night {
    int64_t dusk_s, dawn_s;
    struct dawn_forecast_range outside_C, air_C, tray_C, leaf_C, root_C;
    struct dawn_forecast_range low_at_s; /* when it is coldest at the protected place */
    double as_forecast_C;                /* low there if forecast and scenario were right */
    double below_zero;                   /* chance of less than 0 C there */
    double harmed[DAWN_CROPS_MOST];      /* chance that a crop is harmed, at the crops' place */
    double any_harmed;                   /* that one of them is; without crops below_zero */
};
struct dawn_forecast {
    size_t nights, members; /* members that came through */
    bool stopped;           /* keep_going said no */
    bool at_trays;
    enum dawn_crop_place crop_place;
    size_t crop_count;
    int64_t from_s;
    struct dawn_forecast_night *night;
    size_t
        worst; /* the night with the highest any_harmed, the coldest of several; nights when none */
    double week_below_zero, week_harmed[DAWN_CROPS_MOST], week_any; /* in at least one night */
};

/* Runs it. The weather reaches from before run.from_s (a history, lived through once) to the
 * forecast's end. A crop is harmed when its place is below damage_C, and
 * for longer than damage_after_s. DAWN_ERR_SOLVER when more than
 * half the members find no result. forecast is {0} or released before; nights = 0 when the weather
 * holds no complete night. */
enum dawn_status dawn_forecast_find(struct dawn_forecast *forecast,
                                    const struct dawn_scenario *scenario,
                                    const struct dawn_weather *weather,
                                    const struct dawn_forecast_plan *plan,
                                    struct dawn_problems *problems);
void dawn_forecast_release(struct dawn_forecast *forecast);

/* "3 in 10", "fewer than 1 in 100": a chance as growers say it. Never "never", for a chance from a
 * few hundred runs is not known better than that. out has 32 bytes; returns it. */
const char *dawn_forecast_odds(double chance, size_t members, char out[32]);

/* The state of a nursery at plan->run.from_s after the spin-up, moved to the readings: node_count
 * values to be freed, NULL on failure with *status. Where plan->run.start has it from such a call
 * before, a copy: so several studies of one evening live through the past once. */
double *dawn_forecast_present(const struct dawn_scenario *scenario,
                              const struct dawn_weather *weather,
                              const struct dawn_forecast_plan *plan, enum dawn_status *status,
                              struct dawn_problems *problems);

#endif
