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

double dawn_network_fan_wish(const struct dawn_network *network, bool fan_on, const double y[])
{
    size_t sensor = (size_t)network->sensor;
    double sensed = dawn_network_temperature_C(network, sensor, y[sensor]);
    double above_rock = sensed - rock_mean_C(network, y);
    const struct dawn_fan *fan = &network->fan;
    if (fan_on)
        return fmin(sensed - fan->off_C, above_rock - fan->stop_margin_K);
    return fmin(sensed - fan->on_C, above_rock - fan->start_margin_K);
}
