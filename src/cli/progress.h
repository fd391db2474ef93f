/* A line on the terminal that says how far a long study is. */
#ifndef CLI_PROGRESS_H
#define CLI_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>
#include <time.h>

enum { DAWN_PROGRESS_ROOM = 96 };

/* {0} is one that never shows anything. */
struct dawn_progress {
    const char *what; /* what is counted: "run", "winter" */
    bool watched;
    struct timespec began, last;
    size_t shown; /* characters of the line that stands there */
};

/* Watched by a person only where standard error is a terminal, and not when quiet. From here to
 * dawn_progress_end Ctrl-C asks the study to end instead of ending the program. */
void dawn_progress_begin(struct dawn_progress *progress, const char *what, bool quiet);
/* Whether Ctrl-C was pressed since dawn_progress_begin. */
bool dawn_progress_stopped(void);
/* How many are done; progress is a struct dawn_progress. Says nothing in the first second, then at
 * most five times a second. False once Ctrl-C was pressed: it is made to be a study's keep_going.
 */
bool dawn_progress_step(size_t done, size_t all, void *progress);
/* Takes the line away again. */
void dawn_progress_end(struct dawn_progress *progress);

/* "run 3 of 40, 2 min left": what is being done after `done` of them took elapsed_s. Without the
 * time while none is done. Returns out. */
const char *dawn_progress_words(const char *what, size_t done, size_t all, double elapsed_s,
                                char out[DAWN_PROGRESS_ROOM]);

#endif
