/* How the house stands now: what the weather so far made of it, moved to what was read off. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dawnlow/studies/forecast.h"

static const int64_t hour_s = 3600;

/* The state whose temperature is wanted: a node's temperature only rises with its state, and the
 * state of one that freezes lies below its temperature by at most latent/capacity. */
static double state_of(const struct dawn_network *network, size_t node, double wanted_C)
{
    const struct dawn_node *it = dawn_network_node(network, node);
    double high = wanted_C + 1.0;
    double low = wanted_C - 1.0 - it->latent_J / it->heat_J_K;

    if (it->latent_J <= 0.0) {
        return wanted_C;
    }
    /* Ice holds less heat than water, so that its state changes less than its temperature. */
    while (dawn_network_temperature_C(network, node, low) > wanted_C) {
        low -= 10.0;
    }
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + high);
        if (dawn_network_temperature_C(network, node, middle) > wanted_C) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return 0.5 * (low + high);
}

/* Mean temperature of all nodes of a role, by the heat they hold; NAN without one. */
static double mean_C(const struct dawn_network *network, enum dawn_role role, const double *y)
{
    const size_t count = dawn_network_node_count(network);
    double heat = 0.0;
    double sum = 0.0;

    for (size_t i = 0; i < count; i++) {
        const struct dawn_node *node = dawn_network_node(network, i);
        if (node->role == role) {
            heat += node->heat_J_K;
            sum += node->heat_J_K * dawn_network_temperature_C(network, i, y[i]);
        }
    }
    return heat > 0.0 ? sum / heat : NAN;
}

/* Moves them all by the same, so that a store keeps its warm and its cold end. */
static bool move_to(const struct dawn_network *network, const struct dawn_forecast_reading *reading,
                    double *y)
{
    const size_t count = dawn_network_node_count(network);
    const double by_K = reading->temperature_C - mean_C(network, reading->role, y);

    for (size_t i = 0; i < count; i++) {
        if (dawn_network_node(network, i)->role == reading->role && !isnan(by_K)) {
            y[i] = state_of(network, i, dawn_network_temperature_C(network, i, y[i]) + by_K);
        }
    }
    return !isnan(by_K);
}

static bool move_to_readings(const struct dawn_network *network,
                             const struct dawn_forecast_plan *plan, double *y,
                             struct dawn_problems *problems)
{
    for (size_t i = 0; i < plan->reading_count; i++) {
        if (!move_to(network, &plan->reading[i], y)) {
            dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                              "leave it out, or describe it in the scenario",
                              "a reading is given for a part that the scenario does not have");
            return false;
        }
    }
    return true;
}

static double *state_now(const struct dawn_network *network, const struct dawn_forecast_plan *plan,
                         enum dawn_status *status, struct dawn_problems *problems)
{
    const size_t count = dawn_network_node_count(network);
    struct dawn_trajectory_plan run = dawn_trajectory_plan_usual();
    struct dawn_trajectory *trajectory = NULL;
    double *y = calloc(count, sizeof *y);

    /* The state is what the run begins with; the hour behind it is not looked at. */
    run.from_s = plan->run.from_s;
    run.to_s = plan->run.from_s + hour_s;
    if (y != NULL && plan->run.start != NULL) {
        return memcpy(y, plan->run.start, count * sizeof *y);
    }
    *status =
        y == NULL ? DAWN_ERR_NOMEM : dawn_trajectory_run(&trajectory, network, &run, problems);
    if (*status == DAWN_OK) {
        memcpy(y, dawn_trajectory_state(trajectory, false), count * sizeof *y);
        if (!move_to_readings(network, plan, y, problems)) {
            *status = DAWN_ERR_USAGE;
        }
    }
    dawn_trajectory_free(trajectory);
    if (*status != DAWN_OK) {
        free(y);
        return NULL;
    }
    return y;
}

double *dawn_forecast_present(const struct dawn_scenario *scenario,
                              const struct dawn_weather *weather,
                              const struct dawn_forecast_plan *plan, enum dawn_status *status,
                              struct dawn_problems *problems)
{
    struct dawn_network *network = NULL;
    double *y = NULL;

    *status = dawn_network_build(&network, scenario, weather, problems);
    if (*status == DAWN_OK) {
        y = state_now(network, plan, status, problems);
    }
    dawn_network_free(network);
    return y;
}
