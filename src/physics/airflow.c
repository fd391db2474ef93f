/* Air that comes and goes: leaks and openings. */
#include "dawnlow/physics/airflow.h"

#include <math.h>

#include "physics/constants.h"

#define STACK          1.45e-4 /* (L/s)2/(cm4 K), one storey */
#define WIND           1.74e-4 /* (L/s)2/(cm4 (m/s)2), one storey, shelter class 3 of 5 */
#define RATED_K        15.0
#define RATED_WIND_M_S 2.0
#define STILL_K        0.1 /* rounds the corner of |dT| and gives the root a finite slope at rest */
#define DISCHARGE      0.6
#define WIND_EFFECT                                                                                \
    0.09 /* share of the wind's dynamic pressure that moves air through one vent                   \
          */

static double smooth_magnitude(double difference_K)
{
    return sqrt(difference_K * difference_K + STILL_K * STILL_K);
}

struct dawn_airflow_factor dawn_airflow_leak(double difference_K, double wind_m_s)
{
    const double rated = STACK * RATED_K + WIND * RATED_WIND_M_S * RATED_WIND_M_S;
    double magnitude = smooth_magnitude(difference_K);
    double factor = sqrt((STACK * magnitude + WIND * wind_m_s * wind_m_s) / rated);
    struct dawn_airflow_factor at = {
        .factor = factor,
        .slope_per_K = STACK / (2.0 * rated * factor) * fabs(difference_K) / magnitude,
    };
    return at;
}

double dawn_airflow_effective_area_L_s(double leak_area_cm2, double difference_K, double wind_m_s,
                                       double stack, double wind)
{
    return leak_area_cm2 * sqrt(stack * fabs(difference_K) + wind * wind_m_s * wind_m_s);
}

double dawn_airflow_opening_m3_s(double area_m2, double height_m, double difference_K,
                                 double mean_K, double wind_m_s)
{
    double stack = PHYSICS_GRAVITY * height_m * smooth_magnitude(difference_K) / mean_K / 9.0;
    double wind = WIND_EFFECT * wind_m_s * wind_m_s / 4.0;
    return DISCHARGE * area_m2 * sqrt(stack + wind);
}
