/* A scenario with values laid over another is what the file with those values would have been. */
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
    const struct CMUnitTest tests[] = {cmocka_unit_test(same_as_read),
                                       cmocka_unit_test(mistakes_are_told)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
