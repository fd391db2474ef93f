/* Nurseries side by side: the decision, inputs that differ, results that differ. */
#include <math.h>
#include <string.h>

#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "report/report_studies.h"

/* What results are shown: sums that differ, or all in JSON. */
static bool differs(const struct dawn_compare *compare, const struct dawn_summary_column *column)
{
    const double first = dawn_summary_value(column, &compare->sum[0]);

    for (size_t i = 1; i < compare->count; i++) {
        const double value = dawn_summary_value(column, &compare->sum[i]);
        /* To the shown tenth: what looks the same is the same. */
        if (isnan(value) != isnan(first) || fabs(value - first) >= 0.05) {
            return true;
        }
    }
    return false;
}

static const char *value_words(const struct dawn_summary_column *column, double value,
                               enum dawn_units units, char out[DAWN_REPORT_ROOM])
{
    switch (column->kind) {
    case DAWN_SUMMARY_DEGREES:
        return dawn_report_degrees(value, units, out);
    case DAWN_SUMMARY_COUNT:
        return dawn_report_fixed(value, 0, out);
    case DAWN_SUMMARY_HOURS:
    case DAWN_SUMMARY_ENERGY:
        return dawn_report_fixed(value, 1, out);
    }
    return dawn_report_fixed(value, 1, out);
}

static const char *unit_words(const struct dawn_summary_column *column, enum dawn_units units)
{
    switch (column->kind) {
    case DAWN_SUMMARY_DEGREES:
        return dawn_report_unit_letter(units);
    case DAWN_SUMMARY_HOURS:
        return "h";
    case DAWN_SUMMARY_ENERGY:
        return "kWh";
    case DAWN_SUMMARY_COUNT:
        return "";
    }
    return "";
}

/* ---- the decision ---- */

static void add_against(struct dawn_text *text, const struct dawn_compare_story *story,
                        enum dawn_units units, size_t best, size_t other)
{
    const struct dawn_compare *compare = story->compare;
    const double gain_K = compare->sum[best].coldest_C - compare->sum[other].coldest_C;
    const double dearer = compare->cost[best] - compare->cost[other];
    const char *currency = story->scenario[best]->prices.currency;
    char number[DAWN_REPORT_ROOM];

    if (gain_K < 0.05) {
        dawn_text_add(text, "%s is as warm", story->name[other]);
    } else {
        dawn_text_add(text, "%s %s warmer than %s",
                      dawn_report_fixed(gain_K * (units == DAWN_US ? 1.8 : 1.0), 1, number),
                      units == DAWN_US ? "F" : "K", story->name[other]);
    }
    if (fabs(dearer) < 0.5) {
        return;
    }
    /* Said of the warmest, or of the other where both are alike. */
    const bool said_dearer = (gain_K < 0.05 ? -dearer : dearer) > 0.0;
    dawn_text_add(text, " and %s %s %s to build", dawn_report_fixed(fabs(dearer), 0, number),
                  currency, said_dearer ? "dearer" : "cheaper");
    if (dearer > 0.0 && gain_K >= 0.05) {
        dawn_text_add(text, " (%s %s a kelvin)", dawn_report_fixed(dearer / gain_K, 0, number),
                      currency);
    }
}

void dawn_report_compare_decision(struct dawn_text *text, const struct dawn_compare_story *story,
                                  enum dawn_units units)
{
    const struct dawn_compare *compare = story->compare;
    const size_t best = dawn_compare_warmest(compare);
    char number[DAWN_REPORT_ROOM];
    bool begun = false;

    dawn_text_add(text, "%s is warmest in its coldest night, %s: ", story->name[best],
                  dawn_report_degrees_unit(compare->sum[best].coldest_C, units, number));
    for (size_t i = 0; i < compare->count; i++) {
        if (i != best) {
            dawn_text_add(text, "%s", begun ? "; " : "");
            add_against(text, story, units, best, i);
            begun = true;
        }
    }
}

/* ---- text ---- */

static void begin_table(struct dawn_tableout *table, const struct dawn_compare_story *story,
                        const char *first)
{
    char alignment[DAWN_COMPARE_MOST + 3] = "l";

    memset(alignment + 1, 'r', story->compare->count);
    dawn_tableout_begin(table, 1 + story->compare->count, alignment);
    dawn_tableout_cell(table, "%s", first);
    for (size_t i = 0; i < story->compare->count; i++) {
        dawn_tableout_cell(table, "%s", story->name[i]);
    }
}

void dawn_report_compare_inputs(struct dawn_tableout *table, const struct dawn_compare_story *story)
{
    const struct dawn_compare *compare = story->compare;

    begin_table(table, story, "What differs");
    for (size_t i = 0; i < compare->inputs; i++) {
        dawn_tableout_cell(table, "%s", compare->input[i].key);
        for (size_t k = 0; k < compare->count; k++) {
            const char *value = compare->input[i].value[k];
            dawn_tableout_cell(table, "%s", value[0] != '\0' ? value : "-");
        }
    }
}

static void put_costs(struct dawn_tableout *table, const struct dawn_compare_story *story)
{
    const struct dawn_compare *compare = story->compare;
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "to build, %s", story->scenario[0]->prices.currency);
    for (size_t i = 0; i < compare->count; i++) {
        dawn_tableout_cell(table, "%s", dawn_report_fixed(compare->cost[i], 0, number));
    }
    dawn_tableout_cell(table, "electricity of its springs, %s",
                       story->scenario[0]->prices.currency);
    for (size_t i = 0; i < compare->count; i++) {
        dawn_tableout_cell(table, "%s", dawn_report_fixed(compare->running_cost[i], 0, number));
    }
}

void dawn_report_compare_results(struct dawn_tableout *table, enum dawn_units units,
                                 const struct dawn_compare_story *story)
{
    const struct dawn_compare *compare = story->compare;
    size_t columns = 0;
    const struct dawn_summary_column *column = dawn_summary_columns(&columns);
    char number[DAWN_REPORT_ROOM];

    begin_table(table, story, "What comes of it");
    for (size_t i = 0; i < columns; i++) {
        if (!differs(compare, &column[i])) {
            continue;
        }
        const char *unit = unit_words(&column[i], units);
        dawn_tableout_cell(table, unit[0] != '\0' ? "%s, %s" : "%s%s", column[i].words, unit);
        for (size_t k = 0; k < compare->count; k++) {
            dawn_tableout_cell(table, "%s",
                               value_words(&column[i],
                                           dawn_summary_value(&column[i], &compare->sum[k]), units,
                                           number));
        }
    }
    put_costs(table, story);
}

static void put_text(FILE *out, enum dawn_units units, const struct dawn_compare_story *story)
{
    struct dawn_text decision = {0};
    struct dawn_tableout table;

    dawn_report_compare_decision(&decision, story, units);
    if (!decision.failed) {
        dawn_report_wrapped(out, "     ", decision.data);
    }
    dawn_text_release(&decision);
    fputc('\n', out);
    dawn_report_compare_inputs(&table, story);
    dawn_tableout_end(&table, out);
    fputc('\n', out);
    dawn_report_compare_results(&table, units, story);
    dawn_tableout_end(&table, out);
    fprintf(out,
            "\nfor: %.0f nights each; lows at the trays where there are some, else in the\n"
            "     house air\n",
            story->compare->sum[0].nights);
    dawn_report_return_level(out, units, story->compare->years, "", NAN);
    dawn_report_wrapped(out, "     ",
                        "cost: rock, digging, fan, barrels, further skins and edge board at the "
                        "scenario's prices (dawnlow explain prices); what you pay may differ");
    fputs("caution: a model's estimate; the difference is surer than each number\n", out);
}

/* ---- CSV and JSON ---- */

static void put_csv(FILE *out, const struct dawn_compare_story *story)
{
    const struct dawn_compare *compare = story->compare;
    size_t columns = 0;
    const struct dawn_summary_column *column = dawn_summary_columns(&columns);
    char number[DAWN_REPORT_ROOM];

    fputs("kind,key", out);
    for (size_t k = 0; k < compare->count; k++) {
        fputc(',', out);
        dawn_report_csv_field(out, story->name[k]);
    }
    fputs("\r\n", out);
    for (size_t i = 0; i < compare->inputs; i++) {
        fputs("input,", out);
        dawn_report_csv_field(out, compare->input[i].key);
        for (size_t k = 0; k < compare->count; k++) {
            fputc(',', out);
            dawn_report_csv_field(out, compare->input[i].value[k]);
        }
        fputs("\r\n", out);
    }
    for (size_t i = 0; i < columns; i++) {
        fprintf(out, "result,%s", column[i].key);
        for (size_t k = 0; k < compare->count; k++) {
            const double value = dawn_summary_value(&column[i], &compare->sum[k]);
            fprintf(out, ",%s", isfinite(value) ? dawn_report_fixed(value, 3, number) : "");
        }
        fputs("\r\n", out);
    }
}

static void put_json_nursery(struct dawn_jsonout *json, const struct dawn_compare_story *story,
                             size_t k)
{
    const struct dawn_compare *compare = story->compare;
    size_t columns = 0;
    const struct dawn_summary_column *column = dawn_summary_columns(&columns);

    dawn_jsonout_object(json, NULL);
    dawn_jsonout_text(json, "name", story->name[k]);
    dawn_jsonout_text(json, "path", story->scenario[k]->path);
    dawn_jsonout_text(json, "weather", story->weather[k]);
    dawn_jsonout_object(json, "differs");
    for (size_t i = 0; i < compare->inputs; i++) {
        const char *value = compare->input[i].value[k];
        dawn_jsonout_text(json, compare->input[i].key, value[0] != '\0' ? value : NULL);
    }
    dawn_jsonout_close_object(json);
    dawn_jsonout_object(json, "results");
    for (size_t i = 0; i < columns; i++) {
        dawn_jsonout_number(json, column[i].key, dawn_summary_value(&column[i], &compare->sum[k]),
                            3);
    }
    dawn_jsonout_close_object(json);
    dawn_jsonout_number(json, "cost", compare->cost[k], 2);
    dawn_jsonout_number(json, "running_cost", compare->running_cost[k], 2);
    dawn_jsonout_text(json, "currency", story->scenario[k]->prices.currency);
    dawn_jsonout_close_object(json);
}

static void put_json(FILE *out, const struct dawn_compare_story *story)
{
    struct dawn_text decision = {0};
    struct dawn_jsonout json;

    dawn_report_compare_decision(&decision, story, DAWN_METRIC);
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "compare");
    dawn_jsonout_text(&json, "decision", decision.data);
    dawn_jsonout_text(&json, "warmest", story->name[dawn_compare_warmest(story->compare)]);
    dawn_report_return_level_json(&json, story->compare->years);
    dawn_jsonout_array(&json, "nurseries");
    for (size_t k = 0; k < story->compare->count; k++) {
        put_json_nursery(&json, story, k);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
    dawn_text_release(&decision);
}

void dawn_report_compare(FILE *out, enum dawn_format format, enum dawn_units units,
                         const struct dawn_compare_story *story)
{
    switch (format) {
    case DAWN_TEXT:
        put_text(out, units, story);
        break;
    case DAWN_CSV:
        put_csv(out, story);
        break;
    case DAWN_JSON:
        put_json(out, story);
        break;
    }
}
