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
/* Entries of the factors, the diagonal counted once. */
size_t dawn_trajectory_sparse_entries(const struct sparse *sparse);

#endif
