/* One kernel a link kind. Adding a kind adds one here and one line in dawn_network_kernels. */
#include "network/network_kernels.h"

#include <math.h>

#include "dawnlow/physics/airflow.h"
#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/sky.h"
#include "dawnlow/physics/surface.h"

static const double kelvin = 273.15;

/* Air stirred by the running fan along inside surfaces: 3 W/m2K, the lower end of what is found in
 * houses with a circulating fan (common practice, no source). */
static const double stirred_film_W_m2K = 3.0;

static void conduction_kernel(const struct dawn_network *net, const struct sweep *sweep,
                              const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->conduction_count; ++i) {
        double W_K = net->conduction[i].W_K;
        out[i] = (struct flux){W_K * (sweep->T_C[from[i]] - sweep->T_C[to[i]]), {W_K, -W_K}};
    }
}

static void calm_kernel(const struct dawn_network *net, const struct sweep *sweep, const int from[],
                        const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->calm_count; ++i) {
        const struct calm_link *law = &net->calm[i];
        double difference = sweep->T_C[from[i]] - sweep->T_C[to[i]];
        /* The fan's stream sweeps the bed along and leaves no room to turn over. */
        double still = 2.0 * law->bed.still_W_mK / law->bed.height_m;
        struct dawn_rockbed_buoyant bed = {still, still};
        if (!sweep->fan_on || !law->swept)
            bed = dawn_rockbed_buoyant_W_m2K(difference, &law->bed);
        double slope = law->area_m2 * bed.slope_W_m2K;
        out[i] = (struct flux){law->area_m2 * bed.h_W_m2K * difference, {slope, -slope}};
    }
}

static void natural_kernel(const struct dawn_network *net, const struct sweep *sweep,
                           const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->natural_count; ++i) {
        const struct natural_link *law = &net->natural[i];
        double difference = sweep->T_C[from[i]] - sweep->T_C[to[i]];
        double coefficient = difference > 0 ? law->warm_coefficient : law->cool_coefficient;
        struct dawn_surface_film film = dawn_surface_natural(
            difference, coefficient, law->least_W_m2K,
            sweep->fan_on && law->stirred ? stirred_film_W_m2K * sweep->veil[law->stirring] : 0.0);
        double veil = sweep->veil[law->veil];
        double slope = veil * law->area_m2 * film.slope_W_m2K;
        out[i] = (struct flux){veil * law->area_m2 * film.h_W_m2K * difference, {slope, -slope}};
        sweep->film[i].h_W_m2K = veil * film.h_W_m2K;
        sweep->film[i].slope_W_m2K2 =
            fabs(difference) > 1e-9 ? veil * (film.slope_W_m2K - film.h_W_m2K) / difference : 0.0;
    }
}

static void wind_kernel(const struct dawn_network *net, const struct sweep *sweep, const int from[],
                        const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->wind_count; ++i) {
        double W_K = net->wind[i].area_m2 * sweep->wind_film_W_m2K;
        out[i] = (struct flux){W_K * (sweep->T_C[from[i]] - sweep->T_C[to[i]]), {W_K, -W_K}};
    }
}

static void longwave_kernel(const struct dawn_network *net, const struct sweep *sweep,
                            const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->longwave_count; ++i) {
        double m2 = net->longwave[i].exchange_m2 * sweep->veil[net->longwave[i].veil];
        out[i] = (struct flux){
            m2 * (sweep->emission_W_m2[from[i]] - sweep->emission_W_m2[to[i]]),
            {m2 * sweep->emission_W_m2K[from[i]], -m2 * sweep->emission_W_m2K[to[i]]}};
    }
}

static void sky_kernel(const struct dawn_network *net, const struct sweep *sweep, const int from[],
                       const int to[], struct flux out[])
{
    (void)to;
    int outdoor = (int)net->node_count + OUTSIDE_AIR;
    for (size_t i = 0; i < net->sky_count; ++i) {
        const struct sky_link *law = &net->sky[i];
        double received = law->sky_view * sweep->now.sky_W_m2 +
                          (1.0 - law->sky_view) * sweep->emission_W_m2[outdoor];
        double m2 = law->exchange_m2 * sweep->veil[law->veil];
        out[i] = (struct flux){m2 * (sweep->emission_W_m2[from[i]] - received),
                               {m2 * sweep->emission_W_m2K[from[i]]}};
    }
}

/* Heat and vapour leave with the same air; the air's own warmth decides how much of it moves. */
static void leak_kernel(const struct dawn_network *net, const struct sweep *sweep, const int from[],
                        const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->leak_count; ++i) {
        double warmer = sweep->T_C[net->leak[i].air] - sweep->now.air_C;
        struct dawn_airflow_factor leak = dawn_airflow_leak(warmer, sweep->now.wind_m_s);
        double carried = sweep->T_C[from[i]] - sweep->T_C[to[i]];
        double rated = net->leak[i].rated_W_K;
        double more = copysign(rated * leak.slope_per_K, warmer) * carried;
        out[i] = (struct flux){rated * leak.factor * carried,
                               {rated * leak.factor, -rated * leak.factor, more}};
    }
}

static void vent_kernel(const struct dawn_network *net, const struct sweep *sweep, const int from[],
                        const int to[], struct flux out[])
{
    double outdoor = sweep->now.air_C;
    for (size_t i = 0; i < net->vent_count; ++i) {
        const struct vent_link *law = &net->vent[i];
        double air = sweep->T_C[law->air];
        double share = (air - law->opens_C) / (law->full_C - law->opens_C);
        out[i] = (struct flux){0};
        if (share <= 0)
            continue;
        double share_slope = share < 1 ? 1.0 / (law->full_C - law->opens_C) : 0.0;
        share = fmin(share, 1.0);
        double warmer = air - outdoor;
        struct dawn_airflow_opening flow =
            dawn_airflow_opening(law->area_m2, law->height_m, warmer,
                                 outdoor + 0.5 * warmer + kelvin, sweep->now.wind_m_s);
        double flow_slope = copysign(flow.slope_m3_sK, warmer) + 0.5 * flow.mean_slope_m3_sK;
        double carried = sweep->T_C[from[i]] - sweep->T_C[to[i]];
        double W_K = law->air_J_m3K * share * flow.m3_s;
        double more = law->air_J_m3K * carried * (share * flow_slope + share_slope * flow.m3_s);
        out[i].W = W_K * carried;
        out[i].slope_W_K[0] = W_K;
        out[i].slope_W_K[1] = -W_K;
        out[i].slope_W_K[2] = more;
    }
}

static void renewal_kernel(const struct dawn_network *net, const struct sweep *sweep,
                           const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->renewal_count; ++i) {
        const struct renewal_link *law = &net->renewal[i];
        double W_K = law->W_K * (law->clocked ? sweep->now.outdoor_fan : 1.0);
        out[i] = (struct flux){W_K * (sweep->T_C[from[i]] - sweep->T_C[to[i]]), {W_K, -W_K}};
    }
}

/* The air gives each segment the same share of what it still could, and goes on cooler: the
 * effectiveness form of a packed bed (Duffie & Beckman ch. 8, from memory). Segment i sees
 * T_in (1-e)^i + sum over earlier j of e (1-e)^(i-1-j) T_j. */
static void stream_kernel(const struct dawn_network *net, const struct sweep *sweep,
                          const int from[], const int to[], struct flux out[])
{
    (void)from;
    double passing_C = net->stream_count > 0 ? sweep->T_C[net->stream[0].intake] : 0.0;
    double carried = 1.0;
    for (size_t i = 0; i < net->stream_count; ++i) {
        const struct stream_link *law = &net->stream[i];
        if (!sweep->fan_on) {
            out[i] = (struct flux){0};
            continue;
        }
        double W_K = law->flow_W_K * law->segment_share;
        double difference = passing_C - sweep->T_C[to[i]];
        out[i] = (struct flux){W_K * difference, {0.0, -W_K, W_K * carried}};
        passing_C -= law->segment_share * difference;
        carried *= 1.0 - law->segment_share;
    }
}

double dawn_network_stream_slope(const struct dawn_network *network, size_t link, size_t earlier)
{
    const struct stream_link *law = &network->stream[link];
    double share = network->stream[earlier].segment_share;
    for (size_t i = earlier + 1; i < link; ++i)
        share *= 1.0 - network->stream[i].segment_share;
    return law->flow_W_K * law->segment_share * share;
}

/* ---- ridge and bench ---- */

static void displace_kernel(const struct dawn_network *net, const struct sweep *sweep,
                            const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->displace_count; ++i) {
        double W_K = sweep->fan_on ? net->displace[i].W_K : 0.0;
        out[i] = (struct flux){W_K * (sweep->T_C[from[i]] - sweep->T_C[to[i]]), {W_K, -W_K}};
    }
}

/* Warm air lying over cool air hardly mixes: 1.5 W/m2K of floor, within what is found in closed
 * houses (1 to 3, common practice). Cool over warm turns over almost freely: an exchange of
 * 0.07 A sqrt(g H dT / T) (the form of flow through a large opening; 0.05 to 0.1, common practice).
 */
static const double layered_W_m2K = 1.5;
static const double turning = 0.07;
static const double gravity_m_s2 = 9.80665;
static const double turning_mean_K = 285.0; /* the root hardly feels it */

static void mixing_kernel(const struct dawn_network *net, const struct sweep *sweep,
                          const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->mixing_count; ++i) {
        const struct mixing_link *law = &net->mixing[i];
        double warmer = sweep->T_C[law->lower] - sweep->T_C[law->upper];
        double W_K = layered_W_m2K * law->area_m2;
        double slope = 0;
        if (warmer > 0) {
            double free = law->air_J_m3K * turning * law->area_m2 *
                          sqrt(gravity_m_s2 * law->height_m * warmer / turning_mean_K);
            /* Joined to its limit without a corner: 1/(1/free + 1/most). */
            double share = law->most_W_K / (free + law->most_W_K);
            W_K += free * share;
            slope = 0.5 * free / warmer * share * share;
        }
        double veil = sweep->veil[law->veil];
        W_K *= veil;
        double carried = veil * (sweep->T_C[from[i]] - sweep->T_C[to[i]]);
        out[i] = (struct flux){W_K * (sweep->T_C[from[i]] - sweep->T_C[to[i]]),
                               {W_K, -W_K, slope * carried, -slope * carried}};
    }
}

static void exchange_kernel(const struct dawn_network *net, const struct sweep *sweep,
                            const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->exchange_count; ++i) {
        double W_K = net->exchange[i].W_K * sweep->veil[net->exchange[i].veil];
        out[i] = (struct flux){W_K * (sweep->T_C[from[i]] - sweep->T_C[to[i]]), {W_K, -W_K}};
    }
}

/* What a sunlit surface gives off rises past the benches. */
static void plume_kernel(const struct dawn_network *net, const struct sweep *sweep,
                         const int from[], const int to[], struct flux out[])
{
    (void)from, (void)to;
    const struct flux *natural = out - net->first[KIND_plume] + net->first[KIND_natural];
    for (size_t i = 0; i < net->plume_count; ++i) {
        const struct flux *surface = &natural[net->plume[i].natural];
        double share = surface->W > 0 ? net->plume[i].share * sweep->veil[net->plume[i].veil] : 0.0;
        out[i] = (struct flux){share * surface->W,
                               {share * surface->slope_W_K[0], share * surface->slope_W_K[1]}};
    }
}

static void gain_kernel(const struct dawn_network *net, const struct sweep *sweep, const int from[],
                        const int to[], struct flux out[])
{
    (void)from;
    (void)to;
    for (size_t i = 0; i < net->gain_count; ++i)
        out[i] = (struct flux){sweep->gain_W[net->gain[i].channel], {0}};
}

static void power_kernel(const struct dawn_network *net, const struct sweep *sweep,
                         const int from[], const int to[], struct flux out[])
{
    (void)from;
    (void)to;
    for (size_t i = 0; i < net->power_count; ++i)
        out[i] = (struct flux){net->power[i].with_fan && !sweep->fan_on ? 0 : net->power[i].W, {0}};
}

/* ---- water ---- */

/* Mass follows heat at the surface film: h / (rho cp Le^(2/3)), with Le^(2/3) = 0.9 for water in
 * air (Lewis; Bird, Stewart & Lightfoot, from memory). */
static const double lewis = 0.9;

/* How far the air's vapour lies above what a surface holds, K, and its change with the surface. */
static struct dawn_moistair_latent saturated(const struct sweep *sweep, int place)
{
    return dawn_moistair_latent_saturated(sweep->T_C[place], sweep->pressure_Pa);
}

static void evaporate_kernel(const struct dawn_network *net, const struct sweep *sweep,
                             const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->evaporate_count; ++i) {
        const struct evaporate_link *law = &net->evaporate[i];
        struct air_film film = sweep->film[law->natural];
        struct dawn_moistair_latent wet = saturated(sweep, from[i]);
        double lack = wet.y_K - sweep->T_C[to[i]];
        double W_K = law->wet_m2 * film.h_W_m2K / lewis;
        double more = law->wet_m2 * film.slope_W_m2K2 / lewis * lack;
        out[i] = (struct flux){W_K * lack, {W_K * wet.slope + more, -W_K, -more}};
    }
}

static void transpire_kernel(const struct dawn_network *net, const struct sweep *sweep,
                             const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->transpire_count; ++i) {
        const struct transpire_link *law = &net->transpire[i];
        struct dawn_moistair_latent wet = saturated(sweep, from[i]);
        out[i] = (struct flux){law->light_share * sweep->gain_W[law->channel] +
                                   law->deficit_W_K * (wet.y_K - sweep->T_C[to[i]]),
                               {law->deficit_W_K * wet.slope, -law->deficit_W_K}};
    }
}

/* A film thinner than this (5 g/m2) dries ever more slowly: drops do not cover the surface. */
static const double thin_film_K = 0.5;

static void condense_kernel(const struct dawn_network *net, const struct sweep *sweep,
                            const int from[], const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->condense_count; ++i) {
        const struct condense_link *law = &net->condense[i];
        struct air_film film = sweep->film[law->natural];
        struct dawn_moistair_latent wet = saturated(sweep, to[i]);
        double surplus = sweep->T_C[from[i]] - wet.y_K;
        double stored = fmax(sweep->T_C[law->film], 0.0);
        double covered = surplus > 0 ? 1.0 : stored / (stored + thin_film_K);
        double cover_slope = surplus > 0 || sweep->T_C[law->film] <= 0
                                 ? 0.0
                                 : thin_film_K / ((stored + thin_film_K) * (stored + thin_film_K));
        double m2 = law->area_m2 / lewis;
        double W_K = m2 * film.h_W_m2K * covered;
        double more = m2 * film.slope_W_m2K2 * covered * surplus;
        out[i] = (struct flux){
            W_K * surplus,
            {W_K, -W_K * wet.slope + more, -more, m2 * film.h_W_m2K * cover_slope * surplus}};
    }
}

static void film_kernel(const struct dawn_network *net, const struct sweep *sweep, const int from[],
                        const int to[], struct flux out[])
{
    (void)sweep, (void)from, (void)to;
    const struct flux *condensing = out - net->first[KIND_film] + net->first[KIND_condense];
    for (size_t i = 0; i < net->film_count; ++i)
        out[i] = condensing[net->film[i].condense];
}

static void drip_kernel(const struct dawn_network *net, const struct sweep *sweep, const int from[],
                        const int to[], struct flux out[])
{
    (void)to;
    for (size_t i = 0; i < net->drip_count; ++i) {
        double over = sweep->T_C[from[i]] - net->drip[i].holds_K;
        double W_K = over > 0 ? net->drip[i].W_K : 0.0;
        out[i] = (struct flux){W_K * over, {W_K}};
    }
}

static void fog_kernel(const struct dawn_network *net, const struct sweep *sweep, const int from[],
                       const int to[], struct flux out[])
{
    for (size_t i = 0; i < net->fog_count; ++i) {
        struct dawn_moistair_latent wet = saturated(sweep, to[i]);
        double surplus = sweep->T_C[from[i]] - wet.y_K;
        double W_K = surplus > 0 ? net->fog[i].W_K : 0.0;
        out[i] = (struct flux){W_K * surplus, {W_K, -W_K * wet.slope}};
    }
}

void dawn_network_kernels(const struct dawn_network *network, const struct sweep *sweep,
                          struct flux fluxes[])
{
#define LINK_KERNEL(kind, words)                                                                   \
    kind##_kernel(network, sweep, network->from + network->first[KIND_##kind],                     \
                  network->to + network->first[KIND_##kind],                                       \
                  fluxes + network->first[KIND_##kind]);
    DAWN_LINK_KINDS(LINK_KERNEL)
#undef LINK_KERNEL
}
