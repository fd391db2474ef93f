/* dawnlow network: the house as parts that hold heat and ways it takes. */
#include <stdio.h>

#include "cli/cmd.h"
#include "cli/inputs.h"
#include "cli/window.h"
#include "dawnlow/network.h"
#include "dawnlow/report.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_option table[] = {
    {.group = "What it is built from",
     .name = "weather",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(weather),
     .help = "hourly weather; the scenario's own when left out"},
    {.name = "set",
     .argument = "KEY=VALUE",
     .kind = DAWN_OPTIONS_SET,
     .help = "lay a value over the scenario, as in \"fan.on_at=24 C\"; again and again if need be"},
    {.name = "no-fan",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(no_fan),
     .help = "the house without its fan"},
    {.group = "What is shown",
     .name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "every number the calculation uses, as JSON"},
    {.name = "from",
     .argument = "DATE",
     .kind = DAWN_OPTIONS_DATE,
     .offset = AT(from),
     .help = "weather from noon of this day (YYYY-MM-DD or MM-DD)"},
    {.name = "to",
     .argument = "DATE",
     .kind = DAWN_OPTIONS_DATE,
     .offset = AT(to),
     .help = "weather to noon of this day"},
};
static const char *const examples[] = {
    "dawnlow network nursery.yaml --weather march.csv",
    "dawnlow network nursery.yaml --json --from 03-01 --to 03-08", NULL};
static const struct dawn_options_command command = {
    .name = "network",
    .operands = "SCENARIO",
    .purpose = "The house as it is calculated: the parts that hold heat, how much, and the ways "
               "heat takes between them.",
    .examples = examples,
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

static enum dawn_status show(struct dawn_inputs *inputs, const struct dawn_options *options,
                             struct dawn_problems *problems)
{
    struct dawn_network *network = NULL;
    struct dawn_window window = {0};
    enum dawn_status status =
        dawn_network_build(&network, &inputs->scenario, &inputs->weather, problems);

    if (status == DAWN_OK) {
        const struct dawn_window covered = dawn_window_covered(network, &inputs->weather);
        status = dawn_window_find(&window, options->from, options->to, covered,
                                  inputs->scenario.site.utc_offset_h, problems);
    }
    if (status == DAWN_OK) {
        dawn_report_network(stdout, options->json ? DAWN_JSON : DAWN_TEXT, network, window.from_s,
                            window.to_s);
    }
    dawn_network_free(network);
    return status;
}

enum dawn_status dawn_cmd_network(int argument_count, const char *const *arguments,
                                  struct dawn_problems *problems)
{
    struct dawn_options options;
    struct dawn_inputs inputs = {0};
    enum dawn_status status =
        dawn_options_parse(&options, &command, argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &command);
        return DAWN_OK;
    }
    status = dawn_inputs_scenario(&inputs, &options, problems);
    if (status == DAWN_OK) {
        status = dawn_inputs_weather(&inputs, problems);
    }
    if (status == DAWN_OK) {
        inputs.scenario.fan.present = inputs.scenario.fan.present && !options.no_fan;
        status = show(&inputs, &options, problems);
    }
    dawn_inputs_release(&inputs);
    return status;
}
