/* The planes of a house from its shape and a few measures; closed forms of school geometry. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "physics/constants.h"
#include "scenario/draft.h"

/* ---- compass ---- */

static const struct {
    const char *letters, *word, *other;
} POINTS[] = {
    {"N", "north", "north"},
    {"NNE", "NNE", "NNE"},
    {"NE", "north-east", "northeast"},
    {"ENE", "ENE", "ENE"},
    {"E", "east", "east"},
    {"ESE", "ESE", "ESE"},
    {"SE", "south-east", "southeast"},
    {"SSE", "SSE", "SSE"},
    {"S", "south", "south"},
    {"SSW", "SSW", "SSW"},
    {"SW", "south-west", "southwest"},
    {"WSW", "WSW", "WSW"},
    {"W", "west", "west"},
    {"WNW", "WNW", "WNW"},
    {"NW", "north-west", "northwest"},
    {"NNW", "NNW", "NNW"},
};

const char *dawn_draft_compass(double azimuth_deg)
{
    const int eighth = (int)floor(azimuth_deg / 45 + 0.5) % 8;
    const size_t point = (size_t)(eighth < 0 ? eighth + 8 : eighth);
    return POINTS[2 * point].word;
}

double dawn_draft_bearing_deg(const char *word)
{
    for (int i = 0; i < 16; i++)
        if (dawn_text_same(word, POINTS[i].letters) || dawn_text_same(word, POINTS[i].word) ||
            dawn_text_same(word, POINTS[i].other))
            return 22.5 * i;
    return NAN;
}

/* ---- sizes ---- */

double dawn_draft_floor_m2(const struct dawn_draft *draft)
{
    return draft->length_m * draft->width_m;
}

double dawn_draft_mean_height_m(const struct dawn_draft *draft)
{
    /* half an ellipse under a tunnel */
    return draft->shape == DAWN_DRAFT_TUNNEL ? PHYSICS_PI / 4 * draft->ridge_m
                                             : (draft->eaves_m + draft->ridge_m) / 2;
}

/* A tunnel's skin over half its width, from the ground to the crown of half an ellipse: the steep
 * part and the flat one, parted where it slopes 45 deg. */
struct arc {
    double steep_m, steep_deg, flat_m, flat_deg;
};

static struct arc arc_of(const struct dawn_draft *draft)
{
    enum { STEPS = 400 };
    struct arc arc = {0, 0, 0, 0};
    double half_m = draft->width_m / 2;
    for (int i = 0; i < STEPS; i++) {
        double from = PHYSICS_PI / 2 * i / STEPS;
        double to = PHYSICS_PI / 2 * (i + 1) / STEPS;
        double across = half_m * (cos(from) - cos(to));
        double up = draft->ridge_m * (sin(to) - sin(from));
        double deg = atan2(up, across) * 180 / PHYSICS_PI;
        double piece = hypot(across, up);
        *(deg > 45 ? &arc.steep_m : &arc.flat_m) += piece;
        *(deg > 45 ? &arc.steep_deg : &arc.flat_deg) += piece * deg;
    }
    arc.steep_deg = arc.steep_m > 0 ? arc.steep_deg / arc.steep_m : 0;
    arc.flat_deg = arc.flat_m > 0 ? arc.flat_deg / arc.flat_m : 0;
    return arc;
}

/* ---- faces ---- */

struct faces {
    const struct dawn_draft *draft;
    struct dawn_draft_face *face;
    size_t count;
};

static double turned(double deg)
{
    return deg >= 360 ? deg - 360 : deg;
}

static void add(struct faces *faces, enum dawn_draft_side side, double azimuth_deg,
                const char *what, double area_m2, double slope_deg)
{
    struct dawn_draft_face *face = &faces->face[faces->count];
    struct dawn_draft_skin skin = faces->draft->side[side];
    if (area_m2 < 0.01)
        return;
    if (skin.glazing < 0 && skin.wall < 0)
        skin.glazing = faces->draft->glazing;
    *face = (struct dawn_draft_face){.area_m2 = area_m2,
                                     .slope_deg = slope_deg,
                                     .azimuth_deg = turned(azimuth_deg),
                                     .skin = skin};
    (void)snprintf(face->name, sizeof face->name, "%s %s", dawn_draft_compass(azimuth_deg), what);
    faces->count++;
}

static void add_ends(struct faces *faces)
{
    const struct dawn_draft *draft = faces->draft;
    double end_m2 = draft->width_m * dawn_draft_mean_height_m(draft);
    add(faces, DAWN_DRAFT_ENDS, draft->facing_deg + 90, "end", end_m2, 90);
    add(faces, DAWN_DRAFT_ENDS, draft->facing_deg + 270, "end", end_m2, 90);
}

size_t dawn_draft_faces(const struct dawn_draft *draft,
                        struct dawn_draft_face face[DAWN_DRAFT_FACES_MOST])
{
    struct faces faces = {draft, face, 0};
    double front = draft->facing_deg;
    double back = front + 180;
    double rise_m = draft->ridge_m - draft->eaves_m;
    double length_m = draft->length_m;
    if (draft->shape == DAWN_DRAFT_TUNNEL) {
        struct arc arc = arc_of(draft);
        add(&faces, DAWN_DRAFT_FRONT, front, "side", length_m * arc.steep_m, arc.steep_deg);
        add(&faces, DAWN_DRAFT_FRONT_ROOF, front, "roof", length_m * arc.flat_m, arc.flat_deg);
        add(&faces, DAWN_DRAFT_BACK_ROOF, back, "roof", length_m * arc.flat_m, arc.flat_deg);
        add(&faces, DAWN_DRAFT_BACK, back, "side", length_m * arc.steep_m, arc.steep_deg);
    } else {
        bool lean_to = draft->shape == DAWN_DRAFT_LEAN_TO;
        double span_m = lean_to ? draft->width_m : draft->width_m / 2;
        double rafter_m = hypot(span_m, rise_m);
        double slope_deg = atan2(rise_m, span_m) * 180 / PHYSICS_PI;
        double back_m = lean_to ? draft->ridge_m : draft->eaves_m;
        add(&faces, DAWN_DRAFT_FRONT, front, "wall", length_m * draft->eaves_m, 90);
        add(&faces, DAWN_DRAFT_FRONT_ROOF, front, "roof", length_m * rafter_m, slope_deg);
        if (!lean_to)
            add(&faces, DAWN_DRAFT_BACK_ROOF, back, "roof", length_m * rafter_m, slope_deg);
        add(&faces, DAWN_DRAFT_BACK, back, "wall", length_m * back_m, 90);
    }
    add_ends(&faces);
    return faces.count;
}
