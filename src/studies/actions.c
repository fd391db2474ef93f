/* Actions as changes of a scenario. */
#include "studies/actions.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* A jug of hot water holds so much. */
static const double jug_m3 = 0.005;
static const char *const hot_water = "hot water";

static void add_cover(const struct dawn_action *action, double clock_s,
                      struct dawn_scenario *scenario)
{
    if (scenario->cover_count == DAWN_COVERS_MOST) {
        return;
    }
    struct dawn_cover *cover = &scenario->covers[scenario->cover_count++];
    *cover = (struct dawn_cover){.over = action->cover_over,
                                 .sheet = action->cover - 1,
                                 .area_m2 = NAN,
                                 .height_m = 0.25,
                                 .leak_changes_per_h = NAN,
                                 .put_on_s = clock_s,
                                 .take_off_s = NAN,
                                 .only_below_C = NAN};
    snprintf(cover->name, sizeof cover->name, "cover %zu of tonight", scenario->cover_count);
}

static void add_hot_water(const struct dawn_action *action, struct dawn_scenario *scenario)
{
    if (scenario->barrels_count == DAWN_BARRELS_MOST) {
        return;
    }
    struct dawn_barrels *jugs = &scenario->barrels[scenario->barrels_count++];
    *jugs = (struct dawn_barrels){.count = fmax(round(action->hot_water_m3 / jug_m3), 1.0),
                                  .fill_share = 1.0,
                                  .absorptance = 0.5,
                                  .sun_share = 0.0};
    jugs->volume_m3 = action->hot_water_m3 / jugs->count;
    snprintf(jugs->name, sizeof jugs->name, "%s", hot_water);
}

void dawn_actions_apply(const struct dawn_action *action, double clock_s,
                        struct dawn_scenario *scenario)
{
    scenario->house.heat_W += action->heat_W;
    if (action->vents_shut) {
        scenario->opening_count = 0;
    }
    if (action->fan_all_night && scenario->fan.present) {
        /* Whenever the rock is warmer than the air, however warm that is. */
        scenario->fan.night_on_C = 40.0;
        scenario->fan.night_off_C = 45.0;
    }
    for (int i = 0; i < (int)action->cover_layers && action->cover > 0; i++) {
        add_cover(action, clock_s, scenario);
    }
    if (action->hot_water_m3 > 0.0) {
        add_hot_water(action, scenario);
    }
}

/* ---- states ---- */

static size_t named(const struct dawn_network *network, const char *name)
{
    const size_t count = dawn_network_node_count(network);

    for (size_t i = 0; i < count; i++) {
        if (strcmp(dawn_network_node(network, i)->name, name) == 0) {
            return i;
        }
    }
    return count;
}

static double first_of_role(const struct dawn_network *network, const double *y,
                            enum dawn_role role, double otherwise)
{
    const size_t count = dawn_network_node_count(network);

    for (size_t i = 0; i < count; i++) {
        if (dawn_network_node(network, i)->role == role) {
            return y[i];
        }
    }
    return otherwise;
}

static double fresh_state(const struct dawn_network *before, const double *y, enum dawn_role role,
                          const struct dawn_action *action)
{
    switch (role) {
    case DAWN_ROLE_BARRELS:
        return action->hot_water_C;
    case DAWN_ROLE_FILM:
        return 0.0;
    case DAWN_ROLE_VAPOUR:
        return first_of_role(before, y, DAWN_ROLE_VAPOUR, 0.0);
    default:
        return y[dawn_network_air(before)];
    }
}

void dawn_actions_carry_over(const struct dawn_network *before, const double *y_before,
                             const struct dawn_network *after, double *y_after,
                             const struct dawn_action *action)
{
    const size_t known = dawn_network_node_count(before);
    const size_t count = dawn_network_node_count(after);

    for (size_t i = 0; i < count; i++) {
        const struct dawn_node *node = dawn_network_node(after, i);
        const size_t same = named(before, node->name);
        y_after[i] =
            same < known ? y_before[same] : fresh_state(before, y_before, node->role, action);
    }
}
