/* A leaf between two radiant surroundings. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/leaf.h"
#include "support/near.h"

static void test_leaf_below_covers(void **state)
{
    /* Leaf minus air, K, emissivity 0.96: root of the stated balance, computed closed form: under
     * rigid plastic, under glass, under clear film, outdoors in a clear calm night */
    static const struct {
        double air_C, up_C, down_C, film, below;
    } at[] = {{4.0, 0.0, 5.0, 4.0, -0.7825},
              {3.0, -2.0, 4.0, 4.0, -1.0340},
              {3.0, -12.0, 4.0, 4.0, -3.4569},
              {0.0, -25.0, 0.0, 8.0, -3.9138}};
    (void)state;
    for (int i = 0; i < 4; i++)
        near(dawn_leaf_steady_C(at[i].air_C, at[i].up_C, at[i].down_C, 0.96, at[i].film) -
                 at[i].air_C,
             at[i].below, 1e-3, "leaf below air");
}

static void test_leaf_in_balance(void **state)
{
    (void)state;
    near(dawn_leaf_steady_C(7.0, 7.0, 7.0, 0.96, 5.0), 7.0, 1e-9, "all alike");
    near(dawn_leaf_steady_C(7.0, -30.0, 2.0, 0.0, 5.0), 7.0, 1e-9, "a mirror follows the air");
    near(dawn_leaf_steady_C(40.0, -8.0, -8.0, 0.5, 0.0), -8.0, 1e-9, "without air it follows both");
    near(dawn_leaf_steady_C(7.0, -30.0, 2.0, 0.0, 0.0), 7.0, 0.0, "neither");
    /* up and down count alike: T^4 means, computed closed form */
    double mean = 0.5 * (pow(253.15, 4.0) + pow(283.15, 4.0));
    near(dawn_leaf_steady_C(0.0, -20.0, 10.0, 1.0, 0.0), sqrt(sqrt(mean)) - 273.15, 1e-9,
         "two skies");
    /* the film draws it to the air */
    double last = -30.0;
    for (double film = 0.0; film < 100.0; film += 5.0) {
        double leaf = dawn_leaf_steady_C(3.0, -25.0, 1.0, 0.95, film);
        assert_true(leaf > last && leaf < 3.0);
        last = leaf;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_leaf_below_covers),
        cmocka_unit_test(test_leaf_in_balance),
    };
    return cmocka_run_group_tests_name("leaf", tests, NULL, NULL);
}
