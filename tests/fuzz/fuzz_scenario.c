/* Any bytes at all as a scenario: no crash, no leak, no silent failure. The part behind a NUL, when
 * there is one, is tried as a --set. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "dawnlow/scenario.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void count_line(const struct dawn_understood *line, void *user)
{
    *(size_t *)user += strlen(line->key) + strlen(line->value);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct dawn_scenario scenario;
    struct dawn_problems problems = {0};
    const uint8_t *zero = size == 0 ? NULL : memchr(data, 0, size);
    size_t text_size = zero == NULL ? size : (size_t)(zero - data);
    size_t set_size = zero == NULL ? 0 : size - text_size - 1;
    char *set = malloc(set_size + 1);
    size_t written = 0;
    if (set == NULL)
        return 0;
    if (set_size > 0)
        memcpy(set, zero + 1, set_size);
    set[set_size] = '\0';
    const char *sets[1] = {set};
    enum dawn_status status = dawn_scenario_parse(&scenario, "fuzz", (const char *)data, text_size,
                                                  sets, set_size > 0 ? 1 : 0, &problems);
    if ((status == DAWN_OK) != (problems.errors == 0))
        abort();
    if (status == DAWN_OK)
        dawn_scenario_understood(&scenario, count_line, &written);
    dawn_scenario_release(&scenario);
    dawn_problems_release(&problems);
    free(set);
    return 0;
}
