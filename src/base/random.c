/* Numbers that look random and are the same for the same seed, on every machine. */
#include "base/random.h"

#include <math.h>

uint64_t dawn_random_bits(struct dawn_random *random)
{
    uint64_t z = (random->state += 0x9e3779b97f4a7c15U);

    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

double dawn_random_between(struct dawn_random *random, double least, double most)
{
    /* The 53 upper bits: as many as a double holds. */
    return least + (most - least) * ((double)(dawn_random_bits(random) >> 11) * 0x1.0p-53);
}

struct dawn_random dawn_random_stream(uint64_t seed, uint64_t number)
{
    struct dawn_random root = {seed};
    struct dawn_random stream = {dawn_random_bits(&root) ^ (number * 0xd1342543de82ef95U)};

    /* Once through the mixer, so that neighbouring numbers start far apart. */
    return (struct dawn_random){dawn_random_bits(&stream)};
}

uint64_t dawn_random_below(struct dawn_random *random, uint64_t count)
{
    /* What lies beyond the last whole multiple of count would favour the small numbers. */
    const uint64_t beyond = UINT64_MAX - UINT64_MAX % count;
    uint64_t bits = dawn_random_bits(random);

    while (bits >= beyond) {
        bits = dawn_random_bits(random);
    }
    return bits % count;
}

static double polynomial(const double *coefficient, int count, double x)
{
    double sum = coefficient[0];

    for (int i = 1; i < count; i++) {
        sum = sum * x + coefficient[i];
    }
    return sum;
}

/* The start for a share up to 0.5. Coefficients: P. J. Acklam, "An algorithm for computing the
 * inverse normal cumulative distribution function", 2003 (from memory; the step behind it would
 * mend a wrong one, and the test compares with erfc). */
static double normal_start(double share)
{
    static const double a[] = {-3.969683028665376e+01, 2.209460984245205e+02,
                               -2.759285104469687e+02, 1.383577518672690e+02,
                               -3.066479806614716e+01, 2.506628277459239e+00};
    static const double b[] = {-5.447609879822406e+01, 1.615858368580409e+02,
                               -1.556989798598866e+02, 6.680131188771972e+01,
                               -1.328068155288572e+01, 1.0};
    static const double c[] = {-7.784894002430293e-03, -3.223964580411365e-01,
                               -2.400758277161838e+00, -2.549732539343734e+00,
                               4.374664141464968e+00,  2.938163982698783e+00};
    static const double d[] = {7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00,
                               3.754408661907416e+00, 1.0};

    if (share < 0.02425) {
        const double q = sqrt(-2.0 * log(share));
        return polynomial(c, 6, q) / polynomial(d, 5, q);
    }
    const double q = share - 0.5;
    return q * polynomial(a, 6, q * q) / polynomial(b, 6, q * q);
}

double dawn_random_normal_at(double share)
{
    const double root_two = 1.4142135623730951;
    const double root_two_pi = 2.5066282746310002;
    /* The lower half alone, for 1 - share loses digits. */
    const double lower = share > 0.5 ? 1.0 - share : share;
    double x = normal_start(lower);
    const double error = 0.5 * erfc(-x / root_two) - lower;
    const double step = error * root_two_pi * exp(0.5 * x * x);

    x -= step / (1.0 + 0.5 * x * step);
    return share > 0.5 ? -x : x;
}

double dawn_random_normal(struct dawn_random *random)
{
    /* The middle of one of 2^53 steps: never 0, never 1. */
    return dawn_random_normal_at(((double)(dawn_random_bits(random) >> 11) + 0.5) * 0x1.0p-53);
}
