/* The physics of each link kind: heat along every link of the kind, and how it changes with the
 * temperatures at both ends, in one pass. */
#ifndef NETWORK_KERNELS_H
#define NETWORK_KERNELS_H

#include "network/network_parts.h"

/* A film's transfer and how it changes with the surface's own temperature. */
struct air_film {
    double h_W_m2K, slope_W_m2K2;
};

/* The moment a sweep is made for. */
struct sweep {
    bool fan_on;
    struct forcing_now now;
    const double *T_C;            /* [place] */
    const double *emission_W_m2;  /* [place] sigma T^4 */
    const double *emission_W_m2K; /* [place] and its slope */
    const double *gain_W;         /* [channel] */
    const double *veil;           /* [veil] what covers leave of a flow */
    double pressure_Pa;
    struct air_film *film; /* [natural link] filled by its kernel, for the latent ones */
    double wind_film_W_m2K;
};

/* Of one flow, from -> to: heat, and how it changes with each place the flow leans on (its ends
 * first; dawn_network.lean says which). */
struct flux {
    double W, slope_W_K[LEANS];
};

/* Fills fluxes[flow] for every flow of the network. The stream's links also depend on the segments
 * before them: dawn_network_stream_slope yields those slopes. */
void dawn_network_kernels(const struct dawn_network *network, const struct sweep *sweep,
                          struct flux fluxes[]);

/* d W(link) / d T(segment of an earlier link), W/K. */
double dawn_network_stream_slope(const struct dawn_network *network, size_t link, size_t earlier);

#endif
