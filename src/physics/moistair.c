/* Moist air. */
#include "dawnlow/physics/moistair.h"

#include <math.h>

#include "physics/constants.h"

#define GAS_CONSTANT_DRY_AIR 287.042 /* J/(kg K) */
#define WATER_TO_AIR_MASS    0.621945
#define AT_FREEZING_PA       610.94
#define MOST_VAPOUR          0.99 /* of the pressure */
#define LEWIS                0.9  /* Le^(2/3) */
#define COLDEST_C            (-100.0)
#define LEAST_VAPOUR_PA                                                                            \
    1e-3 /* dew point about -105 C: dry enough to stand for no vapour at all                       \
          */

double dawn_moistair_pressure_Pa(double elevation_m)
{
    return 101325.0 * pow(1.0 - 2.25577e-5 * elevation_m, 5.2559);
}

struct magnus {
    double factor, offset_C;
};
static const struct magnus over_water = {17.625, 243.04};
/* the published constant over ice is 611.21; the two curves must meet at 0 C */
static const struct magnus over_ice = {22.587, 273.86};

static double magnus_Pa(struct magnus curve, double temperature_C)
{
    double t = fmax(COLDEST_C, temperature_C);
    return AT_FREEZING_PA * exp(curve.factor * t / (t + curve.offset_C));
}

static struct magnus curve_at(double temperature_C)
{
    return temperature_C >= 0.0 ? over_water : over_ice;
}

double dawn_moistair_saturation_water_Pa(double temperature_C)
{
    return magnus_Pa(over_water, temperature_C);
}

double dawn_moistair_saturation_Pa(double temperature_C)
{
    return magnus_Pa(curve_at(temperature_C), temperature_C);
}

double dawn_moistair_dew_C(double vapour_Pa)
{
    double g = log(fmax(LEAST_VAPOUR_PA, vapour_Pa) / AT_FREEZING_PA);
    return over_water.offset_C * g / (over_water.factor - g);
}

double dawn_moistair_ratio(double vapour_Pa, double pressure_Pa)
{
    /* boiling: the ratio has no bound; hold the vapour just below the pressure */
    double vapour = fmax(0.0, fmin(vapour_Pa, MOST_VAPOUR * pressure_Pa));
    return WATER_TO_AIR_MASS * vapour / (pressure_Pa - vapour);
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
    struct magnus curve = curve_at(temperature_C);
    double vapour = magnus_Pa(curve, temperature_C);
    struct dawn_moistair_latent air = {
        .y_K = dawn_moistair_latent_of_ratio(dawn_moistair_ratio(vapour, pressure_Pa))};
    if (temperature_C < COLDEST_C || vapour > MOST_VAPOUR * pressure_Pa)
        return air;
    double above = temperature_C + curve.offset_C;
    /* y follows e/(p - e): d ln y = d ln e p/(p - e) */
    air.slope = air.y_K * curve.factor * curve.offset_C / (above * above) * pressure_Pa /
                (pressure_Pa - vapour);
    return air;
}

double dawn_moistair_latent_film_W_m2K(double film_W_m2K)
{
    return film_W_m2K / LEWIS;
}
