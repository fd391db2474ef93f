/* Growing text, number reading and writing, word distance, whole files. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "support/comma_locale.h"
#include "support/near.h"

/* Reproducible numbers without a library's generator: xorshift64 (Marsaglia 2003). */
static uint64_t scatter(uint64_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return *state;
}

static void check_number(const char *text, double want, const char *rest)
{
    const char *end = NULL;
    double got = NAN;
    if (!dawn_text_number(text, &end, &got))
        fail_msg("'%s' is not read as a number", text);
    near(got, want, 0, text);
    assert_string_equal(end, rest);
}

/* Want: what the words of the header say; the values are plain reading. */
static void numbers_are_read(void **state)
{
    (void)state;
    check_number("0", 0, "");
    check_number("27 C", 27, " C");
    check_number("  \t-3.5", -3.5, "");
    check_number("+1.25e3x", 1250, "x");
    check_number("1E-2", 0.01, "");
    check_number(".5", 0.5, "");
    check_number("5.", 5, "");
    check_number("2,5 t", 2.5, " t");
    check_number("-0,75", -0.75, "");
    check_number("1,", 1, ",");
    check_number("1, 2", 1, ", 2");
    check_number("1.5,2", 1.5, ",2");
    check_number("80F", 80, "F");
    check_number("3e", 3, "e");
    check_number("3e+", 3, "e+");
    check_number("0x1F", 0, "x1F");
    check_number("007", 7, "");
    check_number("\xE2\x88\x92"
                 "12",
                 -12, "");
}

static void refuse_number(const char *text)
{
    const char *end = "untouched";
    double got = 42;
    if (dawn_text_number(text, &end, &got))
        fail_msg("'%s' is read as %g", text, got);
    assert_string_equal(end, "untouched");
    near(got, 42, 0, "value left alone");
}

static void what_is_no_number_is_refused(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "",          " ",       "-",         "+",          ".",        ",5",     "-.",  "e5",
        "nan",       "NaN",     "inf",       "-Infinity",  "infinity", "+-3",    "--3", "C 5",
        "1,234,567", "1,234.5", "1.234.567", "12.03.2026", "1e999",    "-1e400", "\n5"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        refuse_number(texts[i]);
}

/* Oracle: the C library's own strtod, in the C locale. */
static void reading_agrees_with_the_c_library(void **state)
{
    (void)state;
    static const char *const hard[] = {"2.2250738585072011e-308",
                                       "1.7976931348623157e308",
                                       "4.9406564584124654e-324",
                                       "9007199254740993",
                                       "0.1000000000000000055511151231257827021181583404541015625",
                                       "123456789012345678901234567890",
                                       "1e22",
                                       "1e23",
                                       "5e-324",
                                       "1e-400",
                                       "000000000000000000000000000000000000001.5",
                                       "0.00000000000000000000000000000000000123"};
    const char *end = NULL;
    double got = 0;
    for (size_t i = 0; i < sizeof hard / sizeof hard[0]; i++) {
        assert_true(dawn_text_number(hard[i], &end, &got));
        near(got, strtod(hard[i], NULL), 0, hard[i]);
    }
    uint64_t seed = 20260312;
    for (int i = 0; i < 20000; i++) {
        char text[64];
        const uint64_t bits = scatter(&seed);
        const int exponent = (int)(scatter(&seed) % 60) - 30;
        (void)snprintf(text, sizeof text, "%s%llu.%llue%d", bits & 1 ? "-" : "",
                       (unsigned long long)(bits >> (bits % 60)),
                       (unsigned long long)(scatter(&seed) % 100000), exponent);
        assert_true(dawn_text_number(text, &end, &got));
        near(got, strtod(text, NULL), 0, text);
        assert_int_equal(*end, '\0');
    }
}

static void written_numbers_read_back_the_same(void **state)
{
    (void)state;
    uint64_t seed = 7;
    for (int i = 0; i < 20000; i++) {
        const uint64_t bits = scatter(&seed);
        double value = 0;
        memcpy(&value, &bits, sizeof value);
        if (!isfinite(value))
            continue;
        char text[32];
        assert_true(dawn_text_from_number(text, sizeof text, value, -1));
        near(strtod(text, NULL), value, 0, text);
    }
}

static void check_written(double value, int decimals, const char *want)
{
    char text[512];
    assert_true(dawn_text_from_number(text, sizeof text, value, decimals));
    assert_string_equal(text, want);
}

static void numbers_are_written_short(void **state)
{
    (void)state;
    check_written(0.1, -1, "0.1");
    check_written(0.07, -1, "0.07"); /* sixteen digits would show 0.07000000000000001 */
    check_written(1.0 / 3, -1, "0.3333333333333333");    /* 16 digits are enough: from memory */
    check_written(0.1 + 0.2, -1, "0.30000000000000004"); /* a well-known one: from memory */
    check_written(100, -1, "100");
    check_written(1e100, -1, "1e+100");
    check_written(-0.0, -1, "0");
    check_written(-0.0, 2, "0.00");
    check_written(-0.04, 1, "0.0");
    check_written(-0.06, 1, "-0.1");
    check_written(2.5, 2, "2.50");
    check_written(27, 0, "27");
    char small[4];
    assert_false(dawn_text_from_number(small, sizeof small, 1234, 0));
    assert_string_equal(small, "");
    assert_false(dawn_text_from_number(small, sizeof small, NAN, -1));
    assert_false(dawn_text_from_number(small, sizeof small, INFINITY, 1));
    assert_false(dawn_text_from_number(small, 0, 1, 1));
}

static void a_comma_locale_changes_nothing(void **state)
{
    (void)state;
    if (!comma_locale()) {
        print_message("no locale with a decimal comma can be had here\n");
        skip();
    }
    char libc[16];
    (void)snprintf(libc, sizeof libc, "%.1f", 1.5);
    assert_string_equal(libc, "1,5"); /* the locale is really on */
    check_number("1.5", 1.5, "");
    check_number("1.23456789012345678", 1.23456789012345678, "");
    check_written(1.5, -1, "1.5");
    check_written(1234.5, 2, "1234.50");
    struct dawn_text text = {0};
    dawn_text_add(&text, "%.2f %d", 2.25, 1234567);
    assert_string_equal(text.data, "2.25 1234567");
    dawn_text_release(&text);
    (void)snprintf(libc, sizeof libc, "%.1f", 1.5);
    assert_string_equal(libc, "1,5"); /* and it was given back */
    plain_locale();
}

static void text_grows(void **state)
{
    (void)state;
    struct dawn_text text = {0};
    char *want = malloc(70001);
    assert_non_null(want);
    for (size_t i = 0; i < 7000; i++) {
        dawn_text_add(&text, "%04zu-%s,", i, "word");
        (void)snprintf(want + i * 10, 11, "%04zu-word,", i);
    }
    assert_false(text.failed);
    assert_int_equal(text.size, 70000);
    assert_string_equal(text.data, want);
    free(want);
    dawn_text_release(&text);
    assert_null(text.data);
    dawn_text_add_bytes(&text, "a\0b", 3);
    dawn_text_add_bytes(&text, NULL, 0);
    assert_int_equal(text.size, 3);
    assert_memory_equal(text.data, "a\0b", 4);
    dawn_text_release(&text);
}

static void a_lost_allocation_is_remembered(void **state)
{
    (void)state;
    struct dawn_text text = {0};
    dawn_text_add(&text, "x");
    dawn_text_add_bytes(&text, "y", SIZE_MAX / 2); /* more than any machine has */
    assert_true(text.failed);
    assert_string_equal(text.data, "x");
    dawn_text_add(&text, "z");
    assert_true(text.failed);
    dawn_text_release(&text);
}

/* Counted by hand; "ca" to "abc" tells optimal string alignment (3) from the unrestricted distance
 * (2): Boytsov 2011, section 2.2, from memory. */
static void distance_counts_slips(void **state)
{
    (void)state;
    assert_int_equal(dawn_text_distance("glazing", "glazing", 3), 0);
    assert_int_equal(dawn_text_distance("Glazing", "gLAZING", 3), 0);
    assert_int_equal(dawn_text_distance("glazing", "galzing", 3), 1);
    assert_int_equal(dawn_text_distance("lenght", "length", 3), 1);
    assert_int_equal(dawn_text_distance("kitten", "sitting", 5), 3);
    assert_int_equal(dawn_text_distance("ca", "abc", 5), 3);
    assert_int_equal(dawn_text_distance("", "abc", 5), 3);
    assert_int_equal(dawn_text_distance("abc", "", 5), 3);
    assert_int_equal(dawn_text_distance("", "", 0), 0);
    assert_int_equal(dawn_text_distance("abcdef", "uvwxyz", 2), 3);
    assert_int_equal(dawn_text_distance("a", "abcdefgh", 2), 3);
    char longer[300];
    memset(longer, 'x', sizeof longer - 1);
    longer[sizeof longer - 1] = '\0';
    assert_int_equal(dawn_text_distance(longer, longer, 2), 0);
    assert_int_equal(dawn_text_distance(longer, longer + 1, 2), 3); /* too long to be measured */
}

static void copying_and_comparing(void **state)
{
    (void)state;
    char small[4];
    assert_true(dawn_text_copy(small, sizeof small, "abc"));
    assert_string_equal(small, "abc");
    assert_false(dawn_text_copy(small, sizeof small, "wxyz"));
    assert_string_equal(small, "wxy");
    assert_false(dawn_text_copy(small, 0, ""));
    assert_true(dawn_text_same("FAN", "fan"));
    assert_false(dawn_text_same("fan", "fans"));
    assert_false(dawn_text_same("fans", "fan"));
    assert_false(dawn_text_same("\xC3\x84", "\xC3\xA4")); /* ASCII only */
    assert_true(dawn_text_same("", ""));
    assert_true(dawn_text_starts("UTC+1", "utc"));
    assert_true(dawn_text_starts("x", ""));
    assert_false(dawn_text_starts("ut", "utc"));
    assert_false(dawn_text_starts("[a", "{a")); /* neighbours of the letters stay apart */
}

static char *scratch_file(const char *bytes, size_t size)
{
    static char path[1024];
    (void)snprintf(path, sizeof path, "%s/dawn-text-XXXXXX",
                   getenv("TMPDIR") ? getenv("TMPDIR") : "/tmp");
    const int made = mkstemp(path);
    assert_true(made >= 0);
    FILE *out = fdopen(made, "wb");
    assert_non_null(out);
    assert_int_equal(fwrite(bytes, 1, size, out), size);
    assert_int_equal(fclose(out), 0);
    return path;
}

static void digits_make_a_number(void **state)
{
    (void)state;
    assert_int_equal(dawn_text_digits("2026-03", 4), 2026);
    assert_int_equal(dawn_text_digits("07", 2), 7);
    assert_int_equal(dawn_text_digits("7", 2), -1);
    assert_int_equal(dawn_text_digits("-7", 2), -1);
    assert_int_equal(dawn_text_digits("1:", 2), -1);
}

static void cutting(void **state)
{
    static const char text[] = "  a b\t";
    char out[4];

    (void)state;
    assert_true(dawn_text_cut(out, sizeof out, text, text + strlen(text)));
    assert_string_equal(out, "a b");
    assert_false(dawn_text_cut(out, 3, text, text + strlen(text)));
    assert_string_equal(out, "");
    assert_false(dawn_text_cut(out, sizeof out, text, text + 2));
    assert_string_equal(out, "");
}

static void files_are_read_whole(void **state)
{
    (void)state;
    const char *path = scratch_file("a\0\xFF\r\n", 5);
    size_t size = 0;
    char *text = dawn_text_read_file(path, 5, &size);
    assert_non_null(text);
    assert_int_equal(size, 5);
    assert_memory_equal(text, "a\0\xFF\r\n\0", 6);
    free(text);
    assert_null(dawn_text_read_file(path, 4, &size));
    assert_int_equal(errno, EFBIG);
    assert_int_equal(remove(path), 0);
    assert_null(dawn_text_read_file(path, 4, &size));
    assert_int_equal(errno, ENOENT);
    assert_null(dawn_text_read_file("/", 4, &size));
    assert_int_equal(errno, EISDIR);

    path = scratch_file("", 0);
    text = dawn_text_read_file(path, 0, &size);
    assert_non_null(text);
    assert_int_equal(size, 0);
    assert_string_equal(text, "");
    free(text);
    assert_int_equal(remove(path), 0);

    enum { LARGE = 100000 };
    char *bytes = malloc(LARGE);
    assert_non_null(bytes);
    for (size_t i = 0; i < LARGE; i++)
        bytes[i] = (char)('a' + i % 23);
    path = scratch_file(bytes, LARGE);
    text = dawn_text_read_file(path, 1 << 20, &size);
    assert_non_null(text);
    assert_int_equal(size, LARGE);
    assert_memory_equal(text, bytes, LARGE);
    free(text);
    free(bytes);
    assert_int_equal(remove(path), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_read),
        cmocka_unit_test(what_is_no_number_is_refused),
        cmocka_unit_test(reading_agrees_with_the_c_library),
        cmocka_unit_test(written_numbers_read_back_the_same),
        cmocka_unit_test(numbers_are_written_short),
        cmocka_unit_test(a_comma_locale_changes_nothing),
        cmocka_unit_test(text_grows),
        cmocka_unit_test(a_lost_allocation_is_remembered),
        cmocka_unit_test(distance_counts_slips),
        cmocka_unit_test(copying_and_comparing),
        cmocka_unit_test(digits_make_a_number),
        cmocka_unit_test(cutting),
        cmocka_unit_test(files_are_read_whole),
    };
    return cmocka_run_group_tests_name("base/text", tests, NULL, NULL);
}
