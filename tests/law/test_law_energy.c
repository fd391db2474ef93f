/* What must hold for any nursery: heat in, out and stored agree; the jacobian is the rates'. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "dawnlow/nights.h"
#include "dawnlow/physics/moistair.h"
#include "network/network_parts.h"
#include "support/near.h"
#include "support/random_nursery.h"
#include "support/sanitized.h"

/* A sanitized build is ten times slower and has half of them for one day: too little heat goes in
 * and out for the usual steps to be within their share, so there they are held closer. */
enum { NURSERIES = SANITIZED ? 250 : 500, TIGHT_EVERY = 10, DAYS = SANITIZED ? 1 : 3 };
static const double usual_share = SANITIZED ? 0.1 : 1.0;

/* One random nursery and its network. */
struct draw {
    struct dawn_scenario scenario;
    struct dawn_weather weather;
    struct dawn_network *network;
    struct dawn_problems problems;
};

static void draw(struct draw *draw, uint64_t seed)
{
    struct dice dice = {seed};
    memset(draw, 0, sizeof *draw);
    assert_true(random_nursery(&dice, &draw->scenario));
    assert_true(random_weather(&dice, &draw->weather, DAYS * 24));
    assert_int_equal(
        dawn_network_build(&draw->network, &draw->scenario, &draw->weather, &draw->problems),
        DAWN_OK);
}

static void undraw(struct draw *draw)
{
    dawn_network_free(draw->network);
    dawn_weather_release(&draw->weather);
    dawn_scenario_release(&draw->scenario);
    dawn_problems_release(&draw->problems);
}

static double imbalance(struct draw *draw, double rtol, double atol_K)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    plan.rtol = rtol;
    plan.atol_K = atol_K;
    plan.spin_up = false;
    struct dawn_trajectory *run = NULL;
    enum dawn_status status = dawn_trajectory_run(&run, draw->network, &plan, &draw->problems);
    for (size_t i = 0; i < draw->problems.count; ++i)
        print_error("%s\n", draw->problems.items[i].message);
    assert_int_equal(status, DAWN_OK);
    struct dawn_trajectory_facts facts = dawn_trajectory_facts(run);
    double result = fmax(facts.imbalance, facts.water_imbalance);
    dawn_trajectory_free(run);
    return result;
}

/* Conservation of energy and of water; the balance is integrated by Simpson's rule on Hermite
 * states, not by the solver's own formula (computed). */
static void energy_closes(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= NURSERIES; ++seed) {
        struct draw it;
        char what[64];
        draw(&it, seed);
        struct dawn_trajectory_plan usual = dawn_trajectory_plan_usual();
        snprintf(what, sizeof what, "imbalance of nursery %d", (int)seed);
        near(imbalance(&it, usual_share * usual.rtol, usual_share * usual.atol_K), 0.0, 1e-4, what);
        if (seed % TIGHT_EVERY == 0)
            near(imbalance(&it, 1e-9, 1e-8), 0.0, 1e-6, what);
        undraw(&it);
    }
}

static void slopes_at(const struct draw *it, struct dice *dice, bool fan_on)
{
    size_t n = dawn_network_node_count(it->network);
    double *y = calloc(n, sizeof *y), *low = calloc(n, sizeof *low),
           *high = calloc(n, sizeof *high);
    double *jacobian = calloc(n * n, sizeof *jacobian);
    bool *pattern = calloc(n * n, sizeof *pattern);
    assert_true(y && low && high && jacobian && pattern);
    double t = (double)dawn_network_from_s(it->network) + dice_between(dice, 0, DAYS * 86400.0);
    for (size_t i = 0; i < n; ++i)
        y[i] = dice_between(dice, -15, 45);
    dawn_network_rates(it->network, fan_on, t, y, low, jacobian);
    dawn_network_pattern(it->network, pattern);
    for (size_t j = 0; j < n; ++j) {
        const double step = 1e-4;
        double middle = y[j], scale = fabs(jacobian[j * n + j]) + 1e-9;
        y[j] = middle + step;
        dawn_network_rates(it->network, fan_on, t, y, high, NULL);
        y[j] = middle - step;
        dawn_network_rates(it->network, fan_on, t, y, low, NULL);
        y[j] = middle;
        for (size_t i = 0; i < n; ++i) {
            double difference = (high[i] - low[i]) / (2 * step);
            double size = scale + fabs(difference);
            double rounding = 1e-15 * (fabs(high[i]) + fabs(low[i])) / step;
            near(jacobian[j * n + i], difference, 1e-4 * size + rounding, "slope");
            assert_true(pattern[j * n + i] || jacobian[j * n + i] == 0.0);
        }
    }
    free(y);
    free(low);
    free(high);
    free(jacobian);
    free(pattern);
}

/* The derivative of every kernel against central differences (computed); 1e-4 is their noise at
 * kinks of films and slush, and on top of it stands the rounding of rates as fast as those of the
 * little air below a cover. */
static void jacobian_is_the_slope(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 40; ++seed) {
        struct draw it;
        struct dice dice = {seed * 77};
        draw(&it, seed);
        slopes_at(&it, &dice, false);
        slopes_at(&it, &dice, true);
        undraw(&it);
    }
}

/* Heat along the flows adds up to the rates, and what leaves one node reaches another. */
static void flows_add_up(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 40; ++seed) {
        struct draw it;
        draw(&it, seed);
        size_t n = dawn_network_node_count(it.network), f = dawn_network_flow_count(it.network);
        double *y = calloc(n, sizeof *y), *rates = calloc(n, sizeof *rates);
        double *watts = calloc(f, sizeof *watts), crossing = 0, stored = 0, size = 1;
        assert_true(y && rates && watts);
        dawn_network_start(it.network, (double)dawn_network_from_s(it.network), y);
        dawn_network_flows_W(it.network, false, (double)dawn_network_from_s(it.network) + 4e4, y,
                             watts, rates);
        for (size_t i = 0; i < f; ++i) {
            struct dawn_flow flow = dawn_network_flow(it.network, i);
            if (flow.water)
                continue;
            if (flow.from == DAWN_NO_NODE || flow.to == DAWN_NO_NODE) {
                crossing += flow.from == DAWN_NO_NODE ? watts[i] : -watts[i];
                assert_non_null(flow.group);
            }
            size += fabs(watts[i]);
        }
        for (size_t i = 0; i < n; ++i)
            if (dawn_network_node(it.network, i)->role != DAWN_ROLE_FILM)
                stored += rates[i] * dawn_network_node(it.network, i)->heat_J_K;
        near(stored, crossing, 1e-12 * size, "heat stored");
        free(y);
        free(rates);
        free(watts);
        undraw(&it);
    }
}

/* Air, ground and sky of one temperature, air that holds all the water it can, and no light. */
static void still_weather(struct dawn_network *network, double all_C)
{
    struct forcing *forcing = &network->forcing;
    for (size_t i = 0; i < forcing->knots; ++i) {
        forcing->air_C[i] = forcing->edge_C[i] = forcing->deep_C[i] = all_C;
        forcing->sky_W_m2[i] = 5.670374419e-8 * pow(all_C + 273.15, 4.0); /* CODATA 2018 */
        forcing->vapour_K[i] = dawn_moistair_latent_saturated(all_C, network->pressure_Pa).y_K;
    }
    memset(forcing->gain_W, 0, forcing->knots * forcing->gains * sizeof *forcing->gain_W);
}

/* A house as warm as everything around it stays so, whatever the wind and the covers do: the second
 * law of thermodynamics. What it keeps at is above freezing, so nothing lies as ice. */
static void all_of_one_temperature_rests(void **state)
{
    (void)state;
    const double all_C = 5.0;
    for (uint64_t seed = 1; seed <= 100; ++seed) {
        struct draw it;
        char what[64];
        draw(&it, seed);
        it.scenario.house.heat_W = 0;
        dawn_network_free(it.network);
        assert_int_equal(dawn_network_build(&it.network, &it.scenario, &it.weather, &it.problems),
                         DAWN_OK);
        still_weather(it.network, all_C);
        size_t n = dawn_network_node_count(it.network), f = dawn_network_flow_count(it.network);
        double *y = calloc(n, sizeof *y), *rates = calloc(n, sizeof *rates);
        double *watts = calloc(f, sizeof *watts);
        assert_true(y && rates && watts);
        for (size_t i = 0; i < n; ++i) {
            enum dawn_role role = dawn_network_node(it.network, i)->role;
            bool dry = role == DAWN_ROLE_FILM || role == DAWN_ROLE_FROST;
            y[i] = role == DAWN_ROLE_VAPOUR ? it.network->forcing.vapour_K[0] : dry ? 0.0 : all_C;
        }
        dawn_network_flows_W(it.network, false, (double)dawn_network_from_s(it.network) + 4e4, y,
                             watts, rates);
        for (size_t i = 0; i < f; ++i) {
            snprintf(what, sizeof what, "nursery %d, %.40s", (int)seed,
                     dawn_network_flow(it.network, i).name);
            near(watts[i], 0.0, 1e-6, what);
        }
        free(y);
        free(rates);
        free(watts);
        undraw(&it);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(energy_closes),
        cmocka_unit_test(jacobian_is_the_slope),
        cmocka_unit_test(flows_add_up),
        cmocka_unit_test(all_of_one_temperature_rests),
    };
    return cmocka_run_group_tests_name("energy", tests, NULL, NULL);
}
