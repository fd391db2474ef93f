/* Light from the sky: clear sky, cloud, split into beam and diffuse, light on a tilted plane. */
#include "dawnlow/physics/light.h"

#include <math.h>
#include <stddef.h>

#include "physics/constants.h"

static double share(double x)
{
    return fmax(0.0, fmin(1.0, x));
}

double dawn_light_clear_W_m2(double cos_zenith)
{
    return cos_zenith > 0.0 ? 1098.0 * cos_zenith * exp(-0.057 / cos_zenith) : 0.0;
}

double dawn_light_cloud_factor(double cloud)
{
    return 1.0 - 0.75 * pow(share(cloud), 3.4);
}

double dawn_light_cloud_from_factor(double factor)
{
    return share(pow(fmax(0.0, 1.0 - factor) / 0.75, 1.0 / 3.4));
}

double dawn_light_diffuse_share(double clearness)
{
    double k = fmax(0.0, clearness);
    if (k <= 0.22)
        return 1.0 - 0.09 * k;
    if (k <= 0.80)
        return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
    return 0.165;
}

double dawn_light_day_extraterrestrial_MJ_m2(double latitude_deg, int day_of_year)
{
    double year_angle = 2.0 * PHYSICS_PI * day_of_year / 365.0;
    double distance = 1.0 + 0.033 * cos(year_angle);
    double dec = 0.409 * sin(year_angle - 1.39);
    double phi = PHYSICS_RADIANS * latitude_deg;
    /* beyond the polar circle the sun stays up or down: the sunset angle ends at pi or 0 */
    double sunset = acos(fmax(-1.0, fmin(1.0, -tan(phi) * tan(dec))));
    return 24.0 * 60.0 / PHYSICS_PI * 0.0820 * distance *
           (sunset * sin(phi) * sin(dec) + cos(phi) * cos(dec) * sin(sunset));
}

double dawn_light_day_from_range_MJ_m2(double max_C, double min_C, double extraterrestrial_MJ_m2,
                                       double k_rs)
{
    return k_rs * sqrt(fmax(0.0, max_C - min_C)) * extraterrestrial_MJ_m2;
}

/* Beam and ground light are the same in both sky models. */
static struct dawn_light_plane plane_without_sky(struct dawn_sun sun, double dni_W_m2,
                                                 double dhi_W_m2, struct dawn_facing plane,
                                                 double ground_reflectance)
{
    double incidence = dawn_sun_incidence_cos(sun, plane);
    double beam = sun.cos_zenith > 0.0 ? fmax(0.0, dni_W_m2) : 0.0;
    double global = fmax(0.0, dhi_W_m2) + beam * fmax(0.0, sun.cos_zenith);
    struct dawn_light_plane on = {
        .beam_W_m2 = beam * fmax(0.0, incidence),
        .ground_W_m2 = ground_reflectance * global * 0.5 * (1.0 - plane.up),
        .incidence_cos = incidence,
    };
    return on;
}

struct dawn_light_plane dawn_light_on_plane(struct dawn_sun sun, double dni_W_m2, double dhi_W_m2,
                                            double extraterrestrial_W_m2, struct dawn_facing plane,
                                            double ground_reflectance)
{
    struct dawn_light_plane on =
        plane_without_sky(sun, dni_W_m2, dhi_W_m2, plane, ground_reflectance);
    double around_sun = 0.0;
    if (sun.cos_zenith > 0.0 && extraterrestrial_W_m2 > 0.0)
        around_sun = share(dni_W_m2 / extraterrestrial_W_m2);
    double beam_ratio = fmax(0.0, on.incidence_cos) / fmax(PHYSICS_COS_85, sun.cos_zenith);
    on.sky_W_m2 = fmax(0.0, dhi_W_m2) *
                  ((1.0 - around_sun) * 0.5 * (1.0 + plane.up) + around_sun * beam_ratio);
    return on;
}

struct brightness {
    double clearness_most, f11, f12, f13, f21, f22, f23;
};

/* Perez et al. 1990, table 6 */
static const struct brightness perez_bins[] = {
    {1.065, -0.008, 0.588, -0.062, -0.060, 0.072, -0.022},
    {1.230, 0.130, 0.683, -0.151, -0.019, 0.066, -0.029},
    {1.500, 0.330, 0.487, -0.221, 0.055, -0.064, -0.026},
    {1.950, 0.568, 0.187, -0.295, 0.109, -0.152, -0.014},
    {2.800, 0.873, -0.392, -0.362, 0.226, -0.462, 0.001},
    {4.500, 1.132, -1.237, -0.412, 0.288, -0.823, 0.056},
    {6.200, 1.060, -1.600, -0.359, 0.264, -1.127, 0.131},
    {INFINITY, 0.678, -0.327, -0.250, 0.156, -1.377, 0.251},
};

static const struct brightness *perez_bin(double clearness)
{
    size_t i = 0;
    while (i + 1 < sizeof perez_bins / sizeof perez_bins[0] &&
           !(clearness < perez_bins[i].clearness_most))
        i++;
    return &perez_bins[i];
}

/* The air mass ISO 52010-1 prescribes for this model (Kasten 1966 below 10 deg). */
static double iso_air_mass(double altitude_rad)
{
    double altitude_deg = altitude_rad / PHYSICS_RADIANS;
    if (altitude_deg >= 10.0)
        return 1.0 / sin(altitude_rad);
    return 1.0 / (sin(altitude_rad) + 0.15 * pow(altitude_deg + 3.885, -1.253));
}

static double perez_clearness(double dni_W_m2, double dhi_W_m2, double altitude_rad)
{
    double cubed = 1.104 * altitude_rad * altitude_rad * altitude_rad;
    return ((dhi_W_m2 + dni_W_m2) / dhi_W_m2 + cubed) / (1.0 + cubed);
}

struct dawn_light_plane dawn_light_on_plane_perez(struct dawn_sun sun, double dni_W_m2,
                                                  double dhi_W_m2, double extraterrestrial_W_m2,
                                                  struct dawn_facing plane,
                                                  double ground_reflectance)
{
    struct dawn_light_plane on =
        plane_without_sky(sun, dni_W_m2, dhi_W_m2, plane, ground_reflectance);
    double isotropic = 0.5 * (1.0 + plane.up);
    if (!(dhi_W_m2 > 0.0)) {
        on.sky_W_m2 = 0.0;
        return on;
    }
    if (!(sun.cos_zenith > 0.0 && extraterrestrial_W_m2 > 0.0)) {
        on.sky_W_m2 = dhi_W_m2 * isotropic;
        return on;
    }
    double altitude = 0.5 * PHYSICS_PI - sun.zenith_rad;
    double brightness = iso_air_mass(altitude) * dhi_W_m2 / extraterrestrial_W_m2;
    const struct brightness *f =
        perez_bin(perez_clearness(fmax(0.0, dni_W_m2), dhi_W_m2, altitude));
    double f1 = fmax(0.0, f->f11 + f->f12 * brightness + f->f13 * sun.zenith_rad);
    double f2 = f->f21 + f->f22 * brightness + f->f23 * sun.zenith_rad;
    double beam_ratio = fmax(0.0, on.incidence_cos) / fmax(PHYSICS_COS_85, sun.cos_zenith);
    double sky = dhi_W_m2 * ((1.0 - f1) * isotropic + f1 * beam_ratio + f2 * plane.sin_slope);
    on.sky_W_m2 = fmax(0.0, sky);
    return on;
}
