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

#endif
