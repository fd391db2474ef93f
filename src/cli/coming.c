/* Past, now and forecast, as the command line tells them. */
#include "cli/coming.h"

#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/unit.h"

static const int64_t hour_s = 3600;
static const double day_s = 86400.0;
/* Members may be followed less closely than single runs: what they differ by is far more. Of the
 * demo's 119 lows one comes off by more than 0.01 K. */
static const double member_rtol = 1e-3, member_atol_K = 2e-2;

/* ---- now ---- */

static int64_t last_s(const struct dawn_weather *weather)
{
    return weather->first_s + (int64_t)(weather->count - 1) * hour_s;
}

static int64_t moment_s(const struct dawn_options_moment *moment, double utc_offset_h)
{
    const struct dawn_civil civil = {.year = moment->date.year,
                                     .month = moment->date.month,
                                     .day = moment->date.day,
                                     .hour = moment->hour,
                                     .minute = moment->minute};

    return dawn_civil_seconds(&civil, utc_offset_h);
}

static void write_moment(int64_t utc_s, double utc_offset_h, char out[24])
{
    const struct dawn_civil at = dawn_civil_at(utc_s, utc_offset_h);

    snprintf(out, 24, "%04d-%02d-%02d %02d:%02d", at.year % 10000, at.month, at.day, at.hour,
             at.minute);
}

/* A history may go on beyond the forecast's beginning: an old forecast, or a whole season's file.
 * Then it counts for the first day at most. */
static int64_t now_of(const struct dawn_study *study, const struct dawn_weather *history)
{
    const struct dawn_weather *forecast = &study->inputs.weather;

    if (study->options.at.date.month != 0) {
        return moment_s(&study->options.at, study->inputs.scenario.site.utc_offset_h);
    }
    if (history == NULL) {
        return forecast->first_s;
    }
    const int64_t known_s = last_s(history);
    return known_s > forecast->first_s + 24 * hour_s ? forecast->first_s : known_s;
}

static enum dawn_status refuse_now(const struct dawn_study *study, int64_t now_s,
                                   struct dawn_problems *problems)
{
    const struct dawn_weather *weather = &study->inputs.weather;
    const double offset_h = study->inputs.scenario.site.utc_offset_h;
    const struct dawn_place_in_file place = {.file = weather->path};
    char now[24];
    char first[24];
    char last[24];

    write_moment(now_s, offset_h, now);
    write_moment(weather->first_s, offset_h, first);
    write_moment(last_s(weather), offset_h, last);
    if (now_s < weather->first_s) {
        dawn_problems_add(
            problems, DAWN_ERROR, place,
            "take the forecast of today, or add --history with the hours before",
            "the forecast begins at %s, after now (%s): the night may be over by then", first, now);
    } else {
        dawn_problems_add(problems, DAWN_ERROR, place, "take a newer forecast",
                          "the forecast ends at %s; now is %s", last, now);
    }
    return DAWN_ERR_WEATHER;
}

/* ---- the past ---- */

static enum dawn_status join(struct dawn_study *study, int64_t *now_s,
                             struct dawn_problems *problems)
{
    struct dawn_weather history = {0};
    struct dawn_weather joined = {0};
    struct dawn_weather *forecast = &study->inputs.weather;
    const double keep_s = fmax(study->inputs.scenario.start.spin_up_s, 9.0 * day_s) + day_s;
    enum dawn_status status =
        dawn_inputs_more_weather(&study->inputs, study->options.history, &history, problems);

    if (status == DAWN_OK) {
        *now_s = now_of(study, &history);
        status = dawn_weather_join(&joined, &history, forecast, *now_s, keep_s, problems);
    }
    if (status == DAWN_OK) {
        dawn_weather_release(forecast);
        *forecast = joined;
    }
    dawn_weather_release(&history);
    return status;
}

enum dawn_status dawn_coming_settle(struct dawn_study *study, int64_t *now_s,
                                    struct dawn_problems *problems)
{
    enum dawn_status status = DAWN_OK;

    *now_s = now_of(study, NULL);
    if (study->options.history != NULL) {
        status = join(study, now_s, problems);
    } else if (study->options.now == NULL) {
        dawn_problems_add(problems, DAWN_NOTE, (struct dawn_place_in_file){0},
                          "--history PAST.csv, or --now rock=14C,barrels=9C with your own readings",
                          "how the house stands now is guessed from the forecast's own first days");
    }
    if (status != DAWN_OK) {
        return status;
    }
    const struct dawn_weather *weather = &study->inputs.weather;
    if (*now_s < weather->first_s || *now_s + hour_s > last_s(weather)) {
        return refuse_now(study, *now_s, problems);
    }
    study->window.from_s = *now_s;
    if (study->window.to_s > last_s(weather)) {
        study->window.to_s = last_s(weather);
    }
    return DAWN_OK;
}

/* ---- readings ---- */

static bool role_named(const char *name, enum dawn_role *role)
{
    static const struct {
        const char *name;
        enum dawn_role role;
    } known[] = {{"air", DAWN_ROLE_AIR}, {"rock", DAWN_ROLE_ROCK},  {"barrels", DAWN_ROLE_BARRELS},
                 {"bed", DAWN_ROLE_BED}, {"soil", DAWN_ROLE_FLOOR}, {"trays", DAWN_ROLE_TRAYS}};

    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (strcmp(name, known[i].name) == 0) {
            *role = known[i].role;
            return true;
        }
    }
    return false;
}

/* "rock=14C"; the text is cut up. */
static bool read_one(char *text, struct dawn_forecast_reading *reading)
{
    char unit[32];
    char *value = strchr(text, '=');

    if (value == NULL) {
        return false;
    }
    *value++ = '\0';
    while (*text == ' ') {
        text++;
    }
    return role_named(text, &reading->role) &&
           dawn_unit_quantity(value, DAWN_MEASURE_TEMPERATURE, &reading->temperature_C, unit) ==
               DAWN_QUANTITY_OK &&
           reading->temperature_C > -40.0 && reading->temperature_C < 80.0;
}

static enum dawn_status read_readings(const char *now, struct dawn_forecast_plan *plan,
                                      struct dawn_problems *problems)
{
    char text[256] = "";
    bool good = dawn_text_copy(text, sizeof text, now);

    for (char *part = text; good && part != NULL;) {
        char *comma = strchr(part, ',');
        if (comma != NULL) {
            *comma++ = '\0';
        }
        good = plan->reading_count < DAWN_FORECAST_READINGS_MOST &&
               read_one(part, &plan->reading[plan->reading_count]);
        plan->reading_count++;
        part = comma;
    }
    if (good) {
        return DAWN_OK;
    }
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                      "write air, rock, barrels, bed, soil or trays, each with its temperature and "
                      "unit, parted by commas: rock=14C,barrels=48F",
                      "--now cannot be understood: \"%.80s\"", now);
    return DAWN_ERR_USAGE;
}

/* ---- the plan ---- */

enum dawn_status dawn_coming_plan(struct dawn_study *study, int64_t now_s,
                                  struct dawn_forecast_plan *plan, struct dawn_problems *problems)
{
    const struct dawn_options *options = &study->options;

    *plan = (struct dawn_forecast_plan){
        .run = dawn_study_plan_fast(study),
        .members = isfinite(options->members) ? (size_t)options->members : DAWN_COMING_MEMBERS,
        .seed = isfinite(options->seed) ? (uint64_t)options->seed : DAWN_COMING_SEED,
        .threads = dawn_study_threads(options),
        .keep_going = dawn_progress_step,
        .user = &study->progress};
    plan->run.from_s = now_s;
    plan->run.rtol = member_rtol;
    plan->run.atol_K = member_atol_K;
    return options->now != NULL ? read_readings(options->now, plan, problems) : DAWN_OK;
}

enum dawn_status dawn_coming_check(const struct dawn_options *options,
                                   struct dawn_problems *problems)
{
    if (options->brief && (options->json || options->csv)) {
        return dawn_study_refuse(problems, NULL, "--brief is text; it has no JSON and no CSV");
    }
    return DAWN_OK;
}

enum dawn_status dawn_coming_stopped(struct dawn_problems *problems)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                      "stopped before the chances could be counted");
    return DAWN_STOPPED;
}

enum dawn_status dawn_coming_alarm(const struct dawn_options *options, double chance,
                                   const char *what, struct dawn_problems *problems)
{
    if (!isfinite(options->fail_above) || !(chance > options->fail_above)) {
        return DAWN_OK;
    }
    dawn_problems_add(problems, DAWN_WARNING, (struct dawn_place_in_file){0}, NULL,
                      "%s: %.0f %%, above the %.3g %% of --fail-above", what, 100.0 * chance,
                      100.0 * options->fail_above);
    return DAWN_ALARM;
}
