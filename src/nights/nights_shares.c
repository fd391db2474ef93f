/* Where one night's heat went, and what paid for it.
 *
 * The account is of sensible heat: of what has a temperature, from rock to panes. The water in the
 * air stands outside of it, so that evaporation is a loss and condensation pays, as a hand on the
 * wet soil and on the fogged pane would feel it. */
#include <math.h>
#include <string.h>

#include "dawnlow/nights.h"

struct group_share {
    const char *group, *share;
};
/* Groups of flows that are one thing to a grower; others keep their own name. */
static const struct group_share merged[] = {
    {"long-wave from the glazing", "glazing, long-wave to the sky"},
    {"long-wave through the film to the sky", "glazing, long-wave to the sky"},
    {"wind over the glazing", "glazing, wind and air"},
    {"wind over the walls", "walls to the outside"},
    {"long-wave from the walls", "walls to the outside"},
    {"deep ground", "ground beside and below"},
    {"ground at the edge", "ground beside and below"},
    {"ground beside the rock", "ground beside and below"},
    {"walls to the ground", "ground beside and below"},
};

static const char *share_of_group(const char *group)
{
    for (size_t i = 0; i < sizeof merged / sizeof *merged; ++i)
        if (strcmp(merged[i].group, group) == 0)
            return merged[i].share;
    return group;
}

/* ---- all rows, signed: heat into the account > 0 ---- */

enum { ROWS_MOST = 2 * DAWN_SHARES_MOST };
struct tally {
    struct dawn_ledger_row row[ROWS_MOST];
    bool store[ROWS_MOST];
    size_t count;
};

static void add(struct tally *tally, const char *name, bool store, double J)
{
    size_t i = 0;
    while (i < tally->count && strcmp(tally->row[i].name, name) != 0)
        ++i;
    if (i == ROWS_MOST) /* never met: a house has a third as many */
        i = ROWS_MOST - 1;
    if (i == tally->count)
        tally->row[tally->count++] = (struct dawn_ledger_row){.name = name};
    tally->row[i].J += J;
    tally->store[i] = store;
}

enum side { SIDE_HOUSE, SIDE_OUTSIDE, SIDE_WATER };

static enum side side_of(const struct dawn_network *network, int node)
{
    if (node == DAWN_NO_NODE)
        return SIDE_OUTSIDE;
    enum dawn_role role = dawn_network_node(network, (size_t)node)->role;
    return role == DAWN_ROLE_VAPOUR || role == DAWN_ROLE_FILM ? SIDE_WATER : SIDE_HOUSE;
}

/* What a flow is to the account, NULL for nothing. Whatever draws water out of something warm is
 * evaporation; the kinds that set it free again run the other way round. */
static const char *row_of(const struct dawn_network *network, const struct dawn_flow *flow)
{
    enum side from = side_of(network, flow->from);
    enum side to = side_of(network, flow->to);
    if (flow->water || from == to || (from != SIDE_HOUSE && to != SIDE_HOUSE))
        return NULL;
    if (from == SIDE_WATER)
        return "condensation";
    if (to == SIDE_WATER)
        return "evaporation";
    return share_of_group(flow->group ? flow->group : "other");
}

static void add_flows(struct tally *tally, const struct dawn_ledger *ledger,
                      const struct dawn_trajectory *run, const struct dawn_network *network)
{
    for (size_t i = 0; i < dawn_network_flow_count(network); ++i) {
        struct dawn_flow flow = dawn_network_flow(network, i);
        const char *name = row_of(network, &flow);
        if (!name)
            continue;
        double J = dawn_trajectory_flow_J(run, i, (double)ledger->from_s, (double)ledger->to_s);
        add(tally, name, false, side_of(network, flow.to) == SIDE_HOUSE ? J : -J);
    }
}

/* ---- the two sides ---- */

static void sort(struct dawn_ledger_share *share, size_t count)
{
    for (size_t i = 1; i < count; ++i)
        for (size_t k = i; k > 0 && share[k].J > share[k - 1].J; --k) {
            struct dawn_ledger_share swap = share[k];
            share[k] = share[k - 1];
            share[k - 1] = swap;
        }
}

static void put_on_side(struct dawn_ledger_side *side, const struct tally *tally, size_t row)
{
    if (side->count < DAWN_SHARES_MOST)
        side->share[side->count++] = (struct dawn_ledger_share){
            tally->row[row].name, tally->store[row], fabs(tally->row[row].J), 0};
    side->J += fabs(tally->row[row].J);
}

static void finish(struct dawn_ledger_side *side)
{
    sort(side->share, side->count);
    for (size_t i = 0; i < side->count; ++i)
        side->share[i].percent = side->J > 0 ? 100.0 * side->share[i].J / side->J : 0.0;
}

void dawn_nights_shares(struct dawn_ledger *ledger, const struct dawn_trajectory *run,
                        const struct dawn_network *network)
{
    struct tally tally = {0};
    add_flows(&tally, ledger, run, network);
    for (size_t i = 0; i < ledger->store_count; ++i)
        if (ledger->store_role[i] != DAWN_ROLE_VAPOUR)
            add(&tally, ledger->stores[i].name, true, ledger->stores[i].J);
    ledger->went = ledger->paid = (struct dawn_ledger_side){0};
    for (size_t i = 0; i < tally.count; ++i)
        if (tally.row[i].J > 0)
            put_on_side(&ledger->paid, &tally, i);
        else if (tally.row[i].J < 0)
            put_on_side(&ledger->went, &tally, i);
    finish(&ledger->paid);
    finish(&ledger->went);
}
