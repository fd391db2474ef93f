/* Problems as compilers print them, with the caret in the right place. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "../../support/written.h"
#include "dawnlow/report.h"

static void says(struct dawn_problems *problems, const char *want)
{
    struct written written;

    written_start(&written);
    dawn_report_problems(written.stream, problems);
    dawn_problems_release(problems);
    written_is(&written, want);
}

static void place_line_caret_and_hint(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    const struct dawn_place_in_file place = {"bed.yml", 14, 9, "  area: 3 inch"};
    dawn_problems_add(&problems, DAWN_ERROR, place, "write an area", "'%s' is a length", "3 inch");
    says(&problems, "bed.yml:14:9: error: '3 inch' is a length\n"
                    "    area: 3 inch\n"
                    "          ^\n"
                    "  hint: write an area\n");
}

static void less_is_known(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    const struct dawn_place_in_file nowhere = {0};
    const struct dawn_place_in_file file = {.file = "a.csv"};
    const struct dawn_place_in_file line = {.file = "a.csv", .line = 3, .source_line = "x"};
    dawn_problems_add(&problems, DAWN_WARNING, nowhere, NULL, "one");
    dawn_problems_add(&problems, DAWN_NOTE, file, NULL, "two");
    dawn_problems_add(&problems, DAWN_ERROR, line, NULL, "three");
    says(&problems, "dawnlow: warning: one\n"
                    "a.csv: note: two\n"
                    "a.csv:3: error: three\n"
                    "  x\n");
}

/* A tab before the caret stays a tab; a two-byte letter takes one column (UTF-8, RFC 3629). */
static void caret_under_tabs_and_accents(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    const struct dawn_place_in_file tab = {"a", 1, 5, "\tkey\t5"};
    const struct dawn_place_in_file accent = {"a", 2, 7, "\xC3\xA9t\xC3\xA9 x"};
    const struct dawn_place_in_file inside = {"a", 3, 2, "\xC3\xA9t"};
    dawn_problems_add(&problems, DAWN_ERROR, tab, NULL, "m");
    dawn_problems_add(&problems, DAWN_ERROR, accent, NULL, "m");
    dawn_problems_add(&problems, DAWN_ERROR, inside, NULL, "m");
    says(&problems, "a:1:5: error: m\n"
                    "  \tkey\t5\n"
                    "  \t   ^\n"
                    "a:2:7: error: m\n"
                    "  \xC3\xA9t\xC3\xA9 x\n"
                    "      ^\n"
                    "a:3:2: error: m\n"
                    "  \xC3\xA9t\n"
                    "  ^\n");
}

static void caret_behind_the_line(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    const struct dawn_place_in_file place = {"a", 1, 99, "ab\r\n"};
    dawn_problems_add(&problems, DAWN_ERROR, place, NULL, "m");
    says(&problems, "a:1:99: error: m\n"
                    "  ab\n"
                    "    ^\n");
}

/* ESC starts terminal commands (ECMA-48); what a file holds must not give any. */
static void control_characters_stay_away(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    const struct dawn_place_in_file place = {"a\x1B[2J", 1, 1, "\x1B[31m\x7F"};
    dawn_problems_add(&problems, DAWN_ERROR, place, "\x07", "\x1B]0;x\n");
    says(&problems, "a?[2J:1:1: error: ?]0;x?\n"
                    "  ?[31m?\n"
                    "  ^\n"
                    "  hint: ?\n");
}

static void long_lines_are_shown_around_the_caret(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    char line[1001];
    char *text = NULL;
    size_t size = 0;
    memset(line, 'a', 1000);
    line[1000] = '\0';
    line[500] = 'X';
    const struct dawn_place_in_file place = {"a", 1, 501, line};
    dawn_problems_add(&problems, DAWN_ERROR, place, NULL, "m");
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    dawn_report_problems(out, &problems);
    assert_int_equal(fclose(out), 0);
    dawn_problems_release(&problems);

    const char *shown = strchr(text, '\n') + 1;
    const char *caret_line = strchr(shown, '\n') + 1;
    assert_true((size_t)(caret_line - shown) < 140);
    assert_int_equal(strchr(caret_line, '^') - caret_line, strchr(shown, 'X') - shown);
    assert_int_equal(strncmp(shown, "  ... a", 7), 0);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(place_line_caret_and_hint),
        cmocka_unit_test(less_is_known),
        cmocka_unit_test(caret_under_tabs_and_accents),
        cmocka_unit_test(caret_behind_the_line),
        cmocka_unit_test(control_characters_stay_away),
        cmocka_unit_test(long_lines_are_shown_around_the_caret),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
