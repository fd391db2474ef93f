/* Sparse LU by rows, in minimum-degree order (Duff, Erisman & Reid, Direct Methods for Sparse
 * Matrices, 1986). */
#include "trajectory/trajectory_sparse.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct sparse {
    size_t n;
    size_t *order;                    /* [place] node eliminated there */
    size_t *row_start, *row_diagonal; /* entries of row i: row_start[i] .. row_start[i+1]-1 */
    size_t *col;                      /* [entry] place, ascending within a row */
    size_t *from;                     /* [entry] where in the dense jacobian it comes from */
    double *value, *row, *permuted;
};

static size_t degree_of(size_t n, const bool *graph, const bool *gone, size_t node)
{
    size_t degree = 0;
    for (size_t j = 0; j < n; ++j)
        degree += !gone[j] && graph[node * n + j];
    return degree;
}

/* All neighbours of an eliminated node become neighbours of each other. */
static void fill_in(size_t n, bool *graph, const bool *gone, size_t node)
{
    for (size_t i = 0; i < n; ++i) {
        if (gone[i] || !graph[node * n + i])
            continue;
        for (size_t j = 0; j < n; ++j)
            if (!gone[j] && graph[node * n + j])
                graph[i * n + j] = true;
    }
}

/* Eliminates node by node, always the one with fewest neighbours; graph gains the fill. */
static void minimum_degree(size_t n, bool *graph, bool *gone, size_t order[])
{
    for (size_t place = 0; place < n; ++place) {
        size_t best = n;
        size_t best_degree = n + 1;
        for (size_t i = 0; i < n; ++i) {
            size_t degree = gone[i] ? n + 1 : degree_of(n, graph, gone, i);
            if (degree < best_degree) {
                best_degree = degree;
                best = i;
            }
        }
        order[place] = best;
        gone[best] = true;
        fill_in(n, graph, gone, best);
    }
}

/* Rows of the filled pattern in elimination order. graph is the symmetric filled pattern by node.
 */
static void fill_rows(struct sparse *sparse, const bool *graph)
{
    size_t n = sparse->n;
    size_t entry = 0;
    for (size_t i = 0; i < n; ++i) {
        sparse->row_start[i] = entry;
        for (size_t j = 0; j < n; ++j) {
            size_t row = sparse->order[i];
            size_t col = sparse->order[j];
            if (i != j && !graph[row * n + col])
                continue;
            if (i == j)
                sparse->row_diagonal[i] = entry;
            sparse->col[entry] = j;
            sparse->from[entry++] = col * n + row;
        }
    }
    sparse->row_start[n] = entry;
}

static size_t count_entries(size_t n, const bool *graph)
{
    size_t count = 0;
    for (size_t i = 0; i < n * n; ++i)
        count += graph[i];
    return count + n;
}

static bool allocate_rows(struct sparse *sparse, size_t entries)
{
    size_t n = sparse->n;
    sparse->row_start = calloc(n + 1, sizeof *sparse->row_start);
    sparse->row_diagonal = calloc(n + 1, sizeof *sparse->row_diagonal);
    sparse->col = calloc(entries + 1, sizeof *sparse->col);
    sparse->from = calloc(entries + 1, sizeof *sparse->from);
    sparse->value = calloc(entries + 1, sizeof *sparse->value);
    sparse->row = calloc(n + 1, sizeof *sparse->row);
    sparse->permuted = calloc(n + 1, sizeof *sparse->permuted);
    return sparse->row_start && sparse->row_diagonal && sparse->col && sparse->from &&
           sparse->value && sparse->row && sparse->permuted;
}

struct sparse *dawn_trajectory_sparse_new(size_t n, const bool pattern[])
{
    struct sparse *sparse = calloc(1, sizeof *sparse);
    bool *graph = calloc(n * n + 1, sizeof *graph), *gone = calloc(n + 1, sizeof *gone);
    bool fine = sparse && graph && gone;
    if (fine) {
        sparse->n = n;
        sparse->order = calloc(n + 1, sizeof *sparse->order);
        fine = sparse->order != NULL;
    }
    if (fine) {
        for (size_t i = 0; i < n; ++i)
            for (size_t j = 0; j < n; ++j)
                graph[i * n + j] = i != j && (pattern[i * n + j] || pattern[j * n + i]);
        minimum_degree(n, graph, gone, sparse->order);
        fine = allocate_rows(sparse, count_entries(n, graph));
    }
    if (fine)
        fill_rows(sparse, graph);
    free(graph);
    free(gone);
    if (!fine) {
        dawn_trajectory_sparse_free(sparse);
        return NULL;
    }
    return sparse;
}

void dawn_trajectory_sparse_free(struct sparse *sparse)
{
    if (!sparse)
        return;
    free(sparse->order);
    free(sparse->row_start);
    free(sparse->row_diagonal);
    free(sparse->col);
    free(sparse->from);
    free(sparse->value);
    free(sparse->row);
    free(sparse->permuted);
    free(sparse);
}

struct sparse_rows dawn_trajectory_sparse_rows(const struct sparse *sparse)
{
    return (struct sparse_rows){sparse->n, sparse->order, sparse->row_start, sparse->row_diagonal,
                                sparse->col};
}

size_t dawn_trajectory_sparse_entries(const struct sparse *sparse)
{
    return sparse->row_start[sparse->n];
}

bool dawn_trajectory_sparse_factor(struct sparse *sparse, const double jacobian[], double gamma)
{
    double *value = sparse->value;
    double *row = sparse->row;
    for (size_t i = 0; i < sparse->n; ++i) {
        size_t start = sparse->row_start[i];
        size_t end = sparse->row_start[i + 1];
        size_t diagonal = sparse->row_diagonal[i];
        for (size_t e = start; e < end; ++e)
            row[sparse->col[e]] = -gamma * jacobian[sparse->from[e]];
        row[i] += 1.0;
        for (size_t e = start; e < diagonal; ++e) {
            size_t k = sparse->col[e];
            double factor = row[k] * value[sparse->row_diagonal[k]];
            value[e] = factor;
            for (size_t f = sparse->row_diagonal[k] + 1; f < sparse->row_start[k + 1]; ++f)
                row[sparse->col[f]] -= factor * value[f];
        }
        if (!isfinite(row[i]) || fabs(row[i]) < 1e-12)
            return false;
        value[diagonal] = 1.0 / row[i]; /* kept inverted: solving multiplies */
        for (size_t e = diagonal + 1; e < end; ++e)
            value[e] = row[sparse->col[e]];
    }
    return true;
}

void dawn_trajectory_sparse_solve(struct sparse *sparse, double x[], const double b[])
{
    const double *value = sparse->value;
    double *z = sparse->permuted;
    for (size_t i = 0; i < sparse->n; ++i) {
        double sum = b[sparse->order[i]];
        for (size_t e = sparse->row_start[i]; e < sparse->row_diagonal[i]; ++e)
            sum -= value[e] * z[sparse->col[e]];
        z[i] = sum;
    }
    for (size_t i = sparse->n; i-- > 0;) {
        double sum = z[i];
        for (size_t e = sparse->row_diagonal[i] + 1; e < sparse->row_start[i + 1]; ++e)
            sum -= value[e] * z[sparse->col[e]];
        z[i] = sum * value[sparse->row_diagonal[i]];
    }
    for (size_t i = 0; i < sparse->n; ++i)
        x[sparse->order[i]] = z[i];
}
