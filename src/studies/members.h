/* The members of an ensemble: the same nursery and the same forecast, each a little different, as
 * far as both may be off. */
#ifndef STUDIES_MEMBERS_H
#define STUDIES_MEMBERS_H

#include "dawnlow/scenario.h"
#include "dawnlow/weather.h"

/* One member: its weather's arrays, and what is different in its house, as factors. */
struct dawn_member {
    double *air_C, *dew_C, *wind_m_s, *cloud, *longwave_W_m2, *ghi_W_m2, *dni_W_m2, *dhi_W_m2;
    double leaks, active_rock, soil;
};
struct dawn_members {
    size_t count;
    struct dawn_member *member;
    double *block;
};

/* Draws members: weather before now_s is as it was, after it the errors of scenario->forecast grow.
 * The same for the same seed, whoever runs them. members is {0} before; false when memory runs out.
 */
bool dawn_members_draw(struct dawn_members *members, size_t count, uint64_t seed,
                       const struct dawn_scenario *scenario, const struct dawn_weather *weather,
                       int64_t now_s);
void dawn_members_release(struct dawn_members *members);

/* Lays a member over copies of scenario and weather. The weather's arrays are the member's then. */
void dawn_members_apply(const struct dawn_member *member, struct dawn_scenario *scenario,
                        struct dawn_weather *weather);

#endif
