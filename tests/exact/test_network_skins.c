/* Glazing of one to four skins: what crosses it at rest, and what light each skin takes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "network/network_build.h"
#include "support/near.h"
#include "support/random_nursery.h"
#include "support/tiny.h"

static const double area_m2 = 20.0, gap_m2K_W = 0.18;

/* A dry house with 500 W in it, one roof of glass, in weather that never changes. */
static void describe(struct dawn_scenario *s, struct dawn_weather *weather, double skins)
{
    struct dice dice = {7};
    assert_int_equal(dawn_scenario_usual(s), DAWN_OK);
    s->site.latitude_deg = 45;
    s->site.longitude_deg = s->site.utc_offset_h = 0;
    s->house.length_m = 5;
    s->house.width_m = 4;
    s->house.height_m = 2;
    s->house.heat_W = 500;
    s->glazing_count = 1;
    random_glazing(&dice, &s->glazing[0], 20);
    s->glazing[0].area_m2 = area_m2;
    s->glazing[0].slope_deg = 0;
    s->glazing[0].type = 0; /* glass */
    s->glazing[0].skins = skins;
    s->glazing[0].gap_resistance_m2K_W = skins > 1 ? gap_m2K_W : NAN;
    assert_true(random_weather(&dice, weather, 480));
    for (size_t i = 0; i < weather->count; ++i) {
        weather->air_C[i] = -5;
        weather->dew_C[i] = -9;
        weather->wind_m_s[i] = 3;
        weather->longwave_W_m2[i] = 240;
        weather->ghi_W_m2[i] = weather->dhi_W_m2[i] = weather->dni_W_m2[i] = 0;
    }
}

/* Skins from outside to inside, as they were built. */
static size_t skins_of(const struct dawn_network *net, int skin[])
{
    size_t count = 0;
    for (size_t i = 0; i < dawn_network_node_count(net); ++i)
        if (dawn_network_node(net, i)->role == DAWN_ROLE_GLAZING)
            skin[count++] = (int)i;
    return count;
}

/* At rest the same heat crosses every gap, and it is what resistances in series let through between
 * the outermost and the innermost skin: A dT / ((n - 1) R) (ISO 6946, homogeneous layers; computed
 * closed form). After 20 days of the same weather glass, minutes slow, follows a house that drifts
 * by thousandths of a kelvin an hour: 1e-4. */
static void gaps_are_in_series(void **state)
{
    (void)state;
    double crossed_W[5] = {0};
    for (int skins = 1; skins <= 4; ++skins) {
        struct dawn_scenario scenario;
        struct dawn_weather weather;
        struct dawn_network *net = NULL;
        struct dawn_problems problems = {0};
        int skin[8];
        describe(&scenario, &weather, skins);
        assert_int_equal(dawn_network_build(&net, &scenario, &weather, &problems), DAWN_OK);
        assert_int_equal(skins_of(net, skin), skins);
        struct dawn_trajectory *run = tiny_run(net, NULL, 3600, false);
        const double *T = dawn_trajectory_series_C(run, dawn_trajectory_series_count(run) - 1);
        double inner_C = T[skin[skins - 1]];
        double outer_C = T[skin[0]];
        for (int i = 1; i < skins; ++i)
            near_share(area_m2 * (T[skin[i]] - T[skin[i - 1]]) / gap_m2K_W,
                       area_m2 * (inner_C - outer_C) / ((skins - 1) * gap_m2K_W), 1e-4,
                       "through one gap");
        crossed_W[skins] =
            skins > 1 ? area_m2 * (inner_C - outer_C) / ((skins - 1) * gap_m2K_W) : 0;
        assert_true(skins < 3 || crossed_W[skins] < crossed_W[skins - 1]);
        dawn_trajectory_free(run);
        dawn_network_free(net);
        dawn_weather_release(&weather);
        dawn_scenario_release(&scenario);
        dawn_problems_release(&problems);
    }
}

/* Level glass below the sun: each skin takes what the stack's optics say of it, outermost first
 * (tested in physics); nothing is left over. */
static void each_skin_takes_its_light(void **state)
{
    (void)state;
    struct light_plan plan = {.pane_count = 1};
    struct light_now now = {
        .sun = {.cos_zenith = 1.0}, .dni_W_m2 = 600, .extraterrestrial_W_m2 = 1361};
    const struct dawn_glazing_build build = {
        .skins = 3, .layers = {{1.526, 0.05}, {1.526, 0.05}, {1.526, 0.05}}};
    struct dawn_glazing_optics want = dawn_glazing_beam(build.layers, 3, 1.0);
    double gain_W[4] = {0};
    plan.panes[0] = (struct light_pane){.area_m2 = 2, .facing = {.up = 1.0}, .pass = 1};
    dawn_network_light_pane(&plan.panes[0], &build);
    for (size_t i = 0; i < 3; ++i)
        plan.panes[0].channel[i] = i;
    dawn_network_light_receive(
        &plan,
        (struct light_receiver){.channel = 3, .direct_m2 = 1, .area_m2 = 1, .absorptance = 1});
    dawn_network_light(&plan, &now, gain_W);
    for (size_t i = 0; i < 3; ++i)
        near_share(gain_W[i], 1200 * want.absorbed[i], 1e-9, "one skin");
    near_share(gain_W[3], 1200 * want.transmitted, 1e-9, "let through");
    assert_true(gain_W[0] > gain_W[1] && gain_W[1] > gain_W[2]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gaps_are_in_series),
        cmocka_unit_test(each_skin_takes_its_light),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
