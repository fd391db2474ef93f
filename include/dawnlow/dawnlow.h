/* libdawnlow: the lows of an unheated nursery from a scenario and hourly weather.
 *
 * Who creates, frees: every *_read, *_build, *_run has its *_release or *_free, and NULL or {0} is
 * always fine there. What a getter returns belongs to the object. There are no globals, so runs can
 * share a machine's cores. Times are seconds since 1970-01-01T00:00Z, temperatures degrees Celsius,
 * everything else SI. */
#ifndef DAWNLOW_DAWNLOW_H
#define DAWNLOW_DAWNLOW_H

#include "dawnlow/network.h"
#include "dawnlow/nights.h"
#include "dawnlow/problems.h"
#include "dawnlow/report.h"
#include "dawnlow/scenario.h"
#include "dawnlow/studies.h"
#include "dawnlow/studies/batch.h"
#include "dawnlow/studies/forecast.h"
#include "dawnlow/studies/offset.h"
#include "dawnlow/studies/score.h"
#include "dawnlow/studies/tonight.h"
#include "dawnlow/trajectory.h"
#include "dawnlow/version.h"
#include "dawnlow/weather.h"

#endif
