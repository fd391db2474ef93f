/* Rules for the fans one could buy: what is asked of the house's own fan, asked of each. */
#include <math.h>

#include "scenario/scenario_parts.h"

static void blame_offer(struct dawn_scenario_reading *reading, size_t item, const char *hint,
                        const char *message)
{
    const struct dawn_scenario_spot spot = {dawn_scenario_section_named("fans"), item, 0};
    const struct dawn_scenario_origin *origin =
        dawn_scenario_find_origin(reading->scenario, spot, NULL);

    dawn_scenario_complain(reading, DAWN_ERROR,
                           dawn_scenario_place(reading, origin == NULL ? 0 : origin->line,
                                               origin == NULL ? 0 : origin->column),
                           hint, "%s: %s", dawn_scenario_title_of(reading->scenario, spot).text,
                           message);
}

void dawn_scenario_check_offers(struct dawn_scenario_reading *reading)
{
    for (size_t i = 0; i < reading->scenario->fan_offer_count; i++) {
        const struct dawn_fan_offer *offer = &reading->scenario->fans[i];
        if (isnan(offer->middle_m3_s) != isnan(offer->middle_Pa))
            blame_offer(reading, i,
                        "read both off the same point of the maker's curve, or leave both out",
                        "middle_flow and middle_pressure belong together");
        if (offer->middle_m3_s >= offer->free_air_m3_s)
            blame_offer(reading, i, "look at the flows and their units",
                        "middle_flow must be less than free_air");
        if (offer->middle_Pa >= offer->greatest_Pa)
            blame_offer(reading, i, "look at the pressures and their units",
                        "middle_pressure must be less than greatest_pressure");
    }
}
