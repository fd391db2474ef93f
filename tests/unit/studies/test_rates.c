/* States by lot: the same for the same seed, within what is promised, off and on in turn. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/studies.h"
#include "support/near.h"
#include "support/shipped.h"

enum { SAMPLES = 12 };

static struct dawn_rates draw(struct shipped *it, uint64_t seed, enum dawn_rates_fan fan)
{
    const struct dawn_rates_plan plan = {.from_s = shipped_noon_s(10),
                                         .to_s = shipped_noon_s(12),
                                         .samples = SAMPLES,
                                         .seed = seed,
                                         .fan = fan};
    struct dawn_rates rates = {0};
    shipped_fine(it, dawn_rates_draw(&rates, it->network, &plan, &it->problems), "draw");
    assert_int_equal(rates.samples, SAMPLES);
    assert_int_equal(rates.nodes, dawn_network_node_count(it->network));
    return rates;
}

static int read_demo(void **state)
{
    static struct shipped it;
    shipped_read(&it, "scenarios/alder-hollow.yaml", NULL, 0);
    shipped_build(&it);
    *state = &it;
    return 0;
}

static int release_demo(void **state)
{
    shipped_release(*state);
    return 0;
}

static void within_what_is_promised(void **state)
{
    struct shipped *it = *state;
    struct dawn_rates rates = draw(it, 5, DAWN_RATES_FAN_IN_TURN);
    size_t ice = 0;
    size_t slush = 0;
    size_t liquid = 0;
    for (size_t i = 0; i < rates.samples * rates.nodes; i++) {
        const struct dawn_node *node = dawn_network_node(it->network, i % rates.nodes);
        const double T = dawn_network_temperature_C(it->network, i % rates.nodes, rates.y_C[i]);
        const bool water = node->role == DAWN_ROLE_VAPOUR || node->role == DAWN_ROLE_FILM;
        const bool frost = node->role == DAWN_ROLE_FROST;
        const double most = node->role == DAWN_ROLE_VAPOUR ? 60.0
                            : node->role == DAWN_ROLE_FILM ? 20.0
                            : frost                        ? 0.0
                                                           : 45.0;
        const double least = frost ? -20.0 : water ? 0.0 : -15.0;
        assert_true(T >= least - 1e-9 && T <= most);
        ice += node->latent_J > 0 && T < -0.1;
        slush += node->latent_J > 0 && T >= -0.1 && T < 0;
        liquid += node->latent_J > 0 && T >= 0;
        assert_true(isfinite(rates.rate_K_s[i]));
    }
    assert_true(ice > 30 && slush > 30 && liquid > 30);
    dawn_rates_release(&rates);
}

static void moments_and_fan(void **state)
{
    struct shipped *it = *state;
    struct dawn_rates turn = draw(it, 5, DAWN_RATES_FAN_IN_TURN);
    struct dawn_rates on = draw(it, 5, DAWN_RATES_FAN_ON);
    struct dawn_rates off = draw(it, 5, DAWN_RATES_FAN_OFF);
    for (size_t i = 0; i < SAMPLES; i++) {
        /* Two days in twelve parts: four hours each, the moment in its middle. */
        assert_int_equal(turn.time_s[i], shipped_noon_s(10) + (int64_t)i * 14400 + 7200);
        assert_true(turn.fan_on[i] == (i % 2 == 1) && on.fan_on[i] && !off.fan_on[i]);
        const struct dawn_rates *same = i % 2 == 1 ? &on : &off;
        assert_memory_equal(turn.rate_K_s + i * turn.nodes, same->rate_K_s + i * turn.nodes,
                            turn.nodes * sizeof(double));
    }
    assert_memory_not_equal(on.rate_K_s, off.rate_K_s, on.nodes * sizeof(double));
    dawn_rates_release(&turn);
    dawn_rates_release(&on);
    dawn_rates_release(&off);
}

static void seed_decides(void **state)
{
    struct dawn_rates a = draw(*state, 5, DAWN_RATES_FAN_OFF);
    struct dawn_rates b = draw(*state, 5, DAWN_RATES_FAN_OFF);
    struct dawn_rates c = draw(*state, 6, DAWN_RATES_FAN_OFF);
    const size_t bytes = a.samples * a.nodes * sizeof(double);
    assert_memory_equal(a.y_C, b.y_C, bytes);
    assert_memory_not_equal(a.y_C, c.y_C, bytes);
    dawn_rates_release(&a);
    dawn_rates_release(&b);
    dawn_rates_release(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(within_what_is_promised),
        cmocka_unit_test(moments_and_fan),
        cmocka_unit_test(seed_decides),
    };
    return cmocka_run_group_tests(tests, read_demo, release_demo);
}
