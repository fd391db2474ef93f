/* Files that appear whole or not at all. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/fileout.h"
#include "base/text.h"

/* A folder of this test's own, made before and removed after each case. */
static char folder[512];
static char path[600];
static char scratch[620];

static int make_folder(void **state)
{
    (void)state;
    (void)snprintf(folder, sizeof folder, "%s/dawn-fileout-XXXXXX",
                   getenv("TMPDIR") ? getenv("TMPDIR") : "/tmp");
    if (!mkdtemp(folder))
        return -1;
    (void)snprintf(path, sizeof path, "%s/report.csv", folder);
    (void)snprintf(scratch, sizeof scratch, "%s.part", path);
    return 0;
}

static int remove_folder(void **state)
{
    (void)state;
    (void)unlink(path);
    return rmdir(folder); /* fails, and with it the test, when a scratch file is left */
}

static bool there(const char *name)
{
    struct stat state;
    return lstat(name, &state) == 0;
}

static void check_content(const char *name, const char *want)
{
    size_t size = 0;
    char *got = dawn_text_read_file(name, 1000, &size);
    assert_non_null(got);
    assert_string_equal(got, want);
    free(got);
}

static void write_old(const char *name)
{
    FILE *old = fopen(name, "wb");
    assert_non_null(old);
    assert_true(fputs("old", old) >= 0);
    assert_int_equal(fclose(old), 0);
}

static void kept_files_appear_at_once(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    struct dawn_fileout file;
    write_old(path);
    assert_int_equal(dawn_fileout_open(&file, path, &problems), DAWN_OK);
    assert_true(fputs("new\n", file.stream) >= 0);
    assert_int_equal(fflush(file.stream), 0);
    check_content(path, "old");
    assert_true(there(scratch));
    assert_int_equal(dawn_fileout_keep(&file, &problems), DAWN_OK);
    check_content(path, "new\n");
    assert_false(there(scratch));
    dawn_fileout_drop(&file);
    check_content(path, "new\n");
    assert_int_equal(problems.count, 0);
}

static void dropped_files_never_appear(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    struct dawn_fileout file = {0};
    dawn_fileout_drop(&file);
    assert_int_equal(dawn_fileout_open(&file, path, &problems), DAWN_OK);
    assert_true(fputs("half", file.stream) >= 0);
    dawn_fileout_drop(&file);
    assert_false(there(path));
    assert_false(there(scratch));
    write_old(path);
    assert_int_equal(dawn_fileout_open(&file, path, &problems), DAWN_OK);
    dawn_fileout_drop(&file);
    check_content(path, "old");
}

static void check_one_problem(struct dawn_problems *problems, const char *word, const char *name)
{
    assert_int_equal(problems->count, 1);
    assert_int_equal(problems->errors, 1);
    assert_string_equal(problems->items[0].file, name);
    if (!strstr(problems->items[0].message, word))
        fail_msg("'%s' does not say '%s'", problems->items[0].message, word);
    dawn_problems_release(problems);
}

static void places_that_cannot_be_written(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    struct dawn_fileout file;
    assert_int_equal(dawn_fileout_open(&file, folder, &problems), DAWN_ERR_IO);
    check_one_problem(&problems, "folder", folder);
    assert_null(file.stream);

    char missing[700];
    (void)snprintf(missing, sizeof missing, "%s/nowhere/report.csv", folder);
    assert_int_equal(dawn_fileout_open(&file, missing, &problems), DAWN_ERR_IO);
    assert_non_null(problems.items[0].hint);
    check_one_problem(&problems, strerror(ENOENT), missing);

    assert_int_equal(dawn_fileout_open(&file, "", &problems), DAWN_ERR_IO);
    check_one_problem(&problems, "empty", "");

    char longer[2000];
    memset(longer, 'x', sizeof longer - 1);
    longer[sizeof longer - 1] = '\0';
    assert_int_equal(dawn_fileout_open(&file, longer, &problems), DAWN_ERR_IO);
    check_one_problem(&problems, "too long", longer);

    assert_int_equal(dawn_fileout_keep(&file, &problems), DAWN_ERR_IO); /* nothing is open */
    dawn_problems_release(&problems);
    dawn_fileout_drop(&file);
}

/* /dev/full takes nothing: what a full disk looks like. */
static void a_full_disk_is_reported(void **state)
{
    (void)state;
    if (!there("/dev/full")) {
        print_message("no /dev/full here\n");
        skip();
    }
    struct dawn_problems problems = {0};
    struct dawn_fileout file;
    assert_int_equal(dawn_fileout_open(&file, "/dev/full", &problems), DAWN_OK);
    assert_true(fputs("one\n", file.stream) >= 0);
    assert_int_equal(dawn_fileout_keep(&file, &problems), DAWN_ERR_IO);
    check_one_problem(&problems, strerror(ENOSPC), "/dev/full");

    /* More than the buffer holds: the failure lies before the end and must not be forgotten. */
    assert_int_equal(dawn_fileout_open(&file, "/dev/full", &problems), DAWN_OK);
    for (int i = 0; i < 100000; i++)
        (void)fputs("much", file.stream);
    assert_int_equal(dawn_fileout_keep(&file, &problems), DAWN_ERR_IO);
    assert_int_equal(problems.count, 1);
    dawn_problems_release(&problems);

    struct stat device;
    assert_int_equal(stat("/dev/full", &device), 0);
    assert_true(S_ISCHR(device.st_mode)); /* nothing was renamed onto it */
}

static void a_lost_place_keeps_no_scratch_file(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    struct dawn_fileout file;
    assert_int_equal(dawn_fileout_open(&file, path, &problems), DAWN_OK);
    assert_int_equal(mkdir(path, 0777), 0); /* someone makes a folder of that name meanwhile */
    assert_int_equal(dawn_fileout_keep(&file, &problems), DAWN_ERR_IO);
    check_one_problem(&problems, "cannot write", path);
    assert_false(there(scratch));
    assert_int_equal(rmdir(path), 0);
}

static void links_and_rights_stay(void **state)
{
    (void)state;
    struct dawn_problems problems = {0};
    struct dawn_fileout file;
    char link[620];
    (void)snprintf(link, sizeof link, "%s/link.csv", folder);
    write_old(path);
    assert_int_equal(chmod(path, 0640), 0);
    assert_int_equal(symlink("report.csv", link), 0);
    assert_int_equal(dawn_fileout_open(&file, link, &problems), DAWN_OK);
    assert_true(fputs("new", file.stream) >= 0);
    assert_int_equal(dawn_fileout_keep(&file, &problems), DAWN_OK);
    check_content(path, "new");
    struct stat state_now;
    assert_int_equal(lstat(link, &state_now), 0);
    assert_true(S_ISLNK(state_now.st_mode));
    assert_int_equal(stat(path, &state_now), 0);
    assert_int_equal(state_now.st_mode & 0777, 0640);
    assert_int_equal(unlink(link), 0);
    dawn_problems_release(&problems);
}

#define IN_FOLDER(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(kept_files_appear_at_once),          IN_FOLDER(dropped_files_never_appear),
        IN_FOLDER(places_that_cannot_be_written),      IN_FOLDER(a_full_disk_is_reported),
        IN_FOLDER(a_lost_place_keeps_no_scratch_file), IN_FOLDER(links_and_rights_stay),
    };
    return cmocka_run_group_tests_name("base/fileout", tests, NULL, NULL);
}
