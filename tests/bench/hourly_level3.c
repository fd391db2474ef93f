/* Eight lanes for x86-64-v3 (AVX2); the Makefile compiles this file for it. */
#define DAWN_LANES 8
#include "bench/hourly_lanes.h"

bool bench_hourly_level3(struct queue *queue, const struct hours *hours)
{
    return run_hourly(queue, hours);
}
