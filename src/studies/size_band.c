/* How far the weather bears a design's low out: by the coldest night of each year, where there are
 * years enough; else only how far apart the coldest nights lie. */
#include <math.h>
#include <stdlib.h>

#include "studies/size_parts.h"

void dawn_size_unborne(struct dawn_size_design *design)
{
    design->fit = (struct dawn_return_level_fit){.location_C = NAN, .scale_K = NAN};
    design->band_low_C = design->band_high_C = NAN;
}

static struct dawn_return_level_fit fit_years(const double year_low_C[], size_t years)
{
    struct dawn_return_level_fit fit = {0, NAN, NAN, 0.0};
    double *low_C = calloc(years + 1, sizeof *low_C);
    size_t count = 0;

    for (size_t y = 0; low_C != NULL && y < years; y++) {
        if (!isnan(year_low_C[y])) {
            low_C[count++] = year_low_C[y];
        }
    }
    if (count > 0) {
        fit = dawn_return_level_fit(low_C, count);
    }
    free(low_C);
    return fit;
}

void dawn_size_band(struct dawn_size_design *design, const struct size_low lows[], size_t count,
                    const double year_low_C[], size_t years)
{
    const size_t last = count < DAWN_SIZE_BAND_NIGHTS ? count : DAWN_SIZE_BAND_NIGHTS;

    design->fit = fit_years(year_low_C, years);
    if (isnan(design->fit.scale_K)) {
        design->band_low_C = lows[0].low_C;
        design->band_high_C = lows[last - 1].low_C;
        return;
    }
    const double level_C = dawn_return_level_C(&design->fit, DAWN_SIZE_BAND_YEARS);
    const double error_K = dawn_return_level_error_K(&design->fit, DAWN_SIZE_BAND_YEARS);
    design->band_low_C = level_C - error_K;
    design->band_high_C = level_C + error_K;
}
