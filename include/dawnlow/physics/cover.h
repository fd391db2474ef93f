/* Night covers: what growers lay over trays or draw across the house. */
#ifndef DAWNLOW_PHYSICS_COVER_H
#define DAWNLOW_PHYSICS_COVER_H

#include <stddef.h>

/* A cover is a sheet with an air pocket below it. The pocket's films are not in it. Long-wave
 * shares: what is neither let through nor absorbed is reflected, on either face. */
struct dawn_cover_sheet {
    const char *word;
    const char *meaning;
    double resistance_m2K_W; /* of the sheet and the air within it, without films */
    double longwave_dry;     /* long-wave transmittance, dry */
    double longwave_wet;     /* the same with dew or frost on it; what it lets less through, it
                                absorbs and emits more, on both faces */
    double emissivity_below; /* of the face toward the plants, dry */
    double emissivity_above;
    double light;                /* share of sunlight let through when left on by day */
    double pocket_changes_per_h; /* air changes of the pocket below, edges lying on the bench or
                                    floor */
    const char *source;          /* and how far each figure is to be trusted */
};

/* All covers, lightest first; count is set to how many. */
const struct dawn_cover_sheet *dawn_cover_table(size_t *count);

/* The cover of that word, NULL when there is none. */
const struct dawn_cover_sheet *dawn_cover_find(const char *word);

#endif
