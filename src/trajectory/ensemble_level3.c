/* Eight lanes for x86-64-v3 (AVX2); the Makefile compiles this file for it. */
#define DAWN_LANES 8
#include "trajectory/ensemble_lanes.h"

bool dawn_ensemble_level3(struct queue *queue)
{
    return run_queue(queue);
}
