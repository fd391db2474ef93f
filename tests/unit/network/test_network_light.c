/* Light inside the house: none is lost, none is made. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "network/network_light.h"
#include "support/near.h"

static const double pi = 3.14159265358979323846;

/* One flat clear pane over two receivers; the sun at a zenith angle. */
static void house(struct light_plan *plan, double floor_absorptance, double wall_absorptance)
{
    memset(plan, 0, sizeof *plan);
    plan->pane_count = 1;
    plan->panes[0] = (struct light_pane){.area_m2 = 10, .facing = {.up = 1.0}, .pass = 0.8};
    const struct dawn_glazing_build glass = {
        .skins = 1, .layers = {{1.526, dawn_glazing_extinction(1.526, 1, 0.86)}}};
    dawn_network_light_pane(&plan->panes[0], &glass);
    plan->panes[0].channel[0] = 0;
    dawn_network_light_receive(
        plan, (struct light_receiver){
                  .channel = 1, .direct_m2 = 10, .area_m2 = 10, .absorptance = floor_absorptance});
    dawn_network_light_receive(
        plan, (struct light_receiver){
                  .channel = 2, .direct_m2 = 4, .area_m2 = 8, .absorptance = wall_absorptance});
    plan->to_noon = dawn_sun_facing(pi / 2, pi);
}

static struct light_now noon(double zenith_rad)
{
    return (struct light_now){.sun = {.cos_zenith = cos(zenith_rad),
                                      .zenith_rad = zenith_rad,
                                      .azimuth_rad = pi,
                                      .north = -sin(zenith_rad)},
                              .dni_W_m2 = 700,
                              .dhi_W_m2 = 100,
                              .extraterrestrial_W_m2 = 1361,
                              .measured_split = false};
}

/* Black surfaces keep all that the pane lets through: 10 m2 x 0.8 x (beam tau + diffuse tau), with
 * the pane's own optics (Fresnel, tested in physics). */
static void black_house_keeps_all(void **state)
{
    (void)state;
    struct light_plan plan;
    double gain[3] = {0};
    struct light_now now = noon(0.5);
    house(&plan, 1.0, 1.0);
    dawn_network_light(&plan, &now, gain);
    const struct dawn_glazing_layer layer = {1.526, dawn_glazing_extinction(1.526, 1, 0.86)};
    double beam = dawn_glazing_beam(&layer, 1, cos(0.5)).transmitted;
    double diffuse = dawn_glazing_diffuse(&layer, 1).transmitted;
    /* Hay-Davies on a flat plane gives back the horizontal sums. */
    double want = 8.0 * (700 * cos(0.5) * beam + 100 * diffuse);
    double anisotropic = 8.0 * 100 * (700.0 / 1361.0) * fabs(beam - diffuse);
    near(gain[1] + gain[2], want, anisotropic + 0.5, "kept");
    near_share(gain[1] / gain[2], 10.0 / 4.0, 1e-9, "by weight");
    assert_true(gain[0] > 0); /* the pane keeps a little itself */
}

/* Half-grey surfaces: what is not absorbed wanders and partly leaves through the pane. */
static void grey_house_lets_some_out(void **state)
{
    (void)state;
    struct light_plan plan;
    double black[3] = {0};
    double grey[3] = {0};
    struct light_now now = noon(0.5);
    house(&plan, 1.0, 1.0);
    dawn_network_light(&plan, &now, black);
    house(&plan, 0.5, 0.5);
    dawn_network_light(&plan, &now, grey);
    double out_m2 = 8.0 * plan.panes[0].diffuse.transmitted;
    double in_m2 = 0.5 * 10 + 0.5 * 8;
    double inside = black[1] + black[2];
    /* Integrating sphere: of the reflected half, in/(in + out) stays (computed closed form). */
    near_share(grey[1] + grey[2], inside * (0.5 + 0.5 * in_m2 / (in_m2 + out_m2)), 1e-9, "kept");
}

/* By night nothing is added. */
static void darkness_adds_nothing(void **state)
{
    (void)state;
    struct light_plan plan;
    double gain[3] = {1, 2, 3};
    struct light_now now = noon(2.0);
    now.dni_W_m2 = now.dhi_W_m2 = 0;
    house(&plan, 0.8, 0.8);
    dawn_network_light(&plan, &now, gain);
    near(gain[0] + gain[1] + gain[2], 6.0, 0.0, "unchanged");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(black_house_keeps_all),
        cmocka_unit_test(grey_house_lets_some_out),
        cmocka_unit_test(darkness_adds_nothing),
    };
    return cmocka_run_group_tests_name("network light", tests, NULL, NULL);
}
