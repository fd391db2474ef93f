/* Single improvements: when the nursery has room for one, and what it changes. */
#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "dawnlow/studies/cost.h"
#include "studies/second_skin.h"
#include "studies/worth_tables.h"

static void call(struct dawn_worth_way *way, const char *name)
{
    (void)dawn_text_copy(way->name, sizeof way->name, name);
}

static bool seal(struct dawn_worth_way *way, const struct dawn_scenario *s)
{
    const double changes = dawn_scenario_air_changes_per_h(s);

    call(way, "halve the leaks");
    dawn_trials_set(&way->trial, "house.air_changes=%.6g /h", 0.5 * changes);
    way->cost = dawn_cost_glazing_m2(s) * s->prices.sealing_m2;
    return changes > 0.3; /* tighter than that hardly anybody builds */
}

static bool skin(struct dawn_worth_way *way, const struct dawn_scenario *s)
{
    call(way, "a second skin on all glazing");
    way->care = "snow slides and melts less from a warmer roof: mind its load";
    return dawn_second_skin(&way->trial, s) > 0;
}

static bool has_cover(const struct dawn_scenario *s, int over)
{
    for (size_t i = 0; i < s->cover_count; i++) {
        if (s->covers[i].over == over) {
            return true;
        }
    }
    return false;
}

static bool curtain(struct dawn_worth_way *way, const struct dawn_scenario *s)
{
    call(way, "a curtain below the roof at night");
    way->care = "open it before the sun is on it";
    dawn_trials_set(&way->trial, "covers.+night curtain.over=house");
    dawn_trials_set(&way->trial, "covers.+night curtain.sheet=curtain");
    return !has_cover(s, DAWN_OVER_HOUSE) && s->cover_count < DAWN_COVERS_MOST;
}

static bool row_cover(struct dawn_worth_way *way, const struct dawn_scenario *s)
{
    call(way, "fleece over the trays at night");
    way->care = "take it off before the sun is on it: it cooks what it kept";
    dawn_trials_set(&way->trial, "covers.+night fleece.over=trays");
    dawn_trials_set(&way->trial, "covers.+night fleece.sheet=fleece");
    return s->trays.present && !has_cover(s, DAWN_OVER_TRAYS) && s->cover_count < DAWN_COVERS_MOST;
}

static bool edge(struct dawn_worth_way *way, const struct dawn_scenario *s)
{
    const double depth_m = s->ground.edge_depth_m < 0.55 ? 0.6 : 1.0;

    (void)snprintf(way->name, sizeof way->name, "foam board %s cm deep along the edge",
                   depth_m > 0.8 ? "100" : "60");
    way->care = "find cables and pipes before digging; shore a trench that could slide";
    dawn_trials_set(&way->trial, "ground.edge_depth=%g cm", 100.0 * depth_m);
    return s->ground.edge_depth_m < 0.95;
}

static bool rock(struct dawn_worth_way *way, const struct dawn_scenario *s)
{
    call(way, "1 t more rock");
    way->care = "rock is heavy and pushes sideways: ask someone licensed about walls and slopes";
    dawn_trials_set(&way->trial, "rock.volume=from mass");
    dawn_trials_set(&way->trial, "rock.mass=%.9g t", dawn_scenario_rock_kg(s) / 1e3 + 1.0);
    return s->rock.present;
}

static bool barrel(struct dawn_worth_way *way, const struct dawn_scenario *s)
{
    call(way, "1 more barrel");
    way->care = "a full one weighs over 200 kg: level, firm ground, never stacked";
    if (s->barrels_count > 0) {
        dawn_trials_set(&way->trial, "barrels.1.count=%.0f", s->barrels[0].count + 1.0);
    } else {
        dawn_trials_set(&way->trial, "barrels.+new.count=1");
        dawn_trials_set(&way->trial, "barrels.+new.volume=208 L");
    }
    return true;
}

/* Half as much air again takes half as much electricity again (common practice: fans of one kind
 * side by side). */
static bool fan(struct dawn_worth_way *way, const struct dawn_scenario *s)
{
    call(way, "a fan with half as much air again");
    way->care = "electricity near water: residual-current protection";
    dawn_trials_set(&way->trial, "fan.power=%.6g W", 1.5 * s->fan.power_W);
    if (!isnan(s->fan.flow_m3_s)) {
        dawn_trials_set(&way->trial, "fan.flow=%.6g m3/h", 1.5 * s->fan.flow_m3_s * 3600.0);
    } else {
        dawn_trials_set(&way->trial, "fan.free_air=%.6g m3/h", 1.5 * s->fan.free_air_m3_s * 3600.0);
    }
    if (!isnan(s->fan.middle_m3_s)) {
        dawn_trials_set(&way->trial, "fan.middle_flow=%.6g m3/h",
                        1.5 * s->fan.middle_m3_s * 3600.0);
    }
    if (!isnan(s->fan.price)) {
        dawn_trials_set(&way->trial, "fan.price=%.6g", 1.5 * s->fan.price);
    }
    return s->fan.present;
}

static bool clean(struct dawn_worth_way *way, const struct dawn_scenario *s)
{
    static const double washed = 0.95;
    double area_m2 = 0.0;

    call(way, "wash the glazing each winter");
    way->care = "no standing on glazing; a ladder needs a second person";
    for (size_t i = 0; i < s->glazing_count; i++) {
        if (s->glazing[i].dirt_factor < washed - 0.005) {
            dawn_trials_set(&way->trial, "glazing.%zu.dirt_factor=%g", i + 1, washed);
            area_m2 += s->glazing[i].area_m2;
        }
    }
    way->cost = area_m2 * s->prices.cleaning_m2 * fmax(s->prices.springs, 1.0);
    return way->trial.sets > 0;
}

static const struct {
    const char *key;
    bool (*fill)(struct dawn_worth_way *way, const struct dawn_scenario *scenario);
} known[] = {
    {"seal", seal},           {"skin", skin}, {"curtain", curtain},
    {"row_cover", row_cover}, {"edge", edge}, {"rock", rock},
    {"barrel", barrel},       {"fan", fan},   {"clean", clean},
};
enum { KNOWN = sizeof known / sizeof known[0] };
_Static_assert((int)KNOWN <= (int)DAWN_WORTH_MOST, "a row each");

size_t dawn_worth_ways(struct dawn_worth_way way[], const struct dawn_scenario *scenario)
{
    size_t count = 0;

    for (size_t i = 0; i < KNOWN; i++) {
        way[count] = (struct dawn_worth_way){.key = known[i].key};
        count += known[i].fill(&way[count], scenario);
    }
    return count;
}
