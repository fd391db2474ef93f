/* Two names for one file, and files that appear whole or not at all. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/output.h"

static char folder[512];

static int make_folder(void **state)
{
    (void)state;
    const char *base = getenv("TMPDIR") != NULL ? getenv("TMPDIR") : "/tmp";
    (void)snprintf(folder, sizeof folder, "%s/dawnXXXXXX", base);
    return mkdtemp(folder) != NULL && chdir(folder) == 0 ? 0 : -1;
}

static int drop_folder(void **state)
{
    (void)state;
    (void)unlink("there");
    (void)unlink("link");
    (void)rmdir("sub");
    return chdir("/") == 0 && rmdir(folder) == 0 ? 0 : -1;
}

static void touch(const char *path)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_int_equal(fclose(file), 0);
}

static void one_file_by_two_names(void **state)
{
    (void)state;
    char long_name[600];
    touch("there");
    assert_int_equal(symlink("there", "link"), 0);
    assert_int_equal(mkdir("sub", 0700), 0);
    (void)snprintf(long_name, sizeof long_name, "%s/new", folder);

    assert_true(dawn_output_same("there", "link"));
    assert_true(dawn_output_same("new", "./new"));
    assert_true(dawn_output_same("sub/../new", "new"));
    assert_true(dawn_output_same("new", long_name));
    assert_true(dawn_output_same("new", "new.part"));
    assert_true(dawn_output_same("new.part", "./new"));
    assert_false(dawn_output_same("new", "new2"));
    assert_false(dawn_output_same("new", "sub/new"));
    assert_false(dawn_output_same("nowhere/new", "elsewhere/new"));
    assert_false(dawn_output_same(NULL, "new"));
    assert_false(dawn_output_same("new", NULL));
    assert_false(dawn_output_same("/new", "new"));
}

static void whole_or_not_at_all(void **state)
{
    (void)state;
    struct dawn_output output;
    struct dawn_problems problems = {0};
    assert_int_equal(dawn_output_open(&output, "result", &problems), DAWN_OK);
    fputs("text", output.stream);
    assert_int_equal(dawn_output_arrived(&output, &problems), DAWN_OK);
    assert_int_equal(access("result", F_OK), -1);
    dawn_output_drop(&output);
    assert_int_equal(access("result", F_OK), -1);

    assert_int_equal(dawn_output_open(&output, "result", &problems), DAWN_OK);
    fputs("text", output.stream);
    assert_int_equal(dawn_output_keep(&output, &problems), DAWN_OK);
    dawn_output_drop(&output);
    assert_int_equal(access("result", F_OK), 0);
    assert_int_equal(unlink("result"), 0);
    assert_int_equal(problems.count, 0);
}

/* /dev/full takes nothing and says so: full(4) of the Linux manual. */
static void a_full_disk_is_told(void **state)
{
    (void)state;
    struct dawn_output output;
    struct dawn_problems problems = {0};
    assert_int_equal(dawn_output_open(&output, "/dev/full", &problems), DAWN_OK);
    fputs("text", output.stream);
    assert_int_equal(dawn_output_arrived(&output, &problems), DAWN_ERR_IO);
    assert_int_equal(problems.errors, 1);
    assert_non_null(strstr(problems.items[0].message, "No space left"));
    dawn_output_drop(&output);
    dawn_problems_release(&problems);
}

static void no_such_folder(void **state)
{
    (void)state;
    struct dawn_output output;
    struct dawn_problems problems = {0};
    assert_int_equal(dawn_output_open(&output, "nowhere/result", &problems), DAWN_ERR_IO);
    assert_int_equal(problems.errors, 1);
    dawn_output_drop(&output);
    dawn_problems_release(&problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_file_by_two_names),
        cmocka_unit_test(whole_or_not_at_all),
        cmocka_unit_test(a_full_disk_is_told),
        cmocka_unit_test(no_such_folder),
    };
    return cmocka_run_group_tests(tests, make_folder, drop_folder);
}
