/* An ensemble: members as they come, those of one shape side by side in as many lanes as the
 * processor has. */
#include <stdlib.h>

#include "network/network_parts.h"
#include "trajectory/ensemble_queue.h"

/* ---- members on their way ---- */

/* One more set aside; false when there is no more to come or no more room. */
static bool fetch(struct feed *feed)
{
    if (feed->dry || feed->aside_count == ASIDE_MOST)
        return false;
    struct dawn_ensemble_member *member = feed->source->next(feed->source->user);
    feed->dry = !member;
    if (!member)
        return false;
    member->trajectory = NULL;
    feed->aside[feed->aside_count++] = member;
    return true;
}

static struct dawn_ensemble_member *take_out(struct feed *feed, size_t at)
{
    struct dawn_ensemble_member *member = feed->aside[at];
    --feed->aside_count;
    for (size_t i = at; i < feed->aside_count; ++i)
        feed->aside[i] = feed->aside[i + 1];
    return member;
}

static struct dawn_ensemble_member *fitting(struct feed *feed, const struct shape *shape)
{
    size_t at = 0;
    while (at < feed->aside_count || fetch(feed)) {
        if (dawn_ensemble_shape_fits(shape, feed->aside[at]->network))
            return take_out(feed, at);
        ++at;
    }
    return NULL;
}

struct member *dawn_ensemble_queue_next(struct queue *queue, float y[], float rest[],
                                        float numbers[], size_t stride)
{
    struct dawn_ensemble_member *wanted = NULL;
    while ((wanted = fitting(queue->feed, queue->shape)) != NULL) {
        struct member *member = dawn_ensemble_member_new(wanted, y, rest, stride);
        if (!member) {
            queue->feed->source->done(wanted, queue->feed->source->user);
            continue;
        }
        for (size_t i = 0; i < queue->shape->numbers; ++i)
            numbers[i * stride] = (float)wanted->network->numbers[i];
        return member;
    }
    return NULL;
}

void dawn_ensemble_queue_end(struct queue *queue, struct member *member)
{
    const struct dawn_ensemble_source *source = queue->feed->source;
    source->done(dawn_ensemble_member_end(member), source->user);
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

/* Few members are done sooner in few lanes. */
enum { LANES_MOST = 16, FEW = 8 };

int dawn_ensemble_lanes(void)
{
    return width_of(LANES_MOST).lanes;
}

/* ---- shape by shape ---- */

static void fail(struct feed *feed, struct dawn_ensemble_member *member)
{
    member->status = DAWN_ERR_NOMEM;
    dawn_problems_add(&member->problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                      "out of memory during the calculation");
    feed->source->done(member, feed->source->user);
}

static void run_in(const struct dawn_ensemble_source *source, int lanes)
{
    struct width width = width_of(lanes);
    struct feed feed = {.source = source};
    while (feed.aside_count > 0 || fetch(&feed)) {
        struct shape *shape = dawn_ensemble_shape_new(feed.aside[0]->network);
        struct queue queue = {.shape = shape, .feed = &feed};
        if (!shape || !width.run(&queue))
            fail(&feed, take_out(&feed, 0));
        dawn_ensemble_shape_free(shape);
    }
}

void dawn_ensemble_run_from(const struct dawn_ensemble_source *source)
{
    run_in(source, source->count > FEW ? LANES_MOST : FEW);
}

/* ---- members that are all there ---- */

struct all_there {
    struct dawn_ensemble_member *members;
    size_t count, next;
};

static struct dawn_ensemble_member *next_of_all(void *user)
{
    struct all_there *all = user;
    return all->next < all->count ? &all->members[all->next++] : NULL;
}

static void do_nothing(struct dawn_ensemble_member *member, void *user)
{
    (void)member;
    (void)user;
}

void dawn_ensemble_run_in(struct dawn_ensemble_member members[], size_t count, int lanes)
{
    struct all_there all = {.members = members, .count = count};
    run_in(
        &(struct dawn_ensemble_source){
            .count = count, .next = next_of_all, .done = do_nothing, .user = &all},
        lanes);
}

void dawn_ensemble_run(struct dawn_ensemble_member members[], size_t count)
{
    dawn_ensemble_run_in(members, count, LANES_MOST);
}
