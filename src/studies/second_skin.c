/* Each single glazing and its double. */
#include "studies/second_skin.h"

#include <math.h>
#include <string.h>

static const char *doubled(const char *type)
{
    static const char *const pairs[][2] = {{"film", "double-film"},
                                           {"film-thermal", "double-film-thermal"},
                                           {"glass", "double-glass"},
                                           {"glass-low-iron", "double-glass"}};

    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        if (strcmp(pairs[i][0], type) == 0) {
            return pairs[i][1];
        }
    }
    return NULL;
}

size_t dawn_second_skin(struct dawn_trial *trial, const struct dawn_scenario *scenario)
{
    size_t types = 0;
    const struct dawn_glazing_type *type = dawn_scenario_glazing_types(&types);
    size_t faces = 0;

    for (size_t i = 0; i < scenario->glazing_count; i++) {
        const struct dawn_glazing *face = &scenario->glazing[i];
        const char *other = doubled(type[face->type].word);
        if (other != NULL && isnan(face->skins) && isnan(face->gap_resistance_m2K_W)) {
            dawn_trials_set(trial, "glazing.%zu.type=%s", i + 1, other);
            faces++;
        }
    }
    return faces;
}
