/* Weather to forcing: between the hours, through the sun's path, onto every surface. */
#include <math.h>
#include <stdlib.h>

#include "base/civil.h"
#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/soil.h"
#include "dawnlow/physics/sun.h"
#include "network/network_build.h"

static const double hour_s = 3600.0;
static const double day_s = 86400.0;
/* Below this height all light is diffuse: beam over a vanishing cosine means nothing. */
static const double low_sun_cos = 0.0523; /* 3 degrees */
static const double beam_most_W_m2 = 1100.0;

/* ---- quantities that hold at an instant ---- */

/* Linear between the hours, held at both ends. */
static double instant_at(const struct dawn_weather *weather, const double *series, double t_s)
{
    double x = (t_s - (double)weather->first_s) / hour_s;
    double last = (double)weather->count - 1.0;
    if (x <= 0)
        return series[0];
    if (x >= last)
        return series[weather->count - 1];
    size_t at = (size_t)x;
    return series[at] + (x - (double)at) * (series[at + 1] - series[at]);
}

/* Outdoor air as the ground beside the house feels it: smoothed over five days (physics of a
 * perimeter 0.1 to 0.3 m deep; common practice). Starts at the mean of the first five days. */
static void fill_edge(struct forcing *forcing)
{
    const double memory_s = 5 * day_s;
    size_t window = (size_t)(memory_s / FORCING_STEP_S);
    size_t count = forcing->knots < window ? forcing->knots : window;
    double felt = 0;
    for (size_t i = 0; i < count; ++i)
        felt += forcing->air_C[i] / (double)count;
    double keep = exp(-FORCING_STEP_S / memory_s);
    for (size_t i = 0; i < forcing->knots; ++i) {
        felt = keep * felt + (1.0 - keep) * forcing->air_C[i];
        forcing->edge_C[i] = felt;
    }
}

/* ---- the outdoor fan's clock ---- */

static void fill_outdoor_fan(struct building *building)
{
    const struct dawn_scenario *scenario = building->scenario;
    struct day_hours *hours = &building->network->forcing.outdoor_fan;
    if (!scenario->outdoor_fan.present)
        return;
    *hours = dawn_network_day_hours(scenario, scenario->outdoor_fan.from_s,
                                    scenario->outdoor_fan.until_s);
}

/* ---- deep ground ---- */

/* Half the yearly swing of daily means, and the coldest day, of cold-temperate places (common
 * practice, no source): used to take the season out of weather that covers less than a year. */
static const double yearly_swing_K = 11.0;
static const double coldest_day_north = 20.0, coldest_day_south = 202.0;
/* The ground's yearly mean stands about 1 K above the air's, for snow and sun (common practice). */
static const double ground_above_air_K = 1.0;

static double day_of_year(const struct building *building, double t_s)
{
    struct dawn_civil civil = dawn_civil_at((int64_t)t_s, building->scenario->site.utc_offset_h);
    return civil.day_of_year + civil.hour / 24.0;
}

static void fill_deep(struct building *building)
{
    const struct dawn_scenario *scenario = building->scenario;
    struct forcing *forcing = &building->network->forcing;
    double coldest = scenario->site.latitude_deg >= 0 ? coldest_day_north : coldest_day_south;
    double depth_m = 0;
    double mean = 0;
    double season = 0;
    double deep = 0;
    for (int i = 0; i < DAWN_SOIL_LAYERS; ++i)
        depth_m += dawn_soil_layer_m(i);
    depth_m += 0.5 * dawn_soil_layer_m(DAWN_SOIL_LAYERS - 1); /* where the columns hang on it */
    double diffusivity = scenario->ground.conductivity_W_mK / scenario->ground.heat_J_m3K * day_s;
    for (size_t i = 0; i < forcing->knots; ++i) {
        /* Within an hour it changes by 0.001 K. */
        if (i % FORCING_PER_HOUR == 0) {
            double day =
                day_of_year(building, (double)forcing->from_s + (double)i * FORCING_STEP_S);
            season = -yearly_swing_K * cos(6.283185307179586 * (day - coldest) / 365.0);
            deep = dawn_soil_kusuda_C(depth_m, day, 0.0, yearly_swing_K, coldest, diffusivity);
        }
        mean += (forcing->air_C[i] - season) / (double)forcing->knots;
        forcing->deep_C[i] = deep;
    }
    for (size_t i = 0; i < forcing->knots; ++i)
        forcing->deep_C[i] = isnan(scenario->site.ground_C)
                                 ? forcing->deep_C[i] + mean + ground_above_air_K
                                 : scenario->site.ground_C;
}

/* ---- light ---- */

struct light_series {
    struct dawn_sun *sun;  /* [knot] */
    double *ghi_W_m2;      /* [knot] */
    double *diffuse_share; /* [knot] */
};

static double up_cos(struct dawn_sun sun)
{
    return sun.cos_zenith > 0 ? sun.cos_zenith : 0.0;
}

/* Global light over the height of the sun in one hour; 0 when the sun is not worth dividing by. */
static double hour_scale(const struct light_series *light, size_t hour, double ghi_W_m2)
{
    const struct dawn_sun *sun = light->sun + hour * FORCING_PER_HOUR;
    double mean = 0.5 * (up_cos(sun[0]) + up_cos(sun[FORCING_PER_HOUR]));
    for (int k = 1; k < FORCING_PER_HOUR; ++k)
        mean += up_cos(sun[k]);
    mean /= FORCING_PER_HOUR;
    return mean > 1e-3 ? ghi_W_m2 / mean : 0.0;
}

/* At an hour's edge the two hours' curves meet in their harmonic mean: continuous, never above
 * twice the lesser, so that the hours' energy can still be kept by what lies between. */
static double meet(double a, double b)
{
    return a > 0 && b > 0 ? 2.0 * a * b / (a + b) : 0.0;
}

static void fill_edges(const struct dawn_weather *weather, struct light_series *light)
{
    size_t hours = weather->count;
    for (size_t hour = 0; hour <= hours; ++hour) {
        size_t before = hour > 0 ? hour - 1 : 0;
        size_t after = hour < hours ? hour : hours - 1;
        double scale = meet(hour_scale(light, before, weather->ghi_W_m2[before]),
                            hour_scale(light, after, weather->ghi_W_m2[after]));
        size_t knot = hour * FORCING_PER_HOUR;
        light->ghi_W_m2[knot] = scale * up_cos(light->sun[knot]);
    }
}

/* The knots inside an hour follow the sun and make up the hour's mean with its edges. */
static void fill_hour(const struct dawn_weather *weather, struct light_series *light, size_t hour)
{
    double *ghi = light->ghi_W_m2 + hour * FORCING_PER_HOUR;
    const struct dawn_sun *sun = light->sun + hour * FORCING_PER_HOUR;
    double wanted =
        FORCING_PER_HOUR * weather->ghi_W_m2[hour] - 0.5 * (ghi[0] + ghi[FORCING_PER_HOUR]);
    double sum = 0;
    for (int k = 1; k < FORCING_PER_HOUR; ++k)
        sum += up_cos(sun[k]);
    wanted = fmax(wanted, 0.0);
    if (sum > 1e-3) {
        for (int k = 1; k < FORCING_PER_HOUR; ++k)
            ghi[k] = wanted * up_cos(sun[k]) / sum;
        return;
    }
    /* Twilight, or a sun that is up only at the hour's end: the light belongs beside that end. */
    int lit = up_cos(sun[0]) > up_cos(sun[FORCING_PER_HOUR]) ? 1 : FORCING_PER_HOUR - 1;
    ghi[lit] = wanted;
}

static double share_of(const struct dawn_weather *weather, size_t hour)
{
    double ghi = weather->ghi_W_m2[hour];
    return ghi > 0 ? fmin(fmax(weather->dhi_W_m2[hour] / ghi, 0.0), 1.0) : 1.0;
}

static void fill_shares(const struct dawn_weather *weather, struct light_series *light)
{
    size_t hours = weather->count;
    for (size_t hour = 0; hour < hours; ++hour)
        for (int k = 1; k < FORCING_PER_HOUR; ++k)
            light->diffuse_share[hour * FORCING_PER_HOUR + (size_t)k] = share_of(weather, hour);
    for (size_t hour = 0; hour <= hours; ++hour) {
        size_t before = hour > 0 ? hour - 1 : 0;
        size_t after = hour < hours ? hour : hours - 1;
        light->diffuse_share[hour * FORCING_PER_HOUR] =
            0.5 * (share_of(weather, before) + share_of(weather, after));
    }
}

static struct light_now light_at(const struct light_series *light, size_t knot, double t_s,
                                 bool measured)
{
    struct dawn_sun sun = light->sun[knot];
    double ghi = light->ghi_W_m2[knot];
    double beam = 0;
    if (sun.cos_zenith > low_sun_cos)
        beam = fmin(ghi * (1.0 - light->diffuse_share[knot]), beam_most_W_m2 * sun.cos_zenith);
    return (struct light_now){.sun = sun,
                              .dni_W_m2 = beam > 0 ? beam / sun.cos_zenith : 0.0,
                              .dhi_W_m2 = ghi - beam,
                              .extraterrestrial_W_m2 = dawn_sun_extraterrestrial_W_m2(t_s),
                              .measured_split = measured};
}

/* An hour's light is told by its own sun and its neighbours'. */
enum { BESIDE_S = 2 * 3600 };

/* In hours without light nobody asks where the sun is, and where no run comes neither. */
static bool may_be_lit(const struct dawn_network *network, const struct dawn_weather *weather,
                       size_t knot)
{
    int64_t t_s = network->forcing.from_s + (int64_t)knot * FORCING_STEP_S;
    if (t_s + BESIDE_S < dawn_network_lit_from_s(network) ||
        t_s - BESIDE_S > dawn_network_lit_to_s(network))
        return false;
    size_t hour = knot / FORCING_PER_HOUR;
    bool after = hour < weather->count && weather->ghi_W_m2[hour] > 0;
    return after || (knot % FORCING_PER_HOUR == 0 && hour > 0 && weather->ghi_W_m2[hour - 1] > 0);
}

static void fill_gains(struct building *building, const struct dawn_weather *weather,
                       const struct light_series *light)
{
    struct forcing *forcing = &building->network->forcing;
    for (size_t i = 0; i < forcing->knots; ++i) {
        double t_s = (double)forcing->from_s + (double)i * FORCING_STEP_S;
        if (light->ghi_W_m2[i] <= 0 || !may_be_lit(building->network, weather, i))
            continue;
        struct light_now now = light_at(light, i, t_s, weather->split_from == DAWN_FROM_FILE);
        now.snow_stops = dawn_network_snow_stops(building, i);
        now.drawn = forcing->drawn + i * forcing->covers;
        dawn_network_light(&building->light, &now, forcing->gain_W + i * forcing->gains);
    }
}

static bool fill_light(struct building *building, const struct dawn_weather *weather)
{
    const struct dawn_site *site = &building->scenario->site;
    /* The light was measured under the sun of the weather's own place. */
    double latitude = isnan(weather->latitude_deg) ? site->latitude_deg : weather->latitude_deg;
    double longitude = isnan(weather->longitude_deg) ? site->longitude_deg : weather->longitude_deg;
    struct forcing *forcing = &building->network->forcing;
    struct light_series light = {
        .sun = calloc(forcing->knots, sizeof *light.sun),
        .ghi_W_m2 = calloc(forcing->knots, sizeof *light.ghi_W_m2),
        .diffuse_share = calloc(forcing->knots, sizeof *light.diffuse_share),
    };
    bool fine = light.sun && light.ghi_W_m2 && light.diffuse_share;
    if (fine) {
        for (size_t i = 0; i < forcing->knots; ++i)
            if (may_be_lit(building->network, weather, i))
                light.sun[i] = dawn_sun_position(
                    (double)forcing->from_s + (double)i * FORCING_STEP_S, latitude, longitude);
        fill_edges(weather, &light);
        for (size_t hour = 0; hour < weather->count; ++hour)
            fill_hour(weather, &light, hour);
        fill_shares(weather, &light);
        fill_gains(building, weather, &light);
    }
    free(light.sun);
    free(light.ghi_W_m2);
    free(light.diffuse_share);
    return fine;
}

bool dawn_network_build_forcing(struct building *building, const struct dawn_weather *weather)
{
    struct forcing *forcing = &building->network->forcing;
    size_t knots = weather->count * FORCING_PER_HOUR + 1;
    if (!dawn_network_forcing_allocate(forcing, knots, building->network->gain_count,
                                       building->network->cover_count))
        return false;
    forcing->from_s = weather->mean_first_s;
    for (size_t i = 0; i < knots; ++i) {
        double t_s = (double)forcing->from_s + (double)i * FORCING_STEP_S;
        forcing->air_C[i] = instant_at(weather, weather->air_C, t_s);
        forcing->sky_W_m2[i] = instant_at(weather, weather->longwave_W_m2, t_s);
        forcing->wind_m_s[i] =
            instant_at(weather, weather->wind_m_s, t_s) * building->scenario->site.wind_share;
        double vapour_Pa =
            dawn_moistair_saturation_water_Pa(instant_at(weather, weather->dew_C, t_s));
        forcing->vapour_K[i] = dawn_moistair_latent_of_ratio(
            dawn_moistair_ratio(vapour_Pa, building->network->pressure_Pa));
    }
    fill_edge(forcing);
    fill_outdoor_fan(building);
    fill_deep(building);
    dawn_network_fill_drawn(building);
    dawn_network_fill_snow(building);
    return fill_light(building, weather);
}
