/* A second skin for single glazing. Private to src/studies/. */
#ifndef STUDIES_SECOND_SKIN_H
#define STUDIES_SECOND_SKIN_H

#include "dawnlow/studies/trials.h"

/* Adds what gives every single face of the scenario its second skin; how many faces that are. A
 * face that says its own gap, or has no double of its kind, stays as it is. */
size_t dawn_second_skin(struct dawn_trial *trial, const struct dawn_scenario *scenario);

#endif
