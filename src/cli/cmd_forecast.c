/* dawnlow forecast: the coming nights as chances. */
#include "cli/cmd.h"
#include "cli/coming.h"
#include "cli/coming_nights.h"

static const struct dawn_option table[] = {
    DAWN_COMING_WEATHER,
    DAWN_STUDY_SET,
    DAWN_STUDY_UNITS,
    {.name = "brief",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = DAWN_STUDY_OPTION_AT(brief),
     .help = "one line, short enough for a text message"},
    DAWN_STUDY_FORMATS,
    DAWN_COMING_ALARM,
    DAWN_STUDY_OUTPUT,
    DAWN_STUDY_HTML,
    DAWN_STUDY_THREADS,
    DAWN_STUDY_ENGINE_FAST,
    DAWN_COMING_ENSEMBLE,
};
static const char *const examples[] = {
    "dawnlow forecast nursery.yaml --weather week.csv --history march.csv",
    "dawnlow forecast nursery.yaml --weather week.csv --now rock=14C,barrels=9C",
    "dawnlow forecast nursery.yaml --weather week.csv --html week.html",
    "dawnlow forecast nursery.yaml --weather week.csv --brief --fail-above 20%", NULL};
const struct dawn_options_command dawn_cmd_forecast_options = {
    .name = "forecast",
    .operands = "SCENARIO",
    .purpose = "Which of the coming nights may do harm: the nights of a forecast are run again and "
               "again, each time with forecast and scenario a little different, as far as both may "
               "be off (section forecast: of the scenario).",
    .examples = examples,
    .notes = "A night's low is told as the one that 1, 5 and 9 of 10 runs stay below. A chance is "
             "the share of runs in which a crop is harmed at its leaves (where none are reckoned: "
             "at the trays, else in the air). The errors' sizes are common practice until you put "
             "your own into the scenario. Keep an alarm thermometer.",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

struct own {
    struct dawn_forecast forecast;
    struct dawn_coming_nights nights; /* for the page */
    uint64_t seed;
};

static enum dawn_status run(struct dawn_study *study, struct dawn_problems *problems)
{
    struct own *own = study->own;
    struct dawn_forecast *forecast = &own->forecast;
    struct dawn_forecast_plan plan;
    int64_t now_s = 0;
    enum dawn_status status = dawn_coming_settle(study, &now_s, problems);

    if (status == DAWN_OK) {
        status = dawn_coming_plan(study, now_s, &plan, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_coming_nights_begin(&own->nights, study, &plan, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_forecast_find(forecast, &study->inputs.scenario, &study->inputs.weather,
                                    &plan, problems);
    }
    if (status != DAWN_OK) {
        return status;
    }
    if (forecast->stopped) {
        return dawn_coming_stopped(problems);
    }
    if (forecast->nights == 0) {
        return dawn_study_no_night(problems);
    }
    own->seed = plan.seed;
    return dawn_coming_nights_find(&own->nights, study, &plan,
                                   forecast->night[forecast->worst].dusk_s, problems);
}

static struct dawn_forecast_story story_of(const struct dawn_study *study)
{
    const struct own *own = study->own;

    return (struct dawn_forecast_story){.scenario = &study->inputs.scenario,
                                        .weather = &study->inputs.weather,
                                        .forecast = &own->forecast,
                                        .history = study->options.history,
                                        .readings = study->options.now,
                                        .overrides = study->options.set,
                                        .override_count = study->options.set_count,
                                        .seed = own->seed};
}

static void write(FILE *out, const struct dawn_study *study)
{
    const struct dawn_forecast_story story = story_of(study);

    if (study->options.brief) {
        dawn_report_forecast_brief(out, dawn_study_units(&study->options), &story);
        return;
    }
    dawn_report_forecast(out, dawn_study_format(&study->options), dawn_study_units(&study->options),
                         &story);
}

static enum dawn_status page(FILE *out, const struct dawn_study *study)
{
    const struct own *own = study->own;
    const struct dawn_forecast_story story = story_of(study);
    const struct dawn_nights_story nights = dawn_coming_nights_story(&own->nights, study);

    return dawn_report_forecast_page(out, dawn_study_units(&study->options), &story, &nights);
}

static enum dawn_status verdict(const struct dawn_study *study, struct dawn_problems *problems)
{
    const struct own *own = study->own;
    const struct dawn_forecast *forecast = &own->forecast;

    return dawn_coming_alarm(&study->options, forecast->night[forecast->worst].any_harmed,
                             "the worst night's chance", problems);
}

enum dawn_status dawn_cmd_forecast(int argument_count, const char *const *arguments,
                                   struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {.command = &dawn_cmd_forecast_options,
                                                  .check = dawn_coming_check,
                                                  .run = run,
                                                  .write = write,
                                                  .page = page,
                                                  .verdict = verdict};
    struct own own = {.seed = 0};
    const enum dawn_status status =
        dawn_study_run(&steps, &own, argument_count, arguments, problems);

    dawn_forecast_release(&own.forecast);
    dawn_coming_nights_release(&own.nights);
    return status;
}
