/* Cases on threads, a group at a time: vary, build, run, find the nights, take. */
#include "dawnlow/studies/batch.h"

#include <stdlib.h>

#include "base/parallel.h"

struct batch {
    const struct dawn_batch_plan *plan;
    size_t done;
    bool stopped, no_memory;
};

/* A case on its way through. */
struct passage {
    struct batch *batch;
    size_t index;
    struct dawn_batch_case it;
    struct dawn_problems problems;
    struct dawn_network *network;
    struct dawn_trajectory *run;
    struct dawn_nights nights;
    struct dawn_batch_outcome outcome;
};

static void hand_over(void *user)
{
    struct passage *passage = user;
    const struct dawn_batch_plan *plan = passage->batch->plan;

    plan->take(passage->index, &passage->outcome, plan->user);
    passage->batch->done++;
}

static void release(struct passage *passage)
{
    dawn_nights_release(&passage->nights);
    dawn_trajectory_free(passage->run);
    dawn_network_free(passage->network);
    if (passage->it.own_scenario) {
        dawn_scenario_release(&passage->it.scenario);
    }
    dawn_problems_release(&passage->problems);
    free(passage);
}

/* ---- a group of cases ---- */

/* So many share the lanes of a processor; each holds its weather's light, so not many more. */
enum { GROUP_MOST = 16 };

static void begin(struct passage *passage)
{
    const struct dawn_batch_plan *plan = passage->batch->plan;
    enum dawn_status *status = &passage->outcome.status;

    passage->it = (struct dawn_batch_case){
        .scenario = *plan->scenario, .weather = *plan->weather, .run = plan->run};
    *status = plan->vary(passage->index, &passage->it, &passage->problems, plan->user);
    if (*status == DAWN_OK) {
        *status = dawn_network_build(&passage->network, &passage->it.scenario, &passage->it.weather,
                                     &passage->problems);
    }
}

static void run_accurately(struct passage *passage)
{
    if (passage->outcome.status == DAWN_OK) {
        passage->outcome.status = dawn_trajectory_run(&passage->run, passage->network,
                                                      &passage->it.run, &passage->problems);
    }
}

static void run_side_by_side(struct passage *const passages[], size_t count)
{
    struct dawn_ensemble_member member[GROUP_MOST] = {{0}};
    struct passage *of[GROUP_MOST];
    size_t members = 0;

    for (size_t i = 0; i < count; i++) {
        if (passages[i]->outcome.status == DAWN_OK) {
            member[members].network = passages[i]->network;
            member[members].plan = passages[i]->it.run;
            of[members++] = passages[i];
        }
    }
    dawn_ensemble_run(member, members);
    for (size_t i = 0; i < members; i++) {
        of[i]->outcome.status = member[i].status;
        of[i]->run = member[i].trajectory;
        dawn_problems_add_all(&of[i]->problems, &member[i].problems);
        dawn_problems_release(&member[i].problems);
    }
}

static void end(struct passage *passage)
{
    struct dawn_batch_outcome *outcome = &passage->outcome;

    if (outcome->status == DAWN_OK) {
        outcome->status = dawn_nights_find(&passage->nights, passage->run, passage->network,
                                           &passage->it.scenario, &passage->problems);
    }
    outcome->problems = &passage->problems;
    outcome->scenario = &passage->it.scenario;
    if (outcome->status == DAWN_OK) {
        outcome->nights = &passage->nights;
        outcome->run = passage->run;
        outcome->network = passage->network;
    }
    dawn_parallel_alone(hand_over, passage);
}

static void pass(struct passage *const passages[], size_t count, bool fast)
{
    for (size_t i = 0; i < count; i++) {
        begin(passages[i]);
    }
    if (fast) {
        run_side_by_side(passages, count);
    }
    for (size_t i = 0; i < count; i++) {
        if (!fast) {
            run_accurately(passages[i]);
        }
        end(passages[i]);
    }
}

struct question {
    struct batch *batch;
    bool go_on;
};

static void ask(void *user)
{
    struct question *question = user;
    struct batch *batch = question->batch;
    const struct dawn_batch_plan *plan = batch->plan;

    if (!batch->stopped && plan->keep_going != NULL) {
        batch->stopped = !plan->keep_going(batch->done, plan->cases, plan->user);
    }
    question->go_on = !batch->stopped;
}

static void note_no_memory(void *user)
{
    struct batch *batch = user;

    batch->no_memory = batch->stopped = true;
}

/* How many cases go together: alone when each has its own solver; else as many as the lanes use,
 * but so that every thread has some. What comes of a case does not depend on it. */
static size_t group_size(const struct dawn_batch_plan *plan)
{
    const size_t threads = plan->threads > 0 ? plan->threads : 1;
    const size_t each = (plan->cases + threads - 1) / threads;

    if (!plan->run.fast || each < 1) {
        return 1;
    }
    return each < GROUP_MOST ? each : GROUP_MOST;
}

static void one_group(size_t group, void *user)
{
    struct batch *batch = user;
    const size_t size = group_size(batch->plan);
    struct passage *passages[GROUP_MOST] = {NULL};
    size_t count = 0;
    struct question question = {.batch = batch};

    dawn_parallel_alone(ask, &question);
    if (!question.go_on) {
        return;
    }
    for (size_t i = group * size; i < (group + 1) * size && i < batch->plan->cases; i++) {
        passages[count] = calloc(1, sizeof *passages[count]);
        if (passages[count] == NULL) {
            dawn_parallel_alone(note_no_memory, batch);
            break;
        }
        passages[count]->batch = batch;
        passages[count++]->index = i;
    }
    pass(passages, count, batch->plan->run.fast);
    for (size_t i = 0; i < count; i++) {
        release(passages[i]);
    }
}

enum dawn_status dawn_batch_run(const struct dawn_batch_plan *plan, size_t *done,
                                struct dawn_problems *problems)
{
    struct batch batch = {.plan = plan};
    const size_t size = group_size(plan);

    dawn_parallel_for((plan->cases + size - 1) / size, plan->threads, one_group, &batch);
    if (done != NULL) {
        *done = batch.done;
    }
    if (batch.no_memory) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                          "out of memory while many nurseries were run");
        return DAWN_ERR_NOMEM;
    }
    return DAWN_OK;
}
