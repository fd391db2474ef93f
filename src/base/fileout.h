/* A file that appears whole or not at all: written beside its place, then renamed. */
#ifndef BASE_FILEOUT_H
#define BASE_FILEOUT_H

#include <stdio.h>

#include "dawnlow/problems.h"

struct dawn_fileout {
    FILE *stream;
    char path[1024], scratch[1056];
};
/* Opens path for writing through a scratch file in the same folder. */
enum dawn_status dawn_fileout_open(struct dawn_fileout *file, const char *path,
                                   struct dawn_problems *problems);
/* Flushes, checks every byte arrived, renames. On failure the scratch file is removed. */
enum dawn_status dawn_fileout_keep(struct dawn_fileout *file, struct dawn_problems *problems);
/* Removes the scratch file; fine after keep and on {0}. */
void dawn_fileout_drop(struct dawn_fileout *file);

#endif
