/* dy/dt and its derivative: temperatures from states, one sweep over the kernels, a scatter. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dawnlow/physics/cover.h"
#include "dawnlow/physics/sky.h"
#include "dawnlow/physics/surface.h"
#include "dawnlow/physics/water.h"
#include "network/network_kernels.h"
#include "network/network_parts.h"

/* Everything one evaluation needs, so that nothing is kept between evaluations. The bounds are
 * those of the largest scenario the scenario room lets through. */
enum { PLACES_MOST = 1024, FLOWS_MOST = 4096 };
struct scratch {
    double T_C[PLACES_MOST];
    double slope[PLACES_MOST]; /* dT/dy */
    double emission_W_m2[PLACES_MOST];
    double emission_W_m2K[PLACES_MOST];
    double gain_W[PLACES_MOST];
    double drawn[COVERS_MOST];
    double veil[VEILS_MOST];
    struct surface_now surface[FLOWS_MOST];
    double W[FLOWS_MOST];
    double slope_W_K[FLOWS_MOST][LEANS]; /* of W, where asked for */
};

bool dawn_network_fits(const struct dawn_network *network)
{
    return network->node_count + OUTSIDE_PLACES <= PLACES_MOST &&
           network->first[KIND_COUNT] <= FLOWS_MOST;
}

static struct dawn_water_state node_state(const struct dawn_node *node, double y)
{
    if (node->latent_J <= 0)
        return (struct dawn_water_state){.temperature_C = y, .slope = 1.0};
    return dawn_water_from_enthalpy(y, node->heat_J_K, node->frozen_J_K, node->latent_J);
}

double dawn_network_temperature_C(const struct dawn_network *network, size_t node, double y)
{
    return node_state(&network->nodes[node].facts, y).temperature_C;
}

double dawn_network_slope(const struct dawn_network *network, size_t node, double y)
{
    return node_state(&network->nodes[node].facts, y).slope;
}

static void emit(struct scratch *scratch, size_t place)
{
    double T_K = scratch->T_C[place] + 273.15;
    double cube = DAWN_STEFAN_BOLTZMANN * T_K * T_K * T_K;
    scratch->emission_W_m2[place] = cube * T_K;
    scratch->emission_W_m2K[place] = 4.0 * cube;
}

static double veil_factor(const struct dawn_network *net, const double drawn[],
                          struct veil_factor factor)
{
    const struct network_cover *cover = &net->covers[factor.cover];
    double share = drawn[factor.cover];
    switch (factor.part) {
    case VEIL_DRAWN:
        return share;
    case VEIL_GAP:
        return dawn_cover_gap(share);
    case VEIL_PASSES:
        return 1.0 - share * (1.0 - cover->passes);
    case VEIL_INNER:
        return share * cover->takes_inside;
    case VEIL_OUTER:
        return share * cover->takes_outside;
    }
    return 1.0;
}

void dawn_network_veils(const struct dawn_network *network, const double drawn[], double veil[])
{
    for (size_t i = 0; i < network->veil_count; ++i) {
        veil[i] = 1.0;
        for (size_t k = 0; k < network->veils[i].count; ++k)
            veil[i] *= veil_factor(network, drawn, network->veils[i].factor[k]);
    }
}

/* Every kernel over all links of its kind: one call after another, no tangle. Most sweeps want no
 * slopes; compiled for those, the kernels do not work them out. */
/* NOLINTBEGIN(readability-function-cognitive-complexity) */
static inline __attribute__((always_inline)) void sweep_links(const struct dawn_network *net,
                                                              struct sweep *sweep,
                                                              struct scratch *scratch, bool slopes)
{
    const struct laws laws = laws_in(net->numbers, net->node_count, net->first);
    size_t flow = 0;
    sweep_openings(laws.vent, net->ends + net->first[KIND_vent], net->vent_count, sweep);
#define SWEEP(kind, words)                                                                         \
    for (size_t i = 0; i < net->kind##_count; ++i, ++flow) {                                       \
        const struct flux flux = kind##_flux(&laws.kind[i], sweep, &net->ends[flow]);              \
        scratch->W[flow] = flux.W;                                                                 \
        for (int k = 0; k < LEANS && slopes; ++k)                                                  \
            scratch->slope_W_K[flow][k] = flux.slope_W_K[k];                                       \
    }
    DAWN_LINK_KINDS(SWEEP)
#undef SWEEP
}
/* NOLINTEND(readability-function-cognitive-complexity) */

static void sweep_at(const struct dawn_network *net, enum dawn_fan_state fan, double t_s,
                     const double y[], struct scratch *scratch, bool slopes)
{
    size_t n = net->node_count;
    struct sweep sweep = {.fan_on = fan != DAWN_FAN_OFF,
                          .back = fan == DAWN_FAN_BACK,
                          .T_C = scratch->T_C,
                          .emission_W_m2 = scratch->emission_W_m2,
                          .emission_W_m2K = scratch->emission_W_m2K,
                          .gain_W = scratch->gain_W,
                          .veil = scratch->veil,
                          .pressure_Pa = net->pressure_Pa,
                          .surface = scratch->surface};
    struct forcing_now now =
        dawn_network_forcing_at(&net->forcing, t_s, scratch->gain_W, scratch->drawn);
    for (size_t i = 0; i < net->opening_count; ++i)
        sweep.open_hours[i] = dawn_network_forcing_hours(&net->opening[i].hours, t_s);
    dawn_network_veils(net, scratch->drawn, scratch->veil);
    sweep.air_C = now.air_C;
    sweep.sky_W_m2 = now.sky_W_m2;
    sweep.wind_m_s = now.wind_m_s;
    sweep.outdoor_fan = now.outdoor_fan;
    sweep.wind_film_W_m2K = surface_wind_film(now.wind_m_s);
    for (size_t i = 0; i < n; ++i) {
        struct dawn_water_state state = node_state(&net->nodes[i].facts, y[i]);
        scratch->T_C[i] = state.temperature_C;
        scratch->slope[i] = state.slope;
    }
    double *outside = scratch->T_C + n;
    outside[OUTSIDE_AIR] = now.air_C;
    outside[OUTSIDE_SKY] = now.air_C; /* only named: the sky kernel uses the radiation */
    outside[OUTSIDE_EDGE] = now.edge_C;
    outside[OUTSIDE_DEEP] = now.deep_C;
    outside[OUTSIDE_SUN] = outside[OUTSIDE_POWER] = outside[OUTSIDE_WATER] = 0;
    outside[OUTSIDE_VAPOUR] = now.vapour_K;
    for (size_t i = 0; i < n + OUTSIDE_PLACES; ++i)
        emit(scratch, i);
    sweep.outdoor_W_m2 = scratch->emission_W_m2[n + OUTSIDE_AIR];
    if (slopes)
        sweep_links(net, &sweep, scratch, true);
    else
        sweep_links(net, &sweep, scratch, false);
}

/* dy_row/dt changes by W_K / heat(row) for each kelvin of col. */
static void jacobian_add(const struct dawn_network *net, const struct scratch *scratch,
                         double *jacobian, int row, int col, double W_K)
{
    int n = (int)net->node_count;
    if (row < n && col < n)
        jacobian[col * n + row] += W_K * scratch->slope[col] / net->nodes[row].facts.heat_J_K;
}

static void fill_jacobian(const struct dawn_network *net, enum dawn_fan_state fan,
                          const struct scratch *scratch, double *jacobian)
{
    size_t n = net->node_count;
    size_t flows = net->first[KIND_COUNT];
    memset(jacobian, 0, n * n * sizeof *jacobian);
    for (size_t i = 0; i < flows; ++i) {
        const struct ends *ends = &net->ends[i];
        for (int k = 0; k < LEANS; ++k) {
            if (ends->lean[k] < 0)
                continue;
            double slope = scratch->slope_W_K[i][k];
            jacobian_add(net, scratch, jacobian, ends->from, ends->lean[k], -slope);
            jacobian_add(net, scratch, jacobian, ends->to, ends->lean[k], slope);
        }
    }
    if (fan == DAWN_FAN_OFF)
        return;
    const struct laws laws = laws_in(net->numbers, net->node_count, net->first);
    const struct ends *ends = net->ends + net->first[KIND_stream];
    for (size_t i = 1; i < net->stream_count; ++i) {
        double goes = stream_goes(&laws.stream[i], fan == DAWN_FAN_BACK);
        for (size_t j = i - ends[i].row; j < i && goes > 0; ++j) {
            double W_K = goes * stream_slope(laws.stream, i, j);
            jacobian_add(net, scratch, jacobian, ends[i].to, ends[j].to, W_K);
            jacobian_add(net, scratch, jacobian, ends[i].from, ends[j].to, -W_K);
        }
    }
}

static double heat_of(const double W[], const size_t list[], size_t start, size_t end)
{
    double sum = 0;
    for (size_t i = start; i < end; ++i)
        sum += W[list[i]];
    return sum;
}

static void gather_rates(const struct dawn_network *net, const struct scratch *scratch,
                         double dydt[])
{
    for (size_t i = 0; i < net->node_count; ++i) {
        double in =
            heat_of(scratch->W, net->reaching, net->reaching_start[i], net->reaching_start[i + 1]);
        double out =
            heat_of(scratch->W, net->leaving, net->leaving_start[i], net->leaving_start[i + 1]);
        dydt[i] = (in - out) / net->nodes[i].facts.heat_J_K;
    }
}

static void mark(const struct dawn_network *net, bool pattern[], int row, int col)
{
    int n = (int)net->node_count;
    if (row < n && col < n)
        pattern[col * n + row] = true;
}

void dawn_network_pattern(const struct dawn_network *network, bool pattern[])
{
    size_t n = network->node_count;
    size_t first = network->first[KIND_stream];
    memset(pattern, 0, n * n * sizeof *pattern);
    for (size_t i = 0; i < n; ++i)
        pattern[i * n + i] = true;
    for (size_t i = 0; i < network->first[KIND_COUNT]; ++i) {
        for (int k = 0; k < LEANS; ++k) {
            const struct ends *ends = &network->ends[i];
            if (ends->lean[k] < 0)
                continue;
            mark(network, pattern, ends->from, ends->lean[k]);
            mark(network, pattern, ends->to, ends->lean[k]);
        }
    }
    for (size_t i = 1; i < network->stream_count; ++i)
        for (size_t j = i - network->ends[first + i].row; j < i; ++j)
            mark(network, pattern, network->ends[first + i].to, network->ends[first + j].to);
}

void dawn_network_rates(const struct dawn_network *network, enum dawn_fan_state fan, double t_s,
                        const double y[], double dydt[], double *jacobian)
{
    struct scratch scratch;
    sweep_at(network, fan, t_s, y, &scratch, jacobian != NULL);
    gather_rates(network, &scratch, dydt);
    if (jacobian)
        fill_jacobian(network, fan, &scratch, jacobian);
}

void dawn_network_flows_W(const struct dawn_network *network, enum dawn_fan_state fan, double t_s,
                          const double y[], double watts[], double dydt[])
{
    struct scratch scratch;
    sweep_at(network, fan, t_s, y, &scratch, false);
    gather_rates(network, &scratch, dydt);
    for (size_t i = 0; i < network->first[KIND_COUNT]; ++i)
        watts[i] = scratch.W[i];
}

/* All of a flow's dependence on one place, whichever way it leans on it. */
static double slope_by(const struct dawn_network *network, const struct scratch *scratch,
                       size_t flow, int place)
{
    double sum = 0;
    for (int k = 0; k < LEANS; ++k)
        if (network->ends[flow].lean[k] == place)
            sum += scratch->slope_W_K[flow][k];
    return sum;
}

void dawn_network_conductances_W_K(const struct dawn_network *network, enum dawn_fan_state fan,
                                   double t_s, const double y[], double from_W_K[], double to_W_K[])
{
    struct scratch scratch;
    sweep_at(network, fan, t_s, y, &scratch, true);
    for (size_t i = 0; i < network->first[KIND_COUNT]; ++i) {
        from_W_K[i] = slope_by(network, &scratch, i, network->ends[i].from);
        to_W_K[i] = slope_by(network, &scratch, i, network->ends[i].to);
    }
}
