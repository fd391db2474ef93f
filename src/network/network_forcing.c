/* The forcing: storage and the value between knots. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "network/network_parts.h"

bool dawn_network_forcing_allocate(struct forcing *forcing, size_t knots, size_t gains)
{
    *forcing = (struct forcing){.knots = knots, .gains = gains};
    forcing->air_C = calloc(knots, sizeof(double));
    forcing->sky_W_m2 = calloc(knots, sizeof(double));
    forcing->wind_m_s = calloc(knots, sizeof(double));
    forcing->edge_C = calloc(knots, sizeof(double));
    forcing->deep_C = calloc(knots, sizeof(double));
    forcing->vapour_K = calloc(knots, sizeof(double));
    forcing->outdoor_fan = calloc(knots, sizeof(double));
    forcing->gain_W = calloc(knots * gains + 1, sizeof(double));
    return forcing->air_C && forcing->sky_W_m2 && forcing->wind_m_s && forcing->edge_C &&
           forcing->deep_C && forcing->vapour_K && forcing->outdoor_fan && forcing->gain_W;
}

void dawn_network_forcing_release(struct forcing *forcing)
{
    free(forcing->air_C);
    free(forcing->sky_W_m2);
    free(forcing->wind_m_s);
    free(forcing->edge_C);
    free(forcing->deep_C);
    free(forcing->vapour_K);
    free(forcing->outdoor_fan);
    free(forcing->gain_W);
    *forcing = (struct forcing){0};
}

struct knot {
    size_t at;
    double share; /* of the way to the next knot */
};

static struct knot knot_at(const struct forcing *forcing, double t_s)
{
    double x = (t_s - (double)forcing->from_s) / FORCING_STEP_S;
    double last = (double)forcing->knots - 1.0;
    if (x <= 0 || forcing->knots < 2)
        return (struct knot){0, 0};
    if (x >= last)
        return (struct knot){forcing->knots - 2, 1.0};
    double whole = floor(x);
    return (struct knot){(size_t)whole, x - whole};
}

static double between(const double *knots, struct knot knot)
{
    return knots[knot.at] + knot.share * (knots[knot.at + 1] - knots[knot.at]);
}

struct forcing_now dawn_network_forcing_at(const struct forcing *forcing, double t_s,
                                           double *gain_W)
{
    struct knot knot = knot_at(forcing, t_s);
    const double *low = forcing->gain_W + knot.at * forcing->gains;
    const double *high = low + forcing->gains;
    for (size_t i = 0; i < forcing->gains; ++i)
        gain_W[i] = low[i] + knot.share * (high[i] - low[i]);
    return (struct forcing_now){
        .air_C = between(forcing->air_C, knot),
        .sky_W_m2 = between(forcing->sky_W_m2, knot),
        .wind_m_s = between(forcing->wind_m_s, knot),
        .edge_C = between(forcing->edge_C, knot),
        .deep_C = between(forcing->deep_C, knot),
        .vapour_K = between(forcing->vapour_K, knot),
        .outdoor_fan = between(forcing->outdoor_fan, knot),
    };
}

double dawn_network_forcing_air_C(const struct forcing *forcing, double t_s)
{
    return between(forcing->air_C, knot_at(forcing, t_s));
}
