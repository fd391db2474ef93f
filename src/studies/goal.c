/* The grammar of goals. */
#include "dawnlow/studies/goal.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/text.h"
#include "base/unit.h"

static const char example[] = "for example \"0 C at trays, 1 night in 10 springs\"";

static enum dawn_status refuse(struct dawn_problems *problems, const char *what, const char *found)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, example,
                      "--goal: %s: '%s'", what, found);
    return DAWN_ERR_USAGE;
}

/* ---- words ---- */

static const struct {
    const char *word;
    enum dawn_goal_place place;
} places[] = {
    {"tray", DAWN_GOAL_TRAYS},    {"trays", DAWN_GOAL_TRAYS}, {"leaf", DAWN_GOAL_LEAVES},
    {"leaves", DAWN_GOAL_LEAVES}, {"air", DAWN_GOAL_AIR},     {"house air", DAWN_GOAL_AIR},
    {"root", DAWN_GOAL_ROOTS},    {"roots", DAWN_GOAL_ROOTS},
};

const char *dawn_goal_place_words(enum dawn_goal_place place)
{
    static const char *const words[] = {"trays", "leaves", "house air", "roots"};

    return words[place];
}

static const char *find_word(const char *text, const char *word)
{
    for (; *text != '\0'; text++) {
        if (dawn_text_starts(text, word)) {
            return text;
        }
    }
    return NULL;
}

/* ---- where and how low ---- */

static bool has_place(const struct dawn_scenario *scenario, enum dawn_goal_place place)
{
    switch (place) {
    case DAWN_GOAL_TRAYS:
        return scenario->trays.present;
    case DAWN_GOAL_LEAVES:
        return scenario->trays.present && scenario->trays.leaf_area_index > 0.0;
    case DAWN_GOAL_ROOTS:
        return scenario->bed.present ||
               (scenario->trays.present && scenario->trays.stand_on == DAWN_ON_BED);
    case DAWN_GOAL_AIR:
        break;
    }
    return true;
}

static enum dawn_status read_place(struct dawn_goal *goal, const char *word,
                                   const struct dawn_scenario *scenario,
                                   struct dawn_problems *problems)
{
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        if (dawn_text_same(word, places[i].word)) {
            goal->place = places[i].place;
            return has_place(scenario, goal->place)
                       ? DAWN_OK
                       : refuse(problems, "this nursery has no such place", word);
        }
    }
    return refuse(problems, "the place may be trays, leaves, air or roots, not", word);
}

static enum dawn_status read_line(struct dawn_goal *goal, const char *part,
                                  const struct dawn_scenario *scenario,
                                  struct dawn_problems *problems)
{
    const char *at = find_word(part, " at ");
    char line[128];
    char place[128];
    char unit[32];

    (void)dawn_text_cut(line, sizeof line, part, at);
    (void)dawn_text_cut(place, sizeof place, at + 4, part + strlen(part));
    if (dawn_text_starts(place, "the ")) {
        memmove(place, place + 4, strlen(place + 4) + 1);
    }
    if (dawn_unit_quantity(line, DAWN_MEASURE_TEMPERATURE, &goal->line_C, unit) !=
        DAWN_QUANTITY_OK) {
        return refuse(problems, "a temperature with C or F is needed before 'at', not", line);
    }
    if (goal->line_C < -40.0 || goal->line_C > 40.0) {
        return refuse(problems, "no nursery is held at such a temperature", line);
    }
    return read_place(goal, place, scenario, problems);
}

static enum dawn_status read_crop(struct dawn_goal *goal, const char *part,
                                  const struct dawn_scenario *scenario,
                                  struct dawn_problems *problems)
{
    const char *behind = find_word(part, " unharmed");
    char name[128];

    (void)dawn_text_cut(name, sizeof name, part, behind != NULL ? behind : part + strlen(part));
    for (size_t i = 0; i < scenario->crop_count; i++) {
        if (dawn_text_same(scenario->crops[i].name, name)) {
            goal->line_C = scenario->crops[i].damage_C;
            goal->place = has_place(scenario, DAWN_GOAL_LEAVES)  ? DAWN_GOAL_LEAVES
                          : has_place(scenario, DAWN_GOAL_TRAYS) ? DAWN_GOAL_TRAYS
                                                                 : DAWN_GOAL_AIR;
            return dawn_text_copy(goal->crop, sizeof goal->crop, scenario->crops[i].name)
                       ? DAWN_OK
                       : DAWN_ERR_USAGE;
        }
    }
    return refuse(problems, "this is neither a temperature at a place nor a crop of the scenario",
                  name);
}

/* ---- how often ---- */

static bool read_count(const char **text, double *count)
{
    const char *end = NULL;

    if (!dawn_text_number(*text, &end, count)) {
        return false;
    }
    *text = end;
    while (**text == ' ') {
        ++*text;
    }
    return true;
}

static bool take_word(const char **text, const char *word)
{
    const size_t length = strlen(word);

    if (!dawn_text_starts(*text, word) || isalpha((unsigned char)(*text)[length])) {
        return false;
    }
    *text += length;
    while (**text == ' ') {
        ++*text;
    }
    return true;
}

static enum dawn_status read_often(struct dawn_goal *goal, const char *part,
                                   struct dawn_problems *problems)
{
    const char *at = part;

    if (dawn_text_same(part, "never")) {
        goal->nights = 0.0;
        return DAWN_OK;
    }
    bool fine = read_count(&at, &goal->nights) &&
                (take_word(&at, "nights") || take_word(&at, "night")) && take_word(&at, "in");
    goal->springs = 1.0;
    fine = fine &&
           (take_word(&at, "a") || !isdigit((unsigned char)*at) || read_count(&at, &goal->springs));
    if (fine && (take_word(&at, "springs") || take_word(&at, "spring"))) {
        goal->spring_only = true;
    } else if (fine && (take_word(&at, "years") || take_word(&at, "year"))) {
        goal->spring_only = false;
    } else {
        fine = false;
    }
    if (!fine || *at != '\0') {
        return refuse(problems,
                      "'N nights in M springs', '... in M years' or 'never' is needed, not", part);
    }
    if (goal->nights < 0.0 || goal->springs < 1.0 || goal->nights > 366.0 * goal->springs) {
        return refuse(problems, "so many nights in so many springs cannot be", part);
    }
    return DAWN_OK;
}

enum dawn_status dawn_goal_read(struct dawn_goal *goal, const char *text,
                                const struct dawn_scenario *scenario,
                                struct dawn_problems *problems)
{
    const char *comma = strchr(text, ',');
    char first[128];
    char often[128];

    *goal = (struct dawn_goal){.nights = 1.0, .springs = 10.0, .spring_only = true};
    /* A decimal comma stands between digits. */
    while (comma != NULL && comma > text && isdigit((unsigned char)comma[-1]) &&
           isdigit((unsigned char)comma[1])) {
        comma = strchr(comma + 1, ',');
    }
    if (!dawn_text_cut(first, sizeof first, text, comma != NULL ? comma : text + strlen(text))) {
        return refuse(problems, "there is no goal in it, or it is too long", text);
    }
    if (comma != NULL && !dawn_text_cut(often, sizeof often, comma + 1, text + strlen(text))) {
        return refuse(problems, "how often stands behind the comma, not", comma);
    }
    const enum dawn_status status = find_word(first, " at ") != NULL
                                        ? read_line(goal, first, scenario, problems)
                                        : read_crop(goal, first, scenario, problems);
    return status == DAWN_OK && comma != NULL ? read_often(goal, often, problems) : status;
}

/* ---- nights against it ---- */

double dawn_goal_low_C(const struct dawn_goal *goal, const struct dawn_night *night)
{
    switch (goal->place) {
    case DAWN_GOAL_TRAYS:
        return night->tray_low_C;
    case DAWN_GOAL_LEAVES:
        return night->leaf_low_C;
    case DAWN_GOAL_ROOTS:
        return night->root_low_C;
    case DAWN_GOAL_AIR:
        break;
    }
    return night->air_low_C;
}

bool dawn_goal_counts(const struct dawn_goal *goal, const struct dawn_scenario *scenario,
                      const struct dawn_night *night)
{
    const int month = dawn_civil_at(night->dusk_s, scenario->site.utc_offset_h).month;
    const int first = scenario->site.latitude_deg < 0.0 ? 9 : 3;

    return !goal->spring_only || (month >= first && month <= first + 2);
}

size_t dawn_goal_allowed(const struct dawn_goal *goal, size_t springs)
{
    return (size_t)floor(goal->nights / goal->springs * (double)springs + 1e-9);
}
