/* The list of problems: counts, order, ownership, exit statuses. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "dawnlow/problems.h"

static void texts_are_copied(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    char file[] = "house.yaml";
    char hint[] = "write C";
    char source[] = "low: 5 D";
    dawn_problems_add(&problems, DAWN_ERROR, (struct dawn_place_in_file){file, 3, 7, source}, hint,
                      "'%s' is no unit of %s", "D", "a temperature");
    memset(file, 'x', sizeof file - 1);
    memset(hint, 'x', sizeof hint - 1);
    memset(source, 'x', sizeof source - 1);
    assert_int_equal(problems.count, 1);
    const struct dawn_problem *item = &problems.items[0];
    assert_int_equal(item->severity, DAWN_ERROR);
    assert_int_equal(item->line, 3);
    assert_int_equal(item->column, 7);
    assert_string_equal(item->file, "house.yaml");
    assert_string_equal(item->message, "'D' is no unit of a temperature");
    assert_string_equal(item->hint, "write C");
    assert_string_equal(item->source_line, "low: 5 D");
    dawn_problems_release(&problems);
    assert_null(problems.items);
    assert_int_equal(problems.count + problems.errors + problems.warnings + problems.capacity, 0);
    dawn_problems_release(&problems);
}

static void counts_and_empty_places(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    const struct dawn_place_in_file nowhere = {0};
    for (int i = 0; i < 100; i++)
        dawn_problems_add(&problems, (enum dawn_severity)(i % 3), nowhere, NULL, "%d", i);
    assert_int_equal(problems.count, 100);
    assert_int_equal(problems.errors, 34);
    assert_int_equal(problems.warnings, 33);
    assert_string_equal(problems.items[99].message, "99");
    assert_string_equal(problems.items[99].file, "");
    assert_null(problems.items[99].hint);
    assert_null(problems.items[99].source_line);
    dawn_problems_release(&problems);
}

static void add_at(struct dawn_problems *problems, const char *file, int line, int column,
                   const char *message)
{
    dawn_problems_add(problems, DAWN_WARNING, (struct dawn_place_in_file){file, line, column, NULL},
                      NULL, "%s", message);
}

static void sorting_is_by_place_and_stable(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    dawn_problems_sort(&problems);
    add_at(&problems, "z.yaml", 9, 1, "z9:1 first");
    add_at(&problems, "a.csv", 2, 5, "a2:5");
    add_at(&problems, "z.yaml", 9, 1, "z9:1 second");
    add_at(&problems, "z.yaml", 10, 1, "z10:1");
    add_at(&problems, "a.csv", 2, 3, "a2:3");
    add_at(&problems, "z.yaml", 0, 0, "z whole");
    add_at(&problems, NULL, 0, 0, "no file");
    add_at(&problems, "z.yaml", 9, 1, "z9:1 third");
    add_at(&problems, "a.csv", 1, 8, "a1:8");
    dawn_problems_sort(&problems);
    static const char *const want[] = {"z whole",    "z9:1 first", "z9:1 second",
                                       "z9:1 third", "z10:1",      "a1:8",
                                       "a2:3",       "a2:5",       "no file"};
    for (size_t i = 0; i < 9; i++)
        assert_string_equal(problems.items[i].message, want[i]);
    assert_int_equal(problems.count, 9);
    dawn_problems_release(&problems);
}

static void statuses_have_a_number_and_words(void **state)
{
    (void)state;
    assert_int_equal(DAWN_OK, 0);
    assert_int_equal(dawn_problems_exit_status(DAWN_OK), 0);
    assert_int_equal(dawn_problems_exit_status(DAWN_ERR_USAGE), 2);
    assert_int_equal(dawn_problems_exit_status(DAWN_ERR_SCENARIO), 2);
    assert_int_equal(dawn_problems_exit_status(DAWN_ERR_WEATHER), 2);
    assert_int_equal(dawn_problems_exit_status(DAWN_ERR_SOLVER), 3);
    assert_int_equal(dawn_problems_exit_status(DAWN_ERR_IO), 2);
    assert_int_equal(dawn_problems_exit_status(DAWN_ERR_NOMEM), 3);
    assert_int_equal(dawn_problems_exit_status(DAWN_ALARM), 10);
    assert_string_equal(dawn_problems_meaning(DAWN_ERR_NOMEM), "out of memory");
    for (int i = 0; i <= DAWN_ERR_NOMEM; i++)
        assert_true(strlen(dawn_problems_meaning((enum dawn_status)i)) > 3);
    assert_int_equal(dawn_problems_exit_status((enum dawn_status)99), 3);
    assert_non_null(dawn_problems_meaning((enum dawn_status)99));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts_are_copied),
        cmocka_unit_test(counts_and_empty_places),
        cmocka_unit_test(sorting_is_by_place_and_stable),
        cmocka_unit_test(statuses_have_a_number_and_words),
    };
    return cmocka_run_group_tests_name("base/problems", tests, NULL, NULL);
}
