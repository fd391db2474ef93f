/* dawnlow crops: the table of crops. */
#include <stdio.h>

#include "cli/cmd.h"
#include "cli/study.h"

static const struct dawn_option table[] = {
    DAWN_STUDY_UNITS,
    DAWN_STUDY_FORMATS,
};
static const char *const examples[] = {
    "dawnlow crops",
    " ...",
    " Crop           Harmed below  for h  Chilled below  Grows above  Sprouts from    to",
    " ...",
    " lettuce                -1.0    0.5              -          4.0          15.6  21.1",
    " ...",
    " tomato                  0.0    0.5           10.0         10.0          21.1  26.7",
    " ...",
    "dawnlow crops --units us",
    "dawnlow crops --csv",
    NULL};
const struct dawn_options_command dawn_cmd_crops_options = {
    .name = "crops",
    .operands = "",
    .purpose = "What seedlings bear and want: the table that a scenario's crops without "
               "damage_below are looked up in, and where its figures come from.",
    .examples = examples,
    .operands_least = 0,
    .operands_most = 0,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

enum dawn_status dawn_cmd_crops(int argument_count, const char *const *arguments,
                                struct dawn_problems *problems)
{
    struct dawn_options options;
    const enum dawn_status status =
        dawn_options_parse(&options, &dawn_cmd_crops_options, argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_crops_options);
        return DAWN_OK;
    }
    if (options.json && options.csv) {
        return dawn_study_refuse(problems, NULL, "--json and --csv cannot both be had");
    }
    dawn_report_crops(stdout, dawn_study_format(&options), dawn_study_units(&options));
    return DAWN_OK;
}
