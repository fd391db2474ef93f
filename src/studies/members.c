/* Draws the members: a Latin hypercube over what is not known and over each day's error, hourly
 * noise of each member's own on top. */
#include "studies/members.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dawnlow/physics/light.h"
#include "dawnlow/physics/sky.h"
#include "studies/errors.h"
#include "studies/latin.h"

static const double hour_s = 3600.0;

/* What is drawn for each day, and once for each member. */
enum { AIR, CLOUD, WIND, DEW, QUANTITIES };
enum { LEAKS, LIGHT, ACTIVE_ROCK, SOIL, OFFSET, ONCE };
enum { ARRAYS = 8 };

struct draw {
    const struct dawn_scenario *scenario;
    const struct dawn_weather *weather;
    int64_t now_s;
    uint64_t seed;
    size_t days;     /* nodes of each quantity's daily chain */
    size_t unknowns; /* columns of the hypercube */
    double *share;   /* [member * unknowns + unknown] */
    double *node;    /* [quantity * days + day] of one member */
    double *hourly;  /* [quantity * hours + hour] of one member */
};

/* ---- one member's noise ---- */

/* Columns go day by day, and each quantity has a stream of its own: a longer forecast has the same
 * errors in its first days. */
static void draw_noise(const struct draw *draw, size_t index)
{
    const struct dawn_doubt *doubt = &draw->scenario->forecast;
    const size_t hours = draw->weather->count;
    const double *share = draw->share + index * draw->unknowns + ONCE;
    for (size_t q = 0; q < QUANTITIES; q++) {
        double *node = draw->node + q * draw->days;
        struct dawn_random random =
            dawn_random_stream(draw->seed + 1, (uint64_t)index * QUANTITIES + q);
        for (size_t day = 0; day < draw->days; day++) {
            node[day] = dawn_random_normal_at(share[day * QUANTITIES + q]);
        }
        dawn_errors_chain(node, draw->days, doubt->day_memory);
        dawn_errors_hourly(draw->hourly + q * hours, hours, doubt->memory_s / hour_s, &random);
    }
}

/* Noise of deviation 1 of a quantity in an hour: `quick` of its variance is the hour's own. */
static double noise(const struct draw *draw, size_t quantity, size_t hour, double lead_h,
                    double quick)
{
    const double daily = dawn_errors_daily(draw->node + quantity * draw->days, draw->days,
                                           draw->scenario->forecast.day_memory, lead_h / 24.0);
    return sqrt(quick) * draw->hourly[quantity * draw->weather->count + hour] +
           sqrt(1.0 - quick) * daily;
}

/* Of cloud, wind and dew point half is the hour's own (common practice, no source). */
static const double quick_half = 0.5;

static double air_error_K(const struct draw *draw, size_t hour, double lead_h)
{
    const struct dawn_doubt *doubt = &draw->scenario->forecast;
    const double all_K = dawn_errors_air_K(doubt, lead_h);
    const double hourly = all_K > 0.0 ? fmin(doubt->air_hourly_K / all_K, 1.0) : 0.0;

    return dawn_errors_onset(lead_h) * all_K * noise(draw, AIR, hour, lead_h, hourly * hourly);
}

/* ---- one member's weather ---- */

static double sky_W_m2(double air_C, double dew_C, double cloud, double pressure_Pa)
{
    return dawn_sky_longwave_W_m2(
        dawn_sky_cloudy(dawn_sky_emissivity_berdahl(dew_C, NAN, pressure_Pa), cloud), air_C);
}

static double within(double value, double least, double most)
{
    return fmax(least, fmin(most, value));
}

/* What holds at an instant. The sky's long-wave changes as its formula does, so that a measured one
 * keeps what it has beyond the formula. */
static void blur_instant(const struct draw *draw, struct dawn_member *member, size_t hour,
                         double offset_K)
{
    const struct dawn_weather *weather = draw->weather;
    const struct dawn_doubt *doubt = &draw->scenario->forecast;
    const double at_s = (double)weather->first_s + (double)hour * hour_s;
    const double lead_h = (at_s - (double)draw->now_s) / hour_s;
    const double onset = dawn_errors_onset(lead_h);

    if (lead_h <= 0.0) {
        return;
    }
    const double air_K = air_error_K(draw, hour, lead_h) + onset * offset_K;
    const double wind = onset * doubt->wind;
    member->air_C[hour] += air_K;
    member->dew_C[hour] =
        fmin(member->dew_C[hour] + air_K +
                 onset * doubt->dew_K * noise(draw, DEW, hour, lead_h, quick_half),
             member->air_C[hour]);
    member->cloud[hour] = within(
        member->cloud[hour] + onset * doubt->cloud * noise(draw, CLOUD, hour, lead_h, quick_half),
        0.0, 1.0);
    /* Log-normal: never below calm, the same in the mean. */
    member->wind_m_s[hour] *=
        exp(wind * noise(draw, WIND, hour, lead_h, quick_half) - 0.5 * wind * wind);
    member->longwave_W_m2[hour] *= sky_W_m2(member->air_C[hour], member->dew_C[hour],
                                            member->cloud[hour], weather->pressure_Pa[hour]) /
                                   sky_W_m2(weather->air_C[hour], weather->dew_C[hour],
                                            weather->cloud[hour], weather->pressure_Pa[hour]);
}

static double cloud_at(const struct dawn_weather *weather, const double *cloud, double at_s)
{
    const double place =
        within((at_s - (double)weather->first_s) / hour_s, 0.0, (double)(weather->count - 1));
    const size_t before = (size_t)place;
    const size_t after = before + 1 < weather->count ? before + 1 : before;

    return cloud[before] + (place - (double)before) * (cloud[after] - cloud[before]);
}

/* Light changes as the cloud does, and with what the house lets in. */
static void blur_mean(const struct draw *draw, struct dawn_member *member, size_t hour,
                      double light)
{
    const struct dawn_weather *weather = draw->weather;
    const double at_s = (double)weather->mean_first_s + ((double)hour + 0.5) * hour_s;
    const double factor = light * dawn_light_cloud_factor(cloud_at(weather, member->cloud, at_s)) /
                          dawn_light_cloud_factor(cloud_at(weather, weather->cloud, at_s));

    if (at_s > (double)draw->now_s) {
        member->ghi_W_m2[hour] *= factor;
        member->dni_W_m2[hour] *= factor;
        member->dhi_W_m2[hour] *= factor;
    }
}

static double factor_of(double spread, double normal)
{
    return exp(spread * normal);
}

static void make_member(const struct draw *draw, struct dawn_member *member, size_t index)
{
    const struct dawn_doubt *doubt = &draw->scenario->forecast;
    double once[ONCE];

    for (size_t i = 0; i < ONCE; i++) {
        once[i] = dawn_random_normal_at(draw->share[index * draw->unknowns + i]);
    }
    member->leaks = factor_of(doubt->leaks, once[LEAKS]);
    member->active_rock = factor_of(doubt->active_rock, once[ACTIVE_ROCK]);
    member->soil = factor_of(doubt->soil, once[SOIL]);
    draw_noise(draw, index);
    for (size_t hour = 0; hour < draw->weather->count; hour++) {
        blur_instant(draw, member, hour, draw->scenario->site.offset_spread_K * once[OFFSET]);
    }
    for (size_t hour = 0; hour < draw->weather->count; hour++) {
        blur_mean(draw, member, hour, factor_of(doubt->light, once[LIGHT]));
    }
}

/* ---- all members ---- */

static void copy_weather(struct dawn_member *member, const struct dawn_weather *weather,
                         double *place)
{
    const double *const from[ARRAYS] = {
        weather->air_C,         weather->dew_C,    weather->wind_m_s, weather->cloud,
        weather->longwave_W_m2, weather->ghi_W_m2, weather->dni_W_m2, weather->dhi_W_m2};
    double **const to[ARRAYS] = {&member->air_C,    &member->dew_C,         &member->wind_m_s,
                                 &member->cloud,    &member->longwave_W_m2, &member->ghi_W_m2,
                                 &member->dni_W_m2, &member->dhi_W_m2};

    for (size_t i = 0; i < ARRAYS; i++) {
        *to[i] = place + i * weather->count;
        memcpy(*to[i], from[i], weather->count * sizeof **to[i]);
    }
}

static bool reserve(struct dawn_members *members, struct draw *draw)
{
    const size_t hours = draw->weather->count;

    members->member = calloc(members->count, sizeof *members->member);
    members->block = malloc(members->count * ARRAYS * hours * sizeof *members->block);
    draw->share = malloc(members->count * draw->unknowns * sizeof *draw->share);
    draw->node = malloc(QUANTITIES * draw->days * sizeof *draw->node);
    draw->hourly = malloc(QUANTITIES * hours * sizeof *draw->hourly);
    return members->member != NULL && members->block != NULL && draw->share != NULL &&
           draw->node != NULL && draw->hourly != NULL &&
           dawn_latin_fill(draw->share, members->count, draw->unknowns, draw->seed);
}

bool dawn_members_draw(struct dawn_members *members, size_t count, uint64_t seed,
                       const struct dawn_scenario *scenario, const struct dawn_weather *weather,
                       int64_t now_s)
{
    const double end_s = (double)weather->first_s + (double)weather->count * hour_s;
    const double ahead_days = fmax((end_s - (double)now_s) / 86400.0, 0.0);
    struct draw draw = {.scenario = scenario,
                        .weather = weather,
                        .now_s = now_s,
                        .seed = seed,
                        .days = (size_t)ahead_days + 3};

    draw.unknowns = ONCE + QUANTITIES * draw.days;
    *members = (struct dawn_members){.count = count};
    const bool fine = reserve(members, &draw);
    for (size_t i = 0; fine && i < count; i++) {
        copy_weather(&members->member[i], weather, members->block + i * ARRAYS * weather->count);
        make_member(&draw, &members->member[i], i);
    }
    free(draw.share);
    free(draw.node);
    free(draw.hourly);
    if (!fine) {
        dawn_members_release(members);
    }
    return fine;
}

void dawn_members_release(struct dawn_members *members)
{
    free(members->member);
    free(members->block);
    *members = (struct dawn_members){0};
}

/* The air reaches all of the rock only where the scenario says so: then no part of it is dead, and
 * the network has no node for it. */
static double active_share(double share, double factor)
{
    return share < 1.0 ? within(share * factor, 0.05, 0.99) : share;
}

void dawn_members_apply(const struct dawn_member *member, struct dawn_scenario *scenario,
                        struct dawn_weather *weather)
{
    scenario->house.air_changes_per_h = dawn_scenario_air_changes_per_h(scenario) * member->leaks;
    scenario->rock.active_share = active_share(scenario->rock.active_share, member->active_rock);
    scenario->ground.conductivity_W_mK *= member->soil;
    scenario->bed.conductivity_W_mK *= member->soil;
    weather->air_C = member->air_C;
    weather->dew_C = member->dew_C;
    weather->wind_m_s = member->wind_m_s;
    weather->cloud = member->cloud;
    weather->longwave_W_m2 = member->longwave_W_m2;
    weather->ghi_W_m2 = member->ghi_W_m2;
    weather->dni_W_m2 = member->dni_W_m2;
    weather->dhi_W_m2 = member->dhi_W_m2;
}
