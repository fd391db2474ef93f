/* A member of an ensemble, step by step: stretches of time, stops, thermostat, lows, keeping. */
#include "trajectory/ensemble_member.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "network/network_parts.h"
#include "physics/water_lanes.h"
#include "trajectory/trajectory_cubic.h"
#include "trajectory/trajectory_store.h"

static const double hour_s = 3600.0;
/* Within a step the thermostat looks every five seconds: a wish of less than a minute, missed, cost
 * a random nursery 0.03 K. When it switches is met to a second. */
static const double look_s = 5.0;
static const double met_s = 1.0;
static const double behind_s = 3.0;
/* What is tolerated of a light node's error in a step, and relative to its state. Lows of 358
 * nights of random nurseries come within 0.013 K of CVODE's then; three times as much let one be
 * off by 0.03 K. */
static const double tolerated_K = 0.002;
static const double tolerated_share = 2e-5;
/* Among stones water settles within seconds of the fan's start and hardly tells at the trays:
 * two hundred times less closely than other water a demo season takes a sixth less attempts, and no
 * low of the random nurseries moves by 0.0001 K. Much more than this and what is forgiven in one
 * step is refused in the next. */
static const double among_stones_K = 0.1;
/* Other water is followed closely for the sake of CVODE's balance, which the lanes do not draw up,
 * and the layers of walls hardly tell inside: a third as closely, an eighth less attempts, and lows
 * within 0.013 K still. */
static const double lesser_closeness = 1.0 / 3;
static const double first_length_s = 20.0;
static const double least_length_s = 1e-3;
/* A low within a step is stepped onto when it lies this deep below both ends: there the cubic
 * between them is the coarsest part of the result. */
static const double bulge_K = 0.002;
static const double least_bulge_s = 60.0;

/* A node that can freeze: it has frozen through below solid_y. */
struct wet_node {
    size_t node;
    double solid_y;
};

struct member {
    struct dawn_ensemble_member *wanted;
    const struct dawn_network *network;
    struct dawn_trajectory *store;
    struct past past;
    int rounds, stretch; /* of the past repeated; the stretch of time it is in */
    double skipped_s;
    double t_s, to_s;    /* now, and the end of the stretch */
    double proposed_s;   /* length the error allows */
    double aim_s;        /* a moment within the step to meet first; NAN = none */
    double held_until_s; /* the fan keeps running until then, whatever the thermostat says */
    double turn_s;       /* the next corner of the forcing and of what goes by the clock */
    double stop_s;       /* the next moment that must be met */
    double length_s;     /* of the attempt at hand */
    bool refused;        /* the attempt before it */
    enum dawn_fan_state fan;
    bool kept; /* the stretch is the run itself */
    int switches_this_hour;
    double *gain_W, *drawn, *veil;
    double *state; /* room for one */
    struct wet_node *wet;
    size_t wet_count;
};

/* ---- the beginning ---- */

/* The stretches: rounds of the first days, the days before, the run. */
static bool next_stretch(struct member *member)
{
    double from_s = (double)member->store->from_s;
    double begin_s = from_s - member->past.lead_s;
    int at = ++member->stretch;
    if (at < member->rounds) {
        member->t_s = begin_s + (at == 0 ? member->skipped_s : 0.0);
        member->to_s = begin_s + member->past.window_s;
    } else if (at == member->rounds && member->past.lead_s > 0) {
        member->t_s = begin_s;
        member->to_s = from_s;
    } else if (!member->kept) {
        member->kept = true;
        member->t_s = from_s;
        member->to_s = (double)member->store->to_s;
    } else {
        return false;
    }
    member->proposed_s = first_length_s;
    member->aim_s = NAN;
    member->held_until_s = -INFINITY;
    member->turn_s = -INFINITY;
    return true;
}

static enum attempt_verdict end_with(struct member *member, enum dawn_status status,
                                     const char *hint, const char *what)
{
    if (what)
        dawn_problems_add(&member->wanted->problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                          hint, "%s", what);
    member->wanted->status = status;
    return ATTEMPT_LAST;
}

static enum attempt_verdict out_of_memory(struct member *member)
{
    return end_with(member, DAWN_ERR_NOMEM, NULL, "out of memory during the calculation");
}

/* ---- the fan ---- */

static bool fan_can_run(const struct member *member)
{
    return member->wanted->plan.fan_allowed && member->network->has_fan;
}

static double sensed_C(const struct dawn_network *net, struct strided y)
{
    size_t sensor = (size_t)net->sensor;
    return dawn_network_temperature_C(net, sensor, y.at[sensor * y.stride]);
}

static double rock_mean(const struct dawn_network *net, struct strided of)
{
    double sum = 0;
    for (size_t i = 0; i < net->rock_count; ++i)
        sum += of.at[(size_t)net->rock[i] * of.stride];
    return sum / (double)net->rock_count;
}

static bool is_blowing(const struct member *member)
{
    return member->fan != DAWN_FAN_OFF;
}

static bool due(bool fan_on, double wish)
{
    return fan_on ? wish < 0 : wish > 0;
}

/* The thermostat is heeded: the fan may run, and has run as long as it must. */
static bool is_heeded(const struct member *member)
{
    return fan_can_run(member) && member->t_s >= member->held_until_s;
}

static bool fan_is_due(const struct member *member, struct strided y)
{
    if (!is_heeded(member))
        return false;
    double sensed = sensed_C(member->network, y);
    double above = sensed - rock_mean(member->network, y);
    struct fan_span here = {sensed, sensed, above, above};
    bool on = is_blowing(member);
    return due(on, dawn_network_fan_wish_between(member->network, on, here, true));
}

static enum dawn_fan_state way_now(const struct member *member, struct strided y)
{
    return dawn_network_fan_way_above(member->network,
                                      sensed_C(member->network, y) - rock_mean(member->network, y));
}

/* Where the fan has run as long as it must, what began by day may be wanted by night. */
static void let_go(struct member *member, struct strided y)
{
    if (member->held_until_s == -INFINITY || member->t_s < member->held_until_s)
        return;
    member->held_until_s = -INFINITY;
    if (is_blowing(member))
        member->fan = way_now(member, y);
}

/* True when it chatters. */
static bool switch_fan(struct member *member, struct strided y)
{
    if (++member->switches_this_hour > SWITCHES_AN_HOUR_MOST)
        return true;
    member->fan = is_blowing(member) ? DAWN_FAN_OFF : way_now(member, y);
    member->held_until_s = is_blowing(member)
                               ? member->t_s + dawn_network_fan_least_run_s(member->network)
                               : -INFINITY;
    member->proposed_s = fmin(member->proposed_s, first_length_s);
    if (member->kept)
        ++member->store->facts.switches;
    return member->kept &&
           !dawn_trajectory_add_switch(member->store, member->t_s, is_blowing(member));
}

/* ---- within a step: cubics ---- */

static struct cubic node_cubic(const struct dawn_network *net, size_t i, const struct attempt *a)
{
    double from = a->y.at[i * a->y.stride];
    double to = a->end_y.at[i * a->end_y.stride];
    double from_rise = a->length_s * a->rates.at[i * a->rates.stride];
    double to_rise = a->length_s * a->end_rates.at[i * a->end_rates.stride];
    if (net->nodes[i].facts.latent_J <= 0)
        return cubic_between(from, to, from_rise, to_rise);
    /* Steps end just behind the corners of freezing: inside one, the slope is that of its middle.
     */
    double slope =
        dawn_network_slope(net, i, cubic_at(cubic_between(from, to, from_rise, to_rise), 0.5));
    return cubic_between(dawn_network_temperature_C(net, i, from),
                         dawn_network_temperature_C(net, i, to), from_rise * slope,
                         to_rise * slope);
}

/* What the thermostat sees over a step. */
struct sight {
    struct cubic sensed, above;
};

static bool due_at(const struct member *member, const struct sight *sight, double share)
{
    double here = cubic_at(sight->sensed, share);
    double over = cubic_at(sight->above, share);
    struct fan_span point = {here, here, over, over};
    bool on = is_blowing(member);
    return due(on, dawn_network_fan_wish_between(member->network, on, point, true));
}

/* Whether it could be due anywhere in the step. */
static bool may_be_due(const struct member *member, struct fan_span span)
{
    bool on = is_blowing(member);
    return due(on, dawn_network_fan_wish_between(member->network, on, span, !on));
}

/* False when it cannot be due in the step. Mostly the sensed air says so alone, and the rock, whose
 * mean is many numbers from all over the lane, need not be looked at. */
static bool look(const struct member *member, const struct attempt *a, struct sight *sight)
{
    const struct dawn_network *net = member->network;
    struct cubic sensed = node_cubic(net, (size_t)net->sensor, a);
    struct fan_span span = {.above_low_K = -INFINITY, .above_high_K = INFINITY};
    cubic_bounds(sensed, &span.sensed_low_C, &span.sensed_high_C);
    if (!may_be_due(member, span))
        return false;
    struct cubic rock = cubic_between(rock_mean(net, a->y), rock_mean(net, a->end_y),
                                      a->length_s * rock_mean(net, a->rates),
                                      a->length_s * rock_mean(net, a->end_rates));
    struct cubic above = {sensed.c0 - rock.c0, sensed.c1 - rock.c1, sensed.c2 - rock.c2,
                          sensed.c3 - rock.c3};
    cubic_bounds(above, &span.above_low_K, &span.above_high_K);
    *sight = (struct sight){sensed, above};
    return may_be_due(member, span);
}

/* The moment within the step, to a second, at which the fan would switch; NAN = none before the
 * end. Looked for glance by glance, so that a wish that comes and goes in between is seen too. */
static double first_switch_s(const struct member *member, const struct attempt *a)
{
    struct sight sight;
    if (!look(member, a, &sight))
        return NAN;
    double glance = look_s / a->length_s;
    double before = 0;
    double after = glance;
    while (after < 1.0 && !due_at(member, &sight, after)) {
        before = after;
        after += glance;
    }
    after = fmin(after, 1.0);
    if (!due_at(member, &sight, after))
        return NAN;
    while ((after - before) * a->length_s > met_s) {
        double middle = 0.5 * (before + after);
        if (due_at(member, &sight, middle))
            after = middle;
        else
            before = middle;
    }
    return (1.0 - after) * a->length_s > met_s ? member->t_s + after * a->length_s : NAN;
}

/* Where a cubic has its low between its ends; NAN = nowhere. Of both flat points it is the one
 * where the slope rises. */
static double low_share(struct cubic c)
{
    double root = c.c2 * c.c2 - 3 * c.c3 * c.c1;
    if (root <= 0)
        return NAN;
    root = sqrt(root);
    double share = c.c2 > 0 ? -c.c1 / (c.c2 + root) : (root - c.c2) / (3 * c.c3);
    return share > 0 && share < 1 ? share : NAN;
}

/* The moment of a low inside the step that is worth meeting; NAN = none. */
static double low_s(const struct member *member, struct cubic c, double length_s)
{
    double share = low_share(c);
    if (isnan(share) || length_s < 2.0 * least_bulge_s ||
        fmin(c.c0, cubic_at(c, 1.0)) - cubic_at(c, share) < bulge_K)
        return NAN;
    /* Close to an end it is the cubic that bulges, after a jump of the weather's slope: a short
     * step there lets the air settle first. */
    return member->t_s + fmin(fmax(share * length_s, least_bulge_s), length_s - least_bulge_s);
}

/* Lows of what stands in the air; roots are too slow for it to matter. */
static double first_low_s(const struct member *member, const struct attempt *a)
{
    const struct dawn_trajectory *store = member->store;
    double first = NAN;
    for (size_t i = 0; i < store->watched_count; ++i)
        if (store->watched[i] != member->network->root)
            first =
                fmin(first, low_s(member, node_cubic(member->network, (size_t)store->watched[i], a),
                                  a->length_s));
    return first;
}

/* The first moment inside the step at which something begins or ends to freeze: there its heat
 * capacity jumps, and neither the step nor the cubic may go across. NAN = none. */
static double first_freeze_s(const struct member *member, const struct attempt *a)
{
    double first = 1.0;
    for (size_t k = 0; k < member->wet_count; ++k) {
        const struct wet_node *wet = &member->wet[k];
        double from = a->y.at[wet->node * a->y.stride];
        double to = a->end_y.at[wet->node * a->end_y.stride];
        double line = 0;
        if ((from < 0) == (to < 0)) {
            line = wet->solid_y;
            if ((from < line) == (to < line))
                continue;
        }
        struct cubic c =
            cubic_between(from, to, a->length_s * a->rates.at[wet->node * a->rates.stride],
                          a->length_s * a->end_rates.at[wet->node * a->end_rates.stride]);
        double before = 0;
        double after = 1;
        while ((after - before) * a->length_s > met_s) {
            double middle = 0.5 * (before + after);
            if ((cubic_at(c, middle) < line) == (from < line))
                before = middle;
            else
                after = middle;
        }
        first = fmin(first, after);
    }
    /* Just behind the corner, so that the next step begins on its other side. */
    double at_s = first * a->length_s + behind_s;
    return a->length_s - at_s > behind_s ? member->t_s + at_s : NAN;
}

/* ---- keeping ---- */

static bool keep(struct member *member, const struct attempt *a, double end_s)
{
    struct dawn_trajectory *store = member->store;
    struct step step = {.from_s = member->t_s, .to_s = end_s};
    for (size_t i = 0; i < store->watched_count; ++i) {
        struct cubic c = node_cubic(member->network, (size_t)store->watched[i], a);
        step.from_C[i] = c.c0;
        step.to_C[i] = c.c0 + (c.c1 + c.c2 + c.c3);
        step.from_K_s[i] = c.c1 / a->length_s;
        step.to_K_s[i] = cubic_rise_at(c, 1.0) / a->length_s;
    }
    ++store->facts.steps;
    return dawn_trajectory_add_step(store, &step);
}

static bool keep_hour(struct member *member, const struct attempt *a)
{
    for (size_t i = 0; i < member->network->node_count; ++i)
        member->state[i] = (double)a->end_y.at[i * a->end_y.stride] +
                           (double)a->end_rest.at[i * a->end_rest.stride];
    return dawn_trajectory_add_hour(member->store, member->t_s, member->state, NULL);
}

static enum attempt_verdict arrive(struct member *member, const struct attempt *a)
{
    double since_s = member->t_s - (double)member->network->forcing.from_s;
    bool hour_ends = since_s / hour_s == floor(since_s / hour_s) || member->t_s >= member->to_s;
    if (hour_ends) {
        member->switches_this_hour = 0;
        if (member->kept && !keep_hour(member, a))
            return out_of_memory(member);
    }
    double ended_s = member->t_s;
    let_go(member, a->end_y);
    if (member->t_s >= member->to_s) {
        bool was_kept = member->kept;
        if (!next_stretch(member))
            return end_with(member, DAWN_OK, NULL, NULL);
        if (member->kept && !was_kept &&
            (!dawn_trajectory_add_switch(member->store, member->t_s, is_blowing(member)) ||
             !keep_hour(member, a)))
            return out_of_memory(member);
    }
    if (fan_is_due(member, a->end_y) && switch_fan(member, a->end_y))
        return member->switches_this_hour > SWITCHES_AN_HOUR_MOST
                   ? end_with(member, DAWN_ERR_SOLVER,
                              "widen the gap between fan.on_at and fan.off_at",
                              "the fan would switch more than 60 times within an hour")
                   : out_of_memory(member);
    return member->t_s == ended_s ? ATTEMPT_KEPT : ATTEMPT_KEPT_AND_LEAPT;
}

/* ---- an attempt, before and after ---- */

/* The next moment that must be met. */
static double next_stop_s(struct member *member)
{
    if (!(member->t_s < member->turn_s))
        member->turn_s = fmin(dawn_network_next_turn_s(member->network, member->t_s),
                              dawn_network_next_switch_s(member->network, member->t_s));
    double stop_s = fmin(member->turn_s, member->to_s);
    return member->t_s < member->held_until_s ? fmin(stop_s, member->held_until_s) : stop_s;
}

double dawn_ensemble_member_length_s(struct member *member)
{
    member->stop_s = isnan(member->aim_s) ? next_stop_s(member) : member->aim_s;
    double left_s = member->stop_s - member->t_s;
    member->length_s = member->proposed_s;
    /* Rather two equal steps than a long one and a sliver. */
    if (member->proposed_s >= left_s)
        member->length_s = left_s;
    else if (member->proposed_s > 0.5 * left_s)
        member->length_s = 0.5 * left_s;
    return member->length_s;
}

double dawn_ensemble_member_pressure_Pa(const struct member *member)
{
    return member->network->pressure_Pa;
}

enum dawn_fan_state dawn_ensemble_member_fan(const struct member *member)
{
    return member->fan;
}

void dawn_ensemble_member_forcing(struct member *member, double after_s, float forced[],
                                  size_t stride)
{
    const struct dawn_network *net = member->network;
    struct forcing_now now = dawn_network_forcing_at(&net->forcing, member->t_s + after_s,
                                                     member->gain_W, member->drawn);
    dawn_network_veils(net, member->drawn, member->veil);
    forced[FORCED_AIR * stride] = (float)now.air_C;
    forced[FORCED_SKY * stride] = (float)now.sky_W_m2;
    forced[FORCED_WIND * stride] = (float)now.wind_m_s;
    forced[FORCED_EDGE * stride] = (float)now.edge_C;
    forced[FORCED_DEEP * stride] = (float)now.deep_C;
    forced[FORCED_VAPOUR * stride] = (float)now.vapour_K;
    forced[FORCED_OUTDOOR_FAN * stride] = (float)now.outdoor_fan;
    forced += FORCED_GAINS * stride;
    for (size_t i = 0; i < net->forcing.gains; ++i)
        forced[i * stride] = (float)member->gain_W[i];
    forced += net->forcing.gains * stride;
    for (size_t i = 0; i < net->veil_count; ++i)
        forced[i * stride] = (float)member->veil[i];
    forced += net->veil_count * stride;
    for (size_t i = 0; i < net->opening_count; ++i)
        forced[i * stride] =
            (float)dawn_network_forcing_hours(&net->opening[i].hours, member->t_s + after_s);
}

/* A kelvin of rock is more heat than a kelvin of glass: as in trajectory_solver.c. Who asks for
 * less than the engine's own closeness gets it; who asks for more is served by CVODE. */
double dawn_ensemble_member_tolerance_K(const struct member *member, size_t node)
{
    double most_K = fmax(tolerated_K, member->wanted->plan.atol_K);
    if (dawn_network_among_stones(member->network, node))
        return fmax(among_stones_K, most_K);
    const struct dawn_node *facts = &member->network->nodes[node].facts;
    bool lesser = facts->role == DAWN_ROLE_VAPOUR || facts->role == DAWN_ROLE_FILM ||
                  facts->role == DAWN_ROLE_WALL;
    return dawn_trajectory_tolerance_K(facts, most_K) / (lesser ? lesser_closeness : 1.0);
}

double dawn_ensemble_member_tolerance_share(const struct member *member)
{
    return fmax(tolerated_share, member->wanted->plan.rtol);
}

/* By how much the next step may be longer: error ~ length^3, with the usual caution. */
static double stretch_by(const struct attempt *a)
{
    const double caution = 0.85;
    if (!isfinite(a->error))
        return 0.2;
    double by = caution / fmax(a->error_root, 1e-3);
    return fmin(fmax(by, 0.2), 5.0);
}

enum attempt_verdict dawn_ensemble_member_judge(struct member *member, const struct attempt *a)
{
    double by = stretch_by(a);
    struct dawn_trajectory_facts *facts = &member->store->facts;
    facts->rhs_evaluations += 4;
    ++facts->jacobian_evaluations;
    if (!(a->error <= 1.0)) {
        ++facts->error_test_failures;
        member->refused = true;
        member->proposed_s = member->length_s * fmin(by, 0.9);
        /* Wherever a shorter step ends is as good: aiming on would go round in circles. */
        member->aim_s = NAN;
        if (member->proposed_s < least_length_s)
            return end_with(member, DAWN_ERR_SOLVER,
                            "look for extreme values in the scenario (check SCENARIO)",
                            "the solver could not go on");
        return ATTEMPT_AGAIN;
    }
    bool aimed = !isnan(member->aim_s);
    if (!aimed && is_heeded(member))
        member->aim_s = first_switch_s(member, a);
    if (!aimed)
        member->aim_s = fmin(member->aim_s, first_freeze_s(member, a));
    if (!aimed && isnan(member->aim_s) && member->kept)
        member->aim_s = first_low_s(member, a);
    if (!aimed && !isnan(member->aim_s))
        return ATTEMPT_AGAIN;
    bool stopped = member->length_s == member->stop_s - member->t_s;
    double end_s = stopped ? member->stop_s : member->t_s + member->length_s;
    if (member->kept && !keep(member, a, end_s))
        return out_of_memory(member);
    /* Where a longer step was refused the next is none either. */
    if (member->refused)
        by = fmin(by, 1.0);
    member->refused = false;
    /* A step cut short says little against the longer one that was allowed before. */
    member->proposed_s = fmax(member->length_s * by, by >= 1.0 ? member->proposed_s : 0.0);
    member->t_s = end_s;
    member->aim_s = NAN;
    return arrive(member, a);
}

/* ---- life ---- */

static void list_wet(struct member *member)
{
    for (size_t i = 0; i < member->network->node_count; ++i) {
        const struct dawn_node *node = &member->network->nodes[i].facts;
        if (node->latent_J > 0)
            member->wet[member->wet_count++] = (struct wet_node){
                i, water_solid_y(node->heat_J_K, node->frozen_J_K, node->latent_J)};
    }
}

static bool begin(struct member *member, float y[], float rest[], size_t stride)
{
    const struct dawn_network *net = member->network;
    const struct dawn_trajectory_plan *plan = &member->wanted->plan;
    double *start = member->state;
    double from_s = (double)member->store->from_s;
    member->past = dawn_trajectory_past(net, plan, from_s, (double)member->store->to_s);
    member->rounds = dawn_trajectory_rounds(&member->past, &member->skipped_s);
    dawn_trajectory_tell_past(member->store, &member->past);
    member->stretch = -1;
    list_wet(member);
    if (plan->start)
        memcpy(start, plan->start, net->node_count * sizeof *start);
    else
        dawn_network_start(net, from_s - member->past.lead_s, start);
    for (size_t i = 0; i < net->node_count; ++i) {
        y[i * stride] = (float)start[i];
        rest[i * stride] = (float)(start[i] - (double)y[i * stride]);
    }
    next_stretch(member);
    struct strided at = {y, stride};
    bool fine = !member->kept || (dawn_trajectory_add_switch(member->store, from_s, false) &&
                                  dawn_trajectory_add_hour(member->store, from_s, start, NULL));
    return fine && !(fan_is_due(member, at) && switch_fan(member, at));
}

struct member *dawn_ensemble_member_new(struct dawn_ensemble_member *wanted, float y[],
                                        float rest[], size_t stride)
{
    const struct dawn_network *net = wanted->network;
    struct member *member = calloc(1, sizeof *member);
    bool inside = false;
    wanted->status = DAWN_OK;
    if (member) {
        member->wanted = wanted;
        member->network = net;
        member->store = dawn_trajectory_store_new(net, &wanted->plan, &inside);
        member->gain_W = calloc(net->forcing.gains + 1, sizeof(double));
        member->drawn = calloc(net->forcing.covers + 1, sizeof(double));
        member->veil = calloc(net->veil_count + 1, sizeof(double));
        member->state = calloc(net->node_count + 1, sizeof *member->state);
        member->wet = calloc(net->node_count + 1, sizeof *member->wet);
    }
    if (member && member->store && !inside)
        end_with(member, DAWN_ERR_SOLVER, "ask for days that the weather covers",
                 "the run would begin or end outside the weather");
    else if (!member || !member->store || !member->gain_W || !member->drawn || !member->veil ||
             !member->state || !member->wet || !begin(member, y, rest, stride)) {
        wanted->status = DAWN_ERR_NOMEM;
        dawn_problems_add(&wanted->problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                          "out of memory during the calculation");
    }
    if (wanted->status == DAWN_OK)
        return member;
    dawn_ensemble_member_end(member);
    return NULL;
}

struct dawn_ensemble_member *dawn_ensemble_member_end(struct member *member)
{
    if (!member)
        return NULL;
    struct dawn_ensemble_member *wanted = member->wanted;
    if (wanted->status == DAWN_OK)
        wanted->trajectory = member->store;
    else
        dawn_trajectory_free(member->store);
    free(member->gain_W);
    free(member->drawn);
    free(member->veil);
    free(member->state);
    free(member->wet);
    free(member);
    return wanted;
}
