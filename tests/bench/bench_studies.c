/* The program at its many runs, from start to printed answer: one thread against two in turns over
 * 64 designs that all differ, what 1,000 of them would take, and a forecast of 200 members. */
#include <math.h>

#include "bench/figures.h"
#include "bench/nursery.h"
#include "bench/race.h"
#include "bench/started.h"
#include "support/shipped_place.h"

#define FORECAST                                                                                   \
    "forecast", BENCH_DEMO, "--weather=weather/alder-hollow-week.csv", "--history=" SHIPPED_WEATHER
#define SWEEP "sweep", BENCH_DEMO, "--vary=rock.mass=4 t..24 t/64"

enum { DESIGNS = 64, WANTED = 1000, SEASON_DAYS = 120 };

/* Days a design lives through: all its weather, and the spin-up before. */
static double lived_days(void)
{
    struct nursery demo;
    const bool ran = nursery_open(&demo, BENCH_DEMO, NULL, NULL, 0) && nursery_run(&demo);
    const double days = ran ? nursery_lived_days(demo.run) : NAN;
    nursery_close(&demo);
    return days;
}

static bool bench_designs(void)
{
    struct started one = {.words = {SWEEP, "-j1"}};
    struct started two = {.words = {SWEEP, "-j2"}};
    struct runner both[] = {{.run = started_run, .user = &one}, {.run = started_run, .user = &two}};
    if (!bench_race(both, 2, 4, false))
        return false;
    const double each_s = both[1].least_s / DESIGNS;
    const double days = lived_days();
    const double year_days = days - SEASON_DAYS + BENCH_YEAR_S / 86400.0;
    bench_figure("threads.one", both[0].least_s, "s", "%d designs x a season, one thread", DESIGNS);
    bench_figure("threads.two", both[1].least_s, "s", "the same, two threads");
    bench_figure("threads.ratio", both[0].least_s / both[1].least_s, "",
                 "two threads: times as fast as one");
    bench_figure("designs.season", WANTED * each_s, "s",
                 "%d designs x a season on two cores, reckoned from %d", WANTED, DESIGNS);
    bench_figure("designs.year", WANTED * each_s * year_days / days, "s",
                 "%d designs x a year on two cores, reckoned by days from that", WANTED);
    bench_figure("memory.designs", (double)two.peak_kB / 1024, "MB",
                 "most memory, %d designs on two threads", DESIGNS);
    return true;
}

static bool bench_forecast(void)
{
    struct started two = {.words = {FORECAST, "-j2"}};
    struct started one = {.words = {FORECAST, "-j1"}};
    struct runner both[] = {{.run = started_run, .user = &two}, {.run = started_run, .user = &one}};
    if (!bench_race(both, 2, 3, false))
        return false;
    bench_figure("forecast.two", both[0].least_s, "s",
                 "forecast, 200 members x 7 nights, two cores, start to answer");
    bench_figure("forecast.one", both[1].least_s, "s", "the same on one core");
    return true;
}

int main(void)
{
    const bool forecast = bench_forecast();
    return bench_designs() && forecast ? 0 : bench_failed("a study of the program failed");
}
