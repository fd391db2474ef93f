/* The command line of one command: one table tells how it is read, checked and explained. */
#ifndef CLI_OPTIONS_H
#define CLI_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/unit.h"
#include "dawnlow/problems.h"

enum { DAWN_OPTIONS_OPERANDS = 16, DAWN_OPTIONS_SETS = 64 };

/* A day as the user wrote it. month 0 = not given; year 0 = written without a year. */
struct dawn_options_date {
    int year, month, day;
};

/* A moment as the user wrote it, by the site's clock. date.month 0 = not given. */
struct dawn_options_moment {
    struct dawn_options_date date;
    int hour, minute;
};

/* What an option that may be given again and again has gathered. */
struct dawn_options_phrases {
    const char *item[DAWN_OPTIONS_SETS];
    size_t count;
};

/* Everything any command can be told; each command's table fills its part of it. Texts point into
 * the argument list. */
struct dawn_options {
    const char *operand[DAWN_OPTIONS_OPERANDS];
    size_t operand_count;
    bool help, quiet, plot, json, csv, means, no_fan, accurate, verbose, rates, fan_on;
    bool brief;
    const char *weather, *series, *output, *html; /* NULL = not given */
    struct dawn_options_phrases weathers;         /* for studies over several years */
    struct dawn_options_phrases vary;
    const char *csv_file, *shard;
    bool resume;
    const char *history, *now, *mine, *station;
    struct dawn_options_date from, to, explain;
    struct dawn_options_moment at;
    double step_s; /* NAN = not given, as all numbers here */
    double utc_offset_h, latitude_deg, longitude_deg, elevation_m;
    double states, seed, threads, samples, members, fail_above;
    double on_least_C, on_most_C, on_step_K, line_C, budget;
    const char *goal, *size_vary; /* NULL = not given */
    int engine;                   /* 0 accurate, 1 fast */
    int units;                    /* enum dawn_units; -1 = not given, as all choices here */
    int stamp;                    /* enum dawn_stamp */
    int what;                     /* enum dawn_picture_kind */
    int temperature_unit;         /* C, F, K */
    bool questions;               /* of new */
    const char *answers;
    const char *set[DAWN_OPTIONS_SETS];
    size_t set_count;
};

enum dawn_options_kind {
    DAWN_OPTIONS_FLAG,     /* bool */
    DAWN_OPTIONS_TEXT,     /* const char *, the name of a file */
    DAWN_OPTIONS_PHRASE,   /* const char *, any words */
    DAWN_OPTIONS_PHRASES,  /* struct dawn_options_phrases; may be given again and again */
    DAWN_OPTIONS_DATE,     /* struct dawn_options_date */
    DAWN_OPTIONS_MOMENT,   /* struct dawn_options_moment */
    DAWN_OPTIONS_QUANTITY, /* double, in SI */
    DAWN_OPTIONS_WHOLE,    /* double without a fraction */
    DAWN_OPTIONS_CHOICE,   /* int, place in words */
    DAWN_OPTIONS_SET       /* KEY=VALUE, may be given again and again */
};

struct dawn_option {
    const char *group;    /* heading in --help; NULL = as the one before */
    const char *name;     /* without the dashes */
    char letter;          /* short form, as in -j 2; 0 = none */
    const char *argument; /* what follows, for --help; NULL for flags */
    const char *help;
    enum dawn_options_kind kind;
    size_t offset; /* in struct dawn_options */
    /* For quantities and whole numbers: what is measured, and the limits (SI) outside which it is
     * refused. */
    enum dawn_measure measure;
    bool bare; /* a number without a unit will do: it is in the measure's own unit */
    double least, most;
    const char *words; /* for choices: "metric|us" */
};

/* A whole command: what stands in its --help, and its options. */
struct dawn_options_command {
    const char *name, *operands, *purpose;
    /* NULL-terminated. What begins with a blank is a line that the example above it prints, for the
     * manual, "..." for lines left out; tests/cli/manual_examples.sh holds it to that. */
    const char *const *examples;
    const char *notes; /* below the options; may be NULL */
    size_t operands_least, operands_most;
    const struct dawn_option *option;
    size_t option_count;
};

/* What every command takes beside its own: --quiet and --help. */
const struct dawn_option *dawn_options_common(size_t *count);

/* Reads the arguments behind the command's name. Every mistake goes to problems; DAWN_ERR_USAGE
 * when there was one. With --help among them, help is set and nothing is complained of. No
 * globals, no output, the arguments are left as they are. */
enum dawn_status dawn_options_parse(struct dawn_options *options,
                                    const struct dawn_options_command *command, int argument_count,
                                    const char *const *arguments, struct dawn_problems *problems);

/* YYYY-MM-DD or MM-DD (then year is 0; 02-29 is taken). False when it is neither or no such day. */
bool dawn_options_date(const char *text, struct dawn_options_date *date);

/* YYYY-MM-DDTHH:MM; a blank may stand for the T. False when it is no such moment. */
bool dawn_options_moment(const char *text, struct dawn_options_moment *moment);

/* --help: examples first, options in groups, 80 columns. */
void dawn_options_help(FILE *out, const struct dawn_options_command *command);

/* Words written from a column on, broken before column 81; the caller stands at that column. */
void dawn_options_put_words(FILE *out, const char *text, size_t column);

/* The nearest of count names to a mistyped one: at most two slips away, or the one it starts; NULL
 * when none is near. names is stride bytes apart, each a const char *. */
const char *dawn_options_nearest(const char *word, const void *names, size_t count, size_t stride);

#endif
