/* The table of crops. */
#include "dawnlow/physics/crop.h"

#include <math.h>

#include "base/text.h"

#define F(degrees) (((degrees)-32.0) / 1.8)

static const struct dawn_crop_facts table[] = {
    /* name, damage, after h, chilling, growth, sprouting */
    {"broccoli", -2.0, 0.5, NAN, 4.0, F(60), F(85)},
    {"cabbage", -2.0, 0.5, NAN, 4.0, F(60), F(85)},
    {"cauliflower", -1.5, 0.5, NAN, 4.0, F(65), F(85)},
    {"cucumber", 0.0, 0.5, 7.0, 12.0, F(65), F(90)},
    {"eggplant", 0.0, 0.5, 7.0, 12.0, F(80), F(90)},
    {"lettuce", -1.0, 0.5, NAN, 4.0, F(60), F(70)},
    {"melon", 0.0, 0.5, 5.0, 12.0, F(75), F(85)},
    {"onion", -2.0, 0.5, NAN, 5.0, F(65), F(85)},
    {"pepper", 0.0, 0.5, 7.0, 10.0, F(80), F(90)},
    {"summer squash", 0.0, 0.5, 5.0, 10.0, F(85), F(95)},
    {"tomato", 0.0, 0.5, 10.0, 10.0, F(70), F(80)},
};

const struct dawn_crop_facts *dawn_crop_table(size_t *count)
{
    *count = sizeof table / sizeof table[0];
    return table;
}

const struct dawn_crop_facts *dawn_crop_find(const char *name)
{
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        if (dawn_text_same(table[i].name, name)) {
            return &table[i];
        }
    }
    return NULL;
}

const char *dawn_crop_source(enum dawn_crop_column column)
{
    static const char *const source[DAWN_CROP_COLUMNS] = {
        [DAWN_CROP_DAMAGE] =
            "common practice for unhardened seedlings, on the safe side of where produce begins to "
            "freeze (USDA Agriculture Handbook 66: -0.2 to -1.2 C, from memory) and of the classes "
            "tender, half-hardy, hardy in Snyder & Melo-Abreu, Frost protection, FAO 2005 (from "
            "memory); the half hour is that of the frost tests cited there (from memory)",
        [DAWN_CROP_CHILLING] =
            "lowest safe temperatures of the produce, USDA Agriculture Handbook 66 (from memory); "
            "seedlings: common practice",
        [DAWN_CROP_GROWTH] = "bases of degree days in use: common practice, no source",
        [DAWN_CROP_SPROUTING] =
            "Mid-Atlantic commercial vegetable recommendations, table of transplant production, as "
            "quoted by the University of Delaware's Weekly Crop Update"};
    return source[column];
}
