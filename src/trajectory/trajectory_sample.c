/* What a kept run tells: temperatures at any moment, lows, hours, stores. */
#include <math.h>

#include "trajectory/trajectory_cubic.h"
#include "trajectory/trajectory_store.h"

int64_t dawn_trajectory_from_s(const struct dawn_trajectory *trajectory)
{
    return trajectory->from_s;
}

int64_t dawn_trajectory_to_s(const struct dawn_trajectory *trajectory)
{
    return trajectory->to_s;
}

struct dawn_trajectory_facts dawn_trajectory_facts(const struct dawn_trajectory *trajectory)
{
    return trajectory->facts;
}

const double *dawn_trajectory_state(const struct dawn_trajectory *trajectory, bool at_end)
{
    return trajectory->hour_y +
           (at_end ? (trajectory->hour_count - 1) * trajectory->nodes : (size_t)0);
}

const double *dawn_trajectory_state_from(const struct dawn_trajectory *trajectory, double t_s,
                                         int64_t *at_s)
{
    size_t at = 0;
    while (at + 1 < trajectory->hour_count && trajectory->hour_s[at] < t_s)
        ++at;
    *at_s = (int64_t)trajectory->hour_s[at];
    return trajectory->hour_y + at * trajectory->nodes;
}

/* ---- watched nodes: cubics, step by step ---- */

static struct cubic cubic_of(const struct step *step, size_t i)
{
    double length = step->to_s - step->from_s;
    return cubic_between(step->from_C[i], step->to_C[i], length * step->from_K_s[i],
                         length * step->to_K_s[i]);
}

static int watched_index(const struct dawn_trajectory *trajectory, int node)
{
    for (size_t i = 0; i < trajectory->watched_count; ++i)
        if (trajectory->watched[i] == node)
            return (int)i;
    return -1;
}

/* The first step that ends after t_s (the last step when there is none). */
static size_t step_at(const struct dawn_trajectory *trajectory, double t_s)
{
    size_t low = 0;
    size_t high = trajectory->step_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (trajectory->steps[middle].to_s > t_s)
            high = middle;
        else
            low = middle + 1;
    }
    return low < trajectory->step_count ? low : trajectory->step_count - 1;
}

static double share_of(const struct step *step, double t_s)
{
    double length = step->to_s - step->from_s;
    return length > 0 ? fmin(fmax((t_s - step->from_s) / length, 0.0), 1.0) : 0.0;
}

double dawn_trajectory_watched_C(const struct dawn_trajectory *trajectory, int node, double t_s)
{
    int i = watched_index(trajectory, node);
    if (i < 0 || trajectory->step_count == 0)
        return NAN;
    const struct step *step = &trajectory->steps[step_at(trajectory, t_s)];
    return cubic_at(cubic_of(step, (size_t)i), share_of(step, t_s));
}

/* Shares in (from, to) at which the slope of a cubic is zero; returns how many. */
static int flat_points(struct cubic c, double from, double to, double shares[2])
{
    double a = 3 * c.c3;
    double b = 2 * c.c2;
    double d = b * b - 4 * a * c.c1;
    int count = 0;
    double candidates[2] = {NAN, NAN};
    if (fabs(a) < 1e-12 * (fabs(b) + 1e-300)) {
        candidates[0] = b != 0 ? -c.c1 / b : NAN; /* a straight line has no flat point */
    } else if (d >= 0) {
        candidates[0] = (-b + sqrt(d)) / (2 * a);
        candidates[1] = (-b - sqrt(d)) / (2 * a);
    }
    for (int i = 0; i < 2; ++i)
        if (candidates[i] > from && candidates[i] < to)
            shares[count++] = candidates[i];
    return count;
}

struct dawn_low dawn_trajectory_low(const struct dawn_trajectory *trajectory, int node,
                                    double from_s, double to_s)
{
    struct dawn_low low = {.low_C = NAN, .at_s = NAN};
    int watched = watched_index(trajectory, node);
    if (watched < 0 || trajectory->step_count == 0)
        return low;
    for (size_t k = step_at(trajectory, from_s); k < trajectory->step_count; ++k) {
        const struct step *step = &trajectory->steps[k];
        if (step->from_s > to_s)
            break;
        struct cubic c = cubic_of(step, (size_t)watched);
        double least = 0;
        double most = 0;
        cubic_bounds(c, &least, &most);
        if (least >= low.low_C)
            continue;
        double shares[4] = {share_of(step, from_s), share_of(step, to_s)};
        int count = 2 + flat_points(c, shares[0], shares[1], shares + 2);
        for (int i = 0; i < count; ++i) {
            double T = cubic_at(c, shares[i]);
            if (isnan(low.low_C) || T < low.low_C)
                low = (struct dawn_low){T, step->from_s + shares[i] * (step->to_s - step->from_s)};
        }
    }
    return low;
}

/* Parts of a step this short are judged by their middle; a line is met within seconds. */
enum { PARTS_A_STEP = 16 };

/* How much of a stretch of the step lies below a line, of the step's length. */
static double share_below(struct cubic c, double from, double to, double line_C)
{
    double low = 0;
    double high = 0;
    double sum = 0;
    double part = (to - from) / PARTS_A_STEP;
    cubic_bounds(c, &low, &high);
    if (low >= line_C || high < line_C)
        return high < line_C ? to - from : 0.0;
    for (int i = 0; i < PARTS_A_STEP; ++i) {
        /* Straight within a part: the share of it below the line. */
        double a = cubic_at(c, from + i * part) - line_C;
        double b = cubic_at(c, from + (i + 1) * part) - line_C;
        double share = a < 0 && b < 0     ? 1.0
                       : a >= 0 && b >= 0 ? 0.0
                                          : fmin(a, b) / (fmin(a, b) - fmax(a, b));
        sum += share * part;
    }
    return sum;
}

double dawn_trajectory_below_s(const struct dawn_trajectory *trajectory, int node, double line_C,
                               double from_s, double to_s)
{
    int watched = watched_index(trajectory, node);
    if (watched < 0 || trajectory->step_count == 0)
        return NAN;
    double below = 0;
    for (size_t k = step_at(trajectory, from_s); k < trajectory->step_count; ++k) {
        const struct step *step = &trajectory->steps[k];
        if (step->from_s >= to_s)
            break;
        struct cubic c = cubic_of(step, (size_t)watched);
        below += (step->to_s - step->from_s) *
                 share_below(c, share_of(step, from_s), share_of(step, to_s), line_C);
    }
    return below;
}

/* ---- the fan ---- */

double dawn_trajectory_fan_s(const struct dawn_trajectory *trajectory, double from_s, double to_s)
{
    double sum = 0;
    for (size_t i = 0; i < trajectory->switch_count; ++i) {
        if (!trajectory->switches[i].on)
            continue;
        double on = trajectory->switches[i].at_s;
        double off = i + 1 < trajectory->switch_count ? trajectory->switches[i + 1].at_s
                                                      : (double)trajectory->to_s;
        double overlap = fmin(off, to_s) - fmax(on, from_s);
        sum += fmax(overlap, 0.0);
    }
    return sum;
}

size_t dawn_trajectory_fan_starts(const struct dawn_trajectory *trajectory, double from_s,
                                  double to_s)
{
    size_t starts = 0;
    /* The first only tells how the run begins. */
    for (size_t i = 1; i < trajectory->switch_count; ++i) {
        const struct fan_switch *it = &trajectory->switches[i];
        starts += it->on && it->at_s > from_s && it->at_s <= to_s;
    }
    return starts;
}

/* ---- heat ---- */

/* Hour mark at or before t_s and the share of the way to the next. */
static size_t hour_at(const struct dawn_trajectory *trajectory, double t_s, double *share)
{
    size_t low = 0;
    size_t high = trajectory->hour_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (trajectory->hour_s[middle] > t_s)
            high = middle;
        else
            low = middle + 1;
    }
    size_t at = low > 0 ? low - 1 : 0;
    if (at + 1 >= trajectory->hour_count) {
        *share = 0;
        return at;
    }
    double length = trajectory->hour_s[at + 1] - trajectory->hour_s[at];
    *share = fmin(fmax((t_s - trajectory->hour_s[at]) / length, 0.0), 1.0);
    return at;
}

double dawn_trajectory_stored_J(const struct dawn_trajectory *trajectory, enum dawn_role role,
                                double t_s)
{
    double share = 0;
    const double *heat_J =
        trajectory->hour_heat_J + hour_at(trajectory, t_s, &share) * DAWN_ROLES + (size_t)role;
    return share > 0 ? heat_J[0] + share * (heat_J[DAWN_ROLES] - heat_J[0]) : heat_J[0];
}

double dawn_trajectory_stored_all_J(const struct dawn_trajectory *trajectory, double t_s)
{
    double sum = 0;
    /* A film is liquid: asked for by name it is told, but it is no heat. */
    for (int role = 0; role < DAWN_ROLES; ++role)
        if (role != DAWN_ROLE_FILM)
            sum += dawn_trajectory_stored_J(trajectory, (enum dawn_role)role, t_s);
    return sum;
}

double dawn_trajectory_flow_J(const struct dawn_trajectory *trajectory, size_t flow, double from_s,
                              double to_s)
{
    if (!trajectory->ledger)
        return NAN;
    double sum = 0;
    for (size_t i = 1; i < trajectory->hour_count; ++i)
        if (trajectory->hour_s[i - 1] >= from_s - 0.5 && trajectory->hour_s[i] <= to_s + 0.5)
            sum += trajectory->hour_J[i * trajectory->flows + flow];
    return sum;
}

/* ---- the series ---- */

size_t dawn_trajectory_series_count(const struct dawn_trajectory *trajectory)
{
    return trajectory->series_count;
}

double dawn_trajectory_series_time_s(const struct dawn_trajectory *trajectory, size_t row)
{
    return trajectory->series_s[row];
}

const double *dawn_trajectory_series_C(const struct dawn_trajectory *trajectory, size_t row)
{
    return trajectory->series_C + row * trajectory->nodes;
}

double dawn_trajectory_series_mean_s(const struct dawn_trajectory *trajectory)
{
    return trajectory->series_means ? trajectory->series_step_s : 0.0;
}

bool dawn_trajectory_series_fan_on(const struct dawn_trajectory *trajectory, size_t row)
{
    return trajectory->series_fan[row];
}
