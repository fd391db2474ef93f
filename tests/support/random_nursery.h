/* Nurseries and weather that nobody would think of, the same for the same seed. Values stay inside
 * what a scenario file may say; glazing, walls, stores and controls come and go. */
#ifndef SUPPORT_RANDOM_NURSERY_H
#define SUPPORT_RANDOM_NURSERY_H

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dawnlow/network.h"
#include "dawnlow/physics/cover.h"

/* splitmix64 (Steele, Lea & Flood 2014): small, seedable, good enough to vary a house. */
struct dice {
    uint64_t state;
};

static inline double dice_between(struct dice *dice, double least, double most)
{
    uint64_t z = (dice->state += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    z ^= z >> 31;
    return least + (most - least) * (double)(z >> 11) * 0x1.0p-53;
}

static inline bool dice_yes(struct dice *dice, double chance)
{
    return dice_between(dice, 0, 1) < chance;
}

static inline size_t dice_count(struct dice *dice, size_t least, size_t most)
{
    return least + (size_t)dice_between(dice, 0, (double)(most - least) + 0.999);
}

static inline void random_glazing(struct dice *dice, struct dawn_glazing *glazing, double floor_m2)
{
    size_t types = 0;
    dawn_scenario_glazing_types(&types);
    *glazing = (struct dawn_glazing){
        .area_m2 = floor_m2 * dice_between(dice, 0.1, 0.8),
        .slope_deg = dice_between(dice, 0, 90),
        .azimuth_deg = dice_between(dice, 0, 360),
        .type = (int)dice_count(dice, 0, types - 1),
        .frame_share = dice_between(dice, 0, 0.3),
        .dirt_factor = dice_between(dice, 0.7, 1),
        .solar_transmittance = NAN,
        .skins = NAN,
        .gap_resistance_m2K_W = NAN,
        .longwave_transmittance = NAN,
        .emissivity = NAN,
        .refractive_index = NAN,
    };
    snprintf(glazing->name, sizeof glazing->name, "pane");
}

static inline void random_wall(struct dice *dice, struct dawn_wall *wall, double floor_m2)
{
    *wall = (struct dawn_wall){
        .area_m2 = floor_m2 * dice_between(dice, 0.1, 0.6),
        .slope_deg = dice_between(dice, 0, 90),
        .azimuth_deg = dice_between(dice, 0, 360),
        .outside = (int)dice_count(dice, 0, 2),
        .outside_absorptance = dice_between(dice, 0.2, 0.9),
        .outside_emissivity = 0.9,
        .inside_emissivity = 0.9,
        .soil_behind_m = 0.5,
        .inside_absorptance = dice_between(dice, 0.2, 0.9),
        .layer_count = dice_count(dice, 1, 4),
    };
    snprintf(wall->name, sizeof wall->name, "wall");
    for (size_t i = 0; i < wall->layer_count; ++i) {
        bool heavy = dice_yes(dice, 0.5);
        wall->layers[i] = (struct dawn_layer){
            .thickness_m = dice_between(dice, 0.01, heavy ? 0.3 : 0.2),
            .conductivity_W_mK = heavy ? dice_between(dice, 0.5, 2) : dice_between(dice, 0.03, 0.2),
            .density_kg_m3 = heavy ? 2000 : dice_between(dice, 20, 500),
            .specific_heat_J_kgK = dice_between(dice, 800, 2000)};
    }
}

static inline void random_stores(struct dice *dice, struct dawn_scenario *s, double floor_m2)
{
    s->bed.present = dice_yes(dice, 0.7);
    s->bed.area_m2 = floor_m2 * dice_between(dice, 0.1, 0.6);
    s->rock.present = dice_yes(dice, 0.7);
    s->rock.volume_m3 = floor_m2 * dice_between(dice, 0.02, 0.4);
    s->rock.mass_kg = NAN;
    s->rock.stone_m = dice_between(dice, 0.02, 0.12);
    s->rock.insulation_m2K_W = dice_between(dice, 0, 3);
    s->ground.edge_depth_m = dice_yes(dice, 0.5) ? dice_between(dice, 0.1, 1) : 0;
    s->rock.active_share = dice_yes(dice, 0.3) ? 1.0 : dice_between(dice, 0.4, 1);
    s->rock.segments = (double)dice_count(dice, 1, 16);
    s->fan.present = s->rock.present && dice_yes(dice, 0.8);
    s->fan.flow_m3_s = floor_m2 * dice_between(dice, 0.001, 0.02);
    s->fan.power_W = dice_between(dice, 20, 300);
    s->fan.on_C = dice_between(dice, 12, 32);
    s->fan.off_C = s->fan.on_C - dice_between(dice, 2, 5);
    s->fan.start_margin_K = dice_between(dice, 2, 6);
    s->fan.stop_margin_K = s->fan.start_margin_K - dice_between(dice, 1, 1.9);
    if (dice_yes(dice, 0.5)) {
        s->fan.night_on_C = dice_between(dice, 0, 6);
        s->fan.night_off_C = s->fan.night_on_C + 2;
    }
    s->fan.sensor_lag_s = dice_between(dice, 60, 900);
    s->fan.senses = (int)dice_count(dice, 0, 3);
    /* Some blow the other way by night, where the thermostat does not hang in the air that comes
     * out (it would switch all the time): by a digit of a draw, so that what follows stays as it
     * was. */
    if (!isnan(s->fan.night_on_C) && s->fan.senses != DAWN_SENSE_RIDGE &&
        fmod(floor(s->fan.power_W), 2.0) > 0.5)
        s->fan.night_way = DAWN_NIGHT_REVERSED;
    s->barrels_count = dice_count(dice, 0, 2);
    for (size_t i = 0; i < s->barrels_count; ++i)
        s->barrels[i] = (struct dawn_barrels){.name = "drums",
                                              .count = (double)dice_count(dice, 1, 20),
                                              .volume_m3 = dice_between(dice, 0.05, 0.3),
                                              .fill_share = dice_between(dice, 0.5, 1),
                                              .absorptance = dice_between(dice, 0.2, 0.95),
                                              .sun_share = dice_between(dice, 0, 0.6)};
    s->trays.present = dice_yes(dice, 0.7);
    s->trays.area_m2 = floor_m2 * dice_between(dice, 0.02, 0.1);
    s->trays.leaf_area_index = dice_yes(dice, 0.3) ? 0 : dice_between(dice, 0.1, 2);
    s->trays.stand_on = s->bed.present && dice_yes(dice, 0.5) ? DAWN_ON_BED : DAWN_ON_BENCH;
}

/* Air that is changed and heat that is given whatever the weather does; a built floor. */
static inline void random_steady(struct dice *dice, struct dawn_scenario *s, double floor_m2)
{
    s->house.steady_air_changes_per_h = dice_yes(dice, 0.3) ? dice_between(dice, 0.1, 2) : 0;
    s->house.heat_radiant_share = dice_yes(dice, 0.5) ? dice_between(dice, 0, 1) : 0;
    s->outdoor_fan.present = dice_yes(dice, 0.2);
    s->outdoor_fan.air_changes_per_h = dice_between(dice, 1, 20);
    s->outdoor_fan.from_s = dice_between(dice, 0, 86400);
    s->outdoor_fan.until_s = dice_between(dice, 0, 86400);
    if (!s->wall_count || !dice_yes(dice, 0.4))
        return;
    struct dawn_wall *floor = &s->walls[s->wall_count - 1];
    floor->slope_deg = 180;
    floor->area_m2 = dice_between(dice, 0.1, 0.4) * floor_m2;
    floor->soil_behind_m = dice_yes(dice, 0.5) ? 0 : dice_between(dice, 0.1, 2);
    floor->inside_emissivity = dice_between(dice, 0.1, 0.95);
}

/* Covers over what there is, drawn by clock or sun, on cold nights or all, some left on by day. */
static inline void random_covers(struct dice *dice, struct dawn_scenario *s)
{
    size_t sheets = 0;
    dawn_cover_table(&sheets);
    s->cover_count = dice_yes(dice, 0.4) ? dice_count(dice, 1, DAWN_COVERS_MOST) : 0;
    for (size_t i = 0; i < s->cover_count; ++i) {
        struct dawn_cover *cover = &s->covers[i];
        *cover = (struct dawn_cover){.over = (int)dice_count(dice, 0, 2),
                                     .sheet = (int)dice_count(dice, 0, sheets - 1),
                                     .area_m2 = NAN,
                                     .height_m = dice_between(dice, 0.05, 1),
                                     .leak_changes_per_h =
                                         dice_yes(dice, 0.5) ? NAN : dice_between(dice, 0.5, 30),
                                     .put_on_s = NAN,
                                     .take_off_s = NAN,
                                     .after_sunset_s = dice_between(dice, -3600, 3600),
                                     .after_sunrise_s = dice_between(dice, -3600, 3600),
                                     .only_below_C = NAN};
        if ((cover->over == DAWN_OVER_TRAYS && !s->trays.present) ||
            (cover->over == DAWN_OVER_BED && !s->bed.present))
            cover->over = DAWN_OVER_HOUSE;
        if (dice_yes(dice, 0.4))
            cover->put_on_s = dice_between(dice, 0, 86400);
        if (dice_yes(dice, 0.4))
            cover->take_off_s = dice_between(dice, 0, 86400);
        if (dice_yes(dice, 0.4))
            cover->only_below_C = dice_between(dice, -10, 10);
        snprintf(cover->name, sizeof cover->name, "cover %d", (int)i + 1);
    }
}

/* Vented: the first lets the day's heat out whatever the clock says. */
static inline void random_openings(struct dice *dice, struct dawn_scenario *s, double floor_m2,
                                   bool vented)
{
    s->opening_count = vented ? dice_count(dice, 1, 4) : 0;
    for (size_t i = 0; i < s->opening_count; ++i) {
        bool by_warmth = i == 0 || dice_yes(dice, 0.5);
        bool by_clock = i > 0 && (!by_warmth || dice_yes(dice, 0.5));
        double opens_C = dice_between(dice, 15, 30);
        double full_C = dice_yes(dice, 0.5) ? opens_C + dice_between(dice, 2, 12) : NAN;
        s->openings[i] = (struct dawn_opening){
            .name = "opening",
            .area_m2 = floor_m2 * dice_between(dice, i == 0 ? 0.08 : 0.005, i == 0 ? 0.15 : 0.08),
            .height_m = dice_between(dice, 0.2, 2),
            .place = dice_yes(dice, 0.5) ? DAWN_OPENING_AT_RIDGE : DAWN_OPENING_AT_SIDE,
            .middle_m = dice_yes(dice, 0.5) ? NAN : dice_between(dice, 0.2, 4),
            .opens_at_C = by_warmth ? opens_C : NAN,
            .fully_open_at_C = by_warmth ? full_C : NAN,
            .from_s = by_clock ? dice_between(dice, 0, 86400) : 0,
            .until_s = by_clock ? dice_between(dice, 0, 86400) : 86400,
            .least_open = dice_yes(dice, 0.3) ? dice_between(dice, 0, 0.1) : 0,
        };
    }
}

/* Snow that lies for half a year, or for a while in winter; on some roofs until a mild day. Dice of
 * its own: what else is drawn stays what it was. */
static inline void random_snow(struct dice snow, struct dawn_scenario *s)
{
    s->house.snow_steepest_deg = dice_between(&snow, 20, 80);
    s->house.snow_slides_above_C = dice_yes(&snow, 0.5) ? NAN : dice_between(&snow, 0, 10);
    s->snow_count = dice_yes(&snow, 0.3) ? dice_count(&snow, 1, 3) : 0;
    for (size_t i = 0; i < s->snow_count; ++i) {
        s->snow[i] = (struct dawn_snow){.name = "fall",
                                        .depth_m = dice_between(&snow, 0.01, 0.6),
                                        .density_kg_m3 = dice_between(&snow, 50, 500)};
        snprintf(s->snow[i].from, sizeof s->snow[i].from, "%02d-01", 1 + 3 * (int)i);
        if (dice_yes(&snow, 0.3))
            snprintf(s->snow[i].until, sizeof s->snow[i].until, "%02d-20", 2 + 3 * (int)i);
    }
}

/* One skin or several where the type says otherwise, again with dice of its own. */
static inline void random_skins(struct dice skins, struct dawn_scenario *s)
{
    for (size_t i = 0; i < s->glazing_count; ++i)
        if (dice_yes(&skins, 0.3))
            s->glazing[i].skins = (double)dice_count(&skins, 1, DAWN_GLAZING_LAYERS_MOST);
}

/* s must be released by the caller (dawn_scenario_release). */
static inline bool random_nursery(struct dice *dice, struct dawn_scenario *s)
{
    if (dawn_scenario_usual(s) != DAWN_OK)
        return false;
    s->site.latitude_deg = dice_between(dice, -55, 62);
    s->site.longitude_deg = dice_between(dice, -180, 180);
    s->site.utc_offset_h = 0;
    s->site.elevation_m = dice_between(dice, 0, 2000);
    s->house.length_m = dice_between(dice, 3, 40);
    s->house.width_m = dice_between(dice, 2, 12);
    s->house.height_m = dice_between(dice, 1.8, 4);
    s->house.air_changes_per_h = dice_between(dice, 0.2, 4);
    s->house.zones = dice_yes(dice, 0.5) ? 2 : 1;
    s->house.heat_W = dice_yes(dice, 0.3) ? dice_between(dice, 10, 2000) : 0;
    double floor_m2 = s->house.length_m * s->house.width_m;
    s->moisture.present = dice_yes(dice, 0.7);
    s->moisture.floor_wet = dice_between(dice, 0, 0.5);
    s->moisture.bed_wet = dice_between(dice, 0, 1);
    s->moisture.trays_wet = dice_between(dice, 0, 1);
    s->moisture.film_m = dice_between(dice, 0.00005, 0.0003);
    /* A wet house that cannot breathe boils in the sun: no nursery. */
    bool vented = dice_yes(dice, 0.6) || s->moisture.present;
    random_openings(dice, s, floor_m2, vented);
    s->fan.least_run_s = dice_yes(dice, 0.4) ? dice_between(dice, 60, 3600) : 0;
    s->fan.sensor_sun = dice_yes(dice, 0.3) ? dice_between(dice, 0.1, 1) : 0;
    s->glazing_count = dice_count(dice, 1, 5);
    for (size_t i = 0; i < s->glazing_count; ++i)
        random_glazing(dice, &s->glazing[i], floor_m2);
    s->wall_count = dice_count(dice, 0, 3);
    for (size_t i = 0; i < s->wall_count; ++i)
        random_wall(dice, &s->walls[i], floor_m2);
    random_stores(dice, s, floor_m2);
    random_steady(dice, s, floor_m2);
    random_covers(dice, s);
    random_snow((struct dice){dice->state ^ 0x5e0f}, s);
    random_skins((struct dice){dice->state ^ 0x51a5}, s);
    return true;
}

/* Hourly weather of its own seed: a daily swing under a drifting mean, cloud and wind that jump.
 * Release with dawn_weather_release. */
static inline bool random_weather(struct dice *dice, struct dawn_weather *w, size_t hours)
{
    double **series[] = {&w->air_C,    &w->dew_C,         &w->wind_m_s, &w->pressure_Pa,
                         &w->cloud,    &w->longwave_W_m2, &w->snow_m,   &w->ghi_W_m2,
                         &w->dni_W_m2, &w->dhi_W_m2};
    memset(w, 0, sizeof *w);
    w->count = hours;
    w->latitude_deg = w->longitude_deg = w->elevation_m = NAN;
    w->first_s = w->mean_first_s = 1772323200 + 3600 * (int64_t)dice_count(dice, 0, 8000);
    w->split_from = dice_yes(dice, 0.5) ? DAWN_FROM_FILE : DAWN_FROM_SPLIT;
    for (size_t i = 0; i < sizeof series / sizeof *series; ++i)
        if (!(*series[i] = calloc(hours, sizeof(double))))
            return false;
    double mean = dice_between(dice, -20, 20), swing = dice_between(dice, 1, 12), cloud = 0.5;
    for (size_t i = 0; i < hours; ++i) {
        mean += dice_between(dice, -0.5, 0.5);
        cloud = fmin(fmax(cloud + dice_between(dice, -0.3, 0.3), 0), 1);
        double day = 2 * 3.14159265358979 * (double)i / 24;
        w->air_C[i] = mean - swing * cos(day);
        w->dew_C[i] = w->air_C[i] - dice_between(dice, 0.5, 8);
        w->wind_m_s[i] = dice_between(dice, 0, 9);
        w->pressure_Pa[i] = 1e5;
        w->cloud[i] = cloud;
        w->longwave_W_m2[i] = 5.67e-8 * pow(w->air_C[i] + 273.15, 4) * (0.7 + 0.28 * cloud);
        w->ghi_W_m2[i] = fmax(-cos(day), 0) * dice_between(dice, 100, 800);
        w->dhi_W_m2[i] = w->ghi_W_m2[i] * dice_between(dice, 0.2, 1);
    }
    return true;
}

#endif
