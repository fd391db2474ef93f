/* Three clear nights of the demo house without its stores, for tests that put something over it.
 * Include what shipped.h wants before this file. */
#ifndef SUPPORT_CLEAR_NIGHTS_H
#define SUPPORT_CLEAR_NIGHTS_H

#include "support/near.h"
#include "support/shipped.h"

static const char *const bare = "scenarios/alder-hollow-no-storage.yaml";

/* The coldest of the clear nights of 11 to 13 March, and how warm the trays get by day. */
struct lows {
    double air_C, tray_C, leaf_C, noon_tray_C;
};

/* Builds and runs what was read of the scenario. */
static inline void clear_nights_run(struct shipped *it)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    plan.from_s = shipped_noon_s(11);
    plan.to_s = shipped_noon_s(14);
    plan.series_step_s = 3600;
    shipped_build(it);
    shipped_run(it, &plan);
}

/* Heat and water must have closed. */
static inline struct lows clear_nights_lows(const struct shipped *it)
{
    struct lows lows = {99, 99, 99, -99};
    assert_int_equal(it->nights.count, 3);
    for (size_t i = 0; i < it->nights.count; ++i) {
        const struct dawn_night *night = &it->nights.night[i];
        lows.air_C = fmin(lows.air_C, night->air_low_C);
        lows.tray_C = fmin(lows.tray_C, night->tray_low_C);
        lows.leaf_C = fmin(lows.leaf_C, night->leaf_low_C);
    }
    for (size_t row = 0; row < dawn_trajectory_series_count(it->run); ++row)
        lows.noon_tray_C =
            fmax(lows.noon_tray_C,
                 dawn_trajectory_series_C(it->run, row)[dawn_network_trays(it->network)]);
    struct dawn_trajectory_facts facts = dawn_trajectory_facts(it->run);
    near(facts.imbalance, 0.0, 1e-4, "heat left over");
    near(facts.water_imbalance, 0.0, 1e-4, "water left over");
    return lows;
}

#endif
