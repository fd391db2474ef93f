/* Long-wave radiation from the sky. The formulas of Berdahl & Martin and of Prata were seen in
 * several public sources; the values are those formulas computed in closed form. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/sky.h"
#include "support/near.h"

static void test_berdahl(void **state)
{
    static const double dew_C[] = {10.0, 5.0, -5.0, -10.0, -15.0};
    static const double emissivity[] = {0.774300, 0.740825, 0.684825, 0.662300, 0.643425};
    (void)state;
    for (int i = 0; i < 5; i++)
        near(dawn_sky_emissivity_berdahl(dew_C[i], NAN, NAN), emissivity[i], 1e-6,
             "Berdahl & Martin");
}

static void test_berdahl_hour_and_pressure(void **state)
{
    /* Berdahl & Martin 1984: + 0.013 cos(2 pi h/24), + 0.00012 (P - 1000 mbar); formula seen */
    (void)state;
    double bare = dawn_sky_emissivity_berdahl(-5.0, NAN, NAN);
    near(dawn_sky_emissivity_berdahl(-5.0, 0.0, NAN) - bare, 0.013, 1e-12, "midnight");
    near(dawn_sky_emissivity_berdahl(-5.0, 12.0, NAN) - bare, -0.013, 1e-12, "noon");
    near(dawn_sky_emissivity_berdahl(-5.0, 6.0, NAN) - bare, 0.0, 1e-12, "six");
    near(dawn_sky_emissivity_berdahl(-5.0, NAN, 83000.0) - bare, -0.0204, 1e-12, "830 mbar");
}

static void test_berdahl_beyond_its_range(void **state)
{
    (void)state;
    /* drier must never mean a warmer sky, nor any air more than a black one */
    double last = 0.0;
    for (double dew_C = -90.0; dew_C < 60.0; dew_C += 0.5) {
        double emissivity = dawn_sky_emissivity_berdahl(dew_C, 0.0, 101325.0);
        assert_true(emissivity >= last && emissivity <= 1.0);
        last = emissivity;
    }
}

static void test_sky_temperature_and_radiation(void **state)
{
    static const struct {
        double air_C, dew_C, sky_C, longwave_W_m2;
    } at[] = {
        {20.0, 10.0, 1.8402, 324.250},     {10.0, 5.0, -10.4588, 270.019},
        {0.0, -5.0, -24.6673, 216.170},    {-5.0, -10.0, -31.2469, 194.168},
        {-10.0, -15.0, -37.4672, 174.954}, {2.0, -3.0, -21.936267, NAN},
    };
    (void)state;
    for (int i = 0; i < 6; i++) {
        double emissivity = dawn_sky_emissivity_berdahl(at[i].dew_C, NAN, NAN);
        double longwave = dawn_sky_longwave_W_m2(emissivity, at[i].air_C);
        if (!isnan(at[i].longwave_W_m2))
            near(longwave, at[i].longwave_W_m2, 1e-3, "radiation");
        near(dawn_sky_temperature_C(longwave), at[i].sky_C, 1e-3, "temperature");
    }
    near(dawn_sky_temperature_C(-1.0), -273.15, 0.0, "no radiation");
}

/* Clear sky, Prata 1996 (Q. J. R. Meteorol. Soc. 122:1127), formula seen: another fit to other
 * measurements. */
static double prata(double air_C, double vapour_Pa)
{
    double water_cm = 46.5 * vapour_Pa / 100.0 / (air_C + 273.15);
    return 1.0 - (1.0 + water_cm) * exp(-sqrt(1.2 + 3.0 * water_cm));
}

static void test_two_models_agree(void **state)
{
    /* Two fits to different measurements. At ordinary dew points comparisons of such formulas
     * spread over some 15 W/m2, 0.045 of what a black sky sends (common practice, no source). */
    (void)state;
    for (double dew_C = -5.0; dew_C <= 20.0; dew_C += 5.0) {
        double vapour_Pa = dawn_moistair_saturation_water_Pa(dew_C);
        near(dawn_sky_emissivity_berdahl(dew_C, NAN, NAN), prata(dew_C + 6.0, vapour_Pa), 0.045,
             "Berdahl & Martin against Prata");
    }
}

static void test_cloud(void **state)
{
    /* Unsworth & Monteith 1975, from memory; value computed closed form */
    (void)state;
    near(dawn_sky_cloudy(0.6623, 0.5), 0.804134, 1e-6, "half covered");
    near(dawn_sky_cloudy(0.6623, 0.0), 0.6623, 1e-15, "clear");
    near(dawn_sky_cloudy(0.6623, 1.0), 0.84 + 0.16 * 0.6623, 1e-12, "overcast");
    near(dawn_sky_cloudy(0.6623, 7.0), dawn_sky_cloudy(0.6623, 1.0), 0.0, "more than all");
    near(dawn_sky_cloudy(0.6623, -1.0), 0.6623, 1e-15, "less than none");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_berdahl),
        cmocka_unit_test(test_berdahl_hour_and_pressure),
        cmocka_unit_test(test_berdahl_beyond_its_range),
        cmocka_unit_test(test_sky_temperature_and_radiation),
        cmocka_unit_test(test_two_models_agree),
        cmocka_unit_test(test_cloud),
    };
    return cmocka_run_group_tests_name("sky", tests, NULL, NULL);
}
