/* dawnlow effects: the nights again and again, each time without one effect. */
#include <stdio.h>

#include "cli/cmd.h"
#include "cli/inputs.h"
#include "cli/output.h"
#include "cli/progress.h"
#include "cli/window.h"
#include "dawnlow/report.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_place_in_file nowhere = {0};

static const struct dawn_option table[] = {
    {.group = "Which nights",
     .name = "weather",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(weather),
     .help = "hourly weather; the scenario's own when left out"},
    {.name = "from",
     .argument = "DATE",
     .kind = DAWN_OPTIONS_DATE,
     .offset = AT(from),
     .help = "day of the first evening: YYYY-MM-DD, or MM-DD in the weather's year"},
    {.name = "to",
     .argument = "DATE",
     .kind = DAWN_OPTIONS_DATE,
     .offset = AT(to),
     .help = "day of the last morning"},
    {.group = "What if",
     .name = "set",
     .argument = "KEY=VALUE",
     .kind = DAWN_OPTIONS_SET,
     .help = "lay a value over the scenario, as in \"rock.mass=12 t\"; again and again if need be"},
    {.group = "What is shown",
     .name = "units",
     .argument = "metric|us",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(units),
     .words = "metric|us",
     .help = "C or F in the table; metric when left out"},
    {.name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "JSON instead of the table (always metric)"},
    {.name = "csv",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(csv),
     .help = "CSV instead of the table (always metric; lines end in CR LF)"},
    {.group = "Where it goes",
     .name = "output",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(output),
     .help = "the result into a file, which appears whole or not at all"},
};
static const char *const examples[] = {
    "dawnlow effects nursery.yaml --weather march.csv",
    "dawnlow effects nursery.yaml --from 03-01 --to 03-15 --units us",
    "dawnlow effects nursery.yaml --set \"house.air_changes=3 /h\" --csv", NULL};
const struct dawn_options_command dawn_cmd_effects_options = {
    .name = "effects",
    .operands = "SCENARIO",
    .purpose = "What matters here: each effect the scenario describes (leaks, fan, rock, barrels, "
               "vent, moisture, the cold sky ...) is left out in turn, and the coldest and the "
               "mean night low are compared with those of the nursery as it is.",
    .examples = examples,
    .notes = "One run for each effect, with the same weather and the same days: a fortnight takes "
             "seconds, a year a minute. Effects are left out one at a time, so they do not add up; "
             "two that stand in for each other may both look small.",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

static void refuse(struct dawn_problems *problems, const char *hint, const char *message)
{
    dawn_problems_add(problems, DAWN_ERROR, nowhere, hint, "%s", message);
}

static enum dawn_status check_together(const struct dawn_options *options,
                                       struct dawn_problems *problems)
{
    if (options->json && options->csv) {
        refuse(problems, NULL, "--json and --csv cannot both be had");
        return DAWN_ERR_USAGE;
    }
    if ((options->json || options->csv) && options->units == DAWN_US) {
        dawn_problems_add(problems, DAWN_NOTE, nowhere, NULL,
                          "--json and --csv are always metric; --units us changes nothing here");
    }
    return DAWN_OK;
}

struct work {
    const struct dawn_options *options;
    struct dawn_inputs inputs;
    struct dawn_window window;
    struct dawn_effects effects;
};

/* Writing over what was read would cost the grower the scenario or the weather. */
static enum dawn_status spare_inputs(const struct work *work, struct dawn_problems *problems)
{
    const char *const read[] = {work->options->operand[0], work->inputs.weather_path.data};

    for (size_t i = 0; i < 2; i++) {
        if (dawn_output_same(work->options->output, read[i])) {
            dawn_problems_add(problems, DAWN_ERROR, nowhere, "give the result another name",
                              "--output would write over '%s'", read[i]);
            return DAWN_ERR_USAGE;
        }
    }
    return DAWN_OK;
}

static enum dawn_status read_inputs(struct work *work, struct dawn_problems *problems)
{
    struct dawn_network *network = NULL;
    enum dawn_status status = dawn_inputs_scenario(&work->inputs, work->options, problems);

    if (status == DAWN_OK) {
        status = spare_inputs(work, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_inputs_weather(&work->inputs, problems);
    }
    if (status == DAWN_OK) {
        status =
            dawn_network_build(&network, &work->inputs.scenario, &work->inputs.weather, problems);
    }
    if (status == DAWN_OK) {
        const struct dawn_window covered = dawn_window_covered(network, &work->inputs.weather);
        status = dawn_window_find(&work->window, work->options->from, work->options->to, covered,
                                  work->inputs.scenario.site.utc_offset_h, problems);
    }
    dawn_network_free(network);
    return status;
}

static enum dawn_status run(struct work *work, struct dawn_problems *problems)
{
    struct dawn_progress progress;
    struct dawn_effects_plan plan = {
        .run = dawn_trajectory_plan_usual(), .keep_going = dawn_progress_step, .user = &progress};

    dawn_progress_begin(&progress, "run", work->options->quiet);
    plan.run.from_s = work->window.from_s;
    plan.run.to_s = work->window.to_s;
    const enum dawn_status status = dawn_effects_find(&work->effects, &work->inputs.scenario,
                                                      &work->inputs.weather, &plan, problems);
    dawn_progress_end(&progress);
    if (status == DAWN_OK && work->effects.nights == 0) {
        refuse(problems, "a night needs weather from before sunset to two hours after sunrise",
               "the run holds no complete night");
        return DAWN_ERR_USAGE;
    }
    return status;
}

static enum dawn_format format_of(const struct dawn_options *options)
{
    if (options->json) {
        return DAWN_JSON;
    }
    return options->csv ? DAWN_CSV : DAWN_TEXT;
}

static enum dawn_status write_out(const struct work *work, struct dawn_problems *problems)
{
    const struct dawn_options *options = work->options;
    const struct dawn_effects_story story = {.scenario = &work->inputs.scenario,
                                             .weather = &work->inputs.weather,
                                             .effects = &work->effects,
                                             .from_s = work->window.from_s,
                                             .to_s = work->window.to_s,
                                             .overrides = options->set,
                                             .override_count = options->set_count};
    struct dawn_output result = {0};
    enum dawn_status status = dawn_output_open(&result, options->output, problems);

    if (status == DAWN_OK) {
        dawn_report_effects(result.stream, format_of(options),
                            options->units == DAWN_US ? DAWN_US : DAWN_METRIC, &story);
        status = dawn_output_arrived(&result, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_output_keep(&result, problems);
    }
    dawn_output_drop(&result);
    return status;
}

enum dawn_status dawn_cmd_effects(int argument_count, const char *const *arguments,
                                  struct dawn_problems *problems)
{
    struct dawn_options options;
    struct work work = {.options = &options};
    enum dawn_status status = dawn_options_parse(&options, &dawn_cmd_effects_options,
                                                 argument_count, arguments, problems);

    if (status == DAWN_OK && options.help) {
        dawn_options_help(stdout, &dawn_cmd_effects_options);
        return DAWN_OK;
    }
    if (status == DAWN_OK) {
        status = check_together(&options, problems);
    }
    if (status == DAWN_OK) {
        status = read_inputs(&work, problems);
    }
    if (status == DAWN_OK) {
        status = run(&work, problems);
    }
    if (status == DAWN_OK) {
        status = write_out(&work, problems);
    }
    dawn_inputs_release(&work.inputs);
    return status;
}
