/* One member of an ensemble between its attempts at a step: where it is, how far it may go, what it
 * keeps. Numbers of its state lie strided among its neighbours'; it never sees theirs. */
#ifndef ENSEMBLE_MEMBER_H
#define ENSEMBLE_MEMBER_H

#include "dawnlow/trajectory.h"

/* What drives a member at one moment, in this order, then its gains, its veils and its openings. */
enum forced {
    FORCED_AIR,
    FORCED_SKY,
    FORCED_WIND,
    FORCED_EDGE,
    FORCED_DEEP,
    FORCED_VAPOUR,
    FORCED_OUTDOOR_FAN,
    FORCED_GAINS
};

/* A vector of a member: element i at at[i * stride]. */
struct strided {
    const float *at;
    size_t stride;
};

/* An attempted step, as the integrator sees it. */
struct attempt {
    double length_s;
    double error;                    /* estimated, over what is tolerated; NAN when it went wrong */
    double error_root;               /* its cube root, to the same bits everywhere */
    struct strided y, rates;         /* at its beginning */
    struct strided end_y, end_rates; /* at its end */
    struct strided end_rest;         /* what floats leave out of end_y */
};

enum attempt_verdict {
    ATTEMPT_AGAIN, /* from where it began, with another length */
    ATTEMPT_KEPT,
    ATTEMPT_KEPT_AND_LEAPT, /* kept; time does not go on from its end */
    ATTEMPT_LAST            /* kept or not, the member is done: status says how */
};

struct member; /* opaque */

/* NULL when memory ran out or the plan lies outside the weather; its status and problems say so.
 * The trajectory's network and plan must outlive the member. Fills y, and what floats leave out of
 * it. */
struct member *dawn_ensemble_member_new(struct dawn_ensemble_member *wanted, float y[],
                                        float rest[], size_t stride);
/* Ends it; its trajectory has gone to whoever wanted it, who is returned. */
struct dawn_ensemble_member *dawn_ensemble_member_end(struct member *member);

/* How long the next attempt shall be, s. */
double dawn_ensemble_member_length_s(struct member *member);
double dawn_ensemble_member_pressure_Pa(const struct member *member);
enum dawn_fan_state dawn_ensemble_member_fan(const struct member *member);
/* The forcing now or at the end of a step. */
void dawn_ensemble_member_forcing(struct member *member, double after_s, float forced[],
                                  size_t stride);
/* What is tolerated of an error of each node: absolute, K, per node, and relative to its state. */
double dawn_ensemble_member_tolerance_K(const struct member *member, size_t node);
double dawn_ensemble_member_tolerance_share(const struct member *member);

enum attempt_verdict dawn_ensemble_member_judge(struct member *member,
                                                const struct attempt *attempt);

#endif
