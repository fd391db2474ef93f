/* The fan on its way: where its curve meets what rock and ducts take of the pressure. */
#include <math.h>
#include <stdlib.h>

#include "base/civil.h"
#include "dawnlow/physics/fan.h"
#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/rockbed.h"
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

/* ---- what rock and ducts take ---- */

struct airway {
    struct dawn_fan_path rock; /* without ducts */
    double rock_factor;        /* beds lie up to a factor of 2 either side of the correlation */
    struct dawn_fan_duct ducts[DAWN_DUCTS_MOST];
    double side_by_side[DAWN_DUCTS_MOST];
    size_t duct_count;
};

static double density_of(const struct building *building)
{
    return building->air_J_m3K / DAWN_MOISTAIR_CP_J_KGK;
}

static struct airway airway_of(const struct building *building, const struct rock_shape *shape)
{
    const struct dawn_scenario *scenario = building->scenario;
    struct airway way = {.rock = {.bed_face_m2 = shape->face_m2,
                                  .bed_length_m = shape->path_m,
                                  .stone_m = scenario->rock.stone_m,
                                  .void_share = scenario->rock.void_share,
                                  .density_kg_m3 = density_of(building)},
                         .rock_factor = 1.0,
                         .duct_count = scenario->duct_count};
    for (size_t i = 0; i < way.duct_count; ++i) {
        const struct dawn_duct *duct = &scenario->ducts[i];
        way.side_by_side[i] = duct->side_by_side;
        way.ducts[i] = (struct dawn_fan_duct){.diameter_m = duct->diameter_m,
                                              .length_m = duct->length_m,
                                              .corrugated = duct->kind == DAWN_DUCT_CORRUGATED,
                                              .losses = DAWN_FAN_LOSS_ENTRY + DAWN_FAN_LOSS_EXIT +
                                                        duct->bends * DAWN_FAN_LOSS_BEND +
                                                        duct->screens * DAWN_FAN_LOSS_SCREEN};
    }
    return way;
}

static double rock_Pa(const struct airway *way, double flow_m3_s)
{
    return way->rock_factor * dawn_fan_path_Pa(flow_m3_s, &way->rock);
}

static double ducts_Pa(const struct airway *way, double flow_m3_s)
{
    double sum = 0;
    for (size_t i = 0; i < way->duct_count; ++i)
        sum += dawn_fan_duct_Pa(&way->ducts[i], flow_m3_s / way->side_by_side[i],
                                way->rock.density_kg_m3);
    return sum;
}

static double airway_Pa(double flow_m3_s, const void *path)
{
    const struct airway *way = path;
    return rock_Pa(way, flow_m3_s) + ducts_Pa(way, flow_m3_s);
}

static double fastest_m_s(const struct airway *way, double flow_m3_s)
{
    double fastest = 0;
    for (size_t i = 0; i < way->duct_count; ++i) {
        double d = way->ducts[i].diameter_m;
        fastest = fmax(fastest, flow_m3_s / way->side_by_side[i] / (0.7853981633974483 * d * d));
    }
    return fastest;
}

/* ---- where the curve meets them ---- */

static struct dawn_fan_curve curve_of(const struct building *building)
{
    const struct dawn_fan *fan = &building->scenario->fan;
    struct dawn_fan_point points[3];
    struct dawn_fan_curve curve;
    size_t count = 0;
    points[count++] = (struct dawn_fan_point){0.0, fan->greatest_Pa};
    if (!isnan(fan->middle_m3_s))
        points[count++] = (struct dawn_fan_point){fan->middle_m3_s, fan->middle_Pa};
    points[count++] = (struct dawn_fan_point){fan->free_air_m3_s, 0.0};
    /* The scenario's checks leave no curve that does not fall; were there one, no air would flow.
     */
    (void)dawn_fan_curve_make(count, points, &curve);
    return dawn_fan_curve_in_air(&curve, density_of(building));
}

static double meet(const struct dawn_fan_curve *curve, struct airway way, double rock_factor)
{
    way.rock_factor = rock_factor;
    return dawn_fan_operating(curve, airway_Pa, &way).flow_m3_s;
}

static double transfer_units(const struct building *building, const struct rock_shape *shape,
                             double flow_m3_s)
{
    const struct dawn_rock *rock = &building->scenario->rock;
    double flux = density_of(building) * flow_m3_s / shape->face_m2;
    /* Two published laws; the lower is kept, since fist-sized stone lies outside both fits. */
    double transfer =
        fmin(dawn_rockbed_transfer_loef_hawley_W_m3K(flux, rock->stone_m),
             dawn_rockbed_transfer_wakao_W_m3K(flux, rock->stone_m, rock->void_share));
    return dawn_rockbed_transfer_units(transfer, shape->volume_m3 * rock->active_share,
                                       building->air_J_m3K * flow_m3_s, rock->stone_m,
                                       rock->void_share, rock->conductivity_W_mK);
}

struct fan_point dawn_network_fan_point(const struct building *building,
                                        const struct rock_shape *shape)
{
    double given = building->scenario->fan.flow_m3_s;
    struct airway way = airway_of(building, shape);
    struct fan_point point = {given, given, given, 0, 0, 0};
    if (isnan(given)) {
        struct dawn_fan_curve curve = curve_of(building);
        point.flow_m3_s = meet(&curve, way, 1.0);
        point.least_m3_s = meet(&curve, way, 2.0);
        point.most_m3_s = meet(&curve, way, 0.5);
    }
    point.rock_Pa = rock_Pa(&way, point.flow_m3_s);
    point.duct_Pa = ducts_Pa(&way, point.flow_m3_s);
    point.transfer_units = transfer_units(building, shape, point.flow_m3_s);
    return point;
}

/* ---- against the sun ---- */

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
    struct airway way = airway_of(building, &shape);
    double thin_air = way.rock.density_kg_m3 / DAWN_FAN_CATALOGUE_KG_M3;
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
        .duct_m_s = fastest_m_s(&way, point.flow_m3_s),
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
