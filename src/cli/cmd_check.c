/* dawnlow check: every mistake in one go, and what was understood where there is none. */
#include <stdio.h>

#include "cli/cmd.h"
#include "cli/inputs.h"
#include "dawnlow/network.h"
#include "dawnlow/report.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_option table[] = {
    {.group = "What is looked at",
     .name = "weather",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(weather),
     .help = "the same as WEATHER, as the other commands have it"},
    {.name = "set",
     .argument = "KEY=VALUE",
     .kind = DAWN_OPTIONS_SET,
     .help = "lay a value over the scenario, as in \"fan.on_at=24 C\"; again and again if need be"},
    {.group = "What is shown",
     .name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "the scenario's values and where each came from, as JSON"},
    {.name = "units",
     .argument = "metric|us",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(units),
     .words = "metric|us",
     .help = "units of the weather summary; metric when left out"},
};
static const char *const examples[] = {
    "dawnlow check nursery.yaml",
    "dawnlow check nursery.yaml march.csv",
    " nursery.yaml can be used with march.csv; 1 warning to look at",
    " ...",
    " Key                                   Value                    From",
    " ...",
    " site.latitude                         47.5 deg                 yours, line 4",
    " ...",
    " site.wind_share                       0.5                      default",
    " ...",
    NULL};
const struct dawn_options_command dawn_cmd_check_options = {
    .name = "check",
    .operands = "SCENARIO [WEATHER]",
    .purpose =
        "Looks a scenario over, with the weather given or named in it: all mistakes at once, "
        "or every value as it was understood and whether it is yours or a default.",
    .examples = examples,
    .operands_least = 1,
    .operands_most = 2,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

/* WEATHER or --weather WEATHER. */
static enum dawn_status settle_weather(struct dawn_options *options, struct dawn_problems *problems)
{
    if (options->operand[1] == NULL) {
        return DAWN_OK;
    }
    if (options->weather != NULL) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                          "leave one of them out", "the weather is named twice: '%s' and '%s'",
                          options->operand[1], options->weather);
        return DAWN_ERR_USAGE;
    }
    options->weather = options->operand[1];
    return DAWN_OK;
}

/* Whether the two go together shows when the network is built from them. */
static enum dawn_status look_over(struct dawn_inputs *inputs, const struct dawn_options *options,
                                  struct dawn_problems *problems)
{
    struct dawn_network *network = NULL;
    enum dawn_status status = dawn_inputs_scenario(inputs, options, problems);

    /* Where the house stands decides how the weather is read, so the scenario comes first. */
    if (status != DAWN_OK || inputs->weather_path.data == NULL) {
        return status;
    }
    status = dawn_inputs_weather(inputs, problems);
    if (status == DAWN_OK) {
        status = dawn_network_build(&network, &inputs->scenario, &inputs->weather, problems);
    }
    dawn_network_free(network);
    return status;
}

static void put_understood(const struct dawn_inputs *inputs, const struct dawn_options *options,
                           const struct dawn_problems *problems)
{
    if (options->json) {
        dawn_report_scenario(stdout, DAWN_JSON, &inputs->scenario);
        return;
    }
    printf("%s can be used", options->operand[0]);
    if (inputs->weather_path.data != NULL) {
        printf(" with %s", inputs->weather_path.data);
    }
    if (problems->warnings > 0) {
        printf("; %zu %s to look at", problems->warnings,
               problems->warnings == 1 ? "warning" : "warnings");
    }
    fputs("\n\n", stdout);
    dawn_report_scenario(stdout, DAWN_TEXT, &inputs->scenario);
    if (inputs->weather_path.data != NULL) {
        fputc('\n', stdout);
        dawn_report_weather(stdout, DAWN_TEXT, options->units == DAWN_US ? DAWN_US : DAWN_METRIC,
                            &inputs->weather);
    }
}

enum dawn_status dawn_cmd_check(int argument_count, const char *const *arguments,
                                struct dawn_problems *problems)
{
    struct dawn_options options;
    struct dawn_inputs inputs = {0};
    enum dawn_status status =
        dawn_options_parse(&options, &dawn_cmd_check_options, argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_check_options);
        return DAWN_OK;
    }
    status = settle_weather(&options, problems);
    if (status == DAWN_OK) {
        status = look_over(&inputs, &options, problems);
    }
    if (status == DAWN_OK) {
        put_understood(&inputs, &options, problems);
    }
    dawn_inputs_release(&inputs);
    return status;
}
