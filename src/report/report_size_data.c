/* What to build, for programs: CSV and JSON with every number. */
#include <math.h>

#include "base/jsonout.h"
#include "base/text.h"
#include "report/report_size.h"

static void put_csv_row(FILE *out, const struct dawn_report_sizing *page, const char *what,
                        const struct dawn_size_design *design)
{
    const bool none = design->excluded != NULL || design->failed;

    fputs(what, out);
    for (size_t i = 0; i < page->plan->levers; i++) {
        dawn_report_csv_number(out, design->value[i], 3);
    }
    dawn_report_csv_number(out, design->cost.total, 2);
    dawn_report_csv_number(out, none ? NAN : design->low_C, 3);
    dawn_report_csv_number(out, none ? NAN : design->slack_K, 3);
    dawn_report_csv_number(out, none ? NAN : design->band_low_C, 3);
    dawn_report_csv_number(out, none ? NAN : design->band_high_C, 3);
    fputc(',', out);
    dawn_report_csv_field(out, design->excluded != NULL ? design->excluded : "");
    fputs("\r\n", out);
}

static void put_csv(FILE *out, const struct dawn_report_sizing *page)
{
    const struct dawn_size *size = page->size;

    fputs("what", out);
    for (size_t i = 0; i < page->plan->levers; i++) {
        fprintf(out, ",%s", page->plan->lever[i].key);
    }
    fputs(",cost,low_C,slack_K,band_low_C,band_high_C,excluded\r\n", out);
    put_csv_row(out, page, "as_it_is", &size->own);
    put_csv_row(out, page, size->met ? "answer" : "nearest", dawn_report_size_shown(size));
    for (size_t i = 0; i < size->changes; i++) {
        put_csv_row(out, page, "change", &size->change[i].design);
    }
    for (size_t i = 0; i < size->curve_count; i++) {
        put_csv_row(out, page, "curve", &size->curve[i]);
    }
}

static void put_json_design(struct dawn_jsonout *json, const char *key,
                            const struct dawn_report_sizing *page,
                            const struct dawn_size_design *design)
{
    const bool none = design->excluded != NULL || design->failed;

    dawn_jsonout_object(json, key);
    for (size_t i = 0; i < page->plan->levers; i++) {
        dawn_jsonout_number(json, page->plan->lever[i].key, design->value[i], 3);
    }
    dawn_jsonout_number(json, "cost", design->cost.total, 2);
    dawn_jsonout_number(json, "low_C", none ? NAN : design->low_C, 3);
    dawn_jsonout_number(json, "slack_K", none ? NAN : design->slack_K, 3);
    dawn_jsonout_number(json, "band_low_C", none ? NAN : design->band_low_C, 3);
    dawn_jsonout_number(json, "band_high_C", none ? NAN : design->band_high_C, 3);
    dawn_jsonout_text(json, "excluded", design->excluded);
    dawn_jsonout_array(json, "set");
    for (size_t i = 0; i < design->trial.sets && i < DAWN_TRIAL_SETS; i++) {
        dawn_jsonout_text(json, NULL, design->trial.set[i]);
    }
    dawn_jsonout_close_array(json);
    dawn_jsonout_close_object(json);
}

static void put_json_goal(struct dawn_jsonout *json, const struct dawn_report_sizing *page)
{
    const struct dawn_goal *goal = &page->plan->goal;

    dawn_jsonout_object(json, "goal");
    dawn_jsonout_text(json, "place", dawn_goal_place_words(goal->place));
    dawn_jsonout_number(json, "line_C", goal->line_C, 3);
    dawn_jsonout_number(json, "nights", goal->nights, -1);
    dawn_jsonout_number(json, "springs", goal->springs, -1);
    dawn_jsonout_bool(json, "spring_only", goal->spring_only);
    dawn_jsonout_integer(json, "nights_allowed", (int64_t)page->size->allowed);
    dawn_jsonout_close_object(json);
}

static void put_json_sure(struct dawn_jsonout *json, const struct dawn_report_sizing *page)
{
    const struct dawn_return_level_fit *fit = &dawn_report_size_shown(page->size)->fit;

    dawn_jsonout_object(json, "how_sure");
    dawn_jsonout_integer(json, "springs", (int64_t)page->size->springs);
    dawn_jsonout_number(json, "one_in_10_years_C", dawn_return_level_C(fit, 10.0), 3);
    dawn_jsonout_number(json, "one_in_10_years_error_K", dawn_return_level_error_K(fit, 10.0), 3);
    dawn_jsonout_number(json, "chance_below_line",
                        dawn_return_level_chance(fit, page->plan->goal.line_C), 4);
    dawn_jsonout_close_object(json);
}

/* Of which nights the bands speak. */
static void put_json_band(struct dawn_jsonout *json, const struct dawn_size *size)
{
    dawn_jsonout_object(json, "band");
    if (isnan(size->own.fit.scale_K)) {
        dawn_jsonout_text(json, "of", "coldest nights");
        dawn_jsonout_integer(json, "nights", DAWN_SIZE_BAND_NIGHTS);
    } else {
        dawn_jsonout_text(json, "of", "coldest night of one year in");
        dawn_jsonout_integer(json, "one_in_years", DAWN_SIZE_BAND_YEARS);
        dawn_jsonout_integer(json, "years", (int64_t)size->own.fit.years);
        dawn_jsonout_text(json, "method", dawn_return_level_method(size->own.fit.years));
    }
    dawn_jsonout_close_object(json);
}

/* What the curve goes through. */
static void put_json_lever(struct dawn_jsonout *json, const struct dawn_report_sizing *page)
{
    const struct dawn_size_lever *lever = &page->plan->lever[page->size->curve_lever];

    dawn_jsonout_object(json, "curve_of");
    dawn_jsonout_text(json, "key", lever->key);
    dawn_jsonout_text(json, "words", lever->words);
    dawn_jsonout_text(json, "unit", lever->unit);
    dawn_jsonout_close_object(json);
}

static void put_json_lists(struct dawn_jsonout *json, const struct dawn_report_sizing *page)
{
    const struct dawn_size *size = page->size;

    dawn_jsonout_array(json, "changes");
    for (size_t i = 0; i < size->changes; i++) {
        put_json_design(json, NULL, page, &size->change[i].design);
    }
    dawn_jsonout_close_array(json);
    put_json_lever(json, page);
    put_json_band(json, size);
    dawn_jsonout_array(json, "curve");
    for (size_t i = 0; i < size->curve_count; i++) {
        put_json_design(json, NULL, page, &size->curve[i]);
    }
    dawn_jsonout_close_array(json);
    dawn_jsonout_number(json, "knee", size->knee, 3);
    dawn_jsonout_array(json, "usual");
    for (size_t i = 0; i < size->ranges; i++) {
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "what", size->range[i].words);
        dawn_jsonout_number(json, "found", size->range[i].value, 4);
        dawn_jsonout_number(json, "least", size->range[i].least, 4);
        dawn_jsonout_number(json, "most", size->range[i].most, 4);
        dawn_jsonout_text(json, "source", size->range[i].source);
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
}

static void put_json(FILE *out, const struct dawn_report_sizing *page)
{
    const struct dawn_size *size = page->size;
    struct dawn_text decision = {0};
    struct dawn_jsonout json;

    dawn_report_size_decision(&decision, page);
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_study_json(&json, "size", page->story, decision.data, size->nights);
    dawn_jsonout_bool(&json, "stopped", size->stopped);
    dawn_jsonout_bool(&json, "met", size->met);
    dawn_jsonout_bool(&json, "over_budget", size->over_budget);
    dawn_jsonout_bool(&json, "confirmed_by_accurate_engine", size->confirmed);
    dawn_jsonout_number(&json, "budget", page->plan->budget, 2);
    dawn_jsonout_text(&json, "currency", dawn_report_size_money(page));
    put_json_goal(&json, page);
    put_json_sure(&json, page);
    put_json_design(&json, "as_it_is", page, &size->own);
    put_json_design(&json, size->met ? "answer" : "nearest", page, dawn_report_size_shown(size));
    if (size->over_budget) {
        put_json_design(&json, "cheapest", page, &size->best);
    }
    put_json_lists(&json, page);
    dawn_jsonout_integer(&json, "tried", (int64_t)size->tried);
    dawn_jsonout_integer(&json, "excluded", (int64_t)size->excluded);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
    dawn_text_release(&decision);
}

void dawn_report_size(FILE *out, enum dawn_format format, enum dawn_units units,
                      const struct dawn_study_story *story, const struct dawn_size *size,
                      const struct dawn_size_plan *plan)
{
    const struct dawn_report_sizing page = {format == DAWN_TEXT ? units : DAWN_METRIC, story, size,
                                            plan};

    switch (format) {
    case DAWN_TEXT:
        dawn_report_size_text(out, &page);
        break;
    case DAWN_CSV:
        put_csv(out, &page);
        break;
    case DAWN_JSON:
        put_json(out, &page);
        break;
    }
}
