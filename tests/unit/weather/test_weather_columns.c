/* Columns found by the words and units of their names. Expected values are conversions by
 * definition: 0 C = 32 F = 273.15 K, 1 F = 5/9 K, 1 knot = 1852 m/h, 1 mile = 1609.344 m (BIPM, SI
 * brochure; international yard and pound agreement of 1959); an okta is an eighth of the sky (WMO).
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "weather/weather_job.h"
#include "weather_try.h"

static void names_and_units_are_parted(void **state)
{
    static const char *const headers[][3] = {
        {"Dew-point (C)", "dew point", "C"},
        {"Temp (\xC2\xB0"
         "C)",
         "temp", "C"},
        {"Temp (\xB0"
         "C)",
         "temp", "C"}, /* Latin-1 */
        {"Temp (\xE2\x88\x9E"
         "C)",
         "temp", "C"}, /* a degree sign that was re-encoded */
        {"GHI (W/m\xC2\xB2)", "ghi", "W/m2"},
        {"Temp, \xC2\xB0"
         "F (LGR S/N: 1, LBL: out)",
         "temp", "F"},
        {"relative_humidity_2m (%)", "relative humidity 2m", "%"},
        {"wind [m/s]", "wind", "m/s"},
        {"time", "time", ""},
        {"Rel Hum (%)", "rel hum", "%"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof headers / sizeof headers[0]; i++) {
        char name[64];
        char unit[64];
        dawn_weather_columns_plain(headers[i][0], name, unit);
        assert_string_equal(name, headers[i][1]);
        assert_string_equal(unit, headers[i][2]);
    }
}

/* Two rows of one value each; returns the weather read. */
static void two_rows(struct weather_try *try, const char *header, const char *cells)
{
    dawn_text_add(&try->text, "%s\n2026-03-12 00:00,%s\n2026-03-12 01:00,%s\n", header, cells,
                  cells);
    try_read_well(try);
}

static void temperatures_in_any_unit(void **state)
{
    static const struct {
        const char *header, *cell;
        double celsius;
    } columns[] = {{"time,temperature (C)", "-40", -40.0},
                   {"time,temperature (F)", "-40", -40.0},
                   {"time,Temp (\xC2\xB0"
                    "F)",
                    "50", 10.0},
                   {"time,air [K]", "273.15", 0.0},
                   {"time,Temperature_Celsius", "3.5", 3.5},
                   {"time,Temperature_Fahrenheit", "32", 0.0},
                   {"time,temp_F", "212 F", NAN},
                   {"time,temp_f", "68", 20.0},
                   {"time,t_c", "1.5", 1.5},
                   {"time,Dry-bulb (C)", "1.5", 1.5},
                   {"time,temperature_2m (\xC2\xB0"
                    "C)",
                    "1.5", 1.5},
                   {"time,Outdoor Temperature (C)", "1.5", 1.5},
                   {"time,Celsius(\xC2\xB0"
                    "C)",
                    "1.5", 1.5}};
    (void)state;
    for (size_t i = 0; i < sizeof columns / sizeof columns[0]; i++) {
        struct weather_try try = try_begin();
        if (isnan(columns[i].celsius)) {
            dawn_text_add(&try.text, "%s\n2026-03-12 00:00,%s\n", columns[i].header,
                          columns[i].cell);
            try_read(&try);
            assert_int_equal(try.status, DAWN_ERR_WEATHER);
        } else {
            two_rows(&try, columns[i].header, columns[i].cell);
            near(try.weather.air_C[0], columns[i].celsius, 1e-9, columns[i].header);
        }
        try_end(&try);
    }
}

static void other_quantities_in_any_unit(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    two_rows(&try,
             "time,temp (C),dew point (F),wind speed (knots),cloud cover (oktas),"
             "surface_pressure (hPa),snow depth (in),shortwave radiation (W/m\xC2\xB2),"
             "diffuse (kJ/m2),long wave (W/m2)",
             "10,32,10,4,950,10,0,0,300");
    near(try.weather.dew_C[0], 0.0, 1e-9, "dew point from F");
    near(try.weather.wind_m_s[0], 10.0 * 1852.0 / 3600.0, 1e-9, "knots");
    near(try.weather.cloud[0], 0.5, 1e-12, "4 oktas");
    near(try.weather.pressure_Pa[0], 95000.0, 1e-9, "hPa");
    near(try.weather.snow_m[0], 0.254, 1e-9, "10 in");
    near(try.weather.longwave_W_m2[0], 300.0, 1e-9, "long-wave");
    assert_int_equal(try.weather.longwave_from, DAWN_FROM_FILE);
    assert_int_equal(try.weather.cloud_from, DAWN_FROM_FILE);
    assert_int_equal(try.weather.humidity_from, DAWN_FROM_DEW_POINT);
    try_end(&try);
    try = try_begin();
    two_rows(&try, "time,temp (C),RH (%),Wind Spd (km/h),Stn Press (kPa),TotCld (tenths)",
             "10,100,36,99,7");
    near(try.weather.wind_m_s[0], 10.0, 1e-9, "km/h");
    near(try.weather.pressure_Pa[0], 99000.0, 1e-9, "kPa");
    near(try.weather.cloud[0], 0.7, 1e-12, "tenths");
    near(try.weather.dew_C[0], 10.0, 1e-6, "saturated: dew point = air");
    assert_int_equal(try.weather.humidity_from, DAWN_FROM_FILE);
    try_end(&try);
    try = try_begin();
    two_rows(&try, "time,temp (C),wind (mph),pressure (inHg)", "10,10,29.92");
    near(try.weather.wind_m_s[0], 4.4704, 1e-9, "10 mph");
    /* standard atmosphere: 29.92 inHg = 1013.2 hPa (common practice) */
    near(try.weather.pressure_Pa[0], 101325.0, 15.0, "29.92 inHg");
    try_end(&try);
}

/* Hourly sums: 1 Wh = 3600 J; 3600 kJ/m2 in an hour = 1000 W/m2. */
static void energies_become_watts_whatever_the_step(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "# stamp: hour-before\ntime,temp (C),global (kJ/m2)\n"
                             "2026-03-12 12:00,5,1800\n2026-03-12 13:00,5,1440\n");
    try_read_well(&try);
    near(try.weather.ghi_W_m2[0], 500.0, 1e-9, "1800 kJ/m2 in an hour");
    near(try.weather.ghi_W_m2[1], 400.0, 1e-9, "1440 kJ/m2 in an hour");
    try_end(&try);
    try = try_begin();
    dawn_text_add(&try.text, "# stamp: hour-before\ntime,temp (C),global (Wh/m2)\n");
    for (int i = 0; i <= 12; i++)
        dawn_text_add(&try.text, "2026-03-12 %02d:%02d,5,100\n", 10 + i / 4, i % 4 * 15);
    try_read_well(&try);
    near(try.weather.ghi_W_m2[1], 400.0, 1e-9, "100 Wh/m2 in a quarter of an hour");
    try_end(&try);
}

/* The same two rows in every dress. */
static void any_delimiter_and_either_decimal_mark(void **state)
{
    static const char *const files[] = {
        "time,temp (C),wind (m/s)\n2026-03-12 00:00,-3.5,2.5\n2026-03-12 01:00,-4.5,1.5\n",
        "time;temp (C);wind (m/s)\n2026-03-12 00:00;-3,5;2,5\n2026-03-12 01:00;-4,5;1,5\n",
        "time\ttemp (C)\twind (m/s)\n2026-03-12 00:00\t-3.5\t2.5\n2026-03-12 01:00\t-4,5\t1.5\n",
        "time|temp (C)|wind (m/s)\n2026-03-12 00:00|-3.5|2.5\n2026-03-12 01:00|-4.5|1.5\n",
        "\xEF\xBB\xBFtime,temp (C),wind (m/s)\r\n2026-03-12 00:00,-3.5,2.5\r\n"
        "2026-03-12 01:00,-4.5,1.5\r\n",
        "\"time\",\"temp (C)\",\"wind (m/s)\"\n\"2026-03-12 00:00\",\"-3,5\",\"2,5\"\n"
        "\"2026-03-12 01:00\",\"-4,5\",\"1,5\"",
        "wind (m/s), temp (C), time\n 2.5, -3.5, 2026-03-12 00:00\n1.5, -4.5,2026-03-12 01:00\n",
        "# a comment\n\nsome words\nlatitude,45\ntime,temp (C),wind (m/s)\n\n"
        "2026-03-12 00:00,-3.5,2.5\n# another\n2026-03-12 01:00,-4.5,1.5\n\n",
        "time,temp (C),wind (m/s)\n2026-03-12 00:00,-3.5,2.5\n2026-03-12 01:00,-4.5,1.5\n"
        "data courtesy of nobody\n",
        "time,temp (C),wind (m/s)\n2026-03-12 00:00,-3.5,2.5\n2026-03-12 01:00,-4.5,1.5\n\n"
        "time,temp (C)\n2026-03-12,-4\n",
    };
    (void)state;
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        struct weather_try try = try_begin();
        dawn_text_add(&try.text, "%s", files[i]);
        try_read_well(&try);
        assert_int_equal(try.weather.count, 2);
        near(try.weather.air_C[0], -3.5, 1e-9, files[i]);
        near(try.weather.air_C[1], -4.5, 1e-9, files[i]);
        near(try.weather.wind_m_s[0], 2.5, 1e-9, files[i]);
        near(try.weather.wind_m_s[1], 1.5, 1e-9, files[i]);
        try_end(&try);
    }
}

/* Names that hold the word but mean something else. */
static void look_alikes_are_left_alone(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    two_rows(&try,
             "time,Temp Flag,soil temperature (C),apparent_temperature (C),indoor temp (C),"
             "temperature_80m (C),Dew Point Temp (C),Wind Dir (10s deg),wind_gusts_10m (m/s),"
             "pressure_msl (hPa),cloud_cover_low (%),Wind Chill,direct_radiation (W/m2),"
             "Temp (C)",
             "x,1,2,3,4,-5,6,7,1013,9,10,11,12.5");
    near(try.weather.air_C[0], 12.5, 1e-9, "the one air temperature");
    near(try.weather.dew_C[0], -5.0, 1e-9, "the one dew point");
    assert_int_equal(try.weather.wind_from, DAWN_FROM_DEFAULT);
    assert_int_equal(try.weather.pressure_from, DAWN_FROM_DEFAULT);
    assert_int_equal(try.weather.cloud_from, DAWN_FROM_RANGE);
    assert_int_equal(try.weather.ghi_from, DAWN_FROM_RANGE);
    try_end(&try);
}

static void opaque_cloud_is_preferred(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    two_rows(&try, "time,temp (C),TotCld (tenths),OpqCld (tenths)", "5,9,3");
    near(try.weather.cloud[0], 0.3, 1e-12, "opaque, not total cloud");
    try_end(&try);
}

static void every_missing_mark_is_an_empty_cell(void **state)
{
    static const char *const marks[] = {"",      "NA", "M", "None",        "-9999", "-999",
                                        "-9900", "*",  "-", "unavailable", "NaN",   "-9999.0"};
    (void)state;
    for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++) {
        struct weather_try try = try_begin();
        dawn_text_add(&try.text,
                      "time,temp (C)\n2026-03-12 00:00,1\n2026-03-12 01:00,%s\n"
                      "2026-03-12 02:00,3\n",
                      marks[i]);
        try_read_well(&try);
        near(try.weather.air_C[1], 2.0, 1e-9, "filled between its neighbours");
        assert_int_equal(try.weather.filled_hours, 1);
        try_end(&try);
    }
}

/* A number that only looks like a mark is a number, and an impossible one. */
static void marks_count_only_when_exact(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temp (C)\n2026-03-12 00:00,1\n2026-03-12 01:00,-999.9\n"
                             "2026-03-12 02:00,3\n");
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    assert_int_equal(try_said(&try, DAWN_ERROR, "impossible as air temperature")->line, 3);
    try_end(&try);
}

static void a_column_without_a_unit_is_taken_with_a_note(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    try.hints.temperature_unit = "F";
    two_rows(&try, "time,temp,rh,wind,pressure,global", "50,50,3,1013,0");
    near(try.weather.air_C[0], 10.0, 1e-9, "unit from the scenario");
    near(try.weather.pressure_Pa[0], 101300.0, 1e-9, "size tells hPa");
    try_said(&try, DAWN_NOTE, "\"rh\" (relative humidity) does not say its unit; taken as %");
    try_said(&try, DAWN_NOTE, "\"wind\" (wind speed) does not say its unit; taken as m/s");
    try_said(&try, DAWN_NOTE, "\"global\" (global radiation) does not say its unit; taken as W/m2");
    try_end(&try);
}

/* Place, zone and stamps from the lines above the header, in all their shapes. */
static void preambles_say_place_zone_and_stamp(void **state)
{
    static const char *const preambles[] = {
        "# latitude: 52.5\n# longitude: -13.4\n# elevation: 34 m\n# utc_offset: +2 h\n"
        "# stamp: hour-after\n# station: Here\n",
        "latitude,longitude,elevation,utc_offset_seconds,timezone,station,stamp\n"
        "52.5,-13.4,34.0,7200,Europe/Nowhere,Here,hour-after\n\n",
        "Latitude: 52.5\nLongitude: 13.4 W\nElevation (m): 34\nTime zone: UTC+2\n"
        "stamp: hour-after\nStation name: Here\n",
        "\"Latitude\",\"52.5\"\n\"Longitude\",\"-13.4\"\n\"Elevation\",\"34\"\n"
        "\"utc offset\",\"+02:00\"\n\"stamp\",\"hour-after\"\n\"Station Name\",\"Here\"\n",
    };
    (void)state;
    for (size_t i = 0; i < sizeof preambles / sizeof preambles[0]; i++) {
        struct weather_try try = try_begin();
        try.hints.latitude_deg = try.hints.longitude_deg = NAN; /* any site */
        dawn_text_add(&try.text, "%s", preambles[i]);
        two_rows(&try, "time,temperature (C),global (W/m2)", "5,0");
        near(try.weather.latitude_deg, 52.5, 1e-12, preambles[i]);
        near(try.weather.longitude_deg, -13.4, 1e-12, preambles[i]);
        near(try.weather.elevation_m, 34.0, 1e-12, preambles[i]);
        near(try.weather.utc_offset_h, 2.0, 1e-12, preambles[i]);
        assert_true(try.weather.utc_offset_from_file);
        assert_int_equal(try.weather.stamp, DAWN_STAMP_MEAN_AFTER);
        assert_true(try.weather.stamp_from_file);
        assert_string_equal(try.weather.station, "Here");
        try_end(&try);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_and_units_are_parted),
        cmocka_unit_test(temperatures_in_any_unit),
        cmocka_unit_test(other_quantities_in_any_unit),
        cmocka_unit_test(energies_become_watts_whatever_the_step),
        cmocka_unit_test(any_delimiter_and_either_decimal_mark),
        cmocka_unit_test(look_alikes_are_left_alone),
        cmocka_unit_test(opaque_cloud_is_preferred),
        cmocka_unit_test(every_missing_mark_is_an_empty_cell),
        cmocka_unit_test(marks_count_only_when_exact),
        cmocka_unit_test(a_column_without_a_unit_is_taken_with_a_note),
        cmocka_unit_test(preambles_say_place_zone_and_stamp),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
