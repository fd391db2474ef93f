/* Rows, fields, lines and columns. Quoting as in RFC 4180, section 2; its examples (a to g, written
 * out from memory) are among the cases. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/csvrows.h"

/* One row as "line:column=field|column=field", all rows in one text, a line each. */
static char *as_text(const struct dawn_csvrows *rows, const char *source, size_t source_size)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    for (size_t i = 0; i < rows->count; i++) {
        const struct dawn_csvrow *row = &rows->row[i];
        (void)fprintf(out, "%d:", row->line);
        for (size_t j = 0; j < row->count; j++)
            (void)fprintf(out, "%s%d=%s", j ? "|" : "",
                          dawn_csvrows_column(rows, source, source_size, i, j), row->field[j]);
        (void)fputc('\n', out);
    }
    assert_int_equal(fclose(out), 0);
    return text;
}

static void check_sized(const char *text, size_t size, char delimiter, const char *want,
                        int open_quote_line)
{
    /* Without a NUL behind it, so that a sanitizer sees a step too far. */
    char *exact = malloc(size ? size : 1);
    assert_non_null(exact);
    memcpy(exact, text, size);
    struct dawn_csvrows rows;
    assert_int_equal(dawn_csvrows_split(&rows, exact, size, delimiter), 0);
    char *got = as_text(&rows, exact, size);
    assert_string_equal(got, want);
    assert_int_equal(rows.open_quote_line, open_quote_line);
    free(got);
    free(exact);
    dawn_csvrows_release(&rows);
}

static void check(const char *text, const char *want)
{
    check_sized(text, strlen(text), ',', want, 0);
}

/* Every delimiter, asked for and found out, under every line end, with and without a byte order
 * mark and a last line end: always the same rows. */
static void every_delimiter_line_end_and_mark(void **state)
{
    (void)state;
    static const char delimiters[] = ",;\t|";
    static const char *const ends[] = {"\n", "\r\n", "\r"};
    for (int turn = 0; turn < 4 * 3 * 2 * 2 * 2; turn++) {
        const char delimiter = delimiters[turn % 4];
        const char *end = ends[turn / 4 % 3];
        const char *mark = turn / 12 % 2 ? "\xEF\xBB\xBF" : "";
        const int closed = turn / 24 % 2;
        const int asked = turn / 48 % 2;
        char text[256];
        (void)snprintf(text, sizeof text, "%s\"time\"%c temp %cwind%s1%c-2.5%c%s%s2%c\"a%cb\"%c4%s",
                       mark, delimiter, delimiter, end, delimiter, delimiter, end, end, delimiter,
                       delimiter, delimiter, closed ? end : "");
        char want[256];
        (void)snprintf(want, sizeof want,
                       "1:1=time|9=temp|15=wind\n2:1=1|3=-2.5|8=\n4:1=2|3=a%cb|9=4\n", delimiter);
        char given = '\0';
        if (asked)
            given = delimiter;
        check_sized(text, strlen(text), given, want, 0);
    }
}

static void the_examples_of_rfc_4180(void **state)
{
    (void)state;
    check("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "1:1=aaa|5=bbb|9=ccc\n2:1=zzz|5=yyy|9=xxx\n");
    check("aaa,bbb,ccc\r\nzzz,yyy,xxx", "1:1=aaa|5=bbb|9=ccc\n2:1=zzz|5=yyy|9=xxx\n");
    check("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "1:1=aaa|7=bbb|13=ccc\n2:1=zzz|5=yyy|9=xxx\n");
    check("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx",
          "1:1=aaa|7=b\r\nbb|5=ccc\n3:1=zzz|5=yyy|9=xxx\n");
    check("\"aaa\",\"b\"\"bb\",\"ccc\"", "1:1=aaa|7=b\"bb|15=ccc\n");
}

static void empty_fields_and_lines(void **state)
{
    (void)state;
    check("", "");
    check("\n\r\n\n", "");
    check("   \n\t\n", "");
    check("a", "1:1=a\n");
    check(",", "1:1=|2=\n");
    check(",\n", "1:1=|2=\n");
    check("a,,b,\nc", "1:1=a|3=|4=b|6=\n2:1=c\n");
    check("\"\"\n", "1:1=\n");
    check("\n\n  a ,  b\t\n", "3:3=a|8=b\n");
    check("a,b\nc\nd,e,f\n", "1:1=a|3=b\n2:1=c\n3:1=d|3=e|5=f\n"); /* ragged rows stay ragged */
    check(" \" x \" ,y\n", "1:2=x|9=y\n");
    check("a, ", "1:1=a|4=\n");
}

static void lines_are_counted_through_quotes(void **state)
{
    (void)state;
    check("\"1\n2\r3\r\n4\",x\nb\n", "1:1=1\n2\r3\r\n4|4=x\n5:1=b\n");
    check("a\r\rb\n\rc", "1:1=a\n3:1=b\n5:1=c\n");
}

static void quotes_gone_wrong(void **state)
{
    (void)state;
    check("5\" pipe,b\n", "1:1=5\" pipe|9=b\n");
    check("\"a\"b\",c\n", "1:1=a\"b|7=c\n");
    const char *open = "a,b\nc,\"d\ne,f\n";
    check_sized(open, strlen(open), ',', "1:1=a|3=b\n2:1=c|3=d\ne,f\n\n", 2);
    const char *closed_at_end = "a,\"b\"";
    check_sized(closed_at_end, strlen(closed_at_end), ',', "1:1=a|3=b\n", 0);
}

static void bytes_are_left_as_they_are(void **state)
{
    (void)state;
    check("Temp (\xB0"
          "C),\xFF\xFE\n",
          "1:1=Temp (\xB0"
          "C)|11=\xFF\xFE\n");
    check("\xC2\xB0"
          "C,x\n",
          "1:1=\xC2\xB0"
          "C|5=x\n");
    check_sized("1\0002,\0\n", 6, ',', "1:1=1?2|5=?\n", 0);
    check("\xEF\xBB\xBF", "");
    check("\xEF\xBB", "1:1=\xEF\xBB\n");
}

static void check_found(const char *text, char want)
{
    struct dawn_csvrows rows;
    assert_int_equal(dawn_csvrows_split(&rows, text, strlen(text), '\0'), 0);
    assert_int_equal(rows.delimiter, want);
    dawn_csvrows_release(&rows);
}

static void the_delimiter_is_found(void **state)
{
    (void)state;
    check_found("", ',');
    check_found("one column\n1\n2\n", ',');
    check_found("a;b\n1,5;2,5\n3,5;4,5\n", ';'); /* decimal commas */
    check_found("1,5;2,5\n3,5;4,5\n", ';');
    check_found("1,5\t2\n3,5\t4\n", '\t');
    check_found("a|b\n1|2\n", '|');
    check_found("place: here; there\nmade: 2026; by hand\na,b,c\n1,2,3\n4,5,6\n", ',');
    check_found("name,note\n1,\"x;y;z\"\n2,\"x;y;z\"\n", ',');
    check_found("a,b,c\n\"1;1\n;2\",2,3\n", ',');
}

static void a_line_for_the_caret(void **state)
{
    (void)state;
    static const char text[] = "\xEF\xBB\xBF"
                               "one\r\ntwo\rthree\n\nfi\0ve";
    static const char *const want[] = {"one", "two", "three", "", "fi?ve"};
    const size_t size = sizeof text - 1;
    for (int line = 1; line <= 5; line++) {
        char *got = dawn_csvrows_line(text, size, line);
        assert_non_null(got);
        assert_string_equal(got, want[line - 1]);
        free(got);
    }
    assert_null(dawn_csvrows_line(text, size, 0));
    assert_null(dawn_csvrows_line(text, size, 6));
    assert_null(dawn_csvrows_line("", 0, 1));
    assert_null(dawn_csvrows_line("a\n", 2, 2));
}

static void the_first_rows_only(void **state)
{
    (void)state;
    const char text[] = "a,b\n\n\"c\nd\",e\nf,g\nh,i";
    struct dawn_csvrows rows;
    assert_int_equal(dawn_csvrows_split_first(&rows, text, strlen(text), ',', 2), 0);
    char *got = as_text(&rows, text, strlen(text));
    assert_string_equal(got, "1:1=a|3=b\n3:1=c\nd|4=e\n");
    free(got);
    dawn_csvrows_release(&rows);
    assert_int_equal(dawn_csvrows_split_first(&rows, text, strlen(text), ',', 9), 0);
    assert_int_equal(rows.count, 4);
    dawn_csvrows_release(&rows);
}

/* A year of hours and a row of very many fields: there is room for all. */
static void large_texts(void **state)
{
    (void)state;
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    for (int hour = 0; hour < 8760; hour++)
        (void)fprintf(out, "%d,%d.5,x\n", hour, hour * 2);
    for (int i = 0; i < 5000; i++)
        (void)fprintf(out, "%d,", i);
    assert_int_equal(fclose(out), 0);
    struct dawn_csvrows rows;
    assert_int_equal(dawn_csvrows_split(&rows, text, size, '\0'), 0);
    assert_int_equal(rows.count, 8761);
    for (int hour = 0; hour < 8760; hour++) {
        char want[32];
        assert_int_equal(rows.row[hour].line, hour + 1);
        assert_int_equal(rows.row[hour].count, 3);
        (void)snprintf(want, sizeof want, "%d.5", hour * 2);
        assert_string_equal(rows.row[hour].field[1], want);
    }
    assert_int_equal(rows.row[8760].count, 5001);
    assert_string_equal(rows.row[8760].field[4999], "4999");
    assert_string_equal(rows.row[8760].field[5000], "");
    dawn_csvrows_release(&rows);
    dawn_csvrows_release(&rows);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_delimiter_line_end_and_mark),
        cmocka_unit_test(the_examples_of_rfc_4180),
        cmocka_unit_test(empty_fields_and_lines),
        cmocka_unit_test(lines_are_counted_through_quotes),
        cmocka_unit_test(quotes_gone_wrong),
        cmocka_unit_test(bytes_are_left_as_they_are),
        cmocka_unit_test(the_delimiter_is_found),
        cmocka_unit_test(a_line_for_the_caret),
        cmocka_unit_test(the_first_rows_only),
        cmocka_unit_test(large_texts),
    };
    return cmocka_run_group_tests_name("base/csvrows", tests, NULL, NULL);
}
