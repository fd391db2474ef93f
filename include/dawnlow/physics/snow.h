/* Snow that lies on a roof: what it insulates, what light it lets through, what it weighs. */
#ifndef DAWNLOW_PHYSICS_SNOW_H
#define DAWNLOW_PHYSICS_SNOW_H

/* Long-wave emissivity of snow: nearly black, 0.97 to 0.99 (textbooks, from memory). */
#define DAWN_SNOW_EMISSIVITY 0.98

/* Conductivity, W/mK, of dry snow of a density of 10..917 kg/m3, at -2 C, through ice and the air
 * between: 2.5e-6 rho^2 - 1.23e-4 rho + 0.024 (Calonne et al. 2011, Geophys. Res. Lett. 38, L23501;
 * from memory). Between Sturm et al. 1997, who measured less in settled snow, and Yen 1981. */
double dawn_snow_conductivity_W_mK(double density_kg_m3);

/* Share of sunlight, 1..0, that gets through a depth of dry snow, m >= 0: Beer-Lambert apart for
 * the visible half and the near infrared half. Visible light is lost at 0.003795 rho / sqrt(grain)
 * per metre (SI; Anderson 1976, Jordan 1991, from memory), with grains of 0.3 mm as in snow of a
 * few days; the infrared at 400 /m, within millimetres (Jordan 1991, from memory). */
double dawn_snow_light(double depth_m, double density_kg_m3);

/* What a depth of snow weighs, kg per m2 of the face it lies on. */
double dawn_snow_load_kg_m2(double depth_m, double density_kg_m3);

#endif
