/* dawnlow setpoint: at what temperature the fan should start and stop. */
#include <math.h>

#include "cli/cmd.h"
#include "cli/study.h"

#define TEMPERATURE_OPTION(option, field, words)                                                   \
    {                                                                                              \
        .name = (option), .argument = "TEMP", .kind = DAWN_OPTIONS_QUANTITY,                       \
        .offset = DAWN_STUDY_OPTION_AT(field), .measure = DAWN_MEASURE_TEMPERATURE, .least = -5.0, \
        .most = 60.0, .help = (words)                                                              \
    }

static const struct dawn_option table[] = {
    DAWN_STUDY_WEATHERS,
    DAWN_STUDY_DAYS,
    DAWN_STUDY_SET,
    {.group = "What is tried",
     .name = "on-least",
     .argument = "TEMP",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = DAWN_STUDY_OPTION_AT(on_least_C),
     .measure = DAWN_MEASURE_TEMPERATURE,
     .least = -5.0,
     .most = 60.0,
     .help = "lowest temperature at which the fan may start, as in \"14 C\"; 14 C when left out"},
    TEMPERATURE_OPTION("on-most", on_most_C, "highest; 32 C when left out"),
    {.name = "on-step",
     .argument = "K",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = DAWN_STUDY_OPTION_AT(on_step_K),
     .measure = DAWN_MEASURE_DIFFERENCE,
     .least = 0.1,
     .most = 20.0,
     .help = "from one to the next, as in \"1 K\"; 2 K when left out"},
    TEMPERATURE_OPTION("line", line_C, "nights with a low below it are counted; 0 C when left out"),
    DAWN_STUDY_UNITS,
    DAWN_STUDY_FORMATS,
    DAWN_STUDY_OUTPUT,
    DAWN_STUDY_HTML,
    DAWN_STUDY_THREADS,
    DAWN_STUDY_ENGINE_FAST,
};
static const char *const examples[] = {
    "dawnlow setpoint nursery.yaml", "dawnlow setpoint nursery.yaml --from 03-01 --to 03-31",
    "dawnlow setpoint nursery.yaml --on-least \"18 C\" --on-most \"30 C\"", NULL};
const struct dawn_options_command dawn_cmd_setpoint_options = {
    .name = "setpoint",
    .operands = "SCENARIO",
    .purpose = "At what temperature the fan should start and stop: every start is tried with "
               "several gaps between start and stop and several margins over the rock, through all "
               "the weather. Recommends a setting, what is as good as that, and the best of each "
               "month; warns of a fan that never runs or that cools the rock.",
    .examples = examples,
    .notes =
        "Ten starts, three gaps and three margins are 91 runs: a season takes some ten seconds on "
        "two cores, a fortnight one or two. What the thermostat senses stays as it is.",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

static double given(double value, double usual)
{
    return isnan(value) ? usual : value;
}

static struct dawn_setpoint_plan plan_of(const struct dawn_options *options)
{
    return (struct dawn_setpoint_plan){.least_on_C = given(options->on_least_C, 14.0),
                                       .most_on_C = given(options->on_most_C, 32.0),
                                       .step_K = given(options->on_step_K, 2.0),
                                       .line_C = given(options->line_C, 0.0)};
}

static enum dawn_status check(const struct dawn_options *options, struct dawn_problems *problems)
{
    const struct dawn_setpoint_plan plan = plan_of(options);

    if (plan.least_on_C >= plan.most_on_C) {
        return dawn_study_refuse(problems, "for example --on-least \"16 C\" --on-most \"30 C\"",
                                 "--on-least must be lower than --on-most, or there is nothing to "
                                 "try between them");
    }
    if ((plan.most_on_C - plan.least_on_C) / plan.step_K > 40.0) {
        return dawn_study_refuse(problems, "take a larger --on-step, or a shorter range",
                                 "more than 40 starts would be tried");
    }
    return DAWN_OK;
}

static enum dawn_status run(struct dawn_study *study, struct dawn_problems *problems)
{
    struct dawn_setpoint *setpoint = study->own;
    struct dawn_setpoint_plan plan = plan_of(&study->options);

    if (!study->inputs.scenario.fan.present) {
        return dawn_study_refuse(problems, "write sections 'rock:' and 'fan:'",
                                 "this nursery has no fan whose thermostat could be set");
    }
    plan.years = &study->weathers.years;
    plan.run = dawn_study_plan_fast(study);
    plan.threads = dawn_study_threads(&study->options);
    plan.keep_going = dawn_progress_step;
    plan.user = &study->progress;
    const enum dawn_status status =
        dawn_setpoint_find(setpoint, &study->inputs.scenario, &plan, problems);
    return status == DAWN_OK && setpoint->nights <= 0.0 ? dawn_study_no_night(problems) : status;
}

static void write(FILE *out, const struct dawn_study *study)
{
    const struct dawn_options *options = &study->options;
    const struct dawn_study_story story = dawn_study_story(study);

    dawn_report_setpoint(out, dawn_study_format(options), dawn_study_units(options), &story,
                         study->own, plan_of(options).line_C);
}

static enum dawn_status page(FILE *out, const struct dawn_study *study)
{
    const struct dawn_study_story story = dawn_study_story(study);

    return dawn_report_setpoint_page(out, dawn_study_units(&study->options), &story, study->own);
}

enum dawn_status dawn_cmd_setpoint(int argument_count, const char *const *arguments,
                                   struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {.command = &dawn_cmd_setpoint_options,
                                                  .check = check,
                                                  .run = run,
                                                  .write = write,
                                                  .page = page};
    struct dawn_setpoint setpoint = {.row = NULL};
    const enum dawn_status status =
        dawn_study_run(&steps, &setpoint, argument_count, arguments, problems);

    dawn_setpoint_release(&setpoint);
    return status;
}
