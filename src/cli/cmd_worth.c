/* dawnlow worth: which single improvement is worth its money, and what to measure next. */
#include <math.h>

#include "cli/cmd.h"
#include "cli/study.h"

static const struct dawn_option table[] = {
    DAWN_STUDY_WEATHERS,
    DAWN_STUDY_DAYS,
    DAWN_STUDY_SET,
    {.name = "line",
     .argument = "TEMP",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = DAWN_STUDY_OPTION_AT(line_C),
     .measure = DAWN_MEASURE_TEMPERATURE,
     .least = -40.0,
     .most = 60.0,
     .help = "nights with a low below it are counted, as in \"2 C\"; 0 C when left out"},
    DAWN_STUDY_UNITS,
    DAWN_STUDY_FORMATS,
    DAWN_STUDY_OUTPUT,
    DAWN_STUDY_HTML,
    DAWN_STUDY_THREADS,
    DAWN_STUDY_ENGINE_FAST,
};
static const char *const examples[] = {
    "dawnlow worth nursery.yaml",
    " ...",
    " Improvement, one at a time            Cost  Coldest   Gain  For 100  Nights",
    "                                        EUR        C      K        K   fewer",
    " fleece over the trays at night          15      9.7  +1.11   +7.431       0",
    " ...",
    "dawnlow worth nursery.yaml --from 03-01 --to 03-31",
    "dawnlow worth nursery.yaml --set \"prices.rock=45 /short ton\"",
    NULL};
const struct dawn_options_command dawn_cmd_worth_options = {
    .name = "worth",
    .operands = "SCENARIO",
    .purpose = "What money buys: single improvements (leaks halved, a second skin, a curtain, "
               "fleece, foam along the edge, more rock, a barrel, a bigger fan, clean glazing), "
               "ranked by what the coldest night gains for the money. And which of your own "
               "guesses matters most, so that you know what to measure next.",
    .examples = examples,
    .notes = "Some thirty runs: a season takes ten seconds on two cores. Prices come from the "
             "scenario's section 'prices:'; those it leaves out are values to start from.",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

static double line_of(const struct dawn_options *options)
{
    return isnan(options->line_C) ? 0.0 : options->line_C;
}

static enum dawn_status run(struct dawn_study *study, struct dawn_problems *problems)
{
    struct dawn_worth *worth = study->own;
    const struct dawn_worth_plan plan = {.years = &study->weathers.years,
                                         .run = dawn_study_plan_fast(study),
                                         .line_C = line_of(&study->options),
                                         .threads = dawn_study_threads(&study->options),
                                         .keep_going = dawn_progress_step,
                                         .user = &study->progress};
    const enum dawn_status status =
        dawn_worth_find(worth, &study->inputs.scenario, &plan, problems);
    return status == DAWN_OK && worth->nights <= 0.0 ? dawn_study_no_night(problems) : status;
}

static void write(FILE *out, const struct dawn_study *study)
{
    const struct dawn_options *options = &study->options;
    const struct dawn_study_story story = dawn_study_story(study);

    dawn_report_worth(out, dawn_study_format(options), dawn_study_units(options), &story,
                      study->own, line_of(options));
}

static enum dawn_status page(FILE *out, const struct dawn_study *study)
{
    const struct dawn_study_story story = dawn_study_story(study);

    return dawn_report_worth_page(out, dawn_study_units(&study->options), &story, study->own);
}

enum dawn_status dawn_cmd_worth(int argument_count, const char *const *arguments,
                                struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {
        .command = &dawn_cmd_worth_options, .run = run, .write = write, .page = page};
    struct dawn_worth worth = {.ways = 0};

    return dawn_study_run(&steps, &worth, argument_count, arguments, problems);
}
