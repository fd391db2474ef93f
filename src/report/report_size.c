/* What to build: the answer, what decides it, a bit more or less, and the curve. */
#include <math.h>

#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "dawnlow/studies/return_level.h"
#include "report/report_parts.h"

struct page {
    enum dawn_units units;
    const struct dawn_study_story *story;
    const struct dawn_size *size;
    const struct dawn_size_plan *plan;
};

static const char *money_of(const struct page *page)
{
    return page->story->scenario->prices.currency;
}

/* ---- words ---- */

static void add_value(struct dawn_text *text, const struct page *page, size_t lever,
                      const struct dawn_size_design *design)
{
    static const char *const covers[] = {"no more covers", "fleece over the trays",
                                         "a curtain below the roof", "fleece and a curtain"};
    const struct dawn_size_lever *it = &page->plan->lever[lever];
    const double value = design->value[lever];

    switch (it->kind) {
    case DAWN_SIZE_ROCK:
        if (value <= 0.0) {
            dawn_text_add(text, "no rock and no fan");
        } else {
            dawn_text_add(text, "%.3g t of rock", value);
        }
        break;
    case DAWN_SIZE_STONE:
        dawn_text_add(text, "stones of %.3g mm", value);
        break;
    case DAWN_SIZE_DEPTH:
        dawn_text_add(text, "%.3g m deep", value);
        break;
    case DAWN_SIZE_FAN:
        if (page->story->scenario->fan_offer_count > 0) {
            dawn_text_add(text, "fan '%s'",
                          page->story->scenario->fans[(size_t)fmax(value, 1.0) - 1].name);
        } else {
            dawn_text_add(text, "a fan of %.4g m3/h", value);
        }
        break;
    case DAWN_SIZE_BARRELS:
        dawn_text_add(text, value < 0.5 ? "no barrels" : "%.0f %s", value,
                      value < 1.5 ? "barrel" : "barrels");
        break;
    case DAWN_SIZE_SKINS:
        dawn_text_add(text, value > 1.5 ? "a second skin" : "the skins there are");
        break;
    case DAWN_SIZE_EDGE:
        if (value > 0.0) {
            dawn_text_add(text, "board %.0f cm deep along the edge", value);
        } else {
            dawn_text_add(text, "no board along the edge");
        }
        break;
    case DAWN_SIZE_COVERS:
        dawn_text_add(text, "%s", covers[(int)value & 3]);
        break;
    case DAWN_SIZE_KINDS:
        break;
    }
}

/* Without rock there is no fan, and its size says nothing. */
static bool says_something(const struct page *page, size_t lever,
                           const struct dawn_size_design *design)
{
    const enum dawn_size_kind kind = page->plan->lever[lever].kind;

    if (kind != DAWN_SIZE_FAN && kind != DAWN_SIZE_STONE && kind != DAWN_SIZE_DEPTH) {
        return true;
    }
    for (size_t i = 0; i < page->plan->levers; i++) {
        if (page->plan->lever[i].kind == DAWN_SIZE_ROCK && design->value[i] <= 0.0) {
            return false;
        }
    }
    return true;
}

static void add_design(struct dawn_text *text, const struct page *page,
                       const struct dawn_size_design *design)
{
    bool first = true;

    for (size_t i = 0; i < page->plan->levers; i++) {
        if (says_something(page, i, design)) {
            dawn_text_add(text, "%s", first ? "" : ", ");
            add_value(text, page, i, design);
            first = false;
        }
    }
}

static void add_goal(struct dawn_text *text, const struct page *page)
{
    const struct dawn_goal *goal = &page->plan->goal;
    char line[DAWN_REPORT_ROOM];

    if (goal->crop[0] != '\0') {
        dawn_text_add(text, "%s unharmed, ", goal->crop);
    }
    dawn_text_add(text, "%s at the %s, ", dawn_report_line(goal->line_C, page->units, line),
                  dawn_goal_place_words(goal->place));
    if (goal->nights <= 0.0) {
        dawn_text_add(text, "never lower");
    } else {
        dawn_text_add(text, "lower in %.3g %s of %.3g %s", goal->nights,
                      goal->nights > 1.0 ? "nights" : "night", goal->springs,
                      goal->spring_only ? "springs" : "years");
    }
}

static void add_decision(struct dawn_text *text, const struct page *page)
{
    const struct dawn_size *size = page->size;
    char low[DAWN_REPORT_ROOM];

    if (size->stopped) {
        dawn_text_add(text, "stopped before an answer was found");
        return;
    }
    if (size->met) {
        dawn_text_add(text, "build ");
        add_design(text, page, &size->best);
        dawn_text_add(text, ": %.0f %s", size->best.cost.total, money_of(page));
        return;
    }
    if (size->over_budget) {
        dawn_text_add(text, "not for %.0f %s: the cheapest that holds costs %.0f (",
                      page->plan->budget, money_of(page), size->best.cost.total);
        add_design(text, page, &size->best);
        dawn_text_add(text, ")");
        return;
    }
    dawn_text_add(text, "nothing that may be varied holds this; the best reaches %s: ",
                  dawn_report_degrees_unit(size->reach.low_C, page->units, low));
    add_design(text, page, &size->reach);
}

/* ---- text ---- */

static void wrapped(FILE *out, const char *indent, struct dawn_text *text)
{
    if (!text->failed && text->data != NULL) {
        dawn_report_wrapped(out, indent, text->data);
    }
    dawn_text_release(text);
}

static void put_goal(FILE *out, const struct page *page)
{
    struct dawn_text text = {0};

    dawn_text_add(&text, "goal: ");
    add_goal(&text, page);
    dawn_text_add(&text, "; in %zu %s of weather so many nights may be lower: %zu",
                  page->size->springs, page->size->springs == 1 ? "year" : "years",
                  page->size->allowed);
    wrapped(out, "  ", &text);
}

static void put_decides(FILE *out, const struct page *page)
{
    const struct dawn_size_design *it =
        page->size->met || page->size->over_budget ? &page->size->best : &page->size->reach;
    const double offset_h = page->story->scenario->site.utc_offset_h;
    struct dawn_text text = {0};
    char low[DAWN_REPORT_ROOM];
    char day[DAWN_REPORT_ROOM];

    dawn_text_add(&text, "what decides: the night of %s, %s at the %s",
                  dawn_report_day(it->night_s, offset_h, day),
                  dawn_report_degrees_unit(it->low_C, page->units, low),
                  dawn_goal_place_words(page->plan->goal.place));
    for (size_t i = 0; i < page->plan->levers; i++) {
        const struct dawn_size_lever *lever = &page->plan->lever[i];
        if (it->value[i] >= lever->most - 1e-9 && !page->size->met) {
            dawn_text_add(&text, "; %s at its end, %.4g%s%s", lever->words, lever->most,
                          lever->unit[0] != '\0' ? " " : "", lever->unit);
        }
    }
    if (!page->size->met && !page->size->over_budget) {
        dawn_text_add(&text, ". Storage cannot do what the shell loses: look at worth (leaks, a "
                             "second skin, covers), or vary more");
    }
    wrapped(out, "  ", &text);
}

/* No night below in n springs says, at 95 %, that a spring has one with a chance of at most
 * 1 - 0.05^(1/n): the exact binomial bound. */
static void put_sure(FILE *out, const struct page *page)
{
    const size_t springs = page->size->springs;
    struct dawn_text text = {0};

    if (!page->size->met) {
        return;
    }
    if (page->size->allowed == 0) {
        dawn_text_add(
            &text,
            "how sure: it holds in %zu of %zu; that alone only says, at 95 %%, that fewer "
            "than %.0f in 100 springs break it%s",
            springs, springs, ceil(100.0 * (1.0 - pow(0.05, 1.0 / (double)springs))),
            springs < DAWN_RETURN_LEVEL_FEW_YEARS
                ? ": fewer than ten springs are weak, give more years of weather"
                : "");
    } else {
        dawn_text_add(&text, "how sure: counted over %zu years of weather", springs);
    }
    wrapped(out, "  ", &text);
}

static void put_cost(FILE *out, const struct page *page)
{
    const struct dawn_cost *cost = page->size->met || page->size->over_budget
                                       ? &page->size->best.cost
                                       : &page->size->reach.cost;
    const struct {
        const char *words;
        double money;
    } parts[] = {{"stone", cost->rock},      {"digging", cost->digging}, {"fan", cost->fan},
                 {"barrels", cost->barrels}, {"skins", cost->skins},     {"edge", cost->edge},
                 {"covers", cost->covers}};
    struct dawn_text text = {0};

    dawn_text_add(&text, "cost of all of it, what you have included: ");
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (parts[i].money > 0.0) {
            dawn_text_add(&text, "%s %.0f, ", parts[i].words, parts[i].money);
        }
    }
    dawn_text_add(&text, "together %.0f %s; as the scenario is, %.0f", cost->total, money_of(page),
                  page->size->own.cost.total);
    wrapped(out, "  ", &text);
}

static void put_try(FILE *out, const struct page *page)
{
    const struct dawn_size_design *it = page->size->met ? &page->size->best : &page->size->reach;

    fputs("\nTry it, with these behind dawnlow nights:\n", out);
    for (size_t i = 0; i < it->trial.sets && i < DAWN_TRIAL_SETS; i++) {
        fprintf(out, "  --set \"%s\"\n", it->trial.set[i]);
    }
}

static void put_design_row(struct dawn_tableout *table, const struct page *page, const char *label,
                           const struct dawn_size_design *design)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", label);
    if (design->excluded != NULL || design->failed) {
        dawn_tableout_cell(table, "-");
        dawn_tableout_cell(table, "-");
        dawn_tableout_cell(table, "%s", design->excluded != NULL ? design->excluded : "no result");
        return;
    }
    dawn_tableout_cell(table, "%.0f", design->cost.total);
    dawn_tableout_cell(table, "%s", dawn_report_degrees(design->low_C, page->units, number));
    dawn_tableout_cell(table, "%s", design->slack_K >= 0.0 ? "holds" : "does not hold");
}

static void begin_designs(struct dawn_tableout *table, const struct page *page, const char *head)
{
    dawn_tableout_begin(table, 4, "lrrl");
    dawn_tableout_cell(table, "%s", head);
    dawn_tableout_cell(table, "%s", money_of(page));
    dawn_tableout_cell(table, "Low %s", dawn_report_unit_letter(page->units));
    dawn_tableout_cell(table, "%s", "");
}

static void put_one(struct dawn_tableout *table, const struct page *page, size_t lever,
                    const struct dawn_size_design *design)
{
    struct dawn_text label = {0};

    add_value(&label, page, lever, design);
    put_design_row(table, page, label.data != NULL ? label.data : "", design);
    dawn_text_release(&label);
}

static void put_changes(FILE *out, const struct page *page)
{
    struct dawn_tableout table;

    if (page->size->changes == 0) {
        return;
    }
    fputc('\n', out);
    begin_designs(&table, page, "A bit less, a bit more");
    put_design_row(&table, page, "as found", &page->size->best);
    for (size_t i = 0; i < page->size->changes; i++) {
        put_one(&table, page, page->size->change[i].lever, &page->size->change[i].design);
    }
    dawn_tableout_end(&table, out);
}

static void put_curve(FILE *out, const struct page *page)
{
    const struct dawn_size *size = page->size;
    const struct dawn_size_lever *lever = &page->plan->lever[size->curve_lever];
    struct dawn_tableout table;
    struct dawn_text text = {0};

    if (size->curve_count == 0) {
        return;
    }
    fputc('\n', out);
    begin_designs(&table, page, "The low against it, all else as found");
    for (size_t i = 0; i < size->curve_count; i++) {
        put_one(&table, page, size->curve_lever, &size->curve[i]);
    }
    dawn_tableout_end(&table, out);
    if (!isnan(size->knee)) {
        dawn_text_add(&text, "beyond %.3g%s%s of %s more adds less than %.2g %s per %s", size->knee,
                      lever->unit[0] != '\0' ? " " : "", lever->unit, lever->words,
                      DAWN_SIZE_KNEE_K * (page->units == DAWN_US ? 1.8 : 1.0),
                      dawn_report_change_unit(page->units),
                      lever->kind == DAWN_SIZE_ROCK ? "tonne" : "step");
        wrapped(out, "  ", &text);
    }
}

/* What the trade builds, beside what was found. */
static const struct dawn_size_design *shown(const struct dawn_size *size)
{
    return size->met || size->over_budget ? &size->best : &size->reach;
}

static void put_notes(FILE *out, const struct page *page)
{
    struct dawn_text text = {0};

    dawn_text_add(
        &text,
        "how it was found: %zu nurseries run, %zu left out as silly to build (rock deeper "
        "than 1.2 m or thinner than 0.15 m under the bed, an air path longer than the "
        "house, air faster than 0.3 m/s through the rock, more air than the fan's power "
        "can move, barrels that do not fit on the floor); prices left out in the "
        "scenario are only values to start from",
        page->size->tried, page->size->excluded);
    wrapped(out, "     ", &text);
    dawn_report_wrapped(out, "     ",
                        "caution: a model's estimate. Rock weighs 1.6 t/m3 and pushes sideways, a "
                        "full barrel over 200 kg: a licensed engineer says what ground and walls "
                        "carry. Before digging find cables and pipes; shore what could slide. "
                        "Fan near water: residual-current protection");
}

static void put_text(FILE *out, const struct page *page)
{
    struct dawn_text decision = {0};

    add_decision(&decision, page);
    wrapped(out, "  ", &decision);
    if (page->size->stopped) {
        return;
    }
    put_goal(out, page);
    put_decides(out, page);
    put_sure(out, page);
    put_cost(out, page);
    put_try(out, page);
    put_changes(out, page);
    put_curve(out, page);
    if (page->size->ranges > 0) {
        struct dawn_tableout table;
        fputc('\n', out);
        dawn_tableout_begin(&table, 4, "lrrl");
        dawn_tableout_cell(&table, "Against what is usually built");
        dawn_tableout_cell(&table, "Found");
        dawn_tableout_cell(&table, "Usual");
        dawn_tableout_cell(&table, "%s", "");
        for (size_t i = 0; i < page->size->ranges; i++) {
            const struct dawn_size_range *range = &page->size->range[i];
            dawn_tableout_cell(&table, "%s", range->words);
            dawn_tableout_cell(&table, "%.2f", range->value);
            dawn_tableout_cell(&table, "%.4g-%.4g", range->least, range->most);
            dawn_tableout_cell(&table, "%s",
                               range->value < range->least  ? "less than usual"
                               : range->value > range->most ? "more than usual"
                                                            : "as usual");
        }
        dawn_tableout_end(&table, out);
    }
    fputc('\n', out);
    put_notes(out, page);
    dawn_report_study_for(out, page->story, page->size->nights);
}

/* ---- CSV and JSON ---- */

static void put_csv_row(FILE *out, const struct page *page, const char *what,
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
    fputc(',', out);
    dawn_report_csv_field(out, design->excluded != NULL ? design->excluded : "");
    fputs("\r\n", out);
}

static void put_csv(FILE *out, const struct page *page)
{
    const struct dawn_size *size = page->size;

    fputs("what", out);
    for (size_t i = 0; i < page->plan->levers; i++) {
        fprintf(out, ",%s", page->plan->lever[i].key);
    }
    fputs(",cost,low_C,slack_K,excluded\r\n", out);
    put_csv_row(out, page, "as_it_is", &size->own);
    put_csv_row(out, page, size->met ? "answer" : "nearest", shown(size));
    for (size_t i = 0; i < size->changes; i++) {
        put_csv_row(out, page, "change", &size->change[i].design);
    }
    for (size_t i = 0; i < size->curve_count; i++) {
        put_csv_row(out, page, "curve", &size->curve[i]);
    }
}

static void put_json_design(struct dawn_jsonout *json, const char *key, const struct page *page,
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
    dawn_jsonout_text(json, "excluded", design->excluded);
    dawn_jsonout_array(json, "set");
    for (size_t i = 0; i < design->trial.sets && i < DAWN_TRIAL_SETS; i++) {
        dawn_jsonout_text(json, NULL, design->trial.set[i]);
    }
    dawn_jsonout_close_array(json);
    dawn_jsonout_close_object(json);
}

static void put_json_goal(struct dawn_jsonout *json, const struct page *page)
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

static void put_json_lists(struct dawn_jsonout *json, const struct page *page)
{
    const struct dawn_size *size = page->size;

    dawn_jsonout_array(json, "changes");
    for (size_t i = 0; i < size->changes; i++) {
        put_json_design(json, NULL, page, &size->change[i].design);
    }
    dawn_jsonout_close_array(json);
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

static void put_json(FILE *out, const struct page *page)
{
    const struct dawn_size *size = page->size;
    struct dawn_text decision = {0};
    struct dawn_jsonout json;

    add_decision(&decision, page);
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_study_json(&json, page->story, decision.data, size->nights);
    dawn_jsonout_bool(&json, "stopped", size->stopped);
    dawn_jsonout_bool(&json, "met", size->met);
    dawn_jsonout_bool(&json, "over_budget", size->over_budget);
    dawn_jsonout_number(&json, "budget", page->plan->budget, 2);
    dawn_jsonout_text(&json, "currency", money_of(page));
    put_json_goal(&json, page);
    put_json_design(&json, "as_it_is", page, &size->own);
    put_json_design(&json, size->met ? "answer" : "nearest", page, shown(size));
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
    const struct page page = {format == DAWN_TEXT ? units : DAWN_METRIC, story, size, plan};

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
