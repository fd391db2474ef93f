/* Night covers: what growers lay over trays and beds or draw below the roof. */
#ifndef DAWNLOW_PHYSICS_COVER_H
#define DAWNLOW_PHYSICS_COVER_H

#include <stddef.h>

/* A sheet with a pocket of still air on its far side. The pocket's films are not in it. Long-wave
 * and light: what is neither let through nor taken up is thrown back. */
struct dawn_cover_sheet {
    const char *word;
    const char *meaning;
    double resistance_m2K_W; /* of the sheet and the air within it, without films */
    double longwave_dry;     /* long-wave transmittance, dry */
    double longwave_wet;     /* the same with dew or frost on it; what it lets less through it takes
                                up and gives off more, on both faces */
    double emissivity_below; /* of the lower face, dry */
    double emissivity_above;
    double light;              /* share of sunlight let through when left on by day */
    double light_taken;        /* share of sunlight that warms the sheet */
    double leak_changes_per_h; /* air changes of the pocket, edges lying on bench or floor */
    double vapour_film_W_m2K;  /* vapour through the sheet itself, as a film for latent heat */
    double heat_J_m2K;         /* of the sheet, a little dew in it */
    const char *source;        /* and how far each figure is to be trusted */
};

/* All covers, lightest first; count is set to how many. Their words stand in the same order in the
 * scenario's table of keys. */
const struct dawn_cover_sheet *dawn_cover_table(size_t *count);

/* The cover of that word, NULL when there is none. */
const struct dawn_cover_sheet *dawn_cover_find(const char *word);

/* Long-wave a sheet lets through and takes up on a face of the given dry emissivity, dry or wet. */
struct dawn_cover_longwave {
    double passes, takes;
};
struct dawn_cover_longwave dawn_cover_longwave_of(const struct dawn_cover_sheet *sheet,
                                                  double emissivity, int wet);

/* How much of the free exchange past a cover is left when it is drawn this far, 0..1: 1 open, 0
 * shut, falling by equal factors in between, (1000^(1 - drawn) - 1)/999. Air passes even a narrow
 * gap readily: half drawn still leaves 3 % (an assumption; the quarter of an hour in which a cover
 * is drawn does not decide a night). */
double dawn_cover_gap(double drawn);

#endif
