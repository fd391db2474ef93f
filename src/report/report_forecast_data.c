/* The coming nights as chances, for programs: CSV and JSON with every number. */
#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/jsonout.h"
#include "report/report_forecast.h"

/* The ranges of a night, in the order of the columns. */
enum { RANGES = 5 };
static const char *const range_names[RANGES] = {"outside", "air", "tray", "leaf", "root"};

static struct dawn_forecast_range range_at(const struct dawn_forecast_night *night, size_t i)
{
    const struct dawn_forecast_range range[RANGES] = {night->outside_C, night->air_C, night->tray_C,
                                                      night->leaf_C, night->root_C};
    return range[i];
}

/* ---- CSV ---- */

static void put_csv_number(FILE *out, double value, int decimals)
{
    char number[DAWN_REPORT_ROOM];

    fputc(',', out);
    if (isfinite(value)) {
        fputs(dawn_report_fixed(value, decimals, number), out);
    }
}

static void put_csv_heading(FILE *out, const struct dawn_forecast_story *story)
{
    fputs("dusk,dawn", out);
    for (size_t i = 0; i < RANGES; i++) {
        fprintf(out, ",%s_low_10_C,%s_low_50_C,%s_low_90_C", range_names[i], range_names[i],
                range_names[i]);
    }
    fputs(",low_at,as_forecast_C,chance_below_0C,chance_any_harmed", out);
    for (size_t crop = 0; crop < story->forecast->crop_count; crop++) {
        fputs(",chance_harmed ", out);
        dawn_report_csv_field(out, story->scenario->crops[crop].name);
    }
    fputs("\r\n", out);
}

static void put_csv_night(FILE *out, const struct dawn_forecast_story *story,
                          const struct dawn_forecast_night *night)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    char stamp[32];

    dawn_civil_iso(night->dusk_s, offset_h, stamp);
    fputs(stamp, out);
    dawn_civil_iso(night->dawn_s, offset_h, stamp);
    fprintf(out, ",%s", stamp);
    for (size_t i = 0; i < RANGES; i++) {
        const struct dawn_forecast_range range = range_at(night, i);
        put_csv_number(out, range.tenth, dawn_report_decimals(range.tenth));
        put_csv_number(out, range.middle, dawn_report_decimals(range.middle));
        put_csv_number(out, range.ninth, dawn_report_decimals(range.ninth));
    }
    dawn_civil_iso((int64_t)llround(night->low_at_s.middle), offset_h, stamp);
    fprintf(out, ",%s", stamp);
    put_csv_number(out, night->as_forecast_C, dawn_report_decimals(night->as_forecast_C));
    put_csv_number(out, night->below_zero, 4);
    put_csv_number(out, night->any_harmed, 4);
    for (size_t crop = 0; crop < story->forecast->crop_count; crop++) {
        put_csv_number(out, night->harmed[crop], 4);
    }
    fputs("\r\n", out);
}

static void put_csv(FILE *out, const struct dawn_forecast_story *story)
{
    put_csv_heading(out, story);
    for (size_t i = 0; i < story->forecast->nights; i++) {
        put_csv_night(out, story, &story->forecast->night[i]);
    }
}

/* ---- JSON ---- */

static void put_json_time(struct dawn_jsonout *json, const char *key, double utc_s, double offset_h)
{
    char stamp[32];

    if (!isfinite(utc_s)) {
        dawn_jsonout_null(json, key);
        return;
    }
    dawn_civil_iso((int64_t)llround(utc_s), offset_h, stamp);
    dawn_jsonout_text(json, key, stamp);
}

static void put_json_range(struct dawn_jsonout *json, const char *key,
                           struct dawn_forecast_range range)
{
    dawn_jsonout_object(json, key);
    dawn_jsonout_number(json, "tenth_C", range.tenth, dawn_report_decimals(range.tenth));
    dawn_jsonout_number(json, "middle_C", range.middle, dawn_report_decimals(range.middle));
    dawn_jsonout_number(json, "ninth_C", range.ninth, dawn_report_decimals(range.ninth));
    dawn_jsonout_close_object(json);
}

static void put_json_crops(struct dawn_jsonout *json, const struct dawn_forecast_story *story,
                           const double *harmed)
{
    dawn_jsonout_array(json, "crops");
    for (size_t crop = 0; crop < story->forecast->crop_count; crop++) {
        const struct dawn_crop *it = &story->scenario->crops[crop];
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "name", it->name);
        dawn_jsonout_number(json, "damage_below_C", it->damage_C, 3);
        dawn_jsonout_number(json, "damage_after_h", it->damage_after_s / 3600.0, 3);
        dawn_jsonout_number(json, "chance_harmed", harmed[crop], 4);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
}

static void put_json_night(struct dawn_jsonout *json, const struct dawn_forecast_story *story,
                           const struct dawn_forecast_night *night)
{
    const double offset_h = story->scenario->site.utc_offset_h;

    dawn_jsonout_object(json, NULL);
    put_json_time(json, "dusk", (double)night->dusk_s, offset_h);
    put_json_time(json, "dawn", (double)night->dawn_s, offset_h);
    for (size_t i = 0; i < RANGES; i++) {
        char key[32];
        snprintf(key, sizeof key, "%s_low", range_names[i]);
        put_json_range(json, key, range_at(night, i));
    }
    dawn_jsonout_object(json, "low_at");
    put_json_time(json, "tenth", night->low_at_s.tenth, offset_h);
    put_json_time(json, "middle", night->low_at_s.middle, offset_h);
    put_json_time(json, "ninth", night->low_at_s.ninth, offset_h);
    dawn_jsonout_close_object(json);
    dawn_jsonout_number(json, "as_forecast_C", night->as_forecast_C,
                        dawn_report_decimals(night->as_forecast_C));
    dawn_jsonout_number(json, "chance_below_0C", night->below_zero, 4);
    dawn_jsonout_number(json, "chance_any_harmed", night->any_harmed, 4);
    put_json_crops(json, story, night->harmed);
    dawn_jsonout_close_object(json);
}

static void put_json_doubt(struct dawn_jsonout *json, const struct dawn_doubt *doubt)
{
    dawn_jsonout_object(json, "spreads");
    dawn_jsonout_number(json, "air_first_day_K", doubt->air_first_day_K, 4);
    dawn_jsonout_number(json, "air_seventh_day_K", doubt->air_seventh_day_K, 4);
    dawn_jsonout_number(json, "air_hourly_K", doubt->air_hourly_K, 4);
    dawn_jsonout_number(json, "memory_h", doubt->memory_s / 3600.0, 4);
    dawn_jsonout_number(json, "day_memory", doubt->day_memory, 4);
    dawn_jsonout_number(json, "cloud", doubt->cloud, 4);
    dawn_jsonout_number(json, "wind", doubt->wind, 4);
    dawn_jsonout_number(json, "dew_point_K", doubt->dew_K, 4);
    dawn_jsonout_number(json, "leaks", doubt->leaks, 4);
    dawn_jsonout_number(json, "light", doubt->light, 4);
    dawn_jsonout_number(json, "active_rock", doubt->active_rock, 4);
    dawn_jsonout_number(json, "soil", doubt->soil, 4);
    dawn_jsonout_close_object(json);
}

static void put_json_head(struct dawn_jsonout *json, const struct dawn_forecast_story *story)
{
    const struct dawn_forecast *forecast = story->forecast;
    struct dawn_text decision = {0};

    dawn_report_forecast_decision(story, DAWN_METRIC, &decision);
    dawn_report_json_head(json, "forecast");
    dawn_jsonout_text(json, "decision", decision.data);
    put_json_time(json, "now", (double)forecast->from_s, story->scenario->site.utc_offset_h);
    dawn_jsonout_integer(json, "members", (int64_t)forecast->members);
    dawn_jsonout_integer(json, "seed", (int64_t)story->seed);
    dawn_jsonout_text(json, "place", forecast->at_trays ? "trays" : "air");
    dawn_jsonout_text(json, "crop_place", dawn_nights_crop_place_words(forecast->crop_place));
    dawn_jsonout_object(json, "scenario");
    dawn_jsonout_text(json, "name", story->scenario->name);
    dawn_jsonout_text(json, "path", story->scenario->path);
    dawn_jsonout_array(json, "set");
    for (size_t i = 0; i < story->override_count; i++) {
        dawn_jsonout_text(json, NULL, story->overrides[i]);
    }
    dawn_jsonout_close_array(json);
    dawn_jsonout_close_object(json);
    dawn_jsonout_text(json, "forecast", story->weather->path);
    dawn_jsonout_text(json, "history", story->history);
    dawn_jsonout_text(json, "read_off_now", story->readings);
    dawn_text_release(&decision);
}

static void put_json(FILE *out, const struct dawn_forecast_story *story)
{
    const struct dawn_forecast *forecast = story->forecast;
    struct dawn_jsonout json;

    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    put_json_head(&json, story);
    put_json_doubt(&json, &story->scenario->forecast);
    dawn_jsonout_array(&json, "nights");
    for (size_t i = 0; i < forecast->nights; i++) {
        put_json_night(&json, story, &forecast->night[i]);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_integer(&json, "worst_night", (int64_t)forecast->worst);
    dawn_jsonout_object(&json, "all_nights");
    dawn_jsonout_number(&json, "chance_below_0C", forecast->week_below_zero, 4);
    dawn_jsonout_number(&json, "chance_any_harmed", forecast->week_any, 4);
    put_json_crops(&json, story, forecast->week_harmed);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
}

void dawn_report_forecast(FILE *out, enum dawn_format format, enum dawn_units units,
                          const struct dawn_forecast_story *story)
{
    switch (format) {
    case DAWN_TEXT:
        dawn_report_forecast_text(out, units, story);
        break;
    case DAWN_CSV:
        put_csv(out, story);
        break;
    case DAWN_JSON:
        put_json(out, story);
        break;
    }
}
