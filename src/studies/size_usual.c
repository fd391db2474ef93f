/* What was found, beside what the trade builds. */
#include <math.h>

#include "dawnlow/network.h"
#include "studies/size_parts.h"

static void add_range(struct dawn_size *size, const char *words, double value, double least,
                      double most, const char *source)
{
    if (value > 0.0 && isfinite(value)) {
        size->range[size->ranges++] = (struct dawn_size_range){words, value, least, most, source};
    }
}

/* Rock for the glazing that faces the sun, air for the floor, water for all glazing. */
void dawn_size_compare(struct dawn_size *size, const struct size_search *search,
                       const struct dawn_size_design *design)
{
    const char *set[DAWN_TRIAL_SETS];
    struct dawn_problems unheard = {0};
    struct dawn_fan_work work;
    struct dawn_scenario s;
    double sunny_m2 = 0.0;
    double water_L = 0.0;

    for (size_t i = 0; i < design->trial.sets && i < DAWN_TRIAL_SETS; i++) {
        set[i] = design->trial.set[i];
    }
    if (dawn_scenario_with(&s, search->scenario, set, design->trial.sets, &unheard) == DAWN_OK) {
        for (size_t i = 0; i < s.glazing_count; i++) {
            const double off_deg = fabs(s.glazing[i].azimuth_deg - 180.0);
            const bool sunny = s.site.latitude_deg < 0.0 ? off_deg > 135.0 : off_deg < 45.0;
            sunny_m2 += sunny ? s.glazing[i].area_m2 : 0.0;
        }
        for (size_t i = 0; i < s.barrels_count; i++) {
            water_L += 1e3 * s.barrels[i].count * s.barrels[i].volume_m3 * s.barrels[i].fill_share;
        }
        if (s.rock.present) {
            add_range(size, "rock, m3 for each m2 of glazing to the sun",
                      dawn_scenario_rock_m3(&s) / sunny_m2, 0.25, 0.45, "Mazria 1979, from memory");
        }
        if (s.fan.present && dawn_network_fan_work(&s, &work, &unheard) == DAWN_OK) {
            add_range(size, "air, m3/h for each m2 of floor",
                      3600.0 * work.flow_m3_s / dawn_scenario_floor_m2(&s), 30.0, 75.0,
                      "common practice, no source");
        }
        add_range(size, "water, L for each m2 of glazing", water_L / dawn_cost_glazing_m2(&s), 80.0,
                  120.0, "common practice, no source");
    }
    dawn_scenario_release(&s);
    dawn_problems_release(&unheard);
}
