/* The forcing: storage and the value between knots. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "network/network_parts.h"

bool dawn_network_forcing_allocate(struct forcing *forcing, size_t knots, size_t gains,
                                   size_t covers)
{
    *forcing = (struct forcing){.knots = knots, .gains = gains, .covers = covers};
    forcing->air_C = calloc(knots, sizeof(double));
    forcing->sky_W_m2 = calloc(knots, sizeof(double));
    forcing->wind_m_s = calloc(knots, sizeof(double));
    forcing->edge_C = calloc(knots, sizeof(double));
    forcing->deep_C = calloc(knots, sizeof(double));
    forcing->vapour_K = calloc(knots, sizeof(double));
    forcing->gain_W = calloc(knots * gains + 1, sizeof(double));
    forcing->drawn = calloc(knots * covers + 1, sizeof(double));
    return forcing->air_C && forcing->sky_W_m2 && forcing->wind_m_s && forcing->edge_C &&
           forcing->deep_C && forcing->vapour_K && forcing->gain_W && forcing->drawn;
}

void dawn_network_forcing_release(struct forcing *forcing)
{
    free(forcing->air_C);
    free(forcing->sky_W_m2);
    free(forcing->wind_m_s);
    free(forcing->edge_C);
    free(forcing->deep_C);
    free(forcing->vapour_K);
    free(forcing->gain_W);
    free(forcing->drawn);
    *forcing = (struct forcing){0};
}

static const double hour_s = 3600.0, day_s = 86400.0;

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

struct day_hours dawn_network_day_hours(const struct dawn_scenario *scenario, double from_s,
                                        double until_s)
{
    return (struct day_hours){.from_s = from_s - scenario->site.utc_offset_h * hour_s,
                              .length_s =
                                  until_s > from_s ? until_s - from_s : until_s + day_s - from_s};
}

/* Seconds since something on a clock was last switched on. */
static double since_on_s(const struct day_hours *hours, double t_s)
{
    double since = fmod(t_s - hours->from_s, day_s);
    return since < 0 ? since + day_s : since;
}

static double ramp(double since_s)
{
    return fmin(fmax(since_s / SWITCHING_S, 0.0), 1.0);
}

double dawn_network_forcing_hours(const struct day_hours *hours, double t_s)
{
    double since = since_on_s(hours, t_s);
    if (hours->length_s >= day_s || hours->length_s <= 0)
        return hours->length_s > 0 ? 1.0 : 0.0;
    return ramp(since) - ramp(since - hours->length_s);
}

static double next_of(const struct day_hours *hours, double t_s)
{
    if (hours->length_s >= day_s || hours->length_s <= 0)
        return INFINITY;
    const double bends[] = {0, SWITCHING_S, hours->length_s, hours->length_s + SWITCHING_S};
    double next_s = INFINITY;
    for (size_t i = 0; i < sizeof bends / sizeof *bends; ++i) {
        struct day_hours from = {hours->from_s + bends[i], 0};
        double wait_s = day_s - since_on_s(&from, t_s);
        /* Within a thousandth of a second it is this one, not the next. */
        next_s = fmin(next_s, wait_s > 1e-3 ? wait_s : wait_s + day_s);
    }
    return t_s + next_s;
}

static double kink_at(const struct forcing *forcing, size_t knot)
{
    const double *g = forcing->gain_W + knot * forcing->gains;
    const double *d = forcing->drawn + knot * forcing->covers;
    double sum =
        fabs(forcing->air_C[knot - 1] - 2 * forcing->air_C[knot] + forcing->air_C[knot + 1]);
    for (size_t i = 0; i < forcing->gains; ++i)
        sum += fabs(g[i] - 0.5 * (g[i - forcing->gains] + g[i + forcing->gains]));
    for (size_t i = 0; i < forcing->covers; ++i)
        sum += fabs(d[i] - 0.5 * (d[i - forcing->covers] + d[i + forcing->covers]));
    return sum;
}

double dawn_network_next_turn_s(const struct dawn_network *network, double t_s)
{
    const struct forcing *forcing = &network->forcing;
    double origin = (double)forcing->from_s;
    size_t knot = (size_t)floor((t_s - origin) / FORCING_STEP_S) + 1;
    while (knot % FORCING_PER_HOUR != 0 && knot + 1 < forcing->knots &&
           kink_at(forcing, knot) < 1e-9)
        ++knot;
    return origin + (double)knot * FORCING_STEP_S;
}

double dawn_network_next_switch_s(const struct dawn_network *network, double t_s)
{
    double next = next_of(&network->forcing.outdoor_fan, t_s);
    for (size_t i = 0; i < network->opening_count; ++i)
        next = fmin(next, next_of(&network->opening[i].hours, t_s));
    return next;
}

/* The same of a row of values at each knot. */
static void rows_between(const double *rows, size_t width, struct knot knot, double out[])
{
    const double *low = rows + knot.at * width;
    const double *high = low + width;
    for (size_t i = 0; i < width; ++i)
        out[i] = low[i] + knot.share * (high[i] - low[i]);
}

struct forcing_now dawn_network_forcing_at(const struct forcing *forcing, double t_s,
                                           double *gain_W, double *drawn)
{
    struct knot knot = knot_at(forcing, t_s);
    rows_between(forcing->gain_W, forcing->gains, knot, gain_W);
    rows_between(forcing->drawn, forcing->covers, knot, drawn);
    return (struct forcing_now){
        .air_C = between(forcing->air_C, knot),
        .sky_W_m2 = between(forcing->sky_W_m2, knot),
        .wind_m_s = between(forcing->wind_m_s, knot),
        .edge_C = between(forcing->edge_C, knot),
        .deep_C = between(forcing->deep_C, knot),
        .vapour_K = between(forcing->vapour_K, knot),
        .outdoor_fan = dawn_network_forcing_hours(&forcing->outdoor_fan, t_s),
    };
}

double dawn_network_forcing_air_C(const struct forcing *forcing, double t_s)
{
    return between(forcing->air_C, knot_at(forcing, t_s));
}

double dawn_network_forcing_drawn(const struct forcing *forcing, size_t cover, double t_s)
{
    struct knot knot = knot_at(forcing, t_s);
    double low = forcing->drawn[knot.at * forcing->covers + cover];
    double high = forcing->drawn[(knot.at + 1) * forcing->covers + cover];
    return low + knot.share * (high - low);
}
