/* Guesses a scenario rests on, with the spread they plausibly have: one standard deviation or a
 * little more to either side, of what growers and handbooks know (common practice, no source). */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "studies/worth_tables.h"

static void call(struct dawn_worth_guess *guess, const char *name, const char *measure)
{
    (void)dawn_text_copy(guess->name, sizeof guess->name, name);
    guess->measure = measure;
}

static double within(double value, double least, double most)
{
    return fmin(fmax(value, least), most);
}

/* key = value unit, at both ends. */
static void spread(struct dawn_worth_guess *guess, const char *key, double low, double high,
                   const char *unit)
{
    dawn_trials_set(&guess->low, "%s=%.9g%s", key, low, unit);
    dawn_trials_set(&guess->high, "%s=%.9g%s", key, high, unit);
}

static bool leaks(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    const double changes = dawn_scenario_air_changes_per_h(s);

    call(guess, "leaks: 0.6 to 1.6 times",
         "watch smoke at joints on a windy day, or have a door fan hold 50 Pa");
    spread(guess, "house.air_changes", changes / 1.6, changes * 1.6, " /h");
    return changes > 0.0;
}

static bool wind(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    call(guess, "wind at the house: share -0.15 to +0.15",
         "a cheap cup anemometer beside the house, against the station's hours");
    spread(guess, "site.wind_share", within(s->site.wind_share - 0.15, 0.0, 1.0),
           within(s->site.wind_share + 0.15, 0.0, 1.0), "");
    return true;
}

static bool light(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    char key[64];

    call(guess, "light the glazing lets in: -8 to +8 %",
         "a light meter inside and outside at noon, in the same minute");
    for (size_t i = 0; i < s->glazing_count; i++) {
        const double dirt = s->glazing[i].dirt_factor;
        (void)snprintf(key, sizeof key, "glazing.%zu.dirt_factor", i + 1);
        spread(guess, key, within(dirt * 0.92, 0.0, 1.0), within(dirt * 1.08, 0.0, 1.0), "");
    }
    return s->glazing_count > 0;
}

static bool film(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    size_t types = 0;
    const struct dawn_glazing_type *type = dawn_scenario_glazing_types(&types);
    char key[64];

    call(
        guess, "heat radiation through the film: -0.1 to +0.1",
        "ask the maker, or point an infrared thermometer at a clear night sky with and without it");
    for (size_t i = 0; i < s->glazing_count; i++) {
        const struct dawn_glazing *face = &s->glazing[i];
        const double own = isnan(face->longwave_transmittance)
                               ? type[face->type].longwave_transmittance
                               : face->longwave_transmittance;
        const double taken =
            isnan(face->emissivity) ? type[face->type].emissivity : face->emissivity;
        if (own <= 0.05) {
            continue;
        }
        (void)snprintf(key, sizeof key, "glazing.%zu.longwave_transmittance", i + 1);
        spread(guess, key, within(own - 0.1, 0.0, 0.95),
               within(own + 0.1, 0.0, fmin(0.95, 1.0 - taken)), "");
    }
    return guess->low.sets > 0;
}

static bool soil(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    const double k = s->ground.conductivity_W_mK;

    call(guess, "how well the soil conducts: 0.75 to 1.3 times",
         "dig a spade deep: dry sand conducts least, wet clay most");
    spread(guess, "ground.conductivity", k / 1.3, k * 1.3, " W/mK");
    return true;
}

static bool edge(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    const double loss = s->ground.edge_loss_W_mK;

    call(guess, "loss along the floor's edge: 0.75 to 1.3 times",
         "compare soil at the edge and in the middle with a probe, a hand deep");
    spread(guess, "ground.edge_loss", loss / 1.3, loss * 1.3, " W/mK");
    return loss > 0.0;
}

static bool active(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    call(guess, "share of the rock the air reaches: -0.15 to +0.15",
         "probes in near and far corners of the bed: dead ones stay cold");
    spread(guess, "rock.active_share", within(s->rock.active_share - 0.15, 0.05, 1.0),
           within(s->rock.active_share + 0.15, 0.05, 1.0), "");
    return s->rock.present && s->fan.present;
}

static bool flow(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    const bool curve = isnan(s->fan.flow_m3_s);
    const double flow_m3_h = 3600.0 * (curve ? s->fan.free_air_m3_s : s->fan.flow_m3_s);

    call(guess, "air the fan moves: 0.8 to 1.25 times",
         "an anemometer across the duct's mouth, mean of nine points times its area");
    if (s->fan.present && !isnan(s->fan.middle_m3_s)) {
        spread(guess, "fan.middle_flow", 3600.0 * s->fan.middle_m3_s / 1.25,
               3600.0 * s->fan.middle_m3_s * 1.25, " m3/h");
    }
    spread(guess, curve ? "fan.free_air" : "fan.flow", flow_m3_h / 1.25, flow_m3_h * 1.25, " m3/h");
    return s->fan.present;
}

static bool dial(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    call(guess, "the thermostat's dial: -1.5 to +1.5 K",
         "hang a thermometer at its bulb and note when the fan starts");
    spread(guess, "fan.on_at", s->fan.on_C - 1.5, s->fan.on_C + 1.5, " C");
    spread(guess, "fan.off_at", s->fan.off_C - 1.5, s->fan.off_C + 1.5, " C");
    return s->fan.present &&
           (isnan(s->fan.night_off_C) || s->fan.night_off_C <= s->fan.off_C - 1.5);
}

static bool barrels(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    char key[64];

    call(guess, "sun on the barrels: share -0.15 to +0.15",
         "look at them at ten, noon and two: how much of their outline is lit");
    for (size_t i = 0; i < s->barrels_count; i++) {
        (void)snprintf(key, sizeof key, "barrels.%zu.sun_share", i + 1);
        spread(guess, key, within(s->barrels[i].sun_share - 0.15, 0.0, 1.0),
               within(s->barrels[i].sun_share + 0.15, 0.0, 1.0), "");
    }
    return s->barrels_count > 0;
}

static bool wet(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    call(guess, "how wet trays and bed are: 0.65 to 1.5 times",
         "weigh a tray in the morning and in the evening of a sunny day");
    spread(guess, "moisture.trays_wet", s->moisture.trays_wet / 1.5,
           fmin(s->moisture.trays_wet * 1.5, 1.0), "");
    spread(guess, "moisture.bed_wet", s->moisture.bed_wet / 1.5,
           fmin(s->moisture.bed_wet * 1.5, 1.0), "");
    return s->moisture.present;
}

static bool deep_ground(struct dawn_worth_guess *guess, const struct dawn_scenario *s)
{
    call(guess, "the deep ground: -2 to +2 K", "well water has its temperature, all year");
    spread(guess, "site.ground_temperature", s->site.ground_C - 2.0, s->site.ground_C + 2.0, " C");
    return !isnan(s->site.ground_C);
}

static const struct {
    const char *key;
    bool (*fill)(struct dawn_worth_guess *guess, const struct dawn_scenario *scenario);
} known[] = {
    {"leaks", leaks},
    {"wind", wind},
    {"light", light},
    {"film", film},
    {"soil", soil},
    {"edge_loss", edge},
    {"rock_active_share", active},
    {"fan_flow", flow},
    {"fan_dial", dial},
    {"barrels_sun", barrels},
    {"wetness", wet},
    {"deep_ground", deep_ground},
};
enum { KNOWN = sizeof known / sizeof known[0] };
_Static_assert((int)KNOWN <= (int)DAWN_WORTH_MOST, "a row each");

size_t dawn_worth_guesses(struct dawn_worth_guess guess[], const struct dawn_scenario *scenario)
{
    size_t count = 0;

    for (size_t i = 0; i < KNOWN; i++) {
        guess[count] = (struct dawn_worth_guess){.key = known[i].key};
        count += known[i].fill(&guess[count], scenario);
    }
    return count;
}
