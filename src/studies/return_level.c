/* Gumbel's and the generalised extreme value distribution for yearly lows. Worked on the lows with
 * their sign turned, which makes them highs, as textbooks have them. */
#include "dawnlow/studies/return_level.h"

#include <math.h>
#include <stdlib.h>

#include "base/random.h"

const char *dawn_return_level_method(size_t years)
{
    return years < DAWN_RETURN_LEVEL_GEV_YEARS ? "gumbel" : "generalised extreme value";
}

const char *dawn_return_level_words(size_t years)
{
    return years < DAWN_RETURN_LEVEL_GEV_YEARS
               ? "Gumbel's distribution by maximum likelihood"
               : "the generalised extreme value distribution by L-moments";
}

/* ---- Gumbel's, by maximum likelihood ---- */

struct weighed {
    double mean, weighed_mean, log_sum; /* of the highs; weighed by exp(-(high - least) / scale) */
};

static struct weighed weigh(const double lows_C[], size_t years, double least, double scale)
{
    double sum = 0.0;
    double weights = 0.0;
    double weighed = 0.0;

    for (size_t i = 0; i < years; i++) {
        const double high = -lows_C[i];
        const double weight = exp(-(high - least) / scale);
        sum += high;
        weights += weight;
        weighed += weight * high;
    }
    return (struct weighed){sum / (double)years, weighed / weights, log(weights / (double)years)};
}

/* The likelihood is stationary where scale = mean - weighed mean; this falls with scale. */
static double excess(const double lows_C[], size_t years, double least, double scale)
{
    const struct weighed it = weigh(lows_C, years, least, scale);

    return it.mean - it.weighed_mean - scale;
}

static double solve_scale(const double lows_C[], size_t years, double least, double range)
{
    double low = 1e-6 * range;
    double high = range;

    for (int i = 0; i < 200 && high - low > 1e-14 * range; i++) {
        const double middle = 0.5 * (low + high);
        if (excess(lows_C, years, least, middle) > 0.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return 0.5 * (low + high);
}

static void fit_gumbel(struct dawn_return_level_fit *fit, const double lows_C[], double least,
                       double range)
{
    fit->scale_K = solve_scale(lows_C, fit->years, least, range);
    fit->location_C =
        -(least - fit->scale_K * weigh(lows_C, fit->years, least, fit->scale_K).log_sum);
}

/* ---- the generalised one, by L-moments ---- */

struct l_moments {
    double mean, scale, skew; /* skew in units of scale */
};

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;

    return (x > y) - (x < y);
}

/* Of the sample, by unbiased probability-weighted moments. highs are sorted. */
static struct l_moments moments_of(const double highs[], size_t years)
{
    const double n = (double)years;
    double b[3] = {0.0};

    for (size_t i = 0; i < years; i++) {
        const double below = (double)i;
        b[0] += highs[i] / n;
        b[1] += highs[i] / n * below / (n - 1.0);
        b[2] += highs[i] / n * below / (n - 1.0) * (below - 1.0) / (n - 2.0);
    }
    const double scale = 2.0 * b[1] - b[0];
    return (struct l_moments){b[0], scale, (6.0 * b[2] - 6.0 * b[1] + b[0]) / scale};
}

/* The distribution's own L-skew; it falls with the shape. Near 0 the quotient would be 0 / 0. */
static double skew_of(double shape)
{
    return fabs(shape) < 1e-9 ? 2.0 * log(3.0) / log(2.0) - 3.0
                              : 2.0 * expm1(-shape * log(3.0)) / expm1(-shape * log(2.0)) - 3.0;
}

/* Hosking gives a quadratic for it; halving costs no more thought and is exact. */
static double shape_of(double skew)
{
    double low = -0.999;
    double high = 20.0;

    while (high - low > 1e-12) {
        const double middle = 0.5 * (low + high);
        if (skew_of(middle) > skew) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return 0.5 * (low + high);
}

static void fit_moments(struct dawn_return_level_fit *fit, double highs[])
{
    static const double euler = 0.57721566490153286;

    qsort(highs, fit->years, sizeof *highs, by_size);
    const struct l_moments moments = moments_of(highs, fit->years);
    const double k = shape_of(moments.skew);
    const bool gumbel = fabs(k) < 1e-7;
    const double gamma = tgamma(1.0 + k);
    fit->shape = gumbel ? 0.0 : k;
    fit->scale_K = moments.scale * (gumbel ? 1.0 / log(2.0) : k / (-expm1(-k * log(2.0)) * gamma));
    fit->location_C = -(moments.mean - fit->scale_K * (gumbel ? euler : (1.0 - gamma) / k));
}

static void fit_general(struct dawn_return_level_fit *fit, const double lows_C[])
{
    double *highs = calloc(fit->years, sizeof *highs);

    if (highs == NULL) {
        return;
    }
    for (size_t i = 0; i < fit->years; i++) {
        highs[i] = -lows_C[i];
    }
    fit_moments(fit, highs);
    free(highs);
}

/* ---- either ---- */

struct dawn_return_level_fit dawn_return_level_fit(const double lows_C[], size_t years)
{
    struct dawn_return_level_fit fit = {years, NAN, NAN, 0.0};
    double least = INFINITY;
    double most = -INFINITY;

    if (years < DAWN_RETURN_LEVEL_LEAST_YEARS) {
        return fit;
    }
    for (size_t i = 0; i < years; i++) {
        least = fmin(least, -lows_C[i]);
        most = fmax(most, -lows_C[i]);
    }
    if (most - least < 1e-9) {
        fit.location_C = lows_C[0];
        fit.scale_K = 0.0;
    } else if (years < DAWN_RETURN_LEVEL_GEV_YEARS) {
        fit_gumbel(&fit, lows_C, least, most - least);
    } else {
        fit_general(&fit, lows_C);
    }
    return fit;
}

/* Gumbel's variate of a year, by how rarely it is exceeded. */
static double reduced(double one_in)
{
    return -log(-log1p(-1.0 / one_in));
}

/* How many scales a high with that variate lies beyond the location. */
static double beyond(const struct dawn_return_level_fit *fit, double variate)
{
    return fit->shape == 0.0 ? variate : -expm1(-fit->shape * variate) / fit->shape;
}

double dawn_return_level_C(const struct dawn_return_level_fit *fit, double one_in)
{
    return fit->location_C - fit->scale_K * beyond(fit, reduced(one_in));
}

static double gumbel_error_K(const struct dawn_return_level_fit *fit, double one_in)
{
    const double y = reduced(one_in);

    return fit->scale_K * sqrt((1.1087 + 0.5140 * y + 0.6079 * y * y) / (double)fit->years);
}

/* The scatter of the level from samples of the fit; in scales around its location. */
static double drawn_error_K(const struct dawn_return_level_fit *fit, double one_in)
{
    enum { SAMPLES = 400 };
    double *highs = calloc(fit->years, sizeof *highs);
    double sum = 0.0;
    double squares = 0.0;

    if (highs == NULL) {
        return NAN;
    }
    for (uint64_t sample = 0; sample < SAMPLES; sample++) {
        struct dawn_random random = dawn_random_stream(1, sample);
        struct dawn_return_level_fit drawn = {.years = fit->years};
        for (size_t i = 0; i < fit->years; i++) {
            highs[i] = beyond(fit, -log(-log(dawn_random_between(&random, 1e-12, 1.0 - 1e-12))));
        }
        fit_moments(&drawn, highs);
        const double level = dawn_return_level_C(&drawn, one_in);
        sum += level;
        squares += level * level;
    }
    free(highs);
    return fit->scale_K * sqrt(fmax(squares / SAMPLES - sum / SAMPLES * (sum / SAMPLES), 0.0));
}

double dawn_return_level_error_K(const struct dawn_return_level_fit *fit, double one_in)
{
    if (isnan(fit->scale_K) || fit->scale_K <= 0.0) {
        return fit->scale_K;
    }
    return fit->years < DAWN_RETURN_LEVEL_GEV_YEARS ? gumbel_error_K(fit, one_in)
                                                    : drawn_error_K(fit, one_in);
}

double dawn_return_level_chance(const struct dawn_return_level_fit *fit, double line_C)
{
    if (isnan(fit->scale_K)) {
        return NAN;
    }
    if (fit->scale_K <= 0.0) {
        return fit->location_C < line_C ? 1.0 : 0.0;
    }
    const double z = (fit->location_C - line_C) / fit->scale_K;
    if (fit->shape == 0.0) {
        return -expm1(-exp(-z));
    }
    const double left = 1.0 - fit->shape * z; /* of the way to where the distribution ends */
    if (left <= 0.0) {
        return fit->shape > 0.0 ? 0.0 : 1.0;
    }
    return -expm1(-pow(left, 1.0 / fit->shape));
}
