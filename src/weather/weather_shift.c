/* From the station to the site: the hollow is colder, most of all on clear calm nights. */
#include <math.h>

#include "dawnlow/physics/sun.h"
#include "dawnlow/weather.h"

static const double hour_s = 3600.0;
/* Wind that stirs the cold air away by a factor e. */
static const double stirring_m_s = 2.0;

static double at(const struct dawn_weather *weather, const double *series, double t_s)
{
    const double place = (t_s - (double)weather->first_s) / hour_s;
    const double last = (double)weather->count - 1.0;
    if (place <= 0.0)
        return series[0];
    if (place >= last)
        return series[weather->count - 1];
    const size_t before = (size_t)place;
    return series[before] + (place - (double)before) * (series[before + 1] - series[before]);
}

/* The share of the hour before t_s that the sun was down. */
static double night_share(const struct dawn_weather *weather, double t_s)
{
    enum { LOOKS = 12 };
    int down = 0;
    for (int i = 0; i < LOOKS; i++)
        down += dawn_sun_cos_zenith(t_s - hour_s * (i + 0.5) / LOOKS, weather->latitude_deg,
                                    weather->longitude_deg) < 0.0
                    ? 1
                    : 0;
    return (double)down / LOOKS;
}

double dawn_weather_clear_calm(const struct dawn_weather *weather, double t_s)
{
    const double clear = 1.0 - at(weather, weather->cloud, t_s);
    const double calm = exp(-at(weather, weather->wind_m_s, t_s) / stirring_m_s);
    return clear * calm * night_share(weather, t_s);
}

void dawn_weather_shift(struct dawn_weather *weather, double offset_K, double clear_K)
{
    for (size_t i = 0; i < weather->count; i++) {
        const double t_s = (double)weather->first_s + (double)i * hour_s;
        const double more_K =
            clear_K != 0.0 ? clear_K * dawn_weather_clear_calm(weather, t_s) : 0.0;
        weather->air_C[i] -= offset_K + more_K;
        weather->dew_C[i] = fmin(weather->dew_C[i], weather->air_C[i]);
    }
}
