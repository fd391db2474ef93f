/* What to build: the answer, what decides it, a bit more or less, and the curve. */
#include <math.h>

#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "dawnlow/studies/return_level.h"
#include "report/report_size.h"

const char *dawn_report_size_money(const struct dawn_report_sizing *page)
{
    return page->story->scenario->prices.currency;
}

const struct dawn_size_design *dawn_report_size_shown(const struct dawn_size *size)
{
    return size->met || size->over_budget ? &size->best : &size->reach;
}

/* ---- words ---- */

static void add_value(struct dawn_text *text, const struct dawn_report_sizing *page, size_t lever,
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
static bool says_something(const struct dawn_report_sizing *page, size_t lever,
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

static void add_design(struct dawn_text *text, const struct dawn_report_sizing *page,
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

static void add_goal(struct dawn_text *text, const struct dawn_report_sizing *page)
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

void dawn_report_size_decision(struct dawn_text *text, const struct dawn_report_sizing *page)
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
        dawn_text_add(text, ": %.0f %s", size->best.cost.total, dawn_report_size_money(page));
        return;
    }
    if (size->over_budget) {
        dawn_text_add(text, "not for %.0f %s: the cheapest that holds costs %.0f (",
                      page->plan->budget, dawn_report_size_money(page), size->best.cost.total);
        add_design(text, page, &size->best);
        dawn_text_add(text, ")");
        return;
    }
    dawn_text_add(text, "nothing that may be varied holds this; the best reaches %s: ",
                  dawn_report_degrees_unit(size->reach.low_C, page->units, low));
    add_design(text, page, &size->reach);
}

/* ---- what belongs to the answer ---- */

void dawn_report_size_goal(struct dawn_text *text, const struct dawn_report_sizing *page)
{
    add_goal(text, page);
    dawn_text_add(text, "; in %zu %s of weather so many nights may be lower: %zu",
                  page->size->springs, page->size->springs == 1 ? "year" : "years",
                  page->size->allowed);
}

void dawn_report_size_decides(struct dawn_text *text, const struct dawn_report_sizing *page)
{
    const struct dawn_size_design *it =
        page->size->met || page->size->over_budget ? &page->size->best : &page->size->reach;
    const double offset_h = page->story->scenario->site.utc_offset_h;
    char low[DAWN_REPORT_ROOM];
    char day[DAWN_REPORT_ROOM];

    dawn_text_add(text, "the night of %s, %s at the %s",
                  dawn_report_day(it->night_s, offset_h, day),
                  dawn_report_degrees_unit(it->low_C, page->units, low),
                  dawn_goal_place_words(page->plan->goal.place));
    for (size_t i = 0; i < page->plan->levers; i++) {
        const struct dawn_size_lever *lever = &page->plan->lever[i];
        if (it->value[i] >= lever->most - 1e-9 && !page->size->met) {
            dawn_text_add(text, "; %s at its end, %.4g%s%s", lever->words, lever->most,
                          lever->unit[0] != '\0' ? " " : "", lever->unit);
        }
    }
    if (!page->size->met && !page->size->over_budget) {
        dawn_text_add(text, ". Storage cannot do what the shell loses: look at worth (leaks, a "
                            "second skin, covers), or vary more");
    }
}

/* What the lowest night of each year says of the line. Trays that freeze are held at 0 C: what
 * falls below that is not seen then. */
static void add_fit(struct dawn_text *text, const struct dawn_report_sizing *page)
{
    const struct dawn_return_level_fit *fit = &page->size->best.fit;
    const char *year = page->plan->goal.spring_only ? "spring" : "year";
    const double passed = 100.0 * dawn_return_level_chance(fit, page->plan->goal.line_C);
    char low[DAWN_REPORT_ROOM];
    char error[DAWN_REPORT_ROOM];

    if (isnan(passed)) {
        return;
    }
    dawn_text_add(
        text, "; by the coldest night of each of %zu %ss, 1 %s in 10 goes below %s (give or take ",
        fit->years, year, year,
        dawn_report_degrees_unit(dawn_return_level_C(fit, 10.0), page->units, low));
    dawn_text_add(text, "%s %s) and %s%.0f %ss in 100 below the line; %s",
                  dawn_report_fixed(dawn_return_level_error_K(fit, 10.0) *
                                        (page->units == DAWN_US ? 1.8 : 1.0),
                                    1, error),
                  dawn_report_change_unit(page->units), passed < 1.0 ? "fewer than " : "",
                  fmax(ceil(passed), 1.0), year, dawn_return_level_words(fit->years));
}

/* No night below in n springs says, at 95 %, that a spring has one with a chance of at most
 * 1 - 0.05^(1/n): the exact binomial bound. */
void dawn_report_size_sure(struct dawn_text *text, const struct dawn_report_sizing *page)
{
    const size_t springs = page->size->springs;

    if (!page->size->met) {
        return;
    }
    if (page->size->allowed == 0) {
        dawn_text_add(text,
                      "it holds in %zu of %zu; that alone only says, at 95 %%, that fewer "
                      "than %.0f in 100 springs break it",
                      springs, springs, ceil(100.0 * (1.0 - pow(0.05, 1.0 / (double)springs))));
    } else {
        dawn_text_add(text, "counted over %zu years of weather", springs);
    }
    add_fit(text, page);
    if (springs < DAWN_RETURN_LEVEL_FEW_YEARS) {
        dawn_text_add(text, "; fewer than ten springs are weak, give more years of weather");
    }
}

size_t dawn_report_size_parts(const struct dawn_report_sizing *page,
                              struct dawn_report_size_part part[DAWN_REPORT_SIZE_PARTS])
{
    const struct dawn_cost *cost = &dawn_report_size_shown(page->size)->cost;
    const struct dawn_report_size_part all[DAWN_REPORT_SIZE_PARTS] = {
        {"stone", cost->rock},      {"digging", cost->digging}, {"fan", cost->fan},
        {"barrels", cost->barrels}, {"skins", cost->skins},     {"edge", cost->edge},
        {"covers", cost->covers}};
    size_t count = 0;

    for (size_t i = 0; i < DAWN_REPORT_SIZE_PARTS; i++) {
        if (all[i].money > 0.0) {
            part[count++] = all[i];
        }
    }
    return count;
}

void dawn_report_size_costs(struct dawn_text *text, const struct dawn_report_sizing *page)
{
    struct dawn_report_size_part part[DAWN_REPORT_SIZE_PARTS];
    const size_t count = dawn_report_size_parts(page, part);

    for (size_t i = 0; i < count; i++) {
        dawn_text_add(text, "%s %.0f, ", part[i].words, part[i].money);
    }
    dawn_text_add(text, "together %.0f %s; as the scenario is, %.0f",
                  dawn_report_size_shown(page->size)->cost.total, dawn_report_size_money(page),
                  page->size->own.cost.total);
}

const struct dawn_trial *dawn_report_size_tried(const struct dawn_report_sizing *page)
{
    return page->size->met ? &page->size->best.trial : &page->size->reach.trial;
}

/* ---- tables ---- */

/* With the band where the table has a column for it. */
static void put_design_row(struct dawn_tableout *table, const struct dawn_report_sizing *page,
                           const char *label, const struct dawn_size_design *design, bool band)
{
    char number[DAWN_REPORT_ROOM];
    char other[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", label);
    if (design->excluded != NULL || design->failed) {
        for (int i = 0; i < (band ? 3 : 2); i++) {
            dawn_tableout_cell(table, "-");
        }
        dawn_tableout_cell(table, "%s", design->excluded != NULL ? design->excluded : "no result");
        return;
    }
    dawn_tableout_cell(table, "%.0f", design->cost.total);
    dawn_tableout_cell(table, "%s", dawn_report_degrees(design->low_C, page->units, number));
    if (band) {
        dawn_tableout_cell(table, "%s to %s",
                           dawn_report_degrees(design->band_low_C, page->units, number),
                           dawn_report_degrees(design->band_high_C, page->units, other));
    }
    dawn_tableout_cell(table, "%s", design->slack_K >= 0.0 ? "holds" : "does not hold");
}

static void begin_designs(struct dawn_tableout *table, const struct dawn_report_sizing *page,
                          const char *head, bool band)
{
    const char *letter = dawn_report_unit_letter(page->units);

    dawn_tableout_begin(table, band ? 5 : 4, band ? "lrrrl" : "lrrl");
    dawn_tableout_cell(table, "%s", head);
    dawn_tableout_cell(table, "%s", dawn_report_size_money(page));
    dawn_tableout_cell(table, "Low %s", letter);
    if (band) {
        dawn_tableout_cell(table, "Band %s", letter);
    }
    dawn_tableout_cell(table, "%s", "");
}

static void put_one(struct dawn_tableout *table, const struct dawn_report_sizing *page,
                    size_t lever, const struct dawn_size_design *design, bool band)
{
    struct dawn_text label = {0};

    add_value(&label, page, lever, design);
    put_design_row(table, page, label.data != NULL ? label.data : "", design, band);
    dawn_text_release(&label);
}

void dawn_report_size_changes(struct dawn_tableout *table, const struct dawn_report_sizing *page)
{
    begin_designs(table, page, "A bit less, a bit more", false);
    put_design_row(table, page, "as found", &page->size->best, false);
    for (size_t i = 0; i < page->size->changes; i++) {
        put_one(table, page, page->size->change[i].lever, &page->size->change[i].design, false);
    }
}

void dawn_report_size_curve(struct dawn_tableout *table, const struct dawn_report_sizing *page)
{
    const struct dawn_size *size = page->size;

    begin_designs(table, page, "The low against it, all else as found", true);
    for (size_t i = 0; i < size->curve_count; i++) {
        put_one(table, page, size->curve_lever, &size->curve[i], true);
    }
}

void dawn_report_size_band(struct dawn_text *text, const struct dawn_report_sizing *page)
{
    const struct dawn_return_level_fit *fit = &page->size->own.fit; /* as many years for all */
    const char *year = page->plan->goal.spring_only ? "spring" : "year";

    if (isnan(fit->scale_K)) {
        dawn_text_add(text,
                      "the %d coldest nights that count lie in it; how cold another %s gets takes "
                      "%d %ss of weather to tell",
                      (int)DAWN_SIZE_BAND_NIGHTS, year, (int)DAWN_RETURN_LEVEL_LEAST_YEARS, year);
    } else {
        dawn_text_add(text,
                      "what the coldest night of 1 %s in %d falls below, by %zu %ss of weather, "
                      "give or take its standard error; %s",
                      year, (int)DAWN_SIZE_BAND_YEARS, fit->years, year,
                      dawn_return_level_words(fit->years));
    }
}

void dawn_report_size_knee(struct dawn_text *text, const struct dawn_report_sizing *page)
{
    const struct dawn_size *size = page->size;
    const struct dawn_size_lever *lever = &page->plan->lever[size->curve_lever];

    if (size->curve_count > 0 && !isnan(size->knee)) {
        dawn_text_add(text, "beyond %.3g%s%s of %s more adds less than %.2g %s per %s", size->knee,
                      lever->unit[0] != '\0' ? " " : "", lever->unit, lever->words,
                      DAWN_SIZE_KNEE_K * (page->units == DAWN_US ? 1.8 : 1.0),
                      dawn_report_change_unit(page->units),
                      lever->kind == DAWN_SIZE_ROCK ? "tonne" : "step");
    }
}

void dawn_report_size_found(struct dawn_text *text, const struct dawn_report_sizing *page)
{
    dawn_text_add(text,
                  "%zu nurseries run%s, %zu left out as silly to build (rock deeper "
                  "than 1.2 m or thinner than 0.15 m under the bed, an air path longer than the "
                  "house, air faster than 0.3 m/s through the rock, more air than the fan's power "
                  "can move, barrels that do not fit on the floor); prices left out in the "
                  "scenario are only values to start from",
                  page->size->tried,
                  page->size->confirmed
                      ? " with the fast engine (lows within about 0.02 K), the answer with the "
                        "accurate one"
                      : "",
                  page->size->excluded);
}

const char *dawn_report_size_caution(void)
{
    return "a model's estimate. Rock weighs 1.6 t/m3 and pushes sideways, a full barrel over 200 "
           "kg: "
           "a licensed engineer says what ground and walls carry. Before digging find cables and "
           "pipes; shore what could slide. Fan near water: residual-current protection";
}

void dawn_report_size_usual(struct dawn_tableout *table, const struct dawn_report_sizing *page)
{
    dawn_tableout_begin(table, 4, "lrrl");
    dawn_tableout_cell(table, "Against what is usually built");
    dawn_tableout_cell(table, "Found");
    dawn_tableout_cell(table, "Usual");
    dawn_tableout_cell(table, "%s", "");
    for (size_t i = 0; i < page->size->ranges; i++) {
        const struct dawn_size_range *range = &page->size->range[i];
        dawn_tableout_cell(table, "%s", range->words);
        dawn_tableout_cell(table, "%.2f", range->value);
        dawn_tableout_cell(table, "%.4g-%.4g", range->least, range->most);
        dawn_tableout_cell(table, "%s",
                           range->value < range->least  ? "less than usual"
                           : range->value > range->most ? "more than usual"
                                                        : "as usual");
    }
}

void dawn_report_size_unusual(struct dawn_text *text, const struct dawn_report_sizing *page)
{
    const struct dawn_size *size = page->size;
    size_t less = 0;
    size_t more = 0;

    for (size_t i = 0; i < size->ranges; i++) {
        less += size->range[i].value < size->range[i].least;
        more += size->range[i].value > size->range[i].most;
    }
    if (less > 0 && (size->met || size->over_budget)) {
        dawn_text_add(text, "less than usual, because this goal is held with less: usual amounts "
                            "are for growing through winter, well above freezing. The table above "
                            "tells what more would add");
    } else if (less > 0) {
        dawn_text_add(text, "less than usual, because more was not to be had within what may be "
                            "varied, or hardly helps: the table above tells");
    }
    if (more > 0) {
        dawn_text_add(text,
                      "%smore than usual, because this shell loses, or this goal asks, more "
                      "than storage is usually built for",
                      less > 0 ? "; " : "");
    }
}

/* ---- text ---- */

/* "lead: text", broken at the screen's width; nothing where there is nothing to say. */
static void put_said(FILE *out, const char *indent, const char *lead, struct dawn_text *text)
{
    struct dawn_text line = {0};

    if (!text->failed && text->data != NULL) {
        dawn_text_add(&line, "%s%s%s", lead, lead[0] != '\0' ? ": " : "", text->data);
        if (!line.failed) {
            dawn_report_wrapped(out, indent, line.data);
        }
    }
    dawn_text_release(&line);
    dawn_text_release(text);
}

static void put_answer(FILE *out, const struct dawn_report_sizing *page)
{
    struct dawn_text text = {0};

    dawn_report_size_goal(&text, page);
    put_said(out, "  ", "goal", &text);
    dawn_report_size_decides(&text, page);
    put_said(out, "  ", "what decides", &text);
    dawn_report_size_sure(&text, page);
    put_said(out, "  ", "how sure", &text);
    dawn_report_size_costs(&text, page);
    put_said(out, "  ", "cost of all of it, what you have included", &text);
    fputs("\nTry it, with these behind dawnlow nights:\n", out);
    for (size_t i = 0; i < dawn_report_size_tried(page)->sets; i++) {
        fprintf(out, "  --set \"%s\"\n", dawn_report_size_tried(page)->set[i]);
    }
}

static void put_tables(FILE *out, const struct dawn_report_sizing *page)
{
    struct dawn_tableout table;
    struct dawn_text text = {0};

    if (page->size->changes > 0) {
        fputc('\n', out);
        dawn_report_size_changes(&table, page);
        dawn_tableout_end(&table, out);
    }
    if (page->size->curve_count > 0) {
        fputc('\n', out);
        dawn_report_size_curve(&table, page);
        dawn_tableout_end(&table, out);
        dawn_report_size_knee(&text, page);
        put_said(out, "  ", "", &text);
        dawn_report_size_band(&text, page);
        put_said(out, "  ", "band", &text);
    }
    if (page->size->ranges > 0) {
        fputc('\n', out);
        dawn_report_size_usual(&table, page);
        dawn_tableout_end(&table, out);
        dawn_report_size_unusual(&text, page);
        put_said(out, "     ", "why", &text);
    }
}

void dawn_report_size_text(FILE *out, const struct dawn_report_sizing *page)
{
    struct dawn_text text = {0};

    dawn_report_size_decision(&text, page);
    put_said(out, "  ", "", &text);
    if (page->size->stopped) {
        return;
    }
    put_answer(out, page);
    put_tables(out, page);
    fputc('\n', out);
    dawn_report_size_found(&text, page);
    put_said(out, "     ", "how it was found", &text);
    dawn_text_add(&text, "%s", dawn_report_size_caution());
    put_said(out, "     ", "caution", &text);
    dawn_report_study_for(out, page->story, page->size->nights);
}
