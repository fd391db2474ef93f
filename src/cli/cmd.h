/* The commands: one file each. Arguments are those behind the command's name. */
#ifndef CLI_CMD_H
#define CLI_CMD_H

#include <stddef.h>

#include "cli/options.h"
#include "dawnlow/problems.h"

typedef enum dawn_status dawn_cmd_run(int argument_count, const char *const *arguments,
                                      struct dawn_problems *problems);

struct dawn_cmd {
    const char *name;
    dawn_cmd_run *run;
    const char *help; /* one line */
    /* What it can be told; help, manual and completion read it too. */
    const struct dawn_options_command *options;
};
/* The table in main.c; ends with a NULL name. */
extern const struct dawn_cmd dawn_main_commands[];

/* Each has its run and its options: dawn_cmd_NAME and dawn_cmd_NAME_options in cmd_NAME.c. */
#define DAWN_CMD_LIST(X)                                                                           \
    X(nights)                                                                                      \
    X(weather)                                                                                     \
    X(check)                                                                                       \
    X(show)                                                                                        \
    X(new)                                                                                         \
    X(network)                                                                                     \
    X(explain)                                                                                     \
    X(fan)                                                                                         \
    X(forecast)                                                                                    \
    X(tonight)                                                                                     \
    X(offset)                                                                                      \
    X(crops)                                                                                       \
    X(effects)                                                                                     \
    X(plot)                                                                                        \
    X(compare)                                                                                     \
    X(size)                                                                                        \
    X(setpoint)                                                                                    \
    X(worth)                                                                                       \
    X(sweep)                                                                                       \
    X(gather)                                                                                      \
    X(manual)                                                                                      \
    X(completion)                                                                                  \
    X(help)
#define DAWN_CMD_DECLARE(name)                                                                     \
    dawn_cmd_run dawn_cmd_##name;                                                                  \
    extern const struct dawn_options_command dawn_cmd_##name##_options;
DAWN_CMD_LIST(DAWN_CMD_DECLARE)
#undef DAWN_CMD_DECLARE
dawn_cmd_run dawn_cmd_version;

/* The command with this name; NULL and a problem with the nearest name when there is none. */
const struct dawn_cmd *dawn_cmd_named(const char *name, struct dawn_problems *problems);

#endif
