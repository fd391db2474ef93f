/* Water that can freeze: temperature from enthalpy; drums. */
#include "dawnlow/physics/water.h"

#include <math.h>

#include "physics/constants.h"

#define DRUM_SLENDERNESS 1.49

/* The y at which the last water has frozen. The sensible heat of the narrow freezing range is
 * counted too, so that the range stays a range even for a mass that holds no water. */
static double solid_y(double heat_J_K, double frozen_J_K, double latent_J)
{
    return -(latent_J + 0.5 * (heat_J_K + frozen_J_K) * DAWN_WATER_FREEZING_WIDTH_K) / heat_J_K;
}

struct dawn_water_state dawn_water_from_enthalpy(double y_C, double heat_J_K, double frozen_J_K,
                                                 double latent_J)
{
    struct dawn_water_state state = {.temperature_C = y_C, .slope = 1.0, .ice_share = 0.0};
    if (y_C >= 0.0)
        return state;
    double solid = solid_y(heat_J_K, frozen_J_K, latent_J);
    if (y_C >= solid) {
        state.ice_share = y_C / solid;
        state.temperature_C = -DAWN_WATER_FREEZING_WIDTH_K * state.ice_share;
        state.slope = -DAWN_WATER_FREEZING_WIDTH_K / solid;
        return state;
    }
    state.ice_share = 1.0;
    state.slope = heat_J_K / frozen_J_K;
    state.temperature_C = -DAWN_WATER_FREEZING_WIDTH_K + (y_C - solid) * state.slope;
    return state;
}

double dawn_water_to_enthalpy(double temperature_C, double heat_J_K, double frozen_J_K,
                              double latent_J)
{
    if (temperature_C >= 0.0)
        return temperature_C;
    double solid = solid_y(heat_J_K, frozen_J_K, latent_J);
    if (temperature_C >= -DAWN_WATER_FREEZING_WIDTH_K)
        return solid * temperature_C / -DAWN_WATER_FREEZING_WIDTH_K;
    return solid + (temperature_C + DAWN_WATER_FREEZING_WIDTH_K) * frozen_J_K / heat_J_K;
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
