/* What a scenario comes to before any weather: sizes, weights, heat lost and stored per kelvin. */
#include <math.h>

#include "dawnlow/physics/wall.h"
#include "dawnlow/physics/water.h"
#include "network/network_build.h"

/* 1/6.4: both films of single glass in the tables that scenario_glazing.c names. */
static const double sheet_films_m2K_W = 0.156;
/* ISO 6946:2017: inside sideways, outside. */
static const double inside_film_m2K_W = 0.13, outside_film_m2K_W = 0.04;
static const double air_J_m3K = 1.2 * 1006.0; /* at 20 C near the sea, ASHRAE's standard air */

static double glazing_W_K(const struct dawn_glazing *glazing)
{
    struct dawn_glazing_build build = dawn_scenario_glazing_build(glazing);
    double gaps = (double)(build.skins - 1) * build.gap_m2K_W;
    return glazing->area_m2 / (sheet_films_m2K_W + gaps);
}

static double wall_W_K(const struct dawn_wall *wall, double soil_W_mK)
{
    double thickness[DAWN_LAYERS_MOST];
    double conductivity[DAWN_LAYERS_MOST];
    bool ground = wall->outside == DAWN_OUTSIDE_GROUND;
    for (size_t i = 0; i < wall->layer_count; ++i) {
        thickness[i] = wall->layers[i].thickness_m;
        conductivity[i] = wall->layers[i].conductivity_W_mK;
    }
    double outside = ground ? wall->soil_behind_m / soil_W_mK : outside_film_m2K_W;
    return wall->area_m2 / dawn_wall_resistance_m2K_W((int)wall->layer_count, thickness,
                                                      conductivity, inside_film_m2K_W, outside);
}

static double wall_J_K(const struct dawn_wall *wall)
{
    double sum = 0;
    for (size_t i = 0; i < wall->layer_count; ++i)
        sum += wall->layers[i].thickness_m * wall->layers[i].density_kg_m3 *
               wall->layers[i].specific_heat_J_kgK;
    return wall->area_m2 * sum;
}

static void add_shell(const struct dawn_scenario *scenario, struct dawn_network_figures *figures)
{
    const struct dawn_house *house = &scenario->house;
    for (size_t i = 0; i < scenario->glazing_count; ++i) {
        figures->glazed_m2 += scenario->glazing[i].area_m2;
        figures->glazing_W_K += glazing_W_K(&scenario->glazing[i]);
    }
    for (size_t i = 0; i < scenario->wall_count; ++i) {
        const struct dawn_wall *wall = &scenario->walls[i];
        figures->walls_m2 += dawn_scenario_is_floor(wall) ? 0 : wall->area_m2;
        figures->walls_W_K += wall_W_K(wall, scenario->ground.conductivity_W_mK);
        figures->walls_J_K += wall_J_K(wall);
    }
    figures->leaks_W_K =
        figures->air_m3 * air_J_m3K / 3600.0 *
        (dawn_scenario_air_changes_per_h(scenario) + house->steady_air_changes_per_h);
}

static void add_barrels(const struct dawn_barrels *barrels, struct dawn_network_figures *figures)
{
    double m3 = barrels->count * barrels->volume_m3;
    double water_kg = m3 * barrels->fill_share * DAWN_WATER_KG_M3;
    double steel_kg = m3 * DRUM_STEEL_KG_M3;
    figures->barrels_kg += water_kg + steel_kg;
    figures->barrels_J_K += water_kg * DAWN_WATER_HEAT_J_KGK + steel_kg * DRUM_STEEL_J_KGK;
    figures->barrels_stand_m2 += barrels->count * dawn_water_drum_of(barrels->volume_m3).top_m2;
}

static void add_stores(const struct dawn_scenario *scenario, const struct building *building,
                       struct dawn_network_figures *figures)
{
    const struct dawn_bed *bed = &scenario->bed;
    const struct dawn_trays *trays = &scenario->trays;
    if (scenario->rock.present) {
        figures->rock_kg = dawn_scenario_rock_kg(scenario);
        figures->rock_J_K = figures->rock_kg * scenario->rock.specific_heat_J_kgK;
        figures->rock_stand_m2 = building->bed_area_m2;
    }
    if (bed->present)
        figures->bed_J_K = bed->area_m2 * bed->depth_m * bed->heat_J_m3K;
    if (trays->present)
        figures->trays_J_K = trays->area_m2 * trays->depth_m * trays->heat_J_m3K;
    for (size_t i = 0; i < scenario->barrels_count; ++i)
        add_barrels(&scenario->barrels[i], figures);
}

struct dawn_network_figures dawn_network_figures(const struct dawn_scenario *scenario)
{
    struct building building = {.scenario = scenario};
    dawn_network_measure(&building);
    struct dawn_network_figures figures = {.floor_m2 = building.floor_area_m2,
                                           .air_m3 = building.air_volume_m3};
    double soil_share = 1.0 - dawn_scenario_built_floor_m2(scenario) / building.floor_area_m2;
    add_shell(scenario, &figures);
    add_stores(scenario, &building, &figures);
    figures.snow_m2 = dawn_scenario_snow_m2(scenario);
    figures.snow_kg = dawn_scenario_snow_load_kg_m2(scenario) * figures.snow_m2;
    figures.edge_W_K =
        dawn_network_edge_loss_W_mK(&building) * building.perimeter_m * fmax(soil_share, 0.0);
    return figures;
}
