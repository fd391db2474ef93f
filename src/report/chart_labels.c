/* Names at the ends of lines, moved apart where lines end side by side. */
#include <assert.h>

#include "report/chart_parts.h"

static void sort_by_wish(size_t order[], const double wish[], size_t count)
{
    for (size_t i = 0; i < count; i++) {
        size_t k = i;
        for (; k > 0 && wish[order[k - 1]] > wish[i]; k--) {
            order[k] = order[k - 1];
        }
        order[k] = i;
    }
}

/* Labels in order, a gap each, are apart when wish - place * gap does not fall: the nearest such
 * row in least squares is the one of pooled neighbours (isotonic regression, Barlow et al. 1972,
 * from memory). */
struct pool {
    double sum;
    size_t count;
};

static double middle(const struct pool *pool)
{
    return pool->sum / (double)pool->count;
}

static size_t pool_neighbours(struct pool pool[], const double value[], size_t count)
{
    size_t pools = 0;

    for (size_t i = 0; i < count; i++) {
        pool[pools++] = (struct pool){value[i], 1};
        while (pools > 1 && middle(&pool[pools - 2]) > middle(&pool[pools - 1])) {
            pools--;
            pool[pools - 1].sum += pool[pools].sum;
            pool[pools - 1].count += pool[pools].count;
        }
    }
    return pools;
}

static double within(double value, double least, double most)
{
    if (value > most) {
        value = most;
    }
    return value < least ? least : value;
}

void dawn_chart_labels_apart(double wish[], size_t count, double gap, double least, double most)
{
    size_t order[DAWN_CHART_LINES];
    double value[DAWN_CHART_LINES];
    struct pool pool[DAWN_CHART_LINES];
    size_t at = 0;

    assert(count <= DAWN_CHART_LINES);
    sort_by_wish(order, wish, count);
    for (size_t i = 0; i < count; i++) {
        value[i] = wish[order[i]] - (double)i * gap;
    }
    if (count == 0) {
        return;
    }
    const size_t pools = pool_neighbours(pool, value, count);
    const double last = most - gap * (double)(count - 1);
    for (size_t i = 0; i < pools; i++) {
        for (size_t k = 0; k < pool[i].count && at < count; k++, at++) {
            wish[order[at]] = within(middle(&pool[i]), least, last) + (double)at * gap;
        }
    }
}
