/* What snow on the roof does to the demo house without its stores, and that heat and water close.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "support/clear_nights.h"

/* Heat enough that the sun matters little. */
static const char *const heated[] = {"house.heat=12 kW"};

static struct lows lows_with(const char *from, double depth_m, bool heat)
{
    struct shipped it = {0};
    shipped_read(&it, bare, heated, heat ? 1 : 0);
    it.scenario.house.snow_slides_above_C = NAN;
    it.scenario.snow[0] = (struct dawn_snow){.depth_m = depth_m, .density_kg_m3 = 150};
    snprintf(it.scenario.snow[0].from, sizeof it.scenario.snow[0].from, "%s", from);
    it.scenario.snow_count = depth_m > 0 ? 1 : 0;
    clear_nights_run(&it);
    struct lows lows = clear_nights_lows(&it);
    shipped_release(&it);
    print_message("snow from %s, %.2f m, %s: air %.2f, trays %.2f, by day %.2f C\n", from, depth_m,
                  heat ? "heated" : "unheated", lows.air_C, lows.tray_C, lows.noon_tray_C);
    return lows;
}

/* Snow that is described but does not lie changes next to nothing. */
static void snow_of_another_month_changes_nothing(void **state)
{
    (void)state;
    struct lows without = lows_with("06-01", 0.0, false);
    struct lows with = lows_with("06-01", 0.2, false);
    near(with.air_C, without.air_C, 0.02, "air");
    near(with.tray_C, without.tray_C, 0.02, "trays");
    near(with.noon_tray_C, without.noon_tray_C, 0.05, "trays by day");
}

/* It keeps the warmth of a heated house in, and the more of it the better (comparison theorem), and
 * it keeps the light out (common practice). */
static void snow_keeps_warmth_in_and_light_out(void **state)
{
    (void)state;
    struct lows none = lows_with("03-01", 0.0, true);
    struct lows thin = lows_with("03-01", 0.03, true);
    struct lows thick = lows_with("03-01", 0.2, true);
    assert_true(thin.air_C > none.air_C + 0.5);
    assert_true(thick.air_C > thin.air_C);
    assert_true(thin.noon_tray_C < none.noon_tray_C - 0.5);
    assert_true(thick.noon_tray_C < thin.noon_tray_C);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(snow_of_another_month_changes_nothing),
        cmocka_unit_test(snow_keeps_warmth_in_and_light_out),
    };
    return cmocka_run_group_tests_name("snow", tests, NULL, NULL);
}
