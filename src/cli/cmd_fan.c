/* dawnlow fan: the fan's curve against its rock and ducts, and its air against the noon sun. */
#include <stdio.h>

#include "cli/cmd.h"
#include "cli/inputs.h"
#include "dawnlow/network.h"
#include "dawnlow/report.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_option table[] = {
    {.group = "What is looked at",
     .name = "set",
     .argument = "KEY=VALUE",
     .kind = DAWN_OPTIONS_SET,
     .help =
         "lay a value over the scenario, as in \"rock.stone_size=80 mm\"; again and again if need "
         "be"},
    {.group = "What is shown",
     .name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "the same as JSON, in SI units"},
    {.name = "units",
     .argument = "metric|us",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(units),
     .words = "metric|us",
     .help = "metric when left out; us: cfm, in wg, F"},
};
static const char *const examples[] = {
    "dawnlow fan nursery.yaml",
    " this fan is too small for its house: it moves 900 m3/h, and its air carries only",
    " 13 % of a clear noon's sun",
    " ...",

    "dawnlow fan nursery.yaml --set \"rock.stone_size=80 mm\"",
    "dawnlow fan nursery.yaml --units us",
    NULL};
const struct dawn_options_command dawn_cmd_fan_options = {
    .name = "fan",
    .operands = "SCENARIO",
    .purpose = "Whether the fan suits its bed: where its curve meets the resistance of rock and "
               "ducts, how well the rock takes the heat of the air, and how much of a clear "
               "noon's sun the air can carry. Needs no weather.",
    .examples = examples,
    .notes = "To try a fan on a scenario that gives a flow: --set \"fan.flow=from curve\" --set "
             "\"fan.free_air=900 cfm\" --set \"fan.greatest_pressure=0.5 in wg\". The curve's ends "
             "stand on the fan's label: fan.free_air and fan.greatest_pressure. "
             "dawnlow explain ducts tells how to describe pipes.",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

static enum dawn_status show(const struct dawn_scenario *scenario,
                             const struct dawn_options *options, struct dawn_problems *problems)
{
    struct dawn_fan_work work = {0};

    if (!scenario->fan.present) {
        const struct dawn_place_in_file place = {.file = scenario->path};
        dawn_problems_add(problems, DAWN_ERROR, place,
                          "write a section 'fan:'; dawnlow explain fan tells what it holds",
                          "there is no fan in this scenario");
        return DAWN_ERR_SCENARIO;
    }
    const enum dawn_status status = dawn_network_fan_work(scenario, &work, problems);
    if (status == DAWN_OK) {
        dawn_report_fan(stdout, options->json ? DAWN_JSON : DAWN_TEXT,
                        options->units == DAWN_US ? DAWN_US : DAWN_METRIC, &work);
    }
    return status;
}

enum dawn_status dawn_cmd_fan(int argument_count, const char *const *arguments,
                              struct dawn_problems *problems)
{
    struct dawn_options options;
    struct dawn_inputs inputs = {0};
    enum dawn_status status =
        dawn_options_parse(&options, &dawn_cmd_fan_options, argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_fan_options);
        return DAWN_OK;
    }
    status = dawn_inputs_scenario(&inputs, &options, problems);
    if (status == DAWN_OK) {
        status = show(&inputs.scenario, &options, problems);
    }
    dawn_inputs_release(&inputs);
    return status;
}
