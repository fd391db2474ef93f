/* dawnlow completion: what bash, zsh and fish need to complete its command line, from the table of
 * commands. */
#include <stdio.h>
#include <string.h>

#include "cli/cmd.h"
#include "cli/manual.h"
#include "cli/topics.h"
#include "dawnlow/scenario.h"

static const char *const examples[] = {
    "dawnlow completion bash >~/.local/share/bash-completion/completions/dawnlow",
    "dawnlow completion fish >~/.config/fish/completions/dawnlow.fish", NULL};
const struct dawn_options_command dawn_cmd_completion_options = {
    .name = "completion",
    .operands = "bash|zsh|fish",
    .purpose = "Writes what a shell needs to complete commands, options and keys when you press "
               "Tab. make install puts it in place for all users.",
    .examples = examples,
    .operands_least = 1,
    .operands_most = 1,
};

/* ---- words in a row ---- */

/* Calls put for each word that may stand as the operand of a command; none: a file. */
static void each_operand(const struct dawn_cmd *command, void (*put)(const char *word))
{
    size_t count = 0;

    if (command->run == dawn_cmd_help) {
        const struct dawn_topic *topics = dawn_topics(&count);
        for (size_t i = 0; i < count; i++) {
            put(topics[i].name);
        }
        for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
            put(dawn_main_commands[i].name);
        }
    } else if (command->run == dawn_cmd_explain) {
        const struct dawn_key *keys = dawn_scenario_keys(&count);
        for (size_t i = 0; i < count; i++) {
            char name[2 * DAWN_NAME_SIZE];
            (void)snprintf(name, sizeof name, "%s%s%s", keys[i].section,
                           keys[i].section[0] != '\0' ? "." : "", keys[i].name);
            put(name);
        }
    } else if (command->run == dawn_cmd_manual) {
        const struct dawn_manual *pages = dawn_manual_pages(&count);
        for (size_t i = 0; i < count; i++) {
            put(pages[i].name);
        }
    } else if (command->run == dawn_cmd_completion) {
        put("bash");
        put("zsh");
        put("fish");
    }
}

static bool takes_words(const struct dawn_cmd *command)
{
    return command->run == dawn_cmd_help || command->run == dawn_cmd_explain ||
           command->run == dawn_cmd_manual || command->run == dawn_cmd_completion;
}

/* "rock.mass= ", every key that --set takes as it stands: not those of lists, whose items have
 * names of their own. */
static void put_keys(void)
{
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);

    for (size_t i = 0; i < count; i++) {
        char item[3 * DAWN_NAME_SIZE];
        char plain[3 * DAWN_NAME_SIZE];
        (void)snprintf(item, sizeof item, "%s.1.%s", keys[i].section, keys[i].name);
        if (keys[i].section[0] != '\0' && strchr(keys[i].section, '.') == NULL &&
            !dawn_scenario_plain_key(item, plain, sizeof plain)) {
            printf("%s.%s= ", keys[i].section, keys[i].name);
        }
    }
}

/* What may follow an option. */
enum after { AFTER_NOTHING, AFTER_FILE, AFTER_WORDS, AFTER_KEYS, AFTER_ANYTHING };

static enum after after(const struct dawn_option *option)
{
    if (option->argument != NULL && strncmp(option->argument, "KEY=", 4) == 0) {
        return AFTER_KEYS;
    }
    switch (option->kind) {
    case DAWN_OPTIONS_FLAG:
        return AFTER_NOTHING;
    case DAWN_OPTIONS_TEXT:
    case DAWN_OPTIONS_PHRASES:
        return AFTER_FILE;
    case DAWN_OPTIONS_CHOICE:
        return AFTER_WORDS;
    default:
        return AFTER_ANYTHING;
    }
}

/* "metric|us" with blanks between. */
static void put_words(const char *words)
{
    for (const char *c = words; *c != '\0'; c++) {
        putchar(*c == '|' ? ' ' : *c);
    }
}

static void put_spaced(const char *word)
{
    printf("%s ", word);
}

/* Calls put for every option of a command, its own and those that all have. */
static void each_option(const struct dawn_cmd *command,
                        void (*put)(const char *command, const struct dawn_option *option))
{
    size_t count = 0;
    const struct dawn_option *common = dawn_options_common(&count);

    for (size_t i = 0; i < command->options->option_count; i++) {
        put(command->name, &command->options->option[i]);
    }
    for (size_t i = 0; i < count; i++) {
        put(command->name, &common[i]);
    }
}

/* ---- bash ---- */

static void bash_option(const char *command, const struct dawn_option *option)
{
    (void)command;
    printf("--%s ", option->name);
    if (option->letter != '\0') {
        printf("-%c ", option->letter);
    }
}

static void bash_after(const char *command, const struct dawn_option *option)
{
    if (after(option) == AFTER_NOTHING) {
        return;
    }
    printf("    %s:--%s", command, option->name);
    if (option->letter != '\0') {
        printf(" | %s:-%c", command, option->letter);
    }
    fputs(") ", stdout);
    if (after(option) == AFTER_FILE) {
        fputs("mapfile -t COMPREPLY < <(compgen -f -- \"$word\")", stdout);
    } else if (after(option) == AFTER_WORDS) {
        fputs("COMPREPLY=($(compgen -W \"", stdout);
        put_words(option->words);
        fputs("\" -- \"$word\"))", stdout);
    } else if (after(option) == AFTER_KEYS) {
        fputs("COMPREPLY=($(compgen -W \"$keys\" -- \"$word\"))\n        compopt -o nospace",
              stdout);
    }
    fputs("\n        return ;;\n", stdout);
}

static void put_bash(void)
{
    fputs("# Completion of dawnlow for bash, written by: dawnlow completion bash\n"
          "_dawnlow() {\n"
          "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
          "    local command=${COMP_WORDS[1]} options= operands=\n"
          "    local keys=\"",
          stdout);
    put_keys();
    fputs("\"\n"
          "    COMPREPLY=()\n"
          "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
          "        COMPREPLY=($(compgen -W \"",
          stdout);
    for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
        put_spaced(dawn_main_commands[i].name);
    }
    fputs("--help --version\" -- \"$word\"))\n        return\n    fi\n"
          "    case $command:$before in\n",
          stdout);
    for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
        each_option(&dawn_main_commands[i], bash_after);
    }
    fputs("    esac\n    case $command in\n", stdout);
    for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
        printf("    %s)\n        options=\"", dawn_main_commands[i].name);
        each_option(&dawn_main_commands[i], bash_option);
        fputs("\"\n        operands=\"", stdout);
        each_operand(&dawn_main_commands[i], put_spaced);
        fputs("\" ;;\n", stdout);
    }
    fputs("    esac\n"
          "    if [ \"${word#-}\" != \"$word\" ]; then\n"
          "        COMPREPLY=($(compgen -W \"$options\" -- \"$word\"))\n"
          "    elif [ -n \"$operands\" ]; then\n"
          "        COMPREPLY=($(compgen -W \"$operands\" -- \"$word\"))\n"
          "    else\n"
          "        mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n"
          "    fi\n"
          "}\n"
          "complete -o filenames -F _dawnlow dawnlow\n",
          stdout);
}

/* ---- zsh ---- */

/* Inside '...' and inside the [...] or the colons of a specification. */
static void put_zsh(const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '\'') {
            fputs("'\\''", stdout);
        } else if (strchr("[]:\\", *c) != NULL) {
            printf("\\%c", *c);
        } else {
            putchar(*c);
        }
    }
}

static void zsh_spec(const char *dashes, const char *name, const struct dawn_option *option)
{
    const bool again = option->kind == DAWN_OPTIONS_SET || option->kind == DAWN_OPTIONS_PHRASES;

    printf("            '%s%s%s[", again ? "*" : "", dashes, name);
    put_zsh(option->help);
    putchar(']');
    if (after(option) != AFTER_NOTHING) {
        putchar(':');
        put_zsh(option->argument);
        putchar(':');
    }
    if (after(option) == AFTER_FILE) {
        fputs("_files", stdout);
    } else if (after(option) == AFTER_WORDS) {
        putchar('(');
        put_words(option->words);
        putchar(')');
    } else if (after(option) == AFTER_KEYS) {
        fputs("_dawnlow_keys", stdout);
    }
    fputs("' \\\n", stdout);
}

static void zsh_option(const char *command, const struct dawn_option *option)
{
    const char letter[2] = {option->letter, '\0'};

    (void)command;
    zsh_spec("--", option->name, option);
    if (option->letter != '\0') {
        zsh_spec("-", letter, option);
    }
}

static void put_zsh_script(void)
{
    fputs("#compdef dawnlow\n"
          "# Completion of dawnlow for zsh, written by: dawnlow completion zsh\n"
          "_dawnlow_keys() {\n    compadd -S '' -- ",
          stdout);
    put_keys();
    fputs("\n}\n"
          "_dawnlow() {\n"
          "    local -a commands=(\n",
          stdout);
    for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
        printf("        '%s:", dawn_main_commands[i].name);
        put_zsh(dawn_main_commands[i].help);
        fputs("'\n", stdout);
    }
    fputs("    )\n"
          "    if (( CURRENT == 2 )); then\n"
          "        _describe command commands\n"
          "        compadd -- --help --version\n"
          "        return\n"
          "    fi\n"
          "    shift words\n"
          "    (( CURRENT-- ))\n"
          "    case $words[1] in\n",
          stdout);
    for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
        printf("    %s)\n        _arguments \\\n", dawn_main_commands[i].name);
        each_option(&dawn_main_commands[i], zsh_option);
        fputs("            '*:", stdout);
        if (takes_words(&dawn_main_commands[i])) {
            fputs("word:(", stdout);
            each_operand(&dawn_main_commands[i], put_spaced);
            fputs(")' ;;\n", stdout);
        } else {
            fputs("file:_files' ;;\n", stdout);
        }
    }
    fputs("    esac\n}\n_dawnlow \"$@\"\n", stdout);
}

/* ---- fish ---- */

static void put_fish(const char *text)
{
    putchar('\'');
    for (const char *c = text; *c != '\0'; c++) {
        printf("%s%c", *c == '\'' || *c == '\\' ? "\\" : "", *c);
    }
    putchar('\'');
}

static void fish_option(const char *command, const struct dawn_option *option)
{
    printf("complete -c dawnlow -n '__fish_seen_subcommand_from %s' -l %s", command, option->name);
    if (option->letter != '\0') {
        printf(" -s %c", option->letter);
    }
    if (after(option) == AFTER_FILE) {
        fputs(" -r -F", stdout);
    } else if (after(option) == AFTER_WORDS) {
        fputs(" -x -a '", stdout);
        put_words(option->words);
        putchar('\'');
    } else if (after(option) == AFTER_KEYS) {
        fputs(" -x -a '(__dawnlow_keys)'", stdout);
    } else if (after(option) == AFTER_ANYTHING) {
        fputs(" -x", stdout);
    }
    fputs(" -d ", stdout);
    put_fish(option->help);
    putchar('\n');
}

static void put_fish_script(void)
{
    fputs("# Completion of dawnlow for fish, written by: dawnlow completion fish\n"
          "function __dawnlow_keys\n    string split -n ' ' '",
          stdout);
    put_keys();
    fputs("'\nend\n"
          "complete -c dawnlow -n __fish_use_subcommand -f\n"
          "complete -c dawnlow -n __fish_use_subcommand -l help -d 'what there is'\n"
          "complete -c dawnlow -n __fish_use_subcommand -l version -d 'the version'\n",
          stdout);
    for (size_t i = 0; dawn_main_commands[i].name != NULL; i++) {
        const struct dawn_cmd *command = &dawn_main_commands[i];
        printf("complete -c dawnlow -n __fish_use_subcommand -a %s -d ", command->name);
        put_fish(command->help);
        putchar('\n');
        if (takes_words(command)) {
            printf("complete -c dawnlow -n '__fish_seen_subcommand_from %s' -f -a '",
                   command->name);
            each_operand(command, put_spaced);
            fputs("'\n", stdout);
        }
        each_option(command, fish_option);
    }
}

enum dawn_status dawn_cmd_completion(int argument_count, const char *const *arguments,
                                     struct dawn_problems *problems)
{
    static const struct {
        const char *name;
        void (*put)(void);
    } shells[] = {{"bash", put_bash}, {"zsh", put_zsh_script}, {"fish", put_fish_script}};
    struct dawn_options options;
    const enum dawn_status status = dawn_options_parse(&options, &dawn_cmd_completion_options,
                                                       argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_completion_options);
        return DAWN_OK;
    }
    for (size_t i = 0; i < sizeof shells / sizeof shells[0]; i++) {
        if (strcmp(shells[i].name, options.operand[0]) == 0) {
            shells[i].put();
            return DAWN_OK;
        }
    }
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, "bash, zsh or fish",
                      "there is no completion for a shell '%s'", options.operand[0]);
    return DAWN_ERR_USAGE;
}
