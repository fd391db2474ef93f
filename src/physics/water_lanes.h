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
    const lane_number width_K = LANE_NUMBER(DAWN_WATER_FREEZING_WIDTH_K);
    return -(latent_J + 0.5 * (heat_J_K + frozen_J_K) * width_K) / heat_J_K;
}

/* dawn_water_from_enthalpy */
static inline struct water_lanes water_from_enthalpy(lane y_C, lane heat_J_K, lane frozen_J_K,
                                                     lane latent_J)
{
    const lane_number width_K = LANE_NUMBER(DAWN_WATER_FREEZING_WIDTH_K);
    struct water_lanes liquid = {y_C, lane_of(1.0), lane_of(0.0)};
    if (!lane_any(y_C < 0.0))
        return liquid;
    lane solid = water_solid_y(heat_J_K, frozen_J_K, latent_J);
    lane share = y_C / solid;
    lane frozen_slope = heat_J_K / frozen_J_K;
    lane_mask freezing = y_C >= solid;
    lane temperature =
        lane_select(freezing, -width_K * share, (y_C - solid) * frozen_slope - width_K);
    lane slope = lane_select(freezing, -width_K / solid, frozen_slope);
    lane_mask warm = y_C >= 0.0;
    return (struct water_lanes){
        lane_select(warm, y_C, temperature), lane_select(warm, lane_of(1.0), slope),
        lane_select(warm, lane_of(0.0), lane_select(freezing, share, lane_of(1.0)))};
}

struct water_cover_lanes {
    lane share, slope_m2_kg;
};

struct water_fusion_lanes {
    lane W_m2, by_surface_W_m2K, by_liquid_W_kg, by_ice_W_kg;
};

/* How much of a surface a thin layer covers, and its slope: 5 g/m2 cover half. Smooth through zero,
 * so that a layer overdrawn by an integrator comes back. */
static inline struct water_cover_lanes water_cover(lane kg_m2)
{
    const lane_number thin_kg_m2 = LANE_NUMBER(0.005);
    lane thick = lane_abs(kg_m2) + thin_kg_m2;
    return (struct water_cover_lanes){kg_m2 / thick, thin_kg_m2 / (thick * thick)};
}

/* dawn_water_film_fusion */
static inline struct water_fusion_lanes water_film_fusion(lane surface_C, lane liquid_kg_m2,
                                                          lane ice_kg_m2)
{
    const lane_number fusion_W_m2K = 500;
    const lane_number rounded_K = LANE_NUMBER(0.1);
    struct water_cover_lanes liquid = water_cover(liquid_kg_m2);
    struct water_cover_lanes ice = water_cover(ice_kg_m2);
    struct lane_ramp above = lane_ramp(surface_C, rounded_K);
    lane below_K = above.value - surface_C;
    return (struct water_fusion_lanes){
        fusion_W_m2K * (below_K * liquid.share - above.value * ice.share),
        fusion_W_m2K * ((above.slope - 1.0) * liquid.share - above.slope * ice.share),
        fusion_W_m2K * below_K * liquid.slope_m2_kg, -fusion_W_m2K * above.value * ice.slope_m2_kg};
}

#endif
