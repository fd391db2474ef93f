/* What the file lacks is estimated by published formulas; each is evaluated here once more, by hand
 * or in its own words, and the source that is reported is the one that was used. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/sun.h"
#include "support/near.h"
#include "weather_try.h"

#define PI 3.14159265358979323846

/* Hourly rows of March 2026 with one constant text behind the temperature. */
static void constant_rows(struct weather_try *try, const char *columns, const char *cells,
                          long hours)
{
    dawn_text_add(&try->text, "# stamp: hour-before\ntime,temperature (C)%s\n", columns);
    for (long h = 0; h < hours; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&try->text, "%s,%.1f%s\n", stamp, try_air_C(h), cells);
    }
    try_read_well(try);
}

static double sum_of(const double *value, size_t count)
{
    double sum = 0.0;
    for (size_t i = 0; i < count; i++)
        sum += value[i];
    return sum;
}

/* Kasten & Czeplak 1980: an overcast sky lets 0.25 of the clear sky's light through, one half
 * covered 1 - 0.75 * 0.5^3.4. */
static void cloud_dims_the_clear_sky(void **state)
{
    struct weather_try clear = try_begin();
    struct weather_try half = try_begin();
    struct weather_try overcast = try_begin();
    (void)state;
    constant_rows(&clear, ",cloud (%)", ",0", 72);
    constant_rows(&half, ",cloud (%)", ",50", 72);
    constant_rows(&overcast, ",cloud (%)", ",100", 72);
    double all = sum_of(clear.weather.ghi_W_m2, 72);
    near_share(sum_of(overcast.weather.ghi_W_m2, 72) / all, 0.25, 1e-9, "overcast");
    near_share(sum_of(half.weather.ghi_W_m2, 72) / all, 1.0 - 0.75 * pow(0.5, 3.4), 1e-9, "half");
    assert_int_equal(clear.weather.ghi_from, DAWN_FROM_CLOUD);
    assert_int_equal(clear.weather.cloud_from, DAWN_FROM_FILE);
    assert_int_equal(clear.weather.split_from, DAWN_FROM_SPLIT);
    try_said(&clear, DAWN_NOTE, "no solar radiation");
    try_end(&clear);
    try_end(&half);
    try_end(&overcast);
}

/* The sun's declination at noon of 2 March 2026: 18.13 days before the equinox (20 March 14:46 UTC,
 * published), at 1.001 deg a day on the ecliptic; sin(23.44 deg) sin(-18.14 deg). */
#define DECLINATION_DEG (-7.115)

/* Haurwitz 1945 at that noon, 45 N: the sun stands 37.9 deg high, 1098 cos z exp(-0.057 / cos z) =
 * 614.5. The mean of the brightest hour is lower by up to 1.5 %, as the sun moves 7.5 deg or more
 * either way. */
static void a_clear_noon_has_haurwitz_light(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    constant_rows(&try, ",cloud (%)", ",0", 72);
    double most = 0.0;
    for (size_t i = 24; i < 48; i++)
        most = fmax(most, try.weather.ghi_W_m2[i]);
    near(most, 609.5, 5.0, "brightest hour");
    try_end(&try);
}

/* Global light must be beam on the level plus diffuse, in each hour, with the hour's mean sun. */
static void beam_and_diffuse_add_up(void **state)
{
    static const char *const clouds[] = {",0", ",30", ",60", ",100"};
    (void)state;
    for (size_t c = 0; c < sizeof clouds / sizeof clouds[0]; c++) {
        struct weather_try try = try_begin();
        constant_rows(&try, ",cloud (%)", clouds[c], 96);
        const struct dawn_weather *weather = &try.weather;
        for (size_t i = 0; i < weather->count; i++) {
            double from_s = (double)(weather->mean_first_s + (int64_t)i * 3600);
            double cosine = dawn_sun_mean_cos_zenith(from_s, from_s + 3600.0, 45.0, 7.0);
            near(weather->dni_W_m2[i] * cosine + weather->dhi_W_m2[i], weather->ghi_W_m2[i], 0.01,
                 "beam + diffuse");
            assert_true(weather->dni_W_m2[i] >= 0.0 && weather->dni_W_m2[i] <= 1100.0);
            assert_true(weather->dhi_W_m2[i] >= 0.0);
        }
        try_end(&try);
    }
}

/* Erbs, Klein & Duffie 1982: at a clearness of 0.5 the diffuse share is 0.9511 - 0.1604 * 0.5 +
 * 4.388 * 0.25 - 16.638 * 0.125 + 12.336 * 0.0625 = 0.6592; at 0.2 it is 1 - 0.09 * 0.2 = 0.982. */
static void the_split_is_erbs(void **state)
{
    static const double clearness[] = {0.5, 0.2};
    static const double share[] = {0.6592, 0.982};
    (void)state;
    for (int k = 0; k < 2; k++) {
        struct weather_try try = try_begin();
        double ghi = 0.0;
        double from_s = (double)dawn_civil_days(2026, 3, 2) * 86400.0 + 11.0 * 3600.0;
        double outside = dawn_sun_extraterrestrial_W_m2(from_s + 1800.0) *
                         dawn_sun_mean_cos_zenith(from_s, from_s + 3600.0, 45.0, 7.0);
        dawn_text_add(&try.text, "# utc_offset: 0\n# stamp: hour-before\n"
                                 "time,temperature (C),global (W/m2)\n");
        ghi = clearness[k] * outside;
        dawn_text_add(&try.text, "2026-03-02 11:00,5,%.6f\n2026-03-02 12:00,6,%.6f\n", ghi * 0.98,
                      ghi);
        try_read_well(&try);
        near(try.weather.dhi_W_m2[1] / ghi, share[k], 1e-4, "diffuse share");
        assert_int_equal(try.weather.ghi_from, DAWN_FROM_FILE);
        assert_int_equal(try.weather.split_from, DAWN_FROM_SPLIT);
        try_end(&try);
    }
}

static void measured_parts_are_kept(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text,
                  "# utc_offset: 0\n# stamp: hour-before\n"
                  "time,temperature (C),GHI (W/m2),DHI (W/m2),DNI (W/m2),cloud (%%)\n"
                  "2026-03-02 11:00,5,400,100,520,10\n2026-03-02 12:00,6,410,110,510,10\n");
    try_read_well(&try);
    near(try.weather.ghi_W_m2[1], 410.0, 1e-12, "global as measured");
    near(try.weather.dhi_W_m2[1], 110.0, 1e-12, "diffuse as measured");
    near(try.weather.dni_W_m2[1], 510.0, 1e-12, "beam as measured");
    assert_int_equal(try.weather.split_from, DAWN_FROM_FILE);
    try_end(&try);
}

/* Beam and diffuse alone make the global light: beam times the mean cosine plus diffuse. */
static void global_light_from_its_parts(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "# utc_offset: 0\n# stamp: hour-before\n"
                             "time,temperature (C),diffuse (W/m2),direct normal (W/m2)\n"
                             "2026-03-02 11:00,5,100,500\n2026-03-02 12:00,6,100,500\n");
    try_read_well(&try);
    double from_s = (double)dawn_civil_days(2026, 3, 2) * 86400.0 + 11.0 * 3600.0;
    double cosine = dawn_sun_mean_cos_zenith(from_s, from_s + 3600.0, 45.0, 7.0);
    near(try.weather.ghi_W_m2[1], 500.0 * cosine + 100.0, 1e-9, "global");
    assert_int_equal(try.weather.ghi_from, DAWN_FROM_FILE);
    try_end(&try);
}

/* Hargreaves & Samani as FAO Irrigation and drainage paper 56, equation 50, with 0.16 inland; the
 * range here is 10 K. Ra by its equation 21, with the almanac's declination in place of its
 * equation 24 (which is 0.7 deg off on this day) and 1361 W/m2 for its 1367. 0.5 %: the sun's
 * distance by its equation 23, and the day summed in hours. */
static void light_from_the_range_of_temperature(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    constant_rows(&try, "", "", 72);
    double dr = 1.0 + 0.033 * cos(2.0 * PI * 61.0 / 365.0);
    double dec = DECLINATION_DEG * PI / 180.0;
    double phi = 45.0 * PI / 180.0;
    double ws = acos(-tan(phi) * tan(dec));
    double ra_MJ =
        24.0 * 60.0 / PI * 0.0820 * dr * (ws * sin(phi) * sin(dec) + cos(phi) * cos(dec) * sin(ws));
    double day_MJ = sum_of(&try.weather.ghi_W_m2[24], 24) * 3600e-6;
    near_share(day_MJ, 0.16 * sqrt(10.0) * ra_MJ * 1361.0 / 1367.0, 0.005, "light of the day");
    assert_int_equal(try.weather.ghi_from, DAWN_FROM_RANGE);
    assert_int_equal(try.weather.cloud_from, DAWN_FROM_RANGE);
    try_said(&try, DAWN_WARNING, "daily range of temperature");
    try_end(&try);
}

/* Light of a known cloud, read back: Kasten & Czeplak turned round, and carried through the night.
 */
static void cloud_is_seen_in_the_light(void **state)
{
    struct weather_try source = try_begin();
    struct weather_try try = try_begin();
    (void)state;
    constant_rows(&source, ",cloud (%)", ",60", 72);
    dawn_text_add(&try.text, "# stamp: hour-before\ntime,temperature (C),global (W/m2)\n");
    for (long h = 0; h < 72; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&try.text, "%s,%.1f,%.4f\n", stamp, try_air_C(h), source.weather.ghi_W_m2[h]);
    }
    try_read_well(&try);
    assert_int_equal(try.weather.cloud_from, DAWN_FROM_LIGHT);
    /* the cloudy file has no radiation, so its means begin at first_s; here they end there */
    assert_int_equal(try.weather.first_s - try.weather.mean_first_s, 3600);
    try_end(&source);
    try_end(&try);
    source = try_begin();
    try = try_begin();
    dawn_text_add(&source.text, "# stamp: hour-before\n"
                                "time,temperature (C),cloud (%%),global (W/m2)\n");
    for (long h = 0; h < 72; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&source.text, "%s,%.1f,60,%s\n", stamp, try_air_C(h), h == 0 ? "0" : "");
    }
    try_read_well(&source); /* the radiation column is mostly empty: left out and estimated */
    dawn_text_add(&try.text, "# stamp: hour-after\ntime,temperature (C),global (W/m2)\n");
    for (long h = 0; h < 72; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&try.text, "%s,%.1f,%.4f\n", stamp, try_air_C(h),
                      source.weather.ghi_W_m2[h < 71 ? h + 1 : 71]);
    }
    try_read_well(&try);
    for (size_t i = 0; i < try.weather.count; i++)
        near(try.weather.cloud[i], 0.6, 1e-3, "cloud, day and night");
    try_end(&source);
    try_end(&try);
}

/* Magnus by Alduchov & Eskridge 1996: dew point of 20 C at 50 % is
 * 243.04 g / (17.625 - g), g = ln 0.5 + 17.625 * 20 / 263.04: 9.26 C (computed closed form). */
static void dew_point_from_humidity(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temperature (C),humidity (%%)\n2026-03-02 00:00,20,50\n"
                             "2026-03-02 01:00,20,100\n2026-03-02 02:00,-10,80\n");
    try_read_well(&try);
    double g = log(0.5) + 17.625 * 20.0 / 263.04;
    near(try.weather.dew_C[0], 243.04 * g / (17.625 - g), 1e-9, "50 % at 20 C");
    near(try.weather.dew_C[0], 9.26, 0.01, "50 % at 20 C");
    near(try.weather.dew_C[1], 20.0, 1e-9, "saturated");
    double cold = log(0.8) + 17.625 * -10.0 / 233.04; /* over water also below 0 C, as WMO has it */
    near(try.weather.dew_C[2], 243.04 * cold / (17.625 - cold), 1e-9, "80 % at -10 C");
    assert_int_equal(try.weather.humidity_from, DAWN_FROM_FILE);
    try_end(&try);
}

/* FAO 56, equation 48: without humidity the dew point is the night's lowest air temperature. */
static void dew_point_from_the_lowest_temperature(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    constant_rows(&try, "", "", 72);
    for (size_t i = 24; i < 48; i++)
        near(try.weather.dew_C[i], 1.0, 1e-9, "lowest of the day");
    assert_int_equal(try.weather.humidity_from, DAWN_FROM_DEFAULT);
    try_said(&try, DAWN_NOTE, "neither dew point nor humidity");
    try_end(&try);
}

/* Berdahl & Martin 1984 with hour and pressure terms, Unsworth & Monteith 1975 for cloud:
 * air 5, dew point -10, 950 hPa, cloud 0.4, at 0 h UTC at longitude 0 (computed closed form). */
static void the_sky_is_berdahl_and_martin(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "# latitude: 45\n# longitude: 0\n# utc_offset: 0\n"
                             "time,temperature (C),dew point (C),pressure (hPa),cloud (%%)\n"
                             "2026-03-02 00:00,5,-10,950,40\n2026-03-02 01:00,5,-10,950,40\n");
    try_read_well(&try);
    double clear = 0.711 + 0.56 * -0.10 + 0.73 * 0.01 + 0.013 + 0.00012 * (950.0 - 1000.0);
    double cloudy = clear * (1.0 - 0.84 * 0.4) + 0.84 * 0.4;
    near(try.weather.longwave_W_m2[0], cloudy * 5.670374419e-8 * pow(278.15, 4.0), 1e-6,
         "long-wave at midnight");
    assert_int_equal(try.weather.longwave_from, DAWN_FROM_SKY_MODEL);
    try_end(&try);
}

/* The standard atmosphere of ISO 2533 at 500 m: 954.6 hPa. FAO 56 where there is no wind: 2 m/s. */
static void pressure_wind_and_snow_have_usual_values(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    constant_rows(&try, "", "", 24);
    near(try.weather.pressure_Pa[3], 95460.0, 20.0, "500 m up");
    near(try.weather.wind_m_s[3], 2.0, 1e-12, "no wind in the file");
    near(try.weather.snow_m[3], 0.0, 0.0, "no snow in the file");
    assert_int_equal(try.weather.pressure_from, DAWN_FROM_DEFAULT);
    assert_int_equal(try.weather.wind_from, DAWN_FROM_DEFAULT);
    assert_int_equal(try.weather.snow_from, DAWN_FROM_DEFAULT);
    try_end(&try);
}

/* Whatever is missing, the result has no hole and nothing impossible in it. */
static void the_result_is_always_complete(void **state)
{
    static const char *const columns[] = {"",
                                          ",cloud (%)",
                                          ",global (W/m2)",
                                          ",RH (%)",
                                          ",dew point (C),wind (m/s)",
                                          ",cloud (%),snow depth (cm)"};
    static const char *const cells[] = {"", ",35", ",0", ",70", ",-1,3", ",100,4"};
    (void)state;
    for (size_t c = 0; c < sizeof columns / sizeof columns[0]; c++) {
        for (int latitude = -60; latitude <= 70; latitude += 65) {
            struct weather_try try = try_begin();
            try.hints.latitude_deg = latitude;
            constant_rows(&try, columns[c], cells[c], 120);
            const struct dawn_weather *w = &try.weather;
            for (size_t i = 0; i < w->count; i++) {
                assert_true(isfinite(w->air_C[i]) && w->dew_C[i] <= w->air_C[i]);
                assert_true(w->wind_m_s[i] >= 0.0 && w->pressure_Pa[i] > 4e4);
                assert_true(w->cloud[i] >= 0.0 && w->cloud[i] <= 1.0);
                assert_true(w->longwave_W_m2[i] > 100.0 && w->longwave_W_m2[i] < 500.0);
                assert_true(w->ghi_W_m2[i] >= 0.0 && w->ghi_W_m2[i] < 1200.0);
                assert_true(w->dni_W_m2[i] >= 0.0 && w->dni_W_m2[i] <= 1100.0);
                assert_true(w->dhi_W_m2[i] >= 0.0 && w->snow_m[i] >= 0.0);
            }
            try_end(&try);
        }
    }
}

static void a_place_is_needed_for_estimates_only(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    try.hints.latitude_deg = NAN;
    dawn_text_add(&try.text, "time,temp (C)\n2026-03-02 00:00,5\n2026-03-02 01:00,5\n");
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    try_said(&try, DAWN_ERROR, "says where the place is");
    try_end(&try);
    try = try_begin();
    try.hints.latitude_deg = NAN;
    dawn_text_add(&try.text, "time,temp (C),GHI (W/m2),DHI (W/m2),DNI (W/m2),cloud (%%)\n"
                             "2026-03-02 11:00,5,400,100,520,10\n"
                             "2026-03-02 12:00,6,410,110,510,10\n");
    try_read_well(&try);
    assert_true(isnan(try.weather.latitude_deg));
    try_end(&try);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cloud_dims_the_clear_sky),
        cmocka_unit_test(a_clear_noon_has_haurwitz_light),
        cmocka_unit_test(beam_and_diffuse_add_up),
        cmocka_unit_test(the_split_is_erbs),
        cmocka_unit_test(measured_parts_are_kept),
        cmocka_unit_test(global_light_from_its_parts),
        cmocka_unit_test(light_from_the_range_of_temperature),
        cmocka_unit_test(cloud_is_seen_in_the_light),
        cmocka_unit_test(dew_point_from_humidity),
        cmocka_unit_test(dew_point_from_the_lowest_temperature),
        cmocka_unit_test(the_sky_is_berdahl_and_martin),
        cmocka_unit_test(pressure_wind_and_snow_have_usual_values),
        cmocka_unit_test(the_result_is_always_complete),
        cmocka_unit_test(a_place_is_needed_for_estimates_only),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
