/* The weather report from a weather made by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "../../support/written.h"
#include "dawnlow/report.h"

enum { HOURS = 2 };

/* 2026-01-05T00:00Z, a Monday: 20458 days after 1970-01-01, computed closed form. */
static const int64_t first_s = 20458LL * 86400;

struct fixture {
    struct dawn_weather weather;
    double air_C[HOURS], dew_C[HOURS], wind_m_s[HOURS], pressure_Pa[HOURS], cloud[HOURS];
    double longwave_W_m2[HOURS], snow_m[HOURS], ghi_W_m2[HOURS], dni_W_m2[HOURS], dhi_W_m2[HOURS];
};

static void fill(struct fixture *f)
{
    *f = (struct fixture){
        .air_C = {-10.0, 5.0},
        .dew_C = {-12.0, 0.0},
        .wind_m_s = {0.0, 4.4704}, /* 10 mph: 1 mi = 1609.344 m exactly */
        .pressure_Pa = {101325.0, 101300.0},
        .cloud = {0.0, 0.5},
        .longwave_W_m2 = {200.0, 300.5},
        .snow_m = {0.0, 0.254},
        .ghi_W_m2 = {0.0, 100.0},
        .dni_W_m2 = {0.0, 50.25},
        .dhi_W_m2 = {0.0, 80.0},
    };
    struct dawn_weather *w = &f->weather;
    strcpy(w->path, "jan.csv");
    strcpy(w->layout, "general columns");
    w->latitude_deg = -33.5;
    w->longitude_deg = 18.25;
    w->elevation_m = 304.8;
    w->utc_offset_h = -3.5;
    w->stamp_from_file = true;
    w->count = HOURS;
    w->first_s = first_s;
    w->mean_first_s = first_s - 1800;
    w->air_C = f->air_C;
    w->dew_C = f->dew_C;
    w->wind_m_s = f->wind_m_s;
    w->pressure_Pa = f->pressure_Pa;
    w->cloud = f->cloud;
    w->longwave_W_m2 = f->longwave_W_m2;
    w->snow_m = f->snow_m;
    w->ghi_W_m2 = f->ghi_W_m2;
    w->dni_W_m2 = f->dni_W_m2;
    w->dhi_W_m2 = f->dhi_W_m2;
    w->longwave_from = DAWN_FROM_SKY_MODEL;
}

static char *report(const struct fixture *f, enum dawn_format format, enum dawn_units units)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);

    assert_non_null(out);
    dawn_report_weather(out, format, units, &f->weather);
    assert_int_equal(fclose(out), 0);
    return text;
}

static void has(const char *text, const char *part)
{
    if (strstr(text, part) == NULL) {
        fail_msg("'%s' is not in:\n%s", part, text);
    }
}

static void summary_in_both_units(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    char *text = report(&f, DAWN_TEXT, DAWN_METRIC);
    has(text, "place       33.500 S, 18.250 E\n");
    has(text, "elevation   305 m\n");
    has(text, "hours       2, Sun 4 Jan 2026 20:30 to Sun 4 Jan 2026 21:30\n");
    has(text, "clock       UTC-03:30, as told or assumed\n");
    has(text, "air         -10.0 C to 5.0 C, mean -2.5 C; coldest Sun 4 Jan 2026 20:30\n");
    has(text, "most 4.5 m/s\n");
    has(text, "snow        up to 25 cm\n");
    has(text, "sky long-wave: ");
    free(text);
    text = report(&f, DAWN_TEXT, DAWN_US);
    has(text, "elevation   1000 ft\n"); /* 1 ft = 0.3048 m exactly */
    has(text, "air         14.0 F to 41.0 F, mean 27.5 F");
    has(text, "most 10.0 mph\n");
    has(text, "snow        up to 10 in\n");
    free(text);
}

static void csv_holds_every_hour(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    f.weather.snow_m = NULL;
    char *text = report(&f, DAWN_CSV, DAWN_US);
    assert_string_equal(text,
                        "time,air_C,dew_C,wind_m_s,pressure_Pa,cloud,longwave_W_m2,snow_m,"
                        "mean_from,ghi_W_m2,dni_W_m2,dhi_W_m2\r\n"
                        "2026-01-04T20:30:00-03:30,-10.000,-12.000,0.000,101325,0.000,200.00,,"
                        "2026-01-04T20:00:00-03:30,0.00,0.00,0.00\r\n"
                        "2026-01-04T21:30:00-03:30,5.000,0.000,4.470,101300,0.500,300.50,,"
                        "2026-01-04T21:00:00-03:30,100.00,50.25,80.00\r\n");
    free(text);
}

static void json_knows_no_nan(void **state)
{
    (void)state;
    struct fixture f;
    fill(&f);
    f.weather.elevation_m = NAN;
    char *text = report(&f, DAWN_JSON, DAWN_METRIC);
    has(text, "null");
    has(text, "\"hours\"");
    has(text, "2026-01-04T20:30:00-03:30");
    assert_null(strstr(text, "nan"));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(summary_in_both_units),
        cmocka_unit_test(csv_holds_every_hour),
        cmocka_unit_test(json_knows_no_nan),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
