/* Leaks and openings, over lanes; dawnlow/physics/airflow.h tells the laws. */
#ifndef PHYSICS_AIRFLOW_LANES_H
#define PHYSICS_AIRFLOW_LANES_H

#include "base/lane.h"
#include "physics/constants.h"

#define AIRFLOW_STACK LANE_NUMBER(1.45e-4) /* (L/s)2/(cm4 K), one storey */
/* (L/s)2/(cm4 (m/s)2), one storey, shelter class 3 of 5 */
#define AIRFLOW_WIND           LANE_NUMBER(1.74e-4)
#define AIRFLOW_RATED_K        LANE_NUMBER(15.0)
#define AIRFLOW_RATED_WIND_M_S LANE_NUMBER(2.0)
#define AIRFLOW_DISCHARGE      LANE_NUMBER(0.6)

struct airflow_factor_lanes {
    lane factor, slope_per_K;
};
struct airflow_opening_lanes {
    lane m3_s, slope_m3_sK, mean_slope_m3_sK;
};

/* |dT|, its corner rounded: the root of it keeps a finite slope at rest. */
static inline lane airflow_magnitude(lane difference_K)
{
    const lane_number still_K = LANE_NUMBER(0.1);
    return lane_sqrt(difference_K * difference_K + still_K * still_K);
}

/* dawn_airflow_leak */
static inline struct airflow_factor_lanes airflow_leak(lane difference_K, lane wind_m_s)
{
    const lane_number rated = AIRFLOW_STACK * AIRFLOW_RATED_K +
                              AIRFLOW_WIND * AIRFLOW_RATED_WIND_M_S * AIRFLOW_RATED_WIND_M_S;
    lane magnitude = airflow_magnitude(difference_K);
    lane share =
        lane_sqrt((AIRFLOW_STACK * magnitude + AIRFLOW_WIND * wind_m_s * wind_m_s) / rated);
    return (struct airflow_factor_lanes){share, AIRFLOW_STACK / (2 * rated * share) *
                                                    lane_abs(difference_K) / magnitude};
}

/* scale sqrt(stack + wind), where stack follows the rounded |dT| over the mean temperature. Without
 * either there is no flow and no slope. */
static inline struct airflow_opening_lanes
airflow_in_square(lane scale, lane stack_per_K, lane wind, lane difference_K, lane mean_K)
{
    const lane_number nothing = LANE_NUMBER(1e-30);
    lane magnitude = airflow_magnitude(difference_K);
    lane stack = stack_per_K * magnitude / mean_K;
    lane root = lane_sqrt(stack + wind);
    lane by_stack = 0.5 * scale * stack / lane_max(root, lane_of(nothing));
    return (struct airflow_opening_lanes){
        scale * root, by_stack * lane_abs(difference_K) / (magnitude * magnitude),
        -by_stack / mean_K};
}

/* dawn_airflow_opening */
static inline struct airflow_opening_lanes
airflow_opening(lane area_m2, lane height_m, lane difference_K, lane mean_K, lane wind_m_s)
{
    /* share of the wind's dynamic pressure that moves air through one vent */
    const lane_number wind_effect = LANE_NUMBER(0.09);
    return airflow_in_square(AIRFLOW_DISCHARGE * area_m2,
                             LANE_NUMBER(PHYSICS_GRAVITY / 9.0) * height_m,
                             wind_effect / 4 * wind_m_s * wind_m_s, difference_K, mean_K);
}

/* dawn_airflow_two_openings */
static inline struct airflow_opening_lanes airflow_two_openings(lane lower_m2, lane upper_m2,
                                                                lane rise_m, lane difference_K,
                                                                lane mean_K, lane wind_m_s)
{
    const lane_number wind_through =
        LANE_NUMBER(0.3); /* of wind speed times area, through two equal openings */
    const lane_number nothing_m2 = LANE_NUMBER(1e-15);
    lane both = lane_sqrt(lower_m2 * lower_m2 + upper_m2 * upper_m2);
    lane area = lower_m2 * upper_m2 / lane_max(both, lane_of(nothing_m2));
    lane wind = wind_through / AIRFLOW_DISCHARGE * wind_m_s;
    return airflow_in_square(AIRFLOW_DISCHARGE * area, LANE_NUMBER(2.0 * PHYSICS_GRAVITY) * rise_m,
                             2.0 * wind * wind, difference_K, mean_K);
}

struct airflow_root_lanes {
    lane root, slope;
};

/* The root of a difference above 0, nothing below; its first 0.2 K a cubic that begins flat, so
 * that what it drives has no endless slope at rest. */
static inline struct airflow_root_lanes airflow_root(lane difference_K)
{
    const lane_number rounded_K = LANE_NUMBER(0.2);
    const lane_number rounded_root = LANE_NUMBER(0.4472135954999579); /* of 0.2 */
    lane_mask beyond = difference_K > rounded_K;
    lane root = lane_sqrt(lane_select(beyond, difference_K, lane_of(1.0)));
    lane along = lane_max(lane_min(difference_K / rounded_K, lane_of(1.0)), lane_of(0.0));
    return (struct airflow_root_lanes){
        lane_select(beyond, root, rounded_root * along * along * (2.5 - 1.5 * along)),
        lane_select(beyond, 0.5 / root, rounded_root / rounded_K * along * (5.0 - 4.5 * along))};
}

/* How much heavier than at 10 C the air is that goes in and out, and how that changes with the
 * warmer side's temperature, of which the mean has half. */
struct airflow_weight_lanes {
    lane ratio, slope_per_K;
};

/* dawn_airflow_weight */
static inline struct airflow_weight_lanes airflow_weight(lane mean_K)
{
    const lane_number told_at_K = LANE_NUMBER(283.15);
    lane ratio = told_at_K / mean_K;
    return (struct airflow_weight_lanes){ratio, -(0.5 * ratio / mean_K)};
}

struct airflow_surplus_lanes {
    lane share, by_own_per_m2, by_other_per_m2;
};

/* dawn_airflow_surplus */
static inline struct airflow_surplus_lanes airflow_surplus(lane own_m2, lane other_m2)
{
    lane_mask more = (own_m2 > other_m2) & (own_m2 > 0.0);
    lane own = lane_select(more, own_m2, lane_of(1.0));
    lane none = lane_of(0.0);
    return (struct airflow_surplus_lanes){lane_select(more, 1.0 - other_m2 / own, none),
                                          lane_select(more, other_m2 / (own * own), none),
                                          -lane_select(more, 1.0 / own, none)};
}

#endif
