/* A scenario with values laid over another is what the file with those values would have been. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/scenario.h"

#define DEMO "scenarios/alder-hollow.yaml"

static struct dawn_scenario demo(const char *const *overrides, size_t count)
{
    struct dawn_scenario scenario;
    struct dawn_problems problems = {0};

    assert_int_equal(dawn_scenario_read(&scenario, DEMO, overrides, count, &problems), DAWN_OK);
    dawn_problems_release(&problems);
    return scenario;
}

struct listed {
    struct dawn_understood item[512];
    size_t count;
};
static void list(const struct dawn_understood *understood, void *user)
{
    struct listed *listed = user;

    assert_true(listed->count < 512);
    listed->item[listed->count++] = *understood;
}

static void a_part_left_out(void **state)
{
    static const char *const parts[] = {"rock=none", "fan=none", "barrels=none"};
    static const char *const wrong[] = {"site=none", "rock=nothing", "fan.power=none"};
    struct dawn_scenario base = demo(NULL, 0);
    struct dawn_scenario with;
    struct dawn_problems problems = {0};

    (void)state;
    assert_int_equal(dawn_scenario_with(&with, &base, parts, 3, &problems), DAWN_OK);
    assert_false(with.rock.present || with.fan.present);
    assert_int_equal(with.barrels_count, 0);
    assert_true(base.rock.present && base.barrels_count == 1);
    dawn_scenario_release(&with);
    /* A fan alone has nothing to blow through. */
    assert_int_equal(dawn_scenario_with(&with, &base, parts, 1, &problems), DAWN_ERR_SCENARIO);
    dawn_scenario_release(&with);
    for (size_t i = 0; i < 3; i++) {
        assert_int_equal(dawn_scenario_with(&with, &base, &wrong[i], 1, &problems),
                         DAWN_ERR_SCENARIO);
        dawn_scenario_release(&with);
    }
    dawn_problems_release(&problems);
    dawn_scenario_release(&base);
}

static void an_item_added(void **state)
{
    static const char *const parts[] = {"barrels.+front.count=3", "barrels.+front.volume=50 gal"};
    struct dawn_scenario base = demo(NULL, 0);
    struct dawn_scenario with;
    struct dawn_problems problems = {0};

    (void)state;
    assert_int_equal(dawn_scenario_with(&with, &base, parts, 2, &problems), DAWN_OK);
    assert_int_equal(with.barrels_count, 2);
    assert_string_equal(with.barrels[1].name, "front");
    assert_true(with.barrels[1].count > 2.9 && with.barrels[1].count < 3.1);
    assert_true(fabs(with.barrels[1].volume_m3 - 0.18927) < 1e-5);
    assert_true(fabs(with.barrels[1].fill_share - 0.95) < 1e-9); /* its default */
    dawn_scenario_release(&with);
    /* What has no default is asked for as in a file. */
    assert_int_equal(dawn_scenario_with(&with, &base, parts, 1, &problems), DAWN_ERR_SCENARIO);
    assert_non_null(strstr(problems.items[0].message, "'volume' is missing"));
    dawn_scenario_release(&with);
    dawn_problems_release(&problems);
    dawn_scenario_release(&base);
}

static void prices_in_other_units(void **state)
{
    static const char *const overrides[] = {"prices.currency=USD", "prices.rock=45 per short ton",
                                            "prices.fan=0.5 /cfm"};
    struct dawn_scenario base = demo(NULL, 0);
    struct dawn_scenario with;
    struct dawn_problems problems = {0};

    (void)state;
    assert_string_equal(base.prices.currency, "EUR");
    assert_true(fabs(base.prices.rock_kg * 1000 - 32) < 1e-9);
    assert_int_equal(dawn_scenario_with(&with, &base, overrides, 3, &problems), DAWN_OK);
    assert_string_equal(with.prices.currency, "USD");
    /* A short ton is 907.18474 kg; a cfm 1.69901 m3/h. */
    assert_true(fabs(with.prices.rock_kg * 907.18474 - 45) < 1e-9);
    assert_true(fabs(with.prices.fan_m3_s / 3600 * 1.69901 - 0.5) < 1e-5);
    dawn_scenario_release(&with);
    dawn_problems_release(&problems);
    dawn_scenario_release(&base);
}

static void same_as_read(void **state)
{
    static const char *const overrides[] = {"rock.mass=12 t", "barrels.north row.count=3",
                                            "fan.on_at=77 F"};
    static struct listed with_list, read_list;
    struct dawn_scenario base = demo(NULL, 0);
    struct dawn_scenario read = demo(overrides, 3);
    struct dawn_scenario with;
    struct dawn_problems problems = {0};

    (void)state;
    assert_int_equal(dawn_scenario_with(&with, &base, overrides, 3, &problems), DAWN_OK);
    assert_int_equal(problems.count, 0);
    assert_true(base.rock.mass_kg > 17999 && with.rock.mass_kg < 12001);
    dawn_scenario_understood(&with, list, &with_list);
    dawn_scenario_understood(&read, list, &read_list);
    assert_int_equal(with_list.count, read_list.count);
    for (size_t i = 0; i < read_list.count; i++) {
        assert_string_equal(with_list.item[i].key, read_list.item[i].key);
        assert_string_equal(with_list.item[i].value, read_list.item[i].value);
        assert_int_equal(with_list.item[i].line, read_list.item[i].line);
    }
    dawn_scenario_release(&with);
    dawn_scenario_release(&read);
    dawn_scenario_release(&base);
}

static void refused(const struct dawn_scenario *base, const char *override, const char *says)
{
    struct dawn_scenario with;
    struct dawn_problems problems = {0};

    assert_int_equal(dawn_scenario_with(&with, base, &override, 1, &problems), DAWN_ERR_SCENARIO);
    assert_true(problems.errors > 0);
    assert_non_null(strstr(problems.items[0].message, says));
    dawn_problems_release(&problems);
    dawn_scenario_release(&with);
}

static void mistakes_are_told(void **state)
{
    struct dawn_scenario base = demo(NULL, 0);

    (void)state;
    refused(&base, "rock.weight=12 t", "weight");
    refused(&base, "rock.mass=lots", "lots");
    refused(&base, "fan.off_at=40 C", "off_at"); /* a rule across keys: above on_at */
    dawn_scenario_release(&base);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_part_left_out), cmocka_unit_test(an_item_added),
        cmocka_unit_test(prices_in_other_units), cmocka_unit_test(same_as_read),
        cmocka_unit_test(mistakes_are_told)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
