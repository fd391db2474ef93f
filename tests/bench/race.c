#include "bench/race.h"

#include <math.h>
#include <time.h>

static double now_s(void)
{
    struct timespec now;
    return clock_gettime(CLOCK_MONOTONIC, &now) == 0
               ? (double)now.tv_sec + 1e-9 * (double)now.tv_nsec
               : NAN;
}

bool bench_race(struct runner runners[], size_t count, int rounds, bool warm_up)
{
    for (size_t i = 0; i < count; ++i)
        runners[i].least_s = INFINITY;
    for (int round = warm_up ? -1 : 0; round < rounds; ++round)
        for (size_t i = 0; i < count; ++i) {
            const double before_s = now_s();
            if (!runners[i].run(runners[i].user))
                return false;
            if (round >= 0)
                runners[i].least_s = fmin(runners[i].least_s, now_s() - before_s);
        }
    return true;
}

double bench_least_s(bool (*run)(void *user), void *user, int rounds)
{
    struct runner alone = {.run = run, .user = user};
    return bench_race(&alone, 1, rounds, true) ? alone.least_s : NAN;
}
