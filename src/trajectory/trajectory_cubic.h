/* The course of a temperature over one step: a cubic through both ends with the slope of each. */
#ifndef TRAJECTORY_CUBIC_H
#define TRAJECTORY_CUBIC_H

#include <math.h>

/* c0 + c1 s + c2 s^2 + c3 s^3 over the step, 0 <= s <= 1. */
struct cubic {
    double c0, c1, c2, c3;
};

/* Rises are slopes times the step's length. */
static inline struct cubic cubic_between(double from, double to, double from_rise, double to_rise)
{
    double rise = to - from;
    return (struct cubic){from, from_rise, 3 * rise - 2 * from_rise - to_rise,
                          from_rise + to_rise - 2 * rise};
}

static inline double cubic_at(struct cubic c, double s)
{
    return c.c0 + s * (c.c1 + s * (c.c2 + s * c.c3));
}

static inline double cubic_rise_at(struct cubic c, double s)
{
    return c.c1 + s * (2 * c.c2 + 3 * s * c.c3);
}

/* It stays between the least and the most of four numbers (the corners of Bezier's polygon). */
static inline void cubic_bounds(struct cubic c, double *low, double *high)
{
    double corner[4] = {c.c0, c.c0 + c.c1 / 3, c.c0 + (2 * c.c1 + c.c2) / 3,
                        c.c0 + c.c1 + c.c2 + c.c3};
    *low = *high = corner[0];
    for (int i = 1; i < 4; ++i) {
        *low = fmin(*low, corner[i]);
        *high = fmax(*high, corner[i]);
    }
}

#endif
