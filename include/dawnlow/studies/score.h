/* How good probabilities were, once it is known what happened. */
#ifndef DAWNLOW_STUDIES_SCORE_H
#define DAWNLOW_STUDIES_SCORE_H

#include <stddef.h>

/* Continuous ranked probability score of a normal forecast, in the unit of y; 0 is perfect
 * (Gneiting, Raftery, Westveld & Goldman 2005, eq. 5). deviation > 0. */
double dawn_score_crps_normal(double mean, double deviation, double y);
/* The same of an ensemble taken as its own step function: E|X - y| - E|X - X'| / 2 (Gneiting &
 * Raftery 2007, eq. 21). member need not be sorted; count >= 1. */
double dawn_score_crps(const double *member, size_t count, double y);
/* The fair form for members drawn from a distribution: pairs of different members only (Ferro
 * 2014). count >= 2. */
double dawn_score_crps_fair(const double *member, size_t count, double y);
/* Brier's score (1950) of chances (0..1) against what happened (0 or 1): their mean squared
 * difference. count >= 1. */
double dawn_score_brier(const double *chance, const double *happened, size_t count);
/* How many members lie below y: 0 .. count. Over many forecasts all ranks are as likely when the
 * ensemble is right (Hamill 2001). */
size_t dawn_score_rank(const double *member, size_t count, double y);
/* Pearson's chi-square of counts against an even spread; bins - 1 degrees of freedom. */
double dawn_score_unevenness(const size_t *counted, size_t bins);
/* The value that a share of the members lies below, 0 <= share <= 1, between order statistics in a
 * straight line (Hyndman & Fan 1996, type 7). sorted ascending; count >= 1. */
double dawn_score_quantile(const double *sorted, size_t count, double share);
/* For qsort: doubles ascending. */
int dawn_score_ascending(const void *a, const void *b);

#endif
