/* What callers may know of a network. */
#include <math.h>

#include "dawnlow/physics/water.h"
#include "network/network_parts.h"

size_t dawn_network_node_count(const struct dawn_network *network)
{
    return network->node_count;
}

const struct dawn_node *dawn_network_node(const struct dawn_network *network, size_t node)
{
    return &network->nodes[node].facts;
}

int dawn_network_air(const struct dawn_network *network)
{
    return network->air;
}

int dawn_network_trays(const struct dawn_network *network)
{
    return network->trays;
}

int dawn_network_leaf(const struct dawn_network *network)
{
    return network->leaf;
}

int dawn_network_root(const struct dawn_network *network)
{
    return network->root;
}

int dawn_network_ridge(const struct dawn_network *network)
{
    return network->ridge == network->air ? DAWN_NO_NODE : network->ridge;
}

int dawn_network_rock_in(const struct dawn_network *network)
{
    return network->rock_count > 0 ? network->rock[0] : DAWN_NO_NODE;
}

int dawn_network_rock_out(const struct dawn_network *network)
{
    return network->rock_count > 0 ? network->rock[network->rock_count - 1] : DAWN_NO_NODE;
}

int64_t dawn_network_from_s(const struct dawn_network *network)
{
    return network->forcing.from_s;
}

int64_t dawn_network_to_s(const struct dawn_network *network)
{
    return network->forcing.from_s + (int64_t)(network->forcing.knots - 1) * FORCING_STEP_S;
}

int64_t dawn_network_lit_from_s(const struct dawn_network *network)
{
    int64_t from_s = dawn_network_from_s(network);
    return network->lit_from_s > from_s ? network->lit_from_s : from_s;
}

int64_t dawn_network_lit_to_s(const struct dawn_network *network)
{
    int64_t to_s = dawn_network_to_s(network);
    return network->lit_to_s < to_s ? network->lit_to_s : to_s;
}

size_t dawn_network_flow_count(const struct dawn_network *network)
{
    return network->first[KIND_COUNT];
}

/* Outside places are no nodes to a caller. */
static int node_or_none(const struct dawn_network *network, int place)
{
    return place < (int)network->node_count ? place : DAWN_NO_NODE;
}

static enum dawn_fan_state blown(const struct dawn_network *network, size_t flow,
                                 enum link_kind kind)
{
    if (kind != KIND_stream)
        return DAWN_FAN_OFF;
    const struct stream_link *link = &network->stream[flow - network->first[KIND_stream]];
    return link->law.reversed > 0 ? DAWN_FAN_BACK : DAWN_FAN_ONWARD;
}

struct dawn_flow dawn_network_flow(const struct dawn_network *network, size_t flow)
{
    enum link_kind kind = KIND_COUNT;
    const struct link *link = dawn_network_link(network, flow, &kind);
    return (struct dawn_flow){.name = link->name,
                              .kind = dawn_network_kind_words(kind),
                              .group = link->group,
                              .water = kind == KIND_film || kind == KIND_soak || kind == KIND_drip,
                              .blown = blown(network, flow, kind),
                              .from = node_or_none(network, network->ends[flow].from),
                              .to = node_or_none(network, network->ends[flow].to)};
}

bool dawn_network_among_stones(const struct dawn_network *network, size_t node)
{
    for (size_t i = 0; i < network->damp_count; ++i)
        if (network->damp[i].film == (int)node || network->damp[i].link.from == (int)node)
            return true;
    return false;
}

bool dawn_network_has_fan(const struct dawn_network *network)
{
    return network->has_fan;
}

double dawn_network_fan_power_W(const struct dawn_network *network)
{
    return network->has_fan ? network->fan.power_W : 0.0;
}

double dawn_network_fan_least_run_s(const struct dawn_network *network)
{
    return network->has_fan ? network->fan.least_run_s : 0.0;
}

double dawn_network_spin_up_s(const struct dawn_network *network)
{
    return network->spin_up_s;
}

double dawn_network_outside_C(const struct dawn_network *network, double t_s)
{
    return dawn_network_forcing_air_C(&network->forcing, t_s);
}

double dawn_network_outside_mean_C(const struct dawn_network *network, double from_s, double to_s)
{
    const struct forcing *forcing = &network->forcing;
    double origin = (double)forcing->from_s;
    double sum = 0;
    for (double at = from_s; at < to_s;) {
        /* Straight from knot to knot: the middle is the mean. */
        double knot = origin + (floor((at - origin) / FORCING_STEP_S) + 1.0) * FORCING_STEP_S;
        double end = fmin(knot, to_s);
        sum += (end - at) * dawn_network_forcing_air_C(forcing, 0.5 * (at + end));
        at = end;
    }
    return sum / (to_s - from_s);
}

size_t dawn_network_cover_count(const struct dawn_network *network)
{
    return network->night_cover_count;
}

const char *dawn_network_cover_name(const struct dawn_network *network, size_t cover)
{
    return network->covers[cover].name;
}

double dawn_network_cover_drawn(const struct dawn_network *network, size_t cover, double t_s)
{
    return dawn_network_forcing_drawn(&network->forcing, cover, t_s);
}

double dawn_network_snow_lies(const struct dawn_network *network, double t_s)
{
    /* The first column behind the night covers': network_snow.c. */
    return network->cover_count > network->night_cover_count
               ? dawn_network_forcing_drawn(&network->forcing, network->night_cover_count, t_s)
               : 0.0;
}

static size_t knot_before(const struct forcing *forcing, double t_s)
{
    double knot = floor((t_s - (double)forcing->from_s) / FORCING_STEP_S);
    return (size_t)fmin(fmax(knot, 0.0), (double)forcing->knots - 1.0);
}

/* Mean outdoor temperature of the day from a knot on: a house without a past is as warm as its air
 * was. */
static double first_day_C(const struct forcing *forcing, size_t from)
{
    size_t day = (size_t)24 * FORCING_PER_HOUR;
    size_t count = forcing->knots - from < day ? forcing->knots - from : day;
    double sum = 0;
    for (size_t i = from; i < from + count; ++i)
        sum += forcing->air_C[i];
    return sum / (double)count;
}

static double start_of(const struct dawn_network *network, const struct network_node *node,
                       double house_C, size_t knot)
{
    double T = house_C + node->deep_share * (network->forcing.deep_C[knot] - house_C);
    if (node->facts.role == DAWN_ROLE_VAPOUR)
        return network->forcing.vapour_K[knot];
    if (node->facts.role == DAWN_ROLE_FILM || node->facts.role == DAWN_ROLE_FROST)
        return 0.0;
    if (node->facts.latent_J <= 0)
        return T;
    return dawn_water_to_enthalpy(T, node->facts.heat_J_K, node->facts.frozen_J_K,
                                  node->facts.latent_J);
}

void dawn_network_start(const struct dawn_network *network, double t_s, double y[])
{
    size_t knot = knot_before(&network->forcing, t_s);
    double house =
        isnan(network->start_C) ? first_day_C(&network->forcing, knot) : network->start_C;
    for (size_t i = 0; i < network->node_count; ++i)
        y[i] = start_of(network, &network->nodes[i], house, knot);
}
