/* Heat at surfaces: convection outside and inside, grey radiation between surfaces. */
#ifndef DAWNLOW_PHYSICS_SURFACE_H
#define DAWNLOW_PHYSICS_SURFACE_H

#include <stddef.h>

/* Convection (without radiation) of a surface in the wind, W/(m2 K): 2.8 + 3.0 v, Watmuff, Charters
 * & Proctor 1977, for the wind at the surface, 0..7 m/s; the straight line goes on above. */
double dawn_surface_wind_film_W_m2K(double wind_m_s);

struct dawn_surface_film {
    double h_W_m2K;     /* film coefficient */
    double slope_W_m2K; /* d(h dT)/d(dT): what an implicit integrator needs */
};

/* Natural convection of a large surface, h = coefficient |dT|^(1/3) (turbulent), joined to a floor
 * as the sixth root of the sum of sixth powers: smooth through dT = 0, even in dT, never below the
 * floor, at most 12 % above either where they meet and within 1 % of the power law once that is 1.7
 * times the floor. A difference of 0.01 K is always added in square, so a floor of 0 is allowed.
 * Meant for 0.5..25 K and surfaces above about half a metre. A forced film of stirred air, 0 when
 * there is none, joins as cubes: the usual blend of assisting convections (Churchill 1977, from
 * memory). */
struct dawn_surface_film dawn_surface_natural(double difference_K, double coefficient,
                                              double least_W_m2K, double forced_W_m2K);
/* Coefficients, W/(m2 K^(4/3)): turbulent natural convection in air near room temperature, as
 * handbooks print them (from memory). */
#define DAWN_SURFACE_UPRIGHT  1.31 /* vertical */
#define DAWN_SURFACE_UNSTABLE 1.52 /* warm floor, cold roof */

/* Upright plate, W/(m2 K): Churchill & Chu 1975 over all Rayleigh numbers, air at 101325 Pa (ideal
 * gas, Sutherland's viscosity, k = 0.0241 (T/273.15)^0.9, Pr 0.71). Even in dT; at dT = 0 pure
 * conduction over the height remains. height_m above 0. About 20 % scatter of measurements. */
double dawn_surface_churchill_chu_W_m2K(double difference_K, double height_m, double film_C);

/* 4 eps sigma T^3, W/(m2 K): radiation between surfaces close to a mean temperature. */
double dawn_surface_linear_radiative_W_m2K(double emissivity, double mean_C);

/* Level rod or bulb of a diameter, W/(m2 K): Churchill & Chu 1975, air as above. */
double dawn_surface_rod_W_m2K(double difference_K, double diameter_m, double film_C);

/* How much warmer than the air a slender thermometer bulb in still air becomes in each W/m2 of
 * light across it: it takes up absorptance d L and gives off over pi d L, by convection and
 * radiation as at 8 K above 20 C (textbook balance). An unshaded bulb reads 5 to 15 K too warm
 * (common practice). */
double dawn_surface_bulb_rise_K_m2_W(double diameter_m, double absorptance, double emissivity);

/* Weights w_i, m2, such that grey surfaces of an enclosure exchange
 * sigma w_i w_j / sum(w) (T_i^4 - T_j^4), W: the mean-radiant-temperature star of Carroll (1980)
 * for convex rooms, w = A / ((1 - eps)/eps + 1/F) with F = 1/(1 - A F / sum(A F)) per plane.
 * group[i]: surfaces that lie in one plane share a number (any number), and a plane's pieces count
 * in F as one. Exact for two parallel plates and for a small convex body in a large enclosure;
 * whatever the shape a black surface gives the others all of its area. A star knows areas, not
 * distances: from floor to ceiling of a 10 x 6 x 2.5 m box it gives 7 % less than the exact view
 * factor and that much more by way of the walls. A plane larger than all others together sees
 * itself (F bounded by 1e6). Emissivity 0 (a perfect mirror) or area 0 gives weight 0; everything
 * in one plane gives all weights 0. emissivity 0..1. */
void dawn_surface_radiant_weights(size_t count, const double area_m2[], const double emissivity[],
                                  const int group[], double weight_m2[]);

/* How much of a film's long-wave window a film of water on it shuts, 0..1, and how that changes
 * with the water: 1 - exp(-m / 15.7 g/m2), of the absorption of liquid water at 10 um, 4 pi 0.051 /
 * 10 um = 6.4e4 /m (Hale & Querry 1973, from memory), taken for all long-wave. */
struct dawn_surface_wet {
    double share, slope_m2_kg;
};
struct dawn_surface_wet dawn_surface_wet_window(double water_kg_m2);

#endif
