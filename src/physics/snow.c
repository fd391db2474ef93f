/* Snow on a roof: a published regression on its density, Beer's law for light. */
#include "dawnlow/physics/snow.h"

#include <math.h>

static const double grain_m = 0.0003;
static const double infrared_per_m = 400.0;

double dawn_snow_conductivity_W_mK(double density_kg_m3)
{
    return (2.5e-6 * density_kg_m3 - 1.23e-4) * density_kg_m3 + 0.024;
}

double dawn_snow_light(double depth_m, double density_kg_m3)
{
    double visible_per_m = 0.003795 * density_kg_m3 / sqrt(grain_m);
    return 0.5 * (exp(-visible_per_m * depth_m) + exp(-infrared_per_m * depth_m));
}

double dawn_snow_load_kg_m2(double depth_m, double density_kg_m3)
{
    return depth_m * density_kg_m3;
}
