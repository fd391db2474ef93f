/* OpenMP behind two functions, so that nobody else needs its pragmas. */
#include "base/parallel.h"

void dawn_parallel_for(size_t jobs, unsigned threads, void (*job)(size_t index, void *user),
                       void *user)
{
    const int most = threads == 0 ? 1 : (int)threads;

    (void)most; /* without OpenMP nobody asks */
#ifdef _OPENMP
#pragma omp parallel for num_threads(most) schedule(dynamic, 1)
#endif
    for (size_t i = 0; i < jobs; i++) {
        job(i, user);
    }
}

void dawn_parallel_alone(void (*step)(void *user), void *user)
{
#ifdef _OPENMP
#pragma omp critical(dawn_parallel)
#endif
    step(user);
}
