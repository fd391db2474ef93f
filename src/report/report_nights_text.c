/* The nights for people: the decision, one row a night, what was assumed, a word of caution. */
#include <math.h>

#include "base/tableout.h"
#include "base/text.h"
#include "report/report_columns.h"
#include "report/report_parts.h"

/* Which nights of which nursery under which weather, and by which clock. */
static void put_context(FILE *out, const struct dawn_nights_story *story)
{
    const struct dawn_nights *nights = story->nights;
    const double offset_h = story->scenario->site.utc_offset_h;
    struct dawn_text text = {0};
    char zone[DAWN_REPORT_ROOM];

    dawn_text_add(&text, "for: %s",
                  story->scenario->name[0] != '\0' ? story->scenario->name : "this nursery");
    if (nights->count > 0) {
        char first[DAWN_REPORT_ROOM];
        char last[DAWN_REPORT_ROOM];
        dawn_text_add(&text, ", evening of %s to morning of %s",
                      dawn_report_day(nights->night[0].dusk_s, offset_h, first),
                      dawn_report_day(nights->night[nights->count - 1].dawn_s, offset_h, last));
    }
    dawn_text_add(&text, ", weather %s (%s%s); clock %s", story->weather->path,
                  story->weather->layout,
                  story->weather->typical_year ? ", a typical year put together from several" : "",
                  dawn_report_zone(offset_h, zone));
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
}

static void add_estimates(struct dawn_text *text, const struct dawn_weather *weather)
{
    struct dawn_report_estimate estimate[DAWN_REPORT_ESTIMATES];
    const size_t count = dawn_report_estimates(weather, estimate);

    if (count == 0) {
        dawn_text_add(text, "nothing in the weather had to be estimated");
        return;
    }
    dawn_text_add(text, "estimated in the weather: ");
    for (size_t i = 0; i < count; i++) {
        dawn_text_add(text, "%s%s (%s)", i > 0 ? ", " : "", estimate[i].quantity, estimate[i].how);
    }
}

static void put_assumptions(FILE *out, const struct dawn_nights_story *story)
{
    struct dawn_text text = {0};

    dawn_text_add(&text, "assumed: ");
    if (story->run != NULL) {
        const struct dawn_trajectory_facts facts = dawn_trajectory_facts(story->run);
        dawn_report_past(&text, &facts);
    }
    add_estimates(&text, story->weather);
    if (story->weather->filled_hours > 0) {
        dawn_text_add(&text, "; %zu missing hours filled in", story->weather->filled_hours);
    }
    if (story->fan_kept_off) {
        dawn_text_add(&text, "; the fan was kept off");
    }
    for (size_t i = 0; i < story->override_count; i++) {
        dawn_text_add(&text, "%s%s", i == 0 ? "; set for this run: " : ", ", story->overrides[i]);
    }
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
}

static void put_crop_legend(FILE *out, enum dawn_units units, const struct dawn_nights *nights)
{
    char line[DAWN_REPORT_ROOM];

    if (dawn_report_crop_column(nights)) {
        fprintf(out, "crop: hours below %s %s\n",
                dawn_report_line(nights->crop_line_C, units, line),
                dawn_nights_crop_place_words(nights->crop_place));
    }
}

static void put_legend(FILE *out, enum dawn_units units, const struct dawn_nights_story *story)
{
    const bool rock = story->scenario->rock.present;
    const bool water = story->scenario->barrels_count > 0;
    struct dawn_text text = {0};

    dawn_text_add(&text, "heat: what %s gave back from dusk to dawn (below 0: took up)%s",
                  rock && water ? "rock, water and soil"
                  : rock        ? "rock and soil"
                  : water       ? "water and soil"
                                : "the soil",
                  rock && story->scenario->fan.present ? "; fan hours since the night before" : "");
    if (!text.failed)
        dawn_report_wrapped(out, "     ", text.data);
    dawn_text_release(&text);
    put_crop_legend(out, units, story->nights);
}

static void add_cover(struct dawn_text *text, const struct dawn_nights_story *story, size_t cover)
{
    struct dawn_cover_use use;
    char on[DAWN_REPORT_ROOM];
    char off[DAWN_REPORT_ROOM];
    const double offset_h = story->scenario->site.utc_offset_h;

    dawn_nights_cover_use(story->nights, story->network, cover, &use);
    dawn_text_add(text, "%s%s on in %zu of %zu %s", cover > 0 ? "; " : "covers: ", use.name,
                  use.nights, story->nights->count, story->nights->count == 1 ? "night" : "nights");
    if (!isnan(use.on_s)) {
        dawn_text_add(text, ", %s to %s in the coldest", dawn_report_clock(use.on_s, offset_h, on),
                      dawn_report_clock(use.off_s, offset_h, off));
    }
}

/* What was drawn when, and a word of warning for what stays on in the sun. */
static void put_covers(FILE *out, const struct dawn_nights_story *story)
{
    const size_t count = story->network != NULL ? dawn_network_cover_count(story->network) : 0;
    struct dawn_text text = {0};

    for (size_t i = 0; i < count; i++) {
        add_cover(&text, story, i);
    }
    if (count > 0 && !text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
    for (size_t i = 0; i < count; i++) {
        struct dawn_cover_use use;
        char hours[DAWN_REPORT_ROOM];
        struct dawn_text warning = {0};
        dawn_nights_cover_use(story->nights, story->network, i, &use);
        if (use.in_sun_s > DAWN_COVER_IN_SUN_S) {
            dawn_text_add(&warning,
                          "caution: %s stays on up to %s hours after sunrise; covers left on in "
                          "the sun can kill what is under them",
                          use.name, dawn_report_fixed(use.in_sun_s / 3600.0, 1, hours));
        }
        if (warning.data != NULL && !warning.failed) {
            dawn_report_wrapped(out, "     ", warning.data);
        }
        dawn_text_release(&warning);
    }
}

/* On how many nights snow lay, and what it weighs. */
static void put_snow(FILE *out, enum dawn_units units, const struct dawn_nights_story *story)
{
    size_t nights = 0;
    struct dawn_text caution = {0};

    if (story->network == NULL || dawn_scenario_snow_m2(story->scenario) <= 0) {
        return;
    }
    nights = dawn_nights_cover_of_snow(story->nights, story->network);
    fprintf(out, "snow: on the roof at dawn of %zu of %zu nights\n", nights, story->nights->count);
    dawn_text_add(&caution, "caution: ");
    dawn_report_snow_load(&caution, units, story->scenario);
    if (nights > 0 && !caution.failed) {
        dawn_report_wrapped(out, "     ", caution.data);
    }
    dawn_text_release(&caution);
}

static void put_caution(FILE *out, const struct dawn_nights_story *story)
{
    if (story->run != NULL) {
        const struct dawn_trajectory_facts facts = dawn_trajectory_facts(story->run);
        struct dawn_text text = {0};
        dawn_text_add(&text, "checked: ");
        dawn_report_checked(&text, &facts);
        if (!text.failed) {
            dawn_report_wrapped(out, "     ", text.data);
        }
        dawn_text_release(&text);
    }
    fputs("caution: a model's estimate; keep an alarm thermometer ", out);
    fputs(story->nights->at_trays ? "at the trays\n" : "in the house\n", out);
}

static void put_decisions(FILE *out, enum dawn_units units, const struct dawn_nights_story *story)
{
    struct dawn_text decision = {0};
    struct dawn_text crop = {0};

    dawn_report_decision(story, units, &decision);
    dawn_report_crop_decision(story, units, &crop);
    fprintf(out, "%s\n", decision.data != NULL ? decision.data : "");
    if (crop.data != NULL) {
        fprintf(out, "%s\n", crop.data);
    }
    fputc('\n', out);
    dawn_text_release(&decision);
    dawn_text_release(&crop);
}

void dawn_report_nights_text(FILE *out, enum dawn_units units,
                             const struct dawn_nights_story *story)
{
    struct dawn_tableout table;

    put_decisions(out, units, story);
    dawn_report_nights_table(&table, units, story);
    dawn_tableout_end(&table, out);
    fputc('\n', out);
    put_legend(out, units, story);
    put_context(out, story);
    put_assumptions(out, story);
    put_covers(out, story);
    put_snow(out, units, story);
    put_caution(out, story);
    if (story->ledger != NULL && story->explained != NULL) {
        dawn_report_ledger(out, units, story);
    }
}
