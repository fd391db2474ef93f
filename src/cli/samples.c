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
    char above[4096];

    if (!folder_above(above, sizeof above)) {
        return false;
    }
    for (size_t i = 0; i < 2; i++) {
        const int used = snprintf(path, size, "%s%s", above, places[i]);
        if (used > 0 && (size_t)used < size && access(path, R_OK) == 0) {
            return true;
        }
    }
    return false;
}
