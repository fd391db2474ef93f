/* What holds the heat: rock with its fan, barrels, trays with their plants. */
#include <math.h>
#include <stdlib.h>

#include "dawnlow/physics/airflow.h"
#include "dawnlow/physics/rockbed.h"
#include "dawnlow/physics/soil.h"
#include "dawnlow/physics/surface.h"
#include "dawnlow/physics/water.h"
#include "network/network_build.h"

/* ---- rock ---- */

static double rock_heat_J_K(const struct dawn_rock *rock, const struct rock_shape *shape)
{
    return shape->volume_m3 * (1.0 - rock->void_share) * rock->density_kg_m3 *
           rock->specific_heat_J_kgK;
}

/* The rock's own warmth makes its air turn over below a cooler cover; with soil on top the bed is
 * shut, with gravel open. */
static struct dawn_rockbed_calm calm_bed(const struct building *building,
                                         const struct rock_shape *shape)
{
    const struct dawn_rock *rock = &building->scenario->rock;
    return (struct dawn_rockbed_calm){
        .height_m = shape->depth_m,
        .permeability_m2 = dawn_rockbed_permeability_m2(rock->stone_m, rock->void_share),
        .still_W_mK = shape->still_W_mK,
        .air_viscosity_m2_s = 1.45e-5, /* at 10 C, from memory */
        .air_heat_J_m3K = building->air_J_m3K,
        .mean_K = 283.15,
        .onset =
            building->scenario->bed.present ? DAWN_ROCKBED_ONSET_SHUT : DAWN_ROCKBED_ONSET_OPEN,
    };
}

/* What a part of the rock touches: soil above, ground below and beside. */
static void rock_neighbours(struct building *building, const struct rock_shape *shape, int node,
                            bool swept, double share)
{
    struct dawn_network *net = building->network;
    double half = 0.5 * shape->depth_m / shape->still_W_mK;
    double insulation = building->scenario->rock.insulation_m2K_W;
    double area = shape->footprint_m2 * share;
    /* A strip as long as the house; its sides meet ground that follows the season, also where a
     * path lies between bed and wall: a little too cold there. */
    double length = building->scenario->house.length_m;
    double side = 2.0 * (length + shape->footprint_m2 / length) * shape->depth_m * share;
    dawn_network_add_calm(net, node, building->bed_bottom, area, swept, calm_bed(building, shape));
    dawn_network_add_conduction(net, node, building->below_bed, NULL, area / (half + insulation));
    /* Half a metre of soil beside the bed leads to ground that follows the season. */
    double beside = 0.5 / building->scenario->ground.conductivity_W_mK;
    dawn_network_add_conduction(net, node, OUTSIDE(OUTSIDE_EDGE), "ground beside the rock",
                                side / (insulation + beside));
}

static void add_idle_rock(struct building *building, const struct rock_shape *shape)
{
    const struct dawn_rock *rock = &building->scenario->rock;
    struct dawn_network *net = building->network;
    double share = 1.0 - rock->active_share;
    if (share < 1e-6)
        return;
    double heat = rock_heat_J_K(rock, shape) * share;
    int idle = dawn_network_add_node(net, DAWN_ROLE_ROCK, heat, heat, 0, "rock out of the air");
    rock_neighbours(building, shape, idle, false, share);
    /* It lies beside the air's way, half the bed's depth off. */
    double W_K = shape->still_W_mK * shape->footprint_m2 * share / (0.5 * shape->depth_m);
    for (size_t i = 0; i < net->rock_count; ++i)
        dawn_network_add_conduction(net, net->rock[i], idle, NULL, W_K / (double)net->rock_count);
}

static void add_segments(struct building *building, const struct rock_shape *shape)
{
    const struct dawn_rock *rock = &building->scenario->rock;
    struct dawn_network *net = building->network;
    double share = rock->active_share / shape->segments;
    double heat = rock_heat_J_K(rock, shape) * share;
    double along = shape->still_W_mK * shape->face_m2 / (shape->path_m / shape->segments);
    net->rock = calloc((size_t)shape->segments, sizeof *net->rock);
    if (!net->rock) {
        net->failed = true;
        return;
    }
    for (int i = 0; i < shape->segments; ++i) {
        net->rock[i] = dawn_network_add_node(net, DAWN_ROLE_ROCK, heat, heat, 0, "rock %d", i + 1);
        rock_neighbours(building, shape, net->rock[i], true, share);
        if (i > 0)
            dawn_network_add_conduction(net, net->rock[i - 1], net->rock[i], NULL, along);
    }
    net->rock_count = (size_t)shape->segments;
}

/* Stones hold a hundredth of their weight in water before it drains (common practice: 0.5 to 2 %).
 */
static const double held_water_share = 0.01;

/* Moist air through cool rock gives its water to the stones and takes it back: the air between the
 * stones of each segment holds vapour of its own, and the fan carries it from one to the next. */
static void add_damp_rock(struct building *building, const struct rock_shape *shape,
                          const struct fan_point *point)
{
    const struct dawn_rock *rock = &building->scenario->rock;
    struct dawn_network *net = building->network;
    double share = rock->active_share / shape->segments;
    double flow_W_K = building->air_J_m3K * point->flow_m3_s;
    double air_J_K = building->air_J_m3K * shape->volume_m3 * rock->void_share * share;
    double stone_m3 = shape->volume_m3 * (1.0 - rock->void_share) * share;
    double W_K = dawn_rockbed_vapour_W_K(flow_W_K, point->transfer_units, shape->segments);
    int before = net->ridge_vapour;
    for (size_t i = 0; i < net->rock_count; ++i) {
        int vapour = dawn_network_add_node(net, DAWN_ROLE_VAPOUR, air_J_K, 0, 0,
                                           "vapour in rock %zu", i + 1);
        dawn_network_add_carry(net, before, vapour, flow_W_K);
        dawn_network_add_damp(net, vapour, net->rock[i], W_K, 6.0 * stone_m3 / rock->stone_m,
                              stone_m3 * rock->density_kg_m3 * held_water_share);
        before = vapour;
    }
    dawn_network_add_carry(net, before, net->vapour, flow_W_K);
    if (net->ridge_vapour != net->vapour)
        dawn_network_add_carry(net, net->vapour, net->ridge_vapour, flow_W_K);
}

static void add_fan(struct building *building, const struct rock_shape *shape)
{
    const struct dawn_scenario *scenario = building->scenario;
    struct dawn_network *net = building->network;
    struct fan_point point = dawn_network_fan_point(building, shape);
    double flow_W_K = building->air_J_m3K * point.flow_m3_s;
    double share = dawn_rockbed_segment_share(point.transfer_units, shape->segments);
    for (size_t i = 0; i < net->rock_count; ++i)
        dawn_network_add_stream(net, net->ridge, net->air, net->rock[i], flow_W_K, share);
    /* Taken at the benches it leaves the rock where the day's air came in, the warmest end. */
    if (scenario->fan.night_way == DAWN_NIGHT_REVERSED)
        for (size_t i = net->rock_count; i-- > 0;)
            dawn_network_add_stream_back(net, net->air, net->ridge, net->rock[i], flow_W_K, share);
    if (scenario->moisture.present)
        add_damp_rock(building, shape, &point);
    dawn_network_add_displace(net, flow_W_K);
    dawn_network_add_power(net, net->air, scenario->fan.power_W, true, "fan motor");
    net->has_fan = true;
    net->fan = scenario->fan;
    net->fan.flow_m3_s = point.flow_m3_s;
}

/* ---- barrels ---- */

static void add_barrels(struct building *building, const struct dawn_barrels *barrels)
{
    /* of paint, from memory */
    static const double painted_emissivity = 0.90;
    /* Contacts with floor and neighbours take a tenth of the wall (common practice). */
    static const double free_share = 0.9;
    struct dawn_network *net = building->network;
    struct dawn_water_drum drum = dawn_water_drum_of(barrels->volume_m3);
    double water_kg = barrels->count * barrels->volume_m3 * barrels->fill_share * DAWN_WATER_KG_M3;
    double shell = barrels->count * barrels->volume_m3 * DRUM_STEEL_KG_M3 * DRUM_STEEL_J_KGK;
    double area = barrels->count * free_share * (drum.side_m2 + drum.top_m2);
    int node =
        dawn_network_add_node(net, DAWN_ROLE_BARRELS, water_kg * DAWN_WATER_HEAT_J_KGK + shell,
                              water_kg * DAWN_WATER_ICE_HEAT_J_KGK + shell,
                              water_kg * DAWN_WATER_LATENT_J_KG, "%s", barrels->name);
    struct natural_link law = dawn_network_film(LIE_UPRIGHT, area);
    /* Churchill and Chu at 5 K and the drum's own height, as a third power. */
    law.law.warm_coefficient = law.law.cool_coefficient =
        dawn_surface_churchill_chu_W_m2K(5.0, drum.height_m, 10.0) / cbrt(5.0);
    dawn_network_add_natural(net, node, net->air, law);
    dawn_network_radiant_add(
        building, (struct radiant_surface){.node = node,
                                           .area_m2 = area,
                                           .emissivity = painted_emissivity,
                                           .group = dawn_network_radiant_group(building)});
    dawn_network_light_receive(
        &building->light, (struct light_receiver){.channel = dawn_network_add_gain(net, node),
                                                  .area_m2 = area,
                                                  .absorptance = barrels->absorptance,
                                                  .outline_m2 = barrels->count * drum.outline_m2 *
                                                                barrels->sun_share});
}

/* ---- trays and plants ---- */

static const double leaf_emissivity = 0.95,
                    leaf_absorptance = 0.50; /* of all sunlight; from memory */
static const double leaf_J_m2K = 1000.0;     /* 0.25 kg of leaf a square metre, mostly water */

/* Of a greenhouse crop's transpiration, a share of the light and a part that follows the deficit
 * (form and size of Baille et al. 1994, from memory): half the light the leaves take, and 10 W/m2
 * of leaf for each kPa, which is 0.6 W/m2 for each kelvin of latent temperature. */
static const double transpired_light = 0.5, deficit_W_m2K = 0.6;

static void add_leaves(struct building *building, double cover_m2, int group)
{
    const struct dawn_trays *trays = &building->scenario->trays;
    struct dawn_network *net = building->network;
    double leaf_m2 = trays->area_m2 * trays->leaf_area_index;
    net->leaf = dawn_network_add_node(net, DAWN_ROLE_LEAF, leaf_m2 * leaf_J_m2K, 0, 0, "leaves");
    struct natural_link law = dawn_network_film(LIE_UPRIGHT, 2.0 * leaf_m2);
    law.stirring = dawn_network_stack_veil(building, &building->at_trays.below, VEIL_GAP);
    /* small leaves: 1.3 (1 K / 0.05 m)^(1/4), textbook plate, from memory */
    law.law.least_W_m2K = 2.5;
    dawn_network_add_natural(net, net->leaf, building->at_trays.air, law);
    dawn_network_radiant_add(building, (struct radiant_surface){.node = net->leaf,
                                                                .area_m2 = cover_m2,
                                                                .emissivity = leaf_emissivity,
                                                                .group = group,
                                                                .below = building->at_trays.below});
    /* The underside sees the tray: two parallel faces. */
    dawn_network_add_longwave(net, net->leaf, net->trays,
                              cover_m2 / (1.0 / leaf_emissivity + 1.0 / 0.95 - 1.0));
    size_t channel = dawn_network_add_gain(net, net->leaf);
    dawn_network_light_receive(&building->light,
                               (struct light_receiver){.channel = channel,
                                                       .direct_m2 = cover_m2,
                                                       .area_m2 = cover_m2,
                                                       .absorptance = leaf_absorptance,
                                                       .below = building->at_trays.below});
    if (building->scenario->moisture.present)
        dawn_network_add_transpire(net, net->leaf, building->at_trays.air, transpired_light,
                                   leaf_m2 * deficit_W_m2K, channel);
}

static void add_trays(struct building *building)
{
    const struct dawn_trays *trays = &building->scenario->trays;
    struct dawn_network *net = building->network;
    double volume = trays->area_m2 * trays->depth_m;
    double water_kg = volume * trays->water_share * DAWN_WATER_KG_M3;
    double heat = volume * trays->heat_J_m3K;
    net->trays =
        dawn_network_add_node(net, DAWN_ROLE_TRAYS, heat,
                              heat - water_kg * (DAWN_WATER_HEAT_J_KGK - DAWN_WATER_ICE_HEAT_J_KGK),
                              water_kg * DAWN_WATER_LATENT_J_KG, "trays");
    /* Beer's law for seedling leaves, extinction 0.65 (from memory). */
    double cover_m2 = trays->area_m2 * (1.0 - exp(-0.65 * trays->leaf_area_index));
    double bare_m2 = trays->area_m2 - cover_m2;
    int group = dawn_network_radiant_group(building);
    struct natural_link law = dawn_network_film(LIE_FLOOR, trays->area_m2);
    law.stirring = dawn_network_stack_veil(building, &building->at_trays.below, VEIL_GAP);
    dawn_network_add_natural(net, net->trays, building->at_trays.air, law);
    if (building->scenario->moisture.present)
        dawn_network_add_evaporate(net, net->trays,
                                   bare_m2 * building->scenario->moisture.trays_wet);
    dawn_network_radiant_add(building, (struct radiant_surface){.node = net->trays,
                                                                .area_m2 = bare_m2,
                                                                .emissivity = 0.95,
                                                                .group = group,
                                                                .below = building->at_trays.below});
    dawn_network_light_receive(
        &building->light, (struct light_receiver){.channel = dawn_network_add_gain(net, net->trays),
                                                  .direct_m2 = bare_m2,
                                                  .area_m2 = bare_m2,
                                                  .absorptance = trays->absorptance,
                                                  .below = building->at_trays.below});
    if (trays->leaf_area_index > 0)
        add_leaves(building, cover_m2, group);
    if (trays->stand_on == DAWN_ON_BENCH) {
        dawn_network_add_natural(net, net->trays, net->air,
                                 dawn_network_film(LIE_ROOF, trays->area_m2));
        dawn_network_radiant_add(
            building, (struct radiant_surface){.node = net->trays,
                                               .area_m2 = trays->area_m2,
                                               .emissivity = 0.95,
                                               .group = dawn_network_radiant_group(building)});
    } else {
        /* Tray on soil: a contact of 0.1 m2K/W (common practice), half a moist tray in series. */
        double W_m2K = 1.0 / (0.1 + 0.5 * trays->depth_m / 0.45);
        dawn_network_add_conduction(net, net->trays, building->tray_bearer, NULL,
                                    trays->area_m2 * W_m2K);
    }
}

static int sensed_place(const struct building *building)
{
    const struct dawn_network *net = building->network;
    switch ((enum dawn_sensor)building->scenario->fan.senses) {
    case DAWN_SENSE_TRAYS:
        return net->trays != DAWN_NO_NODE ? net->trays : net->air;
    case DAWN_SENSE_BED:
        return net->root != DAWN_NO_NODE ? net->root : net->air;
    case DAWN_SENSE_RIDGE:
        return net->ridge;
    case DAWN_SENSE_AIR:
        break;
    }
    return net->air;
}

/* The sun takes as much of its time to warm the bulb as the air does: its light is what holds the
 * steady rise against the link to the air. */
static void sun_on_bulb(struct building *building, int bulb, double W_K)
{
    /* liquid in steel or grey plastic, 15 mm across (common practice, no source) */
    static const double bulb_m = 0.015;
    static const double absorptance = 0.7;
    static const double emissivity = 0.9;
    double rise_K_m2_W = dawn_surface_bulb_rise_K_m2_W(bulb_m, absorptance, emissivity);
    double sun = building->scenario->fan.sensor_sun;
    if (sun <= 0)
        return;
    dawn_network_light_receive(
        &building->light,
        (struct light_receiver){.channel = dawn_network_add_gain(building->network, bulb),
                                .absorptance = absorptance,
                                .outline_m2 = sun * rise_K_m2_W * W_K / absorptance});
}

/* The bulb is a node of its own, too small to matter to the air, so that the thermostat sees late
 * what a real one sees late. */
static int sensor_of(struct building *building)
{
    static const double bulb_J_K = 20.0;
    double lag_s = building->scenario->fan.sensor_lag_s;
    int place = sensed_place(building);
    if (!building->network->has_fan || lag_s <= 0)
        return place;
    double W_K = bulb_J_K / lag_s;
    int bulb =
        dawn_network_add_node(building->network, DAWN_ROLE_AIR, bulb_J_K, 0, 0, "thermostat bulb");
    dawn_network_add_conduction(building->network, place, bulb, NULL, W_K);
    sun_on_bulb(building, bulb, W_K);
    return bulb;
}

void dawn_network_build_stores(struct building *building)
{
    const struct dawn_scenario *scenario = building->scenario;
    if (scenario->rock.present) {
        struct rock_shape shape = dawn_network_rock_shape(building);
        add_segments(building, &shape);
        add_idle_rock(building, &shape);
        if (scenario->fan.present)
            add_fan(building, &shape);
    }
    for (size_t i = 0; i < scenario->barrels_count; ++i)
        if (scenario->barrels[i].count > 0)
            add_barrels(building, &scenario->barrels[i]);
    if (scenario->trays.present)
        add_trays(building);
    building->network->sensor = sensor_of(building);
}
