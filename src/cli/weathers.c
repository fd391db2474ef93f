/* Several weather files: their names, what they hold, and which days of each count. */
#include "cli/weathers.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/civil.h"

static enum dawn_status no_memory(struct dawn_problems *problems)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                      "out of memory while the weather files were found");
    return DAWN_ERR_NOMEM;
}

/* ---- names ---- */

/* "folder/name" as one allocated text; folder NULL = the name alone. */
static bool add_path(struct dawn_weathers *weathers, const char *folder, const char *name)
{
    struct dawn_text path = {0};
    char **grown = realloc(weathers->path, (weathers->path_count + 1) * sizeof *grown);

    if (grown == NULL) {
        return false;
    }
    weathers->path = grown;
    dawn_text_add(&path, "%s%s%s", folder != NULL ? folder : "", folder != NULL ? "/" : "", name);
    if (path.failed) {
        dawn_text_release(&path);
        return false;
    }
    weathers->path[weathers->path_count++] = path.data;
    return true;
}

static bool is_csv(const char *name)
{
    const size_t size = strlen(name);

    return size > 4 && name[0] != '.' && dawn_text_same(name + size - 4, ".csv");
}

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static enum dawn_status add_folder(struct dawn_weathers *weathers, const char *folder,
                                   struct dawn_problems *problems)
{
    const size_t before = weathers->path_count;
    DIR *entries = opendir(folder);
    bool good = true;

    for (struct dirent *entry = entries != NULL ? readdir(entries) : NULL; good && entry != NULL;
         entry = readdir(entries)) {
        if (is_csv(entry->d_name)) {
            good = add_path(weathers, folder, entry->d_name);
        }
    }
    if (entries != NULL) {
        (void)closedir(entries);
    }
    if (!good) {
        return no_memory(problems);
    }
    if (weathers->path_count == before) {
        const struct dawn_place_in_file place = {.file = folder};
        dawn_problems_add(problems, DAWN_ERROR, place,
                          "name the files, or a folder with one .csv file a year",
                          "there is no weather year in this folder: no file ends in .csv");
        return DAWN_ERR_WEATHER;
    }
    qsort(weathers->path + before, weathers->path_count - before, sizeof *weathers->path, by_name);
    return DAWN_OK;
}

static bool is_folder(const char *path)
{
    struct stat state;

    return stat(path, &state) == 0 && S_ISDIR(state.st_mode);
}

enum dawn_status dawn_weathers_find(struct dawn_weathers *weathers,
                                    const struct dawn_options_phrases *given,
                                    struct dawn_problems *problems)
{
    enum dawn_status status = DAWN_OK;

    for (size_t i = 0; i < given->count && status == DAWN_OK; i++) {
        if (is_folder(given->item[i])) {
            status = add_folder(weathers, given->item[i], problems);
        } else if (!add_path(weathers, NULL, given->item[i])) {
            status = no_memory(problems);
        }
    }
    return status;
}

/* ---- the years they hold ---- */

static bool add_year(struct dawn_weathers *weathers, const struct dawn_weather *weather,
                     int64_t from_s, int64_t to_s)
{
    struct dawn_year *grown =
        realloc(weathers->year, (weathers->year_count + 1) * sizeof *weathers->year);

    if (grown == NULL) {
        return false;
    }
    weathers->year = grown;
    weathers->year[weathers->year_count++] = (struct dawn_year){weather, from_s, to_s};
    return true;
}

static bool add_years(struct dawn_weathers *weathers, const struct dawn_weather *weather,
                      struct dawn_window window, double utc_offset_h)
{
    static const int64_t day_s = 86400;
    int64_t from_s = window.from_s;

    if (window.to_s - window.from_s > 400 * day_s) {
        const int last = dawn_civil_at(window.to_s, utc_offset_h).year;
        for (int year = dawn_civil_at(from_s, utc_offset_h).year + 1; year <= last; year++) {
            const int64_t cut_s = dawn_civil_seconds(
                &(struct dawn_civil){.year = year, .month = 1, .day = 1, .hour = 12}, utc_offset_h);
            if (cut_s - from_s >= 60 * day_s && window.to_s - cut_s >= 60 * day_s) {
                if (!add_year(weathers, weather, from_s, cut_s)) {
                    return false;
                }
                from_s = cut_s;
            }
        }
    }
    return add_year(weathers, weather, from_s, window.to_s);
}

/* ---- what they hold ---- */

static enum dawn_status read_one(struct dawn_weathers *weathers, size_t index,
                                 const struct dawn_inputs *inputs,
                                 const struct dawn_options *options, struct dawn_problems *problems)
{
    struct dawn_weather *weather = &weathers->more[index - 1];
    struct dawn_window window = {0};
    enum dawn_status status =
        dawn_inputs_more_weather(inputs, weathers->path[index], weather, problems);

    if (status == DAWN_OK) {
        status = dawn_window_of(&window, &inputs->scenario, weather, options, problems);
    }
    if (status == DAWN_OK &&
        !add_years(weathers, weather, window, inputs->scenario.site.utc_offset_h)) {
        status = no_memory(problems);
    }
    return status;
}

enum dawn_status dawn_weathers_read(struct dawn_weathers *weathers,
                                    const struct dawn_inputs *inputs,
                                    const struct dawn_options *options, struct dawn_window first,
                                    struct dawn_problems *problems)
{
    const size_t count = weathers->path_count > 0 ? weathers->path_count : 1;
    enum dawn_status status = DAWN_OK;

    weathers->more = calloc(count, sizeof *weathers->more);
    if (weathers->more == NULL ||
        !add_years(weathers, &inputs->weather, first, inputs->scenario.site.utc_offset_h)) {
        return no_memory(problems);
    }
    for (size_t i = 1; i < count && status == DAWN_OK; i++) {
        status = read_one(weathers, i, inputs, options, problems);
    }
    weathers->years = (struct dawn_years){weathers->year_count, weathers->year};
    return status;
}

void dawn_weathers_release(struct dawn_weathers *weathers)
{
    for (size_t i = 1; weathers->more != NULL && i < weathers->path_count; i++) {
        dawn_weather_release(&weathers->more[i - 1]);
    }
    for (size_t i = 0; i < weathers->path_count; i++) {
        free(weathers->path[i]);
    }
    free(weathers->path);
    free(weathers->more);
    free(weathers->year);
    *weathers = (struct dawn_weathers){0};
}
