/* The nursery as a thermal network: nodes that hold heat, links that carry it, sources that bring
 * it, all named. Links are kept by kind; each kind is one small kernel over a table.
 *
 * A node's state is its enthalpy over its unfrozen heat capacity, in degrees Celsius above water at
 * 0 C: equal to its temperature while nothing is frozen, and lower by up to latent/capacity while
 * its water turns to ice. So one tolerance suits every state. */
#ifndef DAWNLOW_NETWORK_H
#define DAWNLOW_NETWORK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "dawnlow/problems.h"
#include "dawnlow/scenario.h"
#include "dawnlow/weather.h"

struct dawn_network; /* opaque: network/network_parts.h */

enum { DAWN_NO_NODE = -1 };

/* What a node is to the grower, for lows, ledgers and stores. */
enum dawn_role {
    DAWN_ROLE_AIR,
    DAWN_ROLE_GLAZING,
    DAWN_ROLE_WALL,
    DAWN_ROLE_FLOOR, /* soil under the floor and under the bed */
    DAWN_ROLE_BED,   /* planting bed soil */
    DAWN_ROLE_ROCK,
    DAWN_ROLE_BARRELS,
    DAWN_ROLE_TRAYS,
    DAWN_ROLE_LEAF,
    DAWN_ROLE_VAPOUR, /* latent heat of the air's water: state = w L / cp, K */
    DAWN_ROLE_COVER,  /* sheets of night covers */
    DAWN_ROLE_FROST,  /* ice of a film: minus its heat of fusion; state = minus the film's that is
                         ice */
    DAWN_ROLE_FILM,   /* liquid on a surface: no heat of its own, counted as water */
    DAWN_ROLES
};

struct dawn_node {
    const char *name;
    enum dawn_role role;
    double heat_J_K;   /* unfrozen capacity */
    double frozen_J_K; /* capacity when all its water is ice */
    double latent_J;   /* to freeze it through; 0 = nothing to freeze */
};

/* What the fan's air does. Once started it keeps its way until the fan stops. */
enum dawn_fan_state {
    DAWN_FAN_OFF,
    DAWN_FAN_ONWARD, /* as by day */
    DAWN_FAN_BACK    /* the other way through the rock, on a reversed night run */
};

/* Builds nodes, links and the hourly forcing. The scenario must have passed its checks. weather may
 * be of any length >= 2 h. Everything is copied; the arguments need not live on. */
enum dawn_status dawn_network_build(struct dawn_network **network,
                                    const struct dawn_scenario *scenario,
                                    const struct dawn_weather *weather,
                                    struct dawn_problems *problems);
/* The same for runs that stay between two moments, spin-up included: it spares itself the light of
 * the rest. Runs may then begin and end from dawn_network_lit_from_s to dawn_network_lit_to_s. */
enum dawn_status dawn_network_build_between(struct dawn_network **network,
                                            const struct dawn_scenario *scenario,
                                            const struct dawn_weather *weather, int64_t from_s,
                                            int64_t to_s, struct dawn_problems *problems);
void dawn_network_free(struct dawn_network *network);

size_t dawn_network_node_count(const struct dawn_network *network);
const struct dawn_node *dawn_network_node(const struct dawn_network *network, size_t node);
/* Whether a node is water in a bed: vapour between its stones, or the film on them. */
bool dawn_network_among_stones(const struct dawn_network *network, size_t node);
/* Index of the node that stands for air, trays, leaf, root zone; DAWN_NO_NODE when there is none.
 */
int dawn_network_air(const struct dawn_network *network);
int dawn_network_trays(const struct dawn_network *network);
int dawn_network_leaf(const struct dawn_network *network);
int dawn_network_root(const struct dawn_network *network);
/* The air under the ridge where it is kept apart from the benches'; the rock where the fan's air
 * comes in and where it leaves. DAWN_NO_NODE when there is none. */
int dawn_network_ridge(const struct dawn_network *network);
int dawn_network_rock_in(const struct dawn_network *network);
int dawn_network_rock_out(const struct dawn_network *network);

/* Temperature, C, of a node in state y, and how it changes with y (1 unless water freezes). */
double dawn_network_temperature_C(const struct dawn_network *network, size_t node, double y);
double dawn_network_slope(const struct dawn_network *network, size_t node, double y);

/* First and last moment the forcing covers, seconds UTC. */
int64_t dawn_network_from_s(const struct dawn_network *network);
int64_t dawn_network_to_s(const struct dawn_network *network);
int64_t dawn_network_lit_from_s(const struct dawn_network *network);
int64_t dawn_network_lit_to_s(const struct dawn_network *network);
/* The first moment after t_s at which something that goes by the clock begins or ends to start or
 * to stop; INFINITY when nothing does. */
double dawn_network_next_switch_s(const struct dawn_network *network, double t_s);
/* The next moment after t_s at which the forcing changes its slope, the hour's end at the latest:
 * steps that meet it see no corner. */
double dawn_network_next_turn_s(const struct dawn_network *network, double t_s);
double dawn_network_outside_C(const struct dawn_network *network, double t_s);
/* The outdoor air's mean between two moments, from_s < to_s. */
double dawn_network_outside_mean_C(const struct dawn_network *network, double from_s, double to_s);

/* Night covers by number, and how far one is drawn at t_s, 0..1. */
size_t dawn_network_cover_count(const struct dawn_network *network);
const char *dawn_network_cover_name(const struct dawn_network *network, size_t cover);
double dawn_network_cover_drawn(const struct dawn_network *network, size_t cover, double t_s);
/* Whether snow lies on the roof at t_s: 0 or 1, in between while it comes or goes. */
double dawn_network_snow_lies(const struct dawn_network *network, double t_s);

/* Rates dy/dt (K/s) at time t_s, by what the fan's air does. Pure: no state is kept. jacobian, when
 * not NULL, is filled with d(dy_i/dt)/dy_j at [j * n + i]. */
void dawn_network_rates(const struct dawn_network *network, enum dawn_fan_state fan, double t_s,
                        const double y[], double dydt[], double *jacobian);

/* Which entries of the jacobian can ever differ from zero, fan on or off: pattern[j * n + i], the
 * diagonal included. */
void dawn_network_pattern(const struct dawn_network *network, bool pattern[]);

/* ---- links and sources by name, for the ledger and for people ---- */

struct dawn_flow {
    const char *name;  /* "south roof - outdoor air: wind" */
    const char *kind;  /* "conduction", "long-wave to the sky" ... */
    const char *group; /* the ledger's row when it crosses the boundary; else NULL */
    int from, to;      /* nodes; DAWN_NO_NODE = outside the network */
    bool water;        /* liquid water, in watts of its latent heat: it carries no heat here */
    /* The way of the fan's air that brings the rock this heat; else off. */
    enum dawn_fan_state blown;
};
size_t dawn_network_flow_count(const struct dawn_network *network);
struct dawn_flow dawn_network_flow(const struct dawn_network *network, size_t flow);
/* Heat in watts along each flow (positive from `from` to `to`) at t_s, and the rates they add up
 * to; watts has flow_count, dydt node_count places. */
void dawn_network_flows_W(const struct dawn_network *network, enum dawn_fan_state fan, double t_s,
                          const double y[], double watts[], double dydt[]);

/* How much more heat each flow carries per kelvin at its `from` and at its `to`, W/K, in that same
 * moment; from_W_K and to_W_K have flow_count places. */
void dawn_network_conductances_W_K(const struct dawn_network *network, enum dawn_fan_state fan,
                                   double t_s, const double y[], double from_W_K[],
                                   double to_W_K[]);

/* ---- the fan's thermostat ---- */

bool dawn_network_has_fan(const struct dawn_network *network);
double dawn_network_fan_power_W(const struct dawn_network *network);
/* Once started it runs at least so long. */
double dawn_network_fan_least_run_s(const struct dawn_network *network);
/* The function of the state whose zero is the next switch: the fan starts when it rises through
 * zero while off, stops when it falls through zero while on. */
double dawn_network_fan_wish(const struct dawn_network *network, bool fan_on, const double y[]);
/* Which way the air goes when the fan starts in this state. By day the thermostat waits until the
 * sensed air is warmer than the rock, by night until it is colder: the sign tells the two apart. */
enum dawn_fan_state dawn_network_fan_way(const struct dawn_network *network, const double y[]);

/* ---- the fan against its rock ---- */

enum dawn_fan_verdict {
    DAWN_FAN_FITS,
    DAWN_FAN_CHOKED_BY_ROCK,  /* carries too little of the sun, for more than half of what it moves
                                 in free air is lost, mostly to the rock's resistance */
    DAWN_FAN_CHOKED_BY_DUCTS, /* the same, mostly to the ducts' */
    DAWN_FAN_TOO_SMALL,       /* carries too little though it is not held back */
    DAWN_FAN_FLOW_BEYOND_POWER, /* the flow the scenario gives takes more power through this rock
                                   than a fan of so many watts has */
    DAWN_FAN_AIR_LEAVES_WARM    /* enough air, but the rock takes too little of its heat */
};

/* How a scenario's fan works against rock and ducts, and what its air can carry. Air of 10 C at the
 * site's elevation, as everywhere in the network. */
struct dawn_fan_work {
    enum dawn_fan_verdict verdict;
    bool from_curve;              /* false: the scenario gives the flow */
    double flow_m3_s;             /* through the rock */
    double least_m3_s, most_m3_s; /* with twice and half the rock's resistance, the span of measured
                                     beds; a given flow stays as it is */
    double free_air_m3_s, greatest_Pa;    /* of the curve in this air; NAN without one */
    double pressure_Pa, rock_Pa, duct_Pa; /* what rock and ducts take, together and each */
    double power_W, air_W;                /* from the socket; flow times pressure */
    double face_m2, path_m, face_m_s; /* of the rock, across and along the air; flow over face */
    double duct_m_s;                  /* fastest in the ducts; 0 without */
    double transfer_units;
    double left_share; /* of its excess over the rock, the air leaves with this much: exp(-NTU) */
    double rise_K;     /* the excess it is taken to enter with: ridge air over rock */
    double noon_W;     /* light that stays in the house at a clear noon of the equinox, glazing not
                          counted; 0 where there is none */
    double carried_W;  /* what the air brings the rock at rise_K */
    double carried_share; /* carried over noon; NAN when noon is 0 */
};
/* Works it out without weather. The scenario must have passed its checks and have a fan.
 * DAWN_ERR_NOMEM when memory runs out, with a problem. */
enum dawn_status dawn_network_fan_work(const struct dawn_scenario *scenario,
                                       struct dawn_fan_work *work, struct dawn_problems *problems);

/* ---- what a scenario comes to before any weather ---- */

/* Sizes, weights, and the round figures a heating engineer would write on an envelope. Losses are
 * those of handbooks, W per kelvin between house and outdoor air on a calm, dull night: a sheet's
 * two films 0.156 m2K/W (see src/scenario/scenario_glazing.c), walls with those of ISO 6946, leaks
 * at 15 K and 2 m/s, 1.2 kJ/(m3 K) of air, a floor only along its edge. A clear sky takes more. The
 * run itself uses none of them. */
struct dawn_network_figures {
    double floor_m2, air_m3, glazed_m2, walls_m2; /* walls: built floors are not counted */
    double glazing_W_K, walls_W_K, leaks_W_K, edge_W_K;
    double rock_J_K, barrels_J_K, bed_J_K, trays_J_K, walls_J_K; /* unfrozen; 0 = there is none */
    double rock_kg, rock_stand_m2;       /* what it weighs and on how much ground it lies */
    double barrels_kg, barrels_stand_m2; /* water and drums, all of them */
    double snow_kg, snow_m2;             /* the most that lies on the roof at once */
};
/* The scenario must have passed its checks. */
struct dawn_network_figures dawn_network_figures(const struct dawn_scenario *scenario);

/* A starting state for a moment: every node between the outdoor air of the day after it and the
 * ground, or the scenario's own. */
void dawn_network_start(const struct dawn_network *network, double t_s, double y[]);
double dawn_network_spin_up_s(const struct dawn_network *network);

#endif
