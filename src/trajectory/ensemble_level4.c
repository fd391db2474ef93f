/* Sixteen lanes for x86-64-v4 (AVX-512); the Makefile compiles this file for it. */
#define DAWN_LANES 16
#include "trajectory/ensemble_lanes.h"

bool dawn_ensemble_level4(struct queue *queue)
{
    return run_queue(queue);
}
