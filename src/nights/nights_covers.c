/* What night covers did: on how many nights, from when to when, and how long into the sun. */
#include <math.h>

#include "dawnlow/nights.h"

static const double look_s = 900.0; /* the forcing's own step: covers come and go with it */
/* A cover's use is looked for from before sunset to well after sunrise. */
static const double before_dusk_s = 6 * 3600.0, after_dawn_s = 6 * 3600.0;

static bool is_drawn(const struct dawn_network *network, size_t cover, double t_s)
{
    return dawn_network_cover_drawn(network, cover, t_s) > 0.5;
}

/* First and last moment of one night's use; NAN when it is not used. */
static void span_of_use(const struct dawn_network *network, size_t cover,
                        const struct dawn_night *night, double *on_s, double *off_s)
{
    double origin_s = (double)dawn_network_from_s(network);
    long first = lround(ceil(((double)night->dusk_s - before_dusk_s - origin_s) / look_s));
    long last = lround(floor(((double)night->dawn_s + after_dawn_s - origin_s) / look_s));
    *on_s = *off_s = NAN;
    for (long k = first; k <= last; ++k) {
        double t_s = origin_s + (double)k * look_s;
        if (!is_drawn(network, cover, t_s))
            continue;
        *on_s = isnan(*on_s) ? t_s : *on_s;
        *off_s = t_s;
    }
}

void dawn_nights_cover_use(const struct dawn_nights *nights, const struct dawn_network *network,
                           size_t cover, struct dawn_cover_use *use)
{
    size_t coldest = dawn_nights_coldest(nights);
    *use = (struct dawn_cover_use){
        .name = dawn_network_cover_name(network, cover), .on_s = NAN, .off_s = NAN};
    for (size_t i = 0; i < nights->count; ++i) {
        double on_s;
        double off_s;
        span_of_use(network, cover, &nights->night[i], &on_s, &off_s);
        if (isnan(on_s))
            continue;
        ++use->nights;
        use->in_sun_s = fmax(use->in_sun_s, off_s - (double)nights->night[i].dawn_s);
        if (i != coldest)
            continue;
        use->on_s = on_s;
        use->off_s = off_s;
    }
}

size_t dawn_nights_cover_of_snow(const struct dawn_nights *nights,
                                 const struct dawn_network *network)
{
    size_t count = 0;
    for (size_t i = 0; i < nights->count; ++i)
        count += dawn_network_snow_lies(network, (double)nights->night[i].dawn_s) > 0.5;
    return count;
}
