/* CVODE asks for I - gamma J through its linear-system function and for solutions through a linear
 * solver of our own; both are thin here, the work is in trajectory_sparse.c. */
#include "trajectory/trajectory_linear.h"

#include <stdlib.h>

#include "trajectory/trajectory_sparse.h"
#include "trajectory/trajectory_vector.h"

static SUNMatrix_ID matrix_id(SUNMatrix matrix)
{
    (void)matrix;
    return SUNMATRIX_CUSTOM;
}

static SUNLinearSolver_Type solver_type(SUNLinearSolver solver)
{
    (void)solver;
    return SUNLINEARSOLVER_DIRECT;
}

/* The factors are made when the system is set; a failed one is recoverable by a smaller step. */
static int solver_setup(SUNLinearSolver solver, SUNMatrix matrix)
{
    (void)matrix;
    const struct linear *linear = solver->content;
    return linear->factored ? 0 : 1;
}

static int solver_solve(SUNLinearSolver solver, SUNMatrix matrix, N_Vector x, N_Vector b,
                        sunrealtype tolerance)
{
    (void)matrix, (void)tolerance;
    struct linear *linear = solver->content;
    dawn_trajectory_sparse_solve(linear->sparse, dawn_trajectory_vector_data(x),
                                 dawn_trajectory_vector_data(b));
    return 0;
}

bool dawn_trajectory_linear_make(struct linear *linear, const struct dawn_network *network,
                                 SUNContext context)
{
    size_t n = dawn_network_node_count(network);
    bool *pattern = calloc(n * n, sizeof *pattern);
    linear->jacobian = calloc(n * n, sizeof *linear->jacobian);
    linear->rates = calloc(n, sizeof *linear->rates);
    linear->matrix = SUNMatNewEmpty(context);
    linear->solver = SUNLinSolNewEmpty(context);
    if (pattern) {
        dawn_network_pattern(network, pattern);
        linear->sparse = dawn_trajectory_sparse_new(n, pattern);
    }
    free(pattern);
    if (!linear->jacobian || !linear->rates || !linear->matrix || !linear->solver ||
        !linear->sparse)
        return false;
    linear->matrix->ops->getid = matrix_id;
    linear->solver->ops->gettype = solver_type;
    linear->solver->ops->setup = solver_setup;
    linear->solver->ops->solve = solver_solve;
    linear->solver->content = linear;
    return true;
}

void dawn_trajectory_linear_release(struct linear *linear)
{
    if (linear->solver)
        SUNLinSolFreeEmpty(linear->solver);
    if (linear->matrix)
        SUNMatFreeEmpty(linear->matrix);
    dawn_trajectory_sparse_free(linear->sparse);
    free(linear->jacobian);
    free(linear->rates);
    *linear = (struct linear){0};
}

bool dawn_trajectory_linear_set(struct linear *linear, const struct dawn_network *network,
                                enum dawn_fan_state fan, double t_s, const double y[], double gamma,
                                bool keep_jacobian)
{
    if (!keep_jacobian) {
        dawn_network_rates(network, fan, t_s, y, linear->rates, linear->jacobian);
        ++linear->evaluations;
    }
    linear->factored = dawn_trajectory_sparse_factor(linear->sparse, linear->jacobian, gamma);
    return linear->factored;
}
