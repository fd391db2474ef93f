/* The whole way from a file to complete hours: the demo file with what it promises, and every
 * mistake we could think of, each with a sentence of its own and its place. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "dawnlow/physics/sun.h"
#include "support/near.h"
#include "weather_try.h"

/* ---- the demo file ------------------------------------------------------------------------- */

static const char demo[] = "weather/alder-hollow-spring.csv";

static void read_demo(struct dawn_weather *weather, struct dawn_problems *problems)
{
    enum dawn_status status = dawn_weather_read(weather, demo, NULL, problems);
    for (size_t i = 0; i < problems->count; i++)
        print_error("%d: %s\n", problems->items[i].line, problems->items[i].message);
    assert_int_equal(status, DAWN_OK);
    assert_int_equal(problems->count, 0);
}

/* Index of an hour in the demo file's own clock. */
static size_t hour_of(const struct dawn_weather *weather, int month, int day, int hour)
{
    int64_t at_s = dawn_civil_days(2026, month, day) * 86400 + (int64_t)(hour - 1) * 3600;
    assert_true(at_s >= weather->first_s);
    size_t i = (size_t)((at_s - weather->first_s) / 3600);
    assert_true(i < weather->count);
    return i;
}

struct span {
    double least, most, mean;
};

static struct span span_of(const struct dawn_weather *weather, const double *value, int month,
                           int day, int from_hour, int hours)
{
    size_t first = hour_of(weather, month, day, from_hour);
    struct span span = {value[first], value[first], 0.0};
    for (size_t i = first; i < first + (size_t)hours; i++) {
        span.least = fmin(span.least, value[i]);
        span.most = fmax(span.most, value[i]);
        span.mean += value[i] / hours;
    }
    return span;
}

static void the_demo_says_where_and_when_it_is(void **state)
{
    struct dawn_weather weather = {0};
    struct dawn_problems problems = {0};
    (void)state;
    read_demo(&weather, &problems);
    assert_int_equal(weather.count, 2880); /* 28 + 31 + 30 + 31 days */
    near(weather.latitude_deg, 45.2, 1e-12, "latitude");
    near(weather.longitude_deg, 6.9, 1e-12, "longitude");
    near(weather.elevation_m, 480.0, 1e-12, "elevation");
    near(weather.utc_offset_h, 1.0, 1e-12, "offset");
    assert_int_equal(weather.first_s, dawn_civil_days(2026, 2, 1) * 86400 - 3600);
    assert_int_equal(weather.mean_first_s, weather.first_s - 3600);
    assert_int_equal(weather.stamp, DAWN_STAMP_MEAN_BEFORE);
    assert_true(weather.utc_offset_from_file && weather.stamp_from_file && !weather.typical_year);
    assert_int_equal(weather.filled_hours, 0);
    assert_string_equal(weather.layout, "general columns");
    assert_int_equal(weather.ghi_from, DAWN_FROM_FILE);
    assert_int_equal(weather.split_from, DAWN_FROM_FILE);
    assert_int_equal(weather.cloud_from, DAWN_FROM_FILE);
    assert_int_equal(weather.snow_from, DAWN_FROM_FILE);
    assert_int_equal(weather.longwave_from, DAWN_FROM_SKY_MODEL);
    assert_non_null(strstr(weather.station, "invented"));
    dawn_weather_release(&weather);
    dawn_problems_release(&problems);
}

/* The events weather/README.md promises. */
static void the_demo_holds_what_it_promises(void **state)
{
    struct dawn_weather weather = {0};
    struct dawn_problems problems = {0};
    (void)state;
    read_demo(&weather, &problems);
    const double *air = weather.air_C;
    near(span_of(&weather, air, 2, 1, 0, 28 * 24).mean, 0.0, 1.0, "February's mean");
    near(span_of(&weather, air, 2, 4, 12, 4 * 24).least, -14.0, 1.0, "February's cold spell");
    for (int day = 12; day <= 15; day++)
        near(span_of(&weather, air, 3, day, 0, 12).least, -10.0, 1.3, "March night");
    for (int day = 11; day <= 15; day++) {
        near(span_of(&weather, air, 3, day, 10, 10).most, 7.0, 1.6, "March day");
        assert_true(span_of(&weather, weather.cloud, 3, day, 0, 24).mean < 0.1);
        assert_true(span_of(&weather, weather.wind_m_s, 3, day, 0, 24).mean < 1.5);
    }
    struct span dull = span_of(&weather, air, 3, 20, 0, 8 * 24);
    assert_true(dull.least > 1.5 && dull.most < 7.5);
    assert_true(span_of(&weather, weather.ghi_W_m2, 3, 20, 0, 8 * 24).most < 300.0);
    near(span_of(&weather, weather.wind_m_s, 4, 5, 0, 48).most, 16.0, 1.0, "storm");
    near(span_of(&weather, air, 5, 9, 0, 48).least, -3.3, 0.6, "late frost");
    assert_true(span_of(&weather, weather.wind_m_s, 5, 9, 0, 48).mean < 1.5);
    assert_true(span_of(&weather, air, 5, 22, 0, 10 * 24).most > 24.0);
    assert_true(span_of(&weather, weather.snow_m, 2, 1, 0, 24).least > 0.05);
    near(span_of(&weather, weather.snow_m, 2, 14, 0, 24 * 100).most, 0.0, 0.0, "snow is gone");
    dawn_weather_release(&weather);
    dawn_problems_release(&problems);
}

/* Beam, diffuse and global light agree with the sun, and calm clear nights cool more. */
static void the_demo_hangs_together(void **state)
{
    struct dawn_weather weather = {0};
    struct dawn_problems problems = {0};
    (void)state;
    read_demo(&weather, &problems);
    double clear_fall = 0.0;
    double dull_fall = 0.0;
    int clear_nights = 0;
    int dull_nights = 0;
    for (size_t i = 0; i < weather.count; i++) {
        double from_s = (double)(weather.mean_first_s + (int64_t)i * 3600);
        double cosine = dawn_sun_mean_cos_zenith(from_s, from_s + 3600.0, 45.2, 6.9);
        /* whole watts each; the beam is held below 1050 */
        if (weather.dni_W_m2[i] > 0.0 && weather.dni_W_m2[i] < 1050.0)
            near(weather.dni_W_m2[i] * cosine + weather.dhi_W_m2[i], weather.ghi_W_m2[i], 1.6,
                 "beam + diffuse");
        assert_true(weather.dew_C[i] < weather.air_C[i]);
        assert_true(cosine > 0.0 || weather.ghi_W_m2[i] == 0.0);
    }
    for (size_t i = 19; i + 11 < weather.count; i += 24) {
        double cloud = 0.0;
        double wind = 0.0;
        for (size_t h = i; h < i + 11; h++) {
            cloud += weather.cloud[h] / 11.0;
            wind += weather.wind_m_s[h] / 11.0;
        }
        double fall = weather.air_C[i] - weather.air_C[i + 10];
        clear_fall += cloud < 0.15 && wind < 1.5 ? fall : 0.0;
        clear_nights += cloud < 0.15 && wind < 1.5;
        dull_fall += cloud > 0.85 ? fall : 0.0;
        dull_nights += cloud > 0.85;
    }
    assert_true(clear_nights >= 10 && dull_nights >= 10);
    assert_true(clear_fall / clear_nights > dull_fall / dull_nights + 4.0);
    dawn_weather_release(&weather);
    dawn_problems_release(&problems);
}

/* ---- mistakes ------------------------------------------------------------------------------ */

#define TWO_ROWS "2026-03-01 00:00,1\n2026-03-01 01:00,2\n"

struct mistake {
    const char *text;
    enum dawn_severity severity;
    int line, column;
    const char *words;
};

static const struct mistake mistakes[] = {
    /* files that are no CSV */
    {"", DAWN_ERROR, 0, 0, "the file is empty"},
    {" \n\n", DAWN_ERROR, 0, 0, "nothing but blank lines"},
    {"PK\3\4xx", DAWN_ERROR, 0, 0, "spreadsheet or zip"},
    {"\x1F\x8Bxx", DAWN_ERROR, 0, 0, "compressed"},
    {"\xFF\xFEt", DAWN_ERROR, 0, 0, "UTF-16"},
    {"{\"time\":1}", DAWN_ERROR, 0, 0, "JSON"},
    {"<html></html>", DAWN_ERROR, 0, 0, "web page"},
    {"\xD0\xCF\x11\xE0zz", DAWN_ERROR, 0, 0, "old spreadsheet"},
    /* the header */
    {"2026-03-01 00:00,1.5\n", DAWN_ERROR, 1, 0, "begins with numbers"},
    {"good morning\nto you\n", DAWN_ERROR, 1, 0, "no header line found"},
    {"time,wind (m/s)\n" TWO_ROWS, DAWN_ERROR, 1, 0, "no column of air temperature"},
    {"time,temp (C),temp (F)\n2026-03-01 00:00,1,2\n", DAWN_ERROR, 1, 15,
     "both look like the air temperature"},
    {"time,temp\n" TWO_ROWS, DAWN_ERROR, 1, 6, "does not say its unit"},
    {"time,temp (furlongs)\n" TWO_ROWS, DAWN_ERROR, 1, 6, "unit \"furlongs\" of the air"},
    {"time,temp (C),cloud\n2026-03-01 00:00,1,3\n2026-03-01 01:00,1,8\n", DAWN_ERROR, 1, 15,
     "its numbers (3 to 8) leave it open"},
    {"time,temp (C)\n", DAWN_ERROR, 1, 0, "no data rows follow"},
    {"time,temp (C)\n2026-03-01 00:00,1\n", DAWN_ERROR, 1, 0, "only 1 row"},
    {"hour,temp (C)\n0,1\n1,2\n", DAWN_ERROR, 1, 0, "time of day but no date"},
    {"year,month,day,temp (C)\n2026,3,1,4\n", DAWN_ERROR, 1, 0, "date but no time of day"},
    /* the lines above it */
    {"# latitude: north\ntime,temp (C)\n" TWO_ROWS, DAWN_ERROR, 1, 1, "\"north\" is no latitude"},
    {"# longitude: 200\ntime,temp (C)\n" TWO_ROWS, DAWN_ERROR, 1, 1, "longitude of 200"},
    {"# elevation: 9000 m\ntime,temp (C)\n" TWO_ROWS, DAWN_ERROR, 1, 1, "elevation of 9000"},
    {"# utc_offset: noon\ntime,temp (C)\n" TWO_ROWS, DAWN_ERROR, 1, 1, "no offset from UTC"},
    {"# stamp: sometimes\ntime,temp (C)\n" TWO_ROWS, DAWN_ERROR, 1, 1, "no meaning of a stamp"},
    /* stamps */
    {"time,temp (C)\n2026-03-01 00:00,1\nnoon,2\n", DAWN_ERROR, 3, 1, "\"noon\" is no time stamp"},
    {"time,temp (C)\n2026-02-30 00:00,1\n", DAWN_ERROR, 2, 1, "no such date"},
    {"time,temp (C)\n2026-03-01 25:00,1\n", DAWN_ERROR, 2, 1, "no such time of day"},
    {"date,temp (C)\n2026-03-01,1\n2026-03-02,1\n", DAWN_ERROR, 2, 1, "no time of day"},
    {"time,temp (C)\n2026-03-01 00:00,1\n2026-03-01 01:00Z,2\n", DAWN_ERROR, 3, 1,
     "this stamp carries a UTC offset"},
    {"date,temp (C)\n03/04/2026 00:00,1\n03/04/2026 01:00,1\n", DAWN_ERROR, 2, 1,
     "day/month or as month/day"},
    {"date,temp (C)\n13/04/2026 00:00,1\n04/14/2026 01:00,1\n", DAWN_ERROR, 3, 1,
     "day and month change places"},
    /* order and step */
    {"time,temp (C)\n2026-03-01 00:00,1\n2026-03-01 02:00,1\n2026-03-01 01:00,2\n"
     "2026-03-01 03:00,2\n",
     DAWN_ERROR, 4, 1, "the time goes backwards"},
    {"time,temp (C)\n2026-03-01 00:00,1\n2026-03-01 01:00,1\n2026-03-01 01:00,2\n", DAWN_ERROR, 4,
     1, "two rows with different values"},
    {"time,temp (C)\n" TWO_ROWS "2026-03-01 07:00,1\n", DAWN_ERROR, 4, 0, "5 hours are missing"},
    {"time,temp (C)\n2026-03-01 00:00,1\n2026-03-01 03:00,1\n", DAWN_ERROR, 3, 0,
     "the rows are 3 hours apart"},
    {"time,temp (C)\n2026-03-01 00:00,1\n2026-03-02 00:00,1\n", DAWN_ERROR, 3, 0,
     "the rows are 24 h apart, like daily values"},
    {"time,temp (C)\n2026-03-01 00:05,1\n2026-03-01 00:15,1\n2026-03-01 00:25,1\n", DAWN_ERROR, 0,
     0, "less than two full hours"},
    /* values */
    {"time,temp (C)\n2026-03-01 00:00,1\n2026-03-01 01:00,mild\n", DAWN_ERROR, 3, 18,
     "\"mild\" is no number"},
    {"time,temp (C)\n2026-03-01 00:00,85.0\n" TWO_ROWS, DAWN_ERROR, 2, 18,
     "\"85.0\" is impossible as air temperature"},
    {"time,temp (F)\n2026-03-01 00:00,170\n" TWO_ROWS, DAWN_ERROR, 2, 18, "means 76.67 C"},
    {"time,temp (C),RH (%)\n2026-03-01 00:00,1,120\n", DAWN_ERROR, 2, 20,
     "\"120\" is impossible as relative humidity"},
    {"time,temp (C),wind (m/s)\n2026-03-01 00:00,1,-3\n", DAWN_ERROR, 2, 20,
     "\"-3\" is impossible as wind speed"},
    {"time,temp (C),GHI (W/m2)\n2026-03-01 00:00,1,5000\n", DAWN_ERROR, 2, 20,
     "\"5000\" is impossible as global radiation"},
    {"time,temp (C),pressure (hPa)\n2026-03-01 00:00,1,29.9\n", DAWN_ERROR, 2, 20,
     "\"29.9\" is impossible as air pressure"},
    {"time,temp (C),cloud (%)\n2026-03-01 00:00,1,900\n", DAWN_ERROR, 2, 20,
     "\"900\" is impossible as cloud cover"},
    {"time,temp (C),snow depth (cm)\n2026-03-01 00:00,1,-4\n", DAWN_ERROR, 2, 20,
     "\"-4\" is impossible as snow depth"},
    {"time,temp (C),long wave (W/m2)\n2026-03-01 00:00,1,9\n", DAWN_ERROR, 2, 20,
     "\"9\" is impossible as long-wave radiation"},
    {"time,wind (m/s),temp (C)\n2026-03-01 00:00,1,5\n2026-03-01 01:00,1\n", DAWN_ERROR, 3, 0,
     "the row has only 2 of 3 columns"},
    {"wind (m/s),temp (C),time\n1,5,2026-03-01 00:00\n1,5\n", DAWN_ERROR, 3, 0,
     "only 2 of 3 columns and no time stamp"},
    {"time,temp (C),dew point (C)\n2026-03-01 00:00,1,9\n2026-03-01 01:00,1,8\n", DAWN_ERROR, 2, 20,
     "dew point is above the air temperature"},
    {"time,temp (C)\n2026-03-01 00:00,\n2026-03-01 01:00,\n2026-03-01 02:00,1\n", DAWN_ERROR, 1, 6,
     "2 of 3 hours have no air temperature"},
    /* doubts */
    {"time,temp (C)\n2026-03-01 00:00,1\n2026-03-01 01:00,25\n2026-03-01 02:00,24\n", DAWN_WARNING,
     3, 18, "rises by 24.0 K in one hour"},
    {"# latitude: 52\n# longitude: 13\ntime,temp (C)\n" TWO_ROWS, DAWN_WARNING, 0, 0,
     "km away from the site"},
    {"# latitude: 45\n# longitude: -75\ntime,temp (C)\n" TWO_ROWS, DAWN_ERROR, 0, 0, "another sun"},
    {"# elevation: 1200 m\ntime,temp (C)\n" TWO_ROWS, DAWN_WARNING, 0, 0,
     "700 m higher than the site; air there is about 5 K colder"},
    {"time,temp (C),wind (m/s)\n2026-03-01 00:00,1,\n2026-03-01 01:00,2,\n", DAWN_NOTE, 1, 15,
     "the column of wind speed has no value in 2 of 2 hours"},
};

static void every_mistake_has_its_own_sentence(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof mistakes / sizeof mistakes[0]; i++) {
        const struct mistake *m = &mistakes[i];
        struct weather_try try = try_begin();
        dawn_text_add(&try.text, "%s", m->text);
        try_read(&try);
        assert_int_equal(try.status, m->severity == DAWN_ERROR ? DAWN_ERR_WEATHER : DAWN_OK);
        const struct dawn_problem *said = try_said(&try, m->severity, m->words);
        if (said->line != m->line || said->column != m->column)
            print_error("%s: at %d:%d\n", m->words, said->line, said->column);
        assert_int_equal(said->line, m->line);
        assert_int_equal(said->column, m->column);
        assert_int_equal(said->source_line != NULL, m->line > 0);
        assert_string_equal(said->file, "try.csv");
        if (m->severity == DAWN_ERROR)
            assert_int_equal(try.weather.count, 0);
        try_end(&try);
        for (size_t k = 0; k < i; k++) /* a sentence of its own */
            assert_string_not_equal(m->words, mistakes[k].words);
    }
}

static void all_mistakes_come_in_one_go(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "# latitude: 95\ntime,temp (C),wind (parsec)\n2026-03-01 00:00,1,1\n"
                             "noon,1,1\n2026-03-01 02:00,99,1\n2026-03-01 01:00,x,1\n");
    try_read(&try);
    try_said(&try, DAWN_ERROR, "latitude of 95");
    try_said(&try, DAWN_ERROR, "unit \"parsec\"");
    try_said(&try, DAWN_ERROR, "\"noon\" is no time stamp");
    try_said(&try, DAWN_ERROR, "\"99\" is impossible");
    try_said(&try, DAWN_ERROR, "\"x\" is no number");
    try_said(&try, DAWN_ERROR, "the time goes backwards");
    try_end(&try);
}

static void one_kind_of_mistake_is_counted_after_twenty(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temperature (C)\n");
    for (long h = 0; h < 100; h++) {
        char stamp[24];
        try_stamp(stamp, 2026, 3, 1, h);
        dawn_text_add(&try.text, "%s,%d\n", stamp, h < 50 ? 200 : 5);
    }
    try_read(&try);
    const struct dawn_problem *rest = try_said(&try, DAWN_ERROR, "and 30 more of this kind");
    assert_int_equal(rest->line, 22);
    assert_int_equal(try.problems.errors, 21);
    try_end(&try);
}

/* Whatever bytes a file holds, what is said about it is printable. */
static void messages_are_printable(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "time,temp (C)\n\x1b[31m\xff\xfe\x07,1\n2026-03-01 01:00,\x01\n");
    try_read(&try);
    assert_int_equal(try.status, DAWN_ERR_WEATHER);
    for (size_t i = 0; i < try.problems.count; i++) {
        const char *texts[] = {try.problems.items[i].message, try.problems.items[i].source_line};
        for (int t = 0; t < 2; t++)
            for (const char *s = texts[t] ? texts[t] : ""; *s; s++)
                assert_true((unsigned char)*s >= 0x20 && (unsigned char)*s < 0x7f);
    }
    try_end(&try);
}

static void a_missing_file_is_an_input_output_error(void **state)
{
    struct dawn_weather weather = {0};
    struct dawn_problems problems = {0};
    (void)state;
    assert_int_equal(dawn_weather_read(&weather, "weather/nowhere.csv", NULL, &problems),
                     DAWN_ERR_IO);
    assert_int_equal(problems.errors, 1);
    assert_string_equal(problems.items[0].file, "weather/nowhere.csv");
    dawn_problems_release(&problems);
    assert_int_equal(dawn_weather_read(&weather, "weather", NULL, &problems), DAWN_ERR_IO);
    assert_int_equal(problems.errors, 1);
    dawn_problems_release(&problems);
    dawn_weather_release(&weather);
}

/* A file cut off at any byte is read or refused, and nothing leaks either way. */
static void a_file_cut_off_anywhere_is_survived(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    dawn_text_add(&try.text, "latitude,longitude,elevation,utc_offset_seconds\n45,7,480,3600\n\n");
    try_hours(&try, "time,\"temperature (C)\"", 30);
    struct weather_try cut = try_begin();
    for (size_t size = 0; size <= try.text.size; size++) {
        dawn_problems_release(&cut.problems);
        cut.status = dawn_weather_parse(&cut.weather, "cut.csv", try.text.data, size, &cut.hints,
                                        &cut.problems);
        assert_int_equal(cut.status == DAWN_OK, cut.problems.errors == 0);
    }
    assert_int_equal(cut.status, DAWN_OK);
    try_end(&cut);
    try_end(&try);
}

static void the_same_weather_may_be_read_again(void **state)
{
    struct weather_try try = try_begin();
    (void)state;
    try_hours(&try, "time,temperature (C)", 30);
    try_read_well(&try);
    try_read_well(&try); /* releases the first */
    assert_int_equal(try.weather.count, 30);
    dawn_weather_release(&try.weather);
    assert_null(try.weather.air_C);
    dawn_weather_release(&try.weather);
    dawn_weather_release(NULL);
    try_end(&try);
}

static void words_are_there_for_all(void **state)
{
    (void)state;
    for (int i = DAWN_STAMP_INSTANT; i <= DAWN_STAMP_MEAN_AROUND; i++)
        assert_string_not_equal(dawn_weather_stamp_words((enum dawn_stamp)i), "unknown");
    for (int i = DAWN_FROM_FILE; i <= DAWN_FROM_DEFAULT; i++)
        assert_string_not_equal(dawn_weather_source_words((enum dawn_weather_source)i), "unknown");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_demo_says_where_and_when_it_is),
        cmocka_unit_test(the_demo_holds_what_it_promises),
        cmocka_unit_test(the_demo_hangs_together),
        cmocka_unit_test(every_mistake_has_its_own_sentence),
        cmocka_unit_test(all_mistakes_come_in_one_go),
        cmocka_unit_test(one_kind_of_mistake_is_counted_after_twenty),
        cmocka_unit_test(messages_are_printable),
        cmocka_unit_test(a_missing_file_is_an_input_output_error),
        cmocka_unit_test(a_file_cut_off_anywhere_is_survived),
        cmocka_unit_test(the_same_weather_may_be_read_again),
        cmocka_unit_test(words_are_there_for_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
