/* Latin hypercube sampling (McKay, Beckman & Conover 1979): every unknown is cut into as many
 * equally likely slices as there are members, and each slice is used once. So a few hundred members
 * cover what each unknown may be better than as many independent draws. */
#ifndef STUDIES_LATIN_H
#define STUDIES_LATIN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* share[member * unknowns + unknown], each 0 < share < 1, drawn with a seed: the same for the same
 * seed, members and unknowns; a further unknown leaves those before it as they are. False when
 * memory runs out. */
bool dawn_latin_fill(double *share, size_t members, size_t unknowns, uint64_t seed);

#endif
