/* Solid layers to nodes on their faces, so that a surface's own temperature meets the air. */
#include <math.h>

#include "dawnlow/physics/soil.h"
#include "dawnlow/physics/water.h"
#include "network/network_build.h"

/* Insulation holds next to nothing; a little floor keeps its faces from being stiff for no gain. */
static const double least_heat_J_m2K = 1000.0;

static void add_half(double heat[2], const struct layer_stuff *layer, double half_m)
{
    heat[0] += half_m * layer->heat_J_m3K;
    heat[1] += half_m * layer->water_share * DAWN_WATER_KG_M3;
}

/* From one face to the next, through what may freeze. */
static void join(struct dawn_network *network, int from, int to, double W_K, double water_share)
{
    if (water_share > 0)
        dawn_network_add_soil(network, from, to, W_K, W_K * dawn_soil_frozen_ratio(water_share));
    else
        dawn_network_add_conduction(network, from, to, NULL, W_K);
}

size_t dawn_network_layers(struct building *building, enum dawn_role role, const char *name,
                           double area_m2, const struct layer_stuff *layers, size_t count,
                           int nodes[FACES_MOST])
{
    double heat[FACES_MOST][2] = {{0, 0}}; /* J/m2K and kg of water per m2 of each face's share */
    double conductance[FACES_MOST] = {0};  /* W/m2K to the next face */
    double water_share[FACES_MOST] = {0};  /* of what lies between */
    size_t faces = 1;
    for (size_t i = 0; i < count; ++i) {
        double slice_m = layers[i].thickness_m / layers[i].slices;
        for (int k = 0; k < layers[i].slices && faces < FACES_MOST; ++k) {
            add_half(heat[faces - 1], &layers[i], 0.5 * slice_m);
            add_half(heat[faces], &layers[i], 0.5 * slice_m);
            conductance[faces - 1] = layers[i].conductivity_W_mK / slice_m;
            water_share[faces - 1] = layers[i].water_share;
            ++faces;
        }
    }
    for (size_t i = 0; i < faces; ++i) {
        double whole = fmax(heat[i][0], least_heat_J_m2K) * area_m2;
        double water = heat[i][1] * area_m2;
        double ice = whole - water * (DAWN_WATER_HEAT_J_KGK - DAWN_WATER_ICE_HEAT_J_KGK);
        nodes[i] = dawn_network_add_node(building->network, role, whole, ice,
                                         water * DAWN_WATER_LATENT_J_KG, "%s %zu", name, i + 1);
        if (i > 0)
            join(building->network, nodes[i - 1], nodes[i], conductance[i - 1] * area_m2,
                 water_share[i - 1]);
    }
    return faces;
}
