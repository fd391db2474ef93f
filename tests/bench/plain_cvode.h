/* The same network by CVODE as the first example of its manual would do it: the library's serial
 * vector, a dense matrix, the Jacobian by difference quotients, free over the corners of the
 * weather; the thermostat as a root, met by starting afresh. What our own way is measured
 * against. */
#ifndef TESTS_PLAIN_CVODE_H
#define TESTS_PLAIN_CVODE_H

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <string.h>
#include <sundials/sundials_version.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include "dawnlow/network.h"

struct plain_cvode {
    const struct dawn_network *network;
    double origin_s;
    bool fan_on;
};

static int plain_rates(sunrealtype t, N_Vector y, N_Vector dydt, void *user)
{
    const struct plain_cvode *plain = user;
    dawn_network_rates(plain->network, plain->fan_on, plain->origin_s + t, N_VGetArrayPointer(y),
                       N_VGetArrayPointer(dydt), NULL);
    return 0;
}

static int plain_wish(sunrealtype t, N_Vector y, sunrealtype *wish, void *user)
{
    const struct plain_cvode *plain = user;
    (void)t;
    wish[0] = dawn_network_fan_wish(plain->network, plain->fan_on, N_VGetArrayPointer(y));
    return 0;
}

static SUNContext plain_context(void)
{
    SUNContext context = NULL;
#if SUNDIALS_VERSION_MAJOR >= 7
    (void)SUNContext_Create(SUN_COMM_NULL, &context);
#else
    (void)SUNContext_Create(NULL, &context);
#endif
    return context;
}

/* From the network's own start through all its weather. Returns how many steps it took, 0 when it
 * failed. */
static long plain_cvode_run(const struct dawn_network *network, double rtol, double atol_K)
{
    const size_t n = dawn_network_node_count(network);
    struct plain_cvode plain = {.network = network,
                                .origin_s = (double)dawn_network_from_s(network)};
    const double end_s = (double)dawn_network_to_s(network) - plain.origin_s;
    const SUNContext context = plain_context();
    N_Vector y = N_VNew_Serial((sunindextype)n, context);
    SUNMatrix matrix = SUNDenseMatrix((sunindextype)n, (sunindextype)n, context);
    SUNLinearSolver solver = SUNLinSol_Dense(y, matrix, context);
    void *cvode = CVodeCreate(CV_BDF, context);
    sunrealtype t = 0;
    long steps = 0;

    dawn_network_start(network, plain.origin_s, N_VGetArrayPointer(y));
    bool fine = CVodeInit(cvode, plain_rates, 0.0, y) == CV_SUCCESS &&
                CVodeSStolerances(cvode, rtol, atol_K) == CV_SUCCESS &&
                CVodeSetUserData(cvode, &plain) == CV_SUCCESS &&
                CVodeSetLinearSolver(cvode, solver, matrix) == CV_SUCCESS &&
                CVodeSetMaxNumSteps(cvode, -1) == CV_SUCCESS &&
                CVodeRootInit(cvode, 1, plain_wish) == CV_SUCCESS &&
                CVodeSetStopTime(cvode, end_s) == CV_SUCCESS;
    while (fine && t < end_s) {
        int direction = plain.fan_on ? -1 : 1;
        long now = 0;
        (void)CVodeSetRootDirection(cvode, &direction);
        const int flag = CVode(cvode, end_s, y, &t, CV_NORMAL);
        fine = flag >= 0;
        if (!fine || flag != CV_ROOT_RETURN)
            continue;
        (void)CVodeGetNumSteps(cvode, &now);
        steps += now;
        plain.fan_on = !plain.fan_on;
        fine =
            CVodeReInit(cvode, t, y) == CV_SUCCESS && CVodeSetStopTime(cvode, end_s) == CV_SUCCESS;
    }
    long last = 0;
    (void)CVodeGetNumSteps(cvode, &last);
    CVodeFree(&cvode);
    (void)SUNLinSolFree(solver);
    SUNMatDestroy(matrix);
    N_VDestroy(y);
    SUNContext context_to_free = context;
    SUNContext_Free(&context_to_free);
    return fine ? steps + last : 0;
}

#endif
