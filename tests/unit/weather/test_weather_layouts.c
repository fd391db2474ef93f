/* The named layouts: rows of our own, invented, in the shape the publishers give theirs (TMY3: NREL
 * user's manual NREL/TP-581-43156; NSRDB, PVGIS and ECCC: the header lines of their files). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "weather_try.h"

/* 2001-01-01T00:00 in a clock. */
static int64_t nominal_year(double utc_offset_h)
{
    return dawn_civil_days(2001, 1, 1) * 86400 - (int64_t)(utc_offset_h * 3600.0);
}

static void tmy3_rows(struct weather_try *try)
{
    dawn_text_add(&try->text,
                  "123456,\"INVENTED FIELD\",XX,-7.0,40.500,-105.250,1500\n"
                  "Date (MM/DD/YYYY),Time (HH:MM),ETR (W/m^2),GHI (W/m^2),GHI source,"
                  "GHI uncert (%%),DNI (W/m^2),DNI source,DHI (W/m^2),DHI source,GH illum (lx),"
                  "TotCld (tenths),TotCld source,OpqCld (tenths),OpqCld source,Dry-bulb (C),"
                  "Dry-bulb source,Dew-point (C),Dew-point source,RHum (%%),Pressure (mbar),"
                  "Wdir (degrees),Wspd (m/s),Alb (unitless)\n");
    for (long h = 0; h < 24 * 59; h++) {
        /* January of 1990, February of 1978; hours 01:00 to 24:00 */
        struct dawn_civil civil =
            dawn_civil_at(dawn_civil_days(1990, 1, 1) * 86400 + (int64_t)h * 3600, 0.0);
        dawn_text_add(&try->text,
                      "%02d/%02d/%d,%02d:00,0,0,1,0,0,1,0,1,0,9,A,6,A,%.1f,A,-9900,?,60,840,0,3.1,"
                      "0.2\n",
                      civil.month, civil.day, civil.month == 1 ? 1990 : 1978, civil.hour + 1,
                      -5.0 + (double)(h % 24) / 10.0);
    }
}

static void tmy3(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    try.hints = (struct dawn_weather_hints){NAN, NAN, NAN, NAN, NAN, -1, NULL};
    tmy3_rows(&try);
    try_read_well(&try);
    const struct dawn_weather *w = &try.weather;
    assert_string_equal(w->layout, "TMY3");
    assert_string_equal(w->station, "INVENTED FIELD XX");
    near(w->latitude_deg, 40.5, 1e-12, "latitude");
    near(w->longitude_deg, -105.25, 1e-12, "longitude");
    near(w->elevation_m, 1500.0, 1e-12, "elevation");
    near(w->utc_offset_h, -7.0, 1e-12, "offset");
    assert_true(w->utc_offset_from_file && w->stamp_from_file && w->typical_year);
    assert_int_equal(w->stamp, DAWN_STAMP_MEAN_BEFORE);
    assert_int_equal(w->count, 24 * 59);
    /* hour 01:00 ends at one o'clock: the first mean starts at midnight */
    assert_int_equal(w->first_s, nominal_year(-7.0) + 3600);
    assert_int_equal(w->mean_first_s, nominal_year(-7.0));
    near(w->air_C[0], -5.0, 1e-9, "01:00");
    near(w->air_C[23], -2.7, 1e-9, "24:00");
    near(w->cloud[5], 0.6, 1e-12, "opaque cloud");
    near(w->pressure_Pa[5], 84000.0, 1e-9, "pressure");
    near(w->wind_m_s[5], 3.1, 1e-12, "wind");
    assert_int_equal(w->humidity_from, DAWN_FROM_FILE); /* the dew point is all -9900 */
    assert_int_equal(w->split_from, DAWN_FROM_FILE);
    try_end(&try);
}

static void nsrdb_rows(struct weather_try *try, const char *columns, const char *cells, int minute)
{
    dawn_text_add(&try->text,
                  "Source,Location ID,City,State,Country,Latitude,Longitude,Time Zone,Elevation,"
                  "Local Time Zone,DHI Units,GHI Units,Temperature Units,Pressure Units,"
                  "Wind Speed Units\n"
                  "NSRDB,4711,-,-,-,64.5,-147.5,0,130,-9,w/m2,w/m2,c,mbar,m/s\n"
                  "Year,Month,Day,Hour,Minute,%s\n",
                  columns);
    for (int h = 0; h < 48; h++)
        dawn_text_add(&try->text, "2019,1,%d,%d,%d,%s\n", 1 + h / 24, h % 24, minute, cells);
}

static void nsrdb(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    try.hints = (struct dawn_weather_hints){NAN, NAN, NAN, NAN, NAN, -1, NULL};
    nsrdb_rows(&try,
               "Temperature,Clearsky DHI,Clearsky GHI,Cloud Fill Flag,Cloud Type,Dew Point,DHI,DNI,"
               "Fill Flag,GHI,Relative Humidity,Solar Zenith Angle,Pressure,Wind Speed",
               "-20.5,0,0,0,4,-23.1,0,0,0,0,80.2,120,990,1.2000000000000002", 30);
    try_read_well(&try);
    const struct dawn_weather *w = &try.weather;
    assert_string_equal(w->layout, "NSRDB");
    assert_string_equal(w->station, "NSRDB cell 4711");
    near(w->utc_offset_h, 0.0, 0.0, "Time Zone, not Local Time Zone");
    near(w->latitude_deg, 64.5, 1e-12, "latitude");
    assert_int_equal(w->stamp, DAWN_STAMP_MEAN_AROUND);
    assert_int_equal(w->first_s, dawn_civil_days(2019, 1, 1) * 86400 + 1800);
    assert_int_equal(w->mean_first_s, dawn_civil_days(2019, 1, 1) * 86400);
    near(w->air_C[0], -20.5, 1e-12, "air");
    near(w->dew_C[0], -23.1, 1e-12, "dew point");
    near(w->pressure_Pa[0], 99000.0, 1e-9, "mbar");
    near(w->wind_m_s[0], 1.2, 1e-12, "wind");
    assert_false(w->typical_year);
    try_end(&try);
}

static void nsrdb_without_temperature_is_told_so(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    nsrdb_rows(&try, "GHI", "0", 0);
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    const struct dawn_problem *said = try_said(&try, DAWN_ERROR, "no column of air temperature");
    assert_int_equal(said->line, 3);
    assert_non_null(strstr(said->message, "Year, Month, Day, Hour, Minute, GHI"));
    try_end(&try);
}

static void pvgis_tmy(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    try.hints = (struct dawn_weather_hints){NAN, NAN, NAN, NAN, NAN, -1, NULL};
    dawn_text_add(&try.text, "Latitude (decimal degrees): 45.500\r\n"
                             "Longitude (decimal degrees): 8.250\r\nElevation (m): 240.0\r\n"
                             "Irradiance Time Offset (h): 0.1500\r\nmonth,year\r\n"
                             "1,2018\r\n2,2007\r\n3,2009\r\n"
                             "time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP\r\n");
    for (long h = 0; h < 24 * 90; h++) {
        struct dawn_civil civil =
            dawn_civil_at(dawn_civil_days(2018, 1, 1) * 86400 + (int64_t)h * 3600, 0.0);
        dawn_text_add(&try.text,
                      "%04d%02d%02d:%02d00,%.2f,80.0,0.0,-0.0,0.0,283.58,0.75,257.0,"
                      "99870.0\r\n",
                      civil.month == 1   ? 2018
                      : civil.month == 2 ? 2007
                                         : 2009,
                      civil.month, civil.day, civil.hour, try_air_C(h));
    }
    dawn_text_add(&try.text, "\r\nT2m: 2-m air temperature (degree Celsius)\r\n"
                             "WD10m: 10-m wind direction (0 = N, 90 = E) (degree)\r\n"
                             "SP: Surface (air) pressure (Pa)\r\n\r\n"
                             "PVGIS (c) European Union, 2001-2025\r\n");
    try_read_well(&try);
    const struct dawn_weather *w = &try.weather;
    assert_string_equal(w->layout, "PVGIS TMY");
    near(w->latitude_deg, 45.5, 1e-12, "latitude");
    near(w->elevation_m, 240.0, 1e-12, "elevation");
    near(w->utc_offset_h, 0.0, 0.0, "UTC");
    assert_true(w->typical_year && w->utc_offset_from_file);
    assert_int_equal(w->count, 24 * 90);
    assert_int_equal(w->first_s, nominal_year(0.0));
    /* an instant 0.15 h after the stamp is the middle of its hour: 540 - 1800 s */
    assert_int_equal(w->mean_first_s, nominal_year(0.0) - 1260);
    near(w->longwave_W_m2[7], 283.58, 1e-12, "IR(h)");
    near(w->pressure_Pa[7], 99870.0, 1e-12, "SP");
    near(w->wind_m_s[7], 0.75, 1e-12, "WS10m");
    assert_int_equal(w->longwave_from, DAWN_FROM_FILE);
    assert_int_equal(w->split_from, DAWN_FROM_FILE);
    assert_int_equal(w->humidity_from, DAWN_FROM_FILE);
    try_end(&try);
}

static void pvgis_light_on_panels_is_refused(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "Latitude (decimal degrees):\t45.000\r\n"
                             "Longitude (decimal degrees):\t8.000\r\nElevation (m):\t250\r\n"
                             "Radiation database:\tINVENTED\r\n\r\n\r\nSlope: 30 deg. \r\n"
                             "Azimuth: 0 deg. \r\ntime,Gb(i),Gd(i),Gr(i),H_sun,T2m,WS10m,Int\r\n"
                             "20160101:0010,0.0,0.0,0.0,0.0,3.44,1.43,0.0\r\n"
                             "20160101:0110,0.0,0.0,0.0,0.0,2.94,1.47,0.0\r\n\r\n"
                             "Gb(i): Beam (direct) irradiance on the inclined plane (W/m2)\r\n");
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    const struct dawn_problem *said = try_said(&try, DAWN_ERROR, "on a tilted plane (Gb(i))");
    assert_int_equal(said->line, 9);
    assert_non_null(said->hint);
    try_end(&try);
}

static const char eccc_columns[] =
    "\"Temp (\xC2\xB0"
    "C)\",\"Temp Flag\",\"Dew Point Temp (\xC2\xB0"
    "C)\",\"Dew Point Temp Flag\",\"Rel Hum (%)\",\"Rel Hum Flag\",\"Wind Dir (10s deg)\","
    "\"Wind Dir Flag\",\"Wind Spd (km/h)\",\"Wind Spd Flag\",\"Visibility (km)\","
    "\"Visibility Flag\",\"Stn Press (kPa)\",\"Stn Press Flag\",\"Hmdx\",\"Hmdx Flag\","
    "\"Wind Chill\",\"Wind Chill Flag\",\"Weather\"";
static const char eccc_cells[] = "\"-3.2\",\"\",\"-4.6\",\"\",\"90\",\"\",\"18\",\"\",\"36\",\"\","
                                 "\"\",\"M\",\"100.35\",\"\",\"\",\"\",\"-11\",\"\",\"NA\"";

/* Three generations of the file: station above, station in the rows, "(LST)" in the names. */
static void eccc_generation(struct weather_try *try, int generation, int valid, int hours)
{
    /* The house stands where the station does: weather of another sun is refused. */
    try->hints.latitude_deg = 44.88;
    try->hints.longitude_deg = -63.5;
    if (generation == 1)
        dawn_text_add(&try->text,
                      "\xEF\xBB\xBF\"Station Name\",\"INVENTED BAY\"\n\"Province\",\"NOWHERE\"\n"
                      "\"Latitude\",\"44.88\"\n\"Longitude\",\"-63.50\"\n"
                      "\"Elevation\",\"145.40\"\n\"Climate Identifier\",\"1\"\n"
                      "\"All times are specified in Local Standard Time (LST). Add 1 hour to "
                      "adjust for Daylight Saving Time where and when it is observed.\"\n\n"
                      "\"Legend\"\n\"E\",\"Estimated\"\n\"M\",\"Missing\"\n"
                      "\"NA\",\"Not Available\"\n\n"
                      "\"Date/Time\",\"Year\",\"Month\",\"Day\",\"Time\",\"Data Quality\",%s\n",
                      eccc_columns);
    else
        dawn_text_add(&try->text,
                      "\xEF\xBB\xBF\"Longitude (x)\",\"Latitude (y)\",\"Station Name\","
                      "\"Climate ID\",\"%s\",\"Year\",\"Month\",\"Day\",\"%s\",%s\n",
                      generation == 2 ? "Date/Time" : "Date/Time (LST)",
                      generation == 2 ? "Time" : "Time (LST)", eccc_columns);
    for (int h = 0; h < hours; h++) {
        int day = 1 + h / 24;
        if (generation != 1)
            dawn_text_add(&try->text, "\"-63.50\",\"44.88\",\"INVENTED BAY\",\"1\",");
        dawn_text_add(&try->text,
                      "\"2019-10-%02d %02d:00\",\"2019\",\"10\",\"%02d\",\"%02d:00\",%s%s\n", day,
                      h % 24, day, h % 24, generation == 1 ? "\" \"," : "",
                      h < valid ? eccc_cells
                                : "\"\",\"\",\"\",\"\",\"\",\"\",\"\",\"\",\"\",\"\",\"\",\"\","
                                  "\"\",\"\",\"\",\"\",\"\",\"\",\"\"");
    }
}

static void eccc(void **state)
{
    (void)state;
    for (int generation = 1; generation <= 3; generation++) {
        struct weather_try try = try_begin();
        try.hints = (struct dawn_weather_hints){NAN, NAN, NAN, -4.0, NAN, -1, NULL};
        eccc_generation(&try, generation, 48, 48);
        try_read_well(&try);
        const struct dawn_weather *w = &try.weather;
        assert_string_equal(w->layout, "ECCC hourly");
        assert_string_equal(w->station, "INVENTED BAY");
        near(w->latitude_deg, 44.88, 1e-12, "latitude");
        near(w->longitude_deg, -63.5, 1e-12, "longitude");
        assert_int_equal(w->first_s, dawn_civil_days(2019, 10, 1) * 86400 + 4 * 3600);
        near(w->air_C[0], -3.2, 1e-12, "Temp");
        near(w->dew_C[0], -4.6, 1e-12, "Dew Point Temp");
        near(w->wind_m_s[0], 10.0, 1e-9, "36 km/h");
        near(w->pressure_Pa[0], 100350.0, 1e-6, "kPa");
        assert_int_equal(w->count, 48);
        try_end(&try);
    }
}

static void eccc_needs_a_number_for_local_standard_time(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    try.hints = (struct dawn_weather_hints){NAN, NAN, NAN, NAN, NAN, -1, NULL};
    eccc_generation(&try, 3, 48, 48);
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    try_said(&try, DAWN_ERROR, "beyond \"local standard time\"");
    try_end(&try);
}

/* A month that is not over comes with empty rows to its end. */
static void eccc_says_how_much_is_empty(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    eccc_generation(&try, 3, 16, 720);
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    try_said(&try, DAWN_ERROR, "704 of 720 hours have no air temperature");
    try_end(&try);
    try = try_begin();
    eccc_generation(&try, 2, 480, 720);
    try_read_well(&try);
    assert_int_equal(try.weather.count, 480);
    try_said(&try, DAWN_WARNING, "240 of 720 hours at the end");
    try_end(&try);
}

/* A degree sign that went through the wrong encoding. */
static void eccc_with_a_mangled_degree_sign(void **state)
{
    static const char *const signs[] = {"\xB0", "\xE2\x88\x9E", "\xEF\xBF\xBD", "?", ""};
    (void)state;
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        struct weather_try try = try_begin();
        dawn_text_add(&try.text,
                      "\"Date/Time\",\"Temp (%sC)\",\"Temp Flag\",\"Dew Point Temp (%sC)\","
                      "\"Dew Point Temp Flag\"\n\"2019-10-01 00:00\",\"-3.2\",\"\",\"-4.0\",\"\"\n"
                      "\"2019-10-01 01:00\",\"-3.2\",\"\",\"-4.0\",\"\"\n",
                      signs[i], signs[i]);
        try_read_well(&try);
        near(try.weather.air_C[0], -3.2, 1e-12, "Temp");
        near(try.weather.dew_C[0], -4.0, 1e-12, "Dew Point Temp");
        try_end(&try);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tmy3),
        cmocka_unit_test(nsrdb),
        cmocka_unit_test(nsrdb_without_temperature_is_told_so),
        cmocka_unit_test(pvgis_tmy),
        cmocka_unit_test(pvgis_light_on_panels_is_refused),
        cmocka_unit_test(eccc),
        cmocka_unit_test(eccc_needs_a_number_for_local_standard_time),
        cmocka_unit_test(eccc_says_how_much_is_empty),
        cmocka_unit_test(eccc_with_a_mangled_degree_sign),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
