/* The fan on its way: where its curve meets what rock and ducts take of the pressure. */
#include <math.h>

#include "dawnlow/physics/fan.h"
#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/rockbed.h"
#include "network/network_build.h"

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
    struct fan_point point = {.flow_m3_s = given, .least_m3_s = given, .most_m3_s = given};
    if (isnan(given)) {
        struct dawn_fan_curve curve = curve_of(building);
        point.flow_m3_s = meet(&curve, way, 1.0);
        point.least_m3_s = meet(&curve, way, 2.0);
        point.most_m3_s = meet(&curve, way, 0.5);
    }
    point.rock_Pa = rock_Pa(&way, point.flow_m3_s);
    point.duct_Pa = ducts_Pa(&way, point.flow_m3_s);
    point.duct_m_s = fastest_m_s(&way, point.flow_m3_s);
    point.transfer_units = transfer_units(building, shape, point.flow_m3_s);
    return point;
}
