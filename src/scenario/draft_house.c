/* The house: shape, measures, what it is made of, leaks and vents. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/draft.h"
#include "scenario/scenario_parts.h"

/* ---- one of some words ---- */

struct choice {
    const char *word;
    double value;
};

/* The place of text among words or the start of one; -1 = none of them. */
static int chosen(const struct choice *choices, size_t count, const char *text)
{
    char joined[DAWN_DRAFT_ANSWER_SIZE]; /* "lean to" is a lean-to */
    (void)snprintf(joined, sizeof joined, "%s", text);
    for (char *c = joined; *c != '\0'; c++)
        if (*c == ' ')
            *c = '-';
    for (size_t i = 0; i < count; i++)
        if (dawn_text_same(choices[i].word, text) || dawn_text_same(choices[i].word, joined))
            return (int)i;
    for (size_t i = 0; i < count; i++)
        if (strlen(text) >= 2 && dawn_text_starts(choices[i].word, text))
            return (int)i;
    return -1;
}

static void say_choices(const struct choice *choices, size_t count, const char *text,
                        struct dawn_text *why)
{
    dawn_text_add(why, "'%s' is none of: ", text);
    for (size_t i = 0; i < count; i++)
        dawn_text_add(why, "%s%s", i == 0 ? "" : ", ", choices[i].word);
}

bool dawn_draft_read_shape(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    static const struct choice shapes[] = {{"gable", DAWN_DRAFT_GABLE},
                                           {"lean-to", DAWN_DRAFT_LEAN_TO},
                                           {"tunnel", DAWN_DRAFT_TUNNEL}};
    int at = chosen(shapes, 3, answer);
    if (at < 0) {
        say_choices(shapes, 3, answer, why);
        return false;
    }
    draft->shape = (int)shapes[at].value;
    return true;
}

/* ---- measures ---- */

bool dawn_draft_read_size(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    double length = NAN;
    double width = NAN;
    if (!dawn_draft_lengths(answer, "length", "width", &length, &width, why))
        return false;
    /* Beyond that a roof may be larger than a scenario's faces. */
    if (length * width > 20000) {
        dawn_text_add(why, "'%s' is more than two hectares; check the units", answer);
        return false;
    }
    draft->length_m = length;
    draft->width_m = width;
    draft->us = draft->us || strstr(answer, "ft") != NULL || strstr(answer, "feet") != NULL ||
                strchr(answer, '\'') != NULL;
    return true;
}

static bool fits_shape(const struct dawn_draft *draft, double eaves, double ridge,
                       struct dawn_text *why)
{
    if (draft->shape != DAWN_DRAFT_TUNNEL && eaves >= ridge) {
        dawn_text_add(why, "the roof must rise: give the lower height first, then the higher");
        return false;
    }
    if (ridge > 2 * draft->width_m + eaves) {
        dawn_text_add(why, "so high over so narrow a floor cannot be; check the units");
        return false;
    }
    return true;
}

bool dawn_draft_read_heights(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    double eaves = 0;
    double ridge = NAN;
    bool read = draft->shape == DAWN_DRAFT_TUNNEL
                    ? dawn_draft_quantity(answer, "house", "height", &ridge, why)
                    : dawn_draft_lengths(answer, "height", "height", &eaves, &ridge, why);
    if (!read || !fits_shape(draft, eaves, ridge, why))
        return false;
    /* The mean height is what the scenario holds; it must be a possible one. */
    if (draft->shape == DAWN_DRAFT_TUNNEL && ridge < 0.5) {
        dawn_text_add(why, "'%s' is too low to stand trays in; check the unit", answer);
        return false;
    }
    draft->eaves_m = eaves;
    draft->ridge_m = ridge;
    return true;
}

bool dawn_draft_read_facing(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    char unit[32];
    const char *end = NULL;
    double deg = dawn_draft_bearing_deg(answer);
    if (isnan(deg) &&
        dawn_unit_quantity(answer, DAWN_MEASURE_ANGLE, &deg, unit) != DAWN_QUANTITY_OK) {
        if (!dawn_text_number(answer, &end, &deg) || *end != '\0')
            deg = NAN;
    }
    if (!(deg >= 0 && deg <= 360)) {
        dawn_text_add(why, "'%s' is no compass word such as S or SE, and no bearing from 0 to 360",
                      answer);
        return false;
    }
    draft->facing_deg = deg >= 360 ? 0 : deg;
    return true;
}

/* ---- what it is made of ---- */

/* What the trade also calls them. */
static const struct {
    const char *said, *word;
} ALSO[] = {
    {"poly", "film"},
    {"plastic", "film"},
    {"polyethylene", "film"},
    {"single poly", "film"},
    {"double poly", "double-film"},
    {"double plastic", "double-film"},
    {"inflated poly", "double-film"},
    {"glass single", "glass"},
    {"single glass", "glass"},
    {"twin-wall", "twinwall-8mm"},
    {"twinwall", "twinwall-8mm"},
    {"8 mm twin-wall", "twinwall-8mm"},
    {"6 mm twin-wall", "twinwall-6mm"},
    {"10 mm twin-wall", "twinwall-10mm"},
    {"16 mm triple-wall", "triplewall-16mm"},
    {"wood", "boards"},
    {"shed", "building"},
    {"barn", "building"},
};

static const char *plain_word(const char *text)
{
    for (size_t i = 0; i < sizeof ALSO / sizeof ALSO[0]; i++)
        if (dawn_text_same(ALSO[i].said, text))
            return ALSO[i].word;
    return text;
}

static int glazing_named(const char *text)
{
    size_t count = 0;
    const struct dawn_glazing_type *types = dawn_scenario_glazing_types(&count);
    const char *word = plain_word(text);
    const char *end = NULL;
    double number = 0;
    if (dawn_text_number(word, &end, &number) && *end == '\0' && number >= 1 &&
        number <= (double)count && number == floor(number))
        return (int)number - 1;
    for (size_t i = 0; i < count; i++)
        if (dawn_text_same(types[i].word, word))
            return (int)i;
    return -1;
}

static int wall_named(const char *text)
{
    size_t count = 0;
    const struct dawn_draft_wall *walls = dawn_draft_walls(&count);
    const char *word = plain_word(text);
    for (size_t i = 0; i < count; i++)
        if (dawn_text_same(walls[i].word, word))
            return (int)i;
    return -1;
}

bool dawn_draft_read_skin(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    size_t count = 0;
    const struct dawn_glazing_type *types = dawn_scenario_glazing_types(&count);
    int type = glazing_named(answer);
    if (type < 0) {
        const char *near = NULL;
        for (size_t i = 0; i < count && near == NULL; i++)
            if (dawn_text_distance(types[i].word, answer, 2) <= 2)
                near = types[i].word;
        dawn_text_add(why, "'%s' is none of the glazings in the list%s%s%s", answer,
                      near != NULL ? "; did you mean " : "", near != NULL ? near : "",
                      near != NULL ? "?" : "");
        return false;
    }
    draft->glazing = type;
    return true;
}

/* Which sides a phrase means, as bits; 0 = none. The compass words are those of this house. */
static unsigned sides_named(const struct dawn_draft *draft, const char *phrase)
{
    const char *front = dawn_draft_compass(draft->facing_deg);
    const char *back = dawn_draft_compass(draft->facing_deg + 180);
    struct {
        const char *first, *second;
        unsigned sides;
    } words[] = {
        {"front", "", 1u << DAWN_DRAFT_FRONT},
        {"front", " roof", 1u << DAWN_DRAFT_FRONT_ROOF},
        {"back", "", 1u << DAWN_DRAFT_BACK},
        {"back", " roof", 1u << DAWN_DRAFT_BACK_ROOF},
        {front, "", 1u << DAWN_DRAFT_FRONT},
        {front, " roof", 1u << DAWN_DRAFT_FRONT_ROOF},
        {back, "", 1u << DAWN_DRAFT_BACK},
        {back, " roof", 1u << DAWN_DRAFT_BACK_ROOF},
        {"roof", "", 1u << DAWN_DRAFT_FRONT_ROOF | 1u << DAWN_DRAFT_BACK_ROOF},
        {"ends", "", 1u << DAWN_DRAFT_ENDS},
        {"end", "", 1u << DAWN_DRAFT_ENDS},
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        const char *tails[] = {"", " wall", " side"};
        for (size_t k = 0; k < 3; k++) {
            char full[DAWN_DRAFT_ANSWER_SIZE];
            (void)snprintf(full, sizeof full, "%s%s%s", words[i].first, words[i].second, tails[k]);
            if (dawn_text_same(full, phrase))
                return words[i].sides;
        }
    }
    return 0;
}

/* "back roof insulated": the longest end that is a material, and the sides before it. */
static bool read_side(struct dawn_draft *draft, const char *part, struct dawn_text *why)
{
    for (const char *blank = strchr(part, ' '); blank != NULL; blank = strchr(blank + 1, ' ')) {
        char phrase[DAWN_DRAFT_ANSWER_SIZE];
        (void)dawn_draft_trimmed(phrase, sizeof phrase, part, (size_t)(blank - part));
        struct dawn_draft_skin skin = {glazing_named(blank + 1), wall_named(blank + 1)};
        unsigned sides = sides_named(draft, phrase);
        if (sides == 0 || (skin.glazing < 0 && skin.wall < 0))
            continue;
        for (int i = 0; i < DAWN_DRAFT_SIDES; i++)
            if ((sides & 1u << i) != 0)
                draft->side[i] = skin;
        return true;
    }
    dawn_text_add(why,
                  "'%s' is not a side (front, back, ends, roof, front roof, back roof) and "
                  "what it is made of (a glazing, insulated, boards, brick, concrete or "
                  "building)",
                  part);
    return false;
}

static bool lets_light_in(const struct dawn_draft *draft)
{
    struct dawn_draft_face faces[DAWN_DRAFT_FACES_MOST];
    size_t count = dawn_draft_faces(draft, faces);
    for (size_t i = 0; i < count; i++)
        if (faces[i].skin.glazing >= 0)
            return true;
    return false;
}

bool dawn_draft_read_sides(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    struct dawn_draft tried = *draft;
    for (int i = 0; i < DAWN_DRAFT_SIDES; i++)
        tried.side[i] = (struct dawn_draft_skin){-1, -1};
    for (const char *at = answer; !dawn_draft_none(answer) && *at != '\0';) {
        char part[DAWN_DRAFT_ANSWER_SIZE];
        size_t size = strcspn(at, ",;");
        if (!dawn_draft_trimmed(part, sizeof part, at, size) || !read_side(&tried, part, why))
            return false;
        at += size + (at[size] != '\0');
    }
    if (!lets_light_in(&tried)) {
        dawn_text_add(why, "no side would let light in");
        return false;
    }
    memcpy(draft->side, tried.side, sizeof draft->side);
    return true;
}

/* ---- air ---- */

bool dawn_draft_read_leaks(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    /* The spans that explain house.air_changes gives, one figure each. */
    static const struct choice leaks[] = {
        {"tight", 0.5}, {"usual", 1.0}, {"leaky", 2.0}, {"draughty", 4.0}, {"drafty", 4.0}};
    char unit[32];
    double changes = NAN;
    int at = chosen(leaks, 5, answer);
    if (at >= 0) {
        draft->air_changes_per_h = leaks[at].value;
        return true;
    }
    if (dawn_unit_quantity(answer, DAWN_MEASURE_RATE, &changes, unit) == DAWN_QUANTITY_OK)
        return dawn_draft_quantity(answer, "house", "air_changes", &draft->air_changes_per_h, why);
    say_choices(leaks, 4, answer, why);
    dawn_text_add(why, "; or air changes as 1.5 /h");
    return false;
}

bool dawn_draft_read_vents(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    if (dawn_draft_none(answer)) {
        draft->vent_m2 = 0;
        return true;
    }
    return dawn_draft_area(answer, "openings", &draft->vent_m2, why);
}
