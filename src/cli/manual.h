/* The manual pages that list commands, options, keys, columns: written from the program's own
 * tables. The tutorial lists none of them and is a file, man/dawnlow-tutorial.7. */
#ifndef CLI_MANUAL_H
#define CLI_MANUAL_H

#include <stddef.h>

struct dawn_manual {
    const char *name;
    int section;
    void (*put)(void); /* writes the page, in mdoc, to standard output */
};
const struct dawn_manual *dawn_manual_pages(size_t *count);

/* One file each. */
void dawn_manual_program(void);
void dawn_manual_scenario(void);
void dawn_manual_weather(void);

#endif
