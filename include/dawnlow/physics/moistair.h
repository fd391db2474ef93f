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

#endif
