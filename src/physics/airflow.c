/* Air that comes and goes: leaks and openings. */
#include "dawnlow/physics/airflow.h"

#include <math.h>

#include "physics/airflow_lanes.h"
#include "physics/constants.h"

struct dawn_airflow_factor dawn_airflow_leak(double difference_K, double wind_m_s)
{
    struct airflow_factor_lanes leak = airflow_leak(difference_K, wind_m_s);
    return (struct dawn_airflow_factor){leak.factor, leak.slope_per_K};
}

double dawn_airflow_effective_area_L_s(double leak_area_cm2, double difference_K, double wind_m_s,
                                       double stack, double wind)
{
    return leak_area_cm2 * sqrt(stack * fabs(difference_K) + wind * wind_m_s * wind_m_s);
}

double dawn_airflow_changes_of_fan_test(double changes_at_50Pa_per_h)
{
    const double at_4Pa_per_h = changes_at_50Pa_per_h * pow(4.0 / 50.0, 0.65);
    const double jet_m_s = sqrt(2.0 * 4.0 / 1.2);
    /* L/s by cm2 is ten times m/s */
    const double drift_m_s =
        10.0 * dawn_airflow_effective_area_L_s(1.0, AIRFLOW_RATED_K, AIRFLOW_RATED_WIND_M_S,
                                               AIRFLOW_STACK, AIRFLOW_WIND);
    return at_4Pa_per_h / jet_m_s * drift_m_s;
}

const struct dawn_airflow_class *dawn_airflow_classes(size_t *count)
{
#define TABLES   "public tables of air changes, seen"
#define HANDBOOK "ASAE EP406 and NRAES-33, from memory"
    static const struct dawn_airflow_class classes[] = {
        {"sealed", "every joint taped or lipped, the door with a seal", 0.45, 0.3, 0.5, TABLES},
        {"tight", "new double film, battened all round", 0.8, 0.5, 1.0, HANDBOOK},
        {"average", "sheets or panes in good order, a door that closes", 1.0, 0.8, 1.2, TABLES},
        {"leaky", "old glass or patched film, laps and a door one can see through", 1.75, 1.5, 2.0,
         TABLES},
        {"draughty", "slipped panes, torn film, gaps for a hand", 3.25, 2.0, 4.0, HANDBOOK},
    };
#undef TABLES
#undef HANDBOOK
    *count = sizeof classes / sizeof classes[0];
    return classes;
}

static struct dawn_airflow_opening opening_of(struct airflow_opening_lanes flow)
{
    return (struct dawn_airflow_opening){flow.m3_s, flow.slope_m3_sK, flow.mean_slope_m3_sK};
}

struct dawn_airflow_opening dawn_airflow_opening(double area_m2, double height_m,
                                                 double difference_K, double mean_K,
                                                 double wind_m_s)
{
    return opening_of(airflow_opening(area_m2, height_m, difference_K, mean_K, wind_m_s));
}

double dawn_airflow_opening_m3_s(double area_m2, double height_m, double difference_K,
                                 double mean_K, double wind_m_s)
{
    return dawn_airflow_opening(area_m2, height_m, difference_K, mean_K, wind_m_s).m3_s;
}

struct dawn_airflow_opening dawn_airflow_two_openings(double lower_m2, double upper_m2,
                                                      double rise_m, double difference_K,
                                                      double mean_K, double wind_m_s)
{
    return opening_of(
        airflow_two_openings(lower_m2, upper_m2, rise_m, difference_K, mean_K, wind_m_s));
}

struct dawn_airflow_weight dawn_airflow_weight(double mean_K)
{
    struct airflow_weight_lanes weight = airflow_weight(mean_K);
    return (struct dawn_airflow_weight){weight.ratio, weight.slope_per_K};
}

struct dawn_airflow_surplus dawn_airflow_surplus(double own_m2, double other_m2)
{
    struct airflow_surplus_lanes surplus = airflow_surplus(own_m2, other_m2);
    return (struct dawn_airflow_surplus){surplus.share, surplus.by_own_per_m2,
                                         surplus.by_other_per_m2};
}
