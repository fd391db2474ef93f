/* Moist air. */
#include "dawnlow/physics/moistair.h"

#include <math.h>

#include "physics/constants.h"

#define GAS_CONSTANT_DRY_AIR 287.042 /* J/(kg K) */
#define WATER_TO_AIR_MASS    0.621945
#define AT_FREEZING_PA       610.94
#define COLDEST_C            (-100.0)
#define LEAST_VAPOUR_PA                                                                            \
    1e-3 /* dew point about -105 C: dry enough to stand for no vapour at all                       \
          */

double dawn_moistair_pressure_Pa(double elevation_m)
{
    return 101325.0 * pow(1.0 - 2.25577e-5 * elevation_m, 5.2559);
}

double dawn_moistair_saturation_water_Pa(double temperature_C)
{
    double t = fmax(COLDEST_C, temperature_C);
    return AT_FREEZING_PA * exp(17.625 * t / (t + 243.04));
}

double dawn_moistair_saturation_Pa(double temperature_C)
{
    if (temperature_C >= 0.0)
        return dawn_moistair_saturation_water_Pa(temperature_C);
    double t = fmax(COLDEST_C, temperature_C);
    /* the published constant over ice is 611.21; the two curves must meet at 0 C */
    return AT_FREEZING_PA * exp(22.587 * t / (t + 273.86));
}

double dawn_moistair_dew_C(double vapour_Pa)
{
    double g = log(fmax(LEAST_VAPOUR_PA, vapour_Pa) / AT_FREEZING_PA);
    return 243.04 * g / (17.625 - g);
}

double dawn_moistair_ratio(double vapour_Pa, double pressure_Pa)
{
    /* boiling: the ratio has no bound; hold the vapour just below the pressure */
    double vapour = fmax(0.0, fmin(vapour_Pa, 0.99 * pressure_Pa));
    return WATER_TO_AIR_MASS * vapour / (pressure_Pa - vapour);
}

double dawn_moistair_density_kg_m3(double temperature_C, double pressure_Pa)
{
    return pressure_Pa / (GAS_CONSTANT_DRY_AIR * (temperature_C + PHYSICS_KELVIN));
}
