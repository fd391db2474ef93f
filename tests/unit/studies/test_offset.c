/* The offset comes out as it was put in. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "../../support/near.h"
#include "base/random.h"
#include "dawnlow/studies/offset.h"
#include "support/shipped.h"

static const char *const scenario_path = "scenarios/alder-hollow.yaml";

/* Lows are at the hours in which the clear calm index may differ from the night's mean: the line
 * through the means tells the slope only roughly, the offset on overcast nights and the spread of
 * the noise that was added better (invented noise of 0.5 K; five standard errors of 119 nights'
 * mean, 0.05 K each). */
static void what_was_put_in_comes_out(void **state)
{
    struct shipped station = {0};
    struct shipped mine = {0};
    struct dawn_offset offset;
    struct dawn_problems problems = {0};

    (void)state;
    shipped_read(&station, scenario_path, NULL, 0);
    shipped_read(&mine, scenario_path, NULL, 0);
    dawn_weather_shift(&mine.weather, 1.5, 3.0);
    assert_int_equal(dawn_offset_fit(&offset, &mine.weather, &station.weather, &problems), DAWN_OK);
    assert_true(offset.nights >= 118);
    assert_true(offset.clear_told);
    near(offset.always_K, 1.5, 0.25, "always");
    near(offset.clear_K, 3.0, 0.6, "clear and calm");
    assert_true(offset.spread_K < 0.4);
    shipped_release(&station);
    shipped_release(&mine);
}

/* A plain difference is told exactly, and nothing is made of clear nights. */
static void a_plain_difference_is_exact(void **state)
{
    struct shipped station = {0};
    struct shipped mine = {0};
    struct dawn_offset offset;
    struct dawn_problems problems = {0};

    (void)state;
    shipped_read(&station, scenario_path, NULL, 0);
    shipped_read(&mine, scenario_path, NULL, 0);
    dawn_weather_shift(&mine.weather, 2.25, 0.0);
    assert_int_equal(dawn_offset_fit(&offset, &mine.weather, &station.weather, &problems), DAWN_OK);
    near(offset.always_K, 2.25, 1e-9, "always");
    near(offset.clear_K, 0.0, 1e-9, "clear and calm");
    near(offset.spread_K, 0.0, 1e-6, "spread");
    near(offset.most_K, 2.25, 1e-9, "most");
    mine.weather.count = 4 * 24;
    assert_int_equal(dawn_offset_fit(&offset, &mine.weather, &station.weather, &problems),
                     DAWN_ERR_WEATHER);
    assert_non_null(strstr(problems.items[0].message, "whole nights"));
    dawn_problems_release(&problems);
    shipped_release(&station);
    shipped_release(&mine);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_was_put_in_comes_out),
        cmocka_unit_test(a_plain_difference_is_exact),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
