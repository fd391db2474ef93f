/* Snow that lies on panes and roofs for days.
 *
 * A face that can bear snow meets the weather through one more node, the snow's surface. While no
 * snow lies a large exchange makes it one with the face; while it lies, the snow's conductance
 * stands between them. Its days and the outdoor air at which it slides are known beforehand, so all
 * of it is forcing, as a cover's is: three columns beside the night covers', whether snow lies, how
 * well it conducts, as a share of the thinnest that is described, and how much light it stops.
 *
 * The snow has next to no heat of its own, does not melt and takes up no sun: what light it does
 * not let through it throws back (fresh snow throws back 0.8 to 0.9). What really melts of it on a
 * warm roof is taken from nobody, and does not make it slide: that would take the pane's
 * temperature, which is not known before the run, and the water between pane and snow as a state.
 * The scenario can name the day instead. */
#include <math.h>
#include <string.h>

#include "dawnlow/physics/snow.h"
#include "network/network_build.h"

/* A film of surface, some 5 mm of fresh snow: enough to have a temperature. */
static const double skin_J_m2K = 1000.0;
/* Where nothing lies between, the two are one: some hundredths of a percent of a pane's U. */
static const double open_W_m2K = 10000.0;

static double resistance_m2K_W(const struct dawn_snow *snow)
{
    return snow->depth_m / dawn_snow_conductivity_W_mK(snow->density_kg_m3);
}

static int add_column(struct dawn_network *net, const char *name)
{
    const int column = (int)net->cover_count++;
    /* Nothing long-wave gets through, the face below is met by all of it. */
    net->covers[column] = (struct network_cover){.passes = 0.0, .takes_inside = 1.0};
    (void)strncpy(net->covers[column].name, name, sizeof net->covers[column].name - 1);
    return column;
}

void dawn_network_build_snow(struct building *building)
{
    const struct dawn_scenario *scenario = building->scenario;
    building->snow_most_W_m2K = 0.0;
    if (scenario->snow_count == 0)
        return;
    building->snow_lies = add_column(building->network, "snow on the roof");
    building->snow_conducts = add_column(building->network, "snow's conductance");
    building->snow_stops = add_column(building->network, "light stopped by snow");
    for (size_t i = 0; i < scenario->snow_count; ++i)
        building->snow_most_W_m2K =
            fmax(building->snow_most_W_m2K, 1.0 / resistance_m2K_W(&scenario->snow[i]));
}

int dawn_network_snow_over(struct building *building, int face, double area_m2)
{
    struct dawn_network *net = building->network;
    const double heat = skin_J_m2K * area_m2;
    const int surface = dawn_network_add_node(net, net->nodes[face].facts.role, heat, heat, 0,
                                              "snow on %.60s", net->nodes[face].name);
    dawn_network_add_exchange(net, face, surface, open_W_m2K * area_m2,
                              dawn_network_veil_of(net, building->snow_lies, VEIL_PASSES));
    dawn_network_add_exchange(net, face, surface, building->snow_most_W_m2K * area_m2,
                              dawn_network_veil_of(net, building->snow_conducts, VEIL_DRAWN));
    return surface;
}

void dawn_network_snow_sky(struct building *building, int surface, const char *group,
                           double area_m2, double emissivity, double sky_view)
{
    struct dawn_network *net = building->network;
    dawn_network_grow_sky(net, surface, group, area_m2 * emissivity, sky_view,
                          dawn_network_veil_of(net, building->snow_lies, VEIL_PASSES));
    dawn_network_grow_sky(net, surface, group, area_m2 * DAWN_SNOW_EMISSIVITY, sky_view,
                          dawn_network_veil_of(net, building->snow_lies, VEIL_DRAWN));
}

/* ---- when ---- */

enum stage { NOT_YET, LIES, SLID };

/* It begins to lie when it is cold enough not to slide. */
static enum stage stage_after(enum stage stage, bool warm)
{
    if (stage == NOT_YET)
        return warm ? NOT_YET : LIES;
    return warm ? SLID : stage;
}

/* One fall through the weather: from its first day, or the weather's when that is later, until its
 * last, or until it slides. What falls on snow lies on it. */
static void lay_fall(struct building *building, const struct dawn_snow *snow)
{
    struct forcing *forcing = &building->network->forcing;
    const double slides_C = building->scenario->house.snow_slides_above_C;
    const double light = dawn_snow_light(snow->depth_m, snow->density_kg_m3);
    const struct dawn_snow_days days = dawn_scenario_snow_days(building->scenario, snow);
    enum stage stage = NOT_YET;
    int64_t age = -1;
    for (size_t i = 0; i < forcing->knots; ++i) {
        double *row = forcing->drawn + i * forcing->covers;
        int64_t before = age;
        age = dawn_scenario_snow_age_days(&days, forcing->from_s + (int64_t)i * FORCING_STEP_S);
        if (age < 0 || age < before) /* gone, or another year's */
            stage = NOT_YET;
        if (age >= 0)
            stage = stage_after(stage, forcing->air_C[i] >= slides_C);
        if (stage != LIES)
            continue;
        row[building->snow_lies] = 1.0;
        row[building->snow_conducts] += resistance_m2K_W(snow); /* so far */
        row[building->snow_stops] = 1.0 - (1.0 - row[building->snow_stops]) * light;
    }
}

void dawn_network_fill_snow(struct building *building)
{
    const struct forcing *forcing = &building->network->forcing;
    for (size_t i = 0; i < building->scenario->snow_count; ++i)
        lay_fall(building, &building->scenario->snow[i]);
    for (size_t i = 0; building->scenario->snow_count > 0 && i < forcing->knots; ++i) {
        double *conducts = forcing->drawn + i * forcing->covers + building->snow_conducts;
        if (*conducts > 0)
            *conducts = 1.0 / (*conducts * building->snow_most_W_m2K);
    }
}

double dawn_network_snow_stops(const struct building *building, size_t knot)
{
    const struct forcing *forcing = &building->network->forcing;
    const double *row = forcing->drawn + knot * forcing->covers;
    return building->scenario->snow_count > 0 ? row[building->snow_stops] : 0.0;
}
