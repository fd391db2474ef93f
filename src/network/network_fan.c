/* The fan's thermostat: when it would switch next. */
#include <math.h>

#include "network/network_parts.h"

static double rock_mean_C(const struct dawn_network *network, const double y[])
{
    double sum = 0;
    for (size_t i = 0; i < network->rock_count; ++i)
        sum += y[network->rock[i]];
    return sum / (double)network->rock_count;
}

/* By day: how far the sensed air is beyond what the running or resting fan waits for. */
static double day_wish(const struct dawn_fan *fan, bool fan_on, double sensed, double above_rock)
{
    if (fan_on)
        return fmin(sensed - fan->off_C, above_rock - fan->stop_margin_K);
    return fmin(sensed - fan->on_C, above_rock - fan->start_margin_K);
}

/* By night the signs turn: cold air, warmer rock. */
static double night_wish(const struct dawn_fan *fan, bool fan_on, double sensed, double above_rock)
{
    if (isnan(fan->night_on_C))
        return -INFINITY;
    if (fan_on)
        return fmin(fan->night_off_C - sensed, -above_rock - fan->stop_margin_K);
    return fmin(fan->night_on_C - sensed, -above_rock - fan->start_margin_K);
}

double dawn_network_fan_wish_between(const struct dawn_network *network, bool fan_on,
                                     struct fan_span span, bool most)
{
    /* By day the wish grows with both, by night it falls with both. */
    double sensed_day = most ? span.sensed_high_C : span.sensed_low_C;
    double above_day = most ? span.above_high_K : span.above_low_K;
    double sensed_night = most ? span.sensed_low_C : span.sensed_high_C;
    double above_night = most ? span.above_low_K : span.above_high_K;
    /* The two never hold at once: night_off lies below off. */
    return fmax(day_wish(&network->fan, fan_on, sensed_day, above_day),
                night_wish(&network->fan, fan_on, sensed_night, above_night));
}

static double above_rock_K(const struct dawn_network *network, const double y[])
{
    size_t sensor = (size_t)network->sensor;
    return dawn_network_temperature_C(network, sensor, y[sensor]) - rock_mean_C(network, y);
}

enum dawn_fan_state dawn_network_fan_way_above(const struct dawn_network *network,
                                               double above_rock_K)
{
    size_t links = network->stream_count;
    bool reversed = links > 0 && network->stream[links - 1].law.reversed > 0.0;
    return reversed && above_rock_K < 0.0 ? DAWN_FAN_BACK : DAWN_FAN_ONWARD;
}

enum dawn_fan_state dawn_network_fan_way(const struct dawn_network *network, const double y[])
{
    return dawn_network_fan_way_above(network, above_rock_K(network, y));
}

double dawn_network_fan_wish(const struct dawn_network *network, bool fan_on, const double y[])
{
    size_t sensor = (size_t)network->sensor;
    double sensed = dawn_network_temperature_C(network, sensor, y[sensor]);
    double above_K = above_rock_K(network, y);
    struct fan_span span = {sensed, sensed, above_K, above_K};
    return dawn_network_fan_wish_between(network, fan_on, span, true);
}
