/* dawnlow effects: the nights again and again, each time without one effect. */
#include "cli/cmd.h"
#include "cli/study.h"

static const struct dawn_option table[] = {
    DAWN_STUDY_WEATHER, DAWN_STUDY_DAYS, DAWN_STUDY_SET,     DAWN_STUDY_UNITS,  DAWN_STUDY_FORMATS,
    DAWN_STUDY_OUTPUT,  DAWN_STUDY_HTML, DAWN_STUDY_THREADS, DAWN_STUDY_ENGINE,
};
static const char *const examples[] = {
    "dawnlow effects nursery.yaml --weather march.csv",
    " ...",
    " Without                        Coldest tray  Mean tray  Coldest air  Mean air",
    "                                           K          K            K         K",
    " the cold sky                           +5.4       +3.9         +5.1      +3.7",
    " leaks                                  +2.2       +1.8         +2.8      +2.2",
    " ...",

    "dawnlow effects nursery.yaml --from 03-01 --to 03-15 --units us",
    "dawnlow effects nursery.yaml --set \"house.air_changes=3 /h\" --csv",
    NULL};
const struct dawn_options_command dawn_cmd_effects_options = {
    .name = "effects",
    .operands = "SCENARIO",
    .purpose = "What matters here: each effect the scenario describes (leaks, fan, rock, barrels, "
               "vents, moisture, the cold sky ...) is left out in turn, and the coldest and the "
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

static enum dawn_status run(struct dawn_study *study, struct dawn_problems *problems)
{
    struct dawn_effects *effects = study->own;
    const struct dawn_effects_plan plan = {.run = dawn_study_plan(study),
                                           .threads = dawn_study_threads(&study->options),
                                           .keep_going = dawn_progress_step,
                                           .user = &study->progress};
    const enum dawn_status status = dawn_effects_find(effects, &study->inputs.scenario,
                                                      &study->inputs.weather, &plan, problems);
    return status == DAWN_OK && effects->nights == 0 ? dawn_study_no_night(problems) : status;
}

static struct dawn_effects_story story_of(const struct dawn_study *study)
{
    return (struct dawn_effects_story){.scenario = &study->inputs.scenario,
                                       .weather = &study->inputs.weather,
                                       .effects = study->own,
                                       .from_s = study->window.from_s,
                                       .to_s = study->window.to_s,
                                       .overrides = study->options.set,
                                       .override_count = study->options.set_count};
}

static void write(FILE *out, const struct dawn_study *study)
{
    const struct dawn_effects_story story = story_of(study);

    dawn_report_effects(out, dawn_study_format(&study->options), dawn_study_units(&study->options),
                        &story);
}

static enum dawn_status page(FILE *out, const struct dawn_study *study)
{
    const struct dawn_effects_story story = story_of(study);

    return dawn_report_effects_page(out, dawn_study_units(&study->options), &story);
}

enum dawn_status dawn_cmd_effects(int argument_count, const char *const *arguments,
                                  struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {
        .command = &dawn_cmd_effects_options, .run = run, .write = write, .page = page};
    struct dawn_effects effects;

    return dawn_study_run(&steps, &effects, argument_count, arguments, problems);
}
