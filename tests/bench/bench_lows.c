/* How far the ensemble's night lows lie from CVODE's at rtol 1e-9, over the demo's season. */
#include <math.h>
#include <stdlib.h>

#include "bench/figures.h"
#include "bench/nursery.h"

enum { NIGHTS_MOST = 1000 };

struct apart {
    double K[NIGHTS_MOST];
    size_t count, above;
    double cold_K, air_cold_K; /* largest of nights below 5 C, where it counts and of the air */
};

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

static void compare(struct apart *apart, const struct dawn_nights *close,
                    const struct dawn_nights *fast)
{
    for (size_t i = 0; i < close->count && i < fast->count && i < NIGHTS_MOST; ++i) {
        const struct dawn_night *a = &close->night[i];
        const struct dawn_night *b = &fast->night[i];
        const double K = fabs(a->place_low_C - b->place_low_C);
        apart->K[apart->count++] = K;
        apart->above += K > 0.05;
        if (a->place_low_C < 5.0)
            apart->cold_K = fmax(apart->cold_K, K);
        if (a->air_low_C < 5.0)
            apart->air_cold_K = fmax(apart->air_cold_K, fabs(a->air_low_C - b->air_low_C));
    }
    qsort(apart->K, apart->count, sizeof *apart->K, by_size);
}

static void tell(const struct apart *apart)
{
    const size_t hundredth = apart->count / 100;
    bench_figure("lows.nights", (double)apart->count, "", "nights compared with CVODE at 1e-9");
    bench_figure("lows.p99", apart->K[apart->count - 1 - hundredth], "K",
                 "ensemble: night lows off by, 99 of 100");
    bench_figure("lows.cold", apart->cold_K, "K", "ensemble: off at most, of nights below 5 C");
    bench_figure("lows.air", apart->air_cold_K, "K", "ensemble: the same of the house air");
    bench_figure("lows.above", (double)apart->above, "", "nights off by more than 0.05 K");
}

static bool find(struct dawn_nights *nights, const struct dawn_trajectory *run, struct nursery *it)
{
    return dawn_nights_find(nights, run, it->network, &it->scenario, &it->problems) == DAWN_OK;
}

int main(void)
{
    static struct apart apart;
    struct nursery it;
    struct dawn_nights close = {0};
    struct dawn_nights fast = {0};
    if (!nursery_open(&it, BENCH_DEMO, NULL, NULL, 0))
        return bench_failed("the demo nursery cannot be read");
    struct dawn_ensemble_member member = {.network = it.network, .plan = it.plan};
    dawn_ensemble_run(&member, 1);
    it.plan.rtol = 1e-9;
    it.plan.atol_K = 1e-7;
    const bool fine = nursery_run(&it) && member.status == DAWN_OK && find(&close, it.run, &it) &&
                      find(&fast, member.trajectory, &it) && close.count > 0;
    if (fine) {
        compare(&apart, &close, &fast);
        tell(&apart);
    }
    dawn_nights_release(&close);
    dawn_nights_release(&fast);
    dawn_trajectory_free(member.trajectory);
    dawn_problems_release(&member.problems);
    nursery_close(&it);
    return fine ? 0 : bench_failed("the lows could not be compared");
}
