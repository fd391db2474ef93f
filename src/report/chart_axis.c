/* Where an axis has its ticks and what stands at them. */
#include "report/chart_axis.h"

#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/text.h"

static const double hour_s = 3600.0;
static const double day_s = 86400.0;

static struct dawn_chart_tick *add_tick(struct dawn_chart_axis *axis, double at)
{
    if (axis->count == DAWN_CHART_TICKS) {
        return NULL;
    }
    axis->tick[axis->count] = (struct dawn_chart_tick){.at = at};
    return &axis->tick[axis->count++];
}

/* ---- numbers ---- */

static double step_over(double least)
{
    const double power = pow(10.0, floor(log10(least)));
    const double factors[] = {1.0, 2.0, 5.0};

    for (size_t i = 0; i < 3; i++) {
        /* A hair of rounding must not cost a step. */
        if (factors[i] * power >= least * (1.0 - 1e-9)) {
            return factors[i] * power;
        }
    }
    return 10.0 * power;
}

void dawn_chart_axis_numbers(struct dawn_chart_axis *axis, double from, double to, size_t most,
                             bool out_to_ticks)
{
    const double slack = 1e-9;

    if (!(to > from)) {
        from -= 0.5;
        to = from + 1.0;
    }
    double step = step_over((to - from) / (double)(most - 1));
    if (out_to_ticks) {
        /* Rounding outward may take one number more than there is room for. */
        while (ceil(to / step - slack) - floor(from / step + slack) > (double)(most - 1)) {
            step = step_over(step * 1.01);
        }
        from = floor(from / step + slack) * step;
        to = ceil(to / step - slack) * step;
    }
    *axis = (struct dawn_chart_axis){.from = from, .to = to};
    const int decimals = step < 1.0 ? (int)ceil(-log10(step) - slack) : 0;
    const long first = lround(ceil(from / step - slack));
    const long last = lround(floor(to / step + slack));
    for (long k = first; k <= last; k++) {
        const double at = (double)k * step;
        struct dawn_chart_tick *tick = add_tick(axis, at);
        if (tick == NULL) {
            return;
        }
        (void)dawn_text_from_number(tick->text, sizeof tick->text, at, decimals);
    }
}

/* ---- time ---- */

static void write_day(double utc_s, double utc_offset_h, char out[DAWN_CHART_TICK_ROOM])
{
    const struct dawn_civil day = dawn_civil_at(llround(utc_s), utc_offset_h);

    snprintf(out, DAWN_CHART_TICK_ROOM, "%d %s", day.day, dawn_civil_month(day.month));
}

/* The smallest of some spans that leaves at most so many of them between two moments. */
static double span_of(const double *span, size_t count, double length, size_t most)
{
    for (size_t i = 0; i < count; i++) {
        if (floor(length / span[i]) + 1.0 <= (double)most) {
            return span[i];
        }
    }
    return span[count - 1] * ceil(length / span[count - 1] / (double)(most - 1));
}

/* The first moment from from_s on that is a whole number of steps by the site's clock. */
static double first_by_clock(double from_s, double step_s, double utc_offset_h)
{
    const double offset_s = utc_offset_h * hour_s;

    return ceil((from_s + offset_s) / step_s) * step_s - offset_s;
}

void dawn_chart_axis_clock(struct dawn_chart_axis *axis, double from_s, double to_s, size_t most,
                           double utc_offset_h)
{
    static const double spans_h[] = {1.0, 2.0, 3.0, 6.0, 12.0, 24.0};
    const double length_h = (to_s - from_s) / hour_s;
    const double step_h = span_of(spans_h, sizeof spans_h / sizeof spans_h[0], length_h, most);
    const double small_h = length_h <= 26.0 ? 1.0 : step_h;

    *axis = (struct dawn_chart_axis){.from = from_s, .to = to_s};
    const double first_s = first_by_clock(from_s, small_h * hour_s, utc_offset_h);
    const long last = lround(floor((to_s - first_s) / (small_h * hour_s)));
    for (long k = 0; k <= last; k++) {
        const double at = first_s + (double)k * small_h * hour_s;
        const struct dawn_civil clock = dawn_civil_at(llround(at), utc_offset_h);
        struct dawn_chart_tick *tick = add_tick(axis, at);
        if (tick == NULL) {
            return;
        }
        if (clock.minute == 0 && clock.hour % (int)fmin(step_h, 24.0) == 0) {
            snprintf(tick->text, sizeof tick->text, "%d", clock.hour);
        }
        if (clock.hour == 0 && tick->text[0] != '\0') {
            write_day(at, utc_offset_h, tick->below);
        }
    }
}

void dawn_chart_axis_days(struct dawn_chart_axis *axis, double from_s, double to_s, size_t most,
                          double utc_offset_h)
{
    static const double spans_d[] = {1.0, 2.0, 4.0, 7.0, 14.0, 28.0, 56.0};
    const double length_d = (to_s - from_s) / day_s;
    const double step_d = span_of(spans_d, sizeof spans_d / sizeof spans_d[0], length_d, most);

    *axis = (struct dawn_chart_axis){.from = from_s, .to = to_s};
    const long last = lround(floor((to_s + 1.0 - from_s) / (step_d * day_s)));
    for (long k = 0; k <= last; k++) {
        const double at = from_s + (double)k * step_d * day_s;
        struct dawn_chart_tick *tick = add_tick(axis, at);
        if (tick == NULL) {
            return;
        }
        write_day(at, utc_offset_h, tick->text);
    }
}

/* ---- a chart's own ---- */

void dawn_chart_axis_x(struct dawn_chart_axis *axis, const struct dawn_chart *chart, size_t most)
{
    const double from = chart->count > 0 ? chart->x[0] : 0.0;
    const double to = chart->count > 0 ? chart->x[chart->count - 1] : 1.0;

    switch (chart->scale) {
    case DAWN_CHART_NUMBERS:
        dawn_chart_axis_numbers(axis, from, to, most, false);
        break;
    case DAWN_CHART_CLOCK:
        dawn_chart_axis_clock(axis, from, to > from ? to : from + hour_s, most,
                              chart->utc_offset_h);
        break;
    case DAWN_CHART_DAYS:
        dawn_chart_axis_days(axis, from, to > from ? to : from + day_s, most, chart->utc_offset_h);
        break;
    }
}

static void widen(double *from, double *to, double value)
{
    if (isfinite(value)) {
        *from = fmin(*from, value);
        *to = fmax(*to, value);
    }
}

void dawn_chart_axis_y(struct dawn_chart_axis *axis, const struct dawn_chart *chart, size_t most)
{
    double from = INFINITY;
    double to = -INFINITY;

    for (size_t i = 0; i < chart->line_count; i++) {
        const struct dawn_chart_line *line = &chart->line[i];
        for (size_t k = 0; k < chart->count; k++) {
            widen(&from, &to, line->y[k]);
            widen(&from, &to, line->low != NULL ? line->low[k] : NAN);
            widen(&from, &to, line->high != NULL ? line->high[k] : NAN);
        }
    }
    for (size_t i = 0; i < chart->level_count; i++) {
        widen(&from, &to, chart->level[i].y);
    }
    for (size_t i = 0; i < chart->mark_count; i++) {
        widen(&from, &to, chart->mark[i].y);
    }
    if (!(to >= from)) {
        from = 0.0;
        to = 1.0;
    }
    dawn_chart_axis_numbers(axis, from, to, most, true);
}
