/* The ground below: soil columns under path and bed, the planting bed, the loss at the edge. */
#include <math.h>

#include "dawnlow/physics/soil.h"
#include "network/network_build.h"

static const double soil_emissivity = 0.95; /* from memory: 0.92 to 0.96 */

static void soil_layers(const struct dawn_ground *ground, struct layer_stuff layers[])
{
    for (int i = 0; i < DAWN_SOIL_LAYERS; ++i)
        layers[i] = (struct layer_stuff){.thickness_m = dawn_soil_layer_m(i),
                                         .conductivity_W_mK = ground->conductivity_W_mK,
                                         .heat_J_m3K = ground->heat_J_m3K,
                                         .water_share = ground->water_share,
                                         .slices = 1};
}

double dawn_network_edge_loss_W_mK(const struct building *building)
{
    static const double board_W_mK = 0.035; /* extruded or expanded foam, from memory */
    const struct dawn_ground *ground = &building->scenario->ground;
    struct dawn_soil_slab slab = {.area_m2 = building->floor_area_m2,
                                  .perimeter_m = building->perimeter_m,
                                  .wall_m = 0.1,
                                  .ground_W_mK = ground->conductivity_W_mK,
                                  .resistance_m2K_W = 0.21};
    struct dawn_soil_edge edge = {ground->edge_depth_m, ground->edge_thickness_m, board_W_mK};
    return dawn_soil_edge_loss_W_mK(ground->edge_loss_W_mK, &slab, &edge);
}

/* A column of soil down to the deep ground; returns its top node. The last face lies in the deep
 * ground and is held by it through half a layer. Share of the edge by share of the floor. */
static int soil_column(struct building *building, const char *name, double area_m2)
{
    const struct dawn_ground *ground = &building->scenario->ground;
    struct dawn_network *net = building->network;
    struct layer_stuff layers[DAWN_SOIL_LAYERS];
    int nodes[FACES_MOST];
    soil_layers(ground, layers);
    size_t faces = dawn_network_layers(building, DAWN_ROLE_FLOOR, name, area_m2, layers,
                                       DAWN_SOIL_LAYERS, nodes);
    double half_m = 0.5 * layers[DAWN_SOIL_LAYERS - 1].thickness_m;
    dawn_network_add_conduction(net, nodes[faces - 1], OUTSIDE(OUTSIDE_DEEP), "deep ground",
                                area_m2 * ground->conductivity_W_mK / half_m);
    double depth_m = 0;
    double whole_m = half_m;
    for (int i = 0; i < DAWN_SOIL_LAYERS; ++i)
        whole_m += layers[i].thickness_m;
    for (size_t i = 0; i < faces; ++i) {
        net->nodes[nodes[i]].deep_share = depth_m / whole_m;
        if (i < DAWN_SOIL_LAYERS)
            depth_m += layers[i].thickness_m;
    }
    double edge_W_K = dawn_network_edge_loss_W_mK(building) * building->perimeter_m * area_m2 /
                      building->floor_area_m2;
    /* The edge draws on the ground 0.05 to 0.15 m down, where its frost comes in (common practice:
     * 0.1 to 0.3 m). */
    for (size_t i = 2; i <= 4; ++i)
        dawn_network_add_conduction(net, nodes[i], OUTSIDE(OUTSIDE_EDGE), "ground at the edge",
                                    edge_W_K / 3.0);
    return nodes[0];
}

/* A face that lies open to the house from below: film, long-wave, light. */
static void open_floor(struct building *building, int node, const struct covered_place *at,
                       double open_m2, double absorptance, double wet_share, int group)
{
    struct dawn_network *net = building->network;
    if (open_m2 <= 0)
        return;
    struct natural_link law = dawn_network_film(LIE_FLOOR, open_m2);
    law.stirring = dawn_network_stack_veil(building, &at->below, VEIL_GAP);
    dawn_network_add_natural(net, node, at->air, law);
    struct cover_stack rising = at->below; /* past the covers above it and past a curtain */
    for (size_t i = 0; i < building->at_roof.below.count; ++i)
        rising.cover[rising.count++] = building->at_roof.below.cover[i];
    dawn_network_add_plume(net, DAWN_NETWORK_PLUME_SHARE,
                           dawn_network_stack_veil(building, &rising, VEIL_GAP));
    if (building->scenario->moisture.present && wet_share > 0)
        dawn_network_add_evaporate(net, node, open_m2 * wet_share);
    dawn_network_radiant_add(building, (struct radiant_surface){.node = node,
                                                                .area_m2 = open_m2,
                                                                .emissivity = soil_emissivity,
                                                                .group = group,
                                                                .below = at->below});
    dawn_network_light_receive(&building->light,
                               (struct light_receiver){.channel = dawn_network_add_gain(net, node),
                                                       .direct_m2 = open_m2,
                                                       .area_m2 = open_m2,
                                                       .absorptance = absorptance,
                                                       .below = at->below});
}

/* Three layers, thin at the top where the day's swing is; the third face is the root zone. Rock
 * without a planting bed gets 5 cm of its own gravel on top (values from memory), so that the top
 * has a temperature. */
static int bed_top(struct building *building)
{
    static const double parts[3] = {0.1, 0.23, 0.67};
    const struct dawn_bed *bed = &building->scenario->bed;
    struct dawn_network *net = building->network;
    struct layer_stuff layers[3];
    for (int i = 0; i < 3; ++i)
        layers[i] = bed->present
                        ? (struct layer_stuff){bed->depth_m * parts[i], bed->conductivity_W_mK,
                                               bed->heat_J_m3K, bed->water_share, 1}
                        : (struct layer_stuff){0.05 * parts[i], 0.45, 1.3e6, 0, 1};
    int nodes[FACES_MOST];
    dawn_network_layers(building, DAWN_ROLE_BED, bed->present ? "bed soil" : "gravel top",
                        building->bed_area_m2, layers, 3, nodes);
    if (bed->present)
        net->root = nodes[2];
    building->bed_bottom = nodes[3];
    return nodes[0];
}

/* The air goes round them. */
double dawn_network_shade(const struct building *building)
{
    const struct dawn_trays *trays = &building->scenario->trays;
    bool on_bench = trays->present && trays->stand_on != DAWN_ON_BED;
    return on_bench ? fmin(trays->area_m2 / building->floor_area_m2, 0.9) : 0.0;
}

void dawn_network_build_ground(struct building *building)
{
    const struct dawn_scenario *scenario = building->scenario;
    struct dawn_network *net = building->network;
    const struct dawn_trays *trays = &scenario->trays;
    bool on_bed = trays->present && trays->stand_on == DAWN_ON_BED;
    double shade = dawn_network_shade(building);
    int group = dawn_network_radiant_group(building);
    if (building->path_area_m2 > 0) {
        int top = soil_column(building, "floor", building->path_area_m2);
        const struct covered_place path = {.air = net->air};
        open_floor(building, top, &path, building->path_area_m2 * (1.0 - shade),
                   scenario->ground.floor_absorptance, scenario->moisture.floor_wet, group);
    }
    if (building->bed_area_m2 <= 0)
        return;
    int below = soil_column(building, "soil under the bed", building->bed_area_m2);
    int top = bed_top(building);
    double open_m2 = building->bed_area_m2 * (1.0 - shade) - (on_bed ? trays->area_m2 : 0.0);
    open_floor(
        building, top, &building->at_bed, open_m2,
        scenario->bed.present ? scenario->bed.absorptance : scenario->ground.floor_absorptance,
        scenario->bed.present ? scenario->moisture.bed_wet : scenario->moisture.floor_wet, group);
    building->tray_bearer = top;
    if (!scenario->rock.present) {
        /* Bed soil lies on the ground: the same earth goes on. */
        dawn_network_add_conduction(net, building->bed_bottom, below, NULL,
                                    building->bed_area_m2 * scenario->ground.conductivity_W_mK /
                                        dawn_soil_layer_m(0));
    }
    building->below_bed = below;
}
