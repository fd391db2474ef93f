/* Air through a bed of rock. Flux is kg/s of air per m2 of the bed's gross face; its sign does not
 * matter. stone_m is the diameter of a sphere of the stones' mean volume. */
#ifndef DAWNLOW_PHYSICS_ROCKBED_H
#define DAWNLOW_PHYSICS_ROCKBED_H

/* Heat transfer per volume of bed, W/(m3 K): 650 (G/D)^0.7, Loef & Hawley 1948, gravel of 8..38 mm
 * at 0.05..0.5 kg/(m2 s); fist-sized stones are an extrapolation. About 25 %. 0 without flow. */
double dawn_rockbed_transfer_loef_hawley_W_m3K(double flux_kg_m2s, double stone_m);

/* The same after Wakao & Kaguei 1982, Nu = 2 + 1.1 Re^0.6 Pr^(1/3), Re 15..8500, for spheres: the
 * cross-check; air at 20 C. void_share 0..1, exclusive. Without flow Nu 2 remains. */
double dawn_rockbed_transfer_wakao_W_m3K(double flux_kg_m2s, double stone_m, double void_share);

/* Number of transfer units of a bed, corrected for conduction inside the stones: NTU/(1 + Bi/5),
 * Jeffreson 1972 (from memory), Bi of the stone's radius, below about 2. capacity_flow_W_K: mass
 * flow times specific heat. Without flow 0: nothing is carried. */
double dawn_rockbed_transfer_units(double transfer_W_m3K, double volume_m3,
                                   double capacity_flow_W_K, double stone_m, double void_share,
                                   double stone_W_mK);

/* What one of N equal segments takes of the difference between the air that enters and its stones:
 * 1 - exp(-NTU/N) (Hughes, Klein & Close 1976). segments need not be whole, above 0. Spread of the
 * breakthrough against the exact solution: +8 % for N = NTU, +2 % for N = 2 NTU. */
double dawn_rockbed_segment_share(double transfer_units, double segments);

/* Conductivity of the bed without flow and radiation, W/(m K): Zehner & Schluender 1970, void share
 * 0.25..0.6, stones at least three times as conducting as the air (rock in air: 50 times). 10..20 %
 * on measured beds. Within 1 % of the ratio at which the formula is 0/0 (about 2) the
 * value beside it is given. */
double dawn_rockbed_still_W_mK(double air_W_mK, double stone_W_mK, double void_share);

/* What radiation across the gaps adds, W/(m K): Breitbach & Barthels 1980 (from memory), the
 * companion of the model above, stones of emissivity 0.9 and 2.2 W/(m K). Grows with the stone's
 * size; near 4 sigma T^3 D for ordinary void shares. About 20 %. */
double dawn_rockbed_radiation_W_mK(double stone_m, double void_share, double mean_C);

/* Pressure the air loses per metre of bed, Pa/m; 0 without flow. Viscosity of air at 20 C (1.81e-5
 * Pa s). Rocks are no spheres: measured beds lie up to a factor of 2 either side of the second, the
 * default; Ergun on spheres lies 1.6..2.5 times below it. Coefficients from memory.
 * Ergun 1952, uniform spheres, void_share 0..1, exclusive. */
double dawn_rockbed_drop_ergun_Pa_m(double flux_kg_m2s, double stone_m, double void_share,
                                    double density_kg_m3);
/* Dunkle & Ellul 1972, gravel: G/(rho D) (21 G + 1750 mu/D); Re about 30..2000. */
double dawn_rockbed_drop_dunkle_ellul_Pa_m(double flux_kg_m2s, double stone_m,
                                           double density_kg_m3);
/* McCorquodale, Hannoura & Nasser 1978, rock of a shape: 1.5 river stones, 2.5 crushed. With
 * s = (1 - void) shape/void^1.5: G s/(rho D) (4.74 G + 166 s mu/D). */
double dawn_rockbed_drop_mccorquodale_Pa_m(double flux_kg_m2s, double stone_m, double void_share,
                                           double shape, double density_kg_m3);

/* Darcy's permeability, m2: D^2 void^3/(150 (1 - void)^2), the slow term of Ergun's. Broken rock: a
 * factor of 2. */
double dawn_rockbed_permeability_m2(double stone_m, double void_share);

/* Where a warm bed below cool air begins to turn over by itself: Rayleigh-Darcy numbers, bed open
 * above, or shut by soil or a sheet (4 pi^2; Lapwood 1948, Nield 1968, from memory). */
#define DAWN_ROCKBED_ONSET_OPEN 27.1
#define DAWN_ROCKBED_ONSET_SHUT 39.5

/* A bed while the fan stands. All above 0, only the series resistance may be 0. */
struct dawn_rockbed_calm {
    double height_m, permeability_m2;
    double still_W_mK;         /* conductivity without flow, radiation included */
    double air_viscosity_m2_s; /* kinematic: 1.45e-5 at 10 C */
    double air_heat_J_m3K;     /* density times specific heat */
    double mean_K;             /* absolute temperature of bed and air */
    double onset;              /* one of the above */
    double series_m2K_W;       /* from the bed's top to the air: film, soil, cover */
};

/* Rayleigh-Darcy number g dT K H/(T nu alpha), alpha = still conductivity / heat of the air. Of the
 * sign of dT = bed less air: below 0 the bed lies stable. */
double dawn_rockbed_rayleigh(double difference_K, const struct dawn_rockbed_calm *bed);

/* What turning over multiplies conduction by: 1 up to the onset, Ra/onset beyond (Elder 1967 for
 * the shut bed, from memory; for the open one by analogy), joined as the sixth root of the sum of
 * sixth powers: 12 % above both where they meet. 1 for negative Ra. Meant up to Ra of some
 * hundreds. */
double dawn_rockbed_nusselt(double rayleigh, double onset);

struct dawn_rockbed_buoyant {
    double h_W_m2K;     /* conductance per area of the top */
    double slope_W_m2K; /* d(h dT)/d(dT) */
};

/* Between the middle of a bed without forced flow and the air above it: half the height through
 * Nu times the still conductivity, then the series resistance: 1/(H/(2 Nu k) + R). dT = bed less
 * air, the whole of it taken for the bed's, which rates the stirring high when the series
 * resistance is large. A bed colder than the air conducts only. Smooth in dT everywhere. A factor
 * of 2. */
struct dawn_rockbed_buoyant dawn_rockbed_buoyant_W_m2K(double difference_K,
                                                       const struct dawn_rockbed_calm *bed);

/* Conductance by which the vapour of air that flows through one of several equal segments meets wet
 * stones, W/K of latent temperature, when the segment's air is one well-mixed volume: F (exp(x) -
 * 1) with x = NTU/(0.9 segments), so that the air leaves with exp(-x) of its surplus as it would
 * from a plug. Mass follows heat with Le^(2/3) = 0.9 (Lewis). x is held to 3, which leaves a
 * twentieth: more would have rates hang on the last digits of the vapour.
 */
double dawn_rockbed_vapour_W_K(double flow_W_K, double transfer_units, int segments);

#endif
