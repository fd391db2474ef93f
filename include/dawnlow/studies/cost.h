/* What a nursery's stores and skins cost at the scenario's own prices. */
#ifndef DAWNLOW_STUDIES_COST_H
#define DAWNLOW_STUDIES_COST_H

#include "dawnlow/scenario.h"

/* In the scenario's currency; what is not there costs nothing. */
struct dawn_cost {
    double rock;    /* stone, delivered */
    double digging; /* of the rock's bed */
    double fan;     /* with thermostat and ducts */
    double barrels;
    double skins;  /* beyond the first of each face */
    double edge;   /* board along the edge of the floor */
    double covers; /* for the night: curtains over the house, sheets over trays and bed */
    double total;
};
/* The scenario must have passed its checks. The fan has its own price or one by its
 * flow, which is worked out where the scenario gives its curve. */
struct dawn_cost dawn_cost_of(const struct dawn_scenario *scenario);
/* So much electricity each spring, over all the springs the prices count. */
double dawn_cost_of_running(const struct dawn_scenario *scenario, double kWh_a_spring);
/* Glazing of all faces, m2; and the skins there are beyond the first, by area. */
double dawn_cost_glazing_m2(const struct dawn_scenario *scenario);
double dawn_cost_more_skins_m2(const struct dawn_scenario *scenario);
/* Board along the edge of the floor, m2, for so deep a board. */
double dawn_cost_edge_m2(const struct dawn_scenario *scenario, double depth_m);

#endif
