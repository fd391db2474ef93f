/* An ensemble: members sorted by shape, queues worked off in as many lanes as the processor has. */
#include <stdlib.h>

#include "network/network_parts.h"
#include "trajectory/ensemble_queue.h"

struct member *dawn_ensemble_queue_next(struct queue *queue, float y[], float rest[],
                                        float numbers[], size_t stride)
{
    while (queue->next < queue->count) {
        struct dawn_ensemble_member *wanted = queue->waiting[queue->next++];
        struct member *member = dawn_ensemble_member_new(wanted, y, rest, stride);
        if (!member)
            continue;
        for (size_t i = 0; i < queue->shape->numbers; ++i)
            numbers[i * stride] = (float)wanted->network->numbers[i];
        return member;
    }
    return NULL;
}

/* ---- lanes by processor ---- */

typedef bool run_function(struct queue *queue);

struct width {
    int lanes;
    run_function *run;
};

/* The widest that the processor can and that is not wider than wanted. */
static struct width width_of(int most)
{
#if defined(__x86_64__)
    if (most >= 16 && __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
        __builtin_cpu_supports("avx512vl") && __builtin_cpu_supports("avx512bw") &&
        __builtin_cpu_supports("avx512cd"))
        return (struct width){16, dawn_ensemble_level4};
    if (most >= 8 && __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma") &&
        __builtin_cpu_supports("bmi2"))
        return (struct width){8, dawn_ensemble_level3};
#endif
    if (most >= 4)
        return (struct width){4, dawn_ensemble_plain};
    return (struct width){1, dawn_ensemble_one};
}

enum { LANES_MOST = 16 };

int dawn_ensemble_lanes(void)
{
    return width_of(LANES_MOST).lanes;
}

/* ---- shapes ---- */

static void fail(struct dawn_ensemble_member *member)
{
    member->status = DAWN_ERR_NOMEM;
    dawn_problems_add(&member->problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                      "out of memory during the calculation");
}

/* Moves the members that share the first one's shape to the front; returns how many they are. */
static size_t alike(struct dawn_ensemble_member *waiting[], size_t count, const struct shape *shape)
{
    size_t same = 0;
    for (size_t i = 0; i < count; ++i) {
        struct dawn_ensemble_member *member = waiting[i];
        if (!dawn_ensemble_shape_fits(shape, member->network))
            continue;
        waiting[i] = waiting[same];
        waiting[same++] = member;
    }
    return same;
}

void dawn_ensemble_run_in(struct dawn_ensemble_member members[], size_t count, int lanes)
{
    struct dawn_ensemble_member **waiting = calloc(
        count + 1, sizeof(struct dawn_ensemble_member *)); /* NOLINT(bugprone-sizeof-expression) */
    struct width width = width_of(lanes);
    for (size_t i = 0; i < count; ++i) {
        members[i].trajectory = NULL;
        if (waiting)
            waiting[i] = &members[i];
        else
            fail(&members[i]);
    }
    for (size_t done = 0; waiting && done < count;) {
        struct shape *shape = dawn_ensemble_shape_new(waiting[done]->network);
        struct queue queue = {.shape = shape, .waiting = waiting + done, .count = 1};
        if (shape)
            queue.count = alike(waiting + done, count - done, shape);
        if (!shape || !width.run(&queue))
            for (size_t i = 0; i < queue.count; ++i)
                fail(queue.waiting[i]);
        done += queue.count;
        dawn_ensemble_shape_free(shape);
    }
    free(waiting);
}

void dawn_ensemble_run(struct dawn_ensemble_member members[], size_t count)
{
    dawn_ensemble_run_in(members, count, LANES_MOST);
}
