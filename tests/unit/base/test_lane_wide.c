/* test_lane.c over four lanes at once. */
#define DAWN_LANES 4
#include "../../unit/base/test_lane.c"
