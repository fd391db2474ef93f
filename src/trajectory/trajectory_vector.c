/* The vector's numbers lie in one block, padded with zeros to whole groups of four, so that every
 * loop runs over groups and sums keep four lanes. The padding stays harmless: weights there are
 * zero, and whatever is computed there is never read. */
#include "trajectory/trajectory_vector.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { GROUP = 4 };

struct content {
    size_t length, padded;
    double data[];
};

static struct content *content_of(N_Vector vector)
{
    return vector->content;
}

double *dawn_trajectory_vector_data(N_Vector vector)
{
    return content_of(vector)->data;
}

static sunindextype length_of(N_Vector vector)
{
    return (sunindextype)content_of(vector)->length;
}

static void linear_sum(sunrealtype a, N_Vector x, sunrealtype b, N_Vector y, N_Vector z)
{
    const double *px = content_of(x)->data;
    const double *py = content_of(y)->data;
    double *pz = content_of(z)->data;
    for (size_t i = 0; i < content_of(z)->padded; ++i)
        pz[i] = a * px[i] + b * py[i];
}

static void set_constant(sunrealtype c, N_Vector z)
{
    double *pz = content_of(z)->data;
    for (size_t i = 0; i < content_of(z)->padded; ++i)
        pz[i] = c;
}

static void multiply(N_Vector x, N_Vector y, N_Vector z)
{
    const double *px = content_of(x)->data;
    const double *py = content_of(y)->data;
    double *pz = content_of(z)->data;
    for (size_t i = 0; i < content_of(z)->padded; ++i)
        pz[i] = px[i] * py[i];
}

static void divide(N_Vector x, N_Vector y, N_Vector z)
{
    const double *px = content_of(x)->data;
    const double *py = content_of(y)->data;
    double *pz = content_of(z)->data;
    for (size_t i = 0; i < content_of(z)->length; ++i)
        pz[i] = px[i] / py[i];
}

static void scale(sunrealtype c, N_Vector x, N_Vector z)
{
    const double *px = content_of(x)->data;
    double *pz = content_of(z)->data;
    for (size_t i = 0; i < content_of(z)->padded; ++i)
        pz[i] = c * px[i];
}

static void absolute(N_Vector x, N_Vector z)
{
    const double *px = content_of(x)->data;
    double *pz = content_of(z)->data;
    for (size_t i = 0; i < content_of(z)->padded; ++i)
        pz[i] = fabs(px[i]);
}

/* CVODE turns its tolerances into weights with this: the padding's weight must come out zero. */
static void invert(N_Vector x, N_Vector z)
{
    const double *px = content_of(x)->data;
    struct content *to = content_of(z);
    for (size_t i = 0; i < to->length; ++i)
        to->data[i] = 1.0 / px[i];
    for (size_t i = to->length; i < to->padded; ++i)
        to->data[i] = 0.0;
}

static void add_constant(N_Vector x, sunrealtype b, N_Vector z)
{
    const double *px = content_of(x)->data;
    double *pz = content_of(z)->data;
    for (size_t i = 0; i < content_of(z)->padded; ++i)
        pz[i] = px[i] + b;
}

static sunrealtype greatest(N_Vector x)
{
    const double *px = content_of(x)->data;
    double most = 0;
    for (size_t i = 0; i < content_of(x)->length; ++i)
        most = fmax(most, fabs(px[i]));
    return most;
}

static sunrealtype least(N_Vector x)
{
    const double *px = content_of(x)->data;
    double low = px[0];
    for (size_t i = 1; i < content_of(x)->length; ++i)
        low = fmin(low, px[i]);
    return low;
}

static sunrealtype weighted_norm(N_Vector x, N_Vector w)
{
    const double *px = content_of(x)->data;
    const double *pw = content_of(w)->data;
    double sum[GROUP] = {0, 0, 0, 0};
    for (size_t i = 0; i < content_of(x)->padded; i += GROUP) {
        for (size_t k = 0; k < GROUP; ++k) {
            double part = px[i + k] * pw[i + k];
            sum[k] += part * part;
        }
    }
    return sqrt((sum[0] + sum[1] + sum[2] + sum[3]) / (double)content_of(x)->length);
}

static void destroy(N_Vector vector)
{
    if (!vector)
        return;
    free(vector->content);
    vector->content = NULL;
    N_VFreeEmpty(vector);
}

static N_Vector clone(N_Vector like)
{
    return dawn_trajectory_vector_new(content_of(like)->length, like->sunctx);
}

N_Vector dawn_trajectory_vector_new(size_t length, SUNContext context)
{
    size_t padded = (length + GROUP - 1) / GROUP * GROUP;
    struct content *content = calloc(1, sizeof *content + padded * sizeof(double));
    N_Vector vector = content ? N_VNewEmpty(context) : NULL;
    if (!vector) {
        free(content);
        return NULL;
    }
    content->length = length;
    content->padded = padded;
    vector->content = content;
    vector->ops->nvclone = clone;
    vector->ops->nvdestroy = destroy;
    vector->ops->nvgetarraypointer = dawn_trajectory_vector_data;
    vector->ops->nvgetlength = length_of;
    vector->ops->nvlinearsum = linear_sum;
    vector->ops->nvconst = set_constant;
    vector->ops->nvprod = multiply;
    vector->ops->nvdiv = divide;
    vector->ops->nvscale = scale;
    vector->ops->nvabs = absolute;
    vector->ops->nvinv = invert;
    vector->ops->nvaddconst = add_constant;
    vector->ops->nvmaxnorm = greatest;
    vector->ops->nvmin = least;
    vector->ops->nvwrmsnorm = weighted_norm;
    return vector;
}
