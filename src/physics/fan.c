/* A fan against what resists it. */
#include "dawnlow/physics/fan.h"

#include <math.h>

#include "dawnlow/physics/rockbed.h"
#include "physics/constants.h"

#define LAMINAR_TO          2000.0
#define TURBULENT_FROM      4000.0
#define CORRUGATED_FRICTION 0.04
#define SHEET_ROUGHNESS_M   0.15e-3
#define FLOW_TOLERANCE_M3_S 1e-10
#define FLOW_MOST_M3_S      1e6

static bool possible(struct dawn_fan_point at)
{
    return isfinite(at.flow_m3_s) && isfinite(at.pressure_Pa) && at.flow_m3_s >= 0.0 &&
           at.pressure_Pa >= 0.0;
}

static struct dawn_fan_check check_points(size_t count, const struct dawn_fan_point points[])
{
    if (count < 2)
        return (struct dawn_fan_check){DAWN_FAN_FEW, count};
    if (count > DAWN_FAN_POINTS)
        return (struct dawn_fan_check){DAWN_FAN_MANY, count};
    for (size_t i = 0; i < count; i++) {
        if (!possible(points[i]))
            return (struct dawn_fan_check){DAWN_FAN_IMPOSSIBLE, i};
        if (i > 0 && !(points[i].flow_m3_s > points[i - 1].flow_m3_s))
            return (struct dawn_fan_check){DAWN_FAN_NOT_RISING, i};
        if (i > 0 && !(points[i].pressure_Pa < points[i - 1].pressure_Pa))
            return (struct dawn_fan_check){DAWN_FAN_NOT_FALLING, i};
    }
    return (struct dawn_fan_check){DAWN_FAN_SOUND, 0};
}

struct dawn_fan_check dawn_fan_curve_make(size_t count, const struct dawn_fan_point points[],
                                          struct dawn_fan_curve *curve)
{
    struct dawn_fan_check check = check_points(count, points);
    *curve = (struct dawn_fan_curve){0};
    if (check.fault != DAWN_FAN_SOUND)
        return check;
    curve->count = count;
    for (size_t i = 0; i < count; i++)
        curve->point[i] = points[i];
    return check;
}

struct dawn_fan_check dawn_fan_curve_of_ends(double free_air_m3_s, double greatest_Pa,
                                             struct dawn_fan_curve *curve)
{
    const struct dawn_fan_point ends[2] = {{0.0, greatest_Pa}, {free_air_m3_s, 0.0}};
    return dawn_fan_curve_make(2, ends, curve);
}

struct dawn_fan_curve dawn_fan_curve_in_air(const struct dawn_fan_curve *curve,
                                            double density_kg_m3)
{
    struct dawn_fan_curve there = *curve;
    for (size_t i = 0; i < there.count; i++)
        there.point[i].pressure_Pa *= density_kg_m3 / DAWN_FAN_CATALOGUE_KG_M3;
    return there;
}

static double signed_square(double x)
{
    return x * fabs(x);
}

double dawn_fan_pressure_Pa(const struct dawn_fan_curve *curve, double flow_m3_s)
{
    if (curve->count < 2)
        return 0.0;
    size_t last = 1;
    while (last + 1 < curve->count && flow_m3_s > curve->point[last].flow_m3_s)
        last++;
    struct dawn_fan_point a = curve->point[last - 1];
    struct dawn_fan_point b = curve->point[last];
    double from = signed_square(a.flow_m3_s);
    double share = (signed_square(flow_m3_s) - from) / (signed_square(b.flow_m3_s) - from);
    return a.pressure_Pa + share * (b.pressure_Pa - a.pressure_Pa);
}

static double haaland(double reynolds, double roughness_share)
{
    double root = -1.8 * log10(pow(roughness_share / 3.7, 1.11) + 6.9 / reynolds);
    return 1.0 / (root * root);
}

double dawn_fan_friction(double reynolds, double roughness_share)
{
    if (reynolds <= LAMINAR_TO)
        return 64.0 / reynolds;
    if (reynolds >= TURBULENT_FROM)
        return haaland(reynolds, roughness_share);
    double share = (reynolds - LAMINAR_TO) / (TURBULENT_FROM - LAMINAR_TO);
    return (1.0 - share) * 64.0 / LAMINAR_TO + share * haaland(TURBULENT_FROM, roughness_share);
}

double dawn_fan_duct_Pa(const struct dawn_fan_duct *duct, double flow_m3_s, double density_kg_m3)
{
    double d = duct->diameter_m;
    double speed = fabs(flow_m3_s) / (0.25 * PHYSICS_PI * d * d);
    double reynolds = density_kg_m3 * speed * d / PHYSICS_AIR_VISCOSITY;
    if (!(reynolds > 0.0))
        return 0.0;
    double friction =
        duct->corrugated ? CORRUGATED_FRICTION : dawn_fan_friction(reynolds, SHEET_ROUGHNESS_M / d);
    return (friction * duct->length_m / d + duct->losses) * 0.5 * density_kg_m3 * speed * speed;
}

static double bed_Pa(const struct dawn_fan_path *path, double flow_m3_s)
{
    if (!(path->bed_face_m2 > 0.0))
        return 0.0;
    double flux = path->density_kg_m3 * flow_m3_s / path->bed_face_m2;
    double per_metre =
        path->stone_shape > 0.0
            ? dawn_rockbed_drop_mccorquodale_Pa_m(flux, path->stone_m, path->void_share,
                                                  path->stone_shape, path->density_kg_m3)
            : dawn_rockbed_drop_dunkle_ellul_Pa_m(flux, path->stone_m, path->density_kg_m3);
    return per_metre * path->bed_length_m;
}

double dawn_fan_path_Pa(double flow_m3_s, const void *path)
{
    const struct dawn_fan_path *way = path;
    double flow = fabs(flow_m3_s);
    double sum = flow * (way->linear_Pa_s_m3 + way->square_Pa_s2_m6 * flow) + bed_Pa(way, flow);
    for (size_t i = 0; i < way->duct_count; i++)
        sum += dawn_fan_duct_Pa(&way->ducts[i], flow, way->density_kg_m3);
    return sum;
}

struct dawn_fan_meeting dawn_fan_operating(const struct dawn_fan_curve *curve,
                                           dawn_fan_resistance *resistance, const void *path)
{
    struct dawn_fan_meeting meeting = {0};
    double spare = dawn_fan_pressure_Pa(curve, 0.0) - resistance(0.0, path);
    if (!(spare > 0.0)) {
        meeting.missing_Pa = -spare;
        return meeting;
    }
    double below = 0.0;
    double above = curve->point[curve->count - 1].flow_m3_s;
    while (dawn_fan_pressure_Pa(curve, above) - resistance(above, path) > 0.0 &&
           above < FLOW_MOST_M3_S) {
        below = above;
        above *= 2.0;
    }
    if (!(dawn_fan_pressure_Pa(curve, above) - resistance(above, path) <= 0.0)) {
        meeting.missing_Pa = NAN;
        return meeting;
    }
    while (above - below > FLOW_TOLERANCE_M3_S * fmax(1.0, above)) {
        double middle = 0.5 * (below + above);
        if (dawn_fan_pressure_Pa(curve, middle) - resistance(middle, path) > 0.0)
            below = middle;
        else
            above = middle;
    }
    meeting.meets = true;
    meeting.flow_m3_s = 0.5 * (below + above);
    meeting.pressure_Pa = dawn_fan_pressure_Pa(curve, meeting.flow_m3_s);
    return meeting;
}
