/* The scenario and the weather a command works on. */
#include "cli/inputs.h"

#include <math.h>
#include <string.h>

#include "cli/output.h"

/* Takes one "folder/.." out of a path; false when there is none. */
static bool fold_once(char *path)
{
    for (char *up = strstr(path, "/../"); up != NULL; up = strstr(up + 1, "/../")) {
        char *folder = up;
        while (folder > path && folder[-1] != '/') {
            folder--;
        }
        const size_t size = (size_t)(up - folder);
        if (size > 0 && strncmp(folder, ".", size) != 0 && strncmp(folder, "..", size) != 0) {
            memmove(folder, up + 4, strlen(up + 4) + 1);
            return true;
        }
    }
    return false;
}

/* "scenarios/../weather/march.csv" is read more easily as "weather/march.csv". Where the folder is
 * a link, the two are different files: then the path stays. */
static void shorten(struct dawn_text *path)
{
    struct dawn_text shorter = {0};

    dawn_text_add(&shorter, "%s", path->data != NULL ? path->data : "");
    bool more = !shorter.failed;
    while (more) {
        more = fold_once(shorter.data);
    }
    if (!shorter.failed && dawn_output_same(shorter.data, path->data)) {
        shorter.size = strlen(shorter.data);
        dawn_text_release(path);
        *path = shorter;
        return;
    }
    dawn_text_release(&shorter);
}

/* A file named in a scenario stands beside the scenario, wherever the command is run from. */
static void add_weather_path(struct dawn_text *path, const char *scenario_path, const char *file)
{
    const char *slash = strrchr(scenario_path, '/');

    if (file[0] != '/' && slash != NULL) {
        dawn_text_add_bytes(path, scenario_path, (size_t)(slash - scenario_path) + 1);
    }
    dawn_text_add(path, "%s", file);
    shorten(path);
}

enum dawn_status dawn_inputs_scenario(struct dawn_inputs *inputs,
                                      const struct dawn_options *options,
                                      struct dawn_problems *problems)
{
    const enum dawn_status status = dawn_scenario_read(&inputs->scenario, options->operand[0],
                                                       options->set, options->set_count, problems);

    inputs->weather_by_option = options->weather != NULL;
    if (inputs->weather_by_option) {
        dawn_text_add(&inputs->weather_path, "%s", options->weather);
    } else if (status == DAWN_OK && inputs->scenario.weather.file[0] != '\0') {
        add_weather_path(&inputs->weather_path, options->operand[0], inputs->scenario.weather.file);
    }
    return inputs->weather_path.failed ? DAWN_ERR_NOMEM : status;
}

static struct dawn_weather_hints hints_of(const struct dawn_scenario *scenario)
{
    const struct dawn_weather_hints hints = {
        .latitude_deg = scenario->site.latitude_deg,
        .longitude_deg = scenario->site.longitude_deg,
        .elevation_m = scenario->site.elevation_m,
        .utc_offset_h = scenario->weather.utc_offset_h,
        .site_utc_offset_h = scenario->site.utc_offset_h,
        .stamp = scenario->weather.stamp - 1, /* 0 there means: not said */
        .temperature_unit = scenario->weather.temperature_unit,
    };
    return hints;
}

static void note_file_line(const struct dawn_understood *value, void *line)
{
    if (strcmp(value->key, "weather.file") == 0) {
        *(int *)line = value->line;
    }
}

/* A scenario found somewhere names a file that is not there: the place to mend is the scenario. */
static void say_where_named(const struct dawn_scenario *scenario, struct dawn_problems *problems)
{
    int line = 0;

    dawn_scenario_understood(scenario, note_file_line, &line);
    const struct dawn_place_in_file place = {.file = scenario->path, .line = line};
    dawn_problems_add(problems, DAWN_NOTE, place,
                      "it is sought from the scenario's folder; --weather FILE takes another",
                      "the weather file is named here");
}

/* The station's weather becomes that of the site. */
static void bring_to_site(const struct dawn_site *site, enum dawn_status status,
                          struct dawn_weather *weather)
{
    if (status == DAWN_OK && (site->offset_K != 0.0 || site->offset_clear_K != 0.0)) {
        dawn_weather_shift(weather, site->offset_K, site->offset_clear_K);
    }
}

enum dawn_status dawn_inputs_weather(struct dawn_inputs *inputs, struct dawn_problems *problems)
{
    const struct dawn_weather_hints hints = hints_of(&inputs->scenario);

    if (inputs->weather_path.data == NULL) {
        const struct dawn_place_in_file place = {.file = inputs->scenario.path};
        dawn_problems_add(problems, DAWN_ERROR, place,
                          "add --weather FILE, or write file: under weather: in the scenario",
                          "no weather file is named");
        return DAWN_ERR_USAGE;
    }
    const enum dawn_status status =
        dawn_weather_read(&inputs->weather, inputs->weather_path.data, &hints, problems);
    if (status == DAWN_ERR_IO && !inputs->weather_by_option) {
        say_where_named(&inputs->scenario, problems);
    }
    bring_to_site(&inputs->scenario.site, status, &inputs->weather);
    return status;
}

enum dawn_status dawn_inputs_more_weather(const struct dawn_inputs *inputs, const char *path,
                                          struct dawn_weather *weather,
                                          struct dawn_problems *problems)
{
    const struct dawn_weather_hints hints = hints_of(&inputs->scenario);

    const enum dawn_status status = dawn_weather_read(weather, path, &hints, problems);
    bring_to_site(&inputs->scenario.site, status, weather);
    return status;
}

void dawn_inputs_release(struct dawn_inputs *inputs)
{
    dawn_scenario_release(&inputs->scenario);
    dawn_weather_release(&inputs->weather);
    dawn_text_release(&inputs->weather_path);
}
