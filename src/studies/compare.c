/* Nurseries side by side. */
#include "dawnlow/studies/compare.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "dawnlow/studies/cost.h"

static enum dawn_status no_memory(struct dawn_problems *problems)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                      "out of memory while the nurseries were compared");
    return DAWN_ERR_NOMEM;
}

/* ---- what goes in ---- */

struct listing {
    struct dawn_compare *compare;
    size_t nursery, capacity;
    bool failed;
};

static struct dawn_compare_input *input_named(struct dawn_compare *compare, const char *key)
{
    for (size_t i = 0; i < compare->inputs; i++) {
        if (strcmp(compare->input[i].key, key) == 0) {
            return &compare->input[i];
        }
    }
    return NULL;
}

static struct dawn_compare_input *new_input(struct listing *listing, const char *key)
{
    struct dawn_compare *compare = listing->compare;

    if (compare->inputs == listing->capacity) {
        const size_t capacity = listing->capacity > 0 ? 2 * listing->capacity : 256;
        struct dawn_compare_input *grown =
            realloc(compare->input, capacity * sizeof *compare->input);
        if (grown == NULL) {
            listing->failed = true;
            return NULL;
        }
        compare->input = grown;
        listing->capacity = capacity;
    }
    struct dawn_compare_input *input = &compare->input[compare->inputs++];
    *input = (struct dawn_compare_input){0};
    (void)dawn_text_copy(input->key, sizeof input->key, key);
    return input;
}

static void add_input(const struct dawn_understood *understood, void *user)
{
    struct listing *listing = user;
    struct dawn_compare_input *input = input_named(listing->compare, understood->key);

    if (input == NULL) {
        input = new_input(listing, understood->key);
    }
    if (input != NULL) {
        (void)dawn_text_copy(input->value[listing->nursery], DAWN_COMPARE_TEXT, understood->value);
        input->given = input->given || understood->given;
    }
}

static bool differs(const struct dawn_compare_input *input, size_t count)
{
    bool differs = false;
    bool lacking = false;

    for (size_t i = 0; i < count; i++) {
        differs = differs || strcmp(input->value[i], input->value[0]) != 0;
        lacking = lacking || input->value[i][0] == '\0';
    }
    /* Of a part that one house lacks, its defaults would only fill the page. */
    return differs && (input->given || !lacking);
}

/* A nursery's name tells it apart anyway, and prices are no part of the house. */
static bool counts(const struct dawn_compare_input *input)
{
    return strcmp(input->key, "name") != 0 && strncmp(input->key, "prices.", 7) != 0;
}

static bool list_inputs(struct dawn_compare *compare, const struct dawn_compare_plan *plan)
{
    struct listing listing = {.compare = compare};
    size_t kept = 0;

    for (size_t i = 0; i < plan->count; i++) {
        listing.nursery = i;
        dawn_scenario_understood(plan->nursery[i].scenario, add_input, &listing);
    }
    for (size_t i = 0; i < compare->inputs; i++) {
        if (counts(&compare->input[i]) && differs(&compare->input[i], plan->count)) {
            compare->input[kept++] = compare->input[i];
        }
    }
    compare->inputs = kept;
    return !listing.failed;
}

/* ---- what comes out ---- */

struct runs {
    const struct dawn_compare_plan *plan;
    struct dawn_summary *year; /* [case]; summed up in order, so that the threads never show */
    struct dawn_problems *problems;
    enum dawn_status status;
};

/* Cases are nurseries one after another, each with its years. */
static size_t nursery_of(const struct dawn_compare_plan *plan, size_t index, size_t *year)
{
    size_t nursery = 0;

    while (index >= plan->nursery[nursery].years.count) {
        index -= plan->nursery[nursery].years.count;
        nursery++;
    }
    *year = index;
    return nursery;
}

static enum dawn_status vary(size_t index, struct dawn_batch_case *it,
                             struct dawn_problems *problems, void *user)
{
    const struct runs *runs = user;
    size_t year = 0;
    const struct dawn_compare_nursery *nursery =
        &runs->plan->nursery[nursery_of(runs->plan, index, &year)];

    (void)problems;
    it->scenario = *nursery->scenario;
    it->weather = *nursery->years.year[year].weather;
    it->run.from_s = nursery->years.year[year].from_s;
    it->run.to_s = nursery->years.year[year].to_s;
    return DAWN_OK;
}

static void take(size_t index, const struct dawn_batch_outcome *outcome, void *user)
{
    struct runs *runs = user;

    if (outcome->status != DAWN_OK) {
        runs->status = outcome->status;
        dawn_problems_add_all(runs->problems, outcome->problems);
        return;
    }
    dawn_summary_of(&runs->year[index], outcome->nights, outcome->run, outcome->network);
}

static bool keep_going(size_t done, size_t cases, void *user)
{
    const struct dawn_compare_plan *plan = ((const struct runs *)user)->plan;

    return plan->keep_going == NULL || plan->keep_going(done, cases, plan->user);
}

static void join_years(struct dawn_compare *compare, const struct runs *runs)
{
    const struct dawn_summary *year = runs->year;

    for (size_t i = 0; i < compare->count; i++) {
        dawn_summary_of_years(&compare->sum[i], year, runs->plan->nursery[i].years.count);
        year += runs->plan->nursery[i].years.count;
        if (i == 0 || runs->plan->nursery[i].years.count < compare->years) {
            compare->years = runs->plan->nursery[i].years.count;
        }
    }
}

static enum dawn_status run_all(struct dawn_compare *compare, const struct dawn_compare_plan *plan,
                                struct dawn_problems *problems)
{
    struct runs runs = {.plan = plan, .problems = problems};
    struct dawn_batch_plan batch = {.scenario = plan->nursery[0].scenario,
                                    .weather = plan->nursery[0].years.year[0].weather,
                                    .run = plan->run,
                                    .threads = plan->threads,
                                    .vary = vary,
                                    .take = take,
                                    .keep_going = keep_going,
                                    .user = &runs};
    size_t done = 0;

    for (size_t i = 0; i < plan->count; i++) {
        batch.cases += plan->nursery[i].years.count;
    }
    runs.year = calloc(batch.cases + 1, sizeof *runs.year);
    if (runs.year == NULL) {
        return no_memory(problems);
    }
    enum dawn_status status = dawn_batch_run(&batch, &done, problems);
    compare->stopped = done < batch.cases;
    join_years(compare, &runs);
    free(runs.year);
    return status == DAWN_OK ? runs.status : status;
}

static void add_costs(struct dawn_compare *compare, const struct dawn_compare_plan *plan)
{
    for (size_t i = 0; i < plan->count; i++) {
        const struct dawn_scenario *scenario = plan->nursery[i].scenario;
        const double kWh = compare->sum[i].fan_kWh;
        const double springs = (double)plan->nursery[i].years.count;
        compare->cost[i] = dawn_cost_of(scenario).total;
        compare->running_cost[i] = isnan(kWh) ? 0.0 : dawn_cost_of_running(scenario, kWh / springs);
    }
}

enum dawn_status dawn_compare_find(struct dawn_compare *compare,
                                   const struct dawn_compare_plan *plan,
                                   struct dawn_problems *problems)
{
    *compare = (struct dawn_compare){.count = plan->count};
    if (!list_inputs(compare, plan)) {
        return no_memory(problems);
    }
    const enum dawn_status status = run_all(compare, plan, problems);
    if (status == DAWN_OK) {
        add_costs(compare, plan);
    }
    return status;
}

void dawn_compare_release(struct dawn_compare *compare)
{
    free(compare->input);
    *compare = (struct dawn_compare){0};
}

size_t dawn_compare_warmest(const struct dawn_compare *compare)
{
    size_t best = 0;

    for (size_t i = 1; i < compare->count; i++) {
        if (compare->sum[i].coldest_C > compare->sum[best].coldest_C) {
            best = i;
        }
    }
    return best;
}
