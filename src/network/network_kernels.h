/* The physics of each kind of link, over lanes: heat along a link, and how it changes with the
 * places it leans on, in one pass. One kernel a kind; adding a kind adds one here. */
#ifndef NETWORK_KERNELS_H
#define NETWORK_KERNELS_H

#include "network/network_laws.h"
#include "physics/airflow_lanes.h"
#include "physics/moistair_lanes.h"
#include "physics/rockbed_lanes.h"
#include "physics/surface_lanes.h"
#include "physics/water_lanes.h"

/* Of one flow, from -> to: heat, and how it changes with each place the flow leans on (its ends
 * first; struct ends says which). */
struct flux {
    lane W, slope_W_K[LEANS];
};

/* What a surface's links leave for those that borrow from them: those of its natural link, or of
 * the damp link of a stone. */
struct surface_now {
    lane h_W_m2K, slope_W_m2K2; /* its film, and how that changes with the surface's temperature */
    lane W, slope_W_K;          /* its heat, by the surface's temperature */
    struct flux condensing;     /* of its condense or damp link */
    struct surface_wet_lanes wet; /* how far the water there shuts a window; by its film's state */
};

/* What stands open at the side and at the ridge, and how that changes with the air there. */
enum { AT_SIDE, AT_RIDGE, HEIGHTS };
struct open_area {
    lane m2, slope_m2_K;
};

/* The moment a sweep over the links is made for. */
struct sweep {
    const lane *T_C;             /* [place] */
    const lane *emission_W_m2;   /* [place] sigma T^4 */
    const lane *emission_W_m2K;  /* [place] and its slope */
    const lane *gain_W;          /* [channel] */
    const lane *veil;            /* [veil] what covers leave of a flow */
    struct surface_now *surface; /* [natural link, then damp link] */
    lane_mask fan_on;
    lane back; /* 1: the fan's air goes the other way */
    lane air_C, sky_W_m2, wind_m_s, pressure_Pa;
    lane outdoor_fan;  /* share of it that runs, by the clock */
    lane outdoor_W_m2; /* emission of the outdoor air */
    lane wind_film_W_m2K;
    lane open_hours[OPENINGS_MOST];    /* [opening] 1 = it may open, 0 = it is shut */
    struct open_area open_at[HEIGHTS]; /* by sweep_openings */
    lane passing_C, passing_share;     /* the fan's air on its way through the rock */
};

/* What covers leave of a flow. */
static inline lane veiled(const struct sweep *sweep, const struct ends *ends)
{
    return sweep->veil[ends->veil];
}

/* W_K times the difference between both ends. */
static inline struct flux flux_along(lane W_K, lane difference_K)
{
    return (struct flux){W_K * difference_K, {W_K, -W_K}};
}

static inline lane difference(const struct sweep *sweep, const struct ends *ends)
{
    return sweep->T_C[ends->from] - sweep->T_C[ends->to];
}

static inline struct flux conduction_flux(const struct conduction_law *law, struct sweep *sweep,
                                          const struct ends *ends)
{
    return flux_along(law->W_K, difference(sweep, ends));
}

/* The integral of W/K over temperature up to an end, whose difference flows between two ends
 * (Kirchhoff's transform): the way to frozen ground conducts as ice does, the way beyond the front
 * as water, and more warmth at one end never carries less. What freezes still conducts as water, so
 * that the only corner lies where freezing itself has one. */
struct soil_potential {
    lane W, slope_W_K;
};
static inline struct soil_potential soil_potential(const struct soil_law *law, lane T_C)
{
    lane below = T_C + LANE_NUMBER(DAWN_WATER_FREEZING_WIDTH_K);
    lane more = lane_select(below < 0.0, law->gained_W_K, lane_of(0.0));
    return (struct soil_potential){law->liquid_W_K * T_C + more * below, law->liquid_W_K + more};
}

static inline struct flux soil_flux(const struct soil_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    struct soil_potential near = soil_potential(law, sweep->T_C[ends->from]);
    struct soil_potential far = soil_potential(law, sweep->T_C[ends->to]);
    return (struct flux){near.W - far.W, {near.slope_W_K, -far.slope_W_K}};
}

static inline struct flux calm_flux(const struct calm_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    lane warmer = difference(sweep, ends);
    struct rockbed_lanes bed =
        rockbed_buoyant(warmer, law->onset_per_K, law->still_m2K_W, law->series_m2K_W);
    /* The fan's stream sweeps the bed along and leaves no room to turn over. */
    lane_mask swept = sweep->fan_on & (law->swept > 0.0);
    lane still = 1.0 / law->still_m2K_W;
    lane h = lane_select(swept, still, bed.h_W_m2K);
    lane slope = law->area_m2 * lane_select(swept, still, bed.slope_W_m2K);
    return (struct flux){law->area_m2 * h * warmer, {slope, -slope}};
}

/* Air stirred by the running fan along inside surfaces: 3 W/m2K, the lower end of what is found in
 * houses with a circulating fan (common practice, no source). */
#define STIRRED_FILM_W_M2K 3.0

static inline struct flux natural_flux(const struct natural_law *law, struct sweep *sweep,
                                       const struct ends *ends)
{
    lane warmer = difference(sweep, ends);
    lane coefficient = lane_select(warmer > 0.0, law->warm_coefficient, law->cool_coefficient);
    lane stirred = lane_select(sweep->fan_on, STIRRED_FILM_W_M2K * law->stirred, lane_of(0.0));
    stirred *= sweep->veil[ends->stirring];
    struct surface_lanes film = surface_natural(warmer, coefficient, law->least_W_m2K, stirred);
    lane veil = veiled(sweep, ends);
    lane m2 = veil * law->area_m2;
    lane W = m2 * film.h_W_m2K * warmer;
    lane slope = m2 * film.slope_W_m2K;
    struct surface_now *surface = &sweep->surface[ends->row];
    surface->h_W_m2K = veil * film.h_W_m2K;
    surface->slope_W_m2K2 = veil * film.steeper_W_m2K2;
    surface->W = W;
    surface->slope_W_K = slope;
    return (struct flux){W, {slope, -slope}};
}

static inline struct flux wind_flux(const struct wind_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    return flux_along(law->area_m2 * sweep->wind_film_W_m2K, difference(sweep, ends));
}

static inline struct flux longwave_flux(const struct longwave_law *law, struct sweep *sweep,
                                        const struct ends *ends)
{
    lane m2 = law->exchange_m2 * veiled(sweep, ends);
    return (struct flux){
        m2 * (sweep->emission_W_m2[ends->from] - sweep->emission_W_m2[ends->to]),
        {m2 * sweep->emission_W_m2K[ends->from], -m2 * sweep->emission_W_m2K[ends->to]}};
}

static inline struct flux sky_flux(const struct sky_law *law, struct sweep *sweep,
                                   const struct ends *ends)
{
    lane received = law->sky_view * sweep->sky_W_m2 + (1.0 - law->sky_view) * sweep->outdoor_W_m2;
    lane m2 = law->exchange_m2 * veiled(sweep, ends);
    return (struct flux){m2 * (sweep->emission_W_m2[ends->from] - received),
                         {m2 * sweep->emission_W_m2K[ends->from]}};
}

/* How warm the air is that goes in and out, K: halfway between inside and outside. */
static inline lane passing_K(const struct sweep *sweep, lane warmer)
{
    return sweep->air_C + 0.5 * warmer + LANE_NUMBER(PHYSICS_KELVIN);
}

/* Heat and vapour leave with the same air; the air's own warmth decides how much of it moves. */
static inline struct flux leak_flux(const struct leak_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    lane warmer = sweep->T_C[ends->third] - sweep->air_C;
    struct airflow_factor_lanes leak = airflow_leak(warmer, sweep->wind_m_s);
    struct airflow_weight_lanes weight = airflow_weight(passing_K(sweep, warmer));
    lane carried = difference(sweep, ends);
    lane W_K = law->rated_W_K * leak.factor * weight.ratio;
    lane more =
        law->rated_W_K * carried *
        (lane_signed(leak.slope_per_K, warmer) * weight.ratio + leak.factor * weight.slope_per_K);
    return (struct flux){W_K * carried, {W_K, -W_K, more}};
}

/* ---- openings ---- */

static inline struct open_area open_area_of(const struct vent_law *law, const struct sweep *sweep,
                                            const struct ends *ends)
{
    lane air = lane_select(law->at_ridge > 0.0, sweep->T_C[ends->fourth], sweep->T_C[ends->third]);
    lane_mask by_warmth = law->by_warmth > 0.0;
    lane way = (air - law->opens_C) / law->range_K;
    lane warm =
        lane_select(by_warmth, lane_min(lane_max(way, lane_of(0.0)), lane_of(1.0)), lane_of(1.0));
    lane slope =
        lane_select(by_warmth & (way > 0.0) & (way < 1.0), 1.0 / law->range_K, lane_of(0.0));
    lane rest_m2 = law->area_m2 * (1.0 - law->least_share) * sweep->open_hours[ends->row];
    return (struct open_area){law->area_m2 * law->least_share + rest_m2 * warm, rest_m2 * slope};
}

/* How far all openings stand open, once before the links are swept. */
static inline void sweep_openings(const struct vent_law law[], const struct ends ends[],
                                  size_t count, struct sweep *sweep)
{
    size_t next = 0; /* heat and vapour through one opening share its row */
    for (int at = 0; at < HEIGHTS; ++at)
        sweep->open_at[at] = (struct open_area){lane_of(0.0), lane_of(0.0)};
    for (size_t i = 0; i < count; ++i) {
        if (ends[i].row != next)
            continue;
        struct open_area area = open_area_of(&law[i], sweep, &ends[i]);
        lane ridge = law[i].at_ridge;
        sweep->open_at[AT_RIDGE].m2 += ridge * area.m2;
        sweep->open_at[AT_RIDGE].slope_m2_K += ridge * area.slope_m2_K;
        sweep->open_at[AT_SIDE].m2 += (1.0 - ridge) * area.m2;
        sweep->open_at[AT_SIDE].slope_m2_K += (1.0 - ridge) * area.slope_m2_K;
        ++next;
    }
}

static inline struct open_area open_area_select(lane_mask mask, struct open_area yes,
                                                struct open_area no)
{
    return (struct open_area){lane_select(mask, yes.m2, no.m2),
                              lane_select(mask, yes.slope_m2_K, no.slope_m2_K)};
}

/* A flow of air by its weight, as m3/s of air at 10 C, and its slope by the inside temperature. */
struct weighed_flow {
    lane m3_s, slope_m3_sK;
};
static inline struct weighed_flow weigh(struct airflow_opening_lanes flow, lane warmer, lane mean_K)
{
    struct airflow_weight_lanes weight = airflow_weight(mean_K);
    lane by_air = lane_signed(flow.slope_m3_sK, warmer) + 0.5 * flow.mean_slope_m3_sK;
    return (struct weighed_flow){flow.m3_s * weight.ratio,
                                 by_air * weight.ratio + flow.m3_s * weight.slope_per_K};
}

static inline struct flux vent_flux(const struct vent_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    lane_mask ridge = law->at_ridge > 0.0;
    struct open_area area = open_area_of(law, sweep, ends);
    if (!lane_any(area.m2 > 0.0))
        return (struct flux){.W = lane_of(0.0)};
    struct open_area own =
        open_area_select(ridge, sweep->open_at[AT_RIDGE], sweep->open_at[AT_SIDE]);
    struct open_area other =
        open_area_select(ridge, sweep->open_at[AT_SIDE], sweep->open_at[AT_RIDGE]);
    struct airflow_surplus_lanes alone = airflow_surplus(own.m2, other.m2);
    lane air = lane_select(ridge, sweep->T_C[ends->fourth], sweep->T_C[ends->third]);
    lane warmer = air - sweep->air_C;
    lane mean_K = passing_K(sweep, warmer);
    struct weighed_flow flow =
        weigh(airflow_opening(lane_of(1.0), law->height_m, warmer, mean_K, sweep->wind_m_s), warmer,
              mean_K);
    lane carried = difference(sweep, ends);
    lane W_K = law->air_J_m3K * area.m2 * alone.share * flow.m3_s;
    lane by_own = area.m2 * alone.share * flow.slope_m3_sK +
                  flow.m3_s * (alone.share * area.slope_m2_K +
                               area.m2 * alone.by_own_per_m2 * own.slope_m2_K);
    lane by_other = flow.m3_s * area.m2 * alone.by_other_per_m2 * other.slope_m2_K;
    lane heat = law->air_J_m3K * carried;
    return (struct flux){W_K * carried,
                         {W_K, -W_K, heat * lane_select(ridge, by_other, by_own),
                          heat * lane_select(ridge, by_own, by_other)}};
}

/* What comes in below rises: the upper air loses what it is warmer than outdoors, the lower air
 * hands up what it is warmer. The column between is as warm as the mean of both airs. */
static inline struct flux through_flux(const struct through_law *law, struct sweep *sweep,
                                       const struct ends *ends)
{
    struct open_area side = sweep->open_at[AT_SIDE];
    struct open_area ridge = sweep->open_at[AT_RIDGE];
    if (!lane_any((side.m2 > 0.0) & (ridge.m2 > 0.0)))
        return (struct flux){.W = lane_of(0.0)};
    lane warmer = 0.5 * (sweep->T_C[ends->third] + sweep->T_C[ends->fourth]) - sweep->air_C;
    lane mean_K = passing_K(sweep, warmer);
    struct weighed_flow flow =
        weigh(airflow_two_openings(side.m2, ridge.m2, law->rise_m, warmer, mean_K, sweep->wind_m_s),
              warmer, mean_K);
    lane by_air = 0.5 * flow.slope_m3_sK; /* of each zone */
    /* d/dside of side ridge / hypot(side, ridge), over that itself */
    const lane_number nothing_m2 = LANE_NUMBER(1e-12);
    lane squares = lane_max(side.m2 * side.m2 + ridge.m2 * ridge.m2, lane_of(nothing_m2));
    lane by_side = ridge.m2 * ridge.m2 / squares / lane_max(side.m2, lane_of(nothing_m2));
    lane by_ridge = side.m2 * side.m2 / squares / lane_max(ridge.m2, lane_of(nothing_m2));
    lane carried = sweep->T_C[ends->from] - sweep->T_C[ends->row];
    lane W_K = law->air_J_m3K * flow.m3_s;
    lane heat = law->air_J_m3K * carried;
    lane by_to = ends->to == (int)ends->row ? -W_K : lane_of(0.0);
    return (struct flux){W_K * carried,
                         {W_K, by_to, heat * (by_air + flow.m3_s * by_side * side.slope_m2_K),
                          heat * (by_air + flow.m3_s * by_ridge * ridge.slope_m2_K)}};
}

static inline struct flux renewal_flux(const struct renewal_law *law, struct sweep *sweep,
                                       const struct ends *ends)
{
    lane runs = lane_select(law->clocked > 0.0, sweep->outdoor_fan, lane_of(1.0));
    return flux_along(law->W_K * runs, difference(sweep, ends));
}

/* 1 for the links whose way the air goes, 0 for the others. */
static inline lane stream_goes(const struct stream_law *law, lane back)
{
    return law->reversed * back + (1.0 - law->reversed) * (1.0 - back);
}

/* The air gives each segment the same share of what it still could, and goes on cooler: the
 * effectiveness form of a packed bed (Duffie & Beckman ch. 8, from memory). Segment i sees
 * T_in (1-e)^i + sum over earlier j of e (1-e)^(i-1-j) T_j. */
static inline struct flux stream_flux(const struct stream_law *law, struct sweep *sweep,
                                      const struct ends *ends)
{
    if (ends->row == 0) {
        sweep->passing_C = sweep->T_C[ends->third];
        sweep->passing_share = lane_of(1.0);
    }
    lane goes = stream_goes(law, sweep->back);
    lane W_K = lane_select(sweep->fan_on, goes * law->flow_W_K * law->segment_share, lane_of(0.0));
    lane warmer = sweep->passing_C - sweep->T_C[ends->to];
    struct flux flux = {W_K * warmer, {lane_of(0.0), -W_K, W_K * sweep->passing_share}};
    sweep->passing_C -= law->segment_share * warmer;
    sweep->passing_share *= 1.0 - law->segment_share;
    return flux;
}

/* d W(stream link) / d T(segment of an earlier link of the same set), W/K, while its air goes. */
static inline lane stream_slope(const struct stream_law law[], size_t link, size_t earlier)
{
    lane share = law[earlier].segment_share;
    for (size_t i = earlier + 1; i < link; ++i)
        share *= 1.0 - law[i].segment_share;
    return law[link].flow_W_K * law[link].segment_share * share;
}

/* ---- ridge and bench ---- */

static inline struct flux displace_flux(const struct displace_law *law, struct sweep *sweep,
                                        const struct ends *ends)
{
    return flux_along(lane_select(sweep->fan_on, law->W_K, lane_of(0.0)), difference(sweep, ends));
}

/* Warm air lying over cool air hardly mixes: 1.5 W/m2K of floor, within what is found in closed
 * houses (1 to 3, common practice). Cool over warm turns over almost freely: an exchange of
 * 0.07 A sqrt(g H dT / T) (the form of flow through a large opening; 0.05 to 0.1, common practice).
 */
static inline struct flux mixing_flux(const struct mixing_law *law, struct sweep *sweep,
                                      const struct ends *ends)
{
    const lane_number layered_W_m2K = LANE_NUMBER(1.5);
    const lane_number turning = LANE_NUMBER(0.07);
    const lane_number mean_K = 285; /* the root hardly feels it */
    lane warmer = sweep->T_C[ends->third] - sweep->T_C[ends->fourth];
    struct airflow_root_lanes drive = airflow_root(warmer);
    lane at_1_K = law->air_J_m3K * turning * law->area_m2 *
                  lane_sqrt(LANE_NUMBER(PHYSICS_GRAVITY) / mean_K * law->height_m);
    lane free = at_1_K * drive.root;
    /* Joined to its limit without a corner: 1/(1/free + 1/most). */
    lane share = law->most_W_K / (free + law->most_W_K);
    lane veil = veiled(sweep, ends);
    lane W_K = veil * (layered_W_m2K * law->area_m2 + free * share);
    lane slope = veil * at_1_K * drive.slope * share * share;
    lane carried = difference(sweep, ends);
    return (struct flux){W_K * carried, {W_K, -W_K, slope * carried, -slope * carried}};
}

static inline struct flux exchange_flux(const struct exchange_law *law, struct sweep *sweep,
                                        const struct ends *ends)
{
    return flux_along(law->W_K * veiled(sweep, ends), difference(sweep, ends));
}

/* What a sunlit surface gives off rises past the benches. */
static inline struct flux plume_flux(const struct plume_law *law, struct sweep *sweep,
                                     const struct ends *ends)
{
    const struct surface_now *surface = &sweep->surface[ends->row];
    lane share = lane_select(surface->W > 0.0, law->share * veiled(sweep, ends), lane_of(0.0));
    lane slope = share * surface->slope_W_K;
    return (struct flux){share * surface->W, {slope, -slope}};
}

static inline struct flux gain_flux(const struct gain_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    (void)law;
    return (struct flux){.W = sweep->gain_W[ends->row]};
}

static inline struct flux power_flux(const struct power_law *law, struct sweep *sweep,
                                     const struct ends *ends)
{
    (void)ends;
    return (struct flux){
        .W = lane_select(sweep->fan_on | (law->with_fan <= 0.0), law->W, lane_of(0.0))};
}

/* ---- water ---- */

/* Mass follows heat at the surface film: h / (rho cp Le^(2/3)), with Le^(2/3) = 0.9 for water in
 * air (Lewis; Bird, Stewart & Lightfoot, from memory). */
#define LEWIS_FACTOR LANE_NUMBER(0.9)

/* How far the air's vapour lies above what a surface holds, K, and its change with the surface. */
static inline struct moistair_lanes saturated(const struct sweep *sweep, int place)
{
    return moistair_saturated(sweep->T_C[place], sweep->pressure_Pa);
}

static inline struct flux evaporate_flux(const struct evaporate_law *law, struct sweep *sweep,
                                         const struct ends *ends)
{
    const struct surface_now *film = &sweep->surface[ends->row];
    struct moistair_lanes wet = saturated(sweep, ends->from);
    lane lack = wet.y_K - sweep->T_C[ends->to];
    lane m2 = law->wet_m2 / LEWIS_FACTOR;
    lane W_K = m2 * film->h_W_m2K;
    lane more = m2 * film->slope_W_m2K2 * lack;
    return (struct flux){W_K * lack, {W_K * wet.slope + more, -W_K, -more}};
}

static inline struct flux transpire_flux(const struct transpire_law *law, struct sweep *sweep,
                                         const struct ends *ends)
{
    struct moistair_lanes wet = saturated(sweep, ends->from);
    return (struct flux){law->light_share * sweep->gain_W[ends->row] +
                             law->deficit_W_K * (wet.y_K - sweep->T_C[ends->to]),
                         {law->deficit_W_K * wet.slope, -law->deficit_W_K}};
}

/* Vapour in surplus wets all of a surface; what is missing is drawn from what its film covers. */
static inline struct flux condense_flux(const struct condense_law *law, struct sweep *sweep,
                                        const struct ends *ends)
{
    struct surface_now *film = &sweep->surface[ends->row];
    struct moistair_lanes wet = saturated(sweep, ends->to);
    lane surplus = sweep->T_C[ends->from] - wet.y_K;
    lane water_kg_m2 = FILM_KG_M2K * sweep->T_C[ends->fourth];
    struct water_cover_lanes cover = water_cover(water_kg_m2);
    lane_mask wetting = surplus > 0.0;
    lane m2 = law->area_m2 / LEWIS_FACTOR;
    lane share = lane_select(wetting, lane_of(1.0), cover.share);
    lane share_slope = lane_select(wetting, lane_of(0.0), FILM_KG_M2K * cover.slope_m2_kg);
    lane W_K = m2 * film->h_W_m2K * share;
    lane more = m2 * film->slope_W_m2K2 * share * surplus;
    film->wet = surface_wet_window(water_kg_m2);
    film->condensing = (struct flux){
        W_K * surplus,
        {W_K, -W_K * wet.slope + more, -more, m2 * film->h_W_m2K * share_slope * surplus}};
    return film->condensing;
}

static inline struct flux film_flux(const struct film_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    (void)law;
    return sweep->surface[ends->row].condensing;
}

static inline struct flux carry_flux(const struct carry_law *law, struct sweep *sweep,
                                     const struct ends *ends)
{
    lane W_K = lane_select(sweep->fan_on, law->W_K, lane_of(0.0));
    lane onward = (1.0 - sweep->back) * W_K;
    lane back = sweep->back * W_K;
    return (struct flux){onward * sweep->T_C[ends->from] - back * sweep->T_C[ends->to],
                         {onward, -back}};
}

/* Between vapour, stone and its film. */
static inline struct flux damp_flux(const struct damp_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    /* A surplus of half a kelvin (0.2 g/kg) wets half of what was dry: without a corner where
     * drying turns into wetting, which the air between stones passes at every turn of the fan. */
    const lane_number spreading_K = LANE_NUMBER(0.5);
    struct moistair_lanes wet = saturated(sweep, ends->to);
    lane surplus = sweep->T_C[ends->from] - wet.y_K;
    struct water_cover_lanes cover = water_cover(FILM_KG_M2K * sweep->T_C[ends->third]);
    lane excess = lane_max(surplus, lane_of(0.0));
    lane sum = excess + spreading_K;
    lane newly = excess / sum; /* of what is dry */
    lane share = cover.share + (1.0 - cover.share) * newly;
    lane slope = law->W_K * (share + (1.0 - cover.share) * excess * spreading_K / (sum * sum));
    struct surface_now *stone = &sweep->surface[ends->row];
    stone->condensing =
        (struct flux){law->W_K * share * surplus,
                      {slope, -slope * wet.slope,
                       law->W_K * FILM_KG_M2K * cover.slope_m2_kg * (1.0 - newly) * surplus}};
    return stone->condensing;
}

static inline struct flux soak_flux(const struct soak_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    (void)law;
    return sweep->surface[ends->row].condensing;
}

static inline struct flux freeze_flux(const struct freeze_law *law, struct sweep *sweep,
                                      const struct ends *ends)
{
    /* Frost's state is minus the ice; the film's is all its water. */
    lane ice = -FILM_KG_M2K * sweep->T_C[ends->from];
    lane liquid = FILM_KG_M2K * sweep->T_C[ends->third] - ice;
    struct water_fusion_lanes fusion = water_film_fusion(sweep->T_C[ends->to], liquid, ice);
    lane by_liquid = law->area_m2 * FILM_KG_M2K * fusion.by_liquid_W_kg;
    lane by_ice = law->area_m2 * FILM_KG_M2K * fusion.by_ice_W_kg;
    return (struct flux){law->area_m2 * fusion.W_m2,
                         {by_liquid - by_ice, law->area_m2 * fusion.by_surface_W_m2K, by_liquid}};
}

static inline struct flux wetwave_flux(const struct wetwave_law *law, struct sweep *sweep,
                                       const struct ends *ends)
{
    const struct surface_wet_lanes *wet = &sweep->surface[ends->row].wet;
    lane carried = veiled(sweep, ends) * law->exchange_m2 *
                   (sweep->emission_W_m2[ends->from] - sweep->emission_W_m2[ends->to]);
    lane m2 = veiled(sweep, ends) * law->exchange_m2 * (law->dry + law->wetter * wet->share);
    return (struct flux){carried * (law->dry + law->wetter * wet->share),
                         {m2 * sweep->emission_W_m2K[ends->from],
                          -m2 * sweep->emission_W_m2K[ends->to], lane_of(0.0),
                          carried * law->wetter * wet->slope_m2_kg * FILM_KG_M2K}};
}

static inline struct flux wetsky_flux(const struct wetsky_law *law, struct sweep *sweep,
                                      const struct ends *ends)
{
    const struct surface_wet_lanes *wet = &sweep->surface[ends->row].wet;
    lane received = law->sky_view * sweep->sky_W_m2 + (1.0 - law->sky_view) * sweep->outdoor_W_m2;
    lane carried =
        veiled(sweep, ends) * law->exchange_m2 * (sweep->emission_W_m2[ends->from] - received);
    lane m2 = veiled(sweep, ends) * law->exchange_m2 * (law->dry + law->wetter * wet->share);
    return (struct flux){carried * (law->dry + law->wetter * wet->share),
                         {m2 * sweep->emission_W_m2K[ends->from], lane_of(0.0), lane_of(0.0),
                          carried * law->wetter * wet->slope_m2_kg * FILM_KG_M2K}};
}

static inline struct flux drip_flux(const struct drip_law *law, struct sweep *sweep,
                                    const struct ends *ends)
{
    /* What is ice does not drip; frost's state is minus it. */
    lane ice = ends->third >= 0 ? -sweep->T_C[ends->third] : lane_of(0.0);
    lane over = sweep->T_C[ends->from] - ice - law->holds_K;
    lane W_K = lane_select(over > 0.0, law->W_K, lane_of(0.0));
    return (struct flux){W_K * over, {W_K, lane_of(0.0), W_K}};
}

static inline struct flux fog_flux(const struct fog_law *law, struct sweep *sweep,
                                   const struct ends *ends)
{
    struct moistair_lanes wet = saturated(sweep, ends->to);
    lane surplus = sweep->T_C[ends->from] - wet.y_K;
    lane W_K = lane_select(surplus > 0.0, law->W_K, lane_of(0.0));
    return (struct flux){W_K * surplus, {W_K, -W_K * wet.slope}};
}

#endif
