/* Air through rock: the segments of the network against closed forms. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "dawnlow/physics/rockbed.h"
#include "support/near.h"
#include "support/tiny.h"

enum { SEGMENTS_MOST = 400 };

/* A bed of many segments at 0 C, blown through with air that is held at 1 C. Times are counted in
 * bed capacities carried through: theta = t m cp / (M c). */
struct bed {
    struct dawn_network *net;
    struct dawn_trajectory *run;
    int segments, node[SEGMENTS_MOST];
    double share;
};

static const double flow_W_K = 100.0, heat_J_K = 7.2e5; /* theta = 0.5 an hour */

static struct bed bed_of(int segments, double transfer_units, bool turns, double air_C,
                         const double stone_C[])
{
    struct bed bed = {.net = dawn_network_new(), .segments = segments};
    struct dawn_network *net = bed.net;
    double start[SEGMENTS_MOST + 1] = {air_C};
    net->air = dawn_network_add_node(net, DAWN_ROLE_AIR, 1e15, 0, 0, "held air");
    net->rock = calloc((size_t)segments, sizeof *net->rock);
    bed.share = dawn_rockbed_segment_share(transfer_units, segments);
    for (int i = 0; i < segments; ++i) {
        bed.node[i] = net->rock[i] =
            dawn_network_add_node(net, DAWN_ROLE_ROCK, heat_J_K / segments, 0, 0, "rock %d", i);
        dawn_network_add_stream(net, net->air, net->air, net->rock[i], flow_W_K, bed.share);
        start[net->rock[i]] = stone_C ? stone_C[i] : 0.0;
    }
    for (int i = segments; turns && i-- > 0;)
        dawn_network_add_stream_back(net, net->air, net->air, net->rock[i], flow_W_K, bed.share);
    net->rock_count = (size_t)segments;
    net->sensor = net->air;
    net->has_fan = true;
    net->fan = (struct dawn_fan){.present = true,
                                 .on_C = -10,
                                 .off_C = -20,
                                 .start_margin_K = -100,
                                 .stop_margin_K = -200,
                                 .night_on_C = NAN};
    tiny_finish(net, 3, 0.0);
    bed.run = tiny_run(net, start, 3600.0, true);
    return bed;
}

static struct bed blown_bed(int segments, double transfer_units)
{
    return bed_of(segments, transfer_units, false, 1.0, NULL);
}

static void empty_bed(struct bed *bed)
{
    dawn_trajectory_free(bed->run);
    dawn_network_free(bed->net);
}

/* Temperature of the air as it leaves, at a row of the series. */
static double outlet_C(const struct bed *bed, size_t row)
{
    const double *T = dawn_trajectory_series_C(bed->run, row);
    double air = T[bed->net->air];
    for (int i = 0; i < bed->segments; ++i)
        air -= bed->share * (air - T[bed->node[i]]);
    return air;
}

static double mean_C(const struct bed *bed, size_t row)
{
    const double *T = dawn_trajectory_series_C(bed->run, row);
    double sum = 0;
    for (int i = 0; i < bed->segments; ++i)
        sum += T[bed->node[i]];
    return sum / bed->segments;
}

/* Of the stones where the air leaves: half a segment on from the last one's middle. */
static double last_stone_C(const struct bed *bed, size_t row)
{
    const double *T = dawn_trajectory_series_C(bed->run, row);
    double last = T[bed->node[bed->segments - 1]];
    return last + 0.5 * (last - T[bed->node[bed->segments - 2]]);
}

/* BED-1, BED-2: the effectiveness scheme itself; computed matrix exponential. */
static void scheme_is_the_scheme(void **state)
{
    (void)state;
    static const struct {
        int segments;
        double units, outlet[3], mean[3];
    } cases[] = {
        {10, 10, {.129109639, .549858265, .858928100}, {.481901399, .816188427, .954109147}},
        {6, 6, {.211514725, .564507001, .814300679}, {.459109265, .764219539, .913349520}},
    };
    static const size_t rows[3] = {1, 2, 3}; /* theta 0.5, 1, 1.5 */
    for (size_t k = 0; k < 2; ++k) {
        struct bed bed = blown_bed(cases[k].segments, cases[k].units);
        for (int i = 0; i < 3; ++i) {
            near(outlet_C(&bed, rows[i]), cases[k].outlet[i], 1e-7, "air out");
            near(mean_C(&bed, rows[i]), cases[k].mean[i], 1e-7, "mean rock");
        }
        empty_bed(&bed);
    }
}

/* Schumann 1929: the step response of a bed with finite transfer. xi = NTU, tau = NTU theta; values
 * computed to 30 digits from the closed form. With many segments a transfer unit the scheme must
 * come to it: its error falls with the segment's square. */
static void fine_segments_come_to_schumann(void **state)
{
    (void)state;
    static const struct {
        double xi, theta, air_C, stone_C;
    } want[] = {
        {5, 0.5, .2313084493, .1317194457},  {5, 1.0, .5639166686, .4360833314},
        {5, 1.5, .8038397147, .7143368674},  {10, 0.5, .1197937523, .07439201475},
        {10, 1.0, .5448901559, .4551098441}, {10, 1.5, .8657798320, .8168839212},
    };
    for (size_t k = 0; k < sizeof want / sizeof *want; ++k) {
        struct bed bed = blown_bed((int)(40 * want[k].xi), want[k].xi);
        const size_t row = (size_t)(want[k].theta * 2 + 0.5);
        near(outlet_C(&bed, row), want[k].air_C, 2e-4, "air out");
        near(last_stone_C(&bed, row), want[k].stone_C, 2e-4, "stones where it leaves");
        empty_bed(&bed);
    }
}

enum { FEW = 8 };

/* What a bed that was charged from 0 C for some rows gives back for others, in its whole capacity;
 * and the air as it leaves in the end. */
struct given_back {
    double heat, air_C;
};
static struct given_back given_back(size_t charged, size_t discharged, bool turns)
{
    struct bed warm = blown_bed(FEW, 6.0);
    struct given_back given = {.heat = mean_C(&warm, charged)};
    const double *stone_C = dawn_trajectory_series_C(warm.run, charged) + warm.node[0];
    struct bed cold = bed_of(FEW, 6.0, turns, 0.0, stone_C);
    given.heat -= mean_C(&cold, discharged);
    const double *T = dawn_trajectory_series_C(cold.run, discharged);
    for (int i = 0; i < FEW; ++i)
        given.air_C += cold.share * (T[cold.node[turns ? FEW - 1 - i : i]] - given.air_C);
    empty_bed(&warm);
    empty_bed(&cold);
    return given;
}

/* Air the other way comes out at the end where the bed was charged. What it gives back in a time b
 * after a charge of time a is what it gives in a after a charge of b: read backwards the segments'
 * matrix is its own transpose, so that the heat is an integral over both times of a kernel that is
 * the same for (a, b) and (b, a); computed closed form, for Schumann's bed as well. Air that goes
 * on the same way adds a cold front behind the warm one: differences of the step response. */
static void reversed_air_comes_out_warmer(void **state)
{
    (void)state;
    struct bed bed = blown_bed(FEW, 6.0);
    struct given_back onward = given_back(1, 2, false);
    struct given_back reversed = given_back(1, 2, true);
    near(onward.heat, mean_C(&bed, 1) - mean_C(&bed, 3) + mean_C(&bed, 2), 1e-7, "onward, heat");
    near(onward.air_C, outlet_C(&bed, 3) - outlet_C(&bed, 2), 1e-7, "onward, air");
    near(reversed.heat, given_back(2, 1, true).heat, 1e-7, "the other way, times exchanged");
    near(given_back(1, 3, true).heat, given_back(3, 1, true).heat, 1e-7, "and others");
    print_message("of %.4f the bed gives back %.4f onward, %.4f reversed\n", mean_C(&bed, 1),
                  onward.heat, reversed.heat);
    assert_true(reversed.heat > onward.heat + 0.05);
    /* warmest at once; onward the warm front has still to come through */
    assert_true(given_back(1, 0, true).air_C > given_back(1, 0, false).air_C + 0.2);
    empty_bed(&bed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(scheme_is_the_scheme),
        cmocka_unit_test(fine_segments_come_to_schumann),
        cmocka_unit_test(reversed_air_comes_out_warmer),
    };
    return cmocka_run_group_tests_name("network rock", tests, NULL, NULL);
}
