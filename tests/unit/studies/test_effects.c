/* Each effect left out in turn: the right ones, each as if the scenario had been written without.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "dawnlow/studies.h"
#include "support/near.h"
#include "support/shipped.h"

#define DEMO    "scenarios/alder-hollow.yaml"
#define LEAN_TO "scenarios/lean-to-with-barrels.yaml"
#define TUNNEL  "scenarios/film-tunnel.yaml"
#define COVERED "scenarios/tunnel-under-fleece.yaml"

/* A few nights without the days before them: the comparison is what counts here. */
static struct dawn_effects_plan nights_of_march(int from, int to)
{
    struct dawn_effects_plan plan = {.run = dawn_trajectory_plan_usual()};
    plan.run.from_s = shipped_noon_s(from);
    plan.run.to_s = shipped_noon_s(to);
    plan.run.spin_up = false;
    return plan;
}

static struct dawn_effects study(struct shipped *it, const struct dawn_effects_plan *plan)
{
    struct dawn_effects effects;
    shipped_fine(it, dawn_effects_find(&effects, &it->scenario, &it->weather, plan, &it->problems),
                 "study");
    return effects;
}

static const struct dawn_effects_row *row_of(const struct dawn_effects *effects, const char *key)
{
    for (size_t i = 0; i < effects->count; i++)
        if (strcmp(effects->row[i].key, key) == 0)
            return &effects->row[i];
    print_error("no row %s\n", key);
    assert_true(false);
    return NULL;
}

static void has_rows(const struct dawn_effects *effects, const char *const *key, size_t count)
{
    assert_int_equal(effects->count, count);
    for (size_t i = 0; i < count; i++)
        (void)row_of(effects, key[i]);
}

/* The lows of a scenario that says so itself, by way of the reader and the nights. */
struct lows {
    double coldest_C, mean_C, air_coldest_C, air_mean_C;
};
static struct lows lows_of_run(const char *path, const char *const *overrides, size_t count,
                               const struct dawn_trajectory_plan *plan)
{
    struct shipped it = {0};
    struct lows lows = {INFINITY, 0, INFINITY, 0};
    shipped_read(&it, path, overrides, count);
    shipped_build(&it);
    shipped_run(&it, plan);
    for (size_t i = 0; i < it.nights.count; i++) {
        const struct dawn_night *night = &it.nights.night[i];
        lows.coldest_C = fmin(lows.coldest_C, night->place_low_C);
        lows.air_coldest_C = fmin(lows.air_coldest_C, night->air_low_C);
        lows.mean_C += night->place_low_C;
        lows.air_mean_C += night->air_low_C;
    }
    lows.mean_C /= (double)it.nights.count;
    lows.air_mean_C /= (double)it.nights.count;
    shipped_release(&it);
    return lows;
}

static void same_lows(const struct dawn_effects_lows *place, const struct dawn_effects_lows *air,
                      struct lows want, double tolerance_K, const char *what)
{
    near(place->coldest_C, want.coldest_C, tolerance_K, what);
    near(place->mean_C, want.mean_C, tolerance_K, what);
    near(air->coldest_C, want.air_coldest_C, tolerance_K, what);
    near(air->mean_C, want.air_mean_C, tolerance_K, what);
}

/* What can be written into a scenario must come out the same by both ways: same numbers, same
 * steps, so but for rounding in the mean. */
static void as_if_written_so(void **state)
{
    static const struct {
        const char *key, *override;
    } written[] = {
        {"leaks", "house.air_changes=0 /h"},
        {"wind", "site.wind_share=0 %"},
        {"zones", "house.zones=1"},
        {"edge", "ground.edge_depth=0 m"},
        {"rock_insulation", "rock.insulation=0 m2K/W"},
    };
    static const char *const demo[] = {"moisture", "zones",    "leaks",        "sky",
                                       "wind",     "fan",      "rock",         "night_fan",
                                       "barrels",  "openings", "film",         "rock_insulation",
                                       "edge",     "dirt",     "soil_freezing"};
    struct dawn_effects_plan plan = nights_of_march(12, 13);
    struct shipped it = {0};
    (void)state;
    shipped_read(&it, DEMO, NULL, 0);
    const struct dawn_effects effects = study(&it, &plan);
    assert_int_equal(effects.nights, 1);
    has_rows(&effects, demo, sizeof demo / sizeof *demo);
    assert_true(effects.at_trays);
    same_lows(&effects.place, &effects.air, lows_of_run(DEMO, NULL, 0, &plan.run), 1e-12, "as is");
    for (size_t i = 0; i < sizeof written / sizeof written[0]; i++) {
        const struct dawn_effects_row *row = row_of(&effects, written[i].key);
        same_lows(&row->place, &row->air, lows_of_run(DEMO, &written[i].override, 1, &plan.run),
                  1e-12, written[i].key);
    }
    /* The fan kept off is the fan left out, to what the solver promises a run (the thermostat's
     * bulb is missing, so that the steps differ). */
    plan.run.fan_allowed = false;
    const struct dawn_effects_row *fan = row_of(&effects, "fan");
    same_lows(&fan->place, &fan->air, lows_of_run(DEMO, NULL, 0, &plan.run), 0.02, "fan");
    shipped_release(&it);
}

/* Rows for what a scenario describes, and for nothing else (the demo, which describes most, is
 * looked at above). */
static void only_what_is_described(void **state)
{
    static const char *const tunnel[] = {"moisture", "leaks", "sky",  "wind",
                                         "openings", "film",  "dirt", "soil_freezing"};
    static const char *const covered[] = {"moisture", "leaks", "sky",           "wind",  "openings",
                                          "film",     "dirt",  "soil_freezing", "covers"};
    /* Even glass lets a hundredth of long-wave through. */
    static const char *const lean_to[] = {"leaks",    "sky",  "wind", "barrels",
                                          "openings", "film", "dirt", "soil_freezing"};
    const struct {
        const char *path;
        const char *const *key;
        size_t count;
    } want[] = {
        {TUNNEL, tunnel, sizeof tunnel / sizeof *tunnel},
        {LEAN_TO, lean_to, sizeof lean_to / sizeof *lean_to},
        {COVERED, covered, sizeof covered / sizeof *covered},
    };
    const struct dawn_effects_plan plan = nights_of_march(12, 13);
    (void)state;
    for (size_t k = 0; k < sizeof want / sizeof *want; k++) {
        struct shipped it = {0};
        shipped_read(&it, want[k].path, NULL, 0);
        const struct dawn_effects effects = study(&it, &plan);
        has_rows(&effects, want[k].key, want[k].count);
        shipped_release(&it);
    }
}

/* Covers over trays and bed are one row, the curtain another; each takes its own away. */
static void covers_and_curtain_apart(void **state)
{
    const struct dawn_effects_plan plan = nights_of_march(12, 13);
    struct shipped it = {0};
    (void)state;
    shipped_read(&it, COVERED, NULL, 0);
    struct dawn_scenario *s = &it.scenario;
    s->covers[s->cover_count] = s->covers[1];
    s->covers[s->cover_count].over = DAWN_OVER_HOUSE;
    ++s->cover_count;
    s->start.temperature_C = 8; /* no trays that freeze */
    const struct dawn_effects both = study(&it, &plan);
    assert_true(dawn_effects_change_at_place(&both, (size_t)(row_of(&both, "covers") - both.row))
                    .coldest_K < -1.0);
    s->covers[0] = s->covers[2];
    s->cover_count = 1;
    const struct dawn_effects curtain = study(&it, &plan);
    near(row_of(&both, "covers")->place.coldest_C, curtain.place.coldest_C, 1e-9,
         "the curtain stays");
    shipped_release(&it);
}

/* In a dry house without a fan every part is warmer when more long-wave comes from the sky, and
 * when more light comes in: the system is cooperative (comparison theorem, Kamke 1932), and what
 * enters has grown. A sky as warm as the air sends more, clean panes let more in. */
static void warmer_sky_clean_panes(void **state)
{
    struct shipped it = {0};
    struct dawn_effects_plan plan = nights_of_march(12, 15);
    (void)state;
    /* Clean panes warm freezing trays by 0.002 K: the usual closeness cannot tell. */
    plan.run.rtol = 1e-8;
    plan.run.atol_K = 1e-6;
    shipped_read(&it, LEAN_TO, NULL, 0);
    const struct dawn_effects effects = study(&it, &plan);
    const char *const keys[] = {"sky", "dirt"};
    for (size_t i = 0; i < 2; i++) {
        const struct dawn_effects_row *row = row_of(&effects, keys[i]);
        assert_true(row->air.coldest_C > effects.air.coldest_C + 0.01);
        assert_true(row->air.mean_C > effects.air.mean_C + 0.01);
        /* Freezing trays are warmer by next to nothing, and yet warmer. */
        assert_true(row->place.mean_C > effects.place.mean_C);
    }
    shipped_release(&it);
}

/* Film without its clearness to long-wave is no mirror: what it no longer lets through it absorbs,
 * as a scenario with just these two numbers. */
static void opaque_film_absorbs(void **state)
{
    /* Clear film of the tunnel: what passes and what is absorbed make up the film type's sum. */
    size_t types = 0;
    const struct dawn_effects_plan plan = nights_of_march(12, 13);
    const struct dawn_glazing_type *type = dawn_scenario_glazing_types(&types);
    struct shipped it = {0};
    struct shipped opaque = {0};
    (void)state;
    shipped_read(&it, TUNNEL, NULL, 0);
    shipped_read(&opaque, TUNNEL, NULL, 0);
    for (size_t i = 0; i < opaque.scenario.glazing_count; i++) {
        const struct dawn_glazing_type *film = &type[opaque.scenario.glazing[i].type];
        assert_true(film->longwave_transmittance > 0.3);
        opaque.scenario.glazing[i].longwave_transmittance = 0.0;
        opaque.scenario.glazing[i].emissivity = film->emissivity + film->longwave_transmittance;
    }
    const struct dawn_effects effects = study(&it, &plan);
    shipped_build(&opaque);
    shipped_run(&opaque, &plan.run);
    const struct dawn_effects_row *row = row_of(&effects, "film");
    near(row->place.coldest_C, opaque.nights.night[0].place_low_C, 1e-12, "film");
    shipped_release(&opaque);
    shipped_release(&it);
}

static double size_of(const struct dawn_effects *effects, size_t row)
{
    const struct dawn_effects_change change = effects->by_air
                                                  ? dawn_effects_change_in_air(effects, row)
                                                  : dawn_effects_change_at_place(effects, row);
    return fabs(change.coldest_K);
}

/* Largest first; by the air where freezing trays hide what changes, in February, and by the trays
 * where nothing freezes. */
static void largest_first(void **state)
{
    (void)state;
    for (int k = 0; k < 2; k++) {
        struct shipped it = {0};
        struct dawn_effects_plan plan = nights_of_march(k == 0 ? -22 : 26, k == 0 ? -20 : 27);
        shipped_read(&it, LEAN_TO, NULL, 0);
        it.scenario.start.temperature_C = k == 0 ? NAN : 25.0;
        const struct dawn_effects effects = study(&it, &plan);
        assert_true(effects.by_air == (k == 0));
        if (k == 0)
            near(effects.place.coldest_C, -0.05, 0.05, "held at the freezing point");
        for (size_t i = 1; i < effects.count; i++)
            assert_true(size_of(&effects, i - 1) >= size_of(&effects, i));
        assert_true(size_of(&effects, 0) > 0.3);
        shipped_release(&it);
    }
}

static bool stop_after_three(size_t done, size_t runs, void *user)
{
    size_t *calls = user;
    assert_int_equal(done, (*calls)++);
    assert_int_equal(runs, 9);
    return done < 3;
}

/* It can be stopped; and nobody's scenario or weather is touched. */
static void stops_and_leaves_no_trace(void **state)
{
    struct shipped it = {0};
    size_t calls = 0;
    struct dawn_effects_plan plan = nights_of_march(12, 13);
    (void)state;
    shipped_read(&it, LEAN_TO, NULL, 0);
    struct dawn_scenario *before = malloc(sizeof *before);
    assert_non_null(before);
    memcpy(before, &it.scenario, sizeof *before);
    double *longwave = it.weather.longwave_W_m2;
    const double sky_W_m2 = longwave[100];
    plan.keep_going = stop_after_three;
    plan.user = &calls;
    const struct dawn_effects effects = study(&it, &plan);
    assert_true(effects.stopped);
    assert_int_equal(calls, 4);
    assert_int_equal(effects.count, 2); /* as it is, and two without */
    assert_memory_equal(before, &it.scenario, sizeof *before);
    assert_ptr_equal(longwave, it.weather.longwave_W_m2);
    near(longwave[100], sky_W_m2, 0.0, "sky");
    free(before);
    shipped_release(&it);
}

static void no_night_no_rows(void **state)
{
    struct shipped it = {0};
    struct dawn_effects_plan plan = nights_of_march(12, 13);
    (void)state;
    shipped_read(&it, LEAN_TO, NULL, 0);
    plan.run.to_s = plan.run.from_s + 6 * 3600;
    const struct dawn_effects effects = study(&it, &plan);
    assert_int_equal(effects.nights, 0);
    assert_int_equal(effects.count, 0);
    shipped_release(&it);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_if_written_so),          cmocka_unit_test(only_what_is_described),
        cmocka_unit_test(covers_and_curtain_apart),  cmocka_unit_test(warmer_sky_clean_panes),
        cmocka_unit_test(opaque_film_absorbs),       cmocka_unit_test(largest_first),
        cmocka_unit_test(stops_and_leaves_no_trace), cmocka_unit_test(no_night_no_rows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
