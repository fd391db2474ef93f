/* What went from part to part of the house in one night, heat and water, way by way. */
#include <stdlib.h>
#include <string.h>

#include "dawnlow/nights.h"
#include "dawnlow/physics/moistair.h"

static const int64_t hour_s = 3600;
/* Where drops fall. They are gone: how wet the floor is, the scenario says. */
static const char on_the_floor[] = "the floor";
/* Water to and from the air; which of the two it was is known when all is added up. */
static const char evaporation[] = "evaporation", condensation[] = "condensation";

static enum dawn_role role_of(const struct dawn_network *network, int node)
{
    return node == DAWN_NO_NODE ? DAWN_ROLES : dawn_network_node(network, (size_t)node)->role;
}

static const char *part_of(const struct dawn_network *network, int node)
{
    return node == DAWN_NO_NODE ? DAWN_PASSAGE_OUTDOORS
                                : dawn_nights_part_name(role_of(network, node));
}

/* Fog falls out of the air into the air; what is not that and does not come from outdoors is drawn
 * out of something, or settles on it. */
static const char *words_of(const struct dawn_flow *flow, enum dawn_role from, enum dawn_role to)
{
    bool vapour = from == DAWN_ROLE_VAPOUR || to == DAWN_ROLE_VAPOUR;
    if (flow->group)
        return flow->group;
    return vapour && from != DAWN_ROLE_AIR && to != DAWN_ROLE_AIR ? evaporation : flow->kind;
}

/* Rows are kept in the order of their parts' names until all is added up. */
static void add(struct dawn_ledger *ledger, const char *from, const char *to, const char *by,
                struct dawn_ledger_passage what)
{
    double sign = strcmp(from, to) > 0 ? -1.0 : 1.0;
    const char *first = sign < 0 ? to : from;
    const char *second = sign < 0 ? from : to;
    size_t i = 0;
    while (i < ledger->passage_count &&
           (strcmp(ledger->passage[i].from, first) != 0 ||
            strcmp(ledger->passage[i].to, second) != 0 || strcmp(ledger->passage[i].by, by) != 0))
        ++i;
    if (i == ledger->passage_count)
        ledger->passage[ledger->passage_count++] =
            (struct dawn_ledger_passage){.from = first, .to = second, .by = by};
    ledger->passage[i].J += sign * what.J;
    ledger->passage[i].water_kg += sign * what.water_kg;
}

static void add_flow(struct dawn_ledger *ledger, const struct dawn_network *network,
                     const struct dawn_flow *flow, double J)
{
    enum dawn_role from = role_of(network, flow->from);
    enum dawn_role to = role_of(network, flow->to);
    double water_kg = J / DAWN_MOISTAIR_LATENT_J_KG;
    const char *there = part_of(network, flow->to);
    struct dawn_ledger_passage what = {.J = J};
    /* Of liquid water only what drips off is told: a film is what condenses, seen once more. */
    if (from == to || (flow->water && from != DAWN_ROLE_FILM))
        return;
    if (flow->water) {
        what = (struct dawn_ledger_passage){.water_kg = water_kg};
        there = on_the_floor;
    } else if (from == DAWN_ROLE_VAPOUR || to == DAWN_ROLE_VAPOUR) {
        what.water_kg = water_kg;
    }
    add(ledger, part_of(network, flow->from), there, words_of(flow, from, to), what);
}

/* What the fan's air brings the rock in an hour, or takes from it in a night run: apart, because a
 * night can hold both. */
static void add_blown(struct dawn_ledger *ledger, const struct dawn_trajectory *run,
                      const struct dawn_network *network, int64_t from_s, enum dawn_fan_state way)
{
    const char *night = way == DAWN_FAN_BACK ? "fan's night run, reversed" : "fan's night run";
    double J = 0;
    for (size_t i = 0; i < dawn_network_flow_count(network); ++i)
        if (dawn_network_flow(network, i).blown == way)
            J += dawn_trajectory_flow_J(run, i, (double)from_s, (double)(from_s + hour_s));
    if (J != 0)
        add(ledger, dawn_nights_part_name(DAWN_ROLE_AIR), dawn_nights_part_name(DAWN_ROLE_ROCK),
            J < 0 ? night : "fan's day run", (struct dawn_ledger_passage){.J = J});
}

/* ---- in order ---- */

static const char *settled_words(const struct dawn_ledger_passage *row)
{
    if (row->by != evaporation)
        return row->by;
    if (strcmp(row->from, dawn_nights_part_name(DAWN_ROLE_VAPOUR)) == 0)
        return condensation;
    return strcmp(row->from, dawn_nights_part_name(DAWN_ROLE_LEAF)) == 0 ? "transpiration"
                                                                         : evaporation;
}

static int larger_first(const void *a, const void *b)
{
    double first = ((const struct dawn_ledger_passage *)a)->J;
    double second = ((const struct dawn_ledger_passage *)b)->J;
    return (first < second) - (first > second);
}

/* From the part that gave to the one that took. */
static void put_in_order(struct dawn_ledger *ledger)
{
    for (size_t i = 0; i < ledger->passage_count; ++i) {
        struct dawn_ledger_passage *row = &ledger->passage[i];
        if (row->J < 0 || row->water_kg < 0)
            *row =
                (struct dawn_ledger_passage){row->to, row->from, row->by, -row->J, -row->water_kg};
        row->by = settled_words(row);
    }
    qsort(ledger->passage, ledger->passage_count, sizeof *ledger->passage, larger_first);
}

void dawn_nights_passages(struct dawn_ledger *ledger, const struct dawn_trajectory *run,
                          const struct dawn_network *network)
{
    double from_s = (double)ledger->from_s;
    double to_s = (double)ledger->to_s;
    ledger->passage_count = 0;
    for (size_t i = 0; i < dawn_network_flow_count(network); ++i) {
        struct dawn_flow flow = dawn_network_flow(network, i);
        if (flow.blown == DAWN_FAN_OFF)
            add_flow(ledger, network, &flow, dawn_trajectory_flow_J(run, i, from_s, to_s));
    }
    for (int64_t t = ledger->from_s; t < ledger->to_s; t += hour_s) {
        add_blown(ledger, run, network, t, DAWN_FAN_ONWARD);
        add_blown(ledger, run, network, t, DAWN_FAN_BACK);
    }
    put_in_order(ledger);
}
