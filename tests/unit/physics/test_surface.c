/* Convection and radiation at surfaces. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/sky.h"
#include "dawnlow/physics/surface.h"
#include "support/near.h"

static void test_wind_film(void **state)
{
    /* Watmuff, Charters & Proctor 1977: h = 2.8 + 3.0 v; from memory */
    (void)state;
    near(dawn_surface_wind_film_W_m2K(0.0), 2.8, 1e-12, "calm");
    near(dawn_surface_wind_film_W_m2K(5.0), 17.8, 1e-12, "5 m/s");
}

static void test_natural_follows_the_cube_root(void **state)
{
    /* Handbook form 1.31 |dT|^(1/3) (from memory): 1.31 at 1 K, 2.62 at 8 K, 3.93 at 27 K */
    (void)state;
    near(dawn_surface_natural(1.0, DAWN_SURFACE_UPRIGHT, 0.0, 0.0).h_W_m2K, 1.31, 1e-4, "1 K");
    near(dawn_surface_natural(8.0, DAWN_SURFACE_UPRIGHT, 0.5, 0.0).h_W_m2K, 2.62, 1e-3, "8 K");
    near(dawn_surface_natural(-27.0, DAWN_SURFACE_UPRIGHT, 0.5, 0.0).h_W_m2K, 3.93, 1e-3, "-27 K");
    near(dawn_surface_natural(8.0, DAWN_SURFACE_UNSTABLE, 0.5, 0.0).h_W_m2K, 3.04, 1e-3,
         "floor, 8 K");
}

static void test_natural_agrees_with_plates(void **state)
{
    /* Two correlations from different measurements, Churchill & Chu and the handbooks' cube root,
     * are known to lie within 20 % of each other on turbulent plates (common practice, no source).
     */
    (void)state;
    for (double difference_K = 5.0; difference_K <= 20.0; difference_K += 5.0)
        near_share(dawn_surface_natural(difference_K, DAWN_SURFACE_UPRIGHT, 0.5, 0.0).h_W_m2K,
                   dawn_surface_churchill_chu_W_m2K(difference_K, 2.0, 10.0), 0.2,
                   "two correlations");
}

static void test_natural_floor_and_joint(void **state)
{
    (void)state;
    near(dawn_surface_natural(0.0, 1.31, 0.7, 0.0).h_W_m2K, 0.7, 1e-3, "floor at rest");
    for (double difference_K = -3.0; difference_K < 3.0; difference_K += 0.01) {
        double bare = 1.31 * cbrt(fabs(difference_K));
        double h = dawn_surface_natural(difference_K, 1.31, 0.7, 0.0).h_W_m2K;
        double larger = fmax(bare, 0.7);
        assert_true(h >= larger && h < 1.13 * larger);
        if (bare > 1.7 * 0.7)
            near_share(h, bare, 0.01, "power law, well above the floor");
        near(h, dawn_surface_natural(-difference_K, 1.31, 0.7, 0.0).h_W_m2K, 1e-15, "even");
    }
    near(dawn_surface_natural(0.0, 0.0, 0.0, 0.0).h_W_m2K, 0.0, 0.0, "no film at all");
}

static void test_natural_with_stirring(void **state)
{
    /* Cubes add: still 3 and forced 4 give the cube root of 91; computed closed form. */
    (void)state;
    near(dawn_surface_natural(8.0, 1.5, 0.0, 4.0).h_W_m2K, cbrt(27.0 + 64.0), 1e-4, "3 and 4");
    const double step = 1e-5;
    double up = (5 + step) * dawn_surface_natural(5 + step, 1.52, 0.5, 3.0).h_W_m2K;
    double down = (5 - step) * dawn_surface_natural(5 - step, 1.52, 0.5, 3.0).h_W_m2K;
    near(dawn_surface_natural(5, 1.52, 0.5, 3.0).slope_W_m2K, (up - down) / (2 * step), 1e-6,
         "slope");
}

static void test_natural_slope(void **state)
{
    /* against a central difference of h dT, error of the order of its step squared */
    const double step = 1e-5;
    (void)state;
    for (double least = 0.0; least < 3.0; least += 0.5)
        for (double at = -12.0; at <= 12.0; at += 0.037) {
            double up = (at + step) * dawn_surface_natural(at + step, 1.52, least, 0.0).h_W_m2K;
            double down = (at - step) * dawn_surface_natural(at - step, 1.52, least, 0.0).h_W_m2K;
            near(dawn_surface_natural(at, 1.52, least, 0.0).slope_W_m2K, (up - down) / (2.0 * step),
                 2e-5, "d(h dT)/d(dT)");
        }
}

static void test_churchill_chu(void **state)
{
    /* Churchill & Chu 1975 (formula from memory), computed closed form, film at 10 C */
    (void)state;
    near(dawn_surface_churchill_chu_W_m2K(2.0, 0.85, 10.0), 2.022, 0.01, "0.85 m, 2 K");
    near(dawn_surface_churchill_chu_W_m2K(-5.0, 0.85, 10.0), 2.667, 0.01, "0.85 m, 5 K");
    near(dawn_surface_churchill_chu_W_m2K(10.0, 0.85, 10.0), 3.298, 0.01, "0.85 m, 10 K");
    near(dawn_surface_churchill_chu_W_m2K(5.0, 2.0, 10.0), 2.509, 0.01, "2 m, 5 K");
    near(dawn_surface_churchill_chu_W_m2K(10.0, 2.0, 10.0), 3.122, 0.01, "2 m, 10 K");
    /* at rest: Nu = 0.825^2, computed closed form */
    near(dawn_surface_churchill_chu_W_m2K(0.0, 1.0, 0.0), 0.825 * 0.825 * 0.0241, 1e-9, "at rest");
}

static void test_rod_and_bulb(void **state)
{
    (void)state;
    /* Churchill & Chu 1975, level cylinder: Nu = (0.60 + 0.387 Ra^(1/6)/(1 +
     * (0.559/Pr)^(9/16))^(8/27))^2 (from memory); nothing moving: Nu 0.36 */
    near(dawn_surface_rod_W_m2K(0.0, 0.02, 20.0) * 0.02 / (0.0241 * pow(293.15 / 273.15, 0.9)),
         0.36, 1e-9, "at rest");
    /* The older rule Nu = 0.53 Ra^(1/4) (McAdams 1954, from memory) lies 10 to 15 % above from Ra
     * 1e4 to 1e7: a pipe of 0.1 m, 10 K, at 20 C has Ra 1.047e6, h 4.354 (computed closed form) */
    near_share(dawn_surface_rod_W_m2K(10.0, 0.1, 20.0), 4.354, 0.15, "a pipe");
    /* An unshaded bulb in 500 W/m2 reads 5 to 15 K too warm: common practice, no source */
    double rise_K = 500.0 * dawn_surface_bulb_rise_K_m2_W(0.015, 0.7, 0.9);
    assert_true(rise_K > 5.0 && rise_K < 15.0);
    /* its own balance: 0.7 E d L taken up, (h_c + h_r) pi d L given off */
    double film =
        dawn_surface_rod_W_m2K(8.0, 0.015, 20.0) + dawn_surface_linear_radiative_W_m2K(0.9, 20.0);
    near(0.7 * 500.0, film * 3.141592653589793 * rise_K, 1e-9, "balance");
}

static void test_linear_radiative(void **state)
{
    /* 4 eps sigma T^3, computed closed form */
    static const double h[] = {3.71984, 4.16023, 4.63408, 5.14261};
    (void)state;
    for (int i = 0; i < 4; i++)
        near(dawn_surface_linear_radiative_W_m2K(0.9, 10.0 * i - 10.0), h[i], 1e-4, "eps 0.9");
}

static void test_skin_between_house_and_sky(void **state)
{
    /* Balance of a single skin, its temperature and the heat it passes: computed, root of the
     * stated balance. Film inside given, 0.85 effective emissivity inward, 0.9 outward, 2.8 + 3 v,
     * sky of Berdahl & Martin without its hour and pressure terms. At the skin's temperature both
     * sides must carry that heat. */
    static const struct {
        double air_C, radiant_C, out_C, dew_C, wind, inside, skin_C, heat_W_m2;
    } at[] = {
        {5.0, 8.0, -5.0, -10.0, 0.5, 3.0, -5.478829, 85.16530},
        {5.0, 8.0, -5.0, -10.0, 4.0, 3.0, -5.281049, 83.83988},
        {2.0, 4.0, 2.0, -3.0, 0.5, 2.5, -3.472924, 43.13482},
        {0.0, 1.5, 0.0, -5.0, 0.0, 2.0, -6.634972, 44.34730},
    };
    (void)state;
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        double own = dawn_sky_longwave_W_m2(1.0, at[i].skin_C);
        double from_sky =
            dawn_sky_longwave_W_m2(dawn_sky_emissivity_berdahl(at[i].dew_C, NAN, NAN), at[i].out_C);
        double inward = at[i].inside * (at[i].air_C - at[i].skin_C) +
                        0.85 * (dawn_sky_longwave_W_m2(1.0, at[i].radiant_C) - own);
        double outward = dawn_surface_wind_film_W_m2K(at[i].wind) * (at[i].skin_C - at[i].out_C) +
                         0.90 * (own - from_sky);
        near(inward, at[i].heat_W_m2, 1e-4, "from the house");
        near(outward, at[i].heat_W_m2, 1e-4, "to the sky and the air");
    }
}

/* Exchange area, m2, between two surfaces of the star. */
static double exchange(size_t count, const double weight[], size_t i, size_t j)
{
    double sum = 0.0;
    for (size_t k = 0; k < count; k++)
        sum += weight[k];
    return weight[i] * weight[j] / sum;
}

static void test_parallel_plates(void **state)
{
    /* Textbook: two infinite parallel plates exchange A/(1/e1 + 1/e2 - 1); the star gives it
     * exactly */
    const double area[2] = {12.0, 12.0};
    const int plane[2] = {1, 2};
    (void)state;
    for (double e = 0.1; e <= 1.0; e += 0.1) {
        double w[2];
        dawn_surface_radiant_weights(2, area, (const double[]){e, e}, plane, w);
        near(exchange(2, w, 0, 1), 12.0 / (2.0 / e - 1.0), 1e-9, "equal emissivities");
        dawn_surface_radiant_weights(2, area, (const double[]){e, 0.9}, plane, w);
        near(exchange(2, w, 0, 1), 12.0 / (1.0 / e + 1.0 / 0.9 - 1.0), 1e-9,
             "unequal emissivities");
    }
}

static void test_small_body_in_large_room(void **state)
{
    /* Textbook: A1/(1/e1 + A1/A2 (1/e2 - 1)), here with the room's wall as one surface that sees
     * itself; the bound on its factor costs 1e-6 */
    double w[2];
    (void)state;
    dawn_surface_radiant_weights(2, (const double[]){2.0, 100.0}, (const double[]){0.8, 0.9},
                                 (const int[]){7, -3}, w);
    near_share(exchange(2, w, 0, 1), 2.0 / (1.0 / 0.8 + 0.02 * (1.0 / 0.9 - 1.0)), 1e-5, "body");
}

static void test_cube(void **state)
{
    /* View factors of a cube: 0.1998 to the opposite face, 0.2000 to each neighbour (Hottel's
     * charts and closed forms in every radiation textbook; from memory). The star gives 0.2 for
     * both. */
    const double area[6] = {1, 1, 1, 1, 1, 1};
    const double black[6] = {1, 1, 1, 1, 1, 1};
    const int plane[6] = {0, 1, 2, 3, 4, 5};
    double w[6];
    (void)state;
    dawn_surface_radiant_weights(6, area, black, plane, w);
    near(exchange(6, w, 0, 1), 0.1998, 5e-4, "opposite");
    near(exchange(6, w, 0, 2), 0.2000, 5e-4, "neighbour");
}

/* View factor between two equal parallel rectangles, a by b at distance c: the textbook closed form
 * (Hottel 1931; e.g. Incropera & DeWitt, table of three-dimensional geometries; from memory). */
static double opposite_view(double a, double b, double c)
{
    const double pi = 3.14159265358979323846;
    double x = a / c;
    double y = b / c;
    double x1 = sqrt(1.0 + x * x);
    double y1 = sqrt(1.0 + y * y);
    double sum = log(x1 * y1 / sqrt(1.0 + x * x + y * y)) + x * y1 * atan(x / y1) +
                 y * x1 * atan(y / x1) - x * atan(x) - y * atan(y);
    return 2.0 / (pi * x * y) * sum;
}

static void test_nursery_shaped_box(void **state)
{
    const double a = 10.0;
    const double b = 6.0;
    const double c = 2.5;
    const double area[6] = {a * b, a * b, a * c, a * c, b * c, b * c};
    const double black[6] = {1, 1, 1, 1, 1, 1};
    const int plane[6] = {0, 1, 2, 3, 4, 5};
    double w[6];
    (void)state;
    dawn_surface_radiant_weights(6, area, black, plane, w);
    /* A star knows areas, not distances: faces close to each other get too little from it, by 7 %
     * here, which surface.h says. */
    near_share(exchange(6, w, 0, 1) / area[0], opposite_view(a, b, c), 0.075, "floor to ceiling");
    near(exchange(6, w, 2, 3) / area[2], opposite_view(a, c, b), 0.05, "long wall to long wall");
    /* whatever the shape, a black surface gives the room all its area */
    for (size_t i = 0; i < 6; i++) {
        double to_all = 0.0;
        for (size_t j = 0; j < 6; j++)
            if (j != i)
                to_all += exchange(6, w, i, j);
        near_share(to_all, area[i], 1e-9, "all of its area");
    }
}

static void test_planes_may_be_cut_up(void **state)
{
    /* A floor in three pieces is still the floor: the other surfaces notice nothing */
    double whole[3];
    double cut[5];
    (void)state;
    dawn_surface_radiant_weights(3, (const double[]){30.0, 25.0, 20.0},
                                 (const double[]){0.9, 0.85, 0.5}, (const int[]){4, 5, 6}, whole);
    dawn_surface_radiant_weights(5, (const double[]){10.0, 25.0, 5.0, 20.0, 15.0},
                                 (const double[]){0.9, 0.85, 0.9, 0.5, 0.9},
                                 (const int[]){4, 5, 4, 6, 4}, cut);
    near(cut[1], whole[1], 1e-9, "second plane");
    near(cut[3], whole[2], 1e-9, "third plane");
    near(cut[0] + cut[2] + cut[4], whole[0], 1e-9, "pieces of the first");
    near(cut[0], 2.0 * cut[2], 1e-9, "in the ratio of their areas");
}

static void test_odd_enclosures(void **state)
{
    double w[3];
    (void)state;
    /* mirrors and surfaces of no size take no part */
    dawn_surface_radiant_weights(3, (const double[]){5.0, 5.0, 5.0},
                                 (const double[]){0.9, 0.0, 0.9}, (const int[]){1, 2, 3}, w);
    near(w[1], 0.0, 0.0, "mirror");
    assert_true(w[0] > 0.0 && w[2] > 0.0);
    dawn_surface_radiant_weights(3, (const double[]){5.0, 0.0, 5.0},
                                 (const double[]){0.9, 0.9, 0.9}, (const int[]){1, 2, 3}, w);
    near(w[1], 0.0, 0.0, "no area");
    near(exchange(3, w, 0, 2), 5.0 / (2.0 / 0.9 - 1.0), 1e-9, "the other two are plates");
    /* one plane sees nothing of itself */
    dawn_surface_radiant_weights(2, (const double[]){5.0, 6.0}, (const double[]){0.9, 0.9},
                                 (const int[]){1, 1}, w);
    near(w[0] + w[1], 0.0, 0.0, "all in one plane");
    dawn_surface_radiant_weights(2, (const double[]){0.0, 0.0}, (const double[]){0.9, 0.9},
                                 (const int[]){1, 2}, w);
    near(w[0] + w[1], 0.0, 0.0, "nothing there");
    dawn_surface_radiant_weights(0, NULL, NULL, NULL, NULL);
}

/* Water stops long-wave within hundredths of a millimetre: e-fold after 15.7 um at 10 um wavelength
 * (Hale & Querry 1973, k = 0.051, from memory; computed closed form); the slope against
 * differences.
 */
static void test_wet_window(void **state)
{
    (void)state;
    near(dawn_surface_wet_window(0.0).share, 0.0, 0.0, "dry");
    near(dawn_surface_wet_window(-1.0).share, 0.0, 0.0, "less than dry");
    near(dawn_surface_wet_window(0.0157).share, 1.0 - exp(-1.0), 2e-3, "e-fold");
    assert_true(dawn_surface_wet_window(0.1).share > 0.99); /* a tenth of a millimetre is black */
    double slope =
        (dawn_surface_wet_window(0.0101).share - dawn_surface_wet_window(0.0099).share) / 0.0002;
    near(dawn_surface_wet_window(0.01).slope_m2_kg, slope, 1e-3 * slope, "slope");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_wind_film),
        cmocka_unit_test(test_natural_follows_the_cube_root),
        cmocka_unit_test(test_natural_agrees_with_plates),
        cmocka_unit_test(test_natural_floor_and_joint),
        cmocka_unit_test(test_natural_slope),
        cmocka_unit_test(test_natural_with_stirring),
        cmocka_unit_test(test_churchill_chu),
        cmocka_unit_test(test_linear_radiative),
        cmocka_unit_test(test_rod_and_bulb),
        cmocka_unit_test(test_skin_between_house_and_sky),
        cmocka_unit_test(test_parallel_plates),
        cmocka_unit_test(test_small_body_in_large_room),
        cmocka_unit_test(test_cube),
        cmocka_unit_test(test_nursery_shaped_box),
        cmocka_unit_test(test_planes_may_be_cut_up),
        cmocka_unit_test(test_odd_enclosures),
        cmocka_unit_test(test_wet_window),
    };
    return cmocka_run_group_tests_name("surface", tests, NULL, NULL);
}
