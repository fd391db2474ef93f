/* Numbers that look random and are the same for the same seed, on every machine. */
#ifndef BASE_RANDOM_H
#define BASE_RANDOM_H

#include <stdint.h>

/* splitmix64 (Steele, Lea & Flood 2014). state = the seed to start; any value is fine. */
struct dawn_random {
    uint64_t state;
};
uint64_t dawn_random_bits(struct dawn_random *random);
/* Even over least <= value < most. */
double dawn_random_between(struct dawn_random *random, double least, double most);

#endif
