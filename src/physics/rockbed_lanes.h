/* A calm bed of rock, over lanes; dawnlow/physics/rockbed.h tells the law. */
#ifndef PHYSICS_ROCKBED_LANES_H
#define PHYSICS_ROCKBED_LANES_H

#include "base/lane.h"

struct rockbed_lanes {
    lane h_W_m2K, slope_W_m2K;
};

/* (Ra/onset)^6, 0 for a bed that lies stable */
static inline lane rockbed_past_onset(lane rayleigh_to_onset)
{
    lane ratio = lane_max(lane_of(0.0), rayleigh_to_onset);
    lane cube = ratio * ratio * ratio;
    return cube * cube;
}

/* dawn_rockbed_nusselt, of what is past the onset */
static inline lane rockbed_nusselt(lane past)
{
    lane_mask turns = 1.0 + past > 1.0;
    if (!lane_any(turns))
        return lane_of(1.0);
    return lane_select(turns, lane_cbrt(lane_sqrt(1.0 + past)), lane_of(1.0));
}

/* dawn_rockbed_buoyant_W_m2K of a bed whose Rayleigh number reaches its onset by onset_per_K times
 * the difference, and through half of which heat goes against still_m2K_W while it is still. */
static inline struct rockbed_lanes rockbed_buoyant(lane difference_K, lane onset_per_K,
                                                   lane still_m2K_W, lane series_m2K_W)
{
    lane past = rockbed_past_onset(onset_per_K * difference_K);
    lane inside = still_m2K_W / rockbed_nusselt(past);
    lane h = 1.0 / (inside + series_m2K_W);
    /* dT dNu/d(dT) = Nu past/(1 + past), so the difference itself drops out of the slope */
    return (struct rockbed_lanes){h, h * (1.0 + h * inside * past / (1.0 + past))};
}

#endif
