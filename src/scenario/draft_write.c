/* From a draft to a scenario file with remarks. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "scenario/draft.h"
#include "scenario/scenario_parts.h"

/* ---- values ---- */

static struct dawn_draft_figure length(const struct dawn_draft *draft, double m)
{
    return dawn_draft_figure_of(m, DAWN_MEASURE_LENGTH, draft->us);
}

static struct dawn_draft_figure area(const struct dawn_draft *draft, double m2)
{
    return dawn_draft_figure_of(m2, DAWN_MEASURE_AREA, draft->us);
}

/* Of a thermostat or an opener: whole degrees, as they are set. */
static struct dawn_draft_figure setting(const struct dawn_draft *draft, double C)
{
    double whole = draft->us ? (floor(C * 1.8 + 32.5) - 32) / 1.8 : C;
    return dawn_draft_figure_of(whole, DAWN_MEASURE_TEMPERATURE, draft->us);
}

#define FIGURE(value) dawn_scenario_figure_of(value).text

/* In quotation marks, so that no character of the user's means anything. */
static void quoted(struct dawn_text *text, const char *word)
{
    dawn_text_add(text, "\"");
    for (const char *c = word; *c != '\0'; c++)
        dawn_text_add(text, "%s%c", *c == '"' || *c == '\\' ? "\\" : "", *c);
    dawn_text_add(text, "\"");
}

/* One line of the file, its remark (NULL = none) behind it in a column of its own. */
static void line(struct dawn_text *text, const char *remark, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

static void line(struct dawn_text *text, const char *remark, const char *format, ...)
{
    enum { REMARK_COLUMN = 28 };
    size_t before = text->size;
    va_list arguments;
    va_start(arguments, format);
    dawn_text_vadd(text, format, arguments);
    va_end(arguments);
    size_t width = text->size - before;
    if (remark != NULL)
        dawn_text_add(text, "%*s# %s", (int)(width < REMARK_COLUMN - 1 ? REMARK_COLUMN - width : 1),
                      "", remark);
    dawn_text_add(text, "\n");
}

/* ---- the head ---- */

static void write_head(const struct dawn_draft *draft, struct dawn_text *text)
{
    size_t count = 0;
    const struct dawn_draft_question *questions = dawn_draft_questions(&count);
    dawn_text_add(
        text, "# Written by dawnlow new from these answers. Change what you like below and run\n"
              "# dawnlow check; dawnlow explain KEY tells what a key means.\n#\n");
    for (size_t i = 0; i < count; i++)
        if (draft->asked[i] && dawn_draft_applies(draft, i))
            dawn_text_add(text, "#   %s: %s\n", questions[i].key, draft->answer[i]);
    dawn_text_add(text, "#\n# Everything behind a '#' is a remark. Each quantity carries its unit; "
                        "other units\n# are fine too. Keys that are left out have defaults, which "
                        "dawnlow check shows.\n\ndawnlow: 1\nname: ");
    quoted(text, draft->name);
    dawn_text_add(text, "\n");
}

static void write_site(const struct dawn_draft *draft, struct dawn_text *text)
{
    line(text, NULL, "\nsite:\n  latitude: %s %s\n  longitude: %s %s",
         FIGURE(fabs(draft->latitude_deg)), draft->latitude_deg < 0 ? "S" : "N",
         FIGURE(fabs(draft->longitude_deg)), draft->longitude_deg < 0 ? "W" : "E");
    if (!isnan(draft->elevation_m))
        line(text, NULL, "  elevation: %s", length(draft, draft->elevation_m).text);
    line(text, "standard time; never summer time", "  utc_offset: %s h",
         FIGURE(draft->utc_offset_h));
    line(text, "wind at the house; open land 0.7, sheltered 0.4", "  wind_share: 0.5");
}

static void write_house(const struct dawn_draft *draft, struct dawn_text *text)
{
    line(text, NULL, "\nhouse:\n  length: %s\n  width: %s", length(draft, draft->length_m).text,
         length(draft, draft->width_m).text);
    line(text, "mean height of the air inside", "  height: %s",
         length(draft, dawn_draft_mean_height_m(draft)).text);
    line(text, "the air under the ridge apart from that at the benches", "  zones: 2");
    line(text, "a guess; tight 0.5, usual 1, leaky 2", "  air_changes: %s /h",
         FIGURE(draft->air_changes_per_h));
}

static void write_air(const struct dawn_draft *draft, struct dawn_text *text)
{
    if (draft->vent_m2 <= 0) {
        line(text, NULL,
             "\n# No vent: the house is reckoned shut and dry, and gets hotter by day "
             "than a real\n# one.");
        return;
    }
    line(text, NULL, "\nopenings:\n  - name: vents\n    area: %s\n    place: ridge",
         area(draft, draft->vent_m2).text);
    line(text, "above the fan's on_at: first the rock, then the sky", "    opens_at: %s",
         setting(draft, 26).text);
    line(text, NULL, "    fully_open_at: %s\n", setting(draft, 32).text);
    line(text, "water in soil and trays goes into the air and onto the panes", "moisture:");
    line(text, NULL, "  floor_wet: 0.1");
}

/* ---- faces ---- */

static void write_plane(const struct dawn_draft *draft, const struct dawn_draft_face *face,
                        struct dawn_text *text)
{
    line(text, NULL, "  - name: %s\n    area: %s\n    slope: %s deg\n    azimuth: %s deg",
         face->name, area(draft, face->area_m2).text,
         FIGURE(floor(face->slope_deg * 10 + 0.5) / 10), FIGURE(face->azimuth_deg));
}

static void write_glazing(const struct dawn_draft *draft, const struct dawn_draft_face *faces,
                          size_t count, struct dawn_text *text)
{
    size_t types = 0;
    const struct dawn_glazing_type *type = dawn_scenario_glazing_types(&types);
    dawn_text_add(text, "\n");
    line(text, "areas and slopes follow from your measures", "glazing:");
    for (size_t i = 0; i < count; i++) {
        if (faces[i].skin.glazing < 0)
            continue;
        write_plane(draft, &faces[i], text);
        line(text, NULL, "    type: %s", type[faces[i].skin.glazing].word);
        line(text, "timber 0.1 to 0.18, metal hoops 0.05", "    frame_share: %s",
             draft->shape == DAWN_DRAFT_TUNNEL ? "0.05" : "0.12");
    }
}

static void write_wall(const struct dawn_draft *draft, const struct dawn_draft_face *face,
                       struct dawn_text *text)
{
    static const char *const outside[] = {"weather", "shaded", "ground"};
    size_t count = 0;
    const struct dawn_draft_wall *wall = dawn_draft_walls(&count) + face->skin.wall;
    write_plane(draft, face, text);
    line(text, NULL,
         "    outside: %s\n    outside_absorptance: %s\n    inside_absorptance: %s\n"
         "    layers:                 # %s; from outside to inside",
         outside[wall->outside], FIGURE(wall->outside_absorptance),
         FIGURE(wall->inside_absorptance), wall->meaning);
    for (size_t i = 0; i < wall->layer_count; i++) {
        const struct dawn_layer *layer = &wall->layers[i];
        line(text, NULL,
             "      - name: %s\n        thickness: %s\n        conductivity: %s W/mK\n"
             "        density: %s kg/m3\n        specific_heat: %s J/kgK",
             layer->name, dawn_draft_small(layer->thickness_m, false).text,
             FIGURE(layer->conductivity_W_mK), FIGURE(layer->density_kg_m3),
             FIGURE(layer->specific_heat_J_kgK));
    }
}

static void write_faces(const struct dawn_draft *draft, struct dawn_text *text)
{
    struct dawn_draft_face faces[DAWN_DRAFT_FACES_MOST];
    size_t count = dawn_draft_faces(draft, faces);
    bool first = true;
    write_glazing(draft, faces, count, text);
    for (size_t i = 0; i < count; i++) {
        if (faces[i].skin.wall < 0)
            continue;
        if (first)
            line(text, NULL, "\nwalls:");
        first = false;
        write_wall(draft, &faces[i], text);
    }
}

/* ---- stores ---- */

static void write_rock(const struct dawn_draft *draft, struct dawn_text *text)
{
    bool by_mass = !isnan(draft->rock_kg);
    if (!by_mass && isnan(draft->rock_m3))
        return;
    struct dawn_draft_figure amount =
        by_mass ? dawn_draft_figure_of(draft->rock_kg, DAWN_MEASURE_MASS, draft->us)
                : dawn_draft_figure_of(draft->rock_m3, DAWN_MEASURE_VOLUME, draft->us);
    line(text, NULL, "\nrock:\n  %s: %s\n  stone_size: %s", by_mass ? "mass" : "volume",
         amount.text, dawn_draft_small(draft->stone_m, draft->us).text);
    line(text, "50 mm of foam board around it would be 1.5 m2K/W", "  insulation: 0 m2K/W");
    line(text, "of it the air reaches; dead corners 0.7", "  active_share: 0.8");
    /* Without a bed above it stands in a bin, which is crossed in 2 m at most. */
    if (draft->bed_m2 <= 0)
        line(text, "how far the air goes through it: measure it", "  path_length: %s",
             length(draft, fmin(2, draft->width_m)).text);
}

static void write_air_flow(const struct dawn_draft *draft, struct dawn_text *text)
{
    /* Where the label is silent on pressure (common practice, no source). */
    static const double left_of_free_air = 0.6;
    double flow_m3_s = isnan(draft->fan_Pa) ? left_of_free_air * draft->fan_m3_s : draft->fan_m3_s;
    struct dawn_draft_figure flow = dawn_draft_figure_of(flow_m3_s, DAWN_MEASURE_FLOW, draft->us);
    if (isnan(draft->fan_Pa))
        line(text, "a guess: 60 % of what its label says", "  flow: %s", flow.text);
    else
        line(text, NULL, "  free_air: %s\n  greatest_pressure: %s", flow.text,
             dawn_draft_figure_of(draft->fan_Pa, DAWN_MEASURE_PRESSURE, draft->us).text);
}

static void write_fan(const struct dawn_draft *draft, struct dawn_text *text)
{
    bool rock = !isnan(draft->rock_kg) || !isnan(draft->rock_m3);
    if (!rock || isnan(draft->fan_m3_s))
        return;
    dawn_text_add(text, "\n");
    line(text, "whether it suits the rock: dawnlow fan", "fan:");
    write_air_flow(draft, text);
    line(text, NULL, "  power: %s W", FIGURE(draft->fan_W));
    line(text, "by day it stores above this", "  on_at: %s", setting(draft, 20).text);
    line(text, NULL, "  off_at: %s", setting(draft, 17).text);
    line(text, "on a cold night it brings the heat back", "  night_on_at: %s",
         setting(draft, 10).text);
    line(text, NULL, "  night_off_at: %s", setting(draft, 13).text);
    line(text, "where the thermostat hangs", "  senses: ridge");
}

static void write_barrels(const struct dawn_draft *draft, struct dawn_text *text)
{
    static const double gallon_m3 = 3.785411784e-3; /* US, exact */
    if (draft->barrels < 1)
        return;
    line(text, NULL, "\nbarrels:\n  - name: barrels\n    count: %s\n    volume: %s %s",
         FIGURE(draft->barrels), FIGURE(draft->barrel_m3 / (draft->us ? gallon_m3 : 0.001)),
         draft->us ? "gal" : "L");
    line(text, "room for ice", "    fill: 95 %%");
    line(text, "black 0.95, dark blue 0.85, white 0.25", "    absorptance: 0.9");
    line(text, "of their outline that the sun reaches", "    sun_share: 0.3");
}

static void write_stores(const struct dawn_draft *draft, struct dawn_text *text)
{
    if (draft->bed_m2 > 0)
        line(text, NULL, "\nbed:\n  area: %s\n  depth: %s", area(draft, draft->bed_m2).text,
             draft->us ? "12 in" : "30 cm");
    write_rock(draft, text);
    write_fan(draft, text);
    write_barrels(draft, text);
    if (draft->trays_m2 <= 0)
        return;
    line(text, NULL, "\ntrays:\n  area: %s", area(draft, draft->trays_m2).text);
    line(text, "young plants; 0 just sown, 3 ready to go", "  leaf_area_index: 1");
    line(text, NULL, "  stand_on: %s", draft->trays_on_bed ? "bed" : "bench");
}

static void write_crops(const struct dawn_draft *draft, struct dawn_text *text)
{
    if (draft->crop_count == 0)
        return;
    dawn_text_add(text, "\n");
    line(text, "leaf temperatures below which each is harmed; yours may differ", "crops:");
    for (size_t i = 0; i < draft->crop_count; i++)
        line(text, NULL, "  - name: %s\n    damage_below: %s", draft->crops[i].name,
             dawn_draft_figure_of(draft->crops[i].damage_C, DAWN_MEASURE_TEMPERATURE, draft->us)
                 .text);
}

static void write_weather(const struct dawn_draft *draft, struct dawn_text *text)
{
    if (draft->weather[0] == '\0') {
        line(text, NULL,
             "\n# No weather yet: any hourly CSV will do; see dawnlow help weather.\n"
             "# weather:\n#   file: my-station.csv");
        return;
    }
    if (strcmp(draft->weather, draft->demo_weather) == 0)
        line(text, NULL,
             "\n# INVENTED weather of an invented valley, to try things out. Put a "
             "file from near\n# you in its place before you believe a night: see "
             "dawnlow help weather.");
    else
        dawn_text_add(text, "\n");
    dawn_text_add(text, "weather:\n  file: ");
    quoted(text, draft->weather);
    dawn_text_add(text, "\n");
}

void dawn_draft_write(const struct dawn_draft *draft, struct dawn_text *text)
{
    write_head(draft, text);
    write_site(draft, text);
    write_house(draft, text);
    write_air(draft, text);
    write_faces(draft, text);
    write_stores(draft, text);
    write_crops(draft, text);
    write_weather(draft, text);
}
