/* The numbers of all laws of a network in a row. */
#include <string.h>

#include "network/network_parts.h"

size_t dawn_network_numbers(const struct dawn_network *network)
{
    size_t count = network->node_count * (sizeof(struct node_law) / sizeof(double));
#define LAW_NUMBERS(kind, words)                                                                   \
    count += network->kind##_count * (sizeof(struct kind##_law) / sizeof(double));
    /* Laws of some kinds have no numbers. */
    DAWN_LINK_KINDS(LAW_NUMBERS) /* NOLINT(bugprone-sizeof-expression) */
#undef LAW_NUMBERS
    return count;
}

/* A law is nothing but numbers in a row, or has none; returns where the next goes. */
static double *lay(double *place, const void *law, size_t size)
{
    if (size > 0)
        memcpy(place, law, size);
    return place + size / sizeof *place;
}

/* A loop a kind, and they are many: no tangle. */
/* NOLINTNEXTLINE(readability-function-cognitive-complexity) */
void dawn_network_gather(const struct dawn_network *network, double numbers[])
{
    double *next = numbers;
    for (size_t i = 0; i < network->node_count; ++i) {
        const struct dawn_node *node = &network->nodes[i].facts;
        struct node_law law = {node->heat_J_K, node->frozen_J_K, node->latent_J};
        next = lay(next, &law, sizeof law);
    }
#define LAY_LAWS(kind, words)                                                                      \
    for (size_t i = 0; i < network->kind##_count; ++i)                                             \
        next = lay(next, &network->kind[i].law, sizeof network->kind[i].law);
    DAWN_LINK_KINDS(LAY_LAWS)
#undef LAY_LAWS
}
