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

int64_t dawn_network_from_s(const struct dawn_network *network)
{
    return network->forcing.from_s;
}

int64_t dawn_network_to_s(const struct dawn_network *network)
{
    return network->forcing.from_s + (int64_t)(network->forcing.knots - 1) * FORCING_STEP_S;
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

struct dawn_flow dawn_network_flow(const struct dawn_network *network, size_t flow)
{
    enum link_kind kind = KIND_COUNT;
    const struct link *link = dawn_network_link(network, flow, &kind);
    return (struct dawn_flow){.name = link->name,
                              .kind = dawn_network_kind_words(kind),
                              .group = link->group,
                              .water = kind == KIND_film || kind == KIND_drip,
                              .from = node_or_none(network, network->from[flow]),
                              .to = node_or_none(network, network->to[flow])};
}

bool dawn_network_has_fan(const struct dawn_network *network)
{
    return network->has_fan;
}

double dawn_network_fan_power_W(const struct dawn_network *network)
{
    return network->has_fan ? network->fan.power_W : 0.0;
}

double dawn_network_spin_up_s(const struct dawn_network *network)
{
    return network->spin_up_s;
}

double dawn_network_outside_C(const struct dawn_network *network, double t_s)
{
    return dawn_network_forcing_air_C(&network->forcing, t_s);
}

/* Mean outdoor temperature of the first day: a house without a past is as warm as its air was. */
static double first_day_C(const struct forcing *forcing)
{
    size_t day = (size_t)24 * FORCING_PER_HOUR;
    size_t count = forcing->knots < day ? forcing->knots : day;
    double sum = 0;
    for (size_t i = 0; i < count; ++i)
        sum += forcing->air_C[i];
    return sum / (double)count;
}

static double start_of(const struct dawn_network *network, const struct network_node *node,
                       double house_C, double deep_C)
{
    double T = house_C + node->deep_share * (deep_C - house_C);
    if (node->facts.role == DAWN_ROLE_VAPOUR)
        return network->forcing.vapour_K[0];
    if (node->facts.role == DAWN_ROLE_FILM)
        return 0.0;
    if (node->facts.latent_J <= 0)
        return T;
    return dawn_water_to_enthalpy(T, node->facts.heat_J_K, node->facts.frozen_J_K,
                                  node->facts.latent_J);
}

void dawn_network_start(const struct dawn_network *network, double y[])
{
    double house = isnan(network->start_C) ? first_day_C(&network->forcing) : network->start_C;
    double deep = network->forcing.deep_C[0];
    for (size_t i = 0; i < network->node_count; ++i)
        y[i] = start_of(network, &network->nodes[i], house, deep);
}
