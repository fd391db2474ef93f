/* Saturated air, over lanes; dawnlow/physics/moistair.h tells the laws. */
#ifndef PHYSICS_MOISTAIR_LANES_H
#define PHYSICS_MOISTAIR_LANES_H

#include "base/lane.h"
#include "dawnlow/physics/moistair.h"

#define MOISTAIR_COLDEST_C   LANE_NUMBER(-100.0)
#define MOISTAIR_MOST_VAPOUR LANE_NUMBER(0.99) /* of the pressure */

/* Over water, and over ice. */
#define MOISTAIR_AT_FREEZING_PA LANE_NUMBER(610.94)
#define MOISTAIR_WATER_FACTOR   17.625
#define MOISTAIR_WATER_OFFSET_C 243.04
/* the published constant over ice is 611.21; the two curves must meet at 0 C */
#define MOISTAIR_ICE_FACTOR   22.587
#define MOISTAIR_ICE_OFFSET_C 273.86

struct moistair_lanes {
    lane y_K, slope;
};

static inline lane moistair_magnus_Pa(lane factor, lane offset_C, lane temperature_C)
{
    lane t = lane_max(lane_of(MOISTAIR_COLDEST_C), temperature_C);
    return MOISTAIR_AT_FREEZING_PA * lane_exp(factor * t / (t + offset_C));
}

/* dawn_moistair_ratio */
static inline lane moistair_ratio(lane vapour_Pa, lane pressure_Pa)
{
    const lane_number water_to_air_mass = LANE_NUMBER(0.621945);
    /* boiling: the ratio has no bound; hold the vapour just below the pressure */
    lane vapour = lane_max(lane_of(0.0), lane_min(vapour_Pa, MOISTAIR_MOST_VAPOUR * pressure_Pa));
    return water_to_air_mass * vapour / (pressure_Pa - vapour);
}

/* dawn_moistair_latent_saturated */
static inline struct moistair_lanes moistair_saturated(lane temperature_C, lane pressure_Pa)
{
    lane_mask liquid = temperature_C >= 0.0;
    lane magnus_factor =
        lane_select(liquid, lane_of(MOISTAIR_WATER_FACTOR), lane_of(MOISTAIR_ICE_FACTOR));
    lane offset_C =
        lane_select(liquid, lane_of(MOISTAIR_WATER_OFFSET_C), lane_of(MOISTAIR_ICE_OFFSET_C));
    lane vapour = moistair_magnus_Pa(magnus_factor, offset_C, temperature_C);
    lane y_K = moistair_ratio(vapour, pressure_Pa) *
               LANE_NUMBER(DAWN_MOISTAIR_LATENT_J_KG / DAWN_MOISTAIR_CP_J_KGK);
    lane most = MOISTAIR_MOST_VAPOUR * pressure_Pa;
    lane_mask held = (temperature_C < MOISTAIR_COLDEST_C) | (vapour > most);
    lane above = lane_max(temperature_C, lane_of(MOISTAIR_COLDEST_C)) + offset_C;
    /* y follows e/(p - e): d ln y = d ln e p/(p - e) */
    lane slope = y_K * magnus_factor * offset_C / (above * above) * pressure_Pa /
                 (pressure_Pa - lane_min(vapour, most));
    return (struct moistair_lanes){y_K, lane_select(held, lane_of(0.0), slope)};
}

#endif
