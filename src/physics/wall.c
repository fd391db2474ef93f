/* Layered walls. */
#include "dawnlow/physics/wall.h"

#include <math.h>

#define HOUR_S      3600.0
#define SLICES_MOST 8

int dawn_wall_slices(double thickness_m, double conductivity_W_mK, double density_kg_m3,
                     double specific_heat_J_kgK)
{
    double reach_m = sqrt(conductivity_W_mK / (density_kg_m3 * specific_heat_J_kgK) * HOUR_S);
    double slices = ceil(thickness_m / reach_m);
    if (!(slices > 1.0))
        return 1;
    return slices < SLICES_MOST ? (int)slices : SLICES_MOST;
}

double dawn_wall_resistance_m2K_W(int count, const double thickness_m[],
                                  const double conductivity_W_mK[], double inside_m2K_W,
                                  double outside_m2K_W)
{
    double sum = inside_m2K_W + outside_m2K_W;
    for (int i = 0; i < count; i++)
        sum += thickness_m[i] / conductivity_W_mK[i];
    return sum;
}
