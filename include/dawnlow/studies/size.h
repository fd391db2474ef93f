/* What to build: the cheapest storage that holds a goal over the given weather. */
#ifndef DAWNLOW_STUDIES_SIZE_H
#define DAWNLOW_STUDIES_SIZE_H

#include "dawnlow/studies/cost.h"
#include "dawnlow/studies/goal.h"
#include "dawnlow/studies/return_level.h"
#include "dawnlow/studies/trials.h"

/* ---- what may be varied ---- */

enum dawn_size_kind {
    DAWN_SIZE_ROCK,    /* t; 0 = neither rock nor fan */
    DAWN_SIZE_STONE,   /* mm */
    DAWN_SIZE_DEPTH,   /* m of rock; the bed becomes as large as the rock needs */
    DAWN_SIZE_FAN,     /* m3/h; with fans on offer: which of them, from 1 */
    DAWN_SIZE_BARRELS, /* of the first group */
    DAWN_SIZE_SKINS,   /* 1 = as they are, 2 = a second on every single one */
    DAWN_SIZE_EDGE,    /* cm of board along the edge */
    DAWN_SIZE_COVERS,  /* 0 none more, 1 fleece over trays, 2 curtain, 3 both */
    DAWN_SIZE_KINDS
};
struct dawn_size_lever {
    enum dawn_size_kind kind;
    const char *key, *words, *unit;
    double least, most;
    double step;     /* what is built in: half tonnes, whole barrels */
    bool continuous; /* worked out by NLopt; others are tried one by one */
};
/* Reads "rock,barrels=4..20,fan=500..3000 m3/h"; NULL = rock, fan and barrels, as far as the
 * scenario has them. DAWN_ERR_USAGE with the reason for what cannot be varied, an empty range, or
 * a part the nursery does not have. */
enum dawn_status dawn_size_levers(struct dawn_size_lever lever[DAWN_SIZE_KINDS], size_t *count,
                                  const char *text, const struct dawn_scenario *scenario,
                                  struct dawn_problems *problems);

/* ---- the study ---- */

struct dawn_size_design {
    double value[DAWN_SIZE_KINDS]; /* [lever], in its unit */
    struct dawn_trial trial;
    struct dawn_cost cost; /* of all of it, in the scenario's currency */
    const char *excluded;  /* why it is silly to build; NULL = it is not. Then nothing is run */
    bool failed;           /* no result */
    double slack_K;        /* the goal's line to the low that decides; >= 0: it holds */
    double low_C;          /* that low */
    size_t nights;         /* that count, in what was run */
    int64_t night_s;       /* dusk of that night */
    /* Where it was run over all the weather (best, reach, own, the curve), else NAN: the lowest
     * that counts of each year; what 1 year in DAWN_SIZE_BAND_YEARS falls below, less and more its
     * standard error. Of fewer years than can be fitted only how far apart the coldest nights lie,
     * the first to the DAWN_SIZE_BAND_NIGHTS-th. */
    struct dawn_return_level_fit fit;
    double band_low_C, band_high_C;
};
enum { DAWN_SIZE_BAND_YEARS = 10, DAWN_SIZE_BAND_NIGHTS = 3 };
struct dawn_size_plan {
    const struct dawn_years *years;
    struct dawn_trajectory_plan run; /* of the search */
    bool confirm; /* with run.fast: the answer is run with the accurate engine before it is given */
    struct dawn_goal goal;
    const struct dawn_size_lever *lever;
    size_t levers;
    double budget; /* NAN = none */
    unsigned threads;
    bool (*keep_going)(size_t done, size_t runs, void *user); /* NULL = go on */
    void *user;
};
/* A bit more and a bit less of one thing; failed or excluded ones are there too. */
struct dawn_size_change {
    size_t lever;
    struct dawn_size_design design;
};
/* What is usually built, and what was found. */
struct dawn_size_range {
    const char *words;
    double value, least, most;
    const char *source; /* of the usual */
};
enum { DAWN_SIZE_CHANGES = 2 * DAWN_SIZE_KINDS, DAWN_SIZE_CURVE = 8, DAWN_SIZE_RANGES = 3 };
struct dawn_size {
    bool stopped;
    bool met;         /* best holds the goal over all the weather */
    bool over_budget; /* it could be held, but not for the money: best is the cheapest that does */
    bool confirmed;   /* by the accurate engine, whose figures best has then */
    size_t springs, allowed;      /* in the weather; nights that may fall below the line in them */
    double nights;                /* that count */
    struct dawn_size_design own;  /* as the scenario is, over all the weather */
    struct dawn_size_design best; /* over all the weather */
    struct dawn_size_design
        reach; /* what comes nearest where the goal is not met (in the budget) */
    size_t changes;
    struct dawn_size_change change[DAWN_SIZE_CHANGES]; /* over all nights that may decide */
    size_t curve_count;
    /* Low against rock, else against barrels; over all the weather. */
    struct dawn_size_design curve[DAWN_SIZE_CURVE];
    size_t curve_lever;
    double knee; /* from here on more adds less than 0.1 K per step's unit; NAN = not reached */
    size_t tried, excluded; /* designs run; designs left out as silly */
    size_t ranges;
    struct dawn_size_range range[DAWN_SIZE_RANGES]; /* of best, or of what comes nearest */
};
#define DAWN_SIZE_KNEE_K 0.1

/* Tries a coarse grid of everything that may vary on the coldest spells of the weather, works the
 * best of it out with NLopt's COBYLA, rounds to what can be built, goes down step by step, and
 * proves the cheapest over all the weather, eight at a time. {0} or released before; nothing has to
 * be released. */
enum dawn_status dawn_size_find(struct dawn_size *size, const struct dawn_scenario *scenario,
                                const struct dawn_size_plan *plan, struct dawn_problems *problems);

#endif
