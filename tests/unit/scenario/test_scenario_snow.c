/* Snow on the roof: its days, what bears it, what is wrong in them. */
#include "tiny_nursery.h"

#define DAYS(days) "    from: 03-04\n", days

static const struct mistake RULES[] = {
    {DAYS("    from: 2026-03-04\n    until: 2026-03-09\n"), DAWN_NOTE, 0, 0, ""},
    {DAYS("    from: 12-28\n    until: 01-05\n"), DAWN_NOTE, 0, 0, ""},
    {DAYS("    from: 02-29\n"), DAWN_NOTE, 0, 0, ""},
    {DAYS("    until: 03-09\n"), DAWN_ERROR, 77, 5, "'from' is missing in fall of snow 'big'"},
    {DAYS("    from: 4 March\n"), DAWN_ERROR, 78, 11,
     "fall of snow 'big': '4 March' is no day|from is written as 2026-03-04 or 03-04"},
    {DAYS("    from: 03-32\n"), DAWN_ERROR, 78, 11, "'03-32' is no day"},
    {DAYS("    from: 2026-02-29\n"), DAWN_ERROR, 78, 11, "'2026-02-29' is no day"},
    {DAYS("    from: 2026/03/04\n"), DAWN_ERROR, 78, 11, "'2026/03/04' is no day"},
    {DAYS("    from: 03-04\n    until: thaw\n"), DAWN_ERROR, 79, 12,
     "'thaw' is no day; until is written as"},
    {DAYS("    from: 2026-03-04\n    until: 03-09\n"), DAWN_ERROR, 79, 12,
     "one of from and until has a year, the other has none|both days a year, or neither"},
    {DAYS("    from: 2026-03-04\n    until: 2026-03-03\n"), DAWN_ERROR, 79, 12,
     "until is earlier than from|last day"},
    {DAYS("    from: 03-04\n    until: 03-03\n"), DAWN_WARNING, 79, 12,
     "it would lie for more than four months"},
    {DAYS("    from: 03-04\n    density: 800 kg/m3\n"), DAWN_ERROR, 79, 14, "800"},
    {"    depth: 20 cm\n", "", DAWN_ERROR, 77, 5, "'depth' is missing in fall of snow 'big'"},
    {"height: 2.5 m\n", "height: 2.5 m\n  snow_steepest: 30 deg\n", DAWN_WARNING, 79, 11,
     "no pane and no roof is flat enough|snow_steepest"},
};

static void every_wrong_plan_is_told(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof RULES / sizeof RULES[0]; i++)
        try_mistake(&RULES[i]);
}

static const int64_t day_s = 86400;
/* 1 March 2026, 00:00 UTC; the nursery's clock is an hour ahead. */
static const int64_t march_s = 1772323200 - 3600;

static void read_falls(struct reading *r, const char *falls)
{
    char *text = spoilt("  - name: big\n    from: 03-04\n    depth: 20 cm\n", falls);
    read_with(r, text, NULL);
    if (r->status != DAWN_OK)
        print_problems(&r->problems);
    assert_int_equal(r->status, DAWN_OK);
    free(text);
}

static int age_at(const struct reading *r, size_t fall, int64_t utc_s)
{
    const struct dawn_snow_days days =
        dawn_scenario_snow_days(&r->scenario, &r->scenario.snow[fall]);
    return (int)dawn_scenario_snow_age_days(&days, utc_s);
}

/* Days are the site's: they begin and end at its midnight. */
static void it_lies_from_its_first_to_its_last_day(void **state)
{
    (void)state;
    struct reading r;
    read_falls(&r, "  - from: 2026-03-04\n    until: 2026-03-05\n    depth: 20 cm\n"
                   "  - from: 12-31\n    until: 03-02\n    depth: 10 cm\n"
                   "  - from: 03-04\n    depth: 1 cm\n"
                   "  - from: 12-28\n    until: 01-05\n    depth: 1 cm\n");
    assert_int_equal(age_at(&r, 0, march_s + 3 * day_s - 1), -1);
    assert_int_equal(age_at(&r, 0, march_s + 3 * day_s), 0);
    assert_int_equal(age_at(&r, 0, march_s + 5 * day_s - 1), 1);
    assert_int_equal(age_at(&r, 0, march_s + 5 * day_s), -1);
    assert_int_equal(age_at(&r, 0, march_s + (365 + 3) * day_s), -1);
    /* over the new year, every year: 31 December is 60 days before 1 March */
    assert_int_equal(age_at(&r, 1, march_s - 60 * day_s), 0);
    assert_int_equal(age_at(&r, 1, march_s - 60 * day_s - 1), -1);
    assert_int_equal(age_at(&r, 1, march_s + day_s), 61);
    assert_int_equal(age_at(&r, 1, march_s + 2 * day_s), -1);
    assert_int_equal(age_at(&r, 1, march_s + (365 + 1) * day_s), 61);
    /* 5 January is 55 days before 1 March, in a leap year (2028) 56: */
    assert_int_equal(age_at(&r, 3, march_s - 55 * day_s), 8);
    assert_int_equal(age_at(&r, 3, march_s - 54 * day_s), -1);
    assert_int_equal(age_at(&r, 3, march_s + (365 + 366 - 56) * day_s), 8);
    assert_int_equal(age_at(&r, 3, march_s + (365 + 366 - 55) * day_s), -1);
    assert_int_equal(age_at(&r, 1, march_s + (365 + 366 + 1) * day_s), 62);
    assert_int_equal(age_at(&r, 1, march_s + (365 + 366 + 2) * day_s), -1);
    /* without a last day for half a year at most */
    assert_int_equal(age_at(&r, 2, march_s + (3 + 180) * day_s), 180);
    assert_int_equal(age_at(&r, 2, march_s + (3 + 181) * day_s), -1);
    put_away(&r);
}

/* 20 cm of 150 kg/m3 and, from the second on, 10 cm of 300 on top: 30 and 60 kg/m2 (computed closed
 * form), on the roof of 60 m2 alone; falls that do not meet do not add up. */
static void the_load_is_the_most_that_lies_at_once(void **state)
{
    (void)state;
    struct reading r;
    read_falls(&r, "  - from: 03-04\n    until: 03-09\n    depth: 20 cm\n"
                   "  - from: 03-08\n    until: 03-12\n    depth: 10 cm\n    density: 300 kg/m3\n"
                   "  - from: 03-13\n    until: 03-14\n    depth: 30 cm\n");
    assert_near(dawn_scenario_snow_load_kg_m2(&r.scenario), 60, 1e-9);
    assert_near(dawn_scenario_snow_m2(&r.scenario), 60, 1e-9);
    put_away(&r);
    char *text = spoilt("snow:\n  - name: big\n    from: 03-04\n    depth: 20 cm\n", "");
    read_with(&r, text, NULL);
    assert_near(dawn_scenario_snow_load_kg_m2(&r.scenario), 0, 0);
    assert_near(dawn_scenario_snow_m2(&r.scenario), 0, 0);
    put_away(&r);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_wrong_plan_is_told),
        cmocka_unit_test(it_lies_from_its_first_to_its_last_day),
        cmocka_unit_test(the_load_is_the_most_that_lies_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
