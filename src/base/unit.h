/* The table of units: every name a grower may write, and what it is in SI. */
#ifndef BASE_UNIT_H
#define BASE_UNIT_H

#include <stdbool.h>
#include <stddef.h>

/* What is measured; the SI unit values are kept in stands beside. */
enum dawn_measure {
    DAWN_MEASURE_NONE,          /* 1: counts, shares; "%" allowed for shares */
    DAWN_MEASURE_TEMPERATURE,   /* degrees Celsius (C, F, K) */
    DAWN_MEASURE_DIFFERENCE,    /* K (C, F, K; without the 32) */
    DAWN_MEASURE_LENGTH,        /* m (mm, cm, ft, in; "20 ft 6 in") */
    DAWN_MEASURE_AREA,          /* m2 */
    DAWN_MEASURE_VOLUME,        /* m3 (L, yd3, ft3, gal = US gallon) */
    DAWN_MEASURE_MASS,          /* kg (t, lb, "short ton") */
    DAWN_MEASURE_FLOW,          /* m3/s (m3/h, cfm, L/s) */
    DAWN_MEASURE_SPEED,         /* m/s (km/h, mph, knots) */
    DAWN_MEASURE_POWER,         /* W (kW, Btu/h, hp) */
    DAWN_MEASURE_PRESSURE,      /* Pa (hPa, mbar, kPa, inHg, "in wg") */
    DAWN_MEASURE_ANGLE,         /* deg */
    DAWN_MEASURE_IRRADIANCE,    /* W/m2 (kJ/m2 and J/cm2 and Wh/m2 as hourly sums) */
    DAWN_MEASURE_TIME,          /* s (min, h, d) */
    DAWN_MEASURE_RATE,          /* 1/h (air changes per hour: "/h", "ACH") */
    DAWN_MEASURE_CONDUCTIVITY,  /* W/(m K) */
    DAWN_MEASURE_RESISTANCE,    /* m2K/W ("R" in ft2 F h/Btu written "ft2.F.h/Btu") */
    DAWN_MEASURE_DENSITY,       /* kg/m3 (lb/ft3) */
    DAWN_MEASURE_SPECIFIC_HEAT, /* J/(kg K) */
    DAWN_MEASURE_VOLUME_HEAT,   /* J/(m3 K) (MJ/m3K) */
    DAWN_MEASURE_LINE_LOSS,     /* W/(m K) */
    DAWN_MEASURE_HOURS_OFFSET,  /* h, for "UTC offset": "+1 h", "-05:00" */
    DAWN_MEASURE_CLOCK,         /* s since midnight ("18:30", "6:30 pm", "18 h") */
    /* Prices, in a currency of the grower's own, by what is bought. */
    DAWN_MEASURE_PRICE_MASS,   /* 1/kg ("/t", "per short ton") */
    DAWN_MEASURE_PRICE_VOLUME, /* 1/m3 */
    DAWN_MEASURE_PRICE_AREA,   /* 1/m2 */
    DAWN_MEASURE_PRICE_FLOW,   /* 1/(m3/s) ("/m3/h", "/cfm") */
    DAWN_MEASURE_PRICE_ENERGY, /* 1/J ("/kWh") */
    DAWN_MEASURES
};

struct dawn_unit {
    const char *name; /* as written; compared without case except where case decides (m, M) */
    enum dawn_measure measure;
    bool exact;          /* case decides */
    double scale, shift; /* SI = value * scale + shift */
};

/* The unit with this name for this measure, or NULL. Accepts "m2", "m^2", "m²", "°C", "degC",
 * "W/m²K", "W/(m K)" alike: the name is normalised first (blanks, dots, ^, parentheses and the
 * degree sign dropped, superscripts made digits). */
const struct dawn_unit *dawn_unit_find(enum dawn_measure measure, const char *name);
/* The same over all measures, for telling "this is a length" to someone who wrote ft for a mass. */
const struct dawn_unit *dawn_unit_find_any(const char *name);
/* The nearest unit name of a measure to a mistyped one, or NULL. */
const char *dawn_unit_nearest(enum dawn_measure measure, const char *name);
/* What to tell someone whose quantity or unit name was refused for a reason worth explaining ("ton"
 * may be metric or short, "1,500" may be 1.5 or 1500, a yard of gravel is a volume); NULL when
 * there is nothing special to say. text may be the whole quantity or the unit alone. */
const char *dawn_unit_hint(enum dawn_measure measure, const char *text);
/* "C, F or K": the units of a measure, for messages. */
const char *dawn_unit_list(enum dawn_measure measure);
/* "a temperature", "a length" ... */
const char *dawn_unit_measure_words(enum dawn_measure measure);

/* Why a quantity could not be read. */
enum dawn_quantity_fault {
    DAWN_QUANTITY_OK,
    DAWN_QUANTITY_NO_NUMBER,
    DAWN_QUANTITY_NO_UNIT, /* the measure needs one */
    DAWN_QUANTITY_UNKNOWN_UNIT,
    DAWN_QUANTITY_WRONG_UNIT, /* a unit of another measure */
    DAWN_QUANTITY_REST        /* something stands behind it */
};
/* "27 C", "80F", "2,5 t", "20 ft 6 in", "12' 6\"", "3/4 in", "350 cfm", "30 %", "-5 h" -> SI;
 * unit_text (size 32) gets the unit as written. UTC offsets may also be "-05:00" or "UTC-5", times
 * of day "18:30" or "6:30 pm". A comma that may part thousands ("1,500 lb") is refused as
 * NO_NUMBER; dawn_unit_hint says why. On any fault *si is left alone. */
enum dawn_quantity_fault dawn_unit_quantity(const char *text, enum dawn_measure measure, double *si,
                                            char unit_text[32]);

#endif
