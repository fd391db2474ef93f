/* How long dawnlow takes: reading, building, a season, the start of the program itself. Prints a
 * table and writes it as bench.csv into the build folder. It judges nothing: the figures belong to
 * the machine they were taken on. Fails only when something cannot be read or run. Run from the top
 * of the tree (make bench). */
#include <glob.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "bench/plain_cvode.h"
#include "dawnlow/dawnlow.h"

static const char *const demo_path = "scenarios/alder-hollow.yaml";
static const char *const demo_weather = "weather/alder-hollow-spring.csv";
/* Noon to noon of 8 and 22 March 2026, UTC + 1 h, as `nights --from 03-08 --to 03-22` runs. */
static const int64_t weeks_from_s = 1772967600, weeks_to_s = 1774177200;
static const double year_s = 365.25 * 86400.0;

enum { REPEATS_MOST = 64, PATH_LENGTH = 600 };

/* ---- what is measured ---- */

struct work {
    const char *scenario_path, *weather_path;
    struct dawn_scenario scenario;
    struct dawn_weather weather;
    struct dawn_network *network;
    struct dawn_trajectory_plan plan;
    struct dawn_trajectory *run;
    struct dawn_problems problems;
    char *const *words; /* of a program to start */
    long peer_steps;
};

static enum dawn_status read_scenario(struct work *work)
{
    dawn_scenario_release(&work->scenario);
    const enum dawn_status status =
        dawn_scenario_read(&work->scenario, work->scenario_path, NULL, 0, &work->problems);
    /* Every nursery is taken to where the demo's weather is: its sun must shine by day. */
    work->scenario.site.latitude_deg = 45.2;
    work->scenario.site.longitude_deg = 6.9;
    work->scenario.site.elevation_m = 480;
    work->scenario.site.utc_offset_h = 1;
    return status;
}

static enum dawn_status read_weather(struct work *work)
{
    const struct dawn_site *site = &work->scenario.site;
    const struct dawn_weather_hints hints = {.latitude_deg = site->latitude_deg,
                                             .longitude_deg = site->longitude_deg,
                                             .elevation_m = site->elevation_m,
                                             .utc_offset_h = work->scenario.weather.utc_offset_h,
                                             .site_utc_offset_h = site->utc_offset_h,
                                             .stamp = work->scenario.weather.stamp - 1,
                                             .temperature_unit =
                                                 work->scenario.weather.temperature_unit};
    return dawn_weather_read(&work->weather, work->weather_path, &hints, &work->problems);
}

static enum dawn_status build_network(struct work *work)
{
    dawn_network_free(work->network);
    work->network = NULL;
    return dawn_network_build(&work->network, &work->scenario, &work->weather, &work->problems);
}

static enum dawn_status run_plan(struct work *work)
{
    dawn_trajectory_free(work->run);
    work->run = NULL;
    return dawn_trajectory_run(&work->run, work->network, &work->plan, &work->problems);
}

/* Both at the same tolerances, from the same start, all the weather. */
static const double peer_rtol = 1e-4, peer_atol_K = 1e-3;

static enum dawn_status run_plain(struct work *work)
{
    work->peer_steps = plain_cvode_run(work->network, peer_rtol, peer_atol_K);
    return work->peer_steps > 0 ? DAWN_OK : DAWN_ERR_SOLVER;
}

enum { MEMBERS = 16 };

/* The same run in every lane, twice over. */
static enum dawn_status run_ensemble(struct work *work)
{
    struct dawn_ensemble_member members[MEMBERS];
    enum dawn_status status = DAWN_OK;

    for (int i = 0; i < MEMBERS; ++i)
        members[i] = (struct dawn_ensemble_member){.network = work->network, .plan = work->plan};
    dawn_ensemble_run(members, MEMBERS);
    for (int i = 0; i < MEMBERS; ++i) {
        status = members[i].status != DAWN_OK ? members[i].status : status;
        dawn_trajectory_free(members[i].trajectory);
        dawn_problems_release(&members[i].problems);
    }
    return status;
}

static enum dawn_status find_nights(struct work *work)
{
    struct dawn_nights nights = {0};
    const enum dawn_status status =
        dawn_nights_find(&nights, work->run, work->network, &work->scenario, &work->problems);
    dawn_nights_release(&nights);
    return status;
}

/* A program of its own, its output thrown away. */
static enum dawn_status start_program(struct work *work)
{
    /* What is still to be written belongs to one of the two. */
    (void)fflush(NULL);
    const pid_t child = fork();
    int ended = 0;

    if (child == 0) {
        if (freopen("/dev/null", "w", stdout) != NULL && freopen("/dev/null", "w", stderr) != NULL)
            execv(work->words[0], work->words);
        _exit(127);
    }
    if (child < 0 || waitpid(child, &ended, 0) != child || !WIFEXITED(ended) ||
        WEXITSTATUS(ended) != 0)
        return DAWN_ERR_IO;
    return DAWN_OK;
}

static void release(struct work *work)
{
    dawn_trajectory_free(work->run);
    dawn_network_free(work->network);
    dawn_weather_release(&work->weather);
    dawn_scenario_release(&work->scenario);
    dawn_problems_release(&work->problems);
}

/* ---- timing ---- */

static double now_s(void)
{
    struct timespec now;
    return clock_gettime(CLOCK_MONOTONIC, &now) == 0
               ? (double)now.tv_sec + 1e-9 * (double)now.tv_nsec
               : NAN;
}

struct timing {
    double median_s, least_s;
    int repeats;
    bool failed;
};

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The first call is not counted: it brings files and code into memory. */
static struct timing measure(struct work *work, enum dawn_status (*job)(struct work *), int repeats)
{
    double seconds[REPEATS_MOST];
    struct timing timing = {.repeats = repeats};

    timing.failed = job(work) != DAWN_OK;
    for (int i = 0; i < repeats && !timing.failed; ++i) {
        const double before_s = now_s();
        timing.failed = job(work) != DAWN_OK;
        seconds[i] = now_s() - before_s;
    }
    if (timing.failed)
        return timing;
    qsort(seconds, (size_t)repeats, sizeof *seconds, by_size);
    timing.least_s = seconds[0];
    timing.median_s = 0.5 * (seconds[(repeats - 1) / 2] + seconds[repeats / 2]);
    return timing;
}

/* ---- the table, on the screen and in the file ---- */

static FILE *csv;

/* A figure that is counted or derived: its median and least columns are the same. */
static void put_figure(const char *unit, double value, const char *what, ...)
    __attribute__((format(printf, 3, 4)));
static void put_figure(const char *unit, double value, const char *what, ...)
{
    char name[160];
    va_list arguments;
    va_start(arguments, what);
    (void)vsnprintf(name, sizeof name, what, arguments);
    va_end(arguments);
    printf("%-46s %5s %13.6g %13s %s\n", name, "", value, "", unit);
    if (csv != NULL)
        (void)fprintf(csv, "\"%s\",%s,1,%.9g,%.9g\n", name, unit, value, value);
}

static void put_timing(const char *what, struct timing timing)
{
    if (timing.failed) {
        printf("%-46s %5s %13s\n", what, "", "failed");
        return;
    }
    printf("%-46s %5d %13.3f %13.3f ms\n", what, timing.repeats, 1e3 * timing.median_s,
           1e3 * timing.least_s);
    if (csv != NULL)
        (void)fprintf(csv, "\"%s\",ms,%d,%.9g,%.9g\n", what, timing.repeats, 1e3 * timing.median_s,
                      1e3 * timing.least_s);
}

static void put_effort(const struct work *work, struct timing timing, const char *what)
{
    if (timing.failed)
        return;
    const struct dawn_trajectory_facts facts = dawn_trajectory_facts(work->run);
    const double span_s =
        (double)(dawn_trajectory_to_s(work->run) - dawn_trajectory_from_s(work->run));

    put_figure("days", span_s / 86400.0, "  %s: simulated", what);
    put_figure("days", facts.lead_days + facts.spin_up_days, "  %s: lived through before", what);
    put_figure("", (double)facts.steps, "  %s: steps", what);
    put_figure("", (double)facts.rhs_evaluations, "  %s: rate evaluations", what);
    put_figure("", (double)facts.jacobian_evaluations, "  %s: Jacobians", what);
    put_figure("", (double)facts.switches, "  %s: fan switches", what);
    put_figure("us", 1e6 * timing.median_s / (double)facts.steps, "  %s: time per step", what);
    /* The days before the run are work like any other. */
    const double lived_s = span_s + 86400.0 * (facts.lead_days + facts.spin_up_days);
    put_figure("years/s", lived_s / year_s / timing.median_s, "  %s: simulated years per second",
               what);
    put_figure("s", timing.median_s * (year_s + lived_s - span_s) / lived_s,
               "  %s: a whole year at this pace", what);
    put_figure("", facts.imbalance, "  %s: imbalance", what);
}

/* Many at once against one after another, on one core. */
static void put_ensemble(const struct work *work, struct timing one, struct timing many)
{
    if (one.failed || many.failed)
        return;
    const struct dawn_trajectory_facts facts = dawn_trajectory_facts(work->run);
    const double lived_s =
        (double)(dawn_trajectory_to_s(work->run) - dawn_trajectory_from_s(work->run)) +
        86400.0 * (facts.lead_days + facts.spin_up_days);
    const double each_s = many.median_s / MEMBERS;

    put_figure("", dawn_ensemble_lanes(), "  ensemble: lanes");
    put_figure("ms", 1e3 * each_s, "  ensemble: time per member");
    put_figure("years/s", lived_s / year_s / each_s, "  ensemble: simulated years per second");
    put_figure("", one.median_s / each_s, "  ensemble: times as fast as one after another");
}

static void put_memory(const char *what, int who)
{
    struct rusage used;
    if (getrusage(who, &used) == 0)
        put_figure("MB", (double)used.ru_maxrss / 1024.0, "%s", what);
}

/* ---- the parts of the bench ---- */

static void complain(const struct work *work)
{
    for (size_t i = 0; i < work->problems.count; ++i)
        if (work->problems.items[i].severity == DAWN_ERROR)
            (void)fprintf(stderr, "bench_nights: %s\n", work->problems.items[i].message);
}

/* Ours against CVODE as its manual's first example would have it. */
static bool bench_plain(struct work *work)
{
    const struct dawn_trajectory_plan usual = work->plan;
    work->plan.rtol = peer_rtol;
    work->plan.atol_K = peer_atol_K;
    work->plan.spin_up = false;
    const struct timing ours = measure(work, run_plan, 5);
    const struct timing plain = measure(work, run_plain, 1);

    work->plan = usual;
    put_timing("run the season at rtol 1e-4", ours);
    put_timing("the same, CVODE dense by differences", plain);
    if (ours.failed || plain.failed)
        return false;
    put_figure("", (double)work->peer_steps, "  CVODE dense by differences: steps");
    put_figure("", plain.median_s / ours.median_s, "  ours: times as fast as that");
    return true;
}

static bool bench_demo(void)
{
    struct work work = {.scenario_path = demo_path, .weather_path = demo_weather};
    struct timing timing = measure(&work, read_scenario, 40);

    put_timing("read the scenario", timing);
    bool fine = !timing.failed;
    if (fine) {
        timing = measure(&work, read_weather, 20);
        put_timing("read the weather", timing);
        fine = !timing.failed;
    }
    if (fine) {
        put_figure("", (double)work.weather.count, "  weather: hours");
        timing = measure(&work, build_network, 20);
        put_timing("build the network", timing);
        fine = !timing.failed;
    }
    if (fine) {
        put_figure("", (double)dawn_network_node_count(work.network), "  network: nodes");
        put_figure("", (double)dawn_network_flow_count(work.network), "  network: flows");
        work.plan = dawn_trajectory_plan_usual();
        timing = measure(&work, run_plan, 7);
        put_timing("run the season", timing);
        put_effort(&work, timing, "season");
        fine = !timing.failed;
    }
    if (fine) {
        const struct timing many = measure(&work, run_ensemble, 5);
        put_timing("run 16 seasons at once", many);
        put_ensemble(&work, timing, many);
        fine = !many.failed;
    }
    if (fine) {
        fine = bench_plain(&work) && run_plan(&work) == DAWN_OK && fine;
        put_timing("find the season's nights", measure(&work, find_nights, 20));
        work.plan.from_s = weeks_from_s;
        work.plan.to_s = weeks_to_s;
        timing = measure(&work, run_plan, 11);
        put_timing("run two weeks in March", timing);
        put_effort(&work, timing, "two weeks");
        fine = !timing.failed;
    }
    complain(&work);
    release(&work);
    return fine;
}

/* A season of the demo's weather for every nursery that is shipped. */
static bool bench_scenario(const char *path)
{
    struct work work = {
        .scenario_path = path, .weather_path = demo_weather, .plan = dawn_trajectory_plan_usual()};
    struct timing timing = {.failed = true};
    char name[PATH_LENGTH];
    (void)snprintf(name, sizeof name, "season of %s", path);

    if (read_scenario(&work) == DAWN_OK && read_weather(&work) == DAWN_OK &&
        build_network(&work) == DAWN_OK)
        timing = measure(&work, run_plan, 5);
    put_timing(name, timing);
    complain(&work);
    release(&work);
    return !timing.failed;
}

static bool bench_shipped(void)
{
    glob_t found;
    bool fine = glob("scenarios/*.yaml", 0, NULL, &found) == 0;

    if (!fine)
        return false;
    for (size_t i = 0; i < found.gl_pathc; ++i)
        fine = bench_scenario(found.gl_pathv[i]) && fine;
    globfree(&found);
    return fine;
}

static void bench_program(char *program)
{
    char version[] = "--version";
    char nights[] = "nights";
    char scenario[PATH_LENGTH];
    (void)snprintf(scenario, sizeof scenario, "%s", demo_path);
    char *const start[] = {program, version, NULL};
    char *const season[] = {program, nights, scenario, NULL};
    char forecast[] = "forecast";
    char weather[] = "--weather=weather/alder-hollow-week.csv";
    char history[] = "--history=weather/alder-hollow-spring.csv";
    char one[] = "-j1";
    char *const coming[] = {program, forecast, scenario, weather, history, NULL};
    char *const coming_one[] = {program, forecast, scenario, weather, history, one, NULL};
    char sweep[] = "sweep";
    char vary[] = "--vary=rock.mass=4 t..24 t/32";
    char *const designs[] = {program, sweep, scenario, vary, NULL};
    char *const designs_one[] = {program, sweep, scenario, vary, one, NULL};
    struct work work = {.words = start};

    if (access(program, X_OK) != 0) {
        printf("%s is not built: its start is not measured\n", program);
        return;
    }
    put_timing("program: dawnlow --version", measure(&work, start_program, 40));
    put_memory("program: most memory, --version", RUSAGE_CHILDREN);
    work.words = season;
    put_timing("program: dawnlow nights, a season", measure(&work, start_program, 5));
    put_memory("program: most memory, a season", RUSAGE_CHILDREN);
    work.words = coming;
    put_timing("program: dawnlow forecast, 7 nights 200 times", measure(&work, start_program, 3));
    work.words = coming_one;
    put_timing("program: the same by one thread", measure(&work, start_program, 3));
    work.words = designs;
    put_timing("program: dawnlow sweep, 32 seasons", measure(&work, start_program, 3));
    work.words = designs_one;
    put_timing("program: the same by one thread", measure(&work, start_program, 3));
}

/* The build folder is where this program lies: BUILD/tests/bench/bench_nights. */
static void in_build(char *path, size_t size, const char *own_path, const char *name)
{
    const char *tests = strstr(own_path, "/tests/bench/");
    const int length = tests != NULL ? (int)(tests - own_path) : 5;
    (void)snprintf(path, size, "%.*s/%s", length, tests != NULL ? own_path : "build", name);
}

int main(int argument_count, char **arguments)
{
    const char *own_path = argument_count > 0 ? arguments[0] : "";
    char program[PATH_LENGTH];
    char table[PATH_LENGTH];
    in_build(program, sizeof program, own_path, "dawnlow");
    in_build(table, sizeof table, own_path, "bench.csv");

    csv = fopen(table, "w");
    if (csv == NULL)
        (void)fprintf(stderr, "bench_nights: %s cannot be written; the table is only shown\n",
                      table);
    else
        (void)fprintf(csv, "what,unit,repeats,median,least\n");
    printf("%-46s %5s %13s %13s\n", "what", "times", "median", "least");
    /* First, so that children start from a small parent. */
    bench_program(program);
    const bool demo = bench_demo();
    const bool shipped = bench_shipped();
    put_memory("this bench: most memory", RUSAGE_SELF);
    if (csv != NULL && fclose(csv) == 0)
        printf("also in %s\n", table);
    return demo && shipped ? 0 : 1;
}
