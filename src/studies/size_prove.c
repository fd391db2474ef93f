/* All the nights that may decide: what was run over them, the proof, and the last word. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dawnlow/physics/water.h"
#include "studies/size_parts.h"

enum {
    ROUNDS = 12, /* of proof */
    AT_ONCE = 4, /* designs that are proved together: they share the lanes of the processor */
    TRIES = 5    /* answers that the accurate engine may refuse */
};

/* ---- what was run over them ---- */

void dawn_size_over_all(struct size_search *search, struct dawn_size_design design[], size_t count)
{
    struct size_pool *proven = &search->proven;
    const size_t before = proven->count;

    for (size_t i = 0; i < count; i++) {
        if (design[i].excluded == NULL && proven->count < DAWN_SIZE_PROVEN_MOST &&
            dawn_size_find_in(proven, &design[i], search->plan->levers) == proven->count) {
            proven->design[proven->count++] = design[i];
        }
    }
    dawn_size_run(search, &proven->design[before], proven->count - before, &search->nights,
                  search->plan->threads, NULL, &(struct dawn_problems){0});
    for (size_t i = 0; i < count; i++) {
        const size_t at = dawn_size_find_in(proven, &design[i], search->plan->levers);
        if (design[i].excluded == NULL && at < proven->count) {
            design[i] = proven->design[at];
        } else if (design[i].excluded == NULL) {
            design[i].failed = true;
        }
    }
}

/* ---- the proof ---- */

/* A design's slack in the spells is not quite that over all the nights, for spells are lived up to
 * in fewer days: so those that miss the line there a little are proved too, as long as no design
 * with as much slack was refused. Trays that freeze are held at 0 C: a line there hardly tells how
 * much a design misses. */
static double misses_K(const struct dawn_goal *goal)
{
    const bool held =
        goal->place != DAWN_GOAL_AIR && fabs(goal->line_C) < DAWN_WATER_FREEZING_WIDTH_K;

    return held ? 0.0005 : 0.3;
}

/* What may hold and is cheaper, from the cheapest on. */
static size_t list_hopeful(const struct size_search *search, const struct size_pool *pool,
                           double refused_K, double below_cost, size_t place[])
{
    const struct size_pool *proven = &search->proven;
    size_t count = 0;

    for (size_t i = 0; i < pool->count; i++) {
        const struct dawn_size_design *it = &pool->design[i];
        if (!dawn_size_usable(it) || it->slack_K <= refused_K ||
            it->cost.total >= below_cost - 1e-9 ||
            dawn_size_find_in(proven, it, search->plan->levers) < proven->count) {
            continue;
        }
        size_t at = count++;
        for (; at > 0 && pool->design[place[at - 1]].cost.total > it->cost.total; at--) {
            place[at] = place[at - 1];
        }
        place[at] = i;
    }
    return count;
}

/* Where no spell lets any hold: what comes nearest, if nobody proved it yet. */
static size_t nearest_yet(const struct size_search *search, const struct size_pool *pool,
                          size_t place[])
{
    const struct size_pool *proven = &search->proven;

    place[0] = dawn_size_nearest(search, pool, false);
    return place[0] < pool->count && dawn_size_find_in(proven, &pool->design[place[0]],
                                                       search->plan->levers) == proven->count;
}

/* The cheapest of them and others spread between it and what holds already. */
static size_t pick(const struct size_pool *pool, const size_t place[], size_t hopeful,
                   struct dawn_size_design out[AT_ONCE])
{
    const size_t count = hopeful < AT_ONCE ? hopeful : AT_ONCE;

    /* cppcheck-suppress knownConditionTrueFalse ; it does not see that some are hopeful */
    for (size_t i = 0; i < count; i++) {
        out[i] = pool->design[place[i * hopeful / count]];
    }
    return count;
}

/* Takes the cheapest that holds; returns the most slack in the spells that was not enough. */
static double judge(struct dawn_size *size, const struct dawn_size_design spell[],
                    const struct dawn_size_design all[], size_t count, double refused_K)
{
    for (size_t i = 0; i < count; i++) {
        if (all[i].failed || all[i].slack_K < 0.0) {
            refused_K = fmax(refused_K, spell[i].slack_K);
        } else if (!size->met || all[i].cost.total < size->best.cost.total - 1e-9) {
            size->met = true;
            size->best = all[i];
        }
    }
    return refused_K;
}

static void prove_round(struct dawn_size *size, struct size_search *search, struct size_pool *pool,
                        size_t place[], double *refused_K, bool *more)
{
    struct dawn_size_design spell[AT_ONCE];
    struct dawn_size_design all[AT_ONCE];
    double below = INFINITY;

    if (size->met) {
        below = size->best.cost.total;
        dawn_size_step_down(search, pool, &size->best, DAWN_SIZE_FINEST);
    } else {
        const size_t chosen = dawn_size_descend(search, pool, fmax(*refused_K + 1e-6, 0.0));
        below = chosen < pool->count ? pool->design[chosen].cost.total + 1e-6 : INFINITY;
    }
    size_t hopeful = list_hopeful(search, pool, *refused_K, below, place);
    if (hopeful == 0 && !size->met) {
        hopeful = nearest_yet(search, pool, place);
    }
    const size_t count = pick(pool, place, hopeful, spell);
    *more = count > 0 && !search->stopped;
    if (!*more) {
        return;
    }
    memcpy(all, spell, sizeof all);
    dawn_size_over_all(search, all, count);
    if (!search->stopped) {
        *refused_K = judge(size, spell, all, count, *refused_K);
    }
}

void dawn_size_prove(struct dawn_size *size, struct size_search *search, struct size_pool *pool)
{
    size_t *place = calloc(DAWN_SIZE_POOL_MOST, sizeof *place);
    double refused_K = -misses_K(&search->plan->goal);
    bool more = place != NULL;

    for (int round = 0; more && round < ROUNDS && !search->stopped; round++) {
        prove_round(size, search, pool, place, &refused_K, &more);
    }
    free(place);
}

/* ---- the accurate engine's word ---- */

void dawn_size_run_closely(struct size_search *search, struct dawn_size_design *design)
{
    search->closely = search->plan->confirm;
    dawn_size_run(search, design, 1, search->plan->years, search->plan->threads, NULL,
                  &(struct dawn_problems){0});
    search->closely = false;
}

/* What the fast engine found is run with the accurate one; where that refuses it, by a hundredth of
 * a kelvin, the next dearer of those proved follows. */
void dawn_size_confirm(struct dawn_size *size, struct size_search *search)
{
    for (int round = 0; round < TRIES && size->met && !search->stopped; round++) {
        struct dawn_size_design close = size->best;
        dawn_size_run_closely(search, &close);
        if (search->stopped || (dawn_size_usable(&close) && close.slack_K >= 0.0)) {
            size->best = close;
            size->confirmed = search->plan->confirm;
            return;
        }
        const double margin_K =
            0.002 + (close.failed ? 0.1 : fmax(size->best.slack_K - close.slack_K, 0.0));
        const size_t next = dawn_size_cheapest(&search->proven, margin_K);
        size->met = next < search->proven.count;
        size->best = size->met ? search->proven.design[next] : close;
    }
    size->met = false;
}
