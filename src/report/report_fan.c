/* The fan against its rock: a verdict with its reason, what lies behind it, a caution. */
#include <math.h>

#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "report/report_parts.h"

/* ---- measures for people ---- */

enum measure { FLOW, PRESSURE, SPEED, FACE, LENGTH, RISE };

/* SI value to what is printed: times scale, with decimals, before its unit. */
static const struct {
    double scale;
    int decimals;
    const char *unit;
} measures[][2] = {
    [FLOW] = {{3600.0, 0, "m3/h"}, {60.0 / 0.028316846592, 0, "cfm"}},
    [PRESSURE] = {{1.0, 0, "Pa"}, {1.0 / 249.08891, 2, "in wg"}},
    [SPEED] = {{1.0, 2, "m/s"}, {60.0 / 0.3048, 0, "ft/min"}},
    [FACE] = {{1.0, 1, "m2"}, {1.0 / 0.09290304, 0, "ft2"}},
    [LENGTH] = {{1.0, 1, "m"}, {1.0 / 0.3048, 0, "ft"}},
    [RISE] = {{1.0, 1, "K"}, {1.8, 1, "F"}},
};

/* Small pressures keep a digit that says something. */
static const char *measured(double value, enum measure measure, enum dawn_units units,
                            char out[DAWN_REPORT_ROOM])
{
    const int us = units == DAWN_US;
    const double shown = value * measures[measure][us].scale;
    const int more = measure == PRESSURE && fabs(value) < 9.95;
    char number[DAWN_REPORT_ROOM];

    snprintf(out, DAWN_REPORT_ROOM, "%.40s %s",
             dawn_report_fixed(shown, measures[measure][us].decimals + more, number),
             measures[measure][us].unit);
    return out;
}

static const char *percent(double share, char out[DAWN_REPORT_ROOM])
{
    char number[DAWN_REPORT_ROOM];

    snprintf(out, DAWN_REPORT_ROOM, "%.40s %%",
             dawn_report_fixed(100.0 * share, share < 0.0095 ? 1 : 0, number));
    return out;
}

/* ---- the verdict ---- */

static const char *verdict_word(enum dawn_fan_verdict verdict)
{
    static const char *const words[] = {
        [DAWN_FAN_FITS] = "fits",
        [DAWN_FAN_CHOKED_BY_ROCK] = "choked by rock",
        [DAWN_FAN_CHOKED_BY_DUCTS] = "choked by ducts",
        [DAWN_FAN_TOO_SMALL] = "too small",
        [DAWN_FAN_FLOW_BEYOND_POWER] = "flow beyond power",
        [DAWN_FAN_AIR_LEAVES_WARM] = "air leaves warm",
    };
    return words[verdict];
}

static const char *advice(enum dawn_fan_verdict verdict)
{
    static const char *const words[] = {
        [DAWN_FAN_FITS] = NULL,
        [DAWN_FAN_CHOKED_BY_ROCK] = "what helps: larger stones, the air led across the bed the "
                                    "short way, or a fan for higher pressure",
        [DAWN_FAN_CHOKED_BY_DUCTS] = "what helps: wider ducts (half as wide again takes about a "
                                     "seventh of the pressure), several side by side, fewer bends "
                                     "and screens",
        [DAWN_FAN_TOO_SMALL] = "what helps: a fan that moves more air, or a second one",
        [DAWN_FAN_FLOW_BEYOND_POWER] = "what helps: the fan's curve instead of its flow (free_air, "
                                       "greatest_pressure); rock.path_length, if the air takes a "
                                       "shorter way than along the bed; larger stones",
        [DAWN_FAN_AIR_LEAVES_WARM] = "what helps: smaller stones, or more rock in the air's way",
    };
    return words[verdict];
}

static void add_verdict(struct dawn_text *text, enum dawn_units units,
                        const struct dawn_fan_work *work)
{
    char flow[DAWN_REPORT_ROOM];
    char pressure[DAWN_REPORT_ROOM];
    char share[DAWN_REPORT_ROOM];

    measured(work->flow_m3_s, FLOW, units, flow);
    percent(work->carried_share, share);
    switch (work->verdict) {
    case DAWN_FAN_FITS:
        dawn_text_add(text, "the fan suits its bed: it moves %s through the rock at %s", flow,
                      measured(work->pressure_Pa, PRESSURE, units, pressure));
        if (work->noon_W > 0.0)
            dawn_text_add(text, "; its air carries %s of a clear noon's sun", share);
        break;
    case DAWN_FAN_CHOKED_BY_ROCK:
        dawn_text_add(text,
                      "this fan is too weak for its bed: the rock takes %s and leaves it %s; its "
                      "air carries only %s of a clear noon's sun",
                      measured(work->rock_Pa, PRESSURE, units, pressure), flow, share);
        break;
    case DAWN_FAN_CHOKED_BY_DUCTS:
        dawn_text_add(text,
                      "this fan is too weak for its ducts: they take %s and leave it %s; its air "
                      "carries only %s of a clear noon's sun",
                      measured(work->duct_Pa, PRESSURE, units, pressure), flow, share);
        break;
    case DAWN_FAN_TOO_SMALL:
        dawn_text_add(text,
                      "this fan is too small for its house: it moves %s, and its air carries only "
                      "%s of a clear noon's sun",
                      flow, share);
        break;
    case DAWN_FAN_FLOW_BEYOND_POWER:
        dawn_text_add(text,
                      "this fan cannot move the %s it is said to: rock and ducts would take %s, "
                      "more than %s W can give",
                      flow, measured(work->pressure_Pa, PRESSURE, units, pressure),
                      dawn_report_fixed(work->power_W, 0, share));
        break;
    case DAWN_FAN_AIR_LEAVES_WARM:
        dawn_text_add(text,
                      "this bed is too coarse or too short for its fan: of the warmth that %s "
                      "carry in they carry %s out again",
                      flow, percent(work->left_share, pressure));
        break;
    }
}

/* ---- what lies behind it ---- */

static void row(struct dawn_tableout *table, const char *name, const char *value,
                const char *remark)
{
    dawn_tableout_cell(table, "%s", name);
    dawn_tableout_cell(table, "%s", value);
    dawn_tableout_cell(table, "%s", remark);
}

static void remark_of(char remark[2 * DAWN_REPORT_ROOM], const char *before, const char *value,
                      const char *behind)
{
    snprintf(remark, (size_t)2 * DAWN_REPORT_ROOM, "%s%.40s%s", before, value, behind);
}

static void put_air(struct dawn_tableout *table, enum dawn_units units,
                    const struct dawn_fan_work *work)
{
    char value[DAWN_REPORT_ROOM];
    char other[DAWN_REPORT_ROOM];
    char remark[2 * DAWN_REPORT_ROOM] = "as the scenario gives it";

    if (work->from_curve)
        remark_of(remark, "of ", measured(work->free_air_m3_s, FLOW, units, other), " in free air");
    row(table, "Flow", measured(work->flow_m3_s, FLOW, units, value), remark);
    if (work->from_curve) {
        remark_of(remark, "to ", measured(work->most_m3_s, FLOW, units, other),
                  ", as rock may resist twice or half");
        row(table, "  it may be", measured(work->least_m3_s, FLOW, units, value), remark);
        remark_of(remark, "of ", measured(work->greatest_Pa, PRESSURE, units, other),
                  " at most, in your air");
    } else {
        snprintf(remark, sizeof remark, "%s", "what a fan must hold at that flow");
    }
    row(table, "Pressure", measured(work->pressure_Pa, PRESSURE, units, value), remark);
    row(table, "  through the rock", measured(work->rock_Pa, PRESSURE, units, value),
        "beds differ by a factor of 2");
    if (work->duct_m_s > 0.0) {
        remark_of(remark, "at up to ", measured(work->duct_m_s, SPEED, units, other), "");
        row(table, "  through the ducts", measured(work->duct_Pa, PRESSURE, units, value), remark);
    }
    remark[0] = '\0';
    if (work->power_W > 0.0)
        remark_of(remark, "", percent(work->air_W / work->power_W, other), " of it moves the air");
    snprintf(value, sizeof value, "%.40s W", dawn_report_fixed(work->power_W, 0, other));
    row(table, "Power", value, remark);
}

static void put_rock(struct dawn_tableout *table, enum dawn_units units,
                     const struct dawn_fan_work *work)
{
    char value[DAWN_REPORT_ROOM];
    char other[DAWN_REPORT_ROOM];
    char third[DAWN_REPORT_ROOM];
    char remark[4 * DAWN_REPORT_ROOM];

    snprintf(remark, sizeof remark, "across %.40s of rock, %.40s along",
             measured(work->face_m2, FACE, units, other),
             measured(work->path_m, LENGTH, units, third));
    row(table, "Face velocity", measured(work->face_m_s, SPEED, units, value), remark);
    snprintf(remark, sizeof remark, "warmer than the rock; it enters %.40s warmer",
             measured(work->rise_K, RISE, units, other));
    row(table, "Air leaves", measured(work->rise_K * work->left_share, RISE, units, value), remark);
}

static void put_sun(struct dawn_tableout *table, const struct dawn_fan_work *work)
{
    char value[DAWN_REPORT_ROOM];
    char other[DAWN_REPORT_ROOM];
    char remark[2 * DAWN_REPORT_ROOM] = "";

    snprintf(value, sizeof value, "%.40s kW", dawn_report_fixed(work->noon_W / 1000.0, 1, other));
    row(table, "Noon sun inside", value, "clear day at the equinox");
    if (work->noon_W > 0.0)
        remark_of(remark, "", percent(work->carried_share, other), " of it; below 30 % is little");
    snprintf(value, sizeof value, "%.40s kW",
             dawn_report_fixed(work->carried_W / 1000.0, 1, other));
    row(table, "Air carries", value, remark);
}

static void write_text(FILE *out, enum dawn_units units, const struct dawn_fan_work *work)
{
    struct dawn_text text = {0};
    struct dawn_tableout table;

    add_verdict(&text, units, work);
    if (!text.failed)
        dawn_report_wrapped(out, "", text.data);
    dawn_text_release(&text);
    if (advice(work->verdict) != NULL)
        dawn_report_wrapped(out, "", advice(work->verdict));
    fputc('\n', out);
    dawn_tableout_begin(&table, 3, "lrl");
    row(&table, "Fan and bed", "", "");
    put_air(&table, units, work);
    put_rock(&table, units, work);
    put_sun(&table, work);
    dawn_tableout_end(&table, out);
    fputc('\n', out);
    dawn_report_wrapped(out, "     ",
                        "caution: electricity near water. Residual-current protection for fan and "
                        "thermostat, cables and sockets above splashing; wiring is an "
                        "electrician's work. A device that trips stops the fan unseen: have an "
                        "alarm.");
}

static void write_json(FILE *out, const struct dawn_fan_work *work)
{
    const struct {
        const char *key;
        double value;
    } numbers[] = {
        {"flow_m3_s", work->flow_m3_s},
        {"least_m3_s", work->least_m3_s},
        {"most_m3_s", work->most_m3_s},
        {"free_air_m3_s", work->free_air_m3_s},
        {"greatest_Pa", work->greatest_Pa},
        {"pressure_Pa", work->pressure_Pa},
        {"rock_Pa", work->rock_Pa},
        {"duct_Pa", work->duct_Pa},
        {"power_W", work->power_W},
        {"air_W", work->air_W},
        {"face_m2", work->face_m2},
        {"path_m", work->path_m},
        {"face_m_s", work->face_m_s},
        {"duct_m_s", work->duct_m_s},
        {"transfer_units", work->transfer_units},
        {"left_share", work->left_share},
        {"rise_K", work->rise_K},
        {"noon_W", work->noon_W},
        {"carried_W", work->carried_W},
        {"carried_share", work->carried_share},
    };
    struct dawn_jsonout json;

    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "fan");
    dawn_jsonout_text(&json, "verdict", verdict_word(work->verdict));
    dawn_jsonout_bool(&json, "from_curve", work->from_curve);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        dawn_jsonout_number(&json, numbers[i].key, numbers[i].value, -1);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
}

void dawn_report_fan(FILE *out, enum dawn_format format, enum dawn_units units,
                     const struct dawn_fan_work *work)
{
    if (format == DAWN_JSON)
        write_json(out, work);
    else
        write_text(out, units, work);
}
