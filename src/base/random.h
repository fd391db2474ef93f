/* Numbers that look random and are the same for the same seed, on every machine. */
#ifndef BASE_RANDOM_H
#define BASE_RANDOM_H

#include <stdint.h>

/* splitmix64 (Steele, Lea & Flood 2014). state = the seed to start; any value is fine. */
struct dawn_random {
    uint64_t state;
};
uint64_t dawn_random_bits(struct dawn_random *random);
/* A generator of its own for each number of a stream: what one draws never moves another, in
 * whatever order and on however many threads they draw. */
struct dawn_random dawn_random_stream(uint64_t seed, uint64_t number);
/* Even over least <= value < most. */
double dawn_random_between(struct dawn_random *random, double least, double most);
/* A whole number, 0 .. count - 1, each as likely; count >= 1. */
uint64_t dawn_random_below(struct dawn_random *random, uint64_t count);
/* Normal with mean 0 and deviation 1. */
double dawn_random_normal(struct dawn_random *random);
/* The normal value (mean 0, deviation 1) that a share 0 < share < 1 of all lie below. Relative
 * error below 1e-12: Acklam's rational start (2003) with one step of Halley's method on erfc. */
double dawn_random_normal_at(double share);

#endif
