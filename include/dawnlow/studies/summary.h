/* Nights summed up: what studies compare. One summary a run; several years' join into one. */
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
};

/* Sums up one run. */
void dawn_summary_of(struct dawn_summary *summary, const struct dawn_nights *nights,
                     const struct dawn_trajectory *run, const struct dawn_network *network);
/* Lays a further run's sums to a summary; whole is {0} (nights = 0) before the first. */
void dawn_summary_join(struct dawn_summary *whole, const struct dawn_summary *part);

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
