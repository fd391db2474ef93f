/* Tonight's ensemble: first as the house is, then from the moment of each action on with it done.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/civil.h"
#include "dawnlow/studies/batch.h"
#include "dawnlow/studies/score.h"
#include "dawnlow/studies/tonight.h"
#include "studies/actions.h"
#include "studies/members.h"

static const int64_t hour_s = 3600;
static const double day_s = 86400.0;

/* What a member's night came to, one way. */
struct seen {
    bool came;
    double place_C, leaf_C;
    double below_s[DAWN_CROPS_MOST];
    double check_C[DAWN_TONIGHT_CHECKS];
};

/* One way to spend the night: nothing, the scenario's actions, a failed fan. */
struct way {
    const struct dawn_action *action;
    int64_t from_s;
    struct dawn_network *network; /* of the action, for the names of its parts */
    double *start;                /* [member * nodes] of the action */
    size_t nodes;
    struct seen *before, *seen; /* [member] until from_s, and all the night */
};
enum { NOTHING = 0, WAYS = DAWN_ACTIONS_MOST + 2 };

struct study {
    const struct dawn_forecast_plan *plan;
    const struct dawn_scenario *scenario;
    struct dawn_tonight *tonight;
    struct dawn_members members;
    struct dawn_network *network;
    double *start;
    struct way way[WAYS];
    size_t ways, failed; /* failed: the way of the failed fan; ways when there is no fan */
    size_t *acting;      /* the ways run in the second batch */
    size_t acting_count;
    double *sorted;
};

/* ---- what a run shows ---- */

static double low_C(const struct dawn_batch_outcome *outcome, int node, double from_s, double to_s)
{
    return node == DAWN_NO_NODE || from_s >= to_s
               ? INFINITY
               : dawn_trajectory_low(outcome->run, node, from_s, to_s).low_C;
}

/* The part of the night between two moments. */
static struct seen look(const struct study *study, const struct dawn_batch_outcome *outcome,
                        double from_s, double to_s)
{
    const struct dawn_tonight *tonight = study->tonight;
    const int air = dawn_network_air(outcome->network);
    const int place = tonight->at_trays ? dawn_network_trays(outcome->network) : air;
    const int crops = dawn_nights_crop_node(outcome->network, tonight->crop_place);
    struct seen seen = {.came = true,
                        .place_C = low_C(outcome, place, from_s, to_s),
                        .leaf_C =
                            low_C(outcome, dawn_network_leaf(outcome->network), from_s, to_s)};

    for (size_t i = 0; i < study->scenario->crop_count && from_s < to_s; i++) {
        seen.below_s[i] = dawn_trajectory_below_s(outcome->run, crops,
                                                  study->scenario->crops[i].damage_C, from_s, to_s);
    }
    for (size_t i = 0; i < tonight->check_count; i++) {
        const double at_s = (double)tonight->check_s[i];
        seen.check_C[i] = at_s >= from_s && at_s <= to_s
                              ? dawn_trajectory_watched_C(outcome->run, air, at_s)
                              : NAN;
    }
    return seen;
}

static struct seen joined(const struct study *study, const struct seen *before,
                          const struct seen *after)
{
    struct seen all = *after;

    all.came = before->came && after->came;
    all.place_C = fmin(before->place_C, after->place_C);
    all.leaf_C = fmin(before->leaf_C, after->leaf_C);
    for (size_t i = 0; i < study->scenario->crop_count; i++) {
        all.below_s[i] += before->below_s[i];
    }
    for (size_t i = 0; i < study->tonight->check_count; i++) {
        all.check_C[i] = isnan(after->check_C[i]) ? before->check_C[i] : after->check_C[i];
    }
    return all;
}

/* ---- the first batch: as it is, and with a failed fan ---- */

static enum dawn_status vary_as_it_is(size_t index, struct dawn_batch_case *it,
                                      struct dawn_problems *problems, void *user)
{
    const struct study *study = user;
    const size_t members = study->plan->members;

    (void)problems;
    it->run.start = study->start;
    it->run.spin_up = false;
    it->run.fan_allowed = index < members;
    dawn_members_apply(&study->members.member[index % members], &it->scenario, &it->weather);
    return DAWN_OK;
}

/* The house as it stands when an action begins. */
static void hand_on(struct study *study, struct way *way, size_t member,
                    const struct dawn_batch_outcome *outcome)
{
    int64_t at_s = 0;
    const double *y = dawn_trajectory_state_from(outcome->run, (double)way->from_s, &at_s);

    way->before[member] = look(study, outcome, (double)study->tonight->dusk_s, (double)way->from_s);
    dawn_actions_carry_over(outcome->network, y, way->network, way->start + member * way->nodes,
                            way->action);
}

static void take_as_it_is(size_t index, const struct dawn_batch_outcome *outcome, void *user)
{
    struct study *study = user;
    const size_t members = study->plan->members;
    const size_t member = index % members;
    const size_t way = index < members ? (size_t)NOTHING : study->failed;

    if (outcome->status != DAWN_OK) {
        return;
    }
    study->way[way].seen[member] =
        look(study, outcome, (double)study->tonight->dusk_s, (double)study->tonight->until_s);
    for (size_t i = 0; i < study->acting_count && index < members; i++) {
        hand_on(study, &study->way[study->acting[i]], member, outcome);
    }
}

/* ---- the second batch: each action from its moment on ---- */

static double clock_s(const struct study *study, int64_t utc_s)
{
    const struct dawn_civil at = dawn_civil_at(utc_s, study->scenario->site.utc_offset_h);

    return at.hour * 3600.0 + at.minute * 60.0 + at.second;
}

static enum dawn_status vary_acting(size_t index, struct dawn_batch_case *it,
                                    struct dawn_problems *problems, void *user)
{
    const struct study *study = user;
    const size_t members = study->plan->members;
    const struct way *way = &study->way[study->acting[index / members]];
    const size_t member = index % members;

    (void)problems;
    if (!way->before[member].came) {
        return DAWN_ERR_SOLVER;
    }
    dawn_members_apply(&study->members.member[member], &it->scenario, &it->weather);
    dawn_actions_apply(way->action, clock_s(study, way->from_s), &it->scenario);
    it->run.from_s = way->from_s;
    it->run.start = way->start + member * way->nodes;
    it->run.spin_up = false;
    return DAWN_OK;
}

static void take_acting(size_t index, const struct dawn_batch_outcome *outcome, void *user)
{
    struct study *study = user;
    const size_t members = study->plan->members;
    struct way *way = &study->way[study->acting[index / members]];
    const size_t member = index % members;

    if (outcome->status == DAWN_OK) {
        const double from_s = fmax((double)way->from_s, (double)study->tonight->dusk_s);
        const struct seen after = look(study, outcome, from_s, (double)study->tonight->until_s);
        way->seen[member] = joined(study, &way->before[member], &after);
    }
}

static bool keep_going(size_t done, size_t runs, void *user)
{
    const struct study *study = user;

    return study->plan->keep_going == NULL ||
           study->plan->keep_going(done, runs, study->plan->user);
}

static enum dawn_status run_batch(struct study *study, const struct dawn_weather *weather,
                                  bool acting, struct dawn_problems *problems)
{
    const size_t ways =
        acting ? study->acting_count : (study->failed < study->ways ? (size_t)2 : (size_t)1);
    struct dawn_batch_plan batch = {.scenario = study->scenario,
                                    .weather = weather,
                                    .run = study->plan->run,
                                    .cases = ways * study->plan->members,
                                    .threads = study->plan->threads,
                                    .vary = acting ? vary_acting : vary_as_it_is,
                                    .take = acting ? take_acting : take_as_it_is,
                                    .keep_going = keep_going,
                                    .user = study};
    size_t done = 0;

    batch.run.to_s = study->tonight->until_s;
    const enum dawn_status status = dawn_batch_run(&batch, &done, problems);
    study->tonight->stopped = study->tonight->stopped || done < batch.cases;
    return status;
}

/* ---- chances ---- */

/* Only members that came through every way count, so that all ways are judged by the same nights.
 */
static bool counts(const struct study *study, size_t member)
{
    for (size_t w = 0; w < study->ways; w++) {
        if (study->way[w].seen != NULL && !study->way[w].seen[member].came) {
            return false;
        }
    }
    return true;
}

static bool is_harmed(const struct study *study, const struct seen *seen)
{
    bool harmed = study->scenario->crop_count == 0 && seen->place_C < 0.0;

    for (size_t i = 0; i < study->scenario->crop_count; i++) {
        harmed = harmed || seen->below_s[i] > study->scenario->crops[i].damage_after_s;
    }
    return harmed;
}

static double value_of(const struct seen *seen, size_t offset)
{
    double value = 0.0;

    memcpy(&value, (const char *)seen + offset, sizeof value);
    return value;
}

static struct dawn_forecast_range range_of(struct study *study, const struct way *way,
                                           size_t offset)
{
    size_t count = 0;

    for (size_t m = 0; m < study->plan->members; m++) {
        const double value = value_of(&way->seen[m], offset);
        if (counts(study, m) && isfinite(value)) {
            study->sorted[count++] = value;
        }
    }
    if (count == 0) {
        return (struct dawn_forecast_range){NAN, NAN, NAN};
    }
    qsort(study->sorted, count, sizeof *study->sorted, dawn_score_ascending);
    return (struct dawn_forecast_range){dawn_score_quantile(study->sorted, count, 0.1),
                                        dawn_score_quantile(study->sorted, count, 0.5),
                                        dawn_score_quantile(study->sorted, count, 0.9)};
}

static struct dawn_tonight_row judge(struct study *study, const struct way *way)
{
    struct dawn_tonight_row row = {.action = way->action,
                                   .from_s = way->from_s,
                                   .carried = way->seen == NULL,
                                   .place_C = {NAN, NAN, NAN},
                                   .leaf_C = {NAN, NAN, NAN},
                                   .enough = true};

    if (row.carried) {
        return row;
    }
    for (size_t m = 0; m < study->plan->members; m++) {
        if (counts(study, m)) {
            row.harmed += is_harmed(study, &way->seen[m]) ? 1.0 : 0.0;
            row.below_zero += way->seen[m].place_C < 0.0 ? 1.0 : 0.0;
        }
    }
    row.harmed /= (double)study->tonight->members;
    row.below_zero /= (double)study->tonight->members;
    row.enough = row.harmed <= study->tonight->accepted;
    row.place_C = range_of(study, way, offsetof(struct seen, place_C));
    row.leaf_C = range_of(study, way, offsetof(struct seen, leaf_C));
    for (size_t i = 0; i < study->tonight->check_count; i++) {
        const struct dawn_forecast_range check =
            range_of(study, way, offsetof(struct seen, check_C) + i * sizeof(double));
        row.check_tenth_C[i] = check.tenth;
        row.check_middle_C[i] = check.middle;
    }
    return row;
}

static double cost_of(const struct dawn_tonight_row *row)
{
    return row->action != NULL ? row->action->cost : 0.0;
}

static double work_of(const struct dawn_tonight_row *row)
{
    return row->action != NULL ? row->action->work_s : 0.0;
}

/* Less chance first; of equal chances the warmer, then the cheaper. */
static bool goes_before(const struct dawn_tonight_row *a, const struct dawn_tonight_row *b)
{
    if (a->harmed != b->harmed) {
        return a->harmed < b->harmed;
    }
    if (a->carried != b->carried) {
        return a->carried;
    }
    if (!a->carried && a->leaf_C.tenth != b->leaf_C.tenth && isfinite(a->leaf_C.tenth)) {
        return a->leaf_C.tenth > b->leaf_C.tenth;
    }
    return cost_of(a) < cost_of(b);
}

static bool is_less(const struct dawn_tonight_row *a, const struct dawn_tonight_row *b)
{
    return cost_of(a) != cost_of(b) ? cost_of(a) < cost_of(b) : work_of(a) < work_of(b);
}

static void rank(struct dawn_tonight *tonight)
{
    for (size_t i = 1; i < tonight->count; i++) {
        const struct dawn_tonight_row moved = tonight->row[i];
        size_t at = i;
        for (; at > 0 && goes_before(&moved, &tonight->row[at - 1]); at--) {
            tonight->row[at] = tonight->row[at - 1];
        }
        tonight->row[at] = moved;
    }
    tonight->least = tonight->count;
    for (size_t i = 0; i < tonight->count; i++) {
        const struct dawn_tonight_row *row = &tonight->row[i];
        tonight->nothing = row->action == NULL ? i : tonight->nothing;
        if (row->enough &&
            (tonight->least == tonight->count || is_less(row, &tonight->row[tonight->least]))) {
            tonight->least = i;
        }
    }
}

static enum dawn_status judge_all(struct study *study, struct dawn_problems *problems)
{
    struct dawn_tonight *tonight = study->tonight;

    for (size_t m = 0; m < study->plan->members; m++) {
        tonight->members += counts(study, m) ? 1 : 0;
    }
    if (tonight->members * 2 < study->plan->members) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                          "look for extreme values in the scenario and its actions",
                          "%zu of %zu members found no result",
                          study->plan->members - tonight->members, study->plan->members);
        return DAWN_ERR_SOLVER;
    }
    for (size_t w = 0; w < study->ways; w++) {
        if (w == study->failed) {
            const struct dawn_tonight_row row = judge(study, &study->way[w]);
            tonight->failed_harmed = row.harmed;
            tonight->failed_below_zero = row.below_zero;
        } else {
            tonight->row[tonight->count++] = judge(study, &study->way[w]);
        }
    }
    rank(tonight);
    return DAWN_OK;
}

/* ---- the house as forecast: when the night is, and when it is crossed without the fan ---- */

static double line_of(const struct dawn_scenario *scenario)
{
    double line_C = scenario->crop_count == 0 ? 0.0 : -INFINITY;

    for (size_t i = 0; i < scenario->crop_count; i++) {
        line_C = fmax(line_C, scenario->crops[i].damage_C);
    }
    return line_C;
}

static void find_crossing(struct study *study, const struct dawn_trajectory *run)
{
    struct dawn_tonight *tonight = study->tonight;
    const int node = dawn_nights_crop_node(study->network, tonight->crop_place);

    for (int64_t at_s = tonight->from_s; at_s <= tonight->until_s; at_s += 300) {
        if (dawn_trajectory_watched_C(run, node, (double)at_s) < tonight->line_C) {
            tonight->failed_cross_s = (double)at_s;
            return;
        }
    }
}

static void set_checks(struct study *study)
{
    static const int hours[DAWN_TONIGHT_CHECKS] = {22, 1, 4};
    struct dawn_tonight *tonight = study->tonight;
    const double offset_s = study->scenario->site.utc_offset_h * 3600.0;
    const double midnight_s =
        floor(((double)tonight->dawn_s + offset_s) / day_s) * day_s - offset_s;

    for (size_t i = 0; i < DAWN_TONIGHT_CHECKS; i++) {
        const double at_s = midnight_s + (hours[i] - (hours[i] > 12 ? 24 : 0)) * (double)hour_s;
        if (at_s > (double)tonight->from_s + 1.5 * (double)hour_s &&
            at_s > (double)tonight->dusk_s && at_s < (double)tonight->dawn_s) {
            tonight->check_s[tonight->check_count++] = (int64_t)at_s;
        }
    }
}

/* One run with the fan kept off tells both. */
static enum dawn_status find_night(struct study *study, struct dawn_problems *problems)
{
    struct dawn_tonight *tonight = study->tonight;
    struct dawn_trajectory_plan plan = study->plan->run;
    struct dawn_trajectory *run = NULL;
    struct dawn_nights nights = {0};

    plan.start = study->start;
    plan.spin_up = false;
    plan.fan_allowed = false;
    enum dawn_status status = dawn_trajectory_run(&run, study->network, &plan, problems);
    if (status == DAWN_OK) {
        status = dawn_nights_find(&nights, run, study->network, study->scenario, problems);
    }
    if (status == DAWN_OK && nights.count > 0) {
        tonight->dusk_s = nights.night[0].dusk_s;
        tonight->dawn_s = nights.night[0].dawn_s;
        tonight->until_s = nights.night[0].until_s;
        tonight->at_trays = nights.at_trays;
        tonight->crop_place = nights.crop_place;
        set_checks(study);
        if (study->scenario->fan.present) {
            find_crossing(study, run);
        }
    }
    dawn_nights_release(&nights);
    dawn_trajectory_free(run);
    return status;
}

/* ---- ways ---- */

/* When an action is done: at its hour of this evening, at sunset when it names none; never before
 * now, and on a whole hour of the run, whose state is known. */
static int64_t moment_of(const struct study *study, const struct dawn_action *action)
{
    const struct dawn_tonight *tonight = study->tonight;
    const double offset_s = study->scenario->site.utc_offset_h * 3600.0;
    double wanted_s = (double)tonight->dusk_s;

    if (!isnan(action->at_s)) {
        const double midnight_s =
            floor(((double)tonight->dusk_s + offset_s) / day_s) * day_s - offset_s;
        wanted_s = midnight_s + action->at_s + (action->at_s < day_s / 2.0 ? day_s : 0.0);
    }
    const double hours = ceil((wanted_s - (double)tonight->from_s) / (double)hour_s);
    return tonight->from_s + (int64_t)fmax(hours, 0.0) * hour_s;
}

static bool reserve_way(struct study *study, struct way *way)
{
    const size_t members = study->plan->members;

    way->seen = calloc(members, sizeof *way->seen);
    if (way->network != NULL) {
        way->nodes = dawn_network_node_count(way->network);
        way->before = calloc(members, sizeof *way->before);
        way->start = calloc(members * way->nodes, sizeof *way->start);
        return way->seen != NULL && way->before != NULL && way->start != NULL;
    }
    /* The ways are released together when the study ends. */
    return way->seen != NULL; /* NOLINT(clang-analyzer-unix.Malloc) */
}

static enum dawn_status plan_action(struct study *study, const struct dawn_action *action,
                                    const struct dawn_weather *weather,
                                    struct dawn_problems *problems)
{
    struct dawn_scenario changed = *study->scenario;
    struct way *way = &study->way[study->ways++];
    enum dawn_status status = DAWN_OK;

    *way = (struct way){.action = action, .from_s = moment_of(study, action)};
    if (action->carry_in) {
        return DAWN_OK;
    }
    dawn_actions_apply(action, clock_s(study, way->from_s), &changed);
    status = dawn_network_build(&way->network, &changed, weather, problems);
    study->acting[study->acting_count++] = study->ways - 1;
    return status == DAWN_OK && !reserve_way(study, way) ? DAWN_ERR_NOMEM : status;
}

static enum dawn_status plan_ways(struct study *study, const struct dawn_weather *weather,
                                  struct dawn_problems *problems)
{
    enum dawn_status status = DAWN_OK;

    study->acting = calloc(WAYS, sizeof *study->acting);
    study->sorted = calloc(study->plan->members, sizeof *study->sorted);
    study->ways = 1;
    study->way[NOTHING] = (struct way){.from_s = study->tonight->from_s};
    if (study->acting == NULL || study->sorted == NULL ||
        !reserve_way(study, &study->way[NOTHING]) ||
        !dawn_members_draw(&study->members, study->plan->members, study->plan->seed,
                           study->scenario, weather, study->plan->run.from_s)) {
        return DAWN_ERR_NOMEM;
    }
    for (size_t i = 0; i < study->scenario->action_count && status == DAWN_OK; i++) {
        status = plan_action(study, &study->scenario->actions[i], weather, problems);
    }
    study->failed = WAYS;
    if (status == DAWN_OK && study->scenario->fan.present) {
        study->failed = study->ways++;
        status = reserve_way(study, &study->way[study->failed]) ? DAWN_OK : DAWN_ERR_NOMEM;
    }
    return status;
}

static enum dawn_status run_ways(struct study *study, const struct dawn_weather *weather,
                                 struct dawn_problems *problems)
{
    enum dawn_status status = plan_ways(study, weather, problems);

    if (status == DAWN_OK) {
        status = run_batch(study, weather, false, problems);
    }
    if (status == DAWN_OK && study->acting_count > 0) {
        status = run_batch(study, weather, true, problems);
    }
    if (status == DAWN_OK && !study->tonight->stopped) {
        status = judge_all(study, problems);
    }
    return status;
}

static void release(struct study *study)
{
    for (size_t w = 0; w < study->ways; w++) {
        dawn_network_free(study->way[w].network);
        free(study->way[w].start);
        free(study->way[w].before);
        free(study->way[w].seen);
    }
    dawn_members_release(&study->members);
    dawn_network_free(study->network);
    free(study->start);
    free(study->acting);
    free(study->sorted);
}

enum dawn_status dawn_tonight_find(struct dawn_tonight *tonight,
                                   const struct dawn_scenario *scenario,
                                   const struct dawn_weather *weather,
                                   const struct dawn_forecast_plan *plan,
                                   struct dawn_problems *problems)
{
    struct study study = {.plan = plan, .scenario = scenario, .tonight = tonight};
    enum dawn_status status = DAWN_OK;

    *tonight = (struct dawn_tonight){.from_s = plan->run.from_s,
                                     .accepted = scenario->forecast.accepted_risk,
                                     .crop_count = scenario->crop_count,
                                     .failed_harmed = NAN,
                                     .failed_below_zero = NAN,
                                     .failed_cross_s = NAN,
                                     .line_C = line_of(scenario)};
    study.start = dawn_forecast_present(scenario, weather, plan, &status, problems);
    if (status == DAWN_OK) {
        status = dawn_network_build(&study.network, scenario, weather, problems);
    }
    if (status == DAWN_OK) {
        status = find_night(&study, problems);
    }
    if (status == DAWN_OK && tonight->dusk_s != 0) {
        status = run_ways(&study, weather, problems);
    }
    if (status == DAWN_ERR_NOMEM) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                          "ask for fewer members", "out of memory for tonight's members");
    }
    release(&study);
    return status;
}
