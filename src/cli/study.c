/* The steps every study command takes. */
#include "cli/study.h"

#include <math.h>
#include <stdio.h>
#include <unistd.h>

#include "cli/outputs.h"

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

    plan.fast = study->options.engine == 1;
    plan.from_s = study->window.from_s;
    plan.to_s = study->window.to_s;
    return plan;
}

struct dawn_trajectory_plan dawn_study_plan_fast(const struct dawn_study *study)
{
    struct dawn_trajectory_plan plan = dawn_study_plan(study);

    plan.fast = study->options.engine != 0;
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

struct dawn_study_story dawn_study_story(const struct dawn_study *study)
{
    return (struct dawn_study_story){.scenario = &study->inputs.scenario,
                                     .years = &study->weathers.years,
                                     .overrides = study->options.set,
                                     .override_count = study->options.set_count};
}

/* ---- the steps ---- */

enum { WISHES = 3 };
static void wishes_of(const struct dawn_study *study, struct dawn_outputs_wish wish[WISHES])
{
    const char *name = study->output_option != NULL ? study->output_option : "output";

    wish[0] = (struct dawn_outputs_wish){name, study->options.output};
    wish[1] = (struct dawn_outputs_wish){"html", study->options.html};
    wish[2] = (struct dawn_outputs_wish){"csv", study->options.csv_file};
}

static enum dawn_status check_formats(const struct dawn_study *study,
                                      struct dawn_problems *problems)
{
    const struct dawn_options *options = &study->options;

    if (options->json && options->csv) {
        return dawn_study_refuse(problems, NULL, "--json and --csv cannot both be had");
    }
    if ((options->json || options->csv) && options->units == DAWN_US) {
        dawn_problems_add(problems, DAWN_NOTE, nowhere, NULL,
                          "--json and --csv are always metric; --units us changes nothing here");
    }
    struct dawn_outputs_wish wish[WISHES];
    wishes_of(study, wish);
    return dawn_outputs_apart(wish, WISHES, problems);
}

static enum dawn_status spare_inputs(const struct dawn_study *study, struct dawn_problems *problems)
{
    const struct dawn_weathers *weathers = &study->weathers;
    const char *const read[] = {study->inputs.weather_path.data};
    struct dawn_outputs_wish wish[WISHES];

    wishes_of(study, wish);
    enum dawn_status status = dawn_outputs_spare(wish, WISHES, read, 1, problems);
    if (status == DAWN_OK) {
        status = dawn_outputs_spare(wish, WISHES, study->options.operand,
                                    study->options.operand_count, problems);
    }
    for (size_t i = 1; i < weathers->path_count && status == DAWN_OK; i++) {
        const char *const more[] = {weathers->path[i]};
        status = dawn_outputs_spare(wish, WISHES, more, 1, problems);
    }
    return status;
}

enum dawn_status dawn_study_read(struct dawn_study *study, struct dawn_problems *problems)
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

void dawn_study_release(struct dawn_study *study)
{
    dawn_weathers_release(&study->weathers);
    dawn_inputs_release(&study->inputs);
}

/* Both are written before either is kept: after a full disk there is neither. */
static enum dawn_status write_out(const struct dawn_study_steps *steps,
                                  const struct dawn_study *study, struct dawn_problems *problems)
{
    const struct dawn_options *options = &study->options;
    struct dawn_outputs outputs = {0};
    enum dawn_status status = DAWN_OK;

    if (options->html != NULL) {
        FILE *out = dawn_outputs_open(&outputs, options->html, problems);
        status = out != NULL ? steps->page(out, study) : DAWN_ERR_IO;
    }
    if (status == DAWN_OK) {
        FILE *out = dawn_outputs_open(&outputs, options->output, problems);
        if (out == NULL) {
            status = DAWN_ERR_IO;
        } else if (steps->draw != NULL) {
            status = steps->draw(out, study);
        } else {
            steps->write(out, study);
        }
    }
    if (status == DAWN_OK) {
        status = dawn_outputs_keep(&outputs, problems);
    }
    dawn_outputs_drop(&outputs);
    return status;
}

enum dawn_status dawn_study_run(const struct dawn_study_steps *steps, void *own, int argument_count,
                                const char *const *arguments, struct dawn_problems *problems)
{
    struct dawn_study study = {.own = own, .output_option = steps->output_option};
    enum dawn_status status =
        dawn_options_parse(&study.options, steps->command, argument_count, arguments, problems);

    if (status == DAWN_OK && study.options.help) {
        dawn_options_help(stdout, steps->command);
        return DAWN_OK;
    }
    if (status == DAWN_OK) {
        status = check_formats(&study, problems);
    }
    if (status == DAWN_OK && steps->check != NULL) {
        status = steps->check(&study.options, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_study_read(&study, problems);
    }
    if (status == DAWN_OK) {
        dawn_progress_begin(&study.progress, "run", study.options.quiet);
        status = steps->run(&study, problems);
        dawn_progress_end(&study.progress);
    }
    const bool stopped = dawn_progress_stopped();
    if (status == DAWN_OK) {
        status = write_out(steps, &study, problems);
    }
    if (stopped && status == DAWN_OK) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere, NULL,
                          "stopped: what was finished until then is in the result");
    }
    if (stopped) {
        status = DAWN_STOPPED;
    } else if (status == DAWN_OK && steps->verdict != NULL) {
        status = steps->verdict(&study, problems);
    }
    dawn_study_release(&study);
    return status;
}
