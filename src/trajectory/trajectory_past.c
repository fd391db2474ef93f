/* What a house lives through before its run. */
#include <math.h>

#include "trajectory/trajectory_store.h"

static const double day_s = 86400.0;
/* The first days that the spin-up repeats where there is no weather before the run. */
static const double spin_up_window_s = 3 * 86400.0;

static double whole_days_s(double length_s)
{
    return floor(length_s / day_s) * day_s;
}

/* Whole days only, so that every seam falls on the same time of day. */
struct past dawn_trajectory_past(const struct dawn_network *network,
                                 const struct dawn_trajectory_plan *plan, double from_s,
                                 double to_s)
{
    double wanted_s = plan->spin_up ? dawn_network_spin_up_s(network) : 0.0;
    double reach_s = whole_days_s(from_s - (double)dawn_network_lit_from_s(network));
    struct past past = {.lead_s = fmin(wanted_s, reach_s)};
    past.window_s = whole_days_s(fmin(spin_up_window_s, to_s - from_s + past.lead_s));
    past.repeated_s = past.window_s > 0 ? wanted_s - past.lead_s : 0.0;
    return past;
}

int dawn_trajectory_rounds(const struct past *past, double *skipped_s)
{
    int rounds = past->repeated_s > 0 ? (int)ceil(past->repeated_s / past->window_s) : 0;
    *skipped_s = rounds * past->window_s - past->repeated_s;
    return rounds;
}

void dawn_trajectory_tell_past(struct dawn_trajectory *trajectory, const struct past *past)
{
    struct dawn_trajectory_facts *facts = &trajectory->facts;
    facts->lead_days = past->lead_s / day_s;
    facts->spin_up_days = past->repeated_s / day_s;
    facts->spin_up_window_days = past->window_s / day_s;
}
