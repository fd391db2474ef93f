/* Convection at surfaces, over lanes; dawnlow/physics/surface.h tells the laws. */
#ifndef PHYSICS_SURFACE_LANES_H
#define PHYSICS_SURFACE_LANES_H

#include "base/lane.h"
#include "physics/constants.h"

struct surface_lanes {
    lane h_W_m2K, slope_W_m2K;
    lane steeper_W_m2K2; /* how h changes with the difference */
};

/* dawn_surface_wind_film_W_m2K */
static inline lane surface_wind_film(lane wind_m_s)
{
    return LANE_NUMBER(2.8) + 3.0 * wind_m_s;
}

static inline lane surface_sixth_power(lane x)
{
    lane square = x * x;
    return square * square * square;
}

/* dawn_surface_natural */
static inline struct surface_lanes surface_natural(lane difference_K, lane coefficient,
                                                   lane least_W_m2K, lane forced_W_m2K)
{
    /* keeps the film's slope finite at dT = 0 even without a floor */
    const lane_number still_K = LANE_NUMBER(0.01);
    const lane_number nothing = LANE_NUMBER(1e-30); /* neither a floor nor a coefficient */
    /* h^6 = (c |dT|^(1/3))^6 + least^6: the sixth powers turn the cube root into dT squared, which
     * is smooth through zero */
    lane c6 = surface_sixth_power(coefficient);
    lane h6 = c6 * (difference_K * difference_K + still_K * still_K) +
              surface_sixth_power(lane_max(lane_of(0.0), least_W_m2K));
    lane_mask some = h6 > nothing;
    lane still3 = lane_sqrt(lane_select(some, h6, lane_of(1.0)));
    lane h3 = still3 + forced_W_m2K * forced_W_m2K * forced_W_m2K;
    lane h = lane_cbrt(h3);
    lane steeper = h * c6 * difference_K / (3.0 * still3 * h3);
    return (struct surface_lanes){lane_select(some, h, lane_of(0.0)),
                                  lane_select(some, h + steeper * difference_K, lane_of(0.0)),
                                  lane_select(some, steeper, lane_of(0.0))};
}

struct surface_wet_lanes {
    lane share, slope_m2_kg;
};

/* dawn_surface_wet_window */
static inline struct surface_wet_lanes surface_wet_window(lane water_kg_m2)
{
    const lane_number per_kg_m2 = LANE_NUMBER(4.0 * PHYSICS_PI * 0.0508 / 10e-6 / 1000.0);
    lane_mask wet = water_kg_m2 > 0.0;
    lane open = lane_exp(-per_kg_m2 * lane_max(water_kg_m2, lane_of(0.0)));
    return (struct surface_wet_lanes){1.0 - open, lane_select(wet, per_kg_m2 * open, lane_of(0.0))};
}

#endif
