/* JSON as a tree: what is there is found as what it is, what is not is none, and what is no JSON is
 * refused with its place. */
#include "base/jsonin.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static enum dawn_status read(struct dawn_jsonin *json, const char *text,
                             struct dawn_problems *problems)
{
    *json = (struct dawn_jsonin){0};
    return dawn_jsonin_read(json, "result.json", text, strlen(text), problems);
}

/* Objects, arrays and escapes as RFC 8259 has them. */
static void what_is_there_is_found(void **state)
{
    struct dawn_problems problems = {0};
    struct dawn_jsonin json;

    (void)state;
    assert_int_equal(read(&json,
                          " {\"a\": -1.5e2, \"b\": [\"x\\u00e9\\n\\\"\", true, null, {\"c\": 7}],"
                          "\"a\": 2, \"t\": \"12\"}\n",
                          &problems),
                     DAWN_OK);
    const dawn_jsonin_node root = dawn_jsonin_root(&json);
    const dawn_jsonin_node list = dawn_jsonin_member(&json, root, "b");
    assert_true(dawn_jsonin_number(&json, dawn_jsonin_member(&json, root, "a")) == -150.0);
    assert_int_equal(dawn_jsonin_count(&json, list), 4);
    assert_string_equal(dawn_jsonin_text(&json, dawn_jsonin_item(&json, list, 0)), "x\xC3\xA9\n\"");
    assert_true(dawn_jsonin_true(&json, dawn_jsonin_item(&json, list, 1)));
    assert_false(dawn_jsonin_true(&json, dawn_jsonin_item(&json, list, 2)));
    assert_true(isnan(dawn_jsonin_number(&json, dawn_jsonin_item(&json, list, 2))));
    const dawn_jsonin_node inner = dawn_jsonin_item(&json, list, 3);
    assert_true(dawn_jsonin_number(&json, dawn_jsonin_member(&json, inner, "c")) == 7.0);
    /* What stands in quotation marks is no number. */
    assert_true(isnan(dawn_jsonin_number(&json, dawn_jsonin_member(&json, root, "t"))));
    assert_null(dawn_jsonin_text(&json, dawn_jsonin_member(&json, root, "a")));
    dawn_jsonin_release(&json);
    dawn_problems_release(&problems);
}

static void what_is_not_there_is_none(void **state)
{
    struct dawn_problems problems = {0};
    struct dawn_jsonin json;

    (void)state;
    assert_int_equal(read(&json, "{\"a\": [1]}", &problems), DAWN_OK);
    const dawn_jsonin_node root = dawn_jsonin_root(&json);
    const dawn_jsonin_node none = dawn_jsonin_member(&json, root, "b");
    assert_int_equal(none, 0);
    assert_int_equal(dawn_jsonin_member(&json, none, "c"), 0);
    assert_int_equal(dawn_jsonin_count(&json, none), 0);
    assert_int_equal(dawn_jsonin_item(&json, dawn_jsonin_member(&json, root, "a"), 1), 0);
    assert_true(isnan(dawn_jsonin_number(&json, none)));
    assert_null(dawn_jsonin_text(&json, none));
    assert_int_equal(dawn_jsonin_count(&json, root), 0);
    dawn_jsonin_release(&json);
    dawn_problems_release(&problems);
}

static void what_is_no_json_is_refused_with_its_place(void **state)
{
    static const struct {
        const char *text;
        int line;
    } bad[] = {{"", 1}, /* the last line at most; what breaks off may be placed behind it */
               {"name: x\n", 1},
               {"[1, 2]", 1},
               {"{\"a\": 1,\n \"b\": [1, 2", 3},
               {"{\"a\":\n \"\xff\"}", 0},
               {"{\"a\": 1}}", 0}};

    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        struct dawn_problems problems = {0};
        struct dawn_jsonin json;
        assert_int_equal(read(&json, bad[i].text, &problems), DAWN_ERR_USAGE);
        assert_int_equal(problems.errors, 1);
        assert_non_null(strstr(problems.items[0].message, "no JSON"));
        if (bad[i].line > 0) {
            assert_in_range(problems.items[0].line, 1, bad[i].line);
        }
        dawn_jsonin_release(&json);
        dawn_problems_release(&problems);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_there_is_found),
        cmocka_unit_test(what_is_not_there_is_none),
        cmocka_unit_test(what_is_no_json_is_refused_with_its_place),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
