/* The table of a sweep: rows as CSV, and the same told to people or as JSON. */
#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/csvrows.h"
#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "report/report_sweep.h"

/* What stands first in each row. */
enum { ROW_FIELD, ROWS_FIELD, FINGERPRINT_FIELD };
static const char years_key[] = "years";

/* ---- rows ---- */

static void add_field(struct dawn_text *text, const char *field)
{
    const bool quote = strpbrk(field, ",\"\r\n") != NULL;

    dawn_text_add(text, quote ? ",\"" : ",");
    for (const char *at = field; *at != '\0'; at++) {
        dawn_text_add_bytes(text, at, 1);
        if (*at == '"') {
            dawn_text_add_bytes(text, at, 1);
        }
    }
    dawn_text_add(text, quote ? "\"" : "");
}

static void add_number(struct dawn_text *text, double value, int decimals)
{
    char number[DAWN_REPORT_ROOM] = "";

    if (isfinite(value)) {
        (void)dawn_report_fixed(value, decimals, number);
    }
    dawn_text_add(text, ",%s", number);
}

void dawn_report_sweep_header(struct dawn_text *text, const struct dawn_sweep_plan *plan)
{
    size_t columns = 0;
    const struct dawn_summary_column *column = dawn_summary_columns(&columns);

    dawn_text_add(text, "row,rows,fingerprint,state");
    for (size_t i = 0; i < plan->axes; i++) {
        const struct dawn_sweep_axis *axis = &plan->axis[i];
        struct dawn_text name = {0};
        dawn_text_add(&name, axis->unit[0] != '\0' ? "%s [%s]" : "%s%s", axis->key, axis->unit);
        add_field(text, name.failed ? axis->key : name.data);
        dawn_text_release(&name);
    }
    for (size_t i = 0; i < columns; i++) {
        dawn_text_add(text, ",%s", column[i].key);
    }
    dawn_text_add(text, ",%s\r\n", years_key);
}

void dawn_report_sweep_row(struct dawn_text *text, const struct dawn_sweep_plan *plan, size_t row,
                           uint64_t fingerprint, const struct dawn_sweep_result *result)
{
    size_t columns = 0;
    const struct dawn_summary_column *column = dawn_summary_columns(&columns);

    dawn_text_add(text, "%zu,%zu,%016" PRIx64 ",%s", row + 1, dawn_sweep_rows(plan), fingerprint,
                  result->failed ? "no result" : "done");
    for (size_t i = 0; i < plan->axes; i++) {
        char value[DAWN_SWEEP_TEXT];
        dawn_sweep_value(plan, row, i, value);
        add_field(text, value);
    }
    for (size_t i = 0; i < columns; i++) {
        const double value = result->failed ? NAN : dawn_summary_value(&column[i], &result->sum);
        add_number(text, value, column[i].kind == DAWN_SUMMARY_COUNT ? 0 : 3);
    }
    dawn_text_add(text, ",%zu\r\n", plan->years.count);
}

/* ---- the table read again ---- */

static size_t field_named(const struct dawn_csvrow *row, const char *name)
{
    size_t i = 0;

    while (i < row->count && strcmp(row->field[i], name) != 0) {
        i++;
    }
    return i;
}

const char *dawn_report_sweep_field(const struct dawn_swept_table *table, size_t row, size_t field)
{
    const struct dawn_csvrow *it = &table->rows.row[row];

    return field < it->count ? it->field[field] : "";
}

double dawn_report_sweep_number(const struct dawn_swept_table *table, size_t row, size_t field)
{
    double value = NAN;
    const char *rest = NULL;
    const char *text = dawn_report_sweep_field(table, row, field);

    return dawn_text_number(text, &rest, &value) && *rest == '\0' ? value : NAN;
}

bool dawn_report_sweep_read(struct dawn_swept_table *table, const struct dawn_text *text)
{
    if (dawn_csvrows_split(&table->rows, text->data, text->size, ',') != 0) {
        return false;
    }
    const struct dawn_csvrow *head = &table->rows.row[0];
    table->keys_end = field_named(head, dawn_summary_columns(&(size_t){0})[0].key);
    table->coldest = field_named(head, "coldest_C");
    table->frosts = field_named(head, "nights_below_0C");
    table->fan_kWh = field_named(head, "fan_kWh");
    table->one_in_10 = field_named(head, "one_in_10_years_C");
    table->years = field_named(head, years_key);
    return true;
}

static size_t years_of(const struct dawn_swept_table *table)
{
    const double years = dawn_report_sweep_number(table, 1, table->years);

    return years >= 1.0 ? (size_t)years : 1;
}

/* ---- text ---- */

/* The row with the highest (or lowest) low of the coldest night; 0, the heading, when none has. */
static size_t best_row(const struct dawn_swept_table *table, double sign)
{
    size_t best = 0;

    for (size_t i = 1; i < table->rows.count; i++) {
        const double value = sign * dawn_report_sweep_number(table, i, table->coldest);
        if (!isnan(value) &&
            (best == 0 || value > sign * dawn_report_sweep_number(table, best, table->coldest))) {
            best = i;
        }
    }
    return best;
}

/* A value for the eye: a place drawn by lot has nine digits, of which four are read. The file and
 * JSON have them all. */
static const char *seen_value(const struct dawn_swept_table *table, size_t row, size_t field,
                              char out[DAWN_REPORT_ROOM])
{
    const double value = dawn_report_sweep_number(table, row, field);
    const char *text = dawn_report_sweep_field(table, row, field);

    if (isnan(value) || strlen(text) < 8 || fabs(value) < 1e-4) {
        return text;
    }
    return dawn_report_fixed(value, (int)fmax(3.0 - floor(log10(fabs(value))), 0.0), out);
}

static void add_values(struct dawn_text *text, const struct dawn_swept_table *table, size_t row)
{
    char number[DAWN_REPORT_ROOM];

    for (size_t i = DAWN_SWEPT_FIRST_KEY; i < table->keys_end; i++) {
        const char *name = dawn_report_sweep_field(table, 0, i);
        const char *unit = strstr(name, " [");
        const size_t length = unit != NULL ? (size_t)(unit - name) : strlen(name);
        dawn_text_add(text, "%s%.*s=%s", i > DAWN_SWEPT_FIRST_KEY ? ", " : "", (int)length, name,
                      seen_value(table, row, i, number));
        if (unit != NULL) {
            dawn_text_add(text, " %.*s", (int)strcspn(unit + 2, "]"), unit + 2);
        }
    }
}

void dawn_report_sweep_decision(struct dawn_text *text, const struct dawn_swept_table *table,
                                enum dawn_units units)
{
    const size_t warmest = best_row(table, 1.0);
    const size_t coldest = best_row(table, -1.0);
    char number[DAWN_REPORT_ROOM];

    if (warmest == 0) {
        dawn_text_add(text, "no row of this table has a result");
        return;
    }
    dawn_text_add(text, "best coldest night: %s with ",
                  dawn_report_degrees_unit(dawn_report_sweep_number(table, warmest, table->coldest),
                                           units, number));
    add_values(text, table, warmest);
    dawn_text_add(text, "; worst: %s with ",
                  dawn_report_degrees_unit(dawn_report_sweep_number(table, coldest, table->coldest),
                                           units, number));
    add_values(text, table, coldest);
}

static void put_heading(struct dawn_tableout *out, const struct dawn_swept_table *table,
                        enum dawn_units units, bool years)
{
    dawn_tableout_cell(out, "Row");
    for (size_t i = DAWN_SWEPT_FIRST_KEY; i < table->keys_end; i++) {
        dawn_tableout_cell(out, "%s", dawn_report_sweep_field(table, 0, i));
    }
    dawn_tableout_cell(out, "Coldest %s", dawn_report_unit_letter(units));
    dawn_tableout_cell(out, "Nights below freezing");
    dawn_tableout_cell(out, "Fan kWh");
    if (years) {
        dawn_tableout_cell(out, "1 year in 10, %s", dawn_report_unit_letter(units));
    }
}

static void put_row(struct dawn_tableout *out, const struct dawn_swept_table *table, size_t row,
                    enum dawn_units units, bool years)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(out, "%s", dawn_report_sweep_field(table, row, ROW_FIELD));
    for (size_t i = DAWN_SWEPT_FIRST_KEY; i < table->keys_end; i++) {
        dawn_tableout_cell(out, "%s", seen_value(table, row, i, number));
    }
    dawn_tableout_cell(
        out, "%s",
        dawn_report_degrees(dawn_report_sweep_number(table, row, table->coldest), units, number));
    dawn_tableout_cell(
        out, "%s",
        dawn_report_fixed(dawn_report_sweep_number(table, row, table->frosts), 0, number));
    dawn_tableout_cell(
        out, "%s",
        dawn_report_fixed(dawn_report_sweep_number(table, row, table->fan_kWh), 0, number));
    if (years) {
        dawn_tableout_cell(
            out, "%s",
            dawn_report_degrees(dawn_report_sweep_number(table, row, table->one_in_10), units,
                                number));
    }
}

/* A screen holds so many; the file holds them all. */
enum { SHOWN_MOST = 40 };

size_t dawn_report_sweep_rows(struct dawn_tableout *cells, const struct dawn_swept_table *table,
                              enum dawn_units units)
{
    char alignment[DAWN_TABLE_COLUMNS + 1] = "";
    const size_t rows = table->rows.count - 1;
    const size_t shown = rows < SHOWN_MOST ? rows : SHOWN_MOST;
    const bool years = !isnan(dawn_report_sweep_number(table, 1, table->one_in_10));
    const size_t columns = 1 + table->keys_end - DAWN_SWEPT_FIRST_KEY + 3 + years;

    memset(alignment, 'r', columns);
    dawn_tableout_begin(cells, columns, alignment);
    put_heading(cells, table, units, years);
    for (size_t i = 1; i <= shown; i++) {
        put_row(cells, table, i, units, years);
    }
    return rows - shown;
}

static void put_rows(FILE *out, const struct dawn_swept_table *table, enum dawn_units units)
{
    struct dawn_tableout cells;
    const size_t more = dawn_report_sweep_rows(&cells, table, units);

    dawn_tableout_end(&cells, out);
    if (more > 0) {
        fprintf(out, "... and %zu more rows; --csv FILE holds them all\n", more);
    }
}

static void put_text(FILE *out, const struct dawn_swept_table *table, enum dawn_units units,
                     const char *name)
{
    struct dawn_text decision = {0};

    dawn_report_sweep_decision(&decision, table, units);
    if (!decision.failed) {
        dawn_report_wrapped(out, "     ", decision.data);
    }
    dawn_text_release(&decision);
    fputc('\n', out);
    if (table->rows.count > 1) {
        put_rows(out, table, units);
    }
    fprintf(out, "\nfor: %s; lows at the trays where there are some, else in the house air\n",
            name[0] != '\0' ? name : "this nursery");
    dawn_report_return_level(out, units, years_of(table), "", NAN);
    fputs("caution: a model's estimate; compare rows rather than trusting one\n", out);
}

/* ---- JSON ---- */

static void put_json_field(struct dawn_jsonout *json, const struct dawn_swept_table *table,
                           size_t row, size_t field)
{
    const char *text = dawn_report_sweep_field(table, row, field);
    const char *rest = NULL;
    double value = NAN;

    if (text[0] == '\0') {
        dawn_jsonout_null(json, dawn_report_sweep_field(table, 0, field));
    } else if (field != FINGERPRINT_FIELD && dawn_text_number(text, &rest, &value) &&
               *rest == '\0') {
        dawn_jsonout_number(json, dawn_report_sweep_field(table, 0, field), value, -1);
    } else {
        dawn_jsonout_text(json, dawn_report_sweep_field(table, 0, field), text);
    }
}

static void put_json(FILE *out, const struct dawn_swept_table *table, const char *name)
{
    struct dawn_text decision = {0};
    struct dawn_jsonout json;

    dawn_report_sweep_decision(&decision, table, DAWN_METRIC);
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "sweep");
    dawn_jsonout_text(&json, "decision", decision.data);
    dawn_jsonout_text(&json, "name", name);
    dawn_report_return_level_json(&json, years_of(table));
    dawn_jsonout_array(&json, "varied");
    for (size_t i = DAWN_SWEPT_FIRST_KEY; i < table->keys_end; i++) {
        dawn_jsonout_text(&json, NULL, dawn_report_sweep_field(table, 0, i));
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_array(&json, "nurseries");
    for (size_t i = 1; i < table->rows.count; i++) {
        dawn_jsonout_object(&json, NULL);
        for (size_t field = 0; field < table->rows.row[0].count; field++) {
            if (field != ROWS_FIELD) {
                put_json_field(&json, table, i, field);
            }
        }
        dawn_jsonout_close_object(&json);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
    dawn_text_release(&decision);
}

bool dawn_report_sweep(FILE *out, enum dawn_format format, enum dawn_units units,
                       const char *scenario_name, const struct dawn_text *table)
{
    struct dawn_swept_table read = {0};

    if (format == DAWN_CSV) {
        (void)fwrite(table->data, 1, table->size, out);
        return true;
    }
    if (!dawn_report_sweep_read(&read, table)) {
        return false;
    }
    if (format == DAWN_JSON) {
        put_json(out, &read, scenario_name);
    } else {
        put_text(out, &read, units, scenario_name);
    }
    dawn_csvrows_release(&read.rows);
    return true;
}
