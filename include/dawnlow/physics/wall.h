/* Layered walls. */
#ifndef DAWNLOW_PHYSICS_WALL_H
#define DAWNLOW_PHYSICS_WALL_H

/* Slices a layer needs so that each follows an hour's change: ceil(L / sqrt(a 3600 s)), 1..8, where
 * a = conductivity / (density specific heat), all above 0. */
int dawn_wall_slices(double thickness_m, double conductivity_W_mK, double density_kg_m3,
                     double specific_heat_J_kgK);

/* Thermal resistance of layers and their surface films in series, m2K/W (ISO 6946:2017). Films of
 * that standard: inside 0.13 sideways, 0.10 upward, 0.17 downward; outside 0.04. Conductivities
 * above 0. count 0: the films alone. */
double dawn_wall_resistance_m2K_W(int count, const double thickness_m[],
                                  const double conductivity_W_mK[], double inside_m2K_W,
                                  double outside_m2K_W);

#endif
