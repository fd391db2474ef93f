/* What walls are made of, and what crops bear, for those who have no figures of their own. */
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

/* Young plants in trays, hardened no more than a frost-free house does it: freezing points of
 * USDA Agriculture Handbook 66 (from memory) and what growers expect (common practice, no source),
 * on the safe side. */
static const struct dawn_draft_crop CROPS[] = {
    {"tomato", 0},         {"pepper", 0},    {"eggplant", 0},  {"aubergine", 0}, {"cucumber", 0.5},
    {"squash", 0},         {"courgette", 0}, {"melon", 0},     {"bean", 0},      {"basil", 0.5},
    {"sweet corn", -0.5},  {"lettuce", -1},  {"cabbage", -2},  {"broccoli", -2}, {"kale", -2},
    {"cauliflower", -1.5}, {"onion", -3},    {"leek", -3},     {"spinach", -3},  {"beet", -2},
    {"chard", -2},         {"pea", -3},      {"celery", -0.5},
};

const struct dawn_draft_wall *dawn_draft_walls(size_t *count)
{
    *count = sizeof WALLS / sizeof WALLS[0];
    return WALLS;
}

const struct dawn_draft_crop *dawn_draft_crops(size_t *count)
{
    *count = sizeof CROPS / sizeof CROPS[0];
    return CROPS;
}
