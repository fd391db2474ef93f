/* Where the files are that come with the program. */
#ifndef CLI_SAMPLES_H
#define CLI_SAMPLES_H

#include <stdbool.h>
#include <stddef.h>

/* The invented weather: share/dawnlow beside an installed program's bin, else weather beside the
 * folder the program was built in. False when it is not there. */
bool dawn_samples_weather(char *path, size_t size);

#endif
