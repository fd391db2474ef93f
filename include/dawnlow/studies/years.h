/* The weather a study goes over: one file, or one for each of several years. */
#ifndef DAWNLOW_STUDIES_YEARS_H
#define DAWNLOW_STUDIES_YEARS_H

#include <stddef.h>
#include <stdint.h>

#include "dawnlow/weather.h"

/* One year's weather and the stretch of it that counts. The weather belongs to the caller. */
struct dawn_year {
    const struct dawn_weather *weather;
    int64_t from_s, to_s;
};
struct dawn_years {
    size_t count; /* >= 1 */
    const struct dawn_year *year;
};

#endif
