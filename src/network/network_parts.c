/* Putting a network together: nodes, links by kind, one flow index over them all. */
#include "network/network_parts.h"

#include "dawnlow/physics/moistair.h"
#include "dawnlow/physics/water.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const outside_names[] = {
    [OUTSIDE_AIR] = "outdoor air",
    [OUTSIDE_SKY] = "sky",
    [OUTSIDE_EDGE] = "ground beside",
    [OUTSIDE_DEEP] = "deep ground",
    [OUTSIDE_SUN] = "sun",
    [OUTSIDE_POWER] = "electricity",
    [OUTSIDE_VAPOUR] = "outdoor vapour",
    [OUTSIDE_WATER] = "water",
};
static_assert((int)OPENINGS_MOST == (int)DAWN_OPENINGS_MOST, "room for each opening");
static_assert(sizeof outside_names / sizeof *outside_names == OUTSIDE_PLACES, "every place named");

struct dawn_network *dawn_network_new(void)
{
    struct dawn_network *network = calloc(1, sizeof *network);
    if (!network)
        return NULL;
    network->air = network->trays = network->leaf = network->root = DAWN_NO_NODE;
    network->sensor = network->ridge = DAWN_NO_NODE;
    network->vapour = network->ridge_vapour = DAWN_NO_NODE;
    network->pressure_Pa = 101325.0;
    network->veil_count = 1; /* NO_VEIL, the empty product */
    network->lit_from_s = INT64_MIN;
    network->lit_to_s = INT64_MAX;
    network->start_C = NAN;
    return network;
}

void dawn_network_free(struct dawn_network *network)
{
    if (!network)
        return;
#define LINK_FREE(kind, words) free(network->kind);
    DAWN_LINK_KINDS(LINK_FREE)
#undef LINK_FREE
    free(network->nodes);
    free(network->ends);
    free(network->numbers);
    free(network->leaving_start);
    free(network->reaching_start);
    free(network->leaving);
    free(network->reaching);
    free(network->rock);
    dawn_network_forcing_release(&network->forcing);
    free(network);
}

/* Makes room for one more element; returns it zeroed, or NULL. */
static void *grow(void **table, size_t *count, size_t *capacity, size_t size)
{
    if (*count == *capacity) {
        size_t wanted = *capacity ? *capacity * 2 : 8;
        void *larger = realloc(*table, wanted * size);
        if (!larger)
            return NULL;
        *table = larger;
        *capacity = wanted;
    }
    void *element = (char *)*table + *count * size;
    memset(element, 0, size);
    ++*count;
    return element;
}

int dawn_network_add_node(struct dawn_network *network, enum dawn_role role, double heat_J_K,
                          double frozen_J_K, double latent_J, const char *name, ...)
{
    /* Written first: the name may quote a node that moves when the table grows. */
    char written[sizeof network->nodes->name];
    va_list args;
    va_start(args, name);
    vsnprintf(written, sizeof written, name, args);
    va_end(args);
    void *table = network->nodes;
    struct network_node *node =
        grow(&table, &network->node_count, &network->node_capacity, sizeof *node);
    network->nodes = table;
    if (!node) {
        network->failed = true;
        return 0;
    }
    memcpy(node->name, written, sizeof written);
    node->facts = (struct dawn_node){.role = role,
                                     .heat_J_K = heat_J_K,
                                     .frozen_J_K = frozen_J_K > 0 ? frozen_J_K : heat_J_K,
                                     .latent_J = latent_J};
    return (int)network->node_count - 1;
}

static const char *outside_name(size_t place)
{
    return place < OUTSIDE_PLACES ? outside_names[place] : "outside";
}

const char *dawn_network_place_name(const struct dawn_network *network, int place)
{
    if (place < 0)
        return outside_name((size_t)(-2 - place));
    size_t at = (size_t)place;
    return at < network->node_count ? network->nodes[at].name
                                    : outside_name(at - network->node_count);
}

static struct link link_between(const struct dawn_network *network, int from, int to,
                                const char *group)
{
    struct link link = {.from = from, .to = to, .group = group};
    snprintf(link.name, sizeof link.name, "%s > %s", dawn_network_place_name(network, from),
             dawn_network_place_name(network, to));
    return link;
}

/* Appends one link of a kind; the braces after it are its own fields. */
#define APPEND(network, kind, ...)                                                                 \
    do {                                                                                           \
        void *table_ = (network)->kind;                                                            \
        struct kind##_link *added_ =                                                               \
            grow(&table_, &(network)->kind##_count, &(network)->kind##_capacity, sizeof *added_);  \
        (network)->kind = table_;                                                                  \
        if (added_)                                                                                \
            *added_ = (struct kind##_link)__VA_ARGS__;                                             \
        else                                                                                       \
            (network)->failed = true;                                                              \
    } while (0)

void dawn_network_add_conduction(struct dawn_network *network, int from, int to, const char *group,
                                 double W_K)
{
    APPEND(network, conduction, {link_between(network, from, to, group), {W_K}});
}

void dawn_network_add_soil(struct dawn_network *network, int from, int to, double liquid_W_K,
                           double ice_W_K)
{
    APPEND(network, soil,
           {link_between(network, from, to, NULL), {liquid_W_K, ice_W_K - liquid_W_K}});
}

void dawn_network_add_calm(struct dawn_network *network, int rock, int cover, double area_m2,
                           bool swept, struct dawn_rockbed_calm bed)
{
    APPEND(network, calm,
           {.link = link_between(network, rock, cover, NULL),
            .law = {.area_m2 = area_m2,
                    .swept = swept ? 1.0 : 0.0,
                    .onset_per_K = dawn_rockbed_rayleigh(1.0, &bed) / bed.onset,
                    .still_m2K_W = bed.height_m / (2.0 * bed.still_W_mK),
                    .series_m2K_W = bed.series_m2K_W},
            .bed = bed});
}

void dawn_network_add_natural(struct dawn_network *network, int surface, int air,
                              struct natural_link film)
{
    film.link = link_between(network, surface, air, NULL);
    APPEND(network, natural, {film.link, film.law, film.veil, film.stirring});
}

void dawn_network_add_wind(struct dawn_network *network, int surface, const char *group,
                           double area_m2)
{
    APPEND(network, wind, {link_between(network, surface, OUTSIDE(OUTSIDE_AIR), group), {area_m2}});
}

void dawn_network_add_longwave(struct dawn_network *network, int from, int to, double exchange_m2)
{
    APPEND(network, longwave,
           {link_between(network, from, to, NULL), {exchange_m2}, .veil = NO_VEIL});
}

void dawn_network_grow_longwave(struct dawn_network *network, int from, int to, double exchange_m2,
                                int veil)
{
    for (size_t i = 0; i < network->longwave_count; ++i) {
        struct longwave_link *other = &network->longwave[i];
        if (other->veil != veil || other->link.from != from || other->link.to != to)
            continue;
        other->law.exchange_m2 += exchange_m2;
        return;
    }
    APPEND(network, longwave, {link_between(network, from, to, NULL), {exchange_m2}, .veil = veil});
}

void dawn_network_add_sky(struct dawn_network *network, int surface, const char *group,
                          double exchange_m2, double sky_view)
{
    APPEND(network, sky,
           {link_between(network, surface, OUTSIDE(OUTSIDE_SKY), group),
            {exchange_m2, sky_view},
            .veil = NO_VEIL});
}

void dawn_network_grow_sky(struct dawn_network *network, int surface, const char *group,
                           double exchange_m2, double sky_view, int veil)
{
    for (size_t i = 0; i < network->sky_count; ++i) {
        struct sky_link *other = &network->sky[i];
        if (other->veil != veil || other->link.from != surface || other->law.sky_view != sky_view ||
            strcmp(other->link.group, group) != 0)
            continue;
        other->law.exchange_m2 += exchange_m2;
        return;
    }
    APPEND(network, sky,
           {link_between(network, surface, OUTSIDE(OUTSIDE_SKY), group),
            {exchange_m2, sky_view},
            .veil = veil});
}

static bool same_veil(const struct veil *a, const struct veil *b)
{
    if (a->count != b->count)
        return false;
    for (size_t i = 0; i < a->count; ++i)
        if (a->factor[i].cover != b->factor[i].cover || a->factor[i].part != b->factor[i].part)
            return false;
    return true;
}

int dawn_network_veil(struct dawn_network *network, struct veil veil)
{
    for (size_t i = 0; i < network->veil_count; ++i)
        if (same_veil(&network->veils[i], &veil))
            return (int)i;
    if (network->veil_count == VEILS_MOST) {
        network->failed = true;
        return NO_VEIL;
    }
    network->veils[network->veil_count++] = veil;
    return (int)network->veil_count - 1;
}

int dawn_network_veil_of(struct dawn_network *network, int cover, enum veil_part part)
{
    return dawn_network_veil(network, (struct veil){.count = 1, .factor = {{cover, part}}});
}

void dawn_network_add_exchange(struct dawn_network *network, int from, int to, double W_K, int veil)
{
    APPEND(network, exchange, {link_between(network, from, to, NULL), {W_K}, .veil = veil});
}

static void add_leak(struct dawn_network *network, int air, int from, enum outside_place to,
                     const char *group, double rated_W_K)
{
    APPEND(network, leak,
           {link_between(network, from, OUTSIDE(to), group), {rated_W_K}, .air = air});
}

int dawn_network_vapour_in(const struct dawn_network *network, int air)
{
    for (size_t i = 0; i < network->air_count; ++i)
        if (network->airs[i].air == air)
            return network->airs[i].vapour;
    return air == network->ridge ? network->ridge_vapour : network->vapour;
}

void dawn_network_add_leak(struct dawn_network *network, int air, double rated_W_K)
{
    add_leak(network, air, air, OUTSIDE_AIR, "leaks", rated_W_K);
    if (network->vapour != DAWN_NO_NODE)
        add_leak(network, air, dawn_network_vapour_in(network, air), OUTSIDE_VAPOUR,
                 "vapour through leaks", rated_W_K);
}

static struct vent_law vent_law_of(const struct dawn_network *network, size_t opening)
{
    const struct opening *told = &network->opening[opening];
    bool by_warmth = !isnan(told->full_C);
    return (struct vent_law){.area_m2 = told->area_m2,
                             .height_m = told->height_m,
                             .opens_C = by_warmth ? told->opens_C : 0.0,
                             .range_K = by_warmth ? told->full_C - told->opens_C : 1.0,
                             .by_warmth = by_warmth,
                             .least_share = told->least_share,
                             .at_ridge = told->ridge,
                             .air_J_m3K = network->air_J_m3K};
}

void dawn_network_add_vent(struct dawn_network *network, size_t opening)
{
    int air = network->opening[opening].air;
    APPEND(network, vent,
           {.link = link_between(network, air, OUTSIDE(OUTSIDE_AIR), "open vents"),
            .law = vent_law_of(network, opening),
            .opening = opening});
    if (network->vapour != DAWN_NO_NODE)
        APPEND(network, vent,
               {.link = link_between(network, dawn_network_vapour_in(network, air),
                                     OUTSIDE(OUTSIDE_VAPOUR), "vapour through open vents"),
                .law = vent_law_of(network, opening),
                .opening = opening});
}

static void add_through(struct dawn_network *network, int lower, int upper,
                        enum outside_place outdoor, const char *group)
{
    struct through_law law = {network->opening_rise_m, network->air_J_m3K};
    APPEND(network, through,
           {.link = link_between(network, upper, OUTSIDE(outdoor), group),
            .law = law,
            .outdoor = OUTSIDE(outdoor)});
    if (lower != upper)
        APPEND(network, through,
               {.link = link_between(network, lower, upper, NULL),
                .law = law,
                .outdoor = OUTSIDE(outdoor)});
}

void dawn_network_add_through(struct dawn_network *network)
{
    add_through(network, network->air, network->ridge, OUTSIDE_AIR, "open vents");
    if (network->vapour != DAWN_NO_NODE)
        add_through(network, network->vapour, network->ridge_vapour, OUTSIDE_VAPOUR,
                    "vapour through open vents");
}

void dawn_network_add_renewal(struct dawn_network *network, int air, const char *group,
                              const char *vapour_group, double W_K, bool clocked)
{
    APPEND(network, renewal,
           {link_between(network, air, OUTSIDE(OUTSIDE_AIR), group), {W_K, clocked ? 1.0 : 0.0}});
    if (network->vapour != DAWN_NO_NODE)
        APPEND(network, renewal,
               {link_between(network, dawn_network_vapour_in(network, air), OUTSIDE(OUTSIDE_VAPOUR),
                             vapour_group),
                {W_K, clocked ? 1.0 : 0.0}});
}

void dawn_network_add_evaporate(struct dawn_network *network, int surface, double wet_m2)
{
    const struct natural_link *film = &network->natural[network->natural_count - 1];
    APPEND(network, evaporate,
           {.link = link_between(network, surface, dawn_network_vapour_in(network, film->link.to),
                                 NULL),
            .air = film->link.to,
            .natural = network->natural_count - 1,
            .law = {wet_m2}});
}

void dawn_network_add_transpire(struct dawn_network *network, int leaf, int air, double light_share,
                                double deficit_W_K, size_t channel)
{
    APPEND(network, transpire,
           {.link = link_between(network, leaf, dawn_network_vapour_in(network, air), NULL),
            .law = {light_share, deficit_W_K},
            .channel = channel});
}

/* What a surface cannot hold runs off within minutes. */
static const double drip_s = 600.0;

void dawn_network_add_condense(struct dawn_network *network, int surface, double area_m2,
                               double holds_kg_m2)
{
    double heat = FILM_KG_M2K * area_m2 * DAWN_MOISTAIR_LATENT_J_KG;
    int film = dawn_network_add_node(network, DAWN_ROLE_FILM, heat, 0, 0, "film on %s",
                                     dawn_network_place_name(network, surface));
    const struct natural_link *law = &network->natural[network->natural_count - 1];
    int vapour = dawn_network_vapour_in(network, law->link.to);
    APPEND(network, film,
           {.link = link_between(network, OUTSIDE(OUTSIDE_WATER), film, NULL),
            .condense = network->condense_count});
    APPEND(network, condense,
           {.link = link_between(network, vapour, surface, NULL),
            .air = law->link.to,
            .film = film,
            .natural = network->natural_count - 1,
            .law = {area_m2}});
    APPEND(network, drip,
           {link_between(network, film, OUTSIDE(OUTSIDE_WATER), NULL),
            {.holds_K = holds_kg_m2 / FILM_KG_M2K, .W_K = heat / drip_s},
            DAWN_NO_NODE});
}

void dawn_network_add_frost(struct dawn_network *network)
{
    if (network->condense_count == 0 || network->drip_count == 0)
        return; /* memory ran out before */
    const struct condense_link *condense = &network->condense[network->condense_count - 1];
    int surface = condense->link.to;
    int film = condense->film;
    double heat = FILM_KG_M2K * condense->law.area_m2 * DAWN_WATER_LATENT_J_KG;
    int frost = dawn_network_add_node(network, DAWN_ROLE_FROST, heat, 0, 0, "frost on %s",
                                      dawn_network_place_name(network, surface));
    network->drip[network->drip_count - 1].frost = frost;
    APPEND(network, freeze,
           {.link = link_between(network, frost, surface, NULL),
            .film = film,
            .law = {condense->law.area_m2}});
}

static bool same_window(struct wet_window window, size_t condense, double dry)
{
    return window.condense == condense && window.dry == dry;
}

void dawn_network_grow_wetwave(struct dawn_network *network, int from, int to, double exchange_m2,
                               int veil, struct wet_window window)
{
    for (size_t i = 0; i < network->wetwave_count; ++i) {
        struct wetwave_link *other = &network->wetwave[i];
        if (other->veil != veil || other->link.from != from || other->link.to != to ||
            !same_window(window, other->condense, other->law.dry))
            continue;
        other->law.exchange_m2 += exchange_m2;
        return;
    }
    APPEND(network, wetwave,
           {.link = link_between(network, from, to, NULL),
            .law = {exchange_m2, window.dry, window.wetter},
            .veil = veil,
            .condense = window.condense});
}

void dawn_network_grow_wetsky(struct dawn_network *network, int surface, const char *group,
                              double exchange_m2, double sky_view, int veil,
                              struct wet_window window)
{
    for (size_t i = 0; i < network->wetsky_count; ++i) {
        struct wetsky_link *other = &network->wetsky[i];
        if (other->veil != veil || other->link.from != surface || other->law.sky_view != sky_view ||
            !same_window(window, other->condense, other->law.dry))
            continue;
        other->law.exchange_m2 += exchange_m2;
        return;
    }
    APPEND(network, wetsky,
           {.link = link_between(network, surface, OUTSIDE(OUTSIDE_SKY), group),
            .law = {exchange_m2, sky_view, window.dry, window.wetter},
            .veil = veil,
            .condense = window.condense});
}

void dawn_network_add_fog(struct dawn_network *network, int air, double W_K)
{
    APPEND(network, fog,
           {link_between(network, dawn_network_vapour_in(network, air), air, NULL), {W_K}});
}

void dawn_network_add_stream(struct dawn_network *network, int intake, int back, int segment,
                             double flow_W_K, double segment_share)
{
    APPEND(network, stream,
           {.link = link_between(network, back, segment, NULL),
            .intake = intake,
            .law = {.flow_W_K = flow_W_K, .segment_share = segment_share}});
}

void dawn_network_add_stream_back(struct dawn_network *network, int intake, int back, int segment,
                                  double flow_W_K, double segment_share)
{
    dawn_network_add_stream(network, intake, back, segment, flow_W_K, segment_share);
    if (!network->failed)
        network->stream[network->stream_count - 1].law.reversed = 1.0;
}

static void add_displace(struct dawn_network *network, int from, int to, double W_K)
{
    APPEND(network, displace, {link_between(network, from, to, NULL), {W_K}});
}

void dawn_network_add_displace(struct dawn_network *network, double W_K)
{
    if (network->ridge == network->air)
        return;
    add_displace(network, network->ridge, network->air, W_K);
    if (network->vapour != DAWN_NO_NODE && network->carry_count == 0)
        add_displace(network, network->ridge_vapour, network->vapour, W_K);
}

void dawn_network_add_carry(struct dawn_network *network, int from, int to, double W_K)
{
    APPEND(network, carry, {.link = link_between(network, from, to, NULL), .law = {W_K}});
}

void dawn_network_add_damp(struct dawn_network *network, int vapour, int rock, double W_K,
                           double area_m2, double holds_kg)
{
    double heat = FILM_KG_M2K * area_m2 * DAWN_MOISTAIR_LATENT_J_KG;
    int film = dawn_network_add_node(network, DAWN_ROLE_FILM, heat, 0, 0, "film on %s",
                                     dawn_network_place_name(network, rock));
    APPEND(network, soak,
           {.link = link_between(network, OUTSIDE(OUTSIDE_WATER), film, NULL),
            .damp = network->damp_count});
    APPEND(network, damp,
           {.link = link_between(network, vapour, rock, NULL), .law = {W_K}, .film = film});
    APPEND(network, drip,
           {link_between(network, film, OUTSIDE(OUTSIDE_WATER), NULL),
            {.holds_K = holds_kg / (area_m2 * FILM_KG_M2K), .W_K = heat / drip_s},
            DAWN_NO_NODE});
}

struct mixing_link dawn_network_mixing_law(double area_m2, double height_m, double air_J_m3K)
{
    /* At most thirty changes an hour: air cannot turn over faster (common practice). */
    const double changes_most = 30.0 / 3600.0;
    return (struct mixing_link){.law = {.area_m2 = area_m2,
                                        .height_m = height_m,
                                        .air_J_m3K = air_J_m3K,
                                        .most_W_K = changes_most * area_m2 * height_m * air_J_m3K}};
}

static void add_mixing(struct dawn_network *network, int from, int to, struct mixing_link mixing)
{
    mixing.link = link_between(network, from, to, NULL);
    APPEND(network, mixing, {mixing.link, mixing.law, network->air, network->ridge, mixing.veil});
}

void dawn_network_add_mixing(struct dawn_network *network, struct mixing_link mixing)
{
    add_mixing(network, network->air, network->ridge, mixing);
    if (network->vapour != DAWN_NO_NODE)
        add_mixing(network, network->vapour, network->ridge_vapour, mixing);
}

void dawn_network_add_plume(struct dawn_network *network, double share, int veil)
{
    if (network->ridge == network->air)
        return;
    APPEND(network, plume,
           {.link = link_between(network, network->air, network->ridge, NULL),
            .natural = network->natural_count - 1,
            .law = {share},
            .veil = veil});
}

size_t dawn_network_add_gain(struct dawn_network *network, int to)
{
    size_t channel = network->gain_count;
    APPEND(
        network, gain,
        {.link = link_between(network, OUTSIDE(OUTSIDE_SUN), to, "sunlight"), .channel = channel});
    return channel;
}

void dawn_network_add_power(struct dawn_network *network, int to, double W, bool with_fan,
                            const char *group)
{
    APPEND(network, power,
           {.link = link_between(network, OUTSIDE(OUTSIDE_POWER), to, group),
            .law = {W, with_fan ? 1.0 : 0.0}});
}

const struct link *dawn_network_link(const struct dawn_network *network, size_t flow,
                                     enum link_kind *kind)
{
    for (int k = 0; k < KIND_COUNT; ++k) {
        if (flow >= network->first[k + 1])
            continue;
        if (kind)
            *kind = (enum link_kind)k;
        size_t at = flow - network->first[k];
        switch ((enum link_kind)k) {
#define LINK_CASE(name, words)                                                                     \
    case KIND_##name:                                                                              \
        return &network->name[at].link;
            DAWN_LINK_KINDS(LINK_CASE)
#undef LINK_CASE
        case KIND_COUNT:
            break;
        }
    }
    return NULL;
}

const char *dawn_network_kind_words(enum link_kind kind)
{
    static const char *const words[KIND_COUNT] = {
#define LINK_WORDS(name, text) [KIND_##name] = (text),
        DAWN_LINK_KINDS(LINK_WORDS)
#undef LINK_WORDS
    };
    return words[kind];
}

static int settled_place(const struct dawn_network *network, int place)
{
    return place >= 0 ? place : (int)network->node_count + (-2 - place);
}

static struct ends ends_of(const struct dawn_network *network, size_t flow)
{
    const struct link *link = dawn_network_link(network, flow, NULL);
    int from = settled_place(network, link->from);
    int to = settled_place(network, link->to);
    return (struct ends){
        .from = from, .to = to, .third = -1, .fourth = -1, .lean = {from, to, -1, -1}};
}

/* A law that looks at more places also changes with them. */
static void look_at(struct ends *ends, int third, int fourth)
{
    ends->third = ends->lean[2] = third;
    ends->fourth = ends->lean[3] = fourth;
}

/* A flow that follows another changes with the same. */
static void follow(struct ends *ends, const struct ends *other)
{
    memcpy(ends->lean, other->lean, sizeof ends->lean);
    ends->row = other->row;
}

static void gather_wet_end(struct dawn_network *network, size_t flow, size_t condense)
{
    look_at(&network->ends[flow], -1, network->condense[condense].film);
    network->ends[flow].row = network->condense[condense].natural;
}

static void gather_frost_ends(struct dawn_network *network)
{
    struct ends *ends = network->ends;
    const size_t *first = network->first;
    for (size_t i = 0; i < network->damp_count; ++i) {
        look_at(&ends[first[KIND_damp] + i], network->damp[i].film, -1);
        ends[first[KIND_damp] + i].row = network->natural_count + i;
    }
    for (size_t i = 0; i < network->soak_count; ++i)
        follow(&ends[first[KIND_soak] + i], &ends[first[KIND_damp] + network->soak[i].damp]);
    for (size_t i = 0; i < network->freeze_count; ++i)
        look_at(&ends[first[KIND_freeze] + i], network->freeze[i].film, -1);
    for (size_t i = 0; i < network->drip_count; ++i)
        look_at(&ends[first[KIND_drip] + i], network->drip[i].frost, -1);
    for (size_t i = 0; i < network->wetwave_count; ++i)
        gather_wet_end(network, first[KIND_wetwave] + i, network->wetwave[i].condense);
    for (size_t i = 0; i < network->wetsky_count; ++i)
        gather_wet_end(network, first[KIND_wetsky] + i, network->wetsky[i].condense);
}

static void gather_streams(const struct dawn_network *network, struct ends ends[])
{
    size_t row = 0;
    for (size_t i = 0; i < network->stream_count; ++i) {
        if (i > 0 && network->stream[i].law.reversed != network->stream[i - 1].law.reversed)
            row = 0;
        look_at(&ends[i], network->stream[i].intake, -1);
        ends[i].row = row++;
    }
}

static void gather_ends(struct dawn_network *network)
{
    struct ends *ends = network->ends;
    const size_t *first = network->first;
    for (size_t i = 0; i < first[KIND_COUNT]; ++i)
        ends[i] = ends_of(network, i);
    for (size_t i = 0; i < network->natural_count; ++i) {
        ends[first[KIND_natural] + i].row = i;
        ends[first[KIND_natural] + i].stirring = network->natural[i].stirring;
    }
    for (size_t i = 0; i < network->leak_count; ++i)
        look_at(&ends[first[KIND_leak] + i], network->leak[i].air, -1);
    for (size_t i = 0; i < network->vent_count; ++i)
        look_at(&ends[first[KIND_vent] + i], network->air, network->ridge);
    for (size_t i = 0; i < network->vent_count; ++i)
        ends[first[KIND_vent] + i].row = network->vent[i].opening;
    for (size_t i = 0; i < network->through_count; ++i) {
        look_at(&ends[first[KIND_through] + i], network->air, network->ridge);
        network->through[i].outdoor = settled_place(network, network->through[i].outdoor);
        ends[first[KIND_through] + i].row = (size_t)network->through[i].outdoor;
    }
    gather_streams(network, &ends[first[KIND_stream]]);
    for (size_t i = 0; i < network->mixing_count; ++i)
        look_at(&ends[first[KIND_mixing] + i], network->mixing[i].lower, network->mixing[i].upper);
    for (size_t i = 0; i < network->plume_count; ++i)
        follow(&ends[first[KIND_plume] + i],
               &ends[first[KIND_natural] + network->plume[i].natural]);
    for (size_t i = 0; i < network->gain_count; ++i)
        ends[first[KIND_gain] + i].row = network->gain[i].channel;
    for (size_t i = 0; i < network->transpire_count; ++i)
        ends[first[KIND_transpire] + i].row = network->transpire[i].channel;
    for (size_t i = 0; i < network->evaporate_count; ++i) {
        look_at(&ends[first[KIND_evaporate] + i], network->evaporate[i].air, -1);
        ends[first[KIND_evaporate] + i].row = network->evaporate[i].natural;
    }
    for (size_t i = 0; i < network->condense_count; ++i) {
        look_at(&ends[first[KIND_condense] + i], network->condense[i].air,
                network->condense[i].film);
        ends[first[KIND_condense] + i].row = network->condense[i].natural;
    }
    for (size_t i = 0; i < network->film_count; ++i)
        follow(&ends[first[KIND_film] + i],
               &ends[first[KIND_condense] + network->film[i].condense]);
    gather_frost_ends(network);
}

/* What covers leave of each flow. */
static void gather_veils(struct dawn_network *network)
{
#define LINK_VEIL(kind)                                                                            \
    for (size_t i = 0; i < network->kind##_count; ++i)                                             \
        network->ends[network->first[KIND_##kind] + i].veil = network->kind[i].veil;
    LINK_VEIL(natural)
    LINK_VEIL(longwave)
    LINK_VEIL(sky)
    LINK_VEIL(mixing)
    LINK_VEIL(exchange)
    LINK_VEIL(plume)
    LINK_VEIL(wetwave)
    LINK_VEIL(wetsky)
#undef LINK_VEIL
}

/* Lists the flows of each node by the end they have there. */
static bool list_by_end(const struct dawn_network *network, bool leaving, size_t **start,
                        size_t **list)
{
    size_t flows = network->first[KIND_COUNT];
    size_t nodes = network->node_count;
    *start = calloc(nodes + 2, sizeof **start);
    *list = calloc(flows + 1, sizeof **list);
    if (!*start || !*list)
        return false;
    size_t *next = *start + 1; /* filled one place on, so that it ends up as the starts */
    for (size_t pass = 0; pass < 2; ++pass) {
        for (size_t i = 0; i < flows; ++i) {
            size_t end = (size_t)(leaving ? network->ends[i].from : network->ends[i].to);
            if (end >= nodes)
                continue;
            if (pass == 0)
                ++next[end + 1];
            else
                (*list)[next[end]++] = i;
        }
        for (size_t i = 0; pass == 0 && i < nodes; ++i)
            next[i + 1] += next[i];
    }
    return true;
}

bool dawn_network_finish(struct dawn_network *network)
{
    size_t flow = 0;
#define LINK_FIRST(kind, words)                                                                    \
    network->first[KIND_##kind] = flow;                                                            \
    flow += network->kind##_count;
    DAWN_LINK_KINDS(LINK_FIRST)
#undef LINK_FIRST
    network->first[KIND_COUNT] = flow;
    network->ends = calloc(flow + 1, sizeof *network->ends);
    network->numbers = calloc(dawn_network_numbers(network) + 1, sizeof *network->numbers);
    if (network->failed || !network->ends || !network->numbers)
        return false;
    gather_ends(network);
    gather_veils(network);
    dawn_network_gather(network, network->numbers);
    for (size_t i = 0; i < network->node_count; ++i)
        network->nodes[i].facts.name = network->nodes[i].name;
    return list_by_end(network, true, &network->leaving_start, &network->leaving) &&
           list_by_end(network, false, &network->reaching_start, &network->reaching);
}
