/* What walls are made of, and what crops bear, for those who have no figures of their own. */
#include <math.h>

#include "base/text.h"
#include "dawnlow/physics/crop.h"
#include "scenario/draft.h"

/* Conductivities, densities and specific heats as `explain` gives them (middle of what handbooks
 * print, from memory). Layers go from outside to inside. */
#define BOARDS(mm)                                                                                 \
    {                                                                                              \
        "boards", (mm) / 1000.0, 0.13, 500, 1600                                                   \
    }
#define WOOL(mm)                                                                                   \
    {                                                                                              \
        "wood fibre", (mm) / 1000.0, 0.042, 60, 2000                                               \
    }
#define BRICK(mm)                                                                                  \
    {                                                                                              \
        "brick", (mm) / 1000.0, 0.7, 1700, 900                                                     \
    }

static const struct dawn_draft_wall WALLS[] = {
    {"insulated",
     "boards, 100 mm of wood fibre, boards",
     DAWN_OUTSIDE_WEATHER,
     0.6,
     0.4,
     {BOARDS(20), WOOL(100), BOARDS(15)},
     3},
    {"boards", "boards, 22 mm", DAWN_OUTSIDE_WEATHER, 0.6, 0.5, {BOARDS(22)}, 1},
    {"brick", "a brick wall, 240 mm", DAWN_OUTSIDE_WEATHER, 0.7, 0.6, {BRICK(240)}, 1},
    {"concrete",
     "a wall of concrete, 200 mm",
     DAWN_OUTSIDE_WEATHER,
     0.6,
     0.6,
     {{"concrete", 0.2, 1.8, 2300, 900}},
     1},
    {"building",
     "the brick wall of an unheated building behind it, 300 mm",
     DAWN_OUTSIDE_SHADED,
     0.6,
     0.6,
     {BRICK(300)},
     1},
};

/* Other names of what dawn_crop_table has. */
static const struct {
    const char *name, *known_as;
} CALLED[] = {
    {"aubergine", "eggplant"}, {"courgette", "summer squash"}, {"squash", "summer squash"}};

/* What that table does not have, for want of figures in its other columns: young plants in trays,
 * hardened no more than a frost-free house does it. Freezing points of USDA Agriculture Handbook 66
 * (from memory) and what growers expect (common practice, no source), on the safe side. */
static const struct {
    const char *name;
    double damage_C;
} FURTHER[] = {
    {"basil", 0.5}, {"bean", 0},  {"beet", -2}, {"celery", -0.5}, {"chard", -2},
    {"kale", -2},   {"leek", -3}, {"pea", -3},  {"spinach", -3},  {"sweet corn", -0.5},
};

const struct dawn_draft_wall *dawn_draft_walls(size_t *count)
{
    *count = sizeof WALLS / sizeof WALLS[0];
    return WALLS;
}

double dawn_draft_crop_damage_C(const char *name)
{
    size_t count = 0;
    const struct dawn_crop_facts *table = dawn_crop_table(&count);

    for (size_t i = 0; i < sizeof CALLED / sizeof CALLED[0]; i++)
        if (dawn_text_starts(name, CALLED[i].name))
            name = CALLED[i].known_as;
    for (size_t i = 0; i < count; i++)
        if (dawn_text_starts(name, table[i].name))
            return table[i].damage_C;
    for (size_t i = 0; i < sizeof FURTHER / sizeof FURTHER[0]; i++)
        if (dawn_text_starts(name, FURTHER[i].name))
            return FURTHER[i].damage_C;
    return NAN;
}
