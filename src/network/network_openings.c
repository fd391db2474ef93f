/* Vents, windows and doors: what opens them, and the ways air takes through them. */
#include <math.h>

#include "network/network_build.h"

/* Wax openers go from shut to fully open over 8 to 12 K (common practice, no source). */
static const double opening_range_K = 8.0;
/* Middles of openings over the mean height of the house, halfway between eave and ridge: of a
 * 2 m door and of lights below the ridge in a house of 2.5 m (common practice, no source). */
static const double side_middle = 0.4, ridge_middle = 1.2;

static double middle_m(const struct building *building, const struct dawn_opening *opening)
{
    bool ridge = opening->place == DAWN_OPENING_AT_RIDGE;
    if (!isnan(opening->middle_m))
        return opening->middle_m;
    return building->scenario->house.height_m * (ridge ? ridge_middle : side_middle);
}

static struct opening opening_of(const struct dawn_network *net,
                                 const struct dawn_scenario *scenario,
                                 const struct dawn_opening *told)
{
    bool ridge = told->place == DAWN_OPENING_AT_RIDGE;
    bool by_warmth = !isnan(told->opens_at_C);
    double full_C =
        isnan(told->fully_open_at_C) ? told->opens_at_C + opening_range_K : told->fully_open_at_C;
    bool clocked = dawn_scenario_is_clocked(told);
    /* Neither warmth nor hours: only what always stands open. */
    double area_m2 = by_warmth || clocked ? told->area_m2 : told->area_m2 * told->least_open;
    return (struct opening){.air = ridge ? net->ridge : net->air,
                            .ridge = ridge,
                            .area_m2 = area_m2,
                            .height_m = told->height_m,
                            .opens_C = told->opens_at_C,
                            .full_C = by_warmth ? full_C : NAN,
                            .least_share = told->least_open,
                            .hours = dawn_network_day_hours(scenario, told->from_s, told->until_s)};
}

/* From the middle of the side's openings to that of the ridge's, each by area. */
static double rise_m(const struct building *building)
{
    double area_m2[2] = {0, 0};
    double moment_m3[2] = {0, 0};
    for (size_t i = 0; i < building->scenario->opening_count; ++i) {
        const struct dawn_opening *opening = &building->scenario->openings[i];
        int at = opening->place == DAWN_OPENING_AT_RIDGE;
        area_m2[at] += opening->area_m2;
        moment_m3[at] += opening->area_m2 * middle_m(building, opening);
    }
    if (area_m2[0] <= 0 || area_m2[1] <= 0)
        return NAN;
    return fmax(moment_m3[1] / area_m2[1] - moment_m3[0] / area_m2[0], 0.0);
}

void dawn_network_build_openings(struct building *building)
{
    struct dawn_network *net = building->network;
    const struct dawn_scenario *scenario = building->scenario;
    for (size_t i = 0; i < scenario->opening_count; ++i) {
        net->opening[net->opening_count++] = opening_of(net, scenario, &scenario->openings[i]);
        dawn_network_add_vent(net, i);
    }
    net->opening_rise_m = rise_m(building);
    if (!isnan(net->opening_rise_m))
        dawn_network_add_through(net);
}
