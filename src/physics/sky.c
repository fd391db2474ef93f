/* Long-wave radiation from the sky. */
#include "dawnlow/physics/sky.h"

#include <math.h>

#include "physics/constants.h"

/* where Berdahl & Martin's parabola turns: a still drier sky must not radiate more */
#define BERDAHL_DRIEST_DEW_C (-100.0 * 0.56 / (2.0 * 0.73))

static double share(double x)
{
    return fmax(0.0, fmin(1.0, x));
}

double dawn_sky_emissivity_berdahl(double dew_C, double solar_hour, double pressure_Pa)
{
    double dew = fmax(dew_C, BERDAHL_DRIEST_DEW_C) / 100.0;
    double emissivity = 0.711 + 0.56 * dew + 0.73 * dew * dew;
    if (!isnan(solar_hour))
        emissivity += 0.013 * cos(2.0 * PHYSICS_PI * solar_hour / 24.0);
    if (!isnan(pressure_Pa))
        emissivity += 0.00012 * (pressure_Pa / 100.0 - 1000.0);
    return share(emissivity);
}

double dawn_sky_cloudy(double clear_emissivity, double cloud)
{
    double n = share(cloud);
    return clear_emissivity * (1.0 - 0.84 * n) + 0.84 * n;
}

double dawn_sky_longwave_W_m2(double emissivity, double air_C)
{
    double kelvin = air_C + PHYSICS_KELVIN;
    return emissivity * DAWN_STEFAN_BOLTZMANN * kelvin * kelvin * kelvin * kelvin;
}

double dawn_sky_temperature_C(double longwave_W_m2)
{
    return sqrt(sqrt(fmax(0.0, longwave_W_m2) / DAWN_STEFAN_BOLTZMANN)) - PHYSICS_KELVIN;
}
