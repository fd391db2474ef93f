/* How low it gets once in so many years, from the lowest of each of a few years. */
#ifndef DAWNLOW_STUDIES_RETURN_LEVEL_H
#define DAWNLOW_STUDIES_RETURN_LEVEL_H

#include <stdbool.h>
#include <stddef.h>

/* The generalised extreme value distribution of yearly lows; with shape 0 it is Gumbel's:
 * P(low < x) = 1 - exp(-(1 - shape z)^(1 / shape)), z = (location - x) / scale. With shape > 0 no
 * low falls beyond location - scale / shape, with shape < 0 the worst are far out. */
struct dawn_return_level_fit {
    size_t years;
    double location_C, scale_K; /* NAN with fewer than 3 years, or without memory */
    double shape;
};

/* Below FEW a return level is more guess than estimate; below GEV the years cannot tell the shape
 * of the tail, and Gumbel's is the steadier guess (common practice). */
enum {
    DAWN_RETURN_LEVEL_LEAST_YEARS = 3,
    DAWN_RETURN_LEVEL_FEW_YEARS = 10,
    DAWN_RETURN_LEVEL_GEV_YEARS = 20
};
/* For programs and for people: "gumbel", "Gumbel's distribution by maximum likelihood". */
const char *dawn_return_level_method(size_t years);
const char *dawn_return_level_words(size_t years);

/* Fits Gumbel's distribution by maximum likelihood (Gumbel 1958; the likelihood equations as in
 * Kotz & Nadarajah 2000, ch. 2, from memory), from DAWN_RETURN_LEVEL_GEV_YEARS on the generalised
 * one by L-moments (Hosking, Wallis & Wood 1985, Hosking 1990, from memory). lows_C has `years`
 * finite values; alike ones give scale 0. */
struct dawn_return_level_fit dawn_return_level_fit(const double lows_C[], size_t years);

/* The low that one year in `one_in` falls below, C; one_in > 1. NAN without a fit. */
double dawn_return_level_C(const struct dawn_return_level_fit *fit, double one_in);
/* How sure that is: its standard error, K. Gumbel's for many years (Tiago de Oliveira 1972, from
 * memory): scale sqrt((1.1087 + 0.5140 y + 0.6079 y^2) / years), y = -ln(-ln(1 - 1 / one_in)). Of
 * the generalised one the scatter of fits to samples drawn from it (parametric bootstrap, Efron &
 * Tibshirani 1993, from memory), the same ones every time. */
double dawn_return_level_error_K(const struct dawn_return_level_fit *fit, double one_in);
/* The chance, 0..1, that a year's low falls below a line. NAN without a fit. */
double dawn_return_level_chance(const struct dawn_return_level_fit *fit, double line_C);

#endif
