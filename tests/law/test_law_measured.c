/* What others measured, against nurseries built alike: a film tunnel with rock canals, and what a
 * bare film tunnel does at night. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "dawnlow/physics/light.h"
#include "dawnlow/physics/sky.h"
#include "dawnlow/physics/sun.h"
#include "support/near.h"
#include "support/shipped.h"

static const double hour_s = 3600.0;

/* ---- rock canals in a sunny winter week ---- */

enum { SUNNY_DAYS = 15, WEEK = 7 };
static const int64_t january_s = 1767996000; /* 2026-01-09 22:00 UTC: midnight at UTC + 2 h */

/* INVENTED: clear days of 6 to 17 C on a mild coast, dew point 2 C, 1.5 m/s of wind; light and sky
 * of a clear day (Haurwitz 1945, Berdahl & Martin 1984). The same day again and again. */
static void sunny_weather(struct dawn_weather *w, const struct dawn_site *site)
{
    const size_t hours = (size_t)SUNNY_DAYS * 24 + 1;
    double **series[] = {&w->air_C,    &w->dew_C,         &w->wind_m_s, &w->pressure_Pa,
                         &w->cloud,    &w->longwave_W_m2, &w->snow_m,   &w->ghi_W_m2,
                         &w->dni_W_m2, &w->dhi_W_m2};
    memset(w, 0, sizeof *w);
    w->count = hours;
    w->latitude_deg = w->longitude_deg = w->elevation_m = NAN;
    w->first_s = w->mean_first_s = january_s;
    w->split_from = DAWN_FROM_SPLIT;
    for (size_t i = 0; i < sizeof series / sizeof *series; ++i) {
        *series[i] = calloc(hours, sizeof(double));
        assert_non_null(*series[i]);
    }
    for (size_t i = 0; i < hours; ++i) {
        double t_s = (double)(january_s + (int64_t)i * 3600);
        double cos_z =
            dawn_sun_mean_cos_zenith(t_s, t_s + hour_s, site->latitude_deg, site->longitude_deg);
        w->air_C[i] = 11.5 + 5.5 * sin(6.283185307179586 * ((double)(i % 24) - 9) / 24);
        w->dew_C[i] = 2;
        w->wind_m_s[i] = 1.5;
        w->pressure_Pa[i] = 101325;
        w->longwave_W_m2[i] = dawn_sky_longwave_W_m2(
            dawn_sky_emissivity_berdahl(2.0, (double)(i % 24), 101325.0), w->air_C[i]);
        if (cos_z <= 0.02)
            continue;
        double above = cos_z * dawn_sun_extraterrestrial_W_m2(t_s);
        w->ghi_W_m2[i] = dawn_light_clear_W_m2(cos_z);
        w->dhi_W_m2[i] = w->ghi_W_m2[i] * dawn_light_diffuse_share(w->ghi_W_m2[i] / above);
    }
}

static void run_canals(struct shipped *it, bool with_rock)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    static const char *const path = "tests/law/rock_canals.yaml";
    shipped_fine(it, dawn_scenario_read(&it->scenario, path, NULL, 0, &it->problems), path);
    it->scenario.rock.present = it->scenario.fan.present = with_rock;
    sunny_weather(&it->weather, &it->scenario.site);
    shipped_build(it);
    plan.ledger = true;
    plan.from_s = january_s + (int64_t)((SUNNY_DAYS - 1 - WEEK) * 24 + 12) * 3600;
    plan.to_s = plan.from_s + (int64_t)WEEK * 86400;
    shipped_run(it, &plan);
    assert_int_equal(it->nights.count, WEEK);
}

/* The house air's mean from dusk to dawn. */
static double night_mean_C(const struct shipped *it, const struct dawn_night *night)
{
    double sum = 0;
    int count = 0;
    for (int64_t t = night->dusk_s; t <= night->dawn_s; t += 300, ++count)
        sum += dawn_trajectory_watched_C(it->run, dawn_network_air(it->network), (double)t);
    return sum / count;
}

/* Heat the fan's air brings to the rock, and takes from it, J; hour by hour, as the two do not
 * share an hour but at noon and dusk. */
static void carried_J(const struct shipped *it, double *to_rock, double *from_rock)
{
    double from_s = (double)dawn_trajectory_from_s(it->run);
    *to_rock = *from_rock = 0;
    for (int hour = 0; hour < WEEK * 24; ++hour) {
        double sum = 0;
        for (size_t i = 0; i < dawn_network_flow_count(it->network); ++i)
            if (strcmp(dawn_network_flow(it->network, i).kind, "air through the rock") == 0)
                sum += dawn_trajectory_flow_J(it->run, i, from_s + hour * hour_s,
                                              from_s + (hour + 1) * hour_s);
        *(sum > 0 ? to_rock : from_rock) += fabs(sum);
    }
}

static double light_J_m2(const struct shipped *it)
{
    double sum = 0;
    for (size_t i = 0; i < WEEK * 24; ++i)
        sum += it->weather.ghi_W_m2[i + 12] * hour_s;
    return sum;
}

/* Published measurement, abstract seen: nights about 10 K above the control house, more than 80 %
 * of the stored heat given back, 34 % of the light collected. The bands, 6 to 12 K and 70 to 95 %,
 * are for what the abstract does not tell (rock_canals.yaml says what that is). The collected share
 * is printed and held to nothing, for it hangs on which light is meant. */
static void rock_canals_lift_the_night(void **state)
{
    (void)state;
    struct shipped with = {0};
    struct shipped twin = {0};
    double lift = 0;
    double low_lift = 0;
    double charged = 0;
    double given = 0;
    run_canals(&with, true);
    run_canals(&twin, false);
    for (size_t i = 0; i < WEEK; ++i) {
        lift += (night_mean_C(&with, &with.nights.night[i]) -
                 night_mean_C(&twin, &twin.nights.night[i])) /
                WEEK;
        low_lift += (with.nights.night[i].air_low_C - twin.nights.night[i].air_low_C) / WEEK;
    }
    carried_J(&with, &charged, &given);
    double collected = charged / (light_J_m2(&with) * 15.0);
    print_message("lift %.2f K (lows %.2f K), recovery %.1f %%, collected %.1f %%\n", lift,
                  low_lift, 100 * given / charged, 100 * collected);
    assert_true(lift > 6.0 && lift < 12.0);
    assert_true(given / charged > 0.70 && given / charged < 0.95);
    shipped_release(&with);
    shipped_release(&twin);
}

/* ---- a bare film tunnel ---- */

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Cloud in the middle of a night, 0..1, and the wind. */
static bool calm_and_clear(const struct dawn_weather *weather, const struct dawn_night *night)
{
    size_t from = (size_t)((night->dusk_s - weather->first_s) / 3600) + 1;
    size_t to = (size_t)((night->dawn_s - weather->first_s) / 3600);
    double cloud = 0;
    double wind = 0;
    for (size_t i = from; i <= to; ++i) {
        cloud += weather->cloud[i] / (double)(to - from + 1);
        wind += weather->wind_m_s[i] / (double)(to - from + 1);
    }
    return cloud < 0.25 && wind < 2.0;
}

/* February and March: in April a spring sun shines by day. */
enum { COLD_DAYS = 59, COLD_NIGHTS = COLD_DAYS - 1 };

static void run_tunnel(struct shipped *it, double light, double air_changes_per_h)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    plan.from_s = 1769943600 + 12 * 3600; /* noon of 1 February 2026 at UTC + 1 h */
    plan.to_s = plan.from_s + (int64_t)COLD_DAYS * 86400;
    shipped_read(it, "scenarios/film-tunnel.yaml", NULL, 0);
    it->scenario.trays.present = false; /* wet trays are a store */
    it->scenario.house.air_changes_per_h = air_changes_per_h;
    for (size_t i = 0; i < it->weather.count; ++i) {
        it->weather.ghi_W_m2[i] *= light;
        it->weather.dhi_W_m2[i] *= light;
        it->weather.dni_W_m2[i] *= light;
    }
    shipped_build(it);
    shipped_run(it, &plan);
    assert_int_equal(it->nights.count, COLD_NIGHTS);
}

/* One skin of film over gravel and nothing in it: over the cold season the median of inside low
 * less outside low lies within 1.5 K of nought, and some nights are colder inside than out
 * (growers' records; common practice, no source). With us it is near the upper end: the floor gives
 * back more of a clear March day than growers' records seem to have found. */
static void bare_tunnel_follows_the_outdoor_low(void **state)
{
    (void)state;
    struct shipped it = {0};
    double lift[COLD_NIGHTS];
    run_tunnel(&it, 1.0, 1.5);
    for (size_t i = 0; i < it.nights.count; ++i)
        lift[i] = it.nights.night[i].air_low_C - it.nights.night[i].outside_low_C;
    qsort(lift, it.nights.count, sizeof *lift, by_size);
    print_message("median %+.2f K, coldest %+.2f K\n", lift[COLD_NIGHTS / 2], lift[0]);
    assert_true(fabs(lift[COLD_NIGHTS / 2]) < 1.5);
    assert_true(lift[0] < 0);
    shipped_release(&it);
}

/* Where the floor has no sun to give back, calm clear nights are colder inside than out: the film
 * cools below the outdoor air and keeps the breeze away (growers' records; common practice, no
 * source). Nights as they are, days as dull as a tenth of their light. */
static void bare_tunnel_is_colder_after_dull_days(void **state)
{
    (void)state;
    struct shipped it = {0};
    size_t calm = 0;
    size_t below = 0;
    run_tunnel(&it, 0.1, 1.5);
    for (size_t i = 0; i < it.nights.count; ++i) {
        const struct dawn_night *night = &it.nights.night[i];
        if (!calm_and_clear(&it.weather, night))
            continue;
        ++calm;
        below += night->air_low_C < night->outside_low_C;
    }
    print_message("%zu of %zu calm clear nights colder inside\n", below, calm);
    assert_true(calm >= 10 && 2 * below > calm);
    shipped_release(&it);
}

/* And then leaks warm: half of them, and each of those nights is colder still (where the air is the
 * colder side, the outdoor air that comes in is the warmer; comparison theorem, Kamke 1932). */
static void leaks_warm_a_tunnel_colder_than_outdoors(void **state)
{
    (void)state;
    struct shipped loose = {0};
    struct shipped tight = {0};
    size_t colder = 0;
    run_tunnel(&loose, 0.1, 1.5);
    run_tunnel(&tight, 0.1, 0.75);
    for (size_t i = 0; i < loose.nights.count; ++i) {
        const struct dawn_night *night = &loose.nights.night[i];
        if (!calm_and_clear(&loose.weather, night) || night->air_low_C >= night->outside_low_C)
            continue;
        ++colder;
        assert_true(tight.nights.night[i].air_low_C < night->air_low_C);
    }
    assert_true(colder >= 5);
    shipped_release(&loose);
    shipped_release(&tight);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rock_canals_lift_the_night),
        cmocka_unit_test(bare_tunnel_follows_the_outdoor_low),
        cmocka_unit_test(bare_tunnel_is_colder_after_dull_days),
        cmocka_unit_test(leaks_warm_a_tunnel_colder_than_outdoors),
    };
    return cmocka_run_group_tests_name("measured", tests, NULL, NULL);
}
