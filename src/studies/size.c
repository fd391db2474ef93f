/* What to build: the search, its proof, and what a bit more or less would do. */
#include "dawnlow/studies/size.h"

#include <math.h>
#include <stdlib.h>

#include "studies/size_parts.h"

/* ---- a bit more, a bit less ---- */

double dawn_size_nudge(const struct dawn_size_lever *lever)
{
    const double wide = 0.1 * (lever->most - lever->least);

    return fmax(lever->step, lever->step * round(wide / lever->step));
}

static size_t list_changes(struct dawn_size *size, struct size_search *search,
                           struct dawn_size_design design[DAWN_SIZE_CHANGES])
{
    const struct dawn_size_plan *plan = search->plan;

    const bool rock = dawn_size_has_rock(plan, &size->best);
    for (size_t i = 0; i < plan->levers; i++) {
        const enum dawn_size_kind kind = plan->lever[i].kind;
        if (!rock &&
            (kind == DAWN_SIZE_FAN || kind == DAWN_SIZE_STONE || kind == DAWN_SIZE_DEPTH)) {
            continue;
        }
        for (int side = -1; side <= 1; side += 2) {
            struct dawn_size_design it = size->best;
            it.value[i] = dawn_size_round(&plan->lever[i],
                                          it.value[i] + side * dawn_size_nudge(&plan->lever[i]));
            if (fabs(it.value[i] - size->best.value[i]) < 1e-9) {
                continue;
            }
            dawn_size_make(&it, search);
            size->change[size->changes].lever = i;
            design[size->changes++] = it;
        }
    }
    return size->changes;
}

/* Against rock where it varies, else barrels, else the first. */
static size_t curve_lever(const struct dawn_size_plan *plan)
{
    static const enum dawn_size_kind wanted[] = {DAWN_SIZE_ROCK, DAWN_SIZE_BARRELS};

    for (size_t k = 0; k < 2; k++) {
        for (size_t i = 0; i < plan->levers; i++) {
            if (plan->lever[i].kind == wanted[k]) {
                return i;
            }
        }
    }
    return 0;
}

static size_t list_curve(struct dawn_size *size, struct size_search *search,
                         struct dawn_size_design design[DAWN_SIZE_CURVE])
{
    const size_t which = curve_lever(search->plan);
    const struct dawn_size_lever *lever = &search->plan->lever[which];

    size->curve_lever = which;
    size->curve_count = dawn_size_levels_of(lever, DAWN_SIZE_CURVE);
    for (size_t i = 0; i < size->curve_count; i++) {
        design[i] = size->best;
        design[i].value[which] = dawn_size_level(lever, i, size->curve_count);
        dawn_size_make(&design[i], search);
    }
    return size->curve_count;
}

/* From where on more adds less than DAWN_SIZE_KNEE_K, all the way up. */
static void find_knee(struct dawn_size *size)
{
    const struct dawn_size_design *last = NULL;
    const size_t which = size->curve_lever;

    for (size_t i = 0; i < size->curve_count; i++) {
        const struct dawn_size_design *it = &size->curve[i];
        if (!dawn_size_usable(it)) {
            continue;
        }
        if (last != NULL && (it->low_C - last->low_C) / (it->value[which] - last->value[which]) <
                                DAWN_SIZE_KNEE_K) {
            size->knee = isnan(size->knee) ? last->value[which] : size->knee;
        } else if (last != NULL) {
            size->knee = NAN;
        }
        last = it;
    }
}

static void try_around(struct dawn_size *size, struct size_search *search, bool changes)
{
    struct dawn_size_design *design = calloc(DAWN_SIZE_CHANGES + DAWN_SIZE_CURVE, sizeof *design);

    if (design == NULL) {
        search->no_memory = search->stopped = true;
        return;
    }
    const size_t changed = changes ? list_changes(size, search, design) : 0;
    const size_t curve = list_curve(size, search, &design[changed]);
    dawn_size_over_all(search, design, changed);
    /* Its band needs every year's coldest night, also of mild ones. */
    dawn_size_run(search, &design[changed], curve, search->plan->years, search->plan->threads, NULL,
                  &(struct dawn_problems){0});
    for (size_t i = 0; i < changed; i++) {
        size->change[i].design = design[i];
    }
    for (size_t i = 0; i < curve; i++) {
        size->curve[i] = design[changed + i];
    }
    find_knee(size);
    free(design);
}

/* ---- the study ---- */

static void search_all(struct dawn_size *size, struct size_search *search, struct size_pool *pool,
                       struct dawn_problems *problems)
{
    const struct dawn_size_plan *plan = search->plan;
    struct dawn_size_design first[3];
    struct size_low *lows = calloc((size_t)3 * DAWN_SIZE_LOWS, sizeof *lows);

    if (lows == NULL) {
        search->no_memory = true;
        return;
    }
    /* As it is, and with least and most of everything: their coldest nights decide. */
    first[0] = size->own;
    for (size_t i = 0; i < plan->levers; i++) {
        first[1].value[i] = dawn_size_level(&plan->lever[i], 0, 2);
        first[2].value[i] = dawn_size_level(&plan->lever[i], 1, 2);
    }
    dawn_size_make(&first[1], search);
    dawn_size_make(&first[2], search);
    dawn_size_run(search, first, 3, plan->years, plan->threads, lows, problems);
    size->own = first[0];
    size->nights = (double)first[0].nights;
    size->reach = dawn_size_usable(&first[2]) ? first[2] : first[0];
    if (!search->stopped && !size->own.failed) {
        dawn_size_spells(search, lows, 3, search->allowed + 2);
        dawn_size_cut(search, lows, &lows[(size_t)2 * DAWN_SIZE_LOWS]);
        dawn_size_lay_grid(search, pool);
        search->expected = search->finished + pool->count * search->spells.count * 2 + 40;
        dawn_size_run(search, pool->design, pool->count, &search->spells, plan->threads, NULL,
                      &(struct dawn_problems){0});
    }
    if (!search->stopped && dawn_size_cheapest(pool, 0.0) < pool->count) {
        dawn_size_work_out(search, pool);
    }
    if (!search->stopped) {
        dawn_size_prove(size, search, pool);
    }
    free(lows);
}

/* Where the goal is not met, or not for the money: what comes nearest, over all the weather. */
static void settle(struct dawn_size *size, struct size_search *search, struct size_pool *pool)
{
    if (size->met) {
        dawn_size_confirm(size, search);
    }
    const bool dear = size->met && !dawn_size_affordable(search, &size->best);
    const size_t near_by = dawn_size_nearest(search, pool, !isnan(search->plan->budget));

    size->over_budget = dear;
    if (dear) {
        size->met = false;
    }
    if (!size->met && near_by < pool->count) {
        size->reach = pool->design[near_by];
        dawn_size_run_closely(search, &size->reach);
    }
    if (!size->met && !dear) {
        size->best = size->reach;
    }
    try_around(size, search, size->met || dear);
    dawn_size_compare(size, search, &size->best);
}

static enum dawn_status begin(struct dawn_size *size, struct size_search *search,
                              struct dawn_problems *problems)
{
    const struct dawn_size_plan *plan = search->plan;

    *size = (struct dawn_size){.knee = NAN};
    size->springs = dawn_size_springs(search);
    size->allowed = search->allowed = dawn_goal_allowed(&plan->goal, size->springs);
    if (search->allowed > DAWN_SIZE_ALLOWED_MOST) {
        dawn_problems_add(
            problems, DAWN_ERROR, (struct dawn_place_in_file){0},
            "a goal with fewer nights says more",
            "the goal allows %zu nights below its line; more than %d cannot be counted",
            search->allowed, (int)DAWN_SIZE_ALLOWED_MOST);
        return DAWN_ERR_USAGE;
    }
    for (size_t i = 0; i < DAWN_SIZE_KINDS; i++) {
        size->own.value[i] = NAN;
    }
    size->own.cost = dawn_cost_of(search->scenario);
    search->expected = 3 * plan->years->count + 100;
    return DAWN_OK;
}

enum dawn_status dawn_size_find(struct dawn_size *size, const struct dawn_scenario *scenario,
                                const struct dawn_size_plan *plan, struct dawn_problems *problems)
{
    struct size_search search = {.plan = plan, .scenario = scenario};
    enum dawn_status status = begin(size, &search, problems);
    if (status != DAWN_OK) {
        return status;
    }
    struct size_pool pool = {.design = calloc(DAWN_SIZE_POOL_MOST, sizeof *pool.design)};
    search.proven.design = calloc(DAWN_SIZE_PROVEN_MOST, sizeof *search.proven.design);
    search.spell = calloc(DAWN_SIZE_ALLOWED_MOST + 8, sizeof *search.spell);
    search.night = calloc(plan->years->count, sizeof *search.night);
    search.spells.year = search.spell;
    if (pool.design == NULL || search.spell == NULL || search.night == NULL ||
        search.proven.design == NULL) {
        status = DAWN_ERR_NOMEM;
    } else {
        search_all(size, &search, &pool, problems);
        if (!search.stopped && !size->own.failed) {
            settle(size, &search, &pool);
        }
        size->tried = search.tried;
        size->excluded = search.excluded;
        size->stopped = search.stopped && !search.no_memory;
        status = search.no_memory ? DAWN_ERR_NOMEM : DAWN_OK;
        if (status == DAWN_OK && size->own.failed && !search.stopped) {
            status = DAWN_ERR_USAGE;
            dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                              "'springs' counts nights of March to May (south: September to "
                              "November); 'years' counts all",
                              "the weather holds no night that counts for this goal");
        }
    }
    free(pool.design);
    free(search.spell);
    free(search.night);
    free(search.proven.design);
    return status;
}
