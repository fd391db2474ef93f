/* CVODE from create to free, behind what the run needs of it. */
#ifndef TRAJECTORY_SOLVER_H
#define TRAJECTORY_SOLVER_H

#include "dawnlow/trajectory.h"

struct solver; /* opaque */

enum solver_event {
    SOLVER_STEPPED,
    SOLVER_STOPPED,  /* the stop time is reached */
    SOLVER_SWITCHES, /* the fan's wish crossed zero */
    SOLVER_FAILED
};

struct solver *dawn_trajectory_solver_new(const struct dawn_network *network, double rtol,
                                          double atol_K);
void dawn_trajectory_solver_free(struct solver *solver);

/* Begins (again) at a moment and state, by what the fan's air does; watch_fan asks for switchings.
 */
bool dawn_trajectory_solver_begin(struct solver *solver, double t_s, const double y[],
                                  enum dawn_fan_state fan, bool watch_fan);
/* One internal step, never past stop_s. y is the solver's own state, valid until the next call. */
enum solver_event dawn_trajectory_solver_step(struct solver *solver, double stop_s, double *t_s,
                                              const double **y);
void dawn_trajectory_solver_add_facts(struct solver *solver, struct dawn_trajectory_facts *facts);

#endif
