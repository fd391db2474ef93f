/* Long-wave radiation from the sky. Emissivities are of the whole sky towards level ground, related
 * to the air's temperature near the ground. */
#ifndef DAWNLOW_PHYSICS_SKY_H
#define DAWNLOW_PHYSICS_SKY_H

#define DAWN_STEFAN_BOLTZMANN 5.670374419e-8 /* W/(m2 K4), CODATA 2018 */

/* Clear sky, Berdahl & Martin 1984 (Solar Energy 32:663), from the dew point over water, C.
 * solar_hour: hours of solar time, NAN leaves the day-night term out; pressure_Pa: station
 * pressure, NAN leaves the pressure term out. Fitted for dew points -20..30 C, 0.02 scatter of
 * monthly means. Below -38.4 C, where the parabola turns up again, its least value is held; never
 * outside 0..1. */
double dawn_sky_emissivity_berdahl(double dew_C, double solar_hour, double pressure_Pa);

/* Cloud over a clear sky: eps (1 - 0.84 N) + 0.84 N, Unsworth & Monteith 1975; cloud 0..1, clamped.
 * Meant for total cover of mixed height; high thin cloud warms less. */
double dawn_sky_cloudy(double clear_emissivity, double cloud);

/* Radiation that comes down, W/m2: eps sigma T^4. */
double dawn_sky_longwave_W_m2(double emissivity, double air_C);

/* The temperature, C, of a black sky that sends this much; its inverse for emissivity 1. Less than
 * 0 W/m2 counts as 0 (-273.15 C). */
double dawn_sky_temperature_C(double longwave_W_m2);

#endif
