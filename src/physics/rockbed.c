/* Air through a bed of rock. */
#include "dawnlow/physics/rockbed.h"

#include <math.h>

#include "dawnlow/physics/sky.h"
#include "physics/constants.h"
#include "physics/rockbed_lanes.h"

#define AIR_CONDUCTIVITY 0.0255 /* W/(m K), about 20 C */
#define AIR_PRANDTL      0.71
#define STONE_EMISSIVITY 0.9
#define USUAL_STONE_W_MK 2.2
#define SINGULAR         0.01

double dawn_rockbed_transfer_loef_hawley_W_m3K(double flux_kg_m2s, double stone_m)
{
    return 650.0 * pow(fabs(flux_kg_m2s) / stone_m, 0.7);
}

double dawn_rockbed_transfer_wakao_W_m3K(double flux_kg_m2s, double stone_m, double void_share)
{
    double reynolds = fabs(flux_kg_m2s) * stone_m / PHYSICS_AIR_VISCOSITY;
    double nusselt = 2.0 + 1.1 * pow(reynolds, 0.6) * cbrt(AIR_PRANDTL);
    return nusselt * AIR_CONDUCTIVITY * 6.0 * (1.0 - void_share) / (stone_m * stone_m);
}

double dawn_rockbed_transfer_units(double transfer_W_m3K, double volume_m3,
                                   double capacity_flow_W_K, double stone_m, double void_share,
                                   double stone_W_mK)
{
    double flow = fabs(capacity_flow_W_K);
    if (!(flow > 0.0))
        return 0.0;
    double film_W_m2K = transfer_W_m3K * stone_m / (6.0 * (1.0 - void_share));
    double biot = film_W_m2K * 0.5 * stone_m / stone_W_mK;
    return transfer_W_m3K * volume_m3 / flow / (1.0 + biot / 5.0);
}

double dawn_rockbed_segment_share(double transfer_units, double segments)
{
    return -expm1(-transfer_units / segments);
}

static double deformation(double void_share)
{
    return 1.25 * pow((1.0 - void_share) / void_share, 10.0 / 9.0);
}

double dawn_rockbed_still_W_mK(double air_W_mK, double stone_W_mK, double void_share)
{
    double b = deformation(void_share);
    double ratio = stone_W_mK / air_W_mK;
    double n = 1.0 - b / ratio;
    if (fabs(n) < SINGULAR) {
        /* the formula is 0/0 at n = 0; its value there is that of its neighbours */
        n = SINGULAR;
        ratio = b / (1.0 - n);
    }
    double root = sqrt(1.0 - void_share);
    double core =
        2.0 / n *
        ((1.0 - 1.0 / ratio) * b / (n * n) * log(ratio / b) - 0.5 * (b + 1.0) - (b - 1.0) / n);
    return air_W_mK * (1.0 - root + root * core);
}

double dawn_rockbed_radiation_W_mK(double stone_m, double void_share, double mean_C)
{
    double kelvin = mean_C + PHYSICS_KELVIN;
    double black = 4.0 * DAWN_STEFAN_BOLTZMANN * kelvin * kelvin * kelvin * stone_m;
    double grey = 2.0 / STONE_EMISSIVITY - 1.0;
    double root = sqrt(1.0 - void_share);
    double b = deformation(void_share);
    double through_stone = 1.0 / (1.0 + black / (grey * USUAL_STONE_W_MK));
    return black * ((1.0 - root) * void_share + root / grey * (b + 1.0) / b * through_stone);
}

double dawn_rockbed_drop_ergun_Pa_m(double flux_kg_m2s, double stone_m, double void_share,
                                    double density_kg_m3)
{
    double flux = fabs(flux_kg_m2s);
    double solid = 1.0 - void_share;
    double void3 = void_share * void_share * void_share;
    double slow = 150.0 * PHYSICS_AIR_VISCOSITY * solid * solid / (void3 * stone_m * stone_m);
    double fast = 1.75 * solid * flux / (void3 * stone_m);
    return (slow + fast) * flux / density_kg_m3;
}

double dawn_rockbed_drop_dunkle_ellul_Pa_m(double flux_kg_m2s, double stone_m, double density_kg_m3)
{
    double flux = fabs(flux_kg_m2s);
    return flux / (density_kg_m3 * stone_m) *
           (21.0 * flux + 1750.0 * PHYSICS_AIR_VISCOSITY / stone_m);
}

double dawn_rockbed_drop_mccorquodale_Pa_m(double flux_kg_m2s, double stone_m, double void_share,
                                           double shape, double density_kg_m3)
{
    double flux = fabs(flux_kg_m2s);
    double tortuous = (1.0 - void_share) * shape / pow(void_share, 1.5);
    return flux / (density_kg_m3 * stone_m) * tortuous *
           (4.74 * flux + 166.0 * tortuous * PHYSICS_AIR_VISCOSITY / stone_m);
}

double dawn_rockbed_permeability_m2(double stone_m, double void_share)
{
    double solid = 1.0 - void_share;
    return stone_m * stone_m * void_share * void_share * void_share / (150.0 * solid * solid);
}

double dawn_rockbed_rayleigh(double difference_K, const struct dawn_rockbed_calm *bed)
{
    double diffusivity = bed->still_W_mK / bed->air_heat_J_m3K;
    return PHYSICS_GRAVITY / bed->mean_K * difference_K * bed->permeability_m2 * bed->height_m /
           (bed->air_viscosity_m2_s * diffusivity);
}

double dawn_rockbed_nusselt(double rayleigh, double onset)
{
    return rockbed_nusselt(rockbed_past_onset(rayleigh / onset));
}

struct dawn_rockbed_buoyant dawn_rockbed_buoyant_W_m2K(double difference_K,
                                                       const struct dawn_rockbed_calm *bed)
{
    struct rockbed_lanes flow =
        rockbed_buoyant(difference_K, dawn_rockbed_rayleigh(1.0, bed) / bed->onset,
                        bed->height_m / (2.0 * bed->still_W_mK), bed->series_m2K_W);
    return (struct dawn_rockbed_buoyant){flow.h_W_m2K, flow.slope_W_m2K};
}

double dawn_rockbed_vapour_W_K(double flow_W_K, double transfer_units, int segments)
{
    const double lewis = 0.9; /* Le^(2/3) */
    const double most = 3.0;
    return flow_W_K * expm1(fmin(transfer_units / (lewis * segments), most));
}
