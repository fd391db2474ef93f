/* Units and quantities. Factors: NIST Special Publication 811 (2008), appendix B.8, from memory, as
 * printed there to seven digits. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/unit.h"
#include "support/near.h"

/* Half a unit in the seventh digit. */
static const double SEVEN_DIGITS = 5e-7;

static double read_as(const char *text, enum dawn_measure measure)
{
    double si = NAN;
    char unit[32];
    const enum dawn_quantity_fault fault = dawn_unit_quantity(text, measure, &si, unit);
    if (fault != DAWN_QUANTITY_OK)
        fail_msg("'%s' is refused with fault %d", text, (int)fault);
    return si;
}

static void factors_of_the_standard(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum dawn_measure measure;
        double si;
    } rows[] = {
        {"3.048e-1 /ft2", DAWN_MEASURE_PRICE_AREA, 3.280840},
        {"45 per short ton", DAWN_MEASURE_PRICE_MASS, 4.960401e-2},
        {"45 /t", DAWN_MEASURE_PRICE_MASS, 4.5e-2},
        {"40 /yd3", DAWN_MEASURE_PRICE_VOLUME, 5.231802e1},
        {"1 /cfm", DAWN_MEASURE_PRICE_FLOW, 2.118880e3},
        {"0.2 per m3/h", DAWN_MEASURE_PRICE_FLOW, 7.2e2},
        {"3.6 /kWh", DAWN_MEASURE_PRICE_ENERGY, 1e-6},
        {"1 ft", DAWN_MEASURE_LENGTH, 3.048e-1},
        {"1 in", DAWN_MEASURE_LENGTH, 2.54e-2},
        {"1 yd", DAWN_MEASURE_LENGTH, 9.144e-1},
        {"1 mi", DAWN_MEASURE_LENGTH, 1.609344e3},
        {"1 mil", DAWN_MEASURE_LENGTH, 2.54e-5},
        {"1 sq ft", DAWN_MEASURE_AREA, 9.290304e-2},
        {"1 in2", DAWN_MEASURE_AREA, 6.4516e-4},
        {"1 yd2", DAWN_MEASURE_AREA, 8.361274e-1},
        {"1 ft3", DAWN_MEASURE_VOLUME, 2.831685e-2},
        {"1 in3", DAWN_MEASURE_VOLUME, 1.638706e-5},
        {"1 cu yd", DAWN_MEASURE_VOLUME, 7.645549e-1},
        {"1 gal", DAWN_MEASURE_VOLUME, 3.785412e-3},
        {"1 imp gal", DAWN_MEASURE_VOLUME, 4.54609e-3},
        {"1 lb", DAWN_MEASURE_MASS, 4.535924e-1},
        {"1 oz", DAWN_MEASURE_MASS, 2.834952e-2},
        {"1 short ton", DAWN_MEASURE_MASS, 9.071847e2},
        {"1 long ton", DAWN_MEASURE_MASS, 1.016047e3},
        {"1 t", DAWN_MEASURE_MASS, 1e3},
        {"1 cfm", DAWN_MEASURE_FLOW, 4.719474e-4},
        {"1 gal/min", DAWN_MEASURE_FLOW, 6.309020e-5},
        {"1 mph", DAWN_MEASURE_SPEED, 4.4704e-1},
        {"1 km/h", DAWN_MEASURE_SPEED, 2.777778e-1},
        {"1 kn", DAWN_MEASURE_SPEED, 5.144444e-1},
        {"1 ft/min", DAWN_MEASURE_SPEED, 5.08e-3},
        {"1 Btu/h", DAWN_MEASURE_POWER, 2.930711e-1},
        {"1 hp", DAWN_MEASURE_POWER, 7.456999e2},
        {"1 PS", DAWN_MEASURE_POWER, 7.354988e2},
        {"1 kcal/h", DAWN_MEASURE_POWER, 1.163},
        {"1 inHg", DAWN_MEASURE_PRESSURE, 3.386389e3},
        {"1 mmHg", DAWN_MEASURE_PRESSURE, 1.333224e2},
        {"1 in wg", DAWN_MEASURE_PRESSURE, 2.490889e2},
        {"1 mmH2O", DAWN_MEASURE_PRESSURE, 9.80665},
        {"1 psi", DAWN_MEASURE_PRESSURE, 6.894757e3},
        {"1 atm", DAWN_MEASURE_PRESSURE, 1.01325e5},
        {"1 mbar", DAWN_MEASURE_PRESSURE, 1e2},
        {"1 rad", DAWN_MEASURE_ANGLE, 57.29578},
        {"3600 Btu/ft2", DAWN_MEASURE_IRRADIANCE, 1.135653e4},
        {"3600 ly", DAWN_MEASURE_IRRADIANCE, 4.184e4},
        {"1 Btu/(h ft F)", DAWN_MEASURE_CONDUCTIVITY, 1.730735},
        {"1 Btu in/(h ft2 F)", DAWN_MEASURE_CONDUCTIVITY, 1.442279e-1},
        {"1 Btu/(h ft F)", DAWN_MEASURE_LINE_LOSS, 1.730735},
        {"1 ft2.F.h/Btu", DAWN_MEASURE_RESISTANCE, 1.761102e-1},
        {"1 lb/ft3", DAWN_MEASURE_DENSITY, 1.601846e1},
        {"1 lb/yd3", DAWN_MEASURE_DENSITY, 5.932764e-1},
        {"1 Btu/(lb F)", DAWN_MEASURE_SPECIFIC_HEAT, 4.1868e3},
        /* computed closed form: 4186.8 J/kgK times 16.01846 kg/m3 */
        {"1 Btu/(ft3 F)", DAWN_MEASURE_VOLUME_HEAT, 4186.8 * 16.018463},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        near_share(read_as(rows[i].text, rows[i].measure), rows[i].si, SEVEN_DIGITS, rows[i].text);
}

/* Decimal multiples: the prefixes of the SI and the hour of 3600 s. */
static void metric_multiples(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum dawn_measure measure;
        double si;
    } rows[] = {
        {"1 mm", DAWN_MEASURE_LENGTH, 1e-3},
        {"1 cm", DAWN_MEASURE_LENGTH, 1e-2},
        {"1 L", DAWN_MEASURE_VOLUME, 1e-3},
        {"1 l", DAWN_MEASURE_VOLUME, 1e-3},
        {"1 ha", DAWN_MEASURE_AREA, 1e4},
        {"3600 m3/h", DAWN_MEASURE_FLOW, 1},
        {"1000 L/s", DAWN_MEASURE_FLOW, 1},
        {"1 kW", DAWN_MEASURE_POWER, 1e3},
        {"1 hPa", DAWN_MEASURE_PRESSURE, 1e2},
        {"1 kPa", DAWN_MEASURE_PRESSURE, 1e3},
        {"3.6 kJ/m2", DAWN_MEASURE_IRRADIANCE, 1},
        {"0.36 J/cm2", DAWN_MEASURE_IRRADIANCE, 1},
        {"1 Wh/m2", DAWN_MEASURE_IRRADIANCE, 1},
        {"3.6 MJ/m2", DAWN_MEASURE_IRRADIANCE, 1e3},
        {"1 kWh/m2", DAWN_MEASURE_IRRADIANCE, 1e3},
        {"2 h", DAWN_MEASURE_TIME, 7200},
        {"2 min", DAWN_MEASURE_TIME, 120},
        {"2 d", DAWN_MEASURE_TIME, 172800},
        {"24 /d", DAWN_MEASURE_RATE, 1},
        {"1 /s", DAWN_MEASURE_RATE, 3600},
        {"1 g/cm3", DAWN_MEASURE_DENSITY, 1e3},
        {"1 t/m3", DAWN_MEASURE_DENSITY, 1e3},
        {"1 kJ/kgK", DAWN_MEASURE_SPECIFIC_HEAT, 1e3},
        {"2 MJ/m3K", DAWN_MEASURE_VOLUME_HEAT, 2e6},
        {"1 Wh/kgK", DAWN_MEASURE_SPECIFIC_HEAT, 3600},
        {"30 %", DAWN_MEASURE_NONE, 0.3},
        {"7", DAWN_MEASURE_NONE, 7},
        {"45 deg", DAWN_MEASURE_ANGLE, 45},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        near_share(read_as(rows[i].text, rows[i].measure), rows[i].si, 1e-14, rows[i].text);
}

/* Fixed points of the scales: NIST SP 811, B.8 ("temperature"), from memory. */
static void temperatures_and_their_differences(void **state)
{
    (void)state;
    near(read_as("27 C", DAWN_MEASURE_TEMPERATURE), 27, 0, "27 C");
    near(read_as("32 F", DAWN_MEASURE_TEMPERATURE), 0, 0, "32 F");
    near(read_as("212F", DAWN_MEASURE_TEMPERATURE), 100, 1e-13, "212 F");
    near(read_as("-40 F", DAWN_MEASURE_TEMPERATURE), -40, 1e-13, "-40 F");
    near(read_as("273.15 K", DAWN_MEASURE_TEMPERATURE), 0, 0, "273.15 K");
    near(read_as("9 F", DAWN_MEASURE_DIFFERENCE), 5, 1e-15, "9 F apart");
    near(read_as("5 C", DAWN_MEASURE_DIFFERENCE), 5, 0, "5 C apart");
    near(read_as("5 K", DAWN_MEASURE_DIFFERENCE), 5, 0, "5 K apart");
}

/* Every way to write the same thing finds the same unit. */
static void spellings(void **state)
{
    (void)state;
    static const struct {
        enum dawn_measure measure;
        const char *names[14];
    } rows[] = {
        {DAWN_MEASURE_TEMPERATURE,
         {"C",
          "\xC2\xB0"
          "C",
          "degC", "deg C", "Deg C",
          "\xB0"
          "C",
          "\xE2\x88\x9E"
          "C",
          "\xC3\x82\xC2\xB0"
          "C",
          "\xE2\x84\x83", "Celsius", "degrees Celsius"}},
        {DAWN_MEASURE_TEMPERATURE,
         {"F",
          "\xC2\xB0"
          "F",
          "degF", "DEG F", "fahrenheit", "\xE2\x84\x89"}},
        {DAWN_MEASURE_LENGTH, {"ft", "ft.", "FT", "foot", "feet", "'", "\xE2\x80\xB2"}},
        {DAWN_MEASURE_LENGTH, {"in", "in.", "inch", "inches", "\"", "\xE2\x80\xB3"}},
        {DAWN_MEASURE_AREA,
         {"m2", "m^2", "m\xC2\xB2", "m\xB2", "m 2", "sq m", "sq. m", "(m2)", "square meters"}},
        {DAWN_MEASURE_VOLUME, {"yd3", "yd^3", "cu yd", "cu. yd.", "cubic yards", "yd\xC2\xB3"}},
        {DAWN_MEASURE_VOLUME, {"gal", "gallons", "US gal", "us gallon"}},
        {DAWN_MEASURE_MASS, {"lb", "lbs", "lbs.", "pounds", "LB"}},
        {DAWN_MEASURE_MASS, {"short ton", "short tons", "US ton", "short-ton"}},
        {DAWN_MEASURE_MASS, {"t", "tonne", "Tonnes", "metric ton"}},
        {DAWN_MEASURE_FLOW, {"cfm", "CFM", "ft3/min", "cu ft / min", "cu ft per min"}},
        {DAWN_MEASURE_FLOW, {"m3/h", "m\xC2\xB3/h", "m\xB3/h", "M3/H", "m^3/hr", "m3 h-1"}},
        {DAWN_MEASURE_SPEED, {"kn", "kt", "knots", "Knots", "kts"}},
        {DAWN_MEASURE_SPEED, {"m/s", "m s-1", "m s\xE2\x81\xBB\xC2\xB9", "m.s^-1"}},
        {DAWN_MEASURE_PRESSURE, {"hPa", "hpa", "mbar", "mb", "Millibars"}},
        {DAWN_MEASURE_PRESSURE, {"inHg", "in Hg", "in. Hg", "\"Hg"}},
        {DAWN_MEASURE_PRESSURE, {"in wg", "in. w.g.", "inH2O", "inwc", "\" w.c."}},
        {DAWN_MEASURE_ANGLE, {"deg", "degrees", "\xC2\xB0", "\xB0"}},
        {DAWN_MEASURE_IRRADIANCE, {"W/m2", "W/m^2", "W/m\xC2\xB2", "W m-2", "w/m2", "[W/m2]"}},
        {DAWN_MEASURE_RATE,
         {"/h", "1/h", "ACH", "ac/h", "h-1", "h^-1", "/hour", "air changes per h"}},
        {DAWN_MEASURE_CONDUCTIVITY,
         {"W/mK", "W/(m K)", "W/(m*K)", "W/m/K", "W/(m\xC2\xB7K)", "W m-1 K-1"}},
        {DAWN_MEASURE_RESISTANCE, {"m2K/W", "m2 K/W", "m\xC2\xB2K/W", "m^2*K/W"}},
        {DAWN_MEASURE_RESISTANCE,
         {"ft2.F.h/Btu", "ft2-F-h/Btu", "h ft2 F/Btu",
          "ft\xC2\xB2\xC2\xB7\xC2\xB0"
          "F\xC2\xB7h/BTU"}},
        {DAWN_MEASURE_SPECIFIC_HEAT, {"kJ/kgK", "kJ/(kg K)", "kJ/kg-K"}},
        {DAWN_MEASURE_VOLUME_HEAT, {"MJ/m3K", "MJ/(m3 K)", "MJ/m\xC2\xB3K"}},
        {DAWN_MEASURE_NONE, {"%", "percent", "pct"}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct dawn_unit *first = dawn_unit_find(rows[i].measure, rows[i].names[0]);
        assert_non_null(first);
        for (size_t j = 0; j < 14 && rows[i].names[j]; j++) {
            const struct dawn_unit *unit = dawn_unit_find(rows[i].measure, rows[i].names[j]);
            if (!unit)
                fail_msg("'%s' is unknown", rows[i].names[j]);
            near_share(unit->scale, first->scale, 1e-15, rows[i].names[j]);
            near(unit->shift, first->shift, 0, rows[i].names[j]);
        }
    }
}

static void case_decides_where_it_must(void **state)
{
    (void)state;
    assert_null(dawn_unit_find(DAWN_MEASURE_LENGTH, "M"));
    assert_null(dawn_unit_find(DAWN_MEASURE_TEMPERATURE, "c"));
    assert_null(dawn_unit_find(DAWN_MEASURE_TEMPERATURE, "f"));
    assert_null(dawn_unit_find(DAWN_MEASURE_POWER, "mW"));
    assert_null(dawn_unit_find(DAWN_MEASURE_MASS, "T"));
    assert_null(dawn_unit_find(DAWN_MEASURE_IRRADIANCE, "mJ/m2"));
    assert_non_null(dawn_unit_find(DAWN_MEASURE_POWER, "MW"));
}

static void lengths_in_two_parts(void **state)
{
    (void)state;
    near(read_as("20 ft 6 in", DAWN_MEASURE_LENGTH), 20.5 * 0.3048, 1e-12, "20 ft 6 in");
    near(read_as("12' 6\"", DAWN_MEASURE_LENGTH), 12.5 * 0.3048, 1e-12, "12' 6\"");
    near(read_as("12'6\"", DAWN_MEASURE_LENGTH), 12.5 * 0.3048, 1e-12, "12'6\"");
    near(read_as("12ft 6.5in", DAWN_MEASURE_LENGTH), 150.5 * 0.0254, 1e-12, "12ft 6.5in");
    near(read_as("6 ft 1 1/2 in", DAWN_MEASURE_LENGTH), 73.5 * 0.0254, 1e-12, "6 ft 1 1/2 in");
    near(read_as("-1 ft 6 in", DAWN_MEASURE_LENGTH), -1.5 * 0.3048, 1e-12, "-1 ft 6 in");
    near(read_as("2 m 50 cm", DAWN_MEASURE_LENGTH), 2.5, 1e-12, "2 m 50 cm");
    near(read_as("3/4 in", DAWN_MEASURE_LENGTH), 0.01905, 1e-12, "3/4 in");
    near(read_as("1 1/2\"", DAWN_MEASURE_LENGTH), 0.0381, 1e-12, "1 1/2 inch");
    near(read_as("1 1/2 h", DAWN_MEASURE_TIME), 5400, 1e-9, "1 1/2 h");
    near(read_as("0.5 1/h", DAWN_MEASURE_RATE), 0.5, 0, "0.5 1/h");
    near(read_as("1 1/h", DAWN_MEASURE_RATE), 1, 0, "1 1/h");
}

static void utc_offsets(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double hours;
    } rows[] = {{"-5 h", -5},
                {"+1 h", 1},
                {"-05:00", -5},
                {"+5:30", 5.5},
                {"-0:30", -0.5},
                {"-3.5 h", -3.5},
                {"UTC+1", 1},
                {"UTC-05:00", -5},
                {"GMT +2", 2},
                {"UTC", 0},
                {"Z", 0},
                {"+00:00", 0},
                {"1 hour", 1},
                {"+14:00", 14},
                {"\xE2\x88\x92"
                 "05:00",
                 -5}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        near(read_as(rows[i].text, DAWN_MEASURE_HOURS_OFFSET), rows[i].hours, 0, rows[i].text);
}

static void times_of_day(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double hours;
    } rows[] = {{"18:30", 18.5}, {"6:05", 6 + 5.0 / 60}, {"00:00", 0},
                {"24:00", 24},   {"6 pm", 18},           {"6:30 pm", 18.5},
                {"12 am", 0},    {"12 PM", 12},          {"11:59pm", 23 + 59.0 / 60},
                {"18 h", 18},    {"6.5 h", 6.5}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        near(read_as(rows[i].text, DAWN_MEASURE_CLOCK), rows[i].hours * 3600, 1e-9, rows[i].text);
}

static void faults_are_told_apart(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum dawn_measure measure;
        enum dawn_quantity_fault fault;
        const char *unit;
    } rows[] = {
        {"", DAWN_MEASURE_LENGTH, DAWN_QUANTITY_NO_NUMBER, ""},
        {"warm", DAWN_MEASURE_TEMPERATURE, DAWN_QUANTITY_NO_NUMBER, ""},
        {"ft", DAWN_MEASURE_LENGTH, DAWN_QUANTITY_NO_NUMBER, ""},
        {"1,500 lb", DAWN_MEASURE_MASS, DAWN_QUANTITY_NO_NUMBER, ""},
        {"12,345,678 lb", DAWN_MEASURE_MASS, DAWN_QUANTITY_NO_NUMBER, ""},
        {"27", DAWN_MEASURE_TEMPERATURE, DAWN_QUANTITY_NO_UNIT, ""},
        {"27  ", DAWN_MEASURE_LENGTH, DAWN_QUANTITY_NO_UNIT, ""},
        {"3 tons", DAWN_MEASURE_MASS, DAWN_QUANTITY_UNKNOWN_UNIT, "tons"},
        {"3 T", DAWN_MEASURE_MASS, DAWN_QUANTITY_UNKNOWN_UNIT, "T"},
        {"3 furlongs", DAWN_MEASURE_LENGTH, DAWN_QUANTITY_UNKNOWN_UNIT, "furlongs"},
        {"3 a-name-far-longer-than-any-unit-there-can-be-in-the-table", DAWN_MEASURE_LENGTH,
         DAWN_QUANTITY_UNKNOWN_UNIT, "a-name-far-longer-than-any-unit"},
        {"3 ft", DAWN_MEASURE_MASS, DAWN_QUANTITY_WRONG_UNIT, "ft"},
        {"3 C", DAWN_MEASURE_LENGTH, DAWN_QUANTITY_WRONG_UNIT, "C"},
        {"3 %", DAWN_MEASURE_LENGTH, DAWN_QUANTITY_WRONG_UNIT, "%"},
        {"20 ft long", DAWN_MEASURE_LENGTH, DAWN_QUANTITY_REST, "ft long"},
        {"27 C, about", DAWN_MEASURE_TEMPERATURE, DAWN_QUANTITY_REST, "C, about"},
        {"20 ft 6", DAWN_MEASURE_LENGTH, DAWN_QUANTITY_REST, "ft 6"},
        {"6 in 2 ft", DAWN_MEASURE_LENGTH, DAWN_QUANTITY_REST, "in 2 ft"},
        {"5 1", DAWN_MEASURE_NONE, DAWN_QUANTITY_UNKNOWN_UNIT, "1"},
        {"-5", DAWN_MEASURE_HOURS_OFFSET, DAWN_QUANTITY_NO_UNIT, ""},
        {"-05:75", DAWN_MEASURE_HOURS_OFFSET, DAWN_QUANTITY_UNKNOWN_UNIT, ":75"},
        {"18", DAWN_MEASURE_CLOCK, DAWN_QUANTITY_NO_UNIT, ""},
        {"18:75", DAWN_MEASURE_CLOCK, DAWN_QUANTITY_UNKNOWN_UNIT, ":75"},
        {"18:5", DAWN_MEASURE_CLOCK, DAWN_QUANTITY_UNKNOWN_UNIT, ":5"},
        {"13 pm", DAWN_MEASURE_CLOCK, DAWN_QUANTITY_UNKNOWN_UNIT, "pm"},
        {"evening", DAWN_MEASURE_CLOCK, DAWN_QUANTITY_NO_NUMBER, ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double si = 42;
        char unit[32] = "untouched";
        const enum dawn_quantity_fault got =
            dawn_unit_quantity(rows[i].text, rows[i].measure, &si, unit);
        if (got != rows[i].fault)
            fail_msg("'%s': fault %d, want %d", rows[i].text, (int)got, (int)rows[i].fault);
        assert_string_equal(unit, rows[i].unit);
        near(si, 42, 0, rows[i].text);
    }
}

static void decimal_commas_that_can_only_be_decimal(void **state)
{
    (void)state;
    near(read_as("2,5 t", DAWN_MEASURE_MASS), 2500, 0, "2,5 t");
    near(read_as("0,125 m", DAWN_MEASURE_LENGTH), 0.125, 0, "0,125 m");
    near(read_as("1,2345 m", DAWN_MEASURE_LENGTH), 1.2345, 0, "1,2345 m");
    near(read_as("1234,567 kg", DAWN_MEASURE_MASS), 1234.567, 0, "1234,567 kg");
}

static void hints_where_there_is_something_to_say(void **state)
{
    (void)state;
    assert_non_null(strstr(dawn_unit_hint(DAWN_MEASURE_MASS, "3 tons"), "short ton"));
    assert_non_null(strstr(dawn_unit_hint(DAWN_MEASURE_MASS, "ton"), "metric"));
    assert_non_null(strstr(dawn_unit_hint(DAWN_MEASURE_VOLUME, "3 yards"), "yd3"));
    assert_non_null(strstr(dawn_unit_hint(DAWN_MEASURE_MASS, "1,500 lb"), "1500"));
    assert_non_null(strstr(dawn_unit_hint(DAWN_MEASURE_TEMPERATURE, "25 c"), "capital C"));
    assert_non_null(strstr(dawn_unit_hint(DAWN_MEASURE_RESISTANCE, "3 W/(m2 K)"), "1/U"));
    assert_non_null(strstr(dawn_unit_hint(DAWN_MEASURE_TEMPERATURE, "80\xC2\xB0"), "C or F"));
    assert_null(dawn_unit_hint(DAWN_MEASURE_LENGTH, "3 yards"));
    assert_null(dawn_unit_hint(DAWN_MEASURE_MASS, "3 kg"));
    assert_null(dawn_unit_hint(DAWN_MEASURE_MASS, ""));
}

static void nearest_names(void **state)
{
    (void)state;
    assert_string_equal(dawn_unit_nearest(DAWN_MEASURE_FLOW, "cmf"), "cfm");
    assert_string_equal(dawn_unit_nearest(DAWN_MEASURE_LENGTH, "fett"), "feet");
    assert_string_equal(dawn_unit_nearest(DAWN_MEASURE_VOLUME, "galons"), "gallons");
    assert_null(dawn_unit_nearest(DAWN_MEASURE_MASS, "ton")); /* has its own hint */
    assert_null(dawn_unit_nearest(DAWN_MEASURE_MASS, "furlong"));
}

static void every_measure_has_words_and_units(void **state)
{
    (void)state;
    for (int i = 0; i < DAWN_MEASURES; i++) {
        assert_true(strlen(dawn_unit_measure_words((enum dawn_measure)i)) > 3);
        assert_true(strlen(dawn_unit_list((enum dawn_measure)i)) > 2);
    }
    assert_int_equal(dawn_unit_find_any("ft")->measure, DAWN_MEASURE_LENGTH);
    assert_int_equal(dawn_unit_find_any("kW")->measure, DAWN_MEASURE_POWER);
    assert_null(dawn_unit_find_any("furlong"));
    assert_null(dawn_unit_find_any(""));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(factors_of_the_standard),
        cmocka_unit_test(metric_multiples),
        cmocka_unit_test(temperatures_and_their_differences),
        cmocka_unit_test(spellings),
        cmocka_unit_test(case_decides_where_it_must),
        cmocka_unit_test(lengths_in_two_parts),
        cmocka_unit_test(utc_offsets),
        cmocka_unit_test(times_of_day),
        cmocka_unit_test(faults_are_told_apart),
        cmocka_unit_test(decimal_commas_that_can_only_be_decimal),
        cmocka_unit_test(hints_where_there_is_something_to_say),
        cmocka_unit_test(nearest_names),
        cmocka_unit_test(every_measure_has_words_and_units),
    };
    return cmocka_run_group_tests_name("base/unit", tests, NULL, NULL);
}
