/* How the rock lies: what stores and fan both ask before either is put together. */
#include <math.h>

#include "dawnlow/physics/rockbed.h"
#include "network/network_build.h"

static const double air_W_mK = 0.0252; /* conductivity of air at 10 C, from memory */

struct rock_shape dawn_network_rock_shape(const struct building *building)
{
    const struct dawn_rock *rock = &building->scenario->rock;
    struct rock_shape shape = {
        .volume_m3 = building->rock_volume_m3,
        .footprint_m2 = building->bed_area_m2,
        .segments = (int)rock->segments,
    };
    shape.depth_m = shape.volume_m3 / shape.footprint_m2;
    /* A bed lies along the house and the air crosses it, unless the scenario says otherwise: a long
     * way through rock is more than a fan can push. */
    double width_m = shape.footprint_m2 / building->scenario->house.length_m;
    if (!isnan(rock->path_m))
        shape.path_m = rock->path_m;
    else if (!isnan(rock->face_m2))
        shape.path_m = shape.volume_m3 / rock->face_m2;
    else
        shape.path_m = fmax(width_m, shape.depth_m);
    shape.face_m2 = isnan(rock->face_m2) ? shape.volume_m3 / shape.path_m : rock->face_m2;
    shape.still_W_mK =
        dawn_rockbed_still_W_mK(air_W_mK, rock->conductivity_W_mK, rock->void_share) +
        dawn_rockbed_radiation_W_mK(rock->stone_m, rock->void_share, 10.0);
    return shape;
}
