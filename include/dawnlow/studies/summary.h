/* Nights summed up: what studies compare. One summary a run; those of several years become one. */
#ifndef DAWNLOW_STUDIES_SUMMARY_H
#define DAWNLOW_STUDIES_SUMMARY_H

#include "dawnlow/nights.h"

/* Air above this is called overheated: trays wilt and cook (common practice, no source). */
#define DAWN_SUMMARY_HOT_C 35.0

/* NAN where the nursery has no such place or part. All but the lows add up over the run. */
struct dawn_summary {
    double nights, below_zero, below_crop; /* whole numbers */
    double coldest_C, mean_low_C;          /* at the protected place: trays, else air */
    double coldest_air_C, coldest_leaf_C, coldest_root_C, coldest_outside_C;
    double below_0C_h;                          /* at the protected place */
    double hot_h;                               /* house air above DAWN_SUMMARY_HOT_C, by day too */
    double fan_h, fan_kWh, switches;            /* starts and stops of the fan */
    double rock_kWh, barrels_kWh, soil_kWh;     /* given back from dusk to dawn */
    double rock_stored_kWh, barrels_stored_kWh; /* taken up between dawn and dusk */
    /* What the coldest night of one year in ten falls below, at the protected place and in the
     * house air (return_level.h); NAN of one run, and of fewer than 3 years. */
    double one_in_10_C, one_in_10_air_C;
};

/* Sums up one run. */
void dawn_summary_of(struct dawn_summary *summary, const struct dawn_nights *nights,
                     const struct dawn_trajectory *run, const struct dawn_network *network);
/* Several years, one run each, as one. */
void dawn_summary_of_years(struct dawn_summary *whole, const struct dawn_summary year[],
                           size_t years);

enum dawn_summary_kind {
    DAWN_SUMMARY_COUNT,
    DAWN_SUMMARY_DEGREES, /* C */
    DAWN_SUMMARY_HOURS,
    DAWN_SUMMARY_ENERGY /* kWh */
};
/* The sums as a table, for reports: "coldest_C", "coldest night". */
struct dawn_summary_column {
    const char *key, *words;
    enum dawn_summary_kind kind;
    size_t offset; /* of a double in struct dawn_summary */
};
const struct dawn_summary_column *dawn_summary_columns(size_t *count);
double dawn_summary_value(const struct dawn_summary_column *column,
                          const struct dawn_summary *summary);

#endif
