/* dawnlow plot: one picture, as SVG into a file or with characters on the terminal. */
#include "cli/cmd.h"
#include "cli/study.h"
#include "cli/terminal.h"

#define AT DAWN_STUDY_OPTION_AT

/* Close enough for the fan's switching to be seen. */
static const double picture_step_s = 300.0;

static const struct dawn_option table[] = {
    {.group = "Which picture",
     .name = "what",
     .argument = "night|lows|heat",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(what),
     .words = "night|lows|heat",
     .help = "one night's curves; the lows of every night; where one night's heat came from and "
             "went. night when left out"},
    {.name = "night",
     .argument = "DATE",
     .kind = DAWN_OPTIONS_DATE,
     .offset = AT(explain),
     .help = "the night of this evening; the coldest when left out"},
    DAWN_STUDY_WEATHER,
    DAWN_STUDY_DAYS,
    DAWN_STUDY_SET,
    {.name = "no-fan",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(no_fan),
     .help = "as if the fan or the power had failed"},
    {.group = "How it is shown",
     .name = "units",
     .argument = "metric|us",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(units),
     .words = "metric|us",
     .help = "C or F; metric when left out"},
    {.name = "svg",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(output),
     .help = "into a file that browsers and printers draw; it appears whole or not at all. "
             "With characters on the terminal when left out"},
};
static const char *const examples[] = {
    "dawnlow plot nursery.yaml --svg coldest.svg",
    "dawnlow plot nursery.yaml --from 03-01 --to 03-15 --what lows --svg lows.svg",
    "dawnlow plot nursery.yaml --night 03-12", NULL};
const struct dawn_options_command dawn_cmd_plot_options = {
    .name = "plot",
    .operands = "SCENARIO",
    .purpose = "One picture: the curves of the coldest night or of a night you name, the lows of "
               "all nights, or where a night's heat came from.",
    .examples = examples,
    .notes = "Braille dots on a terminal that speaks UTF-8, plain letters elsewhere, never wider "
             "than the terminal. dawnlow nights --html puts all pictures on one page.",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

struct plot {
    struct dawn_network *network;
    struct dawn_trajectory *run;
    struct dawn_nights nights;
    struct dawn_ledger ledger;
    const struct dawn_night *night;
};

static enum dawn_picture_kind kind_of(const struct dawn_options *options)
{
    return options->what >= 0 ? (enum dawn_picture_kind)options->what : DAWN_PICTURE_NIGHT;
}

static enum dawn_status check(const struct dawn_options *options, struct dawn_problems *problems)
{
    if (kind_of(options) == DAWN_PICTURE_HEAT && options->output == NULL) {
        return dawn_study_refuse(problems,
                                 "add --svg FILE; dawnlow nights --explain DATE has it as a table",
                                 "--what heat cannot be drawn with characters");
    }
    return DAWN_OK;
}

static enum dawn_status find_nights(struct dawn_study *study, struct dawn_problems *problems)
{
    struct plot *plot = study->own;
    struct dawn_trajectory_plan plan = dawn_study_plan(study);

    plan.series_step_s = picture_step_s;
    plan.fan_allowed = !study->options.no_fan;
    plan.ledger = kind_of(&study->options) == DAWN_PICTURE_HEAT;
    enum dawn_status status = dawn_network_build(&plot->network, &study->inputs.scenario,
                                                 &study->inputs.weather, problems);
    if (status == DAWN_OK) {
        status = dawn_trajectory_run(&plot->run, plot->network, &plan, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_nights_find(&plot->nights, plot->run, plot->network, &study->inputs.scenario,
                                  problems);
    }
    if (status == DAWN_OK && plot->nights.count == 0) {
        status = dawn_study_no_night(problems);
    }
    return status;
}

static enum dawn_status run(struct dawn_study *study, struct dawn_problems *problems)
{
    struct plot *plot = study->own;
    const enum dawn_status status = find_nights(study, problems);

    if (status != DAWN_OK) {
        return status;
    }
    plot->night = &plot->nights.night[dawn_nights_coldest(&plot->nights)];
    if (study->options.explain.month != 0) {
        plot->night = dawn_window_night(&plot->nights, study->options.explain,
                                        study->inputs.scenario.site.utc_offset_h, problems);
    }
    if (plot->night == NULL) {
        return DAWN_ERR_USAGE;
    }
    if (kind_of(&study->options) != DAWN_PICTURE_HEAT) {
        return DAWN_OK;
    }
    return dawn_nights_ledger(&plot->ledger, plot->night, plot->run, plot->network, problems);
}

static enum dawn_status draw(FILE *out, const struct dawn_study *study)
{
    const struct plot *plot = study->own;
    const struct dawn_options *options = &study->options;
    const enum dawn_picture_kind kind = kind_of(options);
    const enum dawn_units units = dawn_study_units(options);
    const struct dawn_nights_story story = {.scenario = &study->inputs.scenario,
                                            .weather = &study->inputs.weather,
                                            .network = plot->network,
                                            .run = plot->run,
                                            .nights = &plot->nights,
                                            .ledger = &plot->ledger,
                                            .explained = plot->night,
                                            .fan_kept_off = options->no_fan};

    if (options->output != NULL) {
        return dawn_report_picture(out, kind, units, &story, plot->night);
    }
    return dawn_report_screen(out, kind, units, &story, plot->night, dawn_terminal_columns(),
                              DAWN_TERMINAL_ROWS, dawn_terminal_boxes());
}

enum dawn_status dawn_cmd_plot(int argument_count, const char *const *arguments,
                               struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {.command = &dawn_cmd_plot_options,
                                                  .output_option = "svg",
                                                  .check = check,
                                                  .run = run,
                                                  .draw = draw};
    struct plot plot = {0};
    const enum dawn_status status =
        dawn_study_run(&steps, &plot, argument_count, arguments, problems);

    dawn_nights_ledger_release(&plot.ledger);
    dawn_nights_release(&plot.nights);
    dawn_trajectory_free(plot.run);
    dawn_network_free(plot.network);
    return status;
}
