/* A run with one thermostat setting, looked at by month. */
#include "studies/setpoint_measure.h"

#include <math.h>
#include <stdlib.h>

#include "base/civil.h"
#include "dawnlow/physics/water.h"

static const double tenth = 0.1;
enum { COLD_LEAST = 3 };
static const double hour_s = 3600.0;

static int month_of(double utc_s, const struct dawn_scenario *scenario)
{
    return dawn_civil_at((int64_t)utc_s, scenario->site.utc_offset_h).month - 1;
}

static int rising(const void *a, const void *b)
{
    const double first = *(const double *)a;
    const double second = *(const double *)b;

    return (first > second) - (first < second);
}

/* How many nights the coldest tenth has, at least three where there are so many. */
static size_t coldest_of(size_t count)
{
    const size_t wanted = (size_t)ceil(tenth * (double)count);
    const size_t most = wanted > COLD_LEAST ? wanted : COLD_LEAST;

    return count < most ? count : most;
}

/* Mean of the coldest tenth; sorts. NAN of nothing. */
static double mean_of_coldest(double low_C[], size_t count)
{
    const size_t cold = coldest_of(count);
    double sum_C = 0.0;

    qsort(low_C, count, sizeof *low_C, rising);
    for (size_t i = 0; i < cold; i++) {
        sum_C += low_C[i];
    }
    return cold > 0 ? sum_C / (double)cold : NAN;
}

/* The same nights, sorted, from the coldest to the last. */
static struct dawn_setpoint_range range_of_coldest(const double low_C[], size_t count)
{
    return count > 0 ? (struct dawn_setpoint_range){low_C[0], low_C[coldest_of(count) - 1]}
                     : (struct dawn_setpoint_range){NAN, NAN};
}

static bool held_by_freezing(double low_C)
{
    return low_C <= 0.0 && low_C >= -DAWN_WATER_FREEZING_WIDTH_K;
}

/* Lows of the nights whose evening is in a month (-1 = in any) into low_C; how many. */
static size_t gather(const struct dawn_nights *nights, const struct dawn_scenario *scenario,
                     int month, bool of_air, double low_C[])
{
    size_t count = 0;

    for (size_t i = 0; i < nights->count; i++) {
        const struct dawn_night *night = &nights->night[i];
        if (month < 0 || month_of((double)night->dusk_s, scenario) == month) {
            low_C[count++] = of_air ? night->air_low_C : night->place_low_C;
        }
    }
    return count;
}

static void judge_nights(struct setpoint_measure *measure, const struct dawn_nights *nights,
                         const struct dawn_scenario *scenario, double low_C[])
{
    struct dawn_setpoint_row *row = &measure->row;

    measure->air_cold_C = mean_of_coldest(low_C, gather(nights, scenario, -1, true, low_C));
    measure->air_cold_nights = range_of_coldest(low_C, nights->count);
    measure->air_cold_years =
        (struct dawn_setpoint_range){measure->air_cold_C, measure->air_cold_C};
    row->cold_C = mean_of_coldest(low_C, gather(nights, scenario, -1, false, low_C));
    measure->cold_nights = range_of_coldest(low_C, nights->count);
    measure->cold_years = (struct dawn_setpoint_range){row->cold_C, row->cold_C};
    measure->held = measure->at_trays && nights->count > 0 && held_by_freezing(low_C[0]);
    for (int month = 0; month < DAWN_SETPOINT_MONTHS; month++) {
        measure->month_air_cold_C[month] =
            mean_of_coldest(low_C, gather(nights, scenario, month, true, low_C));
        row->month[month].nights = gather(nights, scenario, month, false, low_C);
        row->month[month].cold_C = mean_of_coldest(low_C, row->month[month].nights);
        row->month[month].coldest_C = row->month[month].nights > 0 ? low_C[0] : NAN;
    }
}

static void count_nights(struct setpoint_measure *measure, const struct dawn_nights *nights,
                         const struct dawn_scenario *scenario, double line_C)
{
    for (size_t i = 0; i < nights->count; i++) {
        const struct dawn_night *night = &nights->night[i];
        if (night->place_low_C < line_C) {
            measure->row.below += 1.0;
            measure->row.month[month_of((double)night->dusk_s, scenario)].below++;
        }
    }
}

/* By day, and warmer than where the fan brings heat back on purpose. */
static bool ought_to_store(const struct dawn_batch_outcome *outcome, double t_s)
{
    const struct dawn_nights *nights = outcome->nights;
    const double night_off_C = outcome->scenario->fan.night_off_C;

    for (size_t i = 0; i < nights->count; i++) {
        if (t_s > (double)nights->night[i].dusk_s && t_s < (double)nights->night[i].until_s) {
            return false;
        }
    }
    return isnan(night_off_C) ||
           dawn_trajectory_watched_C(outcome->run, dawn_network_air(outcome->network), t_s) >
               night_off_C;
}

/* One hour of the run. */
static void look_at_hour(struct setpoint_measure *measure, const struct dawn_batch_outcome *outcome,
                         double from_s, double to_s)
{
    const struct dawn_trajectory *run = outcome->run;
    const int air = dawn_network_air(outcome->network);
    struct dawn_setpoint_month *month = &measure->row.month[month_of(from_s, outcome->scenario)];
    const double fan_h = dawn_trajectory_fan_s(run, from_s, to_s) / hour_s;
    const double below_s = dawn_trajectory_below_s(run, air, DAWN_SUMMARY_HOT_C, from_s, to_s);

    month->hot_h += fmax(to_s - from_s - below_s, 0.0) / hour_s;
    month->fan_h += fan_h;
    month->fan_kWh += fan_h * dawn_network_fan_power_W(outcome->network) / 1e3;
    month->starts += (double)dawn_trajectory_fan_starts(run, from_s, to_s);
    if (fan_h <= 0.0 || !ought_to_store(outcome, 0.5 * (from_s + to_s))) {
        return;
    }
    month->day_fan_h += fan_h;
    if (dawn_trajectory_stored_J(run, DAWN_ROLE_ROCK, to_s) <
        dawn_trajectory_stored_J(run, DAWN_ROLE_ROCK, from_s)) {
        month->cooling_h += fan_h;
    }
}

static void look_at_hours(struct setpoint_measure *measure,
                          const struct dawn_batch_outcome *outcome)
{
    const double from_s = (double)dawn_trajectory_from_s(outcome->run);
    const double to_s = (double)dawn_trajectory_to_s(outcome->run);

    const size_t hours = (size_t)ceil((to_s - from_s) / hour_s);

    for (size_t hour = 0; hour < hours; hour++) {
        const double t_s = from_s + (double)hour * hour_s;
        look_at_hour(measure, outcome, t_s, fmin(t_s + hour_s, to_s));
    }
    measure->days = (to_s - from_s) / 86400.0;
}

void dawn_setpoint_measure(struct setpoint_measure *measure,
                           const struct dawn_batch_outcome *outcome, double line_C)
{
    *measure = (struct setpoint_measure){.status = outcome->status, .known = true};
    if (outcome->status != DAWN_OK) {
        return;
    }
    double *low_C = calloc(outcome->nights->count + 1, sizeof *low_C);
    if (low_C == NULL) {
        measure->status = DAWN_ERR_NOMEM;
        return;
    }
    measure->nights = (double)outcome->nights->count;
    measure->years = outcome->nights->count > 0 ? 1 : 0;
    measure->at_trays = outcome->nights->at_trays;
    dawn_summary_of(&measure->row.sum, outcome->nights, outcome->run, outcome->network);
    judge_nights(measure, outcome->nights, outcome->scenario, low_C);
    count_nights(measure, outcome->nights, outcome->scenario, line_C);
    look_at_hours(measure, outcome);
    free(low_C);
}

/* ---- several years ---- */

/* Means of two parts by their nights; one without nights says nothing. */
static double mean_of(double first, double first_nights, double second, double second_nights)
{
    if (first_nights <= 0.0 || second_nights <= 0.0) {
        return first_nights > 0.0 ? first : second;
    }
    return (first * first_nights + second * second_nights) / (first_nights + second_nights);
}

/* NAN, of a year without nights, changes nothing. */
static void widen(struct dawn_setpoint_range *whole, const struct dawn_setpoint_range *part)
{
    whole->from_C = fmin(whole->from_C, part->from_C);
    whole->to_C = fmax(whole->to_C, part->to_C);
}

static void join_month(struct setpoint_measure *whole, const struct setpoint_measure *part, int i)
{
    struct dawn_setpoint_month *to = &whole->row.month[i];
    const struct dawn_setpoint_month *from = &part->row.month[i];
    const double old = (double)to->nights;
    const double more = (double)from->nights;

    to->coldest_C =
        old > 0.0 && !(from->coldest_C < to->coldest_C) ? to->coldest_C : from->coldest_C;
    to->cold_C = mean_of(to->cold_C, old, from->cold_C, more);
    whole->month_air_cold_C[i] =
        mean_of(whole->month_air_cold_C[i], old, part->month_air_cold_C[i], more);
    to->nights += from->nights;
    to->below += from->below;
    to->fan_h += from->fan_h;
    to->fan_kWh += from->fan_kWh;
    to->hot_h += from->hot_h;
    to->starts += from->starts;
    to->cooling_h += from->cooling_h;
    to->day_fan_h += from->day_fan_h;
}

void dawn_setpoint_measure_join(struct setpoint_measure *whole, const struct setpoint_measure *part)
{
    if (!whole->known) {
        *whole = *part;
        return;
    }
    if (whole->status != DAWN_OK || part->status != DAWN_OK) {
        whole->status = whole->status != DAWN_OK ? whole->status : part->status;
        return;
    }
    whole->row.cold_C = mean_of(whole->row.cold_C, whole->nights, part->row.cold_C, part->nights);
    whole->air_cold_C = mean_of(whole->air_cold_C, whole->nights, part->air_cold_C, part->nights);
    widen(&whole->cold_nights, &part->cold_nights);
    widen(&whole->cold_years, &part->cold_years);
    widen(&whole->air_cold_nights, &part->air_cold_nights);
    widen(&whole->air_cold_years, &part->air_cold_years);
    whole->years += part->years;
    whole->held = whole->held || part->held;
    whole->row.below += part->row.below;
    for (int i = 0; i < DAWN_SETPOINT_MONTHS; i++) {
        join_month(whole, part, i);
    }
    whole->nights += part->nights;
    whole->days += part->days;
}
