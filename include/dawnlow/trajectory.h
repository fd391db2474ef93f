/* The network integrated over the weather with SUNDIALS CVODE. Switching of the fan is found as a
 * zero crossing; every weather hour is met exactly. */
#ifndef DAWNLOW_TRAJECTORY_H
#define DAWNLOW_TRAJECTORY_H

#include "dawnlow/network.h"

struct dawn_trajectory; /* opaque: trajectory/trajectory_store.h */

struct dawn_trajectory_plan {
    int64_t from_s, to_s; /* both 0 = all the weather */
    double rtol;          /* relative tolerance of the state in C */
    double atol_K;        /* absolute tolerance of a light node (20 kJ/K); heavier ones get less */
    bool fast;            /* in a batch: by dawn_ensemble_run_from, no closer than 0.002 K, 2e-5 */
    bool fan_allowed;     /* false: the thermostat stays off */
    bool ledger;          /* keep every flow's energy hour by hour */
    double series_step_s; /* 0 = keep no series of all nodes */
    bool series_means;    /* rows are the mean of the step before them, not their moment */
    bool spin_up;         /* live through the days before from_s: dawn_trajectory_run */
    const double *start;  /* own start state, node_count values; NULL = dawn_network_start */
};
struct dawn_trajectory_plan dawn_trajectory_plan_usual(void);

/* Runs the plan. With spin_up the house first lives through the network's spin-up time: the whole
 * days of weather that lie before from_s, and where they do not reach back so far, the first (up to
 * 3) of all those days again and again before them. Nothing of this past is kept.
 *
 * The network must outlive the trajectory. DAWN_ERR_SOLVER with its reason in
 * problems when the solver cannot go on or the fan chatters. */
enum dawn_status dawn_trajectory_run(struct dawn_trajectory **trajectory,
                                     const struct dawn_network *network,
                                     const struct dawn_trajectory_plan *plan,
                                     struct dawn_problems *problems);
void dawn_trajectory_free(struct dawn_trajectory *trajectory);

int64_t dawn_trajectory_from_s(const struct dawn_trajectory *trajectory);
int64_t dawn_trajectory_to_s(const struct dawn_trajectory *trajectory);

/* The state the run began or ended with, node_count values; it is the trajectory's. */
const double *dawn_trajectory_state(const struct dawn_trajectory *trajectory, bool at_end);
/* The first state kept at or after a moment, and when it holds: the run's beginning, a whole hour
 * of the weather or its end. */
const double *dawn_trajectory_state_from(const struct dawn_trajectory *trajectory, double t_s,
                                         int64_t *at_s);

/* Watched nodes (air, trays, leaf, root zone) have their temperature at any moment, C. */
double dawn_trajectory_watched_C(const struct dawn_trajectory *trajectory, int node, double t_s);
/* The lowest temperature of a watched node between two moments, and when. */
struct dawn_low {
    double low_C, at_s;
};
struct dawn_low dawn_trajectory_low(const struct dawn_trajectory *trajectory, int node,
                                    double from_s, double to_s);
/* Seconds a watched node spends below a line between two moments. */
double dawn_trajectory_below_s(const struct dawn_trajectory *trajectory, int node, double line_C,
                               double from_s, double to_s);
/* Seconds the fan runs between two moments. */
double dawn_trajectory_fan_s(const struct dawn_trajectory *trajectory, double from_s, double to_s);
/* How often it starts after one moment and up to another. */
size_t dawn_trajectory_fan_starts(const struct dawn_trajectory *trajectory, double from_s,
                                  double to_s);
/* Heat above 0 C water, J, held by all nodes of a role at a whole hour of the run; between hours
 * interpolated. */
double dawn_trajectory_stored_J(const struct dawn_trajectory *trajectory, enum dawn_role role,
                                double t_s);
/* Heat of everything. */
double dawn_trajectory_stored_all_J(const struct dawn_trajectory *trajectory, double t_s);
/* Energy along one flow between two moments on whole hours, J; needs plan.ledger. */
double dawn_trajectory_flow_J(const struct dawn_trajectory *trajectory, size_t flow, double from_s,
                              double to_s);

/* Series of all node temperatures, row by row; needs series_step_s. With series_means the first row
 * stands at the end of the first step. */
size_t dawn_trajectory_series_count(const struct dawn_trajectory *trajectory);
double dawn_trajectory_series_time_s(const struct dawn_trajectory *trajectory, size_t row);
const double *dawn_trajectory_series_C(const struct dawn_trajectory *trajectory, size_t row);
/* How much time before its stamp a row is the mean of; 0 = rows hold at their moment. */
double dawn_trajectory_series_mean_s(const struct dawn_trajectory *trajectory);
bool dawn_trajectory_series_fan_on(const struct dawn_trajectory *trajectory, size_t row);

struct dawn_trajectory_facts {
    long steps, rhs_evaluations, jacobian_evaluations, error_test_failures, switches;
    double imbalance; /* |change of stored heat - what crossed the boundary| / throughput */
    double boundary_in_J, boundary_out_J, stored_change_J;
    double water_imbalance;             /* the same of water; 0 in a dry house */
    double water_in_J, water_through_J; /* what came and went, by its latent heat */
    double lead_days;           /* of real weather before the run, lived through and not kept */
    double spin_up_days;        /* before those: filled by repeating the first days */
    double spin_up_window_days; /* how many first days were repeated */
    double wall_s;              /* measured; never part of data output */
};
struct dawn_trajectory_facts dawn_trajectory_facts(const struct dawn_trajectory *trajectory);

/* ---- many members at once ---- */

/* One of an ensemble. */
struct dawn_ensemble_member {
    const struct dawn_network *network;
    /* rtol and atol_K no closer than the engine's own; no ledger, no series */
    struct dawn_trajectory_plan plan;
    /* What came of it: */
    enum dawn_status status;
    struct dawn_trajectory *trajectory; /* the caller's; NULL unless DAWN_OK */
    struct dawn_problems problems;      /* the caller's to release */
};

/* Runs all members, those of the same shape (the same parts and ways, other numbers) side by side
 * in the lanes of the processor, by an adaptive Rosenbrock method of order 3 (ensemble_lanes.h).
 * Made for hundreds of runs: their night lows are within about 0.01 K of what dawn_trajectory_run
 * finds closely, where that can be told (a fan that just does or just does not start is neither's).
 *
 * The thermostat looks every 5 s within a step; when it switches is met to a second. What comes
 * of a member does not depend on its neighbours, their number or the processor: it is the same to
 * the last bit. */
void dawn_ensemble_run(struct dawn_ensemble_member members[], size_t count);

/* The same of members that are made when a lane is free for them (some more, where shapes are
 * mixed, before theirs has its turn). next makes one, its problems empty, or yields NULL when there
 * are no more, and is not asked again; done takes each as soon as it has ended, once. Both are
 * called on the caller's thread. A member's network and plan must be there from next to done. count
 * is how many are expected, so that few take few lanes. */
struct dawn_ensemble_source {
    size_t count;
    struct dawn_ensemble_member *(*next)(void *user);
    void (*done)(struct dawn_ensemble_member *member, void *user);
    void *user;
};
void dawn_ensemble_run_from(const struct dawn_ensemble_source *source);

/* How many lanes this processor gets; and the same, made to go one after another or in a given
 * number of lanes (1, 4, 8 or 16), as far as the processor can: for tests and measurements. */
int dawn_ensemble_lanes(void);
void dawn_ensemble_run_in(struct dawn_ensemble_member members[], size_t count, int lanes);

/* "6.4.1": the SUNDIALS the library was built with. */
const char *dawn_trajectory_solver_version(void);

#endif
