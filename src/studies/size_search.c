/* The search on the spells: coarse grid, working out, rounding, one step less at a time. */
#include <math.h>
#include <stdlib.h>

#include "base/parallel.h"
#include "studies/size_parts.h"

enum { GRID_MOST = 120, POLISHED = 2 /* so many of the grid's best are worked out */ };

/* ---- grid ---- */

size_t dawn_size_levels_of(const struct dawn_size_lever *lever, size_t wanted)
{
    const size_t all = (size_t)floor((lever->most - lever->least) / lever->step + 1e-9) + 1;

    if (all < 2) {
        return 1;
    }
    return all < wanted ? all : wanted;
}

double dawn_size_level(const struct dawn_size_lever *lever, size_t i, size_t levels)
{
    return levels < 2 ? lever->least
                      : dawn_size_round(lever, lever->least + (lever->most - lever->least) *
                                                                  (double)i / (double)(levels - 1));
}

/* How many levels each lever gets: as many as the grid bears, discrete ones first. */
static size_t share_levels(const struct dawn_size_plan *plan, size_t levels[DAWN_SIZE_KINDS])
{
    size_t product = 1;

    for (size_t wanted = 7; wanted >= 2; wanted--) {
        product = 1;
        for (size_t i = 0; i < plan->levers; i++) {
            const bool few = plan->lever[i].kind >= DAWN_SIZE_SKINS;
            levels[i] = dawn_size_levels_of(&plan->lever[i], few ? 4 : wanted);
            product *= levels[i];
        }
        if (product <= GRID_MOST) {
            break;
        }
    }
    return product;
}

void dawn_size_lay_grid(struct size_search *search, struct size_pool *pool)
{
    const struct dawn_size_plan *plan = search->plan;
    size_t levels[DAWN_SIZE_KINDS];
    const size_t product = share_levels(plan, levels);

    for (size_t n = 0; n < product && pool->count < DAWN_SIZE_POOL_MOST / 2; n++) {
        struct dawn_size_design *design = &pool->design[pool->count++];
        size_t rest = n;
        for (size_t i = 0; i < plan->levers; i++) {
            design->value[i] = dawn_size_level(&plan->lever[i], rest % levels[i], levels[i]);
            rest /= levels[i];
        }
        dawn_size_make(design, search);
    }
}

/* ---- choosing ---- */

bool dawn_size_affordable(const struct size_search *search, const struct dawn_size_design *design)
{
    return !(design->cost.total > search->plan->budget);
}

bool dawn_size_usable(const struct dawn_size_design *design)
{
    return design->excluded == NULL && !design->failed && !isnan(design->slack_K);
}

/* The cheapest that holds, else count. Of equal cost the one with more slack. */
size_t dawn_size_cheapest(const struct size_pool *pool, double margin_K)
{
    size_t best = pool->count;

    for (size_t i = 0; i < pool->count; i++) {
        const struct dawn_size_design *it = &pool->design[i];
        if (!dawn_size_usable(it) || it->slack_K < margin_K) {
            continue;
        }
        if (best == pool->count || it->cost.total < pool->design[best].cost.total - 1e-9 ||
            (it->cost.total <= pool->design[best].cost.total + 1e-9 &&
             it->slack_K > pool->design[best].slack_K)) {
            best = i;
        }
    }
    return best;
}

/* What comes nearest to the goal, with or without regard to money; count when nothing ran. */
size_t dawn_size_nearest(const struct size_search *search, const struct size_pool *pool, bool paid)
{
    size_t best = pool->count;

    for (size_t i = 0; i < pool->count; i++) {
        const struct dawn_size_design *it = &pool->design[i];
        if (dawn_size_usable(it) && (!paid || dawn_size_affordable(search, it)) &&
            (best == pool->count || it->slack_K > pool->design[best].slack_K + 1e-6)) {
            best = i;
        }
    }
    return best;
}

/* ---- working out ---- */

struct polishing {
    struct size_search *search;
    struct dawn_size_design design[POLISHED];
    double margin_K;
};

static void polish_one(size_t index, void *user)
{
    struct polishing *polishing = user;

    dawn_size_polish(polishing->search, &polishing->design[index], polishing->margin_K);
}

bool dawn_size_has_rock(const struct dawn_size_plan *plan, const struct dawn_size_design *design)
{
    for (size_t k = 0; k < plan->levers; k++) {
        if (plan->lever[k].kind == DAWN_SIZE_ROCK && design->value[k] <= 0.0) {
            return false;
        }
    }
    return true;
}

/* The best of the grid that differ in what is not continuous, one after another. */
static size_t pick_starts(const struct size_search *search, const struct size_pool *pool,
                          struct dawn_size_design start[POLISHED])
{
    size_t picked = 0;
    bool *used = calloc(pool->count + 1, sizeof *used);

    while (used != NULL && picked < POLISHED) {
        size_t best = pool->count;
        for (size_t i = 0; i < pool->count; i++) {
            const struct dawn_size_design *it = &pool->design[i];
            if (!used[i] && dawn_size_usable(it) && it->slack_K >= 0.0 &&
                dawn_size_has_rock(search->plan, it) &&
                (best == pool->count || it->cost.total < pool->design[best].cost.total - 1e-9)) {
                best = i;
            }
        }
        if (best == pool->count) {
            break;
        }
        start[picked++] = pool->design[best];
        for (size_t i = 0; i < pool->count; i++) {
            bool same = true;
            for (size_t k = 0; k < search->plan->levers; k++) {
                same = same && (search->plan->lever[k].continuous ||
                                pool->design[i].value[k] == pool->design[best].value[k]);
            }
            used[i] = used[i] || same;
        }
    }
    free(used);
    return picked;
}

static void add_rounded(struct size_search *search, struct size_pool *pool,
                        const struct dawn_size_design *design)
{
    if (pool->count >= DAWN_SIZE_POOL_MOST) {
        return;
    }
    struct dawn_size_design *it = &pool->design[pool->count++];
    *it = *design;
    for (size_t i = 0; i < search->plan->levers; i++) {
        it->value[i] = dawn_size_round(&search->plan->lever[i], design->value[i]);
    }
    dawn_size_make(it, search);
}

void dawn_size_work_out(struct size_search *search, struct size_pool *pool)
{
    struct polishing *polishing = calloc(1, sizeof *polishing);

    if (polishing == NULL) {
        search->no_memory = search->stopped = true;
        return;
    }
    polishing->search = search;
    const size_t starts = pick_starts(search, pool, polishing->design);
    dawn_parallel_for(starts, search->plan->threads, polish_one, polishing);
    const size_t from = pool->count;
    for (size_t i = 0; i < starts; i++) {
        add_rounded(search, pool, &polishing->design[i]);
    }
    dawn_size_run(search, &pool->design[from], pool->count - from, &search->spells,
                  search->plan->threads, NULL, &(struct dawn_problems){0});
    free(polishing);
}

/* ---- what can be built ---- */

size_t dawn_size_find_in(const struct size_pool *pool, const struct dawn_size_design *design,
                         size_t levers)
{
    for (size_t i = 0; i < pool->count; i++) {
        bool same = true;
        for (size_t k = 0; k < levers; k++) {
            same = same && fabs(pool->design[i].value[k] - design->value[k]) < 1e-9;
        }
        if (same) {
            return i;
        }
    }
    return pool->count;
}

/* How far a lever moves at a scale: a tenth of its range, then half of that and so on, at last what
 * it is built in. */
static double stride(const struct dawn_size_lever *lever, int scale)
{
    const double steps = dawn_size_nudge(lever) / lever->step;

    return lever->step * (scale >= DAWN_SIZE_FINEST ? 1.0 : fmax(floor(steps / (1 << scale)), 1.0));
}

static void add_move(struct size_search *search, struct size_pool *pool,
                     const struct dawn_size_design *from, size_t down, double by, size_t up)
{
    const struct dawn_size_plan *plan = search->plan;
    struct dawn_size_design it = *from;

    it.value[down] = dawn_size_round(&plan->lever[down], it.value[down] - by);
    if (up != down) {
        it.value[up] = dawn_size_round(&plan->lever[up], it.value[up] + plan->lever[up].step);
    }
    if (pool->count >= DAWN_SIZE_POOL_MOST ||
        dawn_size_find_in(pool, &it, plan->levers) < pool->count) {
        return;
    }
    dawn_size_make(&it, search);
    /* Dearer ones are no step forward. */
    if (it.excluded == NULL && it.cost.total < from->cost.total - 1e-9) {
        pool->design[pool->count++] = it;
    }
}

void dawn_size_step_down(struct size_search *search, struct size_pool *pool,
                         const struct dawn_size_design *from, int scale)
{
    const struct dawn_size_plan *plan = search->plan;
    const size_t before = pool->count;

    for (size_t down = 0; down < plan->levers; down++) {
        const double by = stride(&plan->lever[down], scale);
        add_move(search, pool, from, down, by, down);
        for (size_t up = 0; up < plan->levers; up++) {
            if (up != down) {
                add_move(search, pool, from, down, by, up);
                add_move(search, pool, from, down, 3.0 * by, up);
            }
        }
    }
    dawn_size_run(search, &pool->design[before], pool->count - before, &search->spells,
                  plan->threads, NULL, &(struct dawn_problems){0});
}

size_t dawn_size_descend(struct size_search *search, struct size_pool *pool, double margin_K)
{
    size_t best = dawn_size_cheapest(pool, margin_K);
    int scale = 0;

    for (int round = 0;
         round < 12 && scale <= DAWN_SIZE_FINEST && best < pool->count && !search->stopped;
         round++) {
        const struct dawn_size_design from = pool->design[best];
        dawn_size_step_down(search, pool, &from, scale);
        best = dawn_size_cheapest(pool, margin_K);
        scale += pool->design[best].cost.total >= from.cost.total - 1e-9;
    }
    return best;
}
