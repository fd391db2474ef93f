/* Inside a network: its nodes, the outside it touches, and its links by kind.
 *
 * Every link is a flow from one place to another. A place is a node (0 .. node_count-1) or one of
 * the outside places behind them. All flows share one index; the links of one kind lie side by
 * side, so that a kind's kernel (network_kernels.c) runs over a plain table. Adding a kind: a
 * struct here, a row in DAWN_LINK_KINDS, an add function (network_parts.c), a kernel. */
#ifndef NETWORK_PARTS_H
#define NETWORK_PARTS_H

#include "dawnlow/network.h"
#include "dawnlow/physics/rockbed.h"

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

/* ---- what comes and goes: covers ----
 * How far a cover is drawn, 0..1, is known from clock, sun and outdoor air before a run begins: it
 * is part of the forcing. A veil is a product of what covers make of a flow at that moment; links
 * that covers block, let through or bring about name theirs. The veil NO_VEIL is always 1. */
enum {
    COVERS_MOST = DAWN_COVERS_MOST,
    VEIL_FACTORS_MOST = COVERS_MOST + 1,
    VEILS_MOST = 64,
    NO_VEIL = 0
};

enum veil_part {
    VEIL_DRAWN,  /* how far it is drawn */
    VEIL_GAP,    /* what it leaves of free exchange (dawn_cover_gap) */
    VEIL_PASSES, /* long-wave it lets through; 1 when it is away */
    VEIL_INNER,  /* long-wave it takes up on the face to what it covers; 0 when it is away */
    VEIL_OUTER   /* the same of the other face */
};
struct veil_factor {
    int cover;
    enum veil_part part;
};
struct veil {
    size_t count;
    struct veil_factor factor[VEIL_FACTORS_MOST];
};
/* Covers over something, from the inside out. */
struct cover_stack {
    size_t count;
    int cover[COVERS_MOST];
};
/* A cover as the sweep needs it: long-wave when fully drawn. */
struct network_cover {
    char name[DAWN_NAME_SIZE];
    double passes, takes_inside, takes_outside;
};

/* A flow depends on at most this many places: its ends first, then others. */
enum { LEANS = 4 };

/* A link's two ends and its names; every kind's struct begins with it. */
struct link {
    int from, to;      /* places */
    const char *group; /* ledger row when it crosses the boundary; a string constant */
    char name[2 * (DAWN_NAME_SIZE + 32) + 4];
};

struct conduction_link {
    struct link link;
    double W_K;
};
/* Rock below its cover: air turns over in a bed warmer than its top, unless the fan blows. */
struct calm_link { /* from = rock, to = cover */
    struct link link;
    double area_m2;
    bool swept; /* by the fan's air: then it does not turn over */
    struct dawn_rockbed_calm bed;
};
/* Air beside a surface without wind: from = surface, to = air. */
struct natural_link {
    struct link link;
    double area_m2;
    double warm_coefficient, cool_coefficient; /* surface warmer, surface cooler than the air */
    double least_W_m2K;
    bool stirred; /* the running fan stirs this air */
    int veil;
    int stirring; /* veil: what covers leave of the fan's stirring */
};
struct wind_link { /* from = surface, to = OUTSIDE_AIR */
    struct link link;
    double area_m2;
};
struct longwave_link { /* sigma m2 (from^4 - to^4) */
    struct link link;
    double exchange_m2;
    int veil;
};
struct sky_link { /* from = surface, to = OUTSIDE_SKY */
    struct link link;
    double exchange_m2, sky_view;
    int veil;
};
/* Leaks and vents carry heat (air to OUTSIDE_AIR) and vapour (to OUTSIDE_VAPOUR) alike; how much
 * air moves follows from the air node's temperature. */
struct leak_link {
    struct link link;
    int air;
    double rated_W_K;
};
/* Air changed for outdoor air whatever wind and warmth do; heat and vapour alike. */
struct renewal_link { /* from = air or vapour, to = OUTSIDE_AIR or OUTSIDE_VAPOUR */
    struct link link;
    double W_K;
    bool clocked; /* only while the forcing says that the outdoor fan runs */
};
struct vent_link {
    struct link link;
    int air;
    double area_m2, height_m, opens_C, full_C;
    double air_J_m3K;
};
/* Air blown through the rock, segment after segment: it is taken at the intake and comes back at
 * `from`, which therefore pays for what the segments (`to`) take; the way from intake to return is
 * a displace link. Only while the fan runs. Links stand in the order the air meets them. */
struct stream_link {
    struct link link;
    int intake;
    double flow_W_K;      /* capacity flow of the air */
    double segment_share; /* of the possible exchange, 1 - exp(-NTU/N) */
};
/* ---- ridge and bench ---- */

struct displace_link { /* the fan moves this much from one air to the other */
    struct link link;
    double W_K;
};
/* Two airs, one above the other; heat and vapour alike. How much mixes follows from the airs. */
struct mixing_link { /* from = lower, to = upper */
    struct link link;
    int lower, upper;
    double area_m2, height_m, air_J_m3K, most_W_K;
    int veil;
};
/* Air that passes a cover: through its leaks when it is drawn, freely when it is away; heat and
 * vapour alike. from = what is covered, to = the air around */
struct exchange_link {
    struct link link;
    double W_K;
    int veil;
};
struct plume_link { /* from = lower air, to = upper air: a share of what a warm surface gives off */
    struct link link;
    size_t natural;
    double share;
    int veil;
};

struct gain_link { /* from = OUTSIDE_SUN */
    struct link link;
    size_t channel; /* of the forcing */
};
struct power_link { /* from = OUTSIDE_POWER */
    struct link link;
    double W;
    bool with_fan; /* only while the fan runs */
};

/* ---- water, as latent heat ----
 * Vapour is a node whose state is its latent temperature y = w L / cp: then latent heat flows in
 * watts like any other, and water closes where energy does (L constant). A film is liquid on a
 * surface, kept as a node of its own that heat does not see. */

/* The surface film whose transfer a latent link borrows (Lewis), by index of its natural link. */
struct evaporate_link { /* from = wet surface, to = vapour */
    struct link link;
    int air;
    size_t natural;
    double wet_m2;
};
/* Leaves: a share of the light they take, and a conductance for the deficit. */
struct transpire_link { /* from = leaves, to = vapour */
    struct link link;
    double light_share, deficit_W_K;
    size_t channel;
};
/* Condensation, and evaporation of what has condensed. */
struct condense_link { /* from = vapour, to = surface */
    struct link link;
    int air, film;
    size_t natural;
    double area_m2;
};
struct film_link { /* from = OUTSIDE_WATER, to = film: the same watts as its condense link */
    struct link link;
    size_t condense;
};
struct drip_link { /* from = film, to = OUTSIDE_WATER: what the surface cannot hold */
    struct link link;
    double holds_K, W_K;
};
struct fog_link { /* from = vapour, to = air: what the air cannot hold */
    struct link link;
    double W_K;
};

/* name, what people call it */
#define DAWN_LINK_KINDS(X)                                                                         \
    X(conduction, "conduction")                                                                    \
    X(calm, "rock turning over")                                                                   \
    X(natural, "convection inside")                                                                \
    X(wind, "wind")                                                                                \
    X(longwave, "long-wave inside")                                                                \
    X(sky, "long-wave to the sky")                                                                 \
    X(leak, "leaking air")                                                                         \
    X(vent, "vent")                                                                                \
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
    X(drip, "dripping")                                                                            \
    X(fog, "fog")

enum link_kind {
#define LINK_ENUM(kind, words) KIND_##kind,
    DAWN_LINK_KINDS(LINK_ENUM)
#undef LINK_ENUM
        KIND_COUNT
};

/* What drives the network from outside: linear between knots, FORCING_STEP_S apart. Four a weather
 * hour follow the sun's path through it; the hour's energy is kept. */
enum { FORCING_STEP_S = 900, FORCING_PER_HOUR = 4 };
/* Hours of every day, UTC: on at from_s since midnight, for length_s (0 = never, a day = always).
 * It takes SWITCHING_S to start and to stop, so that rates have no jump; a run stops at each. */
enum { SWITCHING_S = 10 };
struct day_hours {
    double from_s, length_s;
};
struct forcing {
    int64_t from_s;
    size_t knots, gains, covers;
    double *air_C, *sky_W_m2, *wind_m_s, *edge_C, *deep_C; /* [knot]; wind at the house */
    double *vapour_K;                                      /* [knot] latent temperature outdoors */
    struct day_hours outdoor_fan;
    double *gain_W; /* [knot * gains + channel] */
    double *drawn;  /* [knot * covers + cover] how far each is drawn, 0..1 */
};

struct network_node {
    struct dawn_node facts;
    char name[DAWN_NAME_SIZE + 32];
    double deep_share; /* start temperature: 0 = the house's, 1 = the deep ground's */
};

struct dawn_network {
    struct network_node *nodes;
    size_t node_count, node_capacity;
#define LINK_TABLE(kind, words)                                                                    \
    struct kind##_link *kind;                                                                      \
    size_t kind##_count, kind##_capacity;
    DAWN_LINK_KINDS(LINK_TABLE)
#undef LINK_TABLE
    size_t first[KIND_COUNT + 1]; /* flow index of each kind's first link; set by _finish */
    int *from, *to;               /* [flow] places, gathered by _finish */
    int *lean;                    /* [flow * LEANS] nodes the flow depends on; -1 = none more */
    /* The flows at each node, by the end they have there. */
    size_t *leaving_start, *reaching_start; /* [node + 1] */
    size_t *leaving, *reaching;             /* flow indices */
    struct forcing forcing;
    struct network_cover covers[COVERS_MOST];
    size_t cover_count;
    struct veil veils[VEILS_MOST];
    size_t veil_count; /* at least 1: NO_VEIL */
    /* Every air and the vapour in it; DAWN_NO_NODE in a dry house. */
    struct {
        int air, vapour;
    } airs[COVERS_MOST + 2];
    size_t air_count;

    int air, trays, leaf, root; /* DAWN_NO_NODE when there is none */
    int ridge;                  /* the upper air; the same as air when there is one volume */
    int vapour, ridge_vapour;   /* DAWN_NO_NODE in a dry house */
    double pressure_Pa;
    int *rock; /* segments in the order the air meets them */
    size_t rock_count;

    bool has_fan;
    struct dawn_fan fan;
    int sensor;
    double start_C; /* NAN = between outdoor air and ground */
    double spin_up_s;
    bool failed; /* an allocation was lost while adding */
};

/* ---- putting a network together ---- */

struct dawn_network *dawn_network_new(void);
int dawn_network_add_node(struct dawn_network *network, enum dawn_role role, double heat_J_K,
                          double frozen_J_K, double latent_J, const char *name, ...)
    __attribute__((format(printf, 6, 7)));
/* An outside place as a link end. Node indices shift while nodes are added, so outside places are
 * given as negative numbers and settled by _finish. */
#define OUTSIDE(place) (-2 - (int)(place))

void dawn_network_add_conduction(struct dawn_network *network, int from, int to, const char *group,
                                 double W_K);
void dawn_network_add_calm(struct dawn_network *network, int rock, int cover, double area_m2,
                           bool swept, struct dawn_rockbed_calm bed);
void dawn_network_add_natural(struct dawn_network *network, int surface, int air,
                              struct natural_link law);
void dawn_network_add_wind(struct dawn_network *network, int surface, const char *group,
                           double area_m2);
void dawn_network_add_longwave(struct dawn_network *network, int from, int to, double exchange_m2);
void dawn_network_add_sky(struct dawn_network *network, int surface, const char *group,
                          double exchange_m2, double sky_view);
/* The same behind a veil; a link between the same places behind the same veil grows instead. */
void dawn_network_grow_longwave(struct dawn_network *network, int from, int to, double exchange_m2,
                                int veil);
void dawn_network_grow_sky(struct dawn_network *network, int surface, const char *group,
                           double exchange_m2, double sky_view, int veil);
/* The veil that is this product; a failed network when there are too many. */
int dawn_network_veil(struct dawn_network *network, struct veil veil);
int dawn_network_veil_of(struct dawn_network *network, int cover, enum veil_part part);
void dawn_network_add_exchange(struct dawn_network *network, int from, int to, double W_K,
                               int veil);
/* Both also carry the network's vapour when there is one. */
void dawn_network_add_leak(struct dawn_network *network, int air, double rated_W_K);
void dawn_network_add_vent(struct dawn_network *network, int air, const struct dawn_vent *vent,
                           double air_J_m3K);
void dawn_network_add_renewal(struct dawn_network *network, int air, const char *group,
                              const char *vapour_group, double W_K, bool clocked);
/* The last natural link added is the film these borrow. */
void dawn_network_add_evaporate(struct dawn_network *network, int surface, double wet_m2);
void dawn_network_add_transpire(struct dawn_network *network, int leaf, int air, double light_share,
                                double deficit_W_K, size_t channel);
/* The vapour of an air; DAWN_NO_NODE in a dry house. */
int dawn_network_vapour_in(const struct dawn_network *network, int air);
/* With its film, which holds holds_kg_m2 and lets the rest drip. */
void dawn_network_add_condense(struct dawn_network *network, int surface, double area_m2,
                               double holds_kg_m2);
void dawn_network_add_fog(struct dawn_network *network, int air, double W_K);
void dawn_network_add_stream(struct dawn_network *network, int intake, int back, int segment,
                             double flow_W_K, double segment_share);
/* Heat, and vapour when there is some, from the ridge to the bench with the fan's air. */
void dawn_network_add_displace(struct dawn_network *network, double W_K);
struct mixing_link dawn_network_mixing_law(double area_m2, double height_m, double air_J_m3K);
void dawn_network_add_mixing(struct dawn_network *network, struct mixing_link law);
/* The last natural link added is the surface; nothing when there is one air. */
void dawn_network_add_plume(struct dawn_network *network, double share, int veil);
/* Returns the forcing channel the gain listens to. */
size_t dawn_network_add_gain(struct dawn_network *network, int to);
void dawn_network_add_power(struct dawn_network *network, int to, double W, bool with_fan,
                            const char *group);
/* Settles flow indices; false when memory ran out on the way. */
bool dawn_network_finish(struct dawn_network *network);
/* Whether the network is within the size an evaluation has room for. */
bool dawn_network_fits(const struct dawn_network *network);

/* The link behind a flow index, and its kind. */
const struct link *dawn_network_link(const struct dawn_network *network, size_t flow,
                                     enum link_kind *kind);
const char *dawn_network_kind_words(enum link_kind kind);
const char *dawn_network_place_name(const struct dawn_network *network, int place);

/* ---- the forcing ---- */

/* Room for knots and gains; false when memory ran out. */
bool dawn_network_forcing_allocate(struct forcing *forcing, size_t knots, size_t gains,
                                   size_t covers);
void dawn_network_forcing_release(struct forcing *forcing);
/* The value of everything at one moment; clamped to the ends. gain_W has forcing->gains places,
 * drawn forcing->covers. */
struct forcing_now {
    double air_C, sky_W_m2, wind_m_s, edge_C, deep_C, vapour_K, outdoor_fan;
};
struct forcing_now dawn_network_forcing_at(const struct forcing *forcing, double t_s,
                                           double *gain_W, double *drawn);
/* 1 while something on a clock runs, between 0 and 1 while it starts and stops. */
double dawn_network_forcing_hours(const struct day_hours *hours, double t_s);
double dawn_network_forcing_air_C(const struct forcing *forcing, double t_s);
double dawn_network_forcing_drawn(const struct forcing *forcing, size_t cover, double t_s);

#endif
