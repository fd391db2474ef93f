/* The shell: air, glazing, opaque walls, leaks. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/surface.h"
#include "dawnlow/physics/wall.h"
#include "dawnlow/physics/water.h"
#include "network/network_build.h"
#include "physics/constants.h"

/* Slopes from here on count as upright for films (common practice, no source). */
static const double upright_deg = 60.0;
/* Weak films: where warm air lies over a cool face, or cool air below a warm roof
 * (0.6 to 0.8 (dT/L)^(1/4) of textbooks at house size, from memory, written as a third power). */
static const double stable_film = 0.45;
static const double least_film_W_m2K = 0.5;
/* Air that holds more than it can loses it as fog within a minute (common practice). */
static const double fog_s = 60.0;

/* An upright face takes less of the light that comes from above than the floor does (common
 * practice, no source). */
static const double upright_light_weight = 0.4;

enum lie dawn_network_lie(double slope_deg)
{
    if (slope_deg > 180.0 - upright_deg)
        return LIE_FLOOR;
    return slope_deg >= upright_deg ? LIE_UPRIGHT : LIE_ROOF;
}

struct natural_link dawn_network_film(enum lie lie, double area_m2)
{
    struct natural_link law = {.law = {.area_m2 = area_m2,
                                       .warm_coefficient = DAWN_SURFACE_UPRIGHT,
                                       .cool_coefficient = DAWN_SURFACE_UPRIGHT,
                                       .least_W_m2K = least_film_W_m2K,
                                       .stirred = 1.0}};
    if (lie == LIE_FLOOR) {
        law.law.warm_coefficient = DAWN_SURFACE_UNSTABLE;
        law.law.cool_coefficient = stable_film;
    } else if (lie == LIE_ROOF) {
        law.law.warm_coefficient = stable_film;
        law.law.cool_coefficient = DAWN_SURFACE_UNSTABLE;
    }
    return law;
}

static double sky_view(double slope_deg)
{
    return 0.5 * (1.0 + cos(slope_deg * PHYSICS_RADIANS));
}

/* A curtain parts the roof from the rest. */
static struct cover_stack covers_below(const struct building *building, double slope_deg)
{
    return dawn_network_lie(slope_deg) == LIE_ROOF ? building->at_roof.below
                                                   : (struct cover_stack){0};
}

/* Wind and sky over a face, through the snow on it where it bears snow. */
struct outer_face {
    int node;
    double area_m2, emissivity, slope_deg, sky_view;
    const char *wind_group, *sky_group;
};

static void meet_weather(struct building *building, const struct outer_face *face)
{
    struct dawn_network *net = building->network;
    if (dawn_scenario_bears_snow(building->scenario, face->slope_deg) && face->sky_view > 0) {
        int surface = dawn_network_snow_over(building, face->node, face->area_m2);
        dawn_network_add_wind(net, surface, face->wind_group, face->area_m2);
        dawn_network_snow_sky(building, surface, face->sky_group, face->area_m2, face->emissivity,
                              face->sky_view);
        return;
    }
    dawn_network_add_wind(net, face->node, face->wind_group, face->area_m2);
    dawn_network_add_sky(net, face->node, face->sky_group, face->area_m2 * face->emissivity,
                         face->sky_view);
}

static void glazing_light(struct building *building, const struct dawn_glazing *glazing,
                          const struct dawn_glazing_build *build, const int skin[])
{
    struct light_plan *plan = &building->light;
    struct light_pane *pane = &plan->panes[plan->pane_count++];
    *pane = (struct light_pane){
        .area_m2 = glazing->area_m2,
        .facing = dawn_sun_facing(glazing->slope_deg * PHYSICS_RADIANS,
                                  glazing->azimuth_deg * PHYSICS_RADIANS),
        .pass = (1.0 - glazing->frame_share) * glazing->dirt_factor,
        .snowed = dawn_scenario_bears_snow(building->scenario, glazing->slope_deg),
        .below = covers_below(building, glazing->slope_deg)};
    dawn_network_light_pane(pane, build);
    for (size_t i = 0; i < build->skins; ++i)
        pane->channel[i] = dawn_network_add_gain(building->network, skin[i]);
}

/* Roofs meet the air under the ridge, upright faces the air at the benches. */
static int air_beside(const struct building *building, double slope_deg)
{
    return dawn_network_lie(slope_deg) == LIE_ROOF ? building->network->ridge
                                                   : building->network->air;
}

/* From outside to inside, the gap between each two. */
static void add_skins(struct building *building, const struct dawn_glazing *glazing,
                      const struct dawn_glazing_build *build, int skin[])
{
    struct dawn_network *net = building->network;
    double heat = build->heat_J_m2K * glazing->area_m2;
    for (size_t i = 0; i < build->skins; ++i) {
        char which[24] = "";
        if (i > 0 && i + 1 == build->skins)
            (void)snprintf(which, sizeof which, " inner skin");
        else if (i > 0)
            (void)snprintf(which, sizeof which, " skin %d", (int)i + 1);
        skin[i] = dawn_network_add_node(net, DAWN_ROLE_GLAZING, heat, heat, 0, "%s%s",
                                        glazing->name, which);
        if (i > 0)
            dawn_network_add_conduction(net, skin[i], skin[i - 1], NULL,
                                        glazing->area_m2 / build->gap_m2K_W);
    }
}

static void add_glazing(struct building *building, const struct dawn_glazing *glazing)
{
    struct dawn_network *net = building->network;
    const struct dawn_moisture *moisture = &building->scenario->moisture;
    struct dawn_glazing_build build = dawn_scenario_glazing_build(glazing);
    double area = glazing->area_m2;
    int skin[DAWN_GLAZING_LAYERS_MOST] = {0};
    add_skins(building, glazing, &build, skin);
    int outer = skin[0];
    int inner = skin[build.skins - 1];
    double view = sky_view(glazing->slope_deg);
    meet_weather(building,
                 &(struct outer_face){outer, area, build.emissivity, glazing->slope_deg, view,
                                      "wind over the glazing", "long-wave from the glazing"});
    dawn_network_add_natural(net, inner, air_beside(building, glazing->slope_deg),
                             dawn_network_film(dawn_network_lie(glazing->slope_deg), area));
    if (moisture->present) {
        dawn_network_add_condense(net, inner, area, moisture->film_m * DAWN_WATER_KG_M3);
        dawn_network_add_frost(net);
    }
    int group = dawn_network_radiant_group(building);
    struct cover_stack below = covers_below(building, glazing->slope_deg);
    dawn_network_radiant_add(building, (struct radiant_surface){.node = inner,
                                                                .area_m2 = area,
                                                                .emissivity = build.emissivity,
                                                                .group = group,
                                                                .below = below});
    dawn_network_radiant_add(
        building, (struct radiant_surface){
                      .node = DAWN_NO_NODE,
                      .area_m2 = area,
                      .emissivity = build.longwave_transmittance,
                      .group = group,
                      .sky_view = view,
                      .snowed = dawn_scenario_bears_snow(building->scenario, glazing->slope_deg),
                      .pane = outer,
                      .wets = moisture->present,
                      .condense = net->condense_count - 1,
                      .below = below});
    glazing_light(building, glazing, &build, skin);
}

static void wall_outside(struct building *building, const struct dawn_wall *wall, int face)
{
    struct dawn_network *net = building->network;
    if (wall->outside == DAWN_OUTSIDE_GROUND) {
        /* Where no soil lies between, the two touch: a thousandth of a foam board's resistance. */
        static const double touch_m2K_W = 0.001;
        double soil_m2K_W = wall->soil_behind_m / building->scenario->ground.conductivity_W_mK;
        dawn_network_add_conduction(net, face, OUTSIDE(OUTSIDE_DEEP), "walls to the ground",
                                    wall->area_m2 / fmax(soil_m2K_W, touch_m2K_W));
        return;
    }
    bool shaded = wall->outside == DAWN_OUTSIDE_SHADED;
    meet_weather(building,
                 &(struct outer_face){face, wall->area_m2, wall->outside_emissivity,
                                      wall->slope_deg, shaded ? 0.0 : sky_view(wall->slope_deg),
                                      "wind over the walls", "long-wave from the walls"});
    if (shaded)
        return;
    struct light_plan *plan = &building->light;
    plan->walls[plan->wall_count++] =
        (struct light_wall){.area_m2 = wall->area_m2,
                            .facing = dawn_sun_facing(wall->slope_deg * PHYSICS_RADIANS,
                                                      wall->azimuth_deg * PHYSICS_RADIANS),
                            .absorptance = wall->outside_absorptance,
                            .snowed = dawn_scenario_bears_snow(building->scenario, wall->slope_deg),
                            .channel = dawn_network_add_gain(net, face)};
}

static void add_wall(struct building *building, const struct dawn_wall *wall)
{
    struct layer_stuff layers[DAWN_LAYERS_MOST];
    for (size_t i = 0; i < wall->layer_count; ++i) {
        const struct dawn_layer *layer = &wall->layers[i];
        layers[i] = (struct layer_stuff){
            .thickness_m = layer->thickness_m,
            .conductivity_W_mK = layer->conductivity_W_mK,
            .heat_J_m3K = layer->density_kg_m3 * layer->specific_heat_J_kgK,
            .slices = dawn_wall_slices(layer->thickness_m, layer->conductivity_W_mK,
                                       layer->density_kg_m3, layer->specific_heat_J_kgK)};
    }
    int nodes[FACES_MOST];
    size_t faces = dawn_network_layers(building, DAWN_ROLE_WALL, wall->name, wall->area_m2, layers,
                                       wall->layer_count, nodes);
    int inside = nodes[faces - 1];
    bool floor = dawn_scenario_is_floor(wall);
    double light_weight = floor ? 1.0 - dawn_network_shade(building) : upright_light_weight;
    wall_outside(building, wall, nodes[0]);
    dawn_network_add_natural(building->network, inside, air_beside(building, wall->slope_deg),
                             dawn_network_film(dawn_network_lie(wall->slope_deg), wall->area_m2));
    if (floor)
        dawn_network_add_plume(
            building->network, DAWN_NETWORK_PLUME_SHARE,
            dawn_network_stack_veil(building, &building->at_roof.below, VEIL_GAP));
    dawn_network_radiant_add(
        building, (struct radiant_surface){.node = inside,
                                           .area_m2 = wall->area_m2,
                                           .emissivity = wall->inside_emissivity,
                                           .group = dawn_network_radiant_group(building),
                                           .below = covers_below(building, wall->slope_deg)});
    dawn_network_light_receive(
        &building->light,
        (struct light_receiver){.channel = dawn_network_add_gain(building->network, inside),
                                .direct_m2 = wall->area_m2 * light_weight,
                                .area_m2 = wall->area_m2,
                                .absorptance = wall->inside_absorptance});
}

/* The air under the ridge takes this share of the volume when it is kept apart: the crop's layer
 * is 0.6 to 0.7 (common practice). */
static const double ridge_share = 0.35;

int dawn_network_add_air(struct building *building, double volume_m3, const char *name)
{
    struct dawn_network *net = building->network;
    double heat = building->air_J_m3K * volume_m3;
    int air = dawn_network_add_node(net, DAWN_ROLE_AIR, heat, heat, 0, "%s", name);
    net->airs[net->air_count].air = air;
    net->airs[net->air_count].vapour =
        building->scenario->moisture.present
            ? dawn_network_add_node(net, DAWN_ROLE_VAPOUR, heat, heat, 0, "vapour in %s", name)
            : DAWN_NO_NODE;
    ++net->air_count;
    if (building->scenario->moisture.present)
        dawn_network_add_fog(net, air, heat / fog_s);
    return air;
}

static bool has_curtain(const struct dawn_scenario *scenario)
{
    for (size_t i = 0; i < scenario->cover_count; ++i)
        if (scenario->covers[i].over == DAWN_OVER_HOUSE)
            return true;
    return false;
}

static void add_airs(struct building *building)
{
    struct dawn_network *net = building->network;
    bool two = building->scenario->house.zones > 1.5 || has_curtain(building->scenario);
    double volume = building->air_volume_m3;
    net->air = dawn_network_add_air(building, volume * (two ? 1.0 - ridge_share : 1.0),
                                    two ? "bench air" : "air");
    net->ridge = two ? dawn_network_add_air(building, volume * ridge_share, "ridge air") : net->air;
    net->vapour = dawn_network_vapour_in(net, net->air);
    net->ridge_vapour = dawn_network_vapour_in(net, net->ridge);
}

/* With one zone and a curtain that is away the two are one: see network_covers.c. */
static void mix_airs(struct building *building)
{
    struct dawn_network *net = building->network;
    if (building->scenario->house.zones < 1.5)
        return;
    double height = building->air_volume_m3 / building->floor_area_m2;
    struct mixing_link law =
        dawn_network_mixing_law(building->floor_area_m2, height, building->air_J_m3K);
    law.veil = dawn_network_stack_veil(building, &building->at_roof.below, VEIL_GAP);
    dawn_network_add_mixing(net, law);
}

static void breathe(struct building *building, int air)
{
    struct dawn_network *net = building->network;
    double heat = net->nodes[air].facts.heat_J_K;
    const struct dawn_house *house = &building->scenario->house;
    const struct dawn_outdoor_fan *fan = &building->scenario->outdoor_fan;
    dawn_network_add_leak(net, air,
                          heat * dawn_scenario_air_changes_per_h(building->scenario) / 3600.0);
    if (house->steady_air_changes_per_h > 0)
        dawn_network_add_renewal(net, air, "leaks", "vapour through leaks",
                                 heat * house->steady_air_changes_per_h / 3600.0, false);
    if (fan->present)
        dawn_network_add_renewal(net, air, "outdoor fan", "vapour through the outdoor fan",
                                 heat * fan->air_changes_per_h / 3600.0, true);
}

void dawn_network_build_shell(struct building *building)
{
    struct dawn_network *net = building->network;
    const struct dawn_scenario *scenario = building->scenario;
    net->pressure_Pa = dawn_moistair_pressure_Pa(scenario->site.elevation_m);
    building->air_J_m3K =
        dawn_moistair_density_kg_m3(10.0, net->pressure_Pa) * DAWN_MOISTAIR_CP_J_KGK;
    net->air_J_m3K = building->air_J_m3K;
    add_airs(building);
    dawn_network_build_covers(building);
    dawn_network_build_snow(building);
    mix_airs(building);
    for (size_t i = 0; i < scenario->glazing_count; ++i)
        add_glazing(building, &scenario->glazing[i]);
    for (size_t i = 0; i < scenario->wall_count; ++i)
        add_wall(building, &scenario->walls[i]);
    breathe(building, net->air);
    if (net->ridge != net->air)
        breathe(building, net->ridge);
    dawn_network_build_openings(building);
    if (scenario->house.heat_W > 0)
        dawn_network_add_power(net, net->air,
                               scenario->house.heat_W * (1.0 - scenario->house.heat_radiant_share),
                               false, "heat source inside");
}
