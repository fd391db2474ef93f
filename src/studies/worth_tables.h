/* The improvements and the guesses a nursery has. Private to src/studies/. */
#ifndef STUDIES_WORTH_TABLES_H
#define STUDIES_WORTH_TABLES_H

#include "dawnlow/studies/worth.h"

/* Fill name, care, trial and what the trial's own amounts do not cost (cost), for all that apply;
 * they return how many, at most DAWN_WORTH_MOST. */
size_t dawn_worth_ways(struct dawn_worth_way way[], const struct dawn_scenario *scenario);
size_t dawn_worth_guesses(struct dawn_worth_guess guess[], const struct dawn_scenario *scenario);

#endif
