/* A lane is one number, or DAWN_LANES of them side by side that go through the same formula at
 * once. What is written over lanes is compiled for one (double, the usual build) or for several
 * (vectors of gcc and clang). Every lane goes its own way: it never sees its neighbours, and it
 * gets the same bits whatever the width, because + - * / and roots are rounded alike everywhere,
 * the rest is made of them here, and the build lets no compiler fuse two of them
 * (-ffp-contract=off).
 *
 * Formulas over lanes take no branches on values: both ways are worked out and lane_select picks.
 * Both must therefore be free of divisions by zero. A way that no lane takes may be left out. */
#ifndef BASE_LANE_H
#define BASE_LANE_H

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#if defined(__AVX__)
#include <immintrin.h>
#endif

#ifndef DAWN_LANES
#define DAWN_LANES 1
#endif

#if DAWN_LANES == 1
typedef double lane;
typedef int lane_mask; /* of a comparison; all bits of a lane or none where there are several */
typedef uint64_t lane_bits;
#else
typedef double lane __attribute__((vector_size(8 * DAWN_LANES)));
typedef int64_t lane_mask __attribute__((vector_size(8 * DAWN_LANES)));
typedef uint64_t lane_bits __attribute__((vector_size(8 * DAWN_LANES)));
#endif

/* The same number in every lane. */
static inline lane lane_of(double x)
{
#if DAWN_LANES == 1
    return x;
#else
    return x - (lane){0};
#endif
}

static inline lane_bits lane_to_bits(lane x)
{
    lane_bits bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

static inline lane lane_from_bits(lane_bits bits)
{
    lane x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

/* Where the mask holds the first, elsewhere the second. */
static inline lane lane_select(lane_mask mask, lane where, lane elsewhere)
{
#if DAWN_LANES == 1
    return mask ? where : elsewhere;
#else
    return (lane)((mask & (lane_mask)where) | (~mask & (lane_mask)elsewhere));
#endif
}

/* Whether the mask holds in any lane. */
static inline bool lane_any(lane_mask mask)
{
#if DAWN_LANES == 1
    return mask != 0;
#else
    int64_t any = 0;
    for (int i = 0; i < DAWN_LANES; ++i)
        any |= mask[i];
    return any != 0;
#endif
}

static inline lane lane_max(lane a, lane b)
{
    return lane_select(a > b, a, b);
}

static inline lane lane_min(lane a, lane b)
{
    return lane_select(a < b, a, b);
}

struct lane_ramp {
    lane value, slope;
};

/* What x is above 0, its corner rounded by a parabola from -width to width. */
static inline struct lane_ramp lane_ramp(lane x, double width)
{
    lane within = lane_max(lane_min(x, lane_of(width)), lane_of(-width));
    lane slope = 0.5 + 0.5 / width * within;
    return (struct lane_ramp){width * slope * slope + lane_max(x - width, lane_of(0.0)), slope};
}

static inline lane lane_abs(lane x)
{
    return lane_from_bits(lane_to_bits(x) & ~(UINT64_C(1) << 63));
}

/* The size of x with the sign of another. */
static inline lane lane_signed(lane x, lane sign)
{
    return lane_from_bits((lane_to_bits(x) & ~(UINT64_C(1) << 63)) |
                          (lane_to_bits(sign) & (UINT64_C(1) << 63)));
}

/* x from 0. Compilers do not find the processor's instruction for several roots by themselves. */
static inline lane lane_sqrt(lane x)
{
#if DAWN_LANES == 1
    return sqrt(x);
#elif DAWN_LANES == 8 && defined(__AVX512F__)
    return (lane)_mm512_sqrt_pd((__m512d)x);
#elif DAWN_LANES == 4 && defined(__AVX__)
    return (lane)_mm256_sqrt_pd((__m256d)x);
#else
    lane root = x;
    for (int i = 0; i < DAWN_LANES; ++i)
        root[i] = sqrt(x[i]);
    return root;
#endif
}

/* e^x, within 1e-15 of itself; x is held to -700..700. By 2^k e^r with the constants of Cody &
 * Waite (Software Manual for the Elementary Functions, 1980; ln 2 in two parts, from memory) and
 * Taylor's series for |r| <= ln(2)/2, whose next term is 4e-18. */
static inline lane lane_exp(lane x)
{
    const double per_ln2 = 1.4426950408889634;
    const double ln2_high = 6.93147180369123816490e-01;
    const double ln2_low = 1.90821492927058770002e-10;
    const double shifter = 6755399441055744.0; /* 1.5 2^52: adding it rounds to whole numbers */
    lane shifted = lane_max(lane_min(x, lane_of(700.0)), lane_of(-700.0));
    lane held = shifted;
    shifted = shifted * per_ln2 + shifter;
    lane whole = shifted - shifter;
    lane r = (held - whole * ln2_high) - whole * ln2_low;
    lane r2 = r * r;
    lane r4 = r2 * r2;
    /* Terms in pairs, so that they do not wait for each other. */
    lane low = (1.0 + r) + r2 * (1.0 / 2 + r * (1.0 / 6));
    lane mid = (1.0 / 24 + r * (1.0 / 120)) + r2 * (1.0 / 720 + r * (1.0 / 5040));
    lane high = (1.0 / 40320 + r * (1.0 / 362880)) + r2 * (1.0 / 3628800 + r * (1.0 / 39916800));
    lane top = 1.0 / 479001600 + r * (1.0 / 6227020800.0);
    lane power = low + r4 * (mid + r4 * (high + r4 * top));
    return lane_from_bits(lane_to_bits(power) + (lane_to_bits(shifted) << 52));
}

/* The cube root of x, within 1e-15 of itself; x is 0 or 1e-290..1e290. First 1/cbrt(x): a guess
 * that divides the exponent by -3, then (1 - h)^(-1/3) = 1 + h/3 + 2h^2/9 + ... (the binomial
 * series) for h = 1 - x guess^3, twice: |h| is 0.103 at most, then 5e-6. */
static inline lane lane_cbrt(lane x)
{
    const double shifter = 4503599627370496.0; /* 2^52: the bits of a whole number are its own */
    lane upper = lane_from_bits((lane_to_bits(x) >> 32) | UINT64_C(0x4330000000000000)) - shifter;
    lane third = (1430186164.0 - upper * (1.0 / 3)) + shifter;
    lane y = lane_from_bits(lane_to_bits(third) << 32);
    lane h = 1.0 - x * (y * y * y);
    y = y + y * h * (1.0 / 3 + h * (2.0 / 9 + h * (14.0 / 81 + h * (35.0 / 243))));
    h = 1.0 - x * (y * y * y);
    y = y + y * h * (1.0 / 3 + h * (2.0 / 9));
    return lane_select(x > 0.0, x * (y * y), lane_of(0.0));
}

#endif
