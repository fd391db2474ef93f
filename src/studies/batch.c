/* Cases on threads: vary, build, run, find the nights, take. */
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

static enum dawn_status calculate(struct passage *passage)
{
    const struct dawn_batch_case *it = &passage->it;
    struct dawn_problems *problems = &passage->problems;
    enum dawn_status status =
        dawn_network_build(&passage->network, &it->scenario, &it->weather, problems);

    if (status == DAWN_OK) {
        status = dawn_trajectory_run(&passage->run, passage->network, &it->run, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_nights_find(&passage->nights, passage->run, passage->network, &it->scenario,
                                  problems);
    }
    return status;
}

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

static void pass(struct passage *passage)
{
    const struct dawn_batch_plan *plan = passage->batch->plan;

    passage->it = (struct dawn_batch_case){
        .scenario = *plan->scenario, .weather = *plan->weather, .run = plan->run};
    enum dawn_status status =
        plan->vary(passage->index, &passage->it, &passage->problems, plan->user);
    if (status == DAWN_OK) {
        status = calculate(passage);
    }
    passage->outcome = (struct dawn_batch_outcome){
        .status = status, .problems = &passage->problems, .scenario = &passage->it.scenario};
    if (status == DAWN_OK) {
        passage->outcome.nights = &passage->nights;
        passage->outcome.run = passage->run;
        passage->outcome.network = passage->network;
    }
    dawn_parallel_alone(hand_over, passage);
    release(passage);
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

static void one_case(size_t index, void *user)
{
    struct batch *batch = user;

    struct question question = {.batch = batch};

    dawn_parallel_alone(ask, &question);
    if (!question.go_on) {
        return;
    }
    struct passage *passage = calloc(1, sizeof *passage);
    if (passage == NULL) {
        dawn_parallel_alone(note_no_memory, batch);
        return;
    }
    passage->batch = batch;
    passage->index = index;
    pass(passage);
}

enum dawn_status dawn_batch_run(const struct dawn_batch_plan *plan, size_t *done,
                                struct dawn_problems *problems)
{
    struct batch batch = {.plan = plan};

    dawn_parallel_for(plan->cases, plan->threads, one_case, &batch);
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
