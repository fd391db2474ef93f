/* Position of the sun and what reaches the top of the air.
 *
 * Times are seconds since 1970-01-01 00:00 UTC without leap seconds; latitude north positive,
 * longitude east positive, both in degrees. Angles of a position are radians. */
#ifndef DAWNLOW_PHYSICS_SUN_H
#define DAWNLOW_PHYSICS_SUN_H

struct dawn_sun {
    double cos_zenith, zenith_rad; /* of the disc's centre, without refraction and parallax */
    double azimuth_rad;            /* from north, clockwise, 0 <= azimuth < 2 pi */
    double north, east;            /* of the way to it, of length 1; upwards it is cos_zenith */
    double declination_rad;
    double hour_angle_rad; /* west (afternoon) positive, -pi..pi */
};

/* Where the sun stands, by the Astronomical Almanac's low-precision formulas (Michalsky 1988, Solar
 * Energy 40:227). Meant for 1950..2050; against an ephemeris over 2020..2050 and latitudes -66..66
 * the error is 0.004 deg in the mean and 0.0125 deg at most. Outside these years it grows slowly
 * (the series is truncated, nothing breaks). Straight overhead and at the poles the azimuth is
 * finite but means nothing. */
struct dawn_sun dawn_sun_position(double utc_s, double latitude_deg, double longitude_deg);

/* The same position's cos_zenith alone, to the bit, for a good deal less work. */
double dawn_sun_cos_zenith(double utc_s, double latitude_deg, double longitude_deg);

/* Irradiance above the air on a plane that faces the sun, W/m2: the solar constant 1361 (Kopp &
 * Lean 2011) over the square of the distance in AU, 1.00014 - 0.01671 cos g - 0.00014 cos 2g with
 * the mean anomaly g (Astronomical Almanac's low-precision formula, as above; error 1e-4 AU). */
double dawn_sun_extraterrestrial_W_m2(double utc_s);

/* The way a plane looks: its normal, of length 1, and the sine of its slope. */
struct dawn_facing {
    double up, north, east;
    double sin_slope;
};
/* slope 0 = lying, pi/2 = upright; azimuth of the normal from north, clockwise. */
struct dawn_facing dawn_sun_facing(double slope_rad, double azimuth_rad);

/* Cosine of the angle between the sun's beam and a plane's normal. Negative: the sun is behind the
 * plane. The horizon is not looked at: a plane can face a sun that is below it. */
double dawn_sun_incidence_cos(struct dawn_sun sun, struct dawn_facing plane);

/* Mean of max(0, cos zenith) between two moments, from 12 sub-steps taken at their middles. For an
 * hour, error below 2e-4 (also in the hours of sunrise and sunset); spans much longer than an hour
 * lose accuracy with the square of their length. 0 when the sun stays below the horizon. */
double dawn_sun_mean_cos_zenith(double from_s, double to_s, double latitude_deg,
                                double longitude_deg);

/* The first moment in [from_s, to_s] at which the sun's centre crosses -0.833 deg (34' of
 * refraction at the horizon and 16' of half disc: the usual definition of sunrise and sunset)
 * upward (rise nonzero) or downward (rise 0), within a second of the formulas used. NAN when there
 * is none, or when the span is empty; a sun that shows itself for less than 5 minutes may be
 * missed. */
double dawn_sun_crossing_s(double from_s, double to_s, double latitude_deg, double longitude_deg,
                           int rise);

#endif
