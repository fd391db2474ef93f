/* What networks of one shape have in common: places, links' ends, and the way their equations are
 * solved. Members of one shape are integrated side by side. */
#ifndef ENSEMBLE_SHAPE_H
#define ENSEMBLE_SHAPE_H

#include <stdbool.h>
#include <stddef.h>

#include "network/network_laws.h"

struct dawn_network;

/* Some of the flows, kind by kind. */
struct flow_list {
    size_t *flow;
    size_t first[KIND_COUNT + 1];
};

struct shape {
    size_t nodes, flows, surfaces, gains, veils, openings, numbers;
    size_t first[KIND_COUNT + 1];
    struct ends *ends;     /* [flow] */
    int leans[KIND_COUNT]; /* how many places a flow of the kind changes with, at most */
    int *wet;              /* nodes that can freeze */
    size_t wet_count;
    struct flow_list every;
    /* Those that change with the weather while covers rest: the others follow the states alone. */
    struct flow_list driven;

    /* The factors of 1/(h gamma) - J by rows in the order of elimination, diagonal entries
     * inverted. */
    size_t entries;
    int *order;                    /* [place] node */
    int *row_start, *row_diagonal; /* [place] entries of a row */
    int *col;                      /* [entry] place */
    int *below_start, *below;      /* [place] entries below the diagonal, column by column */
    /* For each of these, by each entry right of the diagonal in the pivot's row: the entry that
     * their product is taken from. */
    int *target;
    int *slot;        /* [(flow * LEANS + lean) * 2 + end] entry, or `entries` for nowhere */
    int *stream_slot; /* [(link * links + earlier) * 2 + end] */
};

/* NULL when memory ran out. */
struct shape *dawn_ensemble_shape_new(const struct dawn_network *network);
void dawn_ensemble_shape_free(struct shape *shape);
/* Whether a network fits the shape. */
bool dawn_ensemble_shape_fits(const struct shape *shape, const struct dawn_network *network);

#endif
