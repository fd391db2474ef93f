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

static void link_pair(struct building *building, const struct radiant_surface *a,
                      const struct radiant_surface *b, double exchange_m2)
{
    if (exchange_m2 <= 0 || (is_window(a) && is_window(b)))
        return;
    if (is_window(a) || is_window(b)) {
        const struct radiant_surface *window = is_window(a) ? a : b;
        const struct radiant_surface *seen = is_window(a) ? b : a;
        dawn_network_add_sky(building->network, seen->node, "long-wave through the film to the sky",
                             exchange_m2, window->sky_view);
        return;
    }
    dawn_network_add_longwave(building->network, a->node, b->node, exchange_m2);
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
