/* Night covers: the air they shut off, their sheets, and when they are drawn.
 *
 * What a cover shuts off is an air of its own, one with the air around while the cover is away:
 * then a large exchange joins the two. Over the house that air is the one under the ridge. The
 * sheet has films on both faces; away, it hangs in the air below it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "dawnlow/physics/cover.h"
#include "dawnlow/physics/sun.h"
#include "dawnlow/physics/water.h"
#include "network/network_build.h"

static const double hour_s = 3600.0;
static const double day_s = 86400.0;
/* Where nothing parts them two airs are one: an exchange a hundred times that of surface films. */
static const double open_W_m2K = 1000.0;
/* A sheet that resists less than this has one temperature. */
static const double thin_m2K_W = 0.03;

int dawn_network_stack_veil(struct building *building, const struct cover_stack *stack,
                            enum veil_part part)
{
    struct veil veil = {.count = stack->count};
    for (size_t i = 0; i < stack->count; ++i)
        veil.factor[i] = (struct veil_factor){stack->cover[i], part};
    return dawn_network_veil(building->network, veil);
}

/* ---- the sheet ---- */

/* A cover between two airs; the one it shuts off is below it, or above when it hangs over the
 * house. */
struct hanging {
    const struct dawn_cover *wish;
    const struct dawn_cover_sheet *sheet;
    int cover;
    int lower_air, upper_air;
    double area_m2;
};

static void moisten(struct building *building, const struct hanging *it, int lower)
{
    if (!building->scenario->moisture.present)
        return;
    dawn_network_add_condense(building->network, lower, it->area_m2,
                              building->scenario->moisture.film_m * DAWN_WATER_KG_M3);
    dawn_network_add_frost(building->network);
}

static struct natural_link sheet_film(const struct building *building, const struct hanging *it,
                                      int air, enum lie lie)
{
    struct natural_link law = dawn_network_film(lie, it->area_m2);
    law.law.stirred = air == building->network->air ? 1.0 : 0.0;
    return law;
}

/* Its lower face always hangs in the air below it, its upper face is spread only when it is drawn.
 */
static void hang_sheet(struct building *building, const struct hanging *it)
{
    struct dawn_network *net = building->network;
    bool thick = it->sheet->resistance_m2K_W >= thin_m2K_W;
    double heat = it->sheet->heat_J_m2K * it->area_m2 / (thick ? 2.0 : 1.0);
    int lower = dawn_network_add_node(net, DAWN_ROLE_COVER, heat, heat, 0, "%s", it->wish->name);
    int upper = lower;
    if (thick) {
        upper = dawn_network_add_node(net, DAWN_ROLE_COVER, heat, heat, 0, "%s upper face",
                                      it->wish->name);
        dawn_network_add_conduction(net, lower, upper, NULL,
                                    it->area_m2 / it->sheet->resistance_m2K_W);
    }
    dawn_network_add_natural(net, lower, it->lower_air,
                             sheet_film(building, it, it->lower_air, LIE_ROOF));
    moisten(building, it, lower);
    struct natural_link law = sheet_film(building, it, it->upper_air, LIE_FLOOR);
    law.veil = dawn_network_veil_of(net, it->cover, VEIL_DRAWN);
    dawn_network_add_natural(net, upper, it->upper_air, law);
    bool over_house = it->wish->over == DAWN_OVER_HOUSE;
    building->cover_faces[it->cover] =
        over_house ? (struct cover_faces){upper, lower} : (struct cover_faces){lower, upper};
    building->light.covers[it->cover] = (struct light_cover){
        it->sheet->light, it->sheet->light_taken, dawn_network_add_gain(net, upper)};
}

/* ---- past the sheet ---- */

static void exchange(struct building *building, const struct hanging *it, int shut_off, bool freely)
{
    struct dawn_network *net = building->network;
    int around = shut_off == it->lower_air ? it->upper_air : it->lower_air;
    int gap = dawn_network_veil_of(net, it->cover, VEIL_GAP);
    int drawn = dawn_network_veil_of(net, it->cover, VEIL_DRAWN);
    double changes = isnan(it->wish->leak_changes_per_h) ? it->sheet->leak_changes_per_h
                                                         : it->wish->leak_changes_per_h;
    double leak_W_K = net->nodes[shut_off].facts.heat_J_K * changes / hour_s;
    double open_W_K = open_W_m2K * it->area_m2;
    int vapour = dawn_network_vapour_in(net, shut_off);
    int vapour_around = dawn_network_vapour_in(net, around);
    dawn_network_add_exchange(net, shut_off, around, leak_W_K, drawn);
    if (freely)
        dawn_network_add_exchange(net, shut_off, around, open_W_K, gap);
    if (vapour == DAWN_NO_NODE)
        return;
    dawn_network_add_exchange(net, vapour, vapour_around,
                              leak_W_K + it->sheet->vapour_film_W_m2K * it->area_m2, drawn);
    if (freely)
        dawn_network_add_exchange(net, vapour, vapour_around, open_W_K, gap);
}

static void name_cover(struct building *building, const struct hanging *it)
{
    struct dawn_network *net = building->network;
    struct network_cover *cover = &net->covers[it->cover];
    bool wet = building->scenario->moisture.present;
    struct dawn_cover_longwave below =
        dawn_cover_longwave_of(it->sheet, it->sheet->emissivity_below, wet);
    struct dawn_cover_longwave above =
        dawn_cover_longwave_of(it->sheet, it->sheet->emissivity_above, wet);
    bool over_house = it->wish->over == DAWN_OVER_HOUSE;
    *cover = (struct network_cover){.passes = below.passes,
                                    .takes_inside = over_house ? above.takes : below.takes,
                                    .takes_outside = over_house ? below.takes : above.takes};
    memcpy(cover->name, it->wish->name, sizeof cover->name);
}

static struct hanging hanging_of(struct building *building, size_t i, double usual_m2)
{
    const struct dawn_cover *wish = &building->scenario->covers[i];
    size_t sheets = 0;
    return (struct hanging){.wish = wish,
                            .sheet = dawn_cover_table(&sheets) + wish->sheet,
                            .cover = (int)i,
                            .area_m2 = isnan(wish->area_m2) ? usual_m2 : wish->area_m2};
}

/* Covers over trays or bed, from the outside in. */
static void cover_place(struct building *building, enum dawn_cover_place over, double usual_m2,
                        struct covered_place *place)
{
    struct cover_stack outer = place->below;
    place->below.count = 0;
    for (size_t i = 0; i < building->scenario->cover_count; ++i)
        if (building->scenario->covers[i].over == (int)over)
            place->below.cover[place->below.count++] = (int)i;
    for (size_t k = place->below.count; k > 0; --k) {
        struct hanging it = hanging_of(building, (size_t)place->below.cover[k - 1], usual_m2);
        char name[DAWN_NAME_SIZE + 16];
        snprintf(name, sizeof name, "air under %s", it.wish->name);
        it.upper_air = place->air;
        it.lower_air = dawn_network_add_air(building, it.area_m2 * it.wish->height_m, name);
        name_cover(building, &it);
        hang_sheet(building, &it);
        exchange(building, &it, it.lower_air, true);
        place->air = it.lower_air;
    }
    for (size_t i = 0; i < outer.count; ++i)
        place->below.cover[place->below.count++] = outer.cover[i];
}

static void cover_house(struct building *building)
{
    struct dawn_network *net = building->network;
    for (size_t i = 0; i < building->scenario->cover_count; ++i) {
        if (building->scenario->covers[i].over != DAWN_OVER_HOUSE)
            continue;
        struct hanging it = hanging_of(building, i, building->floor_area_m2);
        it.lower_air = net->air;
        it.upper_air = net->ridge;
        name_cover(building, &it);
        hang_sheet(building, &it);
        exchange(building, &it, net->ridge, building->scenario->house.zones < 1.5);
        building->at_roof.below.cover[building->at_roof.below.count++] = (int)i;
    }
}

void dawn_network_build_covers(struct building *building)
{
    const struct dawn_scenario *scenario = building->scenario;
    struct dawn_network *net = building->network;
    net->cover_count = net->night_cover_count = scenario->cover_count;
    building->at_roof.air = net->ridge;
    building->at_bed.air = net->air;
    cover_house(building);
    cover_place(building, DAWN_OVER_BED, building->bed_area_m2, &building->at_bed);
    building->at_trays = scenario->trays.stand_on == DAWN_ON_BED
                             ? building->at_bed
                             : (struct covered_place){.air = net->air};
    cover_place(building, DAWN_OVER_TRAYS, scenario->trays.area_m2, &building->at_trays);
}

/* ---- when ---- */

/* The first moment from from_s on at which a clock shows this time of day. */
static double next_clock_s(const struct building *building, double from_s, double of_day_s)
{
    double midnight = -building->scenario->site.utc_offset_h * hour_s;
    return midnight + of_day_s + ceil((from_s - midnight - of_day_s) / day_s) * day_s;
}

struct stretch {
    double from_s, to_s; /* NAN: the sun does not say */
};

/* One night's use of a cover, of the night that follows a solar noon. */
static struct stretch night_of(const struct building *building, const struct dawn_cover *wish,
                               double noon_s)
{
    const struct dawn_site *site = &building->scenario->site;
    struct stretch night;
    night.from_s = isnan(wish->put_on_s)
                       ? dawn_sun_crossing_s(noon_s, noon_s + day_s / 2, site->latitude_deg,
                                             site->longitude_deg, 0) +
                             wish->after_sunset_s
                       : next_clock_s(building, noon_s, wish->put_on_s);
    night.to_s = isnan(wish->take_off_s)
                     ? dawn_sun_crossing_s(noon_s + day_s / 2, noon_s + day_s, site->latitude_deg,
                                           site->longitude_deg, 1) +
                           wish->after_sunrise_s
                     : next_clock_s(building, night.from_s, wish->take_off_s);
    return night;
}

static size_t knot_from(const struct forcing *forcing, double t_s)
{
    double knot = ceil((t_s - (double)forcing->from_s) / FORCING_STEP_S);
    return (size_t)fmin(fmax(knot, 0.0), (double)forcing->knots);
}

static bool cold_enough(const struct forcing *forcing, size_t from, size_t to, double line_C)
{
    for (size_t i = from; i < to; ++i)
        if (forcing->air_C[i] < line_C)
            return true;
    return isnan(line_C);
}

static void draw_over_night(struct building *building, size_t cover, struct stretch night)
{
    struct forcing *forcing = &building->network->forcing;
    if (!(night.from_s < night.to_s))
        return;
    size_t from = knot_from(forcing, night.from_s);
    size_t to = knot_from(forcing, night.to_s);
    if (!cold_enough(forcing, from, to, building->scenario->covers[cover].only_below_C))
        return;
    for (size_t i = from; i < to; ++i)
        forcing->drawn[i * forcing->covers + cover] = 1.0;
}

void dawn_network_fill_drawn(struct building *building)
{
    const struct dawn_scenario *scenario = building->scenario;
    const struct forcing *forcing = &building->network->forcing;
    double end_s = (double)forcing->from_s + (double)forcing->knots * FORCING_STEP_S;
    double shift_s = scenario->site.longitude_deg / 15.0 * hour_s;
    double first_s =
        floor(((double)forcing->from_s + shift_s) / day_s - 1.5) * day_s + day_s / 2 - shift_s;
    size_t days = (size_t)ceil((end_s - first_s) / day_s);
    for (size_t day = 0; day < days; ++day)
        for (size_t i = 0; i < scenario->cover_count; ++i)
            draw_over_night(
                building, i,
                night_of(building, &scenario->covers[i], first_s + (double)day * day_s));
}
