/* Four lanes for any processor: pairs where it has vectors of two. */
#define DAWN_LANES 4
#include "trajectory/ensemble_lanes.h"

bool dawn_ensemble_plain(struct queue *queue)
{
    return run_queue(queue);
}
