/* A leaf between two radiant surroundings. */
#ifndef DAWNLOW_PHYSICS_LEAF_H
#define DAWNLOW_PHYSICS_LEAF_H

/* Steady temperature, C, of a thin dry leaf that sees up_C above and down_C below, both black:
 * 0 = eps sigma (up^4 + down^4 - 2 leaf^4) + 2 h (air - leaf), h per side. Newton's method to 1e-10
 * K. Evaporation is left out (small at night) and so is dew, which would warm it: the leaf is not
 * colder than this. With neither film nor emissivity the air's temperature. */
double dawn_leaf_steady_C(double air_C, double up_C, double down_C, double emissivity,
                          double film_W_m2K);

#endif
