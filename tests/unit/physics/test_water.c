/* Water that can freeze; drums. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/water.h"
#include "support/near.h"

#define KG     200.0
#define HEAT   (KG * DAWN_WATER_HEAT_J_KGK)
#define FROZEN (KG * DAWN_WATER_ICE_HEAT_J_KGK)
#define LATENT (KG * DAWN_WATER_LATENT_J_KG)
#define PI     3.14159265358979323846

static void test_constants(void **state)
{
    /* IAPWS liquid at 1 atm, computed with a public library: one number for all within 0.6 %. A
     * barrel that cools by 5 K at 4 C has 0.5 % more to give than is counted, as if it were 0.03 K
     * warmer. */
    static const double at_C[] = {4, 10, 20, 40};
    static const double density_kg_m3[] = {999.975, 999.702, 998.206, 992.224};
    static const double heat_J_kgK[] = {4207.4, 4195.4, 4184.8, 4178.6};
    double stored_J_kg = 0.0;
    (void)state;
    for (int i = 0; i < 4; i++) {
        near_share(DAWN_WATER_HEAT_J_KGK, heat_J_kgK[i], 0.006, "specific heat");
        if (i > 0)
            stored_J_kg += 0.5 * (heat_J_kgK[i - 1] + heat_J_kgK[i]) * (at_C[i] - at_C[i - 1]);
        /* Nobody fills a barrel with warmer water, and warmed it swells, but weighs the same. */
        if (at_C[i] <= 20.0)
            near_share(DAWN_WATER_KG_M3, density_kg_m3[i], 0.002, "weight of what is filled in");
    }
    near_share(DAWN_WATER_HEAT_J_KGK * 36.0, stored_J_kg, 0.001, "heat between 4 and 40 C");
    /* what the ground's water, which nobody weighs, holds per volume at 40 C */
    near_share(DAWN_WATER_KG_M3 * DAWN_WATER_HEAT_J_KGK, density_kg_m3[3] * heat_J_kgK[3], 0.01,
               "heat of a volume, 40 C");
    /* handbooks, from memory: 333.55 kJ/kg to melt, ice 2.05 kJ/(kg K) near -5 C */
    near_share(DAWN_WATER_LATENT_J_KG, 333.55e3, 1e-3, "melting");
}

static void test_enthalpy_map(void **state)
{
    /* J/kg to C of one kilogram; computed closed form for a sharp front, so within the freezing
     * width
     */
    static const double enthalpy[] = {41860.0, 0.0, -100e3, -333.5e3, -354e3};
    static const double want_C[] = {10.0, 0.0, 0.0, 0.0, -10.0};
    (void)state;
    for (int i = 0; i < 5; i++)
        near(dawn_water_from_enthalpy(enthalpy[i] / DAWN_WATER_HEAT_J_KGK, DAWN_WATER_HEAT_J_KGK,
                                      DAWN_WATER_ICE_HEAT_J_KGK, DAWN_WATER_LATENT_J_KG)
                 .temperature_C,
             want_C[i], DAWN_WATER_FREEZING_WIDTH_K, "temperature");
    near(dawn_water_from_enthalpy(-100e3 / DAWN_WATER_HEAT_J_KGK, DAWN_WATER_HEAT_J_KGK,
                                  DAWN_WATER_ICE_HEAT_J_KGK, DAWN_WATER_LATENT_J_KG)
             .ice_share,
         100.0 / 333.5, 1e-3, "share of ice");
}

static void test_there_and_back(void **state)
{
    (void)state;
    for (double t = -30.0; t <= 40.0; t += 0.013) {
        double y = dawn_water_to_enthalpy(t, HEAT, FROZEN, LATENT);
        struct dawn_water_state now = dawn_water_from_enthalpy(y, HEAT, FROZEN, LATENT);
        near(now.temperature_C, t, 1e-9, "there and back");
        assert_true(now.ice_share >= 0.0 && now.ice_share <= 1.0);
        assert_true(now.ice_share == 0.0 || t < 0.0);
        assert_true(now.ice_share == 1.0 || t > -DAWN_WATER_FREEZING_WIDTH_K - 1e-9);
    }
}

static void test_slope(void **state)
{
    const double step = 1e-4;
    (void)state;
    for (double y = -120.0; y < 20.0; y += 0.0477) {
        double up = dawn_water_from_enthalpy(y + step, HEAT, FROZEN, LATENT).temperature_C;
        double down = dawn_water_from_enthalpy(y - step, HEAT, FROZEN, LATENT).temperature_C;
        struct dawn_water_state now = dawn_water_from_enthalpy(y, HEAT, FROZEN, LATENT);
        assert_true(now.slope > 0.0 && up > down);
        if (fabs(y) > 2.0 * step && fabs(now.temperature_C + DAWN_WATER_FREEZING_WIDTH_K) > 1e-3)
            near(now.slope, (up - down) / (2.0 * step), 1e-8, "dT/dy");
    }
}

static void test_dry_mass(void **state)
{
    (void)state;
    /* no water in it: enthalpy is temperature */
    for (double y = -20.0; y < 20.0; y += 0.03)
        near(dawn_water_from_enthalpy(y, 5e5, 5e5, 0.0).temperature_C, y, 1e-9, "T = y");
}

static void test_energy_of_freezing(void **state)
{
    /* From 10 C to -10 C: sensible + latent + sensible, computed closed form */
    (void)state;
    double y1 = dawn_water_to_enthalpy(10.0, HEAT, FROZEN, LATENT);
    double y2 = dawn_water_to_enthalpy(-10.0, HEAT, FROZEN, LATENT);
    near_share((y1 - y2) * HEAT, 10.0 * HEAT + LATENT + 10.0 * FROZEN, 2e-3, "heat given off");
    near((y1 - y2) * HEAT - (10.0 * HEAT + LATENT + 10.0 * FROZEN), 0.05 * (HEAT - FROZEN), 1e-3,
         "the freezing width's own part");
}

/* Hours until the drum has lost its enthalpy down to y, at a constant U and outside temperature. */
static double hours_until(double from_y, double to_y, double loss_W_K, double outside_C,
                          double heat)
{
    /* the time is the integral of heat / loss over y: Simpson's rule on the map */
    enum { PARTS = 20000 };
    double sum = 0.0;
    double h = (from_y - to_y) / PARTS;
    for (int i = 0; i <= PARTS; i++) {
        double t =
            dawn_water_from_enthalpy(to_y + h * i, heat, KG * DAWN_WATER_ICE_HEAT_J_KGK, LATENT)
                .temperature_C;
        double weight = i == 0 || i == PARTS ? 1.0 : i % 2 ? 4.0 : 2.0;
        sum += weight / (t - outside_C);
    }
    return sum * h / 3.0 * heat / loss_W_K / 3600.0;
}

static void test_drum_in_the_cold(void **state)
{
    /* 200 kg in a drum of 0.572 x 0.851 m, side and one end, U 8, air -5 C: 17.8963 h from 10 C to
     * the freezing point with 4190 J/(kg K), then 259.317 h to freeze; computed closed form of the
     * lumped balance. A front spread over 0..-0.1 K sees 4.95 K instead of 5 in the mean: 1.0 %
     * longer, and holds 0.09 % more heat. */
    const double heat = KG * 4190.0;
    (void)state;
    struct dawn_water_drum drum = dawn_water_drum_of(0.25 * PI * 0.572 * 0.572 * 0.851);
    double loss_W_K = 8.0 * (drum.side_m2 + drum.top_m2);
    near_share(hours_until(10.0, 0.0, loss_W_K, -5.0, heat), 17.8963, 1e-3, "to 0 C");
    double solid_y = dawn_water_to_enthalpy(-DAWN_WATER_FREEZING_WIDTH_K, heat, FROZEN, LATENT);
    double hours = hours_until(0.0, solid_y, loss_W_K, -5.0, heat);
    near_share(hours, 259.317, 0.012, "frozen through, against a sharp front");
    /* the spread front in closed form: energy ln(5/4.9)/0.1 per U A */
    near_share(hours, -solid_y * heat / loss_W_K * log(5.0 / 4.9) / 0.1 / 3600.0, 1e-6,
               "frozen through");
}

static void test_drum(void **state)
{
    /* The common 200 L steel drum: inside 0.572 m by 0.851 m (common practice, no source),
     * side 1.529 m2, end 0.257 m2 */
    (void)state;
    struct dawn_water_drum drum = dawn_water_drum_of(0.25 * PI * 0.572 * 0.572 * 0.851);
    near_share(drum.diameter_m, 0.572, 2e-3, "diameter");
    near_share(drum.height_m, 0.851, 2e-3, "height");
    near_share(drum.side_m2, PI * 0.572 * 0.851, 2e-3, "side");
    near_share(drum.top_m2, 0.25 * PI * 0.572 * 0.572, 3e-3, "end");
    near_share(drum.outline_m2, 0.572 * 0.851, 2e-3, "outline");
    near_share(drum.top_m2 * drum.height_m, 0.25 * PI * 0.572 * 0.572 * 0.851, 1e-12, "volume");
    near(dawn_water_drum_of(0.0).side_m2, 0.0, 0.0, "no drum");
}

/* Liquid gives heat below 0 C and ice takes it above, in proportion; neither where there is none;
 * the slopes against differences (computed closed form). */
static void test_film_fusion(void **state)
{
    (void)state;
    near(dawn_water_film_fusion(-2.0, 0.005, 0.0).W_m2, 500.0 * 2.0 * 0.5, 1e-9, "half freezes");
    near(dawn_water_film_fusion(-2.0, 0.0, 0.5).W_m2, 0.0, 1e-12, "ice stays");
    near(dawn_water_film_fusion(3.0, 0.5, 0.015).W_m2, -500.0 * 3.0 * 0.75, 1e-9, "ice thaws");
    near(dawn_water_film_fusion(3.0, 0.5, 0.0).W_m2, 0.0, 1e-12, "liquid stays");
    near(dawn_water_film_fusion(0.0, 0.02, 0.02).W_m2, 0.0, 1e-12, "both, at rest");
    assert_true(dawn_water_film_fusion(-1.0, -1e-4, 0.01).W_m2 < 0.0); /* more ice than water */
    const double by = 1e-7;
    for (double C = -0.3; C < 0.31; C += 0.06) {
        struct dawn_water_fusion at = dawn_water_film_fusion(C, 0.004, 0.02);
        double warmer = dawn_water_film_fusion(C + by, 0.004, 0.02).W_m2 - at.W_m2;
        double wetter = dawn_water_film_fusion(C, 0.004 + by, 0.02).W_m2 - at.W_m2;
        double icier = dawn_water_film_fusion(C, 0.004, 0.02 + by).W_m2 - at.W_m2;
        near(at.by_surface_W_m2K, warmer / by, 1e-2, "by surface");
        near(at.by_liquid_W_kg, wetter / by, 1e-3 * at.by_liquid_W_kg + 1e-2, "by liquid");
        near(at.by_ice_W_kg, icier / by, -1e-3 * at.by_ice_W_kg + 1e-2, "by ice");
        assert_true(at.by_surface_W_m2K < 0.0); /* the warmer, the less it gives */
    }
    /* To frost sets free the heat of sublimation, 2.834 MJ/kg at 0 C (steam tables, from memory):
     * condensation and fusion together. */
    near(DAWN_MOISTAIR_LATENT_J_KG + DAWN_WATER_LATENT_J_KG, 2.834e6, 0.001e6, "sublimation");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_constants),        cmocka_unit_test(test_enthalpy_map),
        cmocka_unit_test(test_there_and_back),   cmocka_unit_test(test_slope),
        cmocka_unit_test(test_dry_mass),         cmocka_unit_test(test_energy_of_freezing),
        cmocka_unit_test(test_drum_in_the_cold), cmocka_unit_test(test_drum),
        cmocka_unit_test(test_film_fusion),
    };
    return cmocka_run_group_tests_name("water", tests, NULL, NULL);
}
