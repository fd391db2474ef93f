/* Makes weather/alder-hollow-week.csv: an INVENTED forecast for the invented valley, as it might
 * have been issued at noon on 10 March 2026: hourly for two days, then every three hours, with
 * cloud but without radiation. Read from weather/alder-hollow-spring.csv, which is what came of it:
 * the forecast departs from that by a slow wave that grows. Every run writes the same file. */
#include <math.h>
#include <stdio.h>

#include "base/civil.h"
#include "base/text.h"
#include "dawnlow/physics/moistair.h"
#include "dawnlow/weather.h"

#define UTC_OFFSET_H 1.0

enum { HOUR_S = 3600, HOURLY_H = 48, LATER_STEP_H = 3, LAST_H = 7 * 24 };

static const char heading[] =
    "# Alder Hollow, forecast of 10 March 2026, noon: INVENTED, as the valley is.\n"
    "# Nobody issued this. It was written by tests/demo_weather/make_week.c; see README.md.\n"
    "# station: Alder Hollow (invented)\n"
    "# latitude: 45.2\n"
    "# longitude: 6.9\n"
    "# elevation: 480 m\n"
    "# utc_offset: +1 h\n"
    "time,air (C),relative humidity (%),wind (km/h),cloud (%)\n";

/* A day or two too cold in the middle of the week, and a wave that no forecaster sees. */
static double air_error_K(double day)
{
    return -0.9 * exp(-(day - 3.4) * (day - 3.4)) + 0.12 * day * sin(day * 3.1);
}

static double cloud_error(double day)
{
    return 0.02 * day * sin(day * 4.7 + 1.0);
}

static void put_number(double value, int decimals, char end)
{
    char text[32];

    (void)dawn_text_from_number(text, sizeof text, value, decimals);
    (void)printf("%s%c", text, end);
}

static void put_row(const struct dawn_weather *valley, size_t i, double day)
{
    const int64_t at_s = valley->first_s + (int64_t)i * HOUR_S;
    const struct dawn_civil civil = dawn_civil_at(at_s, UTC_OFFSET_H);
    const double humidity = dawn_moistair_saturation_water_Pa(valley->dew_C[i]) /
                            dawn_moistair_saturation_water_Pa(valley->air_C[i]);
    const double cloud = fmax(0.0, fmin(1.0, valley->cloud[i] + cloud_error(day)));

    (void)printf("%04d-%02d-%02d %02d:%02d,", civil.year, civil.month, civil.day, civil.hour,
                 civil.minute);
    put_number(valley->air_C[i] + air_error_K(day), 1, ',');
    put_number(100.0 * humidity, 0, ',');
    put_number(3.6 * valley->wind_m_s[i] * (1.0 + 0.1 * sin(day * 2.3)), 0, ',');
    put_number(100.0 * cloud, 0, '\n');
}

int main(void)
{
    struct dawn_weather valley = {0};
    struct dawn_problems problems = {0};
    const int64_t issued_s = dawn_civil_days(2026, 3, 10) * 86400 + 11 * HOUR_S;
    const enum dawn_status status =
        dawn_weather_read(&valley, "weather/alder-hollow-spring.csv", NULL, &problems);

    if (status == DAWN_OK) {
        (void)fputs(heading, stdout);
        const size_t first = (size_t)((issued_s - valley.first_s) / HOUR_S);
        for (int h = 0; h <= LAST_H; h += h < HOURLY_H ? 1 : LATER_STEP_H) {
            put_row(&valley, first + (size_t)h, h / 24.0);
        }
    }
    dawn_weather_release(&valley);
    dawn_problems_release(&problems);
    return status == DAWN_OK && fflush(stdout) == 0 ? 0 : 1;
}
