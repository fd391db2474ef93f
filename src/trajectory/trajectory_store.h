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
    double *hour_s;      /* when each kept state holds: from, whole hours, to */
    double *hour_y;      /* [hour * nodes + node] the states themselves */
    double *hour_heat_J; /* [hour * DAWN_ROLES + role] held by all nodes of a role */
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
/* y is the state; flow_J: energy of each flow since the hour mark before. */
bool dawn_trajectory_add_hour(struct dawn_trajectory *trajectory, double at_s, const double y[],
                              const double flow_J[]);
bool dawn_trajectory_add_row(struct dawn_trajectory *trajectory, double at_s, const double T_C[],
                             bool fan_on);

/* A new, empty store of the plan's span, that watches what people ask for; NULL when memory ran
 * out. inside is false when the plan's span is not within the weather. */
struct dawn_trajectory *dawn_trajectory_store_new(const struct dawn_network *network,
                                                  const struct dawn_trajectory_plan *plan,
                                                  bool *inside);

/* What the house lives through before a run: the window's days again and again for repeated_s, then
 * lead_s of the weather as it was. */
struct past {
    double lead_s, repeated_s, window_s;
};
struct past dawn_trajectory_past(const struct dawn_network *network,
                                 const struct dawn_trajectory_plan *plan, double from_s,
                                 double to_s);
/* Rounds of the window, and how much of the first is skipped when they do not come out even: it has
 * nothing before it to fit on to. */
int dawn_trajectory_rounds(const struct past *past, double *skipped_s);
void dawn_trajectory_tell_past(struct dawn_trajectory *trajectory, const struct past *past);

/* What is tolerated of a node's error when it is atol_K for a light one. */
double dawn_trajectory_tolerance_K(const struct dawn_node *node, double atol_K);

/* More switchings of the fan than this within one hour are chatter, not control: a real contactor
 * would not live long. */
enum { SWITCHES_AN_HOUR_MOST = 60 };

#endif
