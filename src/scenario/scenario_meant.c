/* What a mistyped word most likely meant. */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "scenario/scenario_parts.h"

enum { SLIPS_MOST = 2 };

/* ---- complaints ---- */

void dawn_scenario_complain(struct dawn_scenario_reading *reading, enum dawn_severity severity,
                            struct dawn_place_in_file place, const char *hint, const char *message,
                            ...)
{
    if (reading->problems == NULL)
        return;
    size_t since = reading->problems->count - reading->problems_before;
    if (since >= DAWN_YAMLIN_PROBLEMS_MOST) {
        /* Counted, so that nothing passes for clean, but not kept: nobody reads so many. */
        reading->problems->errors += severity == DAWN_ERROR;
        reading->problems->warnings += severity == DAWN_WARNING;
        return;
    }
    char text[1024];
    va_list arguments;
    va_start(arguments, message);
    (void)vsnprintf(text, sizeof text, message, arguments);
    va_end(arguments);
    dawn_problems_add(reading->problems, severity, place,
                      hint == NULL || hint[0] == '\0' ? NULL : hint, "%s", text);
}

struct dawn_scenario_quote dawn_scenario_quote_of(const char *text)
{
    enum { SHOWN_MOST = 80 };
    struct dawn_scenario_quote quote;
    size_t size = strlen(text);
    if (size <= SHOWN_MOST) {
        memcpy(quote.text, text, size + 1);
        return quote;
    }
    size = SHOWN_MOST;
    while (size > 0 && ((unsigned char)text[size] & 0xC0) == 0x80)
        size--;
    memcpy(quote.text, text, size);
    memcpy(quote.text + size, "...", 4);
    return quote;
}

/* ---- nearest ---- */

const struct dawn_key *dawn_scenario_nearest_key(const char *section, const char *name)
{
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);
    const struct dawn_key *nearest = NULL;
    size_t best = SLIPS_MOST + 1;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(keys[i].section, section) != 0)
            continue;
        size_t distance = dawn_text_distance(keys[i].name, name, SLIPS_MOST);
        if (distance < best && distance < strlen(keys[i].name)) {
            best = distance;
            nearest = &keys[i];
        }
    }
    return nearest;
}

const struct dawn_scenario_section *dawn_scenario_nearest_section(const char *word)
{
    size_t count = 0;
    const struct dawn_scenario_section *sections = dawn_scenario_sections(&count);
    const struct dawn_scenario_section *nearest = NULL;
    size_t best = SLIPS_MOST + 1;
    for (size_t i = 0; i < count; i++) {
        if (sections[i].form == DAWN_SCENARIO_TOP || sections[i].form == DAWN_SCENARIO_SUBLIST)
            continue;
        size_t distance = dawn_text_distance(sections[i].name, word, SLIPS_MOST);
        if (distance < best) {
            best = distance;
            nearest = &sections[i];
        }
    }
    return nearest;
}

/* ---- hints for an unknown key ---- */

struct hint {
    char text[512];
};

static bool hint_sections_with(struct hint *hint, const char *word)
{
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);
    size_t used = 0;
    for (size_t i = 0; i < count && used < sizeof hint->text - 80; i++) {
        if (!dawn_text_same(keys[i].name, word) || keys[i].section[0] == '\0')
            continue;
        int added = snprintf(hint->text + used, sizeof hint->text - used, "%s%s",
                             used == 0 ? "" : ", ", keys[i].section);
        used += added > 0 ? (size_t)added : 0;
    }
    if (used == 0)
        return false;
    struct hint names = *hint;
    (void)snprintf(hint->text, sizeof hint->text, "'%.40s' belongs in: %.400s", word, names.text);
    return true;
}

static void hint_known_keys(struct hint *hint, const char *section)
{
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);
    size_t used = (size_t)snprintf(hint->text, sizeof hint->text, "keys known here:");
    for (size_t i = 0; i < count && used < sizeof hint->text - 40; i++)
        if (strcmp(keys[i].section, section) == 0)
            used +=
                (size_t)snprintf(hint->text + used, sizeof hint->text - used, " %s", keys[i].name);
}

static void hint_known_sections(struct hint *hint)
{
    size_t count = 0;
    const struct dawn_scenario_section *sections = dawn_scenario_sections(&count);
    size_t used = (size_t)snprintf(hint->text, sizeof hint->text, "sections:");
    for (size_t i = 0; i < count && used < sizeof hint->text - 40; i++)
        if (sections[i].form != DAWN_SCENARIO_TOP && sections[i].form != DAWN_SCENARIO_SUBLIST)
            used += (size_t)snprintf(hint->text + used, sizeof hint->text - used, " %s",
                                     sections[i].name);
}

static bool hint_sublist(struct hint *hint, struct dawn_scenario_spot spot, const char *word)
{
    size_t count = 0;
    const struct dawn_scenario_section *sections = dawn_scenario_sections(&count);
    for (size_t i = 0; i < count; i++) {
        if (sections[i].parent == NULL || strcmp(sections[i].parent, spot.section->name) != 0)
            continue;
        const char *name = dawn_scenario_section_word(&sections[i]);
        if (dawn_text_distance(name, word, SLIPS_MOST) <= SLIPS_MOST) {
            (void)snprintf(hint->text, sizeof hint->text, "did you mean '%s'?", name);
            return true;
        }
    }
    return false;
}

static void note_meant(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot,
                       const struct dawn_key *key, struct dawn_place_in_file place)
{
    if (dawn_scenario_find_origin(reading->scenario, spot, key) != NULL)
        return;
    struct dawn_scenario_origin origin = {spot, key, DAWN_SCENARIO_MEANT, place.line, place.column};
    if (!dawn_scenario_note_origin(reading->scenario, origin))
        reading->no_memory = true;
}

static bool hint_nearest_key(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot,
                             const char *word, struct dawn_place_in_file place, struct hint *hint,
                             size_t slips)
{
    const struct dawn_key *key = dawn_scenario_nearest_key(spot.section->name, word);
    if (key == NULL || dawn_text_distance(key->name, word, SLIPS_MOST) > slips)
        return false;
    note_meant(reading, spot, key, place);
    (void)snprintf(hint->text, sizeof hint->text, "did you mean '%s'?", key->name);
    return true;
}

static bool hint_section(struct dawn_scenario_reading *reading, bool top, const char *word,
                         struct dawn_place_in_file place, struct hint *hint)
{
    const struct dawn_scenario_section *section = dawn_scenario_nearest_section(word);
    if (section == NULL || (!top && !dawn_text_same(section->name, word)))
        return false;
    if (top)
        note_meant(reading, (struct dawn_scenario_spot){section, 0, 0}, NULL, place);
    (void)snprintf(hint->text, sizeof hint->text,
                   top ? "did you mean the section '%s'?"
                       : "'%s' is a section of its own: begin it at the left edge",
                   section->name);
    return true;
}

/* A word that is right elsewhere is a better guess than one two letters off. */
static void find_hint(struct dawn_scenario_reading *reading, struct dawn_scenario_spot spot,
                      const char *word, struct dawn_place_in_file place, struct hint *hint)
{
    bool top = spot.section->form == DAWN_SCENARIO_TOP;
    bool found = hint_nearest_key(reading, spot, word, place, hint, 1) ||
                 hint_sublist(hint, spot, word) || hint_section(reading, top, word, place, hint) ||
                 hint_sections_with(hint, word) ||
                 hint_nearest_key(reading, spot, word, place, hint, SLIPS_MOST);
    if (!found && top)
        hint_known_sections(hint);
    else if (!found)
        hint_known_keys(hint, spot.section->name);
}

void dawn_scenario_complain_of_key(struct dawn_scenario_reading *reading,
                                   struct dawn_scenario_spot spot, const char *word,
                                   struct dawn_place_in_file place)
{
    struct hint hint = {""};
    find_hint(reading, spot, word, place, &hint);
    if (spot.section->form == DAWN_SCENARIO_TOP)
        dawn_scenario_complain(reading, DAWN_ERROR, place, hint.text, "unknown section or key '%s'",
                               dawn_scenario_quote_of(word).text);
    else
        dawn_scenario_complain(reading, DAWN_ERROR, place, hint.text, "unknown key '%s' in %s",
                               dawn_scenario_quote_of(word).text,
                               dawn_scenario_title_of(reading->scenario, spot).text);
}
