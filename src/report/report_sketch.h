/* A sketch of the house across its length. */
#ifndef REPORT_REPORT_SKETCH_H
#define REPORT_REPORT_SKETCH_H

#include <stdbool.h>
#include <stdio.h>

#include "dawnlow/scenario.h"

/* At most 76 columns; plain ASCII, or with boxes the box-drawing characters of Unicode (UTF-8). The
 * left side is where the largest glazed roof looks. */
void dawn_report_sketch(FILE *out, const struct dawn_scenario *scenario, bool boxes);

#endif
