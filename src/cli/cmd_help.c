/* dawnlow help, dawnlow --version, and finding a command by its name. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "cli/options.h"
#include "cli/topics.h"
#include "dawnlow/trajectory.h"
#include "dawnlow/version.h"

static const char *const examples[] = {"dawnlow help", "dawnlow help nights",
                                       "dawnlow help weather", NULL};
const struct dawn_options_command dawn_cmd_help_options = {
    .name = "help",
    .operands = "[COMMAND|TOPIC]",
    .purpose = "What the program can do, or more about one command or one topic.",
    .examples = examples,
    .operands_most = 1,
};

static size_t command_count(void)
{
    size_t count = 0;

    while (dawn_main_commands[count].name != NULL) {
        count++;
    }
    return count;
}

static bool is_command(const char *name)
{
    for (size_t i = 0; i < command_count(); i++) {
        if (strcmp(dawn_main_commands[i].name, name) == 0) {
            return true;
        }
    }
    return false;
}

const struct dawn_cmd *dawn_cmd_named(const char *name, struct dawn_problems *problems)
{
    const size_t count = command_count();
    struct dawn_text hint = {0};

    for (size_t i = 0; i < count; i++) {
        if (strcmp(dawn_main_commands[i].name, name) == 0) {
            return &dawn_main_commands[i];
        }
    }
    const char *nearest = dawn_options_nearest(name, &dawn_main_commands[0].name, count,
                                               sizeof dawn_main_commands[0]);
    if (nearest != NULL) {
        dawn_text_add(&hint, "did you mean 'dawnlow %s'?", nearest);
    } else {
        dawn_text_add(&hint, "dawnlow --help shows the commands");
    }
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, hint.data,
                      "unknown %s '%s'", name[0] == '-' ? "option" : "command", name);
    dawn_text_release(&hint);
    return NULL;
}

static void put_topics(void)
{
    size_t count = 0;
    const struct dawn_topic *topics = dawn_topics(&count);

    fputs("\nTopics for dawnlow help\n ", stdout);
    for (size_t i = 0; i < count; i++) {
        printf(" %s", topics[i].name);
    }
    fputc('\n', stdout);
}

static void put_overview(void)
{
    fputs("How cold an unheated nursery gets at night, from a description of the house\n"
          "and hourly weather.\n"
          "\n"
          "For example\n"
          "  dawnlow new nursery.yaml\n"
          "  dawnlow check nursery.yaml\n"
          "  dawnlow nights nursery.yaml --weather march.csv\n"
          "  dawnlow nights nursery.yaml --weather march.csv --set \"rock.mass=12 t\"\n"
          "  dawnlow explain fan.on_at\n"
          "\n"
          "Commands\n",
          stdout);
    for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
        printf("  %-10s %s\n", dawn_main_commands[i].name, dawn_main_commands[i].help);
    }
    put_topics();
    fputs("\n"
          "dawnlow COMMAND --help tells what a command takes. dawnlow --version.\n"
          "Exit status: 0 done, 2 the command line or a file needs mending, 3 no result,\n"
          "10 a chance above --fail-above.\n"
          "The result is a model's estimate: keep an alarm thermometer.\n",
          stdout);
}

enum dawn_status dawn_cmd_help(int argument_count, const char *const *arguments,
                               struct dawn_problems *problems)
{
    const char *const help[] = {"--help"};

    if (argument_count == 0 || arguments[0][0] == '-') {
        put_overview();
        return DAWN_OK;
    }
    size_t count = 0;
    const struct dawn_topic *topics = dawn_topics(&count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(topics[i].name, arguments[0]) == 0) {
            topics[i].put();
            return DAWN_OK;
        }
    }
    const char *nearest =
        dawn_options_nearest(arguments[0], &topics[0].name, count, sizeof topics[0]);
    if (nearest != NULL && !is_command(arguments[0])) {
        struct dawn_text hint = {0};
        dawn_text_add(&hint, "did you mean 'dawnlow help %s'?", nearest);
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, hint.data,
                          "there is no command and no topic '%s'", arguments[0]);
        dawn_text_release(&hint);
        return DAWN_ERR_USAGE;
    }
    const struct dawn_cmd *command = dawn_cmd_named(arguments[0], problems);
    if (command == NULL) {
        return DAWN_ERR_USAGE;
    }
    if (command->run == dawn_cmd_help) {
        put_overview();
        return DAWN_OK;
    }
    return command->run(1, help, problems);
}

enum dawn_status dawn_cmd_version(int argument_count, const char *const *arguments,
                                  struct dawn_problems *problems)
{
    (void)argument_count;
    (void)arguments;
    (void)problems;
    printf("dawnlow %s\nsolver SUNDIALS CVODE %s\n", DAWN_VERSION,
           dawn_trajectory_solver_version());
    return DAWN_OK;
}
