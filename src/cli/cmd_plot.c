/* dawnlow plot: one picture, as SVG into a file or with characters on the terminal. */
#include "cli/cmd.h"
#include "cli/outputs.h"
#include "cli/study.h"
#include "cli/terminal.h"

#define AT DAWN_STUDY_OPTION_AT

/* Close enough for the fan's switching to be seen. */
static const double picture_step_s = 300.0;

static const struct dawn_option table[] = {
    {.group = "Which picture",
     .name = "what",
     .argument = "night|lows|heat|chances|guesses",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(what),
     .words = "night|lows|heat|chances|guesses",
     .help = "one night's curves; the lows of every night; where one night's heat came from and "
             "went. night when left out. Of a RESULT.json the picture its page begins with; also "
             "heat of nights, chances of a forecast, guesses of worth"},
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
    "dawnlow plot nursery.yaml --night 03-12", "dawnlow plot result.json --svg picture.svg", NULL};
const struct dawn_options_command dawn_cmd_plot_options = {
    .name = "plot",
    .operands = "SCENARIO|RESULT.json",
    .purpose = "One picture: the curves of the coldest night or of a night you name, the lows of "
               "all nights, or where a night's heat came from. Of a result written by --json: the "
               "picture of its page, without a run (nights, forecast, tonight, size, setpoint, "
               "worth, effects, compare, sweep).",
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

/* As in the option's words; a run has those of enum dawn_picture_kind, which come first. */
static const char *const whats[] = {"night", "lows", "heat", "chances", "guesses"};

static enum dawn_picture_kind kind_of(const struct dawn_options *options)
{
    return options->what >= 0 ? (enum dawn_picture_kind)options->what : DAWN_PICTURE_NIGHT;
}

static enum dawn_status refuse_heat(const struct dawn_options *options,
                                    struct dawn_problems *problems)
{
    if (kind_of(options) == DAWN_PICTURE_HEAT && options->output == NULL) {
        return dawn_study_refuse(problems,
                                 "add --svg FILE; dawnlow nights --explain DATE has it as a table",
                                 "--what heat cannot be drawn with characters");
    }
    return DAWN_OK;
}

static enum dawn_status check(const struct dawn_options *options, struct dawn_problems *problems)
{
    if (options->what > DAWN_PICTURE_HEAT) {
        return dawn_study_refuse(problems, "give the RESULT.json of forecast or worth instead",
                                 "--what chances and --what guesses are pictures of a result");
    }
    return refuse_heat(options, problems);
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

/* ---- a result that is there already ---- */

/* NULL: the picture its page begins with. */
static const char *what_of(const struct dawn_options *options)
{
    return options->what >= 0 ? whats[options->what] : NULL;
}

/* What only a run can show. */
static const char *asks_for_run(const struct dawn_options *options)
{
    const struct {
        bool asked;
        const char *name;
    } all[] = {{options->weather != NULL, "--weather"},
               {options->from.month != 0, "--from"},
               {options->to.month != 0, "--to"},
               {options->set_count > 0, "--set"},
               {options->no_fan, "--no-fan"},
               {options->explain.month != 0, "--night"},
               {options->what == DAWN_PICTURE_NIGHT, "--what night"}};

    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        if (all[i].asked) {
            return all[i].name;
        }
    }
    return NULL;
}

static enum dawn_status check_result(const struct dawn_options *options,
                                     struct dawn_problems *problems)
{
    const struct dawn_outputs_wish wish = {"svg", options->output};
    const char *only_run = asks_for_run(options);
    const struct dawn_place_in_file place = {.file = options->operand[0]};

    if (only_run != NULL) {
        dawn_problems_add(problems, DAWN_ERROR, place, "give the scenario instead",
                          "%s needs a run; a result is drawn as it is", only_run);
        return DAWN_ERR_USAGE;
    }
    const enum dawn_status status = refuse_heat(options, problems);
    return status == DAWN_OK
               ? dawn_outputs_spare(&wish, 1, options->operand, options->operand_count, problems)
               : status;
}

static enum dawn_status draw_result(FILE *out, struct dawn_result *result,
                                    const struct dawn_options *options,
                                    struct dawn_problems *problems)
{
    const enum dawn_units units = dawn_study_units(options);

    if (options->output != NULL) {
        return dawn_result_picture(out, result, units, what_of(options), problems);
    }
    return dawn_result_screen(out, result, units, what_of(options), dawn_terminal_columns(),
                              DAWN_TERMINAL_ROWS, dawn_terminal_boxes(), problems);
}

static enum dawn_status plot_result(const struct dawn_options *options,
                                    struct dawn_problems *problems)
{
    struct dawn_outputs outputs = {0};
    struct dawn_result *result = NULL;
    enum dawn_status status = check_result(options, problems);

    if (status == DAWN_OK) {
        status = dawn_result_read(&result, options->operand[0], problems);
    }
    if (status == DAWN_OK) {
        FILE *out = dawn_outputs_open(&outputs, options->output, problems);
        status = out != NULL ? draw_result(out, result, options, problems) : DAWN_ERR_IO;
    }
    if (status == DAWN_OK) {
        status = dawn_outputs_keep(&outputs, problems);
    }
    dawn_outputs_drop(&outputs);
    dawn_result_free(result);
    return status;
}

/* Whether the words ask for the picture of a result: they are read again where they do not. */
static bool names_result(struct dawn_options *options, int argument_count,
                         const char *const *arguments)
{
    struct dawn_problems unheard = {0};
    const bool result = dawn_options_parse(options, &dawn_cmd_plot_options, argument_count,
                                           arguments, &unheard) == DAWN_OK &&
                        !options->help && options->operand_count == 1 &&
                        dawn_result_is(options->operand[0]);

    dawn_problems_release(&unheard);
    return result;
}

enum dawn_status dawn_cmd_plot(int argument_count, const char *const *arguments,
                               struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {.command = &dawn_cmd_plot_options,
                                                  .output_option = "svg",
                                                  .check = check,
                                                  .run = run,
                                                  .draw = draw};
    struct dawn_options options;
    struct plot plot = {0};

    if (names_result(&options, argument_count, arguments)) {
        return plot_result(&options, problems);
    }
    const enum dawn_status status =
        dawn_study_run(&steps, &plot, argument_count, arguments, problems);

    dawn_nights_ledger_release(&plot.ledger);
    dawn_nights_release(&plot.nights);
    dawn_trajectory_free(plot.run);
    dawn_network_free(plot.network);
    return status;
}
