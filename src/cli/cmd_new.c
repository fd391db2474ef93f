/* dawnlow new: a scenario from a few questions. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/ask.h"
#include "cli/cmd.h"
#include "cli/output.h"
#include "cli/samples.h"
#include "cli/terminal.h"
#include "dawnlow/report.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_option table[] = {
    {.group = "Answers without a dialogue; what is not answered takes its default",
     .name = "answers",
     .argument = "ANSWERS",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(answers),
     .help = "a file of lines such as 'size: 33 x 20 ft'"},
    {.name = "answer",
     .argument = "QUESTION=ANSWER",
     .kind = DAWN_OPTIONS_SET,
     .help = "one answer, as in \"barrels=14 of 55 gal\"; again and again if need be"},
    {.name = "questions",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(questions),
     .help = "write no scenario; list the questions as a file of answers to fill in"},
    {.group = "Units",
     .name = "units",
     .argument = "metric|us",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(units),
     .words = "metric|us",
     .help = "units of the defaults and of the file; left out, those the house is measured in"},
};
static const char *const examples[] = {
    "dawnlow new", "dawnlow new nursery.yaml --answer \"size=33 x 20 ft\" --answer barrels=14",
    "dawnlow new nursery.yaml --answers answers.txt", NULL};
const struct dawn_options_command dawn_cmd_new_options = {
    .name = "new",
    .operands = "[FILE]",
    .purpose =
        "Asks where the nursery is, how large, what it is made of and what stands in it, in feet "
        "or "
        "metres, tons, cubic yards or loads, and writes a scenario with remarks into FILE "
        "(nursery.yaml when left out). Enter takes the answer in brackets, ? tells more, < goes "
        "back. A file that is there already is never overwritten.",
    .examples = examples,
    .notes = "Answers may also come through a pipe, a line each.",
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

static enum dawn_status refuse_to_overwrite(const char *path, struct dawn_problems *problems)
{
    struct stat state;

    if (lstat(path, &state) != 0) {
        return DAWN_OK;
    }
    const struct dawn_place_in_file place = {.file = path};
    dawn_problems_add(problems, DAWN_ERROR, place, "name another: dawnlow new other.yaml",
                      "is there already and is not overwritten");
    return DAWN_ERR_IO;
}

/* "nurseries/hill house.yaml" is called "hill house". */
static void name_of(const char *path, char out[DAWN_NAME_SIZE])
{
    const char *slash = strrchr(path, '/');
    const char *base = slash != NULL ? slash + 1 : path;
    const char *dot = strrchr(base, '.');
    const size_t size = dot != NULL && dot > base ? (size_t)(dot - base) : strlen(base);

    if (!dawn_draft_trimmed(out, DAWN_NAME_SIZE, base, size) || out[0] == '\0') {
        (void)dawn_text_copy(out, DAWN_NAME_SIZE, "nursery");
    }
}

/* A scenario names its weather as seen from its own folder; the answer was seen from here. */
static void place_weather(struct dawn_draft *draft, const char *path)
{
    if (draft->weather[0] == '\0' || draft->weather[0] == '/' || strchr(path, '/') == NULL) {
        return;
    }
    char here[DAWN_PATH_SIZE];
    char whole[2 * DAWN_PATH_SIZE];
    if (getcwd(here, sizeof here) != NULL) {
        (void)snprintf(whole, sizeof whole, "%s/%s", here, draft->weather);
        (void)dawn_text_copy(draft->weather, sizeof draft->weather, whole);
    }
}

static enum dawn_status write_file(const char *path, const struct dawn_text *text,
                                   struct dawn_problems *problems)
{
    struct dawn_output output = {0};
    enum dawn_status status = dawn_output_open(&output, path, problems);

    if (status == DAWN_OK) {
        (void)fwrite(text->data, 1, text->size, output.stream);
        status = dawn_output_arrived(&output, problems);
    }
    /* Somebody may have written it while the questions were answered. */
    if (status == DAWN_OK) {
        status = refuse_to_overwrite(path, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_output_keep(&output, problems);
    }
    dawn_output_drop(&output);
    return status;
}

static void put_path(const char *path)
{
    const bool plain = strpbrk(path, " '\"\\$`&;()<>|*?!#~") == NULL;

    printf(plain ? "%s" : "\"%s\"", path);
}

/* The two commands that come next. */
static void put_next(const char *path, const struct dawn_draft *draft)
{
    printf("\n%s is written. Look it over, then see its nights:\n  dawnlow check ", path);
    put_path(path);
    fputs("\n  dawnlow nights ", stdout);
    put_path(path);
    if (draft->weather[0] == '\0') {
        fputs(" --weather YOUR-STATION.csv\n"
              "It needs hourly weather from near you: any hourly CSV with a time and the air\n"
              "temperature; TMY3, NSRDB, PVGIS, national services' files are read as they come.\n"
              "dawnlow help weather tells more.\n",
              stdout);
    } else if (strcmp(draft->weather, draft->demo_weather) == 0) {
        fputs(" --from 03-08 --to 03-22\n"
              "Its weather is INVENTED, to try things out: put a file from near you in its\n"
              "place before you believe a night. dawnlow help weather tells where to get one.\n",
              stdout);
    } else {
        fputc('\n', stdout);
    }
}

/* What was written is read back as check would, before it is kept. */
static enum dawn_status finish(struct dawn_draft *draft, const char *path,
                               struct dawn_problems *problems)
{
    struct dawn_text text = {0};
    struct dawn_scenario scenario = {0};

    place_weather(draft, path);
    dawn_draft_write(draft, &text);
    enum dawn_status status =
        text.failed ? DAWN_ERR_NOMEM
                    : dawn_scenario_parse(&scenario, path, text.data, text.size, NULL, 0, problems);
    if (status == DAWN_OK) {
        status = write_file(path, &text, problems);
    }
    if (status == DAWN_OK) {
        fputc('\n', stdout);
        dawn_report_house(stdout, draft->us ? DAWN_US : DAWN_METRIC, &scenario,
                          dawn_terminal_boxes());
        put_next(path, draft);
    }
    dawn_scenario_release(&scenario);
    dawn_text_release(&text);
    return status;
}

static enum dawn_status draw_up(const struct dawn_options *options, struct dawn_problems *problems)
{
    const char *path = options->operand[0] != NULL ? options->operand[0] : "nursery.yaml";
    struct dawn_draft draft;
    struct dawn_ask ask = {.draft = &draft, .problems = problems};
    char name[DAWN_NAME_SIZE];
    char demo[DAWN_PATH_SIZE];

    name_of(path, name);
    dawn_draft_begin(&draft, name, options->units == DAWN_US,
                     dawn_samples_weather(demo, sizeof demo) ? demo : NULL);
    ask.terminal = isatty(STDIN_FILENO) != 0;
    enum dawn_status status = refuse_to_overwrite(path, problems);
    if (status == DAWN_OK) {
        status = dawn_ask_given(&ask, options->answers, options->set, options->set_count);
    }
    if (status == DAWN_OK && !ask.given_only) {
        puts("Some short questions. Enter takes the answer in brackets, ? tells more, < goes\n"
             "back. Numbers carry their unit: 33 ft, 10 m, 12 yd3, 18 t.");
    }
    if (status == DAWN_OK) {
        status = dawn_ask_all(&ask);
    }
    return status == DAWN_OK ? finish(&draft, path, problems) : status;
}

enum dawn_status dawn_cmd_new(int argument_count, const char *const *arguments,
                              struct dawn_problems *problems)
{
    struct dawn_options options;
    char demo[DAWN_PATH_SIZE];
    const enum dawn_status status =
        dawn_options_parse(&options, &dawn_cmd_new_options, argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_new_options);
        return DAWN_OK;
    }
    if (options.questions) {
        dawn_ask_template(options.units == DAWN_US,
                          dawn_samples_weather(demo, sizeof demo) ? demo : NULL);
        return DAWN_OK;
    }
    return draw_up(&options, problems);
}
