/* One lane: plain C, for compilers without vectors and to hold the others against. */
#define DAWN_LANES 1
#include "trajectory/ensemble_lanes.h"

bool dawn_ensemble_one(struct queue *queue)
{
    return run_queue(queue);
}
