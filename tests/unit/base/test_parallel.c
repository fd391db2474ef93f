/* Every job once, whatever the number of threads; shared steps do not meet. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/parallel.h"

enum { JOBS = 1000 };
struct tally {
    int times[JOBS];
    size_t together;
};

static void count_one(void *user)
{
    struct tally *tally = user;
    tally->together++;
}

static void job(size_t index, void *user)
{
    struct tally *tally = user;
    tally->times[index]++;
    dawn_parallel_alone(count_one, tally);
}

static void check(unsigned threads)
{
    static struct tally tally;
    tally = (struct tally){0};
    dawn_parallel_for(JOBS, threads, job, &tally);
    for (size_t i = 0; i < JOBS; i++)
        assert_int_equal(tally.times[i], 1);
    assert_int_equal(tally.together, JOBS);
}

static void each_job_once(void **state)
{
    (void)state;
    check(0);
    check(1);
    check(2);
    check(7);
}

static void no_jobs(void **state)
{
    (void)state;
    dawn_parallel_for(0, 3, job, NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_job_once), cmocka_unit_test(no_jobs)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
