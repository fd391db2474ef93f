/* Tonight on one screen: the decision, what each action is worth, what to look for in the night. */
#include <math.h>

#include "base/tableout.h"
#include "base/text.h"
#include "report/report_tonight.h"

static const char *per_cent(double chance, char out[DAWN_REPORT_ROOM])
{
    char number[DAWN_REPORT_ROOM];

    snprintf(out, DAWN_REPORT_ROOM, "%.20s %%", dawn_report_fixed(100.0 * chance, 0, number));
    return out;
}

const char *dawn_report_tonight_name(const struct dawn_tonight_row *row)
{
    return row->action != NULL ? row->action->name : "nothing";
}

static void add_chance(struct dawn_text *text, double chance, size_t members)
{
    char odds[32];
    char share[DAWN_REPORT_ROOM];

    dawn_text_add(text, "%s (%s)", dawn_forecast_odds(chance, members, odds),
                  per_cent(chance, share));
}

static void add_place(struct dawn_text *text, const struct dawn_tonight *tonight)
{
    if (tonight->crop_count == 0) {
        dawn_text_add(text, "below 0 C at %s", tonight->at_trays ? "the trays" : "the house air");
        return;
    }
    dawn_text_add(text, "damage %s", dawn_nights_crop_place_words(tonight->crop_place));
}

void dawn_report_tonight_decision(const struct dawn_tonight_story *story, struct dawn_text *text)
{
    const struct dawn_tonight *tonight = story->tonight;
    const struct dawn_tonight_row *nothing = &tonight->row[tonight->nothing];
    const bool none = tonight->least == tonight->count;
    const struct dawn_tonight_row *least = &tonight->row[none ? 0 : tonight->least];

    if (none && least->action == NULL) {
        dawn_text_add(text, "nothing you own is enough tonight: ");
    } else if (none) {
        dawn_text_add(text, "nothing you own is enough tonight; best is %s: ",
                      dawn_report_tonight_name(least));
    } else if (least->action == NULL) {
        dawn_text_add(text, "nothing need be done tonight: ");
    } else {
        dawn_text_add(text, "tonight: %s: ", dawn_report_tonight_name(least));
    }
    if (least->carried) {
        dawn_text_add(text, "what is carried in is out of the night");
    } else {
        add_chance(text, least->harmed, tonight->members);
        dawn_text_add(text, " of ");
        add_place(text, tonight);
    }
    if (least->action != NULL) {
        dawn_text_add(text, "; without it ");
        add_chance(text, nothing->harmed, tonight->members);
    }
}

/* ---- the table ---- */

static void put_degrees(struct dawn_tableout *table, double value_C, enum dawn_units units)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", dawn_report_degrees(value_C, units, number));
}

static void put_row(struct dawn_tableout *table, const struct dawn_tonight_story *story,
                    enum dawn_units units, size_t i)
{
    const struct dawn_tonight *tonight = story->tonight;
    const struct dawn_tonight_row *row = &tonight->row[i];
    const double offset_h = story->scenario->site.utc_offset_h;
    const struct dawn_forecast_range *low =
        isnan(row->leaf_C.middle) ? &row->place_C : &row->leaf_C;
    char words[DAWN_REPORT_ROOM];
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", i == tonight->least ? ">" : "");
    dawn_tableout_cell(table, "%.26s", dawn_report_tonight_name(row));
    dawn_tableout_cell(table, "%s",
                       row->action != NULL ? dawn_report_clock((double)row->from_s, offset_h, words)
                                           : "");
    dawn_tableout_cell(table, "%s", row->carried ? "out" : per_cent(row->harmed, words));
    put_degrees(table, low->tenth, units);
    put_degrees(table, low->middle, units);
    put_degrees(table, low->ninth, units);
    dawn_tableout_cell(
        table, "%s",
        row->action != NULL ? dawn_report_fixed(row->action->work_s / 60.0, 0, number) : "");
    dawn_tableout_cell(table, "%s",
                       row->action != NULL ? dawn_report_fixed(row->action->cost, 2, words) : "");
}

void dawn_report_tonight_table(struct dawn_tableout *table, const struct dawn_tonight_story *story,
                               enum dawn_units units)
{
    const struct dawn_tonight *tonight = story->tonight;
    const bool leaves = tonight->crop_place == DAWN_CROP_AT_LEAVES;
    const char *const heading[] = {"",
                                   "Action",
                                   "At",
                                   "Chance",
                                   leaves ? "Leaf" : "Low",
                                   "low",
                                   dawn_report_unit_letter(units),
                                   "Min",
                                   "Cost"};
    const char *const shares[] = {"", "", "", "", "1/10", "1/2", "9/10", "", ""};

    dawn_tableout_begin(table, 9, "lllrrrrrr");
    for (size_t i = 0; i < 9; i++) {
        dawn_tableout_cell(table, "%s", heading[i]);
    }
    for (size_t i = 0; i < 9; i++) {
        dawn_tableout_cell(table, "%s", shares[i]);
    }
    for (size_t i = 0; i < tonight->count; i++) {
        put_row(table, story, units, i);
    }
}

/* ---- the night ---- */

void dawn_report_tonight_reading(struct dawn_text *text, const struct dawn_tonight_story *story)
{
    char share[DAWN_REPORT_ROOM];

    dawn_text_add(text,
                  "> is the cheapest, then quickest, that leaves a chance of %s or less; the "
                  "chance is that of a crop's damage at its place, of %zu runs with the same "
                  "weather for all; Min: minutes of work",
                  per_cent(story->tonight->accepted, share), story->tonight->members);
}

void dawn_report_tonight_checks(struct dawn_text *text, const struct dawn_tonight_story *story,
                                enum dawn_units units)
{
    const struct dawn_tonight *tonight = story->tonight;
    const double offset_h = story->scenario->site.utc_offset_h;
    const struct dawn_tonight_row *row =
        &tonight->row[tonight->least < tonight->count ? tonight->least : tonight->nothing];
    char clock[DAWN_REPORT_ROOM];
    char middle[DAWN_REPORT_ROOM];
    char tenth[DAWN_REPORT_ROOM];

    if (row->carried) {
        row = &tonight->row[tonight->nothing];
    }
    for (size_t i = 0; i < tonight->check_count; i++) {
        if (isnan(row->check_middle_C[i])) {
            continue;
        }
        dawn_text_add(text, "%s %s at %s (act below %s)",
                      text->size == 0 ? "the house air at the benches should read" : ",",
                      dawn_report_degrees_unit(row->check_middle_C[i], units, middle),
                      dawn_report_clock((double)tonight->check_s[i], offset_h, clock),
                      dawn_report_degrees_unit(row->check_tenth_C[i], units, tenth));
    }
    if (text->size > 0) {
        dawn_text_add(text,
                      " with %s done; below the second figure the night runs colder than in "
                      "nine of ten runs",
                      dawn_report_tonight_name(row));
    }
}

void dawn_report_tonight_failure(struct dawn_text *text, const struct dawn_tonight_story *story,
                                 enum dawn_units units)
{
    const struct dawn_tonight *tonight = story->tonight;
    char words[DAWN_REPORT_ROOM];
    char line[DAWN_REPORT_ROOM];

    if (isnan(tonight->failed_harmed)) {
        return;
    }
    dawn_text_add(text, "if fan or power fails now: ");
    add_chance(text, tonight->failed_harmed, tonight->members);
    if (isnan(tonight->failed_cross_s)) {
        dawn_text_add(text, "; as forecast, %s is not crossed",
                      dawn_report_line(tonight->line_C, units, line));
    } else {
        dawn_text_add(
            text, "; as forecast, %s is crossed at %s",
            dawn_report_line(tonight->line_C, units, line),
            dawn_report_clock(tonight->failed_cross_s, story->scenario->site.utc_offset_h, words));
    }
    dawn_text_add(text, " %s", dawn_nights_crop_place_words(tonight->crop_place));
}

static bool any_action(const struct dawn_tonight *tonight,
                       bool (*is)(const struct dawn_action *action))
{
    for (size_t i = 0; i < tonight->count; i++) {
        if (tonight->row[i].action != NULL && is(tonight->row[i].action)) {
            return true;
        }
    }
    return false;
}

static bool heats(const struct dawn_action *action)
{
    return action->heat_W > 0.0;
}

static bool covers(const struct dawn_action *action)
{
    return action->cover > 0;
}

static bool pours(const struct dawn_action *action)
{
    return action->hot_water_m3 > 0.0;
}

void dawn_report_tonight_uncover(struct dawn_text *text, const struct dawn_tonight_story *story)
{
    char clock[DAWN_REPORT_ROOM];

    if (any_action(story->tonight, covers)) {
        dawn_text_add(
            text,
            "by %s, an hour after sunrise, at the latest (common practice): under a cover "
            "in the sun plants cook",
            dawn_report_clock((double)story->tonight->dawn_s + 3600.0,
                              story->scenario->site.utc_offset_h, clock));
    }
}

void dawn_report_tonight_caution(struct dawn_text *text, const struct dawn_tonight_story *story)
{
    const struct dawn_tonight *tonight = story->tonight;

    dawn_text_add(text,
                  "a small chance is not none; hang an alarm thermometer at the coldest tray");
    if (any_action(tonight, heats)) {
        dawn_text_add(text, "; a fuel heater needs flue, fresh air and a carbon monoxide alarm, "
                            "and its fumes harm plants; any heater stands clear of film and "
                            "fleece, and is not left to itself");
    }
    if (any_action(tonight, heats) || any_action(tonight, pours)) {
        dawn_text_add(text, "; no water near sockets, residual-current protection on every "
                            "circuit");
    }
    if (any_action(tonight, pours)) {
        dawn_text_add(text, "; hot water scalds");
    }
}

void dawn_report_tonight_context(struct dawn_text *text, const struct dawn_tonight_story *story)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    const struct dawn_night night = {.dusk_s = story->tonight->dusk_s,
                                     .dawn_s = story->tonight->dawn_s};
    char name[DAWN_REPORT_ROOM];
    char clock[DAWN_REPORT_ROOM];

    dawn_text_add(text, "%s, %s, from %s on, forecast %s",
                  story->scenario->name[0] != '\0' ? story->scenario->name : "this nursery",
                  dawn_report_night_name(&night, offset_h, name),
                  dawn_report_clock((double)story->tonight->from_s, offset_h, clock),
                  story->weather->path);
    if (story->history != NULL) {
        dawn_text_add(text, ", history %s", story->history);
    }
    if (story->readings != NULL) {
        dawn_text_add(text, "; read off now: %.60s", story->readings);
    }
    for (size_t i = 0; i < story->override_count; i++) {
        dawn_text_add(text, "%s%s", i == 0 ? "; set for this run: " : ", ", story->overrides[i]);
    }
    if (story->scenario->action_count == 0) {
        dawn_text_add(text, "; the scenario names no actions: list yours under actions: (dawnlow "
                            "explain actions)");
    }
}

/* "lead: text", broken at the screen's width; nothing where there is nothing to say. */
static void put_said(FILE *out, const char *lead, struct dawn_text *text)
{
    struct dawn_text line = {0};

    if (!text->failed && text->data != NULL) {
        dawn_text_add(&line, "%s: %s", lead, text->data);
        if (!line.failed) {
            dawn_report_wrapped(out, "     ", line.data);
        }
    }
    dawn_text_release(&line);
    dawn_text_release(text);
}

static void put_notes(FILE *out, const struct dawn_tonight_story *story, enum dawn_units units)
{
    struct dawn_text text = {0};

    dawn_report_tonight_reading(&text, story);
    put_said(out, "read", &text);
    dawn_report_tonight_checks(&text, story, units);
    put_said(out, "look", &text);
    dawn_report_tonight_failure(&text, story, units);
    put_said(out, "fails", &text);
    dawn_report_tonight_context(&text, story);
    put_said(out, "for", &text);
    dawn_report_tonight_uncover(&text, story);
    put_said(out, "uncover", &text);
    dawn_report_tonight_caution(&text, story);
    put_said(out, "caution", &text);
}

void dawn_report_tonight_text(FILE *out, enum dawn_units units,
                              const struct dawn_tonight_story *story)
{
    struct dawn_text decision = {0};
    struct dawn_tableout table;

    dawn_report_tonight_decision(story, &decision);
    if (!decision.failed) {
        dawn_report_wrapped(out, "", decision.data);
    }
    dawn_text_release(&decision);
    fputc('\n', out);
    dawn_report_tonight_table(&table, story, units);
    dawn_tableout_end(&table, out);
    fputc('\n', out);
    put_notes(out, story, units);
}

void dawn_report_tonight_brief(FILE *out, const struct dawn_tonight_story *story)
{
    struct dawn_text text = {0};

    dawn_text_add(&text, "%s: ", story->scenario->name);
    dawn_report_tonight_decision(story, &text);
    if (!text.failed) {
        fprintf(out, "%s\n", text.data);
    }
    dawn_text_release(&text);
}
