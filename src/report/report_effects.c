/* Which effect matters: text for people, CSV and JSON for programs. */
#include <math.h>

#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "report/report_parts.h"

static const char *place_word(const struct dawn_effects *effects)
{
    return effects->at_trays ? "trays" : "air";
}

/* ---- text ---- */

/* A difference in the reader's unit, with its sign: "+4.1", "-0.3", "0.0". */
static const char *change_words(double change_K, enum dawn_units units, char out[DAWN_REPORT_ROOM])
{
    char number[DAWN_REPORT_ROOM];
    const double change = units == DAWN_US ? change_K * 1.8 : change_K;
    /* What rounds to nothing has no sign. */
    const double shown = fabs(change) < 0.05 ? 0.0 : change;

    snprintf(out, DAWN_REPORT_ROOM, "%s%.40s", shown > 0.0 ? "+" : "",
             dawn_report_fixed(shown, 1, number));
    return out;
}

const char *dawn_report_difference_unit(enum dawn_units units)
{
    return units == DAWN_US ? "F" : "K";
}

static struct dawn_effects_change change_of(const struct dawn_effects *effects, size_t row)
{
    return effects->by_air ? dawn_effects_change_in_air(effects, row)
                           : dawn_effects_change_at_place(effects, row);
}

void dawn_report_effects_decision(struct dawn_text *text, enum dawn_units units,
                                  const struct dawn_effects *effects)
{
    char number[DAWN_REPORT_ROOM];
    const double scale = units == DAWN_US ? 1.8 : 1.0;

    if (effects->count == 0 || effects->row[0].failed) {
        dawn_text_add(text, "nothing could be compared");
        return;
    }
    const struct dawn_effects_change change = change_of(effects, 0);
    if (fabs(change.coldest_K) * scale < 0.05) {
        dawn_text_add(text, "nothing here matters to the coldest night");
        return;
    }
    dawn_text_add(text,
                  "what matters most here: %s; without %s the coldest night would be %s %s %s",
                  effects->row[0].name, effects->row[0].many ? "them" : "it",
                  dawn_report_fixed(fabs(change.coldest_K) * scale, 1, number),
                  dawn_report_difference_unit(units), change.coldest_K > 0.0 ? "warmer" : "colder");
    dawn_text_add(text, " %s",
                  effects->at_trays && !effects->by_air ? "at the trays" : "in the house air");
}

static void put_changes(struct dawn_tableout *table, struct dawn_effects_change change,
                        enum dawn_units units)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", change_words(change.coldest_K, units, number));
    dawn_tableout_cell(table, "%s", change_words(change.mean_K, units, number));
}

static void put_failed(struct dawn_tableout *table, size_t cells)
{
    for (size_t i = 0; i < cells; i++) {
        dawn_tableout_cell(table, "-");
    }
}

static void put_lows(struct dawn_tableout *table, struct dawn_effects_lows lows,
                     enum dawn_units units)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", dawn_report_degrees(lows.coldest_C, units, number));
    dawn_tableout_cell(table, "%s", dawn_report_degrees(lows.mean_C, units, number));
}

static void put_heading(struct dawn_tableout *table, const struct dawn_effects *effects,
                        enum dawn_units units)
{
    const size_t cells = effects->at_trays ? 4 : 2;

    dawn_tableout_cell(table, "Without");
    if (effects->at_trays) {
        dawn_tableout_cell(table, "Coldest tray");
        dawn_tableout_cell(table, "Mean tray");
    }
    dawn_tableout_cell(table, "Coldest air");
    dawn_tableout_cell(table, "Mean air");
    dawn_tableout_cell(table, "%s", "");
    for (size_t i = 0; i < cells; i++) {
        dawn_tableout_cell(table, "%s", dawn_report_difference_unit(units));
    }
}

void dawn_report_effects_table(struct dawn_tableout *table, enum dawn_units units,
                               const struct dawn_effects *effects)
{
    const size_t cells = effects->at_trays ? 4 : 2;

    dawn_tableout_begin(table, cells + 1, effects->at_trays ? "lrrrr" : "lrr");
    put_heading(table, effects, units);
    for (size_t i = 0; i < effects->count; i++) {
        dawn_tableout_cell(table, "%s", effects->row[i].name);
        if (effects->row[i].failed) {
            put_failed(table, cells);
            continue;
        }
        if (effects->at_trays) {
            put_changes(table, dawn_effects_change_at_place(effects, i), units);
        }
        put_changes(table, dawn_effects_change_in_air(effects, i), units);
    }
    dawn_tableout_cell(table, "as it is, lows in %s", dawn_report_unit_letter(units));
    if (effects->at_trays) {
        put_lows(table, effects->place, units);
    }
    put_lows(table, effects->air, units);
}

static void put_context(FILE *out, const struct dawn_effects_story *story)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    struct dawn_text text = {0};
    char first[DAWN_REPORT_ROOM];
    char last[DAWN_REPORT_ROOM];

    dawn_text_add(&text, "for: %s, %zu %s, %s to %s, weather %s",
                  story->scenario->name[0] != '\0' ? story->scenario->name : "this nursery",
                  story->effects->nights, story->effects->nights == 1 ? "night" : "nights",
                  dawn_report_day(story->from_s, offset_h, first),
                  dawn_report_day(story->to_s, offset_h, last), story->weather->path);
    for (size_t i = 0; i < story->override_count; i++) {
        dawn_text_add(&text, "%s%s", i == 0 ? "; set for this run: " : ", ", story->overrides[i]);
    }
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
}

static void put_instead(FILE *out, const struct dawn_effects *effects)
{
    struct dawn_text text = {0};

    dawn_text_add(&text, "without means: ");
    for (size_t i = 0; i < effects->count; i++) {
        dawn_text_add(&text, "%s%s (%s)", i > 0 ? "; " : "", effects->row[i].name,
                      effects->row[i].instead);
    }
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
}

static void put_text(FILE *out, enum dawn_units units, const struct dawn_effects_story *story)
{
    const struct dawn_effects *effects = story->effects;
    struct dawn_text decision = {0};
    struct dawn_tableout table;

    dawn_report_effects_decision(&decision, units, effects);
    if (!decision.failed) {
        fprintf(out, "%s\n", decision.data);
    }
    dawn_text_release(&decision);
    fputc('\n', out);
    dawn_report_effects_table(&table, units, effects);
    dawn_tableout_end(&table, out);
    fputc('\n', out);
    dawn_report_wrapped(out, "     ",
                        "read: how much warmer (+) or colder (-) the low of the coldest night, and "
                        "the mean of all nights' lows, without that effect; one at a time, so they "
                        "do not add up");
    if (effects->by_air) {
        dawn_report_wrapped(out, "     ",
                            "note: where the trays' water freezes it holds them at the freezing "
                            "point and hides what else changes; so the order follows the air");
    }
    put_instead(out, effects);
    put_context(out, story);
    fputs("caution: a model's estimate; the order is worth more than the tenths\n", out);
}

/* ---- CSV ---- */

static void put_number(FILE *out, double value)
{
    char number[DAWN_REPORT_ROOM];

    fputc(',', out);
    if (isfinite(value)) {
        fputs(dawn_report_fixed(value, 3, number), out);
    }
}

static void put_record(FILE *out, const char *key, const char *name,
                       const struct dawn_effects_lows *place, const struct dawn_effects_lows *air,
                       struct dawn_effects_change at_place, struct dawn_effects_change in_air)
{
    fprintf(out, "%s,", key);
    dawn_report_csv_field(out, name);
    put_number(out, place->coldest_C);
    put_number(out, at_place.coldest_K);
    put_number(out, place->mean_C);
    put_number(out, at_place.mean_K);
    put_number(out, air->coldest_C);
    put_number(out, in_air.coldest_K);
    put_number(out, air->mean_C);
    put_number(out, in_air.mean_K);
    fputs("\r\n", out);
}

static void put_csv(FILE *out, const struct dawn_effects *effects)
{
    const struct dawn_effects_change none = {NAN, NAN};

    fputs("effect,without,coldest_C,coldest_change_K,mean_C,mean_change_K,air_coldest_C,"
          "air_coldest_change_K,air_mean_C,air_mean_change_K\r\n",
          out);
    put_record(out, "none", "nothing: as it is", &effects->place, &effects->air, none, none);
    for (size_t i = 0; i < effects->count; i++) {
        const struct dawn_effects_row *row = &effects->row[i];
        put_record(out, row->key, row->name, &row->place, &row->air,
                   dawn_effects_change_at_place(effects, i),
                   dawn_effects_change_in_air(effects, i));
    }
}

/* ---- JSON ---- */

static void put_json_lows(struct dawn_jsonout *json, const struct dawn_effects_lows *place,
                          const struct dawn_effects_lows *air)
{
    dawn_jsonout_number(json, "coldest_C", place->coldest_C, 3);
    dawn_jsonout_number(json, "mean_C", place->mean_C, 3);
    dawn_jsonout_number(json, "air_coldest_C", air->coldest_C, 3);
    dawn_jsonout_number(json, "air_mean_C", air->mean_C, 3);
}

static void put_json_row(struct dawn_jsonout *json, const struct dawn_effects *effects, size_t i)
{
    const struct dawn_effects_row *row = &effects->row[i];
    const struct dawn_effects_change at_place = dawn_effects_change_at_place(effects, i);
    const struct dawn_effects_change in_air = dawn_effects_change_in_air(effects, i);

    dawn_jsonout_object(json, NULL);
    dawn_jsonout_text(json, "effect", row->key);
    dawn_jsonout_text(json, "without", row->name);
    dawn_jsonout_text(json, "instead", row->instead);
    put_json_lows(json, &row->place, &row->air);
    dawn_jsonout_number(json, "coldest_change_K", at_place.coldest_K, 3);
    dawn_jsonout_number(json, "mean_change_K", at_place.mean_K, 3);
    dawn_jsonout_number(json, "air_coldest_change_K", in_air.coldest_K, 3);
    dawn_jsonout_number(json, "air_mean_change_K", in_air.mean_K, 3);
    dawn_jsonout_close_object(json);
}

static void put_json(FILE *out, const struct dawn_effects_story *story)
{
    const struct dawn_effects *effects = story->effects;
    const double offset_h = story->scenario->site.utc_offset_h;
    struct dawn_text decision = {0};
    struct dawn_jsonout json;
    char date[DAWN_REPORT_ROOM];

    dawn_report_effects_decision(&decision, DAWN_METRIC, effects);
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "effects");
    dawn_jsonout_text(&json, "decision", decision.data);
    dawn_jsonout_integer(&json, "nights", (int64_t)effects->nights);
    dawn_jsonout_text(&json, "from", dawn_report_date(story->from_s, offset_h, date));
    dawn_jsonout_text(&json, "to", dawn_report_date(story->to_s, offset_h, date));
    dawn_jsonout_text(&json, "place", place_word(effects));
    dawn_jsonout_text(&json, "ordered_by", effects->by_air ? "air" : place_word(effects));
    dawn_jsonout_object(&json, "scenario");
    dawn_jsonout_text(&json, "name", story->scenario->name);
    dawn_jsonout_text(&json, "path", story->scenario->path);
    dawn_jsonout_array(&json, "set");
    for (size_t i = 0; i < story->override_count; i++) {
        dawn_jsonout_text(&json, NULL, story->overrides[i]);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_text(&json, "weather", story->weather->path);
    dawn_jsonout_object(&json, "as_it_is");
    put_json_lows(&json, &effects->place, &effects->air);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_array(&json, "effects");
    for (size_t i = 0; i < effects->count; i++) {
        put_json_row(&json, effects, i);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
    dawn_text_release(&decision);
}

void dawn_report_effects(FILE *out, enum dawn_format format, enum dawn_units units,
                         const struct dawn_effects_story *story)
{
    switch (format) {
    case DAWN_TEXT:
        put_text(out, units, story);
        break;
    case DAWN_CSV:
        put_csv(out, story->effects);
        break;
    case DAWN_JSON:
        put_json(out, story);
        break;
    }
}
