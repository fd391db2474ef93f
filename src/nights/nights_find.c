/* Dusk to dawn, night by night. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/civil.h"
#include "dawnlow/nights.h"
#include "dawnlow/physics/sun.h"
#include "dawnlow/physics/water.h"
#include "physics/constants.h"

static const double hour_s = 3600.0;
static const double day_s = 86400.0;
static const double look_s = 300.0; /* how densely the outdoor air is looked at */
/* The coldest moment often falls shortly after sunrise; the watch lasts this much longer. */
static const double after_sunrise_s = 2 * 3600.0;
/* Where the sun neither sets nor rises on a day, the night is taken by the clock. */
static const double clock_dusk_h = 18.0, clock_dawn_h = 8.0;

/* Distances from the line that make a night's word, K: half a degree and more is what thermometers
 * and this model can be wrong by. */
static const double touch_K = 1.0, close_K = 3.0;

struct finder {
    const struct dawn_trajectory *run;
    const struct dawn_network *network;
    struct dawn_nights *nights;
    double watched_from_s; /* end of the night before */
};

/* When the sun stands at an hour angle (0 = noon, pi = midnight), near a moment of the mean sun. */
static double culmination_s(const struct dawn_site *site, double near_s, double hour_angle_rad)
{
    struct dawn_sun sun = dawn_sun_position(near_s, site->latitude_deg, site->longitude_deg);
    return near_s - remainder(sun.hour_angle_rad - hour_angle_rad, 2.0 * PHYSICS_PI) /
                        (2.0 * PHYSICS_PI) * day_s;
}

static struct dawn_night span_of(const struct dawn_site *site, double noon_s)
{
    /* By the sun's own midnight, up to a quarter of an hour off the clock's: far north a summer
     * night is shorter than that. */
    double midnight_s = culmination_s(site, noon_s + day_s / 2, PHYSICS_PI);
    double dusk = dawn_sun_crossing_s(culmination_s(site, noon_s, 0.0), midnight_s,
                                      site->latitude_deg, site->longitude_deg, 0);
    double dawn = dawn_sun_crossing_s(midnight_s, culmination_s(site, noon_s + day_s, 0.0),
                                      site->latitude_deg, site->longitude_deg, 1);
    if (isnan(dusk))
        dusk = noon_s + (clock_dusk_h - 12.0) * hour_s;
    if (isnan(dawn))
        dawn = noon_s + (12.0 + clock_dawn_h) * hour_s;
    return (struct dawn_night){.dusk_s = (int64_t)dusk,
                               .dawn_s = (int64_t)dawn,
                               .until_s = (int64_t)(dawn + after_sunrise_s)};
}

/* Looked at from the network's first moment on, so that the weather's hours are met exactly: there
 * the line between them has its corners. */
static double outside_low_C(const struct dawn_network *network, double from_s, double to_s)
{
    double origin = (double)dawn_network_from_s(network);
    double low =
        fmin(dawn_network_outside_C(network, from_s), dawn_network_outside_C(network, to_s));
    long last = (long)floor((to_s - origin) / look_s);
    for (long i = (long)ceil((from_s - origin) / look_s); i <= last; ++i)
        low = fmin(low, dawn_network_outside_C(network, origin + (double)i * look_s));
    return low;
}

static double given_back_kWh(const struct finder *finder, enum dawn_role role,
                             const struct dawn_night *night)
{
    return (dawn_trajectory_stored_J(finder->run, role, (double)night->dusk_s) -
            dawn_trajectory_stored_J(finder->run, role, (double)night->dawn_s)) /
           PHYSICS_J_PER_kWh;
}

int dawn_nights_crop_node(const struct dawn_network *network, enum dawn_crop_place place)
{
    switch (place) {
    case DAWN_CROP_AT_LEAVES:
        return dawn_network_leaf(network);
    case DAWN_CROP_AT_TRAYS:
        return dawn_network_trays(network);
    case DAWN_CROP_IN_AIR:
        break;
    }
    return dawn_network_air(network);
}

static enum dawn_risk risk_of(double low_C, double line_C)
{
    double above = low_C - line_C;
    if (above <= 0)
        return DAWN_FREEZES;
    if (above <= touch_K)
        return DAWN_TOUCH_AND_GO;
    return above <= close_K ? DAWN_CLOSE : DAWN_HOLDS;
}

/* The plants at their place against the line of the most tender of them. */
static void look_at_crop(const struct finder *finder, struct dawn_night *night)
{
    double line_C = finder->nights->crop_line_C;
    int place = dawn_nights_crop_node(finder->network, finder->nights->crop_place);
    double from = (double)night->dusk_s;
    double to = (double)night->until_s;
    night->crop_low_C = night->below_crop_h = NAN;
    if (isnan(line_C))
        return;
    night->crop_low_C = dawn_trajectory_low(finder->run, place, from, to).low_C;
    night->below_crop_h = dawn_trajectory_below_s(finder->run, place, line_C, from, to) / hour_s;
    enum dawn_risk risk = risk_of(night->crop_low_C, line_C);
    night->risk = risk > night->risk ? risk : night->risk;
}

static void look(const struct finder *finder, struct dawn_night *night)
{
    const struct dawn_trajectory *run = finder->run;
    const struct dawn_network *net = finder->network;
    double from = (double)night->dusk_s;
    double to = (double)night->until_s;
    int place = finder->nights->at_trays ? dawn_network_trays(net) : dawn_network_air(net);
    struct dawn_low low = dawn_trajectory_low(run, place, from, to);
    night->outside_low_C = outside_low_C(net, from, to);
    night->air_low_C = dawn_trajectory_low(run, dawn_network_air(net), from, to).low_C;
    night->tray_low_C = dawn_trajectory_low(run, dawn_network_trays(net), from, to).low_C;
    night->leaf_low_C = dawn_trajectory_low(run, dawn_network_leaf(net), from, to).low_C;
    night->root_low_C = dawn_trajectory_low(run, dawn_network_root(net), from, to).low_C;
    night->place_low_C = low.low_C;
    night->low_at_s = low.at_s;
    night->below_0C_h = dawn_trajectory_below_s(run, place, 0.0, from, to) / hour_s;
    night->fan_h = dawn_trajectory_fan_s(run, finder->watched_from_s, to) / hour_s;
    night->fan_kWh = night->fan_h * dawn_network_fan_power_W(net) / 1000.0;
    night->rock_kWh = given_back_kWh(finder, DAWN_ROLE_ROCK, night);
    night->barrels_kWh = given_back_kWh(finder, DAWN_ROLE_BARRELS, night);
    night->soil_kWh = given_back_kWh(finder, DAWN_ROLE_FLOOR, night) +
                      given_back_kWh(finder, DAWN_ROLE_BED, night);
    night->risk = risk_of(low.low_C, 0.0);
    look_at_crop(finder, night);
}

static enum dawn_crop_place crop_place_of(const struct dawn_network *network)
{
    if (dawn_network_leaf(network) != DAWN_NO_NODE)
        return DAWN_CROP_AT_LEAVES;
    return dawn_network_trays(network) != DAWN_NO_NODE ? DAWN_CROP_AT_TRAYS : DAWN_CROP_IN_AIR;
}

static void name_crop(struct dawn_nights *nights, const struct dawn_scenario *scenario)
{
    nights->crop_line_C = NAN;
    for (size_t i = 0; i < scenario->crop_count; ++i) {
        const struct dawn_crop *crop = &scenario->crops[i];
        if (!isnan(nights->crop_line_C) && crop->damage_C <= nights->crop_line_C)
            continue;
        nights->crop_line_C = crop->damage_C;
        memcpy(nights->crop_name, crop->name, sizeof nights->crop_name);
    }
}

/* Local solar noon, near enough: the sun's hour angle turns 15 degrees an hour. */
static double first_noon_s(const struct dawn_site *site, double from_s)
{
    double shift = site->longitude_deg / 15.0 * hour_s;
    return ceil((from_s + shift - day_s / 2) / day_s) * day_s + day_s / 2 - shift;
}

enum dawn_status dawn_nights_find(struct dawn_nights *nights, const struct dawn_trajectory *run,
                                  const struct dawn_network *network,
                                  const struct dawn_scenario *scenario,
                                  struct dawn_problems *problems)
{
    double from = (double)dawn_trajectory_from_s(run);
    double to = (double)dawn_trajectory_to_s(run);
    *nights = (struct dawn_nights){.at_trays = dawn_network_trays(network) != DAWN_NO_NODE,
                                   .crop_place = crop_place_of(network)};
    name_crop(nights, scenario);
    size_t most = (size_t)((to - from) / day_s) + 2;
    nights->night = calloc(most, sizeof *nights->night);
    if (!nights->night) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                          "out of memory while the nights were gathered");
        return DAWN_ERR_NOMEM;
    }
    struct finder finder = {run, network, nights, from};
    /* The noon before the run's first may begin a night whose dusk still lies inside the run. */
    double first_noon = first_noon_s(&scenario->site, from) - day_s;
    for (size_t day = 0; day <= most; ++day) {
        struct dawn_night night = span_of(&scenario->site, first_noon + (double)day * day_s);
        if ((double)night.dusk_s < from || (double)night.dawn_s > to || nights->count == most)
            continue;
        /* A late midwinter dawn may lie less than the watch before the run's end. */
        night.until_s = (int64_t)fmin((double)night.until_s, to);
        look(&finder, &night);
        finder.watched_from_s = (double)night.until_s;
        nights->night[nights->count++] = night;
    }
    return DAWN_OK;
}

void dawn_nights_release(struct dawn_nights *nights)
{
    free(nights->night);
    *nights = (struct dawn_nights){0};
}

size_t dawn_nights_below_zero(const struct dawn_nights *nights)
{
    size_t count = 0;
    for (size_t i = 0; i < nights->count; ++i)
        count += nights->night[i].place_low_C < 0.0;
    return count;
}

size_t dawn_nights_below_crop(const struct dawn_nights *nights)
{
    size_t count = 0;
    for (size_t i = 0; i < nights->count; ++i)
        count += nights->night[i].crop_low_C < nights->crop_line_C;
    return count;
}

/* Water that freezes holds its place at 0 C, however cold the night: the air tells such nights
 * apart. */
static bool colder(const struct dawn_night *a, const struct dawn_night *b)
{
    bool both_freezing = a->place_low_C <= 0 && a->place_low_C >= -DAWN_WATER_FREEZING_WIDTH_K &&
                         b->place_low_C <= 0 && b->place_low_C >= -DAWN_WATER_FREEZING_WIDTH_K;
    return both_freezing ? a->air_low_C < b->air_low_C : a->place_low_C < b->place_low_C;
}

size_t dawn_nights_coldest(const struct dawn_nights *nights)
{
    size_t coldest = nights->count;
    for (size_t i = 0; i < nights->count; ++i)
        if (coldest == nights->count || colder(&nights->night[i], &nights->night[coldest]))
            coldest = i;
    return coldest;
}

size_t dawn_nights_coldest_few(const struct dawn_nights *nights, size_t index[], size_t most)
{
    size_t count = 0;
    for (size_t i = 0; i < nights->count; ++i) {
        size_t before = 0; /* nights that come first: colder, or as cold and earlier */
        for (size_t k = 0; k < nights->count; ++k)
            before += colder(&nights->night[k], &nights->night[i]) ||
                      (k < i && !colder(&nights->night[i], &nights->night[k]));
        if (before < most)
            index[count++] = i;
    }
    return count;
}

const char *dawn_nights_risk_words(enum dawn_risk risk)
{
    switch (risk) {
    case DAWN_HOLDS:
        return "holds";
    case DAWN_CLOSE:
        return "close";
    case DAWN_TOUCH_AND_GO:
        return "touch and go";
    case DAWN_FREEZES:
        return "freezes";
    }
    return "";
}

const char *dawn_nights_crop_place_words(enum dawn_crop_place place)
{
    switch (place) {
    case DAWN_CROP_AT_LEAVES:
        return "at the leaves";
    case DAWN_CROP_AT_TRAYS:
        return "at the trays";
    case DAWN_CROP_IN_AIR:
        return "in the house air";
    }
    return "";
}

const char *dawn_nights_crop_place_word(enum dawn_crop_place place)
{
    switch (place) {
    case DAWN_CROP_AT_LEAVES:
        return "leaves";
    case DAWN_CROP_AT_TRAYS:
        return "trays";
    case DAWN_CROP_IN_AIR:
        break;
    }
    return "air";
}
