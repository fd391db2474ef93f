/* A Latin hypercube: a shuffled row of slices for each unknown, a place by lot in each slice. */
#include "studies/latin.h"

#include <stdlib.h>

#include "base/random.h"

/* Fisher and Yates' shuffle. */
static void shuffle(size_t *slice, size_t count, struct dawn_random *random)
{
    for (size_t i = 0; i < count; i++) {
        slice[i] = i;
    }
    for (size_t i = count; i > 1; i--) {
        const size_t other = (size_t)dawn_random_below(random, i);
        const size_t moved = slice[i - 1];
        slice[i - 1] = slice[other];
        slice[other] = moved;
    }
}

bool dawn_latin_fill(double *share, size_t members, size_t unknowns, uint64_t seed)
{
    size_t *slice = calloc(members > 0 ? members : 1, sizeof *slice);

    if (slice == NULL) {
        return false;
    }
    for (size_t unknown = 0; unknown < unknowns; unknown++) {
        struct dawn_random random = dawn_random_stream(seed, unknown);
        shuffle(slice, members, &random);
        for (size_t member = 0; member < members; member++) {
            const double place = dawn_random_between(&random, 0.0, 1.0);
            /* Never 0 and never 1, whatever is drawn: both have no normal value. */
            share[member * unknowns + unknown] =
                ((double)slice[member] + 0.001 + 0.998 * place) / (double)members;
        }
    }
    free(slice);
    return true;
}
