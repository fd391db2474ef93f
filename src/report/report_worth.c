/* What money buys, and what to measure next. */
#include <math.h>

#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "report/report_studies.h"

struct page {
    enum dawn_units units;
    const struct dawn_study_story *story;
    const struct dawn_worth *worth;
    double line_C;
};

/* A gain below this is no gain: the solver's own tolerance and a thermometer's (K). */
static const double nothing_K = 0.05;

static const char *money_of(const struct page *page)
{
    return page->story->scenario->prices.currency;
}

static const char *place_of(const struct page *page)
{
    return page->worth->by_air || !page->worth->at_trays ? "house air" : "trays";
}

static double judged_C(const struct page *page, const struct dawn_worth_lows *lows)
{
    return page->worth->by_air ? lows->air_coldest_C : lows->coldest_C;
}

/* Kelvin (or F) for 100 of the currency; NAN when it costs nothing or gains nothing. */
static double for_100(const struct dawn_worth_way *way)
{
    return way->failed || way->cost <= 0.0 ? NAN : 100.0 * way->gain_K / way->cost;
}

/* ---- text ---- */

static void add_decision(struct dawn_text *text, const struct page *page)
{
    const struct dawn_worth *worth = page->worth;
    char change[DAWN_REPORT_ROOM];

    if (worth->ways == 0 || worth->way[0].failed || worth->way[0].gain_K < nothing_K) {
        dawn_text_add(text, "no single improvement here warms the coldest night by %s %s or more",
                      dawn_report_change(nothing_K, 2, page->units, change),
                      dawn_report_change_unit(page->units));
        return;
    }
    const struct dawn_worth_way *best = &worth->way[0];
    dawn_text_add(text, "most for the money: %s; coldest night %s %s at the %s for %.0f %s",
                  best->name, dawn_report_change(best->gain_K, 1, page->units, change),
                  dawn_report_change_unit(page->units), place_of(page), best->cost, money_of(page));
}

/* The one that gains most, whatever it costs, when it is another. */
static void put_most(FILE *out, const struct page *page)
{
    const struct dawn_worth *worth = page->worth;
    struct dawn_text text = {0};
    char change[DAWN_REPORT_ROOM];
    size_t most = 0;

    for (size_t i = 1; i < worth->ways; i++) {
        if (!worth->way[i].failed && worth->way[i].gain_K > worth->way[most].gain_K) {
            most = i;
        }
    }
    if (worth->ways == 0 || most == 0 || worth->way[most].failed ||
        worth->way[most].gain_K < nothing_K) {
        return;
    }
    dawn_text_add(&text, "most of all: %s; %s %s for %.0f %s", worth->way[most].name,
                  dawn_report_change(worth->way[most].gain_K, 1, page->units, change),
                  dawn_report_change_unit(page->units), worth->way[most].cost, money_of(page));
    if (!text.failed) {
        dawn_report_wrapped(out, "  ", text.data);
    }
    dawn_text_release(&text);
}

static void put_way(struct dawn_tableout *table, const struct page *page,
                    const struct dawn_worth_way *way)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", way->name);
    dawn_tableout_cell(table, "%.0f", way->cost);
    if (way->failed) {
        for (int i = 0; i < 4; i++) {
            dawn_tableout_cell(table, "-");
        }
        return;
    }
    dawn_tableout_cell(table, "%s",
                       dawn_report_degrees(judged_C(page, &way->lows), page->units, number));
    dawn_tableout_cell(table, "%s", dawn_report_change(way->gain_K, 2, page->units, number));
    dawn_tableout_cell(
        table, "%s",
        isnan(for_100(way)) ? "-" : dawn_report_change(for_100(way), 3, page->units, number));
    dawn_tableout_cell(table, "%.0f", way->nights_less);
}

static void fill_ways(struct dawn_tableout *table, const struct page *page)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_begin(table, 6, "lrrrrr");
    dawn_tableout_cell(table, "Improvement, one at a time");
    dawn_tableout_cell(table, "Cost");
    dawn_tableout_cell(table, "Coldest");
    dawn_tableout_cell(table, "Gain");
    dawn_tableout_cell(table, "For 100");
    dawn_tableout_cell(table, "Nights");
    dawn_tableout_cell(table, "%s", "");
    dawn_tableout_cell(table, "%s", money_of(page));
    dawn_tableout_cell(table, "%s", dawn_report_unit_letter(page->units));
    dawn_tableout_cell(table, "%s", dawn_report_change_unit(page->units));
    dawn_tableout_cell(table, "%s", dawn_report_change_unit(page->units));
    dawn_tableout_cell(table, "fewer");
    for (size_t i = 0; i < page->worth->ways; i++) {
        put_way(table, page, &page->worth->way[i]);
    }
    dawn_tableout_cell(table, "as it is");
    dawn_tableout_cell(table, "%s", "");
    dawn_tableout_cell(
        table, "%s",
        dawn_report_degrees(judged_C(page, &page->worth->as_it_is), page->units, number));
    dawn_tableout_cell(table, "%s", "");
    dawn_tableout_cell(table, "%s", "");
    dawn_tableout_cell(table, "of %.0f", page->worth->as_it_is.below);
}

static void fill_guesses(struct dawn_tableout *table, const struct page *page)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_begin(table, 4, "lrrr");
    dawn_tableout_cell(table, "Guess");
    dawn_tableout_cell(table, "At low");
    dawn_tableout_cell(table, "At high");
    dawn_tableout_cell(table, "Apart");
    for (size_t i = 0; i < page->worth->guesses; i++) {
        const struct dawn_worth_guess *guess = &page->worth->guess[i];
        dawn_tableout_cell(table, "%s", guess->name);
        if (guess->failed) {
            dawn_tableout_cell(table, "-");
            dawn_tableout_cell(table, "-");
            dawn_tableout_cell(table, "-");
            continue;
        }
        dawn_tableout_cell(
            table, "%s",
            dawn_report_degrees_unit(judged_C(page, &guess->at_low), page->units, number));
        dawn_tableout_cell(
            table, "%s",
            dawn_report_degrees_unit(judged_C(page, &guess->at_high), page->units, number));
        dawn_tableout_cell(
            table, "%s",
            dawn_report_fixed(guess->swing_K * (page->units == DAWN_US ? 1.8 : 1.0), 2, number));
    }
}

static void put_measure(FILE *out, const struct page *page)
{
    struct dawn_text text = {0};

    if (page->worth->guesses > 0 && page->worth->guess[0].swing_K >= nothing_K) {
        dawn_text_add(&text, "measure next: %s. How: %s", page->worth->guess[0].name,
                      page->worth->guess[0].measure);
        if (!text.failed) {
            dawn_report_wrapped(out, "  ", text.data);
        }
    }
    dawn_text_release(&text);
}

static void put_notes(FILE *out, const struct page *page)
{
    struct dawn_text text = {0};
    char line[DAWN_REPORT_ROOM];

    dawn_text_add(&text,
                  "read: each alone, against the nursery as it is, at the %s; two together give "
                  "less than their sum. Nights fewer: below %s. Cost is at the prices of the "
                  "scenario; those it leaves out "
                  "are only values to start from (dawnlow check shows them)",
                  page->worth->by_air
                      ? "house air (water that freezes holds the trays at its own point)"
                      : place_of(page),
                  dawn_report_line(page->line_C, page->units, line));
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
    if (page->worth->stopped) {
        fputs("stopped: not all was tried\n", out);
    }
}

/* Each care once, in the order of the rows. */
static void put_cares(FILE *out, const struct page *page)
{
    struct dawn_text text = {0};

    dawn_text_add(&text, "mind: ");
    for (size_t i = 0; i < page->worth->ways; i++) {
        const struct dawn_worth_way *way = &page->worth->way[i];
        if (way->care != NULL) {
            dawn_text_add(&text, "%s%s (%s)", text.size > 6 ? "; " : "", way->name, way->care);
        }
    }
    if (!text.failed && text.size > 6) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
}

/* ---- for the page ---- */

void dawn_report_worth_decision(struct dawn_text *text, enum dawn_units units,
                                const struct dawn_study_story *story,
                                const struct dawn_worth *worth)
{
    add_decision(text, &(struct page){.units = units, .story = story, .worth = worth});
}

void dawn_report_worth_ways(struct dawn_tableout *table, enum dawn_units units,
                            const struct dawn_study_story *story, const struct dawn_worth *worth)
{
    fill_ways(table, &(struct page){.units = units, .story = story, .worth = worth});
}

void dawn_report_worth_guesses(struct dawn_tableout *table, enum dawn_units units,
                               const struct dawn_study_story *story, const struct dawn_worth *worth)
{
    fill_guesses(table, &(struct page){.units = units, .story = story, .worth = worth});
}

/* ---- text in whole ---- */

static void put_text(FILE *out, const struct page *page)
{
    struct dawn_tableout table;
    struct dawn_text decision = {0};

    add_decision(&decision, page);
    if (!decision.failed) {
        dawn_report_wrapped(out, "  ", decision.data);
    }
    dawn_text_release(&decision);
    put_most(out, page);
    put_measure(out, page);
    fputc('\n', out);
    fill_ways(&table, page);
    dawn_tableout_end(&table, out);
    if (page->worth->guesses > 0) {
        fputs("\nYour own guesses, each at both ends of what it may be:\n", out);
        fill_guesses(&table, page);
        dawn_tableout_end(&table, out);
    }
    fputc('\n', out);
    put_notes(out, page);
    put_cares(out, page);
    dawn_report_study_for(out, page->story, page->worth->nights);
    dawn_report_return_level(out, page->units, page->story->years->count, place_of(page),
                             page->worth->by_air ? page->worth->as_it_is.air_one_in_10_C
                                                 : page->worth->as_it_is.one_in_10_C);
    fputs("caution: a model's estimate; the order is worth more than the tenths\n", out);
}

/* ---- CSV ---- */

static void put_csv_record(FILE *out, const struct page *page, const char *kind, const char *key,
                           const char *name, double cost, const struct dawn_worth_lows *low,
                           const struct dawn_worth_lows *high, double change_K, double nights)
{
    fprintf(out, "%s,%s,", kind, key);
    dawn_report_csv_field(out, name);
    dawn_report_csv_number(out, cost, 2);
    dawn_report_csv_number(out, low == NULL ? NAN : judged_C(page, low), 3);
    dawn_report_csv_number(out, high == NULL ? NAN : judged_C(page, high), 3);
    dawn_report_csv_number(out, change_K, 3);
    dawn_report_csv_number(out, nights, 0);
    fputs("\r\n", out);
}

static void put_csv(FILE *out, const struct page *page)
{
    const struct dawn_worth *worth = page->worth;

    fputs("kind,key,name,cost,coldest_C,coldest_high_C,change_K,nights_less\r\n", out);
    put_csv_record(out, page, "as_it_is", "none", "as it is", NAN, &worth->as_it_is, NULL, NAN,
                   NAN);
    for (size_t i = 0; i < worth->ways; i++) {
        const struct dawn_worth_way *way = &worth->way[i];
        put_csv_record(out, page, "improvement", way->key, way->name, way->cost,
                       way->failed ? NULL : &way->lows, NULL, way->gain_K, way->nights_less);
    }
    for (size_t i = 0; i < worth->guesses; i++) {
        const struct dawn_worth_guess *guess = &worth->guess[i];
        put_csv_record(
            out, page, "guess", guess->key, guess->name, NAN, guess->failed ? NULL : &guess->at_low,
            guess->failed ? NULL : &guess->at_high, guess->failed ? NAN : guess->swing_K, NAN);
    }
}

/* ---- JSON ---- */

static void put_json_sets(struct dawn_jsonout *json, const char *key,
                          const struct dawn_trial *trial)
{
    dawn_jsonout_array(json, key);
    for (size_t i = 0; i < trial->sets && i < DAWN_TRIAL_SETS; i++) {
        dawn_jsonout_text(json, NULL, trial->set[i]);
    }
    dawn_jsonout_close_array(json);
}

static void put_json_lows(struct dawn_jsonout *json, const char *key,
                          const struct dawn_worth_lows *lows)
{
    dawn_jsonout_object(json, key);
    dawn_jsonout_number(json, "coldest_C", lows->coldest_C, 3);
    dawn_jsonout_number(json, "air_coldest_C", lows->air_coldest_C, 3);
    dawn_jsonout_number(json, "one_in_10_years_C", lows->one_in_10_C, 3);
    dawn_jsonout_number(json, "one_in_10_years_air_C", lows->air_one_in_10_C, 3);
    dawn_jsonout_number(json, "nights_below", lows->below, 0);
    dawn_jsonout_number(json, "nights_below_crop", lows->below_crop, 0);
    dawn_jsonout_close_object(json);
}

static void put_json_way(struct dawn_jsonout *json, const struct dawn_worth_way *way)
{
    dawn_jsonout_object(json, NULL);
    dawn_jsonout_text(json, "improvement", way->key);
    dawn_jsonout_text(json, "name", way->name);
    dawn_jsonout_text(json, "care", way->care);
    dawn_jsonout_number(json, "cost", way->cost, 2);
    put_json_sets(json, "set", &way->trial);
    if (!way->failed) {
        put_json_lows(json, "lows", &way->lows);
    }
    dawn_jsonout_number(json, "gain_K", way->gain_K, 3);
    dawn_jsonout_number(json, "gain_K_for_100", for_100(way), 4);
    dawn_jsonout_number(json, "nights_less", way->nights_less, 0);
    dawn_jsonout_close_object(json);
}

static void put_json_guess(struct dawn_jsonout *json, const struct dawn_worth_guess *guess)
{
    dawn_jsonout_object(json, NULL);
    dawn_jsonout_text(json, "guess", guess->key);
    dawn_jsonout_text(json, "name", guess->name);
    dawn_jsonout_text(json, "measure", guess->measure);
    put_json_sets(json, "set_low", &guess->low);
    put_json_sets(json, "set_high", &guess->high);
    if (!guess->failed) {
        put_json_lows(json, "low", &guess->at_low);
        put_json_lows(json, "high", &guess->at_high);
    }
    dawn_jsonout_number(json, "apart_K", guess->failed ? NAN : guess->swing_K, 3);
    dawn_jsonout_close_object(json);
}

static void put_json(FILE *out, const struct page *page)
{
    struct dawn_text decision = {0};
    struct dawn_jsonout json;

    add_decision(&decision, page);
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_study_json(&json, "worth", page->story, decision.data, page->worth->nights);
    dawn_jsonout_bool(&json, "stopped", page->worth->stopped);
    dawn_jsonout_text(&json, "place", page->worth->at_trays ? "trays" : "air");
    dawn_jsonout_text(&json, "judged_by",
                      page->worth->by_air || !page->worth->at_trays ? "air" : "trays");
    dawn_jsonout_number(&json, "line_C", page->line_C, 3);
    dawn_jsonout_text(&json, "currency", money_of(page));
    put_json_lows(&json, "as_it_is", &page->worth->as_it_is);
    dawn_jsonout_array(&json, "improvements");
    for (size_t i = 0; i < page->worth->ways; i++) {
        put_json_way(&json, &page->worth->way[i]);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_array(&json, "guesses");
    for (size_t i = 0; i < page->worth->guesses; i++) {
        put_json_guess(&json, &page->worth->guess[i]);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
    dawn_text_release(&decision);
}

void dawn_report_worth(FILE *out, enum dawn_format format, enum dawn_units units,
                       const struct dawn_study_story *story, const struct dawn_worth *worth,
                       double line_C)
{
    const struct page page = {format == DAWN_TEXT ? units : DAWN_METRIC, story, worth, line_C};

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
