/* What a forecast may be off by, hour by hour: noise that is remembered from hour to hour and from
 * day to day. All of it has mean 0 and deviation 1 and is scaled by who uses it. */
#ifndef STUDIES_ERRORS_H
#define STUDIES_ERRORS_H

#include <stddef.h>

#include "base/random.h"
#include "dawnlow/scenario.h"

/* z[0 .. hours - 1]: first-order autoregression, correlation exp(-h/memory) over h hours; the first
 * is drawn like any other, so that all have deviation 1. */
void dawn_errors_hourly(double *z, size_t hours, double memory_h, struct dawn_random *random);

/* Independent normals, one a day, made to remember: correlation memory^n over n days. In place. */
void dawn_errors_chain(double *node, size_t days, double memory);
/* Such a chain at a moment, days >= 0 after its first node, held at its end: between two days a
 * mixture of both that keeps deviation 1. */
double dawn_errors_daily(const double *node, size_t days, double memory, double day);

/* Deviation, K, of forecast air this many hours ahead: air_first_day_K through the first 24 h, then
 * evenly to air_seventh_day_K on the seventh day (144 h after that) and on. */
double dawn_errors_air_K(const struct dawn_doubt *doubt, double lead_h);
/* Share of its full size that an error has this soon: from 0 now to 1 in six hours, for what the
 * weather does now is known. */
double dawn_errors_onset(double lead_h);

#endif
