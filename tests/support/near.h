/* Floating-point checks for cmocka that print what was computed, what was expected and how far
 * apart they are. Include <cmocka.h> (and what it needs) before this file. */
#ifndef SUPPORT_NEAR_H
#define SUPPORT_NEAR_H

#include <math.h>

/* Fails unless |got - want| <= tolerance; a NaN on either side fails. */
#define near(got, want, tolerance, what)                                                           \
    near_check((double)(got), (double)(want), (double)(tolerance), (what), __FILE__, __LINE__)
/* The same with the tolerance as a share of |want|. */
#define near_share(got, want, share, what)                                                         \
    near_check((double)(got), (double)(want), fabs((double)(want)) * (double)(share), (what),      \
               __FILE__, __LINE__)

static inline void near_check(double got, double want, double tolerance, const char *what,
                              const char *file, int line)
{
    const double off = got - want;
    if (fabs(off) <= tolerance)
        return;
    print_error("%s: got %.12g, want %.12g within %.3g, off by %.3g\n", what, got, want, tolerance,
                off);
    _fail(file, line);
}

#endif
