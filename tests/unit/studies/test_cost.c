/* What a house costs, reckoned by hand from its scenario. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/studies/cost.h"
#include "support/near.h"

#define DEMO "scenarios/alder-hollow.yaml"

static struct dawn_scenario demo(const char *const *overrides, size_t count)
{
    struct dawn_scenario scenario;
    struct dawn_problems problems = {0};

    assert_int_equal(dawn_scenario_read(&scenario, DEMO, overrides, count, &problems), DAWN_OK);
    dawn_problems_release(&problems);
    return scenario;
}

/* 18 t of stone of 2650 kg/m3 with 42 % of gaps lie in 11.711 m3. */
static void as_it_is(void **state)
{
    static const char *const prices[] = {"prices.rock=40 /t", "prices.digging=20 /m3",
                                         "prices.barrel=25",  "prices.fan=0.1 per m3/h",
                                         "prices.skin=5 /m2", "prices.edge_board=10 /m2"};
    struct dawn_scenario scenario = demo(prices, 6);
    const struct dawn_cost cost = dawn_cost_of(&scenario);

    (void)state;
    near(cost.rock, 720.0, 1e-9, "rock");
    near(cost.digging, 20.0 * 18000.0 / 2650.0 / 0.58, 1e-9, "digging");
    near(cost.fan, 200.0, 1e-9, "fan");
    near(cost.barrels, 350.0, 1e-9, "barrels");
    near(cost.skins, 0.0, 0.0, "one skin");
    near(cost.edge, 32.0 * 0.6 * 10.0, 1e-9, "edge");
    near(cost.total, cost.rock + cost.digging + cost.fan + cost.barrels + cost.skins + cost.edge,
         1e-9, "all");
    /* 50 kWh at 0.28 for 10 springs. */
    near(dawn_cost_of_running(&scenario, 50.0), 140.0, 1e-9, "running");
    dawn_scenario_release(&scenario);
}

static void as_it_could_be(void **state)
{
    static const char *const other[] = {"rock=none",
                                        "fan=none",
                                        "barrels=none",
                                        "glazing.south roof.type=double-film",
                                        "glazing.east end.gap_resistance=0.2 m2K/W",
                                        "ground.edge_depth=0 m",
                                        "prices.skin=5 /m2"};
    static const char *const priced[] = {"fan.price=410"};
    static const char *const covered[] = {"covers.+low.over=trays", "covers.+high.over=house",
                                          "prices.row_cover=2 /m2", "prices.curtain=8 /m2"};
    static const char *const curve[] = {"fan.flow=from curve", "fan.free_air=3000 m3/h",
                                        "fan.greatest_pressure=120 Pa", "prices.fan=0.1 /m3/h"};
    struct dawn_scenario scenario = demo(other, 7);

    (void)state;
    near(dawn_cost_of(&scenario).covers, 0.0, 0.0, "no covers");
    near(dawn_cost_of(&scenario).total, (44.0 + 16.0) * 5.0, 1e-9, "two faces of two skins");
    dawn_scenario_release(&scenario);
    scenario = demo(priced, 1);
    near(dawn_cost_of(&scenario).fan, 410.0, 0.0, "its own price");
    dawn_scenario_release(&scenario);
    scenario = demo(covered, 4);
    /* 18 m2 of trays, 60 m2 of floor. */
    near(dawn_cost_of(&scenario).covers, 18.0 * 2.0 + 60.0 * 8.0, 1e-9, "fleece and curtain");
    dawn_scenario_release(&scenario);
    scenario = demo(curve, 4);
    const double fan = dawn_cost_of(&scenario).fan;
    assert_true(fan > 150.0 && fan < 300.0); /* less than free air, more than half of it */
    dawn_scenario_release(&scenario);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(as_it_is),
                                       cmocka_unit_test(as_it_could_be)};

    return cmocka_run_group_tests(tests, NULL, NULL);
}
