/* The ensemble's kernels at exactly one step an hour: what no step control, no thermostat and no
 * weather can undercut. One compilation for each width and processor, as of the engine itself. */
#ifndef BENCH_HOURLY_H
#define BENCH_HOURLY_H

#include "trajectory/ensemble_queue.h"

/* The states of a real run at so many whole hours. */
struct hours {
    long count;
    const double *state; /* [hour * nodes + node] */
};
/* Every lane takes a member of the queue through all hours, an attempted step an hour that begins
 * at the hour's state: so long a step errs, and what it errs by must not grow. False when memory
 * ran out. */
bool bench_hourly_plain(struct queue *queue, const struct hours *hours);
bool bench_hourly_level3(struct queue *queue, const struct hours *hours);
bool bench_hourly_level4(struct queue *queue, const struct hours *hours);

#endif
