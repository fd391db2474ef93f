/* Air that comes and goes: leaks and openings. Flows are even in the temperature difference. */
#ifndef DAWNLOW_PHYSICS_AIRFLOW_H
#define DAWNLOW_PHYSICS_AIRFLOW_H

#include <stddef.h>

struct dawn_airflow_factor {
    double factor;      /* leakage relative to its rating */
    double slope_per_K; /* d factor / d |dT| */
};

/* Leakage relative to what it is at 15 K and 2 m/s: the square root of stack and wind added, with
 * the basic model's single-storey coefficients for a middling sheltered house (Sherman & Grimsrud
 * 1980 as in the ASHRAE handbook, from memory: stack 1.45e-4, wind 1.74e-4). Wind at the house.
 * |dT| is rounded over 0.1 K, so that the factor keeps a finite slope at rest; in still air without
 * difference 0.07 of the rating remains. Meant for 0..40 K and 0..12 m/s. */
struct dawn_airflow_factor dawn_airflow_leak(double difference_K, double wind_m_s);

/* The basic model itself: flow in L/s of an effective leakage area in cm2 with given stack
 * ((L/s)2/(cm4 K)) and wind ((L/s)2/(cm4 (m/s)2)) coefficients. */
double dawn_airflow_effective_area_L_s(double leak_area_cm2, double difference_K, double wind_m_s,
                                       double stack, double wind);

/* Air changes an hour at 15 K and 2 m/s of a house that changes its air so often at 50 Pa, as a fan
 * in its door measures it: flow by the 0.65th power of the pressure down to 4 Pa, the effective
 * area there in air of 1.2 kg/m3 (Sherman & Grimsrud 1980; exponent from memory), then the basic
 * model with the coefficients above. About a twenty-fifth; practice divides by twenty. */
double dawn_airflow_changes_of_fan_test(double changes_at_50Pa_per_h);

/* How tight a house may be: air changes an hour of the whole house at 15 K and 2 m/s. */
struct dawn_airflow_class {
    const char *word;
    const char *meaning;
    double changes_per_h;           /* to reckon with in a small house */
    double least_per_h, most_per_h; /* what the source gives */
    const char *source;
};
/* The classes, tightest first. */
const struct dawn_airflow_class *dawn_airflow_classes(size_t *count);

/* A flow of air through openings and how it changes; all even in the temperature difference. */
struct dawn_airflow_opening {
    double m3_s;
    double slope_m3_sK;      /* by |dT|, the mean temperature held */
    double mean_slope_m3_sK; /* by the mean temperature, 0 or negative: warm air pulls less */
};

/* Exchange through one upright opening of a height (a vent, a door), stack and wind added in
 * square: stack Cd A/3 sqrt(g H dT/T) with Cd 0.6 (the flow through a single large opening, BS 5925
 * / ASHRAE, from memory), wind Cd A/2 sqrt(Cw) v with Cw 0.09 (measured on greenhouse vents,
 * Boulard & Baille 1995, from memory). |dT| is rounded over 0.1 K. mean_K: absolute temperature
 * between inside and outside, above 0. Where it is outside + dT/2, the flow changes with the inside
 * temperature by the slope in the sign of dT plus half the mean slope. */
struct dawn_airflow_opening dawn_airflow_opening(double area_m2, double height_m,
                                                 double difference_K, double mean_K,
                                                 double wind_m_s);
/* The flow alone. */
double dawn_airflow_opening_m3_s(double area_m2, double height_m, double difference_K,
                                 double mean_K, double wind_m_s);

/* Through two openings one above the other, in at one and out at the other: stack
 * Cd A sqrt(2 g dH dT/T), 1/A^2 = 1/lower^2 + 1/upper^2, Cd 0.6 (BS 5925, from memory), rise_m
 * between their middles; wind, as if they faced each other across the house, 0.3 sqrt(2) A v
 * (ASHRAE's 0.25..0.35 of the area for slanting wind, from memory; about three times what one of
 * them passes alone). |dT| and mean_K as above. */
struct dawn_airflow_opening dawn_airflow_two_openings(double lower_m2, double upper_m2,
                                                      double rise_m, double difference_K,
                                                      double mean_K, double wind_m_s);

/* How much heavier than at 10 C, where the network tells the heat of its air, air is that goes in
 * and out: an ideal gas at the mean of inside and outside, 283.15 K/mean_K. The lightest comes in,
 * the heaviest goes out, or the other way round; half the difference, 2 % at 10 K. Pressure, and
 * with it the height above the sea, is in the network's own figure. slope_per_K by the inside
 * temperature, of which the mean has half. mean_K above 0. */
struct dawn_airflow_weight {
    double ratio, slope_per_K;
};
struct dawn_airflow_weight dawn_airflow_weight(double mean_K);

/* Where openings at one height stand open beside others above or below, air goes in at the one and
 * out at the other, and only what one place has more of than the other still lets air in and out by
 * itself: the share 1 - other/own, at least 0 (common practice, no source: right where one is shut
 * and where both are alike). With its slopes by both areas; own 0 or less: share 0. */
struct dawn_airflow_surplus {
    double share, by_own_per_m2, by_other_per_m2;
};
struct dawn_airflow_surplus dawn_airflow_surplus(double own_m2, double other_m2);

#endif
