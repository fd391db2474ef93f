/* Goals as growers say them, and what is no goal. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/studies/goal.h"
#include "support/near.h"

static struct dawn_scenario demo(void)
{
    struct dawn_scenario scenario;
    struct dawn_problems problems = {0};

    assert_int_equal(
        dawn_scenario_read(&scenario, "scenarios/alder-hollow.yaml", NULL, 0, &problems), DAWN_OK);
    dawn_problems_release(&problems);
    return scenario;
}

static void what_growers_say(void **state)
{
    static const struct {
        const char *text;
        enum dawn_goal_place place;
        double line_C, nights, springs;
        bool spring_only;
    } said[] = {
        {"0 C at trays, 1 night in 10 springs", DAWN_GOAL_TRAYS, 0, 1, 10, true},
        {"0 C at trays", DAWN_GOAL_TRAYS, 0, 1, 10, true},
        {"35 F at the house air, never", DAWN_GOAL_AIR, 5.0 / 3.0, 0, 10, true},
        {"-1,5 C at leaf, 3 nights in a spring", DAWN_GOAL_LEAVES, -1.5, 3, 1, true},
        {"8 C at roots, 2 nights in 5 years", DAWN_GOAL_ROOTS, 8, 2, 5, false},
        {"lettuce unharmed, never", DAWN_GOAL_LEAVES, -1, 0, 10, true},
        {"tomato", DAWN_GOAL_LEAVES, 0, 1, 10, true},
    };
    struct dawn_scenario scenario = demo();

    (void)state;
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        struct dawn_problems problems = {0};
        struct dawn_goal goal;
        if (dawn_goal_read(&goal, said[i].text, &scenario, &problems) != DAWN_OK)
            fail_msg("'%s' is refused", said[i].text);
        assert_int_equal(goal.place, said[i].place);
        near(goal.line_C, said[i].line_C, 1e-9, said[i].text);
        near(goal.nights, said[i].nights, 0, said[i].text);
        near(goal.springs, said[i].springs, 0, said[i].text);
        assert_int_equal(goal.spring_only, said[i].spring_only);
    }
    dawn_scenario_release(&scenario);
}

static void what_is_no_goal(void **state)
{
    static const char *const wrong[] = {"",
                                        "warm",
                                        "0 at trays",
                                        "0 C at cellar",
                                        "0 C trays",
                                        "90 C at trays",
                                        "0 C at trays, often",
                                        "0 C at trays, 1 night in 0 springs",
                                        ", never",
                                        "0 C at trays, 1 night in 10 springs, please"};
    struct dawn_scenario scenario = demo();

    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        struct dawn_problems problems = {0};
        struct dawn_goal goal;
        if (dawn_goal_read(&goal, wrong[i], &scenario, &problems) == DAWN_OK)
            fail_msg("'%s' is taken", wrong[i]);
        assert_int_equal(problems.errors, 1);
        dawn_problems_release(&problems);
    }
    dawn_scenario_release(&scenario);
}

static void nights_allowed(void **state)
{
    const struct dawn_goal goal = {.nights = 1, .springs = 10, .spring_only = true};
    struct dawn_scenario scenario = demo();
    struct dawn_night night = {.dusk_s = 1772300000}; /* 28 Feb 2026, 17:33 UTC */

    (void)state;
    assert_int_equal(dawn_goal_allowed(&goal, 9), 0);
    assert_int_equal(dawn_goal_allowed(&goal, 10), 1);
    assert_int_equal(dawn_goal_allowed(&goal, 30), 3);
    assert_false(dawn_goal_counts(&goal, &scenario, &night));
    night.dusk_s += 86400;
    assert_true(dawn_goal_counts(&goal, &scenario, &night));
    scenario.site.latitude_deg = -45; /* March is autumn there */
    assert_false(dawn_goal_counts(&goal, &scenario, &night));
    dawn_scenario_release(&scenario);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(what_growers_say),
                                       cmocka_unit_test(what_is_no_goal),
                                       cmocka_unit_test(nights_allowed)};

    return cmocka_run_group_tests(tests, NULL, NULL);
}
