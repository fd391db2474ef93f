/* The search: coarse grid, working out, rounding, and the proof over all the weather. */
#include "dawnlow/studies/size.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/civil.h"
#include "base/parallel.h"
#include "studies/size_parts.h"

enum {
    GRID_MOST = 120,
    POOL_MOST = 4096,
    POLISHED = 2, /* so many of the grid's best are worked out */
    ROUNDS = 5,   /* of rounding and proof */
    MOVES_MOST = 2 * DAWN_SIZE_KINDS * DAWN_SIZE_KINDS + 2 * DAWN_SIZE_KINDS
};
static const double spell_s = 86400.0;

/* All designs that were run on the spells. */
struct pool {
    struct dawn_size_design *design;
    size_t count;
};

/* ---- weather ---- */

static size_t springs_of(const struct dawn_years *years, const struct dawn_scenario *scenario)
{
    size_t springs = 0;

    for (size_t y = 0; y < years->count; y++) {
        const double offset_h = scenario->site.utc_offset_h;
        const int first = dawn_civil_at(years->year[y].from_s, offset_h).year;
        const int last = dawn_civil_at(years->year[y].to_s, offset_h).year;
        springs += (size_t)(last - first + 1);
    }
    return springs;
}

static bool inside(const struct dawn_year *year, int64_t t_s)
{
    return t_s >= year->from_s && t_s <= year->to_s;
}

/* The evening before to the noon after a night, where it is not in a spell already. */
static void add_spell(struct size_search *search, int64_t dusk_s, size_t most)
{
    const struct dawn_years *years = search->plan->years;

    for (size_t i = 0; i < search->spells.count; i++) {
        if (inside(&search->spell[i], dusk_s) &&
            inside(&search->spell[i], dusk_s + (int64_t)(0.75 * spell_s))) {
            return;
        }
    }
    for (size_t y = 0; y < years->count && search->spells.count < most; y++) {
        struct dawn_year spell = years->year[y];
        if (!inside(&spell, dusk_s)) {
            continue;
        }
        const int64_t from_s = dusk_s - (int64_t)(0.5 * spell_s);
        const int64_t to_s = dusk_s + (int64_t)spell_s;
        spell.from_s =
            from_s - from_s % 3600 > spell.from_s ? from_s - from_s % 3600 : spell.from_s;
        spell.to_s = to_s - to_s % 3600 < spell.to_s ? to_s - to_s % 3600 : spell.to_s;
        search->spell[search->spells.count++] = spell;
        return;
    }
}

/* The coldest nights of some designs over all the weather decide. */
static void add_spells(struct size_search *search, const struct size_low lows[], size_t designs,
                       size_t most)
{
    for (size_t rank = 0; rank < search->allowed + 2; rank++) {
        for (size_t i = 0; i < designs; i++) {
            const struct size_low *low = &lows[i * DAWN_SIZE_LOWS + rank];
            if (rank < DAWN_SIZE_LOWS && low->dusk_s != 0 && !isnan(low->low_C)) {
                add_spell(search, low->dusk_s, most);
            }
        }
    }
}

/* ---- grid ---- */

static size_t levels_of(const struct dawn_size_lever *lever, size_t wanted)
{
    const size_t all = (size_t)floor((lever->most - lever->least) / lever->step + 1e-9) + 1;

    return all < wanted ? all : wanted;
}

static double level(const struct dawn_size_lever *lever, size_t i, size_t levels)
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
            levels[i] = levels_of(&plan->lever[i], few ? 4 : wanted);
            product *= levels[i];
        }
        if (product <= GRID_MOST) {
            break;
        }
    }
    return product;
}

static void lay_grid(struct size_search *search, struct pool *pool)
{
    const struct dawn_size_plan *plan = search->plan;
    size_t levels[DAWN_SIZE_KINDS];
    const size_t product = share_levels(plan, levels);

    for (size_t n = 0; n < product && pool->count < POOL_MOST / 2; n++) {
        struct dawn_size_design *design = &pool->design[pool->count++];
        size_t rest = n;
        for (size_t i = 0; i < plan->levers; i++) {
            design->value[i] = level(&plan->lever[i], rest % levels[i], levels[i]);
            rest /= levels[i];
        }
        dawn_size_make(design, search);
    }
}

/* ---- choosing ---- */

static bool affordable(const struct size_search *search, const struct dawn_size_design *design)
{
    return !(design->cost.total > search->plan->budget);
}

static bool usable(const struct dawn_size_design *design)
{
    return design->excluded == NULL && !design->failed && !isnan(design->slack_K);
}

/* The cheapest that holds, else count. Of equal cost the one with more slack. */
static size_t cheapest(const struct pool *pool, double margin_K)
{
    size_t best = pool->count;

    for (size_t i = 0; i < pool->count; i++) {
        const struct dawn_size_design *it = &pool->design[i];
        if (!usable(it) || it->slack_K < margin_K) {
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
static size_t nearest(const struct size_search *search, const struct pool *pool, bool paid)
{
    size_t best = pool->count;

    for (size_t i = 0; i < pool->count; i++) {
        const struct dawn_size_design *it = &pool->design[i];
        if (usable(it) && (!paid || affordable(search, it)) &&
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

/* The best of the grid that differ in what is not continuous, one after another. */
static size_t pick_starts(const struct size_search *search, const struct pool *pool,
                          struct dawn_size_design start[POLISHED])
{
    size_t picked = 0;
    bool *used = calloc(pool->count + 1, sizeof *used);

    while (used != NULL && picked < POLISHED) {
        size_t best = pool->count;
        for (size_t i = 0; i < pool->count; i++) {
            const struct dawn_size_design *it = &pool->design[i];
            if (!used[i] && usable(it) && it->slack_K >= 0.0 &&
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

static void add_rounded(struct size_search *search, struct pool *pool,
                        const struct dawn_size_design *design)
{
    if (pool->count >= POOL_MOST) {
        return;
    }
    struct dawn_size_design *it = &pool->design[pool->count++];
    *it = *design;
    for (size_t i = 0; i < search->plan->levers; i++) {
        it->value[i] = dawn_size_round(&search->plan->lever[i], design->value[i]);
    }
    dawn_size_make(it, search);
}

static void work_out(struct size_search *search, struct pool *pool)
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

static bool known(const struct pool *pool, const struct dawn_size_design *design, size_t levers)
{
    for (size_t i = 0; i < pool->count; i++) {
        bool same = true;
        for (size_t k = 0; k < levers; k++) {
            same = same && fabs(pool->design[i].value[k] - design->value[k]) < 1e-9;
        }
        if (same) {
            return true;
        }
    }
    return false;
}

static void add_move(struct size_search *search, struct pool *pool,
                     const struct dawn_size_design *from, size_t down, size_t up, double steps)
{
    const struct dawn_size_plan *plan = search->plan;
    struct dawn_size_design it = *from;

    it.value[down] =
        dawn_size_round(&plan->lever[down], it.value[down] - steps * plan->lever[down].step);
    if (up != down) {
        it.value[up] = dawn_size_round(&plan->lever[up], it.value[up] + plan->lever[up].step);
    }
    if (pool->count >= POOL_MOST || known(pool, &it, plan->levers)) {
        return;
    }
    dawn_size_make(&it, search);
    /* Dearer ones are no step forward. */
    if (it.excluded == NULL && it.cost.total < from->cost.total) {
        pool->design[pool->count++] = it;
    }
}

/* One thing less by a step or four; or that and another more by a step. */
static bool step_down(struct size_search *search, struct pool *pool, size_t best)
{
    const struct dawn_size_design from = pool->design[best];
    const size_t before = pool->count;

    for (size_t down = 0; down < search->plan->levers; down++) {
        add_move(search, pool, &from, down, down, 1.0);
        add_move(search, pool, &from, down, down, 4.0);
        for (size_t up = 0; up < search->plan->levers; up++) {
            if (up != down) {
                add_move(search, pool, &from, down, up, 1.0);
                add_move(search, pool, &from, down, up, 3.0);
            }
        }
    }
    dawn_size_run(search, &pool->design[before], pool->count - before, &search->spells,
                  search->plan->threads, NULL, &(struct dawn_problems){0});
    return pool->count > before;
}

static size_t descend(struct size_search *search, struct pool *pool, double margin_K)
{
    size_t best = cheapest(pool, margin_K);

    for (int round = 0; round < 5 && best < pool->count && !search->stopped; round++) {
        const double cost = pool->design[best].cost.total;
        if (!step_down(search, pool, best)) {
            break;
        }
        best = cheapest(pool, margin_K);
        if (pool->design[best].cost.total >= cost) {
            break;
        }
    }
    return best;
}

/* ---- the proof ---- */

static void prove(struct dawn_size *size, struct size_search *search, struct pool *pool)
{
    struct size_low *lows = calloc(DAWN_SIZE_LOWS, sizeof *lows);
    double margin_K = 0.0;

    for (int round = 0; lows != NULL && round < ROUNDS && !search->stopped; round++) {
        const size_t best = descend(search, pool, margin_K);
        if (best == pool->count) {
            break;
        }
        struct dawn_size_design proof = pool->design[best];
        dawn_size_run(search, &proof, 1, search->plan->years, search->plan->threads, lows,
                      &(struct dawn_problems){0});
        if (search->stopped) {
            break;
        }
        if (!proof.failed && proof.slack_K >= 0.0) {
            size->best = proof;
            size->met = true;
            break;
        }
        /* All the weather is colder to it than its spells were: ask for that much more. */
        size->reach = proof;
        margin_K =
            pool->design[best].slack_K + 0.01 + (proof.failed ? 0.1 : fmax(-proof.slack_K, 0.0));
    }
    free(lows);
}

/* ---- a bit more, a bit less ---- */

static double nudge_of(const struct dawn_size_lever *lever)
{
    const double wide = 0.1 * (lever->most - lever->least);

    return fmax(lever->step, lever->step * round(wide / lever->step));
}

static void try_changes(struct dawn_size *size, struct size_search *search)
{
    const struct dawn_size_plan *plan = search->plan;
    struct dawn_size_design design[DAWN_SIZE_CHANGES];

    for (size_t i = 0; i < plan->levers; i++) {
        for (int side = -1; side <= 1; side += 2) {
            struct dawn_size_design it = size->best;
            it.value[i] =
                dawn_size_round(&plan->lever[i], it.value[i] + side * nudge_of(&plan->lever[i]));
            if (fabs(it.value[i] - size->best.value[i]) < 1e-9) {
                continue;
            }
            dawn_size_make(&it, search);
            size->change[size->changes].lever = i;
            design[size->changes++] = it;
        }
    }
    dawn_size_run(search, design, size->changes, plan->years, plan->threads, NULL,
                  &(struct dawn_problems){0});
    for (size_t i = 0; i < size->changes; i++) {
        size->change[i].design = design[i];
    }
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

static void try_curve(struct dawn_size *size, struct size_search *search)
{
    const struct dawn_size_plan *plan = search->plan;
    const size_t which = curve_lever(plan);
    const struct dawn_size_lever *lever = &plan->lever[which];
    const size_t levels = levels_of(lever, DAWN_SIZE_CURVE);
    const struct dawn_size_design *last = NULL;

    size->curve_lever = which;
    size->curve_count = levels;
    size->knee = NAN;
    for (size_t i = 0; i < levels; i++) {
        size->curve[i] = size->best;
        size->curve[i].value[which] = level(lever, i, levels);
        dawn_size_make(&size->curve[i], search);
    }
    dawn_size_run(search, size->curve, levels, plan->years, plan->threads, NULL,
                  &(struct dawn_problems){0});
    for (size_t i = 0; i < levels; i++) {
        const struct dawn_size_design *it = &size->curve[i];
        if (!usable(it)) {
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

/* ---- what is usually built ---- */

static void add_range(struct dawn_size *size, const char *words, double value, double least,
                      double most, const char *source)
{
    if (value > 0.0 && isfinite(value)) {
        size->range[size->ranges++] = (struct dawn_size_range){words, value, least, most, source};
    }
}

/* Rock for the glazing that faces the sun, air for the floor, water for all glazing. */
static void compare_ranges(struct dawn_size *size, const struct size_search *search,
                           const struct dawn_size_design *design)
{
    const char *set[DAWN_TRIAL_SETS];
    struct dawn_problems unheard = {0};
    struct dawn_fan_work work;
    struct dawn_scenario s;
    double sunny_m2 = 0.0;
    double water_L = 0.0;

    for (size_t i = 0; i < design->trial.sets && i < DAWN_TRIAL_SETS; i++) {
        set[i] = design->trial.set[i];
    }
    if (dawn_scenario_with(&s, search->scenario, set, design->trial.sets, &unheard) == DAWN_OK) {
        for (size_t i = 0; i < s.glazing_count; i++) {
            const double off_deg = fabs(s.glazing[i].azimuth_deg - 180.0);
            const bool sunny = s.site.latitude_deg < 0.0 ? off_deg > 135.0 : off_deg < 45.0;
            sunny_m2 += sunny ? s.glazing[i].area_m2 : 0.0;
        }
        for (size_t i = 0; i < s.barrels_count; i++) {
            water_L += 1e3 * s.barrels[i].count * s.barrels[i].volume_m3 * s.barrels[i].fill_share;
        }
        if (s.rock.present) {
            add_range(size, "rock, m3 for each m2 of glazing to the sun",
                      dawn_scenario_rock_m3(&s) / sunny_m2, 0.25, 0.45, "Mazria 1979, from memory");
        }
        if (s.fan.present && dawn_network_fan_work(&s, &work, &unheard) == DAWN_OK) {
            add_range(size, "air, m3/h for each m2 of floor",
                      3600.0 * work.flow_m3_s / dawn_scenario_floor_m2(&s), 30.0, 75.0,
                      "common practice, no source");
        }
        add_range(size, "water, L for each m2 of glazing", water_L / dawn_cost_glazing_m2(&s), 80.0,
                  120.0, "common practice, no source");
    }
    dawn_scenario_release(&s);
    dawn_problems_release(&unheard);
}

/* ---- the study ---- */

static void search_all(struct dawn_size *size, struct size_search *search, struct pool *pool,
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
        first[1].value[i] = level(&plan->lever[i], 0, 2);
        first[2].value[i] = level(&plan->lever[i], 1, 2);
    }
    dawn_size_make(&first[1], search);
    dawn_size_make(&first[2], search);
    dawn_size_run(search, first, 3, plan->years, plan->threads, lows, problems);
    size->own = first[0];
    size->nights = (double)first[0].nights;
    size->reach = usable(&first[2]) ? first[2] : first[0];
    if (!search->stopped && !size->own.failed) {
        add_spells(search, lows, 3, search->allowed + 2);
        lay_grid(search, pool);
        search->expected = search->finished + pool->count * search->spells.count * 2 + 40;
        dawn_size_run(search, pool->design, pool->count, &search->spells, plan->threads, NULL,
                      &(struct dawn_problems){0});
    }
    if (!search->stopped && cheapest(pool, 0.0) < pool->count) {
        work_out(search, pool);
    }
    if (!search->stopped) {
        prove(size, search, pool);
    }
    free(lows);
}

/* Spells may be colder to a design than all the weather is: so the answer gives up one step after
 * another as long as all the weather lets it. */
static void give_up_steps(struct dawn_size *size, struct size_search *search)
{
    const struct dawn_size_plan *plan = search->plan;

    for (int round = 0; round < 2 * ROUNDS && !search->stopped; round++) {
        struct dawn_size_design less[2 * DAWN_SIZE_KINDS];
        size_t count = 0;
        bool better = false;
        for (size_t k = 0; k < 2 * plan->levers; k++) {
            const size_t i = k / 2;
            const double step = k % 2 == 0 ? nudge_of(&plan->lever[i]) : plan->lever[i].step;
            less[count] = size->best;
            less[count].value[i] = dawn_size_round(&plan->lever[i], size->best.value[i] - step);
            dawn_size_make(&less[count], search);
            count += less[count].excluded == NULL &&
                     less[count].cost.total < size->best.cost.total - 1e-9;
        }
        dawn_size_run(search, less, count, plan->years, plan->threads, NULL,
                      &(struct dawn_problems){0});
        for (size_t i = 0; i < count && !search->stopped; i++) {
            if (usable(&less[i]) && less[i].slack_K >= 0.0 &&
                less[i].cost.total < size->best.cost.total - 1e-9) {
                size->best = less[i];
                better = true;
            }
        }
        if (!better) {
            break;
        }
    }
}

/* No spell let it hold, but all the weather does: then it is an answer after all. */
static void accept_reach(struct dawn_size *size, struct size_search *search)
{
    if (!search->stopped && usable(&size->reach) && size->reach.slack_K >= 0.0 &&
        affordable(search, &size->reach)) {
        size->best = size->reach;
        size->met = true;
        size->over_budget = false;
        give_up_steps(size, search);
    }
}

/* Where the goal is not met, or not for the money: what comes nearest, over all the weather. */
static void settle(struct dawn_size *size, struct size_search *search, struct pool *pool)
{
    if (size->met) {
        give_up_steps(size, search);
    }
    const bool dear = size->met && !affordable(search, &size->best);
    const size_t near_by = nearest(search, pool, !isnan(search->plan->budget));

    size->over_budget = dear;
    if (dear) {
        size->met = false;
    }
    if (!size->met && near_by < pool->count) {
        size->reach = pool->design[near_by];
        dawn_size_run(search, &size->reach, 1, search->plan->years, search->plan->threads, NULL,
                      &(struct dawn_problems){0});
        accept_reach(size, search);
    }
    if (size->met || size->over_budget) {
        try_changes(size, search);
        try_curve(size, search);
    } else {
        size->best = size->reach;
        try_curve(size, search);
    }
    compare_ranges(size, search, &size->best);
}

static enum dawn_status begin(struct dawn_size *size, struct size_search *search,
                              struct dawn_problems *problems)
{
    const struct dawn_size_plan *plan = search->plan;

    *size = (struct dawn_size){.knee = NAN};
    size->springs = springs_of(plan->years, search->scenario);
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
    search->expected = 3 * plan->years->count + GRID_MOST;
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
    struct pool pool = {.design = calloc(POOL_MOST, sizeof *pool.design)};
    search.spell = calloc(DAWN_SIZE_ALLOWED_MOST + 8, sizeof *search.spell);
    search.spells.year = search.spell;
    if (pool.design == NULL || search.spell == NULL) {
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
    return status;
}
