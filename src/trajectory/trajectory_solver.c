/* CVODE: BDF with Newton, the network's own Jacobian and sparse factors. Time runs in seconds since
 * the solver began, so that no digits are lost on the epoch. */
#include "trajectory/trajectory_solver.h"

#include <cvode/cvode.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sundials/sundials_version.h>

#include "trajectory/trajectory_linear.h"
#include "trajectory/trajectory_store.h"
#include "trajectory/trajectory_vector.h"

struct solver {
    const struct dawn_network *network;
    SUNContext context;
    void *cvode;
    N_Vector y, tolerance;
    struct linear linear;
    double rtol, atol_K, origin_s;
    enum dawn_fan_state fan;
    bool watch_fan, started;
    struct dawn_trajectory_facts past; /* counters of runs before the last begin */
};

/* SUNDIALS 7 changed how a context is made and how messages are silenced; this is the only place
 * that knows. */
static SUNContext context_new(void)
{
    SUNContext context = NULL;
#if SUNDIALS_VERSION_MAJOR >= 7
    if (SUNContext_Create(SUN_COMM_NULL, &context) != 0)
        return NULL;
    SUNContext_ClearErrHandlers(context);
#else
    if (SUNContext_Create(NULL, &context) != 0)
        return NULL;
#endif
    return context;
}

#if SUNDIALS_VERSION_MAJOR < 7
/* The type is the library's. NOLINTNEXTLINE(readability-non-const-parameter) */
static void keep_quiet(int code, const char *module, const char *function, char *message,
                       void *user)
{
    (void)code, (void)module, (void)function, (void)message, (void)user;
}
#endif

static bool silence(struct solver *solver)
{
#if SUNDIALS_VERSION_MAJOR < 7
    return CVodeSetErrHandlerFn(solver->cvode, keep_quiet, NULL) == CV_SUCCESS;
#else
    (void)solver;
    return true;
#endif
}

static int rates(sunrealtype t, N_Vector y, N_Vector dydt, void *user)
{
    const struct solver *solver = user;
    dawn_network_rates(solver->network, solver->fan, solver->origin_s + t,
                       dawn_trajectory_vector_data(y), dawn_trajectory_vector_data(dydt), NULL);
    /* A rate that is no number would send CVODE round in circles. */
    for (size_t i = 0; i < dawn_network_node_count(solver->network); ++i)
        if (!isfinite(dawn_trajectory_vector_data(dydt)[i]))
            return -1;
    return 0;
}

static int linear_system(sunrealtype t, N_Vector y, N_Vector dydt, SUNMatrix matrix,
                         sunbooleantype jacobian_ok, sunbooleantype *jacobian_made,
                         sunrealtype gamma, void *user, N_Vector tmp1, N_Vector tmp2, N_Vector tmp3)
{
    (void)dydt, (void)matrix, (void)tmp1, (void)tmp2, (void)tmp3;
    struct solver *solver = user;
    *jacobian_made = !jacobian_ok;
    /* A failed factor is reported by the solver's setup, where CVODE may retry a smaller step. */
    dawn_trajectory_linear_set(&solver->linear, solver->network, solver->fan, solver->origin_s + t,
                               dawn_trajectory_vector_data(y), gamma, jacobian_ok);
    return 0;
}

static int fan_wish(sunrealtype t, N_Vector y, sunrealtype *wish, void *user)
{
    (void)t;
    const struct solver *solver = user;
    wish[0] = dawn_network_fan_wish(solver->network, solver->fan != DAWN_FAN_OFF,
                                    dawn_trajectory_vector_data(y));
    return 0;
}

struct solver *dawn_trajectory_solver_new(const struct dawn_network *network, double rtol,
                                          double atol_K)
{
    struct solver *solver = calloc(1, sizeof *solver);
    if (!solver)
        return NULL;
    solver->network = network;
    solver->rtol = rtol;
    solver->atol_K = atol_K;
    solver->context = context_new();
    if (!solver->context)
        goto failed;
    solver->y = dawn_trajectory_vector_new(dawn_network_node_count(network), solver->context);
    solver->cvode = CVodeCreate(CV_BDF, solver->context);
    solver->tolerance =
        dawn_trajectory_vector_new(dawn_network_node_count(network), solver->context);
    if (!solver->y || !solver->tolerance || !solver->cvode ||
        !dawn_trajectory_linear_make(&solver->linear, network, solver->context))
        goto failed;
    return solver;
failed:
    dawn_trajectory_solver_free(solver);
    return NULL;
}

void dawn_trajectory_solver_free(struct solver *solver)
{
    if (!solver)
        return;
    CVodeFree(&solver->cvode);
    dawn_trajectory_linear_release(&solver->linear);
    if (solver->y)
        N_VDestroy(solver->y);
    if (solver->tolerance)
        N_VDestroy(solver->tolerance);
    SUNContext_Free(&solver->context);
    free(solver);
}

/* A kelvin of rock is more heat than a kelvin of glass. The tolerance of a node falls with the root
 * of its heat, so that errors weigh as heat does and the balance closes; a uniform one that closed
 * it as well took a sixth more steps on 200 random nurseries. Water comes and goes at the corners
 * of its laws (dry, wet, full) and is followed more closely, but for the vapour between stones:
 * that weighs next to nothing and settles within a second. */
double dawn_trajectory_tolerance_K(const struct dawn_node *node, double atol_K)
{
    const double light_J_K = 2e4;
    const double least_share = 0.01;
    const double water_share = 0.1;
    bool water = node->role == DAWN_ROLE_VAPOUR || node->role == DAWN_ROLE_FILM;
    double share = fmax(sqrt(light_J_K / node->heat_J_K), least_share);
    return atol_K * (water ? fmin(water_share * share, 1.0) : fmin(share, 1.0));
}

static void set_tolerances(struct solver *solver)
{
    double *tolerance = dawn_trajectory_vector_data(solver->tolerance);
    for (size_t i = 0; i < dawn_network_node_count(solver->network); ++i)
        tolerance[i] =
            dawn_trajectory_tolerance_K(dawn_network_node(solver->network, i), solver->atol_K);
}

/* Surfaces that wet, dry, freeze and thaw change their slopes within a few steps. Newton with
 * slopes of long ago ends beside the solution, first on one side, then on the other, and keeps the
 * steps short: on the demo nursery these take a quarter off CVODE's usual number of steps. */
static bool stay_fresh(void *cvode)
{
    const long steps = 5;      /* between looks at the slopes, and at the factors */
    const double share = 0.03; /* of the tolerated error left to Newton, usually 0.1 */
    return CVodeSetJacEvalFrequency(cvode, steps) == CV_SUCCESS &&
           CVodeSetLSetupFrequency(cvode, steps) == CV_SUCCESS &&
           CVodeSetNonlinConvCoef(cvode, share) == CV_SUCCESS;
}

static bool first_begin(struct solver *solver)
{
    set_tolerances(solver);
    return CVodeInit(solver->cvode, rates, 0.0, solver->y) == CV_SUCCESS && silence(solver) &&
           CVodeSetUserData(solver->cvode, solver) == CV_SUCCESS &&
           CVodeSVtolerances(solver->cvode, solver->rtol, solver->tolerance) == CV_SUCCESS &&
           CVodeSetLinearSolver(solver->cvode, solver->linear.solver, solver->linear.matrix) ==
               CV_SUCCESS &&
           CVodeSetLinSysFn(solver->cvode, linear_system) == CV_SUCCESS &&
           stay_fresh(solver->cvode);
}

/* Only the crossing that switches counts: upward while off, downward while on. */
static bool watch(struct solver *solver)
{
    if (CVodeRootInit(solver->cvode, solver->watch_fan ? 1 : 0, fan_wish) != CV_SUCCESS)
        return false;
    if (!solver->watch_fan)
        return true;
    int direction = solver->fan != DAWN_FAN_OFF ? -1 : 1;
    return CVodeSetRootDirection(solver->cvode, &direction) == CV_SUCCESS &&
           CVodeSetNoInactiveRootWarn(solver->cvode) == CV_SUCCESS;
}

static void gather_facts(struct solver *solver, struct dawn_trajectory_facts *facts)
{
    long steps = 0;
    long rhs = 0;
    long failures = 0;
    CVodeGetNumSteps(solver->cvode, &steps);
    CVodeGetNumRhsEvals(solver->cvode, &rhs);
    CVodeGetNumErrTestFails(solver->cvode, &failures);
    facts->steps += steps;
    facts->rhs_evaluations += rhs;
    facts->error_test_failures += failures;
}

bool dawn_trajectory_solver_begin(struct solver *solver, double t_s, const double y[],
                                  enum dawn_fan_state fan, bool watch_fan)
{
    memcpy(dawn_trajectory_vector_data(solver->y), y,
           dawn_network_node_count(solver->network) * sizeof *y);
    solver->origin_s = t_s;
    solver->fan = fan;
    solver->watch_fan = watch_fan;
    if (!solver->started) {
        solver->started = first_begin(solver);
        return solver->started && watch(solver);
    }
    gather_facts(solver, &solver->past);
    return CVodeReInit(solver->cvode, 0.0, solver->y) == CV_SUCCESS && watch(solver);
}

enum solver_event dawn_trajectory_solver_step(struct solver *solver, double stop_s, double *t_s,
                                              const double **y)
{
    sunrealtype t = 0;
    if (CVodeSetStopTime(solver->cvode, stop_s - solver->origin_s) != CV_SUCCESS)
        return SOLVER_FAILED;
    int flag = CVode(solver->cvode, stop_s - solver->origin_s, solver->y, &t, CV_ONE_STEP);
    *t_s = solver->origin_s + t;
    *y = dawn_trajectory_vector_data(solver->y);
    switch (flag) {
    case CV_SUCCESS:
        return SOLVER_STEPPED;
    case CV_TSTOP_RETURN:
        *t_s = stop_s;
        return SOLVER_STOPPED;
    case CV_ROOT_RETURN:
        return SOLVER_SWITCHES;
    default:
        return SOLVER_FAILED;
    }
}

void dawn_trajectory_solver_add_facts(struct solver *solver, struct dawn_trajectory_facts *facts)
{
    struct dawn_trajectory_facts *past = &solver->past;
    gather_facts(solver, facts);
    facts->steps += past->steps;
    facts->rhs_evaluations += past->rhs_evaluations;
    facts->jacobian_evaluations += solver->linear.evaluations;
    facts->error_test_failures += past->error_test_failures;
}

const char *dawn_trajectory_solver_version(void)
{
    static char version[32];
    if (version[0] == '\0' && SUNDIALSGetVersion(version, sizeof version) != 0)
        return "unknown";
    return version;
}
