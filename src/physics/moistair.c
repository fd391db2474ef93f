/* Moist air. */
#include "dawnlow/physics/moistair.h"

#include <math.h>

#include "physics/constants.h"
#include "physics/moistair_lanes.h"

#define GAS_CONSTANT_DRY_AIR 287.042 /* J/(kg K) */
#define LEWIS                0.9     /* Le^(2/3) */
#define LEAST_VAPOUR_PA                                                                            \
    1e-3 /* dew point about -105 C: dry enough to stand for no vapour at all                       \
          */

double dawn_moistair_pressure_Pa(double elevation_m)
{
    return 101325.0 * pow(1.0 - 2.25577e-5 * elevation_m, 5.2559);
}

double dawn_moistair_saturation_water_Pa(double temperature_C)
{
    return moistair_magnus_Pa(MOISTAIR_WATER_FACTOR, MOISTAIR_WATER_OFFSET_C, temperature_C);
}

double dawn_moistair_saturation_Pa(double temperature_C)
{
    return temperature_C >= 0.0
               ? dawn_moistair_saturation_water_Pa(temperature_C)
               : moistair_magnus_Pa(MOISTAIR_ICE_FACTOR, MOISTAIR_ICE_OFFSET_C, temperature_C);
}

double dawn_moistair_dew_C(double vapour_Pa)
{
    double g = log(fmax(LEAST_VAPOUR_PA, vapour_Pa) / MOISTAIR_AT_FREEZING_PA);
    return MOISTAIR_WATER_OFFSET_C * g / (MOISTAIR_WATER_FACTOR - g);
}

double dawn_moistair_ratio(double vapour_Pa, double pressure_Pa)
{
    return moistair_ratio(vapour_Pa, pressure_Pa);
}

double dawn_moistair_density_kg_m3(double temperature_C, double pressure_Pa)
{
    return pressure_Pa / (GAS_CONSTANT_DRY_AIR * (temperature_C + PHYSICS_KELVIN));
}

double dawn_moistair_latent_of_ratio(double ratio)
{
    return ratio * (DAWN_MOISTAIR_LATENT_J_KG / DAWN_MOISTAIR_CP_J_KGK);
}

double dawn_moistair_ratio_of_latent(double latent_K)
{
    return latent_K * (DAWN_MOISTAIR_CP_J_KGK / DAWN_MOISTAIR_LATENT_J_KG);
}

struct dawn_moistair_latent dawn_moistair_latent_saturated(double temperature_C, double pressure_Pa)
{
    struct moistair_lanes air = moistair_saturated(temperature_C, pressure_Pa);
    return (struct dawn_moistair_latent){air.y_K, air.slope};
}

double dawn_moistair_latent_film_W_m2K(double film_W_m2K)
{
    return film_W_m2K / LEWIS;
}
