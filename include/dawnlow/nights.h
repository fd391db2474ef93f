/* From a trajectory to the nights a grower talks about: sunset to two hours after sunrise, named
 * by evening and morning. */
#ifndef DAWNLOW_NIGHTS_H
#define DAWNLOW_NIGHTS_H

#include "dawnlow/trajectory.h"

/* From the best to the worst. */
enum dawn_risk { DAWN_HOLDS, DAWN_CLOSE, DAWN_TOUCH_AND_GO, DAWN_FREEZES };

/* Where the crop's damage line is held against: its leaves, else the trays, else the house air. */
enum dawn_crop_place { DAWN_CROP_AT_LEAVES, DAWN_CROP_AT_TRAYS, DAWN_CROP_IN_AIR };

struct dawn_night {
    int64_t dusk_s, dawn_s, until_s; /* sunset, sunrise, end of the watch */
    double outside_low_C, air_low_C, tray_low_C, leaf_low_C, root_low_C; /* NAN = no such place */
    double place_low_C;    /* at the place the grower protects: trays, else air */
    double low_at_s;       /* of place_low_C */
    double below_0C_h;     /* at that place */
    double crop_low_C;     /* at the crop's place; NAN = no crop named, as in the next */
    double below_crop_h;   /* below the most tender crop's damage line, at the crop's place */
    double fan_h, fan_kWh; /* from the end of the night before to the end of this */
    double rock_kWh, barrels_kWh, soil_kWh; /* heat given back from dusk to dawn; < 0: taken up */
    enum dawn_risk risk; /* the worse of the place against 0 C and the crop against its line */
};

struct dawn_nights {
    size_t count;
    struct dawn_night *night;
    bool at_trays; /* the protected place: trays, else air */
    enum dawn_crop_place crop_place;
    double crop_line_C; /* highest damage temperature of the crops; NAN = none */
    char crop_name[DAWN_NAME_SIZE];
};

/* Finds every complete night of the trajectory. nights is {0} or released before. */
enum dawn_status dawn_nights_find(struct dawn_nights *nights, const struct dawn_trajectory *run,
                                  const struct dawn_network *network,
                                  const struct dawn_scenario *scenario,
                                  struct dawn_problems *problems);
void dawn_nights_release(struct dawn_nights *nights);
/* Nights whose place low is below 0 C. */
size_t dawn_nights_below_zero(const struct dawn_nights *nights);
/* Nights whose crop low is below the crop's damage line; 0 when no crop is named. */
size_t dawn_nights_below_crop(const struct dawn_nights *nights);
/* Index of the coldest night at the protected place; count when there is none. */
size_t dawn_nights_coldest(const struct dawn_nights *nights);
/* The coldest nights at the protected place, at most so many, in the order of the nights; index has
 * room for them. Returns how many there are. */
size_t dawn_nights_coldest_few(const struct dawn_nights *nights, size_t index[], size_t most);
/* "freezes", "touch and go", "close", "holds". */
const char *dawn_nights_risk_words(enum dawn_risk risk);
/* "at the leaves", "at the trays", "in the house air"; and "leaves", "trays", "air". */
const char *dawn_nights_crop_place_words(enum dawn_crop_place place);
const char *dawn_nights_crop_place_word(enum dawn_crop_place place);
/* The node that stands for the place. */
int dawn_nights_crop_node(const struct dawn_network *network, enum dawn_crop_place place);

/* ---- night covers ---- */

struct dawn_cover_use {
    const char *name;
    size_t nights;      /* on which it was used */
    double on_s, off_s; /* in the coldest night; NAN = not used then */
    double in_sun_s;    /* the longest it stayed on after sunrise */
};
/* How a cover of the network was used; times to a quarter of an hour. */
void dawn_nights_cover_use(const struct dawn_nights *nights, const struct dawn_network *network,
                           size_t cover, struct dawn_cover_use *use);
/* Nights at whose dawn snow lies on the roof. */
size_t dawn_nights_cover_of_snow(const struct dawn_nights *nights,
                                 const struct dawn_network *network);
/* Covers that stay on longer than this into the sun may kill what they protected, s (common
 * practice, no source). */
#define DAWN_COVER_IN_SUN_S 3600.0

/* ---- the heat ledger of one night ---- */

struct dawn_ledger_row {
    const char *name;
    double J; /* into the house air and its contents from outside > 0, lost < 0 */
};
/* Shares of the night's heat: of everything that has a temperature, the water in the air left out,
 * so that evaporation takes and condensation gives. */
enum { DAWN_SHARES_MOST = 24 };
struct dawn_ledger_share {
    const char *name;
    bool store;        /* heat that something held, and gave back or took up */
    double J, percent; /* of its side; never negative */
};
struct dawn_ledger_side {
    size_t count;
    struct dawn_ledger_share share[DAWN_SHARES_MOST]; /* the largest first */
    double J;                                         /* all together */
};
/* What went from one part of the house to another, or outdoors: one row for each two parts and way
 * between them. What a part gives less what it takes is what it gave back as a store. */
#define DAWN_PASSAGE_OUTDOORS "outdoors"
struct dawn_ledger_passage {
    const char *from, *to; /* parts, named as the stores are; DAWN_PASSAGE_OUTDOORS; "the floor" */
    const char *by;        /* "convection inside", "condensation", "fan's night run", "leaks" ... */
    double J;              /* never negative */
    double water_kg;       /* that went along with it; dripping carries no heat */
};
struct dawn_ledger {
    int64_t from_s, to_s;             /* whole hours around dusk and dawn */
    struct dawn_ledger_row *boundary; /* crossing the boundary, by named group */
    size_t boundary_count;
    struct dawn_ledger_row *stores; /* heat given back by each store */
    enum dawn_role *store_role;
    size_t store_count;
    struct dawn_ledger_passage *passage; /* the largest first */
    size_t passage_count;
    struct dawn_ledger_side went, paid; /* alike but for the imbalance */
    double imbalance_J, throughput_J;
};
/* Needs a trajectory with ledger. */
enum dawn_status dawn_nights_ledger(struct dawn_ledger *ledger, const struct dawn_night *night,
                                    const struct dawn_trajectory *run,
                                    const struct dawn_network *network,
                                    struct dawn_problems *problems);
/* Fills went and paid of a ledger that has its stores; dawn_nights_ledger calls it. */
void dawn_nights_shares(struct dawn_ledger *ledger, const struct dawn_trajectory *run,
                        const struct dawn_network *network);
/* Fills the passages of a ledger that has room for one of each flow and two for the fan's;
 * dawn_nights_ledger calls it. */
void dawn_nights_passages(struct dawn_ledger *ledger, const struct dawn_trajectory *run,
                          const struct dawn_network *network);
/* "rock", "bed soil", "vapour in the air" ...; "films of water" for what is no store. */
const char *dawn_nights_part_name(enum dawn_role role);
void dawn_nights_ledger_release(struct dawn_ledger *ledger);

#endif
