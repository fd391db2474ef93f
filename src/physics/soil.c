/* Ground below and around. */
#include "dawnlow/physics/soil.h"

#include <math.h>

#include "physics/constants.h"

#define YEAR_DAYS 365.0
#define DAY_S     86400.0

double dawn_soil_kusuda_C(double depth_m, double day, double mean_C, double swing_C,
                          double coldest_day, double diffusivity_m2_day)
{
    double depths = depth_m * sqrt(PHYSICS_PI / (YEAR_DAYS * diffusivity_m2_day));
    double phase = 2.0 * PHYSICS_PI / YEAR_DAYS * (day - coldest_day) - depths;
    return mean_C - swing_C * exp(-depths) * cos(phase);
}

double dawn_soil_layer_m(int i)
{
    static const double thickness_m[DAWN_SOIL_LAYERS] = {0.02, 0.03, 0.04, 0.06,
                                                         0.10, 0.20, 0.38, 0.67};
    return i >= 0 && i < DAWN_SOIL_LAYERS ? thickness_m[i] : 0.0;
}

double dawn_soil_frozen_ratio(double water_share)
{
    return pow(2.22 / 0.561, water_share);
}

/* B' of ISO 13370: the area over half the perimeter */
static double breadth_m(const struct dawn_soil_slab *slab)
{
    return slab->area_m2 / (0.5 * slab->perimeter_m);
}

/* dt of ISO 13370: the ground that would resist as much as wall, floor and films */
static double equivalent_m(const struct dawn_soil_slab *slab)
{
    return slab->wall_m + slab->ground_W_mK * slab->resistance_m2K_W;
}

double dawn_soil_slab_W_m2K(const struct dawn_soil_slab *slab)
{
    double breadth = breadth_m(slab);
    double equivalent = equivalent_m(slab);
    if (equivalent >= breadth)
        return slab->ground_W_mK / (0.457 * breadth + equivalent);
    double around = PHYSICS_PI * breadth;
    return 2.0 * slab->ground_W_mK / (around + equivalent) * log1p(around / equivalent);
}

double dawn_soil_edge_psi_W_mK(const struct dawn_soil_slab *slab, const struct dawn_soil_edge *edge)
{
    double equivalent = equivalent_m(slab);
    double added = edge->thickness_m * fmax(0.0, slab->ground_W_mK / edge->conductivity_W_mK - 1.0);
    double path = 2.0 * edge->depth_m;
    return slab->ground_W_mK / PHYSICS_PI *
           (log1p(path / (equivalent + added)) - log1p(path / equivalent));
}

double dawn_soil_edge_loss_W_mK(double bare_W_mK, const struct dawn_soil_slab *slab,
                                const struct dawn_soil_edge *edge)
{
    double around = PHYSICS_PI * breadth_m(slab);
    struct dawn_soil_edge within = *edge;
    within.depth_m = fmin(edge->depth_m, 0.5 * around);
    double bare = slab->ground_W_mK / PHYSICS_PI * log1p(around / equivalent_m(slab));
    return bare_W_mK * (1.0 + dawn_soil_edge_psi_W_mK(slab, &within) / bare);
}
