/* The work in progress while a scenario becomes a network. */
#ifndef NETWORK_BUILD_H
#define NETWORK_BUILD_H

#include "network/network_light.h"
#include "network/network_parts.h"

/* Steel of drums, 18 kg to 200 L (from memory). */
#define DRUM_STEEL_KG_M3 90.0
#define DRUM_STEEL_J_KGK 480.0

/* A surface that exchanges long-wave inside the house, or a window through which the inside sees
 * the sky: then node is DAWN_NO_NODE. */
enum { RADIANT_MOST = 64 };
struct radiant_surface {
    int node;
    double area_m2, emissivity;
    int group;       /* surfaces in one plane share a number */
    double sky_view; /* of a window */
    bool snowed;     /* of a window that snow can lie on: it shuts it */
    int pane;        /* then: the pane the snow lies on */
    bool wets;       /* of a window in a moist house: water on its film shuts it */
    size_t condense; /* then: the film's condense link */
    struct cover_stack below;
};
/* A sheet's faces toward what it covers and toward the rest, which may be one node. */
struct cover_faces {
    int inside, outside;
};
/* What lies at one place: which air it meets, under which covers. */
struct covered_place {
    int air;
    struct cover_stack below;
};

struct building {
    struct dawn_network *network;
    const struct dawn_scenario *scenario;
    double floor_area_m2, air_volume_m3, perimeter_m;
    double air_J_m3K;                                 /* of air at the site's elevation */
    double rock_volume_m3, bed_area_m2, path_area_m2; /* path: bare soil beside the bed */
    struct radiant_surface radiant[RADIANT_MOST];
    size_t radiant_count;
    int radiant_groups;
    struct light_plan light;
    int bed_bottom;  /* node at the bottom of the planting bed */
    int below_bed;   /* top of the soil column under bed or rock */
    int tray_bearer; /* what trays on the bed stand on */
    struct cover_faces cover_faces[COVERS_MOST];
    struct covered_place at_trays, at_bed, at_roof;
    int snow_lies, snow_conducts, snow_stops; /* columns among the covers */
    double snow_most_W_m2K;                   /* conductance where snow_conducts is 1 */
};

/* Floor, air, rock and bed from the scenario. */
void dawn_network_measure(struct building *building);

/* How the rock lies, as the air and the heat in it go. */
struct rock_shape {
    double volume_m3, footprint_m2, depth_m, path_m, face_m2, still_W_mK;
    int segments;
};
struct rock_shape dawn_network_rock_shape(const struct building *building);

/* The fan on its way through rock and ducts: where its curve meets them, or the flow as given. */
struct fan_point {
    double flow_m3_s, least_m3_s, most_m3_s, rock_Pa, duct_Pa;
    double duct_m_s; /* fastest in the ducts */
    double transfer_units;
};
struct fan_point dawn_network_fan_point(const struct building *building,
                                        const struct rock_shape *shape);

/* Of what a sunlit floor gives off, this share rises past the benches to the ridge (0.5 to 0.7,
 * common practice). */
#define DAWN_NETWORK_PLUME_SHARE 0.6

/* How a surface's warmth is handed to the air, by how it lies. */
enum lie { LIE_FLOOR, LIE_UPRIGHT, LIE_ROOF };
struct natural_link dawn_network_film(enum lie lie, double area_m2);
enum lie dawn_network_lie(double slope_deg);
/* What of the floor trays on benches shade, 0..0.9. */
double dawn_network_shade(const struct building *building);

/* A new plane group, and a surface in it. */
int dawn_network_radiant_group(struct building *building);
void dawn_network_radiant_add(struct building *building, struct radiant_surface surface);
/* Links every surface with every other and with the sky behind windows. */
void dawn_network_radiant_link(struct building *building);
/* Steady heat radiated onto every surface, by what each takes up. */
void dawn_network_radiant_heat(struct building *building, double W, const char *group);

/* Layers to nodes that lie on their faces: nodes[0] on the first face ... nodes[count] on the last.
 * heat and latent are per m3. Returns the number of nodes. */
struct layer_stuff {
    double thickness_m, conductivity_W_mK, heat_J_m3K, water_share;
    int slices;
};
enum { FACES_MOST = DAWN_LAYERS_MOST * 8 + 1 };
size_t dawn_network_layers(struct building *building, enum dawn_role role, const char *name,
                           double area_m2, const struct layer_stuff *layers, size_t count,
                           int nodes[FACES_MOST]);

/* Airs, sheets and the ways past them, before anything that lies below them; and how far each is
 * drawn, once the outdoor air is known. */
void dawn_network_build_covers(struct building *building);
void dawn_network_fill_drawn(struct building *building);
/* What all covers of a stack leave of a flow together. */
int dawn_network_stack_veil(struct building *building, const struct cover_stack *stack,
                            enum veil_part part);
/* An air and, in a moist house, its vapour; returns the air. */
int dawn_network_add_air(struct building *building, double volume_m3, const char *name);

/* The columns that tell of snow, behind the night covers'; and what stands in them. */
void dawn_network_build_snow(struct building *building);
void dawn_network_fill_snow(struct building *building);
/* For a face that bears snow: the node that meets the weather in its place, and that node's
 * long-wave to the sky, the face's own or the snow's. */
int dawn_network_snow_over(struct building *building, int face, double area_m2);
void dawn_network_snow_sky(struct building *building, int surface, const char *group,
                           double area_m2, double emissivity, double sky_view);
/* Share of light that the snow stops at a knot, 0..1. */
double dawn_network_snow_stops(const struct building *building, size_t knot);

void dawn_network_build_shell(struct building *building);
void dawn_network_build_openings(struct building *building);
void dawn_network_build_ground(struct building *building);
void dawn_network_build_stores(struct building *building);

/* What a metre of the floor's edge loses, the board along it taken off. */
double dawn_network_edge_loss_W_mK(const struct building *building);

/* Weather, sun and light plan to the forcing table. */
bool dawn_network_build_forcing(struct building *building, const struct dawn_weather *weather);

#endif
