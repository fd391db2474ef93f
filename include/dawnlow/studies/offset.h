/* How much colder the grower's place is than the station, from nights both have seen. */
#ifndef DAWNLOW_STUDIES_OFFSET_H
#define DAWNLOW_STUDIES_OFFSET_H

#include "dawnlow/weather.h"

enum { DAWN_OFFSET_NIGHTS_LEAST = 5, DAWN_OFFSET_NIGHTS_ENOUGH = 10 };

struct dawn_offset {
    size_t nights;
    double always_K; /* colder by, on an overcast or windy night */
    double clear_K;  /* colder still on a clear calm one; 0 when the nights do not tell */
    double spread_K; /* of single nights around that, one standard deviation */
    double mean_K, least_K, most_K; /* of all nights */
    bool clear_told;                /* the nights differ enough in cloud and wind to tell clear_K */
};

/* Compares the lows of every night, sunset to sunrise, that both cover whole, and lays a straight
 * line of least squares through them over dawn_weather_clear_calm. The station's place must be
 * known. DAWN_ERR_WEATHER with a problem when fewer than DAWN_OFFSET_NIGHTS_LEAST are common. */
enum dawn_status dawn_offset_fit(struct dawn_offset *offset, const struct dawn_weather *mine,
                                 const struct dawn_weather *station,
                                 struct dawn_problems *problems);

#endif
