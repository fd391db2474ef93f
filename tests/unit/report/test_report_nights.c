/* The nights report from nights made by hand: decision, table, CSV, JSON, ledger. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "../../support/comma_locale.h"
#include "../../support/written.h"
#include "dawnlow/report.h"

/* 2026-03-12T00:00Z; the day number 20524 since 1970 is (2026 - 1970) * 365 + 14 leap days + 70:
 * computed closed form. 12 March 2026 is a Thursday (day 0 was a Thursday, 20524 = 7 * 2932). */
static const int64_t midnight_s = 20524LL * 86400;

struct fixture {
    struct dawn_scenario scenario;
    struct dawn_weather weather;
    struct dawn_night night[2];
    struct dawn_nights nights;
    struct dawn_nights_story story;
};

/* A house at UTC+1 with trays, rock and fan, without barrels; two nights, the first freezing. */
static void fill(struct fixture *f)
{
    *f = (struct fixture){0};
    strcpy(f->scenario.name, "Test house");
    strcpy(f->scenario.path, "house.yaml");
    f->scenario.site.utc_offset_h = 1.0;
    f->scenario.rock.present = true;
    f->scenario.fan.present = true;
    strcpy(f->weather.path, "march.csv");
    strcpy(f->weather.layout, "general columns");
    f->weather.cloud_from = DAWN_FROM_LIGHT;
    for (int i = 0; i < 2; i++) {
        f->night[i] = (struct dawn_night){
            .dusk_s = midnight_s + i * 86400 + 17 * 3600,
            .dawn_s = midnight_s + (i + 1) * 86400 + 5 * 3600,
            .until_s = midnight_s + (i + 1) * 86400 + 7 * 3600,
            .outside_low_C = -6.25,
            .air_low_C = 0.5,
            .tray_low_C = i == 0 ? -1.26 : 2.14,
            .leaf_low_C = NAN,
            .root_low_C = 4.0,
            .place_low_C = i == 0 ? -1.26 : 2.14,
            .low_at_s = (double)(midnight_s + (i + 1) * 86400 + 5 * 3600 + 20 * 60 + 29),
            .below_0C_h = i == 0 ? 2.5 : 0.0,
            .crop_low_C = NAN,
            .below_crop_h = NAN,
            .fan_h = 3.0,
            .fan_kWh = 0.3,
            .rock_kWh = 4.321,
            .soil_kWh = -0.25,
            .risk = i == 0 ? DAWN_FREEZES : DAWN_CLOSE,
        };
    }
    f->nights =
        (struct dawn_nights){.count = 2, .night = f->night, .at_trays = true, .crop_line_C = NAN};
    f->story = (struct dawn_nights_story){
        .scenario = &f->scenario, .weather = &f->weather, .nights = &f->nights};
}

static char *report(struct fixture *f, enum dawn_format format, enum dawn_units units)
{
    static char
        *text; /* not automatic: gcc -O3 takes open_memstream for one that keeps its address */
    text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);

    assert_non_null(out);
    dawn_report_nights(out, format, units, &f->story);
    assert_int_equal(fclose(out), 0);
    return text;
}

static void has(const char *text, const char *part)
{
    if (strstr(text, part) == NULL) {
        fail_msg("'%s' is not in:\n%s", part, text);
    }
}

static void has_not(const char *text, const char *part)
{
    if (strstr(text, part) != NULL) {
        fail_msg("'%s' is in:\n%s", part, text);
    }
}

static void starts(const char *text, const char *line)
{
    if (strncmp(text, line, strlen(line)) != 0) {
        fail_msg("does not start with '%s':\n%s", line, text);
    }
}

/* 29 s past 05:20Z is 06:20 on a clock one hour ahead, to the nearest minute. */
static void first_line_is_the_decision(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    starts(text, "1 of 2 nights below 0 C at the trays; coldest Thu 12 -> Fri 13 Mar, "
                 "-1.3 C at 06:20\n");
    free(text);

    f.night[0].place_low_C = 3.5;
    f.nights.at_trays = false;
    text = report(&f, DAWN_TEXT, DAWN_METRIC);
    starts(text, "none of 2 nights below 0 C in the house air; coldest Fri 13 -> Sat 14 Mar, "
                 "2.1 C at 06:20\n");
    free(text);

    f.nights.count = 1;
    text = report(&f, DAWN_TEXT, DAWN_METRIC);
    starts(text, "none of 1 night below 0 C in the house air; coldest Thu 12 -> Fri 13 Mar, 3.5 C");
    free(text);
}

static void a_night_over_the_end_of_a_month_names_both(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    const int64_t shift_s = 19LL * 86400; /* 12 -> 31 March, a Tuesday 19 days later */
    f.nights.count = 1;
    f.night[0].dusk_s += shift_s;
    f.night[0].dawn_s += shift_s;
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, "coldest Tue 31 Mar -> Wed 1 Apr, ");
    has(text, "\nTue 31 Mar-1 Apr ");
    has(text, "evening of Tue 31 Mar 2026 to morning of Wed 1 Apr 2026");
    free(text);
}

/* Just below the frost line the sign is the news; exactly on it there is none. */
static void a_hair_below_zero_keeps_its_sign(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    f.nights.count = 1;
    f.night[0].place_low_C = -0.01;
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, "1 of 1 night below 0 C");
    has(text, ", -0.0 C at");
    free(text);
    f.night[0].place_low_C = -0.0;
    text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, "none of 1 night below 0 C");
    has(text, ", 0.0 C at");
    free(text);
}

/* A tomato whose leaves got as cold as that, and how long below its line. */
static void name_tomato(struct fixture *f, double line_C, const double low_C[2],
                        const double below_h[2])
{
    strcpy(f->nights.crop_name, "tomato");
    f->nights.crop_line_C = line_C;
    f->nights.crop_place = DAWN_CROP_AT_LEAVES;
    for (int i = 0; i < 2; i++) {
        f->night[i].leaf_low_C = f->night[i].crop_low_C = low_C[i];
        f->night[i].below_crop_h = below_h[i];
    }
}

static void the_crop_line_is_told_where_the_crop_is(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    name_tomato(&f, 3.0, (double[]){-2.0, 2.5}, (double[]){7.04, 1.0});
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, "\n2 of 2 nights below 3 C at the leaves, where tomato is damaged\n");
    has(text, "  Crop  ");
    has(text, "  7.0  ");
    has(text, "\ncrop: hours below 3 C at the leaves\n");
    free(text);
    text = report(&f, DAWN_TEXT, DAWN_US);
    has(text, "\n2 of 2 nights below 37.4 F at the leaves, where tomato is damaged\n");
    free(text);
    text = report(&f, DAWN_JSON, DAWN_METRIC);
    has(text, "\"crop_place\": \"leaves\"");
    has(text, "\"crop_line_C\": 3.000");
    has(text, "\"nights_below\": 2");
    has(text, "\"crop_low_C\": 2.500");
    free(text);
    f.nights.crop_place = DAWN_CROP_IN_AIR;
    text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, " below 3 C in the house air, where tomato is damaged\n");
    free(text);
}

/* One night below 0 C at the trays; the leaves agree, or do not. */
static void a_crop_line_at_zero_is_told_when_it_says_more(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    name_tomato(&f, 0.0, (double[]){-2.0, 1.5}, (double[]){2.5, 0.0});
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has_not(text, "tomato");
    has_not(text, "Crop");
    free(text);
    f.night[0].below_crop_h = 4.5;
    text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has_not(text, "tomato");
    has(text, "  Crop  ");
    has(text, "\ncrop: hours below 0 C at the leaves\n");
    free(text);
    name_tomato(&f, 0.0, (double[]){-2.0, -0.25}, (double[]){2.5, 0.5});
    text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, "\n2 of 2 nights below 0 C at the leaves, where tomato is damaged\n");
    free(text);
    text = report(&f, DAWN_TEXT, DAWN_US);
    has(text, "\n2 of 2 nights below 32 F at the leaves, where tomato is damaged\n");
    free(text);
}

static void no_crop_is_null(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    char *text = report(&f, DAWN_JSON, DAWN_METRIC);
    has(text, "\"crop_place\": null");
    has(text, "\"crop_line_C\": null");
    has(text, "\"crop\": null");
    has(text, "\"crop_low_C\": null");
    free(text);
}

/* Programs count nights below 0 C as the first line does, however near to 0 C. */
static void a_program_sees_the_sign_too(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    f.night[0].tray_low_C = f.night[0].place_low_C = -0.043;
    f.night[1].tray_low_C = f.night[1].place_low_C = -0.00031;
    char *text = report(&f, DAWN_JSON, DAWN_METRIC);
    has(text, "\"tray_low_C\": -0.043,");
    has(text, "\"tray_low_C\": -0.0003,");
    has(text, "\"nights_below_0C\": 2");
    free(text);
    text = report(&f, DAWN_CSV, DAWN_METRIC);
    has(text, ",-0.043,");
    has(text, ",-0.0003,");
    free(text);
}

/* Leaf low is NaN throughout and there are no barrels: no such columns. */
static void places_that_are_not_there_have_no_column(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, " Tray");
    has(text, " Root");
    has(text, " Rock");
    has(text, " Soil");
    has(text, " Fan");
    has_not(text, "Leaf");
    has_not(text, "Water");
    has_not(text, "crop");
    f.scenario.rock.present = false;
    f.scenario.fan.present = false;
    free(text);
    text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has_not(text, "Rock");
    has_not(text, " Fan");
    free(text);
}

/* Every column at once with wide numbers still fits a window of 104 characters. */
static void the_widest_table_fits(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    f.scenario.barrels_count = 1;
    name_tomato(&f, 2.0, (double[]){-3.4, -3.4}, (double[]){12.5, 12.5});
    for (int i = 0; i < 2; i++) {
        f.night[i].outside_low_C = -14.6;
        f.night[i].below_0C_h = 10.5;
        f.night[i].rock_kWh = 12.3;
        f.night[i].barrels_kWh = 8.8;
        f.night[i].risk = DAWN_TOUCH_AND_GO;
    }
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    for (const char *line = text; *line != '\0'; line += strcspn(line, "\n") + 1) {
        assert_true(strcspn(line, "\n") <= 104);
    }
    has(text, "touch and go");
    free(text);
}

/* -1.26 C = 29.732 F, -6.25 C = 20.75 F (F = 1.8 C + 32): computed closed form. kWh stays. */
static void us_units_change_temperatures_only(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    char *text = report(&f, DAWN_TEXT, DAWN_US);
    starts(text, "1 of 2 nights below 32 F at the trays; coldest Thu 12 -> Fri 13 Mar, "
                 "29.7 F at 06:20\n");
    has(text, "<32 F");
    has(text, "20.8");
    has(text, "4.3");
    has(text, "kWh");
    has_not(text, " C ");
    free(text);
}

/* RFC 4180: comma, CR LF after every record, as many fields in each; empty where there is none. */
static void csv_is_rfc_4180(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    char *text = report(&f, DAWN_CSV, DAWN_US);
    assert_string_equal(
        text, "evening,morning,dusk,dawn,outside_low_C,air_low_C,tray_low_C,leaf_low_C,root_low_C,"
              "crop_low_C,"
              "low_at,hours_below_0C,hours_below_crop,fan_h,fan_kWh,rock_kWh,barrels_kWh,soil_kWh,"
              "risk\r\n"
              "2026-03-12,2026-03-13,2026-03-12T18:00:00+01:00,2026-03-13T06:00:00+01:00,-6.250,0."
              "500,-1.260,,4.000,,2026-03-13T06:20:29+01:00,2.500,,3.000,"
              "0.300,4.321,,-0.250,freezes\r\n"
              "2026-03-13,2026-03-14,2026-03-13T18:00:00+01:00,2026-03-14T06:00:00+01:00,-6.250,0."
              "500,2.140,,4.000,,2026-03-14T06:20:29+01:00,0.000,,3.000,"
              "0.300,4.321,,-0.250,close\r\n");
    free(text);
}

static void json_has_null_not_nan(void **state)
{
    (void)state;
    struct fixture f;
    const char *const set[] = {"rock.mass=12 t"};
    fill(&f);
    f.story.overrides = set;
    f.story.override_count = 1;
    f.story.fan_kept_off = true;
    f.night[1].low_at_s = NAN;
    char *text = report(&f, DAWN_JSON, DAWN_METRIC);
    assert_int_equal(text[0], '{');
    has(text, "\"schema\"");
    has(text, "rock.mass=12 t");
    has(text, "from");
    has_not(text, "nan");
    has_not(text, "NaN");
    has_not(text, "inf");
    has(text, "null");
    has(text, "2026-03-13T06:20:29+01:00");
    free(text);
}

/* 3.6 MJ = 1 kWh. */
static void the_ledger_is_explained(void **state)
{
    (void)state;
    struct fixture f;
    struct dawn_ledger_row boundary[] = {{"leaks", -7.2e6}, {"sunlight", 1.8e6}};
    struct dawn_ledger_row stores[] = {{"rock", 5.4e6}};
    struct dawn_ledger ledger = {.from_s = midnight_s + 17 * 3600,
                                 .to_s = midnight_s + 29 * 3600,
                                 .boundary = boundary,
                                 .boundary_count = 2,
                                 .stores = stores,
                                 .store_count = 1,
                                 .imbalance_J = -3.6e-3,
                                 .throughput_J = 7.2e6};
    fill(&f);
    f.story.ledger = &ledger;
    f.story.explained = &f.night[0];
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, "night Thu 12 -> Fri 13 Mar, 18:00 to 06:00\n");
    has(text, "-2.00\n");
    has(text, "+0.50\n");
    has(text, "together");
    has(text, "-1.50\n");
    has(text, "left over: 5.0e-10 of the 2.00 kWh moved\n");
    free(text);
    text = report(&f, DAWN_JSON, DAWN_METRIC);
    has(text, "\"ledger\"");
    has(text, "throughput_kWh");
    free(text);
}

static void what_was_assumed_is_said(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    f.story.fan_kept_off = true;
    f.weather.filled_hours = 3;
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, "assumed: ");
    has(text, "cloud cover (");
    has(text, "3 missing hours");
    has(text, "fan was kept off");
    has(text, "alarm thermometer at the trays");
    has(text, "UTC+01:00");
    free(text);
}

static void the_locale_is_not_asked(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    char *plain_text = report(&f, DAWN_TEXT, DAWN_METRIC);
    char *plain_csv = report(&f, DAWN_CSV, DAWN_METRIC);
    char *plain_json = report(&f, DAWN_JSON, DAWN_METRIC);
    assert_true(comma_locale());
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    char *csv = report(&f, DAWN_CSV, DAWN_METRIC);
    char *json = report(&f, DAWN_JSON, DAWN_METRIC);
    plain_locale();
    assert_string_equal(text, plain_text);
    assert_string_equal(csv, plain_csv);
    assert_string_equal(json, plain_json);
    free(plain_text);
    free(plain_csv);
    free(plain_json);
    free(text);
    free(csv);
    free(json);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(first_line_is_the_decision),
        cmocka_unit_test(a_night_over_the_end_of_a_month_names_both),
        cmocka_unit_test(a_hair_below_zero_keeps_its_sign),
        cmocka_unit_test(the_crop_line_is_told_where_the_crop_is),
        cmocka_unit_test(a_crop_line_at_zero_is_told_when_it_says_more),
        cmocka_unit_test(no_crop_is_null),
        cmocka_unit_test(a_program_sees_the_sign_too),
        cmocka_unit_test(places_that_are_not_there_have_no_column),
        cmocka_unit_test(the_widest_table_fits),
        cmocka_unit_test(us_units_change_temperatures_only),
        cmocka_unit_test(csv_is_rfc_4180),
        cmocka_unit_test(json_has_null_not_nan),
        cmocka_unit_test(the_ledger_is_explained),
        cmocka_unit_test(what_was_assumed_is_said),
        cmocka_unit_test(the_locale_is_not_asked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
