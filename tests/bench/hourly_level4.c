/* Sixteen lanes for x86-64-v4 (AVX-512); the Makefile compiles this file for it. */
#define DAWN_LANES 16
#include "bench/hourly_lanes.h"

bool bench_hourly_level4(struct queue *queue, const struct hours *hours)
{
    return run_hourly(queue, hours);
}
