/* A scenario file into the struct: sections, lists and keys in the order they stand, every mistake
 * named with its place. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/yamlin.h"
#include "scenario/scenario_parts.h"

enum { SECTIONS_MOST = 32 };

/* A walk over the events; each function starts at the event it is about and leaves behind it. */
struct walk {
    struct dawn_scenario_reading *reading;
    const struct dawn_yamlin_event *at;
    const struct dawn_yamlin_event *seen[SECTIONS_MOST]; /* first key of each section */
};

static struct dawn_place_in_file place_of(const struct walk *walk,
                                          const struct dawn_yamlin_event *event)
{
    return dawn_scenario_place(walk->reading, event->line, event->column);
}

static void complain(const struct walk *walk, const struct dawn_yamlin_event *event,
                     const char *hint, const char *message)
{
    if (!event->refused)
        dawn_scenario_complain(walk->reading, DAWN_ERROR, place_of(walk, event), hint, "%s",
                               message);
}

static void note(struct walk *walk, struct dawn_scenario_spot spot, const struct dawn_key *key,
                 enum dawn_scenario_fate fate, const struct dawn_yamlin_event *event)
{
    struct dawn_scenario_origin origin = {spot, key, fate, event->line, event->column};
    if (!dawn_scenario_note_origin(walk->reading->scenario, origin))
        walk->reading->no_memory = true;
}

/* Passes over one value, section or list with all it holds. */
static void skip(struct walk *walk)
{
    size_t depth = 0;
    do {
        enum dawn_yamlin_kind kind = walk->at->kind;
        if (kind == DAWN_YAMLIN_SECTION || kind == DAWN_YAMLIN_LIST)
            depth++;
        if (kind == DAWN_YAMLIN_SECTION_END || kind == DAWN_YAMLIN_LIST_END)
            depth--;
        walk->at++;
    } while (depth > 0);
}

/* ---- one key and its value ---- */

static bool is_repeated(struct walk *walk, struct dawn_scenario_spot spot,
                        const struct dawn_key *key, const struct dawn_yamlin_event *event)
{
    const struct dawn_scenario_origin *first =
        dawn_scenario_find_origin(walk->reading->scenario, spot, key);
    if (first == NULL || first->fate == DAWN_SCENARIO_MEANT)
        return false;
    dawn_scenario_complain(walk->reading, DAWN_ERROR, place_of(walk, event), "leave one of the two",
                           "'%s' stands here a second time; the first is in line %d",
                           dawn_scenario_quote_of(event->text).text, first->line);
    return true;
}

static void read_value(struct walk *walk, struct dawn_scenario_spot spot,
                       const struct dawn_key *key, const struct dawn_yamlin_event *key_event)
{
    const struct dawn_yamlin_event *event = walk->at;
    void *base = dawn_scenario_at(walk->reading->scenario, spot);
    bool good = false;
    if (is_repeated(walk, spot, key, key_event)) {
        skip(walk);
        return;
    }
    if (event->kind != DAWN_YAMLIN_VALUE) {
        dawn_scenario_complain(walk->reading, DAWN_ERROR, place_of(walk, key_event), key->meaning,
                               "'%s' takes one value on the same line, not %s", key->name,
                               event->kind == DAWN_YAMLIN_LIST ? "a list" : "keys of its own");
    } else if (!event->refused) {
        /* A value left out is blamed on its key: that is where the caret helps. */
        const struct dawn_yamlin_event *blamed = event->text[0] == '\0' ? key_event : event;
        good =
            dawn_scenario_set_value(walk->reading, key, base, event->text, place_of(walk, blamed));
    }
    note(walk, spot, key, good ? DAWN_SCENARIO_GIVEN : DAWN_SCENARIO_REFUSED, event);
    skip(walk);
}

/* At a KEY that names no list. */
static void read_key(struct walk *walk, struct dawn_scenario_spot spot)
{
    const struct dawn_yamlin_event *event = walk->at++;
    const struct dawn_key *key =
        event->refused ? NULL : dawn_scenario_key_named(spot.section->name, event->text);
    if (key != NULL) {
        read_value(walk, spot, key, event);
        return;
    }
    if (!event->refused)
        dawn_scenario_complain_of_key(walk->reading, spot, event->text, place_of(walk, event));
    skip(walk);
}

/* At a SECTION event. */
static void read_keys(struct walk *walk, struct dawn_scenario_spot spot)
{
    walk->at++;
    while (walk->at->kind == DAWN_YAMLIN_KEY)
        read_key(walk, spot);
    walk->at++;
}

/* ---- lists ---- */

/* Reads what one item holds; items that hold lists have another than those that do not. */
typedef void read_item_keys(struct walk *walk, struct dawn_scenario_spot spot);

static void read_item(struct walk *walk, struct dawn_scenario_spot spot,
                      read_item_keys *read_keys_of)
{
    const struct dawn_yamlin_event *event = walk->at;
    size_t *count = dawn_scenario_item_count(walk->reading->scenario, spot);
    bool sublist = spot.section->form == DAWN_SCENARIO_SUBLIST;
    if (event->kind != DAWN_YAMLIN_SECTION) {
        complain(walk, event, "write '- name: ...' and the other keys below, in the same column",
                 "a list item consists of keys and values");
        skip(walk);
        return;
    }
    if (*count == spot.section->most) {
        dawn_scenario_complain(walk->reading, DAWN_ERROR, place_of(walk, event),
                               "join items that are alike",
                               "too many items in this list; %zu are the most", spot.section->most);
        while (walk->at->kind != DAWN_YAMLIN_LIST_END)
            skip(walk);
        return;
    }
    *(sublist ? &spot.layer : &spot.item) = *count;
    dawn_scenario_set_usual(spot.section, dawn_scenario_at(walk->reading->scenario, spot));
    (*count)++;
    note(walk, spot, NULL, DAWN_SCENARIO_GIVEN, event);
    read_keys_of(walk, spot);
}

static void read_list(struct walk *walk, struct dawn_scenario_spot spot,
                      const struct dawn_yamlin_event *key_event, read_item_keys *read_keys_of)
{
    const struct dawn_yamlin_event *event = walk->at;
    const char *word = dawn_scenario_section_word(spot.section);
    if (event->kind == DAWN_YAMLIN_LIST) {
        walk->at++;
        while (walk->at->kind != DAWN_YAMLIN_LIST_END)
            read_item(walk, spot, read_keys_of);
        walk->at++;
        return;
    }
    bool empty = event->kind == DAWN_YAMLIN_VALUE && !event->refused && event->text[0] == '\0';
    if (!empty && spot.section->form == DAWN_SCENARIO_LIST)
        note(walk, spot, NULL, DAWN_SCENARIO_REFUSED, key_event);
    if (event->kind == DAWN_YAMLIN_SECTION)
        dawn_scenario_complain(walk->reading, DAWN_ERROR, place_of(walk, event),
                               "put '- ' before its first key and two blanks before the others",
                               "'%s' is a list: each item begins with '-'", word);
    else if (!empty && !event->refused)
        dawn_scenario_complain(walk->reading, DAWN_ERROR, place_of(walk, event),
                               "write its items on the lines below, each beginning with '- '",
                               "'%s' is a list and takes no value itself", word);
    else if (empty)
        dawn_scenario_complain(walk->reading, DAWN_WARNING, place_of(walk, key_event), NULL,
                               "'%s' is written but holds no items", word);
    skip(walk);
}

/* ---- lists in the items of a list ---- */

static const struct dawn_scenario_section *sublist_of(struct dawn_scenario_spot spot,
                                                      const char *word)
{
    size_t count = 0;
    const struct dawn_scenario_section *sections = dawn_scenario_sections(&count);
    for (size_t i = 0; i < count; i++)
        if (sections[i].parent != NULL && strcmp(sections[i].parent, spot.section->name) == 0 &&
            strcmp(dawn_scenario_section_word(&sections[i]), word) == 0)
            return &sections[i];
    return NULL;
}

static bool is_read_already(struct walk *walk, struct dawn_scenario_spot spot,
                            const struct dawn_yamlin_event *event)
{
    if (dawn_scenario_item_count_const(walk->reading->scenario, spot) == 0)
        return false;
    complain(walk, event, "put all items under one heading", "this list stands here a second time");
    return true;
}

static void read_outer_key(struct walk *walk, struct dawn_scenario_spot spot)
{
    const struct dawn_yamlin_event *event = walk->at;
    const struct dawn_scenario_section *sublist =
        event->refused ? NULL : sublist_of(spot, event->text);
    if (sublist == NULL) {
        read_key(walk, spot);
        return;
    }
    walk->at++;
    spot.section = sublist;
    if (is_read_already(walk, spot, event))
        skip(walk);
    else
        read_list(walk, spot, event, read_keys);
}

static void read_outer_keys(struct walk *walk, struct dawn_scenario_spot spot)
{
    walk->at++;
    while (walk->at->kind == DAWN_YAMLIN_KEY)
        read_outer_key(walk, spot);
    walk->at++;
}

/* ---- sections ---- */

/* A section that is no section is marked refused, so that nobody misses what it should hold. */
static void refuse_section(struct walk *walk, struct dawn_scenario_spot spot,
                           const struct dawn_yamlin_event *key_event)
{
    const struct dawn_yamlin_event *event = walk->at;
    note(walk, spot, NULL, DAWN_SCENARIO_REFUSED, key_event);
    if (event->kind == DAWN_YAMLIN_LIST)
        dawn_scenario_complain(walk->reading, DAWN_ERROR, place_of(walk, event),
                               "leave out the '-' before the keys",
                               "'%s' is one section, not a list of items", spot.section->name);
    else if (!event->refused)
        dawn_scenario_complain(walk->reading, DAWN_ERROR, place_of(walk, event),
                               "write its keys on the lines below, indented by two blanks",
                               "'%s' is a section and takes no value itself", spot.section->name);
    skip(walk);
}

static void read_section(struct walk *walk, struct dawn_scenario_spot spot,
                         const struct dawn_yamlin_event *key_event)
{
    bool yes = true;
    const struct dawn_yamlin_event *event = walk->at;
    char *base = dawn_scenario_at(walk->reading->scenario, spot);
    bool empty = event->kind == DAWN_YAMLIN_VALUE && !event->refused && event->text[0] == '\0';
    if (event->kind != DAWN_YAMLIN_SECTION && !empty) {
        refuse_section(walk, spot, key_event);
        return;
    }
    note(walk, spot, NULL, DAWN_SCENARIO_GIVEN, key_event);
    if (spot.section->form == DAWN_SCENARIO_OPTIONAL)
        memcpy(base + spot.section->present_offset, &yes, sizeof yes);
    if (empty)
        skip(walk);
    else
        read_keys(walk, spot);
}

/* ---- the whole file ---- */

static bool is_second(struct walk *walk, const struct dawn_scenario_section *section,
                      const struct dawn_yamlin_event *event)
{
    size_t count = 0;
    size_t index = (size_t)(section - dawn_scenario_sections(&count));
    if (walk->seen[index] == NULL) {
        walk->seen[index] = event;
        return false;
    }
    dawn_scenario_complain(walk->reading, DAWN_ERROR, place_of(walk, event),
                           "put all its lines under one heading",
                           "section '%s' stands here a second time; the first is in line %d",
                           section->name, walk->seen[index]->line);
    return true;
}

static void read_top_key(struct walk *walk, struct dawn_scenario_spot top)
{
    const struct dawn_yamlin_event *event = walk->at;
    const struct dawn_scenario_section *section =
        event->refused || event->text[0] == '\0' ? NULL : dawn_scenario_section_named(event->text);
    if (section == NULL || section->form == DAWN_SCENARIO_SUBLIST) {
        read_key(walk, top);
        return;
    }
    struct dawn_scenario_spot spot = {section, 0, 0};
    walk->at++;
    if (is_second(walk, section, event))
        skip(walk);
    else if (section->form == DAWN_SCENARIO_LIST)
        read_list(walk, spot, event, read_outer_keys);
    else
        read_section(walk, spot, event);
}

static void read_file(struct walk *walk)
{
    struct dawn_scenario_spot top = {dawn_scenario_section_named(""), 0, 0};
    const struct dawn_yamlin_event *event = walk->at;
    if (event->kind == DAWN_YAMLIN_SECTION) {
        walk->at++;
        while (walk->at->kind == DAWN_YAMLIN_KEY)
            read_top_key(walk, top);
    } else if (event->kind == DAWN_YAMLIN_END) {
        if (walk->reading->yaml->whole)
            dawn_scenario_complain(walk->reading, DAWN_ERROR,
                                   (struct dawn_place_in_file){walk->reading->name, 0, 0, NULL},
                                   "start from one of the shipped scenarios",
                                   "the file says nothing; it is empty or holds only remarks");
    } else {
        complain(walk, event, "a scenario begins with 'dawnlow: 1'",
                 "a scenario consists of lines 'key: value' and sections");
    }
}

static void use_yaml(struct dawn_scenario_reading *reading, const char *const *overrides,
                     size_t override_count)
{
    struct walk walk = {.reading = reading, .at = reading->yaml->event};
    bool empty = walk.at->kind != DAWN_YAMLIN_SECTION;
    read_file(&walk);
    for (size_t i = 0; i < override_count; i++)
        dawn_scenario_set_override(reading, overrides[i]);
    if (!reading->yaml->whole || empty)
        return;
    dawn_scenario_name_items(reading->scenario);
    dawn_scenario_check_required(reading);
    dawn_scenario_check_rules(reading);
}

enum dawn_status dawn_scenario_usual(struct dawn_scenario *scenario)
{
    size_t count = 0;
    const struct dawn_scenario_section *sections = dawn_scenario_sections(&count);
    *scenario = (struct dawn_scenario){0};
    for (size_t i = 0; i < count; i++)
        if (sections[i].form < DAWN_SCENARIO_LIST)
            dawn_scenario_set_usual(&sections[i], (char *)scenario + sections[i].offset);
    return DAWN_OK;
}

enum dawn_status dawn_scenario_parse(struct dawn_scenario *scenario, const char *name,
                                     const char *text, size_t size, const char *const *overrides,
                                     size_t override_count, struct dawn_problems *problems)
{
    struct dawn_yamlin yaml = {0};
    struct dawn_scenario_reading reading = {.scenario = scenario,
                                            .problems = problems,
                                            .name = name,
                                            .yaml = &yaml,
                                            .problems_before = problems->count};
    size_t errors_before = problems->errors;
    enum dawn_status status = dawn_scenario_usual(scenario);
    if (!dawn_text_copy(scenario->path, sizeof scenario->path, name))
        scenario->path[0] = '\0';
    status = status == DAWN_OK ? dawn_yamlin_read(&yaml, name, text, size, problems) : status;
    if (status == DAWN_OK)
        use_yaml(&reading, overrides, override_count);
    dawn_yamlin_release(&yaml);
    dawn_problems_sort(problems);
    if (reading.no_memory)
        status = DAWN_ERR_NOMEM;
    if (status == DAWN_OK && problems->errors > errors_before)
        status = DAWN_ERR_SCENARIO;
    return status;
}

/* ---- from a file ---- */

static const char *why_not(int error)
{
    switch (error) {
    case ENOENT:
        return "there is no such file";
    case ENOTDIR:
        return "a part of its path is not a folder";
    case EACCES:
        return "you may not read it";
    case EISDIR:
        return "it is a folder";
    case EFBIG:
        return "it is larger than 1 MB";
    default:
        return "reading it failed";
    }
}

enum dawn_status dawn_scenario_read(struct dawn_scenario *scenario, const char *path,
                                    const char *const *overrides, size_t override_count,
                                    struct dawn_problems *problems)
{
    size_t size = 0;
    errno = 0;
    char *text = dawn_text_read_file(path, DAWN_YAMLIN_SIZE_MOST, &size);
    if (text == NULL) {
        int error = errno;
        struct dawn_place_in_file place = {path, 0, 0, NULL};
        enum dawn_status status = dawn_scenario_usual(scenario);
        dawn_problems_add(problems, DAWN_ERROR, place, "check the name of the scenario file",
                          "the scenario cannot be opened: %s", why_not(error));
        if (status == DAWN_OK)
            status = error == ENOMEM ? DAWN_ERR_NOMEM : DAWN_ERR_IO;
        return status;
    }
    enum dawn_status status =
        dawn_scenario_parse(scenario, path, text, size, overrides, override_count, problems);
    free(text);
    return status;
}
