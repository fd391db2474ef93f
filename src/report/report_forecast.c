/* The coming nights as chances: text for people, and one line of it for a message. */
#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/tableout.h"
#include "base/text.h"
#include "report/report_forecast.h"

static const char *per_cent(double chance, char out[DAWN_REPORT_ROOM])
{
    char number[DAWN_REPORT_ROOM];

    snprintf(out, DAWN_REPORT_ROOM, "%.20s %%", dawn_report_fixed(100.0 * chance, 0, number));
    return out;
}

/* "Wed 11-12 Mar"; over the end of a month "Tue 31-1 Apr". */
static const char *short_name(const struct dawn_forecast_night *night, double offset_h,
                              char out[DAWN_REPORT_ROOM])
{
    const struct dawn_civil evening = dawn_civil_at(night->dusk_s, offset_h);
    const struct dawn_civil morning = dawn_civil_at(night->dawn_s, offset_h);

    snprintf(out, DAWN_REPORT_ROOM, "%s %d-%d %s", dawn_civil_weekday(evening.weekday), evening.day,
             morning.day, dawn_civil_month(morning.month));
    return out;
}

size_t dawn_report_forecast_crop(const struct dawn_forecast_story *story, size_t night)
{
    const struct dawn_forecast *forecast = story->forecast;
    size_t most = 0;

    for (size_t crop = 1; crop < forecast->crop_count; crop++) {
        const double chance = forecast->night[night].harmed[crop];
        const double other = forecast->night[night].harmed[most];
        if (chance > other || (chance == other && story->scenario->crops[crop].damage_C >
                                                      story->scenario->crops[most].damage_C)) {
            most = crop;
        }
    }
    return most;
}

/* "tomato is harmed at the leaves", "the trays go below 0 C". */
static void add_what(struct dawn_text *text, const struct dawn_forecast_story *story, size_t night,
                     enum dawn_units units)
{
    const struct dawn_forecast *forecast = story->forecast;
    char line[DAWN_REPORT_ROOM];

    if (forecast->crop_count == 0) {
        dawn_text_add(text, "%s below %s",
                      forecast->at_trays ? "the trays go" : "the house air goes",
                      dawn_report_line(0.0, units, line));
        return;
    }
    dawn_text_add(text, "%s is harmed %s",
                  story->scenario->crops[dawn_report_forecast_crop(story, night)].name,
                  dawn_nights_crop_place_words(forecast->crop_place));
}

static void add_chance(struct dawn_text *text, double chance, size_t members)
{
    char odds[32];
    char share[DAWN_REPORT_ROOM];

    dawn_text_add(text, "%s (%s)", dawn_forecast_odds(chance, members, odds),
                  per_cent(chance, share));
}

void dawn_report_forecast_decision(const struct dawn_forecast_story *story, enum dawn_units units,
                                   struct dawn_text *text)
{
    const struct dawn_forecast *forecast = story->forecast;
    const struct dawn_forecast_night *worst = &forecast->night[forecast->worst];
    const struct dawn_night named = {.dusk_s = worst->dusk_s, .dawn_s = worst->dawn_s};
    char name[DAWN_REPORT_ROOM];

    add_chance(text, worst->any_harmed, forecast->members);
    dawn_text_add(text, " that ");
    add_what(text, story, forecast->worst, units);
    dawn_text_add(text, " in the worst night, %s",
                  dawn_report_night_name(&named, story->scenario->site.utc_offset_h, name));
    if (forecast->nights > 1) {
        dawn_text_add(text, "; ");
        add_chance(text, forecast->week_any, forecast->members);
        dawn_text_add(text, " in one at least of %zu nights", forecast->nights);
    }
}

/* ---- tables ---- */

static void put_degrees(struct dawn_tableout *table, double value_C, enum dawn_units units)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", dawn_report_degrees(value_C, units, number));
}

static void put_range(struct dawn_tableout *table, struct dawn_forecast_range range,
                      enum dawn_units units)
{
    put_degrees(table, range.tenth, units);
    put_degrees(table, range.middle, units);
    put_degrees(table, range.ninth, units);
}

static void put_names(struct dawn_tableout *table, const char *const *names, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        dawn_tableout_cell(table, "%s", names[i]);
    }
}

static void put_share(struct dawn_tableout *table, double chance)
{
    char share[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "%s", per_cent(chance, share));
}

void dawn_report_forecast_lows(struct dawn_tableout *table, const struct dawn_forecast_story *story,
                               enum dawn_units units)
{
    const struct dawn_forecast *forecast = story->forecast;
    const double offset_h = story->scenario->site.utc_offset_h;
    const char *const heading[] = {"Night", "Out", "Tray", "", "", "Leaf", "", "", "At"};
    const char *const shares[] = {"",    "1/2",  "1/10", "1/2", "9/10", "1/10",
                                  "1/2", "9/10", "",     "",    ""};
    char name[DAWN_REPORT_ROOM];

    dawn_tableout_begin(table, 11, "lrrrrrrrrrr");
    put_names(table, heading, 9);
    dawn_tableout_cell(table, "<%s", dawn_report_line(0.0, units, name));
    dawn_tableout_cell(table, "Harm");
    put_names(table, shares, 11);
    for (size_t i = 0; i < forecast->nights; i++) {
        const struct dawn_forecast_night *night = &forecast->night[i];
        dawn_tableout_cell(table, "%s", short_name(night, offset_h, name));
        put_degrees(table, night->outside_C.middle, units);
        put_range(table, night->tray_C, units);
        put_range(table, night->leaf_C, units);
        dawn_tableout_cell(table, "%s", dawn_report_clock(night->low_at_s.middle, offset_h, name));
        put_share(table, night->below_zero);
        put_share(table, night->any_harmed);
    }
}

/* So many crops as 80 columns hold beside the lows, the most tender first. */
static size_t choose_crops(const struct dawn_forecast_story *story, size_t chosen[DAWN_CROPS_MOST])
{
    const struct dawn_crop *crops = story->scenario->crops;
    size_t order[DAWN_CROPS_MOST];
    size_t width = 13 + 6 * 7;
    size_t count = 0;

    for (size_t i = 0; i < story->forecast->crop_count; i++) {
        size_t at = i;
        while (at > 0 && crops[order[at - 1]].damage_C < crops[i].damage_C) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = i;
    }
    for (size_t i = 0; i < story->forecast->crop_count; i++) {
        const size_t name = strlen(crops[order[i]].name);
        width += (name > 5 ? name : 5) + 2;
        if (width > 80) {
            break;
        }
        chosen[count++] = order[i];
    }
    return count;
}

void dawn_report_forecast_more(struct dawn_tableout *table, const struct dawn_forecast_story *story,
                               enum dawn_units units)
{
    const struct dawn_forecast *forecast = story->forecast;
    const double offset_h = story->scenario->site.utc_offset_h;
    const char *const heading[] = {"Night", "Air", "", "", "Root", "", ""};
    const char *const shares[] = {"", "1/10", "1/2", "9/10", "1/10", "1/2", "9/10"};
    size_t crop[DAWN_CROPS_MOST] = {0};
    const size_t crops = choose_crops(story, crop);
    char name[DAWN_REPORT_ROOM];

    char alignment[7 + DAWN_CROPS_MOST + 1] = "l";
    memset(alignment + 1, 'r', 6 + crops);
    dawn_tableout_begin(table, 7 + crops, alignment);
    put_names(table, heading, 7);
    for (size_t k = 0; k < crops; k++) {
        dawn_tableout_cell(table, "%s", story->scenario->crops[crop[k]].name);
    }
    put_names(table, shares, 7);
    for (size_t k = 0; k < crops; k++) {
        dawn_tableout_cell(table, "%s",
                           dawn_report_line(story->scenario->crops[crop[k]].damage_C, units, name));
    }
    for (size_t i = 0; i < forecast->nights; i++) {
        const struct dawn_forecast_night *night = &forecast->night[i];
        dawn_tableout_cell(table, "%s", short_name(night, offset_h, name));
        put_range(table, night->air_C, units);
        put_range(table, night->root_C, units);
        for (size_t k = 0; k < crops; k++) {
            put_share(table, night->harmed[crop[k]]);
        }
    }
}

/* ---- what it stands on ---- */

void dawn_report_forecast_reading(struct dawn_text *text, const struct dawn_forecast_story *story,
                                  enum dawn_units units)
{
    char line[DAWN_REPORT_ROOM];
    const struct dawn_forecast *forecast = story->forecast;

    dawn_text_add(text,
                  "lows in %s that 1/10, 1/2 and 9/10 of %zu runs stay below; <%s: chance of "
                  "that at %s; Harm: that a crop is harmed %s, each below its own line%s",
                  dawn_report_unit_letter(units), forecast->members,
                  dawn_report_line(0.0, units, line),
                  forecast->at_trays ? "the trays" : "the house air",
                  dawn_nights_crop_place_words(forecast->crop_place),
                  forecast->crop_count == 0 ? "; no crop is named, so it is the same again" : "");
}

void dawn_report_forecast_assumed(struct dawn_text *text, const struct dawn_forecast_story *story,
                                  enum dawn_units units)
{
    const struct dawn_doubt *doubt = &story->scenario->forecast;
    const double scale = units == DAWN_US ? 1.8 : 1.0;
    const char *unit = units == DAWN_US ? "F" : "K";
    char first[DAWN_REPORT_ROOM];
    char last[DAWN_REPORT_ROOM];
    char dew[DAWN_REPORT_ROOM];

    dawn_text_add(text,
                  "the forecast air is off by %s %s on the first day to %s %s on the "
                  "seventh, cloud by %.0f %%, wind by %.0f %%, dew point by %s %s; your leaks by "
                  "%.0f %%, light by %.0f %%, active rock by %.0f %%, soil by %.0f %%, in two runs "
                  "of three (defaults: common practice; section forecast: sets yours)",
                  dawn_report_fixed(doubt->air_first_day_K * scale, 1, first), unit,
                  dawn_report_fixed(doubt->air_seventh_day_K * scale, 1, last), unit,
                  100.0 * doubt->cloud, 100.0 * doubt->wind,
                  dawn_report_fixed(doubt->dew_K * scale, 1, dew), unit, 100.0 * doubt->leaks,
                  100.0 * doubt->light, 100.0 * doubt->active_rock, 100.0 * doubt->soil);
}

void dawn_report_forecast_context(struct dawn_text *text, const struct dawn_forecast_story *story)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    char day[DAWN_REPORT_ROOM];
    char clock[DAWN_REPORT_ROOM];

    dawn_text_add(text, "%s, from %s %s, forecast %s",
                  story->scenario->name[0] != '\0' ? story->scenario->name : "this nursery",
                  dawn_report_day(story->forecast->from_s, offset_h, day),
                  dawn_report_clock((double)story->forecast->from_s, offset_h, clock),
                  story->weather->path);
    if (story->history != NULL) {
        dawn_text_add(text, ", history %s", story->history);
    } else {
        dawn_text_add(text, "; no --history: the house is taken as having lived through the "
                            "forecast's first days again and again");
    }
    if (story->readings != NULL) {
        dawn_text_add(text, "; read off now: %s", story->readings);
    }
    for (size_t i = 0; i < story->override_count; i++) {
        dawn_text_add(text, "%s%s", i == 0 ? "; set for this run: " : ", ", story->overrides[i]);
    }
}

static void put_wrapped(FILE *out, struct dawn_text *text)
{
    if (!text->failed) {
        dawn_report_wrapped(out, "     ", text->data);
    }
    dawn_text_release(text);
}

static void put_notes(FILE *out, const struct dawn_forecast_story *story, enum dawn_units units)
{
    struct dawn_text text = {0};

    dawn_text_add(&text, "read: ");
    dawn_report_forecast_reading(&text, story, units);
    put_wrapped(out, &text);
    dawn_text_add(&text, "assumed: ");
    dawn_report_forecast_assumed(&text, story, units);
    put_wrapped(out, &text);
    dawn_text_add(&text, "for: ");
    dawn_report_forecast_context(&text, story);
    put_wrapped(out, &text);
}

void dawn_report_forecast_text(FILE *out, enum dawn_units units,
                               const struct dawn_forecast_story *story)
{
    struct dawn_text decision = {0};
    struct dawn_tableout table;

    dawn_report_forecast_decision(story, units, &decision);
    if (!decision.failed) {
        dawn_report_wrapped(out, "", decision.data);
    }
    dawn_text_release(&decision);
    fputc('\n', out);
    dawn_report_forecast_lows(&table, story, units);
    dawn_tableout_end(&table, out);
    fputc('\n', out);
    dawn_report_forecast_more(&table, story, units);
    dawn_tableout_end(&table, out);
    fputc('\n', out);
    put_notes(out, story, units);
    dawn_report_wrapped(out, "     ",
                        "caution: a small chance is not none, and leaves can freeze in air of 2 to "
                        "4 C under a clear sky: hang an alarm thermometer at the coldest tray and "
                        "have covers at hand");
}

void dawn_report_forecast_brief(FILE *out, enum dawn_units units,
                                const struct dawn_forecast_story *story)
{
    const struct dawn_forecast *forecast = story->forecast;
    const struct dawn_forecast_night *worst = &forecast->night[forecast->worst];
    const double offset_h = story->scenario->site.utc_offset_h;
    const struct dawn_forecast_range *low = forecast->at_trays ? &worst->tray_C : &worst->air_C;
    struct dawn_text text = {0};
    char name[DAWN_REPORT_ROOM];
    char tenth[DAWN_REPORT_ROOM];
    char ninth[DAWN_REPORT_ROOM];
    char clock[DAWN_REPORT_ROOM];

    dawn_text_add(&text, "%s: %s ", story->scenario->name, short_name(worst, offset_h, name));
    add_chance(&text, worst->any_harmed, forecast->members);
    dawn_text_add(&text, " that ");
    add_what(&text, story, forecast->worst, units);
    dawn_text_add(&text, "; %s %s to %s %s about %s", forecast->at_trays ? "trays" : "air",
                  dawn_report_degrees(low->tenth, units, tenth),
                  dawn_report_degrees(low->ninth, units, ninth), dawn_report_unit_letter(units),
                  dawn_report_clock(worst->low_at_s.middle, offset_h, clock));
    if (!text.failed) {
        fprintf(out, "%s\n", text.data);
    }
    dawn_text_release(&text);
}
