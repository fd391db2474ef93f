/* Feeds every file of some folders to a fuzz target once: the kept inputs stay harmless, without
 * libFuzzer and its compiler. Usage: replay_NAME FOLDER... ; no input at all is a failure. */
#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "fuzz/fuzz_target.h"

/* The input in a block of exactly its size, so that reading past its end is seen. */
static bool replay_file(const char *path, size_t size)
{
    FILE *file = fopen(path, "rb");
    uint8_t *data = malloc(size ? size : 1);
    bool whole = file && data && fread(data, 1, size, file) == size;
    if (whole) {
        (void)LLVMFuzzerTestOneInput(data, size);
    } else {
        fprintf(stderr, "%s: cannot be read\n", path);
    }
    free(data);
    if (file) {
        (void)fclose(file);
    }
    return whole;
}

/* Returns how many inputs were fed; -1 on trouble. */
static int replay_folder(const char *folder)
{
    DIR *dir = opendir(folder);
    if (!dir) {
        fprintf(stderr, "%s: no such folder of inputs\n", folder);
        return -1;
    }
    int fed = 0;
    const struct dirent *entry;
    while (fed >= 0 && (entry = readdir(dir)) != NULL) {
        char path[4096];
        struct stat about;
        int length = snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        if (length < 0 || (size_t)length >= sizeof path || stat(path, &about) != 0) {
            fed = -1;
        } else if (S_ISREG(about.st_mode)) {
            printf("%s\n", path);
            (void)fflush(stdout); /* the last line names the input that crashed */
            fed = replay_file(path, (size_t)about.st_size) ? fed + 1 : -1;
        }
    }
    (void)closedir(dir);
    return fed;
}

int main(int argc, char **argv)
{
    int total = 0;
    for (int i = 1; i < argc; i++) {
        int fed = replay_folder(argv[i]);
        if (fed < 0) {
            return 1;
        }
        total += fed;
    }
    printf("%d inputs\n", total);
    return total > 0 ? 0 : 1;
}
