/* Keeping a run: growing tables. */
#include "trajectory/trajectory_store.h"

#include <stdlib.h>
#include <string.h>

static void watch_places(struct dawn_trajectory *store, const struct dawn_network *network)
{
    const int places[WATCHED_MOST] = {dawn_network_air(network), dawn_network_trays(network),
                                      dawn_network_leaf(network), dawn_network_root(network)};
    for (size_t i = 0; i < WATCHED_MOST; ++i)
        if (places[i] != DAWN_NO_NODE)
            store->watched[store->watched_count++] = places[i];
}

static bool settle_span(struct dawn_trajectory *store, const struct dawn_network *network,
                        const struct dawn_trajectory_plan *plan)
{
    bool all = plan->from_s == 0 && plan->to_s == 0;
    store->from_s = all ? dawn_network_from_s(network) : plan->from_s;
    store->to_s = all ? dawn_network_to_s(network) : plan->to_s;
    return store->from_s >= dawn_network_lit_from_s(network) &&
           store->to_s <= dawn_network_lit_to_s(network) && store->from_s < store->to_s;
}

struct dawn_trajectory *dawn_trajectory_store_new(const struct dawn_network *network,
                                                  const struct dawn_trajectory_plan *plan,
                                                  bool *inside)
{
    struct dawn_trajectory *store = calloc(1, sizeof *store);
    if (!store)
        return NULL;
    store->network = network;
    store->nodes = dawn_network_node_count(network);
    store->flows = dawn_network_flow_count(network);
    store->ledger = plan->ledger;
    store->series_step_s = plan->series_step_s;
    store->series_means = plan->series_means;
    watch_places(store, network);
    *inside = settle_span(store, network, plan);
    return store;
}

/* As many hour marks as a run has: whole hours, and the ends where they are none. */
static size_t hours_of(const struct dawn_trajectory *trajectory)
{
    return (size_t)(trajectory->to_s - trajectory->from_s) / 3600 + 3;
}

static bool room(void **table, size_t wanted, size_t size)
{
    void *larger = realloc(*table, wanted * size);
    if (!larger)
        return false;
    *table = larger;
    return true;
}

/* The capacity that holds one more, at least doubling. */
static size_t next_capacity(size_t capacity)
{
    return capacity ? capacity * 2 : 256;
}

bool dawn_trajectory_add_step(struct dawn_trajectory *trajectory, const struct step *step)
{
    if (trajectory->step_count == trajectory->step_capacity) {
        /* About what the lanes take; CVODE takes more. */
        const size_t an_hour = 10;
        size_t wanted = trajectory->step_capacity ? next_capacity(trajectory->step_capacity)
                                                  : an_hour * hours_of(trajectory);
        void *table = trajectory->steps;
        if (!room(&table, wanted, sizeof *step))
            return false;
        trajectory->steps = table;
        trajectory->step_capacity = wanted;
    }
    trajectory->steps[trajectory->step_count++] = *step;
    return true;
}

bool dawn_trajectory_add_switch(struct dawn_trajectory *trajectory, double at_s, bool on)
{
    if (trajectory->switch_count == trajectory->switch_capacity) {
        size_t wanted = next_capacity(trajectory->switch_capacity);
        void *table = trajectory->switches;
        if (!room(&table, wanted, sizeof *trajectory->switches))
            return false;
        trajectory->switches = table;
        trajectory->switch_capacity = wanted;
    }
    trajectory->switches[trajectory->switch_count++] = (struct fan_switch){at_s, on};
    return true;
}

/* Several tables grow together: each is widths[i] doubles a row. */
static bool room_rows(double **tables[], const size_t widths[], size_t count, size_t wanted)
{
    for (size_t i = 0; i < count; ++i) {
        void *table = *tables[i];
        if (widths[i] && !room(&table, wanted * widths[i], sizeof(double)))
            return false;
        *tables[i] = table;
    }
    return true;
}

bool dawn_trajectory_add_hour(struct dawn_trajectory *trajectory, double at_s, const double y[],
                              const double flow_J[])
{
    size_t flows = trajectory->ledger ? trajectory->flows : 0;
    if (trajectory->hour_count == trajectory->hour_capacity) {
        size_t wanted = trajectory->hour_capacity ? next_capacity(trajectory->hour_capacity)
                                                  : hours_of(trajectory);
        double **tables[4] = {&trajectory->hour_s, &trajectory->hour_heat_J, &trajectory->hour_J,
                              &trajectory->hour_y};
        if (!room_rows(tables, (const size_t[4]){1, DAWN_ROLES, flows, trajectory->nodes}, 4,
                       wanted))
            return false;
        trajectory->hour_capacity = wanted;
    }
    size_t at = trajectory->hour_count++;
    trajectory->hour_s[at] = at_s;
    double *heat_J = trajectory->hour_heat_J + at * DAWN_ROLES;
    memset(heat_J, 0, DAWN_ROLES * sizeof *heat_J);
    for (size_t i = 0; i < trajectory->nodes; ++i) {
        const struct dawn_node *node = dawn_network_node(trajectory->network, i);
        heat_J[node->role] += node->heat_J_K * y[i];
        trajectory->hour_y[at * trajectory->nodes + i] = y[i];
    }
    if (flows)
        memcpy(trajectory->hour_J + at * flows, flow_J, flows * sizeof *flow_J);
    return true;
}

bool dawn_trajectory_add_row(struct dawn_trajectory *trajectory, double at_s, const double T_C[],
                             bool fan_on)
{
    size_t nodes = trajectory->nodes;
    if (trajectory->series_count == trajectory->series_capacity) {
        size_t wanted = next_capacity(trajectory->series_capacity);
        double **tables[2] = {&trajectory->series_s, &trajectory->series_C};
        void *fans = trajectory->series_fan;
        if (!room_rows(tables, (const size_t[2]){1, nodes}, 2, wanted) ||
            !room(&fans, wanted, sizeof *trajectory->series_fan))
            return false;
        trajectory->series_fan = fans;
        trajectory->series_capacity = wanted;
    }
    size_t at = trajectory->series_count++;
    trajectory->series_s[at] = at_s;
    memcpy(trajectory->series_C + at * nodes, T_C, nodes * sizeof *T_C);
    trajectory->series_fan[at] = fan_on;
    return true;
}

void dawn_trajectory_free(struct dawn_trajectory *trajectory)
{
    if (!trajectory)
        return;
    free(trajectory->steps);
    free(trajectory->switches);
    free(trajectory->hour_s);
    free(trajectory->hour_heat_J);
    free(trajectory->hour_y);
    free(trajectory->hour_J);
    free(trajectory->series_s);
    free(trajectory->series_C);
    free(trajectory->series_fan);
    free(trajectory);
}
