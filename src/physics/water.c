/* Water that can freeze: temperature from enthalpy; drums. */
#include "dawnlow/physics/water.h"

#include <math.h>

#include "physics/constants.h"
#include "physics/water_lanes.h"

#define DRUM_SLENDERNESS 1.49

struct dawn_water_state dawn_water_from_enthalpy(double y_C, double heat_J_K, double frozen_J_K,
                                                 double latent_J)
{
    struct water_lanes state = water_from_enthalpy(y_C, heat_J_K, frozen_J_K, latent_J);
    return (struct dawn_water_state){state.temperature_C, state.slope, state.ice_share};
}

double dawn_water_to_enthalpy(double temperature_C, double heat_J_K, double frozen_J_K,
                              double latent_J)
{
    if (temperature_C >= 0.0)
        return temperature_C;
    double solid = water_solid_y(heat_J_K, frozen_J_K, latent_J);
    if (temperature_C >= -DAWN_WATER_FREEZING_WIDTH_K)
        return solid * temperature_C / -DAWN_WATER_FREEZING_WIDTH_K;
    return solid + (temperature_C + DAWN_WATER_FREEZING_WIDTH_K) * frozen_J_K / heat_J_K;
}

struct dawn_water_fusion dawn_water_film_fusion(double surface_C, double liquid_kg_m2,
                                                double ice_kg_m2)
{
    struct water_fusion_lanes fusion = water_film_fusion(surface_C, liquid_kg_m2, ice_kg_m2);
    return (struct dawn_water_fusion){fusion.W_m2, fusion.by_surface_W_m2K, fusion.by_liquid_W_kg,
                                      fusion.by_ice_W_kg};
}

struct dawn_water_drum dawn_water_drum_of(double volume_m3)
{
    double diameter = cbrt(4.0 * volume_m3 / (PHYSICS_PI * DRUM_SLENDERNESS));
    double height = DRUM_SLENDERNESS * diameter;
    struct dawn_water_drum drum = {
        .diameter_m = diameter,
        .height_m = height,
        .side_m2 = PHYSICS_PI * diameter * height,
        .top_m2 = 0.25 * PHYSICS_PI * diameter * diameter,
        .outline_m2 = diameter * height,
    };
    return drum;
}
