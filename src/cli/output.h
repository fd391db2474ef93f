/* Where results go: standard output or a file that appears whole or not at all. */
#ifndef CLI_OUTPUT_H
#define CLI_OUTPUT_H

#include <stdbool.h>
#include <stdio.h>

#include "base/fileout.h"

struct dawn_output {
    FILE *stream; /* write here */
    struct dawn_fileout file;
    bool to_file;
};

/* path NULL = standard output. */
enum dawn_status dawn_output_open(struct dawn_output *output, const char *path,
                                  struct dawn_problems *problems);
/* Whether every byte so far arrived; a problem says why not. */
enum dawn_status dawn_output_arrived(struct dawn_output *output, struct dawn_problems *problems);
/* Makes the file appear; nothing to do on standard output. */
enum dawn_status dawn_output_keep(struct dawn_output *output, struct dawn_problems *problems);
/* Lets go of what was not kept; fine on {0} and after keep. */
void dawn_output_drop(struct dawn_output *output);

/* Whether two names lead to one file, or writing the one would pass through the other. NULL leads
 * nowhere. The files need not exist. */
bool dawn_output_same(const char *a, const char *b);

#endif
