/* Any bytes are either read as complete weather or refused with an error that has a sentence. The
 * first byte chooses what the caller knows, the rest is the file. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "dawnlow/weather.h"
#include "fuzz/fuzz_target.h"

static struct dawn_weather_hints hints_of(uint8_t choice)
{
    struct dawn_weather_hints hints = {NAN, NAN, NAN, NAN, NAN, -1, NULL};
    if (choice & 1u) {
        hints.latitude_deg = 45.0;
        hints.longitude_deg = 7.0;
        hints.elevation_m = 500.0;
    }
    if (choice & 2u)
        hints.site_utc_offset_h = 1.0;
    if (choice & 4u)
        hints.utc_offset_h = -5.5;
    if (choice & 8u)
        hints.temperature_unit = choice & 16u ? "F" : "C";
    if (choice & 32u)
        hints.stamp = choice >> 6;
    return hints;
}

/* What was read is complete, finite and possible. */
static void check_weather(const struct dawn_weather *w)
{
    assert(w->count >= 2);
    for (size_t i = 0; i < w->count; i++) {
        assert(w->air_C[i] >= -90.0 && w->air_C[i] <= 60.0);
        assert(w->dew_C[i] <= w->air_C[i] && w->dew_C[i] >= -150.0);
        assert(w->wind_m_s[i] >= 0.0 && w->wind_m_s[i] <= 80.0);
        assert(w->pressure_Pa[i] >= 40000.0 && w->pressure_Pa[i] <= 110000.0);
        assert(w->cloud[i] >= 0.0 && w->cloud[i] <= 1.0);
        assert(w->longwave_W_m2[i] >= 10.0 && w->longwave_W_m2[i] <= 1000.0);
        assert(w->snow_m[i] >= 0.0);
        assert(w->ghi_W_m2[i] >= 0.0 && isfinite(w->ghi_W_m2[i]));
        assert(w->dni_W_m2[i] >= 0.0 && isfinite(w->dni_W_m2[i]));
        assert(w->dhi_W_m2[i] >= 0.0 && isfinite(w->dhi_W_m2[i]));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct dawn_weather weather = {0};
    struct dawn_problems problems = {0};
    if (size == 0)
        return 0;
    struct dawn_weather_hints hints = hints_of(data[0]);
    enum dawn_status status = dawn_weather_parse(&weather, "fuzz.csv", (const char *)data + 1,
                                                 size - 1, &hints, &problems);
    assert((status == DAWN_OK) == (problems.errors == 0));
    assert(status == DAWN_OK || status == DAWN_ERR_WEATHER);
    for (size_t i = 0; i < problems.count; i++)
        assert(problems.items[i].message && problems.items[i].message[0]);
    if (status == DAWN_OK)
        check_weather(&weather);
    dawn_weather_release(&weather);
    dawn_problems_release(&problems);
    return 0;
}
