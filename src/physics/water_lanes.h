/* Water that freezes, over lanes; dawnlow/physics/water.h tells the law. */
#ifndef PHYSICS_WATER_LANES_H
#define PHYSICS_WATER_LANES_H

#include "base/lane.h"
#include "dawnlow/physics/water.h"

struct water_lanes {
    lane temperature_C, slope, ice_share;
};

/* The y at which the last water has frozen. The sensible heat of the narrow freezing range is
 * counted too, so that the range stays a range even for a mass that holds no water. */
static inline lane water_solid_y(lane heat_J_K, lane frozen_J_K, lane latent_J)
{
    return -(latent_J + 0.5 * (heat_J_K + frozen_J_K) * DAWN_WATER_FREEZING_WIDTH_K) / heat_J_K;
}

/* dawn_water_from_enthalpy */
static inline struct water_lanes water_from_enthalpy(lane y_C, lane heat_J_K, lane frozen_J_K,
                                                     lane latent_J)
{
    struct water_lanes liquid = {y_C, lane_of(1.0), lane_of(0.0)};
    if (!lane_any(y_C < 0.0))
        return liquid;
    lane solid = water_solid_y(heat_J_K, frozen_J_K, latent_J);
    lane share = y_C / solid;
    lane frozen_slope = heat_J_K / frozen_J_K;
    lane_mask freezing = y_C >= solid;
    lane temperature = lane_select(freezing, -DAWN_WATER_FREEZING_WIDTH_K * share,
                                   (y_C - solid) * frozen_slope - DAWN_WATER_FREEZING_WIDTH_K);
    lane slope = lane_select(freezing, -DAWN_WATER_FREEZING_WIDTH_K / solid, frozen_slope);
    lane_mask warm = y_C >= 0.0;
    return (struct water_lanes){
        lane_select(warm, y_C, temperature), lane_select(warm, lane_of(1.0), slope),
        lane_select(warm, lane_of(0.0), lane_select(freezing, share, lane_of(1.0)))};
}

struct water_frost_lanes {
    lane share, slope_per_K;
};

/* dawn_water_frost_on */
static inline struct water_frost_lanes water_frost_on(lane surface_C)
{
    lane share = -surface_C / DAWN_WATER_FREEZING_WIDTH_K;
    lane_mask between = (share > 0.0) & (share < 1.0);
    return (struct water_frost_lanes){
        lane_max(lane_min(share, lane_of(1.0)), lane_of(0.0)),
        lane_select(between, lane_of(-1.0 / DAWN_WATER_FREEZING_WIDTH_K), lane_of(0.0))};
}

#endif
