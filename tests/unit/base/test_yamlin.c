/* The strict YAML subset: events, places, and what is left out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/yamlin.h"

struct reading {
    struct dawn_yamlin yaml;
    struct dawn_problems problems;
};

static void read_text(struct reading *r, const char *text)
{
    memset(r, 0, sizeof *r);
    assert_int_equal(dawn_yamlin_read(&r->yaml, "t", text, strlen(text), &r->problems), DAWN_OK);
}

static void put_away(struct reading *r)
{
    dawn_yamlin_release(&r->yaml);
    dawn_problems_release(&r->problems);
}

/* The events in short: k and v with their text, { } [ ], x for refused, . for the end. */
static void shape(const struct dawn_yamlin *yaml, char *out, size_t size)
{
    static const char *const marks[] = {"k", "v", "{", "}", "[", "]", "."};
    size_t used = 0;
    out[0] = '\0';
    for (size_t i = 0; i < yaml->count && used < size; i++) {
        const struct dawn_yamlin_event *event = &yaml->event[i];
        bool worded = event->kind == DAWN_YAMLIN_KEY || event->kind == DAWN_YAMLIN_VALUE;
        used += (size_t)snprintf(out + used, size - used, "%s%s%s%s", marks[event->kind],
                                 event->refused ? "x" : "", worded ? ":" : "",
                                 worded ? event->text : "");
    }
}

static void expect_shape(const char *text, const char *expected, size_t errors)
{
    struct reading r;
    char found[1024];
    read_text(&r, text);
    shape(&r.yaml, found, sizeof found);
    assert_string_equal(found, expected);
    assert_int_equal(r.problems.errors, errors);
    put_away(&r);
}

static void gives_sections_lists_and_values(void **state)
{
    (void)state;
    expect_shape("", ".", 0);
    expect_shape("# remark\n", ".", 0);
    expect_shape("a: 1\nb: x y # z\n", "{k:av:1k:bv:x y}.", 0);
    expect_shape("a:\nb:\n", "{k:av:k:bv:}.", 0);
    expect_shape("l:\n  - a: 1\n    b: 2\n  - c\n", "{k:l[{k:av:1k:bv:2}v:c]}.", 0);
    expect_shape("l:\n- 1\n- 2\n", "{k:l[v:1v:2]}.", 0);
    expect_shape("---\na: 1\n...\n", "{k:av:1}.", 0);
    expect_shape("a: 'x: # y'\nb: \"t\"\n", "{k:av:x: # yk:bv:t}.", 0);
    expect_shape("a: 20'\nb: 12 \"x\"\n", "{k:av:20'k:bv:12 \"x\"}.", 0);
}

/* Raw text stays raw: no number, date or truth value is guessed. */
static void guesses_no_types(void **state)
{
    (void)state;
    expect_shape("a: no\nb: 12:30\nc: 1e3\nd: ~\ne: 0x10\n",
                 "{k:av:nok:bv:12:30k:cv:1e3k:dv:~k:ev:0x10}.", 0);
}

static void refuses_in_place_and_goes_on(void **state)
{
    (void)state;
    expect_shape("a: [1, {b: 2}]\nc: 3\n", "{k:avx:k:cv:3}.", 1);
    expect_shape("a: {b: [1]}\nc: 3\n", "{k:avx:k:cv:3}.", 1);
    expect_shape("a: *x\nc: 3\n", "{k:avx:k:cv:3}.", 1);
    expect_shape("a: &x 1\nc: !t 3\n", "{k:av:1k:cv:3}.", 2);
    expect_shape("a: |\n  b\n  c\nd: 3\n", "{k:avx:k:dv:3}.", 1);
    expect_shape("a: >-\n  b\nd: 3\n", "{k:avx:k:dv:3}.", 1);
    expect_shape("a: b\n  c\nd: 3\n", "{k:avx:k:dv:3}.", 1);
    expect_shape("[a]: b\nd: 3\n", "{kx:v:bk:dv:3}.", 1);
    expect_shape("? a: 1\n: b\nd: 3\n", "{kx:v:bk:dv:3}.", 1);
    expect_shape("l:\n  - [1]\n  - 2\n", "{k:l[vx:v:2]}.", 1);
    expect_shape("[1, 2]\n", "vx:.", 1);
}

/* Broken off or not, what is open gets closed. */
static void stays_well_formed_when_broken_off(void **state)
{
    (void)state;
    expect_shape("a:\n  b:\n    - c: 1\n   d: 2\n", "{k:a{k:b[{k:cv:1}]}}.", 1);
    expect_shape("a: 1\nb: 'x\n", "{k:av:1k:bvx:}.", 1);
    expect_shape("a: 1\n---\nb: 2\n", "{k:av:1}.", 1);
    expect_shape("\ta: 1\n", ".", 1);
    expect_shape("a:\n\t- 1\n\t- 2\n", ".", 2);
    expect_shape("a: 1\n  \t# only a remark\n \t \nb: 2\n", "{k:av:1k:bv:2}.", 0);
}

static void expect_place(const struct dawn_yamlin *yaml, size_t event, int line, int column,
                         const char *text, const char *span)
{
    const struct dawn_yamlin_event *it = &yaml->event[event];
    assert_int_equal(it->line, line);
    assert_int_equal(it->column, column);
    assert_memory_equal(text + it->start, span, strlen(span));
    assert_int_equal(it->end - it->start, strlen(span));
}

/* libyaml counts characters; places here are bytes, also behind letters of two, three and four. */
static void places_are_bytes(void **state)
{
    (void)state;
    static const char text[] = "\xEF\xBB\xBF"
                               "n\xC3\xA4me: \xE2\x82\xAC 5 # \xF0\x9F\x8C\xB1\r\n"
                               "b: 'q\xC3\xA9'\r"
                               "c:   30 m\xC2\xB2\n"
                               "d: e\n";
    struct reading r;
    read_text(&r, text);
    assert_int_equal(r.problems.count, 0);
    expect_place(&r.yaml, 1, 1, 1, text, "n\xC3\xA4me");
    expect_place(&r.yaml, 2, 1, 8, text, "\xE2\x82\xAC 5");
    expect_place(&r.yaml, 4, 2, 4, text, "'q\xC3\xA9'");
    expect_place(&r.yaml, 6, 3, 6, text, "30 m\xC2\xB2");
    expect_place(&r.yaml, 8, 4, 4, text, "e");
    assert_string_equal(r.yaml.event[4].text, "q\xC3\xA9");
    assert_string_equal(dawn_yamlin_line(&r.yaml, 3), "c:   30 m\xC2\xB2");
    assert_null(dawn_yamlin_line(&r.yaml, 0));
    assert_null(dawn_yamlin_line(&r.yaml, 6));
    put_away(&r);
}

static void stops_before_it_gets_too_much(void **state)
{
    (void)state;
    size_t size = 2 * DAWN_YAMLIN_EVENTS_MOST + 16;
    char *text = malloc(size);
    assert_non_null(text);
    memset(text, 0, size);
    for (size_t i = 0; i + 2 < size; i++)
        text[i] = i % 2 == 0 ? '-' : '\n';
    struct reading r;
    read_text(&r, text);
    assert_int_equal(r.problems.errors, 1);
    assert_false(r.yaml.whole);
    assert_true(r.yaml.count <= DAWN_YAMLIN_EVENTS_MOST + 4);
    put_away(&r);
    memset(text, '[', size - 1); /* brackets without end */
    read_text(&r, text);
    assert_int_equal(r.problems.errors, 1);
    put_away(&r);
    free(text);
}

static void knows_text_from_other_bytes(void **state)
{
    (void)state;
    static const char *const bad[] = {
        "a: \x7F",         "a: \xC3", "a: \xC3(",    "a: \xED\xA0\x80", "a: \xF4\x90\x80\x80",
        "a: \xE0\x80\x80", "a: \xFF", "a: \xC2\x85", "a: \xE2\x80\xA9", "a: \x02",
        "a: b\xEF\xBB\xBF"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        struct reading r;
        read_text(&r, bad[i]);
        assert_int_equal(r.problems.errors, 1);
        assert_int_equal(r.problems.items[0].line, 1);
        assert_false(r.yaml.whole);
        put_away(&r);
    }
}

static void release_is_fine_on_nothing(void **state)
{
    (void)state;
    struct dawn_yamlin yaml = {0};
    dawn_yamlin_release(&yaml);
    assert_null(dawn_yamlin_line(&yaml, 1));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gives_sections_lists_and_values),
        cmocka_unit_test(guesses_no_types),
        cmocka_unit_test(refuses_in_place_and_goes_on),
        cmocka_unit_test(stays_well_formed_when_broken_off),
        cmocka_unit_test(places_are_bytes),
        cmocka_unit_test(stops_before_it_gets_too_much),
        cmocka_unit_test(knows_text_from_other_bytes),
        cmocka_unit_test(release_is_fine_on_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
