/* The fan against the noon sun: what its air can carry of it, and what that says of the fan. */
#include <math.h>
#include <stdlib.h>

#include "base/civil.h"
#include "dawnlow/physics/fan.h"
#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/sun.h"
#include "network/network_build.h"

/* Ridge air over rock at noon: what a fan that is to store the day's heat is sized for. Of a clear
 * noon's sun a store that carries less than a third or so cannot keep the house from opening its
 * vents, and air that comes back with a quarter of its warmth has been moved in vain (common
 * practice, no source). */
static const double ridge_rise_K = 15.0;
static const double carried_least = 0.30;
static const double left_most = 0.25;
/* No fan of this size turns more of its electricity into moving air; 10 to 40 % is usual (common
 * practice, no source). */
static const double efficiency_most = 0.6;
/* A fan that moves less than half its free air is held back. */
static const double held_back_share = 0.5;

/* A clear noon of the March equinox, when the sun stands equally high on both halves of the earth.
 * Which year is of no account. */
static struct light_now equinox_noon(const struct dawn_site *site)
{
    double t_s = (double)dawn_civil_days(2026, 3, 20) * 86400.0 + 43200.0 -
                 site->longitude_deg / 15.0 * 3600.0;
    struct dawn_sun sun = dawn_sun_position(t_s, site->latitude_deg, site->longitude_deg);
    t_s -= sun.hour_angle_rad / 6.283185307179586 * 86400.0; /* the sundial's noon */
    sun = dawn_sun_position(t_s, site->latitude_deg, site->longitude_deg);
    double global = dawn_light_clear_W_m2(sun.cos_zenith);
    double above = dawn_sun_extraterrestrial_W_m2(t_s);
    if (global <= 0)
        return (struct light_now){.sun = sun, .extraterrestrial_W_m2 = above};
    double diffuse = global * dawn_light_diffuse_share(global / (above * sun.cos_zenith));
    return (struct light_now){.sun = sun,
                              .dni_W_m2 = (global - diffuse) / sun.cos_zenith,
                              .dhi_W_m2 = diffuse,
                              .extraterrestrial_W_m2 = above};
}

static enum dawn_fan_verdict verdict_of(const struct dawn_fan_work *work)
{
    double enough_W = carried_least * work->noon_W;
    if (!work->from_curve && work->power_W > 0 && work->air_W > efficiency_most * work->power_W)
        return DAWN_FAN_FLOW_BEYOND_POWER;
    if (work->carried_W < enough_W * (1.0 - work->left_share)) {
        if (!work->from_curve || work->flow_m3_s > held_back_share * work->free_air_m3_s)
            return DAWN_FAN_TOO_SMALL;
        return work->duct_Pa > work->rock_Pa ? DAWN_FAN_CHOKED_BY_DUCTS : DAWN_FAN_CHOKED_BY_ROCK;
    }
    return work->left_share > left_most || work->carried_W < enough_W ? DAWN_FAN_AIR_LEAVES_WARM
                                                                      : DAWN_FAN_FITS;
}

static void judge(const struct building *building, double noon_W, struct dawn_fan_work *work)
{
    const struct dawn_fan *fan = &building->scenario->fan;
    struct rock_shape shape = dawn_network_rock_shape(building);
    struct fan_point point = dawn_network_fan_point(building, &shape);
    double thin_air = building->air_J_m3K / DAWN_MOISTAIR_CP_J_KGK / DAWN_FAN_CATALOGUE_KG_M3;
    *work = (struct dawn_fan_work){
        .from_curve = isnan(fan->flow_m3_s),
        .flow_m3_s = point.flow_m3_s,
        .least_m3_s = point.least_m3_s,
        .most_m3_s = point.most_m3_s,
        .free_air_m3_s = isnan(fan->flow_m3_s) ? fan->free_air_m3_s : NAN,
        .greatest_Pa = isnan(fan->flow_m3_s) ? fan->greatest_Pa * thin_air : NAN,
        .pressure_Pa = point.rock_Pa + point.duct_Pa,
        .rock_Pa = point.rock_Pa,
        .duct_Pa = point.duct_Pa,
        .power_W = fan->power_W,
        .air_W = point.flow_m3_s * (point.rock_Pa + point.duct_Pa),
        .face_m2 = shape.face_m2,
        .path_m = shape.path_m,
        .face_m_s = point.flow_m3_s / shape.face_m2,
        .duct_m_s = point.duct_m_s,
        .transfer_units = point.transfer_units,
        .left_share = exp(-point.transfer_units),
        .rise_K = ridge_rise_K,
        .noon_W = noon_W,
    };
    work->carried_W =
        building->air_J_m3K * point.flow_m3_s * ridge_rise_K * (1.0 - work->left_share);
    work->carried_share = noon_W > 0 ? work->carried_W / noon_W : NAN;
    work->verdict = verdict_of(work);
}

/* The house is put together as far as its light plan asks for. */
static bool work_out(struct building *building, struct dawn_fan_work *work)
{
    struct dawn_network *net = building->network;
    dawn_network_measure(building);
    dawn_network_build_shell(building);
    dawn_network_build_ground(building);
    dawn_network_build_stores(building);
    double *gain_W = calloc(net->gain_count + 1, sizeof *gain_W);
    bool fine = gain_W != NULL && !net->failed;
    if (fine) {
        struct light_now noon = equinox_noon(&building->scenario->site);
        judge(building,
              dawn_network_light_inside_W(&building->light, &noon, gain_W, net->gain_count), work);
    }
    free(gain_W);
    return fine;
}

enum dawn_status dawn_network_fan_work(const struct dawn_scenario *scenario,
                                       struct dawn_fan_work *work, struct dawn_problems *problems)
{
    struct building *building = calloc(1, sizeof *building);
    struct dawn_network *net = dawn_network_new();
    bool fine = building != NULL && net != NULL;
    if (fine) {
        building->network = net;
        building->scenario = scenario;
        fine = work_out(building, work);
    }
    free(building);
    dawn_network_free(net);
    if (fine)
        return DAWN_OK;
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                      "out of memory while the fan's work was worked out");
    return DAWN_ERR_NOMEM;
}
