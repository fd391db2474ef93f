/* Where the light goes: through which panes, onto what. */
#ifndef NETWORK_LIGHT_H
#define NETWORK_LIGHT_H

#include "dawnlow/physics/glazing.h"
#include "dawnlow/physics/light.h"
#include "dawnlow/scenario.h"
#include "network/network_parts.h"

enum { RECEIVERS_MOST = 48, PANE_ANGLES = 91 };

/* A glazed plane. Optics are looked up by the cosine of incidence. */
struct light_pane {
    double area_m2;
    struct dawn_facing facing;
    double pass; /* frame and dirt */
    bool snowed; /* snow can lie on it */
    size_t skins;
    struct dawn_glazing_optics beam[PANE_ANGLES], diffuse;
    size_t channel[DAWN_GLAZING_LAYERS_MOST]; /* of its skins' gains, outer first */
    struct cover_stack below;
};
/* Something inside that light falls on. */
struct light_receiver {
    size_t channel;
    double direct_m2; /* weight for light straight from the panes */
    double area_m2;   /* for light already reflected once */
    double absorptance;
    double outline_m2; /* > 0: an upright thing in the sun, lit by its outline instead */
    struct cover_stack below;
};
/* A night cover that is left on: what it lets through and what warms it. */
struct light_cover {
    double passes, takes;
    size_t channel;
};
/* The outside of an opaque wall. */
struct light_wall {
    double area_m2, absorptance;
    struct dawn_facing facing;
    bool snowed;
    size_t channel;
};
struct light_plan {
    struct light_pane panes[DAWN_GLAZING_MOST];
    struct light_receiver receivers[RECEIVERS_MOST];
    struct light_wall walls[DAWN_WALLS_MOST];
    size_t pane_count, receiver_count, wall_count;
    struct light_cover covers[COVERS_MOST];
    bool full; /* a receiver found no room */
    double ground_reflectance;
    struct dawn_facing to_noon; /* upright, towards the noon sun */
};

/* Light at one moment, horizontal and normal parts, W/m2. */
struct light_now {
    struct dawn_sun sun;
    double dni_W_m2, dhi_W_m2, extraterrestrial_W_m2;
    bool measured_split; /* beam and diffuse were measured: the finer sky model pays */
    double snow_stops;   /* share of light stopped by the snow that lies */
    const double *drawn; /* [cover] how far each is; NULL = all away */
};

/* Fills a pane's optics. */
void dawn_network_light_pane(struct light_pane *pane, const struct dawn_glazing_build *build);
void dawn_network_light_receive(struct light_plan *plan, struct light_receiver receiver);
/* What of the light stays inside, W: absorbed by everything but the glazing and the outside of
 * walls. gain_W has a place for every channel and is used up. */
double dawn_network_light_inside_W(const struct light_plan *plan, const struct light_now *now,
                                   double gain_W[], size_t channels);
/* Adds to gain_W[channel] what every surface absorbs. */
void dawn_network_light(const struct light_plan *plan, const struct light_now *now,
                        double gain_W[]);

#endif
