/* Ground below and around. */
#ifndef DAWNLOW_PHYSICS_SOIL_H
#define DAWNLOW_PHYSICS_SOIL_H

/* Undisturbed ground temperature, C, at a depth on a day of the year (Kusuda & Achenbach 1965):
 * mean - swing exp(-z sqrt(pi/(365 a))) cos(2 pi/365 (day - coldest) - z sqrt(pi/(365 a))).
 * swing_C: half the yearly range of daily means at the surface; coldest_day: day of the year of the
 * coldest surface; diffusivity in m2/day, above 0 (0.04..0.06 for ordinary ground). day may have a
 * fraction and run past the year's end. Snow, frost and rain are not in it: 1..2 K. */
double dawn_soil_kusuda_C(double depth_m, double day, double mean_C, double swing_C,
                          double coldest_day, double diffusivity_m2_day);

/* Layers under a floor: thin at the top, where an hour matters, growing downward; together 1.50 m,
 * below which a night or a week is not felt. */
enum { DAWN_SOIL_LAYERS = 8 };
/* Thickness of layer i, m, 0 the topmost; 0 for a layer that is not there. */
double dawn_soil_layer_m(int i);

/* What freezing multiplies the conductivity of moist ground by: (k_ice / k_water)^share, with the
 * conductivities of ice and water at 0 C, 2.22 and 0.561 W/(m K). Johansen 1975 (from memory):
 * ground conducts as the product of its parts, each to the power of its share by volume.
 * water_share 0..1; 1.2 to 1.6 for 15 to 35 % of water, about 20 %. */
double dawn_soil_frozen_ratio(double water_share);

/* A floor on the ground, whole. */
struct dawn_soil_slab {
    double area_m2, perimeter_m; /* above 0 */
    double wall_m;               /* thickness of the walls around it, from 0 */
    double ground_W_mK;          /* conductivity of the ground, above 0 */
    double resistance_m2K_W; /* inside film + floor + outside film; bare ground 0.17 + 0 + 0.04 */
};

/* Steady transmittance between inside and outdoor air, W/(m2 K), without thermal bridges: ISO
 * 13370, B' = A/(P/2), dt = w + lambda R; 2 lambda/(pi B' + dt) ln(pi B'/dt + 1) while dt < B',
 * above that lambda/(0.457 B' + dt). */
double dawn_soil_slab_W_m2K(const struct dawn_soil_slab *slab);

/* Insulation set upright along the edge of a floor. */
struct dawn_soil_edge {
    double depth_m, thickness_m; /* from 0 */
    double conductivity_W_mK;    /* above 0 */
};

/* What it takes off per metre of perimeter, W/(m K), 0 or negative: ISO 13370 (from memory),
 * -(lambda/pi) (ln(2 D/dt + 1) - ln(2 D/(dt + d') + 1)), d' = (d/lambda_n - d/lambda) lambda.
 * Insulation that conducts better than the ground counts as none. */
double dawn_soil_edge_psi_W_mK(const struct dawn_soil_slab *slab,
                               const struct dawn_soil_edge *edge);

/* Loss of a bare edge, W per metre of perimeter and kelvin to the outdoor air: handbook factor for
 * a slab without insulation (from memory, adapted; building codes print 1.26). */
#define DAWN_SOIL_EDGE_BARE_W_MK 1.3

/* The same with insulation, W/(m K): the bare loss times the share that ISO 13370 leaves of a
 * floor's loss through its perimeter, 1 + psi/((lambda/pi) ln(pi B'/dt + 1)), psi as above; the
 * second factor is the standard's own floor, A U / P of a large one. A share and not the
 * difference, so that the answer stays above zero whatever the bare loss. Insulation deeper than pi
 * B'/2, where the way round it is as long as the longest below the floor, counts as that deep (our
 * bound). */
double dawn_soil_edge_loss_W_mK(double bare_W_mK, const struct dawn_soil_slab *slab,
                                const struct dawn_soil_edge *edge);

#endif
