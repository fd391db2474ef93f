/* Correlated noise, and how large forecast errors are. */
#include "studies/errors.h"

#include <math.h>

void dawn_errors_hourly(double *z, size_t hours, double memory_h, struct dawn_random *random)
{
    const double kept = exp(-1.0 / memory_h);
    const double fresh = sqrt(1.0 - kept * kept);

    for (size_t i = 0; i < hours; i++) {
        const double drawn = dawn_random_normal(random);
        z[i] = i == 0 ? drawn : kept * z[i - 1] + fresh * drawn;
    }
}

void dawn_errors_chain(double *node, size_t days, double memory)
{
    const double fresh = sqrt(1.0 - memory * memory);

    for (size_t i = 1; i < days; i++) {
        node[i] = memory * node[i - 1] + fresh * node[i];
    }
}

double dawn_errors_daily(const double *node, size_t days, double memory, double day)
{
    const size_t at = (size_t)day;

    if (at + 1 >= days) {
        return node[days - 1];
    }
    const double late = day - (double)at;
    const double early = 1.0 - late;
    const double deviation = sqrt(early * early + late * late + 2.0 * early * late * memory);
    return (early * node[at] + late * node[at + 1]) / deviation;
}

double dawn_errors_air_K(const struct dawn_doubt *doubt, double lead_h)
{
    const double later_days = fmin(fmax(lead_h / 24.0 - 1.0, 0.0), 6.0);

    return doubt->air_first_day_K +
           (doubt->air_seventh_day_K - doubt->air_first_day_K) * later_days / 6.0;
}

double dawn_errors_onset(double lead_h)
{
    return fmin(fmax(lead_h / 6.0, 0.0), 1.0);
}
