/* Designs: made, judged silly or not, and run. Private to src/studies/. */
#ifndef STUDIES_SIZE_PARTS_H
#define STUDIES_SIZE_PARTS_H

#include "dawnlow/studies/size.h"

enum { DAWN_SIZE_ALLOWED_MOST = 60, DAWN_SIZE_POOL_MOST = 4096, DAWN_SIZE_PROVEN_MOST = 512 };

/* Designs that were run: on the spells, or over all the weather. */
struct size_pool {
    struct dawn_size_design *design;
    size_t count;
};

/* A search under way. */
struct size_search {
    const struct dawn_size_plan *plan;
    const struct dawn_scenario *scenario;
    struct dawn_years spells; /* the stretches of weather that decide */
    struct dawn_year *spell;
    size_t allowed;
    struct dawn_years nights; /* the weather up to the last night that may decide, by year */
    struct dawn_year *night;
    struct size_pool proven;   /* designs run over that */
    bool closely;              /* the accurate engine's turn, whatever plan->run.fast says */
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

/* Nothing is known of fit and band; fills both. lows, at least one, rise; year_low_C is NAN where
 * no night counts. */
void dawn_size_unborne(struct dawn_size_design *design);
void dawn_size_band(struct dawn_size_design *design, const struct size_low lows[], size_t count,
                    const double year_low_C[], size_t years);

/* How many springs the weather holds; a stretch without one counts as one. */
size_t dawn_size_springs(const struct size_search *search);
/* Cuts the weather behind the last night that may decide: one that is, in either of two designs,
 * less than 5 K warmer than what decides there. lows are theirs. */
void dawn_size_cut(struct size_search *search, const struct size_low first[],
                   const struct size_low second[]);
/* The evening before to the noon after the coldest nights of some designs: they decide. lows are
 * theirs from dawn_size_run, most is how many spells at most. */
void dawn_size_spells(struct size_search *search, const struct size_low lows[], size_t designs,
                      size_t most);

/* Works the continuous levers of a design out: the cheapest that holds margin_K, starting from it.
 * Gives the best it came by, which may be the design itself. */
void dawn_size_polish(struct size_search *search, struct dawn_size_design *design, double margin_K);

/* ---- the search on the spells (size_search.c) ---- */

/* The i-th of so many values spread over a lever's range; how many it has, at most `wanted`. */
double dawn_size_level(const struct dawn_size_lever *lever, size_t i, size_t levels);
size_t dawn_size_levels_of(const struct dawn_size_lever *lever, size_t wanted);
/* About a tenth of the range, in whole steps. */
double dawn_size_nudge(const struct dawn_size_lever *lever);
void dawn_size_lay_grid(struct size_search *search, struct size_pool *pool);
/* False: there is neither stone nor fan to vary, because rock varies and is none. */
bool dawn_size_has_rock(const struct dawn_size_plan *plan, const struct dawn_size_design *design);
/* It was run and has a result. It costs no more than there is. */
bool dawn_size_usable(const struct dawn_size_design *design);
bool dawn_size_affordable(const struct size_search *search, const struct dawn_size_design *design);
/* Places in a pool; its count when there is none: the cheapest that holds by margin_K, of equal
 * cost the one with more slack; what comes nearest to the goal, for the money or not; the design
 * with the same values. */
size_t dawn_size_cheapest(const struct size_pool *pool, double margin_K);
size_t dawn_size_nearest(const struct size_search *search, const struct size_pool *pool, bool paid);
size_t dawn_size_find_in(const struct size_pool *pool, const struct dawn_size_design *design,
                         size_t levers);
/* Works the grid's best out with NLopt and adds them, rounded. */
void dawn_size_work_out(struct size_search *search, struct size_pool *pool);
/* Adds what is cheaper than a design by one lever down, and perhaps another a step up; scale says
 * how far down, 0 = a tenth of the range. */
enum { DAWN_SIZE_FINEST = 3 };
void dawn_size_step_down(struct size_search *search, struct size_pool *pool,
                         const struct dawn_size_design *from, int scale);
/* So from the cheapest that holds by margin_K to cheaper ones, from coarse to fine; returns the
 * place of the cheapest then. */
size_t dawn_size_descend(struct size_search *search, struct size_pool *pool, double margin_K);

/* ---- all the nights that may decide (size_prove.c) ---- */

/* Runs designs over them, each once: those proven before are looked up. */
void dawn_size_over_all(struct size_search *search, struct dawn_size_design design[], size_t count);
/* Finds size->best, the cheapest that holds over them, and sets size->met. */
void dawn_size_prove(struct dawn_size *size, struct size_search *search, struct size_pool *pool);
/* Runs one design over all the weather, with the accurate engine where the plan wants that. */
void dawn_size_run_closely(struct size_search *search, struct dawn_size_design *design);
void dawn_size_confirm(struct dawn_size *size, struct size_search *search);

/* Rock for the glazing that faces the sun, air for the floor, water for all glazing. */
void dawn_size_compare(struct dawn_size *size, const struct size_search *search,
                       const struct dawn_size_design *design);

#endif
