/* dawnlow size: what to build for the least money. */
#include <math.h>

#include "cli/cmd.h"
#include "cli/study.h"

static const struct dawn_option table[] = {
    {.group = "What is wanted",
     .name = "goal",
     .argument = "GOAL",
     .kind = DAWN_OPTIONS_PHRASE,
     .offset = DAWN_STUDY_OPTION_AT(goal),
     .help =
         "\"LINE at PLACE\" or \"CROP unharmed\", then how often it may be lower: \"N nights in "
         "M springs\", \"N nights in M years\" or \"never\". Places are trays, leaves, air and "
         "roots; springs are March to May. \"0 C at trays, 1 night in 10 springs\" when left "
         "out"},
    {.name = "vary",
     .argument = "THINGS",
     .kind = DAWN_OPTIONS_PHRASE,
     .offset = DAWN_STUDY_OPTION_AT(size_vary),
     .help = "rock, stone, depth, fan, barrels, skins, edge, covers, with commas between; a range "
             "if you like: \"rock=4..20 t,barrels\". Rock, fan and barrels when left out"},
    {.name = "budget",
     .argument = "MONEY",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = DAWN_STUDY_OPTION_AT(budget),
     .measure = DAWN_MEASURE_NONE,
     .bare = true,
     .least = 0.0,
     .most = 1e9,
     .help = "no more than that, in the scenario's currency"},
    DAWN_STUDY_WEATHERS,
    DAWN_STUDY_DAYS,
    DAWN_STUDY_SET,
    DAWN_STUDY_UNITS,
    DAWN_STUDY_FORMATS,
    DAWN_STUDY_OUTPUT,
    DAWN_STUDY_HTML,
    DAWN_STUDY_THREADS,
    DAWN_STUDY_ENGINE_ROW("fast for the search and accurate for the answer"),
};
static const char *const examples[] = {
    "dawnlow size nursery.yaml --html build.html",
    "dawnlow size nursery.yaml --goal \"2 C at trays, never\"",
    "dawnlow size nursery.yaml --goal \"tomato unharmed, 1 night in 5 springs\"",
    "dawnlow size nursery.yaml --vary \"rock=4..20 t,barrels,covers\" --budget 900", NULL};
const struct dawn_options_command dawn_cmd_size_options = {
    .name = "size",
    .operands = "SCENARIO",
    .purpose = "What to build: the cheapest rock, fan, barrels, skins, board and covers that hold "
               "a goal over the weather. Says what decides it, how sure it is, what a bit more or "
               "less would do, and from where on more rock adds next to nothing.",
    .examples = examples,
    .notes = "Some hundred nurseries are run on the coldest spells and the answer over all the "
             "weather: a quarter of a minute on two cores for a season. The cost is that of all it "
             "names, "
             "at the prices in the scenario. Give as many springs of weather as there are.",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

struct own {
    struct dawn_size size;
    struct dawn_size_plan plan;
    struct dawn_size_lever lever[DAWN_SIZE_KINDS];
};

/* The demo's goal where there are trays; else the same of the air. */
static const char *goal_of(const struct dawn_study *study)
{
    if (study->options.goal != NULL) {
        return study->options.goal;
    }
    return study->inputs.scenario.trays.present ? "0 C at trays, 1 night in 10 springs"
                                                : "0 C at air, 1 night in 10 springs";
}

static enum dawn_status run(struct dawn_study *study, struct dawn_problems *problems)
{
    struct own *own = study->own;
    const struct dawn_scenario *scenario = &study->inputs.scenario;

    own->plan = (struct dawn_size_plan){.years = &study->weathers.years,
                                        .run = dawn_study_plan_fast(study),
                                        .lever = own->lever,
                                        .confirm = study->options.engine < 0,
                                        .budget = study->options.budget,
                                        .threads = dawn_study_threads(&study->options),
                                        .keep_going = dawn_progress_step,
                                        .user = &study->progress};
    enum dawn_status status = dawn_goal_read(&own->plan.goal, goal_of(study), scenario, problems);
    if (status == DAWN_OK) {
        status = dawn_size_levers(own->lever, &own->plan.levers, study->options.size_vary, scenario,
                                  problems);
    }
    return status == DAWN_OK ? dawn_size_find(&own->size, scenario, &own->plan, problems) : status;
}

static void write(FILE *out, const struct dawn_study *study)
{
    const struct own *own = study->own;
    const struct dawn_study_story story = dawn_study_story(study);

    dawn_report_size(out, dawn_study_format(&study->options), dawn_study_units(&study->options),
                     &story, &own->size, &own->plan);
}

static enum dawn_status page(FILE *out, const struct dawn_study *study)
{
    const struct own *own = study->own;
    const struct dawn_study_story story = dawn_study_story(study);

    return dawn_report_size_page(out, dawn_study_units(&study->options), &story, &own->size,
                                 &own->plan);
}

enum dawn_status dawn_cmd_size(int argument_count, const char *const *arguments,
                               struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {
        .command = &dawn_cmd_size_options, .run = run, .write = write, .page = page};
    struct own own = {.plan = {.levers = 0}};

    return dawn_study_run(&steps, &own, argument_count, arguments, problems);
}
