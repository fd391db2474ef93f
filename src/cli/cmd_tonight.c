/* dawnlow tonight: what to do this evening. */
#include <math.h>

#include "cli/cmd.h"
#include "cli/coming.h"
#include "cli/coming_nights.h"
#include "dawnlow/studies/tonight.h"

static const struct dawn_option table[] = {
    DAWN_COMING_WEATHER,
    DAWN_STUDY_SET,
    DAWN_STUDY_UNITS,
    {.name = "brief",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = DAWN_STUDY_OPTION_AT(brief),
     .help = "the decision alone, for a text message"},
    DAWN_STUDY_FORMATS,
    DAWN_COMING_ALARM,
    DAWN_STUDY_OUTPUT,
    DAWN_STUDY_HTML,
    DAWN_STUDY_THREADS,
    DAWN_STUDY_ENGINE_FAST,
    DAWN_COMING_ENSEMBLE,
};
static const char *const examples[] = {
    "dawnlow tonight nursery.yaml --weather week.csv --history march.csv",
    "dawnlow tonight nursery.yaml --weather week.csv --now rock=14C,air=6C",
    "dawnlow tonight nursery.yaml --weather week.csv --html tonight.html",
    "dawnlow tonight nursery.yaml --set \"forecast.accepted_risk=5 %\"", NULL};
const struct dawn_options_command dawn_cmd_tonight_options = {
    .name = "tonight",
    .operands = "SCENARIO",
    .purpose = "What to do this evening: the night is run with nothing done and with each of the "
               "scenario's actions (section actions:), with the same weather and the same errors "
               "for all, and the cheapest that leaves no more than the accepted risk is marked.",
    .examples = examples,
    .notes = "Tonight is the first night of the forecast that begins after now. An action begins "
             "at its hour or at sunset, on the next whole hour of the forecast. --fail-above looks "
             "at the chance with nothing done. Keep an alarm thermometer.",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

struct own {
    struct dawn_tonight tonight;
    struct dawn_coming_nights nights; /* for the page */
    uint64_t seed;
};

/* Later nights are not asked for: their weather only costs time. */
static void cut_to_tonight(struct dawn_study *study, int64_t now_s)
{
    const int64_t end_s = now_s + INT64_C(48) * 3600;
    struct dawn_weather *weather = &study->inputs.weather;

    if (end_s > weather->first_s && (end_s - weather->first_s) / 3600 < (int64_t)weather->count) {
        weather->count = (size_t)((end_s - weather->first_s) / 3600);
    }
    const int64_t last_s = weather->first_s + (int64_t)(weather->count - 1) * 3600;
    const int64_t means_s = weather->mean_first_s + (int64_t)weather->count * 3600;
    study->window.to_s = last_s < means_s ? last_s : means_s;
}

static enum dawn_status run(struct dawn_study *study, struct dawn_problems *problems)
{
    struct own *own = study->own;
    struct dawn_tonight *tonight = &own->tonight;
    struct dawn_forecast_plan plan;
    int64_t now_s = 0;
    enum dawn_status status = dawn_coming_settle(study, &now_s, problems);

    if (status == DAWN_OK) {
        cut_to_tonight(study, now_s);
        status = dawn_coming_plan(study, now_s, &plan, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_coming_nights_begin(&own->nights, study, &plan, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_tonight_find(tonight, &study->inputs.scenario, &study->inputs.weather, &plan,
                                   problems);
    }
    if (status != DAWN_OK) {
        return status;
    }
    if (tonight->stopped) {
        return dawn_coming_stopped(problems);
    }
    if (tonight->dusk_s == 0) {
        return dawn_study_no_night(problems);
    }
    own->seed = plan.seed;
    plan.run.to_s = tonight->until_s;
    return dawn_coming_nights_find(&own->nights, study, &plan, tonight->dusk_s, problems);
}

static struct dawn_tonight_story story_of(const struct dawn_study *study)
{
    const struct own *own = study->own;

    return (struct dawn_tonight_story){.scenario = &study->inputs.scenario,
                                       .weather = &study->inputs.weather,
                                       .tonight = &own->tonight,
                                       .history = study->options.history,
                                       .readings = study->options.now,
                                       .overrides = study->options.set,
                                       .override_count = study->options.set_count,
                                       .seed = own->seed};
}

static void write(FILE *out, const struct dawn_study *study)
{
    const struct dawn_tonight_story story = story_of(study);

    if (study->options.brief) {
        dawn_report_tonight_brief(out, &story);
        return;
    }
    dawn_report_tonight(out, dawn_study_format(&study->options), dawn_study_units(&study->options),
                        &story);
}

static enum dawn_status page(FILE *out, const struct dawn_study *study)
{
    const struct own *own = study->own;
    const struct dawn_tonight_story story = story_of(study);
    const struct dawn_nights_story nights = dawn_coming_nights_story(&own->nights, study);

    return dawn_report_tonight_page(out, dawn_study_units(&study->options), &story, &nights);
}

static enum dawn_status verdict(const struct dawn_study *study, struct dawn_problems *problems)
{
    const struct own *own = study->own;
    const struct dawn_tonight *tonight = &own->tonight;

    return dawn_coming_alarm(&study->options, tonight->row[tonight->nothing].harmed,
                             "tonight's chance with nothing done", problems);
}

enum dawn_status dawn_cmd_tonight(int argument_count, const char *const *arguments,
                                  struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {.command = &dawn_cmd_tonight_options,
                                                  .check = dawn_coming_check,
                                                  .run = run,
                                                  .write = write,
                                                  .page = page,
                                                  .verdict = verdict};
    struct own own = {.seed = 0};
    const enum dawn_status status =
        dawn_study_run(&steps, &own, argument_count, arguments, problems);

    dawn_coming_nights_release(&own.nights);
    return status;
}
