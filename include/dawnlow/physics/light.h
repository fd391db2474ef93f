/* Light from the sky: clear sky, cloud, split into beam and diffuse, light on a tilted plane. */
#ifndef DAWNLOW_PHYSICS_LIGHT_H
#define DAWNLOW_PHYSICS_LIGHT_H

#include "dawnlow/physics/sun.h"

/* Global irradiance on the level under a clear sky, W/m2: 1098 cos z exp(-0.057/cos z), Haurwitz
 * 1945. A few percent in temperate places near sea level; needs no turbidity. 0 when the sun is
 * down (cos_zenith <= 0 or NAN). */
double dawn_light_clear_W_m2(double cos_zenith);

/* Share of the clear-sky light that passes cloud: 1 - 0.75 N^3.4, Kasten & Czeplak 1980 (Hamburg,
 * ten years). cloud 0..1 (okta/8), clamped to that. Prefer opaque or low cloud to total cover. */
double dawn_light_cloud_factor(double cloud);

/* The cloud cover 0..1 that has this factor: the inverse of the above. Factors of 1 and more give
 * 0, of 0.25 and less 1. Single hours of real light scatter widely around the relation. */
double dawn_light_cloud_from_factor(double factor);

/* Diffuse share of hourly global light from the clearness index (global over extraterrestrial light
 * on the level), Erbs, Klein & Duffie 1982. Against a measured year the diffuse scatters by 45 W/m2
 * (rms). Negative clearness counts as 0 (all diffuse), above 0.8 the share is 0.165. */
double dawn_light_diffuse_share(double clearness);

/* Extraterrestrial light on the level in a day, MJ/m2, FAO-56 eq. 21 with eqs 23..25. Day of the
 * year 1..366. Beyond the polar circles the day lasts 0 or 24 h as it should. */
double dawn_light_day_extraterrestrial_MJ_m2(double latitude_deg, int day_of_year);

/* Light of a day from its range of temperature, MJ/m2, FAO-56 eq. 50 (Hargreaves & Samani); k_rs
 * 0.16 inland, 0.19 at a coast. Some 20 % rms per day. A range below 0 counts as 0. */
double dawn_light_day_from_range_MJ_m2(double max_C, double min_C, double extraterrestrial_MJ_m2,
                                       double k_rs);

/* Light on a plane, W/m2 of the plane, by where it comes from. */
struct dawn_light_plane {
    double beam_W_m2;   /* from the disc */
    double sky_W_m2;    /* all of the sky's diffuse light, the bright ring round the sun included */
    double ground_W_m2; /* reflected by the ground */
    double incidence_cos; /* of the beam; negative = sun behind the plane */
};

/* Hay & Davies 1980: the share dni/extraterrestrial of the diffuse light comes from round the sun,
 * the rest evenly. For beam and diffuse that come out of a split of global light. dni on a plane
 * facing the sun, dhi on the level, both W/m2 (negative counts as 0); ground_reflectance 0..1. With
 * the sun below the horizon the beam is 0 and the diffuse isotropic. In the quotient cos i/cos z
 * the sun is held at 5 deg. Against a measured year: 1 % on the yearly sum, up to 7 % on a west
 * wall. */
struct dawn_light_plane dawn_light_on_plane(struct dawn_sun sun, double dni_W_m2, double dhi_W_m2,
                                            double extraterrestrial_W_m2, struct dawn_facing plane,
                                            double ground_reflectance);

/* Perez et al. 1990 in the form of ISO 52010-1:2017 (clearness from the sun's altitude with K =
 * 1.104, that standard's air mass): for measured beam and diffuse. Agrees with the standard's own
 * year of results to 0.1 W/m2 while the sun is up, with one intended difference: where the model
 * would give less than no light from the sky (a few hours just after sunrise) the sky's part is 0.
 * With the sun below the horizon the beam is 0 and the diffuse isotropic. */
struct dawn_light_plane dawn_light_on_plane_perez(struct dawn_sun sun, double dni_W_m2,
                                                  double dhi_W_m2, double extraterrestrial_W_m2,
                                                  struct dawn_facing plane,
                                                  double ground_reflectance);

#endif
