/* The sparse factors as CVODE's linear solver. */
#ifndef TRAJECTORY_LINEAR_H
#define TRAJECTORY_LINEAR_H

#include <sundials/sundials_linearsolver.h>
#include <sundials/sundials_matrix.h>

#include "dawnlow/network.h"

/* What the solver and its matrix share; owned by whoever made it. */
struct linear {
    SUNMatrix matrix;
    SUNLinearSolver solver;
    struct sparse *sparse;
    double *jacobian; /* dense, column by column: what the network fills */
    double *rates;    /* by-product of filling it */
    long evaluations;
    bool factored;
};

/* {0} before; false when memory ran out, then (and always) dawn_trajectory_linear_release. */
bool dawn_trajectory_linear_make(struct linear *linear, const struct dawn_network *network,
                                 SUNContext context);
void dawn_trajectory_linear_release(struct linear *linear);

/* I - gamma J with a fresh J (unless it may be kept), factored. */
bool dawn_trajectory_linear_set(struct linear *linear, const struct dawn_network *network,
                                enum dawn_fan_state fan, double t_s, const double y[], double gamma,
                                bool keep_jacobian);

#endif
