/* The command line of one command: one table tells how it is read, checked and explained. */
#include "cli/options.h"

#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/text.h"

static const struct dawn_place_in_file nowhere = {0};

/* ---- names ---- */

const char *dawn_options_nearest(const char *word, const void *names, size_t count, size_t stride)
{
    enum { SLIPS = 2 };
    const char *nearest = NULL;
    size_t best = SLIPS + 1;

    for (size_t i = 0; i < count; i++) {
        const char *name = NULL;
        memcpy(&name, (const char *)names + i * stride, sizeof name);
        /* Two slips in a word of four letters make another word. */
        const size_t distance = dawn_text_distance(word, name, SLIPS);
        if (distance < best && 2 * distance < strlen(name)) {
            best = distance;
            nearest = name;
        }
        /* The start of a name is no slip at all. */
        if (best > 0 && strlen(word) >= 2 && dawn_text_starts(name, word)) {
            best = 0;
            nearest = name;
        }
    }
    return nearest;
}

static const struct dawn_option common[] = {
    {.name = "quiet",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = offsetof(struct dawn_options, quiet),
     .help = "only the result and what went wrong: no notes, no warnings, no progress"},
    {.name = "help",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = offsetof(struct dawn_options, help),
     .help = "this page"},
};

const struct dawn_option *dawn_options_common(size_t *count)
{
    *count = sizeof common / sizeof common[0];
    return common;
}

static const struct dawn_option *option_named(const struct dawn_options_command *command,
                                              const char *name, size_t size)
{
    for (size_t i = 0; i < command->option_count; i++) {
        const char *known = command->option[i].name;
        if (strlen(known) == size && memcmp(known, name, size) == 0) {
            return &command->option[i];
        }
    }
    return NULL;
}

/* ---- values ---- */

bool dawn_options_date(const char *text, struct dawn_options_date *date)
{
    return dawn_civil_read_day(text, &date->year, &date->month, &date->day);
}

bool dawn_options_moment(const char *text, struct dawn_options_moment *moment)
{
    enum { DATE_SIZE = 10, MOMENT_SIZE = 16 };
    struct dawn_options_moment read = {0};
    char date[DATE_SIZE + 1];

    if (strlen(text) != MOMENT_SIZE || (text[10] != 'T' && text[10] != ' ') || text[13] != ':') {
        return false;
    }
    memcpy(date, text, DATE_SIZE);
    date[DATE_SIZE] = '\0';
    read.hour = dawn_text_digits(text + 11, 2);
    read.minute = dawn_text_digits(text + 14, 2);
    if (read.hour < 0 || read.hour > 23 || read.minute < 0 || read.minute > 59 ||
        !dawn_options_date(date, &read.date)) {
        return false;
    }
    *moment = read;
    return true;
}

/* Place of a word in "metric|us", or -1. */
static int place_in_words(const char *words, const char *word)
{
    int place = 0;

    for (const char *at = words; *at != '\0'; place++) {
        const size_t size = strcspn(at, "|");
        if (strlen(word) == size && strncmp(at, word, size) == 0) {
            return place;
        }
        at += size;
        at += *at == '|';
    }
    return -1;
}

static void say_usage(struct dawn_problems *problems, const char *hint, const char *option,
                      const char *value, const char *expected)
{
    dawn_problems_add(problems, DAWN_ERROR, nowhere, hint, "--%s takes %s, not '%s'", option,
                      expected, value);
}

/* What bounds are in. */
static const char *bounds_words(enum dawn_measure measure)
{
    switch (measure) {
    case DAWN_MEASURE_TIME:
        return " in seconds";
    case DAWN_MEASURE_ANGLE:
        return " in degrees";
    case DAWN_MEASURE_LENGTH:
        return " in metres";
    case DAWN_MEASURE_TEMPERATURE:
        return " in degrees Celsius";
    case DAWN_MEASURE_DIFFERENCE:
        return " in kelvin";
    case DAWN_MEASURE_HOURS_OFFSET:
        return " in hours";
    default:
        return "";
    }
}

static void read_quantity(void *field, const struct dawn_option *option, const char *value,
                          struct dawn_problems *problems)
{
    char unit[32];
    double number = NAN;
    const char *end = NULL;
    enum dawn_quantity_fault fault = dawn_unit_quantity(value, option->measure, &number, unit);

    if (fault == DAWN_QUANTITY_NO_UNIT && option->bare && dawn_text_number(value, &end, &number)) {
        fault = DAWN_QUANTITY_OK;
    }
    if (fault != DAWN_QUANTITY_OK) {
        struct dawn_text expected = {0};
        dawn_text_add(&expected, "%s (%s)", dawn_unit_measure_words(option->measure),
                      dawn_unit_list(option->measure));
        say_usage(problems,
                  fault == DAWN_QUANTITY_NO_UNIT ? "write the unit behind the number" : NULL,
                  option->name, value, expected.failed ? "a number with its unit" : expected.data);
        dawn_text_release(&expected);
        return;
    }
    if (!(number >= option->least && number <= option->most)) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere, NULL,
                          "--%s '%s' is outside what is possible (%g to %g%s)", option->name, value,
                          option->least, option->most, bounds_words(option->measure));
        return;
    }
    memcpy(field, &number, sizeof number);
}

static void read_whole(void *field, const struct dawn_option *option, const char *value,
                       struct dawn_problems *problems)
{
    double number = NAN;
    const char *end = value;

    if (!dawn_text_number(value, &end, &number) || *end != '\0' || number != floor(number)) {
        say_usage(problems, NULL, option->name, value, "a whole number");
    } else if (!(number >= option->least && number <= option->most)) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere, NULL,
                          "--%s '%s' is outside what is possible (%.0f to %.0f)", option->name,
                          value, option->least, option->most);
    } else {
        memcpy(field, &number, sizeof number);
    }
}

static void read_choice(void *field, const struct dawn_option *option, const char *value,
                        struct dawn_problems *problems)
{
    const int place = place_in_words(option->words, value);
    struct dawn_text expected = {0};

    if (place >= 0) {
        memcpy(field, &place, sizeof place);
        return;
    }
    dawn_text_add(&expected, "one of %s", option->words);
    say_usage(problems, NULL, option->name, value, expected.failed ? option->words : expected.data);
    dawn_text_release(&expected);
}

static void read_set(struct dawn_options *options, const struct dawn_option *option,
                     const char *value, struct dawn_problems *problems)
{
    const char *equals = strchr(value, '=');

    if (equals == NULL || equals == value) {
        say_usage(problems,
                  strcmp(option->name, "set") == 0 ? "for example --set \"fan.on_at=24 C\""
                                                   : option->help,
                  option->name, value, option->argument);
    } else if (options->set_count == DAWN_OPTIONS_SETS) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere, "write the values into a scenario file",
                          "--%s is given more than %d times", option->name, DAWN_OPTIONS_SETS);
    } else {
        options->set[options->set_count++] = value;
    }
}

static void read_phrase(struct dawn_options_phrases *phrases, const struct dawn_option *option,
                        const char *value, struct dawn_problems *problems)
{
    if (phrases->count == DAWN_OPTIONS_SETS) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere, NULL, "--%s is given more than %d times",
                          option->name, DAWN_OPTIONS_SETS);
    } else {
        phrases->item[phrases->count++] = value;
    }
}

static void read_value(struct dawn_options *options, const struct dawn_option *option,
                       const char *value, struct dawn_problems *problems)
{
    void *field = (char *)options + option->offset;

    switch (option->kind) {
    case DAWN_OPTIONS_FLAG:
        break;
    case DAWN_OPTIONS_TEXT:
        if (value[0] == '\0' || strcmp(value, "-") == 0) {
            say_usage(problems, NULL, option->name, value, "the name of a file");
        } else {
            memcpy(field, &value, sizeof value);
        }
        break;
    case DAWN_OPTIONS_PHRASE:
        memcpy(field, &value, sizeof value);
        break;
    case DAWN_OPTIONS_PHRASES:
        read_phrase(field, option, value, problems);
        break;
    case DAWN_OPTIONS_DATE:
        if (!dawn_options_date(value, field)) {
            say_usage(problems, "for example 2026-03-12 or 03-12", option->name, value,
                      "a day as YYYY-MM-DD or MM-DD");
        }
        break;
    case DAWN_OPTIONS_MOMENT:
        if (!dawn_options_moment(value, field)) {
            say_usage(problems, "for example 2026-03-12T06:00", option->name, value,
                      "a moment as YYYY-MM-DDTHH:MM");
        }
        break;
    case DAWN_OPTIONS_WHOLE:
        read_whole(field, option, value, problems);
        break;
    case DAWN_OPTIONS_QUANTITY:
        read_quantity(field, option, value, problems);
        break;
    case DAWN_OPTIONS_CHOICE:
        read_choice(field, option, value, problems);
        break;
    case DAWN_OPTIONS_SET:
        read_set(options, option, value, problems);
        break;
    }
}

/* ---- reading the line ---- */

struct line {
    int count, at;
    const char *const *word;
    bool given[64]; /* by place in the option table */
};

static bool is_help(const char *word)
{
    return strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0;
}

/* "-5 h" and "-33.9" are values, "-v" is not. */
static bool looks_like_option(const char *word)
{
    return word[0] == '-' && word[1] != '\0' && strchr("0123456789.,", word[1]) == NULL;
}

/* Complains, and returns the option that was most likely meant, or NULL. */
static const struct dawn_option *say_unknown(const struct dawn_options_command *command,
                                             const char *word, struct dawn_problems *problems)
{
    struct dawn_text name = {0};
    struct dawn_text hint = {0};
    const char *start = word + strspn(word, "-");

    dawn_text_add_bytes(&name, start, strcspn(start, "="));
    const char *nearest =
        name.data == NULL ? NULL
                          : dawn_options_nearest(name.data, &command->option[0].name,
                                                 command->option_count, sizeof *command->option);
    if (nearest == NULL && name.data != NULL) {
        nearest = dawn_options_nearest(name.data, &common[0].name, sizeof common / sizeof common[0],
                                       sizeof common[0]);
    }
    if (nearest != NULL) {
        dawn_text_add(&hint, "did you mean --%s?", nearest);
    } else {
        dawn_text_add(&hint, "dawnlow %s --help lists the options", command->name);
    }
    dawn_problems_add(problems, DAWN_ERROR, nowhere, hint.data, "unknown option '%s'", word);
    dawn_text_release(&name);
    dawn_text_release(&hint);
    return nearest != NULL ? option_named(command, nearest, strlen(nearest)) : NULL;
}

/* A mistyped option's value must not be taken for a second scenario. */
static void pass_over_unknown(const struct dawn_options_command *command, struct line *line,
                              struct dawn_problems *problems)
{
    const char *word = line->word[line->at];
    const struct dawn_option *meant = say_unknown(command, word, problems);

    if (meant != NULL && meant->argument != NULL && strchr(word, '=') == NULL &&
        line->at + 1 < line->count && !looks_like_option(line->word[line->at + 1])) {
        line->at++;
    }
}

/* The value of an option: attached to it, or the next word. NULL (and a problem) when missing. */
static const char *value_of(struct line *line, const struct dawn_option *option,
                            const char *attached, struct dawn_problems *problems)
{
    if (attached != NULL) {
        return attached;
    }
    if (line->at + 1 < line->count && !looks_like_option(line->word[line->at + 1])) {
        line->at++;
        return line->word[line->at];
    }
    dawn_problems_add(problems, DAWN_ERROR, nowhere, NULL, "--%s needs %s behind it", option->name,
                      option->argument);
    return NULL;
}

/* The option a word names: --name, --name=value, -n, -n=value or -nvalue. value is where the value
 * begins within the word, NULL when it is the next word. */
static const struct dawn_option *option_meant(const struct dawn_options_command *command,
                                              const char *word, const char **value)
{
    const char *equals = strchr(word, '=');

    *value = equals != NULL ? equals + 1 : NULL;
    if (word[1] == '-') {
        const char *name = word + 2;
        return option_named(command, name, equals != NULL ? (size_t)(equals - name) : strlen(name));
    }
    for (size_t i = 0; i < command->option_count; i++) {
        if (command->option[i].letter == word[1]) {
            if (equals != word + 2 && word[2] != '\0') {
                *value = word + 2;
            }
            return &command->option[i];
        }
    }
    return NULL;
}

static bool may_repeat(const struct dawn_option *option)
{
    return option->kind == DAWN_OPTIONS_SET || option->kind == DAWN_OPTIONS_PHRASES;
}

static void read_option(struct dawn_options *options, const struct dawn_options_command *command,
                        struct line *line, struct dawn_problems *problems)
{
    const char *attached = NULL;
    const struct dawn_option *option = option_meant(command, line->word[line->at], &attached);

    if (option == NULL) {
        pass_over_unknown(command, line, problems);
        return;
    }
    bool *given = &line->given[option - command->option];
    if (*given && !may_repeat(option)) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere, "leave one of them out",
                          "--%s is given twice", option->name);
    }
    *given = true;
    if (option->kind != DAWN_OPTIONS_FLAG) {
        const char *value = value_of(line, option, attached, problems);
        if (value != NULL) {
            read_value(options, option, value, problems);
        }
        return;
    }
    if (attached != NULL) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere, NULL, "--%s takes no value", option->name);
    }
    const bool yes = true;
    memcpy((char *)options + option->offset, &yes, sizeof yes);
}

static void read_operand(struct dawn_options *options, const struct dawn_options_command *command,
                         const char *word, struct dawn_problems *problems)
{
    if (options->operand_count < command->operands_most &&
        options->operand_count < DAWN_OPTIONS_OPERANDS) {
        options->operand[options->operand_count++] = word;
        return;
    }
    dawn_problems_add(problems, DAWN_ERROR, nowhere,
                      "names with blanks need quotation marks around them",
                      "one word too many: '%s'", word);
}

static void fill_unset(struct dawn_options *options)
{
    *options = (struct dawn_options){0};
    options->step_s = NAN;
    options->utc_offset_h = NAN;
    options->latitude_deg = NAN;
    options->longitude_deg = NAN;
    options->elevation_m = NAN;
    options->states = NAN;
    options->seed = NAN;
    options->on_least_C = options->on_most_C = options->on_step_K = options->line_C = NAN;
    options->budget = NAN;
    options->threads = NAN;
    options->samples = NAN;
    options->members = NAN;
    options->fail_above = NAN;
    options->engine = -1;
    options->units = -1;
    options->stamp = -1;
    options->what = -1;
    options->temperature_unit = -1;
}

static bool asks_for_help(int count, const char *const *word)
{
    for (int i = 0; i < count && strcmp(word[i], "--") != 0; i++) {
        if (is_help(word[i])) {
            return true;
        }
    }
    return false;
}

/* A message that begins with an option's name, copied for explain: no option has a blank in it. */
static bool is_sentence(const char *word)
{
    return word[0] == '-' && word[1] == '-' && word[strcspn(word, " =")] == ' ';
}

enum dawn_status dawn_options_parse(struct dawn_options *options,
                                    const struct dawn_options_command *command, int argument_count,
                                    const char *const *arguments, struct dawn_problems *problems)
{
    const size_t errors_before = problems->errors;
    struct line line = {.count = argument_count, .word = arguments};
    bool only_operands = false;

    fill_unset(options);
    if (asks_for_help(argument_count, arguments)) {
        options->help = true;
        return DAWN_OK;
    }
    for (; line.at < line.count; line.at++) {
        const char *word = line.word[line.at];
        if (only_operands || word[0] != '-' || word[1] == '\0' || is_sentence(word)) {
            read_operand(options, command, word, problems);
        } else if (strcmp(word, "--") == 0) {
            only_operands = true;
        } else if (strcmp(word, "--quiet") == 0) {
            options->quiet = problems->errors_only = true;
        } else {
            read_option(options, command, &line, problems);
        }
    }
    if (options->operand_count < command->operands_least) {
        dawn_problems_add(problems, DAWN_ERROR, nowhere, command->examples[0],
                          "'dawnlow %s' needs %s", command->name, command->operands);
    }
    return problems->errors == errors_before ? DAWN_OK : DAWN_ERR_USAGE;
}

/* ---- help ---- */

enum { HELP_COLUMN = 28, HELP_WIDTH = 80 };

void dawn_options_put_words(FILE *out, const char *text, size_t column)
{
    size_t at = column;
    const char *word = text + strspn(text, " ");

    while (*word != '\0') {
        const size_t size = strcspn(word, " ");
        if (at > column && at + 1 + size > HELP_WIDTH) {
            fprintf(out, "\n%*s", (int)column, "");
            at = column;
        } else if (at > column) {
            fputc(' ', out);
            at++;
        }
        fwrite(word, 1, size, out);
        at += size;
        word += size;
        word += strspn(word, " ");
    }
    fputc('\n', out);
}

static void put_option(FILE *out, const struct dawn_option *option)
{
    const char letter[] = {'-', option->letter, ',', ' ', '\0'};
    int width = fprintf(out, "  %s--%s%s%s", option->letter != 0 ? letter : "", option->name,
                        option->argument != NULL ? " " : "",
                        option->argument != NULL ? option->argument : "");

    if (width < 0 || width > HELP_COLUMN - 2) {
        fputc('\n', out);
        width = 0;
    }
    fprintf(out, "%*s", HELP_COLUMN - width, "");
    dawn_options_put_words(out, option->help, HELP_COLUMN);
}

void dawn_options_help(FILE *out, const struct dawn_options_command *command)
{
    dawn_options_put_words(out, command->purpose, 0);
    fputs("\nFor example\n", out);
    for (size_t i = 0; command->examples[i] != NULL; i++) {
        if (command->examples[i][0] != ' ') {
            fprintf(out, "  %s\n", command->examples[i]);
        }
    }
    fprintf(out, "\nUse\n  dawnlow %s %s%s\n", command->name, command->operands,
            command->option_count > 0 ? " [OPTIONS]" : "");
    for (size_t i = 0; i < command->option_count; i++) {
        if (command->option[i].group != NULL) {
            fprintf(out, "\n%s\n", command->option[i].group);
        }
        put_option(out, &command->option[i]);
    }
    fputs("\nWith every command\n", out);
    for (size_t i = 0; i < sizeof common / sizeof common[0]; i++) {
        put_option(out, &common[i]);
    }
    if (command->notes != NULL) {
        fputc('\n', out);
        dawn_options_put_words(out, command->notes, 0);
    }
}
