/* Where a shipped nursery stands and which weather it has, as the program takes them from its
 * scenario; for tests and the bench. */
#ifndef SUPPORT_SHIPPED_PLACE_H
#define SUPPORT_SHIPPED_PLACE_H

#include <stdio.h>
#include <string.h>

#include "dawnlow/scenario.h"
#include "dawnlow/weather.h"

#define SHIPPED_WEATHER "weather/alder-hollow-spring.csv"

/* A nursery that names no weather of its own is moved to where the demo's weather is: its sun must
 * shine by day. */
static inline void shipped_move(struct dawn_site *site)
{
    site->latitude_deg = 45.2;
    site->longitude_deg = 6.9;
    site->elevation_m = 480;
    site->utc_offset_h = 1;
}

static inline struct dawn_weather_hints shipped_hints(const struct dawn_scenario *scenario)
{
    const struct dawn_site *site = &scenario->site;
    const struct dawn_weather_wish *wish = &scenario->weather;
    return (struct dawn_weather_hints){.latitude_deg = site->latitude_deg,
                                       .longitude_deg = site->longitude_deg,
                                       .elevation_m = site->elevation_m,
                                       .utc_offset_h = wish->utc_offset_h,
                                       .site_utc_offset_h = site->utc_offset_h,
                                       .stamp = wish->stamp - 1,
                                       .temperature_unit = wish->temperature_unit};
}

/* The weather the scenario names, from its own folder, else the demo's. */
static inline void shipped_weather_path(char *path, size_t size, const char *scenario_path,
                                        const struct dawn_scenario *scenario)
{
    const char *own = scenario->weather.file;
    const char *slash = strrchr(scenario_path, '/');
    const int folder = slash ? (int)(slash - scenario_path) + 1 : 0;
    if (own[0] == '\0')
        (void)snprintf(path, size, "%s", SHIPPED_WEATHER);
    else
        (void)snprintf(path, size, "%.*s%s", folder, scenario_path, own);
}

#endif
