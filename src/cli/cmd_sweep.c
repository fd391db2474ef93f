/* dawnlow sweep: any keys over ranges, row by row into a table that can be gone on with. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/cmd.h"
#include "cli/output.h"
#include "cli/rowfile.h"
#include "cli/study.h"

static const double usual_seed = 1.0;

#define AT(field) DAWN_STUDY_OPTION_AT(field)
static const struct dawn_option table[] = {
    {.group = "What is varied",
     .name = "vary",
     .argument = "KEY=RANGE",
     .kind = DAWN_OPTIONS_PHRASES,
     .offset = AT(vary),
     .help = "\"rock.mass=6 t..24 t/4\" takes 4 values from 6 t to 24 t, "
             "\"glazing.1.type=film|glass\" those words; given again and again, every "
             "combination is run"},
    {.name = "samples",
     .argument = "N",
     .kind = DAWN_OPTIONS_WHOLE,
     .offset = AT(samples),
     .least = 1.0,
     .most = DAWN_SWEEP_ROWS,
     .help = "N nurseries spread evenly over all ranges (a Latin hypercube) instead of every "
             "combination"},
    {.name = "seed",
     .argument = "N",
     .kind = DAWN_OPTIONS_WHOLE,
     .offset = AT(seed),
     .least = 0.0,
     .most = 9007199254740992.0,
     .help = "of --samples: another number draws others; 1 when left out"},
    DAWN_STUDY_WEATHERS,
    DAWN_STUDY_DAYS,
    DAWN_STUDY_SET,
    DAWN_STUDY_UNITS,
    {.name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "JSON instead of the table (always metric)"},
    DAWN_STUDY_OUTPUT,
    DAWN_STUDY_HTML,
    {.name = "csv",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(csv_file),
     .help = "every row with all its numbers; kept row by row in FILE.unfinished until all are "
             "there"},
    {.name = "resume",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(resume),
     .help = "go on with a table that was stopped; rows that are there are not run again"},
    {.name = "shard",
     .argument = "I/N",
     .kind = DAWN_OPTIONS_PHRASE,
     .offset = AT(shard),
     .help = "only the I-th of N parts, for several machines; 'dawnlow gather' puts the parts "
             "together"},
    DAWN_STUDY_THREADS,
    DAWN_STUDY_ENGINE_FAST,
};
static const char *const examples[] = {
    "dawnlow sweep nursery.yaml --vary \"rock.mass=6 t..24 t/4\" --csv rock.csv",
    "dawnlow sweep nursery.yaml --vary \"fan.on_at=26 C|28 C|30 C\" --json",
    "dawnlow sweep nursery.yaml --vary \"rock.mass=5..25 t\" --samples 50 --csv r.csv", NULL};
const struct dawn_options_command dawn_cmd_sweep_options = {
    .name = "sweep",
    .operands = "SCENARIO",
    .purpose = "What many nurseries would do that differ in a few values: each is run over the "
               "weather, and gets a row with its coldest night, its nights below freezing, its "
               "fan's hours and what its stores gave back.",
    .examples = examples,
    .notes =
        "Each row carries a fingerprint of scenario, weather, days, ranges and version, so "
        "that rows of different sweeps are never mixed. With several years of weather a row "
        "sums up all of them, and tells the low of one year in ten (3 years or more by Gumbel's "
        "distribution, 20 or more by the generalised extreme value distribution; fewer than "
        "10 are weak).",
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

struct sweep {
    struct dawn_sweep_axis axis[DAWN_SWEEP_AXES];
    struct dawn_sweep_plan plan;
    double *share;
    uint64_t fingerprint;
    size_t shard, shards; /* shard counts from 0 */
    struct dawn_rowfile rows;
    struct dawn_text table;
};

/* ---- what is asked ---- */

static enum dawn_status check(const struct dawn_options *options, struct dawn_problems *problems)
{
    if (options->vary.count == 0) {
        return dawn_study_refuse(problems, "for example --vary \"rock.mass=6 t..24 t/4\"",
                                 "nothing is varied: --vary is missing");
    }
    if (options->vary.count > DAWN_SWEEP_AXES) {
        return dawn_study_refuse(problems, NULL, "at most 8 keys can be varied at once");
    }
    if ((options->resume || options->shard != NULL) && options->csv_file == NULL) {
        return dawn_study_refuse(problems, "add --csv FILE",
                                 "--resume and --shard are about a table that is kept in a file");
    }
    if (isfinite(options->seed) && !isfinite(options->samples)) {
        return dawn_study_refuse(problems, "add --samples N",
                                 "--seed is for --samples, which is not given");
    }
    return DAWN_OK;
}

static enum dawn_status read_axes(struct sweep *sweep, const struct dawn_options *options,
                                  struct dawn_problems *problems)
{
    bool good = true;

    for (size_t i = 0; i < options->vary.count; i++) {
        struct dawn_sweep_axis *axis = &sweep->axis[i];
        good = dawn_sweep_axis_parse(axis, options->vary.item[i], problems) && good;
        if (good && axis->steps == 0 && !isfinite(options->samples)) {
            dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                              "write for example \"/4\" behind it, or add --samples N",
                              "'%s' does not say how many values to take", options->vary.item[i]);
            good = false;
        }
    }
    return good ? DAWN_OK : DAWN_ERR_USAGE;
}

/* "2/3": the second of three parts. */
static enum dawn_status read_shard(struct sweep *sweep, const char *text,
                                   struct dawn_problems *problems)
{
    double shard = 0.0;
    double shards = 0.0;
    const char *slash = NULL;
    const char *end = NULL;

    sweep->shards = 1;
    if (text == NULL) {
        return DAWN_OK;
    }
    if (!dawn_text_number(text, &slash, &shard) || *slash != '/' ||
        !dawn_text_number(slash + 1, &end, &shards) || *end != '\0' || !(shard >= 1.0) ||
        !(shard <= shards) || shards > DAWN_SWEEP_ROWS || shard != floor(shard) ||
        shards != floor(shards)) {
        return dawn_study_refuse(problems, "for example --shard 2/3, the second of three parts",
                                 "--shard takes I/N with I from 1 to N");
    }
    sweep->shard = (size_t)shard - 1;
    sweep->shards = (size_t)shards;
    return DAWN_OK;
}

static enum dawn_status plan_of(struct sweep *sweep, const struct dawn_study *study,
                                struct dawn_problems *problems)
{
    const struct dawn_options *options = &study->options;
    const double seed = isfinite(options->seed) ? options->seed : usual_seed;

    sweep->plan = (struct dawn_sweep_plan){
        .scenario = &study->inputs.scenario,
        .years = study->weathers.years,
        .run = dawn_study_plan_fast(study),
        .axis = sweep->axis,
        .axes = options->vary.count,
        .samples = isfinite(options->samples) ? (size_t)options->samples : 0,
        .seed = (uint64_t)seed,
    };
    if (sweep->plan.samples > 0) {
        sweep->share = dawn_sweep_sample(sweep->plan.samples, sweep->plan.axes, sweep->plan.seed);
        sweep->plan.share = sweep->share;
        if (sweep->share == NULL) {
            return DAWN_ERR_NOMEM;
        }
    }
    if (dawn_sweep_rows(&sweep->plan) == 0) {
        return dawn_study_refuse(problems, "take fewer values, or --samples N",
                                 "these are more than a million combinations");
    }
    sweep->fingerprint = dawn_sweep_fingerprint(&sweep->plan);
    return dawn_sweep_check(&sweep->plan, problems);
}

/* ---- the work ---- */

static bool wanted(size_t row, void *user)
{
    const struct sweep *sweep = user;

    return row % sweep->shards == sweep->shard && sweep->rows.line[row] == NULL;
}

static void keep_row(size_t row, const struct dawn_sweep_result *result, void *user)
{
    struct sweep *sweep = user;
    struct dawn_text line = {0};

    dawn_report_sweep_row(&line, &sweep->plan, row, sweep->fingerprint, result);
    if (line.failed) {
        sweep->rows.failed = true;
    } else {
        dawn_rowfile_add(&sweep->rows, row, line.data);
    }
    dawn_text_release(&line);
}

static enum dawn_status open_rows(struct sweep *sweep, const struct dawn_options *options,
                                  struct dawn_problems *problems)
{
    struct dawn_text header = {0};
    char fingerprint[24];

    (void)snprintf(fingerprint, sizeof fingerprint, "%016llx",
                   (unsigned long long)sweep->fingerprint);
    dawn_report_sweep_header(&header, &sweep->plan);
    const enum dawn_status status =
        header.failed ? DAWN_ERR_NOMEM
                      : dawn_rowfile_open(&sweep->rows, options->csv_file, header.data, fingerprint,
                                          dawn_sweep_rows(&sweep->plan), options->resume, problems);
    dawn_text_release(&header);
    return status;
}

static enum dawn_status run_rows(struct sweep *sweep, struct dawn_study *study,
                                 struct dawn_problems *problems)
{
    const struct dawn_sweep_work work = {.threads = dawn_study_threads(&study->options),
                                         .wanted = wanted,
                                         .row = keep_row,
                                         .keep_going = dawn_progress_step,
                                         .user = sweep,
                                         .keep_going_user = &study->progress};
    bool stopped = false;
    enum dawn_status status = dawn_sweep_run(&sweep->plan, &work, &stopped, problems);

    if (status == DAWN_OK && stopped) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                          sweep->rows.path != NULL ? "the same command with --resume goes on"
                                                   : NULL,
                          "stopped with %zu of %zu rows finished%s", sweep->rows.kept,
                          sweep->rows.rows, sweep->rows.path != NULL ? " and kept" : "");
        return DAWN_STOPPED;
    }
    if (status == DAWN_OK) {
        status = dawn_rowfile_finish(&sweep->rows, problems);
    }
    if (status == DAWN_OK) {
        dawn_rowfile_text(&sweep->rows, &sweep->table);
    }
    return status;
}

static enum dawn_status run(struct dawn_study *study, struct dawn_problems *problems)
{
    struct sweep *sweep = study->own;
    const struct dawn_options *options = &study->options;
    enum dawn_status status = read_axes(sweep, options, problems);

    if (status == DAWN_OK) {
        status = read_shard(sweep, options->shard, problems);
    }
    if (status == DAWN_OK) {
        status = plan_of(sweep, study, problems);
    }
    if (status == DAWN_OK) {
        status = open_rows(sweep, options, problems);
    }
    return status == DAWN_OK ? run_rows(sweep, study, problems) : status;
}

static void write(FILE *out, const struct dawn_study *study)
{
    const struct sweep *sweep = study->own;

    (void)dawn_report_sweep(out, dawn_study_format(&study->options),
                            dawn_study_units(&study->options), study->inputs.scenario.name,
                            &sweep->table);
}

static enum dawn_status page(FILE *out, const struct dawn_study *study)
{
    const struct sweep *sweep = study->own;
    const struct dawn_study_story story = dawn_study_story(study);

    char chance[128];

    (void)snprintf(chance, sizeof chance,
                   "%zu places spread over the ranges, drawn with seed %llu; the same input gives "
                   "the same page",
                   sweep->plan.samples, (unsigned long long)sweep->plan.seed);
    return dawn_report_sweep_page(out, dawn_study_units(&study->options), &story, &sweep->table,
                                  sweep->plan.samples > 0 ? chance : NULL);
}

enum dawn_status dawn_cmd_sweep(int argument_count, const char *const *arguments,
                                struct dawn_problems *problems)
{
    static const struct dawn_study_steps steps = {.command = &dawn_cmd_sweep_options,
                                                  .check = check,
                                                  .run = run,
                                                  .write = write,
                                                  .page = page};
    struct sweep sweep = {0};
    const enum dawn_status status =
        dawn_study_run(&steps, &sweep, argument_count, arguments, problems);

    free(sweep.share);
    dawn_rowfile_release(&sweep.rows);
    dawn_text_release(&sweep.table);
    return status;
}
