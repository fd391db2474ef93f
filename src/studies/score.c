/* Scores of probability forecasts: closed forms and sums. */
#include "dawnlow/studies/score.h"

#include <math.h>

double dawn_score_crps_normal(double mean, double deviation, double y)
{
    const double root_pi = 1.7724538509055161;
    const double root_two = 1.4142135623730951;
    const double z = (y - mean) / deviation;
    const double density = exp(-0.5 * z * z) / (root_pi * root_two);

    return deviation * (z * erf(z / root_two) + 2.0 * density - 1.0 / root_pi);
}

static double mean_distance(const double *member, size_t count, double y)
{
    double sum = 0.0;

    for (size_t i = 0; i < count; i++) {
        sum += fabs(member[i] - y);
    }
    return sum / (double)count;
}

/* Sum of |x_i - x_j| over all pairs, each once. */
static double pairs_apart(const double *member, size_t count)
{
    double sum = 0.0;

    for (size_t i = 1; i < count; i++) {
        for (size_t k = 0; k < i; k++) {
            sum += fabs(member[i] - member[k]);
        }
    }
    return sum;
}

double dawn_score_crps(const double *member, size_t count, double y)
{
    return mean_distance(member, count, y) -
           pairs_apart(member, count) / ((double)count * (double)count);
}

double dawn_score_crps_fair(const double *member, size_t count, double y)
{
    return mean_distance(member, count, y) -
           pairs_apart(member, count) / ((double)count * (double)(count - 1));
}

double dawn_score_brier(const double *chance, const double *happened, size_t count)
{
    double sum = 0.0;

    for (size_t i = 0; i < count; i++) {
        sum += (chance[i] - happened[i]) * (chance[i] - happened[i]);
    }
    return sum / (double)count;
}

size_t dawn_score_rank(const double *member, size_t count, double y)
{
    size_t below = 0;

    for (size_t i = 0; i < count; i++) {
        below += member[i] < y ? 1 : 0;
    }
    return below;
}

double dawn_score_unevenness(const size_t *counted, size_t bins)
{
    double all = 0.0;
    double sum = 0.0;

    for (size_t i = 0; i < bins; i++) {
        all += (double)counted[i];
    }
    const double wanted = all / (double)bins;
    for (size_t i = 0; i < bins; i++) {
        sum += ((double)counted[i] - wanted) * ((double)counted[i] - wanted) / wanted;
    }
    return sum;
}

double dawn_score_quantile(const double *sorted, size_t count, double share)
{
    const double place = share * (double)(count - 1);
    const size_t at = (size_t)place;

    if (at + 1 >= count) {
        return sorted[count - 1];
    }
    return sorted[at] + (place - (double)at) * (sorted[at + 1] - sorted[at]);
}

int dawn_score_ascending(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;

    return (x > y) - (x < y);
}
