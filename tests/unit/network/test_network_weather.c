/* Weather to forcing: every hour keeps its light, everything is continuous, darkness is dark. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "network/network_parts.h"
#include "support/near.h"
#include "support/random_nursery.h"

/* A house whose whole gain follows the global light: one receiver behind one flat pane of almost
 * nothing (index 1.001), all light taken as diffuse. */
static struct dawn_network *bare_house(struct dawn_weather *weather)
{
    struct dawn_scenario scenario;
    struct dawn_problems problems = {0};
    struct dawn_network *network = NULL;
    assert_int_equal(dawn_scenario_usual(&scenario), DAWN_OK);
    scenario.site.latitude_deg = 45;
    scenario.site.longitude_deg = 0;
    scenario.house.length_m = scenario.house.width_m = 4;
    scenario.house.height_m = 2;
    scenario.glazing_count = 1;
    scenario.glazing[0] = (struct dawn_glazing){.name = "roof",
                                                .area_m2 = 16,
                                                .dirt_factor = 1,
                                                .solar_transmittance = 0.8,
                                                .skins = 1,
                                                .gap_resistance_m2K_W = 0,
                                                .longwave_transmittance = 0,
                                                .emissivity = 0.9,
                                                .refractive_index = NAN};
    assert_int_equal(dawn_network_build(&network, &scenario, weather, &problems), DAWN_OK);
    dawn_scenario_release(&scenario);
    return network;
}

/* Sum over all gains of the light between two knots, J, by the trapezoid the forcing itself is. */
static double light_J(const struct forcing *forcing, size_t from, size_t to)
{
    double sum = 0;
    for (size_t i = from; i < to; ++i)
        for (size_t k = 0; k < forcing->gains; ++k)
            sum += 0.5 * FORCING_STEP_S *
                   (forcing->gain_W[i * forcing->gains + k] +
                    forcing->gain_W[(i + 1) * forcing->gains + k]);
    return sum;
}

/* All light diffuse: the house takes a fixed share of each hour's global light, whatever the
 * cloud did from hour to hour (conservation, computed). */
static void every_hour_keeps_its_light(void **state)
{
    (void)state;
    struct dice dice = {5};
    struct dawn_weather weather;
    assert_true(random_weather(&dice, &weather, 5 * 24));
    weather.first_s = weather.mean_first_s = 1772323200; /* midnight UTC, longitude 0 */
    for (size_t i = 0; i < weather.count; ++i) {
        double sun = -cos(2 * 3.14159265358979 * ((double)(i % 24) + 0.5) / 24);
        weather.ghi_W_m2[i] = sun > 0.25 ? 800 * sun * dice_between(&dice, 0.1, 1) : 0;
        weather.dhi_W_m2[i] = weather.ghi_W_m2[i];
    }
    struct dawn_network *network = bare_house(&weather);
    double share = NAN;
    for (size_t hour = 0; hour < weather.count; ++hour) {
        double J =
            light_J(&network->forcing, hour * FORCING_PER_HOUR, (hour + 1) * FORCING_PER_HOUR);
        double given = weather.ghi_W_m2[hour] * 3600;
        if (given <= 0) {
            near(J, 0.0, 1e-9, "dark hour");
            continue;
        }
        if (isnan(share))
            share = J / given;
        near_share(J, share * given, 1e-9, "light of the hour");
    }
    dawn_network_free(network);
    dawn_weather_release(&weather);
}

/* Straight lines between the hours for what holds at an instant. */
static void instants_are_met(void **state)
{
    (void)state;
    struct dice dice = {9};
    struct dawn_weather weather;
    assert_true(random_weather(&dice, &weather, 48));
    struct dawn_network *network = bare_house(&weather);
    for (size_t i = 0; i + 1 < weather.count; ++i) {
        double t = (double)weather.first_s + 3600.0 * (double)i;
        near(dawn_network_outside_C(network, t), weather.air_C[i], 1e-9, "at the hour");
        near(dawn_network_outside_C(network, t + 1800),
             0.5 * (weather.air_C[i] + weather.air_C[i + 1]), 1e-9, "half past");
    }
    dawn_network_free(network);
    dawn_weather_release(&weather);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_hour_keeps_its_light),
        cmocka_unit_test(instants_are_met),
    };
    return cmocka_run_group_tests_name("network weather", tests, NULL, NULL);
}
