/* What vegetable seedlings bear and want: the figures a grower need not look up. */
#ifndef DAWNLOW_PHYSICS_CROP_H
#define DAWNLOW_PHYSICS_CROP_H

#include <stddef.h>

/* Temperatures of the leaves unless said otherwise. Sources by column: dawn_crop_source. */
struct dawn_crop_facts {
    const char *name;
    double damage_C;       /* unhardened seedlings are harmed below it */
    double damage_after_h; /* when it lasts so long */
    double chilling_C;     /* below it for days they suffer without freezing; NAN = they do not */
    double growth_C;       /* below it they hardly grow */
    double sprout_least_C, sprout_most_C; /* of the soil, to germinate well */
};
/* All crops, by name. */
const struct dawn_crop_facts *dawn_crop_table(size_t *count);
/* The crop of that name (ASCII case ignored), NULL when there is none. */
const struct dawn_crop_facts *dawn_crop_find(const char *name);

/* Where the figures of a column come from, and how far they are to be trusted. */
enum dawn_crop_column {
    DAWN_CROP_DAMAGE,
    DAWN_CROP_CHILLING,
    DAWN_CROP_GROWTH,
    DAWN_CROP_SPROUTING,
    DAWN_CROP_COLUMNS
};
const char *dawn_crop_source(enum dawn_crop_column column);

#endif
