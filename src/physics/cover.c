/* Night covers. */
#include "dawnlow/physics/cover.h"

#include <math.h>
#include <string.h>

/* Fleece's own resistance: 0.2, 0.35 and 0.5 mm of fibre and still air at 0.035 W/(m K). Vapour
 * goes through its pores against the still air on both sides, two films of 2 W/(m2 K) one behind
 * the other (common practice, no source). */
#define FLEECE                                                                                     \
    "; long-wave (0.4 to 0.6 dry, 0.1 to 0.2 wet), light taken and pocket (3 to 8 changes): "      \
    "common practice, no source; resistance from its thickness"
#define HANDBOOK_CURTAIN                                                                           \
    "greenhouse handbooks, from memory; light and pocket: common practice, no source"

static const struct dawn_cover_sheet covers[] = {
    {"light-fleece", "light fleece, 17 to 19 g/m2, against insects and a touch of frost", 0.006,
     0.60, 0.20, 0.35, 0.35, 0.88, 0.02, 8.0, 1.0, 100.0,
     "light 0.85 to 0.90: extension pages" FLEECE},
    {"fleece", "middling fleece, 30 g/m2", 0.010, 0.50, 0.15, 0.45, 0.45, 0.78, 0.03, 6.0, 1.0,
     150.0, "light 0.70 to 0.85: extension pages" FLEECE},
    {"heavy-fleece", "heavy fleece, 50 to 60 g/m2", 0.014, 0.40, 0.10, 0.55, 0.55, 0.60, 0.05, 5.0,
     1.0, 200.0, "light 0.50 to 0.70: extension pages" FLEECE},
    {"clear-film", "clear polyethylene film over hoops, a low tunnel", 0.0, 0.75, 0.20, 0.20, 0.20,
     0.88, 0.03, 3.0, 0.0, 350.0,
     "light and long-wave as for film glazing; wet and pocket: common practice, no source"},
    {"bubble-film", "film with a layer of sealed bubbles", 0.17, 0.40, 0.25, 0.55, 0.55, 0.85, 0.05,
     4.0, 0.0, 400.0,
     "resistance 0.15 to 0.20, light 0.85: makers' data, from memory; long-wave below thin "
     "double film's 0.5 to 0.6, and pocket: common practice, no source"},
    {"curtain", "woven thermal curtain", 0.20, 0.12, 0.08, 0.80, 0.80, 0.40, 0.20, 5.0, 0.5, 300.0,
     "resistance 0.15 to 0.25, long-wave 0.05 to 0.2: " HANDBOOK_CURTAIN},
    {"bright-curtain", "thermal curtain with a bright metal face, worn below", 0.35, 0.05, 0.05,
     0.20, 0.85, 0.10, 0.15, 5.0, 0.0, 300.0,
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

struct dawn_cover_longwave dawn_cover_longwave_of(const struct dawn_cover_sheet *sheet,
                                                  double emissivity, int wet)
{
    double passes = wet ? sheet->longwave_wet : sheet->longwave_dry;
    return (struct dawn_cover_longwave){
        .passes = passes, .takes = fmin(emissivity + sheet->longwave_dry - passes, 1.0 - passes)};
}

double dawn_cover_gap(double drawn)
{
    const double times = 1000.0;
    return (pow(times, 1.0 - drawn) - 1.0) / (times - 1.0);
}
