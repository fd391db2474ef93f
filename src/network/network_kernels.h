/* The physics of each link kind: heat along every link of the kind, and how it changes with the
 * temperatures at both ends, in one pass. */
#ifndef NETWORK_KERNELS_H
#define NETWORK_KERNELS_H

#include "network/network_parts.h"

/* The moment a sweep is made for. */
struct sweep {
    bool fan_on;
    struct forcing_now now;
    const double *T_C;            /* [place] */
    const double *emission_W_m2;  /* [place] sigma T^4 */
    const double *emission_W_m2K; /* [place] and its slope */
    const double *gain_W;         /* [channel] */
    double wind_film_W_m2K;
};

/* Of one flow, from -> to. */
struct flux {
    double W, dW_dfrom, dW_dto; /* W, W/K, W/K */
};

/* Fills fluxes[flow] for every flow of the network. The stream's links also depend on the segments
 * before them: dawn_network_stream_slopes yields those slopes. */
void dawn_network_kernels(const struct dawn_network *network, const struct sweep *sweep,
                          struct flux fluxes[]);

/* d W(link) / d T(segment of an earlier link), W/K. */
double dawn_network_stream_slope(const struct dawn_network *network, size_t link, size_t earlier);

#endif
