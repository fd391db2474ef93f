/* Makes weather/alder-hollow-spring.csv: INVENTED hourly weather of an invented cold-temperate
 * valley, 1 February to 31 May 2026, on standard output.
 *
 * The sequence of highs, fronts, fog and frost is the table below. Between its lines the weather
 * hangs together by physics: the sun and the clear sky are the project's own, cloud dims the light
 * and closes the sky, a shallow layer of air is warmed by the light and cools to the sky, wind
 * stirs it, and the dew point never exceeds the air. Small irregularities come from a random
 * generator of our own with a fixed seed, so every run writes the same file. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>

#include "base/civil.h"
#include "base/text.h"
#include "dawnlow/physics/light.h"
#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/sky.h"
#include "dawnlow/physics/sun.h"

#define LATITUDE_DEG  45.2
#define LONGITUDE_DEG 6.9
#define ELEVATION_M   480.0
#define UTC_OFFSET_H  1.0

enum { HOUR_S = 3600, SUB_STEPS = 12, HOURS = 120 * 24 };

/* The weather at noon of a day; in between it changes in a straight line. */
struct noon {
    int month, day;
    double base_C;   /* of the air mass; the layer near the ground departs from it */
    double dew_C;    /* of the air mass */
    double cloud;    /* 0..1 */
    double wind_m_s; /* mean of the day */
    double pressure_hPa;
    double snow_cm; /* on the ground */
};
static const struct noon noons[] = {
    /* February: snow on the ground, then a cold high, then a thaw */
    {1, 31, 0.0, -2.0, 0.85, 2.5, 951, 9},
    {2, 2, -0.5, -2.0, 0.95, 2.0, 948, 14},
    {2, 3, -3.0, -6.0, 0.60, 3.5, 955, 16},
    {2, 4, -2.2, -10.5, 0.10, 1.6, 966, 15},
    {2, 5, -2.0, -12.0, 0.02, 1.0, 972, 14},
    {2, 7, -1.6, -12.0, 0.02, 0.8, 973, 13},
    {2, 8, -0.7, -8.0, 0.25, 1.2, 967, 12},
    {2, 9, 1.5, -2.0, 0.85, 2.5, 957, 9},
    {2, 11, 4.0, 2.0, 0.95, 3.5, 950, 3},
    {2, 12, 4.5, 2.0, 0.80, 4.0, 949, 0},
    {2, 14, 2.5, -2.0, 0.45, 2.5, 957, 0},
    {2, 16, 2.0, -3.5, 0.25, 1.5, 963, 0},
    {2, 18, 1.5, -1.0, 0.70, 1.6, 959, 0},
    {2, 20, 2.5, 0.0, 0.90, 2.8, 951, 0},
    {2, 22, 2.0, -3.0, 0.55, 3.0, 953, 0},
    {2, 24, 2.5, -4.0, 0.20, 1.5, 964, 0},
    {2, 26, 2.8, -2.0, 0.35, 1.6, 962, 0},
    {2, 28, 4.5, 0.5, 0.80, 2.6, 953, 0},
    /* March: a cold calm high 11 to 15, a dull week 20 to 27 */
    {3, 3, 4.5, -0.5, 0.55, 2.8, 955, 0},
    {3, 6, 5.5, 1.0, 0.80, 3.0, 950, 0},
    {3, 8, 3.5, -1.0, 0.75, 3.8, 948, 0},
    {3, 10, 0.5, -7.5, 0.35, 3.4, 958, 0},
    {3, 11, -0.7, -11.0, 0.03, 1.1, 968, 0},
    {3, 13, -0.2, -11.5, 0.00, 0.8, 973, 0},
    {3, 15, 0.2, -10.0, 0.03, 0.9, 969, 0},
    {3, 16, 2.0, -5.0, 0.25, 1.4, 963, 0},
    {3, 18, 3.9, -1.0, 0.40, 1.8, 959, 0},
    {3, 19, 3.6, 1.5, 0.85, 2.2, 955, 0},
    {3, 20, 2.0, 2.6, 1.00, 1.8, 954, 0},
    {3, 22, 1.6, 2.6, 1.00, 1.4, 956, 0},
    {3, 25, 1.8, 2.6, 1.00, 1.5, 955, 0},
    {3, 27, 2.4, 3.0, 0.99, 2.0, 951, 0},
    {3, 28, 5.0, 2.5, 0.70, 3.0, 950, 0},
    {3, 30, 6.0, 1.0, 0.40, 2.4, 956, 0},
    /* April: a storm on the 5th and 6th, showers, a fair second half */
    {4, 2, 7.7, 2.0, 0.45, 2.2, 957, 0},
    {4, 4, 8.7, 4.5, 0.75, 4.0, 948, 0},
    {4, 5, 7.7, 4.0, 0.90, 7.9, 936, 0},
    {4, 6, 5.2, 0.5, 0.75, 9.2, 937, 0},
    {4, 7, 4.7, -1.0, 0.55, 4.5, 949, 0},
    {4, 9, 5.7, -1.0, 0.30, 2.0, 958, 0},
    {4, 12, 7.7, 1.5, 0.45, 2.0, 958, 0},
    {4, 15, 8.2, 4.5, 0.85, 2.6, 951, 0},
    {4, 18, 8.7, 2.5, 0.40, 2.2, 957, 0},
    {4, 21, 10.5, 3.0, 0.15, 1.6, 962, 0},
    {4, 24, 11.2, 5.0, 0.35, 1.8, 959, 0},
    {4, 27, 10.2, 6.5, 0.80, 2.8, 951, 0},
    {4, 30, 10.2, 5.0, 0.50, 2.4, 955, 0},
    /* May: cold air behind a front, a late frost on the 9th and 10th, then warmth */
    {5, 4, 10.5, 7.0, 0.60, 2.2, 955, 0},
    {5, 6, 11.0, 7.5, 0.90, 3.0, 948, 0},
    {5, 7, 7.5, 2.5, 0.75, 4.2, 949, 0},
    {5, 8, 4.2, -3.5, 0.25, 2.8, 959, 0},
    {5, 9, 2.7, -7.0, 0.02, 0.9, 966, 0},
    {5, 10, 3.6, -6.0, 0.02, 0.8, 967, 0},
    {5, 11, 7.4, 0.0, 0.20, 1.4, 963, 0},
    {5, 14, 10.1, 7.0, 0.50, 2.0, 957, 0},
    {5, 17, 11.1, 9.0, 0.75, 2.4, 953, 0},
    {5, 20, 13.4, 8.5, 0.35, 1.9, 958, 0},
    {5, 23, 14.9, 9.5, 0.20, 1.6, 961, 0},
    {5, 26, 15.9, 10.5, 0.15, 1.5, 961, 0},
    {5, 29, 16.4, 11.5, 0.30, 1.7, 958, 0},
    {6, 1, 15.9, 12.5, 0.60, 2.2, 954, 0},
};
enum { NOONS = sizeof noons / sizeof noons[0] };

/* splitmix64 (Steele, Lea & Flood 2014) */
static uint64_t next_random(uint64_t *state)
{
    *state += 0x9E3779B97F4A7C15u;
    uint64_t z = *state;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

/* About normal, mean 0, deviation 1: four even numbers added, for the same bits everywhere. */
static double chance(uint64_t *state)
{
    double sum = 0.0;
    for (int i = 0; i < 4; i++)
        sum += (double)(next_random(state) >> 11) * 0x1p-53 - 0.5;
    return sum * 1.7320508075688772;
}

static double noon_s(const struct noon *noon)
{
    return (double)dawn_civil_days(2026, noon->month, noon->day) * 86400.0 +
           (12.0 - UTC_OFFSET_H) * HOUR_S;
}

static double mixed(double a, double b, double share)
{
    return a + (b - a) * share;
}

static struct noon weather_at(double utc_s)
{
    int i = 0;
    while (i + 2 < NOONS && utc_s >= noon_s(&noons[i + 1]))
        i++;
    const struct noon *a = &noons[i];
    const struct noon *b = &noons[i + 1];
    double share = (utc_s - noon_s(a)) / (noon_s(b) - noon_s(a));
    return (struct noon){.base_C = mixed(a->base_C, b->base_C, share),
                         .dew_C = mixed(a->dew_C, b->dew_C, share),
                         .cloud = mixed(a->cloud, b->cloud, share),
                         .wind_m_s = mixed(a->wind_m_s, b->wind_m_s, share),
                         .pressure_hPa = mixed(a->pressure_hPa, b->pressure_hPa, share),
                         .snow_cm = mixed(a->snow_cm, b->snow_cm, share)};
}

static double within(double value, double least, double most)
{
    return fmax(least, fmin(most, value));
}

/* What the hours remember of each other. */
struct valley {
    uint64_t random;
    double lift_K; /* air near the ground above the air mass */
    double dew_C;
    double cloud_gust, wind_gust, air_gust; /* slow irregularities */
};

struct hour {
    double air_C, dew_C, wind_m_s, cloud, pressure_hPa, snow_cm;
    double ghi_W_m2, dhi_W_m2, dni_W_m2; /* means of the hour before */
};

/* Light of the hour before a moment under a cloud, whole watts. */
static void light_before(double utc_s, double cloud, struct hour *hour)
{
    double cosine = 0.0;
    double clear = 0.0;
    for (int i = 0; i < SUB_STEPS; i++) {
        double at_s = utc_s - HOUR_S * (i + 0.5) / SUB_STEPS;
        double here = dawn_sun_position(at_s, LATITUDE_DEG, LONGITUDE_DEG).cos_zenith;
        cosine += fmax(0.0, here) / SUB_STEPS;
        clear += dawn_light_clear_W_m2(here) / SUB_STEPS;
    }
    double ghi = round(clear * dawn_light_cloud_factor(cloud));
    double outside = dawn_sun_extraterrestrial_W_m2(utc_s - HOUR_S / 2.0) * cosine;
    hour->ghi_W_m2 = ghi;
    hour->dhi_W_m2 = ghi;
    hour->dni_W_m2 = 0.0;
    if (cosine < 0.052 || ghi < 1.0)
        return;
    hour->dhi_W_m2 = round(ghi * dawn_light_diffuse_share(ghi / outside));
    hour->dni_W_m2 = round(fmin(1050.0, (ghi - hour->dhi_W_m2) / cosine));
}

/* How much of the light warms the air: snow throws it back, wet leaves in May evaporate with it. */
static double warming_share(const struct noon *now, double utc_s)
{
    double may = within((utc_s - noon_s(&noons[0])) / (120.0 * 86400.0), 0.0, 1.0);
    return (now->snow_cm > 1.0 ? 0.22 : 0.39) - 0.20 * may;
}

/* One hour of the layer near the ground: light in, heat to the sky out, stirred by the wind. */
static void pass_hour(struct valley *valley, const struct noon *now, double utc_s,
                      const struct hour *hour)
{
    double kelvin = now->base_C + valley->lift_K + 273.15;
    double clear = dawn_sky_emissivity_berdahl(valley->dew_C, NAN, now->pressure_hPa * 100.0);
    double loss = 0.96 * DAWN_STEFAN_BOLTZMANN * kelvin * kelvin * kelvin * kelvin -
                  dawn_sky_longwave_W_m2(dawn_sky_cloudy(clear, hour->cloud), kelvin - 273.15);
    double gain = warming_share(now, utc_s) * hour->ghi_W_m2;
    double heat_J_m2K = 1.25e5 * (1.0 + 0.6 * hour->wind_m_s);
    double forget_h = 16.0 / (1.0 + 0.25 * hour->wind_m_s);
    valley->lift_K += HOUR_S * (gain - 0.70 * loss) / heat_J_m2K;
    valley->lift_K *= 1.0 - 1.0 / forget_h;
    valley->dew_C += (now->dew_C - valley->dew_C) / 6.0;
    /* frost and dew take from the air what it cannot hold */
    valley->dew_C = fmin(valley->dew_C, now->base_C + valley->lift_K - 0.3);
}

static struct hour make_hour(struct valley *valley, double utc_s)
{
    struct noon now = weather_at(utc_s);
    struct hour hour = {.pressure_hPa = now.pressure_hPa, .snow_cm = now.snow_cm};
    valley->cloud_gust = 0.80 * valley->cloud_gust + 0.60 * chance(&valley->random);
    valley->wind_gust = 0.70 * valley->wind_gust + 0.71 * chance(&valley->random);
    valley->air_gust = 0.60 * valley->air_gust + 0.12 * chance(&valley->random);
    double unsettled = now.cloud * (1.0 - now.cloud);
    hour.cloud = within(now.cloud + 0.9 * unsettled * valley->cloud_gust, 0.0, 1.0);
    hour.cloud = round(hour.cloud * 100.0) / 100.0;
    light_before(utc_s, hour.cloud, &hour);
    /* slack air lies still on clear nights and stirs in the sun */
    double calmer = 0.24 / (1.0 + 0.05 * now.wind_m_s); /* storms are steadier than breezes */
    double stir = 0.55 + 0.001 * hour.ghi_W_m2 + 0.40 * hour.cloud;
    hour.wind_m_s = fmax(0.1, now.wind_m_s * stir * (1.0 + calmer * valley->wind_gust));
    pass_hour(valley, &now, utc_s, &hour);
    hour.air_C = now.base_C + valley->lift_K + valley->air_gust;
    hour.dew_C = fmin(valley->dew_C, hour.air_C - 0.1);
    return hour;
}

static const char heading[] =
    "# Alder Hollow, spring 2026: INVENTED weather of an invented valley.\n"
    "# No station measured this. It was written by tests/demo_weather/make_valley.c; every run of\n"
    "# that program writes the same file. See README.md beside it.\n"
    "# station: Alder Hollow (invented)\n"
    "# latitude: 45.2\n"
    "# longitude: 6.9\n"
    "# elevation: 480 m\n"
    "# utc_offset: +1 h\n"
    "# stamp: hour-before\n"
    "time,air (C),dew point (C),wind (m/s),global (W/m2),diffuse (W/m2),direct normal (W/m2),"
    "cloud (%),pressure (hPa),snow on ground (cm)\n";

static void print_number(double value, int decimals, char end)
{
    char text[32];
    (void)dawn_text_from_number(text, sizeof text, value, decimals);
    (void)printf("%s%c", text, end);
}

static void print_hour(int64_t utc_s, const struct hour *hour)
{
    struct dawn_civil civil = dawn_civil_at(utc_s, UTC_OFFSET_H);
    (void)printf("%04d-%02d-%02d %02d:%02d,", civil.year, civil.month, civil.day, civil.hour,
                 civil.minute);
    print_number(hour->air_C, 1, ',');
    print_number(hour->dew_C, 1, ',');
    print_number(hour->wind_m_s, 1, ',');
    print_number(hour->ghi_W_m2, 0, ',');
    print_number(hour->dhi_W_m2, 0, ',');
    print_number(hour->dni_W_m2, 0, ',');
    print_number(hour->cloud * 100.0, 0, ',');
    print_number(hour->pressure_hPa, 1, ',');
    print_number(hour->snow_cm, 0, '\n');
}

int main(void)
{
    struct valley valley = {.random = 20260201, .dew_C = -3.0};
    int64_t first_s = dawn_civil_days(2026, 2, 1) * 86400 - (int64_t)(UTC_OFFSET_H * HOUR_S);
    (void)fputs(heading, stdout);
    for (int h = -24; h < HOURS; h++) { /* a day to settle in */
        struct hour hour = make_hour(&valley, (double)first_s + (double)h * HOUR_S);
        if (h >= 0)
            print_hour(first_s + (int64_t)h * HOUR_S, &hour);
    }
    return fflush(stdout) == 0 ? 0 : 1;
}
