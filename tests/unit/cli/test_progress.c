/* What the progress line says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "cli/progress.h"

static void says(size_t done, size_t all, double elapsed_s, const char *want)
{
    char words[DAWN_PROGRESS_ROOM];

    assert_string_equal(dawn_progress_words("run", done, all, elapsed_s, words), want);
}

/* What is left takes as long a piece as what is done: computed closed form. */
static void time_left_is_the_rule_of_three(void **state)
{
    (void)state;
    says(0, 40, 3.0, "run 1 of 40");
    says(2, 40, 4.0, "run 3 of 40, 76 s left");
    says(2, 40, 10.0, "run 3 of 40, 4 min left"); /* 190 s, rounded up */
    says(1, 41, 600.0, "run 2 of 41, 7 h left");  /* 400 min, rounded up */
    says(39, 40, 39.0, "run 40 of 40, 1 s left");
    says(40, 40, 40.0, "run 40 of 40");
}

static void a_long_word_is_cut_and_fits(void **state)
{
    (void)state;
    char words[DAWN_PROGRESS_ROOM];
    dawn_progress_words("an uncommonly long thing to count", SIZE_MAX / 2, SIZE_MAX, 1e300, words);
    assert_true(strlen(words) < DAWN_PROGRESS_ROOM);
}

/* Under a test standard error is no terminal; {0} is never watched at all. */
static void nobody_watches(void **state)
{
    (void)state;
    struct dawn_progress progress = {0};
    assert_true(dawn_progress_step(1, 2, &progress));
    assert_int_equal(progress.shown, 0);
    dawn_progress_begin(&progress, "run", true);
    assert_false(progress.watched);
    dawn_progress_end(&progress);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(time_left_is_the_rule_of_three),
        cmocka_unit_test(a_long_word_is_cut_and_fits),
        cmocka_unit_test(nobody_watches),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
