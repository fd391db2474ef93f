/* dawnlow compare: nurseries side by side, only what differs. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/cmd.h"
#include "cli/study.h"

static const struct dawn_option table[] = {
    DAWN_STUDY_WEATHERS, DAWN_STUDY_DAYS, DAWN_STUDY_SET,     DAWN_STUDY_UNITS,  DAWN_STUDY_FORMATS,
    DAWN_STUDY_OUTPUT,   DAWN_STUDY_HTML, DAWN_STUDY_THREADS, DAWN_STUDY_ENGINE,
};
static const char *const examples[] = {
    "dawnlow compare as-it-is.yaml with-rock.yaml --weather spring.csv",
    " ...",
    " What differs                as-it-is               with-rock",
    " ...",
    " rock.mass                       10 t                    12 t",
    " ",
    " What comes of it                 as-it-is  with-rock",
    " coldest night, C                      8.5        8.5",
    " ...",

    "dawnlow compare a.yaml b.yaml c.yaml --from 03-01 --to 03-31 --units us",
    NULL};
const struct dawn_options_command dawn_cmd_compare_options = {
    .name = "compare",
    .operands = "SCENARIO SCENARIO...",
    .purpose = "Nurseries side by side: the values that differ, and what comes of them - coldest "
               "night, nights below freezing, heat stored and given back, electricity, cost, and "
               "what a kelvin costs.",
    .examples = examples,
    .notes = "Each scenario uses its own weather when --weather is left out; lows of different "
             "weather say little about the houses. --set is laid over every scenario.",
    .operands_least = 2,
    .operands_most = DAWN_COMPARE_MOST,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

struct sides {
    struct dawn_study *further; /* all scenarios but the first */
    size_t further_count;
    struct dawn_compare compare;
    char name[DAWN_COMPARE_MOST][DAWN_NAME_SIZE];
};

static const struct dawn_study *side(const struct dawn_study *first, const struct sides *sides,
                                     size_t index)
{
    return index == 0 ? first : &sides->further[index - 1];
}

/* "scenarios/with-rock.yaml" is "with-rock". */
static void name_side(char name[DAWN_NAME_SIZE], const char *path)
{
    const char *slash = strrchr(path, '/');
    const char *file = slash != NULL ? slash + 1 : path;
    const char *dot = strrchr(file, '.');
    const size_t length = dot != NULL && dot > file ? (size_t)(dot - file) : strlen(file);

    (void)snprintf(name, DAWN_NAME_SIZE, "%.*s", (int)length, file);
}

/* Houses under one sky: what is to be said of its file is said once. */
static void add_new(struct dawn_problems *problems, const struct dawn_problems *more)
{
    struct dawn_problems fresh = {0};

    for (size_t i = 0; i < more->count; i++) {
        const struct dawn_problem *item = &more->items[i];
        bool known = false;
        for (size_t k = 0; k < problems->count && !known; k++) {
            known = strcmp(problems->items[k].message, item->message) == 0 &&
                    strcmp(problems->items[k].file, item->file) == 0 &&
                    problems->items[k].line == item->line;
        }
        if (!known) {
            const struct dawn_place_in_file place = {item->file, item->line, item->column,
                                                     item->source_line};
            dawn_problems_add(&fresh, item->severity, place, item->hint, "%s", item->message);
        }
    }
    dawn_problems_add_all(problems, &fresh);
    dawn_problems_release(&fresh);
}

static enum dawn_status read_further(const struct dawn_study *first, struct sides *sides,
                                     struct dawn_problems *problems)
{
    enum dawn_status status = DAWN_OK;

    for (size_t i = 0; i < sides->further_count && status == DAWN_OK; i++) {
        struct dawn_study *study = &sides->further[i];
        struct dawn_problems own = {0};
        study->options = first->options;
        study->options.operand[0] = first->options.operand[i + 1];
        if (first->options.weathers.count == 0) {
            study->options.weather = NULL;
        }
        status = dawn_study_read(study, &own);
        add_new(problems, &own);
        dawn_problems_release(&own);
    }
    for (size_t i = 0; i <= sides->further_count; i++) {
        name_side(sides->name[i], first->options.operand[i]);
    }
    return status;
}

/* Two houses under two skies: the grower may mean it, but should know. */
static void warn_of_other_weather(const struct dawn_study *first, const struct sides *sides,
                                  struct dawn_problems *problems)
{
    for (size_t i = 0; i < sides->further_count; i++) {
        const struct dawn_weather *own = &first->inputs.weather;
        const struct dawn_weather *other = &sides->further[i].inputs.weather;
        if (own->count != other->count || own->first_s != other->first_s ||
            memcmp(own->air_C, other->air_C, own->count * sizeof *own->air_C) != 0) {
            dawn_problems_add(problems, DAWN_WARNING, (struct dawn_place_in_file){0},
                              "--weather FILE puts all of them under one sky",
                              "%s and %s are compared under different weather", sides->name[0],
                              sides->name[i + 1]);
        }
    }
}

static enum dawn_status compare_all(struct dawn_study *study, struct sides *sides,
                                    struct dawn_problems *problems)
{
    struct dawn_compare_nursery nursery[DAWN_COMPARE_MOST] = {{0}};
    const size_t count = study->options.operand_count;

    for (size_t i = 0; i < count; i++) {
        const struct dawn_study *it = side(study, sides, i);
        nursery[i].scenario = &it->inputs.scenario;
        nursery[i].years = it->weathers.years;
    }
    const struct dawn_compare_plan plan = {.nursery = nursery,
                                           .count = count,
                                           .run = dawn_study_plan(study),
                                           .threads = dawn_study_threads(&study->options),
                                           .keep_going = dawn_progress_step,
                                           .user = &study->progress};
    return dawn_compare_find(&sides->compare, &plan, problems);
}

static enum dawn_status run(struct dawn_study *study, struct dawn_problems *problems)
{
    struct sides *sides = study->own;
    const struct dawn_compare *compare = &sides->compare;

    sides->further_count = study->options.operand_count - 1;
    sides->further = calloc(sides->further_count, sizeof *sides->further);
    enum dawn_status status =
        sides->further != NULL ? read_further(study, sides, problems) : DAWN_ERR_NOMEM;
    if (status == DAWN_OK) {
        warn_of_other_weather(study, sides, problems);
        status = compare_all(study, sides, problems);
    }
    if (status == DAWN_OK && compare->stopped) {
        return DAWN_STOPPED;
    }
    for (size_t i = 0; i < compare->count && status == DAWN_OK; i++) {
        if (compare->sum[i].nights <= 0.0) {
            status = dawn_study_no_night(problems);
        }
    }
    return status;
}

/* What a story points to. */
struct names {
    const char *name[DAWN_COMPARE_MOST], *weather[DAWN_COMPARE_MOST];
    const struct dawn_scenario *scenario[DAWN_COMPARE_MOST];
};

static struct dawn_compare_story story_of(const struct dawn_study *study, struct names *names)
{
    const struct sides *sides = study->own;

    for (size_t i = 0; i < sides->compare.count; i++) {
        const struct dawn_study *it = side(study, sides, i);
        names->name[i] = sides->name[i];
        names->weather[i] = it->inputs.weather.path;
        names->scenario[i] = &it->inputs.scenario;
    }
    return (struct dawn_compare_story){&sides->compare, names->name, names->weather,
                                       names->scenario};
}

static void write(FILE *out, const struct dawn_study *study)
{
    struct names names;
    const struct dawn_compare_story story = story_of(study, &names);

    dawn_report_compare(out, dawn_study_format(&study->options), dawn_study_units(&study->options),
                        &story);
}

static enum dawn_status page(FILE *out, const struct dawn_study *study)
{
    struct names names;
    const struct dawn_compare_story story = story_of(study, &names);

    return dawn_report_compare_page(out, dawn_study_units(&study->options), &story);
}

enum dawn_status dawn_cmd_compare(int argument_count, const char *const *arguments,
                                  struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {
        .command = &dawn_cmd_compare_options, .run = run, .write = write, .page = page};
    struct sides sides = {0};
    const enum dawn_status status =
        dawn_study_run(&steps, &sides, argument_count, arguments, problems);

    for (size_t i = 0; i < sides.further_count; i++) {
        dawn_study_release(&sides.further[i]);
    }
    free(sides.further);
    dawn_compare_release(&sides.compare);
    return status;
}
