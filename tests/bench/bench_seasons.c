/* All the weather of every nursery that is shipped, at its own place, one after another on one core
 * by CVODE as `nights` runs it; and how well its heat and water close. */
#include <glob.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bench/figures.h"
#include "bench/nursery.h"
#include "bench/race.h"

static void tell(const char *name, const struct nursery *it, double season_s)
{
    const struct dawn_trajectory_facts facts = dawn_trajectory_facts(it->run);
    char key[160];
    (void)snprintf(key, sizeof key, "season.%s", name);
    bench_figure(key, season_s, "s", "%s: season, %zu states, %ld steps, %ld switches", name,
                 dawn_network_node_count(it->network), facts.steps, facts.switches);
    (void)snprintf(key, sizeof key, "imbalance.%s", name);
    bench_figure(key, fmax(facts.imbalance, facts.water_imbalance), "",
                 "%s: what does not close, heat or water", name);
}

static bool bench_nursery(const char *path)
{
    struct nursery it;
    const char *slash = strrchr(path, '/');
    const char *name = slash ? slash + 1 : path;
    char bare[80];
    (void)snprintf(bare, sizeof bare, "%.*s", (int)strcspn(name, "."), name);
    const bool open = nursery_open(&it, path, NULL, NULL, 0);
    struct runner alone = {.run = nursery_run, .user = &it};
    const bool ran = open && bench_race(&alone, 1, 2, false);
    if (ran)
        tell(bare, &it, alone.least_s);
    nursery_close(&it);
    return ran;
}

int main(void)
{
    glob_t found;
    bool fine = glob("scenarios/*.yaml", 0, NULL, &found) == 0;
    for (size_t i = 0; fine && i < found.gl_pathc; ++i)
        fine = bench_nursery(found.gl_pathv[i]);
    globfree(&found);
    return fine ? 0 : bench_failed("not all nurseries ran");
}
