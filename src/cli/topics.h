/* dawnlow help TOPIC: short pages about what no single command tells. */
#ifndef CLI_TOPICS_H
#define CLI_TOPICS_H

#include <stddef.h>

struct dawn_topic {
    const char *name;
    const char *help;  /* one line */
    void (*put)(void); /* writes the page to standard output, 80 columns */
};
const struct dawn_topic *dawn_topics(size_t *count);

#endif
