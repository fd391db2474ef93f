/* What --vary says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/studies/sweep.h"
#include "support/near.h"

static struct dawn_sweep_axis accept(const char *text)
{
    struct dawn_sweep_axis axis;
    struct dawn_problems problems = {0};

    if (!dawn_sweep_axis_parse(&axis, text, &problems))
        fail_msg("%s: %s", text, problems.count > 0 ? problems.items[0].message : "?");
    return axis;
}

static void refuse(const char *text, const char *says)
{
    struct dawn_sweep_axis axis;
    struct dawn_problems problems = {0};

    assert_false(dawn_sweep_axis_parse(&axis, text, &problems));
    assert_int_equal(problems.errors, 1);
    if (strstr(problems.items[0].message, says) == NULL)
        fail_msg("'%s' lacks '%s'", problems.items[0].message, says);
    dawn_problems_release(&problems);
}

static void ranges(void **state)
{
    const struct dawn_sweep_axis rock = accept("rock.mass = 6 t .. 24 t / 4");
    const struct dawn_sweep_axis air = accept("house.air_changes=0,5..3 /h/6");
    const struct dawn_sweep_axis cold = accept("fan.night_on_at=-2..4 C");

    (void)state;
    assert_string_equal(rock.key, "rock.mass");
    assert_string_equal(rock.unit, "t");
    near(rock.from, 6.0, 0, "from");
    near(rock.to, 24.0, 0, "to");
    assert_int_equal(rock.steps, 4);
    assert_string_equal(air.unit, "/h");
    near(air.from, 0.5, 0, "decimal comma");
    assert_int_equal(air.steps, 6);
    near(cold.from, -2.0, 0, "below zero");
    assert_int_equal(cold.steps, 0);
}

static void words(void **state)
{
    const struct dawn_sweep_axis axis = accept("glazing.south roof.type=film | twinwall-8mm|glass");

    (void)state;
    assert_true(axis.by_words);
    assert_int_equal(axis.steps, 3);
    assert_string_equal(axis.key, "glazing.south roof.type");
    assert_string_equal(axis.words[1], "twinwall-8mm");
}

static void mistakes(void **state)
{
    (void)state;
    refuse("rock.mass", "=");
    refuse("=1..2 t", "=");
    refuse("rock.mass=1 t..2 kg/3", "same unit");
    refuse("rock.mass=2 t..1 t/3", "empty");
    refuse("rock.mass=1 t..1 t/3", "empty");
    refuse("rock.mass=1 t..2 t/1", "2 or more");
    refuse("rock.mass=1 t..2 t/2.5", "2 or more");
    refuse("rock.mass=some..2 t/3", "numbers");
    refuse("fan.on_at=20 C||22 C", "empty");
}

/* Every combination once, the last key fastest; both ends of a range are hit. */
static void combinations(void **state)
{
    const struct dawn_sweep_axis axis[] = {accept("rock.mass=6 t..24 t/4"), accept("x.y=a|b|c")};
    const struct dawn_sweep_plan plan = {.axis = axis, .axes = 2};
    char text[2 * DAWN_SWEEP_TEXT];

    (void)state;
    assert_int_equal(dawn_sweep_rows(&plan), 12);
    dawn_sweep_override(&plan, 0, 0, text);
    assert_string_equal(text, "rock.mass=6 t");
    dawn_sweep_override(&plan, 4, 0, text);
    assert_string_equal(text, "rock.mass=12 t");
    dawn_sweep_override(&plan, 4, 1, text);
    assert_string_equal(text, "x.y=b");
    dawn_sweep_override(&plan, 11, 0, text);
    assert_string_equal(text, "rock.mass=24 t");
    dawn_sweep_override(&plan, 11, 1, text);
    assert_string_equal(text, "x.y=c");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(ranges), cmocka_unit_test(words),
                                       cmocka_unit_test(mistakes), cmocka_unit_test(combinations)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
