/* Layers of soil, wall and freezing water against closed forms. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/physics/soil.h"
#include "dawnlow/physics/wall.h"
#include "network/network_build.h"
#include "support/near.h"
#include "support/tiny.h"

static const double hour_s = 3600.0;
static const double pi = 3.14159265358979323846;

/* Layers of 1 m2 in a network of their own. */
struct slab {
    struct building building;
    int nodes[FACES_MOST];
    size_t faces;
};

static void slab_of(struct slab *slab, const struct layer_stuff *layers, size_t count)
{
    memset(slab, 0, sizeof *slab);
    slab->building.network = dawn_network_new();
    slab->faces = dawn_network_layers(&slab->building, DAWN_ROLE_WALL, "slab", 1.0, layers, count,
                                      slab->nodes);
}

/* Soil as the network cuts it, under a film h (very large = the surface itself is held). */
static struct slab soil_under(double film_W_m2K)
{
    struct layer_stuff layers[DAWN_SOIL_LAYERS];
    for (int i = 0; i < DAWN_SOIL_LAYERS; ++i)
        layers[i] = (struct layer_stuff){dawn_soil_layer_m(i), 1.2, 2.4e6, 0, 1}; /* a = 5e-7 */
    struct slab slab;
    slab_of(&slab, layers, DAWN_SOIL_LAYERS);
    dawn_network_add_conduction(slab.building.network, slab.nodes[0], OUTSIDE(OUTSIDE_AIR), "film",
                                film_W_m2K);
    return slab;
}

/* Depth of a face, m. */
static double depth_m(int face)
{
    double depth = 0;
    for (int i = 0; i < face; ++i)
        depth += dawn_soil_layer_m(i);
    return depth;
}

/* CON-1: surface step on a semi-infinite solid, T = erfc(z / (2 sqrt(a t))); closed form (Carslaw &
 * Jaeger, from memory). A step is harsher than any night: the
 * eight layers, cut for the day's swing, follow it within 0.03. */
static void soil_follows_a_surface_step(void **state)
{
    (void)state;
    struct slab slab = soil_under(1e7);
    tiny_finish(slab.building.network, 24, 1.0);
    const double start[FACES_MOST] = {0};
    struct dawn_trajectory *run = tiny_run(slab.building.network, start, hour_s, false);
    static const size_t hours[] = {1, 6, 12, 24};
    for (size_t k = 0; k < 4; ++k) {
        const double *T = dawn_trajectory_series_C(run, hours[k]);
        for (int face = 1; face < 6; ++face) {
            double want = erfc(depth_m(face) / (2 * sqrt(5e-7 * (double)hours[k] * hour_s)));
            near(T[slab.nodes[face]], want, 0.03, "soil");
        }
        /* CON-2, summed: a surface flux of k / sqrt(pi a t) brings 2 k sqrt(t / (pi a)). */
        double seconds = (double)hours[k] * hour_s;
        near_share(dawn_trajectory_stored_all_J(run, seconds),
                   2 * 1.2 * sqrt(seconds / (pi * 5e-7)), hours[k] < 6 ? 0.05 : 0.02,
                   "heat taken in");
    }
    dawn_trajectory_free(run);
    dawn_network_free(slab.building.network);
}

/* The swing of a day, which is what soil does in a house: under a film of 10 W/m2K the surface of a
 * semi-infinite solid follows the air with gain |1/(1 + (1+i) b)|, b = sqrt(w k rho c / 2) / h, and
 * lag arg / w; closed form (Carslaw & Jaeger, from memory). Within 1 %. */
static void soil_follows_the_day(void **state)
{
    (void)state;
    const double w = 2 * pi / 86400.0, half = 0.5 * w * FORCING_STEP_S;
    const double chain = pow(sin(half) / half, 2); /* first harmonic of the straight lines */
    const double b = sqrt(0.5 * w * 1.2 * 2.4e6) / 10.0;
    struct slab slab = soil_under(10.0);
    struct dawn_network *net = slab.building.network;
    net->air = slab.nodes[0];
    tiny_finish(net, 24 * 20, 0.0);
    for (size_t i = 0; i < net->forcing.knots; ++i)
        net->forcing.air_C[i] = sin(w * (double)i * FORCING_STEP_S) / chain;
    const double start[FACES_MOST] = {0};
    struct dawn_trajectory *run = tiny_run(net, start, 0, false);
    struct dawn_low low = dawn_trajectory_low(run, net->air, 18 * 86400.0, 19 * 86400.0);
    near_share(-low.low_C, 1 / sqrt((1 + b) * (1 + b) + b * b), 0.01, "gain");
    near((low.at_s - 18 * 86400.0) / hour_s - 18.0, atan2(b, 1 + b) / w / hour_s, 0.05, "lag, h");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* CON-4: below its surface that swing dies away by exp(-z/d) and comes later by z/(d w), with d =
 * sqrt(2 a / w) = 0.117265 m a day (Carslaw & Jaeger, from memory; computed closed form). From the
 * hours' first harmonic. The layers are cut for what the surface feels and grow to half a d at 15
 * cm: within 0.015 of the surface's swing, 0.1 K at the roots under a hot day. */
static void the_swing_dies_away_with_depth(void **state)
{
    (void)state;
    const double w = 2 * pi / 86400.0;
    struct slab slab = soil_under(1e7);
    struct dawn_network *net = slab.building.network;
    tiny_finish(net, 24 * 20, 0.0);
    for (size_t i = 0; i < net->forcing.knots; ++i)
        net->forcing.air_C[i] = sin(w * (double)i * FORCING_STEP_S);
    const double start[FACES_MOST] = {0};
    struct dawn_trajectory *run = tiny_run(net, start, hour_s, false);
    for (int face = 1; face < 5; ++face) {
        double sine = 0, cosine = 0;
        for (size_t hour = 18 * 24; hour < 19 * 24; ++hour) {
            double C = dawn_trajectory_series_C(run, hour)[slab.nodes[face]];
            sine += C * sin(w * (double)hour * hour_s) / 12.0;
            cosine += C * cos(w * (double)hour * hour_s) / 12.0;
        }
        double depths = depth_m(face) / 0.117265;
        near(hypot(sine, cosine), exp(-depths), 0.015, "swing");
        near(atan2(-cosine, sine) / w / hour_s, depths / w / hour_s, 0.2, "lag, h");
    }
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* CON-3: a film of 10 W/m2K over the same soil: the surface itself at 1, 6, 12 h; closed form. */
static void soil_surface_follows_the_air(void **state)
{
    (void)state;
    struct slab slab = soil_under(10.0);
    tiny_finish(slab.building.network, 12, 1.0);
    const double start[FACES_MOST] = {0};
    struct dawn_trajectory *run = tiny_run(slab.building.network, start, hour_s, false);
    near(dawn_trajectory_series_C(run, 1)[0], .300762, 0.01, "surface, 1 h");
    near(dawn_trajectory_series_C(run, 6)[0], .532839, 0.01, "surface, 6 h");
    near(dawn_trajectory_series_C(run, 12)[0], .626834, 0.01, "surface, 12 h");
    dawn_trajectory_free(run);
    dawn_network_free(slab.building.network);
}

/* Frost going down into water that starts at start_C, below a surface or a film: how deep it lies
 * after 1, 6 and 24 h. Ice conducts 2.22 W/mK and water 0.561, if the water's share is 1; ice holds
 * 2050 kJ/m3K and water 4186. */
static void front_advances(double film_W_m2K, double outside_C, double start_C, double water_share,
                           double slice_m, const double want_mm[3])
{
    const double water_W_mK = 2.22 / dawn_soil_frozen_ratio(water_share);
    const double heat_J_m3K = 4.186e6 * water_share;
    const struct layer_stuff thin = {8 * slice_m, water_W_mK, heat_J_m3K, water_share, 8};
    const struct layer_stuff thick = {0.30, water_W_mK, heat_J_m3K, water_share, 8};
    const struct layer_stuff layers[7] = {thin, thin, thin, thin, thin, thin, thick};
    struct slab slab;
    slab_of(&slab, layers, 7);
    struct dawn_network *net = slab.building.network;
    dawn_network_add_conduction(net, slab.nodes[0], OUTSIDE(OUTSIDE_AIR), "film", film_W_m2K);
    tiny_finish(net, 24, outside_C);
    double start[FACES_MOST];
    for (size_t i = 0; i < slab.faces; ++i)
        start[i] = start_C;
    struct dawn_trajectory *run = tiny_run(net, start, hour_s, false);
    static const size_t hours[3] = {1, 6, 24};
    for (size_t k = 0; k < 3; ++k) {
        /* Ice in each face's share, counted by its latent heat. */
        double ice_m = 0;
        const double *T = dawn_trajectory_series_C(run, hours[k]);
        for (size_t i = 0; i < slab.faces; ++i) {
            double water_m =
                net->nodes[slab.nodes[i]].facts.latent_J / 333.5e3 / (1000.0 * water_share);
            double frozen = T[slab.nodes[i]] < -0.1 ? 1.0 : fmax(-T[slab.nodes[i]] / 0.1, 0.0);
            ice_m += water_m * frozen;
        }
        near_share(1000 * ice_m, want_mm[k], 0.03, "front, mm");
    }
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* FRZ-1 to FRZ-3: Stefan's front and Neumann's below a surface held at -10 or -5 C, in water at 0,
 * 4 and 10 C (their equations solved, computed transcendental; Carslaw & Jaeger ch. 11, from
 * memory). A column of 42 cm is deep enough: there the water has lost 1 % of its warmth in a day.
 */
static void frost_front_advances(void **state)
{
    (void)state;
    front_advances(1e6, -10.0, 0.0, 1.0, 0.0025, (const double[3]){21.672, 53.085, 106.169});
    front_advances(1e6, -10.0, 4.0, 1.0, 0.0025, (const double[3]){20.721, 50.757, 101.513});
    front_advances(1e6, -5.0, 10.0, 1.0, 0.0025, (const double[3]){13.429, 32.893, 65.787});
}

/* FRZ-4: the same from air of -10 C through a film of 10 W/m2K, ice of 917 kg/m3: London & Seban
 * 1943, rho L / dT (x / h + x^2 / 2k) = t (from memory): 1.1739, 6.9530, 26.6483 mm; computed
 * closed form. It leaves out the ice's own heat, at most a third of the Stefan number 0.061, 2 %.
 */
static void frost_front_below_a_film(void **state)
{
    (void)state;
    front_advances(10.0, -10.0, 0.0, 0.917, 0.0005, (const double[3]){1.1739, 6.9530, 26.6483});
}

/* WAL-2, ISO 13786: 200 mm concrete (1.8, 2400, 1000) with Rsi .13, Rse .04 under a daily swing of
 * outdoor air passes on 1.82707 W/m2K, 5.67569 h late; computed from the standard's matrices. */
static void wall_damps_the_day(void **state)
{
    (void)state;
    const double w = 2 * pi / 86400.0, half = 0.5 * w * FORCING_STEP_S;
    const double chain = pow(sin(half) / half, 2); /* first harmonic of the straight lines */
    const struct layer_stuff concrete = {0.2, 1.8, 2.4e6, 0,
                                         dawn_wall_slices(0.2, 1.8, 2400, 1000)};
    struct slab slab;
    slab_of(&slab, &concrete, 1);
    struct dawn_network *net = slab.building.network;
    int room = dawn_network_add_node(net, DAWN_ROLE_AIR, 1e15, 0, 0, "held room");
    net->air = slab.nodes[slab.faces - 1]; /* watched: heat into the room follows its face */
    dawn_network_add_conduction(net, slab.nodes[0], OUTSIDE(OUTSIDE_AIR), "outside film", 1 / 0.04);
    dawn_network_add_conduction(net, slab.nodes[slab.faces - 1], room, NULL, 1 / 0.13);
    tiny_finish(net, 24 * 12, 0.0);
    for (size_t i = 0; i < net->forcing.knots; ++i)
        net->forcing.air_C[i] = sin(w * (double)i * FORCING_STEP_S) / chain;
    const double start[FACES_MOST + 1] = {0};
    struct dawn_trajectory *run = tiny_run(net, start, 0, false);
    struct dawn_low low = dawn_trajectory_low(run, net->air, 10 * 86400.0, 11 * 86400.0);
    near_share(-low.low_C / 0.13, 1.82707, 0.03, "periodic transmittance");
    near((low.at_s - 10 * 86400.0) / hour_s, 18.0 + 5.67569, 0.1, "lag, h");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* The swing of a face and its lag when the air beside it swings by 1 K and the other side is held.
 */
static void face_swings(double swinging_m2K_W, double held_m2K_W, double swing, double lag_h)
{
    const double w = 2 * pi / 86400.0, half = 0.5 * w * FORCING_STEP_S;
    const double chain = pow(sin(half) / half, 2); /* first harmonic of the straight lines */
    const struct layer_stuff concrete = {0.2, 1.8, 2.4e6, 0,
                                         dawn_wall_slices(0.2, 1.8, 2400, 1000)};
    struct slab slab;
    slab_of(&slab, &concrete, 1);
    struct dawn_network *net = slab.building.network;
    int held = dawn_network_add_node(net, DAWN_ROLE_AIR, 1e15, 0, 0, "held air");
    net->air = slab.nodes[0];
    dawn_network_add_conduction(net, slab.nodes[0], OUTSIDE(OUTSIDE_AIR), "film",
                                1 / swinging_m2K_W);
    dawn_network_add_conduction(net, slab.nodes[slab.faces - 1], held, NULL, 1 / held_m2K_W);
    tiny_finish(net, 24 * 12, 0.0);
    for (size_t i = 0; i < net->forcing.knots; ++i)
        net->forcing.air_C[i] = sin(w * (double)i * FORCING_STEP_S) / chain;
    const double start[FACES_MOST + 1] = {0};
    struct dawn_trajectory *run = tiny_run(net, start, 0, false);
    struct dawn_low low = dawn_trajectory_low(run, net->air, 10 * 86400.0, 11 * 86400.0);
    near_share(-low.low_C, swing, 0.03, "swing of the face");
    near((low.at_s - 10 * 86400.0) / hour_s, 18.0 + lag_h, 0.1, "lag, h");
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* WAL-2, ISO 13786: admittances of that wall, 5.70431 W/m2K from inside, 0.94812 h ahead, and
 * 11.59188 from outside, 1.87277 h ahead; computed from the standard's matrices. A face follows its
 * air by 1 - Rs Y: 0.33503, 2.196 h behind, and 0.62998, 1.352 h behind. */
static void wall_admits_the_day(void **state)
{
    (void)state;
    face_swings(0.13, 0.04, 0.33503, 2.196);
    face_swings(0.04, 0.13, 0.62998, 1.352);
}

/* What the air beside a face of that wall gives it, W/m2, when the air on both sides swings alike
 * by 1 K: amplitude over a day, from the hours' first harmonic. */
static void both_swing(double swing_W_m2[2])
{
    static const double film_m2K_W[2] = {0.04, 0.13};
    const double w = 2 * pi / 86400.0, half = 0.5 * w * FORCING_STEP_S;
    const double chain = pow(sin(half) / half, 2); /* first harmonic of the straight lines */
    const struct layer_stuff concrete = {0.2, 1.8, 2.4e6, 0,
                                         dawn_wall_slices(0.2, 1.8, 2400, 1000)};
    struct slab slab;
    slab_of(&slab, &concrete, 1);
    struct dawn_network *net = slab.building.network;
    const int face[2] = {slab.nodes[0], slab.nodes[slab.faces - 1]};
    for (int side = 0; side < 2; ++side)
        dawn_network_add_conduction(net, face[side], OUTSIDE(OUTSIDE_AIR), "film",
                                    1 / film_m2K_W[side]);
    tiny_finish(net, 24 * 12, 0.0);
    for (size_t i = 0; i < net->forcing.knots; ++i)
        net->forcing.air_C[i] = sin(w * (double)i * FORCING_STEP_S) / chain;
    const double start[FACES_MOST + 1] = {0};
    struct dawn_trajectory *run = tiny_run(net, start, hour_s, false);
    for (int side = 0; side < 2; ++side) {
        double sine = 0, cosine = 0;
        for (size_t hour = 10 * 24; hour < 11 * 24; ++hour) {
            double angle = w * (double)hour * hour_s;
            double given =
                (sin(angle) - dawn_trajectory_series_C(run, hour)[face[side]]) / film_m2K_W[side];
            sine += given * sin(angle) / 12.0;
            cosine += given * cos(angle) / 12.0;
        }
        swing_W_m2[side] = hypot(sine, cosine);
    }
    dawn_trajectory_free(run);
    dawn_network_free(net);
}

/* WAL-2, ISO 13786: areal heat capacities of that wall, 170.8749 kJ/m2K outside and 86.1677 inside,
 * computed from the standard's matrices: what flows in and out over a day when both sides swing
 * alike. */
static void wall_stores_the_day(void **state)
{
    (void)state;
    double swing_W_m2[2];
    both_swing(swing_W_m2);
    near_share(swing_W_m2[0] * 86400.0 / (2 * pi), 170874.9, 0.03, "heat capacity outside");
    near_share(swing_W_m2[1] * 86400.0 / (2 * pi), 86167.7, 0.03, "heat capacity inside");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(soil_follows_a_surface_step),
        cmocka_unit_test(soil_follows_the_day),
        cmocka_unit_test(the_swing_dies_away_with_depth),
        cmocka_unit_test(soil_surface_follows_the_air),
        cmocka_unit_test(frost_front_advances),
        cmocka_unit_test(frost_front_below_a_film),
        cmocka_unit_test(wall_damps_the_day),
        cmocka_unit_test(wall_admits_the_day),
        cmocka_unit_test(wall_stores_the_day),
    };
    return cmocka_run_group_tests_name("network solids", tests, NULL, NULL);
}
