/* A fan against what resists it: where its curve meets the pressure of ducts and rock. Pressures
 * are those the fan adds and the path takes, Pa; flows m3/s of the air that passes. */
#ifndef DAWNLOW_PHYSICS_FAN_H
#define DAWNLOW_PHYSICS_FAN_H

#include <stdbool.h>
#include <stddef.h>

enum { DAWN_FAN_POINTS = 4 };

struct dawn_fan_point {
    double flow_m3_s, pressure_Pa;
};

/* A fan's curve through its points, in order of rising flow. Between two points the pressure falls
 * with the square of the flow: p = a - b Q^2, the shape a turbulent loss inside the fan gives it
 * (common practice). The first and the last stretch go on beyond their points, so that the curve
 * falls without end; backward flow counts as negative, its square too. */
struct dawn_fan_curve {
    size_t count;
    struct dawn_fan_point point[DAWN_FAN_POINTS];
};

enum dawn_fan_fault {
    DAWN_FAN_SOUND,
    DAWN_FAN_FEW,        /* fewer than two points */
    DAWN_FAN_MANY,       /* more than DAWN_FAN_POINTS */
    DAWN_FAN_IMPOSSIBLE, /* a flow or pressure below zero or not a number */
    DAWN_FAN_NOT_RISING, /* the flow is not above that of the point before */
    DAWN_FAN_NOT_FALLING /* the pressure is not below that of the point before: a fan that stalls
                            has two flows at one pressure and cannot be trusted there */
};
struct dawn_fan_check {
    enum dawn_fan_fault fault;
    size_t point; /* which point, from 0; DAWN_FAN_FEW and _MANY: how many there were */
};

/* Makes a curve of 2..DAWN_FAN_POINTS points. On any fault the curve is left without points. */
struct dawn_fan_check dawn_fan_curve_make(size_t count, const struct dawn_fan_point points[],
                                          struct dawn_fan_curve *curve);

/* The curve known by its two ends, p = greatest (1 - (Q/free air)^2). Both above 0, else as above.
 */
struct dawn_fan_check dawn_fan_curve_of_ends(double free_air_m3_s, double greatest_Pa,
                                             struct dawn_fan_curve *curve);

#define DAWN_FAN_CATALOGUE_KG_M3 1.2
/* The curve in air of another density than the one catalogues refer to: pressures in
 * proportion at the same flow (fan laws, ISO 5801, from memory). At 1600 m 18 % less. */
struct dawn_fan_curve dawn_fan_curve_in_air(const struct dawn_fan_curve *curve,
                                            double density_kg_m3);

/* Pressure at a flow; below zero past free air. 0 of a curve without points. */
double dawn_fan_pressure_Pa(const struct dawn_fan_curve *curve, double flow_m3_s);

/* Loss coefficients of fittings, in dynamic pressures (handbooks, from memory). */
#define DAWN_FAN_LOSS_ENTRY  0.5 /* sharp entry */
#define DAWN_FAN_LOSS_BEND   0.6 /* a right angle: 0.3 wide and smooth .. 0.9 segmented */
#define DAWN_FAN_LOSS_SCREEN 1.0 /* 0.5 .. 1.5 */
#define DAWN_FAN_LOSS_EXIT   1.0 /* into the open */

/* Darcy friction factor of a round pipe: 64/Re below Re 2000, Haaland 1983 above 4000 (within 2 %
 * of Colebrook), a straight line between. roughness_share: roughness over diameter, 0..0.05. Re
 * above 0. */
double dawn_fan_friction(double reynolds, double roughness_share);

struct dawn_fan_duct {
    double diameter_m, length_m; /* above 0 / from 0 */
    bool corrugated; /* friction factor 0.04 throughout (from memory; 0.03..0.06, more when
                        compressed); otherwise smooth: 0.15 mm of roughness, sheet metal */
    double losses;   /* sum of the fittings' loss coefficients */
};

/* (f L/d + losses) rho v^2/2; the flow's sign does not matter. About 20 %. density above 0. */
double dawn_fan_duct_Pa(const struct dawn_fan_duct *duct, double flow_m3_s, double density_kg_m3);

/* What the air meets on its way: a Q + b Q^2, ducts one after the other, a bed of rock. Parts that
 * are not there are 0. */
struct dawn_fan_path {
    double linear_Pa_s_m3, square_Pa_s2_m6;
    size_t duct_count;
    const struct dawn_fan_duct *ducts;
    double bed_face_m2, bed_length_m; /* face 0: no bed */
    double stone_m, void_share;
    double stone_shape; /* 0: Dunkle & Ellul; else McCorquodale's, see rockbed.h */
    double density_kg_m3;
};
double dawn_fan_path_Pa(double flow_m3_s, const void *path);

/* What a path takes at a flow from 0 up; must not fall with it. dawn_fan_path_Pa is one, with a
 * struct dawn_fan_path behind the pointer. */
typedef double dawn_fan_resistance(double flow_m3_s, const void *path);

struct dawn_fan_meeting {
    bool meets;         /* false: not even at rest does the fan give what the path takes */
    double flow_m3_s;   /* 0 without a meeting */
    double pressure_Pa; /* of the fan at that flow */
    double missing_Pa;  /* without a meeting: what it falls short by at rest, otherwise 0 */
};

/* The flow at which fan and path agree, to 1e-9 m3/s (bisection), up to 1e6 m3/s. A path whose
 * pressure is not a number has no meeting and NAN missing; so has one that never takes what the fan
 * gives. */
struct dawn_fan_meeting dawn_fan_operating(const struct dawn_fan_curve *curve,
                                           dawn_fan_resistance *resistance, const void *path);

#endif
