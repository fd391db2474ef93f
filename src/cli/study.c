/* The steps every study command takes. */
#include "cli/study.h"

#include <math.h>
#include <stdio.h>
#include <unistd.h>

#include "cli/output.h"

static const struct dawn_place_in_file nowhere = {0};

enum dawn_status dawn_study_refuse(struct dawn_problems *problems, const char *hint,
                                   const char *message)
{
    dawn_problems_add(problems, DAWN_ERROR, nowhere, hint, "%s", message);
    return DAWN_ERR_USAGE;
}

enum dawn_status dawn_study_no_night(struct dawn_problems *problems)
{
    return dawn_study_refuse(problems,
                             "a night needs weather from before sunset to two hours after sunrise",
                             "the run holds no complete night");
}

struct dawn_trajectory_plan dawn_study_plan(const struct dawn_study *study)
{
    struct dawn_trajectory_plan plan = dawn_trajectory_plan_usual();

    plan.from_s = study->window.from_s;
    plan.to_s = study->window.to_s;
    return plan;
}

unsigned dawn_study_threads(const struct dawn_options *options)
{
    const long machine = sysconf(_SC_NPROCESSORS_ONLN);

    if (isfinite(options->threads)) {
        return (unsigned)options->threads;
    }
    return machine > 1 ? (unsigned)machine : 1U;
}

enum dawn_format dawn_study_format(const struct dawn_options *options)
{
    if (options->json) {
        return DAWN_JSON;
    }
    return options->csv ? DAWN_CSV : DAWN_TEXT;
}

enum dawn_units dawn_study_units(const struct dawn_options *options)
{
    return options->units == DAWN_US ? DAWN_US : DAWN_METRIC;
}

/* ---- the steps ---- */

static enum dawn_status check_formats(const struct dawn_options *options,
                                      struct dawn_problems *problems)
{
    if (options->json && options->csv) {
        return dawn_study_refuse(problems, NULL, "--json and --csv cannot both be had");
    }
    if ((options->json || options->csv) && options->units == DAWN_US) {
        dawn_problems_add(problems, DAWN_NOTE, nowhere, NULL,
                          "--json and --csv are always metric; --units us changes nothing here");
    }
    return DAWN_OK;
}

static enum dawn_status spare(const struct dawn_study *study, const char *read,
                              struct dawn_problems *problems)
{
    if (!dawn_output_same(study->options.output, read)) {
        return DAWN_OK;
    }
    dawn_problems_add(problems, DAWN_ERROR, nowhere, "give the result another name",
                      "--output would write over '%s'", read);
    return DAWN_ERR_USAGE;
}

/* Writing over what was read would cost the grower the scenario or the weather. */
static enum dawn_status spare_inputs(const struct dawn_study *study, struct dawn_problems *problems)
{
    const struct dawn_weathers *weathers = &study->weathers;
    enum dawn_status status = spare(study, study->options.operand[0], problems);

    if (status == DAWN_OK) {
        status = spare(study, study->inputs.weather_path.data, problems);
    }
    for (size_t i = 1; i < weathers->path_count && status == DAWN_OK; i++) {
        status = spare(study, weathers->path[i], problems);
    }
    return status;
}

static enum dawn_status read_inputs(struct dawn_study *study, struct dawn_problems *problems)
{
    struct dawn_inputs *inputs = &study->inputs;
    enum dawn_status status =
        dawn_weathers_find(&study->weathers, &study->options.weathers, problems);

    if (study->weathers.path_count > 0) {
        study->options.weather = study->weathers.path[0];
    }
    if (status == DAWN_OK) {
        status = dawn_inputs_scenario(inputs, &study->options, problems);
    }
    if (status == DAWN_OK) {
        status = spare_inputs(study, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_inputs_weather(inputs, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_window_of(&study->window, &inputs->scenario, &inputs->weather,
                                &study->options, problems);
    }
    if (status == DAWN_OK) {
        status =
            dawn_weathers_read(&study->weathers, inputs, &study->options, study->window, problems);
    }
    return status;
}

static enum dawn_status write_out(const struct dawn_study_steps *steps,
                                  const struct dawn_study *study, struct dawn_problems *problems)
{
    struct dawn_output result = {0};
    enum dawn_status status = dawn_output_open(&result, study->options.output, problems);

    if (status == DAWN_OK) {
        steps->write(result.stream, study);
        status = dawn_output_arrived(&result, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_output_keep(&result, problems);
    }
    dawn_output_drop(&result);
    return status;
}

enum dawn_status dawn_study_run(const struct dawn_study_steps *steps, void *own, int argument_count,
                                const char *const *arguments, struct dawn_problems *problems)
{
    struct dawn_study study = {.own = own};
    enum dawn_status status =
        dawn_options_parse(&study.options, steps->command, argument_count, arguments, problems);

    if (status == DAWN_OK && study.options.help) {
        dawn_options_help(stdout, steps->command);
        return DAWN_OK;
    }
    if (status == DAWN_OK) {
        status = check_formats(&study.options, problems);
    }
    if (status == DAWN_OK && steps->check != NULL) {
        status = steps->check(&study.options, problems);
    }
    if (status == DAWN_OK) {
        status = read_inputs(&study, problems);
    }
    if (status == DAWN_OK) {
        dawn_progress_begin(&study.progress, "run", study.options.quiet);
        status = steps->run(&study, problems);
        dawn_progress_end(&study.progress);
    }
    if (status == DAWN_OK) {
        status = write_out(steps, &study, problems);
    }
    dawn_weathers_release(&study.weathers);
    dawn_inputs_release(&study.inputs);
    return status;
}
