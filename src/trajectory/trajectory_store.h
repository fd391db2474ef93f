/* What a run keeps: watched temperatures on every step, everything at every hour. */
#ifndef TRAJECTORY_STORE_H
#define TRAJECTORY_STORE_H

#include "dawnlow/trajectory.h"

enum { WATCHED_MOST = 4 };

/* Cubic Hermite data of the watched nodes over one step. */
struct step {
    double from_s, to_s;
    double from_C[WATCHED_MOST], to_C[WATCHED_MOST];
    double from_K_s[WATCHED_MOST], to_K_s[WATCHED_MOST];
};

struct fan_switch {
    double at_s;
    bool on;
};

struct dawn_trajectory {
    const struct dawn_network *network; /* must outlive the trajectory */
    int64_t from_s, to_s;
    size_t nodes, flows;
    int watched[WATCHED_MOST];
    size_t watched_count;
    struct step *steps;
    size_t step_count, step_capacity;
    struct fan_switch *switches; /* the first tells how the run begins */
    size_t switch_count, switch_capacity;
    double *hour_s; /* when each kept state holds: from, whole hours, to */
    double *hour_y; /* [hour * nodes + node] */
    double
        *hour_J; /* [hour * flows + flow]: energy since the hour mark before; NULL without ledger */
    size_t hour_count, hour_capacity;
    double *series_s, *series_C; /* rows of all node temperatures */
    bool *series_fan;
    size_t series_count, series_capacity;
    double series_step_s;
    bool series_means;
    bool ledger;
    struct dawn_trajectory_facts facts;
};

/* All of these return false when memory ran out. */
bool dawn_trajectory_add_step(struct dawn_trajectory *trajectory, const struct step *step);
bool dawn_trajectory_add_switch(struct dawn_trajectory *trajectory, double at_s, bool on);
/* flow_J: energy of each flow since the hour mark before. */
bool dawn_trajectory_add_hour(struct dawn_trajectory *trajectory, double at_s, const double y[],
                              const double flow_J[]);
bool dawn_trajectory_add_row(struct dawn_trajectory *trajectory, double at_s, const double T_C[],
                             bool fan_on);

#endif
