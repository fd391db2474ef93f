/* The table of crops. */
#include <math.h>

#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "dawnlow/physics/crop.h"
#include "report/report_parts.h"

static const char *const column_names[DAWN_CROP_COLUMNS] = {"harmed", "chilled", "growth",
                                                            "sprouting"};

static void put_degrees(struct dawn_tableout *table, double value_C, enum dawn_units units)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", dawn_report_degrees(value_C, units, number));
}

static void put_text(FILE *out, enum dawn_units units)
{
    size_t count = 0;
    const struct dawn_crop_facts *crops = dawn_crop_table(&count);
    const char *const heading[] = {"Crop",        "Harmed below", "for h", "Chilled below",
                                   "Grows above", "Sprouts from", "to"};
    struct dawn_tableout table;
    char number[DAWN_REPORT_ROOM];

    fprintf(out,
            "seedlings that have not been hardened off, in %s, at the leaves; sprouting in the "
            "soil\n\n",
            dawn_report_unit_letter(units));
    dawn_tableout_begin(&table, 7, "lrrrrrr");
    for (size_t i = 0; i < 7; i++) {
        dawn_tableout_cell(&table, "%s", heading[i]);
    }
    for (size_t i = 0; i < count; i++) {
        dawn_tableout_cell(&table, "%s", crops[i].name);
        put_degrees(&table, crops[i].damage_C, units);
        dawn_tableout_cell(&table, "%s", dawn_report_fixed(crops[i].damage_after_h, 1, number));
        put_degrees(&table, crops[i].chilling_C, units);
        put_degrees(&table, crops[i].growth_C, units);
        put_degrees(&table, crops[i].sprout_least_C, units);
        put_degrees(&table, crops[i].sprout_most_C, units);
    }
    dawn_tableout_end(&table, out);
    fputc('\n', out);
    for (size_t i = 0; i < DAWN_CROP_COLUMNS; i++) {
        struct dawn_text text = {0};
        dawn_text_add(&text, "%s: %s", column_names[i], dawn_crop_source((enum dawn_crop_column)i));
        if (!text.failed) {
            dawn_report_wrapped(out, "     ", text.data);
        }
        dawn_text_release(&text);
    }
    dawn_report_wrapped(
        out, "     ",
        "caution: wet, soft, young or long chilled plants are harmed above these "
        "lines. Chances count any time below the line unless damage_after: is given");
}

static void put_number(FILE *out, double value)
{
    char number[DAWN_REPORT_ROOM];

    fputc(',', out);
    if (isfinite(value)) {
        fputs(dawn_report_fixed(value, 2, number), out);
    }
}

static void put_csv(FILE *out)
{
    size_t count = 0;
    const struct dawn_crop_facts *crops = dawn_crop_table(&count);

    fputs("crop,damage_below_C,damage_after_h,chilled_below_C,grows_above_C,sprouts_from_C,"
          "sprouts_to_C\r\n",
          out);
    for (size_t i = 0; i < count; i++) {
        dawn_report_csv_field(out, crops[i].name);
        put_number(out, crops[i].damage_C);
        put_number(out, crops[i].damage_after_h);
        put_number(out, crops[i].chilling_C);
        put_number(out, crops[i].growth_C);
        put_number(out, crops[i].sprout_least_C);
        put_number(out, crops[i].sprout_most_C);
        fputs("\r\n", out);
    }
}

static void put_json(FILE *out)
{
    size_t count = 0;
    const struct dawn_crop_facts *crops = dawn_crop_table(&count);
    struct dawn_jsonout json;

    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "crops");
    dawn_jsonout_array(&json, "crops");
    for (size_t i = 0; i < count; i++) {
        dawn_jsonout_object(&json, NULL);
        dawn_jsonout_text(&json, "name", crops[i].name);
        dawn_jsonout_number(&json, "damage_below_C", crops[i].damage_C, 2);
        dawn_jsonout_number(&json, "damage_after_h", crops[i].damage_after_h, 2);
        dawn_jsonout_number(&json, "chilled_below_C", crops[i].chilling_C, 2);
        dawn_jsonout_number(&json, "grows_above_C", crops[i].growth_C, 2);
        dawn_jsonout_number(&json, "sprouts_from_C", crops[i].sprout_least_C, 2);
        dawn_jsonout_number(&json, "sprouts_to_C", crops[i].sprout_most_C, 2);
        dawn_jsonout_close_object(&json);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_object(&json, "sources");
    for (size_t i = 0; i < DAWN_CROP_COLUMNS; i++) {
        dawn_jsonout_text(&json, column_names[i], dawn_crop_source((enum dawn_crop_column)i));
    }
    dawn_jsonout_close_object(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
}

void dawn_report_crops(FILE *out, enum dawn_format format, enum dawn_units units)
{
    switch (format) {
    case DAWN_TEXT:
        put_text(out, units);
        break;
    case DAWN_CSV:
        put_csv(out);
        break;
    case DAWN_JSON:
        put_json(out);
        break;
    }
}
