/* A vector for CVODE that is made for a few dozen states: the stock one spends more time on its
 * calls and special cases than on the numbers. Only what CVODE's BDF with Newton asks for. */
#ifndef TRAJECTORY_VECTOR_H
#define TRAJECTORY_VECTOR_H

#include <stddef.h>
#include <sundials/sundials_nvector.h>

/* A vector of length zeros; freed with N_VDestroy. NULL when memory ran out. */
N_Vector dawn_trajectory_vector_new(size_t length, SUNContext context);
double *dawn_trajectory_vector_data(N_Vector vector);

#endif
