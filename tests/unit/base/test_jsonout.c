/* JSON as it is written: RFC 8259, sections 2 to 7. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "base/jsonout.h"
#include "support/comma_locale.h"
#include "support/written.h"

static void nesting_commas_and_lines(void **state)
{
    (void)state;
    struct written written;
    written_start(&written);
    struct dawn_jsonout json;
    dawn_jsonout_begin(&json, written.stream);
    dawn_jsonout_object(&json, NULL);
    dawn_jsonout_text(&json, "name", "north bed");
    dawn_jsonout_array(&json, "low_C");
    dawn_jsonout_number(&json, NULL, 1.5, 1);
    dawn_jsonout_number(&json, NULL, -2, 1);
    dawn_jsonout_null(&json, NULL);
    dawn_jsonout_close_array(&json);
    dawn_jsonout_array(&json, "nights");
    for (int night = 0; night < 2; night++) {
        dawn_jsonout_object(&json, NULL);
        dawn_jsonout_integer(&json, "night", night);
        dawn_jsonout_bool(&json, "frost", night == 1);
        dawn_jsonout_close_object(&json);
    }
    dawn_jsonout_close_array(&json);
    dawn_jsonout_object(&json, "empty");
    dawn_jsonout_close_object(&json);
    dawn_jsonout_array(&json, "none");
    dawn_jsonout_close_array(&json);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
    written_is(&written, "{\n"
                         "  \"name\": \"north bed\",\n"
                         "  \"low_C\": [1.5, -2.0, null],\n"
                         "  \"nights\": [\n"
                         "    {\n"
                         "      \"night\": 0,\n"
                         "      \"frost\": false\n"
                         "    },\n"
                         "    {\n"
                         "      \"night\": 1,\n"
                         "      \"frost\": true\n"
                         "    }\n"
                         "  ],\n"
                         "  \"empty\": {},\n"
                         "  \"none\": []\n"
                         "}\n");
}

/* One array of texts, as one line without its end. */
static void check_text(const char *value, const char *want)
{
    struct written written;
    written_start(&written);
    struct dawn_jsonout json;
    dawn_jsonout_begin(&json, written.stream);
    dawn_jsonout_text(&json, NULL, value);
    written_is(&written, want);
}

static void texts_are_escaped(void **state)
{
    (void)state;
    check_text("", "\"\"");
    check_text(NULL, "null");
    check_text("a\"b\\c", "\"a\\\"b\\\\c\"");
    check_text("\b\f\n\r\t", "\"\\b\\f\\n\\r\\t\"");
    check_text("\x01\x1F\x7F", "\"\\u0001\\u001f\\u007f\"");
    check_text("a/b </script>", "\"a/b <\\/script>\"");
    check_text("27 \xC2\xB0"
               "C \xE2\x82\xAC \xF0\x9F\x8C\xB1",
               "\"27 \xC2\xB0"
               "C \xE2\x82\xAC \xF0\x9F\x8C\xB1\"");
}

/* Ill-formed sequences: RFC 3629, sections 3 and 10, from memory. */
static void what_is_no_utf8_is_replaced(void **state)
{
    (void)state;
#define REPLACED "\xEF\xBF\xBD"
    check_text("27 \xB0"
               "C",
               "\"27 " REPLACED "C\"");
    check_text("\xC0\x80", "\"" REPLACED REPLACED "\"");
    check_text("\xE0\x9F\xBF", "\"" REPLACED REPLACED REPLACED "\"");
    check_text("\xED\xA0\x80", "\"" REPLACED REPLACED REPLACED "\"");
    check_text("\xF4\x90\x80\x80", "\"" REPLACED REPLACED REPLACED REPLACED "\"");
    check_text("\xF0\x8F\xBF\xBF", "\"" REPLACED REPLACED REPLACED REPLACED "\"");
    check_text("\xE2\x82", "\"" REPLACED REPLACED "\"");
    check_text("\xC3", "\"" REPLACED "\"");
    check_text("\xC3\"", "\"" REPLACED "\\\"\"");
}

static void write_numbers(FILE *out)
{
    struct dawn_jsonout json;
    dawn_jsonout_begin(&json, out);
    dawn_jsonout_array(&json, NULL);
    dawn_jsonout_number(&json, NULL, 0.1, -1);
    dawn_jsonout_number(&json, NULL, 0.1 + 0.2, -1);
    dawn_jsonout_number(&json, NULL, 1234567.891, 2);
    dawn_jsonout_number(&json, NULL, -0.0, -1);
    dawn_jsonout_number(&json, NULL, -0.001, 2);
    dawn_jsonout_number(&json, NULL, (double)NAN, 2);
    dawn_jsonout_number(&json, NULL, (double)INFINITY, -1);
    dawn_jsonout_number(&json, NULL, -(double)INFINITY, -1);
    dawn_jsonout_integer(&json, NULL, INT64_MIN);
    dawn_jsonout_number(&json, NULL, 1e300, 0);
    dawn_jsonout_close_array(&json);
    dawn_jsonout_end(&json);
}

/* 1e300 is the double
 * 1000000000000000052504760255204420248704468581108159154915854115111802457988908... (its exact
 * decimal value, from memory); that it starts so and is 301 digits long is enough. */
static void check_numbers(void)
{
    struct written written;
    written_start(&written);
    write_numbers(written.stream);
    assert_int_equal(fflush(written.stream), 0);
    static const char want[] = "[0.1, 0.30000000000000004, 1234567.89, 0, 0.00, null, null, null, "
                               "-9223372036854775808, 10000000000000000525047602552044202487";
    assert_memory_equal(written.text, want, sizeof want - 1);
    assert_int_equal(written.size, sizeof want - 1 + 301 - 38 + 2);
    assert_int_equal(fclose(written.stream), 0);
    free(written.text);
}

static void numbers(void **state)
{
    (void)state;
    check_numbers();
}

static void numbers_under_a_comma_locale(void **state)
{
    (void)state;
    if (!comma_locale()) {
        print_message("no locale with a decimal comma can be had here\n");
        skip();
    }
    check_numbers();
    plain_locale();
}

static void deep_nesting(void **state)
{
    (void)state;
    struct written written;
    written_start(&written);
    struct dawn_jsonout json;
    dawn_jsonout_begin(&json, written.stream);
    for (int depth = 0; depth < DAWN_JSON_DEPTH - 1; depth++)
        dawn_jsonout_array(&json, NULL);
    for (int depth = 0; depth < DAWN_JSON_DEPTH - 1; depth++)
        dawn_jsonout_close_array(&json);
    dawn_jsonout_end(&json);
    assert_int_equal(fflush(written.stream), 0);
    int opened = 0;
    int closed = 0;
    for (size_t i = 0; i < written.size; i++) {
        opened += written.text[i] == '[';
        closed += written.text[i] == ']';
        assert_true(closed <= opened);
        assert_int_not_equal(written.text[i], ',');
    }
    assert_int_equal(opened, DAWN_JSON_DEPTH - 1);
    assert_int_equal(closed, DAWN_JSON_DEPTH - 1);
    assert_int_equal(fclose(written.stream), 0);
    free(written.text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nesting_commas_and_lines),     cmocka_unit_test(texts_are_escaped),
        cmocka_unit_test(what_is_no_utf8_is_replaced),  cmocka_unit_test(numbers),
        cmocka_unit_test(numbers_under_a_comma_locale), cmocka_unit_test(deep_nesting),
    };
    return cmocka_run_group_tests_name("base/jsonout", tests, NULL, NULL);
}
