/* Rates of the network in states drawn by lot. */
#include <stdlib.h>

#include "base/random.h"
#include "dawnlow/physics/water.h"
#include "dawnlow/studies.h"

static const double coldest_C = -15.0, warmest_C = 45.0;
static const double vapour_most_K = 60.0; /* saturated at about 28 C */
static const double film_most_K = 20.0;   /* 0.2 mm: films drip before that */

/* Liquid, slush or ice. */
static double draw_freezing(struct dawn_random *random, const struct dawn_node *node)
{
    const double part = dawn_random_between(random, 0.0, 3.0);
    const double slush_C = -DAWN_WATER_FREEZING_WIDTH_K;
    double temperature_C = 0.0;

    if (part < 1.0) {
        temperature_C = dawn_random_between(random, 0.0, warmest_C);
    } else if (part < 2.0) {
        temperature_C = dawn_random_between(random, slush_C, 0.0);
    } else {
        temperature_C = dawn_random_between(random, coldest_C, slush_C);
    }
    return dawn_water_to_enthalpy(temperature_C, node->heat_J_K, node->frozen_J_K, node->latent_J);
}

static double draw_state(struct dawn_random *random, const struct dawn_node *node)
{
    if (node->role == DAWN_ROLE_VAPOUR) {
        return dawn_random_between(random, 0.0, vapour_most_K);
    }
    if (node->role == DAWN_ROLE_FILM) {
        return dawn_random_between(random, 0.0, film_most_K);
    }
    if (node->role == DAWN_ROLE_FROST) {
        return dawn_random_between(random, -film_most_K, 0.0);
    }
    return node->latent_J > 0.0 ? draw_freezing(random, node)
                                : dawn_random_between(random, coldest_C, warmest_C);
}

static bool fan_runs(const struct dawn_network *network, enum dawn_rates_fan fan, size_t sample)
{
    return dawn_network_has_fan(network) &&
           (fan == DAWN_RATES_FAN_ON || (fan == DAWN_RATES_FAN_IN_TURN && sample % 2 == 1));
}

static bool allocate(struct dawn_rates *rates)
{
    const size_t states = rates->samples * rates->nodes;

    rates->time_s = calloc(rates->samples, sizeof *rates->time_s);
    rates->fan_on = calloc(rates->samples, sizeof *rates->fan_on);
    rates->y_C = calloc(states, sizeof *rates->y_C);
    rates->rate_K_s = calloc(states, sizeof *rates->rate_K_s);
    return rates->time_s != NULL && rates->fan_on != NULL && rates->y_C != NULL &&
           rates->rate_K_s != NULL;
}

enum dawn_status dawn_rates_draw(struct dawn_rates *rates, const struct dawn_network *network,
                                 const struct dawn_rates_plan *plan, struct dawn_problems *problems)
{
    struct dawn_random random = {plan->seed};
    const double span_s = (double)(plan->to_s - plan->from_s);

    *rates =
        (struct dawn_rates){.samples = plan->samples, .nodes = dawn_network_node_count(network)};
    if (!allocate(rates)) {
        dawn_rates_release(rates);
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                          "out of memory while states were drawn");
        return DAWN_ERR_NOMEM;
    }
    for (size_t i = 0; i < rates->samples; i++) {
        double *y_C = rates->y_C + i * rates->nodes;
        const double share = ((double)i + 0.5) / (double)rates->samples;
        rates->time_s[i] = plan->from_s + (int64_t)(span_s * share);
        rates->fan_on[i] = fan_runs(network, plan->fan, i);
        for (size_t node = 0; node < rates->nodes; node++) {
            y_C[node] = draw_state(&random, dawn_network_node(network, node));
        }
        dawn_network_rates(network,
                           rates->fan_on[i] ? dawn_network_fan_way(network, y_C) : DAWN_FAN_OFF,
                           (double)rates->time_s[i], y_C, rates->rate_K_s + i * rates->nodes, NULL);
    }
    return DAWN_OK;
}

void dawn_rates_release(struct dawn_rates *rates)
{
    free(rates->time_s);
    free(rates->fan_on);
    free(rates->y_C);
    free(rates->rate_K_s);
    *rates = (struct dawn_rates){0};
}
