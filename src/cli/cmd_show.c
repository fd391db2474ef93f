/* dawnlow show: the house as it was understood, and what it comes to before any weather. */
#include <stdio.h>

#include "cli/cmd.h"
#include "cli/inputs.h"
#include "cli/terminal.h"
#include "dawnlow/report.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_option table[] = {
    {.group = "What is looked at",
     .name = "set",
     .argument = "KEY=VALUE",
     .kind = DAWN_OPTIONS_SET,
     .help = "lay a value over the scenario, as in \"rock.mass=12 t\"; again and again if need be"},
    {.group = "What is shown",
     .name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "figures and values as JSON, metric"},
    {.name = "units",
     .argument = "metric|us",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(units),
     .words = "metric|us",
     .help = "units of the figures; metric when left out"},
};
static const char *const examples[] = {"dawnlow show nursery.yaml",
                                       " ...",
                                       " Heat lost, calm dull night  W/K  share",
                                       "   glazing                   253   79 %",
                                       "   leaks                      34   10 %",
                                       " ...",
                                       " Heat stored  kWh/K  share",
                                       "   rock        2.28   39 %",
                                       "   barrels     0.89   15 %",
                                       " ...",

                                       "dawnlow show nursery.yaml --units us",
                                       "dawnlow show nursery.yaml --set \"rock.mass=12 t\"",
                                       NULL};
const struct dawn_options_command dawn_cmd_show_options = {
    .name = "show",
    .operands = "SCENARIO",
    .purpose =
        "What a scenario comes to before any weather: a sketch across the house, glazed area, heat "
        "lost and stored for each degree, the weight of rock and barrels on the ground; then every "
        "value, and whether it is yours or a default. Needs no weather.",
    .examples = examples,
    .notes = "dawnlow check looks for mistakes and at the weather too.",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

enum dawn_status dawn_cmd_show(int argument_count, const char *const *arguments,
                               struct dawn_problems *problems)
{
    struct dawn_options options;
    struct dawn_inputs inputs = {0};
    enum dawn_status status =
        dawn_options_parse(&options, &dawn_cmd_show_options, argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_show_options);
        return DAWN_OK;
    }
    status = dawn_inputs_scenario(&inputs, &options, problems);
    if (status == DAWN_OK && options.json) {
        dawn_report_scenario(stdout, DAWN_JSON, &inputs.scenario);
    } else if (status == DAWN_OK) {
        dawn_report_house(stdout, options.units == DAWN_US ? DAWN_US : DAWN_METRIC,
                          &inputs.scenario, dawn_terminal_boxes());
        fputc('\n', stdout);
        dawn_report_scenario(stdout, DAWN_TEXT, &inputs.scenario);
    }
    dawn_inputs_release(&inputs);
    return status;
}
