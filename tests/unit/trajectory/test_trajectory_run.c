/* What the house lives through before the run: the weather before it, and the first days again and
 * again where there is none. One lump of 20 days' time constant remembers it all:
 * T = Ta + (T0 - Ta) exp(-t / tau) from stretch to stretch, computed closed form. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "support/near.h"
#include "support/tiny.h"

static const double day_s = 86400.0;
static const double tau_days = 20.0;
static const double start_C = 20.0;
/* The past is followed to 0.01 K, see trajectory_run.c. */
static const double rough_K = 0.01;

/* The lump in the given weather; air_C(day) holds from knot to knot. */
static struct dawn_network *lump(double days, double spin_up_days, double (*air_C)(double day))
{
    struct dawn_network *net = dawn_network_new();
    net->air = dawn_network_add_node(net, DAWN_ROLE_AIR, 1e7, 0, 0, "lump");
    dawn_network_add_conduction(net, net->air, OUTSIDE(OUTSIDE_AIR), "loss",
                                1e7 / (tau_days * day_s));
    tiny_finish(net, (size_t)(days * 24), 0.0);
    for (size_t i = 0; i < net->forcing.knots; ++i)
        net->forcing.air_C[i] = air_C((double)i * FORCING_STEP_S / day_s);
    net->start_C = start_C;
    net->spin_up_s = spin_up_days * day_s;
    return net;
}

struct began {
    double at_C; /* when the run began */
    struct dawn_trajectory_facts facts;
};

static struct began begin(struct dawn_network *net, double from_days, double to_days)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();
    struct dawn_problems problems = {0};
    struct dawn_trajectory *run = NULL;
    plan.from_s = (int64_t)(from_days * day_s);
    plan.to_s = (int64_t)(to_days * day_s);
    plan.series_step_s = 3600.0;
    assert_int_equal(dawn_trajectory_run(&run, net, &plan, &problems), DAWN_OK);
    /* Nothing of the past is kept. */
    assert_int_equal(dawn_trajectory_from_s(run), plan.from_s);
    near(dawn_trajectory_series_time_s(run, 0), (double)plan.from_s, 0, "first row");
    assert_int_equal(dawn_trajectory_series_count(run),
                     (size_t)((double)(plan.to_s - plan.from_s) / 3600.0) + 1);
    struct began began = {dawn_trajectory_series_C(run, 0)[0], dawn_trajectory_facts(run)};
    near(began.facts.imbalance, 0.0, 1e-4, "imbalance of the run alone");
    dawn_trajectory_free(run);
    dawn_network_free(net);
    return began;
}

static void lived(const struct began *began, double lead, double repeated, double window)
{
    near(began->facts.lead_days, lead, 1e-9, "days of weather before");
    near(began->facts.spin_up_days, repeated, 1e-9, "days repeated");
    near(began->facts.spin_up_window_days, window, 1e-9, "first days");
}

static double zero_C(double day)
{
    (void)day;
    return 0.0;
}

static double spell_from_day_12_C(double day)
{
    return day <= 12.0 ? 0.0 : -10.0;
}

/* A run that begins in a cold spell must not repeat the cold: 20 exp(-10/20) = 12.1306. The spell
 * over and over would make -10 + 30 exp(-10/20) = 8.196. */
static void the_weather_before_is_lived_through(void **state)
{
    (void)state;
    struct began began = begin(lump(20, 10, spell_from_day_12_C), 12, 18);
    near(began.at_C, 12.1306, rough_K, "begins at");
    lived(&began, 10, 0, 3);
}

/* From a to b at a moment; half way on the knot of that moment, so that the straight lines to its
 * neighbours carry as much heat as a jump. */
static double step_C(double day, double at_day, double a_C, double b_C)
{
    if (day == at_day)
        return 0.5 * (a_C + b_C);
    return day < at_day ? a_C : b_C;
}

static double warm_on_the_fourth_day_C(double day)
{
    return step_C(day, 3.25, 0.0, 8.0);
}

/* Weather for four days and a quarter: whole days count, so that the run's past begins at a quarter
 * day. Six days are made of the first three at 0 C, then these three, then one at 8 C:
 * 8 + (20 exp(-9/20) - 8) exp(-1/20) = 12.5208. */
static void what_is_missing_is_repeated_before_it(void **state)
{
    (void)state;
    struct began began = begin(lump(12, 10, warm_on_the_fourth_day_C), 4.25, 8);
    near(began.at_C, 12.5208, rough_K, "begins at");
    lived(&began, 4, 6, 3);
}

static double warm_first_two_days_C(double day)
{
    return step_C(day, 2.0, 10.0, 0.0);
}

/* Ten days are three rounds of three and one day before them, the last of the three (at 0 C):
 * 20 -> exp(-1/20) -> three times two days at 10 C and one at 0 C. Computed closed form: each round
 * makes (10 + (T - 10) exp(-2/20)) exp(-1/20) of T: 19.0246, 17.2798, 15.7781, 14.4856. */
static void the_wish_is_met_to_the_day(void **state)
{
    (void)state;
    struct began began = begin(lump(12, 10, warm_first_two_days_C), 0, 6);
    near(began.at_C, 14.4856, rough_K, "begins at");
    lived(&began, 0, 10, 3);
}

/* A past of two days and a half: exp(-2.5/20) of 20 C = 17.6499. */
static void parts_of_days_are_met_too(void **state)
{
    (void)state;
    struct began began = begin(lump(12, 2.5, zero_C), 6, 8);
    near(began.at_C, 17.6499, rough_K, "begins at");
    lived(&began, 2.5, 0, 3);
    began = begin(lump(12, 2.5, zero_C), 0, 2);
    near(began.at_C, 17.6499, rough_K, "begins at");
    lived(&began, 0, 2.5, 2);
}

static void no_past_is_claimed_where_there_is_none(void **state)
{
    (void)state;
    struct began began = begin(lump(12, 0, zero_C), 6, 8);
    near(began.at_C, start_C, 1e-12, "begins at");
    lived(&began, 0, 0, 2);
    began = begin(lump(2, 10, zero_C), 0.25, 1);
    near(began.at_C, start_C, 1e-12, "less than a day cannot be repeated");
    lived(&began, 0, 0, 0);
}

/* Without a temperature of its own the house starts as warm as the air of the day its past begins
 * with, not of the day the weather begins with: 10 C on day 0 and 0 C later make 0 C. */
static void the_past_begins_as_warm_as_its_own_air(void **state)
{
    (void)state;
    struct dawn_network *net = lump(12, 2, warm_first_two_days_C);
    net->start_C = NAN;
    struct began began = begin(net, 6, 8);
    near(began.at_C, 0.0, rough_K, "begins at");
    lived(&began, 2, 0, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_weather_before_is_lived_through),
        cmocka_unit_test(what_is_missing_is_repeated_before_it),
        cmocka_unit_test(the_wish_is_met_to_the_day),
        cmocka_unit_test(parts_of_days_are_met_too),
        cmocka_unit_test(the_past_begins_as_warm_as_its_own_air),
        cmocka_unit_test(no_past_is_claimed_where_there_is_none),
    };
    return cmocka_run_group_tests_name("trajectory/run", tests, NULL, NULL);
}
