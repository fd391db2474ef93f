/* Where one night's heat came from and went. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dawnlow/nights.h"

static const double hour_s = 3600.0;

struct store_name {
    enum dawn_role role;
    const char *name;
};
static const struct store_name stores[] = {
    {DAWN_ROLE_ROCK, "rock"},       {DAWN_ROLE_BARRELS, "barrels"},
    {DAWN_ROLE_BED, "bed soil"},    {DAWN_ROLE_FLOOR, "ground below"},
    {DAWN_ROLE_WALL, "walls"},      {DAWN_ROLE_TRAYS, "trays"},
    {DAWN_ROLE_LEAF, "plants"},     {DAWN_ROLE_AIR, "air"},
    {DAWN_ROLE_GLAZING, "glazing"}, {DAWN_ROLE_VAPOUR, "vapour in the air"},
    {DAWN_ROLE_COVER, "covers"},    {DAWN_ROLE_FROST, "frost on glazing and covers"},
};
enum { STORES = sizeof stores / sizeof *stores };

const char *dawn_nights_part_name(enum dawn_role role)
{
    for (size_t i = 0; i < STORES; ++i)
        if (stores[i].role == role)
            return stores[i].name;
    return "films of water";
}

static struct dawn_ledger_row *row_named(struct dawn_ledger *ledger, const char *name)
{
    for (size_t i = 0; i < ledger->boundary_count; ++i)
        if (ledger->boundary[i].name && strcmp(ledger->boundary[i].name, name) == 0)
            return &ledger->boundary[i];
    struct dawn_ledger_row *row = &ledger->boundary[ledger->boundary_count++];
    *row = (struct dawn_ledger_row){.name = name};
    return row;
}

static bool has_role(const struct dawn_network *network, enum dawn_role role)
{
    for (size_t i = 0; i < dawn_network_node_count(network); ++i)
        if (dawn_network_node(network, i)->role == role)
            return true;
    return false;
}

/* Every flow that crosses the boundary has a group; a nameless one would still be counted. */
static const char *group_of(struct dawn_flow flow)
{
    return flow.group ? flow.group : "other";
}

static void add_boundary(struct dawn_ledger *ledger, const struct dawn_trajectory *run,
                         const struct dawn_network *network)
{
    for (size_t i = 0; i < dawn_network_flow_count(network); ++i) {
        struct dawn_flow flow = dawn_network_flow(network, i);
        if (flow.water || (flow.from != DAWN_NO_NODE && flow.to != DAWN_NO_NODE))
            continue;
        double J = dawn_trajectory_flow_J(run, i, (double)ledger->from_s, (double)ledger->to_s);
        row_named(ledger, group_of(flow))->J += flow.from == DAWN_NO_NODE ? J : -J;
        ledger->throughput_J += 0.5 * fabs(J);
    }
}

static double add_stores(struct dawn_ledger *ledger, const struct dawn_trajectory *run,
                         const struct dawn_network *network)
{
    double given_J = 0;
    for (size_t i = 0; i < STORES; ++i) {
        if (!has_role(network, stores[i].role))
            continue;
        double J = dawn_trajectory_stored_J(run, stores[i].role, (double)ledger->from_s) -
                   dawn_trajectory_stored_J(run, stores[i].role, (double)ledger->to_s);
        ledger->store_role[ledger->store_count] = stores[i].role;
        ledger->stores[ledger->store_count++] = (struct dawn_ledger_row){stores[i].name, J};
        ledger->throughput_J += 0.5 * fabs(J);
        given_J += J;
    }
    return given_J;
}

/* Hour marks of the run lie on whole hours counted from its first weather hour. */
static int64_t on_mark(const struct dawn_network *network, int64_t t_s, bool up)
{
    double origin = (double)dawn_network_from_s(network);
    double hours = ((double)t_s - origin) / hour_s;
    return (int64_t)(origin + (up ? ceil(hours) : floor(hours)) * hour_s);
}

enum dawn_status dawn_nights_ledger(struct dawn_ledger *ledger, const struct dawn_night *night,
                                    const struct dawn_trajectory *run,
                                    const struct dawn_network *network,
                                    struct dawn_problems *problems)
{
    *ledger = (struct dawn_ledger){.from_s = on_mark(network, night->dusk_s, false),
                                   .to_s = on_mark(network, night->dawn_s, true)};
    const size_t flows = dawn_network_flow_count(network);
    ledger->boundary = calloc(flows + 1, sizeof *ledger->boundary);
    ledger->passage = calloc(flows + 3, sizeof *ledger->passage);
    ledger->stores = calloc(STORES, sizeof *ledger->stores);
    ledger->store_role = calloc(STORES, sizeof *ledger->store_role);
    if (!ledger->boundary || !ledger->passage || !ledger->stores || !ledger->store_role) {
        dawn_nights_ledger_release(ledger);
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                          "out of memory while the night's heat was added up");
        return DAWN_ERR_NOMEM;
    }
    add_boundary(ledger, run, network);
    double in_J = add_stores(ledger, run, network);
    for (size_t i = 0; i < ledger->boundary_count; ++i)
        in_J += ledger->boundary[i].J;
    ledger->imbalance_J = in_J;
    dawn_nights_shares(ledger, run, network);
    dawn_nights_passages(ledger, run, network);
    return DAWN_OK;
}

void dawn_nights_ledger_release(struct dawn_ledger *ledger)
{
    free(ledger->boundary);
    free(ledger->passage);
    free(ledger->stores);
    free(ledger->store_role);
    *ledger = (struct dawn_ledger){0};
}
