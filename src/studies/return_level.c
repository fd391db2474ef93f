/* Gumbel's distribution for yearly lows. Worked on the lows with their sign turned, which makes
 * them highs, as textbooks have them. */
#include "dawnlow/studies/return_level.h"

#include <math.h>

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

struct dawn_return_level_fit dawn_return_level_fit(const double lows_C[], size_t years)
{
    struct dawn_return_level_fit fit = {years, NAN, NAN};
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
        return fit;
    }
    fit.scale_K = solve_scale(lows_C, years, least, most - least);
    fit.location_C = -(least - fit.scale_K * weigh(lows_C, years, least, fit.scale_K).log_sum);
    return fit;
}

static double reduced(double one_in)
{
    return -log(-log1p(-1.0 / one_in));
}

double dawn_return_level_C(const struct dawn_return_level_fit *fit, double one_in)
{
    return fit->location_C - fit->scale_K * reduced(one_in);
}

double dawn_return_level_error_K(const struct dawn_return_level_fit *fit, double one_in)
{
    const double y = reduced(one_in);

    return fit->scale_K * sqrt((1.1087 + 0.5140 * y + 0.6079 * y * y) / (double)fit->years);
}

double dawn_return_level_chance(const struct dawn_return_level_fit *fit, double line_C)
{
    if (isnan(fit->scale_K)) {
        return NAN;
    }
    if (fit->scale_K <= 0.0) {
        return fit->location_C < line_C ? 1.0 : 0.0;
    }
    return -expm1(-exp((line_C - fit->location_C) / fit->scale_K));
}
