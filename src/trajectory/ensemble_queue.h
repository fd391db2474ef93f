/* Where lanes get members of one shape from and give them back. */
#ifndef ENSEMBLE_QUEUE_H
#define ENSEMBLE_QUEUE_H

#include "trajectory/ensemble_member.h"
#include "trajectory/ensemble_shape.h"

/* What members come from. Those that do not fit the shape at work wait for the next; not many may,
 * for each holds the light of all its weather. */
enum { ASIDE_MOST = 8 };
struct feed {
    const struct dawn_ensemble_source *source;
    struct dawn_ensemble_member *aside[ASIDE_MOST];
    size_t aside_count;
    bool dry;
};
struct queue {
    const struct shape *shape;
    struct feed *feed;
};

/* The next member that can begin, its state and the numbers of its laws laid into a lane; NULL when
 * no more is to come. */
struct member *dawn_ensemble_queue_next(struct queue *queue, float y[], float rest[],
                                        float numbers[], size_t stride);

/* One has ended, however it did. */
void dawn_ensemble_queue_end(struct queue *queue, struct member *member);

/* Runs all that come, one compilation for each width and processor (ensemble_lanes.h). False when
 * memory ran out before any began. */
bool dawn_ensemble_one(struct queue *queue);    /* one lane, plain C */
bool dawn_ensemble_plain(struct queue *queue);  /* four lanes, any processor */
bool dawn_ensemble_level3(struct queue *queue); /* eight lanes, x86-64-v3 */
bool dawn_ensemble_level4(struct queue *queue); /* sixteen lanes, x86-64-v4 */

#endif
