/* dawnlow nights: options -> scenario and weather -> run -> nights -> report. */
#include <math.h>
#include <stdio.h>

#include "cli/cmd.h"
#include "cli/outputs.h"
#include "cli/study.h"
#include "cli/terminal.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_place_in_file nowhere = {0};
static const double USUAL_STEP_S = 600.0;
/* Close enough for the fan's switching to be seen in a picture. */
static const double PICTURE_STEP_S = 300.0;

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
    {.name = "no-fan",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(no_fan),
     .help = "as if the fan or the power had failed"},
    {.group = "What is shown",
     .name = "explain",
     .argument = "DATE",
     .kind = DAWN_OPTIONS_DATE,
     .offset = AT(explain),
     .help = "where the heat came from and went in the night of this evening"},
    {.name = "units",
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
    {.name = "plot",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(plot),
     .help = "the coldest night, or the one of --explain, drawn with characters below the table"},
    {.name = "verbose",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(verbose),
     .help = "how the calculation went and how long it took, beside the result"},
    {.group = "Where it goes",
     .name = "output",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(output),
     .help = "the result into a file, which appears whole or not at all"},
    {.name = "html",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(html),
     .help = "beside the result, a page for the browser and the printer, with pictures"},
    {.name = "series",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(series),
     .help = "all temperatures through the whole run, as CSV"},
    {.name = "step",
     .argument = "DURATION",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = AT(step_s),
     .measure = DAWN_MEASURE_TIME,
     .least = 10.0,
     .most = 86400.0,
     .help = "time between the rows of --series: \"10 min\" when left out"},
    {.name = "means",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(means),
     .help = "in --series the mean of the time since the row before, not the moment"},
    {.group = "How it is calculated",
     .name = "accurate",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(accurate),
     .help = "smaller steps (relative 1e-6, absolute 1e-5 K), for comparing"},
};
static const char *const examples[] = {
    "dawnlow nights nursery.yaml --weather march.csv",
    " none of 5 nights below 0 C at the trays; coldest Thu 12 -> Fri 13 Mar, 8.5 C at 07:30",
    " ...",
    " heat: what rock, water and soil gave back from dusk to dawn (below 0: took up);",
    "      fan hours since the night before",
    " ...",

    "dawnlow nights nursery.yaml --from 03-01 --to 03-15 --units us",
    "dawnlow nights nursery.yaml --explain 03-12",
    "dawnlow nights nursery.yaml --no-fan --set \"rock.mass=9 t\" --json",
    NULL};
const struct dawn_options_command dawn_cmd_nights_options = {
    .name = "nights",
    .operands = "SCENARIO",
    .purpose = "How cold each night gets at the trays, in the air, at leaves and roots; how long "
               "it stays below freezing; and what rock, water and soil gave back.",
    .examples = examples,
    .notes = "A run goes from noon of --from to noon of --to, or over all the weather. Before it, "
             "the house lives through the days of weather before --from, or, where there are none, "
             "through the first days again and again (start.spin_up), so that soil and rock start "
             "at a temperature that fits. A night is named by its evening. Times are the site's "
             "standard time. --set "
             "finds an item of a list by its name or number, as in \"glazing.south roof.area=20 "
             "m2\".",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

/* ---- what the options say together ---- */

static enum dawn_status check_together(const struct dawn_options *options,
                                       struct dawn_problems *problems)
{
    const size_t before = problems->errors;

    if (options->json && options->csv) {
        (void)dawn_study_refuse(problems, NULL, "--json and --csv cannot both be had");
    }
    if (options->csv && options->explain.month != 0) {
        (void)dawn_study_refuse(problems, "use --json, or the table", "--explain has no CSV form");
    }
    if (options->plot && (options->csv || options->json)) {
        (void)dawn_study_refuse(problems, "dawnlow plot draws into a file",
                                "--plot goes with the table only");
    }
    if (isfinite(options->step_s) && options->series == NULL) {
        (void)dawn_study_refuse(problems, "add --series FILE",
                                "--step is for --series, which is not given");
    }
    if (options->means && options->series == NULL) {
        (void)dawn_study_refuse(problems, "add --series FILE",
                                "--means is for --series, which is not given");
    }
    if (options->means && (options->html != NULL || options->plot)) {
        (void)dawn_study_refuse(problems, "ask for them one after the other",
                                options->plot ? "--means and --plot cannot both be had"
                                              : "--means and --html cannot both be had");
    }
    const struct dawn_outputs_wish wish[] = {
        {"output", options->output}, {"series", options->series}, {"html", options->html}};
    (void)dawn_outputs_apart(wish, sizeof wish / sizeof wish[0], problems);
    if ((options->json || options->csv) && options->units == DAWN_US) {
        dawn_problems_add(problems, DAWN_NOTE, nowhere, NULL,
                          "--json and --csv are always metric; --units us changes nothing here");
    }
    return problems->errors == before ? DAWN_OK : DAWN_ERR_USAGE;
}

/* ---- the run ---- */

struct work {
    const struct dawn_options *options;
    struct dawn_inputs inputs;
    struct dawn_network *network;
    struct dawn_trajectory *run;
    struct dawn_nights nights;
    struct dawn_ledger ledger;
    const struct dawn_night *explained; /* the ledger's night; NULL = there is none */
    size_t series_every;
};

static void release(struct work *work)
{
    dawn_nights_ledger_release(&work->ledger);
    dawn_nights_release(&work->nights);
    dawn_trajectory_free(work->run);
    dawn_network_free(work->network);
    dawn_inputs_release(&work->inputs);
}

static enum dawn_status read_inputs(struct work *work, struct dawn_problems *problems)
{
    enum dawn_status status = dawn_inputs_scenario(&work->inputs, work->options, problems);

    if (status == DAWN_OK) {
        const struct dawn_options *options = work->options;
        const struct dawn_outputs_wish wish[] = {
            {"output", options->output}, {"series", options->series}, {"html", options->html}};
        const char *const read[] = {options->operand[0], work->inputs.weather_path.data};
        status = dawn_outputs_spare(wish, sizeof wish / sizeof wish[0], read, 2, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_inputs_weather(&work->inputs, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_network_build(&work->network, &work->inputs.scenario, &work->inputs.weather,
                                    problems);
    }
    return status;
}

/* Pictures need rows that lie close; the series then keeps every so manyth of them. */
static void plan_series(struct dawn_trajectory_plan *plan, struct work *work)
{
    const struct dawn_options *options = work->options;
    const double wish_s = isfinite(options->step_s) ? options->step_s : USUAL_STEP_S;

    work->series_every = 1;
    plan->series_means = options->means;
    if (options->html == NULL && !options->plot) {
        plan->series_step_s = options->series != NULL ? wish_s : 0.0;
    } else if (options->series == NULL) {
        plan->series_step_s = PICTURE_STEP_S;
    } else {
        work->series_every = (size_t)ceil(wish_s / PICTURE_STEP_S);
        plan->series_step_s = wish_s / (double)work->series_every;
    }
}

static enum dawn_status plan_of(struct dawn_trajectory_plan *plan, struct work *work,
                                struct dawn_problems *problems)
{
    const struct dawn_options *options = work->options;
    const struct dawn_window covered = dawn_window_covered(work->network, &work->inputs.weather);
    struct dawn_window window;
    const enum dawn_status status =
        dawn_window_find(&window, options->from, options->to, covered,
                         work->inputs.scenario.site.utc_offset_h, problems);

    *plan = dawn_trajectory_plan_usual();
    plan->from_s = window.from_s;
    plan->to_s = window.to_s;
    plan->fan_allowed = !options->no_fan;
    plan->ledger = options->explain.month != 0 || options->html != NULL;
    if (options->accurate) {
        plan->rtol = 1e-6;
        plan->atol_K = 1e-5;
    }
    plan_series(plan, work);
    return status;
}

/* The night asked for; for the page alone, the coldest. */
static enum dawn_status explain(struct work *work, struct dawn_problems *problems)
{
    if (work->options->explain.month != 0) {
        work->explained = dawn_window_night(&work->nights, work->options->explain,
                                            work->inputs.scenario.site.utc_offset_h, problems);
        if (work->explained == NULL) {
            return DAWN_ERR_USAGE;
        }
    } else if (work->options->html != NULL) {
        work->explained = &work->nights.night[dawn_nights_coldest(&work->nights)];
    } else {
        return DAWN_OK;
    }
    return dawn_nights_ledger(&work->ledger, work->explained, work->run, work->network, problems);
}

static enum dawn_status run(struct work *work, struct dawn_problems *problems)
{
    struct dawn_trajectory_plan plan;
    enum dawn_status status = plan_of(&plan, work, problems);

    if (status == DAWN_OK) {
        status = dawn_trajectory_run(&work->run, work->network, &plan, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_nights_find(&work->nights, work->run, work->network, &work->inputs.scenario,
                                  problems);
    }
    if (status == DAWN_OK && work->nights.count == 0) {
        status = dawn_study_no_night(problems);
    }
    return status == DAWN_OK ? explain(work, problems) : status;
}

/* ---- what comes out ---- */

static void put_effort(const struct dawn_trajectory *trajectory)
{
    const struct dawn_trajectory_facts facts = dawn_trajectory_facts(trajectory);

    fprintf(stderr,
            "dawnlow: %ld steps, %ld rate evaluations, %ld Jacobians, %ld steps tried again, "
            "%ld fan switches, imbalance %.1e, %.3f s\n",
            facts.steps, facts.rhs_evaluations, facts.jacobian_evaluations,
            facts.error_test_failures, facts.switches, facts.imbalance, facts.wall_s);
}

static struct dawn_nights_story story_of(const struct work *work, bool with_ledger)
{
    const struct dawn_nights_story story = {
        .scenario = &work->inputs.scenario,
        .weather = &work->inputs.weather,
        .network = work->network,
        .run = work->run,
        .nights = &work->nights,
        .ledger = with_ledger && work->explained != NULL ? &work->ledger : NULL,
        .explained = with_ledger ? work->explained : NULL,
        .fan_kept_off = work->options->no_fan,
        .overrides = work->options->set,
        .override_count = work->options->set_count,
        .series_every = work->series_every,
    };
    return story;
}

static enum dawn_status write_result(FILE *out, const struct work *work)
{
    const struct dawn_options *options = work->options;
    const struct dawn_nights_story story = story_of(work, options->explain.month != 0);
    const struct dawn_night *night = work->explained;

    dawn_report_nights(out, dawn_study_format(options), dawn_study_units(options), &story);
    if (!options->plot) {
        return DAWN_OK;
    }
    if (night == NULL) {
        night = &work->nights.night[dawn_nights_coldest(&work->nights)];
    }
    fputc('\n', out);
    return dawn_report_screen(out, DAWN_PICTURE_NIGHT, dawn_study_units(options), &story, night,
                              dawn_terminal_columns(), DAWN_TERMINAL_ROWS, dawn_terminal_boxes());
}

static enum dawn_status write_series(FILE *out, const struct work *work)
{
    const struct dawn_nights_story story = story_of(work, false);

    dawn_report_series(out, &story);
    return DAWN_OK;
}

static enum dawn_status write_page(FILE *out, const struct work *work)
{
    const struct dawn_nights_story story = story_of(work, true);

    return dawn_report_nights_page(out, dawn_study_units(work->options), &story);
}

/* All are written before any is kept: after a full disk there is none. */
static enum dawn_status write_out(const struct work *work, struct dawn_problems *problems)
{
    const struct dawn_options *options = work->options;
    const struct {
        bool wanted;
        const char *path;
        enum dawn_status (*write)(FILE *out, const struct work *work);
    } file[] = {{options->series != NULL, options->series, write_series},
                {options->html != NULL, options->html, write_page},
                {true, options->output, write_result}};
    struct dawn_outputs outputs = {0};
    enum dawn_status status = DAWN_OK;

    for (size_t i = 0; i < sizeof file / sizeof file[0] && status == DAWN_OK; i++) {
        if (file[i].wanted) {
            FILE *out = dawn_outputs_open(&outputs, file[i].path, problems);
            status = out != NULL ? file[i].write(out, work) : DAWN_ERR_IO;
        }
    }
    if (status == DAWN_OK) {
        status = dawn_outputs_keep(&outputs, problems);
    }
    dawn_outputs_drop(&outputs);
    return status;
}

enum dawn_status dawn_cmd_nights(int argument_count, const char *const *arguments,
                                 struct dawn_problems *problems)
{
    struct dawn_options options;
    struct work work = {.options = &options};
    enum dawn_status status =
        dawn_options_parse(&options, &dawn_cmd_nights_options, argument_count, arguments, problems);

    if (status == DAWN_OK && options.help) {
        dawn_options_help(stdout, &dawn_cmd_nights_options);
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
    if (status == DAWN_OK && options.verbose) {
        put_effort(work.run);
    }
    release(&work);
    return status;
}
