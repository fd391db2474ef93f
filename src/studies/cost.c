/* Amounts times prices. */
#include "dawnlow/studies/cost.h"

#include <math.h>

#include "dawnlow/network.h"

double dawn_cost_glazing_m2(const struct dawn_scenario *scenario)
{
    double area_m2 = 0.0;

    for (size_t i = 0; i < scenario->glazing_count; i++) {
        area_m2 += scenario->glazing[i].area_m2;
    }
    return area_m2;
}

double dawn_cost_more_skins_m2(const struct dawn_scenario *scenario)
{
    double area_m2 = 0.0;

    for (size_t i = 0; i < scenario->glazing_count; i++) {
        const struct dawn_glazing_build build = dawn_scenario_glazing_build(&scenario->glazing[i]);
        area_m2 += (double)(build.skins - 1) * scenario->glazing[i].area_m2;
    }
    return area_m2;
}

double dawn_cost_edge_m2(const struct dawn_scenario *scenario, double depth_m)
{
    return 2.0 * (scenario->house.length_m + scenario->house.width_m) * depth_m;
}

static double fan_cost(const struct dawn_scenario *scenario)
{
    struct dawn_problems unheard = {0};
    struct dawn_fan_work work;
    double flow_m3_s = scenario->fan.flow_m3_s;

    if (!isnan(scenario->fan.price)) {
        return scenario->fan.price;
    }
    if (isnan(flow_m3_s) && scenario->prices.fan_m3_s > 0.0 &&
        dawn_network_fan_work(scenario, &work, &unheard) == DAWN_OK) {
        flow_m3_s = work.flow_m3_s;
    }
    dawn_problems_release(&unheard);
    return scenario->prices.fan_m3_s * flow_m3_s;
}

static double cover_cost(const struct dawn_scenario *scenario, const struct dawn_cover *cover)
{
    double area_m2 = dawn_scenario_floor_m2(scenario);
    const bool house = cover->over == DAWN_OVER_HOUSE;

    if (cover->over == DAWN_OVER_TRAYS) {
        area_m2 = scenario->trays.area_m2;
    } else if (cover->over == DAWN_OVER_BED) {
        area_m2 = scenario->bed.area_m2;
    }
    return (isnan(cover->area_m2) ? area_m2 : cover->area_m2) *
           (house ? scenario->prices.curtain_m2 : scenario->prices.row_cover_m2);
}

struct dawn_cost dawn_cost_of(const struct dawn_scenario *scenario)
{
    const struct dawn_prices *prices = &scenario->prices;
    struct dawn_cost cost = {.total = 0.0};

    if (scenario->rock.present) {
        cost.rock = dawn_scenario_rock_kg(scenario) * prices->rock_kg;
        cost.digging = dawn_scenario_rock_m3(scenario) * prices->digging_m3;
    }
    if (scenario->fan.present) {
        cost.fan = fan_cost(scenario);
    }
    for (size_t i = 0; i < scenario->barrels_count; i++) {
        cost.barrels += scenario->barrels[i].count * prices->barrel;
    }
    cost.skins = dawn_cost_more_skins_m2(scenario) * prices->skin_m2;
    cost.edge = dawn_cost_edge_m2(scenario, scenario->ground.edge_depth_m) * prices->edge_board_m2;
    for (size_t i = 0; i < scenario->cover_count; i++) {
        cost.covers += cover_cost(scenario, &scenario->covers[i]);
    }
    cost.total =
        cost.rock + cost.digging + cost.fan + cost.barrels + cost.skins + cost.edge + cost.covers;
    return cost;
}

double dawn_cost_of_running(const struct dawn_scenario *scenario, double kWh_a_spring)
{
    return kWh_a_spring * 3.6e6 * scenario->prices.electricity_J * scenario->prices.springs;
}
