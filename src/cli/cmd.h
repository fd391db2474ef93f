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

dawn_cmd_run dawn_cmd_nights, dawn_cmd_weather, dawn_cmd_check, dawn_cmd_network, dawn_cmd_explain,
    dawn_cmd_fan, dawn_cmd_effects, dawn_cmd_help, dawn_cmd_version, dawn_cmd_show, dawn_cmd_new;
extern const struct dawn_options_command dawn_cmd_nights_options, dawn_cmd_weather_options,
    dawn_cmd_check_options, dawn_cmd_network_options, dawn_cmd_explain_options,
    dawn_cmd_fan_options, dawn_cmd_effects_options, dawn_cmd_help_options, dawn_cmd_show_options,
    dawn_cmd_new_options;

/* The command with this name; NULL and a problem with the nearest name when there is none. */
const struct dawn_cmd *dawn_cmd_named(const char *name, struct dawn_problems *problems);

#endif
