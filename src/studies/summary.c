/* Nights to sums. */
#include "dawnlow/studies/summary.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dawnlow/studies/return_level.h"
#include "physics/constants.h"

/* ---- one run ---- */

static bool has_role(const struct dawn_network *network, enum dawn_role role)
{
    for (size_t i = 0; i < dawn_network_node_count(network); i++) {
        if (dawn_network_node(network, i)->role == role) {
            return true;
        }
    }
    return false;
}

/* What a store took up by day, from each dawn to the next dusk, where it gained at all. */
static double stored_kWh(const struct dawn_nights *nights, const struct dawn_trajectory *run,
                         enum dawn_role role)
{
    double sum_J = 0.0;

    for (size_t i = 0; i < nights->count; i++) {
        const double from_s =
            i == 0 ? (double)dawn_trajectory_from_s(run) : (double)nights->night[i - 1].dawn_s;
        const double dusk_s = (double)nights->night[i].dusk_s;
        sum_J += fmax(dawn_trajectory_stored_J(run, role, dusk_s) -
                          dawn_trajectory_stored_J(run, role, from_s),
                      0.0);
    }
    return sum_J / PHYSICS_J_PER_kWh;
}

static double hot_h(const struct dawn_trajectory *run, const struct dawn_network *network)
{
    const double from_s = (double)dawn_trajectory_from_s(run);
    const double to_s = (double)dawn_trajectory_to_s(run);
    const double below_s =
        dawn_trajectory_below_s(run, dawn_network_air(network), DAWN_SUMMARY_HOT_C, from_s, to_s);

    return fmax(to_s - from_s - below_s, 0.0) / 3600.0;
}

static void add_night(struct dawn_summary *summary, const struct dawn_night *night)
{
    summary->nights += 1.0;
    summary->coldest_C = fmin(summary->coldest_C, night->place_low_C);
    summary->coldest_air_C = fmin(summary->coldest_air_C, night->air_low_C);
    summary->coldest_leaf_C = fmin(summary->coldest_leaf_C, night->leaf_low_C);
    summary->coldest_root_C = fmin(summary->coldest_root_C, night->root_low_C);
    summary->coldest_outside_C = fmin(summary->coldest_outside_C, night->outside_low_C);
    summary->mean_low_C += night->place_low_C;
    summary->below_0C_h += night->below_0C_h;
    summary->fan_h += night->fan_h;
    summary->fan_kWh += night->fan_kWh;
    summary->rock_kWh += night->rock_kWh;
    summary->barrels_kWh += night->barrels_kWh;
    summary->soil_kWh += night->soil_kWh;
}

static void drop_what_is_not_there(struct dawn_summary *summary, const struct dawn_nights *nights,
                                   const struct dawn_network *network)
{
    if (isnan(nights->crop_line_C)) {
        summary->below_crop = NAN;
    }
    if (!dawn_network_has_fan(network)) {
        summary->fan_h = summary->fan_kWh = summary->switches = NAN;
    }
    if (!has_role(network, DAWN_ROLE_ROCK)) {
        summary->rock_kWh = summary->rock_stored_kWh = NAN;
    }
    if (!has_role(network, DAWN_ROLE_BARRELS)) {
        summary->barrels_kWh = summary->barrels_stored_kWh = NAN;
    }
}

void dawn_summary_of(struct dawn_summary *summary, const struct dawn_nights *nights,
                     const struct dawn_trajectory *run, const struct dawn_network *network)
{
    *summary = (struct dawn_summary){.coldest_C = NAN,
                                     .coldest_air_C = NAN,
                                     .coldest_leaf_C = NAN,
                                     .coldest_root_C = NAN,
                                     .coldest_outside_C = NAN,
                                     .one_in_10_C = NAN,
                                     .one_in_10_air_C = NAN};
    for (size_t i = 0; i < nights->count; i++) {
        add_night(summary, &nights->night[i]);
    }
    summary->mean_low_C = nights->count > 0 ? summary->mean_low_C / summary->nights : NAN;
    summary->below_zero = (double)dawn_nights_below_zero(nights);
    summary->below_crop = (double)dawn_nights_below_crop(nights);
    summary->hot_h = hot_h(run, network);
    summary->switches = (double)dawn_trajectory_facts(run).switches;
    summary->rock_stored_kWh = stored_kWh(nights, run, DAWN_ROLE_ROCK);
    summary->barrels_stored_kWh = stored_kWh(nights, run, DAWN_ROLE_BARRELS);
    drop_what_is_not_there(summary, nights, network);
}

/* ---- the table ---- */

#define SUMMARY_AT(field) offsetof(struct dawn_summary, field)

static const struct dawn_summary_column columns[] = {
    {"nights", "nights", DAWN_SUMMARY_COUNT, SUMMARY_AT(nights)},
    {"coldest_C", "coldest night", DAWN_SUMMARY_DEGREES, SUMMARY_AT(coldest_C)},
    {"mean_low_C", "mean of the lows", DAWN_SUMMARY_DEGREES, SUMMARY_AT(mean_low_C)},
    {"coldest_air_C", "coldest house air", DAWN_SUMMARY_DEGREES, SUMMARY_AT(coldest_air_C)},
    {"coldest_leaf_C", "coldest leaf", DAWN_SUMMARY_DEGREES, SUMMARY_AT(coldest_leaf_C)},
    {"coldest_root_C", "coldest root", DAWN_SUMMARY_DEGREES, SUMMARY_AT(coldest_root_C)},
    {"coldest_outside_C", "coldest outdoors", DAWN_SUMMARY_DEGREES, SUMMARY_AT(coldest_outside_C)},
    {"one_in_10_years_C", "coldest night of 1 year in 10", DAWN_SUMMARY_DEGREES,
     SUMMARY_AT(one_in_10_C)},
    {"one_in_10_years_air_C", "coldest house air of 1 year in 10", DAWN_SUMMARY_DEGREES,
     SUMMARY_AT(one_in_10_air_C)},
    {"nights_below_0C", "nights below freezing", DAWN_SUMMARY_COUNT, SUMMARY_AT(below_zero)},
    {"nights_below_crop", "nights below the crop's line", DAWN_SUMMARY_COUNT,
     SUMMARY_AT(below_crop)},
    {"below_0C_h", "hours below freezing", DAWN_SUMMARY_HOURS, SUMMARY_AT(below_0C_h)},
    {"hot_h", "hours too hot", DAWN_SUMMARY_HOURS, SUMMARY_AT(hot_h)},
    {"fan_h", "fan hours", DAWN_SUMMARY_HOURS, SUMMARY_AT(fan_h)},
    {"fan_kWh", "fan's electricity", DAWN_SUMMARY_ENERGY, SUMMARY_AT(fan_kWh)},
    {"fan_switches", "fan's starts and stops", DAWN_SUMMARY_COUNT, SUMMARY_AT(switches)},
    {"rock_stored_kWh", "rock took up by day", DAWN_SUMMARY_ENERGY, SUMMARY_AT(rock_stored_kWh)},
    {"rock_kWh", "rock gave back by night", DAWN_SUMMARY_ENERGY, SUMMARY_AT(rock_kWh)},
    {"barrels_stored_kWh", "barrels took up by day", DAWN_SUMMARY_ENERGY,
     SUMMARY_AT(barrels_stored_kWh)},
    {"barrels_kWh", "barrels gave back by night", DAWN_SUMMARY_ENERGY, SUMMARY_AT(barrels_kWh)},
    {"soil_kWh", "soil gave back by night", DAWN_SUMMARY_ENERGY, SUMMARY_AT(soil_kWh)},
};
enum { COLUMNS = sizeof columns / sizeof columns[0] };

const struct dawn_summary_column *dawn_summary_columns(size_t *count)
{
    *count = COLUMNS;
    return columns;
}

double dawn_summary_value(const struct dawn_summary_column *column,
                          const struct dawn_summary *summary)
{
    double value = NAN;

    memcpy(&value, (const char *)summary + column->offset, sizeof value);
    return value;
}

/* ---- several runs ---- */

static void join(struct dawn_summary *whole, const struct dawn_summary *part)
{
    const struct dawn_summary before = *whole;

    if (before.nights <= 0.0) {
        *whole = *part;
        return;
    }
    for (size_t i = 0; i < COLUMNS; i++) {
        const double old = dawn_summary_value(&columns[i], &before);
        const double more = dawn_summary_value(&columns[i], part);
        const double value = columns[i].kind == DAWN_SUMMARY_DEGREES ? fmin(old, more) : old + more;
        memcpy((char *)whole + columns[i].offset, &value, sizeof value);
    }
    whole->mean_low_C = (before.mean_low_C * before.nights + part->mean_low_C * part->nights) /
                        (before.nights + part->nights);
}

/* The low of one year in ten, from one field of all years. */
static double one_in_10_C(const struct dawn_summary year[], size_t years, size_t offset)
{
    double *lows_C = calloc(years + 1, sizeof *lows_C);
    double level_C = NAN;

    for (size_t i = 0; lows_C != NULL && i < years; i++) {
        memcpy(&lows_C[i], (const char *)&year[i] + offset, sizeof *lows_C);
    }
    if (lows_C != NULL) {
        const struct dawn_return_level_fit fit = dawn_return_level_fit(lows_C, years);
        level_C = dawn_return_level_C(&fit, 10.0);
    }
    free(lows_C);
    return level_C;
}

void dawn_summary_of_years(struct dawn_summary *whole, const struct dawn_summary year[],
                           size_t years)
{
    *whole = (struct dawn_summary){.nights = 0.0};
    for (size_t i = 0; i < years; i++) {
        join(whole, &year[i]);
    }
    whole->one_in_10_C = one_in_10_C(year, years, SUMMARY_AT(coldest_C));
    whole->one_in_10_air_C = one_in_10_C(year, years, SUMMARY_AT(coldest_air_C));
}
