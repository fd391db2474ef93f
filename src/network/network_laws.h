/* The numbers of each kind of link, over lanes: one network's, or those of several networks of the
 * same shape side by side. What a kind's kernel (network_kernels.h) reads is here; what people read
 * of a link is in network_parts.h.
 *
 * A law holds lanes only, so that numbers can be laid side by side without knowing what they are
 * (network_gather.c). What is the same for all, places and rows, is in struct ends. */
#ifndef NETWORK_LAWS_H
#define NETWORK_LAWS_H

#include <stddef.h>

#include "base/lane.h"

/* What lies around the network. Their temperatures come from the forcing. */
enum outside_place {
    OUTSIDE_AIR,  /* outdoor air */
    OUTSIDE_SKY,  /* sky and surroundings, for long-wave */
    OUTSIDE_EDGE, /* ground beside the house: outdoor air, smoothed over days */
    OUTSIDE_DEEP, /* ground below the soil column */
    OUTSIDE_SUN,
    OUTSIDE_POWER,  /* electricity that ends as heat inside */
    OUTSIDE_VAPOUR, /* water in the outdoor air, as latent temperature */
    OUTSIDE_WATER,  /* liquid that comes and goes without heat: films and drips */
    OUTSIDE_PLACES
};

/* So many openings a house may have: DAWN_OPENINGS_MOST. */
enum { OPENINGS_MOST = 8 };

/* A flow depends on at most this many places: its ends first, then others. */
enum { LEANS = 4 };

/* What a flow knows of its surroundings, the same in every network of a shape. */
struct ends {
    int from, to;      /* places */
    int third, fourth; /* more places its law looks at; -1 = none */
    int lean[LEANS];   /* what it changes with; mostly the places above */
    int veil;          /* what covers leave of it; network_parts.h */
    int stirring;      /* the same of the fan's stirring */
    size_t row; /* of what the law borrows from: a natural link, or a channel of the forcing */
};

/* What a node's state means. */
struct node_law {
    lane heat_J_K, frozen_J_K, latent_J;
};

struct conduction_law {
    lane W_K;
};
/* Soil that conducts better when its water is ice. */
struct soil_law {
    lane liquid_W_K, gained_W_K;
};
/* Rock below its cover: air turns over in a bed warmer than its top, unless the fan blows. */
struct calm_law { /* from = rock, to = cover */
    lane area_m2;
    lane swept;        /* 1: by the fan's air, then it does not turn over; 0: never */
    lane onset_per_K;  /* Rayleigh number over its onset, per kelvin */
    lane still_m2K_W;  /* half the bed's height, nothing moving */
    lane series_m2K_W; /* from the bed's top to the air */
};
/* Air beside a surface without wind: from = surface, to = air. */
struct natural_law {
    lane area_m2;
    lane warm_coefficient, cool_coefficient; /* surface warmer, surface cooler than the air */
    lane least_W_m2K;
    lane stirred; /* 1: the running fan stirs this air */
};
struct wind_law { /* from = surface, to = OUTSIDE_AIR */
    lane area_m2;
};
struct longwave_law { /* sigma m2 (from^4 - to^4) */
    lane exchange_m2;
};
struct sky_law { /* from = surface, to = OUTSIDE_SKY */
    lane exchange_m2, sky_view;
};
/* Leaks and openings carry heat (air to OUTSIDE_AIR) and vapour (to OUTSIDE_VAPOUR) alike; how much
 * air moves follows from the air node's temperature (third). */
struct leak_law {
    lane rated_W_K;
};
/* In and out through one opening, so far as none at the other height takes it; third = the air at
 * the benches, fourth = under the ridge, row = the opening. */
struct vent_law {
    lane area_m2, height_m;
    lane by_warmth; /* 1: opens from opens_C on over range_K; 0: fully open in its hours */
    lane opens_C, range_K;
    lane least_share;
    lane at_ridge; /* 1: beside the fourth place, 0: beside the third */
    lane air_J_m3K;
};
/* In at the side, out at the ridge; places as above, row = what comes in: OUTSIDE_AIR or
 * OUTSIDE_VAPOUR. From the upper air outside, or from the lower to the upper. */
struct through_law {
    lane rise_m, air_J_m3K;
};
/* Air changed for outdoor air whatever wind and warmth do; heat and vapour alike. */
struct renewal_law { /* from = air or vapour, to = OUTSIDE_AIR or OUTSIDE_VAPOUR */
    lane W_K;
    lane clocked; /* 1: only while the forcing says that the outdoor fan runs; 0: always */
};
/* Air blown through the rock, segment after segment: it is taken at the intake (third) and comes
 * back at `from`, which therefore pays for what the segments (`to`) take; the way from intake to
 * return is a displace link. Only while the fan runs. Links stand in the order the air meets them,
 * row = how far along it. Where the night run blows the other
 * way a second set of links, as many again, stands behind those of the day. */
struct stream_law {
    lane reversed;      /* 1: of the reversed night run; 0: of the way by day */
    lane flow_W_K;      /* capacity flow of the air */
    lane segment_share; /* of the possible exchange, 1 - exp(-NTU/N) */
};

/* ---- ridge and bench ---- */

struct displace_law { /* the fan moves this much from one air to the other */
    lane W_K;
};
/* Two airs, one above the other (third below, fourth above); heat and vapour alike. How much mixes
 * follows from the airs. */
struct mixing_law { /* from = lower, to = upper */
    lane area_m2, height_m, air_J_m3K, most_W_K;
};
/* Air that passes a cover: through its leaks when it is drawn, freely when it is away; heat and
 * vapour alike. */
struct exchange_law { /* from = what is covered, to = the air around */
    lane W_K;
};
struct plume_law { /* from = lower air, to = upper air: a share of what a warm surface gives off */
    lane share;
};

struct gain_law { /* from = OUTSIDE_SUN: what the forcing's channel brings */
    char no_number;
};
struct power_law { /* from = OUTSIDE_POWER */
    lane W;
    lane with_fan; /* 1: only while the fan runs; 0: always */
};

/* ---- water, as latent heat ----
 * Vapour is a node whose state is its latent temperature y = w L / cp: then latent heat flows in
 * watts like any other, and water closes where energy does (L constant). A film is liquid on a
 * surface, kept as a node of its own that heat does not see. The surface film whose transfer a
 * latent link borrows (Lewis) is that of the natural link in its row. */

/* A film's unit: one kelvin of its state is ten grams of water a square metre. */
#define FILM_KG_M2K LANE_NUMBER(0.01)

struct evaporate_law { /* from = wet surface, to = vapour; third = air */
    lane wet_m2;
};
/* Leaves: a share of the light they take, and a conductance for the deficit. */
struct transpire_law { /* from = leaves, to = vapour */
    lane light_share, deficit_W_K;
};
/* Condensation, and evaporation of what has condensed. */
struct condense_law { /* from = vapour, to = surface; third = air, fourth = film */
    lane area_m2;
};
struct film_law { /* from = OUTSIDE_WATER, to = film: the same watts as its condense link */
    char no_number;
};
/* Film that freezes and thaws. Frost is a node of its own, a store of heat: minus the heat of
 * fusion of what is ice. */
struct freeze_law { /* from = frost, to = surface; third = film */
    lane area_m2;
};
/* Long-wave that meets the water on a film: what the window lets through is shut by the water,
 * which takes it up; row: the film's natural link. */
struct wetwave_law { /* fourth = film */
    lane exchange_m2;
    lane dry, wetter; /* share of the exchange when dry; how much more when all is wet */
};
struct wetsky_law { /* from = surface, to = OUTSIDE_SKY; fourth = film */
    lane exchange_m2, sky_view;
    lane dry, wetter;
};
/* Vapour that the fan's air carries on, all that the place it comes from has; a ring of such links
 * leads from the intake through the rock and back, or the other way round with reversed air. Only
 * while the fan runs. */
struct carry_law {
    lane W_K;
};
/* Water that air between stones gives to them, and takes back while their film lasts. */
struct damp_law { /* from = vapour, to = rock; third = film */
    lane W_K;
};
struct soak_law { /* from = OUTSIDE_WATER, to = film: the same watts as its damp link */
    char no_number;
};
struct drip_law { /* third = frost; from = film, to = OUTSIDE_WATER: what the surface cannot hold */
    lane holds_K, W_K;
};
struct fog_law { /* from = vapour, to = air: what the air cannot hold */
    lane W_K;
};

/* name, what people call it. A kind that borrows from another stands behind it. */
#define DAWN_LINK_KINDS(X)                                                                         \
    X(conduction, "conduction")                                                                    \
    X(soil, "heat through soil")                                                                   \
    X(calm, "through the rock's top")                                                              \
    X(natural, "convection inside")                                                                \
    X(wind, "wind")                                                                                \
    X(longwave, "long-wave inside")                                                                \
    X(sky, "long-wave to the sky")                                                                 \
    X(leak, "leaking air")                                                                         \
    X(vent, "vent")                                                                                \
    X(through, "air from side to ridge")                                                           \
    X(renewal, "air renewed")                                                                      \
    X(stream, "air through the rock")                                                              \
    X(displace, "air moved by the fan")                                                            \
    X(mixing, "air mixing")                                                                        \
    X(exchange, "air past a cover")                                                                \
    X(plume, "warm air rising")                                                                    \
    X(gain, "sunlight")                                                                            \
    X(power, "electricity")                                                                        \
    X(evaporate, "evaporation")                                                                    \
    X(transpire, "transpiration")                                                                  \
    X(condense, "condensation")                                                                    \
    X(film, "film")                                                                                \
    X(carry, "vapour carried by the fan")                                                          \
    X(damp, "condensation in the rock")                                                            \
    X(soak, "film on the rock")                                                                    \
    X(freeze, "freezing")                                                                          \
    X(wetwave, "long-wave past a wet film")                                                        \
    X(wetsky, "long-wave through a wet film")                                                      \
    X(drip, "dripping")                                                                            \
    X(fog, "fog")

enum link_kind {
#define LINK_ENUM(kind, words) KIND_##kind,
    DAWN_LINK_KINDS(LINK_ENUM)
#undef LINK_ENUM
        KIND_COUNT
};

/* All numbers of a network, or of several side by side. */
struct laws {
    const struct node_law *node;
#define LAW_TABLE(kind, words) const struct kind##_law *kind;
    DAWN_LINK_KINDS(LAW_TABLE)
#undef LAW_TABLE
};

/* Finds the tables in a block filled by dawn_network_gather; first[kind] counts the links before
 * those of a kind. */
static inline struct laws laws_in(const lane *block, size_t nodes, const size_t first[])
{
    struct laws laws = {.node = (const struct node_law *)block};
    block += nodes * (sizeof(struct node_law) / sizeof(lane));
#define LAW_PLACE(kind, words)                                                                     \
    laws.kind = (const struct kind##_law *)block;                                                  \
    block += (first[KIND_##kind + 1] - first[KIND_##kind]) *                                       \
             (sizeof(struct kind##_law) / sizeof(lane));
    /* Laws of some kinds have no numbers. */
    DAWN_LINK_KINDS(LAW_PLACE) /* NOLINT(bugprone-sizeof-expression) */
#undef LAW_PLACE
    (void)block;
    return laws;
}

#endif
