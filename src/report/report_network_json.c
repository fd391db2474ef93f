/* The whole network as JSON: every number an integrator needs, so that anyone can check ours.
 *
 * nodes: heat in J/K, frozen and latent. outside: the places behind them. links: by kind, each with
 * the numbers its kernel uses (network/network_parts.h says what they mean). forcing: knots of
 * outdoor air, sky, wind and every gain, linear in between. moment: heat and conductances at
 * from_s in the start state, the fan off. */
#include <stdlib.h>

#include "base/civil.h"
#include "base/jsonout.h"
#include "network/network_parts.h"
#include "report/report_parts.h"

enum { EXACT = -1 };

static const char *role_word(enum dawn_role role)
{
    static const char *const words[] = {
        [DAWN_ROLE_AIR] = "air",         [DAWN_ROLE_GLAZING] = "glazing",
        [DAWN_ROLE_WALL] = "wall",       [DAWN_ROLE_FLOOR] = "floor",
        [DAWN_ROLE_BED] = "bed",         [DAWN_ROLE_ROCK] = "rock",
        [DAWN_ROLE_BARRELS] = "barrels", [DAWN_ROLE_TRAYS] = "trays",
        [DAWN_ROLE_LEAF] = "leaf",       [DAWN_ROLE_VAPOUR] = "vapour",
        [DAWN_ROLE_FILM] = "film",       [DAWN_ROLE_COVER] = "cover",
        [DAWN_ROLE_FROST] = "frost",
    };
    return words[role];
}

static void put_nodes(struct dawn_jsonout *json, const struct dawn_network *net,
                      const double start_y[])
{
    dawn_jsonout_array(json, "nodes");
    for (size_t i = 0; i < net->node_count; ++i) {
        const struct dawn_node *node = &net->nodes[i].facts;
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "name", node->name);
        dawn_jsonout_text(json, "role", role_word(node->role));
        dawn_jsonout_number(json, "heat_J_K", node->heat_J_K, EXACT);
        dawn_jsonout_number(json, "frozen_J_K", node->frozen_J_K, EXACT);
        dawn_jsonout_number(json, "latent_J", node->latent_J, EXACT);
        dawn_jsonout_number(json, "start_y_C", start_y[i], EXACT);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
    dawn_jsonout_array(json, "outside");
    for (int place = 0; place < OUTSIDE_PLACES; ++place)
        dawn_jsonout_text(json, NULL, dawn_network_place_name(net, OUTSIDE(place)));
    dawn_jsonout_close_array(json);
}

#define VEIL()              dawn_jsonout_integer(json, "veil", link->veil)
#define NUMBER(field, name) dawn_jsonout_number(json, name, link->law.field, EXACT)

static void put_conduction(struct dawn_jsonout *json, const struct conduction_link *link)
{
    NUMBER(W_K, "W_K");
}

static void put_soil(struct dawn_jsonout *json, const struct soil_link *link)
{
    dawn_jsonout_number(json, "liquid_W_K", link->law.liquid_W_K, EXACT);
    dawn_jsonout_number(json, "ice_W_K", link->law.liquid_W_K + link->law.gained_W_K, EXACT);
}

static void put_calm(struct dawn_jsonout *json, const struct calm_link *link)
{
    NUMBER(area_m2, "area_m2");
    dawn_jsonout_bool(json, "swept", link->law.swept > 0);
    dawn_jsonout_number(json, "height_m", link->bed.height_m, EXACT);
    dawn_jsonout_number(json, "permeability_m2", link->bed.permeability_m2, EXACT);
    dawn_jsonout_number(json, "still_W_mK", link->bed.still_W_mK, EXACT);
    dawn_jsonout_number(json, "air_viscosity_m2_s", link->bed.air_viscosity_m2_s, EXACT);
    dawn_jsonout_number(json, "air_heat_J_m3K", link->bed.air_heat_J_m3K, EXACT);
    dawn_jsonout_number(json, "mean_K", link->bed.mean_K, EXACT);
    dawn_jsonout_number(json, "onset", link->bed.onset, EXACT);
}

static void put_natural(struct dawn_jsonout *json, const struct natural_link *link)
{
    NUMBER(area_m2, "area_m2");
    NUMBER(warm_coefficient, "warm_coefficient");
    NUMBER(cool_coefficient, "cool_coefficient");
    NUMBER(least_W_m2K, "least_W_m2K");
    dawn_jsonout_bool(json, "stirred", link->law.stirred > 0);
    dawn_jsonout_integer(json, "stirring", link->stirring);
    VEIL();
}

static void put_wind(struct dawn_jsonout *json, const struct wind_link *link)
{
    NUMBER(area_m2, "area_m2");
}

static void put_longwave(struct dawn_jsonout *json, const struct longwave_link *link)
{
    NUMBER(exchange_m2, "exchange_m2");
    VEIL();
}

static void put_sky(struct dawn_jsonout *json, const struct sky_link *link)
{
    NUMBER(exchange_m2, "exchange_m2");
    NUMBER(sky_view, "sky_view");
    VEIL();
}

static void put_leak(struct dawn_jsonout *json, const struct leak_link *link)
{
    dawn_jsonout_integer(json, "air", link->air);
    NUMBER(rated_W_K, "rated_W_K");
}

static void put_vent(struct dawn_jsonout *json, const struct vent_link *link)
{
    dawn_jsonout_integer(json, "opening", (int64_t)link->opening);
}

static void put_through(struct dawn_jsonout *json, const struct through_link *link)
{
    dawn_jsonout_integer(json, "outdoor", link->outdoor);
}

static void put_renewal(struct dawn_jsonout *json, const struct renewal_link *link)
{
    NUMBER(W_K, "W_K");
    dawn_jsonout_bool(json, "clocked", link->law.clocked > 0);
}

static void put_stream(struct dawn_jsonout *json, const struct stream_link *link)
{
    dawn_jsonout_integer(json, "intake", link->intake);
    dawn_jsonout_bool(json, "reversed", link->law.reversed > 0);
    NUMBER(flow_W_K, "flow_W_K");
    NUMBER(segment_share, "segment_share");
}

static void put_gain(struct dawn_jsonout *json, const struct gain_link *link)
{
    dawn_jsonout_integer(json, "channel", (int64_t)link->channel);
}

static void put_power(struct dawn_jsonout *json, const struct power_link *link)
{
    NUMBER(W, "W");
    dawn_jsonout_bool(json, "with_fan", link->law.with_fan > 0);
}

static void put_displace(struct dawn_jsonout *json, const struct displace_link *link)
{
    NUMBER(W_K, "W_K");
}

static void put_mixing(struct dawn_jsonout *json, const struct mixing_link *link)
{
    dawn_jsonout_integer(json, "lower", link->lower);
    dawn_jsonout_integer(json, "upper", link->upper);
    NUMBER(area_m2, "area_m2");
    NUMBER(height_m, "height_m");
    NUMBER(air_J_m3K, "air_J_m3K");
    NUMBER(most_W_K, "most_W_K");
    VEIL();
}

static void put_exchange(struct dawn_jsonout *json, const struct exchange_link *link)
{
    NUMBER(W_K, "W_K");
    VEIL();
}

static void put_plume(struct dawn_jsonout *json, const struct plume_link *link)
{
    dawn_jsonout_integer(json, "natural", (int64_t)link->natural);
    NUMBER(share, "share");
    VEIL();
}

static void put_evaporate(struct dawn_jsonout *json, const struct evaporate_link *link)
{
    dawn_jsonout_integer(json, "air", link->air);
    dawn_jsonout_integer(json, "natural", (int64_t)link->natural);
    NUMBER(wet_m2, "wet_m2");
}

static void put_transpire(struct dawn_jsonout *json, const struct transpire_link *link)
{
    NUMBER(light_share, "light_share");
    NUMBER(deficit_W_K, "deficit_W_K");
    dawn_jsonout_integer(json, "channel", (int64_t)link->channel);
}

static void put_condense(struct dawn_jsonout *json, const struct condense_link *link)
{
    dawn_jsonout_integer(json, "air", link->air);
    dawn_jsonout_integer(json, "film", link->film);
    dawn_jsonout_integer(json, "natural", (int64_t)link->natural);
    NUMBER(area_m2, "area_m2");
}

static void put_film(struct dawn_jsonout *json, const struct film_link *link)
{
    dawn_jsonout_integer(json, "condense", (int64_t)link->condense);
}

static void put_carry(struct dawn_jsonout *json, const struct carry_link *link)
{
    NUMBER(W_K, "W_K");
}

static void put_damp(struct dawn_jsonout *json, const struct damp_link *link)
{
    NUMBER(W_K, "W_K");
    dawn_jsonout_integer(json, "film", link->film);
}

static void put_soak(struct dawn_jsonout *json, const struct soak_link *link)
{
    dawn_jsonout_integer(json, "damp", (int64_t)link->damp);
}

static void put_freeze(struct dawn_jsonout *json, const struct freeze_link *link)
{
    NUMBER(area_m2, "area_m2");
    dawn_jsonout_integer(json, "film", link->film);
}

static void put_wetwave(struct dawn_jsonout *json, const struct wetwave_link *link)
{
    NUMBER(exchange_m2, "exchange_m2");
    NUMBER(dry, "dry");
    NUMBER(wetter, "wetter");
    dawn_jsonout_integer(json, "condense", (int64_t)link->condense);
    VEIL();
}

static void put_wetsky(struct dawn_jsonout *json, const struct wetsky_link *link)
{
    NUMBER(exchange_m2, "exchange_m2");
    NUMBER(sky_view, "sky_view");
    NUMBER(dry, "dry");
    NUMBER(wetter, "wetter");
    dawn_jsonout_integer(json, "condense", (int64_t)link->condense);
    VEIL();
}

static void put_drip(struct dawn_jsonout *json, const struct drip_link *link)
{
    NUMBER(holds_K, "holds_K");
    NUMBER(W_K, "W_K");
    dawn_jsonout_integer(json, "frost", link->frost);
}

static void put_fog(struct dawn_jsonout *json, const struct fog_link *link)
{
    NUMBER(W_K, "W_K");
}

static void put_own_numbers(struct dawn_jsonout *json, const struct dawn_network *net, size_t flow,
                            enum link_kind kind)
{
    size_t at = flow - net->first[kind];
    switch (kind) {
#define PUT_CASE(name, words)                                                                      \
    case KIND_##name:                                                                              \
        put_##name(json, &net->name[at]);                                                          \
        break;
        DAWN_LINK_KINDS(PUT_CASE)
#undef PUT_CASE
    case KIND_COUNT:
        break;
    }
}

static const char *kind_name(enum link_kind kind)
{
    static const char *const names[KIND_COUNT] = {
#define KIND_NAME(name, words) [KIND_##name] = #name,
        DAWN_LINK_KINDS(KIND_NAME)
#undef KIND_NAME
    };
    return names[kind];
}

static void put_links(struct dawn_jsonout *json, const struct dawn_network *net)
{
    dawn_jsonout_array(json, "links");
    for (size_t i = 0; i < net->first[KIND_COUNT]; ++i) {
        enum link_kind kind = KIND_COUNT;
        const struct link *link = dawn_network_link(net, i, &kind);
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "kind", kind_name(kind));
        dawn_jsonout_text(json, "name", link->name);
        dawn_jsonout_integer(json, "from", net->ends[i].from);
        dawn_jsonout_integer(json, "to", net->ends[i].to);
        dawn_jsonout_text(json, "crosses_boundary_as", link->group);
        put_own_numbers(json, net, i, kind);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
}

static const char *veil_word(enum veil_part part)
{
    static const char *const words[] = {[VEIL_DRAWN] = "drawn",
                                        [VEIL_GAP] = "gap",
                                        [VEIL_PASSES] = "passes",
                                        [VEIL_INNER] = "takes_inside",
                                        [VEIL_OUTER] = "takes_outside"};
    return words[part];
}

/* Covers, and the products of what they make of a flow: a link's "veil" is its number here. */
static void put_covers(struct dawn_jsonout *json, const struct dawn_network *net)
{
    dawn_jsonout_array(json, "covers");
    for (size_t i = 0; i < net->cover_count; ++i) {
        const struct network_cover *link = &net->covers[i];
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "name", link->name);
        dawn_jsonout_number(json, "passes", link->passes, EXACT);
        dawn_jsonout_number(json, "takes_inside", link->takes_inside, EXACT);
        dawn_jsonout_number(json, "takes_outside", link->takes_outside, EXACT);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
    dawn_jsonout_array(json, "veils");
    for (size_t i = 0; i < net->veil_count; ++i) {
        dawn_jsonout_array(json, NULL);
        for (size_t k = 0; k < net->veils[i].count; ++k) {
            dawn_jsonout_object(json, NULL);
            dawn_jsonout_integer(json, "cover", net->veils[i].factor[k].cover);
            dawn_jsonout_text(json, "part", veil_word(net->veils[i].factor[k].part));
            dawn_jsonout_close_object(json);
        }
        dawn_jsonout_close_array(json);
    }
    dawn_jsonout_close_array(json);
}

static void put_hours(struct dawn_jsonout *json, const char *key, const struct day_hours *hours)
{
    dawn_jsonout_object(json, key);
    dawn_jsonout_number(json, "from_s", hours->from_s, EXACT);
    dawn_jsonout_number(json, "length_s", hours->length_s, EXACT);
    dawn_jsonout_integer(json, "switching_s", SWITCHING_S);
    dawn_jsonout_close_object(json);
}

static void put_openings(struct dawn_jsonout *json, const struct dawn_network *net)
{
    dawn_jsonout_array(json, "openings");
    for (size_t i = 0; i < net->opening_count; ++i) {
        const struct opening *opening = &net->opening[i];
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_bool(json, "ridge", opening->ridge);
        dawn_jsonout_number(json, "area_m2", opening->area_m2, EXACT);
        dawn_jsonout_number(json, "height_m", opening->height_m, EXACT);
        dawn_jsonout_number(json, "opens_C", opening->opens_C, EXACT);
        dawn_jsonout_number(json, "full_C", opening->full_C, EXACT);
        dawn_jsonout_number(json, "least_share", opening->least_share, EXACT);
        put_hours(json, "hours", &opening->hours);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
    dawn_jsonout_number(json, "opening_rise_m", net->opening_rise_m, EXACT);
    dawn_jsonout_number(json, "air_J_m3K", net->air_J_m3K, EXACT);
    dawn_jsonout_integer(json, "bench_air", net->air);
    dawn_jsonout_integer(json, "ridge_air", net->ridge);
    dawn_jsonout_integer(json, "sensor", net->sensor);
}

static void put_column(struct dawn_jsonout *json, const char *key, const double *series,
                       size_t stride, size_t from, size_t to)
{
    dawn_jsonout_array(json, key);
    for (size_t i = from; i <= to; ++i)
        dawn_jsonout_number(json, NULL, series[i * stride], EXACT);
    dawn_jsonout_close_array(json);
}

static void put_forcing(struct dawn_jsonout *json, const struct forcing *forcing, int64_t from_s,
                        int64_t to_s)
{
    size_t from = (size_t)((from_s - forcing->from_s) / FORCING_STEP_S);
    size_t to = (size_t)((to_s - forcing->from_s + FORCING_STEP_S - 1) / FORCING_STEP_S);
    if (to >= forcing->knots)
        to = forcing->knots - 1;
    dawn_jsonout_object(json, "forcing");
    dawn_jsonout_integer(json, "from_s", forcing->from_s + (int64_t)from * FORCING_STEP_S);
    dawn_jsonout_integer(json, "step_s", FORCING_STEP_S);
    put_column(json, "air_C", forcing->air_C, 1, from, to);
    put_column(json, "sky_W_m2", forcing->sky_W_m2, 1, from, to);
    put_column(json, "wind_m_s", forcing->wind_m_s, 1, from, to);
    put_column(json, "edge_C", forcing->edge_C, 1, from, to);
    put_column(json, "deep_C", forcing->deep_C, 1, from, to);
    put_column(json, "vapour_K", forcing->vapour_K, 1, from, to);
    put_hours(json, "outdoor_fan_hours", &forcing->outdoor_fan);
    dawn_jsonout_array(json, "gain_W");
    for (size_t channel = 0; channel < forcing->gains; ++channel)
        put_column(json, NULL, forcing->gain_W + channel, forcing->gains, from, to);
    dawn_jsonout_close_array(json);
    dawn_jsonout_array(json, "drawn");
    for (size_t cover = 0; cover < forcing->covers; ++cover)
        put_column(json, NULL, forcing->drawn + cover, forcing->covers, from, to);
    dawn_jsonout_close_array(json);
    dawn_jsonout_close_object(json);
}

/* Heat and conductances at one moment; each array has a place per link. */
static void put_moment(struct dawn_jsonout *json, const struct dawn_network *net, int64_t at_s,
                       const double y[], double *room)
{
    size_t flows = net->first[KIND_COUNT];
    double *watts = room;
    double *from = room + flows;
    double *to = room + 2 * flows;
    double *rates = room + 3 * flows;
    dawn_network_flows_W(net, false, (double)at_s, y, watts, rates);
    dawn_network_conductances_W_K(net, false, (double)at_s, y, from, to);
    dawn_jsonout_object(json, "moment");
    dawn_jsonout_integer(json, "at_s", at_s);
    put_column(json, "heat_W", watts, 1, 0, flows - 1);
    put_column(json, "conductance_from_W_K", from, 1, 0, flows - 1);
    put_column(json, "conductance_to_W_K", to, 1, 0, flows - 1);
    put_column(json, "rate_K_s", rates, 1, 0, net->node_count - 1);
    dawn_jsonout_close_object(json);
}

void dawn_report_network_json(FILE *out, const struct dawn_network *network, int64_t from_s,
                              int64_t to_s)
{
    struct dawn_jsonout json;
    size_t flows = network->first[KIND_COUNT];
    double *start_y = calloc(network->node_count * 2 + 3 * flows, sizeof *start_y);
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "network");
    if (start_y) {
        dawn_network_start(network, (double)from_s, start_y);
        put_nodes(&json, network, start_y);
        put_links(&json, network);
        put_covers(&json, network);
        put_openings(&json, network);
        dawn_jsonout_number(&json, "pressure_Pa", network->pressure_Pa, EXACT);
        put_forcing(&json, &network->forcing, from_s, to_s);
        put_moment(&json, network, from_s, start_y, start_y + network->node_count);
    }
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
    free(start_y);
}
