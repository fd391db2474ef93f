/* Aligned columns; what is expected is drawn out as it should look. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tableout.h"
#include "support/comma_locale.h"
#include "support/written.h"

static void columns_line_up(void **state)
{
    (void)state;
    struct written written;
    written_start(&written);
    struct dawn_tableout table;
    dawn_tableout_begin(&table, 3, "lrl");
    static const char *const heading[] = {"night", "low", "where"};
    for (int i = 0; i < 3; i++)
        dawn_tableout_cell(&table, "%s", heading[i]);
    dawn_tableout_cell(&table, "12 Mar");
    dawn_tableout_cell(&table,
                       "%.1f \xC2\xB0"
                       "C",
                       -2.25);
    dawn_tableout_cell(&table, "bed");
    dawn_tableout_cell(&table, "9 \xC3\xA4rz");
    dawn_tableout_cell(&table,
                       "%d \xC2\xB0"
                       "C",
                       11);
    dawn_tableout_cell(&table, "shelf");
    dawn_tableout_end(&table, written.stream);
    written_is(&written, "night       low  where\n"
                         "12 Mar  -2.2 \xC2\xB0"
                         "C  bed\n"
                         "9 \xC3\xA4rz     11 \xC2\xB0"
                         "C  shelf\n");
}

static void no_trailing_blanks(void **state)
{
    (void)state;
    struct written written;
    written_start(&written);
    struct dawn_tableout table;
    dawn_tableout_begin(&table, 3, "lrl");
    static const char *const cells[] = {"a", "", "", "", "1", "", "", "22", "x", "long", "", "y"};
    for (size_t i = 0; i < 12; i++)
        dawn_tableout_cell(&table, "%s", cells[i]);
    dawn_tableout_cell(&table, "short row");
    dawn_tableout_end(&table, written.stream);
    written_is(&written, "a\n"
                         "            1\n"
                         "           22  x\n"
                         "long           y\n"
                         "short row\n");
    /* A cell's own blanks keep a unit in its column and still end no line. */
    written_start(&written);
    dawn_tableout_begin(&table, 2, "rr");
    static const char *const units[] = {"1 kJ ", "", "2 kWh", "x ", " ", " "};
    for (size_t i = 0; i < 6; i++)
        dawn_tableout_cell(&table, "%s", units[i]);
    dawn_tableout_end(&table, written.stream);
    written_is(&written, "1 kJ\n"
                         "2 kWh  x\n"
                         "\n");
}

static void empty_tables_and_using_one_again(void **state)
{
    (void)state;
    struct written written;
    written_start(&written);
    struct dawn_tableout table;
    dawn_tableout_begin(&table, 1, "l");
    dawn_tableout_end(&table, written.stream);
    dawn_tableout_begin(&table, 2, "rr");
    for (int i = 0; i < 200; i++)
        dawn_tableout_cell(&table, "%d", i % 2);
    dawn_tableout_end(&table, written.stream);
    char want[100 * 5 + 1];
    for (size_t i = 0; i < 100; i++)
        (void)snprintf(want + i * 5, 6, "0  1\n");
    written_is(&written, want);
}

static void a_comma_locale_changes_nothing(void **state)
{
    (void)state;
    if (!comma_locale()) {
        print_message("no locale with a decimal comma can be had here\n");
        skip();
    }
    struct written written;
    written_start(&written);
    struct dawn_tableout table;
    dawn_tableout_begin(&table, 1, "l");
    dawn_tableout_cell(&table, "%.2f", 1.25);
    dawn_tableout_end(&table, written.stream);
    written_is(&written, "1.25\n");
    plain_locale();
}

static void a_table_that_lost_a_cell_says_so(void **state)
{
    (void)state;
    struct written written;
    written_start(&written);
    struct dawn_tableout table;
    dawn_tableout_begin(&table, 1, "l");
    dawn_tableout_cell(&table, "kept");
    table.failed = true;
    dawn_tableout_cell(&table, "not taken");
    dawn_tableout_end(&table, written.stream);
    written_is(&written, "(no table: out of memory)\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(columns_line_up),
        cmocka_unit_test(no_trailing_blanks),
        cmocka_unit_test(empty_tables_and_using_one_again),
        cmocka_unit_test(a_comma_locale_changes_nothing),
        cmocka_unit_test(a_table_that_lost_a_cell_says_so),
    };
    return cmocka_run_group_tests_name("base/tableout", tests, NULL, NULL);
}
