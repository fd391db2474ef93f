/* Water that can freeze: temperature from enthalpy; drums.
 *
 * A mass with water in it is followed by its enthalpy, not its temperature: nothing is lost at the
 * freezing point however the integrator steps. */
#ifndef DAWNLOW_PHYSICS_WATER_H
#define DAWNLOW_PHYSICS_WATER_H

/* One figure each for all temperatures. Between 4 and 40 C the specific heat, which falls from 4207
 * to 4179, is within 0.6 % of this one and in the mean within 0.1 %; what a barrel is filled with
 * weighs 0.2 % less at most. */
#define DAWN_WATER_KG_M3            1000.0
#define DAWN_WATER_HEAT_J_KGK       4186.0  /* liquid, about 15 C (the calorie's definition) */
#define DAWN_WATER_ICE_HEAT_J_KGK   2050.0  /* ice, about -5 C */
#define DAWN_WATER_LATENT_J_KG      333.5e3 /* of melting, 0 C, 333.55 in the IAPWS tables */
#define DAWN_WATER_FREEZING_WIDTH_K 0.1     /* freezing is spread over this much, 0 .. -width */

struct dawn_water_state {
    double temperature_C;
    double slope;     /* dT/dy, always above 0 */
    double ice_share; /* 0..1 */
};

/* State of a mass from y = enthalpy / heat_J_K, C, with enthalpy 0 for all liquid at 0 C: above
 * freezing y is the temperature. heat_J_K unfrozen and frozen_J_K frozen heat capacity, both above
 * 0; latent_J what it takes to freeze its water, 0 for a dry mass. Freezing is spread evenly over 0
 * .. -DAWN_WATER_FREEZING_WIDTH_K (a true front holds 0 C; with 5 K of driving difference the
 * spread prolongs freezing by 1 %), and the sensible heat of that range is counted, so that a dry
 * mass with equal capacities has T = y everywhere. Temperature is continuous; its slope jumps at
 * both ends. No supercooling. */
struct dawn_water_state dawn_water_from_enthalpy(double y_C, double heat_J_K, double frozen_J_K,
                                                 double latent_J);

/* The y that has this temperature: the inverse (ice share 0 at and above 0 C, 1 at and below
 * -width). */
double dawn_water_to_enthalpy(double temperature_C, double heat_J_K, double frozen_J_K,
                              double latent_J);

/* An upright drum of the usual proportions holding volume_m3 (height = 1.49 diameters: the inside
 * of the common 200 L steel drum, 0.572 m by 0.851 m; common practice). All sizes 0 for volume 0.
 */
struct dawn_water_drum {
    double diameter_m, height_m;
    double side_m2;    /* the curved side */
    double top_m2;     /* one end */
    double outline_m2; /* diameter x height: the shadow it throws in level light */
};
struct dawn_water_drum dawn_water_drum_of(double volume_m3);

/* The heat that a thin film on a surface gives to it where it freezes below 0 C, or takes from it
 * (negative) where ice thaws above, W/m2, and its slopes: 500 W/m2K times the kelvins from the
 * freezing point times what is covered by liquid or ice, so that a surface that loses 100 W/m2
 * freezes its film at -0.2 C (no source: a millimetre of ice alone would let through 2000 W/m2K,
 * drops touch the surface here and there). The corner at 0 C is rounded over +-0.1 K. 5 g/m2 cover
 * half of a surface. A negative mass, ice whose water has evaporated, is made up for by thawing. */
struct dawn_water_fusion {
    double W_m2, by_surface_W_m2K, by_liquid_W_kg, by_ice_W_kg;
};
struct dawn_water_fusion dawn_water_film_fusion(double surface_C, double liquid_kg_m2,
                                                double ice_kg_m2);

#endif
