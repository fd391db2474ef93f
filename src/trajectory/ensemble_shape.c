/* The shape of a network: made once for all members that share it. */
#include "trajectory/ensemble_shape.h"

#include <stdlib.h>
#include <string.h>

#include "network/network_parts.h"
#include "trajectory/trajectory_sparse.h"

static int entry_at(const struct shape *shape, size_t row, size_t col)
{
    for (int e = shape->row_start[row]; e < shape->row_start[row + 1]; ++e)
        if ((size_t)shape->col[e] == col)
            return e;
    return (int)shape->entries;
}

/* Where the derivative of a place's rate by a place goes; nowhere when either is outside. */
static int slot_of(const struct shape *shape, const size_t place_of[], int row, int col)
{
    int n = (int)shape->nodes;
    if (row < 0 || col < 0 || row >= n || col >= n)
        return (int)shape->entries;
    return entry_at(shape, place_of[row], place_of[col]);
}

static int *as_ints(const size_t from[], size_t count)
{
    int *list = calloc(count + 1, sizeof *list);
    for (size_t i = 0; list && i < count; ++i)
        list[i] = (int)from[i];
    return list;
}

/* Entries below the diagonal by columns, and what each takes when its pivot is worked off. The
 * pattern is filled, so every target is there. */
static bool fill_columns(struct shape *shape)
{
    size_t n = shape->nodes;
    size_t targets = 0;
    int at = 0;
    shape->below_start = calloc(n + 1, sizeof *shape->below_start);
    shape->below = calloc(shape->entries + 1, sizeof *shape->below);
    if (!shape->below_start || !shape->below)
        return false;
    for (size_t k = 0; k < n; ++k) {
        int right = shape->row_start[k + 1] - shape->row_diagonal[k] - 1;
        shape->below_start[k] = at;
        for (size_t i = k + 1; i < n; ++i) {
            int entry = entry_at(shape, i, k);
            if (entry == (int)shape->entries)
                continue;
            shape->below[at++] = entry;
            targets += (size_t)right;
        }
    }
    shape->below_start[n] = at;
    shape->target = calloc(targets + 1, sizeof *shape->target);
    return shape->target != NULL;
}

static int row_of(const struct shape *shape, int entry)
{
    int row = 0;
    while (shape->row_start[row + 1] <= entry)
        ++row;
    return row;
}

static void fill_targets(struct shape *shape)
{
    int *target = shape->target;
    for (size_t k = 0; k < shape->nodes; ++k)
        for (int c = shape->below_start[k]; c < shape->below_start[k + 1]; ++c) {
            size_t row = (size_t)row_of(shape, shape->below[c]);
            for (int f = shape->row_diagonal[k] + 1; f < shape->row_start[k + 1]; ++f)
                *target++ = entry_at(shape, row, (size_t)shape->col[f]);
        }
}

static bool fill_rows(struct shape *shape, const struct sparse *sparse)
{
    struct sparse_rows rows = dawn_trajectory_sparse_rows(sparse);
    shape->entries = dawn_trajectory_sparse_entries(sparse);
    shape->order = as_ints(rows.order, rows.n);
    shape->row_start = as_ints(rows.row_start, rows.n + 1);
    shape->row_diagonal = as_ints(rows.row_diagonal, rows.n);
    shape->col = as_ints(rows.col, shape->entries);
    if (!shape->order || !shape->row_start || !shape->row_diagonal || !shape->col)
        return false;
    if (!fill_columns(shape))
        return false;
    fill_targets(shape);
    return true;
}

static void fill_slots(struct shape *shape, const size_t place_of[])
{
    const struct ends *stream = shape->ends + shape->first[KIND_stream];
    size_t links = shape->first[KIND_stream + 1] - shape->first[KIND_stream];
    for (size_t i = 0; i < shape->flows; ++i)
        for (size_t k = 0; k < LEANS; ++k) {
            const struct ends *ends = &shape->ends[i];
            int *slot = shape->slot + (i * LEANS + k) * 2;
            slot[0] = slot_of(shape, place_of, ends->from, ends->lean[k]);
            slot[1] = slot_of(shape, place_of, ends->to, ends->lean[k]);
        }
    for (size_t i = 0; i < links; ++i)
        for (size_t j = i - stream[i].row; j < i; ++j) {
            int *slot = shape->stream_slot + (i * links + j) * 2;
            slot[0] = slot_of(shape, place_of, stream[i].from, stream[j].to);
            slot[1] = slot_of(shape, place_of, stream[i].to, stream[j].to);
        }
}

static void count_leans(struct shape *shape)
{
    for (int kind = 0; kind < KIND_COUNT; ++kind)
        for (size_t i = shape->first[kind]; i < shape->first[kind + 1]; ++i)
            for (int k = 0; k < LEANS; ++k)
                if (shape->ends[i].lean[k] >= 0 && k >= shape->leans[kind])
                    shape->leans[kind] = k + 1;
}

static bool is_weather(const struct shape *shape, int place)
{
    static const enum outside_place changing[] = {OUTSIDE_AIR, OUTSIDE_SKY, OUTSIDE_EDGE,
                                                  OUTSIDE_DEEP, OUTSIDE_VAPOUR};
    for (size_t i = 0; i < sizeof changing / sizeof *changing; ++i)
        if (place == (int)shape->nodes + (int)changing[i])
            return true;
    return false;
}

/* Light comes by kind, and so does what wind and warmth drive from one air inside to the other. */
static bool is_driven(const struct shape *shape, enum link_kind kind, const struct ends *ends)
{
    return kind == KIND_gain || kind == KIND_transpire || kind == KIND_through ||
           is_weather(shape, ends->from) || is_weather(shape, ends->to);
}

static bool list_flows(struct shape *shape)
{
    shape->every.flow = calloc(shape->flows + 1, sizeof *shape->every.flow);
    shape->driven.flow = calloc(shape->flows + 1, sizeof *shape->driven.flow);
    if (!shape->every.flow || !shape->driven.flow)
        return false;
    size_t driven = 0;
    for (int kind = 0; kind < KIND_COUNT; ++kind) {
        shape->driven.first[kind] = driven;
        for (size_t i = shape->first[kind]; i < shape->first[kind + 1]; ++i) {
            shape->every.flow[i] = i;
            if (is_driven(shape, (enum link_kind)kind, &shape->ends[i]))
                shape->driven.flow[driven++] = i;
        }
    }
    shape->driven.first[KIND_COUNT] = driven;
    memcpy(shape->every.first, shape->first, sizeof shape->first);
    return true;
}

static bool settle(struct shape *shape, const struct dawn_network *network, bool pattern[],
                   size_t place_of[])
{
    dawn_network_pattern(network, pattern);
    struct sparse *sparse = dawn_trajectory_sparse_new(shape->nodes, pattern);
    bool fine = sparse != NULL && fill_rows(shape, sparse);
    dawn_trajectory_sparse_free(sparse);
    if (!fine)
        return false;
    for (size_t i = 0; i < shape->nodes; ++i)
        place_of[shape->order[i]] = i;
    fill_slots(shape, place_of);
    count_leans(shape);
    if (!list_flows(shape))
        return false;
    for (size_t i = 0; i < shape->nodes; ++i)
        if (network->nodes[i].facts.latent_J > 0)
            shape->wet[shape->wet_count++] = (int)i;
    return true;
}

struct shape *dawn_ensemble_shape_new(const struct dawn_network *network)
{
    size_t n = network->node_count;
    size_t streams = network->stream_count;
    struct shape *shape = calloc(1, sizeof *shape);
    if (!shape)
        return NULL;
    *shape = (struct shape){.nodes = n,
                            .flows = network->first[KIND_COUNT],
                            .surfaces = network->natural_count + network->damp_count,
                            .gains = network->forcing.gains,
                            .veils = network->veil_count,
                            .openings = network->opening_count,
                            .numbers = dawn_network_numbers(network)};
    memcpy(shape->first, network->first, sizeof shape->first);
    shape->ends = calloc(shape->flows + 1, sizeof *shape->ends);
    shape->wet = calloc(n + 1, sizeof *shape->wet);
    shape->slot = calloc(shape->flows * LEANS * 2 + 1, sizeof *shape->slot);
    shape->stream_slot = calloc(streams * streams * 2 + 1, sizeof *shape->stream_slot);
    bool *pattern = calloc(n * n + 1, sizeof *pattern);
    size_t *place_of = calloc(n + 1, sizeof *place_of);
    bool fine =
        shape->ends && shape->wet && shape->slot && shape->stream_slot && pattern && place_of;
    if (fine) {
        memcpy(shape->ends, network->ends, shape->flows * sizeof *shape->ends);
        fine = settle(shape, network, pattern, place_of);
    }
    free(pattern);
    free(place_of);
    if (fine)
        return shape;
    dawn_ensemble_shape_free(shape);
    return NULL;
}

void dawn_ensemble_shape_free(struct shape *shape)
{
    if (!shape)
        return;
    free(shape->ends);
    free(shape->wet);
    free(shape->every.flow);
    free(shape->driven.flow);
    free(shape->order);
    free(shape->row_start);
    free(shape->row_diagonal);
    free(shape->col);
    free(shape->below_start);
    free(shape->below);
    free(shape->target);
    free(shape->slot);
    free(shape->stream_slot);
    free(shape);
}

bool dawn_ensemble_shape_fits(const struct shape *shape, const struct dawn_network *network)
{
    size_t wet = 0;
    if (shape->nodes != network->node_count || shape->gains != network->forcing.gains ||
        shape->veils != network->veil_count || shape->openings != network->opening_count ||
        memcmp(shape->first, network->first, sizeof shape->first) != 0 ||
        memcmp(shape->ends, network->ends, shape->flows * sizeof *shape->ends) != 0)
        return false;
    for (size_t i = 0; i < shape->nodes; ++i) {
        bool freezes = network->nodes[i].facts.latent_J > 0;
        bool listed = wet < shape->wet_count && (size_t)shape->wet[wet] == i;
        if (freezes != listed)
            return false;
        wet += freezes;
    }
    return true;
}
