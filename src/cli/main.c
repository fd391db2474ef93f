/* dawnlow: how low the nights go in an unheated nursery. The table of commands, and dispatch. */
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "cli/cmd.h"
#include "cli/output.h"
#include "dawnlow/report.h"

const struct dawn_cmd dawn_main_commands[] = {
    {"new", dawn_cmd_new, "write a scenario from a few questions", &dawn_cmd_new_options},
    {"nights", dawn_cmd_nights, "how cold each night gets, and where", &dawn_cmd_nights_options},
    {"forecast", dawn_cmd_forecast, "the coming nights as chances, from a forecast",
     &dawn_cmd_forecast_options},
    {"tonight", dawn_cmd_tonight, "what to do this evening: each action and its chance",
     &dawn_cmd_tonight_options},
    {"offset", dawn_cmd_offset, "how much colder the nights are here than at the station",
     &dawn_cmd_offset_options},
    {"crops", dawn_cmd_crops, "what seedlings bear and want, with sources",
     &dawn_cmd_crops_options},
    {"effects", dawn_cmd_effects, "which effect matters: each is left out in turn",
     &dawn_cmd_effects_options},
    {"plot", dawn_cmd_plot, "a picture of a night, of all nights, or of the heat",
     &dawn_cmd_plot_options},
    {"compare", dawn_cmd_compare, "nurseries side by side: only what differs",
     &dawn_cmd_compare_options},
    {"sweep", dawn_cmd_sweep, "values varied over ranges: a row a nursery",
     &dawn_cmd_sweep_options},
    {"gather", dawn_cmd_gather, "put the parts of a sweep together", &dawn_cmd_gather_options},
    {"size", dawn_cmd_size, "what to build for the least money so that a goal is held",
     &dawn_cmd_size_options},
    {"setpoint", dawn_cmd_setpoint, "at what temperature the fan should start and stop",
     &dawn_cmd_setpoint_options},
    {"worth", dawn_cmd_worth, "which improvement is worth its money, and what to measure next",
     &dawn_cmd_worth_options},
    {"check", dawn_cmd_check, "look over a scenario and show how it was understood",
     &dawn_cmd_check_options},
    {"show", dawn_cmd_show, "a sketch of the house, heat lost and stored, weights",
     &dawn_cmd_show_options},
    {"weather", dawn_cmd_weather, "look over a weather file and show how it was understood",
     &dawn_cmd_weather_options},
    {"fan", dawn_cmd_fan, "whether the fan suits its rock, its ducts and the sun",
     &dawn_cmd_fan_options},
    {"explain", dawn_cmd_explain, "what a key of a scenario means and may be",
     &dawn_cmd_explain_options},
    {"network", dawn_cmd_network, "the parts of the house that hold heat and the ways it takes",
     &dawn_cmd_network_options},
    {"manual", dawn_cmd_manual, "its manual pages, as man reads them", &dawn_cmd_manual_options},
    {"completion", dawn_cmd_completion, "what a shell needs to complete its command line",
     &dawn_cmd_completion_options},
    {"help", dawn_cmd_help, "this, or more about one command", &dawn_cmd_help_options},
    {NULL, NULL, NULL, NULL},
};

/* A closed stream's number would be given to the next file opened, and the result would be mixed
 * into it. Read-only, so that writing to it is still noticed as a failure. */
static void hold_closed_streams(void)
{
    for (int stream = 0; stream <= 2; stream++) {
        if (fcntl(stream, F_GETFD) == -1) {
            (void)open("/dev/null", O_RDONLY);
        }
    }
}

static enum dawn_status dispatch(int argument_count, const char *const *arguments,
                                 struct dawn_problems *problems)
{
    if (argument_count == 0) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                          "dawnlow --help shows the commands", "no command is given");
        return DAWN_ERR_USAGE;
    }
    if (strcmp(arguments[0], "--help") == 0 || strcmp(arguments[0], "-h") == 0) {
        return dawn_cmd_help(0, NULL, problems);
    }
    if (strcmp(arguments[0], "--version") == 0) {
        return dawn_cmd_version(0, NULL, problems);
    }
    const struct dawn_cmd *command = dawn_cmd_named(arguments[0], problems);
    if (command == NULL) {
        return DAWN_ERR_USAGE;
    }
    return command->run(argument_count - 1, arguments + 1, problems);
}

int main(int argc, char **argv)
{
    const int count = argc > 0 ? argc - 1 : 0;
    struct dawn_problems problems = {0};
    struct dawn_output standard = {.stream = stdout};

    dawn_memory_keep();
    hold_closed_streams();
    (void)signal(SIGPIPE, SIG_IGN); /* a reader that has gone is told like a full disk */
    enum dawn_status status = dispatch(count, (const char *const *)(argv + (argc > 0)), &problems);
    if (status == DAWN_OK) {
        status = dawn_output_arrived(&standard, &problems);
    }
    if (status != DAWN_OK && status != DAWN_ALARM && problems.errors == 0) {
        dawn_problems_add(&problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL, "%s",
                          dawn_problems_meaning(status));
    }
    dawn_problems_sort(&problems);
    dawn_report_problems(stderr, &problems);
    dawn_problems_release(&problems);
    return dawn_problems_exit_status(status);
}
