/* Ground below and around. */
#ifndef DAWNLOW_PHYSICS_SOIL_H
#define DAWNLOW_PHYSICS_SOIL_H

/* Undisturbed ground temperature, C, at a depth on a day of the year (Kusuda & Achenbach 1965):
 * mean - swing exp(-z sqrt(pi/(365 a))) cos(2 pi/365 (day - coldest) - z sqrt(pi/(365 a))).
 * swing_C: half the yearly range of daily means at the surface; coldest_day: day of the year of the
 * coldest surface; diffusivity in m2/day, above 0 (0.04..0.06 for ordinary ground). day may have a
 * fraction and run past the year's end. Snow, frost and rain are not in it: 1..2 K. */
double dawn_soil_kusuda_C(double depth_m, double day, double mean_C, double swing_C,
                          double coldest_day, double diffusivity_m2_day);

/* Layers under a floor: thin at the top, where an hour matters, growing downward; together 1.50 m,
 * below which a night or a week is not felt. */
enum { DAWN_SOIL_LAYERS = 8 };
/* Thickness of layer i, m, 0 the topmost; 0 for a layer that is not there. */
double dawn_soil_layer_m(int i);

/* Depth at which the daily wave has fallen to 1/e, m: sqrt(2 a/omega), a = conductivity / heat.
 * Both above 0. */
double dawn_soil_diurnal_depth_m(double conductivity_W_mK, double heat_J_m3K);

#endif
