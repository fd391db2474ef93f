/* Moist air against the handbook's tables. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/water.h"
#include "support/near.h"

/* what moistair.h promises for the Magnus form */
#define MAGNUS 0.0026

static void test_pressure(void **state)
{
    /* ASHRAE Fundamentals 2017, ch. 1 table 1; seen (quoted in public tests) */
    static const double height_m[] = {0, 500, 1000, 4000};
    static const double pressure_Pa[] = {101325, 95461, 89875, 61640};
    (void)state;
    for (int i = 0; i < 4; i++)
        near(dawn_moistair_pressure_Pa(height_m[i]), pressure_Pa[i], 1.0, "standard atmosphere");
    /* FAO-56 example 2: 1800 m, 81.8 kPa; seen. FAO's formula with a constant lapse from 20 C lies
     * 0.4 % above the standard atmosphere there. */
    near_share(dawn_moistair_pressure_Pa(1800.0), 81800.0, 0.005, "1800 m");
}

static void test_saturation_handbook(void **state)
{
    /* ASHRAE Fundamentals 2017, ch. 1 table 3 (Hyland & Wexler); seen. Ice below 0. */
    static const double at_C[] = {-20, -5, 5, 25, 50};
    static const double pressure_Pa[] = {103.24, 401.74, 872.6, 3169.7, 12351.3};
    (void)state;
    for (int i = 0; i < 5; i++)
        near_share(dawn_moistair_saturation_Pa(at_C[i]), pressure_Pa[i], MAGNUS, "saturation");
    near(dawn_moistair_saturation_Pa(-60.0), 1.08, 0.01, "-60 C, below what Magnus promises");
}

static void test_saturation_iapws(void **state)
{
    /* IAPWS-IF97 over water, IAPWS ice; 300 K is the release's own check value (table 35, from
     * memory), the others computed with a public library of it */
    static const double at_C[] = {0.01, 5, 10, 20, 26.85, 30, -5, -10, -20};
    static const double pressure_Pa[] = {611.657,  872.575, 1228.184, 2339.215, 3536.58941,
                                         4246.688, 401.741, 259.874,  103.239};
    (void)state;
    for (int i = 0; i < 9; i++)
        near_share(dawn_moistair_saturation_Pa(at_C[i]), pressure_Pa[i], MAGNUS, "saturation");
}

static void test_saturation_fao(void **state)
{
    /* FAO-56: table 2.3 (seen): 2.338 and 3.168 kPa at 20 and 25 C; example 3 (from memory): 3.075
     * at 24.5, 1.705 at 15 C, mean 2.39; example 5 (from memory): 82 % at 18 C and 54 % at 25 C,
     * mean 1.70 kPa */
    (void)state;
    near_share(dawn_moistair_saturation_Pa(20.0), 2338.0, MAGNUS, "20 C");
    near_share(dawn_moistair_saturation_Pa(25.0), 3168.0, MAGNUS, "25 C");
    near_share(dawn_moistair_saturation_Pa(24.5), 3075.0, MAGNUS, "24.5 C");
    near_share(dawn_moistair_saturation_Pa(15.0), 1705.0, MAGNUS, "15 C");
    double mean = 0.5 * (dawn_moistair_saturation_Pa(24.5) + dawn_moistair_saturation_Pa(15.0));
    near(mean, 2390.0, 5.0, "example 3, to its printed digits");
    mean =
        0.5 * (0.82 * dawn_moistair_saturation_Pa(18.0) + 0.54 * dawn_moistair_saturation_Pa(25.0));
    near(mean, 1700.0, 5.0, "example 5, to its printed digits");
    /* Example 4 (from memory): 25.6 C, 19.5 C wet, blown, at 1200 m: 1.91 kPa, with its
     * psychrometer's 0.000662 p a kelvin. */
    double vapour = dawn_moistair_saturation_Pa(19.5) -
                    0.000662 * dawn_moistair_pressure_Pa(1200.0) * (25.6 - 19.5);
    near(vapour, 1910.0, 5.0, "example 4, to its printed digits");
}

static void test_slope_fao(void **state)
{
    /* FAO-56 table 2.4 (seen): slope of saturation 0.1448 and 0.2434 kPa/K at 20 and 30 C, taken
     * out of the slope of the latent temperature y = L/cp 0.621945 e/(p - e) */
    static const double at[2][2] = {{20.0, 144.8}, {30.0, 243.4}};
    const double p = 101325.0;
    (void)state;
    for (int i = 0; i < 2; i++) {
        double e = dawn_moistair_saturation_Pa(at[i][0]);
        double slope = dawn_moistair_latent_saturated(at[i][0], p).slope * DAWN_MOISTAIR_CP_J_KGK /
                       DAWN_MOISTAIR_LATENT_J_KG * (p - e) * (p - e) / (0.621945 * p);
        near_share(slope, at[i][1], MAGNUS, "slope");
    }
}

static void test_dew_handbook(void **state)
{
    /* ASHRAE Fundamentals 2017, ch. 1, example 1 (seen): air of 40 C with a wet bulb at 20 C holds
     * 0.0065 kg/kg, its dew point is 7 C, both read off a chart; by formula 0.0064008 and 7.434 C
     */
    (void)state;
    double vapour = 101325.0 * 0.0064008 / (0.621945 + 0.0064008);
    near(dawn_moistair_dew_C(vapour), 7.434, 0.03, "dew point");
    near(dawn_moistair_ratio(vapour, 101325.0), 0.0065, 1e-4, "humidity ratio");
}

static void test_saturation_has_no_step(void **state)
{
    (void)state;
    near(dawn_moistair_saturation_Pa(-1e-12), dawn_moistair_saturation_Pa(1e-12), 1e-6, "0 C");
    assert_true(dawn_moistair_saturation_Pa(-10.0) < dawn_moistair_saturation_water_Pa(-10.0));
    double last = 0.0;
    for (double t = -99.0; t < 100.0; t += 0.25) {
        double now = dawn_moistair_saturation_Pa(t);
        assert_true(now > last);
        last = now;
    }
    near(dawn_moistair_saturation_Pa(-273.15), dawn_moistair_saturation_Pa(-100.0), 0.0, "held");
}

static void test_dew(void **state)
{
    (void)state;
    /* 10 C and 60 %, the Magnus form solved: computed closed form */
    near(dawn_moistair_dew_C(0.6 * dawn_moistair_saturation_water_Pa(10.0)), 2.588043, 1e-4,
         "10 C, 60 %");
    /* ASHRAE 2017 ch. 1 example 1 (seen): 40 C dry, 20 C wet: dew point 7 read off the chart; from
     * its formulas W 0.0064008, dew 7.434 (computed closed form). Here from that W. */
    double vapour_Pa = 0.0064008 * 101325.0 / (0.621945 + 0.0064008);
    near(dawn_moistair_dew_C(vapour_Pa), 7.434, 0.02, "example 1, formulas");
    near(dawn_moistair_dew_C(vapour_Pa), 7.0, 0.5, "example 1, chart");
    near(vapour_Pa / dawn_moistair_saturation_Pa(40.0), 0.139795, 0.139795 * MAGNUS,
         "example 1, RH");
    /* 30 C, 60 %: dew 21.39; computed closed form (Hyland & Wexler) */
    near(dawn_moistair_dew_C(0.6 * dawn_moistair_saturation_Pa(30.0)), 21.39, 0.02, "30 C, 60 %");
    for (double t = -90.0; t <= 60.0; t += 1.0)
        near(dawn_moistair_dew_C(dawn_moistair_saturation_water_Pa(t)), t, 1e-9, "inverse");
    assert_true(dawn_moistair_dew_C(0.0) > -110.0 && dawn_moistair_dew_C(0.0) < -100.0);
    assert_true(dawn_moistair_dew_C(-5.0) > -110.0);
}

static void test_ratio(void **state)
{
    (void)state;
    /* ASHRAE 2017 ch. 1 (seen, quoted in public tests): e 3169.7 Pa at 95461 Pa */
    near_share(dawn_moistair_ratio(3169.7, 95461.0), 0.0213604, 3e-4, "from vapour pressure");
    /* ASHRAE 2017 ch. 1 table 2 (seen), saturated at 101325 Pa; 1 %: the table holds the real-gas
     * enhancement of 0.4 % */
    static const double at_C[] = {-20, -5, 5, 25, 50};
    static const double ratio[] = {0.0006373, 0.0024863, 0.005425, 0.020173, 0.086863};
    for (int i = 0; i < 5; i++)
        near_share(dawn_moistair_ratio(dawn_moistair_saturation_Pa(at_C[i]), 101325.0), ratio[i],
                   0.01, "saturated");
    /* 30 C 60 % and 12 C saturated: 0.01604, 0.00873; computed closed form (Hyland & Wexler) */
    near_share(dawn_moistair_ratio(0.6 * dawn_moistair_saturation_Pa(30.0), 101325.0), 0.01604,
               0.005, "30 C, 60 %");
    near_share(dawn_moistair_ratio(dawn_moistair_saturation_Pa(12.0), 101325.0), 0.00873, 0.005,
               "12 C, saturated");
    near(dawn_moistair_ratio(-1.0, 101325.0), 0.0, 0.0, "less than dry");
    assert_true(dawn_moistair_ratio(2e5, 101325.0) < 100.0 &&
                dawn_moistair_ratio(2e5, 101325.0) > 60.0);
}

static void test_density(void **state)
{
    (void)state;
    /* ASHRAE 2017 ch. 1 table 2 (seen): dry air at 25 C 0.8443 m3/kg */
    near_share(dawn_moistair_density_kg_m3(25.0, 101325.0), 1.0 / 0.8443, 1e-3, "25 C");
    /* the same table (seen): enthalpy of dry air 25148 J/kg at 25 C, over 25 K */
    near_share(DAWN_MOISTAIR_CP_J_KGK, 25148.0 / 25.0, 1e-3, "specific heat");
    /* US standard atmosphere 1976: 1.2250 at 15 C; from memory */
    near_share(dawn_moistair_density_kg_m3(15.0, 101325.0), 1.2250, 2e-4, "15 C");
}

static void test_latent_of_ratio(void **state)
{
    (void)state;
    near(dawn_moistair_latent_of_ratio(0.001), 2.5e6 * 0.001 / 1006.0, 1e-12, "1 g/kg");
    for (double ratio = 0.0; ratio < 0.05; ratio += 0.0013)
        near(dawn_moistair_ratio_of_latent(dawn_moistair_latent_of_ratio(ratio)), ratio, 1e-17,
             "there and back");
    /* heat of evaporation, IAPWS-IF97 (public library): 2500.91 kJ/kg at 0.01 C, 2477.21 at 10,
     * 2453.55 at 20, 2429.84 at 30. One figure for all: exact at freezing, 3 % high at 30 C. */
    near_share(DAWN_MOISTAIR_LATENT_J_KG, 2500.91e3, 1e-3, "0 C");
    near_share(DAWN_MOISTAIR_LATENT_J_KG, 2453.55e3, 0.02, "20 C");
    /* Lewis: Le^(2/3) 0.9 in moist air (handbooks, from memory) */
    near(dawn_moistair_latent_film_W_m2K(3.6), 4.0, 1e-12, "film");
    /* the evaporation it stands for: m = h/(cp 0.9) dw, 3 W/(m2 K), 1.5 g/kg over 81 m2 are 1.3
     * to 1.5 kg/h and 0.9 to 1.0 kW; computed closed form: 1.449 kg/h, 1006.6 W */
    near(dawn_moistair_latent_film_W_m2K(3.0) * dawn_moistair_latent_of_ratio(0.0015) * 81.0,
         1006.46, 0.5, "a wet evening");
}

static void test_latent_saturated(void **state)
{
    /* ASHRAE 2017 ch. 1 table 2 (seen), humidity ratio at saturation, 101325 Pa; 1 %: enhancement
     */
    static const double at_C[] = {-20, -5, 5, 25, 50};
    static const double ratio[] = {0.0006373, 0.0024863, 0.005425, 0.020173, 0.086863};
    (void)state;
    for (int i = 0; i < 5; i++)
        near_share(
            dawn_moistair_ratio_of_latent(dawn_moistair_latent_saturated(at_C[i], 101325.0).y_K),
            ratio[i], 0.01, "saturated");
    /* Air of 30 C and 60 % over stones of 12 C at 101325 Pa gives up 18.28 kJ/kg of latent heat
     * (2501 kJ/kg, Hyland & Wexler, computed closed form) */
    double vapour = 0.6 * dawn_moistair_saturation_Pa(30.0);
    double air_K = dawn_moistair_latent_of_ratio(dawn_moistair_ratio(vapour, 101325.0));
    double stone_K = dawn_moistair_latent_saturated(12.0, 101325.0).y_K;
    near_share((air_K - stone_K) * DAWN_MOISTAIR_CP_J_KGK, 18280.0, 5e-3, "charging a bed");
}

static void test_enthalpy(void **state)
{
    /* ASHRAE Fundamentals 2017, ch. 1 table 2 (seen): saturated air of -20, 5 and 25 C has -18542,
     * 18639 and 76504 J/kg; example 1 (seen): 56.7 kJ/kg at 40 C, with 0.0064008 kg/kg by its
     * formulas. Sensible and latent temperature together are ours. 1 %, to which what stands in
     * moistair.h is added: vapour's own warmth, 1.86 kJ/(kg K), is left out. */
    static const double at_C[] = {-20, 5, 25};
    static const double enthalpy[] = {-18542, 18639, 76504};
    (void)state;
    for (int i = 0; i < 3; i++) {
        struct dawn_moistair_latent air = dawn_moistair_latent_saturated(at_C[i], 101325.0);
        double left_out = 1860.0 * dawn_moistair_ratio_of_latent(air.y_K) * at_C[i];
        near(DAWN_MOISTAIR_CP_J_KGK * (at_C[i] + air.y_K) + left_out, enthalpy[i],
             0.01 * fabs(enthalpy[i]), "saturated");
    }
    near(DAWN_MOISTAIR_CP_J_KGK * (40.0 + dawn_moistair_latent_of_ratio(0.0064008)) +
             1860.0 * 0.0064008 * 40.0,
         56700.0, 100.0, "example 1");
    /* and 0.896 m3 a kg of dry air; ours has no water: 1 %, as promised */
    near_share(1.0 / dawn_moistair_density_kg_m3(40.0, 101325.0), 0.896, 0.01, "volume");
}

static void test_saturated_specific_heat(void **state)
{
    /* of saturated air, 1.006 + 2501 dWs/dT, kJ/(kg K), Hyland & Wexler; computed closed form. At 0
     * C by a difference across freezing: the mean of the slopes over ice and over water. */
    static const double at_C[] = {0, 5, 10, 15, 20};
    static const double heat[] = {1.741, 1.957, 2.300, 2.751, 3.337};
    (void)state;
    for (int i = 0; i < 5; i++) {
        double slope = 0.5 * (dawn_moistair_latent_saturated(at_C[i] - 1e-9, 101325.0).slope +
                              dawn_moistair_latent_saturated(at_C[i] + 1e-9, 101325.0).slope);
        near_share(1e-3 * DAWN_MOISTAIR_CP_J_KGK * (1.0 + slope), heat[i], 5e-3, "specific heat");
    }
}

/* Humidity ratio of air that a wet thermometer cools to wet_C while air and water keep their heat:
 * what latent heat the air gains its own warmth pays for, heat_J_kg for a kilogram. */
static double ratio_by_wet_bulb(double dry_C, double wet_C, double pressure_Pa, double heat_J_kg)
{
    double saturated =
        dawn_moistair_ratio_of_latent(dawn_moistair_latent_saturated(wet_C, pressure_Pa).y_K);
    return saturated - DAWN_MOISTAIR_CP_J_KGK * (dry_C - wet_C) / heat_J_kg;
}

static void test_wet_bulb(void **state)
{
    /* ASHRAE Fundamentals 2017, ch. 1, eq. 33 and 35, at 95461 Pa (seen, quoted in public tests):
     * 30 C, 25 C wet: 0.0192281; -1 C, -5 C wet, which is ice: 0.00120400. Example 1, 101325 Pa, 40
     * C, 20 C wet: 0.0064008 by its formulas (computed closed form). Ours takes the water's heat at
     * 0 C and leaves out the vapour's own warmth, 5 % of what the kelvins pay for. On ice the heat
     * is that of sublimation, as condensation and frost together set it free. */
    const double sublimation = DAWN_MOISTAIR_LATENT_J_KG + DAWN_WATER_LATENT_J_KG;
    static const struct {
        double dry_C, wet_C, pressure_Pa, ratio;
    } at[] = {{30, 25, 95461, 0.0192281}, {-1, -5, 95461, 0.00120400}, {40, 20, 101325, 0.0064008}};
    (void)state;
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        double heat_J_kg = at[i].wet_C < 0.0 ? sublimation : DAWN_MOISTAIR_LATENT_J_KG;
        double paid = DAWN_MOISTAIR_CP_J_KGK * (at[i].dry_C - at[i].wet_C) / heat_J_kg;
        double got = ratio_by_wet_bulb(at[i].dry_C, at[i].wet_C, at[i].pressure_Pa, heat_J_kg);
        near(got, at[i].ratio, 0.05 * paid + MAGNUS * at[i].ratio, "by wet bulb");
    }
    /* FAO-56 example 2 (seen): at 81.8 kPa a kelvin pays for 0.054 kPa, by its formula 0.0543; with
     * the heat at 20 C, 2 % less, and 1013 J/(kg K), 0.7 % more than ours. */
    near_share(dawn_moistair_ratio_of_latent(1.0) * 81.8 / 0.621945, 0.054368, 0.03,
               "psychrometer");
}

static void test_latent_slope(void **state)
{
    const double step = 1e-4;
    (void)state;
    for (double pressure = 70000.0; pressure < 105000.0; pressure += 15000.0)
        for (double t = -60.05; t < 60.0; t += 0.73) {
            double rise = dawn_moistair_latent_saturated(t + step, pressure).y_K -
                          dawn_moistair_latent_saturated(t - step, pressure).y_K;
            double slope = dawn_moistair_latent_saturated(t, pressure).slope;
            near(slope, rise / (2.0 * step), 1e-8 + 1e-7 * slope, "slope");
        }
    /* no step at freezing; the slope falls by what the two Magnus curves have: 17.625/243.04 over
     * 22.587/273.86 */
    struct dawn_moistair_latent ice = dawn_moistair_latent_saturated(-1e-9, 101325.0);
    struct dawn_moistair_latent water = dawn_moistair_latent_saturated(0.0, 101325.0);
    near(ice.y_K, water.y_K, 1e-7, "0 C");
    near(water.slope / ice.slope, 17.625 / 243.04 * 273.86 / 22.587, 1e-6, "slope at 0 C");
    /* held at either end, as the value is */
    near(dawn_moistair_latent_saturated(-120.0, 101325.0).slope, 0.0, 0.0, "bitter cold");
    near(dawn_moistair_latent_saturated(150.0, 101325.0).slope, 0.0, 0.0, "boiling");
    near(dawn_moistair_latent_saturated(150.0, 101325.0).y_K,
         dawn_moistair_latent_saturated(160.0, 101325.0).y_K, 0.0, "boiling, held");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pressure),
        cmocka_unit_test(test_saturation_handbook),
        cmocka_unit_test(test_saturation_iapws),
        cmocka_unit_test(test_saturation_fao),
        cmocka_unit_test(test_slope_fao),
        cmocka_unit_test(test_dew_handbook),
        cmocka_unit_test(test_saturation_has_no_step),
        cmocka_unit_test(test_dew),
        cmocka_unit_test(test_ratio),
        cmocka_unit_test(test_density),
        cmocka_unit_test(test_latent_of_ratio),
        cmocka_unit_test(test_latent_saturated),
        cmocka_unit_test(test_enthalpy),
        cmocka_unit_test(test_saturated_specific_heat),
        cmocka_unit_test(test_wet_bulb),
        cmocka_unit_test(test_latent_slope),
    };
    return cmocka_run_group_tests_name("moistair", tests, NULL, NULL);
}
