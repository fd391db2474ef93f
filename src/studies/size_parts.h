/* Designs: made, judged silly or not, and run. Private to src/studies/. */
#ifndef STUDIES_SIZE_PARTS_H
#define STUDIES_SIZE_PARTS_H

#include "dawnlow/studies/size.h"

enum { DAWN_SIZE_ALLOWED_MOST = 60 };

/* A search under way. */
struct size_search {
    const struct dawn_size_plan *plan;
    const struct dawn_scenario *scenario;
    struct dawn_years spells; /* the stretches of weather that decide */
    struct dawn_year *spell;
    size_t allowed;
    size_t finished, expected; /* runs, for progress */
    bool stopped, no_memory;
    size_t tried, excluded;
};

/* Fills trial, cost and excluded from the values. */
void dawn_size_make(struct dawn_size_design *design, const struct size_search *search);
/* Makes a value one that can be built, within its range. */
double dawn_size_round(const struct dawn_size_lever *lever, double value);

/* What one night says. */
struct size_low {
    double low_C;
    int64_t dusk_s;
};
/* Runs designs that are not excluded through years; fills slack, low and night. lows, when not
 * NULL, has room for the lowest nights of each: [design * (DAWN_SIZE_ALLOWED_MOST + 4)]. */
void dawn_size_run(struct size_search *search, struct dawn_size_design *design, size_t count,
                   const struct dawn_years *years, unsigned threads, struct size_low *lows,
                   struct dawn_problems *problems);
enum { DAWN_SIZE_LOWS = DAWN_SIZE_ALLOWED_MOST + 4 };

/* Works the continuous levers of a design out: the cheapest that holds margin_K, starting from it.
 * Gives the best it came by, which may be the design itself. */
void dawn_size_polish(struct size_search *search, struct dawn_size_design *design, double margin_K);

#endif
