/* Position of the sun: the Astronomical Almanac's low-precision formulas (Michalsky 1988). */
#include "dawnlow/physics/sun.h"

#include <math.h>

#include "physics/constants.h"

#define DAY_S               86400.0
#define DAYS_1970_TO_J2000  10957.5 /* 2000-01-01 12:00 */
#define SOLAR_CONSTANT_W_M2 1361.0
#define HORIZON_DEG         (-0.833) /* refraction 34' and half a disc 16' */

enum { SUB_STEPS = 12 };

static double wrapped(double angle_deg)
{
    double rest = fmod(angle_deg, 360.0);
    return rest < 0.0 ? rest + 360.0 : rest;
}

/* Mean anomaly n days after 2000-01-01 12:00 UTC. */
static double anomaly_rad(double n)
{
    return PHYSICS_RADIANS * wrapped(357.528 + 0.9856003 * n);
}

struct equatorial {
    double declination_rad, right_ascension_rad, sidereal_rad; /* sidereal time at Greenwich */
};

static struct equatorial equatorial_at(double utc_s)
{
    double n = utc_s / DAY_S - DAYS_1970_TO_J2000;
    double mean_longitude = wrapped(280.460 + 0.9856474 * n);
    double anomaly = anomaly_rad(n);
    double longitude =
        PHYSICS_RADIANS * (mean_longitude + 1.915 * sin(anomaly) + 0.020 * sin(2.0 * anomaly));
    double obliquity = PHYSICS_RADIANS * (23.439 - 4e-7 * n);
    double hours = (utc_s - DAY_S * floor(utc_s / DAY_S)) / 3600.0;
    double sidereal_h = fmod(6.697375 + 0.0657098242 * n + hours, 24.0);
    struct equatorial at = {
        .declination_rad = asin(sin(obliquity) * sin(longitude)),
        .right_ascension_rad = atan2(cos(obliquity) * sin(longitude), cos(longitude)),
        .sidereal_rad = PHYSICS_RADIANS * 15.0 * sidereal_h,
    };
    return at;
}

static double hour_angle_rad(struct equatorial at, double longitude_deg)
{
    return remainder(at.sidereal_rad + PHYSICS_RADIANS * longitude_deg - at.right_ascension_rad,
                     2.0 * PHYSICS_PI);
}

static double cos_zenith_of(double phi, double dec, double hour_angle)
{
    double cos_zenith = sin(phi) * sin(dec) + cos(phi) * cos(dec) * cos(hour_angle);
    return fmax(-1.0, fmin(1.0, cos_zenith));
}

double dawn_sun_cos_zenith(double utc_s, double latitude_deg, double longitude_deg)
{
    struct equatorial at = equatorial_at(utc_s);
    return cos_zenith_of(PHYSICS_RADIANS * latitude_deg, at.declination_rad,
                         hour_angle_rad(at, longitude_deg));
}

struct dawn_sun dawn_sun_position(double utc_s, double latitude_deg, double longitude_deg)
{
    struct equatorial at = equatorial_at(utc_s);
    double hour_angle = hour_angle_rad(at, longitude_deg);
    double phi = PHYSICS_RADIANS * latitude_deg;
    double dec = at.declination_rad;
    double cos_zenith = cos_zenith_of(phi, dec, hour_angle);
    /* the tangent's two parts times cos dec, so that no tangent is needed: the way to the sun */
    double west = sin(hour_angle) * cos(dec);
    double south = cos(hour_angle) * sin(phi) * cos(dec) - sin(dec) * cos(phi);
    double azimuth = PHYSICS_PI + atan2(west, south);
    struct dawn_sun sun = {
        .cos_zenith = cos_zenith,
        .zenith_rad = acos(cos_zenith),
        .azimuth_rad = azimuth >= 2.0 * PHYSICS_PI ? azimuth - 2.0 * PHYSICS_PI : azimuth,
        .north = -south,
        .east = -west,
        .declination_rad = dec,
        .hour_angle_rad = hour_angle,
    };
    return sun;
}

double dawn_sun_extraterrestrial_W_m2(double utc_s)
{
    double anomaly = anomaly_rad(utc_s / DAY_S - DAYS_1970_TO_J2000);
    double distance_au = 1.00014 - 0.01671 * cos(anomaly) - 0.00014 * cos(2.0 * anomaly);
    return SOLAR_CONSTANT_W_M2 / (distance_au * distance_au);
}

struct dawn_facing dawn_sun_facing(double slope_rad, double azimuth_rad)
{
    double sin_slope = sin(slope_rad);
    return (struct dawn_facing){.up = cos(slope_rad),
                                .north = sin_slope * cos(azimuth_rad),
                                .east = sin_slope * sin(azimuth_rad),
                                .sin_slope = sin_slope};
}

double dawn_sun_incidence_cos(struct dawn_sun sun, struct dawn_facing plane)
{
    double along = sun.cos_zenith * plane.up + sun.north * plane.north + sun.east * plane.east;
    return fmax(-1.0, fmin(1.0, along));
}

double dawn_sun_mean_cos_zenith(double from_s, double to_s, double latitude_deg,
                                double longitude_deg)
{
    double sum = 0.0;
    for (int i = 0; i < SUB_STEPS; i++) {
        double at_s = from_s + (to_s - from_s) * (i + 0.5) / SUB_STEPS;
        sum += fmax(0.0, dawn_sun_cos_zenith(at_s, latitude_deg, longitude_deg));
    }
    return sum / SUB_STEPS;
}

/* Height of the centre above the horizon that counts, as a sine difference. */
static double above_horizon(double utc_s, double latitude_deg, double longitude_deg)
{
    return dawn_sun_cos_zenith(utc_s, latitude_deg, longitude_deg) -
           sin(PHYSICS_RADIANS * HORIZON_DEG);
}

double dawn_sun_crossing_s(double from_s, double to_s, double latitude_deg, double longitude_deg,
                           int rise)
{
    const double scan_s = 300.0;
    /* The sine of the sun's height changes by less than this, a turn of the earth in 86,164 s:
     * until then it cannot reach the horizon. */
    const double most_per_s = 7.3e-5;
    const double sign = rise ? 1.0 : -1.0;
    double low_s = from_s;
    double low = sign * above_horizon(low_s, latitude_deg, longitude_deg);
    while (low_s < to_s) {
        double high_s = fmin(low_s + fmax(scan_s, fabs(low) / most_per_s), to_s);
        double high = sign * above_horizon(high_s, latitude_deg, longitude_deg);
        if (low < 0.0 && high >= 0.0) {
            while (high_s - low_s > 0.1) {
                double mid_s = low_s + 0.5 * (high_s - low_s);
                if (sign * above_horizon(mid_s, latitude_deg, longitude_deg) < 0.0)
                    low_s = mid_s;
                else
                    high_s = mid_s;
            }
            return high_s;
        }
        low_s = high_s;
        low = high;
    }
    return NAN;
}
