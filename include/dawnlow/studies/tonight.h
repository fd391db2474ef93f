/* Tonight: what each thing the grower can do is worth, on the same ensemble with the same errors.
 */
#ifndef DAWNLOW_STUDIES_TONIGHT_H
#define DAWNLOW_STUDIES_TONIGHT_H

#include "dawnlow/studies/forecast.h"

enum { DAWN_TONIGHT_CHECKS = 3, DAWN_TONIGHT_ROWS = DAWN_ACTIONS_MOST + 1 };

/* One thing done, or nothing. Lows from dusk to two hours after sunrise. */
struct dawn_tonight_row {
    const struct dawn_action *action; /* NULL = nothing is done */
    int64_t from_s;                   /* when it is done; a whole hour at or after the time asked */
    bool carried;                     /* the trays are out of the house: nothing is reckoned */
    double harmed;                    /* chance that one crop at least is harmed; else as below */
    double below_zero;                /* chance of less than 0 C at the protected place */
    struct dawn_forecast_range place_C, leaf_C;
    bool enough; /* harmed is at or below the accepted risk */
    /* House air at the check times, as a tenth and half of the runs stay below. */
    double check_tenth_C[DAWN_TONIGHT_CHECKS], check_middle_C[DAWN_TONIGHT_CHECKS];
};
struct dawn_tonight {
    size_t members; /* that came through everything */
    bool stopped, at_trays;
    enum dawn_crop_place crop_place;
    size_t crop_count;
    int64_t from_s, dusk_s, dawn_s, until_s; /* dusk_s = 0: the weather holds no such night */
    double accepted;
    size_t count;
    struct dawn_tonight_row row[DAWN_TONIGHT_ROWS]; /* least chance first */
    size_t nothing, least; /* the row of doing nothing; the cheapest, then quickest, of those that
                              are enough, count when none is */
    int64_t check_s[DAWN_TONIGHT_CHECKS];
    size_t check_count;
    /* The fan stops now, for want of power or for good; NAN where there is none. */
    double failed_harmed, failed_below_zero;
    double failed_cross_s; /* when the house as forecast crosses the line then; NAN = it does not */
    double line_C;         /* that line, at the crops' place: the most tender crop's, else 0 C */
};

/* Runs plan->members of plan->run.from_s to the end of the first night, with each of the
 * scenario's actions. The statuses are those of dawn_forecast_find. Nothing has to be released. */
enum dawn_status dawn_tonight_find(struct dawn_tonight *tonight,
                                   const struct dawn_scenario *scenario,
                                   const struct dawn_weather *weather,
                                   const struct dawn_forecast_plan *plan,
                                   struct dawn_problems *problems);

#endif
