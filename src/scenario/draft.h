/* A nursery as it comes from a tape measure and some invoices: a few answers in a grower's words
 * become a whole scenario, with remarks. One table holds the questions. */
#ifndef SCENARIO_DRAFT_H
#define SCENARIO_DRAFT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"
#include "base/unit.h"
#include "dawnlow/scenario.h"

enum { DAWN_DRAFT_ANSWER_SIZE = 256, DAWN_DRAFT_QUESTIONS_MOST = 32 };

enum dawn_draft_shape { DAWN_DRAFT_GABLE, DAWN_DRAFT_LEAN_TO, DAWN_DRAFT_TUNNEL };
enum dawn_draft_side {
    DAWN_DRAFT_FRONT,
    DAWN_DRAFT_FRONT_ROOF,
    DAWN_DRAFT_BACK_ROOF,
    DAWN_DRAFT_BACK,
    DAWN_DRAFT_ENDS,
    DAWN_DRAFT_SIDES
};

/* What lets no light in: a word for it, and the wall it stands for. */
struct dawn_draft_wall {
    const char *word, *meaning;
    int outside; /* enum dawn_outside */
    double outside_absorptance, inside_absorptance;
    struct dawn_layer layers[3];
    size_t layer_count;
};
const struct dawn_draft_wall *dawn_draft_walls(size_t *count);

/* Leaf temperature below which a crop in its trays is harmed, by the beginning of its name
 * ("tomatoes"); NAN for one that is not known. */
double dawn_draft_crop_damage_C(const char *name);

/* A side of the house: glazed with one of dawn_scenario_glazing_types, or one of dawn_draft_walls;
 * the other is -1. Both -1: as all the rest. */
struct dawn_draft_skin {
    int glazing, wall;
};

/* One plane of the house, as it follows from length, width and heights. */
struct dawn_draft_face {
    char name[DAWN_NAME_SIZE]; /* "south roof" */
    double area_m2, slope_deg, azimuth_deg;
    struct dawn_draft_skin skin; /* one of the two is set */
};
enum { DAWN_DRAFT_FACES_MOST = 6 };

/* SI throughout; NAN = not said. */
struct dawn_draft {
    char name[DAWN_NAME_SIZE];
    bool us;                           /* answers so far came in feet: defaults and file do too */
    char demo_weather[DAWN_PATH_SIZE]; /* the invented weather that is shipped; "" = not found */
    double latitude_deg, longitude_deg, elevation_m, utc_offset_h;
    int shape; /* enum dawn_draft_shape */
    double length_m, width_m, eaves_m, ridge_m, facing_deg;
    int glazing; /* of every side that is not different */
    struct dawn_draft_skin side[DAWN_DRAFT_SIDES];
    double air_changes_per_h, vent_m2, bed_m2;
    double rock_kg, rock_m3; /* at most one is a number; none: no rock */
    double rock_loads;       /* asked for: how much one is */
    double rock_tons;        /* "ton" was said: which one is asked */
    double stone_m;
    double fan_m3_s; /* on the label; NAN = no fan */
    double fan_Pa, fan_W;
    double barrels, barrel_m3;
    bool ask_barrel; /* how many was said, not how large */
    double trays_m2;
    bool trays_on_bed;
    struct dawn_crop crops[DAWN_CROPS_MOST];
    size_t crop_count;
    char weather[DAWN_PATH_SIZE];                                   /* "" = none yet */
    char answer[DAWN_DRAFT_QUESTIONS_MOST][DAWN_DRAFT_ANSWER_SIZE]; /* as said, by question */
    bool asked[DAWN_DRAFT_QUESTIONS_MOST]; /* false: does not apply, or not yet */
};

struct dawn_draft_question {
    const char *key;  /* "size": in a file of answers */
    const char *text; /* what is asked */
    const char *more; /* what may be answered, and why it matters */
    bool list;        /* more is shown at once, not only when asked for */
    bool must;        /* no default where nobody is asked: a guess could be wrong by a tenth */
    /* Default in metric and US units; NULL = usual_of works it out. */
    const char *usual, *usual_us;
    void (*usual_of)(const struct dawn_draft *draft, struct dawn_text *usual);
    bool (*applies)(const struct dawn_draft *draft); /* NULL = always */
    /* Takes an answer; false and a reason when it cannot be understood. */
    bool (*read)(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
};
const struct dawn_draft_question *dawn_draft_questions(size_t *count);

/* Nothing said yet. demo_weather may be NULL. */
void dawn_draft_begin(struct dawn_draft *draft, const char *name, bool us,
                      const char *demo_weather);
bool dawn_draft_applies(const struct dawn_draft *draft, size_t question);
/* The default of a question at this point. */
void dawn_draft_usual(const struct dawn_draft *draft, size_t question, struct dawn_text *usual);
/* Reads an answer into the draft, and keeps its words; "" is the default. */
bool dawn_draft_answer(struct dawn_draft *draft, size_t question, const char *answer,
                       struct dawn_text *why);

/* ---- what follows ---- */

/* Faces from shape and measures; a tunnel's curve is taken as four planes. Returns how many. */
size_t dawn_draft_faces(const struct dawn_draft *draft,
                        struct dawn_draft_face faces[DAWN_DRAFT_FACES_MOST]);
double dawn_draft_floor_m2(const struct dawn_draft *draft);
double dawn_draft_mean_height_m(const struct dawn_draft *draft);
/* "south", "south-east": the nearest of eight; and the bearing of a compass word, NAN for others.
 */
const char *dawn_draft_compass(double azimuth_deg);
double dawn_draft_bearing_deg(const char *word);
/* Whether the invented weather has about the same sun as the place. */
bool dawn_draft_demo_fits(const struct dawn_draft *draft);

/* The scenario file, with remarks and the answers it came from. */
void dawn_draft_write(const struct dawn_draft *draft, struct dawn_text *text);

/* ---- the readers of answers, by what they are about ---- */

bool dawn_draft_read_place(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_clock(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_shape(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_size(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_heights(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_facing(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_skin(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_sides(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_leaks(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_vents(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_bed(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_rock(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_load(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_ton(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_stone(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_fan(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_pressure(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_watts(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_barrels(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_barrel(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_trays(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_crops(struct dawn_draft *draft, const char *answer, struct dawn_text *why);
bool dawn_draft_read_weather(struct dawn_draft *draft, const char *answer, struct dawn_text *why);

/* ---- what the readers share ---- */

/* Text without blanks around it, in out; false when it does not fit. */
bool dawn_draft_trimmed(char *out, size_t size, const char *text, size_t length);
/* "10 m x 6 m", "1.8 m and 3 m": two parts. False when there is only one. */
bool dawn_draft_two(const char *text, char first[DAWN_DRAFT_ANSWER_SIZE],
                    char second[DAWN_DRAFT_ANSWER_SIZE]);
/* "none", "no", "0" ... */
bool dawn_draft_none(const char *text);
/* A quantity within what a scenario's key allows; bare: a number without a unit will do. */
bool dawn_draft_quantity(const char *text, const char *section, const char *key, double *si,
                         struct dawn_text *why);
/* Two lengths; a unit behind the second alone is meant for both. */
bool dawn_draft_lengths(const char *text, const char *first_key, const char *second_key,
                        double *first, double *second, struct dawn_text *why);
/* An area, or length x width. */
bool dawn_draft_area(const char *text, const char *section, double *m2, struct dawn_text *why);

/* A value as it is written in the file, in the draft's units: "20 ft", "6.096 m". */
struct dawn_draft_figure {
    char text[48];
};
struct dawn_draft_figure dawn_draft_figure_of(double si, enum dawn_measure measure, bool us);
/* Stones and the like: mm or inches. */
struct dawn_draft_figure dawn_draft_small(double si, bool us);

#endif
