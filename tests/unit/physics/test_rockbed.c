/* Air through a bed of rock. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/rockbed.h"
#include "support/near.h"

static void test_transfer(void **state)
{
    /* Loef & Hawley 1948 and Wakao & Kaguei 1982, formulas seen; values computed closed form (void
     * 0.42, air k 0.0255, Pr 0.71, mu 1.81e-5) */
    static const struct {
        double flux, stone, loef_hawley, wakao;
    } at[] = {{0.12, 0.04, 1402.5, 1659.6}, {0.06, 0.06, 650.0, 628.5}, {0.03, 0.10, 279.8, 204.6}};
    (void)state;
    for (int i = 0; i < 3; i++) {
        near_share(dawn_rockbed_transfer_loef_hawley_W_m3K(at[i].flux, at[i].stone),
                   at[i].loef_hawley, 1e-3, "Loef & Hawley");
        near_share(dawn_rockbed_transfer_wakao_W_m3K(at[i].flux, at[i].stone, 0.42), at[i].wakao,
                   1e-3, "Wakao & Kaguei");
        near(dawn_rockbed_transfer_loef_hawley_W_m3K(-at[i].flux, at[i].stone),
             dawn_rockbed_transfer_loef_hawley_W_m3K(at[i].flux, at[i].stone), 0.0, "backwards");
    }
    near(dawn_rockbed_transfer_loef_hawley_W_m3K(0.0, 0.05), 0.0, 0.0, "no flow");
    /* Nu = 2, computed closed form */
    near(dawn_rockbed_transfer_wakao_W_m3K(0.0, 0.05, 0.4), 2.0 * 0.0255 * 6.0 * 0.6 / 0.0025, 1e-9,
         "no flow, Wakao");
}

static void test_transfer_units(void **state)
{
    /* Duffie & Beckman, pebble bed of the kind of example 8.5.1 (inputs and NTU about 57 from
     * memory): 1.80 m, 14.8 m2, 0.053 m/s, stones 12.5 mm, void 0.47, k 0.85; computed closed form:
     * hv 2034.74, NTU 56.83, with conduction inside the stones 56.17 */
    const double flux = 0.053 * 1.204;
    const double flow_W_K = flux * 14.8 * 1010.0;
    (void)state;
    double hv = dawn_rockbed_transfer_loef_hawley_W_m3K(flux, 0.0125);
    near_share(hv, 2034.74, 1e-3, "transfer");
    near_share(dawn_rockbed_transfer_units(hv, 1.80 * 14.8, flow_W_K, 0.0125, 0.47, 1e9), 56.83,
               1e-3, "units of stones without resistance");
    near_share(dawn_rockbed_transfer_units(hv, 1.80 * 14.8, flow_W_K, 0.0125, 0.47, 0.85), 56.17,
               1e-3, "units");
    near(dawn_rockbed_transfer_units(hv, 1.80 * 14.8, -flow_W_K, 0.0125, 0.47, 0.85),
         dawn_rockbed_transfer_units(hv, 1.80 * 14.8, flow_W_K, 0.0125, 0.47, 0.85), 0.0,
         "backwards");
    near(dawn_rockbed_transfer_units(0.0, 1.0, 0.0, 0.0125, 0.47, 0.85), 0.0, 0.0, "no flow");
}

enum { SEGMENTS_MOST = 400 };

/* The bed as a network uses it: air marched through segments in flow order, stones from 0, air in
 * at 1; returns d(stones)/d(theta) and the outlet. Theta: time over the bed's own time. */
static double march(int segments, double share, const double stone[], double rate[])
{
    double air = 1.0;
    for (int i = 0; i < segments; i++) {
        double taken = share * (air - stone[i]);
        rate[i] = segments * taken;
        air -= taken;
    }
    return air;
}

/* One step of the classical Runge-Kutta method. */
static void march_on(int segments, double share, double h, double stone[])
{
    double k[4][SEGMENTS_MOST];
    double probe[SEGMENTS_MOST];
    march(segments, share, stone, k[0]);
    for (int stage = 1; stage < 4; stage++) {
        double part = stage < 3 ? 0.5 * h : h;
        for (int i = 0; i < segments; i++)
            probe[i] = stone[i] + part * k[stage - 1][i];
        march(segments, share, probe, k[stage]);
    }
    for (int i = 0; i < segments; i++)
        stone[i] += h / 6.0 * (k[0][i] + 2.0 * k[1][i] + 2.0 * k[2][i] + k[3][i]);
}

struct charged {
    double out, mean, last; /* air as it leaves, the stones' mean, the stones where it leaves */
};

/* In equal steps up to theta. The last stones lie half a segment on from their segment's middle. */
static struct charged charge(int segments, double transfer_units, double theta, int steps)
{
    double stone[SEGMENTS_MOST] = {0};
    double rate[SEGMENTS_MOST];
    double share = dawn_rockbed_segment_share(transfer_units, segments);
    for (int s = 0; s < steps; s++)
        march_on(segments, share, theta / steps, stone);
    struct charged now = {.out = march(segments, share, stone, rate)};
    for (int i = 0; i < segments; i++)
        now.mean += stone[i] / segments;
    now.last = 1.5 * stone[segments - 1] - 0.5 * stone[segments - 2];
    return now;
}

static void test_segments_of_a_bed(void **state)
{
    /* The segment scheme itself (Hughes, Klein & Close 1976), its matrix exponential computed
     * closed form: air out and mean stone at 0.5, 1 and 1.5 of the bed's time */
    static const struct {
        int segments;
        double units, theta, out, mean;
    } at[] = {
        {10, 10.0, 0.5, 0.129109639, 0.481901399}, {10, 10.0, 1.0, 0.549858265, 0.816188427},
        {10, 10.0, 1.5, 0.858928100, 0.954109147}, {6, 6.0, 0.5, 0.211514725, 0.459109265},
        {6, 6.0, 1.0, 0.564507001, 0.764219539},   {6, 6.0, 1.5, 0.814300679, 0.913349520},
    };
    (void)state;
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        struct charged bed = charge(at[i].segments, at[i].units, at[i].theta, 2000);
        near(bed.out, at[i].out, 1e-7, "air out");
        near(bed.mean, at[i].mean, 1e-7, "mean of the stones");
    }
}

static void test_many_segments_are_schumann(void **state)
{
    /* Schumann 1929: air that leaves a bed of xi transfer units after tau, and the stones there:
     * the exact solution, computed to 30 digits. Excess spread of 40 segments a unit: 5e-5 of it;
     * of 8 a unit, as the longest bed has here: 1.3e-3, which shifts its air by 1.5e-4. */
    static const struct {
        double xi, tau, air, stone;
    } at[] = {
        {1.0, 1.0, 0.6542541613, 0.3457458387},   {2.0, 1.0, 0.3942968589, 0.1825847749},
        {2.0, 4.0, 0.8519363569, 0.7299605461},   {5.0, 2.5, 0.2313084493, 0.1317194457},
        {5.0, 5.0, 0.5639166686, 0.4360833314},   {5.0, 7.5, 0.8038397147, 0.7143368674},
        {10.0, 5.0, 0.1197937523, 0.07439201475}, {10.0, 10.0, 0.5448901559, 0.4551098441},
        {10.0, 15.0, 0.8657798320, 0.8168839212}, {20.0, 16.0, 0.2796901049, 0.2261305228},
        {20.0, 20.0, 0.5316391399, 0.4683608601}, {20.0, 24.0, 0.7515736749, 0.7011990634},
        {50.0, 40.0, 0.1579812659, 0.1337863606}, {50.0, 50.0, 0.5199721896, 0.4800278104},
        {50.0, 60.0, 0.8418959510, 0.8176970042},
    };
    (void)state;
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        int segments = (int)fmin(SEGMENTS_MOST, 40.0 * at[i].xi);
        struct charged bed = charge(segments, at[i].xi, at[i].tau / at[i].xi, 1000);
        near(bed.out, at[i].air, 2e-4, "Schumann, air");
        near(bed.last, at[i].stone, 2e-4, "Schumann, stones");
    }
}

/* Regularised incomplete gamma function P(n, x) of a whole n: 1 - e^-x sum x^k / k!, k < n. */
static double gamma_share(int n, double x)
{
    double term = exp(-x);
    double rest = 0.0;
    for (int k = 0; k < n; k++) {
        rest += term;
        term *= x / (k + 1);
    }
    return 1.0 - rest;
}

static void test_air_that_gives_all(void **state)
{
    /* Where a segment takes all it can, a bed is a row of stirred tanks: air out = P(N, N theta)
     * (textbook matter; 9 values of the closed form, printed to 9 digits) */
    static const struct {
        int segments;
        double theta, out;
    } at[] = {
        {5, 0.5, .108821981}, {10, 0.5, .031828057}, {20, 0.5, .003454342},
        {5, 1.0, .559506715}, {10, 1.0, .542070286}, {20, 1.0, .529742733},
        {5, 1.5, .867938144}, {10, 1.5, .930146339}, {20, 1.5, .978126532},
    };
    (void)state;
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        near(gamma_share(at[i].segments, at[i].segments * at[i].theta), at[i].out, 1e-9, "P(N, x)");
        near(charge(at[i].segments, 1e9, at[i].theta, 4000).out, at[i].out, 1e-8, "air out");
    }
}

/* Schumann 1929: air leaving after tau, 1 - e^-tau int_0^xi e^-s I0(2 sqrt(tau s)) ds, by Simpson's
 * rule; I0 by its series. */
static double schumann_out(double xi, double tau)
{
    enum { PARTS = 1000 };
    double sum = 0.0;
    for (int i = 0; i <= PARTS; i++) {
        double s = xi * i / PARTS;
        double quarter = tau * s; /* (x/2)^2 */
        double term = exp(-s - tau);
        double bessel = 0.0;
        for (int k = 1; term > 1e-18 * bessel && k < 1000; k++) {
            bessel += term;
            term *= quarter / ((double)k * k);
        }
        sum += bessel * (i == 0 || i == PARTS ? 1.0 : i % 2 ? 4.0 : 2.0);
    }
    return 1.0 - sum * xi / PARTS / 3.0;
}

static void test_few_segments_blur(void **state)
{
    /* What few segments cost against Schumann 1929, at a quarter of the bed's time to twice it:
     * largest errors, computed closed form, printed to 4 digits */
    static const struct {
        int segments;
        double units, most;
    } at[] = {{5, 10.0, .0386},
              {10, 10.0, .0112},
              {20, 10.0, .0029},
              {20, 50.0, .0487},
              {40, 50.0, .0140}};
    (void)state;
    near(schumann_out(10.0, 10.0), .5448901559, 1e-8, "Schumann at 10, 10 (30 digits)");
    near(schumann_out(50.0, 60.0), .8418959510, 1e-8, "Schumann at 50, 60 (30 digits)");
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        double most = 0.0;
        for (double theta = 0.25; theta < 2.01; theta += 0.25) {
            double ours = charge(at[i].segments, at[i].units, theta, 2000).out;
            most = fmax(most, fabs(ours - schumann_out(at[i].units, at[i].units * theta)));
        }
        near(most, at[i].most, 2e-4, "largest error");
    }
}

static void test_spread_of_the_breakthrough(void **state)
{
    /* Variance of the time air takes to come through warm, in the bed's own time: coth(NTU/2N)/N
     * for segments (computed closed form), 2/NTU for the exact bed (Schumann 1929). From the
     * outlet, the integral of 2 theta (1 - out) less the mean's square, which is 1: what goes in
     * comes out. */
    static const struct {
        int segments;
        double units, variance;
    } at[] = {{5, 5.0, .432790683},
              {10, 10.0, .216395341},
              {10, 20.0, .131303529},
              {20, 20.0, .108197671},
              {20, 50.0, .058942549}};
    enum { STEPS = 4000 };
    const double h = 10.0 / STEPS;
    (void)state;
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        double stone[SEGMENTS_MOST] = {0};
        double rate[SEGMENTS_MOST];
        double share = dawn_rockbed_segment_share(at[i].units, at[i].segments);
        double mean = 0.0;
        double square = 0.0;
        for (int s = 0; s <= STEPS; s++) {
            double cold = 1.0 - march(at[i].segments, share, stone, rate);
            double weight = h / 3.0 * (s == 0 || s == STEPS ? 1.0 : s % 2 ? 4.0 : 2.0);
            mean += weight * cold;
            square += weight * 2.0 * s * h * cold;
            march_on(at[i].segments, share, h, stone);
        }
        near(mean, 1.0, 1e-7, "mean");
        near(square - mean * mean, at[i].variance, 1e-7, "variance");
    }
}

static void test_segment_share(void **state)
{
    (void)state;
    near(dawn_rockbed_segment_share(6.0, 8.0), 1.0 - exp(-0.75), 1e-15, "1 - exp(-NTU/N)");
    near(dawn_rockbed_segment_share(0.0, 8.0), 0.0, 0.0, "nothing taken");
    near(dawn_rockbed_segment_share(1e9, 8.0), 1.0, 0.0, "all taken");
}

static void test_still(void **state)
{
    /* Zehner & Schluender 1970 (formula from memory), air 0.0252; computed closed form */
    (void)state;
    near(dawn_rockbed_still_W_mK(0.0252, 1.5, 0.36), 0.2164, 1e-4, "void 0.36");
    near(dawn_rockbed_still_W_mK(0.0252, 2.5, 0.42), 0.2084, 1e-4, "void 0.42");
    near(dawn_rockbed_still_W_mK(0.0252, 3.5, 0.46), 0.1985, 1e-4, "void 0.46");
    /* between the two materials, and smoothly past the ratio at which the formula is 0/0 */
    double last = 0.0;
    for (double stone = 0.03; stone < 0.2; stone += 0.0005) {
        double still = dawn_rockbed_still_W_mK(0.0252, stone, 0.4);
        assert_true(still > 0.0252 && still < stone);
        assert_true(still > last - 2e-4);
        last = still;
    }
    double singular = 0.0252 * 1.25 * pow(0.6 / 0.4, 10.0 / 9.0);
    near_share(dawn_rockbed_still_W_mK(0.0252, singular, 0.4),
               0.5 * (dawn_rockbed_still_W_mK(0.0252, 0.97 * singular, 0.4) +
                      dawn_rockbed_still_W_mK(0.0252, 1.03 * singular, 0.4)),
               0.01, "right at that ratio");
}

static void test_radiation(void **state)
{
    (void)state;
    /* 4 sigma T^3 D, black and without conduction: the scale all such models share; for 0.4 void
     * and dull stones they lie within a quarter of it (common practice, no source) */
    double scale = 4.0 * 5.670374e-8 * 283.15 * 283.15 * 283.15 * 0.05;
    near_share(dawn_rockbed_radiation_W_mK(0.05, 0.42, 10.0), scale, 0.25, "50 mm, 10 C");
    /* Breitbach & Barthels 1980 (from memory) with 0.9 and 2.2 W/(m K), computed closed form */
    near(dawn_rockbed_radiation_W_mK(0.05, 0.42, 10.0), 0.256, 0.002, "closed form");
    /* grows with the stone and with the warmth */
    assert_true(dawn_rockbed_radiation_W_mK(0.1, 0.42, 10.0) >
                dawn_rockbed_radiation_W_mK(0.05, 0.42, 10.0));
    assert_true(dawn_rockbed_radiation_W_mK(0.05, 0.42, 30.0) >
                dawn_rockbed_radiation_W_mK(0.05, 0.42, 10.0));
}

static void test_drop(void **state)
{
    /* Ergun 1952, Dunkle & Ellul 1972, McCorquodale et al. 1978 with shapes 1.5 and 2.5 (formulas
     * from memory), void 0.42, 1.204 kg/m3, Pa per metre; computed closed form, printed to 0.01 */
    static const struct {
        double flux, stone, ergun, dunkle, river, crushed;
    } at[] = {{0.12, 0.04, 4.86, 8.25, 6.44, 12.86}, {0.24, 0.06, 11.61, 18.50, 13.78, 24.85}};
    (void)state;
    for (int i = 0; i < 2; i++) {
        double flux = at[i].flux;
        double stone = at[i].stone;
        near_share(dawn_rockbed_drop_ergun_Pa_m(flux, stone, 0.42, 1.204), at[i].ergun, 2e-3,
                   "Ergun");
        near_share(dawn_rockbed_drop_dunkle_ellul_Pa_m(flux, stone, 1.204), at[i].dunkle, 2e-3,
                   "Dunkle & Ellul");
        near_share(dawn_rockbed_drop_mccorquodale_Pa_m(flux, stone, 0.42, 1.5, 1.204), at[i].river,
                   2e-3, "river stones");
        near_share(dawn_rockbed_drop_mccorquodale_Pa_m(-flux, stone, 0.42, 2.5, 1.204),
                   at[i].crushed, 2e-3, "crushed, backwards");
    }
    near(dawn_rockbed_drop_ergun_Pa_m(0.0, 0.04, 0.42, 1.204), 0.0, 0.0, "Ergun, no flow");
    near(dawn_rockbed_drop_dunkle_ellul_Pa_m(0.0, 0.04, 1.204), 0.0, 0.0, "no flow");
    near(dawn_rockbed_drop_mccorquodale_Pa_m(0.0, 0.04, 0.42, 2.0, 1.204), 0.0, 0.0,
         "McCorquodale, no flow");
}

static void test_permeability_is_the_slow_drop(void **state)
{
    (void)state;
    /* computed closed form, D 0.05, void 0.42 */
    near_share(dawn_rockbed_permeability_m2(0.05, 0.42), 3.67063e-6, 1e-4, "permeability");
    /* Darcy's law, dp/L = mu v/K: what any drop must come to as the flow dies away */
    const double speed = 1e-7;
    near_share(dawn_rockbed_drop_ergun_Pa_m(1.2 * speed, 0.05, 0.42, 1.2),
               1.81e-5 * speed / dawn_rockbed_permeability_m2(0.05, 0.42), 1e-4, "Darcy");
}

/* dT 8 K, H 0.6 m and D 50 mm give Ra 132.4 in this bed */
static struct dawn_rockbed_calm calm_bed(void)
{
    struct dawn_rockbed_calm bed = {.height_m = 0.6,
                                    .permeability_m2 = dawn_rockbed_permeability_m2(0.05, 0.42),
                                    .still_W_mK = 0.4,
                                    .air_viscosity_m2_s = 1.45e-5,
                                    .air_heat_J_m3K = 1.25 * 1006.0,
                                    .mean_K = 283.0,
                                    .onset = DAWN_ROCKBED_ONSET_OPEN,
                                    .series_m2K_W = 0.15};
    return bed;
}

static void test_rayleigh(void **state)
{
    (void)state;
    struct dawn_rockbed_calm bed = calm_bed();
    /* computed closed form with g 9.81: 132.417 */
    near_share(dawn_rockbed_rayleigh(8.0, &bed), 132.417 * 9.80665 / 9.81, 1e-4, "Ra");
    near(dawn_rockbed_rayleigh(-8.0, &bed), -dawn_rockbed_rayleigh(8.0, &bed), 1e-12, "stable");
    /* Lapwood 1948: 4 pi^2 between shut faces (from memory) */
    near_share(DAWN_ROCKBED_ONSET_SHUT, 39.478, 1e-3, "onset between shut faces");
}

static void test_nusselt(void **state)
{
    (void)state;
    near(dawn_rockbed_nusselt(-50.0, 27.1), 1.0, 0.0, "stable");
    near(dawn_rockbed_nusselt(0.0, 27.1), 1.0, 0.0, "even");
    near(dawn_rockbed_nusselt(0.5 * 27.1, 27.1), 1.0, 0.005, "below the onset");
    near(dawn_rockbed_nusselt(27.1, 27.1), pow(2.0, 1.0 / 6.0), 1e-12, "at the onset");
    /* Elder 1967, Nu = Ra/40 between shut faces, Ra well past the onset (from memory) */
    for (double rayleigh = 100.0; rayleigh < 1000.0; rayleigh *= 1.5)
        near_share(dawn_rockbed_nusselt(rayleigh, DAWN_ROCKBED_ONSET_SHUT), rayleigh / 40.0, 0.02,
                   "Elder");
}

static void test_buoyant(void **state)
{
    (void)state;
    struct dawn_rockbed_calm bed = calm_bed();
    /* conduction over half the height and the series resistance: 1/(0.3/0.4 + 0.15), closed form */
    near(dawn_rockbed_buoyant_W_m2K(-5.0, &bed).h_W_m2K, 1.0 / 0.9, 1e-12, "bed colder");
    near(dawn_rockbed_buoyant_W_m2K(-5.0, &bed).slope_W_m2K, 1.0 / 0.9, 1e-12, "bed colder, slope");
    near(dawn_rockbed_buoyant_W_m2K(0.0, &bed).h_W_m2K, 1.0 / 0.9, 1e-12, "no difference");
    /* well past the onset: Nu = Ra/27.1 = 4.886 at 8 K; closed form */
    near_share(dawn_rockbed_buoyant_W_m2K(8.0, &bed).h_W_m2K, 1.0 / (0.75 / 4.8846 + 0.15), 1e-3,
               "turning over");
    /* the series resistance bounds it however warm the bed */
    assert_true(dawn_rockbed_buoyant_W_m2K(400.0, &bed).h_W_m2K < 1.0 / 0.15);
    /* smaller stones, less: 20 mm at 8 K lies below the onset */
    bed.permeability_m2 = dawn_rockbed_permeability_m2(0.02, 0.42);
    near_share(dawn_rockbed_buoyant_W_m2K(8.0, &bed).h_W_m2K, 1.0 / 0.9, 0.05, "20 mm");
}

static void test_buoyant_slope(void **state)
{
    const double step = 1e-5;
    (void)state;
    struct dawn_rockbed_calm bed = calm_bed();
    for (int open = 0; open < 2; open++) {
        bed.series_m2K_W = open ? 0.0 : 0.25;
        for (double at = -3.0; at < 20.0; at += 0.0937) {
            double up = (at + step) * dawn_rockbed_buoyant_W_m2K(at + step, &bed).h_W_m2K;
            double down = (at - step) * dawn_rockbed_buoyant_W_m2K(at - step, &bed).h_W_m2K;
            near(dawn_rockbed_buoyant_W_m2K(at, &bed).slope_W_m2K, (up - down) / (2.0 * step), 1e-6,
                 "slope");
        }
    }
}

/* Well-mixed segments of this conductance pass on exp(-NTU/0.9) of the surplus together, whatever
 * their number: each F/(F + K) of what it meets (computed closed form). */
static void test_vapour(void **state)
{
    (void)state;
    const double flow = 500.0;
    const double units = 2.5;
    for (int segments = 1; segments <= 16; segments *= 2) {
        double W_K = dawn_rockbed_vapour_W_K(flow, units, segments);
        double left = pow(flow / (flow + W_K), segments);
        near(left, exp(-units / 0.9), 1e-12, "left of the surplus");
    }
    near(dawn_rockbed_vapour_W_K(1.0, 1e3, 1), exp(3.0) - 1.0, 1e-9, "held");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_transfer),
        cmocka_unit_test(test_transfer_units),
        cmocka_unit_test(test_segments_of_a_bed),
        cmocka_unit_test(test_many_segments_are_schumann),
        cmocka_unit_test(test_air_that_gives_all),
        cmocka_unit_test(test_few_segments_blur),
        cmocka_unit_test(test_spread_of_the_breakthrough),
        cmocka_unit_test(test_segment_share),
        cmocka_unit_test(test_still),
        cmocka_unit_test(test_radiation),
        cmocka_unit_test(test_drop),
        cmocka_unit_test(test_permeability_is_the_slow_drop),
        cmocka_unit_test(test_rayleigh),
        cmocka_unit_test(test_nusselt),
        cmocka_unit_test(test_buoyant),
        cmocka_unit_test(test_buoyant_slope),
        cmocka_unit_test(test_vapour),
    };
    return cmocka_run_group_tests_name("rockbed", tests, NULL, NULL);
}
