/* A lane is one double; where DAWN_LANES is set it is that many floats side by side (vectors of gcc
 * and clang) that go through the same formula at once. What is written over lanes is compiled both
 * ways. Every float goes its own way: it never sees its neighbours, and it gets the same bits
 * whatever the width, because + - * / and roots are rounded alike everywhere, the rest is made of
 * them here, and the build lets no compiler fuse two of them (-ffp-contract=off).
 *
 * Formulas over lanes take no branches on values: both ways are worked out and lane_select picks.
 * Both must therefore be free of divisions by zero. A way that no lane takes may be left out.
 *
 * Numbers in a formula are lane_numbers: those that no float holds exactly need LANE_NUMBER, and a
 * compiler that finds one without it says so. */
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
typedef double lane_number;
typedef double lane;
typedef int lane_mask; /* of a comparison; all bits of a lane or none where there are several */
#else
typedef float lane_number;
typedef float lane __attribute__((vector_size(4 * DAWN_LANES)));
typedef int32_t lane_mask __attribute__((vector_size(4 * DAWN_LANES)));
typedef uint32_t lane_bits __attribute__((vector_size(4 * DAWN_LANES)));
#endif

#define LANE_NUMBER(x) ((lane_number)(x))

/* The same number in every lane. */
static inline lane lane_of(double x)
{
#ifndef DAWN_LANES
    return x;
#else
    return LANE_NUMBER(x) - (lane){0};
#endif
}

/* Where the mask holds the first, elsewhere the second. */
static inline lane lane_select(lane_mask mask, lane where, lane elsewhere)
{
#ifndef DAWN_LANES
    return mask ? where : elsewhere;
#else
    return (lane)((mask & (lane_mask)where) | (~mask & (lane_mask)elsewhere));
#endif
}

/* Whether the mask holds in any lane. */
static inline bool lane_any(lane_mask mask)
{
#ifndef DAWN_LANES
    return mask != 0;
#else
    int32_t any = 0;
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
static inline struct lane_ramp lane_ramp(lane x, lane_number width)
{
    lane within = lane_max(lane_min(x, lane_of(width)), lane_of(-width));
    lane slope = 0.5 + within / (2 * width);
    return (struct lane_ramp){width * slope * slope + lane_max(x - width, lane_of(0.0)), slope};
}

#ifndef DAWN_LANES

static inline lane lane_abs(lane x)
{
    return fabs(x);
}

/* The size of x with the sign of another. */
static inline lane lane_signed(lane x, lane sign)
{
    return copysign(x, sign);
}

static inline lane lane_sqrt(lane x)
{
    return sqrt(x);
}

static inline lane lane_exp(lane x)
{
    return exp(x);
}

static inline lane lane_cbrt(lane x)
{
    return cbrt(x);
}

#else

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

static inline lane lane_abs(lane x)
{
    return lane_from_bits(lane_to_bits(x) & UINT32_C(0x7FFFFFFF));
}

static inline lane lane_signed(lane x, lane sign)
{
    return lane_from_bits((lane_to_bits(x) & UINT32_C(0x7FFFFFFF)) |
                          (lane_to_bits(sign) & UINT32_C(0x80000000)));
}

/* x from 0. Compilers do not find the processor's instruction for several roots by themselves. */
static inline lane lane_sqrt(lane x)
{
#if DAWN_LANES == 16 && defined(__AVX512F__)
    return (lane)_mm512_sqrt_ps((__m512)x);
#elif DAWN_LANES == 8 && defined(__AVX__)
    return (lane)_mm256_sqrt_ps((__m256)x);
#else
    lane root = x;
    for (int i = 0; i < DAWN_LANES; ++i)
        root[i] = sqrtf(x[i]);
    return root;
#endif
}

/* e^x, within 1e-7 of itself; x is held to -87..87. By 2^k e^r with ln 2 in two parts (Cody &
 * Waite, Software Manual for the Elementary Functions, 1980, from memory: the first part has few
 * enough digits that its products with k are exact) and Taylor's series for |r| <= ln(2)/2, whose
 * next term is 5e-9. */
static inline lane lane_exp(lane x)
{
    const lane_number per_ln2 = LANE_NUMBER(1.4426950408889634);
    const lane_number ln2_high = 0.693359375F;
    const lane_number ln2_low = LANE_NUMBER(-2.12194440e-4);
    const lane_number shifter = 12582912.0F; /* 1.5 2^23: adding it rounds to whole numbers */
    lane held = lane_max(lane_min(x, lane_of(87.0)), lane_of(-87.0));
    lane shifted = held * per_ln2 + shifter;
    lane whole = shifted - shifter;
    lane r = (held - whole * ln2_high) - whole * ln2_low;
    lane r2 = r * r;
    /* Terms in pairs, so that they do not wait for each other. */
    lane low = 0.5 + r * LANE_NUMBER(1.0 / 6);
    lane high = LANE_NUMBER(1.0 / 24) + r * LANE_NUMBER(1.0 / 120);
    lane top = LANE_NUMBER(1.0 / 720) + r * LANE_NUMBER(1.0 / 5040);
    lane power = (r + r2 * (low + r2 * (high + r2 * top))) + 1.0;
    return lane_from_bits(lane_to_bits(power) + (lane_to_bits(shifted) << 23));
}

/* The cube root of x, within 3e-7 of itself; x is 0 or 1e-30..1e30. First 1/cbrt(x): a guess that
 * divides the exponent by -3, then (1 - h)^(-1/3) = 1 + h/3 + 2h^2/9 + ... (the binomial series)
 * for h = 1 - x guess^3, twice: |h| is 0.11 at most, then 7e-4. */
static inline lane lane_cbrt(lane x)
{
    const lane_number third = LANE_NUMBER(1.0 / 3);
    const lane_number two_ninths = LANE_NUMBER(2.0 / 9);
    lane bits = __builtin_convertvector((lane_mask)lane_to_bits(x), lane);
    lane guess = 1419966092.0F - bits * third;
    lane y = lane_from_bits((lane_bits) __builtin_convertvector(guess, lane_mask));
    lane h = 1.0 - x * (y * y * y);
    y = y + y * h * (third + h * two_ninths);
    h = 1.0 - x * (y * y * y);
    y = y + y * h * (third + h * two_ninths);
    return lane_select(x > 0.0, x * (y * y), lane_of(0.0));
}

#endif

#endif
