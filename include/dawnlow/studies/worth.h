/* What money buys: single improvements ranked by what they gain and cost; and which of the grower's
 * own guesses matters most, so that it is measured next. */
#ifndef DAWNLOW_STUDIES_WORTH_H
#define DAWNLOW_STUDIES_WORTH_H

#include "dawnlow/studies/trials.h"

enum { DAWN_WORTH_MOST = 32, DAWN_WORTH_NAME_SIZE = 80 };

struct dawn_worth_plan {
    const struct dawn_years *years;
    struct dawn_trajectory_plan run;
    double line_C; /* nights with a low below it are counted */
    unsigned threads;
    bool (*keep_going)(size_t done, size_t runs, void *user); /* NULL = go on */
    void *user;
};

/* What the nights of all years come to. */
struct dawn_worth_lows {
    double coldest_C, air_coldest_C;     /* at the protected place; in the house air */
    double one_in_10_C, air_one_in_10_C; /* of one year in ten (return_level.h); NAN = too few */
    double below, below_crop; /* nights below the line; below the crop's, NAN = no crop */
};
/* One improvement. */
struct dawn_worth_way {
    const char *key;                 /* "seal"; for programs */
    char name[DAWN_WORTH_NAME_SIZE]; /* "halve the leaks" */
    const char *care;                /* what to mind; may be NULL */
    struct dawn_trial trial;         /* what it changes */
    double cost;                     /* beyond what is there, in the scenario's currency */
    bool failed;
    struct dawn_worth_lows lows;
    double gain_K;      /* of the coldest night, where it is judged */
    double nights_less; /* below the line, fewer than without it */
};
/* One guess, at both ends of what it may plausibly be. */
struct dawn_worth_guess {
    const char *key;
    char name[DAWN_WORTH_NAME_SIZE]; /* "leaks, 0.6 to 1.6 times" */
    const char *measure;             /* how to find out */
    struct dawn_trial low, high;
    bool failed;
    struct dawn_worth_lows at_low, at_high;
    double swing_K; /* between the two, of the coldest night, where it is judged */
};
struct dawn_worth {
    bool stopped;
    bool at_trays; /* the protected place: trays, else air */
    bool by_air;   /* freezing holds the trays in one of the runs: judged by the house air */
    double nights;
    struct dawn_worth_lows as_it_is;
    size_t ways, guesses;
    struct dawn_worth_way way[DAWN_WORTH_MOST];     /* most kelvin for the money first */
    struct dawn_worth_guess guess[DAWN_WORTH_MOST]; /* widest swing first */
};

/* Tries each improvement the nursery has room for, and each guess it rests on, one at a time. The
 * scenario must have passed its checks. DAWN_ERR_SOLVER is for the nursery as it is; without a
 * night, nights = 0 and no rows. Nothing has to be released. */
enum dawn_status dawn_worth_find(struct dawn_worth *worth, const struct dawn_scenario *scenario,
                                 const struct dawn_worth_plan *plan,
                                 struct dawn_problems *problems);

#endif
