/* Moist air. */
#ifndef DAWNLOW_PHYSICS_MOISTAIR_H
#define DAWNLOW_PHYSICS_MOISTAIR_H

/* Pressure of the standard atmosphere at a height, Pa: 101325 (1 - 2.25577e-5 z)^5.2559 (ASHRAE
 * Fundamentals 2017, ch. 1 eq. 3; ICAO), -500..11000 m. Weather moves it by +-3 %. */
double dawn_moistair_pressure_Pa(double elevation_m);

/* Saturation pressure, Pa, over water above 0 C and over ice below: Magnus form of Alduchov &
 * Eskridge 1996; within 0.26 % (worst at 25 C) of the standard tables from -30 to 50 C. Their
 * constant over ice, 611.21, is replaced by the one over water, 610.94, so that the curve has no
 * step at 0 C. Below -100 C the value there is held. */
double dawn_moistair_saturation_Pa(double temperature_C);

/* The same over (supercooled) water at all temperatures: what dew points and relative humidities of
 * weather stations refer to. */
double dawn_moistair_saturation_water_Pa(double temperature_C);

/* Dew point over water, C: exact inverse of the above. Less than 0.001 Pa counts as that (-105 C).
 */
double dawn_moistair_dew_C(double vapour_Pa);

/* Humidity ratio, kg/kg dry air: 0.621945 e/(p - e). Negative vapour counts as 0, more than 99 % of
 * the pressure as that. */
double dawn_moistair_ratio(double vapour_Pa, double pressure_Pa);

/* Dry air as an ideal gas, kg/m3 (R = 287.042 J/(kg K)). The air's water is left out: 1 % at most
 * below 30 C. */
double dawn_moistair_density_kg_m3(double temperature_C, double pressure_Pa);

#define DAWN_MOISTAIR_CP_J_KGK 1006.0 /* dry air, 0..40 C */

/* Moisture as heat. Humidity is written as the latent temperature y = w L/cp, K: what condensing
 * all of it would warm the air by, so that latent heat flows along y as sensible heat does along T.
 * L is water's at 0 C; at 20 C it is 2 % less, frost sets free 13 % more. */
#define DAWN_MOISTAIR_LATENT_J_KG 2.5e6

double dawn_moistair_latent_of_ratio(double ratio);
double dawn_moistair_ratio_of_latent(double latent_K);

struct dawn_moistair_latent {
    double y_K;   /* latent temperature */
    double slope; /* dy/dT, K/K */
};

/* Of saturated air, over ice below 0 C; the value has no step there, its slope falls by 12 % from
 * ice to water. Within 1 % of the handbook's tables from -20 to 50 C. As above the value is held
 * below -100 C and where the vapour would exceed 99 % of the pressure; the slope is 0 there. */
struct dawn_moistair_latent dawn_moistair_latent_saturated(double temperature_C,
                                                           double pressure_Pa);

/* Film by which latent heat follows differences of y, W/(m2 K): h/Le^(2/3) of a convective film h,
 * Le^(2/3) = 0.9 in moist air (Lewis; handbooks 0.89..0.91, from memory). */
double dawn_moistair_latent_film_W_m2K(double film_W_m2K);

#endif
