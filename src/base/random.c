/* Numbers that look random and are the same for the same seed, on every machine. */
#include "base/random.h"

uint64_t dawn_random_bits(struct dawn_random *random)
{
    uint64_t z = (random->state += 0x9e3779b97f4a7c15U);

    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

double dawn_random_between(struct dawn_random *random, double least, double most)
{
    /* The 53 upper bits: as many as a double holds. */
    return least + (most - least) * ((double)(dawn_random_bits(random) >> 11) * 0x1.0p-53);
}
