/* Ground below and around. */
#include "dawnlow/physics/soil.h"

#include <math.h>

#include "physics/constants.h"

#define YEAR_DAYS 365.0
#define DAY_S     86400.0

double dawn_soil_kusuda_C(double depth_m, double day, double mean_C, double swing_C,
                          double coldest_day, double diffusivity_m2_day)
{
    double depths = depth_m * sqrt(PHYSICS_PI / (YEAR_DAYS * diffusivity_m2_day));
    double phase = 2.0 * PHYSICS_PI / YEAR_DAYS * (day - coldest_day) - depths;
    return mean_C - swing_C * exp(-depths) * cos(phase);
}

double dawn_soil_layer_m(int i)
{
    static const double thickness_m[DAWN_SOIL_LAYERS] = {0.02, 0.03, 0.04, 0.06,
                                                         0.10, 0.20, 0.38, 0.67};
    return i >= 0 && i < DAWN_SOIL_LAYERS ? thickness_m[i] : 0.0;
}

double dawn_soil_diurnal_depth_m(double conductivity_W_mK, double heat_J_m3K)
{
    return sqrt(conductivity_W_mK / heat_J_m3K * DAY_S / PHYSICS_PI);
}
