/* Light through panes: Fresnel reflection and absorption in up to four plane layers, both
 * polarisations followed separately (Duffie & Beckman, Solar Engineering of Thermal Processes,
 * ch. 5, extended to absorbing stacks). For clear plane sheets; hollow and structured sheets take
 * their normal transmittance from the maker through dawn_glazing_extinction, and only the shape
 * over the angle from here, or that as well from what was measured. */
#ifndef DAWNLOW_PHYSICS_GLAZING_H
#define DAWNLOW_PHYSICS_GLAZING_H

#include <stddef.h>

enum { DAWN_GLAZING_LAYERS_MOST = 4 };
struct dawn_glazing_layer {
    double index; /* of refraction, 1.3..2: glass 1.526, polycarbonate 1.59, polyethylene 1.51 */
    double extinction; /* K L, extinction coefficient times thickness, 0..20 */
};
/* Shares of the light that falls on the outermost layer; transmitted + reflected + all absorbed
 * = 1.
 */
struct dawn_glazing_optics {
    double transmitted, reflected;
    double
        absorbed[DAWN_GLAZING_LAYERS_MOST]; /* outermost first; 0 for layers that are not there */
};

/* Beam light at an angle of incidence whose cosine is given (above 1 counts as 1). At and behind
 * grazing (cosine <= 1e-6) all is reflected. No layers: all is transmitted; layers beyond the
 * fourth are left out. Exact for plane sheets and unpolarised light. */
struct dawn_glazing_optics dawn_glazing_beam(const struct dawn_glazing_layer *layers, size_t count,
                                             double incidence_cos);

/* Light that comes evenly from the hemisphere: integral of 2 tau sin cos over the angle, by 90
 * Gauss points; error below 1e-5. */
struct dawn_glazing_optics dawn_glazing_diffuse(const struct dawn_glazing_layer *layers,
                                                size_t count);

/* What a sheet as a whole lets through by the angle of incidence, as measured: angles in degrees,
 * rising, from 0 to 90; linear between. For structured and diffusing sheets, which Fresnel's
 * equations do not know. count 0: nothing was measured. */
enum { DAWN_GLAZING_ANGLES_MOST = 12 };
struct dawn_glazing_angles {
    size_t count;
    double angle_deg[DAWN_GLAZING_ANGLES_MOST], transmittance[DAWN_GLAZING_ANGLES_MOST];
};

/* As dawn_glazing_beam and dawn_glazing_diffuse, with the transmittance that was measured. What the
 * layers take up is as without, but never more than is left; the rest is thrown back. Its diffuse
 * light is the table's over the hemisphere, error below 1e-4 (its corners). */
struct dawn_glazing_optics dawn_glazing_measured_beam(const struct dawn_glazing_layer *layers,
                                                      size_t count,
                                                      const struct dawn_glazing_angles *angles,
                                                      double incidence_cos);
struct dawn_glazing_optics dawn_glazing_measured_diffuse(const struct dawn_glazing_layer *layers,
                                                         size_t count,
                                                         const struct dawn_glazing_angles *angles);

/* Extinction K L of each of count equal layers that together have a wanted transmittance at normal
 * incidence, by bisection to 1e-12. 0 when even clear layers let less through; a wanted
 * transmittance of 0 or less gives the darkest layer considered, 20. */
double dawn_glazing_extinction(double index, size_t count, double normal_transmittance);

#endif
