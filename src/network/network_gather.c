/* The numbers of networks of one shape, side by side. */
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

/* A block being filled: the next number goes to *next, the one after it `stride` further on. */
struct block {
    double *next;
    size_t stride;
};

/* A law is nothing but numbers in a row. */
static void lay(struct block *block, const void *law, size_t size)
{
    const double *numbers = law;
    for (size_t i = 0; i < size / sizeof *numbers; ++i) {
        *block->next = numbers[i];
        block->next += block->stride;
    }
}

/* A loop a kind, and they are many: no tangle. The numbers are written, by way of the block. */
/* NOLINTNEXTLINE(readability-function-cognitive-complexity,readability-non-const-parameter) */
void dawn_network_gather(const struct dawn_network *network, double numbers[], size_t networks,
                         size_t at)
{
    struct block block = {numbers + at, networks};
    for (size_t i = 0; i < network->node_count; ++i) {
        const struct dawn_node *node = &network->nodes[i].facts;
        struct node_law law = {node->heat_J_K, node->frozen_J_K, node->latent_J};
        lay(&block, &law, sizeof law);
    }
#define LAY_LAWS(kind, words)                                                                      \
    for (size_t i = 0; i < network->kind##_count; ++i)                                             \
        lay(&block, &network->kind[i].law, sizeof network->kind[i].law);
    DAWN_LINK_KINDS(LAY_LAWS)
#undef LAY_LAWS
}
