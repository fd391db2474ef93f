/* Rules for crops and for what is done on a cold evening. */
#include <math.h>

#include "dawnlow/physics/crop.h"
#include "scenario/scenario_parts.h"

static void blame(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot,
                  enum dawn_severity severity, const char *hint, const char *message)
{
    const struct dawn_scenario_origin *origin =
        dawn_scenario_find_origin(reading->scenario, spot, NULL);

    dawn_scenario_complain(reading, severity,
                           dawn_scenario_place(reading, origin == NULL ? 0 : origin->line,
                                               origin == NULL ? 0 : origin->column),
                           hint, "%s: %s", dawn_scenario_title_of(reading->scenario, spot).text,
                           message);
}

/* A crop of the table needs no line of its own. A refused one has been complained of. */
static void settle_crop(struct dawn_scenario_reading *reading, size_t item)
{
    const struct dawn_scenario_spot spot = {dawn_scenario_section_named("crops"), item, 0};
    struct dawn_crop *crop = &reading->scenario->crops[item];
    const struct dawn_crop_facts *facts = dawn_crop_find(crop->name);
    const struct dawn_scenario_origin *origin = dawn_scenario_find_origin(
        reading->scenario, spot, dawn_scenario_key_named("crops", "damage_below"));

    if (!isnan(crop->damage_C) || (origin != NULL && origin->fate != DAWN_SCENARIO_GIVEN))
        return;
    if (facts != NULL)
        crop->damage_C = facts->damage_C;
    else
        blame(reading, spot, DAWN_ERROR,
              "'dawnlow crops' shows the table; give other crops their damage_below",
              "the table of crops does not know it, and 'damage_below' is missing");
}

static bool does_something(const struct dawn_action *action)
{
    return action->cover > 0 || action->vents_shut > 0 || action->fan_all_night > 0 ||
           action->carry_in > 0 || action->heat_W > 0 || action->hot_water_m3 > 0;
}

static void check_action(struct dawn_scenario_reading *reading, size_t item)
{
    const struct dawn_scenario *scenario = reading->scenario;
    const struct dawn_scenario_spot spot = {dawn_scenario_section_named("actions"), item, 0};
    const struct dawn_action *action = &scenario->actions[item];

    if (action->cover > 0 && action->cover_over == DAWN_OVER_TRAYS && !scenario->trays.present)
        blame(reading, spot, DAWN_ERROR, "say cover_over: bed or house", "there are no trays");
    if (action->cover > 0 && action->cover_over == DAWN_OVER_BED && !scenario->bed.present)
        blame(reading, spot, DAWN_ERROR, "say cover_over: trays or house", "there is no bed");
    if (action->cover > 0 &&
        scenario->cover_count + (size_t)action->cover_layers > DAWN_COVERS_MOST)
        blame(reading, spot, DAWN_ERROR, NULL,
              "with the covers of every night these are more than 4");
    if (action->fan_all_night > 0 && !(scenario->fan.present && scenario->rock.present))
        blame(reading, spot, DAWN_WARNING, "leave it out, or describe fan and rock",
              "there is no fan that blows through rock; it does nothing");
    if (action->hot_water_m3 > 0 && scenario->barrels_count == DAWN_BARRELS_MOST)
        blame(reading, spot, DAWN_ERROR, "put some groups of barrels together",
              "there is no room for the jugs");
    if (!does_something(action))
        blame(reading, spot, DAWN_WARNING,
              "say what is done: cover, vents, fan, heater, hot_water or carry_in",
              "it does nothing");
}

void dawn_scenario_check_evening(struct dawn_scenario_reading *reading)
{
    for (size_t i = 0; i < reading->scenario->crop_count; i++)
        settle_crop(reading, i);
    for (size_t i = 0; i < reading->scenario->action_count; i++)
        check_action(reading, i);
}
