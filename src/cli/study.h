/* What commands share that answer from a scenario and its weather: one order of steps from the
 * command line to the result, and the options that mean the same everywhere. */
#ifndef CLI_STUDY_H
#define CLI_STUDY_H

#include "cli/inputs.h"
#include "cli/options.h"
#include "cli/progress.h"
#include "cli/weathers.h"
#include "cli/window.h"
#include "dawnlow/report.h"

/* A command at work. Its own part hangs on `own`. */
struct dawn_study {
    struct dawn_options options;
    struct dawn_inputs inputs;
    struct dawn_window window;     /* --from and --to within the first weather */
    struct dawn_weathers weathers; /* its years are what a study over several years goes through */
    struct dawn_progress progress; /* begun when run is called: for a plan's keep_going */
    const char *output_option; /* the name of --output where it has another; NULL = it has not */
    void *own;
};

struct dawn_study_steps {
    const struct dawn_options_command *command;
    /* What the options say together, before anything is read; may be NULL. */
    enum dawn_status (*check)(const struct dawn_options *options, struct dawn_problems *problems);
    /* The work. A study without a night is refused here, by dawn_study_no_night. */
    enum dawn_status (*run)(struct dawn_study *study, struct dawn_problems *problems);
    /* The result, to standard output or --output; or, where it may fail, draw. */
    void (*write)(FILE *out, const struct dawn_study *study);
    enum dawn_status (*draw)(FILE *out, const struct dawn_study *study);
    const char *output_option; /* its name where it is not "output" */
    /* The same as a page, to --html beside it; NULL = the command has none. */
    enum dawn_status (*page)(FILE *out, const struct dawn_study *study);
    /* The status to end with when the result is out; may be NULL: DAWN_OK then. */
    enum dawn_status (*verdict)(const struct dawn_study *study, struct dawn_problems *problems);
};

/* Parse, help, check, read scenario and weather, window, run, write. `own` is the command's. */
enum dawn_status dawn_study_run(const struct dawn_study_steps *steps, void *own, int argument_count,
                                const char *const *arguments, struct dawn_problems *problems);

/* Reads the first operand's scenario, its weather (or --weather) and the window: one of the steps,
 * for commands that take further scenarios. The study holds the options. */
enum dawn_status dawn_study_read(struct dawn_study *study, struct dawn_problems *problems);
void dawn_study_release(struct dawn_study *study);

/* The usual plan of a run over the window, one by one unless --engine says otherwise; and for
 * studies of many nurseries, side by side unless it does. */
struct dawn_trajectory_plan dawn_study_plan(const struct dawn_study *study);
struct dawn_trajectory_plan dawn_study_plan_fast(const struct dawn_study *study);
/* --threads, or as many as the machine has. */
unsigned dawn_study_threads(const struct dawn_options *options);
enum dawn_format dawn_study_format(const struct dawn_options *options);
enum dawn_units dawn_study_units(const struct dawn_options *options);
/* What the study went through, for its report. */
struct dawn_study_story dawn_study_story(const struct dawn_study *study);
/* A mistake on the command line that belongs to no file; DAWN_ERR_USAGE. hint may be NULL. */
enum dawn_status dawn_study_refuse(struct dawn_problems *problems, const char *hint,
                                   const char *message);
/* The run holds no complete night; DAWN_ERR_USAGE. */
enum dawn_status dawn_study_no_night(struct dawn_problems *problems);

/* ---- options that mean the same in every command, as rows of its table ---- */

#define DAWN_STUDY_OPTION_AT(field) offsetof(struct dawn_options, field)

#define DAWN_STUDY_WEATHER                                                                         \
    {                                                                                              \
        .group = "Which nights", .name = "weather", .argument = "FILE", .kind = DAWN_OPTIONS_TEXT, \
        .offset = DAWN_STUDY_OPTION_AT(weather),                                                   \
        .help = "hourly weather; the scenario's own when left out"                                 \
    }
/* Instead of DAWN_STUDY_WEATHER: several years. */
#define DAWN_STUDY_WEATHERS                                                                        \
    {                                                                                              \
        .group = "Which nights", .name = "weather", .argument = "FILE",                            \
        .kind = DAWN_OPTIONS_PHRASES, .offset = DAWN_STUDY_OPTION_AT(weathers),                    \
        .help =                                                                                    \
            "hourly weather; given again and again, or a folder, one file a year, or one file of " \
            "many years; the scenario's own when left out"                                         \
    }
#define DAWN_STUDY_DAYS                                                                            \
    {.name = "from",                                                                               \
     .argument = "DATE",                                                                           \
     .kind = DAWN_OPTIONS_DATE,                                                                    \
     .offset = DAWN_STUDY_OPTION_AT(from),                                                         \
     .help = "day of the first evening: YYYY-MM-DD, or MM-DD in the weather's year"},              \
    {                                                                                              \
        .name = "to", .argument = "DATE", .kind = DAWN_OPTIONS_DATE,                               \
        .offset = DAWN_STUDY_OPTION_AT(to), .help = "day of the last morning"                      \
    }
#define DAWN_STUDY_SET                                                                             \
    {                                                                                              \
        .group = "What if", .name = "set", .argument = "KEY=VALUE", .kind = DAWN_OPTIONS_SET,      \
        .help =                                                                                    \
            "lay a value over the scenario, as in \"rock.mass=12 t\"; again and again if need be"  \
    }
/* Opens the group "What is shown". */
#define DAWN_STUDY_UNITS                                                                           \
    {                                                                                              \
        .group = "What is shown", .name = "units", .argument = "metric|us",                        \
        .kind = DAWN_OPTIONS_CHOICE, .offset = DAWN_STUDY_OPTION_AT(units), .words = "metric|us",  \
        .help = "C or F in the table; metric when left out"                                        \
    }
#define DAWN_STUDY_FORMATS                                                                         \
    {.name = "json",                                                                               \
     .kind = DAWN_OPTIONS_FLAG,                                                                    \
     .offset = DAWN_STUDY_OPTION_AT(json),                                                         \
     .help = "JSON instead of the table (always metric)"},                                         \
    {                                                                                              \
        .name = "csv", .kind = DAWN_OPTIONS_FLAG, .offset = DAWN_STUDY_OPTION_AT(csv),             \
        .help = "CSV instead of the table (always metric; lines end in CR LF)"                     \
    }
#define DAWN_STUDY_OUTPUT                                                                          \
    {                                                                                              \
        .group = "Where it goes", .name = "output", .argument = "FILE", .kind = DAWN_OPTIONS_TEXT, \
        .offset = DAWN_STUDY_OPTION_AT(output),                                                    \
        .help = "the result into a file, which appears whole or not at all"                        \
    }
/* Behind DAWN_STUDY_OUTPUT. */
#define DAWN_STUDY_HTML                                                                            \
    {                                                                                              \
        .name = "html", .argument = "FILE", .kind = DAWN_OPTIONS_TEXT,                             \
        .offset = DAWN_STUDY_OPTION_AT(html),                                                      \
        .help = "beside the result, a page for the browser and the printer, with pictures"         \
    }
/* Behind DAWN_STUDY_THREADS: which way is taken when it is left out, the study knows. */
#define DAWN_STUDY_ENGINE_ROW(usual)                                                               \
    {                                                                                              \
        .name = "engine", .argument = "accurate|fast", .kind = DAWN_OPTIONS_CHOICE,                \
        .offset = DAWN_STUDY_OPTION_AT(engine), .words = "accurate|fast",                          \
        .help = "fast runs many nurseries side by side, night lows within about 0.02 K of "        \
                "accurate; " usual " when left out"                                                \
    }
#define DAWN_STUDY_ENGINE      DAWN_STUDY_ENGINE_ROW("accurate")
#define DAWN_STUDY_ENGINE_FAST DAWN_STUDY_ENGINE_ROW("fast")
#define DAWN_STUDY_THREADS                                                                         \
    {                                                                                              \
        .group = "How it is calculated", .name = "threads", .letter = 'j', .argument = "N",        \
        .kind = DAWN_OPTIONS_WHOLE, .offset = DAWN_STUDY_OPTION_AT(threads), .least = 1.0,         \
        .most = 1024.0,                                                                            \
        .help = "runs at the same time; all the machine has when left out. The result is the same" \
    }

#endif
