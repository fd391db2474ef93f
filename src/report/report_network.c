/* The network for people: which parts hold how much heat, and between which of them it flows. */
#include <math.h>

#include "base/civil.h"
#include "base/tableout.h"
#include "physics/constants.h"
#include "report/report_parts.h"

/* kWh/K where a grower can picture it, kJ/K for panes and leaves. */
static void put_capacity(struct dawn_tableout *table, double heat_J_K)
{
    char number[DAWN_REPORT_ROOM];

    if (heat_J_K >= 0.1 * PHYSICS_J_PER_kWh) {
        dawn_tableout_cell(table, "%s kWh/K",
                           dawn_report_fixed(heat_J_K / PHYSICS_J_PER_kWh, 2, number));
    } else {
        dawn_tableout_cell(table, "%s kJ/K ", dawn_report_fixed(heat_J_K / 1000.0, 1, number));
    }
}

static void put_nodes(FILE *out, const struct dawn_network *network)
{
    const size_t count = dawn_network_node_count(network);
    struct dawn_tableout table;
    char number[DAWN_REPORT_ROOM];

    fprintf(out, "%zu parts that hold heat\n\n", count);
    dawn_tableout_begin(&table, 4, "lrrr");
    dawn_tableout_cell(&table, "Part");
    dawn_tableout_cell(&table, "Heat held");
    dawn_tableout_cell(&table, "Frozen");
    dawn_tableout_cell(&table, "To freeze it");
    for (size_t i = 0; i < count; i++) {
        const struct dawn_node *node = dawn_network_node(network, i);
        dawn_tableout_cell(&table, "%s", node->name);
        put_capacity(&table, node->heat_J_K);
        if (node->latent_J > 0.0) {
            put_capacity(&table, node->frozen_J_K);
            dawn_tableout_cell(&table, "%s kWh",
                               dawn_report_fixed(node->latent_J / PHYSICS_J_PER_kWh, 2, number));
        } else {
            dawn_tableout_cell(&table, "%s", "");
            dawn_tableout_cell(&table, "%s", "");
        }
    }
    dawn_tableout_end(&table, out);
}

static void put_flows(FILE *out, const struct dawn_network *network)
{
    const size_t count = dawn_network_flow_count(network);
    struct dawn_tableout table;

    fprintf(out, "\n%zu ways heat takes\n\n", count);
    dawn_tableout_begin(&table, 2, "ll");
    dawn_tableout_cell(&table, "Kind");
    dawn_tableout_cell(&table, "From > to");
    for (size_t i = 0; i < count; i++) {
        const struct dawn_flow flow = dawn_network_flow(network, i);
        dawn_tableout_cell(&table, "%s", flow.kind);
        dawn_tableout_cell(&table, "%s", flow.name);
    }
    dawn_tableout_end(&table, out);
}

void dawn_report_network(FILE *out, enum dawn_format format, const struct dawn_network *network,
                         int64_t from_s, int64_t to_s)
{
    char from[32];
    char to[32];

    if (format == DAWN_JSON) {
        dawn_report_network_json(out, network, from_s, to_s);
        return;
    }
    put_nodes(out, network);
    put_flows(out, network);
    if (dawn_network_has_fan(network)) {
        char number[DAWN_REPORT_ROOM];
        fprintf(out, "\nfan        %s W, run by its thermostat\n",
                dawn_report_fixed(dawn_network_fan_power_W(network), 0, number));
    } else {
        fputs("\nfan        none\n", out);
    }
    dawn_civil_iso(from_s, 0.0, from);
    dawn_civil_iso(to_s, 0.0, to);
    fprintf(out, "weather    %s to %s\n", from, to);
}
