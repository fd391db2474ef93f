/* "6 t..24 t/4": a range as a grower writes it, for every study that varies something. Private to
 * src/studies/. */
#ifndef STUDIES_RANGE_H
#define STUDIES_RANGE_H

#include <stdbool.h>
#include <stddef.h>

enum { DAWN_RANGE_UNIT_SIZE = 32, DAWN_RANGE_STEPS_MOST = 1000000 };

struct dawn_range {
    double from, to;                 /* from < to */
    char unit[DAWN_RANGE_UNIT_SIZE]; /* behind both ends, or behind the last alone; "" = none */
    size_t steps;                    /* values, both ends included; 0 = it does not say */
};
/* Whether a text is one: it has ".." in it. */
bool dawn_range_is(const char *text);
/* Reads it. NULL, or what is wrong with it, for a message. */
const char *dawn_range_read(struct dawn_range *range, const char *text);

#endif
