/* Both engines on one core over a whole year of the demo, in turns: CVODE one run after another,
 * the ensemble with every lane full, twice over. And over its season CVODE as we use it against
 * CVODE as the first example of its manual would have it (plain_cvode.h). */
#include <stdlib.h>

#include "bench/figures.h"
#include "bench/nursery.h"
#include "bench/plain_cvode.h"
#include "bench/race.h"

enum { FILLS = 2 };

static void tell_engines(const struct nursery *it, double one_s, double many_s)
{
    const struct dawn_trajectory_facts one = dawn_trajectory_facts(it->run);
    const double years = nursery_lived_days(it->run) * 86400.0 / BENCH_YEAR_S;
    const double each_s = many_s / (double)it->members;
    bench_figure("engines.lanes", dawn_ensemble_lanes(), "", "lanes of the ensemble");
    bench_figure("engines.years", years, "years",
                 "weather lived through in a run, the days before it included");
    bench_figure("engines.cvode", years / one_s, "years/s",
                 "nursery-years a second and core, CVODE one after another");
    bench_figure("engines.cvode_step", 1e6 * one_s / (double)one.steps, "us",
                 "CVODE: a step, of %ld kept", one.steps);
    bench_figure("engines.ensemble", years / each_s, "years/s",
                 "nursery-years a second and core, ensemble");
    bench_figure("engines.attempt", 1e6 * each_s / (double)it->member_facts.jacobian_evaluations,
                 "us", "ensemble: a step tried, of %ld a member, %ld refused",
                 it->member_facts.jacobian_evaluations, it->member_facts.error_test_failures);
    bench_figure("engines.ratio", one_s / each_s, "", "ensemble: times as fast as CVODE");
}

static bool bench_year(const char *year)
{
    struct nursery it;
    const bool open = nursery_open(&it, BENCH_DEMO, year, NULL, 0);
    it.members = (size_t)(FILLS * dawn_ensemble_lanes());
    struct runner both[] = {{.run = nursery_run, .user = &it},
                            {.run = nursery_run_members, .user = &it}};
    const bool ran = open && bench_race(both, 2, 2, false);
    if (ran)
        tell_engines(&it, both[0].least_s, both[1].least_s);
    nursery_close(&it);
    return ran;
}

/* ---- against plain CVODE ---- */

/* Both at the same tolerances, from the same start, all the weather. */
static const double plain_rtol = 1e-4, plain_atol_K = 1e-3;

static bool run_plain(void *user)
{
    const struct nursery *it = user;
    return plain_cvode_run(it->network, plain_rtol, plain_atol_K) > 0;
}

static bool bench_plain(void)
{
    struct nursery it;
    const bool open = nursery_open(&it, BENCH_DEMO, NULL, NULL, 0);
    it.plan.rtol = plain_rtol;
    it.plan.atol_K = plain_atol_K;
    it.plan.spin_up = false;
    struct runner both[] = {{.run = nursery_run, .user = &it}, {.run = run_plain, .user = &it}};
    const bool ran = open && bench_race(both, 2, 2, false);
    if (ran) {
        bench_figure("plain.ours", both[0].least_s, "s", "season at rtol 1e-4, CVODE as we use it");
        bench_figure("plain.plain", both[1].least_s, "s",
                     "the same, CVODE dense by difference quotients");
        bench_figure("plain.ratio", both[1].least_s / both[0].least_s, "",
                     "ours: times as fast as plain CVODE");
    }
    nursery_close(&it);
    return ran;
}

int main(void)
{
    const char *year = getenv("DAWNLOW_BENCH_YEAR");
    if (!year || !bench_year(year))
        return bench_failed("the engines did not run through a year");
    return bench_plain() ? 0 : bench_failed("plain CVODE did not run through the season");
}
