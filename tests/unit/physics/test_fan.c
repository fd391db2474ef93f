/* A fan against ducts and rock. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/fan.h"
#include "dawnlow/physics/rockbed.h"
#include "support/near.h"

#define PI 3.14159265358979323846

static struct dawn_fan_curve curve_of_ends(double free_air_m3_s, double greatest_Pa)
{
    struct dawn_fan_curve curve;
    assert_int_equal(dawn_fan_curve_of_ends(free_air_m3_s, greatest_Pa, &curve).fault,
                     DAWN_FAN_SOUND);
    return curve;
}

static void test_curve_of_ends(void **state)
{
    /* p0 (1 - (Q/Qmax)^2): the shape of the curve, and on beyond its ends */
    (void)state;
    struct dawn_fan_curve curve = curve_of_ends(0.35, 120.0);
    for (double flow = 0.0; flow < 1.0; flow += 0.013)
        near(dawn_fan_pressure_Pa(&curve, flow), 120.0 * (1.0 - flow * flow / 0.1225), 1e-9,
             "curve");
    near(dawn_fan_pressure_Pa(&curve, -0.35), 240.0, 1e-9, "blown backwards");
}

static void test_curve_of_points(void **state)
{
    static const struct dawn_fan_point points[] = {
        {0.02, 310.0}, {0.12, 260.0}, {0.2, 150.0}, {0.27, 0.0}};
    (void)state;
    for (size_t count = 2; count <= DAWN_FAN_POINTS; count++) {
        struct dawn_fan_curve curve;
        assert_int_equal(dawn_fan_curve_make(count, points, &curve).fault, DAWN_FAN_SOUND);
        for (size_t i = 0; i < count; i++)
            near(dawn_fan_pressure_Pa(&curve, points[i].flow_m3_s), points[i].pressure_Pa, 1e-9,
                 "through its points");
        double last = INFINITY;
        for (double flow = -0.3; flow < 0.6; flow += 0.0071) {
            double now = dawn_fan_pressure_Pa(&curve, flow);
            assert_true(now < last);
            last = now;
        }
    }
}

static void test_points_of_a_square_law_give_it_back(void **state)
{
    /* four points of a fan that is a square law are that law, between and beyond them */
    struct dawn_fan_point points[DAWN_FAN_POINTS];
    struct dawn_fan_curve curve;
    (void)state;
    for (int i = 0; i < DAWN_FAN_POINTS; i++) {
        double flow = 0.03 + 0.08 * i;
        points[i] = (struct dawn_fan_point){flow, 200.0 - 1500.0 * flow * flow};
    }
    assert_int_equal(dawn_fan_curve_make(DAWN_FAN_POINTS, points, &curve).fault, DAWN_FAN_SOUND);
    for (double flow = 0.0; flow < 0.5; flow += 0.011)
        near(dawn_fan_pressure_Pa(&curve, flow), 200.0 - 1500.0 * flow * flow, 1e-9, "square law");
}

static void faulty(size_t count, const struct dawn_fan_point points[], enum dawn_fan_fault fault,
                   size_t point)
{
    struct dawn_fan_curve curve = {.count = 3};
    struct dawn_fan_check check = dawn_fan_curve_make(count, points, &curve);
    assert_int_equal(check.fault, fault);
    assert_int_equal(check.point, point);
    assert_int_equal(curve.count, 0);
    near(dawn_fan_pressure_Pa(&curve, 0.1), 0.0, 0.0, "no curve");
}

static void test_faults(void **state)
{
    static const struct dawn_fan_point sound[] = {
        {0.0, 50.0}, {0.1, 40.0}, {0.2, 30.0}, {0.3, 20.0}, {0.4, 10.0}};
    (void)state;
    faulty(0, sound, DAWN_FAN_FEW, 0);
    faulty(1, sound, DAWN_FAN_FEW, 1);
    faulty(5, sound, DAWN_FAN_MANY, 5);
    faulty(2, (const struct dawn_fan_point[]){{-0.1, 50.0}, {0.1, 40.0}}, DAWN_FAN_IMPOSSIBLE, 0);
    faulty(2, (const struct dawn_fan_point[]){{0.0, 50.0}, {0.1, -1.0}}, DAWN_FAN_IMPOSSIBLE, 1);
    faulty(2, (const struct dawn_fan_point[]){{0.0, 50.0}, {NAN, 1.0}}, DAWN_FAN_IMPOSSIBLE, 1);
    faulty(2, (const struct dawn_fan_point[]){{0.0, INFINITY}, {0.1, 1.0}}, DAWN_FAN_IMPOSSIBLE, 0);
    faulty(3, (const struct dawn_fan_point[]){{0.0, 50.0}, {0.2, 40.0}, {0.2, 30.0}},
           DAWN_FAN_NOT_RISING, 2);
    /* the dip of a stalling fan */
    faulty(3, (const struct dawn_fan_point[]){{0.0, 50.0}, {0.1, 40.0}, {0.2, 45.0}},
           DAWN_FAN_NOT_FALLING, 2);
    faulty(2, (const struct dawn_fan_point[]){{0.0, 50.0}, {0.1, 50.0}}, DAWN_FAN_NOT_FALLING, 1);
    struct dawn_fan_curve curve;
    assert_int_equal(dawn_fan_curve_of_ends(0.0, 50.0, &curve).fault, DAWN_FAN_NOT_RISING);
    assert_int_equal(dawn_fan_curve_of_ends(0.3, 0.0, &curve).fault, DAWN_FAN_NOT_FALLING);
}

/* Colebrook & White 1939, solved by iteration */
static double colebrook(double reynolds, double roughness_share)
{
    double root = 8.0;
    for (int i = 0; i < 60; i++)
        root = -2.0 * log10(roughness_share / 3.7 + 2.51 * root / reynolds);
    return 1.0 / (root * root);
}

static void test_friction(void **state)
{
    (void)state;
    /* Haaland 1983: within 2 % of Colebrook & White for Re 4000..1e8 (stated range, from memory) */
    for (double reynolds = 4000.0; reynolds < 1e8; reynolds *= 1.7) {
        near_share(dawn_fan_friction(reynolds, 0.0), colebrook(reynolds, 0.0), 0.02, "smooth");
        for (double share = 1e-6; share < 0.05; share *= 3.0)
            near_share(dawn_fan_friction(reynolds, share), colebrook(reynolds, share), 0.02,
                       "rough");
    }
    /* Moody's chart: smooth pipe, Re 1e5, 0.018 (from memory) */
    near_share(dawn_fan_friction(1e5, 0.0), 0.018, 0.02, "Moody");
    /* Hagen & Poiseuille */
    near(dawn_fan_friction(1000.0, 0.01), 0.064, 1e-15, "laminar");
    /* no step where the one passes into the other */
    near_share(dawn_fan_friction(2000.0 + 1e-6, 0.001), dawn_fan_friction(2000.0, 0.001), 1e-6,
               "2000");
    near_share(dawn_fan_friction(4000.0 - 1e-6, 0.001), dawn_fan_friction(4000.0, 0.001), 1e-6,
               "4000");
}

static void test_duct(void **state)
{
    (void)state;
    /* corrugated, 0.2 m, 6 m, 0.25 m3/s: v 7.9577 m/s, dynamic pressure 37.995 Pa at 1.2 kg/m3;
     * 0.04 x 30 + entry, two bends, exit = 3.9 of them (coefficients from memory); closed form */
    struct dawn_fan_duct duct = {.diameter_m = 0.2,
                                 .length_m = 6.0,
                                 .corrugated = true,
                                 .losses = DAWN_FAN_LOSS_ENTRY + 2.0 * DAWN_FAN_LOSS_BEND +
                                           DAWN_FAN_LOSS_EXIT};
    near_share(dawn_fan_duct_Pa(&duct, 0.25, 1.2), 3.9 * 0.6 * 7.957747 * 7.957747, 1e-6,
               "corrugated");
    near(dawn_fan_duct_Pa(&duct, -0.25, 1.2), dawn_fan_duct_Pa(&duct, 0.25, 1.2), 0.0, "backwards");
    near(dawn_fan_duct_Pa(&duct, 0.0, 1.2), 0.0, 0.0, "no flow");
    /* creeping: Hagen & Poiseuille's 128 mu L Q/(pi d^4), mu 1.81e-5 */
    struct dawn_fan_duct pipe = {.diameter_m = 0.1, .length_m = 5.0};
    near_share(dawn_fan_duct_Pa(&pipe, 1e-3, 1.2), 128.0 * 1.81e-5 * 5.0 * 1e-3 / (PI * 1e-4), 1e-9,
               "creeping");
    /* Air friction chart for sheet metal ducts, 1.2 kg/m3: 250 mm at 5 m/s about 1.3 Pa/m (ASHRAE
     * chart, from memory, read to 10 %) */
    struct dawn_fan_duct sheet = {.diameter_m = 0.25, .length_m = 1.0};
    near_share(dawn_fan_duct_Pa(&sheet, 5.0 * PI * 0.0625 / 4.0, 1.2), 1.3, 0.1, "friction chart");
}

static void test_path(void **state)
{
    (void)state;
    const struct dawn_fan_duct ducts[2] = {{0.2, 4.0, true, 0.5}, {0.25, 2.0, false, 1.0}};
    struct dawn_fan_path path = {.linear_Pa_s_m3 = 40.0,
                                 .square_Pa_s2_m6 = 300.0,
                                 .duct_count = 2,
                                 .ducts = ducts,
                                 .bed_face_m2 = 2.5,
                                 .bed_length_m = 1.8,
                                 .stone_m = 0.05,
                                 .void_share = 0.42,
                                 .density_kg_m3 = 1.2};
    double without = 40.0 * 0.2 + 300.0 * 0.04 + dawn_fan_duct_Pa(&ducts[0], 0.2, 1.2) +
                     dawn_fan_duct_Pa(&ducts[1], 0.2, 1.2);
    double flux = 1.2 * 0.2 / 2.5;
    near(dawn_fan_path_Pa(0.2, &path),
         without + 1.8 * dawn_rockbed_drop_dunkle_ellul_Pa_m(flux, 0.05, 1.2), 1e-12, "all of it");
    path.stone_shape = 2.5;
    near(dawn_fan_path_Pa(0.2, &path),
         without + 1.8 * dawn_rockbed_drop_mccorquodale_Pa_m(flux, 0.05, 0.42, 2.5, 1.2), 1e-12,
         "crushed");
    path.bed_face_m2 = 0.0;
    near(dawn_fan_path_Pa(0.2, &path), without, 1e-12, "no bed");
    near(dawn_fan_path_Pa(0.0, &path), 0.0, 0.0, "no flow");
}

static void test_operating(void **state)
{
    (void)state;
    /* 120 (1 - (Q/0.35)^2) against 100 Q + 1500 Q^2: root of a quadratic, computed closed form */
    struct dawn_fan_curve curve = curve_of_ends(0.35, 120.0);
    struct dawn_fan_path path = {.linear_Pa_s_m3 = 100.0, .square_Pa_s2_m6 = 1500.0};
    struct dawn_fan_meeting meeting = dawn_fan_operating(&curve, dawn_fan_path_Pa, &path);
    assert_true(meeting.meets);
    double b = 1500.0 + 120.0 / 0.1225;
    double exact = (-100.0 + sqrt(1e4 + 480.0 * b)) / (2.0 * b);
    near(meeting.flow_m3_s, 0.2007464, 1e-7, "flow");
    near(meeting.flow_m3_s, exact, 1e-9, "flow, to what is promised");
    near(meeting.pressure_Pa, 100.0 * exact + 1500.0 * exact * exact, 1e-6, "pressure");
    near(meeting.pressure_Pa, 80.5233, 1e-4, "pressure, in figures");
    near(meeting.missing_Pa, 0.0, 0.0, "nothing missing");
    /* nothing in the way: free air */
    struct dawn_fan_path open = {0};
    near(dawn_fan_operating(&curve, dawn_fan_path_Pa, &open).flow_m3_s, 0.35, 1e-9, "free air");
    /* a path a million times as narrow still passes its trickle */
    struct dawn_fan_path narrow = {.linear_Pa_s_m3 = 1e6};
    near(dawn_fan_operating(&curve, dawn_fan_path_Pa, &narrow).flow_m3_s, 1.2e-4, 1e-9, "trickle");
}

static void test_operating_past_the_last_point(void **state)
{
    /* A catalogue may stop short of free air: 60 and 50 Pa at 0.2 and 0.3 m3/s are 68 - 200 Q^2,
     * which an open path meets at sqrt(0.34); closed form */
    const struct dawn_fan_point points[2] = {{0.2, 60.0}, {0.3, 50.0}};
    struct dawn_fan_curve curve;
    struct dawn_fan_path open = {0};
    (void)state;
    assert_int_equal(dawn_fan_curve_make(2, points, &curve).fault, DAWN_FAN_SOUND);
    struct dawn_fan_meeting meeting = dawn_fan_operating(&curve, dawn_fan_path_Pa, &open);
    assert_true(meeting.meets);
    near(meeting.flow_m3_s, sqrt(0.34), 1e-9, "past the last point");
}

static double head(double flow_m3_s, const void *path)
{
    return *(const double *)path + 100.0 * flow_m3_s;
}

static double sucks(double flow_m3_s, const void *path)
{
    (void)path;
    return -1e9 * flow_m3_s * flow_m3_s;
}

static void test_no_meeting(void **state)
{
    (void)state;
    struct dawn_fan_curve curve = curve_of_ends(0.35, 120.0);
    /* against a standing head of 130 Pa a fan of 120 does nothing and is told how much it lacks */
    double standing_Pa = 130.0;
    struct dawn_fan_meeting meeting = dawn_fan_operating(&curve, head, &standing_Pa);
    assert_false(meeting.meets);
    near(meeting.flow_m3_s, 0.0, 0.0, "no flow");
    near(meeting.missing_Pa, 10.0, 1e-12, "lacks");
    standing_Pa = 120.0;
    assert_false(dawn_fan_operating(&curve, head, &standing_Pa).meets);
    standing_Pa = 119.0;
    assert_true(dawn_fan_operating(&curve, head, &standing_Pa).meets);
    standing_Pa = NAN;
    meeting = dawn_fan_operating(&curve, head, &standing_Pa);
    assert_false(meeting.meets);
    assert_true(isnan(meeting.missing_Pa));
    /* a path that sucks harder the more flows has no end */
    meeting = dawn_fan_operating(&curve, sucks, NULL);
    assert_false(meeting.meets);
    assert_true(isnan(meeting.missing_Pa));
    /* no fan */
    struct dawn_fan_curve none = {0};
    struct dawn_fan_path open = {0};
    assert_false(dawn_fan_operating(&none, dawn_fan_path_Pa, &open).meets);
}

static void test_thin_air(void **state)
{
    /* Fan laws (ISO 5801, from memory): in thinner air pressures fall with the density; against
     * turbulent losses, which do the same, the flow stays what it was */
    (void)state;
    const struct dawn_fan_duct duct = {0.2, 10.0, true, 3.0};
    struct dawn_fan_curve curve = curve_of_ends(0.3, 250.0);
    struct dawn_fan_path low = {.duct_count = 1, .ducts = &duct, .density_kg_m3 = 1.2};
    struct dawn_fan_path high = {.duct_count = 1, .ducts = &duct, .density_kg_m3 = 0.98};
    struct dawn_fan_curve thin = dawn_fan_curve_in_air(&curve, 0.98);
    near(dawn_fan_pressure_Pa(&thin, 0.0), 250.0 * 0.98 / 1.2, 1e-9, "thin air");
    struct dawn_fan_meeting below = dawn_fan_operating(&curve, dawn_fan_path_Pa, &low);
    struct dawn_fan_meeting above = dawn_fan_operating(&thin, dawn_fan_path_Pa, &high);
    near(above.flow_m3_s, below.flow_m3_s, 2e-9, "flow");
    near(above.pressure_Pa / below.pressure_Pa, 0.98 / 1.2, 1e-6, "pressure");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_curve_of_ends),
        cmocka_unit_test(test_curve_of_points),
        cmocka_unit_test(test_points_of_a_square_law_give_it_back),
        cmocka_unit_test(test_faults),
        cmocka_unit_test(test_friction),
        cmocka_unit_test(test_duct),
        cmocka_unit_test(test_path),
        cmocka_unit_test(test_operating),
        cmocka_unit_test(test_operating_past_the_last_point),
        cmocka_unit_test(test_no_meeting),
        cmocka_unit_test(test_thin_air),
    };
    return cmocka_run_group_tests_name("fan", tests, NULL, NULL);
}
