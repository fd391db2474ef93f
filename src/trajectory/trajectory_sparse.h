/* I - gamma J for a network's sparse J: ordered once, factored and solved many times.
 *
 * No pivoting: every row of a thermal network's I - gamma J leans on its diagonal (what a node
 * loses by a kelvin is at least what its neighbours gain), so the pivots stay away from zero. A
 * factor call tells when one does not. */
#ifndef TRAJECTORY_SPARSE_H
#define TRAJECTORY_SPARSE_H

#include <stdbool.h>
#include <stddef.h>

struct sparse; /* opaque */

/* pattern[col * n + row]: entries of J that can be nonzero. NULL when memory ran out. */
struct sparse *dawn_trajectory_sparse_new(size_t n, const bool pattern[]);
void dawn_trajectory_sparse_free(struct sparse *sparse);

/* Factors I - gamma J, J column by column; false on a vanishing or non-finite pivot. */
bool dawn_trajectory_sparse_factor(struct sparse *sparse, const double jacobian[], double gamma);
/* Solves with the last factors; x and b may be the same. */
void dawn_trajectory_sparse_solve(struct sparse *sparse, double x[], const double b[]);
/* How it goes about it, for others who factor the same pattern: the nodes in the order of their
 * elimination, and row by row (place by place) the places of the factors' entries, ascending. */
struct sparse_rows {
    size_t n;
    const size_t *order;                    /* [place] */
    const size_t *row_start, *row_diagonal; /* [place] entries of a row, and its diagonal one */
    const size_t *col;                      /* [entry] place */
};
struct sparse_rows dawn_trajectory_sparse_rows(const struct sparse *sparse);
/* Entries of the factors, the diagonal counted once. */
size_t dawn_trajectory_sparse_entries(const struct sparse *sparse);

#endif
