/* dawnlow manual: its manual pages, in mdoc, written from its own tables. */
#include <stdio.h>
#include <string.h>

#include "cli/cmd.h"
#include "cli/manual.h"

static const char *const examples[] = {"dawnlow manual dawnlow-scenario | man -l -", NULL};
const struct dawn_options_command dawn_cmd_manual_options = {
    .name = "manual",
    .operands = "[PAGE]",
    .purpose = "Writes a manual page in mdoc, as man reads it: dawnlow, dawnlow-scenario or "
               "dawnlow-weather; without PAGE it lists them. make install puts all of them in "
               "place.",
    .examples = examples,
    .operands_most = 1,
};

enum dawn_status dawn_cmd_manual(int argument_count, const char *const *arguments,
                                 struct dawn_problems *problems)
{
    struct dawn_options options;
    size_t count = 0;
    const struct dawn_manual *pages = dawn_manual_pages(&count);
    const enum dawn_status status =
        dawn_options_parse(&options, &dawn_cmd_manual_options, argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_manual_options);
        return DAWN_OK;
    }
    for (size_t i = 0; i < count; i++) {
        if (options.operand_count == 0) {
            printf("%s.%d\n", pages[i].name, pages[i].section);
        } else if (strcmp(pages[i].name, options.operand[0]) == 0) {
            pages[i].put();
            return DAWN_OK;
        }
    }
    if (options.operand_count == 0) {
        return DAWN_OK;
    }
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                      "dawnlow manual lists them", "there is no manual page '%s'",
                      options.operand[0]);
    return DAWN_ERR_USAGE;
}
