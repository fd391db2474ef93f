/* The nights as JSON: metric, keys in a fixed order, null where the nursery has no such thing. */
#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/jsonout.h"
#include "base/text.h"
#include "physics/constants.h"
#include "report/report_columns.h"
#include "report/report_parts.h"

static void put_stamp(struct dawn_jsonout *json, const char *key, double utc_s, double offset_h)
{
    char stamp[32];

    if (!isfinite(utc_s)) {
        dawn_jsonout_null(json, key);
        return;
    }
    dawn_civil_iso((int64_t)llround(utc_s), offset_h, stamp);
    dawn_jsonout_text(json, key, stamp);
}

static void put_decisions(struct dawn_jsonout *json, const struct dawn_nights_story *story)
{
    struct dawn_text decision = {0};

    dawn_report_decision(story, DAWN_METRIC, &decision);
    dawn_jsonout_text(json, "decision", decision.data);
    dawn_text_release(&decision);
    dawn_jsonout_integer(json, "nights_below_0C", (int64_t)dawn_nights_below_zero(story->nights));
    dawn_jsonout_text(json, "place", story->nights->at_trays ? "trays" : "air");
}

static void put_crop(struct dawn_jsonout *json, const struct dawn_nights *nights)
{
    const bool named = !isnan(nights->crop_line_C);

    dawn_jsonout_text(json, "crop_place",
                      named ? dawn_nights_crop_place_word(nights->crop_place) : NULL);
    dawn_jsonout_number(json, "crop_line_C", nights->crop_line_C, 3);
    if (!named) {
        dawn_jsonout_null(json, "crop");
        return;
    }
    dawn_jsonout_object(json, "crop");
    dawn_jsonout_text(json, "name", nights->crop_name);
    dawn_jsonout_number(json, "damage_C", nights->crop_line_C, 3);
    dawn_jsonout_integer(json, "nights_below", (int64_t)dawn_nights_below_crop(nights));
    dawn_jsonout_close_object(json);
}

static void put_scenario(struct dawn_jsonout *json, const struct dawn_nights_story *story)
{
    dawn_jsonout_object(json, "scenario");
    dawn_jsonout_text(json, "name", story->scenario->name);
    dawn_jsonout_text(json, "path", story->scenario->path);
    dawn_jsonout_number(json, "utc_offset_h", story->scenario->site.utc_offset_h, 4);
    dawn_jsonout_array(json, "set");
    for (size_t i = 0; i < story->override_count; i++) {
        dawn_jsonout_text(json, NULL, story->overrides[i]);
    }
    dawn_jsonout_close_array(json);
    dawn_jsonout_bool(json, "fan_kept_off", story->fan_kept_off);
    dawn_jsonout_close_object(json);
}

static void put_weather(struct dawn_jsonout *json, const struct dawn_weather *weather)
{
    struct dawn_report_estimate estimate[DAWN_REPORT_ESTIMATES];
    const size_t count = dawn_report_estimates(weather, estimate);

    dawn_jsonout_object(json, "weather");
    dawn_jsonout_text(json, "path", weather->path);
    dawn_jsonout_text(json, "layout", weather->layout);
    dawn_jsonout_text(json, "station", weather->station);
    dawn_jsonout_bool(json, "typical_year", weather->typical_year);
    dawn_jsonout_text(json, "stamp", dawn_weather_stamp_words(weather->stamp));
    dawn_jsonout_integer(json, "filled_hours", (int64_t)weather->filled_hours);
    dawn_jsonout_close_object(json);
    dawn_jsonout_array(json, "estimated");
    for (size_t i = 0; i < count; i++) {
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "quantity", estimate[i].quantity);
        dawn_jsonout_text(json, "how", estimate[i].how);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
}

static void put_night(struct dawn_jsonout *json, const struct dawn_nights_story *story,
                      const struct dawn_night *night)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    size_t count = 0;
    const struct dawn_report_column *column = dawn_report_columns(&count);
    char date[DAWN_REPORT_ROOM];

    dawn_jsonout_object(json, NULL);
    dawn_jsonout_text(json, "evening", dawn_report_date(night->dusk_s, offset_h, date));
    dawn_jsonout_text(json, "morning", dawn_report_date(night->dawn_s, offset_h, date));
    put_stamp(json, "dusk", (double)night->dusk_s, offset_h);
    put_stamp(json, "dawn", (double)night->dawn_s, offset_h);
    for (size_t i = 0; i < count; i++) {
        const double value = dawn_report_column_value(&column[i], story, night);
        if (column[i].kind == DAWN_REPORT_MOMENT) {
            put_stamp(json, column[i].key, value, offset_h);
        } else if (column[i].kind == DAWN_REPORT_DEGREES) {
            dawn_jsonout_number(json, column[i].key, value, dawn_report_decimals(value));
        } else {
            dawn_jsonout_number(json, column[i].key, value, 3);
        }
    }
    dawn_jsonout_text(json, "risk", dawn_nights_risk_words(night->risk));
    dawn_jsonout_close_object(json);
}

static void put_run(struct dawn_jsonout *json, const struct dawn_nights_story *story)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    struct dawn_text solver = {0};

    if (story->run == NULL) {
        dawn_jsonout_null(json, "run");
        return;
    }
    const struct dawn_trajectory_facts facts = dawn_trajectory_facts(story->run);
    dawn_text_add(&solver, "SUNDIALS CVODE %s", dawn_trajectory_solver_version());
    dawn_jsonout_object(json, "run");
    put_stamp(json, "from", (double)dawn_trajectory_from_s(story->run), offset_h);
    put_stamp(json, "to", (double)dawn_trajectory_to_s(story->run), offset_h);
    /* Rounding noise by nature: two digits tell what there is to tell. */
    dawn_jsonout_number(json, "imbalance", dawn_report_two_digits(facts.imbalance), -1);
    if (facts.water_through_J > 0.0)
        dawn_jsonout_number(json, "water_imbalance", dawn_report_two_digits(facts.water_imbalance),
                            -1);
    dawn_jsonout_integer(json, "steps", facts.steps);
    dawn_jsonout_integer(json, "rhs_evaluations", facts.rhs_evaluations);
    dawn_jsonout_integer(json, "switches", facts.switches);
    dawn_jsonout_number(json, "lead_days", facts.lead_days, 3);
    dawn_jsonout_number(json, "spin_up_days", facts.spin_up_days, 3);
    dawn_jsonout_text(json, "solver", solver.data);
    dawn_jsonout_close_object(json);
    dawn_text_release(&solver);
}

static void put_covers(struct dawn_jsonout *json, const struct dawn_nights_story *story)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    const size_t count = story->network != NULL ? dawn_network_cover_count(story->network) : 0;

    dawn_jsonout_array(json, "covers");
    for (size_t i = 0; i < count; i++) {
        struct dawn_cover_use use;
        dawn_nights_cover_use(story->nights, story->network, i, &use);
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "name", use.name);
        dawn_jsonout_integer(json, "nights_on", (int64_t)use.nights);
        put_stamp(json, "coldest_night_on", use.on_s, offset_h);
        put_stamp(json, "coldest_night_off", use.off_s, offset_h);
        dawn_jsonout_number(json, "longest_after_sunrise_h", use.in_sun_s / 3600.0, 2);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
}

/* Only where snow is described. */
static void put_snow(struct dawn_jsonout *json, const struct dawn_nights_story *story)
{
    const double m2 = dawn_scenario_snow_m2(story->scenario);

    if (story->network == NULL || m2 <= 0) {
        return;
    }
    dawn_jsonout_object(json, "snow");
    dawn_jsonout_integer(json, "nights",
                         (int64_t)dawn_nights_cover_of_snow(story->nights, story->network));
    dawn_jsonout_number(json, "lies_on_m2", m2, 4);
    dawn_jsonout_number(json, "most_kg_m2", dawn_scenario_snow_load_kg_m2(story->scenario), 4);
    dawn_jsonout_close_object(json);
}

static void put_rows(struct dawn_jsonout *json, const char *key, const struct dawn_ledger_row *row,
                     size_t count)
{
    dawn_jsonout_array(json, key);
    for (size_t i = 0; i < count; i++) {
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "name", row[i].name);
        dawn_jsonout_number(json, "kWh", row[i].J / PHYSICS_J_PER_kWh, 3);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
}

static void put_side(struct dawn_jsonout *json, const char *key,
                     const struct dawn_ledger_side *side, const char *when_store)
{
    dawn_jsonout_array(json, key);
    for (size_t i = 0; i < side->count; i++) {
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "name", side->share[i].name);
        dawn_jsonout_text(json, "by", side->share[i].store ? when_store : "flow");
        dawn_jsonout_number(json, "kWh", side->share[i].J / PHYSICS_J_PER_kWh, 3);
        dawn_jsonout_number(json, "percent", side->share[i].percent, 2);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
}

static void put_passages(struct dawn_jsonout *json, const struct dawn_ledger *ledger)
{
    dawn_jsonout_array(json, "passages");
    for (size_t i = 0; i < ledger->passage_count; i++) {
        const struct dawn_ledger_passage *row = &ledger->passage[i];
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "from", row->from);
        dawn_jsonout_text(json, "to", row->to);
        dawn_jsonout_text(json, "by", row->by);
        dawn_jsonout_number(json, "kWh", row->J / PHYSICS_J_PER_kWh, 3);
        dawn_jsonout_number(json, "water_kg", row->water_kg, 3);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
}

static void put_ledger(struct dawn_jsonout *json, const struct dawn_nights_story *story)
{
    const struct dawn_ledger *ledger = story->ledger;
    const double offset_h = story->scenario->site.utc_offset_h;
    char date[DAWN_REPORT_ROOM];

    dawn_jsonout_object(json, "ledger");
    dawn_jsonout_text(json, "evening", dawn_report_date(story->explained->dusk_s, offset_h, date));
    put_stamp(json, "from", (double)ledger->from_s, offset_h);
    put_stamp(json, "to", (double)ledger->to_s, offset_h);
    put_rows(json, "boundary", ledger->boundary, ledger->boundary_count);
    put_rows(json, "stores", ledger->stores, ledger->store_count);
    put_side(json, "went", &ledger->went, "taken up");
    put_side(json, "paid", &ledger->paid, "given back");
    put_passages(json, ledger);
    dawn_jsonout_number(json, "throughput_kWh", ledger->throughput_J / PHYSICS_J_PER_kWh, 3);
    dawn_jsonout_number(json, "imbalance_kWh",
                        dawn_report_two_digits(ledger->imbalance_J / PHYSICS_J_PER_kWh), -1);
    dawn_jsonout_close_object(json);
}

void dawn_report_nights_json(FILE *out, const struct dawn_nights_story *story)
{
    struct dawn_jsonout json;

    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "nights");
    put_decisions(&json, story);
    put_crop(&json, story->nights);
    put_scenario(&json, story);
    put_weather(&json, story->weather);
    dawn_jsonout_array(&json, "nights");
    for (size_t i = 0; i < story->nights->count; i++) {
        put_night(&json, story, &story->nights->night[i]);
    }
    dawn_jsonout_close_array(&json);
    put_covers(&json, story);
    put_snow(&json, story);
    put_run(&json, story);
    if (story->ledger != NULL && story->explained != NULL) {
        put_ledger(&json, story);
    }
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
}
