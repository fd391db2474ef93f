/* What an action changes in a nursery, and how the house's state goes over into the changed one. */
#ifndef STUDIES_ACTIONS_H
#define STUDIES_ACTIONS_H

#include "dawnlow/network.h"

/* Lays an action over a copy of a scenario; clock_s is the time of day it is done at. */
void dawn_actions_apply(const struct dawn_action *action, double clock_s,
                        struct dawn_scenario *scenario);

/* State of the changed nursery from that of the nursery before: parts keep theirs by name, a cover
 * and its air begin as the house air, hot water as it was poured. */
void dawn_actions_carry_over(const struct dawn_network *before, const double *y_before,
                             const struct dawn_network *after, double *y_after,
                             const struct dawn_action *action);

#endif
