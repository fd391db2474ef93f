/* What the files of this room share: sections, places of values in the struct, and where each value
 * came from. Private to src/scenario/. */
#ifndef SCENARIO_SCENARIO_PARTS_H
#define SCENARIO_SCENARIO_PARTS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/yamlin.h"
#include "dawnlow/problems.h"
#include "dawnlow/scenario.h"

/* ---- sections ---- */

enum dawn_scenario_form {
    DAWN_SCENARIO_TOP,      /* the keys that stand before every section */
    DAWN_SCENARIO_REQUIRED, /* its keys must stand in the file */
    DAWN_SCENARIO_PLAIN,    /* may be left out: every key has a default */
    DAWN_SCENARIO_OPTIONAL, /* exists in the house only when it is written */
    DAWN_SCENARIO_LIST,
    DAWN_SCENARIO_SUBLIST /* a list in each item of a list */
};

struct dawn_scenario_section {
    const char *name; /* "walls", "walls.layers" */
    const char *item; /* what one item is called: "wall" */
    const char *meaning;
    enum dawn_scenario_form form;
    size_t offset;         /* in struct dawn_scenario; of a sublist: in its parent's item */
    size_t present_offset; /* OPTIONAL: of the bool, in the section's struct */
    size_t item_size, most, count_offset; /* lists: count is in the struct that holds the list */
    const char *parent;                   /* SUBLIST */
};
const struct dawn_scenario_section *dawn_scenario_sections(size_t *count);
const struct dawn_scenario_section *dawn_scenario_section_named(const char *name);
/* The part of a section's name that is written in the file: "layers" of "walls.layers". */
const char *dawn_scenario_section_word(const struct dawn_scenario_section *section);
const struct dawn_key *dawn_scenario_key_named(const char *section, const char *name);

/* ---- places in the struct ---- */

/* One section, or one item of a list: item and layer count from 0. */
struct dawn_scenario_spot {
    const struct dawn_scenario_section *section;
    size_t item, layer;
};
/* The struct at a spot, and the count of a list's items (item names the wall of a sublist). */
void *dawn_scenario_at(struct dawn_scenario *scenario, struct dawn_scenario_spot spot);
const void *dawn_scenario_at_const(const struct dawn_scenario *scenario,
                                   struct dawn_scenario_spot spot);
size_t *dawn_scenario_item_count(struct dawn_scenario *scenario, struct dawn_scenario_spot spot);
size_t dawn_scenario_item_count_const(const struct dawn_scenario *scenario,
                                      struct dawn_scenario_spot spot);
/* Whether the section is in the house at all; true for items. */
bool dawn_scenario_is_present(const struct dawn_scenario *scenario, struct dawn_scenario_spot spot);

/* ---- where values came from ---- */

enum dawn_scenario_fate {
    DAWN_SCENARIO_GIVEN,
    DAWN_SCENARIO_REFUSED, /* given, but unusable: complained of already */
    DAWN_SCENARIO_MEANT    /* not given; a mistyped key most likely meant it */
};
struct dawn_scenario_origin {
    struct dawn_scenario_spot spot;
    const struct dawn_key *key; /* NULL: the section or item itself */
    enum dawn_scenario_fate fate;
    int line, column; /* of the value; 0 = from --set */
};
struct dawn_scenario_origins {
    struct dawn_scenario_origin *item;
    size_t count, capacity;
};
/* False when memory ran out. A second note of the same key replaces the first. */
bool dawn_scenario_note_origin(struct dawn_scenario *scenario, struct dawn_scenario_origin origin);
const struct dawn_scenario_origin *dawn_scenario_find_origin(const struct dawn_scenario *scenario,
                                                             struct dawn_scenario_spot spot,
                                                             const struct dawn_key *key);

/* ---- a reading in progress ---- */

struct dawn_scenario_reading {
    struct dawn_scenario *scenario;
    struct dawn_problems *problems; /* NULL: nobody listens */
    const char *name;               /* of the file */
    const char *way; /* how values come to be laid over it, for messages; NULL = "--set" */
    const struct dawn_yamlin *yaml; /* for carets; NULL when there is no text */
    size_t problems_before;
    const struct dawn_key *listed; /* whose words were told last: they need no telling again */
    bool no_memory;
};
/* printf-formatted; hint may be NULL or "". At most DAWN_YAMLIN_PROBLEMS_MOST are kept. */
void dawn_scenario_complain(struct dawn_scenario_reading *reading, enum dawn_severity severity,
                            struct dawn_place_in_file place, const char *hint, const char *message,
                            ...) __attribute__((format(printf, 5, 6)));
struct dawn_place_in_file dawn_scenario_place(const struct dawn_scenario_reading *reading, int line,
                                              int column);
/* "glazing 'south roof'", "layer 2 of wall 'north'", "fan": for messages. */
struct dawn_scenario_title {
    char text[192];
};
struct dawn_scenario_title dawn_scenario_title_of(const struct dawn_scenario *scenario,
                                                  struct dawn_scenario_spot spot);

/* ---- values ---- */

/* Reads text into the key's field of the struct at base; a complaint and false when it cannot be.
 * A refused number leaves NAN. */
bool dawn_scenario_set_value(struct dawn_scenario_reading *reading, const struct dawn_key *key,
                             void *base, const char *text, struct dawn_place_in_file place);
/* Gives every key of the section its default in the struct at base; required ones NAN, -1 or "". */
void dawn_scenario_set_usual(const struct dawn_scenario_section *section, void *base);
/* Applies one "section.key=value". */
void dawn_scenario_set_override(struct dawn_scenario_reading *reading, const char *text);
/* The field of a number key, NULL for others. */
const double *dawn_scenario_number_of(const struct dawn_key *key, const void *base);
/* A number of the field in the table's unit (mm, L, m3/h ...). */
double dawn_scenario_in_table_unit(const struct dawn_key *key, double field);
/* "12.5", "100000": at most 6 digits, for people. */
struct dawn_scenario_figure {
    char text[32];
};
struct dawn_scenario_figure dawn_scenario_figure_of(double value);
/* A text of the user's, cut to a length that suits a message, whole characters only. */
struct dawn_scenario_quote {
    char text[96];
};
struct dawn_scenario_quote dawn_scenario_quote_of(const char *text);
/* The n-th of "air|trays|bed" into out; false when there is none. */
bool dawn_scenario_word(const char *words, int n, char *out, size_t size);

/* ---- mistyped words ---- */

/* The section whose name (or last word of it) is nearest, among those that may stand at the top of
 * the file; NULL when none is within two letters. */
const struct dawn_scenario_section *dawn_scenario_nearest_section(const char *word);
/* Complains of a key that its section does not know and notes which one was probably meant. */
void dawn_scenario_complain_of_key(struct dawn_scenario_reading *reading,
                                   struct dawn_scenario_spot spot, const char *word,
                                   struct dawn_place_in_file place);

/* ---- rules ---- */

/* The floor one upright barrel stands on. */
double dawn_scenario_barrel_stand_m2(double volume_m3);

/* Required keys and sections; then names for unnamed items; then rules across keys. */
void dawn_scenario_check_required(struct dawn_scenario_reading *reading);
void dawn_scenario_name_items(struct dawn_scenario *scenario);
void dawn_scenario_check_rules(struct dawn_scenario_reading *reading);
void dawn_scenario_check_offers(struct dawn_scenario_reading *reading);
/* "0 deg 0.82, 60 deg 0.70": into a table that ends at 90 deg, empty for "". NULL, or what is wrong
 * with it. */
const char *dawn_scenario_angles_of(const char *text, struct dawn_glazing_angles *angles);
void dawn_scenario_check_evening(struct dawn_scenario_reading *reading);
/* Rules for the days on which snow lies. */
void dawn_scenario_check_snow(struct dawn_scenario_reading *reading);

#endif
