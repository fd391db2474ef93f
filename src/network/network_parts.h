/* Inside a network: its nodes, the outside it touches, and its links by kind.
 *
 * Every link is a flow from one place to another. A place is a node (0 .. node_count-1) or one of
 * the outside places behind them. All flows share one index; the links of one kind lie side by
 * side, so that a kind's kernel (network_kernels.h) runs over a plain table of its numbers
 * (network_laws.h). Adding a kind: its law and a row in DAWN_LINK_KINDS there, a struct here, an
 * add function (network_parts.c), a kernel. */
#ifndef NETWORK_PARTS_H
#define NETWORK_PARTS_H

#include "dawnlow/network.h"
#include "dawnlow/physics/rockbed.h"
#include "network/network_laws.h"

/* ---- what comes and goes: covers ----
 * How far a cover is drawn, 0..1, is known from clock, sun and outdoor air before a run begins: it
 * is part of the forcing. A veil is a product of what covers make of a flow at that moment; links
 * that covers block, let through or bring about name theirs. The veil NO_VEIL is always 1. */
enum {
    COVERS_MOST = DAWN_COVERS_MOST + 3, /* three columns tell of snow: network_snow.c */
    VEIL_FACTORS_MOST = COVERS_MOST + 1,
    VEILS_MOST = 96,
    NO_VEIL = 0,
    NO_COVER = -1
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

/* A link's two ends and its names; every kind's struct begins with it, and its law follows. */
struct link {
    int from, to;      /* places */
    const char *group; /* ledger row when it crosses the boundary; a string constant */
    char name[2 * (DAWN_NAME_SIZE + 32) + 4];
};

/* Behind the law: what people are told of it, and the nodes and rows it borrows from. */
struct conduction_link {
    struct link link;
    struct conduction_law law;
};
struct soil_link {
    struct link link;
    struct soil_law law;
};
struct calm_link {
    struct link link;
    struct calm_law law;
    struct dawn_rockbed_calm bed;
};
struct natural_link {
    struct link link;
    struct natural_law law;
    int veil;
    int stirring; /* veil: what covers leave of the fan's stirring */
};
struct wind_link {
    struct link link;
    struct wind_law law;
};
struct longwave_link {
    struct link link;
    struct longwave_law law;
    int veil;
};
struct sky_link {
    struct link link;
    struct sky_law law;
    int veil;
};
struct leak_link {
    struct link link;
    struct leak_law law;
    int air;
};
struct renewal_link {
    struct link link;
    struct renewal_law law;
};
struct vent_link { /* in and out through one opening, so far as none at the other height takes it */
    struct link link;
    struct vent_law law;
    size_t opening; /* of the network's */
};
struct through_link {
    struct link link;
    struct through_law law;
    int outdoor; /* what comes in, OUTSIDE_AIR or OUTSIDE_VAPOUR */
};
struct stream_link {
    struct link link;
    struct stream_law law;
    int intake;
};
struct displace_link {
    struct link link;
    struct displace_law law;
};
struct mixing_link {
    struct link link;
    struct mixing_law law;
    int lower, upper;
    int veil;
};
struct exchange_link {
    struct link link;
    struct exchange_law law;
    int veil;
};
struct plume_link {
    struct link link;
    struct plume_law law;
    size_t natural;
    int veil;
};
struct gain_link {
    struct link link;
    struct gain_law law;
    size_t channel; /* of the forcing */
};
struct power_link {
    struct link link;
    struct power_law law;
};
struct evaporate_link {
    struct link link;
    struct evaporate_law law;
    int air;
    size_t natural;
};
struct transpire_link {
    struct link link;
    struct transpire_law law;
    size_t channel;
};
struct condense_link {
    struct link link;
    struct condense_law law;
    int air, film;
    size_t natural;
};
struct film_link {
    struct link link;
    struct film_law law;
    size_t condense;
};
struct carry_link {
    struct link link;
    struct carry_law law;
};
struct damp_link {
    struct link link;
    struct damp_law law;
    int film;
};
struct soak_link {
    struct link link;
    struct soak_law law;
    size_t damp;
};
struct freeze_link {
    struct link link;
    struct freeze_law law;
    int film;
};
/* The film's condense link, by its number, tells film and natural link. */
struct wetwave_link {
    struct link link;
    struct wetwave_law law;
    int veil;
    size_t condense;
};
struct wetsky_link {
    struct link link;
    struct wetsky_law law;
    int veil;
    size_t condense;
};
struct drip_link {
    struct link link;
    struct drip_law law;
    int frost; /* DAWN_NO_NODE: the film cannot freeze */
};
struct fog_link {
    struct link link;
    struct fog_law law;
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

/* Something that opens, for people; the numbers a kernel reads are in each vent's law. */
struct opening {
    int air; /* the air beside it, whose warmth opens it */
    bool ridge;
    double area_m2, height_m;
    double opens_C, full_C; /* NAN = fully open in its hours */
    double least_share;
    struct day_hours hours;
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
    struct ends *ends;            /* [flow] gathered by _finish */
    double *numbers;              /* of all laws in a row: dawn_network_gather */
    /* The flows at each node, by the end they have there. */
    size_t *leaving_start, *reaching_start; /* [node + 1] */
    size_t *leaving, *reaching;             /* flow indices */
    struct forcing forcing;
    int64_t lit_from_s, lit_to_s; /* runs keep to it */
    struct network_cover covers[COVERS_MOST];
    size_t cover_count;       /* night covers, and the columns that tell of snow */
    size_t night_cover_count; /* of them, the first */
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
    double pressure_Pa, air_J_m3K;
    struct opening opening[DAWN_OPENINGS_MOST];
    size_t opening_count;
    double opening_rise_m; /* from the middle of the side's to that of the ridge's */
    int *rock;             /* segments in the order the air meets them */
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
/* Through soil, W/K while all its water is liquid, and when it is ice. */
void dawn_network_add_soil(struct dawn_network *network, int from, int to, double liquid_W_K,
                           double ice_W_K);
void dawn_network_add_calm(struct dawn_network *network, int rock, int cover, double area_m2,
                           bool swept, struct dawn_rockbed_calm bed);
void dawn_network_add_natural(struct dawn_network *network, int surface, int air,
                              struct natural_link film);
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
void dawn_network_add_vent(struct dawn_network *network, size_t opening);
/* For openings at both heights. */
void dawn_network_add_through(struct dawn_network *network);
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
/* Lets the last film added freeze. */
void dawn_network_add_frost(struct dawn_network *network);
/* Long-wave behind the water on a film: its share when dry and what wetting adds to it. to may be
 * OUTSIDE(OUTSIDE_SKY). Links alike in all but size grow instead. */
struct wet_window {
    size_t condense; /* the film's condense link */
    double dry, wetter;
};
void dawn_network_grow_wetwave(struct dawn_network *network, int from, int to, double exchange_m2,
                               int veil, struct wet_window window);
void dawn_network_grow_wetsky(struct dawn_network *network, int surface, const char *group,
                              double exchange_m2, double sky_view, int veil,
                              struct wet_window window);
void dawn_network_add_fog(struct dawn_network *network, int air, double W_K);
void dawn_network_add_stream(struct dawn_network *network, int intake, int back, int segment,
                             double flow_W_K, double segment_share);
/* The same for air that goes the other way by night: after those of the day, as many, in the order
 * this air meets the rock. */
void dawn_network_add_stream_back(struct dawn_network *network, int intake, int back, int segment,
                                  double flow_W_K, double segment_share);
/* Heat from the ridge to the bench with the fan's air, and vapour when there is some that does not
 * go through the rock on its own (dawn_network_add_carry). */
void dawn_network_add_displace(struct dawn_network *network, double W_K);
/* Vapour on its way with the fan's air: from one place to the next. */
void dawn_network_add_carry(struct dawn_network *network, int from, int to, double W_K);
/* Stones that take water from the vapour between them; their film holds holds_kg, the rest drains.
 */
void dawn_network_add_damp(struct dawn_network *network, int vapour, int rock, double W_K,
                           double area_m2, double holds_kg);
struct mixing_link dawn_network_mixing_law(double area_m2, double height_m, double air_J_m3K);
void dawn_network_add_mixing(struct dawn_network *network, struct mixing_link mixing);
/* The last natural link added is the surface; nothing when there is one air. */
void dawn_network_add_plume(struct dawn_network *network, double share, int veil);
/* Returns the forcing channel the gain listens to. */
size_t dawn_network_add_gain(struct dawn_network *network, int to);
void dawn_network_add_power(struct dawn_network *network, int to, double W, bool with_fan,
                            const char *group);
/* Settles flow indices; false when memory ran out on the way. */
bool dawn_network_finish(struct dawn_network *network);
/* How many numbers its laws have, nodes and links together, and all of them in a row, where laws_in
 * finds them. */
size_t dawn_network_numbers(const struct dawn_network *network);
void dawn_network_gather(const struct dawn_network *network, double numbers[]);
/* Whether the network is within the size an evaluation has room for. */
bool dawn_network_fits(const struct dawn_network *network);

/* The link behind a flow index, and its kind. */
const struct link *dawn_network_link(const struct dawn_network *network, size_t flow,
                                     enum link_kind *kind);
const char *dawn_network_kind_words(enum link_kind kind);
const char *dawn_network_place_name(const struct dawn_network *network, int place);

/* ---- the fan ---- */

/* What the thermostat's place, and it less the rock's mean, lie between. */
struct fan_span {
    double sensed_low_C, sensed_high_C, above_low_K, above_high_K;
};
/* The most, or the least, that dawn_network_fan_wish can be there. */
/* The same by how much warmer the sensed air is than the rock. */
enum dawn_fan_state dawn_network_fan_way_above(const struct dawn_network *network,
                                               double above_rock_K);
double dawn_network_fan_wish_between(const struct dawn_network *network, bool fan_on,
                                     struct fan_span span, bool most);

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
/* Between two times of the site's standard day; until before from is the next day's. */
struct day_hours dawn_network_day_hours(const struct dawn_scenario *scenario, double from_s,
                                        double until_s);
/* 1 while something on a clock runs, between 0 and 1 while it starts and stops. */
double dawn_network_forcing_hours(const struct day_hours *hours, double t_s);
/* What covers drawn so far leave of every flow behind a veil; veil has veil_count places. */
void dawn_network_veils(const struct dawn_network *network, const double drawn[], double veil[]);
double dawn_network_forcing_air_C(const struct forcing *forcing, double t_s);
double dawn_network_forcing_drawn(const struct forcing *forcing, size_t cover, double t_s);

#endif
