/* Thermostat settings: what to set, what else is as good, month by month. */
#include <math.h>

#include "base/civil.h"
#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "report/report_studies.h"

struct page {
    enum dawn_units units;
    const struct dawn_study_story *story;
    const struct dawn_setpoint *setpoint;
    double line_C;
};

static const struct dawn_setpoint_row *best_of(const struct dawn_setpoint *setpoint)
{
    return setpoint->best < setpoint->count ? &setpoint->row[setpoint->best] : NULL;
}

static bool same_setting(const struct dawn_setpoint_row *a, const struct dawn_setpoint_row *b)
{
    return fabs(a->on_C - b->on_C) < 1e-6 && fabs(a->gap_K - b->gap_K) < 1e-6 &&
           fabs(a->margin_K - b->margin_K) < 1e-6;
}

static double gap_in(double gap_K, enum dawn_units units)
{
    return units == DAWN_US ? gap_K * 1.8 : gap_K;
}

/* ---- words ---- */

static void add_decision(struct dawn_text *text, const struct page *page)
{
    const struct dawn_setpoint_row *best = best_of(page->setpoint);
    char on[DAWN_REPORT_ROOM];
    char off[DAWN_REPORT_ROOM];

    if (best == NULL) {
        dawn_text_add(text, "no setting could be recommended");
        return;
    }
    const struct dawn_setpoint_row *own = &page->setpoint->row[0];
    if (page->setpoint->no_difference) {
        dawn_text_add(text, "the setting hardly matters to the cold nights here; ");
    }
    dawn_text_add(text, "%s: on at %s, off at %s, only when %.3g %s warmer than the rock",
                  same_setting(own, best) ? "leave the fan as it is" : "set the fan",
                  dawn_report_line(best->on_C, page->units, on),
                  dawn_report_line(best->on_C - best->gap_K, page->units, off),
                  gap_in(best->margin_K, page->units), dawn_report_change_unit(page->units));
    if (page->setpoint->to_C > page->setpoint->from_C) {
        dawn_text_add(text, "; any start from %s to %s is as good",
                      dawn_report_line(page->setpoint->from_C, page->units, on),
                      dawn_report_line(page->setpoint->to_C, page->units, off));
    }
}

static void put_gain(FILE *out, const struct page *page)
{
    const struct dawn_setpoint_row *best = best_of(page->setpoint);
    const struct dawn_setpoint_row *own = &page->setpoint->row[0];
    struct dawn_text text = {0};
    char change[DAWN_REPORT_ROOM];
    char line[DAWN_REPORT_ROOM];

    if (best == NULL || same_setting(own, best)) {
        return;
    }
    dawn_text_add(&text, "against the setting it has: coldest nights %s %s at the %s",
                  dawn_report_change(best->cold_C - own->cold_C, 1, page->units, change),
                  dawn_report_change_unit(page->units),
                  page->setpoint->by_air || !page->setpoint->at_trays ? "house air" : "trays");
    dawn_text_add(&text, ", nights below %s %.0f instead of %.0f",
                  dawn_report_line(page->line_C, page->units, line), best->below, own->below);
    dawn_text_add(&text, ", electricity %.1f kWh instead of %.1f", best->sum.fan_kWh,
                  own->sum.fan_kWh);
    if (!text.failed) {
        dawn_report_wrapped(out, "  ", text.data);
    }
    dawn_text_release(&text);
}

/* ---- tables ---- */

static void put_row(struct dawn_tableout *table, const struct page *page, const char *label,
                    const struct dawn_setpoint_row *row)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", label);
    dawn_tableout_cell(table, "%s", dawn_report_degrees(row->on_C, page->units, number));
    dawn_tableout_cell(table, "%s",
                       dawn_report_degrees(row->on_C - row->gap_K, page->units, number));
    dawn_tableout_cell(table, "%.3g", gap_in(row->margin_K, page->units));
    if (row->failed) {
        for (int i = 0; i < 7; i++) {
            dawn_tableout_cell(table, "-");
        }
        return;
    }
    dawn_tableout_cell(table, "%s", dawn_report_degrees(row->sum.coldest_C, page->units, number));
    dawn_tableout_cell(table, "%s", dawn_report_degrees(row->cold_C, page->units, number));
    dawn_tableout_cell(table, "%.0f", row->below);
    dawn_tableout_cell(table, "%s", dawn_report_fixed(row->sum.fan_h, 0, number));
    dawn_tableout_cell(table, "%s", dawn_report_fixed(row->sum.fan_kWh, 1, number));
    dawn_tableout_cell(table, "%s", dawn_report_fixed(row->sum.hot_h, 0, number));
    dawn_tableout_cell(table, "%s", dawn_report_fixed(row->starts_a_day, 1, number));
}

static void begin_rows(struct dawn_tableout *table, const struct page *page)
{
    static const char *const heads[] = {"Coldest", "Cold", "Below", "Fan",
                                        "Power",   "Hot",  "Starts"};
    const char *letter = dawn_report_unit_letter(page->units);

    dawn_tableout_begin(table, 11, "lrrrrrrrrrr");
    dawn_tableout_cell(table, "Setting");
    dawn_tableout_cell(table, "On");
    dawn_tableout_cell(table, "Off");
    dawn_tableout_cell(table, "Margin");
    for (size_t i = 0; i < 7; i++) {
        dawn_tableout_cell(table, "%s", heads[i]);
    }
    dawn_tableout_cell(table, "%s", "");
    dawn_tableout_cell(table, "%s", letter);
    dawn_tableout_cell(table, "%s", letter);
    dawn_tableout_cell(table, "%s", dawn_report_change_unit(page->units));
    dawn_tableout_cell(table, "%s", letter);
    dawn_tableout_cell(table, "%s", letter);
    dawn_tableout_cell(table, "nights");
    dawn_tableout_cell(table, "h");
    dawn_tableout_cell(table, "kWh");
    dawn_tableout_cell(table, "h");
    dawn_tableout_cell(table, "a day");
}

static bool alike(const struct dawn_setpoint_row *a, const struct dawn_setpoint_row *b)
{
    return fabs(a->gap_K - b->gap_K) < 1e-9 && fabs(a->margin_K - b->margin_K) < 1e-9;
}

static void fill_starts(struct dawn_tableout *table, const struct page *page)
{
    const struct dawn_setpoint *setpoint = page->setpoint;
    const struct dawn_setpoint_row *best = best_of(setpoint);

    begin_rows(table, page);
    put_row(table, page, "as it is", &setpoint->row[0]);
    for (size_t i = 1; best != NULL && i < setpoint->count; i++) {
        const struct dawn_setpoint_row *row = &setpoint->row[i];
        const bool flat =
            row->on_C >= setpoint->from_C - 1e-9 && row->on_C <= setpoint->to_C + 1e-9;
        if (alike(row, best) && !same_setting(row, &setpoint->row[0])) {
            put_row(table, page, i == setpoint->best ? "recommended" : flat ? "as good" : "", row);
        }
    }
}

/* Other gaps and margins at the start that is recommended. */
static void put_gaps(FILE *out, const struct page *page)
{
    const struct dawn_setpoint *setpoint = page->setpoint;
    const struct dawn_setpoint_row *best = best_of(setpoint);
    struct dawn_tableout table;

    if (best == NULL) {
        return;
    }
    double on_C = setpoint->row[setpoint->count > 1].on_C; /* the nearest start that was tried */
    for (size_t i = 1; i < setpoint->count; i++) {
        on_C = fabs(setpoint->row[i].on_C - best->on_C) < fabs(on_C - best->on_C)
                   ? setpoint->row[i].on_C
                   : on_C;
    }
    fputs("\nThis start, or the next that was tried, with other gaps and margins:\n", out);
    begin_rows(&table, page);
    for (size_t i = 1; i < setpoint->count; i++) {
        const struct dawn_setpoint_row *row = &setpoint->row[i];
        if (fabs(row->on_C - on_C) < 1e-9 && !alike(row, best)) {
            put_row(&table, page, "", row);
        }
    }
    dawn_tableout_end(&table, out);
}

static const char *month_word(const struct dawn_setpoint_advice *advice)
{
    if (advice->never_runs) {
        return advice->advice_rests ? "never runs, either way" : "never runs as it is";
    }
    if (advice->cools) {
        return "cools the rock as it is";
    }
    return advice->advice_rests ? "never runs as recommended" : "";
}

static void put_month(struct dawn_tableout *table, const struct page *page, int month)
{
    const struct dawn_setpoint_advice *advice = &page->setpoint->month[month];
    const struct dawn_setpoint_month *own = &page->setpoint->row[0].month[month];
    char number[DAWN_REPORT_ROOM];
    char other[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", dawn_civil_month(month + 1));
    dawn_tableout_cell(table, "%zu", own->nights);
    dawn_tableout_cell(table, "%s", dawn_report_degrees(own->coldest_C, page->units, number));
    dawn_tableout_cell(table, "%zu", own->below);
    dawn_tableout_cell(table, "%s", dawn_report_fixed(own->fan_h, 0, number));
    dawn_tableout_cell(table, "%s", dawn_report_degrees(advice->on_C, page->units, number));
    dawn_tableout_cell(table, "%s-%s", dawn_report_degrees(advice->from_C, page->units, number),
                       dawn_report_degrees(advice->to_C, page->units, other));
    dawn_tableout_cell(table, "%s", month_word(advice));
}

static void fill_months(struct dawn_tableout *table, const struct page *page)
{

    dawn_tableout_begin(table, 8, "lrrrrrrl");
    dawn_tableout_cell(table, "Month");
    dawn_tableout_cell(table, "Nights");
    dawn_tableout_cell(table, "Coldest");
    dawn_tableout_cell(table, "Below");
    dawn_tableout_cell(table, "Fan h");
    dawn_tableout_cell(table, "Best on");
    dawn_tableout_cell(table, "As good");
    dawn_tableout_cell(table, "%s", "");
    for (int i = 0; i < DAWN_SETPOINT_MONTHS; i++) {
        if (page->setpoint->month[i].known) {
            put_month(table, page, i);
        }
    }
}

static void put_warnings(FILE *out, const struct page *page)
{
    struct dawn_text text = {0};
    char number[DAWN_REPORT_ROOM];

    for (int i = 0; i < DAWN_SETPOINT_MONTHS; i++) {
        const struct dawn_setpoint_advice *advice = &page->setpoint->month[i];
        const struct dawn_setpoint_month *own = &page->setpoint->row[0].month[i];
        if (advice->known && advice->never_runs) {
            dawn_text_add(
                &text,
                "warning: as it is the fan runs %s h in all of %s; what it was bought for "
                "does not happen then\n",
                dawn_report_fixed(own->fan_h, 1, number), dawn_civil_month(i + 1));
        }
        if (advice->known && advice->cools) {
            dawn_text_add(
                &text,
                "warning: as it is the fan leaves the rock colder in %s of its %.0f daylight hours "
                "in %s: start it later or at a larger margin\n",
                dawn_report_fixed(own->cooling_h, 0, number), own->day_fan_h,
                dawn_civil_month(i + 1));
        }
    }
    for (char *line = text.data; line != NULL && *line != '\0';) {
        char *end = line;
        while (*end != '\n') {
            end++;
        }
        *end = '\0';
        dawn_report_wrapped(out, "     ", line);
        line = end + 1;
    }
    dawn_text_release(&text);
}

/* The band of the picture, of the two settings that matter; programs get it of all. */
static void add_spread(struct dawn_text *text, const struct page *page)
{
    const struct dawn_setpoint_row *own = &page->setpoint->row[0];
    const struct dawn_setpoint_row *best = best_of(page->setpoint);
    char low[DAWN_REPORT_ROOM];
    char high[DAWN_REPORT_ROOM];

    dawn_text_add(text, "%s from %s to %s as it is",
                  page->setpoint->years > 1 ? "this mean of each year goes" : "these nights go",
                  dawn_report_degrees(own->cold.from_C, page->units, low),
                  dawn_report_degrees_unit(own->cold.to_C, page->units, high));
    if (best != NULL && !same_setting(own, best)) {
        dawn_text_add(text, ", from %s to %s as recommended",
                      dawn_report_degrees(best->cold.from_C, page->units, low),
                      dawn_report_degrees_unit(best->cold.to_C, page->units, high));
    }
    if (page->setpoint->years < 2) {
        dawn_text_add(text, "; how cold another year gets takes more years of weather to tell");
    }
}

static void put_notes(FILE *out, const struct page *page)
{
    struct dawn_text text = {0};
    char line[DAWN_REPORT_ROOM];

    dawn_text_add(
        &text,
        "read: Cold is the mean low of the coldest tenth of the nights at the %s, by which "
        "settings are judged; Below counts nights below %s; Hot are hours with the house "
        "air above %.0f %s; of settings within %.2g %s the one with least electricity is "
        "recommended",
        page->setpoint->by_air ? "house air (water that freezes holds the trays at its own point)"
        : page->setpoint->at_trays ? "trays"
                                   : "house air",
        dawn_report_line(page->line_C, page->units, line),
        page->units == DAWN_US ? DAWN_SUMMARY_HOT_C * 1.8 + 32.0 : DAWN_SUMMARY_HOT_C,
        dawn_report_unit_letter(page->units), gap_in(DAWN_SETPOINT_FLAT_K, page->units),
        dawn_report_change_unit(page->units));
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
    dawn_text_add(&text, "band: ");
    add_spread(&text, page);
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
    for (size_t i = 0; i < page->setpoint->count; i++) {
        if (page->setpoint->row[i].failed) {
            dawn_report_wrapped(out, "     ",
                                "note: - stands where the scenario's other settings do not allow "
                                "it, as where the fan would stop below night_off_at");
            break;
        }
    }
    if (page->setpoint->stopped) {
        fputs("stopped: not all settings were tried\n", out);
    }
}

/* ---- for the page ---- */

void dawn_report_setpoint_decision(struct dawn_text *text, enum dawn_units units,
                                   const struct dawn_setpoint *setpoint)
{
    add_decision(text, &(struct page){.units = units, .setpoint = setpoint});
}

void dawn_report_setpoint_band(struct dawn_text *text, enum dawn_units units,
                               const struct dawn_setpoint *setpoint)
{
    add_spread(text, &(struct page){.units = units, .setpoint = setpoint});
}

void dawn_report_setpoint_starts(struct dawn_tableout *table, enum dawn_units units,
                                 const struct dawn_setpoint *setpoint)
{
    fill_starts(table, &(struct page){.units = units, .setpoint = setpoint});
}

void dawn_report_setpoint_months(struct dawn_tableout *table, enum dawn_units units,
                                 const struct dawn_setpoint *setpoint)
{
    fill_months(table, &(struct page){.units = units, .setpoint = setpoint});
}

/* ---- text ---- */

static void put_text(FILE *out, const struct page *page)
{
    struct dawn_text decision = {0};
    struct dawn_tableout table;

    add_decision(&decision, page);
    if (!decision.failed) {
        dawn_report_wrapped(out, "  ", decision.data);
    }
    dawn_text_release(&decision);
    put_gain(out, page);
    fputc('\n', out);
    fill_starts(&table, page);
    dawn_tableout_end(&table, out);
    put_gaps(out, page);
    fputs("\nBy month, as it is, and the start that would be best in it:\n", out);
    fill_months(&table, page);
    dawn_tableout_end(&table, out);
    fputc('\n', out);
    put_warnings(out, page);
    put_notes(out, page);
    dawn_report_study_for(out, page->story, page->setpoint->nights);
    dawn_report_return_level(out, page->units, page->story->years->count,
                             page->setpoint->at_trays ? "trays" : "house air",
                             page->setpoint->row[0].sum.one_in_10_C);
    dawn_report_wrapped(out, "     ",
                        "caution: a model's estimate; a thermostat's scale is often 1 to 2 K off: "
                        "check it against a thermometer. Fan and sockets near water: "
                        "residual-current protection");
}

/* ---- CSV and JSON ---- */

static void put_csv(FILE *out, const struct page *page)
{
    fputs("on_C,off_C,start_margin_K,stop_margin_K,recommended,coldest_C,cold_nights_C,"
          "cold_nights_low_C,cold_nights_high_C,nights_below,fan_h,fan_kWh,hot_h,starts_a_day,"
          "cooling_h\r\n",
          out);
    for (size_t i = 0; i < page->setpoint->count; i++) {
        const struct dawn_setpoint_row *row = &page->setpoint->row[i];
        char number[DAWN_REPORT_ROOM];
        const double result[] = {row->sum.coldest_C, row->cold_C,    row->cold.from_C,
                                 row->cold.to_C,     row->below,     row->sum.fan_h,
                                 row->sum.fan_kWh,   row->sum.hot_h, row->starts_a_day,
                                 row->cooling_h};
        fputs(dawn_report_fixed(row->on_C, 3, number), out);
        dawn_report_csv_number(out, row->on_C - row->gap_K, 3);
        dawn_report_csv_number(out, row->margin_K, 3);
        dawn_report_csv_number(out, row->stop_margin_K, 3);
        fprintf(out, ",%d", i == page->setpoint->best);
        for (size_t k = 0; k < sizeof result / sizeof result[0]; k++) {
            dawn_report_csv_number(out, row->failed ? NAN : result[k], 3);
        }
        fputs("\r\n", out);
    }
}

static void put_json_row(struct dawn_jsonout *json, const char *key,
                         const struct dawn_setpoint_row *row)
{
    dawn_jsonout_object(json, key);
    dawn_jsonout_number(json, "on_C", row->on_C, 3);
    dawn_jsonout_number(json, "off_C", row->on_C - row->gap_K, 3);
    dawn_jsonout_number(json, "start_margin_K", row->margin_K, 3);
    dawn_jsonout_number(json, "stop_margin_K", row->stop_margin_K, 3);
    if (row->failed) {
        dawn_jsonout_bool(json, "failed", true);
        dawn_jsonout_close_object(json);
        return;
    }
    dawn_jsonout_number(json, "coldest_C", row->sum.coldest_C, 3);
    dawn_jsonout_number(json, "one_in_10_years_C", row->sum.one_in_10_C, 3);
    dawn_jsonout_number(json, "one_in_10_years_air_C", row->sum.one_in_10_air_C, 3);
    dawn_jsonout_number(json, "cold_nights_C", row->cold_C, 3);
    dawn_jsonout_number(json, "cold_nights_low_C", row->cold.from_C, 3);
    dawn_jsonout_number(json, "cold_nights_high_C", row->cold.to_C, 3);
    dawn_jsonout_number(json, "nights_below", row->below, 0);
    dawn_jsonout_number(json, "fan_h", row->sum.fan_h, 2);
    dawn_jsonout_number(json, "fan_kWh", row->sum.fan_kWh, 3);
    dawn_jsonout_number(json, "hot_h", row->sum.hot_h, 2);
    dawn_jsonout_number(json, "starts_a_day", row->starts_a_day, 2);
    dawn_jsonout_number(json, "cooling_h", row->cooling_h, 2);
    dawn_jsonout_close_object(json);
}

static void put_json_month(struct dawn_jsonout *json, const struct page *page, int month)
{
    const struct dawn_setpoint_advice *advice = &page->setpoint->month[month];
    const struct dawn_setpoint_month *own = &page->setpoint->row[0].month[month];

    dawn_jsonout_object(json, NULL);
    dawn_jsonout_integer(json, "month", month + 1);
    dawn_jsonout_integer(json, "nights", (int64_t)own->nights);
    dawn_jsonout_number(json, "coldest_C", own->coldest_C, 3);
    dawn_jsonout_integer(json, "nights_below", (int64_t)own->below);
    dawn_jsonout_number(json, "fan_h", own->fan_h, 2);
    dawn_jsonout_number(json, "fan_kWh", own->fan_kWh, 3);
    dawn_jsonout_number(json, "cooling_h", own->cooling_h, 2);
    dawn_jsonout_bool(json, "fan_never_runs", advice->never_runs);
    dawn_jsonout_bool(json, "fan_cools_rock", advice->cools);
    dawn_jsonout_number(json, "best_on_C", advice->on_C, 3);
    dawn_jsonout_number(json, "as_good_from_C", advice->from_C, 3);
    dawn_jsonout_number(json, "as_good_to_C", advice->to_C, 3);
    dawn_jsonout_close_object(json);
}

static void put_json_best(struct dawn_jsonout *json, const struct page *page)
{
    const struct dawn_setpoint_row *best = best_of(page->setpoint);
    struct dawn_text set = {0};

    if (best == NULL) {
        dawn_jsonout_null(json, "recommended");
        return;
    }
    put_json_row(json, "recommended", best);
    dawn_jsonout_number(json, "as_good_from_C", page->setpoint->from_C, 3);
    dawn_jsonout_number(json, "as_good_to_C", page->setpoint->to_C, 3);
    dawn_jsonout_array(json, "set");
    const struct {
        const char *key, *unit;
        double value;
    } values[] = {{"on_at", "C", best->on_C},
                  {"off_at", "C", best->on_C - best->gap_K},
                  {"start_margin", "K", best->margin_K},
                  {"stop_margin", "K", best->stop_margin_K}};
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        dawn_text_release(&set);
        dawn_text_add(&set, "fan.%s=%.6g %s", values[i].key, values[i].value, values[i].unit);
        dawn_jsonout_text(json, NULL, set.data);
    }
    dawn_jsonout_close_array(json);
    dawn_text_release(&set);
}

static void put_json(FILE *out, const struct page *page)
{
    struct dawn_text decision = {0};
    struct dawn_jsonout json;

    add_decision(&decision, page);
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_study_json(&json, "setpoint", page->story, decision.data, page->setpoint->nights);
    dawn_jsonout_bool(&json, "stopped", page->setpoint->stopped);
    dawn_jsonout_text(&json, "place", page->setpoint->at_trays ? "trays" : "air");
    dawn_jsonout_text(&json, "judged_by",
                      page->setpoint->by_air || !page->setpoint->at_trays ? "air" : "trays");
    dawn_jsonout_number(&json, "line_C", page->line_C, 3);
    dawn_jsonout_integer(&json, "years", (int64_t)page->setpoint->years);
    put_json_row(&json, "as_it_is", &page->setpoint->row[0]);
    put_json_best(&json, page);
    dawn_jsonout_array(&json, "months");
    for (int i = 0; i < DAWN_SETPOINT_MONTHS; i++) {
        if (page->setpoint->month[i].known) {
            put_json_month(&json, page, i);
        }
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_array(&json, "settings");
    for (size_t i = 1; i < page->setpoint->count; i++) {
        put_json_row(&json, NULL, &page->setpoint->row[i]);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
    dawn_text_release(&decision);
}

void dawn_report_setpoint(FILE *out, enum dawn_format format, enum dawn_units units,
                          const struct dawn_study_story *story,
                          const struct dawn_setpoint *setpoint, double line_C)
{
    const struct page page = {format == DAWN_TEXT ? units : DAWN_METRIC, story, setpoint, line_C};

    switch (format) {
    case DAWN_TEXT:
        put_text(out, &page);
        break;
    case DAWN_CSV:
        put_csv(out, &page);
        break;
    case DAWN_JSON:
        put_json(out, &page);
        break;
    }
}
