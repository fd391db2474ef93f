/* How long things take, measured so that a noisy machine matters least: those that are to be
 * compared take turns, and of each the smallest time counts. */
#ifndef BENCH_RACE_H
#define BENCH_RACE_H

#include <stdbool.h>
#include <stddef.h>

struct runner {
    bool (*run)(void *user); /* false: it failed, and the race is off */
    void *user;
    double least_s; /* what comes of it */
};
/* Every runner once a round. With warm_up a round before them does not count: it brings files and
 * code into memory. */
bool bench_race(struct runner runners[], size_t count, int rounds, bool warm_up);
/* One alone; NAN when it failed. */
double bench_least_s(bool (*run)(void *user), void *user, int rounds);

#endif
