/* Light through panes: Fresnel's equations per polarisation, then the stack of layers. */
#include "dawnlow/physics/glazing.h"

#include <math.h>

#include "physics/constants.h"

/* closer to grazing than this nothing enters, and the quotients below would lose their meaning */
#define GRAZING_COS 1e-6

struct pane {
    double transmitted, reflected;
};

/* One layer seen by light of one polarisation that is reflected by `r` at each face. */
static struct pane pane_of(double r, double inner)
{
    double tau = inner * (1.0 - r) * (1.0 - r) / (1.0 - r * r * inner * inner);
    struct pane pane = {.transmitted = tau, .reflected = r * (1.0 + inner * tau)};
    return pane;
}

static double face_reflectance(double index, double cos_outside, double cos_inside, int parallel)
{
    /* the amplitude form: finite at normal incidence, where the sines of the textbook form vanish
     */
    double a = parallel ? index * cos_outside : cos_outside;
    double b = parallel ? cos_inside : index * cos_inside;
    double amplitude = (a - b) / (a + b);
    return amplitude * amplitude;
}

static struct pane layer_pane(const struct dawn_glazing_layer *layer, double incidence_cos,
                              int parallel)
{
    double sin_inside = sqrt(1.0 - incidence_cos * incidence_cos) / layer->index;
    double cos_inside = sqrt(1.0 - sin_inside * sin_inside);
    double r = face_reflectance(layer->index, incidence_cos, cos_inside, parallel);
    return pane_of(r, exp(-layer->extinction / cos_inside));
}

/* Adds half of one polarisation's result to sum. Reflectances are gathered from the innermost
 * layer outward, then the light is followed inward. */
static void add_polarisation(const struct dawn_glazing_layer *layers, size_t count,
                             double incidence_cos, int parallel, struct dawn_glazing_optics *sum)
{
    struct pane panes[DAWN_GLAZING_LAYERS_MOST] = {{0.0, 0.0}};
    double behind[DAWN_GLAZING_LAYERS_MOST + 1]; /* reflectance of all from layer i inward */
    behind[count] = 0.0;
    for (size_t i = count; i-- > 0;) {
        panes[i] = layer_pane(&layers[i], incidence_cos, parallel);
        double t = panes[i].transmitted;
        behind[i] =
            panes[i].reflected + t * t * behind[i + 1] / (1.0 - panes[i].reflected * behind[i + 1]);
    }
    double inward = 1.0;
    for (size_t i = 0; i < count; i++) {
        double next = inward * panes[i].transmitted / (1.0 - panes[i].reflected * behind[i + 1]);
        double absorptance = 1.0 - panes[i].transmitted - panes[i].reflected;
        sum->absorbed[i] += 0.5 * absorptance * (inward + next * behind[i + 1]);
        inward = next;
    }
    sum->transmitted += 0.5 * inward;
    sum->reflected += 0.5 * behind[0];
}

struct dawn_glazing_optics dawn_glazing_beam(const struct dawn_glazing_layer *layers, size_t count,
                                             double incidence_cos)
{
    struct dawn_glazing_optics optics = {0};
    if (count > DAWN_GLAZING_LAYERS_MOST)
        count = DAWN_GLAZING_LAYERS_MOST;
    if (!(incidence_cos > GRAZING_COS)) {
        optics.reflected = 1.0;
        return optics;
    }
    double mu = fmin(1.0, incidence_cos);
    add_polarisation(layers, count, mu, 0, &optics);
    add_polarisation(layers, count, mu, 1, &optics);
    return optics;
}

static double transmittance_at(const struct dawn_glazing_angles *angles, double angle_deg)
{
    size_t i = 1;
    while (i + 1 < angles->count && angles->angle_deg[i] < angle_deg)
        i++;
    double share =
        (angle_deg - angles->angle_deg[i - 1]) / (angles->angle_deg[i] - angles->angle_deg[i - 1]);
    return angles->transmittance[i - 1] +
           share * (angles->transmittance[i] - angles->transmittance[i - 1]);
}

struct dawn_glazing_optics dawn_glazing_measured_beam(const struct dawn_glazing_layer *layers,
                                                      size_t count,
                                                      const struct dawn_glazing_angles *angles,
                                                      double incidence_cos)
{
    struct dawn_glazing_optics optics = dawn_glazing_beam(layers, count, incidence_cos);
    if (angles->count < 2 || !(incidence_cos > GRAZING_COS))
        return optics;
    double taken = 0.0;
    for (size_t k = 0; k < DAWN_GLAZING_LAYERS_MOST; k++)
        taken += optics.absorbed[k];
    optics.transmitted =
        transmittance_at(angles, acos(fmin(incidence_cos, 1.0)) * 180.0 / PHYSICS_PI);
    double left = 1.0 - optics.transmitted;
    double kept = taken > left ? left / taken : 1.0;
    for (size_t k = 0; k < DAWN_GLAZING_LAYERS_MOST; k++)
        optics.absorbed[k] *= kept;
    optics.reflected = left - kept * taken;
    return optics;
}

struct dawn_glazing_optics dawn_glazing_diffuse(const struct dawn_glazing_layer *layers,
                                                size_t count)
{
    const struct dawn_glazing_angles none = {0};
    return dawn_glazing_measured_diffuse(layers, count, &none);
}

struct dawn_glazing_optics dawn_glazing_measured_diffuse(const struct dawn_glazing_layer *layers,
                                                         size_t count,
                                                         const struct dawn_glazing_angles *angles)
{
    enum { PANELS = 45 };
    const double half = 0.25 * PHYSICS_PI / PANELS;
    const double gauss = half / sqrt(3.0); /* two Gauss points in each panel */
    struct dawn_glazing_optics sum = {0};
    double weights = 0.0;
    for (int i = 0; i < 2 * PANELS; i++) {
        int panel = i / 2;
        double angle = half * (2 * panel + 1) + (i % 2 ? gauss : -gauss);
        double weight = sin(2.0 * angle);
        struct dawn_glazing_optics at =
            dawn_glazing_measured_beam(layers, count, angles, cos(angle));
        weights += weight;
        sum.transmitted += weight * at.transmitted;
        sum.reflected += weight * at.reflected;
        for (size_t k = 0; k < DAWN_GLAZING_LAYERS_MOST; k++)
            sum.absorbed[k] += weight * at.absorbed[k];
    }
    sum.transmitted /= weights;
    sum.reflected /= weights;
    for (size_t k = 0; k < DAWN_GLAZING_LAYERS_MOST; k++)
        sum.absorbed[k] /= weights;
    return sum;
}

static double normal_transmittance_of(double index, double extinction, size_t count)
{
    struct dawn_glazing_layer layers[DAWN_GLAZING_LAYERS_MOST];
    for (size_t i = 0; i < DAWN_GLAZING_LAYERS_MOST; i++) {
        layers[i].index = index;
        layers[i].extinction = extinction;
    }
    return dawn_glazing_beam(layers, count, 1.0).transmitted;
}

double dawn_glazing_extinction(double index, size_t count, double normal_transmittance)
{
    double clear = 0.0;
    double dark = 20.0; /* lets through 2e-9 */
    if (count == 0 || normal_transmittance_of(index, clear, count) <= normal_transmittance)
        return 0.0;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (clear + dark);
        if (normal_transmittance_of(index, middle, count) > normal_transmittance)
            clear = middle;
        else
            dark = middle;
    }
    return 0.5 * (clear + dark);
}
