/* Questions that take more than one run, or a look into the calculation: a plan goes in, a result
 * comes out, nothing is printed. */
#ifndef DAWNLOW_STUDIES_H
#define DAWNLOW_STUDIES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "dawnlow/nights.h"

/* ---- which effect matters ---- */

/* The coldest and the mean of all nights' lows, C. */
struct dawn_effects_lows {
    double coldest_C, mean_C;
};
/* The nursery without one of its effects. */
struct dawn_effects_row {
    const char *key;                     /* "openings"; for programs */
    const char *name;                    /* "vents and doors"; for people */
    const char *instead;                 /* "kept shut"; what it was calculated with */
    bool many;                           /* its name is a plural */
    bool failed;                         /* no result without it: all lows are NAN */
    struct dawn_effects_lows place, air; /* where the grower protects, and in the house air */
};
enum { DAWN_EFFECTS_MOST = 24 };
struct dawn_effects {
    size_t nights;
    bool at_trays; /* the protected place: trays, else air */
    /* Water that freezes holds the trays at 0 C in the coldest night of one of the runs, whatever
     * else changes: the rows are ordered by the house air then. */
    bool by_air;
    bool stopped;                        /* keep_going said no: not all are there */
    struct dawn_effects_lows place, air; /* as the scenario is */
    size_t count;
    struct dawn_effects_row row[DAWN_EFFECTS_MOST]; /* what changes the coldest low most first */
};
struct dawn_effects_plan {
    struct dawn_trajectory_plan run; /* of every run */
    unsigned threads;                /* runs at the same time; 0 counts as 1 */
    /* Called before each run with how many are done; false stops the study. NULL = go on. */
    bool (*keep_going)(size_t done, size_t runs, void *user);
    void *user;
};

/* Runs the nursery as it is, then without each effect its scenario describes, one at a time. The
 * scenario must have passed its checks. An effect without which the calculation finds no result is
 * kept as failed, with a warning; DAWN_ERR_SOLVER is for the nursery as it is. A plan too short for
 * a night gives nights = 0 and no rows. Nothing has to be released. */
enum dawn_status dawn_effects_find(struct dawn_effects *effects,
                                   const struct dawn_scenario *scenario,
                                   const struct dawn_weather *weather,
                                   const struct dawn_effects_plan *plan,
                                   struct dawn_problems *problems);
/* Change of the coldest and of the mean low without the effect, K, > 0: warmer without it. */
struct dawn_effects_change {
    double coldest_K, mean_K;
};
struct dawn_effects_change dawn_effects_change_at_place(const struct dawn_effects *effects,
                                                        size_t row);
struct dawn_effects_change dawn_effects_change_in_air(const struct dawn_effects *effects,
                                                      size_t row);

/* ---- how fast the network moves in states drawn by lot, for recomputing it elsewhere ---- */

enum dawn_rates_fan { DAWN_RATES_FAN_OFF, DAWN_RATES_FAN_ON, DAWN_RATES_FAN_IN_TURN };
struct dawn_rates_plan {
    int64_t from_s, to_s; /* moments are spread evenly between them; equal: all then */
    size_t samples;       /* >= 1 */
    uint64_t seed;
    enum dawn_rates_fan fan; /* in turn: off, on, off ...; a house without fan is always off */
};
struct dawn_rates {
    size_t samples, nodes;
    int64_t *time_s;  /* [sample] */
    bool *fan_on;     /* [sample] */
    double *y_C;      /* [sample * nodes + node] the state */
    double *rate_K_s; /* the same */
};
/* Draws states that differ from node to node more than any house's would: air, solids and panes
 * -15..45 C, vapour 0..60 K, films 0..20 K, frost -20..0 K; what can freeze is liquid, slush or ice
 * with equal chance. rates is {0} or released before. */
enum dawn_status dawn_rates_draw(struct dawn_rates *rates, const struct dawn_network *network,
                                 const struct dawn_rates_plan *plan,
                                 struct dawn_problems *problems);
void dawn_rates_release(struct dawn_rates *rates);

#endif
