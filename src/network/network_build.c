/* A scenario and its weather become a network. */
#include "network/network_build.h"

#include <math.h>
#include <stdlib.h>

#include "physics/constants.h"

/* Rock without a planting bed lies this deep (bed depths of 0.45 to 0.9 m, common practice). */
static const double open_rock_depth_m = 0.6;
/* A strip narrower than this is no floor of its own. */
static const double least_path_m2 = 0.5;

void dawn_network_measure(struct building *building)
{
    const struct dawn_scenario *scenario = building->scenario;
    const struct dawn_house *house = &scenario->house;
    building->floor_area_m2 = dawn_scenario_floor_m2(scenario);
    building->air_volume_m3 = dawn_scenario_air_m3(scenario);
    building->perimeter_m = 2.0 * (house->length_m + house->width_m);
    double bed = 0;
    if (scenario->rock.present)
        building->rock_volume_m3 = dawn_scenario_rock_m3(scenario);
    if (scenario->bed.present)
        bed = scenario->bed.area_m2;
    else if (scenario->rock.present)
        bed = building->rock_volume_m3 / open_rock_depth_m;
    building->bed_area_m2 = fmin(bed, building->floor_area_m2);
    double built = dawn_scenario_built_floor_m2(scenario);
    building->path_area_m2 = fmax(building->floor_area_m2 - building->bed_area_m2 - built, 0.0);
    if (built > 0 && building->path_area_m2 < least_path_m2)
        building->path_area_m2 = 0;
    else if (bed > 0 && building->path_area_m2 < least_path_m2) {
        building->bed_area_m2 = building->floor_area_m2;
        building->path_area_m2 = 0;
    }
    building->light.ground_reflectance = scenario->site.ground_reflectance;
    building->light.to_noon =
        dawn_sun_facing(PHYSICS_PI / 2, scenario->site.latitude_deg >= 0 ? PHYSICS_PI : 0.0);
}

static enum dawn_status too_large(struct dawn_problems *problems)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                      "describe alike walls as one, or with fewer layers",
                      "the nursery has more parts than fit into one calculation");
    return DAWN_ERR_SCENARIO;
}

static enum dawn_status no_memory(struct dawn_problems *problems)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                      "out of memory while the nursery was put together");
    return DAWN_ERR_NOMEM;
}

static enum dawn_status build(struct building *building, const struct dawn_weather *weather,
                              struct dawn_problems *problems)
{
    struct dawn_network *net = building->network;
    dawn_network_measure(building);
    dawn_network_build_shell(building);
    dawn_network_build_ground(building);
    dawn_network_build_stores(building);
    dawn_network_radiant_link(building);
    dawn_network_radiant_heat(
        building, building->scenario->house.heat_W * building->scenario->house.heat_radiant_share,
        "heat source inside");
    if (!dawn_network_finish(net))
        return no_memory(problems);
    if (building->light.full || !dawn_network_fits(net))
        return too_large(problems);
    net->start_C = building->scenario->start.temperature_C;
    net->spin_up_s = building->scenario->start.spin_up_s;
    return dawn_network_build_forcing(building, weather) ? DAWN_OK : no_memory(problems);
}

enum dawn_status dawn_network_build(struct dawn_network **network,
                                    const struct dawn_scenario *scenario,
                                    const struct dawn_weather *weather,
                                    struct dawn_problems *problems)
{
    return dawn_network_build_between(network, scenario, weather, INT64_MIN, INT64_MAX, problems);
}

enum dawn_status dawn_network_build_between(struct dawn_network **network,
                                            const struct dawn_scenario *scenario,
                                            const struct dawn_weather *weather, int64_t from_s,
                                            int64_t to_s, struct dawn_problems *problems)
{
    *network = NULL;
    struct building *building = calloc(1, sizeof *building);
    struct dawn_network *net = dawn_network_new();
    if (!building || !net) {
        free(building);
        dawn_network_free(net);
        return no_memory(problems);
    }
    net->lit_from_s = from_s;
    net->lit_to_s = to_s;
    building->network = net;
    building->scenario = scenario;
    enum dawn_status status = build(building, weather, problems);
    free(building);
    if (status != DAWN_OK)
        dawn_network_free(net);
    else
        *network = net;
    return status;
}
