/* dawnlow(1): every command with its options, exit statuses, words, common messages, cautions. */
#include <stdio.h>

#include "cli/cmd.h"
#include "cli/lexicon.h"
#include "cli/manual.h"
#include "cli/mdoc.h"
#include "dawnlow/problems.h"
#include "report/report_parts.h"

static void put_option(const struct dawn_option *option)
{
    char line[256];
    char letter[16] = "";

    if (option->letter != '\0') {
        (void)snprintf(letter, sizeof letter, "-%c , ", option->letter);
    }
    (void)snprintf(line, sizeof line, "%s--%s %s", letter, option->name,
                   option->argument != NULL ? option->argument : "");
    dawn_mdoc_entry(line);
    dawn_mdoc_text(option->help);
}

static void put_command(const struct dawn_cmd *command)
{
    const struct dawn_options_command *options = command->options;
    char use[256];

    dawn_mdoc_macro("Ss", command->name);
    dawn_mdoc_text(options->purpose);
    (void)snprintf(use, sizeof use, "dawnlow %s %s%s", command->name, options->operands,
                   options->option_count > 0 ? " [OPTIONS]" : "");
    puts(".Pp");
    dawn_mdoc_code(use);
    if (options->option_count > 0) {
        dawn_mdoc_list();
        for (size_t i = 0; i < options->option_count; i++) {
            put_option(&options->option[i]);
        }
        dawn_mdoc_list_end();
    }
    if (options->notes != NULL) {
        puts(".Pp");
        dawn_mdoc_text(options->notes);
    }
}

static void put_commands(void)
{
    size_t count = 0;
    const struct dawn_option *common = dawn_options_common(&count);

    puts(".Sh COMMANDS");
    dawn_mdoc_text("Every command takes:");
    dawn_mdoc_list();
    for (size_t i = 0; i < count; i++) {
        put_option(&common[i]);
    }
    dawn_mdoc_list_end();
    for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
        put_command(&dawn_main_commands[i]);
    }
}

static void put_statuses(void)
{
    static const enum dawn_status all[] = {
#define MANUAL_STATUS(name, exit_status, meaning) name,
        DAWN_STATUS_LIST(MANUAL_STATUS)
#undef MANUAL_STATUS
    };

    puts(".Sh EXIT STATUS");
    dawn_mdoc_list();
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        char number[16];
        (void)snprintf(number, sizeof number, "%d", dawn_problems_exit_status(all[i]));
        dawn_mdoc_entry(number);
        dawn_mdoc_text(dawn_problems_meaning(all[i]));
    }
    dawn_mdoc_list_end();
    dawn_mdoc_text("With 2 nothing is written or lost.");
}

static void put_environment(void)
{
    puts(".Sh ENVIRONMENT");
    dawn_mdoc_list();
    dawn_mdoc_entry("LC_ALL, LC_CTYPE, LANG");
    dawn_mdoc_text("On a terminal that speaks UTF-8 pictures are drawn with finer characters.");
    dawn_mdoc_text("Numbers and dates never follow the locale.");
    dawn_mdoc_entry("NO_COLOR");
    dawn_mdoc_text("Changes nothing: the program writes no colours, only words and characters.");
    dawn_mdoc_list_end();
}

/* A command, and what it prints where that is told (options.h). */
static void put_example(const char *const *examples, size_t *at)
{
    dawn_mdoc_code(examples[*at]);
    if (examples[*at + 1] == NULL || examples[*at + 1][0] != ' ') {
        return;
    }
    puts(".Bd -literal -offset indent");
    for (; examples[*at + 1] != NULL && examples[*at + 1][0] == ' '; ++*at) {
        dawn_mdoc_line(examples[*at + 1] + 1);
    }
    puts(".Ed");
}

static void put_examples(void)
{
    puts(".Sh EXAMPLES");
    for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
        const char *const *examples = dawn_main_commands[i].options->examples;
        for (size_t k = 0; examples[k] != NULL; k++) {
            put_example(examples, &k);
        }
    }
}

static void put_entries(const struct dawn_lexicon *entries, size_t count)
{
    dawn_mdoc_list();
    for (size_t i = 0; i < count; i++) {
        dawn_mdoc_entry(entries[i].term);
        dawn_mdoc_text(entries[i].meaning);
    }
    dawn_mdoc_list_end();
}

static void put_lexicon(void)
{
    size_t count = 0;
    const struct dawn_lexicon *complaints = dawn_lexicon_complaints(&count);

    puts(".Sh DIAGNOSTICS");
    dawn_mdoc_text("Mistakes are told all at once, each with its file, line and column, what was "
                   "found, what is expected and a hint. Some that are met often:");
    put_entries(complaints, count);
    puts(".Sh WORDS");
    const struct dawn_lexicon *words = dawn_lexicon_words(&count);
    put_entries(words, count);
}

static void put_cautions(void)
{
    size_t count = 0;
    const struct dawn_report_caution *cautions = dawn_report_cautions(&count);

    puts(".Sh SAFETY");
    dawn_mdoc_list();
    for (size_t i = 0; i < count; i++) {
        dawn_mdoc_entry(cautions[i].title);
        dawn_mdoc_text(cautions[i].text);
    }
    dawn_mdoc_list_end();
    dawn_mdoc_text(dawn_report_deference());
}

void dawn_manual_program(void)
{
    static const char *const see[] = {"dawnlow-scenario 5", "dawnlow-weather 5",
                                      "dawnlow-tutorial 7", NULL};

    dawn_mdoc_head("dawnlow", 1, "how low the nights go in an unheated nursery",
                   ".Nm\n.Ar command\n.Op Ar options\n.Nm\n.Fl \\-help\n.Nm\n.Fl \\-version\n");
    dawn_mdoc_text(
        "A small market grower raises seedlings in a glazed nursery without a heater. By "
        "day a fan blows the warm air from under the ridge through beds of rock; rock "
        "and barrels of water give the heat back by night. From a description of the "
        "house and hourly weather dawnlow tells for every night how low it goes at the "
        "trays, at the leaves, in the air and at the roots, how near to freezing that "
        "is, and where the heat came from. It is a model's estimate: keep an alarm "
        "thermometer.");
    put_commands();
    put_environment();
    put_statuses();
    put_examples();
    put_lexicon();
    dawn_mdoc_see(see);
    put_cautions();
}
