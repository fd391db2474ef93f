/* The program started as a user starts it, its output thrown away. */
#ifndef BENCH_STARTED_H
#define BENCH_STARTED_H

#include <stdbool.h>

enum { STARTED_WORDS = 16 };

struct started {
    const char *words[STARTED_WORDS]; /* without the program; NULL behind the last */
    long peak_kB;                     /* most memory of the last time */
};
/* A job for a race; user is a struct started. The program's path stands in DAWNLOW. False when it
 * ended with another status than 0. */
bool started_run(void *user);
/* Runs a job in a process of its own and tells its most memory, kB; 0 when it failed. */
long started_peak_kB(bool (*run)(void *user), void *user);

#endif
