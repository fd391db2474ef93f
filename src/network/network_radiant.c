/* Long-wave exchange inside the house, and through film that lets it pass. */
#include <math.h>

#include "dawnlow/physics/surface.h"
#include "network/network_build.h"

int dawn_network_radiant_group(struct building *building)
{
    return building->radiant_groups++;
}

void dawn_network_radiant_add(struct building *building, struct radiant_surface surface)
{
    if (surface.area_m2 <= 0 || surface.emissivity <= 0)
        return;
    if (building->radiant_count == RADIANT_MOST) {
        building->network->failed = true;
        return;
    }
    building->radiant[building->radiant_count++] = surface;
}

/* A window to the sky stands for the share of a film that lets long-wave pass. */
static bool is_window(const struct radiant_surface *surface)
{
    return surface->node == DAWN_NO_NODE;
}

/* Drops leave this share of a wet film bare: growing and running together they cover 0.55 of what
 * they condense on, whatever it is (breath figures, Beysens & Knobler 1986, from memory). That
 * condensate lowers what plain film loses by long-wave was measured (Walker & Walton 1968, quoted
 * by Silveston & Hudgins 1980, seen; their figure not seen); by up to half, say extension pages.
 * Where a film makes the drops run together hardly any is left bare. */
static const double bare_share = 0.45;

/* Radiation on its way from one surface to another passes the covers that hang before them. Each
 * lets a share through, takes one up and throws the rest back to where it came from; what it takes
 * it gives off likewise (Kirchhoff). So a path with covers is a path between every two of its
 * stations: the surfaces at its ends and the covers' faces. What one cover throws back and another
 * throws back again is left out. */
struct station {
    int toward_start, toward_end; /* the nodes that face either way */
    struct veil_factor takes_start, takes_end, passes;
};
enum { STATIONS_MOST = COVERS_MOST + 4 };
struct path {
    struct station station[STATIONS_MOST];
    size_t count;
    size_t wet;  /* the station that is water on a film; 0 = none */
    size_t snow; /* the station that is snow on a window; 0 = none */
    const struct radiant_surface *end;
    double exchange_m2;
};

static void add_cover(struct path *path, const struct building *building, int cover, bool outward)
{
    const struct cover_faces faces = building->cover_faces[cover];
    path->station[path->count++] = (struct station){
        .toward_start = outward ? faces.inside : faces.outside,
        .toward_end = outward ? faces.outside : faces.inside,
        .takes_start = {cover, outward ? VEIL_INNER : VEIL_OUTER},
        .takes_end = {cover, outward ? VEIL_OUTER : VEIL_INNER},
        .passes = {cover, VEIL_PASSES},
    };
}

/* Water on a film lies before the window that the film is. How much there is the state tells. */
static void add_water(struct path *path, const struct building *building, size_t condense)
{
    const int pane = building->network->condense[condense].link.to;
    const struct veil_factor none = {NO_COVER, VEIL_PASSES};
    path->wet = path->count;
    path->station[path->count++] = (struct station){pane, pane, none, none, none};
}

/* Snow on a film is as warm as the pane it lies on; what its surface loses is no way of this. */
static void add_snow(struct path *path, const struct building *building, int pane)
{
    const int lies = building->snow_lies;
    path->snow = path->count;
    path->station[path->count++] = (struct station){.toward_start = pane,
                                                    .toward_end = pane,
                                                    .takes_start = {lies, VEIL_INNER},
                                                    .takes_end = {lies, VEIL_OUTER},
                                                    .passes = {lies, VEIL_PASSES}};
}

/* Covers over both ends do not lie between them: the stacks' common outer part is left away. */
static struct path path_between(const struct building *building, const struct radiant_surface *a,
                                const struct radiant_surface *b, double exchange_m2)
{
    struct path path = {.end = b, .exchange_m2 = exchange_m2};
    size_t from = a->below.count;
    size_t to = b->below.count;
    while (from > 0 && to > 0 && a->below.cover[from - 1] == b->below.cover[to - 1]) {
        --from;
        --to;
    }
    path.station[path.count++] = (struct station){.toward_start = a->node, .toward_end = a->node};
    for (size_t i = 0; i < from; ++i)
        add_cover(&path, building, a->below.cover[i], true);
    for (size_t i = to; i > 0; --i)
        add_cover(&path, building, b->below.cover[i - 1], false);
    if (b->wets)
        add_water(&path, building, b->condense);
    if (b->snowed)
        add_snow(&path, building, b->pane);
    path.station[path.count++] = (struct station){.toward_start = b->node, .toward_end = b->node};
    return path;
}

static void add_factor(struct veil *veil, struct veil_factor factor)
{
    if (factor.cover != NO_COVER)
        veil->factor[veil->count++] = factor;
}

static struct veil veil_between(const struct path *path, size_t from, size_t to)
{
    struct veil veil = {0};
    /* A station's number is below the path's count. */
    if (from > 0)
        /* cppcheck-suppress arrayIndexOutOfBoundsCond */
        add_factor(&veil, path->station[from].takes_end);
    for (size_t i = from + 1; i < to; ++i)
        add_factor(&veil, path->station[i].passes);
    if (to + 1 < path->count)
        add_factor(&veil, path->station[to].takes_start);
    return veil;
}

/* What water on the film makes of the way between two stations. */
static struct wet_window window_between(const struct path *path, size_t from, size_t to)
{
    const double shuts = 1.0 - bare_share;
    bool past = from < path->wet && path->wet < to;
    return (struct wet_window){path->end->condense, past ? 1.0 : 0.0, past ? -shuts : shuts};
}

static const char through_film[] = "long-wave through the film to the sky";

static void link_stations(struct building *building, const struct path *path, size_t from,
                          size_t to)
{
    struct dawn_network *net = building->network;
    if (path->snow > 0 && from == path->snow)
        return;
    int veil = dawn_network_veil(net, veil_between(path, from, to));
    int giver = path->station[from].toward_end;
    bool to_sky = to + 1 == path->count && is_window(path->end);
    int taker = path->station[to].toward_start;
    if (path->wet > 0 && from <= path->wet && path->wet <= to) {
        struct wet_window window = window_between(path, from, to);
        if (to_sky)
            dawn_network_grow_wetsky(net, giver, through_film, path->exchange_m2,
                                     path->end->sky_view, veil, window);
        else if (giver != taker)
            dawn_network_grow_wetwave(net, giver, taker, path->exchange_m2, veil, window);
        return;
    }
    if (to_sky)
        dawn_network_grow_sky(net, giver, through_film, path->exchange_m2, path->end->sky_view,
                              veil);
    else
        dawn_network_grow_longwave(net, giver, taker, path->exchange_m2, veil);
}

static void link_pair(struct building *building, const struct radiant_surface *a,
                      const struct radiant_surface *b, double exchange_m2)
{
    if (exchange_m2 <= 0 || (is_window(a) && is_window(b)))
        return;
    struct path path = is_window(a) ? path_between(building, b, a, exchange_m2)
                                    : path_between(building, a, b, exchange_m2);
    for (size_t from = 0; from < path.count; ++from)
        for (size_t to = from + 1; to < path.count; ++to)
            link_stations(building, &path, from, to);
}

void dawn_network_radiant_heat(struct building *building, double W, const char *group)
{
    double sum = 0;
    if (W <= 0)
        return;
    for (size_t i = 0; i < building->radiant_count; ++i)
        if (!is_window(&building->radiant[i]))
            sum += building->radiant[i].area_m2 * building->radiant[i].emissivity;
    for (size_t i = 0; i < building->radiant_count; ++i) {
        const struct radiant_surface *to = &building->radiant[i];
        if (!is_window(to))
            dawn_network_add_power(building->network, to->node,
                                   W * to->area_m2 * to->emissivity / sum, false, group);
    }
}

void dawn_network_radiant_link(struct building *building)
{
    size_t count = building->radiant_count;
    double area[RADIANT_MOST] = {0};
    double emissivity[RADIANT_MOST] = {0};
    double weight[RADIANT_MOST] = {0};
    double sum = 0;
    int group[RADIANT_MOST] = {0};
    for (size_t i = 0; i < count; ++i) {
        area[i] = building->radiant[i].area_m2;
        emissivity[i] = building->radiant[i].emissivity;
        group[i] = building->radiant[i].group;
    }
    dawn_surface_radiant_weights(count, area, emissivity, group, weight);
    for (size_t i = 0; i < count; ++i)
        sum += weight[i];
    for (size_t i = 0; i < count; ++i)
        for (size_t j = i + 1; j < count; ++j)
            if (group[i] != group[j])
                link_pair(building, &building->radiant[i], &building->radiant[j],
                          weight[i] * weight[j] / sum);
}
