/* What can go wrong, and the list in which every reader collects all of it before giving up.
 *
 * Ownership: a struct dawn_problems is zero-initialised by its owner ({0}), filled by the library
 * and emptied with dawn_problems_release. Texts are copied; nothing passed in has to live on. */
#ifndef DAWNLOW_PROBLEMS_H
#define DAWNLOW_PROBLEMS_H

#include <stdbool.h>
#include <stddef.h>

/* One list makes the enum and the texts, so they cannot drift: name, exit status, meaning. */
#define DAWN_STATUS_LIST(X)                                                                        \
    X(DAWN_OK, 0, "done")                                                                          \
    X(DAWN_ERR_USAGE, 2, "the command line cannot be understood")                                  \
    X(DAWN_ERR_SCENARIO, 2, "the scenario cannot be used as it is")                                \
    X(DAWN_ERR_WEATHER, 2, "the weather file cannot be used as it is")                             \
    X(DAWN_ERR_SOLVER, 3, "the calculation found no result")                                       \
    X(DAWN_ERR_IO, 2, "a file cannot be read or written")                                          \
    X(DAWN_ERR_NOMEM, 3, "out of memory")                                                          \
    X(DAWN_ALARM, 10, "a chance is above the one that was to raise an alarm")                      \
    X(DAWN_STOPPED, 130, "stopped before it was finished")

enum dawn_status {
#define DAWN_STATUS_ENUM(name, exit_status, meaning) name,
    DAWN_STATUS_LIST(DAWN_STATUS_ENUM)
#undef DAWN_STATUS_ENUM
};

enum dawn_severity { DAWN_ERROR, DAWN_WARNING, DAWN_NOTE };

struct dawn_problem {
    enum dawn_severity severity;
    int line, column;  /* 1-based; 0 = does not belong to a line (or column) */
    char *file;        /* "" when the problem belongs to no file */
    char *message;     /* what was found, what is expected; lower case, no full stop */
    char *source_line; /* the offending line, for the caret; NULL when there is none */
    char *hint;        /* what to do next; NULL when there is nothing to add */
};

struct dawn_problems {
    struct dawn_problem *items;
    size_t count, errors, warnings;
    size_t capacity;
    bool errors_only; /* who shows the list shows only the errors */
};

/* Where a problem sits; {0} fields mean "unknown". */
struct dawn_place_in_file {
    const char *file;
    int line, column;
    const char *source_line;
};

/* Appends one problem; message is printf-formatted. hint may be NULL. Losing a message for want of
 * memory still counts it in errors/warnings, so a failure is never mistaken for success. */
void dawn_problems_add(struct dawn_problems *problems, enum dawn_severity severity,
                       struct dawn_place_in_file place, const char *hint, const char *message, ...)
    __attribute__((format(printf, 5, 6)));

/* Appends copies of all of another list's problems. */
void dawn_problems_add_all(struct dawn_problems *problems, const struct dawn_problems *more);

/* Stable sort by file order of appearance, then line, then column. */
void dawn_problems_sort(struct dawn_problems *problems);

/* Frees every text and leaves the list empty and ready for use. */
void dawn_problems_release(struct dawn_problems *problems);

/* The exit status (0, 2, 3, 10) and the one-line meaning of a status. Never NULL. */
int dawn_problems_exit_status(enum dawn_status status);
const char *dawn_problems_meaning(enum dawn_status status);

#endif
