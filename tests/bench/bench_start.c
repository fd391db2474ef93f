/* What passes before the first step: the program's start, reading, building; and memory. */
#include <math.h>
#include <stdlib.h>

#include "bench/figures.h"
#include "bench/nursery.h"
#include "bench/race.h"
#include "bench/started.h"

static void tell_ms(const char *key, const char *what, bool (*job)(void *user), void *user,
                    int rounds)
{
    const double least_s = bench_least_s(job, user, rounds);
    if (isnan(least_s))
        (void)bench_failed(what);
    else
        bench_figure(key, 1e3 * least_s, "ms", "%s", what);
}

static void tell_program(const char *year)
{
    struct started version = {.words = {"--version"}};
    struct started reading = {.words = {"weather", year}};
    struct started season = {.words = {"nights", BENCH_DEMO}};
    tell_ms("start.program", "start of the program (--version)", started_run, &version, 40);
    if (year)
        tell_ms("start.year", "start and a year of hourly CSV read and told (weather FILE)",
                started_run, &reading, 20);
    tell_ms("start.season", "a season from start to its table (nights)", started_run, &season, 3);
    bench_figure("memory.program", (double)version.peak_kB / 1024, "MB",
                 "most memory, start alone");
    bench_figure("memory.season", (double)season.peak_kB / 1024, "MB", "most memory, a season");
}

static void tell_reading(struct nursery *demo, const char *year)
{
    tell_ms("read.scenario", "the scenario read", nursery_read_scenario, demo, 40);
    tell_ms("read.season", "120 days of hourly CSV read", nursery_read_weather, demo, 20);
    tell_ms("build.network", "the network built", nursery_build, demo, 20);
    bench_figure("build.states", (double)dawn_network_node_count(demo->network), "",
                 "states of the network");
    bench_figure("build.flows", (double)dawn_network_flow_count(demo->network), "",
                 "flows of the network");
    struct nursery whole = {0};
    if (year && nursery_open(&whole, BENCH_DEMO, year, NULL, 0))
        tell_ms("read.year", "a year of hourly CSV read", nursery_read_weather, &whole, 20);
    nursery_close(&whole);
    if (nursery_run(demo))
        tell_ms("find.nights", "the season's nights found in a run", nursery_find_nights, demo, 20);
}

/* What each further member keeps until its nights are found. */
static void tell_members(struct nursery *demo)
{
    enum { FEW = 8, MANY = 40 };
    demo->members = FEW;
    const long few_kB = started_peak_kB(nursery_run_members, demo);
    demo->members = MANY;
    const long many_kB = started_peak_kB(nursery_run_members, demo);
    if (few_kB > 0 && many_kB > 0)
        bench_figure("memory.member", (double)(many_kB - few_kB) / 1024 / (MANY - FEW), "MB",
                     "memory of each further season of an ensemble");
}

int main(void)
{
    const char *year = getenv("DAWNLOW_BENCH_YEAR");
    struct nursery demo;
    /* First, so that children start from a small parent. */
    tell_program(year);
    if (!nursery_open(&demo, BENCH_DEMO, NULL, NULL, 0))
        return bench_failed("the demo nursery cannot be read");
    tell_members(&demo);
    tell_reading(&demo, year);
    nursery_close(&demo);
    return 0;
}
