/* Tonight for programs: CSV and JSON with every number. */
#include <math.h>

#include "base/civil.h"
#include "base/jsonout.h"
#include "base/text.h"
#include "report/report_tonight.h"

static void put_csv_number(FILE *out, double value, int decimals)
{
    char number[DAWN_REPORT_ROOM];

    fputc(',', out);
    if (isfinite(value)) {
        fputs(dawn_report_fixed(value, decimals, number), out);
    }
}

static void put_csv_range(FILE *out, const struct dawn_forecast_range *range)
{
    put_csv_number(out, range->tenth, dawn_report_decimals(range->tenth));
    put_csv_number(out, range->middle, dawn_report_decimals(range->middle));
    put_csv_number(out, range->ninth, dawn_report_decimals(range->ninth));
}

static void put_csv(FILE *out, const struct dawn_tonight_story *story)
{
    const struct dawn_tonight *tonight = story->tonight;
    char stamp[32];

    fputs("action,from,chance_harmed,chance_below_0C,place_low_10_C,place_low_50_C,place_low_90_C,"
          "leaf_low_10_C,leaf_low_50_C,leaf_low_90_C,work_min,cost,enough\r\n",
          out);
    for (size_t i = 0; i < tonight->count; i++) {
        const struct dawn_tonight_row *row = &tonight->row[i];
        dawn_report_csv_field(out, dawn_report_tonight_name(row));
        dawn_civil_iso(row->from_s, story->scenario->site.utc_offset_h, stamp);
        fprintf(out, ",%s", stamp);
        put_csv_number(out, row->harmed, 4);
        put_csv_number(out, row->below_zero, 4);
        put_csv_range(out, &row->place_C);
        put_csv_range(out, &row->leaf_C);
        put_csv_number(out, row->action != NULL ? row->action->work_s / 60.0 : 0.0, 1);
        put_csv_number(out, row->action != NULL ? row->action->cost : 0.0, 2);
        fprintf(out, ",%s\r\n", row->enough ? "yes" : "no");
    }
}

/* ---- JSON ---- */

static void put_time(struct dawn_jsonout *json, const char *key, double utc_s, double offset_h)
{
    char stamp[32];

    if (!isfinite(utc_s)) {
        dawn_jsonout_null(json, key);
        return;
    }
    dawn_civil_iso((int64_t)llround(utc_s), offset_h, stamp);
    dawn_jsonout_text(json, key, stamp);
}

static void put_range(struct dawn_jsonout *json, const char *key,
                      const struct dawn_forecast_range *range)
{
    dawn_jsonout_object(json, key);
    dawn_jsonout_number(json, "tenth_C", range->tenth, dawn_report_decimals(range->tenth));
    dawn_jsonout_number(json, "middle_C", range->middle, dawn_report_decimals(range->middle));
    dawn_jsonout_number(json, "ninth_C", range->ninth, dawn_report_decimals(range->ninth));
    dawn_jsonout_close_object(json);
}

static void put_row(struct dawn_jsonout *json, const struct dawn_tonight_story *story,
                    const struct dawn_tonight_row *row)
{
    const double offset_h = story->scenario->site.utc_offset_h;

    dawn_jsonout_object(json, NULL);
    dawn_jsonout_text(json, "action", dawn_report_tonight_name(row));
    put_time(json, "from", (double)row->from_s, offset_h);
    dawn_jsonout_bool(json, "carried_out", row->carried);
    dawn_jsonout_number(json, "chance_harmed", row->harmed, 4);
    dawn_jsonout_number(json, "chance_below_0C", row->below_zero, 4);
    dawn_jsonout_bool(json, "enough", row->enough);
    put_range(json, "place_low", &row->place_C);
    put_range(json, "leaf_low", &row->leaf_C);
    dawn_jsonout_number(json, "work_min", row->action != NULL ? row->action->work_s / 60.0 : 0.0,
                        1);
    dawn_jsonout_number(json, "cost", row->action != NULL ? row->action->cost : 0.0, 2);
    dawn_jsonout_array(json, "checks");
    for (size_t i = 0; i < story->tonight->check_count && !row->carried; i++) {
        dawn_jsonout_object(json, NULL);
        put_time(json, "at", (double)story->tonight->check_s[i], offset_h);
        dawn_jsonout_number(json, "air_middle_C", row->check_middle_C[i], 3);
        dawn_jsonout_number(json, "air_tenth_C", row->check_tenth_C[i], 3);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
    dawn_jsonout_close_object(json);
}

static void put_json(FILE *out, const struct dawn_tonight_story *story)
{
    const struct dawn_tonight *tonight = story->tonight;
    const double offset_h = story->scenario->site.utc_offset_h;
    const bool found = tonight->least < tonight->count;
    struct dawn_text decision = {0};
    struct dawn_jsonout json;

    dawn_report_tonight_decision(story, &decision);
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "tonight");
    dawn_jsonout_text(&json, "decision", decision.data);
    dawn_jsonout_text(&json, "scenario", story->scenario->path);
    dawn_jsonout_text(&json, "forecast", story->weather->path);
    dawn_jsonout_text(&json, "history", story->history);
    dawn_jsonout_text(&json, "read_off_now", story->readings);
    put_time(&json, "now", (double)tonight->from_s, offset_h);
    put_time(&json, "dusk", (double)tonight->dusk_s, offset_h);
    put_time(&json, "dawn", (double)tonight->dawn_s, offset_h);
    dawn_jsonout_integer(&json, "members", (int64_t)tonight->members);
    dawn_jsonout_integer(&json, "seed", (int64_t)story->seed);
    dawn_jsonout_text(&json, "place", tonight->at_trays ? "trays" : "air");
    dawn_jsonout_text(&json, "crop_place", dawn_nights_crop_place_words(tonight->crop_place));
    dawn_jsonout_bool(&json, "crops_named", tonight->crop_count > 0);
    dawn_jsonout_number(&json, "accepted_risk", tonight->accepted, 4);
    dawn_jsonout_text(&json, "least",
                      found ? dawn_report_tonight_name(&tonight->row[tonight->least]) : NULL);
    dawn_jsonout_array(&json, "actions");
    for (size_t i = 0; i < tonight->count; i++) {
        put_row(&json, story, &tonight->row[i]);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_object(&json, "fan_fails");
    dawn_jsonout_number(&json, "chance_harmed", tonight->failed_harmed, 4);
    dawn_jsonout_number(&json, "chance_below_0C", tonight->failed_below_zero, 4);
    dawn_jsonout_number(&json, "line_C", tonight->line_C, 3);
    put_time(&json, "crossed_at", tonight->failed_cross_s, offset_h);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
    dawn_text_release(&decision);
}

void dawn_report_tonight(FILE *out, enum dawn_format format, enum dawn_units units,
                         const struct dawn_tonight_story *story)
{
    switch (format) {
    case DAWN_TEXT:
        dawn_report_tonight_text(out, units, story);
        break;
    case DAWN_CSV:
        put_csv(out, story);
        break;
    case DAWN_JSON:
        put_json(out, story);
        break;
    }
}
