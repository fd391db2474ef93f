/* dawnlow network: the house as parts that hold heat and ways it takes. */
#include <math.h>
#include <stdio.h>

#include "base/civil.h"
#include "cli/cmd.h"
#include "cli/inputs.h"
#include "cli/window.h"
#include "dawnlow/network.h"
#include "dawnlow/report.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_place_in_file nowhere = {0};
enum { STATES_USUAL = 1, STATES_MOST = 10000 };
#define SEED_MOST 9007199254740992.0 /* whole numbers are exact up to there */

static const struct dawn_option table[] = {
    {.group = "What it is built from",
     .name = "weather",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(weather),
     .help = "hourly weather; the scenario's own when left out"},
    {.name = "set",
     .argument = "KEY=VALUE",
     .kind = DAWN_OPTIONS_SET,
     .help = "lay a value over the scenario, as in \"fan.on_at=24 C\"; again and again if need be"},
    {.name = "no-fan",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(no_fan),
     .help = "the house without its fan"},
    {.group = "What is shown",
     .name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "every number the calculation uses, as JSON"},
    {.name = "from",
     .argument = "DATE",
     .kind = DAWN_OPTIONS_DATE,
     .offset = AT(from),
     .help = "weather from noon of this day (YYYY-MM-DD or MM-DD)"},
    {.name = "to",
     .argument = "DATE",
     .kind = DAWN_OPTIONS_DATE,
     .offset = AT(to),
     .help = "weather to noon of this day"},
    {.group = "How fast it moves",
     .name = "rates",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(rates),
     .help = "states drawn by lot and how fast each part warms in them, as CSV, for recomputing "
             "elsewhere; fan off and on in turn"},
    {.name = "states",
     .argument = "COUNT",
     .kind = DAWN_OPTIONS_WHOLE,
     .offset = AT(states),
     .least = 1.0,
     .most = STATES_MOST,
     .help = "how many states: 1 when left out; their moments are spread over the weather shown"},
    {.name = "seed",
     .argument = "NUMBER",
     .kind = DAWN_OPTIONS_WHOLE,
     .offset = AT(seed),
     .least = 0.0,
     .most = SEED_MOST,
     .help = "other states for another number; 1 when left out"},
    {.name = "at",
     .argument = "TIME",
     .kind = DAWN_OPTIONS_MOMENT,
     .offset = AT(at),
     .help = "all at this moment (YYYY-MM-DDTHH:MM, the site's standard time)"},
    {.name = "fan-on",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(fan_on),
     .help = "the fan runs in all of them"},
};
static const char *const examples[] = {
    "dawnlow network nursery.yaml --weather march.csv",
    "dawnlow network nursery.yaml --json --from 03-01 --to 03-08",
    "dawnlow network nursery.yaml --rates --states 24 --seed 7", NULL};
const struct dawn_options_command dawn_cmd_network_options = {
    .name = "network",
    .operands = "SCENARIO",
    .purpose = "The house as it is calculated: the parts that hold heat, how much, and the ways "
               "heat takes between them.",
    .examples = examples,
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

/* ---- what the options say together ---- */

static bool wants_samples(const struct dawn_options *options)
{
    return isfinite(options->states) || isfinite(options->seed) || options->at.date.month != 0 ||
           options->fan_on;
}

static enum dawn_status check_together(const struct dawn_options *options,
                                       struct dawn_problems *problems)
{
    const char *wrong = NULL;
    const char *hint = NULL;

    if (options->rates && options->json) {
        wrong = "--rates and --json cannot both be had";
        hint = "ask twice: the JSON holds the parts, --rates their movement";
    } else if (!options->rates && wants_samples(options)) {
        wrong = "--states, --seed, --at and --fan-on are for --rates, which is not given";
        hint = "add --rates";
    } else if (options->fan_on && options->no_fan) {
        wrong = "--fan-on and --no-fan cannot both be had";
    }
    if (wrong == NULL) {
        return DAWN_OK;
    }
    dawn_problems_add(problems, DAWN_ERROR, nowhere, hint, "%s", wrong);
    return DAWN_ERR_USAGE;
}

/* ---- rates ---- */

static enum dawn_status move_to(struct dawn_window *window, const struct dawn_options_moment *at,
                                double utc_offset_h, struct dawn_problems *problems)
{
    const struct dawn_civil civil = {.year = at->date.year,
                                     .month = at->date.month,
                                     .day = at->date.day,
                                     .hour = at->hour,
                                     .minute = at->minute};
    const int64_t at_s = dawn_civil_seconds(&civil, utc_offset_h);

    if (at_s < window->from_s || at_s > window->to_s) {
        char from[32];
        char to[32];
        char hint[96];
        dawn_civil_iso(window->from_s, utc_offset_h, from);
        dawn_civil_iso(window->to_s, utc_offset_h, to);
        (void)snprintf(hint, sizeof hint, "it goes from %s to %s", from, to);
        dawn_problems_add(problems, DAWN_ERROR, nowhere, hint,
                          "--at %04d-%02d-%02dT%02d:%02d is not in the weather", at->date.year,
                          at->date.month, at->date.day, at->hour, at->minute);
        return DAWN_ERR_USAGE;
    }
    *window = (struct dawn_window){at_s, at_s};
    return DAWN_OK;
}

static enum dawn_status show_rates(const struct dawn_network *network, struct dawn_window window,
                                   const struct dawn_options *options, double utc_offset_h,
                                   struct dawn_problems *problems)
{
    struct dawn_rates rates = {0};
    enum dawn_status status = DAWN_OK;

    if (options->fan_on && !dawn_network_has_fan(network)) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere, "leave --fan-on out",
                          "the house has no fan that could run");
        return DAWN_ERR_USAGE;
    }
    if (options->at.date.month != 0) {
        status = move_to(&window, &options->at, utc_offset_h, problems);
    }
    if (status != DAWN_OK) {
        return status;
    }
    const struct dawn_rates_plan plan = {
        .from_s = window.from_s,
        .to_s = window.to_s,
        .samples = isfinite(options->states) ? (size_t)options->states : STATES_USUAL,
        .seed = isfinite(options->seed) ? (uint64_t)options->seed : 1,
        .fan = options->fan_on ? DAWN_RATES_FAN_ON : DAWN_RATES_FAN_IN_TURN,
    };
    status = dawn_rates_draw(&rates, network, &plan, problems);
    if (status == DAWN_OK) {
        dawn_report_rates(stdout, network, &rates);
    }
    dawn_rates_release(&rates);
    return status;
}

static enum dawn_status show(struct dawn_inputs *inputs, const struct dawn_options *options,
                             struct dawn_problems *problems)
{
    struct dawn_network *network = NULL;
    struct dawn_window window = {0};
    enum dawn_status status =
        dawn_network_build(&network, &inputs->scenario, &inputs->weather, problems);

    if (status == DAWN_OK) {
        const struct dawn_window covered = dawn_window_covered(network, &inputs->weather);
        status = dawn_window_find(&window, options->from, options->to, covered,
                                  inputs->scenario.site.utc_offset_h, problems);
    }
    if (status == DAWN_OK && options->rates) {
        status = show_rates(network, window, options, inputs->scenario.site.utc_offset_h, problems);
    } else if (status == DAWN_OK) {
        dawn_report_network(stdout, options->json ? DAWN_JSON : DAWN_TEXT, network, window.from_s,
                            window.to_s);
    }
    dawn_network_free(network);
    return status;
}

enum dawn_status dawn_cmd_network(int argument_count, const char *const *arguments,
                                  struct dawn_problems *problems)
{
    struct dawn_options options;
    struct dawn_inputs inputs = {0};
    enum dawn_status status = dawn_options_parse(&options, &dawn_cmd_network_options,
                                                 argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_network_options);
        return DAWN_OK;
    }
    status = check_together(&options, problems);
    if (status == DAWN_OK) {
        status = dawn_inputs_scenario(&inputs, &options, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_inputs_weather(&inputs, problems);
    }
    if (status == DAWN_OK) {
        inputs.scenario.fan.present = inputs.scenario.fan.present && !options.no_fan;
        status = show(&inputs, &options, problems);
    }
    dawn_inputs_release(&inputs);
    return status;
}
