/* Cases on threads: vary, build, run, find the nights, take. */
#include "dawnlow/studies/batch.h"

#include <stddef.h>
#include <stdlib.h>

#include "base/parallel.h"

struct batch {
    const struct dawn_batch_plan *plan;
    size_t streams; /* of cases side by side, one a thread */
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
    struct dawn_ensemble_member member; /* while it is in the lanes */
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

/* ---- a case ---- */

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

/* With the light of the days it lives through, when they are told. */
static enum dawn_status build(struct passage *passage)
{
    const struct dawn_batch_case *it = &passage->it;
    const bool all = it->run.from_s == 0 && it->run.to_s == 0;
    const double day_s = 86400.0; /* its past begins at a whole day */
    const double past_s = it->run.spin_up ? it->scenario.start.spin_up_s + day_s : 0.0;

    return all ? dawn_network_build(&passage->network, &it->scenario, &it->weather,
                                    &passage->problems)
               : dawn_network_build_between(&passage->network, &it->scenario, &it->weather,
                                            it->run.from_s - (int64_t)past_s, it->run.to_s,
                                            &passage->problems);
}

/* Varied and built; NULL when no more is to begin. */
static struct passage *begin(struct batch *batch, size_t index)
{
    const struct dawn_batch_plan *plan = batch->plan;
    struct question question = {.batch = batch};

    dawn_parallel_alone(ask, &question);
    struct passage *passage = question.go_on ? calloc(1, sizeof *passage) : NULL;
    if (passage == NULL) {
        if (question.go_on) {
            dawn_parallel_alone(note_no_memory, batch);
        }
        return NULL;
    }
    enum dawn_status *status = &passage->outcome.status;
    passage->batch = batch;
    passage->index = index;
    passage->it = (struct dawn_batch_case){
        .scenario = *plan->scenario, .weather = *plan->weather, .run = plan->run};
    *status = plan->vary(index, &passage->it, &passage->problems, plan->user);
    if (*status == DAWN_OK) {
        *status = build(passage);
    }
    return passage;
}

/* Its nights found, handed over and all of it freed. */
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
    release(passage);
}

static void one_accurately(size_t index, void *user)
{
    struct passage *passage = begin(user, index);

    if (passage == NULL) {
        return;
    }
    if (passage->outcome.status == DAWN_OK) {
        passage->outcome.status = dawn_trajectory_run(&passage->run, passage->network,
                                                      &passage->it.run, &passage->problems);
    }
    end(passage);
}

/* ---- side by side ---- */

/* Every so many-th case, so that costly neighbours are shared out; what comes of a case does not
 * depend on it. */
struct stream {
    struct batch *batch;
    size_t next;
};

static struct dawn_ensemble_member *next_member(void *user)
{
    struct stream *stream = user;

    while (stream->next < stream->batch->plan->cases) {
        struct passage *passage = begin(stream->batch, stream->next);
        if (passage == NULL) {
            return NULL;
        }
        stream->next += stream->batch->streams;
        if (passage->outcome.status == DAWN_OK) {
            passage->member.network = passage->network;
            passage->member.plan = passage->it.run;
            return &passage->member;
        }
        end(passage);
    }
    return NULL;
}

static void member_done(struct dawn_ensemble_member *member, void *user)
{
    struct passage *passage = (struct passage *)((char *)member - offsetof(struct passage, member));

    (void)user;
    passage->outcome.status = member->status;
    passage->run = member->trajectory;
    dawn_problems_add_all(&passage->problems, &member->problems);
    dawn_problems_release(&member->problems);
    end(passage);
}

static void one_stream(size_t at, void *user)
{
    struct batch *batch = user;
    struct stream stream = {.batch = batch, .next = at};
    const struct dawn_ensemble_source source = {.count = (batch->plan->cases + batch->streams - 1) /
                                                         batch->streams,
                                                .next = next_member,
                                                .done = member_done,
                                                .user = &stream};

    dawn_ensemble_run_from(&source);
}

/* ---- the whole ---- */

enum dawn_status dawn_batch_run(const struct dawn_batch_plan *plan, size_t *done,
                                struct dawn_problems *problems)
{
    struct batch batch = {.plan = plan, .streams = plan->threads > 0 ? plan->threads : 1};

    if (plan->run.fast) {
        dawn_parallel_for(batch.streams, plan->threads, one_stream, &batch);
    } else {
        dawn_parallel_for(plan->cases, plan->threads, one_accurately, &batch);
    }
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
