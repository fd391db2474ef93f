/* Night covers. */
#include "dawnlow/physics/cover.h"

#include <string.h>

/* Fleece's own resistance: 0.2, 0.35 and 0.5 mm of fibre and still air at 0.035 W/(m K). */
#define FLEECE                                                                                     \
    "; long-wave (0.4 to 0.6 dry, 0.1 to 0.2 wet) and pocket (3 to 8 changes): common practice, "  \
    "no source; resistance from its thickness"
#define HANDBOOK_CURTAIN                                                                           \
    "greenhouse handbooks, from memory; light and pocket: common practice, no source"

static const struct dawn_cover_sheet covers[] = {
    {"fleece-17", "light fleece, 17 to 19 g/m2, against insects and a touch of frost", 0.006, 0.60,
     0.20, 0.35, 0.35, 0.88, 8.0, "light 0.85 to 0.90: extension pages" FLEECE},
    {"fleece-30", "middling fleece, 30 g/m2", 0.010, 0.50, 0.15, 0.45, 0.45, 0.78, 6.0,
     "light 0.70 to 0.85: extension pages" FLEECE},
    {"fleece-50", "heavy fleece, 50 to 60 g/m2", 0.014, 0.40, 0.10, 0.55, 0.55, 0.60, 5.0,
     "light 0.50 to 0.70: extension pages" FLEECE},
    {"bubble-film", "film with a layer of sealed bubbles", 0.17, 0.40, 0.25, 0.55, 0.55, 0.85, 4.0,
     "resistance 0.15 to 0.20, light 0.85: makers' data, from memory; long-wave below thin "
     "double film's 0.5 to 0.6, and pocket: common practice, no source"},
    {"curtain-woven", "woven thermal curtain", 0.20, 0.12, 0.08, 0.80, 0.80, 0.40, 5.0,
     "resistance 0.15 to 0.25, long-wave 0.05 to 0.2: " HANDBOOK_CURTAIN},
    {"curtain-aluminised", "thermal curtain with a bright metal face, worn below", 0.35, 0.05, 0.05,
     0.20, 0.85, 0.10, 5.0,
     "resistance 0.3 to 0.4, bright face 0.1 to 0.3, long-wave 0.05: " HANDBOOK_CURTAIN},
};

const struct dawn_cover_sheet *dawn_cover_table(size_t *count)
{
    *count = sizeof covers / sizeof covers[0];
    return covers;
}

const struct dawn_cover_sheet *dawn_cover_find(const char *word)
{
    for (size_t i = 0; i < sizeof covers / sizeof covers[0]; i++)
        if (strcmp(covers[i].word, word) == 0)
            return &covers[i];
    return NULL;
}
