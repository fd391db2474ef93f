/* The fan report from numbers made by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "../../support/written.h"
#include "dawnlow/report.h"

static struct dawn_fan_work made_up(enum dawn_fan_verdict verdict)
{
    return (struct dawn_fan_work){
        .verdict = verdict,
        .from_curve = true,
        .flow_m3_s = 0.25, /* 900 m3/h; 529.7 cfm, 1 ft = 0.3048 m exactly */
        .least_m3_s = 0.2,
        .most_m3_s = 0.3,
        .free_air_m3_s = 0.5,
        .greatest_Pa = 110.0,
        .pressure_Pa = 62.272, /* 0.25 in wg of 249.0889 Pa, NIST SP 811, from memory */
        .rock_Pa = 50.0,
        .duct_Pa = 12.272,
        .power_W = 100.0,
        .air_W = 15.568,
        .face_m2 = 5.0,
        .path_m = 2.0,
        .face_m_s = 0.05,
        .duct_m_s = 3.0,
        .transfer_units = 2.0,
        .left_share = 0.1353,
        .rise_K = 15.0,
        .noon_W = 20000.0,
        .carried_W = 4000.0,
        .carried_share = 0.2,
    };
}

static char *text_of(const struct dawn_fan_work *work, enum dawn_format format,
                     enum dawn_units units)
{
    struct written written;
    written_start(&written);
    dawn_report_fan(written.stream, format, units, work);
    assert_int_equal(fclose(written.stream), 0);
    return written.text;
}

static void has(const char *text, const char *words)
{
    if (strstr(text, words) == NULL)
        fail_msg("no '%s' in:\n%s", words, text);
}

static void the_verdict_comes_first_with_its_reason(void **state)
{
    (void)state;
    static const struct {
        enum dawn_fan_verdict verdict;
        const char *first, *help;
    } cases[] = {
        {DAWN_FAN_FITS,
         "the fan suits its bed: it moves 900 m3/h through the rock at 62 Pa; its air\n"
         "carries 20 % of a clear noon's sun\n",
         NULL},
        {DAWN_FAN_CHOKED_BY_ROCK,
         "this fan is too weak for its bed: the rock takes 50 Pa and leaves it 900 m3/h;\n"
         "its air carries only 20 % of a clear noon's sun\n",
         "what helps: larger stones"},
        {DAWN_FAN_CHOKED_BY_DUCTS,
         "this fan is too weak for its ducts: they take 12 Pa and leave it 900 m3/h; its\n"
         "air carries only 20 % of a clear noon's sun\n",
         "what helps: wider ducts"},
        {DAWN_FAN_TOO_SMALL,
         "this fan is too small for its house: it moves 900 m3/h, and its air carries only\n"
         "20 % of a clear noon's sun\n",
         "what helps: a fan that moves more air"},
        {DAWN_FAN_FLOW_BEYOND_POWER,
         "this fan cannot move the 900 m3/h it is said to: rock and ducts would take 62\n"
         "Pa, more than 100 W can give\n",
         "what helps: the fan's curve"},
        {DAWN_FAN_AIR_LEAVES_WARM,
         "this bed is too coarse or too short for its fan: of the warmth that 900 m3/h\n"
         "carry in they carry 14 % out again\n",
         "what helps: smaller stones"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct dawn_fan_work work = made_up(cases[i].verdict);
        char *text = text_of(&work, DAWN_TEXT, DAWN_METRIC);
        if (strncmp(text, cases[i].first, strlen(cases[i].first)) != 0)
            fail_msg("not '%s' first, but:\n%s", cases[i].first, text);
        assert_true((strstr(text, "what helps") != NULL) == (cases[i].help != NULL));
        if (cases[i].help != NULL)
            has(text, cases[i].help);
        has(text, "caution: electricity near water");
        free(text);
    }
}

static void the_table_tells_what_lies_behind(void **state)
{
    (void)state;
    struct dawn_fan_work work = made_up(DAWN_FAN_FITS);
    char *text = text_of(&work, DAWN_TEXT, DAWN_METRIC);
    has(text, "900 m3/h  of 1800 m3/h in free air\n");
    has(text, "720 m3/h  to 1080 m3/h, as rock may resist twice or half\n");
    has(text, "62 Pa  of 110 Pa at most, in your air\n");
    has(text, "12 Pa  at up to 3.00 m/s\n");
    has(text, "100 W  16 % of it moves the air\n");
    has(text, "0.05 m/s  across 5.0 m2 of rock, 2.0 m along\n");
    has(text, "2.0 K  warmer than the rock; it enters 15.0 K warmer\n");
    has(text, "20.0 kW  clear day at the equinox\n");
    has(text, "4.0 kW  20 % of it");
    free(text);
    text = text_of(&work, DAWN_TEXT, DAWN_US);
    has(text, "530 cfm  of 1059 cfm in free air\n");
    has(text, "0.25 in wg  of 0.44 in wg at most, in your air\n");
    has(text, "10 ft/min  across 54 ft2 of rock, 7 ft along\n");
    has(text, "3.7 F  warmer than the rock; it enters 27.0 F warmer\n");
    free(text);
}

static void what_is_not_there_is_not_spoken_of(void **state)
{
    (void)state;
    struct dawn_fan_work work = made_up(DAWN_FAN_FITS);
    work.from_curve = false;
    work.duct_m_s = work.duct_Pa = work.noon_W = work.power_W = 0.0;
    work.free_air_m3_s = work.greatest_Pa = work.carried_share = NAN;
    char *text = text_of(&work, DAWN_TEXT, DAWN_METRIC);
    assert_null(strstr(text, "free air"));
    assert_null(strstr(text, "through the ducts"));
    assert_null(strstr(text, "- %"));
    assert_null(strstr(text, "it may be"));
    assert_null(strstr(text, "nan"));
    free(text);
    text = text_of(&work, DAWN_JSON, DAWN_US);
    has(text, "\"verdict\": \"fits\"");
    has(text, "\"from_curve\": false");
    has(text, "\"flow_m3_s\": 0.25,");
    has(text, "\"free_air_m3_s\": null");
    has(text, "\"carried_share\": null");
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_verdict_comes_first_with_its_reason),
        cmocka_unit_test(the_table_tells_what_lies_behind),
        cmocka_unit_test(what_is_not_there_is_not_spoken_of),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
