/* dawnlow explain: what a key of a scenario means, from the one table that also reads it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "base/unit.h"
#include "cli/cmd.h"
#include "cli/lexicon.h"
#include "cli/options.h"
#include "dawnlow/scenario.h"

/* Where values stand, behind their titles. */
enum { VALUE_COLUMN = 12 };

static const char *const examples[] = {
    "dawnlow explain fan.on_at",
    "dawnlow explain rock",
    "dawnlow explain \"touch and go\"",
    " touch and go",
    "   A risk: the low stays 1 K or less above its line. The sum itself is not surer",
    "   than that.",
    "dawnlow explain",
    NULL};
const struct dawn_options_command dawn_cmd_explain_options = {
    .name = "explain",
    .operands = "[KEY|WORD|MESSAGE]",
    .purpose =
        "What a key of a scenario means: its unit, what it may be, what is taken when it is "
        "left out. A section's name explains all its keys; nothing lists all keys. A key may "
        "be written as --set takes it, as in \"barrels.north row.count\". What a word of the "
        "reports means, such as Risk. What a message means, copied from the screen.",
    .examples = examples,
    .operands_most = 1,
};

/* "glazing[south roof].area", as check prints it, is the key glazing.area. */
static void plain_key(struct dawn_text *plain, const char *key)
{
    bool inside = false;

    dawn_text_add(plain, "%s", "");
    for (const char *c = key; *c != '\0'; c++) {
        inside = inside || *c == '[';
        if (!inside) {
            dawn_text_add_bytes(plain, c, 1);
        }
        inside = inside && *c != ']';
    }
}

/* "fan.on_at", or "name" for what stands outside every section. */
static void full_name(struct dawn_text *text, const struct dawn_key *key)
{
    dawn_text_add(text, "%s%s%s", key->section, key->section[0] != '\0' ? "." : "", key->name);
}

static void put_limits(const struct dawn_key *key)
{
    const char *blank = key->unit[0] != '\0' ? " " : "";

    if (isfinite(key->least) || isfinite(key->most)) {
        printf("  possible  %g to %g%s%s\n", key->least, key->most, blank, key->unit);
    }
    if (key->doubt_least > key->least || key->doubt_most < key->most) {
        printf("  usual     %g to %g%s%s; a warning outside\n", key->doubt_least, key->doubt_most,
               blank, key->unit);
    }
}

/* What is taken when the key is left out; NULL = it must be given. */
static const char *usual_words(const struct dawn_key *key)
{
    return key->usual != NULL && key->usual[0] == '\0' ? "empty" : key->usual;
}

/* "a|b|c" as "a, b, c". */
static void put_choices(const char *title, const char *words)
{
    struct dawn_text text = {0};

    for (const char *at = words; *at != '\0';) {
        const size_t size = strcspn(at, "|");
        dawn_text_add_bytes(&text, at, size);
        at += size + (at[size] == '|');
        dawn_text_add(&text, "%s", *at != '\0' ? ", " : "");
    }
    printf("  %-8s  ", title);
    dawn_options_put_words(stdout, text.data != NULL ? text.data : "", VALUE_COLUMN);
    dawn_text_release(&text);
}

static void put_kind(const struct dawn_key *key)
{
    switch (key->kind) {
    case DAWN_KIND_QUANTITY:
        if (key->measure != DAWN_MEASURE_NONE) {
            printf("  measured  %s: %s\n", dawn_unit_measure_words((enum dawn_measure)key->measure),
                   dawn_unit_list((enum dawn_measure)key->measure));
        }
        put_limits(key);
        break;
    case DAWN_KIND_COUNT:
        put_limits(key);
        break;
    case DAWN_KIND_CHOICE:
    case DAWN_KIND_TEXT:
        break;
    }
    if (key->words != NULL) {
        put_choices(key->kind == DAWN_KIND_CHOICE ? "one of" : "or else", key->words);
    }
}

static void put_key(const struct dawn_key *key)
{
    struct dawn_text name = {0};

    full_name(&name, key);
    printf("%s\n  ", name.data != NULL ? name.data : "");
    dawn_options_put_words(stdout, key->meaning, 2);
    put_kind(key);
    printf("  default   %s\n", key->usual != NULL ? usual_words(key) : "none: it must be given");
    dawn_text_release(&name);
}

static void put_all(const struct dawn_key *keys, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct dawn_text name = {0};
        full_name(&name, &keys[i]);
        printf("%-34s %s\n", name.data != NULL ? name.data : "",
               keys[i].usual != NULL ? usual_words(&keys[i]) : "(must be given)");
        dawn_text_release(&name);
    }
}

/* How well a key answers the question: its full name, its section, its bare name, not at all. */
enum answer { ANSWER_FULL, ANSWER_SECTION, ANSWER_BARE, ANSWER_NONE };

static enum answer answer_of(const struct dawn_key *key, const char *asked)
{
    struct dawn_text name = {0};
    enum answer answer = ANSWER_NONE;

    full_name(&name, key);
    if (name.data != NULL && strcmp(name.data, asked) == 0) {
        answer = ANSWER_FULL;
    } else if (strcmp(key->section, asked) == 0) {
        answer = ANSWER_SECTION;
    } else if (strcmp(key->name, asked) == 0) {
        answer = ANSWER_BARE;
    }
    dawn_text_release(&name);
    return answer;
}

static void say_unknown(const struct dawn_key *keys, size_t count, const char *asked,
                        struct dawn_problems *problems)
{
    const char *dot = strrchr(asked, '.');
    struct dawn_text section = {0};
    struct dawn_text hint = {0};
    const struct dawn_key *nearest = NULL;

    dawn_text_add_bytes(&section, asked, dot != NULL ? (size_t)(dot - asked) : 0);
    if (dot != NULL && section.data != NULL) {
        nearest = dawn_scenario_nearest_key(section.data, dot + 1);
    }
    const char *bare =
        dawn_options_nearest(dot != NULL ? dot + 1 : asked, &keys[0].name, count, sizeof keys[0]);
    const char *close_section =
        dawn_options_nearest(asked, &keys[0].section, count, sizeof keys[0]);
    for (size_t i = 0; i < count && nearest == NULL && bare != NULL; i++) {
        nearest = strcmp(keys[i].name, bare) == 0 ? &keys[i] : NULL;
    }
    if (close_section != NULL && close_section[0] != '\0' && dot == NULL) {
        dawn_text_add(&hint, "did you mean %s?", close_section);
    } else if (nearest != NULL) {
        dawn_text_add(&hint, "did you mean ");
        full_name(&hint, nearest);
        dawn_text_add(&hint, "?");
    } else {
        dawn_text_add(&hint, "dawnlow explain lists all keys, dawnlow help words all words");
    }
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, hint.data,
                      "there is no key, word or message '%s'", asked);
    dawn_text_release(&section);
    dawn_text_release(&hint);
}

static enum answer best_answer(const struct dawn_key *keys, size_t count, const char *asked)
{
    enum answer best = ANSWER_NONE;

    for (size_t i = 0; i < count; i++) {
        const enum answer answer = answer_of(&keys[i], asked);
        best = answer < best ? answer : best;
    }
    return best;
}

/* A word of the reports, or a message; false when it is neither. */
static bool put_entry(const char *said)
{
    const struct dawn_lexicon *entry = dawn_lexicon_word(said);

    if (entry == NULL) {
        entry = dawn_lexicon_complaint(said);
    }
    if (entry == NULL) {
        return false;
    }
    printf("%s\n  ", entry->term);
    dawn_options_put_words(stdout, entry->meaning, 2);
    return true;
}

static enum dawn_status explain(const char *said, const char *asked, struct dawn_problems *problems)
{
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);
    char itemless[DAWN_NAME_SIZE];
    enum answer best = best_answer(keys, count, asked);
    bool first = true;

    /* "glazing.south roof.area", as --set takes it. */
    if (best == ANSWER_NONE && dawn_scenario_plain_key(asked, itemless, sizeof itemless)) {
        asked = itemless;
        best = best_answer(keys, count, asked);
    }
    if (best >= ANSWER_BARE && put_entry(said)) {
        return DAWN_OK;
    }
    if (best == ANSWER_NONE) {
        say_unknown(keys, count, asked, problems);
        return DAWN_ERR_USAGE;
    }
    for (size_t i = 0; i < count; i++) {
        if (answer_of(&keys[i], asked) == best) {
            fputs(first ? "" : "\n", stdout);
            put_key(&keys[i]);
            first = false;
        }
    }
    return DAWN_OK;
}

enum dawn_status dawn_cmd_explain(int argument_count, const char *const *arguments,
                                  struct dawn_problems *problems)
{
    struct dawn_options options;
    struct dawn_text asked = {0};
    enum dawn_status status = dawn_options_parse(&options, &dawn_cmd_explain_options,
                                                 argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_explain_options);
        return DAWN_OK;
    }
    if (options.operand_count == 0) {
        size_t count = 0;
        const struct dawn_key *keys = dawn_scenario_keys(&count);
        put_all(keys, count);
        return DAWN_OK;
    }
    plain_key(&asked, options.operand[0]);
    status = asked.failed ? DAWN_ERR_NOMEM : explain(options.operand[0], asked.data, problems);
    dawn_text_release(&asked);
    return status;
}
