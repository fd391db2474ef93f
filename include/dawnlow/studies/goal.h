/* What a nursery is to hold, as a grower says it: "0 C at trays, 1 night in 10 springs". */
#ifndef DAWNLOW_STUDIES_GOAL_H
#define DAWNLOW_STUDIES_GOAL_H

#include "dawnlow/nights.h"

enum dawn_goal_place { DAWN_GOAL_TRAYS, DAWN_GOAL_LEAVES, DAWN_GOAL_AIR, DAWN_GOAL_ROOTS };

struct dawn_goal {
    enum dawn_goal_place place;
    double line_C;          /* no lower there ... */
    double nights, springs; /* ... but in so many nights of so many springs */
    bool spring_only;       /* nights of spring count: March to May, south of the equator September
                               to November; false = all nights of the weather */
    char crop[DAWN_NAME_SIZE]; /* whose damage line it is; "" = none */
};

/* Reads a goal: a line, parts parted by commas.
 *   "LINE at PLACE"       LINE a temperature, PLACE trays, leaves, air or roots
 *   "CROP unharmed"       a crop of the scenario: its damage line where it is held against
 *   "N nights in M springs" or "... years" (all nights of the weather), "never";
 *   "1 night in 10 springs" when it is left out.
 * DAWN_ERR_USAGE with what was found, what is possible and an example. */
enum dawn_status dawn_goal_read(struct dawn_goal *goal, const char *text,
                                const struct dawn_scenario *scenario,
                                struct dawn_problems *problems);
/* "trays", "leaves", "house air", "roots". */
const char *dawn_goal_place_words(enum dawn_goal_place place);
/* A night's low at the goal's place; NAN where the nursery has no such place. */
double dawn_goal_low_C(const struct dawn_goal *goal, const struct dawn_night *night);
/* Whether a night counts: by the month of its evening. */
bool dawn_goal_counts(const struct dawn_goal *goal, const struct dawn_scenario *scenario,
                      const struct dawn_night *night);
/* Nights that may fall below the line in so many springs: a whole number, rounded down. */
size_t dawn_goal_allowed(const struct dawn_goal *goal, size_t springs);

#endif
