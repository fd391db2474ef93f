/* The table of units: every name a grower may write, and what it is in SI.
 *
 * Factors: exact by definition where they are (inch, pound, US gallon, standard gravity, IT Btu),
 * otherwise from NIST Special Publication 811 (2008), appendix B.8, from memory. */
#include "base/unit.h"

#include <stdint.h>
#include <string.h>

#include "base/text.h"

#define FOOT            0.3048
#define INCH            0.0254
#define YARD            0.9144
#define MILE            1609.344
#define ACRE            4046.8564224 /* 43 560 square international feet */
#define FOOT2           (FOOT * FOOT)
#define YARD2           (YARD * YARD)
#define FOOT3           (FOOT * FOOT * FOOT)
#define YARD3           (YARD * YARD * YARD)
#define GALLON          3.785411784e-3 /* US, 231 cubic inches */
#define GALLON_IMPERIAL 4.54609e-3
#define POUND           0.45359237
#define GRAVITY         9.80665
#define BTU             1055.05585262 /* International Table */
#define HOUR            3600.0
#define DEGREE_F        (5.0 / 9.0)
#define PI              3.14159265358979323846

/* Rows: measure, spelling, scale. */
#define ANY_CASE(measure, name, scale)       {name, DAWN_MEASURE_##measure, false, scale, 0},
#define EXACT(measure, name, scale)          {name, DAWN_MEASURE_##measure, true, scale, 0},
#define SHIFTED(measure, name, scale, shift) {name, DAWN_MEASURE_##measure, false, scale, shift},
#define SHIFTED_EXACT(measure, name, scale, shift)                                                 \
    {name, DAWN_MEASURE_##measure, true, scale, shift},

/* clang-format would put each row on four lines. */
/* clang-format off */
static const struct dawn_unit units[] = {
    ANY_CASE(NONE, "%", 0.01)
    ANY_CASE(NONE, "percent", 0.01)
    ANY_CASE(NONE, "pct", 0.01)

    SHIFTED_EXACT(TEMPERATURE, "C", 1, 0)
    SHIFTED_EXACT(TEMPERATURE, "F", DEGREE_F, -32 * DEGREE_F)
    SHIFTED_EXACT(TEMPERATURE, "K", 1, -273.15)
    SHIFTED(TEMPERATURE, "degC", 1, 0)
    SHIFTED(TEMPERATURE, "degreeC", 1, 0)
    SHIFTED(TEMPERATURE, "degrees C", 1, 0)
    SHIFTED(TEMPERATURE, "celsius", 1, 0)
    SHIFTED(TEMPERATURE, "deg celsius", 1, 0)
    SHIFTED(TEMPERATURE, "degree celsius", 1, 0)
    SHIFTED(TEMPERATURE, "degrees celsius", 1, 0)
    SHIFTED(TEMPERATURE, "centigrade", 1, 0)
    SHIFTED(TEMPERATURE, "degF", DEGREE_F, -32 * DEGREE_F)
    SHIFTED(TEMPERATURE, "degreeF", DEGREE_F, -32 * DEGREE_F)
    SHIFTED(TEMPERATURE, "degrees F", DEGREE_F, -32 * DEGREE_F)
    SHIFTED(TEMPERATURE, "fahrenheit", DEGREE_F, -32 * DEGREE_F)
    SHIFTED(TEMPERATURE, "deg fahrenheit", DEGREE_F, -32 * DEGREE_F)
    SHIFTED(TEMPERATURE, "degrees fahrenheit", DEGREE_F, -32 * DEGREE_F)
    SHIFTED(TEMPERATURE, "degK", 1, -273.15)
    SHIFTED(TEMPERATURE, "kelvin", 1, -273.15)

    EXACT(DIFFERENCE, "K", 1)
    EXACT(DIFFERENCE, "C", 1)
    EXACT(DIFFERENCE, "F", DEGREE_F)
    ANY_CASE(DIFFERENCE, "kelvin", 1)
    ANY_CASE(DIFFERENCE, "degK", 1)
    ANY_CASE(DIFFERENCE, "degC", 1)
    ANY_CASE(DIFFERENCE, "degrees C", 1)
    ANY_CASE(DIFFERENCE, "celsius", 1)
    ANY_CASE(DIFFERENCE, "degrees celsius", 1)
    ANY_CASE(DIFFERENCE, "degF", DEGREE_F)
    ANY_CASE(DIFFERENCE, "degrees F", DEGREE_F)
    ANY_CASE(DIFFERENCE, "fahrenheit", DEGREE_F)
    ANY_CASE(DIFFERENCE, "degrees fahrenheit", DEGREE_F)

    EXACT(LENGTH, "m", 1)
    ANY_CASE(LENGTH, "mm", 1e-3)
    ANY_CASE(LENGTH, "cm", 1e-2)
    EXACT(LENGTH, "dm", 0.1)
    ANY_CASE(LENGTH, "km", 1e3)
    ANY_CASE(LENGTH, "um", 1e-6)
    ANY_CASE(LENGTH, "meter", 1)
    ANY_CASE(LENGTH, "meters", 1)
    ANY_CASE(LENGTH, "metre", 1)
    ANY_CASE(LENGTH, "metres", 1)
    ANY_CASE(LENGTH, "millimeter", 1e-3)
    ANY_CASE(LENGTH, "millimeters", 1e-3)
    ANY_CASE(LENGTH, "millimetre", 1e-3)
    ANY_CASE(LENGTH, "millimetres", 1e-3)
    ANY_CASE(LENGTH, "centimeter", 1e-2)
    ANY_CASE(LENGTH, "centimeters", 1e-2)
    ANY_CASE(LENGTH, "centimetre", 1e-2)
    ANY_CASE(LENGTH, "centimetres", 1e-2)
    ANY_CASE(LENGTH, "ft", FOOT)
    ANY_CASE(LENGTH, "foot", FOOT)
    ANY_CASE(LENGTH, "feet", FOOT)
    ANY_CASE(LENGTH, "'", FOOT)
    ANY_CASE(LENGTH, "in", INCH)
    ANY_CASE(LENGTH, "inch", INCH)
    ANY_CASE(LENGTH, "inches", INCH)
    ANY_CASE(LENGTH, "\"", INCH)
    ANY_CASE(LENGTH, "''", INCH)
    ANY_CASE(LENGTH, "yd", YARD)
    ANY_CASE(LENGTH, "yard", YARD)
    ANY_CASE(LENGTH, "yards", YARD)
    ANY_CASE(LENGTH, "mil", INCH / 1000)
    ANY_CASE(LENGTH, "mi", MILE)
    ANY_CASE(LENGTH, "mile", MILE)
    ANY_CASE(LENGTH, "miles", MILE)

    ANY_CASE(AREA, "m2", 1)
    ANY_CASE(AREA, "cm2", 1e-4)
    ANY_CASE(AREA, "mm2", 1e-6)
    ANY_CASE(AREA, "sq m", 1)
    ANY_CASE(AREA, "qm", 1)
    ANY_CASE(AREA, "square m", 1)
    ANY_CASE(AREA, "square meters", 1)
    ANY_CASE(AREA, "square metres", 1)
    ANY_CASE(AREA, "ha", 1e4)
    ANY_CASE(AREA, "ft2", FOOT2)
    ANY_CASE(AREA, "sq ft", FOOT2)
    ANY_CASE(AREA, "sf", FOOT2)
    ANY_CASE(AREA, "square ft", FOOT2)
    ANY_CASE(AREA, "square foot", FOOT2)
    ANY_CASE(AREA, "square feet", FOOT2)
    ANY_CASE(AREA, "in2", INCH * INCH)
    ANY_CASE(AREA, "sq in", INCH * INCH)
    ANY_CASE(AREA, "square inches", INCH * INCH)
    ANY_CASE(AREA, "yd2", YARD * YARD)
    ANY_CASE(AREA, "sq yd", YARD * YARD)
    ANY_CASE(AREA, "square yards", YARD * YARD)
    ANY_CASE(AREA, "acre", ACRE)
    ANY_CASE(AREA, "acres", ACRE)

    ANY_CASE(VOLUME, "m3", 1)
    ANY_CASE(VOLUME, "L", 1e-3)
    ANY_CASE(VOLUME, "liter", 1e-3)
    ANY_CASE(VOLUME, "liters", 1e-3)
    ANY_CASE(VOLUME, "litre", 1e-3)
    ANY_CASE(VOLUME, "litres", 1e-3)
    ANY_CASE(VOLUME, "ml", 1e-6)
    ANY_CASE(VOLUME, "dm3", 1e-3)
    ANY_CASE(VOLUME, "cm3", 1e-6)
    ANY_CASE(VOLUME, "cbm", 1)
    ANY_CASE(VOLUME, "cu m", 1)
    ANY_CASE(VOLUME, "cubic m", 1)
    ANY_CASE(VOLUME, "cubic meters", 1)
    ANY_CASE(VOLUME, "cubic metres", 1)
    ANY_CASE(VOLUME, "yd3", YARD3)
    ANY_CASE(VOLUME, "cu yd", YARD3)
    ANY_CASE(VOLUME, "cu yds", YARD3)
    ANY_CASE(VOLUME, "cy", YARD3)
    ANY_CASE(VOLUME, "cubic yard", YARD3)
    ANY_CASE(VOLUME, "cubic yards", YARD3)
    ANY_CASE(VOLUME, "ft3", FOOT3)
    ANY_CASE(VOLUME, "cu ft", FOOT3)
    ANY_CASE(VOLUME, "cf", FOOT3)
    ANY_CASE(VOLUME, "cubic foot", FOOT3)
    ANY_CASE(VOLUME, "cubic feet", FOOT3)
    ANY_CASE(VOLUME, "in3", INCH * INCH * INCH)
    ANY_CASE(VOLUME, "cu in", INCH * INCH * INCH)
    ANY_CASE(VOLUME, "gal", GALLON)
    ANY_CASE(VOLUME, "gals", GALLON)
    ANY_CASE(VOLUME, "gallon", GALLON)
    ANY_CASE(VOLUME, "gallons", GALLON)
    ANY_CASE(VOLUME, "US gal", GALLON)
    ANY_CASE(VOLUME, "US gallon", GALLON)
    ANY_CASE(VOLUME, "US gallons", GALLON)
    ANY_CASE(VOLUME, "imp gal", GALLON_IMPERIAL)
    ANY_CASE(VOLUME, "imperial gallon", GALLON_IMPERIAL)
    ANY_CASE(VOLUME, "imperial gallons", GALLON_IMPERIAL)

    ANY_CASE(MASS, "kg", 1)
    ANY_CASE(MASS, "kgs", 1)
    ANY_CASE(MASS, "kilogram", 1)
    ANY_CASE(MASS, "kilograms", 1)
    EXACT(MASS, "g", 1e-3)
    ANY_CASE(MASS, "gram", 1e-3)
    ANY_CASE(MASS, "grams", 1e-3)
    EXACT(MASS, "t", 1e3)
    ANY_CASE(MASS, "tonne", 1e3)
    ANY_CASE(MASS, "tonnes", 1e3)
    ANY_CASE(MASS, "metric ton", 1e3)
    ANY_CASE(MASS, "metric tons", 1e3)
    ANY_CASE(MASS, "lb", POUND)
    ANY_CASE(MASS, "lbs", POUND)
    ANY_CASE(MASS, "pound", POUND)
    ANY_CASE(MASS, "pounds", POUND)
    ANY_CASE(MASS, "oz", POUND / 16)
    ANY_CASE(MASS, "short ton", 2000 * POUND)
    ANY_CASE(MASS, "short tons", 2000 * POUND)
    ANY_CASE(MASS, "US ton", 2000 * POUND)
    ANY_CASE(MASS, "US tons", 2000 * POUND)
    ANY_CASE(MASS, "long ton", 2240 * POUND)
    ANY_CASE(MASS, "long tons", 2240 * POUND)

    ANY_CASE(FLOW, "m3/s", 1)
    ANY_CASE(FLOW, "m3/h", 1 / HOUR)
    ANY_CASE(FLOW, "m3/hr", 1 / HOUR)
    ANY_CASE(FLOW, "m3h-1", 1 / HOUR)
    ANY_CASE(FLOW, "m3s-1", 1)
    ANY_CASE(FLOW, "cmh", 1 / HOUR)
    ANY_CASE(FLOW, "cbm/h", 1 / HOUR)
    ANY_CASE(FLOW, "m3/min", 1.0 / 60)
    ANY_CASE(FLOW, "L/s", 1e-3)
    ANY_CASE(FLOW, "L/min", 1e-3 / 60)
    ANY_CASE(FLOW, "L/h", 1e-3 / HOUR)
    ANY_CASE(FLOW, "cfm", FOOT3 / 60)
    ANY_CASE(FLOW, "ft3/min", FOOT3 / 60)
    ANY_CASE(FLOW, "cu ft/min", FOOT3 / 60)
    ANY_CASE(FLOW, "cubic feet/minute", FOOT3 / 60)
    ANY_CASE(FLOW, "ft3/s", FOOT3)
    ANY_CASE(FLOW, "cfh", FOOT3 / HOUR)
    ANY_CASE(FLOW, "gpm", GALLON / 60)
    ANY_CASE(FLOW, "gal/min", GALLON / 60)

    ANY_CASE(SPEED, "m/s", 1)
    ANY_CASE(SPEED, "m/sec", 1)
    ANY_CASE(SPEED, "ms-1", 1)
    ANY_CASE(SPEED, "mps", 1)
    ANY_CASE(SPEED, "cm/s", 1e-2)
    ANY_CASE(SPEED, "mm/s", 1e-3)
    ANY_CASE(SPEED, "km/h", 1e3 / HOUR)
    ANY_CASE(SPEED, "km/hr", 1e3 / HOUR)
    ANY_CASE(SPEED, "kmh", 1e3 / HOUR)
    ANY_CASE(SPEED, "kmh-1", 1e3 / HOUR)
    ANY_CASE(SPEED, "kph", 1e3 / HOUR)
    ANY_CASE(SPEED, "mph", MILE / HOUR)
    ANY_CASE(SPEED, "mi/h", MILE / HOUR)
    ANY_CASE(SPEED, "miles/h", MILE / HOUR)
    ANY_CASE(SPEED, "miles/hour", MILE / HOUR)
    ANY_CASE(SPEED, "kn", 1852 / HOUR)
    ANY_CASE(SPEED, "kt", 1852 / HOUR)
    ANY_CASE(SPEED, "kts", 1852 / HOUR)
    ANY_CASE(SPEED, "knot", 1852 / HOUR)
    ANY_CASE(SPEED, "knots", 1852 / HOUR)
    ANY_CASE(SPEED, "ft/s", FOOT)
    ANY_CASE(SPEED, "fps", FOOT)
    ANY_CASE(SPEED, "ft/min", FOOT / 60)
    ANY_CASE(SPEED, "fpm", FOOT / 60)

    ANY_CASE(POWER, "W", 1)
    ANY_CASE(POWER, "watt", 1)
    ANY_CASE(POWER, "watts", 1)
    ANY_CASE(POWER, "kW", 1e3)
    EXACT(POWER, "MW", 1e6)
    ANY_CASE(POWER, "Btu/h", BTU / HOUR)
    ANY_CASE(POWER, "Btu/hr", BTU / HOUR)
    ANY_CASE(POWER, "Btuh", BTU / HOUR)
    ANY_CASE(POWER, "hp", 550 * FOOT * POUND * GRAVITY)
    ANY_CASE(POWER, "horsepower", 550 * FOOT * POUND * GRAVITY)
    EXACT(POWER, "PS", 75 * GRAVITY)
    ANY_CASE(POWER, "kcal/h", 4186.8 / HOUR)

    ANY_CASE(PRESSURE, "Pa", 1)
    ANY_CASE(PRESSURE, "pascal", 1)
    ANY_CASE(PRESSURE, "hPa", 100)
    ANY_CASE(PRESSURE, "kPa", 1e3)
    ANY_CASE(PRESSURE, "mbar", 100)
    ANY_CASE(PRESSURE, "mb", 100)
    ANY_CASE(PRESSURE, "millibar", 100)
    ANY_CASE(PRESSURE, "millibars", 100)
    ANY_CASE(PRESSURE, "bar", 1e5)
    ANY_CASE(PRESSURE, "inHg", 3386.389)
    ANY_CASE(PRESSURE, "inches Hg", 3386.389)
    ANY_CASE(PRESSURE, "\"Hg", 3386.389)
    ANY_CASE(PRESSURE, "mmHg", 133.322387415)
    ANY_CASE(PRESSURE, "atm", 101325)
    ANY_CASE(PRESSURE, "psi", POUND * GRAVITY / (INCH * INCH))
    ANY_CASE(PRESSURE, "in wg", 249.08891)
    ANY_CASE(PRESSURE, "in wc", 249.08891)
    ANY_CASE(PRESSURE, "in water", 249.08891)
    ANY_CASE(PRESSURE, "inches water", 249.08891)
    ANY_CASE(PRESSURE, "inH2O", 249.08891)
    ANY_CASE(PRESSURE, "\"wg", 249.08891)
    ANY_CASE(PRESSURE, "\"wc", 249.08891)
    ANY_CASE(PRESSURE, "iwg", 249.08891)
    ANY_CASE(PRESSURE, "mmH2O", GRAVITY)
    ANY_CASE(PRESSURE, "mm wg", GRAVITY)
    ANY_CASE(PRESSURE, "mm wc", GRAVITY)

    ANY_CASE(ANGLE, "deg", 1)
    ANY_CASE(ANGLE, "degree", 1)
    ANY_CASE(ANGLE, "degrees", 1)
    ANY_CASE(ANGLE, "rad", 180 / PI)
    ANY_CASE(ANGLE, "radian", 180 / PI)
    ANY_CASE(ANGLE, "radians", 180 / PI)

    /* Sums are those of one hour, as weather files give them. */
    ANY_CASE(IRRADIANCE, "W/m2", 1)
    ANY_CASE(IRRADIANCE, "Wm-2", 1)
    ANY_CASE(IRRADIANCE, "W/sq m", 1)
    ANY_CASE(IRRADIANCE, "watts/m2", 1)
    ANY_CASE(IRRADIANCE, "kW/m2", 1e3)
    ANY_CASE(IRRADIANCE, "Wh/m2", 1)
    ANY_CASE(IRRADIANCE, "Whm-2", 1)
    ANY_CASE(IRRADIANCE, "kWh/m2", 1e3)
    ANY_CASE(IRRADIANCE, "J/m2", 1 / HOUR)
    ANY_CASE(IRRADIANCE, "kJ/m2", 1e3 / HOUR)
    ANY_CASE(IRRADIANCE, "kJm-2", 1e3 / HOUR)
    EXACT(IRRADIANCE, "MJ/m2", 1e6 / HOUR)
    EXACT(IRRADIANCE, "MJm-2", 1e6 / HOUR)
    ANY_CASE(IRRADIANCE, "J/cm2", 1e4 / HOUR)
    ANY_CASE(IRRADIANCE, "Jcm-2", 1e4 / HOUR)
    ANY_CASE(IRRADIANCE, "Btu/ft2", BTU / FOOT2 / HOUR)
    ANY_CASE(IRRADIANCE, "Btu/hft2", BTU / FOOT2 / HOUR)
    ANY_CASE(IRRADIANCE, "ly", 41840 / HOUR)
    ANY_CASE(IRRADIANCE, "langley", 41840 / HOUR)
    ANY_CASE(IRRADIANCE, "langleys", 41840 / HOUR)

    ANY_CASE(TIME, "s", 1)
    ANY_CASE(TIME, "sec", 1)
    ANY_CASE(TIME, "secs", 1)
    ANY_CASE(TIME, "second", 1)
    ANY_CASE(TIME, "seconds", 1)
    ANY_CASE(TIME, "min", 60)
    ANY_CASE(TIME, "mins", 60)
    ANY_CASE(TIME, "minute", 60)
    ANY_CASE(TIME, "minutes", 60)
    ANY_CASE(TIME, "h", HOUR)
    ANY_CASE(TIME, "hr", HOUR)
    ANY_CASE(TIME, "hrs", HOUR)
    ANY_CASE(TIME, "hour", HOUR)
    ANY_CASE(TIME, "hours", HOUR)
    ANY_CASE(TIME, "d", 24 * HOUR)
    ANY_CASE(TIME, "day", 24 * HOUR)
    ANY_CASE(TIME, "days", 24 * HOUR)
    ANY_CASE(TIME, "week", 168 * HOUR)
    ANY_CASE(TIME, "weeks", 168 * HOUR)

    ANY_CASE(RATE, "/h", 1)
    ANY_CASE(RATE, "1/h", 1)
    ANY_CASE(RATE, "h-1", 1)
    ANY_CASE(RATE, "/hr", 1)
    ANY_CASE(RATE, "1/hr", 1)
    ANY_CASE(RATE, "/hour", 1)
    ANY_CASE(RATE, "ACH", 1)
    ANY_CASE(RATE, "ac/h", 1)
    ANY_CASE(RATE, "ac/hr", 1)
    ANY_CASE(RATE, "air change/h", 1)
    ANY_CASE(RATE, "air changes/h", 1)
    ANY_CASE(RATE, "air changes/hour", 1)
    ANY_CASE(RATE, "/d", 1.0 / 24)
    ANY_CASE(RATE, "/day", 1.0 / 24)
    ANY_CASE(RATE, "/min", 60)
    ANY_CASE(RATE, "/s", HOUR)

    ANY_CASE(CONDUCTIVITY, "W/mK", 1)
    ANY_CASE(CONDUCTIVITY, "W/m/K", 1)
    ANY_CASE(CONDUCTIVITY, "Wm-1K-1", 1)
    ANY_CASE(CONDUCTIVITY, "W/Km", 1)
    ANY_CASE(CONDUCTIVITY, "W/mC", 1)
    ANY_CASE(CONDUCTIVITY, "Btu/hftF", BTU / HOUR / FOOT / DEGREE_F)
    ANY_CASE(CONDUCTIVITY, "Btu/hrftF", BTU / HOUR / FOOT / DEGREE_F)
    ANY_CASE(CONDUCTIVITY, "Btuin/hft2F", BTU / HOUR * INCH / FOOT2 / DEGREE_F)
    ANY_CASE(CONDUCTIVITY, "Btuin/hrft2F", BTU / HOUR * INCH / FOOT2 / DEGREE_F)

    ANY_CASE(RESISTANCE, "m2K/W", 1)
    ANY_CASE(RESISTANCE, "Km2/W", 1)
    ANY_CASE(RESISTANCE, "m2KW-1", 1)
    ANY_CASE(RESISTANCE, "m2C/W", 1)
    ANY_CASE(RESISTANCE, "ft2.F.h/Btu", FOOT2 * DEGREE_F * HOUR / BTU)
    ANY_CASE(RESISTANCE, "ft2.h.F/Btu", FOOT2 * DEGREE_F * HOUR / BTU)
    ANY_CASE(RESISTANCE, "ft2.F.hr/Btu", FOOT2 * DEGREE_F * HOUR / BTU)
    ANY_CASE(RESISTANCE, "ft2.hr.F/Btu", FOOT2 * DEGREE_F * HOUR / BTU)
    ANY_CASE(RESISTANCE, "h.ft2.F/Btu", FOOT2 * DEGREE_F * HOUR / BTU)
    ANY_CASE(RESISTANCE, "hr.ft2.F/Btu", FOOT2 * DEGREE_F * HOUR / BTU)
    ANY_CASE(RESISTANCE, "F.ft2.h/Btu", FOOT2 * DEGREE_F * HOUR / BTU)
    ANY_CASE(RESISTANCE, "F.ft2.hr/Btu", FOOT2 * DEGREE_F * HOUR / BTU)

    ANY_CASE(DENSITY, "kg/m3", 1)
    ANY_CASE(DENSITY, "kgm-3", 1)
    ANY_CASE(DENSITY, "g/cm3", 1e3)
    ANY_CASE(DENSITY, "g/L", 1)
    ANY_CASE(DENSITY, "kg/L", 1e3)
    EXACT(DENSITY, "t/m3", 1e3)
    ANY_CASE(DENSITY, "lb/ft3", POUND / FOOT3)
    ANY_CASE(DENSITY, "lbs/ft3", POUND / FOOT3)
    ANY_CASE(DENSITY, "lb/cu ft", POUND / FOOT3)
    ANY_CASE(DENSITY, "pcf", POUND / FOOT3)
    ANY_CASE(DENSITY, "lb/yd3", POUND / YARD3)
    ANY_CASE(DENSITY, "lbs/yd3", POUND / YARD3)
    ANY_CASE(DENSITY, "lb/cu yd", POUND / YARD3)

    ANY_CASE(SPECIFIC_HEAT, "J/kgK", 1)
    ANY_CASE(SPECIFIC_HEAT, "J/kg/K", 1)
    ANY_CASE(SPECIFIC_HEAT, "Jkg-1K-1", 1)
    ANY_CASE(SPECIFIC_HEAT, "J/kgC", 1)
    ANY_CASE(SPECIFIC_HEAT, "kJ/kgK", 1e3)
    ANY_CASE(SPECIFIC_HEAT, "kJ/kgC", 1e3)
    ANY_CASE(SPECIFIC_HEAT, "J/gK", 1e3)
    ANY_CASE(SPECIFIC_HEAT, "Wh/kgK", HOUR)
    ANY_CASE(SPECIFIC_HEAT, "kcal/kgK", 4186.8)
    ANY_CASE(SPECIFIC_HEAT, "kcal/kgC", 4186.8)
    ANY_CASE(SPECIFIC_HEAT, "Btu/lbF", BTU / POUND / DEGREE_F)

    ANY_CASE(VOLUME_HEAT, "J/m3K", 1)
    ANY_CASE(VOLUME_HEAT, "kJ/m3K", 1e3)
    EXACT(VOLUME_HEAT, "MJ/m3K", 1e6)
    EXACT(VOLUME_HEAT, "MJ/m3C", 1e6)
    EXACT(VOLUME_HEAT, "MJm-3K-1", 1e6)
    ANY_CASE(VOLUME_HEAT, "Wh/m3K", HOUR)
    ANY_CASE(VOLUME_HEAT, "Btu/ft3F", BTU / FOOT3 / DEGREE_F)

    ANY_CASE(LINE_LOSS, "W/mK", 1)
    ANY_CASE(LINE_LOSS, "W/m/K", 1)
    ANY_CASE(LINE_LOSS, "Wm-1K-1", 1)
    ANY_CASE(LINE_LOSS, "W/mC", 1)
    ANY_CASE(LINE_LOSS, "Btu/hftF", BTU / HOUR / FOOT / DEGREE_F)
    ANY_CASE(LINE_LOSS, "Btu/hrftF", BTU / HOUR / FOOT / DEGREE_F)

    ANY_CASE(HOURS_OFFSET, "h", 1)
    ANY_CASE(HOURS_OFFSET, "hr", 1)
    ANY_CASE(HOURS_OFFSET, "hrs", 1)
    ANY_CASE(HOURS_OFFSET, "hour", 1)
    ANY_CASE(HOURS_OFFSET, "hours", 1)
    ANY_CASE(HOURS_OFFSET, "min", 1.0 / 60)

    ANY_CASE(CLOCK, "h", HOUR)

    ANY_CASE(PRICE_MASS, "/kg", 1)
    EXACT(PRICE_MASS, "/t", 1e-3)
    ANY_CASE(PRICE_MASS, "/tonne", 1e-3)
    ANY_CASE(PRICE_MASS, "/metric ton", 1e-3)
    ANY_CASE(PRICE_MASS, "/short ton", 1 / (2000 * POUND))
    ANY_CASE(PRICE_MASS, "/US ton", 1 / (2000 * POUND))
    ANY_CASE(PRICE_MASS, "/long ton", 1 / (2240 * POUND))
    ANY_CASE(PRICE_MASS, "/lb", 1 / POUND)
    ANY_CASE(PRICE_VOLUME, "/m3", 1)
    ANY_CASE(PRICE_VOLUME, "/L", 1e3)
    ANY_CASE(PRICE_VOLUME, "/yd3", 1 / YARD3)
    ANY_CASE(PRICE_VOLUME, "/cu yd", 1 / YARD3)
    ANY_CASE(PRICE_VOLUME, "/ft3", 1 / FOOT3)
    ANY_CASE(PRICE_VOLUME, "/cu ft", 1 / FOOT3)
    ANY_CASE(PRICE_AREA, "/m2", 1)
    ANY_CASE(PRICE_AREA, "/sq m", 1)
    ANY_CASE(PRICE_AREA, "/ft2", 1 / FOOT2)
    ANY_CASE(PRICE_AREA, "/sq ft", 1 / FOOT2)
    ANY_CASE(PRICE_AREA, "/yd2", 1 / YARD2)
    ANY_CASE(PRICE_AREA, "/sq yd", 1 / YARD2)
    ANY_CASE(PRICE_FLOW, "/m3/h", HOUR)
    ANY_CASE(PRICE_FLOW, "/m3/hr", HOUR)
    ANY_CASE(PRICE_FLOW, "/L/s", 1e3)
    ANY_CASE(PRICE_FLOW, "/cfm", 60 / FOOT3)
    ANY_CASE(PRICE_ENERGY, "/kWh", 1 / (1e3 * HOUR))
    EXACT(PRICE_ENERGY, "/MWh", 1 / (1e6 * HOUR))
    EXACT(PRICE_ENERGY, "/MJ", 1e-6)
};
/* clang-format on */
enum { UNITS = sizeof units / sizeof units[0] };

/* For messages, by measure. */
static const struct {
    const char *words, *list;
} measures[DAWN_MEASURES] = {
    [DAWN_MEASURE_NONE] = {"a plain number", "no unit, or %"},
    [DAWN_MEASURE_TEMPERATURE] = {"a temperature", "C, F or K"},
    [DAWN_MEASURE_DIFFERENCE] = {"a temperature difference", "K, C or F"},
    [DAWN_MEASURE_LENGTH] = {"a length", "m, cm, mm, ft, in or yd"},
    [DAWN_MEASURE_AREA] = {"an area", "m2, cm2, ft2, in2 or yd2"},
    [DAWN_MEASURE_VOLUME] = {"a volume", "m3, L, ft3, yd3 or gal (US)"},
    [DAWN_MEASURE_MASS] = {"a mass", "kg, t (metric), lb or short ton"},
    [DAWN_MEASURE_FLOW] = {"an air flow", "m3/h, m3/s, L/s or cfm"},
    [DAWN_MEASURE_SPEED] = {"a speed", "m/s, km/h, mph, knots or ft/min"},
    [DAWN_MEASURE_POWER] = {"a power", "W, kW, Btu/h or hp"},
    [DAWN_MEASURE_PRESSURE] = {"a pressure", "Pa, hPa, kPa, mbar, inHg or in wg"},
    [DAWN_MEASURE_ANGLE] = {"an angle", "deg"},
    [DAWN_MEASURE_IRRADIANCE] = {"an irradiance", "W/m2, or of one hour Wh/m2, kJ/m2 or J/cm2"},
    [DAWN_MEASURE_TIME] = {"a length of time", "s, min, h or d"},
    [DAWN_MEASURE_RATE] = {"a rate of air changes", "/h or ACH"},
    [DAWN_MEASURE_CONDUCTIVITY] = {"a heat conductivity", "W/mK or Btu/hftF"},
    [DAWN_MEASURE_RESISTANCE] = {"a heat resistance", "m2K/W or ft2.F.h/Btu"},
    [DAWN_MEASURE_DENSITY] = {"a density", "kg/m3, t/m3 or lb/ft3"},
    [DAWN_MEASURE_SPECIFIC_HEAT] = {"a specific heat", "J/kgK, kJ/kgK or Btu/lbF"},
    [DAWN_MEASURE_VOLUME_HEAT] = {"a heat capacity by volume", "MJ/m3K, kJ/m3K or Btu/ft3F"},
    [DAWN_MEASURE_LINE_LOSS] = {"a heat loss by length", "W/mK or Btu/hftF"},
    [DAWN_MEASURE_HOURS_OFFSET] = {"an offset from UTC", "h, as in -5 h or -05:00"},
    [DAWN_MEASURE_CLOCK] = {"a time of day", "as 18:30, 6:30 pm or 18 h"},
    [DAWN_MEASURE_PRICE_MASS] = {"a price by weight", "/t (metric), /short ton, /kg or /lb"},
    [DAWN_MEASURE_PRICE_VOLUME] = {"a price by volume", "/m3, /yd3 or /ft3"},
    [DAWN_MEASURE_PRICE_AREA] = {"a price by area", "/m2, /ft2 or /yd2"},
    [DAWN_MEASURE_PRICE_FLOW] = {"a price by air flow", "/m3/h or /cfm"},
    [DAWN_MEASURE_PRICE_ENERGY] = {"a price by energy", "/kWh"},
};

/* Names we understand well enough to refuse. */
#define TON           "'ton' may be metric or short: write t (1000 kg) or short ton (2000 lb)"
#define PRICE_TON     "'ton' may be metric or short: write /t (1000 kg) or /short ton (2000 lb)"
#define CUBIC_YARD    "a yard of gravel is a cubic yard: write yd3"
#define WHICH_DEGREES "say which degrees: C or F"
#define BARREL        "barrels come in many sizes: write gal or L"
static const struct {
    const char *name; /* normalised */
    const char *hint;
    enum dawn_measure measure;
    bool exact;
} refused[] = {
    {"ton", TON, DAWN_MEASURE_MASS, false},
    {"tons", TON, DAWN_MEASURE_MASS, false},
    {"T", TON, DAWN_MEASURE_MASS, true},
    {"/ton", PRICE_TON, DAWN_MEASURE_PRICE_MASS, false},
    {"/tons", PRICE_TON, DAWN_MEASURE_PRICE_MASS, false},
    {"/yard", "a yard of gravel is a cubic yard: write /yd3", DAWN_MEASURE_PRICE_VOLUME, false},
    {"yd", CUBIC_YARD, DAWN_MEASURE_VOLUME, false},
    {"yard", CUBIC_YARD, DAWN_MEASURE_VOLUME, false},
    {"yards", CUBIC_YARD, DAWN_MEASURE_VOLUME, false},
    {"M", "a metre is a small m", DAWN_MEASURE_LENGTH, true},
    {"c", "degrees Celsius are a capital C", DAWN_MEASURE_TEMPERATURE, true},
    {"f", "degrees Fahrenheit are a capital F", DAWN_MEASURE_TEMPERATURE, true},
    {"k", "kelvins are a capital K", DAWN_MEASURE_TEMPERATURE, true},
    {"deg", WHICH_DEGREES, DAWN_MEASURE_TEMPERATURE, false},
    {"deg", WHICH_DEGREES, DAWN_MEASURE_DIFFERENCE, false},
    {"bbl", BARREL, DAWN_MEASURE_VOLUME, false},
    {"barrel", BARREL, DAWN_MEASURE_VOLUME, false},
    {"barrels", BARREL, DAWN_MEASURE_VOLUME, false},
    {"W/m2K", "this is a U-value: give its inverse, 1/U, in m2K/W", DAWN_MEASURE_RESISTANCE, false},
    {"R", "an R-value from a US label is in ft2.F.h/Btu, elsewhere in m2K/W: write which",
     DAWN_MEASURE_RESISTANCE, true},
    {"umol/m2s", "this is light as plants count it: W/m2 needs the sensor's own conversion",
     DAWN_MEASURE_IRRADIANCE, false},
    {"lux", "this is light as eyes see it: W/m2 needs the sensor's own conversion",
     DAWN_MEASURE_IRRADIANCE, false},
};
enum { REFUSED = sizeof refused / sizeof refused[0] };

/* ---- names --------------------------------------------------------------------------------- */

enum { NAME_SIZE = 48 };

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* The code point at s and its length in bytes; a byte that is no UTF-8 counts as Latin-1. */
static uint32_t code_point(const char *s, size_t *length)
{
    const unsigned char first = (unsigned char)s[0];
    const size_t more = first >= 0xF0 && first < 0xF8   ? 3
                        : first >= 0xE0 && first < 0xF0 ? 2
                        : first >= 0xC2 && first < 0xE0 ? 1
                                                        : 0;
    uint32_t code = more ? first & (0x3Fu >> more) : first;
    *length = 1;
    for (size_t i = 1; i <= more; i++) {
        if (((unsigned char)s[i] & 0xC0u) != 0x80u)
            return first;
        code = code << 6 | ((unsigned char)s[i] & 0x3Fu);
    }
    *length = more + 1;
    return code;
}

/* What a character beyond ASCII stands for in a unit; 0 = nothing, it is dropped. Degree signs come
 * out of spreadsheets in every mangled form, so everything not listed is taken for one. */
static char plain_letter(uint32_t code)
{
    static const struct {
        uint32_t code;
        char plain;
    } known[] = {
        {0xB2, '2'},   {0xB3, '3'},    {0xB9, '1'},    {0xB5, 'u'},    {0x3BC, 'u'},  {0x207B, '-'},
        {0x2212, '-'}, {0x2018, '\''}, {0x2019, '\''}, {0x2032, '\''}, {0x201C, '"'}, {0x201D, '"'},
        {0x2033, '"'}, {0x2044, '/'},  {0x2215, '/'},  {0x2103, 'C'},  {0x2109, 'F'},
    };
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (known[i].code == code)
            return known[i].plain;
    }
    return '\0';
}

/* The character at s as it counts in a unit's name, 0 when it is dropped. */
static char plain_char(const char *s, size_t *length)
{
    const uint32_t code = code_point(s, length);
    if (code < 0x80)
        return (char)code;
    return plain_letter(code);
}

static bool is_degree(const char *s)
{
    size_t length = 0;
    const uint32_t code = code_point(s, &length);
    return code == 0xB0 || code == 0xBA;
}

/* Blanks, dots, ^, *, parentheses and whatever is not ASCII go; "per" becomes a slash. A hyphen
 * stays only before a digit, where it is an exponent's sign. False when the name is too long for a
 * unit. */
static bool normalise(const char *name, size_t size, char out[NAME_SIZE])
{
    size_t used = 0;
    bool degree = false;
    size_t length = 0;
    for (size_t i = 0; i < size; i += length) {
        char c = plain_char(name + i, &length);
        degree = degree || is_degree(name + i);
        const size_t blank = i > 0; /* "m3 per h", or a price "per t" */
        if (strncmp(name + i, blank ? " per " : "per ", 4 + blank) == 0) {
            c = '/';
            length = 4 + blank;
        }
        if (c == '\0' || strchr(" \t.^*()[]_", c))
            continue;
        size_t next = 0;
        if (c == '-' && i + length < size && !is_digit(plain_char(name + i + length, &next)))
            continue;
        if (used + 4 >= NAME_SIZE)
            return false;
        out[used++] = c;
    }
    if (used == 0 && degree) {
        memcpy(out, "deg", 3);
        used = 3;
    }
    out[used] = '\0';
    return true;
}

/* Table names are kept readable ("short ton", "ft2.F.h/Btu"); this is how they are compared. */
static void plain_name(const char *in_table, char out[NAME_SIZE])
{
    size_t used = 0;
    for (; *in_table && used + 1 < NAME_SIZE; in_table++) {
        if (*in_table != ' ' && *in_table != '.')
            out[used++] = *in_table;
    }
    out[used] = '\0';
}

/* name is normalised. */
static bool same_name(const char *in_table, const char *name, bool exact)
{
    char plain[NAME_SIZE];
    plain_name(in_table, plain);
    return exact ? strcmp(plain, name) == 0 : dawn_text_same(plain, name);
}

/* The same letters in another order. */
static bool shuffled(const char *a, const char *b)
{
    int surplus[256] = {0};
    for (; *a && *b; a++, b++) {
        surplus[(unsigned char)*a]++;
        surplus[(unsigned char)*b]--;
    }
    for (size_t i = 0; i < 256; i++) {
        if (surplus[i] != 0)
            return false;
    }
    return *a == *b;
}

static const struct dawn_unit *find_normalised(enum dawn_measure measure, const char *name)
{
    for (size_t i = 0; i < UNITS; i++) {
        if (units[i].measure == measure && same_name(units[i].name, name, units[i].exact))
            return &units[i];
    }
    return NULL;
}

static const struct dawn_unit *find_sized(enum dawn_measure measure, const char *name, size_t size)
{
    char plain[NAME_SIZE];
    return normalise(name, size, plain) ? find_normalised(measure, plain) : NULL;
}

const struct dawn_unit *dawn_unit_find(enum dawn_measure measure, const char *name)
{
    return find_sized(measure, name, strlen(name));
}

const struct dawn_unit *dawn_unit_find_any(const char *name)
{
    char plain[NAME_SIZE];
    if (!normalise(name, strlen(name), plain))
        return NULL;
    const struct dawn_unit *found = NULL;
    for (int measure = 0; measure < DAWN_MEASURES && !found; measure++)
        found = find_normalised((enum dawn_measure)measure, plain);
    return found;
}

const char *dawn_unit_nearest(enum dawn_measure measure, const char *name)
{
    char plain[NAME_SIZE];
    if (!normalise(name, strlen(name), plain) || dawn_unit_hint(measure, name))
        return NULL;
    /* One slip in three letters is a slip; in two it is another word. */
    const size_t length = strlen(plain);
    size_t best = (length <= 2 ? 0 : length <= 5 ? 1 : 2) + 1;
    const char *nearest = NULL;
    for (size_t i = 0; i < UNITS; i++) {
        char known[NAME_SIZE];
        plain_name(units[i].name, known);
        if (units[i].measure != measure)
            continue;
        const size_t distance = dawn_text_distance(known, plain, best);
        /* Of two equally near, fingers that were too quick ("cmf" for cfm) are likelier than wrong.
         */
        if (distance < best || (nearest && distance == best && shuffled(known, plain))) {
            best = distance;
            nearest = units[i].name;
        }
    }
    return nearest;
}

const char *dawn_unit_list(enum dawn_measure measure)
{
    return measures[measure].list;
}

const char *dawn_unit_measure_words(enum dawn_measure measure)
{
    return measures[measure].words;
}

/* ---- quantities ---------------------------------------------------------------------------- */

static const char *skip_blanks(const char *s)
{
    while (*s == ' ' || *s == '\t')
        s++;
    return s;
}

/* s up to here without the blanks at its end. */
static size_t trimmed(const char *s, size_t size)
{
    while (size > 0 && (s[size - 1] == ' ' || s[size - 1] == '\t' || s[size - 1] == '\n' ||
                        s[size - 1] == '\r'))
        size--;
    return size;
}

/* "1,500": one to three digits without a leading zero, a comma, exactly three digits. */
static bool may_part_thousands(const char *text)
{
    const char *s = skip_blanks(text);
    s += *s == '+' || *s == '-';
    size_t before = 0;
    while (is_digit(s[before]))
        before++;
    if (before < 1 || before > 3 || s[0] == '0' || s[before] != ',')
        return false;
    const char *behind = s + before + 1;
    return is_digit(behind[0]) && is_digit(behind[1]) && is_digit(behind[2]) &&
           !is_digit(behind[3]);
}

/* Whole digits only, as stand in a fraction. */
static const char *whole_number(const char *s, double *value)
{
    *value = 0;
    const char *start = s;
    for (; is_digit(*s) && s - start < 6; s++)
        *value = *value * 10 + (*s - '0');
    return s > start && !is_digit(*s) ? s : NULL;
}

/* "3/4" at s. */
static const char *fraction(const char *s, double *value)
{
    double over = 0;
    double under = 0;
    s = whole_number(s, &over);
    if (!s || *s != '/')
        return NULL;
    s = whole_number(s + 1, &under);
    if (!s || under <= 0)
        return NULL;
    *value = over / under;
    return s;
}

/* "12.5", "3/4" or "1 1/2". */
static const char *number_or_fraction(const char *text, double *value)
{
    const char *s = skip_blanks(text);
    const bool negative = *s == '-';
    const char *digits = s + (negative || *s == '+');
    double share = 0;
    double whole = 0;
    const char *end = fraction(digits, &share);
    if (!end) {
        const char *behind = whole_number(digits, &whole);
        end = behind && *behind == ' ' ? fraction(skip_blanks(behind), &share) : NULL;
    }
    if (end) {
        *value = negative ? -(whole + share) : whole + share;
        return end;
    }
    return !may_part_thousands(text) && dawn_text_number(text, &end, value) ? end : NULL;
}

/* "-05:00", "+5:30", "UTC+1", "UTC-05:00", "UTC", "Z". False when it is none of these. */
static bool clock_offset(const char *text, double *hours)
{
    const char *s = skip_blanks(text);
    const bool utc = dawn_text_starts(s, "UTC") || dawn_text_starts(s, "GMT");
    s = skip_blanks(s + (utc ? 3 : 0));
    const bool zulu = !utc && (*s == 'Z' || *s == 'z');
    if ((utc && *s == '\0') || (zulu && *skip_blanks(s + 1) == '\0')) {
        *hours = 0;
        return true;
    }
    static const char minus_sign[] = "\xE2\x88\x92";
    const bool long_minus = strncmp(s, minus_sign, 3) == 0;
    const bool negative = long_minus || *s == '-';
    if (!negative && *s != '+')
        return false;
    double whole = 0;
    double minutes = 0;
    s = whole_number(s + (long_minus ? 3 : 1), &whole);
    if (!s || whole > 24)
        return false;
    if (*s == ':') {
        if (!is_digit(s[1]) || !is_digit(s[2]))
            return false;
        s = whole_number(s + 1, &minutes);
    } else if (!utc) {
        return false;
    }
    if (!s || minutes >= 60 || *skip_blanks(s) != '\0')
        return false;
    *hours = (whole + minutes / 60) * (negative ? -1 : 1);
    return true;
}

/* "18:30", "6:30 pm", "6 am", "24:00". False when it is none of these. */
static bool time_of_day(const char *text, double *seconds)
{
    double hours = 0;
    double minutes = 0;
    const char *s = skip_blanks(text);
    if (!is_digit(*s) || !(s = whole_number(s, &hours)))
        return false;
    const bool colon = *s == ':';
    if (colon) {
        if (!is_digit(s[1]) || !is_digit(s[2]) || is_digit(s[3]))
            return false;
        s = whole_number(s + 1, &minutes);
    }
    s = skip_blanks(s);
    const bool afternoon = dawn_text_starts(s, "pm");
    const bool halved = afternoon || dawn_text_starts(s, "am");
    if ((!colon && !halved) || *skip_blanks(s + (halved ? 2 : 0)) != '\0' || minutes >= 60 ||
        (halved && (hours < 1 || hours > 12)))
        return false;
    if (halved)
        hours = (hours < 12 ? hours : 0) + (afternoon ? 12 : 0);
    *seconds = (hours * 60 + minutes) * 60;
    return true;
}

static void keep_unit_text(char unit_text[32], const char *unit, size_t size)
{
    const size_t kept = size < 31 ? size : 31;
    memcpy(unit_text, unit, kept);
    unit_text[kept] = '\0';
}

/* A second, smaller length behind the first: "ft 6 in". Gives the sum. */
static bool composite(const char *rest, size_t size, double first, double *metres)
{
    size_t split = 0;
    while (split < size && !is_digit(rest[split]))
        split++;
    const struct dawn_unit *large = find_sized(DAWN_MEASURE_LENGTH, rest, split);
    if (split == 0 || split == size || !large)
        return false;
    double second = 0;
    const char *end = number_or_fraction(rest + split, &second);
    if (!end)
        return false;
    const struct dawn_unit *small =
        find_sized(DAWN_MEASURE_LENGTH, end, size - (size_t)(end - rest));
    if (!small || small->scale >= large->scale)
        return false;
    const double more = second * small->scale;
    *metres = first * large->scale + (first < 0 ? -more : more);
    return true;
}

/* Whether a unit of this measure stands at the start, with something else behind it. */
static bool unit_and_rest(enum dawn_measure measure, const char *unit, size_t size)
{
    for (size_t i = 1; i < size; i++) {
        if ((unit[i] == ' ' || unit[i] == '\t' || unit[i] == ',' || unit[i] == ';') &&
            find_sized(measure, unit, i))
            return true;
    }
    return false;
}

static enum dawn_quantity_fault what_is_wrong(enum dawn_measure measure, const char *unit,
                                              size_t size)
{
    char plain[NAME_SIZE];
    if (unit_and_rest(measure, unit, size))
        return DAWN_QUANTITY_REST;
    if (!normalise(unit, size, plain))
        return DAWN_QUANTITY_UNKNOWN_UNIT;
    for (int other = 0; other < DAWN_MEASURES; other++) {
        if (find_normalised((enum dawn_measure)other, plain))
            return DAWN_QUANTITY_WRONG_UNIT;
    }
    return DAWN_QUANTITY_UNKNOWN_UNIT;
}

enum dawn_quantity_fault dawn_unit_quantity(const char *text, enum dawn_measure measure, double *si,
                                            char unit_text[32])
{
    unit_text[0] = '\0';
    if (measure == DAWN_MEASURE_HOURS_OFFSET && clock_offset(text, si))
        return DAWN_QUANTITY_OK;
    if (measure == DAWN_MEASURE_CLOCK && time_of_day(text, si))
        return DAWN_QUANTITY_OK;
    double value = 0;
    const char *unit = number_or_fraction(text, &value);
    if (!unit)
        return DAWN_QUANTITY_NO_NUMBER;
    unit = skip_blanks(unit);
    const size_t size = trimmed(unit, strlen(unit));
    if (size == 0) {
        if (measure != DAWN_MEASURE_NONE)
            return DAWN_QUANTITY_NO_UNIT;
        *si = value;
        return DAWN_QUANTITY_OK;
    }
    keep_unit_text(unit_text, unit, size);
    const struct dawn_unit *known = find_sized(measure, unit, size);
    if (known) {
        *si = value * known->scale + known->shift;
        return DAWN_QUANTITY_OK;
    }
    if (measure == DAWN_MEASURE_LENGTH && composite(unit, size, value, si))
        return DAWN_QUANTITY_OK;
    return what_is_wrong(measure, unit, size);
}

/* ---- hints --------------------------------------------------------------------------------- */

const char *dawn_unit_hint(enum dawn_measure measure, const char *text)
{
    if (may_part_thousands(text))
        return "the comma may be a decimal mark or part thousands: write 1500 or 1.5, not 1,500";
    double value = 0;
    const char *unit = number_or_fraction(text, &value);
    unit = skip_blanks(unit ? unit : text);
    char plain[NAME_SIZE];
    if (!normalise(unit, trimmed(unit, strlen(unit)), plain))
        return NULL;
    for (size_t i = 0; i < REFUSED; i++) {
        if (refused[i].measure == measure && same_name(refused[i].name, plain, refused[i].exact))
            return refused[i].hint;
    }
    return NULL;
}
