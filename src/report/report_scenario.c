/* What was understood of a scenario: every value, and where it came from. */
#include "base/jsonout.h"
#include "base/tableout.h"
#include "report/report_parts.h"

static const char *origin_word(const struct dawn_understood *value)
{
    if (!value->given) {
        return "default";
    }
    return value->line > 0 ? "yours" : "set";
}

static void visit_text(const struct dawn_understood *value, void *user)
{
    struct dawn_tableout *table = user;

    dawn_tableout_cell(table, "%s", value->key);
    dawn_tableout_cell(table, "%s", value->value);
    if (value->given && value->line > 0) {
        dawn_tableout_cell(table, "yours, line %d", value->line);
    } else {
        dawn_tableout_cell(table, "%s", value->given ? "set for this run" : "default");
    }
}

static void write_text(FILE *out, const struct dawn_scenario *scenario)
{
    struct dawn_tableout table;

    fprintf(out, "%s (%s)\n\n", scenario->name[0] != '\0' ? scenario->name : "a nursery",
            scenario->path);
    dawn_tableout_begin(&table, 3, "lll");
    dawn_tableout_cell(&table, "Key");
    dawn_tableout_cell(&table, "Value");
    dawn_tableout_cell(&table, "From");
    dawn_scenario_understood(scenario, visit_text, &table);
    dawn_tableout_end(&table, out);
}

static void visit_csv(const struct dawn_understood *value, void *user)
{
    FILE *out = user;

    dawn_report_csv_field(out, value->key);
    fputc(',', out);
    dawn_report_csv_field(out, value->value);
    fprintf(out, ",%s,", origin_word(value));
    if (value->line > 0) {
        fprintf(out, "%d", value->line);
    }
    fputs("\r\n", out);
}

static void visit_json(const struct dawn_understood *value, void *user)
{
    struct dawn_jsonout *json = user;

    dawn_jsonout_object(json, NULL);
    dawn_jsonout_text(json, "key", value->key);
    dawn_jsonout_text(json, "value", value->value);
    dawn_jsonout_text(json, "origin", origin_word(value));
    if (value->line > 0) {
        dawn_jsonout_integer(json, "line", value->line);
    } else {
        dawn_jsonout_null(json, "line");
    }
    dawn_jsonout_text(json, "meaning", value->meaning);
    dawn_jsonout_close_object(json);
}

static void write_json(FILE *out, const struct dawn_scenario *scenario)
{
    struct dawn_jsonout json;

    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "scenario");
    dawn_jsonout_text(&json, "name", scenario->name);
    dawn_jsonout_text(&json, "path", scenario->path);
    dawn_report_house_json(&json, scenario);
    dawn_jsonout_array(&json, "values");
    dawn_scenario_understood(scenario, visit_json, &json);
    dawn_jsonout_close_array(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
}

void dawn_report_scenario(FILE *out, enum dawn_format format, const struct dawn_scenario *scenario)
{
    switch (format) {
    case DAWN_TEXT:
        write_text(out, scenario);
        break;
    case DAWN_CSV:
        fputs("key,value,origin,line\r\n", out);
        dawn_scenario_understood(scenario, visit_csv, out);
        break;
    case DAWN_JSON:
        write_json(out, scenario);
        break;
    }
}
