/* Many jobs on a few threads. */
#ifndef BASE_PARALLEL_H
#define BASE_PARALLEL_H

#include <stddef.h>

/* Calls job(0) ... job(jobs - 1), each once, up to `threads` (0 counts as 1) at the same time and
 * in no particular order, and returns when all are done. A job writes only to what is its own.
 * Built without OpenMP all run one after another; results do not differ. */
void dawn_parallel_for(size_t jobs, unsigned threads, void (*job)(size_t index, void *user),
                       void *user);

/* Runs step(user) while no other thread is inside such a step: for what jobs share. */
void dawn_parallel_alone(void (*step)(void *user), void *user);

#endif
