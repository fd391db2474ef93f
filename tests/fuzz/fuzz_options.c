/* Any list of arguments is either understood or complained of, never both. Arguments are parted by
 * newlines. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/options.h"
#include "fuzz/fuzz_target.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_option table[] = {
    {.name = "json", .kind = DAWN_OPTIONS_FLAG, .offset = AT(json)},
    {.name = "weather", .argument = "FILE", .kind = DAWN_OPTIONS_TEXT, .offset = AT(weather)},
    {.name = "from", .argument = "DATE", .kind = DAWN_OPTIONS_DATE, .offset = AT(from)},
    {.name = "step",
     .argument = "DURATION",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = AT(step_s),
     .measure = DAWN_MEASURE_TIME,
     .least = 10.0,
     .most = 86400.0},
    {.name = "utc-offset",
     .argument = "HOURS",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = AT(utc_offset_h),
     .measure = DAWN_MEASURE_HOURS_OFFSET,
     .bare = true,
     .least = -14.0,
     .most = 14.0},
    {.name = "units",
     .argument = "WORD",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(units),
     .words = "metric|us"},
    {.name = "set", .argument = "KEY=VALUE", .kind = DAWN_OPTIONS_SET},
};
static const char *const examples[] = {"example", NULL};
static const struct dawn_options_command command = {
    .name = "try",
    .operands = "SCENARIO",
    .purpose = "",
    .examples = examples,
    .operands_least = 1,
    .operands_most = 2,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

enum { ARGUMENTS_MOST = 300 };

/* What was understood lies within what the table allows. */
static void check_understood(const struct dawn_options *options)
{
    assert(options->help || options->operand_count >= 1);
    assert(options->operand_count <= DAWN_OPTIONS_OPERANDS);
    assert(options->set_count <= DAWN_OPTIONS_SETS);
    assert(isnan(options->step_s) || (options->step_s >= 10.0 && options->step_s <= 86400.0));
    assert(isnan(options->utc_offset_h) || fabs(options->utc_offset_h) <= 14.0);
    assert(options->units >= -1 && options->units <= 1);
    assert(options->from.month >= 0 && options->from.month <= 12);
    assert(options->from.month == 0 || (options->from.day >= 1 && options->from.day <= 31));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const char *arguments[ARGUMENTS_MOST];
    int count = 0;
    struct dawn_options options;
    struct dawn_problems problems = {0};
    char *text = malloc(size + 1);

    if (text == NULL) {
        return 0;
    }
    memcpy(text, data, size);
    text[size] = '\0';
    for (char *at = text; at != NULL && count < ARGUMENTS_MOST; count++) {
        arguments[count] = at;
        at = strchr(at, '\n');
        if (at != NULL) {
            *at++ = '\0';
        }
    }
    const enum dawn_status status =
        dawn_options_parse(&options, &command, count, arguments, &problems);
    assert((status == DAWN_OK) == (problems.errors == 0));
    assert(status == DAWN_OK || status == DAWN_ERR_USAGE);
    if (status == DAWN_OK) {
        check_understood(&options);
    }
    dawn_problems_release(&problems);
    free(text);
    return 0;
}
