/* Members of one shape, each in a lane of its own: RODAS3, an adaptive, linearly implicit, stiffly
 * accurate Rosenbrock method of order 3 with an embedded error estimate (Sandu, Verwer, Blom, Spee,
 * Carmichael & Potra 1997, Atmospheric Environment 31:3459, coefficients from memory and held by
 * the order of convergence in the tests). Every lane has its own time, step, weather and fan, is
 * accepted or tried again by itself, and takes the next member when its own is done.
 *
 * To be included by one file for each width and processor, with DAWN_LANES set. */
#ifndef ENSEMBLE_LANES_H
#define ENSEMBLE_LANES_H

#ifndef DAWN_LANES
#define DAWN_LANES 1
#endif

#include <stdlib.h>
#include <string.h>

#include "dawnlow/physics/sky.h"
#include "network/network_kernels.h"
#include "physics/water_lanes.h"
#include "trajectory/ensemble_member.h"
#include "trajectory/ensemble_queue.h"
#include "trajectory/ensemble_shape.h"

/* The group at work. All lanes' numbers lie in one block. */
struct group {
    const struct shape *shape;
    struct queue *queue;
    struct member *member[DAWN_LANES]; /* NULL: the lane idles */
    lane *block;                       /* all that follows */
    size_t size;
    lane *numbers; /* of all laws */
    struct laws laws;
    lane *forced[2]; /* at the step's beginning and end */
    lane *length_s, *pressure_Pa, *tolerance_share;
    lane *fan;        /* enum dawn_fan_state */
    lane *y, *y_rest; /* the state, and what its floats leave out of it */
    lane *inverse_heat, *tolerance_K;
    lane *T_C, *slope, *emission_W_m2, *emission_W_m2K; /* [place] */
    struct surface_now *surface;
    lane *rates, *weather_rates, *stage_rates; /* [place] K/s */
    lane *begun_W;                             /* [flow] at the step's beginning */
    lane *stage[4], *stage_y, *right, *permuted, *end_y, *end_rest, *end_rates;
    lane *factors; /* [entry + 1] the last takes what goes nowhere */
};

/* ---- the network in a state ---- */

static inline void emit_lanes(struct group *group, size_t place)
{
    lane T_K = group->T_C[place] + LANE_NUMBER(PHYSICS_KELVIN);
    lane cube = LANE_NUMBER(DAWN_STEFAN_BOLTZMANN) * T_K * T_K * T_K;
    group->emission_W_m2[place] = cube * T_K;
    group->emission_W_m2K[place] = 4.0 * cube;
}

/* Temperatures of the nodes, and what they radiate. */
static inline void look_inside(struct group *group, const lane y[])
{
    const struct shape *shape = group->shape;
    for (size_t i = 0; i < shape->nodes; ++i) {
        group->T_C[i] = y[i];
        group->slope[i] = lane_of(1.0);
    }
    for (size_t k = 0; k < shape->wet_count; ++k) {
        int i = shape->wet[k];
        const struct node_law *law = &group->laws.node[i];
        struct water_lanes water =
            water_from_enthalpy(y[i], law->heat_J_K, law->frozen_J_K, law->latent_J);
        group->T_C[i] = water.temperature_C;
        group->slope[i] = water.slope;
    }
    for (size_t i = 0; i < shape->nodes; ++i)
        emit_lanes(group, i);
}

/* Temperatures outside, and all that the kernels look at. */
static inline struct sweep look_outside(struct group *group, const lane forced[])
{
    const struct shape *shape = group->shape;
    lane *outside = group->T_C + shape->nodes;
    for (int i = 0; i < OUTSIDE_PLACES; ++i)
        outside[i] = lane_of(0.0);
    outside[OUTSIDE_AIR] = outside[OUTSIDE_SKY] = forced[FORCED_AIR];
    outside[OUTSIDE_EDGE] = forced[FORCED_EDGE];
    outside[OUTSIDE_DEEP] = forced[FORCED_DEEP];
    outside[OUTSIDE_VAPOUR] = forced[FORCED_VAPOUR];
    for (size_t i = 0; i < OUTSIDE_PLACES; ++i)
        emit_lanes(group, shape->nodes + i);
    struct sweep sweep = {.T_C = group->T_C,
                          .emission_W_m2 = group->emission_W_m2,
                          .emission_W_m2K = group->emission_W_m2K,
                          .gain_W = forced + FORCED_GAINS,
                          .veil = forced + FORCED_GAINS + shape->gains,
                          .surface = group->surface,
                          .fan_on = *group->fan > 0.5,
                          .back = lane_select(*group->fan > 1.5, lane_of(1.0), lane_of(0.0)),
                          .air_C = forced[FORCED_AIR],
                          .sky_W_m2 = forced[FORCED_SKY],
                          .wind_m_s = forced[FORCED_WIND],
                          .outdoor_fan = forced[FORCED_OUTDOOR_FAN],
                          .pressure_Pa = *group->pressure_Pa,
                          .outdoor_W_m2 = group->emission_W_m2[shape->nodes + OUTSIDE_AIR],
                          .wind_film_W_m2K = surface_wind_film(forced[FORCED_WIND])};
    const lane *open = forced + FORCED_GAINS + shape->gains + shape->veils;
    for (size_t i = 0; i < shape->openings; ++i)
        sweep.open_hours[i] = open[i];
    return sweep;
}

static inline void add_slope(lane factors[], const int slot[2], lane slope)
{
    factors[slot[0]] -= slope;
    factors[slot[1]] += slope;
}

/* The stream's links also depend on the segments before them. */
static inline void add_stream_slopes(struct group *group, const struct sweep *sweep)
{
    const struct shape *shape = group->shape;
    const struct stream_law *law = group->laws.stream;
    size_t links = shape->first[KIND_stream + 1] - shape->first[KIND_stream];
    const struct ends *ends = shape->ends + shape->first[KIND_stream];
    if (!lane_any(sweep->fan_on))
        return;
    for (size_t i = 1; i < links; ++i) {
        lane goes = stream_goes(&law[i], sweep->back);
        lane share =
            lane_select(sweep->fan_on, goes * law[i].flow_W_K * law[i].segment_share, lane_of(0.0));
        for (size_t j = i; j-- > i - ends[i].row;) {
            add_slope(group->factors, shape->stream_slot + (i * links + j) * 2,
                      share * law[j].segment_share);
            share *= 1.0 - law[j].segment_share;
        }
    }
}

/* Adds to rates, W, what the links bring; and with slopes also their derivative by temperatures,
 * W/K, to the factors, and keeps what each begins with. One call a kind of link: no tangle. */
/* NOLINTBEGIN(readability-function-cognitive-complexity) */
static inline __attribute__((always_inline)) void
add_rates(struct group *group, struct sweep *sweep, lane rates[], bool slopes)
{
    const struct shape *shape = group->shape;
    const struct laws laws = group->laws;
    sweep_openings(laws.vent, shape->ends + shape->first[KIND_vent],
                   shape->first[KIND_vent + 1] - shape->first[KIND_vent], sweep);
#define SWEEP(kind, words)                                                                         \
    for (size_t i = shape->first[KIND_##kind]; i < shape->first[KIND_##kind + 1]; ++i) {           \
        const struct ends *ends = &shape->ends[i];                                                 \
        struct flux flux = kind##_flux(&laws.kind[i - shape->first[KIND_##kind]], sweep, ends);    \
        rates[ends->from] -= flux.W;                                                               \
        rates[ends->to] += flux.W;                                                                 \
        if (slopes) {                                                                              \
            group->begun_W[i] = flux.W;                                                            \
            for (int k = 0; k < shape->leans[KIND_##kind]; ++k)                                    \
                add_slope(group->factors, shape->slot + (i * LEANS + (size_t)k) * 2,               \
                          flux.slope_W_K[k]);                                                      \
        }                                                                                          \
    }
    DAWN_LINK_KINDS(SWEEP)
#undef SWEEP
    if (slopes)
        add_stream_slopes(group, sweep);
}
/* NOLINTEND(readability-function-cognitive-complexity) */

static inline void clear(lane numbers[], size_t count)
{
    for (size_t i = 0; i < count; ++i)
        numbers[i] = lane_of(0.0);
}

/* Whether a cover moves in any lane within the step. */
static inline bool covers_move(const struct group *group)
{
    const struct shape *shape = group->shape;
    const size_t veils = FORCED_GAINS + shape->gains;
    lane_mask moves = group->forced[0][veils] != group->forced[1][veils];
    for (size_t i = veils + 1; i < veils + shape->veils; ++i)
        moves |= group->forced[0][i] != group->forced[1][i];
    return lane_any(moves);
}

/* What the weather to the step's end adds to the rates where nothing else moves, W. While covers
 * rest most flows add nothing; where they move in some lane only, the others' add exactly nothing.
 */
/* NOLINTBEGIN(readability-function-cognitive-complexity) */
static inline void add_weather(struct group *group, struct sweep *end)
{
    const struct shape *shape = group->shape;
    const struct laws laws = group->laws;
    const struct flow_list *list = covers_move(group) ? &shape->every : &shape->driven;
    lane *rates = group->weather_rates;
    sweep_openings(laws.vent, shape->ends + shape->first[KIND_vent],
                   shape->first[KIND_vent + 1] - shape->first[KIND_vent], end);
#define SWEEP(kind, words)                                                                         \
    for (size_t k = list->first[KIND_##kind]; k < list->first[KIND_##kind + 1]; ++k) {             \
        size_t i = list->flow[k];                                                                  \
        const struct ends *ends = &shape->ends[i];                                                 \
        struct flux flux = kind##_flux(&laws.kind[i - shape->first[KIND_##kind]], end, ends);      \
        lane more = flux.W - group->begun_W[i];                                                    \
        rates[ends->from] -= more;                                                                 \
        rates[ends->to] += more;                                                                   \
    }
    DAWN_LINK_KINDS(SWEEP)
#undef SWEEP
}
/* NOLINTEND(readability-function-cognitive-complexity) */

/* Rates at the step's beginning with their derivative, and what the weather to the step's end adds
 * to them where nothing else moves. */
static inline void begin_rates(struct group *group)
{
    const struct shape *shape = group->shape;
    const size_t places = shape->nodes + OUTSIDE_PLACES;
    clear(group->rates, places);
    clear(group->weather_rates, places);
    clear(group->factors, shape->entries + 1);
    look_inside(group, group->y);
    struct sweep begin = look_outside(group, group->forced[0]);
    add_rates(group, &begin, group->rates, true);
    struct sweep end = look_outside(group, group->forced[1]);
    add_weather(group, &end);
    for (size_t i = 0; i < shape->nodes; ++i) {
        group->rates[i] *= group->inverse_heat[i];
        group->weather_rates[i] *= group->inverse_heat[i];
    }
}

/* Rates in a stage, under the weather at the step's end. */
static inline void stage_rates(struct group *group)
{
    clear(group->stage_rates, group->shape->nodes + OUTSIDE_PLACES);
    look_inside(group, group->stage_y);
    struct sweep end = look_outside(group, group->forced[1]);
    add_rates(group, &end, group->stage_rates, false);
    for (size_t i = 0; i < group->shape->nodes; ++i)
        group->stage_rates[i] *= group->inverse_heat[i];
}

/* ---- linear algebra ---- */

/* I - h gamma J in the place of its slopes. */
static inline void scale_slopes(struct group *group, lane step)
{
    const struct shape *shape = group->shape;
    lane *value = group->factors;
    for (size_t i = 0; i < shape->nodes; ++i) {
        int row = shape->order[i];
        lane by = -step * group->inverse_heat[row];
        for (int e = shape->row_start[i]; e < shape->row_start[i + 1]; ++e)
            value[e] *= by * group->slope[shape->order[shape->col[e]]];
        value[shape->row_diagonal[i]] += 1.0;
    }
}

/* Factored, diagonal entries inverted. Pivot by pivot: what one takes from the entries behind it
 * does not wait for itself. */
static inline void factor(struct group *group, lane step)
{
    const struct shape *shape = group->shape;
    lane *value = group->factors;
    const int *target = shape->target;
    scale_slopes(group, step);
    for (size_t k = 0; k < shape->nodes; ++k) {
        int diagonal = shape->row_diagonal[k];
        int end = shape->row_start[k + 1];
        lane inverse = 1.0 / value[diagonal];
        value[diagonal] = inverse;
        for (int c = shape->below_start[k]; c < shape->below_start[k + 1]; ++c) {
            lane times = value[shape->below[c]] * inverse;
            value[shape->below[c]] = times;
            for (int f = diagonal + 1; f < end; ++f)
                value[*target++] -= times * value[f];
        }
    }
}

static inline void solve(struct group *group, lane x[], const lane right[])
{
    const struct shape *shape = group->shape;
    const lane *value = group->factors;
    lane *z = group->permuted;
    for (size_t i = 0; i < shape->nodes; ++i) {
        lane sum = right[shape->order[i]];
        for (int e = shape->row_start[i]; e < shape->row_diagonal[i]; ++e)
            sum -= value[e] * z[shape->col[e]];
        z[i] = sum;
    }
    for (size_t i = shape->nodes; i-- > 0;) {
        lane sum = z[i];
        for (int e = shape->row_diagonal[i] + 1; e < shape->row_start[i + 1]; ++e)
            sum -= value[e] * z[shape->col[e]];
        z[i] = sum * value[shape->row_diagonal[i]];
    }
    for (size_t i = 0; i < shape->nodes; ++i)
        x[shape->order[i]] = z[i];
}

/* ---- one attempt ---- */

/* RODAS3 in the form that needs no product with J: (I - h gamma J) K_i = gamma (h f(t_i, Y_i) +
 * sum c_ij K_j + h gamma_i h df/dt), gamma 1/2. The forcing is straight over a step, so that
 * h df/dt = f(t + h, y) - f(t, y). Yields the error over what is tolerated, in the mean square. */
static lane attempt_step(struct group *group)
{
    const size_t n = group->shape->nodes;
    const lane_number gamma = LANE_NUMBER(0.5);
    const lane_number eight_thirds = LANE_NUMBER(8.0 / 3.0);
    const lane h = *group->length_s;
    const lane *y = group->y;
    const lane *f = group->rates;
    const lane *fw = group->weather_rates;
    const lane *fs = group->stage_rates;
    lane **k = group->stage;
    begin_rates(group);
    factor(group, gamma * h);
    for (size_t i = 0; i < n; ++i)
        group->right[i] = gamma * h * (f[i] + 0.5 * fw[i]);
    solve(group, k[0], group->right);
    for (size_t i = 0; i < n; ++i)
        group->right[i] = gamma * (h * (f[i] + 1.5 * fw[i]) + 4.0 * k[0][i]);
    solve(group, k[1], group->right);
    for (size_t i = 0; i < n; ++i)
        group->stage_y[i] = y[i] + 2.0 * k[0][i];
    stage_rates(group);
    for (size_t i = 0; i < n; ++i)
        group->right[i] = gamma * (h * fs[i] + k[0][i] - k[1][i]);
    solve(group, k[2], group->right);
    for (size_t i = 0; i < n; ++i)
        group->stage_y[i] = y[i] + 2.0 * k[0][i] + k[2][i];
    stage_rates(group);
    for (size_t i = 0; i < n; ++i)
        group->right[i] = gamma * (h * fs[i] + k[0][i] - k[1][i] - eight_thirds * k[2][i]);
    solve(group, k[3], group->right);
    lane sum = lane_of(0.0);
    for (size_t i = 0; i < n; ++i) {
        /* A slow node gains less in a step than its float can show. */
        lane more = group->y_rest[i] + (2.0 * k[0][i] + k[2][i] + k[3][i]);
        lane end = y[i] + more;
        lane scale = group->tolerance_K[i] +
                     *group->tolerance_share * lane_max(lane_abs(y[i]), lane_abs(end));
        lane over = k[3][i] / scale;
        sum += over * over;
        group->end_y[i] = end;
        group->end_rest[i] = more - (end - y[i]);
        /* f(t + h, end) as the last stage tells it: the stage's f plus J times what it adds. */
        group->end_rates[i] = (2.0 * k[3][i] - k[0][i] + k[1][i] + eight_thirds * k[2][i]) / h;
    }
    return lane_sqrt(sum / (lane_number)n);
}

/* ---- lanes and their members ---- */

static float *in_lane(lane *numbers, int at)
{
    return (float *)numbers + at;
}

static struct strided column(lane *numbers, int at)
{
    return (struct strided){in_lane(numbers, at), DAWN_LANES};
}

/* The next member of the queue takes the lane; false when none is left. */
static bool move_in(struct group *group, int at)
{
    const lane *heat_J_K = &group->laws.node[0].heat_J_K;
    const size_t law = sizeof *group->laws.node / sizeof(lane);
    struct member *member =
        dawn_ensemble_queue_next(group->queue, in_lane(group->y, at), in_lane(group->y_rest, at),
                                 in_lane(group->numbers, at), DAWN_LANES);
    group->member[at] = member;
    if (!member)
        return false;
    *in_lane(group->pressure_Pa, at) = (float)dawn_ensemble_member_pressure_Pa(member);
    *in_lane(group->tolerance_share, at) = (float)dawn_ensemble_member_tolerance_share(member);
    for (size_t i = 0; i < group->shape->nodes; ++i) {
        /* All nodes' laws lie in a row. */
        /* cppcheck-suppress objectIndex */
        *in_lane(group->inverse_heat + i, at) = 1.0F / ((const float *)(heat_J_K + i * law))[at];
        *in_lane(group->tolerance_K + i, at) = (float)dawn_ensemble_member_tolerance_K(member, i);
    }
    dawn_ensemble_member_forcing(member, 0.0, in_lane(group->forced[0], at), DAWN_LANES);
    return true;
}

/* A lane that never had a member does what the first does, and nobody looks. */
static void fill_idle(struct group *group)
{
    for (int at = 1; at < DAWN_LANES; ++at)
        for (size_t i = 0; !group->member[at] && i < group->size; ++i)
            *in_lane(group->block + i, at) = *in_lane(group->block + i, 0);
}

static void prepare(struct group *group)
{
    for (int at = 0; at < DAWN_LANES; ++at) {
        struct member *member = group->member[at];
        if (!member)
            continue;
        double length_s = dawn_ensemble_member_length_s(member);
        *in_lane(group->length_s, at) = (float)length_s;
        *in_lane(group->fan, at) = (float)dawn_ensemble_member_fan(member);
        dawn_ensemble_member_forcing(member, length_s, in_lane(group->forced[1], at), DAWN_LANES);
    }
}

/* Where a step was kept its end is the next beginning. */
static void go_on(struct group *group, lane_mask kept)
{
    const struct shape *shape = group->shape;
    size_t forced = FORCED_GAINS + shape->gains + shape->veils + shape->openings;
    for (size_t i = 0; i < shape->nodes; ++i) {
        group->y[i] = lane_select(kept, group->end_y[i], group->y[i]);
        group->y_rest[i] = lane_select(kept, group->end_rest[i], group->y_rest[i]);
    }
    for (size_t i = 0; i < forced; ++i)
        group->forced[0][i] = lane_select(kept, group->forced[1][i], group->forced[0][i]);
}

/* Judges every lane's attempt; returns how many members are left. */
static int judge(struct group *group, lane error)
{
    int left = 0;
    lane error_root = lane_cbrt(error);
    enum attempt_verdict verdict[DAWN_LANES];
    lane kept = lane_of(0.0);
    for (int at = 0; at < DAWN_LANES; ++at) {
        struct member *member = group->member[at];
        verdict[at] = ATTEMPT_AGAIN;
        if (!member)
            continue;
        struct attempt attempt = {.length_s = *in_lane(group->length_s, at),
                                  .error = *in_lane(&error, at),
                                  .error_root = *in_lane(&error_root, at),
                                  .y = column(group->y, at),
                                  .rates = column(group->rates, at),
                                  .end_y = column(group->end_y, at),
                                  .end_rest = column(group->end_rest, at),
                                  .end_rates = column(group->end_rates, at)};
        verdict[at] = dawn_ensemble_member_judge(member, &attempt);
        if (verdict[at] == ATTEMPT_KEPT || verdict[at] == ATTEMPT_KEPT_AND_LEAPT)
            *in_lane(&kept, at) = 1.0F;
    }
    go_on(group, kept > 0.5);
    for (int at = 0; at < DAWN_LANES; ++at) {
        struct member *member = group->member[at];
        if (verdict[at] == ATTEMPT_KEPT_AND_LEAPT)
            dawn_ensemble_member_forcing(member, 0.0, in_lane(group->forced[0], at), DAWN_LANES);
        if (verdict[at] == ATTEMPT_LAST) {
            dawn_ensemble_queue_end(group->queue, member);
            move_in(group, at);
        }
        left += group->member[at] != NULL;
    }
    return left;
}

/* ---- the whole ---- */

/* The next count lanes of a block; without one they are only counted. */
static lane *cut(lane *block, size_t *used, size_t count)
{
    lane *piece = block ? block + *used : NULL;
    *used += count;
    return piece;
}

/* All tables, cut from one block; with block NULL only their size is told. */
static size_t lay_out(struct group *group, lane *block)
{
    const struct shape *shape = group->shape;
    const size_t n = shape->nodes;
    const size_t places = n + OUTSIDE_PLACES;
    const size_t surface = sizeof(struct surface_now) / sizeof(lane);
    size_t used = 0;
    group->numbers = cut(block, &used, shape->numbers);
    for (int i = 0; i < 2; ++i)
        group->forced[i] =
            cut(block, &used, FORCED_GAINS + shape->gains + shape->veils + shape->openings);
    group->length_s = cut(block, &used, 1);
    group->pressure_Pa = cut(block, &used, 1);
    group->tolerance_share = cut(block, &used, 1);
    group->fan = cut(block, &used, 1);
    lane **by_place[] = {&group->T_C,   &group->emission_W_m2, &group->emission_W_m2K,
                         &group->rates, &group->weather_rates, &group->stage_rates};
    for (size_t i = 0; i < sizeof by_place / sizeof *by_place; ++i)
        *by_place[i] = cut(block, &used, places);
    lane **by_node[] = {&group->y,           &group->y_rest,   &group->inverse_heat,
                        &group->tolerance_K, &group->slope,    &group->stage[0],
                        &group->stage[1],    &group->stage[2], &group->stage[3],
                        &group->stage_y,     &group->right,    &group->permuted,
                        &group->end_y,       &group->end_rest, &group->end_rates};
    for (size_t i = 0; i < sizeof by_node / sizeof *by_node; ++i)
        *by_node[i] = cut(block, &used, n);
    group->surface = (struct surface_now *)cut(block, &used, shape->surfaces * surface);
    group->begun_W = cut(block, &used, shape->flows);
    group->factors = cut(block, &used, shape->entries + 1);
    return used;
}

/* The tables for a queue's members, and the first of these in the lanes: how many they are. 0 and
 * no block when memory ran out; the caller frees the block. */
static int begin_group(struct group *group, struct queue *queue)
{
    int here = 0;
    *group = (struct group){.shape = queue->shape, .queue = queue};
    group->size = lay_out(group, NULL);
    group->block = aligned_alloc(64, (group->size * sizeof(lane) + 63) / 64 * 64);
    if (!group->block)
        return 0;
    memset(group->block, 0, group->size * sizeof(lane));
    lay_out(group, group->block);
    group->laws = laws_in(group->numbers, group->shape->nodes, group->shape->first);
    for (int at = 0; at < DAWN_LANES; ++at)
        here += move_in(group, at);
    return here;
}

static bool run_queue(struct queue *queue)
{
    struct group group;
    int left = begin_group(&group, queue);
    if (!group.block)
        return false;
    fill_idle(&group);
    while (left > 0) {
        prepare(&group);
        left = judge(&group, attempt_step(&group));
    }
    free(group.block);
    return true;
}

#endif
