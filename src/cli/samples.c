/* Where the files are that come with the program. */
#include "cli/samples.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* Takes "/bin/dawnlow" off "/usr/bin/dawnlow": the folder above the program's; false when the
 * system does not say where the program is. */
static bool folder_above(char *path, size_t size)
{
    const ssize_t used = readlink("/proc/self/exe", path, size - 1);

    if (used <= 0 || (size_t)used >= size - 1) {
        return false;
    }
    path[used] = '\0';
    for (int i = 0; i < 2; i++) {
        char *slash = strrchr(path, '/');
        if (slash == NULL) {
            return false;
        }
        *slash = '\0';
    }
    return true;
}

bool dawn_samples_weather(char *path, size_t size)
{
    static const char *const places[] = {"/share/dawnlow/weather/alder-hollow-spring.csv",
                                         "/weather/alder-hollow-spring.csv"};
    /* Where a system does not tell programs their place: the usual two. */
    static const char *const folders[] = {"/usr", "/usr/local"};
    char above[4096];
    const bool known = folder_above(above, sizeof above);

    for (size_t i = 0; i < 2; i++) {
        const int used = known ? snprintf(path, size, "%s%s", above, places[i])
                               : snprintf(path, size, "%s%s", folders[i], places[0]);
        if (used > 0 && (size_t)used < size && access(path, R_OK) == 0) {
            return true;
        }
    }
    return false;
}
