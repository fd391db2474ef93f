/* The command line: what is read, what is refused, and what is suggested instead. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "../../support/near.h"
#include "../../support/written.h"
#include "cli/options.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_option table[] = {
    {.group = "Group",
     .name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "a flag"},
    {.name = "weather",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(weather),
     .help = "a file"},
    {.name = "from", .argument = "DATE", .kind = DAWN_OPTIONS_DATE, .offset = AT(from), .help = ""},
    {.name = "step",
     .argument = "DURATION",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = AT(step_s),
     .measure = DAWN_MEASURE_TIME,
     .least = 10.0,
     .most = 86400.0,
     .help = ""},
    {.name = "latitude",
     .argument = "DEGREES",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = AT(latitude_deg),
     .measure = DAWN_MEASURE_ANGLE,
     .bare = true,
     .least = -90.0,
     .most = 90.0,
     .help = ""},
    {.name = "units",
     .argument = "WORD",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(units),
     .words = "metric|us",
     .help = ""},
    {.name = "set", .argument = "KEY=VALUE", .kind = DAWN_OPTIONS_SET, .help = ""},
    {.name = "threads",
     .letter = 'j',
     .argument = "N",
     .kind = DAWN_OPTIONS_WHOLE,
     .offset = AT(threads),
     .least = 1.0,
     .most = 64.0,
     .help = ""},
};
static const char *const examples[] = {"dawnlow try a.yaml", NULL};
static const struct dawn_options_command command = {
    .name = "try",
    .operands = "SCENARIO",
    .purpose = "Tries the options.",
    .examples = examples,
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

static enum dawn_status parse(struct dawn_options *options, struct dawn_problems *problems,
                              const char *const *words)
{
    int count = 0;
    while (words[count] != NULL) {
        count++;
    }
    return dawn_options_parse(options, &command, count, words, problems);
}
#define WORDS(...) ((const char *const[]){__VA_ARGS__, NULL})

static struct dawn_options accept(const char *const *words)
{
    struct dawn_options options;
    struct dawn_problems problems = {0};
    const enum dawn_status status = parse(&options, &problems, words);
    if (status != DAWN_OK) {
        fail_msg("refused: %s", problems.count > 0 ? problems.items[0].message : "?");
    }
    assert_int_equal(problems.count, 0);
    return options;
}

/* One complaint that holds message, and hint where it is not NULL. */
static void refuse(const char *const *words, const char *message, const char *hint)
{
    struct dawn_options options;
    struct dawn_problems problems = {0};
    assert_int_equal(parse(&options, &problems, words), DAWN_ERR_USAGE);
    assert_int_equal(problems.errors, 1);
    if (strstr(problems.items[0].message, message) == NULL) {
        fail_msg("'%s' lacks '%s'", problems.items[0].message, message);
    }
    if (hint != NULL) {
        assert_non_null(problems.items[0].hint);
        if (strstr(problems.items[0].hint, hint) == NULL) {
            fail_msg("'%s' lacks '%s'", problems.items[0].hint, hint);
        }
    }
    dawn_problems_release(&problems);
}

static void nothing_given_is_told_apart(void **state)
{
    (void)state;
    const struct dawn_options o = accept(WORDS("a.yaml"));
    assert_string_equal(o.operand[0], "a.yaml");
    assert_false(o.json);
    assert_null(o.weather);
    assert_int_equal(o.from.month, 0);
    assert_true(isnan(o.step_s));
    assert_true(isnan(o.latitude_deg));
    assert_int_equal(o.units, -1);
    assert_int_equal(o.set_count, 0);
}

static void options_stand_anywhere_and_take_either_form(void **state)
{
    (void)state;
    const struct dawn_options o =
        accept(WORDS("--json", "--weather=w.csv", "a.yaml", "--from", "2026-03-12", "--set",
                     "a.b=1", "--set=c.d=x=y", "--units", "us", "--step", "10 min"));
    assert_true(o.json);
    assert_string_equal(o.weather, "w.csv");
    assert_string_equal(o.operand[0], "a.yaml");
    assert_int_equal(o.from.year, 2026);
    assert_int_equal(o.from.month, 3);
    assert_int_equal(o.from.day, 12);
    assert_int_equal(o.set_count, 2);
    assert_string_equal(o.set[0], "a.b=1");
    assert_string_equal(o.set[1], "c.d=x=y");
    assert_int_equal(o.units, 1);
    near(o.step_s, 600.0, 0, "10 min in seconds");
}

static void two_dashes_end_options(void **state)
{
    (void)state;
    assert_string_equal(accept(WORDS("--json", "--", "--odd name")).operand[0], "--odd name");
    assert_string_equal(accept(WORDS("-")).operand[0], "-");
}

static void negative_numbers_are_values(void **state)
{
    (void)state;
    near(accept(WORDS("a", "--latitude", "-33.9")).latitude_deg, -33.9, 0, "latitude");
    near(accept(WORDS("a", "--latitude=-33.9 deg")).latitude_deg, -33.9, 0, "latitude");
}

static void help_wins(void **state)
{
    (void)state;
    assert_true(accept(WORDS("--nonsense", "--help")).help);
    assert_true(accept(WORDS("-h")).help);
    refuse(WORDS("a", "--", "--help"), "one word too many: '--help'", NULL);
}

static void unknown_options_name_the_nearest(void **state)
{
    (void)state;
    refuse(WORDS("a", "--wheather", "x.csv=1"), "unknown option '--wheather'", "mean --weather?");
    refuse(WORDS("a", "--jsno"), "unknown option '--jsno'", "mean --json?");
    refuse(WORDS("a", "--lat=3"), "unknown option '--lat=3'", "mean --latitude?");
    refuse(WORDS("a", "--colour"), "unknown option '--colour'", "dawnlow try --help");
    refuse(WORDS("a", "-x"), "unknown option '-x'", "--help");
    refuse(WORDS("a", "--=3"), "unknown option", NULL);
}

static void values_missing_or_uncalled_for(void **state)
{
    (void)state;
    refuse(WORDS("a", "--weather"), "--weather needs FILE", NULL);
    refuse(WORDS("a", "--weather", "--json"), "--weather needs FILE", NULL);
    refuse(WORDS("a", "--json=yes"), "--json takes no value", NULL);
    refuse(WORDS("a", "--weather="), "--weather takes the name of a file", NULL);
    refuse(WORDS("a", "--weather", "-"), "--weather takes the name of a file", NULL);
    refuse(WORDS("a", "--json", "--json"), "--json is given twice", NULL);
}

static void operands_are_counted(void **state)
{
    (void)state;
    refuse(WORDS("--json"), "needs SCENARIO", "dawnlow try a.yaml");
    refuse(WORDS("a", "b c"), "one word too many: 'b c'", "quotation marks");
    refuse(WORDS("a", ""), "one word too many: ''", NULL);
}

static void values_of_the_wrong_kind(void **state)
{
    (void)state;
    refuse(WORDS("a", "--units", "imperial"), "--units takes one of metric|us, not 'imperial'",
           NULL);
    refuse(WORDS("a", "--units", ""), "--units takes one of", NULL);
    refuse(WORDS("a", "--step", "10"), "--step takes", "unit");
    refuse(WORDS("a", "--step", "10 m2"), "--step takes", NULL);
    refuse(WORDS("a", "--step", "soon"), "--step takes", NULL);
    refuse(WORDS("a", "--step", "1 s"), "outside what is possible", NULL);
    refuse(WORDS("a", "--latitude", "91"), "outside what is possible (-90 to 90 in degrees)", NULL);
    refuse(WORDS("a", "--set", "fan.on_at"), "--set takes", "fan.on_at=24 C");
    refuse(WORDS("a", "--set", "=3"), "--set takes", NULL);
    refuse(WORDS("a", "--from", "12.3.2026"), "--from takes a day", "2026-03-12");
}

static void every_mistake_is_told(void **state)
{
    (void)state;
    struct dawn_options options;
    struct dawn_problems problems = {0};
    assert_int_equal(parse(&options, &problems, WORDS("--bogus", "--units", "x", "--from", "y")),
                     DAWN_ERR_USAGE);
    assert_int_equal(problems.errors, 4); /* with the missing scenario */
    dawn_problems_release(&problems);
}

/* Gregorian calendar: ISO 8601; 2000 and 2024 are leap years, 1900 and 2026 are not. */
static void dates(void **state)
{
    (void)state;
    static const char *const good[] = {"2026-03-12", "2024-02-29", "03-12", "02-29", "12-31"};
    static const char *const bad[] = {"2026-02-29",  "1900-02-29", "2026-13-01", "2026-00-10",
                                      "2026-3-12",   "3-12",       "04-31",      "00-00",
                                      "2026-03-12T", "0000-01-01", "+3-12",      "",
                                      "2026/03/12",  "12 Mar"};
    struct dawn_options_date date;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        if (!dawn_options_date(good[i], &date)) {
            fail_msg("'%s' is a day", good[i]);
        }
    }
    assert_int_equal(date.year, 0);
    assert_int_equal(date.month, 12);
    assert_int_equal(date.day, 31);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        if (dawn_options_date(bad[i], &date)) {
            fail_msg("'%s' is no day", bad[i]);
        }
    }
}

static void too_many_sets(void **state)
{
    (void)state;
    const char *words[2 * DAWN_OPTIONS_SETS + 4] = {"a"};
    size_t count = 1;
    for (int i = 0; i <= DAWN_OPTIONS_SETS; i++) {
        words[count++] = "--set";
        words[count++] = "a.b=1";
    }
    words[count] = NULL;
    refuse(words, "--set is given more than 64 times", NULL);
}

/* The terminal's usual width is 80 columns: common practice, no source. */
static void help_fits_the_screen(void **state)
{
    (void)state;
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    dawn_options_help(out, &command);
    assert_int_equal(fclose(out), 0);
    assert_non_null(strstr(text, "For example\n  dawnlow try a.yaml\n"));
    assert_non_null(strstr(text, "dawnlow try SCENARIO [OPTIONS]\n"));
    assert_non_null(strstr(text, "\nGroup\n  --json"));
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        assert_non_null(strstr(text, table[i].name));
    }
    for (const char *line = text; *line != '\0'; line += strcspn(line, "\n") + 1) {
        assert_true(strcspn(line, "\n") <= 80);
    }
    free(text);
}

static void a_letter_stands_for_its_option(void **state)
{
    (void)state;
    near(accept(WORDS("a.yaml", "-j", "3")).threads, 3.0, 0, "apart");
    near(accept(WORDS("-j3", "a.yaml")).threads, 3.0, 0, "joined");
    near(accept(WORDS("-j=3", "a.yaml")).threads, 3.0, 0, "with =");
    near(accept(WORDS("--threads", "3", "a.yaml")).threads, 3.0, 0, "in full");
    refuse(WORDS("a.yaml", "-j", "0"), "threads", NULL);
    refuse(WORDS("a.yaml", "-k"), "-k", NULL);
    refuse(WORDS("a.yaml", "-j2", "-j3"), "twice", NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_letter_stands_for_its_option),
        cmocka_unit_test(nothing_given_is_told_apart),
        cmocka_unit_test(options_stand_anywhere_and_take_either_form),
        cmocka_unit_test(two_dashes_end_options),
        cmocka_unit_test(negative_numbers_are_values),
        cmocka_unit_test(help_wins),
        cmocka_unit_test(unknown_options_name_the_nearest),
        cmocka_unit_test(values_missing_or_uncalled_for),
        cmocka_unit_test(operands_are_counted),
        cmocka_unit_test(values_of_the_wrong_kind),
        cmocka_unit_test(every_mistake_is_told),
        cmocka_unit_test(dates),
        cmocka_unit_test(too_many_sets),
        cmocka_unit_test(help_fits_the_screen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
