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

/* Radiation on its way from one surface to another passes the covers that hang before them. Each
 * lets a share through, takes one up and throws the rest back to where it came from; what it takes
 * it gives off likewise (Kirchhoff). So a path with covers is a path between every two of its
 * stations: the surfaces at its ends and the covers' faces. What one cover throws back and another
 * throws back again is left out. */
struct station {
    int toward_start, toward_end; /* the nodes that face either way */
    struct veil_factor takes_start, takes_end, passes;
};
enum { STATIONS_MOST = COVERS_MOST + 2 };
struct path {
    struct station station[STATIONS_MOST];
    size_t count;
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
    path.station[path.count++] = (struct station){.toward_start = b->node, .toward_end = b->node};
    return path;
}

static struct veil veil_between(const struct path *path, size_t from, size_t to)
{
    struct veil veil = {0};
    if (from > 0)
        veil.factor[veil.count++] = path->station[from].takes_end;
    for (size_t i = from + 1; i < to; ++i)
        veil.factor[veil.count++] = path->station[i].passes;
    if (to + 1 < path->count)
        veil.factor[veil.count++] = path->station[to].takes_start;
    return veil;
}

static void link_stations(struct building *building, const struct path *path, size_t from,
                          size_t to)
{
    struct dawn_network *net = building->network;
    int veil = dawn_network_veil(net, veil_between(path, from, to));
    int giver = path->station[from].toward_end;
    if (to + 1 == path->count && is_window(path->end))
        dawn_network_grow_sky(net, giver, "long-wave through the film to the sky",
                              path->exchange_m2, path->end->sky_view, veil);
    else
        dawn_network_grow_longwave(net, giver, path->station[to].toward_start, path->exchange_m2,
                                   veil);
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
