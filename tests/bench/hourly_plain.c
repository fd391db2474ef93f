/* Four lanes for any processor. */
#define DAWN_LANES 4
#include "bench/hourly_lanes.h"

bool bench_hourly_plain(struct queue *queue, const struct hours *hours)
{
    return run_hourly(queue, hours);
}
