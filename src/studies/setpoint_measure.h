/* What one run says of a thermostat setting. Private to src/studies/. */
#ifndef STUDIES_SETPOINT_MEASURE_H
#define STUDIES_SETPOINT_MEASURE_H

#include "dawnlow/studies/setpoint.h"

/* Of a run or, in the same form, of several. cold_C of the row and its months is at the place;
 * air_cold_C and month_air_cold_C are the same of the house air. */
struct setpoint_measure {
    enum dawn_status status;
    bool known, at_trays;
    bool held; /* freezing water holds one of the nights that are judged */
    double nights, days;
    struct dawn_setpoint_row row;
    double air_cold_C, month_air_cold_C[DAWN_SETPOINT_MONTHS];
    size_t years; /* with nights */
    /* The nights of the coldest tenth, and the years' means of them; at the place, in the air. */
    struct dawn_setpoint_range cold_nights, cold_years, air_cold_nights, air_cold_years;
};

void dawn_setpoint_measure(struct setpoint_measure *measure,
                           const struct dawn_batch_outcome *outcome, double line_C);
/* Lays another year's to it, but for the sums; whole is {0} before the first. */
void dawn_setpoint_measure_join(struct setpoint_measure *whole,
                                const struct setpoint_measure *part);

#endif
