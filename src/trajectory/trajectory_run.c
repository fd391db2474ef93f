/* The run: spin-up, then step by step through the hours with the fan switching. */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "trajectory/trajectory_cubic.h"
#include "trajectory/trajectory_solver.h"
#include "trajectory/trajectory_store.h"

static const double hour_s = 3600.0;

struct run {
    const struct dawn_network *network;
    const struct dawn_trajectory_plan *plan;
    struct dawn_problems *problems;
    struct solver *solver;
    struct dawn_trajectory *store; /* NULL during spin-up: nothing is kept */
    double t_s;
    enum dawn_fan_state fan;
    double *y, *dydt, *watts;       /* at t_s */
    double *next_dydt, *next_watts; /* at the step's end */
    double *middle_y, *middle_dydt, *middle_watts;
    double *hour_J, *row_C;
    double *mean_Ks;    /* [node] temperature over time since the last row, for a series of means */
    double past_s;      /* length of the step before this one; 0 = none to build on */
    double *past_watts; /* at its start */
    double *wet;        /* [flow] +1 into vapour and films, -1 out of them, 0 else */
    double *inward;     /* [flow] +1 from outside in, -1 out of the network, 0 within */
    double next_row_s;
    size_t nodes, flows;
    int switches_this_hour;
    double held_until_s; /* the fan keeps running until then, whatever the thermostat says */
};

struct dawn_trajectory_plan dawn_trajectory_plan_usual(void)
{
    return (struct dawn_trajectory_plan){
        .rtol = 5e-7, .atol_K = 4e-4, .fan_allowed = true, .spin_up = true};
}

static enum dawn_status fail(struct run *run, const char *hint, const char *what)
{
    dawn_problems_add(run->problems, DAWN_ERROR, (struct dawn_place_in_file){0}, hint, "%s", what);
    return DAWN_ERR_SOLVER;
}

static enum dawn_status out_of_memory(struct run *run)
{
    fail(run, NULL, "out of memory during the calculation");
    return DAWN_ERR_NOMEM;
}

static bool is_blowing(const struct run *run)
{
    return run->fan != DAWN_FAN_OFF;
}

/* ---- one step, seen from both ends ---- */

/* A node's state at a share of the step. */
static double state_at(const struct run *run, size_t node, const double to_y[], double length,
                       double share)
{
    return cubic_at(cubic_between(run->y[node], to_y[node], length * run->dydt[node],
                                  length * run->next_dydt[node]),
                    share);
}

static void keep_watched(const struct run *run, double to_s, const double to_y[], struct step *step)
{
    const struct dawn_trajectory *store = run->store;
    *step = (struct step){.from_s = run->t_s, .to_s = to_s};
    for (size_t i = 0; i < store->watched_count; ++i) {
        size_t node = (size_t)store->watched[i];
        const struct dawn_network *net = run->network;
        step->from_C[i] = dawn_network_temperature_C(net, node, run->y[node]);
        step->to_C[i] = dawn_network_temperature_C(net, node, to_y[node]);
        step->from_K_s[i] = run->dydt[node] * dawn_network_slope(net, node, run->y[node]);
        step->to_K_s[i] = run->next_dydt[node] * dawn_network_slope(net, node, to_y[node]);
    }
}

/* Simpson's rule with the Hermite state in the middle. */
static void add_by_middle(struct run *run, double length, const double to_y[])
{
    for (size_t i = 0; i < run->nodes; ++i)
        run->middle_y[i] = state_at(run, i, to_y, length, 0.5);
    dawn_network_flows_W(run->network, run->fan, run->t_s + 0.5 * length, run->middle_y,
                         run->middle_watts, run->middle_dydt);
    for (size_t i = 0; i < run->flows; ++i)
        run->hour_J[i] +=
            length / 6.0 * (run->watts[i] + 4.0 * run->middle_watts[i] + run->next_watts[i]);
}

/* The parabola through this step's ends and the start of the one before, integrated over this one:
 * as good where steps are alike, and without another look at the network. */
static void add_by_past(struct run *run, double length)
{
    double before = run->past_s;
    double past = -length * length * length / (6.0 * before * (before + length));
    double start = length * (length + 3.0 * before) / (6.0 * before);
    double end = length * (2.0 * length + 3.0 * before) / (6.0 * (before + length));
    for (size_t i = 0; i < run->flows; ++i)
        run->hour_J[i] +=
            past * run->past_watts[i] + start * run->watts[i] + end * run->next_watts[i];
}

/* Energy of every flow over the step. It does not share the integrator's formula, so that the
 * balance it closes is a check. */
static void add_energy(struct run *run, double to_s, const double to_y[])
{
    const double stretch_most = 1.5;
    double length = to_s - run->t_s;
    if (run->past_s > 0 && length <= stretch_most * run->past_s)
        add_by_past(run, length);
    else
        add_by_middle(run, length, to_y);
    run->past_s = length;
}

/* A node's temperature within the step that begins at t_s. */
static double within_C(const struct run *run, size_t node, double at_s, double to_s,
                       const double to_y[])
{
    double length = to_s - run->t_s;
    double share = length > 0 ? (at_s - run->t_s) / length : 0.0;
    return dawn_network_temperature_C(run->network, node, state_at(run, node, to_y, length, share));
}

/* Simpson's rule: exact for the cubics, near enough while something freezes. */
static void add_to_means(struct run *run, double from_s, double until_s, double to_s,
                         const double to_y[])
{
    double middle_s = 0.5 * (from_s + until_s);
    for (size_t i = 0; i < run->nodes; ++i)
        run->mean_Ks[i] +=
            (until_s - from_s) / 6.0 *
            (within_C(run, i, from_s, to_s, to_y) + 4.0 * within_C(run, i, middle_s, to_s, to_y) +
             within_C(run, i, until_s, to_s, to_y));
}

static bool keep_means(struct run *run, double to_s, const double to_y[])
{
    double step_s = run->plan->series_step_s;
    double from_s = run->t_s;
    while (run->next_row_s <= to_s) {
        add_to_means(run, from_s, run->next_row_s, to_s, to_y);
        for (size_t i = 0; i < run->nodes; ++i)
            run->row_C[i] = run->mean_Ks[i] / step_s;
        if (!dawn_trajectory_add_row(run->store, run->next_row_s, run->row_C, is_blowing(run)))
            return false;
        memset(run->mean_Ks, 0, run->nodes * sizeof *run->mean_Ks);
        from_s = run->next_row_s;
        run->next_row_s += step_s;
    }
    add_to_means(run, from_s, to_s, to_s, to_y);
    return true;
}

static bool keep_moments(struct run *run, double to_s, const double to_y[])
{
    while (run->next_row_s <= to_s) {
        for (size_t i = 0; i < run->nodes; ++i)
            run->row_C[i] = within_C(run, i, run->next_row_s, to_s, to_y);
        if (!dawn_trajectory_add_row(run->store, run->next_row_s, run->row_C, is_blowing(run)))
            return false;
        run->next_row_s += run->plan->series_step_s;
    }
    return true;
}

static bool keep_rows(struct run *run, double to_s, const double to_y[])
{
    if (run->plan->series_step_s <= 0)
        return true;
    return run->plan->series_means ? keep_means(run, to_s, to_y) : keep_moments(run, to_s, to_y);
}

static bool keep_step(struct run *run, double to_s, const double to_y[])
{
    dawn_network_flows_W(run->network, run->fan, to_s, to_y, run->next_watts, run->next_dydt);
    struct step step;
    keep_watched(run, to_s, to_y, &step);
    add_energy(run, to_s, to_y);
    return keep_rows(run, to_s, to_y) && dawn_trajectory_add_step(run->store, &step);
}

static void move_to(struct run *run, double t_s, const double y[])
{
    run->t_s = t_s;
    memcpy(run->y, y, run->nodes * sizeof *y);
    double *dydt = run->dydt;
    double *past = run->past_watts;
    run->dydt = run->next_dydt;
    run->next_dydt = dydt;
    run->past_watts = run->watts;
    run->watts = run->next_watts;
    run->next_watts = past;
}

/* ---- the fan ---- */

static bool fan_can_run(const struct run *run)
{
    return run->plan->fan_allowed && dawn_network_has_fan(run->network);
}

static const double just_s = 1e-3; /* too short a step for the solver */

static bool is_held(const struct run *run)
{
    return run->t_s < run->held_until_s - just_s;
}

static bool begin_here(struct run *run)
{
    run->past_s = 0; /* flows jump here: what was before tells nothing */
    if (run->store)
        dawn_network_flows_W(run->network, run->fan, run->t_s, run->y, run->watts, run->dydt);
    return dawn_trajectory_solver_begin(run->solver, run->t_s, run->y, run->fan,
                                        fan_can_run(run) && !is_held(run));
}

static enum dawn_status switch_fan(struct run *run)
{
    if (++run->switches_this_hour > SWITCHES_AN_HOUR_MOST)
        return fail(run, "widen the gap between fan.on_at and fan.off_at",
                    "the fan would switch more than 60 times within an hour");
    run->fan = is_blowing(run) ? DAWN_FAN_OFF : dawn_network_fan_way(run->network, run->y);
    run->held_until_s =
        is_blowing(run) ? run->t_s + dawn_network_fan_least_run_s(run->network) : -INFINITY;
    if (run->store && !dawn_trajectory_add_switch(run->store, run->t_s, is_blowing(run)))
        return out_of_memory(run);
    if (run->store)
        ++run->store->facts.switches;
    return begin_here(run) ? DAWN_OK : fail(run, NULL, "the solver could not start again");
}

/* Whether the thermostat would switch at once in this state. */
static bool fan_is_due(const struct run *run)
{
    if (!fan_can_run(run) || is_held(run))
        return false;
    double wish = dawn_network_fan_wish(run->network, is_blowing(run), run->y);
    return is_blowing(run) ? wish < 0 : wish > 0;
}

/* ---- hours ---- */

/* The balance of the run, hour by hour: what crossed the boundary inward and outward. */
static void count_boundary(struct run *run)
{
    struct dawn_trajectory_facts *facts = &run->store->facts;
    for (size_t i = 0; i < run->flows; ++i) {
        double inward = run->inward[i] * run->hour_J[i];
        if (inward > 0)
            facts->boundary_in_J += inward;
        else
            facts->boundary_out_J -= inward;
        facts->water_in_J += run->wet[i] * run->hour_J[i];
        facts->water_through_J += fabs(run->wet[i] * run->hour_J[i]);
    }
}

static enum dawn_status end_hour(struct run *run)
{
    run->switches_this_hour = 0;
    if (run->store) {
        count_boundary(run);
        if (!dawn_trajectory_add_hour(run->store, run->t_s, run->y, run->hour_J))
            return out_of_memory(run);
        memset(run->hour_J, 0, run->flows * sizeof *run->hour_J);
    }
    /* A wish that came and went inside one step leaves no crossing; it is honoured here. */
    return fan_is_due(run) ? switch_fan(run) : DAWN_OK;
}

/* The fan has run as long as it must: from here on the thermostat is heeded again, and what began
 * by day may be wanted by night. */
static enum dawn_status let_go(struct run *run)
{
    if (fan_is_due(run))
        return switch_fan(run);
    run->fan = dawn_network_fan_way(run->network, run->y);
    return begin_here(run) ? DAWN_OK : fail(run, NULL, "the solver could not start again");
}

static enum dawn_status step_to(struct run *run, double stop_s)
{
    while (run->t_s < stop_s) {
        double t_s = 0;
        const double *y = NULL;
        bool held = is_held(run);
        enum solver_event event = dawn_trajectory_solver_step(
            run->solver, held ? fmin(stop_s, run->held_until_s) : stop_s, &t_s, &y);
        if (event == SOLVER_FAILED)
            return fail(run, "look for extreme values in the scenario (check SCENARIO)",
                        "the solver could not go on");
        if (run->store && !keep_step(run, t_s, y))
            return out_of_memory(run);
        move_to(run, t_s, y);
        enum dawn_status status = DAWN_OK;
        if (event == SOLVER_SWITCHES)
            status = switch_fan(run);
        else if (held && !is_held(run))
            status = let_go(run);
        if (status != DAWN_OK)
            return status;
    }
    return DAWN_OK;
}

static double next_hour_s(const struct run *run, double to_s)
{
    double origin = (double)dawn_network_from_s(run->network);
    double next = origin + (floor((run->t_s - origin) / hour_s + 1e-9) + 1.0) * hour_s;
    return fmin(next, to_s);
}

/* What goes by the clock is met exactly, and the solver starts afresh behind it. */
static enum dawn_status to_end_of_hour(struct run *run, double hour_end_s)
{
    enum dawn_status status = DAWN_OK;
    while (status == DAWN_OK && run->t_s < hour_end_s) {
        double switch_s = dawn_network_next_switch_s(run->network, run->t_s);
        double turn_s = fmin(dawn_network_next_turn_s(run->network, run->t_s), hour_end_s);
        status = step_to(run, switch_s < turn_s - just_s ? switch_s : turn_s);
        run->past_s = 0; /* the weather's slope changes here */
        if (status == DAWN_OK && run->t_s >= switch_s - just_s && !begin_here(run))
            status = fail(run, NULL, "the solver could not start again");
    }
    return status;
}

static enum dawn_status run_between(struct run *run, double from_s, double to_s)
{
    run->t_s = from_s;
    run->held_until_s = -INFINITY;
    if (!begin_here(run))
        return fail(run, NULL, "the solver could not start");
    enum dawn_status status = fan_is_due(run) ? switch_fan(run) : DAWN_OK;
    while (status == DAWN_OK && run->t_s < to_s) {
        status = to_end_of_hour(run, next_hour_s(run, to_s));
        if (status == DAWN_OK)
            status = end_hour(run);
    }
    return status;
}

/* The days before the run are an assumption; following them closer than this buys nothing. */
static const double rough_rtol = 1e-4, rough_atol_K = 1e-2;

static enum dawn_status repeat_window(struct run *run, const struct past *past, double begin_s)
{
    double skipped_s = 0;
    int rounds = dawn_trajectory_rounds(past, &skipped_s);
    enum dawn_status status = DAWN_OK;
    for (int i = 0; i < rounds && status == DAWN_OK; ++i)
        status = run_between(run, begin_s + (i == 0 ? skipped_s : 0.0), begin_s + past->window_s);
    return status;
}

static enum dawn_status spin_up(struct run *run, const struct past *past, double from_s)
{
    struct solver *careful = run->solver;
    run->solver = dawn_trajectory_solver_new(run->network, fmax(rough_rtol, run->plan->rtol),
                                             fmax(rough_atol_K, run->plan->atol_K));
    enum dawn_status status = run->solver ? DAWN_OK : out_of_memory(run);
    if (status == DAWN_OK)
        status = repeat_window(run, past, from_s - past->lead_s);
    if (status == DAWN_OK && past->lead_s > 0)
        status = run_between(run, from_s - past->lead_s, from_s);
    dawn_trajectory_solver_free(run->solver);
    run->solver = careful;
    return status;
}

/* ---- the whole ---- */

static bool holds_water(const struct dawn_network *network, int node)
{
    if (node == DAWN_NO_NODE)
        return false;
    enum dawn_role role = dawn_network_node(network, (size_t)node)->role;
    return role == DAWN_ROLE_VAPOUR || role == DAWN_ROLE_FILM;
}

/* Heat of the state, or the water in it by its latent heat. Films are liquid: water, no heat. */
static double stored_J(const struct run *run, const double y[], bool water)
{
    double sum = 0;
    for (size_t i = 0; i < run->nodes; ++i) {
        const struct dawn_node *node = dawn_network_node(run->network, i);
        if (water ? holds_water(run->network, (int)i) : node->role != DAWN_ROLE_FILM)
            sum += node->heat_J_K * y[i];
    }
    return sum;
}

static void close_balance(struct run *run, double before_J, double water_before_J)
{
    struct dawn_trajectory_facts *facts = &run->store->facts;
    double through = 0.5 * (facts->boundary_in_J + facts->boundary_out_J);
    facts->stored_change_J = stored_J(run, run->y, false) - before_J;
    facts->imbalance =
        through > 0
            ? fabs(facts->stored_change_J - (facts->boundary_in_J - facts->boundary_out_J)) /
                  through
            : 0.0;
    double water_change_J = stored_J(run, run->y, true) - water_before_J;
    if (facts->water_through_J > 0)
        facts->water_imbalance =
            2.0 * fabs(water_change_J - facts->water_in_J) / facts->water_through_J;
    dawn_trajectory_solver_add_facts(run->solver, facts);
}

static enum dawn_status go(struct run *run, struct dawn_trajectory *store)
{
    double from_s = (double)store->from_s;
    double to_s = (double)store->to_s;
    struct past past = dawn_trajectory_past(run->network, run->plan, from_s, to_s);
    if (run->plan->start)
        memcpy(run->y, run->plan->start, run->nodes * sizeof *run->y);
    else
        dawn_network_start(run->network, from_s - past.lead_s, run->y);
    enum dawn_status status = spin_up(run, &past, from_s);
    if (status != DAWN_OK)
        return status;
    dawn_trajectory_tell_past(store, &past);
    run->store = store;
    run->next_row_s = from_s + (run->plan->series_means ? run->plan->series_step_s : 0.0);
    run->switches_this_hour = 0;
    double before_J = stored_J(run, run->y, false);
    double water_before_J = stored_J(run, run->y, true);
    if (!dawn_trajectory_add_switch(store, from_s, is_blowing(run)) ||
        !dawn_trajectory_add_hour(store, from_s, run->y, run->hour_J))
        return out_of_memory(run);
    status = run_between(run, from_s, to_s);
    if (status == DAWN_OK)
        close_balance(run, before_J, water_before_J);
    return status;
}

static bool allocate(struct run *run, double **block)
{
    size_t n = run->nodes;
    size_t f = run->flows;
    double *p = calloc(7 * n + 7 * f, sizeof *p);
    *block = p;
    if (!p)
        return false;
    run->y = p;
    run->dydt = p + n;
    run->next_dydt = p + 2 * n;
    run->middle_y = p + 3 * n;
    run->middle_dydt = p + 4 * n;
    run->row_C = p + 5 * n;
    run->mean_Ks = p + 6 * n;
    p += 7 * n;
    run->watts = p;
    run->next_watts = p + f;
    run->middle_watts = p + 2 * f;
    run->hour_J = p + 3 * f;
    run->inward = p + 4 * f;
    run->past_watts = p + 5 * f;
    run->wet = p + 6 * f;
    for (size_t i = 0; i < f; ++i) {
        struct dawn_flow flow = dawn_network_flow(run->network, i);
        run->wet[i] = (double)holds_water(run->network, flow.to) -
                      (double)holds_water(run->network, flow.from);
        if (flow.water)
            continue;
        if (flow.from == DAWN_NO_NODE)
            run->inward[i] = 1.0;
        else if (flow.to == DAWN_NO_NODE)
            run->inward[i] = -1.0;
    }
    return true;
}

enum dawn_status dawn_trajectory_run(struct dawn_trajectory **trajectory,
                                     const struct dawn_network *network,
                                     const struct dawn_trajectory_plan *plan,
                                     struct dawn_problems *problems)
{
    struct timespec start;
    struct timespec end;
    clock_gettime(CLOCK_MONOTONIC, &start);
    *trajectory = NULL;
    double *block = NULL;
    bool inside = false;
    struct dawn_trajectory *store = dawn_trajectory_store_new(network, plan, &inside);
    struct run run = {.network = network,
                      .plan = plan,
                      .problems = problems,
                      .nodes = dawn_network_node_count(network),
                      .flows = dawn_network_flow_count(network)};
    run.solver = dawn_trajectory_solver_new(network, plan->rtol, plan->atol_K);
    enum dawn_status status = DAWN_OK;
    if (!store || !run.solver || !allocate(&run, &block)) {
        status = out_of_memory(&run);
        goto done;
    }
    if (!inside) {
        status = fail(&run, "ask for days that the weather covers",
                      "the run would begin or end outside the weather");
        goto done;
    }
    status = go(&run, store);
    clock_gettime(CLOCK_MONOTONIC, &end);
    store->facts.wall_s =
        (double)(end.tv_sec - start.tv_sec) + 1e-9 * (double)(end.tv_nsec - start.tv_nsec);
done:
    dawn_trajectory_solver_free(run.solver);
    free(block);
    if (status == DAWN_OK)
        *trajectory = store;
    else
        dawn_trajectory_free(store);
    return status;
}
