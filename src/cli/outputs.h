/* The files one command writes: all of them appear, or none. */
#ifndef CLI_OUTPUTS_H
#define CLI_OUTPUTS_H

#include "cli/output.h"

enum { DAWN_OUTPUTS_MOST = 4 };

/* {0} to start. */
struct dawn_outputs {
    struct dawn_output item[DAWN_OUTPUTS_MOST];
    size_t count;
};
/* One more; path NULL = standard output. NULL with a problem when it cannot be opened. */
FILE *dawn_outputs_open(struct dawn_outputs *outputs, const char *path,
                        struct dawn_problems *problems);
/* Makes the files appear in the order they were opened, if all of all of them arrived. */
enum dawn_status dawn_outputs_keep(struct dawn_outputs *outputs, struct dawn_problems *problems);
/* Lets go of what was not kept. */
void dawn_outputs_drop(struct dawn_outputs *outputs);

/* A file to be written, and the option that named it; path NULL = not asked for. */
struct dawn_outputs_wish {
    const char *option, *path;
};
/* DAWN_ERR_USAGE with a problem when two wishes are one file, or writing one would go over a file
 * that is read (NULL = none): that would cost the grower the scenario or the weather. */
enum dawn_status dawn_outputs_apart(const struct dawn_outputs_wish *wish, size_t count,
                                    struct dawn_problems *problems);
enum dawn_status dawn_outputs_spare(const struct dawn_outputs_wish *wish, size_t count,
                                    const char *const *read, size_t read_count,
                                    struct dawn_problems *problems);

#endif
