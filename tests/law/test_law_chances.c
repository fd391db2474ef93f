/* What the chances of a forecast must hold to, whatever the nursery: errors as large as stated, and
 * chances that are right in the long run. Three hundred nights are drawn from the error model
 * itself and a lump of heat stands for the house, so that a minute's arithmetic tells what three
 * hundred springs would. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/physics/light.h"
#include "dawnlow/physics/sky.h"
#include "dawnlow/studies/score.h"
#include "studies/errors.h"
#include "studies/members.h"
#include "support/near.h"

enum { HOURS = 192, NIGHT_HOURS = 36, ARRAYS = 10 };

/* Invented weather of so many hours around a mean. */
struct made {
    struct dawn_weather weather;
    double value[ARRAYS][HOURS];
};

static void make_weather(struct made *made, size_t hours, double mean_C, double cloud)
{
    struct dawn_weather *weather = &made->weather;
    double **const array[ARRAYS] = {&weather->air_C,         &weather->dew_C,    &weather->wind_m_s,
                                    &weather->pressure_Pa,   &weather->cloud,    &weather->snow_m,
                                    &weather->longwave_W_m2, &weather->ghi_W_m2, &weather->dni_W_m2,
                                    &weather->dhi_W_m2};

    memset(made, 0, sizeof *made);
    for (size_t k = 0; k < ARRAYS; k++) {
        *array[k] = made->value[k];
    }
    weather->count = hours;
    weather->latitude_deg = 45.0;
    weather->longitude_deg = 7.0;
    for (size_t i = 0; i < hours; i++) {
        /* From noon to noon. */
        weather->air_C[i] = mean_C + 5.0 * cos(6.283185307179586 * ((double)i - 3.0) / 24.0);
        weather->dew_C[i] = mean_C - 7.0;
        weather->wind_m_s[i] = 2.0;
        weather->pressure_Pa[i] = 95000.0;
        weather->cloud[i] = cloud;
        weather->ghi_W_m2[i] = 200.0;
        weather->dhi_W_m2[i] = 100.0;
        weather->longwave_W_m2[i] = dawn_sky_longwave_W_m2(
            dawn_sky_cloudy(dawn_sky_emissivity_berdahl(weather->dew_C[i], NAN, 95000.0), cloud),
            weather->air_C[i]);
    }
}

/* The stated deviation of the air at three lead times, the mean of it and of the wind; a standard
 * error of a deviation is 1/sqrt(2 n) of it (closed form), five of them. */
static void members_err_as_stated(void **state)
{
    enum { MEMBERS = 1000 };
    static const size_t lead[] = {12, 100, 160};
    static struct made made;
    struct dawn_scenario scenario;
    struct dawn_members members = {0};

    (void)state;
    assert_int_equal(dawn_scenario_usual(&scenario), DAWN_OK);
    make_weather(&made, HOURS, 4.0, 0.5);
    assert_true(dawn_members_draw(&members, MEMBERS, 1, &scenario, &made.weather, 0));
    for (size_t k = 0; k < 3; k++) {
        const double stated = dawn_errors_air_K(&scenario.forecast, (double)lead[k]);
        double sum = 0.0;
        double squares = 0.0;
        double wind = 0.0;
        for (size_t m = 0; m < MEMBERS; m++) {
            const struct dawn_member *member = &members.member[m];
            const double error = member->air_C[lead[k]] - made.weather.air_C[lead[k]];
            sum += error / MEMBERS;
            squares += error * error / MEMBERS;
            wind += member->wind_m_s[lead[k]] / MEMBERS;
            assert_true(member->dew_C[lead[k]] <= member->air_C[lead[k]]);
            assert_true(member->cloud[lead[k]] >= 0.0 && member->cloud[lead[k]] <= 1.0);
        }
        near(sum, 0.0, 5.0 * stated / sqrt(MEMBERS), "mean error");
        near_share(sqrt(squares), stated, 5.0 / sqrt(2.0 * MEMBERS), "deviation");
        near_share(wind, 2.0, 5.0 * 0.3 / sqrt(MEMBERS), "mean wind");
    }
    /* What has been is known, and so is what is unmistakable. */
    near(members.member[7].air_C[0], made.weather.air_C[0], 0.0, "now");
    memset(&scenario.forecast, 0, sizeof scenario.forecast);
    scenario.forecast.memory_s = 3600.0;
    dawn_members_release(&members);
    assert_true(dawn_members_draw(&members, 3, 1, &scenario, &made.weather, 0));
    for (size_t i = 0; i < HOURS; i++) {
        near(members.member[2].air_C[i], made.weather.air_C[i], 1e-12, "air");
        near(members.member[2].longwave_W_m2[i], made.weather.longwave_W_m2[i], 1e-9, "sky");
        near(members.member[2].ghi_W_m2[i], 200.0, 1e-9, "light");
    }
    dawn_members_release(&members);
    dawn_scenario_release(&scenario);
}

/* The low of a lump that exchanges with the air in five hours and with the sky in twelve. */
static double lump_low_C(const double *air_C, const double *longwave_W_m2, double leaks)
{
    double lump_C = air_C[0] + 4.0;
    double low_C = lump_C;

    for (size_t i = 1; i < NIGHT_HOURS; i++) {
        const double sky_C = sqrt(sqrt(longwave_W_m2[i] / DAWN_STEFAN_BOLTZMANN)) - 273.15;
        lump_C += leaks * (air_C[i] - lump_C) / 5.0 + (sky_C - lump_C) / 12.0;
        low_C = fmin(low_C, lump_C);
    }
    return low_C;
}

enum { NIGHTS = 300, MEMBERS = 99, BINS = 20 };

/* What one night's forecast said, and what came. */
struct night {
    double member_C[MEMBERS], came_C, as_forecast_C;
};

static void live_night(struct night *night, const struct dawn_scenario *scenario, uint64_t index)
{
    static struct made made;
    struct dawn_random random = dawn_random_stream(77, index);
    struct dawn_members members = {0};
    const double mean_C = dawn_random_between(&random, 0.0, 12.0);

    make_weather(&made, NIGHT_HOURS, mean_C, dawn_random_between(&random, 0.0, 1.0));
    night->as_forecast_C = lump_low_C(made.weather.air_C, made.weather.longwave_W_m2, 1.0);
    assert_true(dawn_members_draw(&members, MEMBERS, 1000 + index, scenario, &made.weather, 0));
    for (size_t m = 0; m < MEMBERS; m++) {
        const struct dawn_member *it = &members.member[m];
        night->member_C[m] = lump_low_C(it->air_C, it->longwave_W_m2, it->leaks);
    }
    dawn_members_release(&members);
    assert_true(dawn_members_draw(&members, 1, 500000 + index, scenario, &made.weather, 0));
    night->came_C = lump_low_C(members.member[0].air_C, members.member[0].longwave_W_m2,
                               members.member[0].leaks);
    dawn_members_release(&members);
}

static double share_below(const double *value, size_t count, double line)
{
    return (double)dawn_score_rank(value, count, line) / (double)count;
}

/* Ranks of what came are even: chi-square of 19 degrees of freedom stays below 43.8 in 999 of 1000
 * (printed tables, from memory). 80 % ranges of 99 members hold 78.4 % in the long run (order
 * statistics, closed form). Brier's score and CRPS beat what is known without a forecast, and the
 * forecast taken as it is with a fixed lift. */
static void chances_are_right_in_the_long_run(void **state)
{
    static struct night night[NIGHTS];
    static double came[NIGHTS];
    static double chance[3][NIGHTS];
    static double froze[NIGHTS];
    struct dawn_scenario scenario;
    size_t rank[BINS] = {0};
    double inside = 0.0;
    double bias = 0.0;
    double crps[3] = {0.0};

    (void)state;
    assert_int_equal(dawn_scenario_usual(&scenario), DAWN_OK);
    for (size_t i = 0; i < NIGHTS; i++) {
        live_night(&night[i], &scenario, i);
        came[i] = night[i].came_C;
        froze[i] = came[i] < 0.0 ? 1.0 : 0.0;
        bias += (came[i] - night[i].as_forecast_C) / NIGHTS;
        rank[dawn_score_rank(night[i].member_C, MEMBERS, came[i]) * BINS / (MEMBERS + 1)]++;
    }
    for (size_t i = 0; i < NIGHTS; i++) {
        const double fixed_C = night[i].as_forecast_C + bias;
        chance[0][i] = share_below(night[i].member_C, MEMBERS, 0.0);
        chance[1][i] = share_below(came, NIGHTS, 0.0);
        chance[2][i] = fixed_C < 0.0 ? 1.0 : 0.0;
        crps[0] += dawn_score_crps_fair(night[i].member_C, MEMBERS, came[i]) / NIGHTS;
        crps[1] += dawn_score_crps(came, NIGHTS, came[i]) / NIGHTS;
        crps[2] += fabs(fixed_C - came[i]) / NIGHTS;
        qsort(night[i].member_C, MEMBERS, sizeof *came, dawn_score_ascending);
        inside += came[i] >= dawn_score_quantile(night[i].member_C, MEMBERS, 0.1) &&
                          came[i] <= dawn_score_quantile(night[i].member_C, MEMBERS, 0.9)
                      ? 1.0 / NIGHTS
                      : 0.0;
    }
    const double brier[3] = {dawn_score_brier(chance[0], froze, NIGHTS),
                             dawn_score_brier(chance[1], froze, NIGHTS),
                             dawn_score_brier(chance[2], froze, NIGHTS)};
    print_message("unevenness %.1f, inside %.3f, Brier %.4f %.4f %.4f, CRPS %.3f %.3f %.3f\n",
                  dawn_score_unevenness(rank, BINS), inside, brier[0], brier[1], brier[2], crps[0],
                  crps[1], crps[2]);
    assert_true(dawn_score_unevenness(rank, BINS) < 43.8);
    assert_true(inside > 0.75 && inside < 0.85);
    assert_true(brier[0] < brier[1] && brier[0] < brier[2]);
    assert_true(crps[0] < crps[1] && crps[0] < crps[2]);
    dawn_scenario_release(&scenario);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(members_err_as_stated),
        cmocka_unit_test(chances_are_right_in_the_long_run),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
