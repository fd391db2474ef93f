/* A scenario like another with some values changed: what studies vary. */
#include <stdlib.h>
#include <string.h>

#include "scenario/scenario_parts.h"

static bool copy_origins(struct dawn_scenario *scenario)
{
    const struct dawn_scenario_origins *from = scenario->origins;
    struct dawn_scenario_origins *own = calloc(1, sizeof *own);

    scenario->origins = own;
    if (own == NULL || from == NULL || from->count == 0)
        return own != NULL;
    own->item = malloc(from->count * sizeof *own->item);
    if (own->item == NULL)
        return false;
    memcpy(own->item, from->item, from->count * sizeof *own->item);
    own->count = own->capacity = from->count;
    return true;
}

enum dawn_status dawn_scenario_with(struct dawn_scenario *scenario,
                                    const struct dawn_scenario *base, const char *const *overrides,
                                    size_t override_count, struct dawn_problems *problems)
{
    struct dawn_problems found = {0};
    struct dawn_scenario_reading reading = {
        .scenario = scenario, .problems = &found, .name = base->path, .way = "with"};

    *scenario = *base;
    if (!copy_origins(scenario))
        return DAWN_ERR_NOMEM;
    for (size_t i = 0; i < override_count; i++)
        dawn_scenario_set_override(&reading, overrides[i]);
    dawn_scenario_check_required(&reading);
    dawn_scenario_check_rules(&reading);
    dawn_problems_sort(&found);
    const bool bad = found.errors > 0;
    /* Whoever varies a scenario a thousand times has seen its warnings once. */
    if (bad)
        dawn_problems_add_all(problems, &found);
    dawn_problems_release(&found);
    if (reading.no_memory)
        return DAWN_ERR_NOMEM;
    return bad ? DAWN_ERR_SCENARIO : DAWN_OK;
}
