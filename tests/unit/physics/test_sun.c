/* Position of the sun, its mean height and its crossings of the horizon. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/sun.h"
#include "support/near.h"

#define RADIANS 0.017453292519943295

/* 2003-10-17 12:30:30 at UTC-7 */
#define REDA_S         1066419030.0
#define REDA_LATITUDE  39.742476
#define REDA_LONGITUDE (-105.1786)

/* The error promised in sun.h is 0.0125 deg; these references are topocentric, which is up to
 * 0.0024 deg of parallax away: 0.02 as the algorithm's known limit. */
#define SUN_DEG 0.02

static void test_position_of_the_standard_example(void **state)
{
    /* Reda & Andreas 2004 (NREL/TP-560-34302), appendix A.5; seen, quoted in several public
     * repositories' tests. Zenith without air 50.12795: reproduced with an ephemeris. */
    (void)state;
    struct dawn_sun sun = dawn_sun_position(REDA_S, REDA_LATITUDE, REDA_LONGITUDE);
    near(sun.zenith_rad / RADIANS, 50.12795, SUN_DEG, "zenith without air");
    near(sun.azimuth_rad / RADIANS, 194.34024, SUN_DEG, "azimuth");
    near(sun.declination_rad / RADIANS, -9.314340, SUN_DEG, "declination");
    near(sun.hour_angle_rad / RADIANS, 11.105900, SUN_DEG, "hour angle");
    near(sun.cos_zenith, cos(sun.zenith_rad), 1e-12, "cosine of its own zenith");
}

static double incidence_cos(struct dawn_sun sun, double slope_rad, double azimuth_rad)
{
    return dawn_sun_incidence_cos(sun, dawn_sun_facing(slope_rad, azimuth_rad));
}

static void test_incidence_of_the_standard_example(void **state)
{
    /* Same example: slope 30, azimuth rotation -10 (10 deg east of south), incidence 25.18700;
     * seen. Its zenith holds the refraction of that air, 50.12795 - 50.11162 (seen), so ours is
     * given it here. */
    (void)state;
    struct dawn_sun sun = dawn_sun_position(REDA_S, REDA_LATITUDE, REDA_LONGITUDE);
    double geometric_rad = sun.zenith_rad;
    sun.zenith_rad -= (50.12795 - 50.11162) * RADIANS;
    sun.cos_zenith = cos(sun.zenith_rad);
    sun.north *= sin(sun.zenith_rad) / sin(geometric_rad);
    sun.east *= sin(sun.zenith_rad) / sin(geometric_rad);
    double cosine = incidence_cos(sun, 30.0 * RADIANS, 170.0 * RADIANS);
    near(acos(cosine) / RADIANS, 25.18700, SUN_DEG, "incidence");
}

static void test_positions_against_an_ephemeris(void **state)
{
    /* Airless topocentric zenith and azimuth from a numerically integrated ephemeris, computed once
     * for this test (not ours: a planetary ephemeris library). */
    static const struct {
        double utc_s, latitude, longitude, zenith, azimuth;
        const char *what;
    } at[] = {
        {1774035000.0, 51.05, -114.07, 51.0556, 175.6187, "2026-03-20 19:30 UTC, 51 N"},
        {1797850800.0, 60.0, 10.0, 83.5212, 175.8350, "2026-12-21 11:00 UTC, 60 N"},
        {1776268800.0, 44.5, -123.3, 64.1123, 102.0167, "2026-04-15 16:00 UTC, 44 N"},
        {1782871200.0, -37.8, 145.0, 61.1717, 6.2512, "2026-07-01 02:00 UTC, 38 S"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        struct dawn_sun sun = dawn_sun_position(at[i].utc_s, at[i].latitude, at[i].longitude);
        near(sun.zenith_rad / RADIANS, at[i].zenith, SUN_DEG, at[i].what);
        near(sun.azimuth_rad / RADIANS, at[i].azimuth, SUN_DEG, at[i].what);
    }
}

static void test_extraterrestrial(void **state)
{
    /* Same example: distance 0.9965422 AU; seen. With 1361 W/m2 (Kopp & Lean 2011). The Almanac's
     * formula is good to 1e-4 AU, twice that in the square. */
    (void)state;
    near_share(dawn_sun_extraterrestrial_W_m2(REDA_S), 1361.0 / (0.9965422 * 0.9965422), 2e-4,
               "mid October");
    /* Nearest and farthest in 2026: 0.98330 AU on 3 January, 1.01664 AU on 6 July; almanacs, from
     * memory, rounded */
    near_share(dawn_sun_extraterrestrial_W_m2(1767456000.0), 1361.0 / (0.9833 * 0.9833), 3e-4,
               "perihelion");
    near_share(dawn_sun_extraterrestrial_W_m2(1783353600.0), 1361.0 / (1.01665 * 1.01665), 3e-4,
               "aphelion");
    /* FAO-56 example 8: day 246, factor 0.985, seen; that simple cosine is known to be 0.3 % off in
     * autumn. 2026-09-03 noon. */
    near(dawn_sun_extraterrestrial_W_m2(1788436800.0) / 1361.0, 0.985, 0.0035,
         "distance factor, day 246");
}

static void test_incidence_by_geometry(void **state)
{
    /* computed closed form: a lying plane meets the zenith angle, a plane facing the sun meets it
     * squarely, its back the opposite */
    (void)state;
    struct dawn_sun sun = dawn_sun_position(REDA_S, REDA_LATITUDE, REDA_LONGITUDE);
    near(incidence_cos(sun, 0.0, 1.0), sun.cos_zenith, 1e-12, "lying");
    near(incidence_cos(sun, sun.zenith_rad, sun.azimuth_rad), 1.0, 1e-12, "facing");
    near(incidence_cos(sun, 180.0 * RADIANS, 0.0), -sun.cos_zenith, 1e-12, "upside down");
    near(incidence_cos(sun, 90.0 * RADIANS, sun.azimuth_rad + 90.0 * RADIANS), 0.0, 1e-12,
         "edge on");
}

/* A moment with declination -20 deg in November 2026, to the second. */
static double declination_minus_20_s(void)
{
    double early_s = 1793491200.0; /* 2026-11-01, -14 deg */
    double late_s = 1796083200.0;  /* 2026-12-01, -22 deg */
    while (late_s - early_s > 1.0) {
        double middle_s = 0.5 * (early_s + late_s);
        if (dawn_sun_position(middle_s, 0.0, 0.0).declination_rad > -20.0 * RADIANS)
            early_s = middle_s;
        else
            late_s = middle_s;
    }
    return early_s;
}

static void test_mean_of_an_hour(void **state)
{
    /* Mean of max(0, cos z) over solar hours 7..8 (sunrise 7.19) and 11..12 at 40 deg, declination
     * -20: computed closed form, by quadrature. 2e-4 is what 12 sub-steps promise. */
    (void)state;
    double moment_s = declination_minus_20_s();
    double at_greenwich = dawn_sun_position(moment_s, 40.0, 0.0).hour_angle_rad / RADIANS;
    double longitude = -67.5 - at_greenwich; /* half past seven there */
    near(dawn_sun_mean_cos_zenith(moment_s - 1800.0, moment_s + 1800.0, 40.0, longitude),
         0.05794421, 2e-4, "hour of sunrise");
    longitude = -7.5 - at_greenwich;
    near(dawn_sun_mean_cos_zenith(moment_s - 1800.0, moment_s + 1800.0, 40.0, longitude),
         0.49180522, 2e-4, "hour before noon");
    near(dawn_sun_mean_cos_zenith(moment_s, moment_s + 3600.0, 40.0, 180.0 - at_greenwich), 0.0,
         0.0, "midnight");
}

/* FAO counts daylight by the sun's middle and without refraction; at 90.833 deg as ours it is up
 * some 7 minutes longer (0.833 deg at 15 deg an hour, twice, over the slant of its path). FAO's
 * declination is off by up to 0.5 deg: 0.035 h. */
static void daylight_of_fao(double midnight_s, double latitude_deg, double want_h)
{
    double declination = dawn_sun_position(midnight_s + 43200.0, 0.0, 0.0).declination_rad;
    double slant = cos(latitude_deg * RADIANS) * cos(declination) * sin(want_h * 7.5 * RADIANS);
    double longer_h = 2.0 * 0.833 / 15.0 / slant;
    double rise_s = dawn_sun_crossing_s(midnight_s, midnight_s + 43200.0, latitude_deg, 0.0, 1);
    double set_s =
        dawn_sun_crossing_s(midnight_s + 43200.0, midnight_s + 86400.0, latitude_deg, 0.0, 0);
    near((set_s - rise_s) / 3600.0 - longer_h, want_h, 0.035, "daylight");
}

static void test_an_hour_and_a_day_of_fao(void **state)
{
    (void)state;
    /* FAO-56 example 19 (from memory): 16 deg 13' N, 16 deg 15' W, 1 October, 14 to 15 h on the
     * clock of 15 W: 3.543 MJ/m2, with its constant of 0.0820 MJ/(m2 min). Its declination of that
     * day is off by 1.0 deg, 0.8 % of the hour's light, and its distance by 0.3 %: 1.1 %. */
    const double from_s = 1790866800.0; /* 2026-10-01 15:00 UTC */
    double mean = dawn_sun_mean_cos_zenith(from_s, from_s + 3600.0, 16.0 + 13.0 / 60.0, -16.25);
    near_share(mean * dawn_sun_extraterrestrial_W_m2(from_s) * 3600e-6 * (0.0820 / 60e-6) / 1361.0,
               3.543, 0.011, "an hour");
    /* FAO-56 example 9 (seen): 20 S on day 246: 11.7 h of daylight; example 10 (from memory): 22
     * deg 54' S on 15 May: 10.9 h; by its formulas 11.66559 and 10.8951 h. */
    daylight_of_fao(1788393600.0, -20.0, 11.66559);
    daylight_of_fao(1778803200.0, -22.9, 10.8951);
}

static void test_sunrise_and_sunset(void **state)
{
    /* Same example of Reda & Andreas: sunrise 6:12:43 and sunset 17:20:19 local time, from memory;
     * 0.02 deg of height are 7 s there. The example's day is the UT day: its sunset is that of the
     * evening before. */
    (void)state;
    const double midnight_s = REDA_S - (12.0 * 3600.0 + 30.0 * 60.0 + 30.0);
    const double end_s = midnight_s + 86400.0;
    double rise_s = dawn_sun_crossing_s(midnight_s, end_s, REDA_LATITUDE, REDA_LONGITUDE, 1);
    double set_s =
        dawn_sun_crossing_s(midnight_s - 86400.0, midnight_s, REDA_LATITUDE, REDA_LONGITUDE, 0);
    near(rise_s - midnight_s, 6.0 * 3600.0 + 12.0 * 60.0 + 43.0, 7.0, "sunrise");
    near(set_s - midnight_s + 86400.0, 17.0 * 3600.0 + 20.0 * 60.0 + 19.0, 7.0, "sunset");
    near(dawn_sun_position(rise_s, REDA_LATITUDE, REDA_LONGITUDE).zenith_rad / RADIANS, 90.833,
         1.0 / 3600.0 * 15.0, "height at sunrise, to a second");
}

static void test_no_crossing(void **state)
{
    (void)state;
    /* Polar night and midnight sun at 70 N: the circle lies at 66.6, geography. */
    assert_true(isnan(dawn_sun_crossing_s(1797811200.0, 1797897600.0, 72.0, 20.0, 1)));
    assert_true(isnan(dawn_sun_crossing_s(1782000000.0, 1782086400.0, 72.0, 20.0, 0)));
    /* a span without time, a span that ends before the sun is there */
    assert_true(isnan(dawn_sun_crossing_s(REDA_S, REDA_S, REDA_LATITUDE, REDA_LONGITUDE, 1)));
    assert_true(isnan(dawn_sun_crossing_s(REDA_S, REDA_S - 9e4, REDA_LATITUDE, REDA_LONGITUDE, 1)));
    assert_true(
        isnan(dawn_sun_crossing_s(REDA_S, REDA_S + 3600.0, REDA_LATITUDE, REDA_LONGITUDE, 1)));
}

static void test_everywhere_is_a_number(void **state)
{
    (void)state;
    for (int latitude = -90; latitude <= 90; latitude += 15)
        for (int hour = 0; hour < 24 * 365 * 40; hour += 1009) {
            struct dawn_sun sun = dawn_sun_position(hour * 3600.0, latitude, 13.0 * latitude);
            assert_true(sun.cos_zenith >= -1.0 && sun.cos_zenith <= 1.0);
            assert_true(sun.cos_zenith ==
                        dawn_sun_cos_zenith(hour * 3600.0, latitude, 13.0 * latitude));
            assert_true(sun.azimuth_rad >= 0.0 && sun.azimuth_rad < 360.0 * RADIANS);
            /* the tropics: obliquity 23.44 deg in our century */
            assert_true(fabs(sun.declination_rad) < 23.46 * RADIANS);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_position_of_the_standard_example),
        cmocka_unit_test(test_incidence_of_the_standard_example),
        cmocka_unit_test(test_positions_against_an_ephemeris),
        cmocka_unit_test(test_extraterrestrial),
        cmocka_unit_test(test_incidence_by_geometry),
        cmocka_unit_test(test_mean_of_an_hour),
        cmocka_unit_test(test_an_hour_and_a_day_of_fao),
        cmocka_unit_test(test_sunrise_and_sunset),
        cmocka_unit_test(test_no_crossing),
        cmocka_unit_test(test_everywhere_is_a_number),
    };
    return cmocka_run_group_tests_name("sun", tests, NULL, NULL);
}
