/* One number for everything a row of a sweep depends on, so that rows of different sweeps are never
 * mixed: FNV-1a, 64 bits (Fowler, Noll & Vo; constants from memory). */
#include <string.h>

#include "dawnlow/studies/sweep.h"
#include "dawnlow/version.h"

static void add_bytes(uint64_t *hash, const void *bytes, size_t size)
{
    const unsigned char *at = bytes;

    for (size_t i = 0; i < size; i++) {
        *hash = (*hash ^ at[i]) * UINT64_C(1099511628211);
    }
}

/* With its end, so that "ab", "c" is not "a", "bc". */
static void add_text(uint64_t *hash, const char *text)
{
    add_bytes(hash, text, strlen(text) + 1);
}

static void add_hours(uint64_t *hash, const double *hours, size_t count)
{
    if (hours != NULL) {
        add_bytes(hash, hours, count * sizeof *hours);
    }
}

static void add_value(const struct dawn_understood *understood, void *hash)
{
    add_text(hash, understood->key);
    add_text(hash, understood->value);
}

static void add_year(uint64_t *hash, const struct dawn_year *year)
{
    const struct dawn_weather *weather = year->weather;
    const double *const column[] = {weather->air_C,       weather->dew_C,    weather->wind_m_s,
                                    weather->pressure_Pa, weather->cloud,    weather->longwave_W_m2,
                                    weather->ghi_W_m2,    weather->dni_W_m2, weather->dhi_W_m2,
                                    weather->snow_m};

    add_bytes(hash, &year->from_s, sizeof year->from_s);
    add_bytes(hash, &year->to_s, sizeof year->to_s);
    add_bytes(hash, &weather->first_s, sizeof weather->first_s);
    add_bytes(hash, &weather->mean_first_s, sizeof weather->mean_first_s);
    for (size_t i = 0; i < sizeof column / sizeof column[0]; i++) {
        add_hours(hash, column[i], weather->count);
    }
}

static void add_axis(uint64_t *hash, const struct dawn_sweep_axis *axis)
{
    add_text(hash, axis->key);
    add_text(hash, axis->unit);
    add_bytes(hash, &axis->from, sizeof axis->from);
    add_bytes(hash, &axis->to, sizeof axis->to);
    add_bytes(hash, &axis->steps, sizeof axis->steps);
    for (size_t i = 0; axis->by_words && i < axis->steps; i++) {
        add_text(hash, axis->words[i]);
    }
}

uint64_t dawn_sweep_fingerprint(const struct dawn_sweep_plan *plan)
{
    uint64_t hash = UINT64_C(14695981039346656037);

    add_text(&hash, DAWN_VERSION);
    dawn_scenario_understood(plan->scenario, add_value, &hash);
    for (size_t i = 0; i < plan->years.count; i++) {
        add_year(&hash, &plan->years.year[i]);
    }
    for (size_t i = 0; i < plan->axes; i++) {
        add_axis(&hash, &plan->axis[i]);
    }
    add_bytes(&hash, &plan->samples, sizeof plan->samples);
    add_bytes(&hash, &plan->seed, sizeof plan->seed);
    add_bytes(&hash, &plan->run.rtol, sizeof plan->run.rtol);
    add_bytes(&hash, &plan->run.atol_K, sizeof plan->run.atol_K);
    add_bytes(&hash, &plan->run.fast, sizeof plan->run.fast);
    return hash;
}
