/* Air that comes and goes: leaks and openings. Flows are even in the temperature difference. */
#ifndef DAWNLOW_PHYSICS_AIRFLOW_H
#define DAWNLOW_PHYSICS_AIRFLOW_H

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

/* Exchange through one upright opening of a height (a vent, a door), m3/s, stack and wind added in
 * square: stack Cd A/3 sqrt(g H dT/T) with Cd 0.6 (the flow through a single large opening, BS 5925
 * / ASHRAE, from memory), wind Cd A/2 sqrt(Cw) v with Cw 0.09 (measured on greenhouse vents,
 * Boulard & Baille 1995, from memory). Two openings on opposite sides pass up to three times as
 * much in wind. |dT| is rounded over 0.1 K. mean_K: absolute temperature between inside and
 * outside, above 0. */
double dawn_airflow_opening_m3_s(double area_m2, double height_m, double difference_K,
                                 double mean_K, double wind_m_s);

#endif
