/* A leaf between two radiant surroundings. */
#include "dawnlow/physics/leaf.h"

#include <math.h>

#include "dawnlow/physics/sky.h"
#include "physics/constants.h"

double dawn_leaf_steady_C(double air_C, double up_C, double down_C, double emissivity,
                          double film_W_m2K)
{
    double received =
        0.5 * (dawn_sky_longwave_W_m2(1.0, up_C) + dawn_sky_longwave_W_m2(1.0, down_C));
    double leaf_K = air_C + PHYSICS_KELVIN;
    /* the balance is concave in the leaf's temperature: Newton's steps settle from above */
    for (int i = 0; i < 30; i++) {
        double cubed = leaf_K * leaf_K * leaf_K;
        double gain = emissivity * (received - DAWN_STEFAN_BOLTZMANN * cubed * leaf_K) +
                      film_W_m2K * (air_C + PHYSICS_KELVIN - leaf_K);
        double loss_slope = 4.0 * emissivity * DAWN_STEFAN_BOLTZMANN * cubed + film_W_m2K;
        if (!(loss_slope > 0.0))
            break;
        double step = gain / loss_slope;
        leaf_K += step;
        if (fabs(step) < 1e-10)
            break;
    }
    return leaf_K - PHYSICS_KELVIN;
}
