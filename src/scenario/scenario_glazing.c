/* The glazings a grower can name.
 *
 * Transmittances and loss figures are those extension services and makers print for whole sheets:
 * U of single glass 6.4, single film 6.8, double glass 3.0-3.7, double inflated film 4.0, twin-wall
 * 8 mm 3.3 W/(m2 K) as in the extension.org page "Glazing materials" and tables quoting ASAE EP406;
 * the others from ASAE EP406, NRAES-33 and makers' sheets, from memory. The middle of each printed
 * span is taken.
 *
 * gap_resistance: 1/U less the two surface films that single glass shows in the same tables,
 * 1/6.4 = 0.156 m2K/W (computed closed form); for inflated film, whose U holds radiation straight
 * through the film, 0.16 as for a closed upright air layer (0.15 to 0.18, from memory). With three
 * skins it is shared by two gaps.
 * heat: mass per area times specific heat, e.g. glass 2500 kg/m3 x 4 mm x 840 J/(kg K). */
#include <math.h>

#include "scenario/scenario_parts.h"

/* A gap that no type tells of: a closed upright air layer, as below. */
static const double air_gap_m2K_W = 0.16;

#define ASAE      "ASAE EP406 and NRAES-33, from memory"
#define EXTENSION "extension.org, Glazing materials; light and long-wave share from memory"
#define MAKERS    "makers' sheets, from memory"

static const struct dawn_glazing_type TYPES[] = {
    /* word, meaning, skins, solar, index, gap, long-wave, emissivity, heat, source */
    {"glass", "single horticultural glass, 4 mm", 1, 0.86, 1.526, 0.0, 0.01, 0.84, 8400.0,
     EXTENSION},
    {"glass-low-iron", "single low-iron glass, 4 mm", 1, 0.90, 1.526, 0.0, 0.01, 0.84, 8400.0,
     ASAE},
    {"double-glass", "sealed double glass, 2 x 4 mm", 2, 0.75, 1.526, 0.15, 0.0, 0.84, 16800.0,
     EXTENSION},
    {"film", "single clear polyethylene film, about 0.15 mm", 1, 0.88, 1.51, 0.0, 0.75, 0.20, 350.0,
     EXTENSION},
    {"film-thermal", "single polyethylene film that holds back heat radiation", 1, 0.85, 1.51, 0.0,
     0.30, 0.65, 350.0, ASAE},
    {"double-film", "two clear polyethylene films kept apart by air", 2, 0.78, 1.51, 0.16, 0.55,
     0.20, 700.0, EXTENSION},
    {"double-film-thermal", "two films kept apart by air, the inner one holds back heat radiation",
     2, 0.755, 1.51, 0.16, 0.20, 0.45, 700.0, ASAE},
    {"twinwall-6mm", "polycarbonate twin-wall sheet, 6 mm", 2, 0.80, 1.59, 0.12, 0.02, 0.90, 1560.0,
     ASAE},
    {"twinwall-8mm", "polycarbonate twin-wall sheet, 8 mm", 2, 0.80, 1.59, 0.14, 0.02, 0.90, 1800.0,
     EXTENSION},
    {"twinwall-10mm", "polycarbonate twin-wall sheet, 10 mm", 2, 0.79, 1.59, 0.17, 0.02, 0.90,
     2040.0, EXTENSION},
    {"triplewall-16mm", "polycarbonate triple-wall sheet, 16 mm", 3, 0.74, 1.59, 0.135, 0.02, 0.90,
     3240.0, EXTENSION},
    {"acrylic-16mm", "acrylic twin-wall sheet, 16 mm", 2, 0.845, 1.49, 0.17, 0.02, 0.90, 7350.0,
     MAKERS},
    {"corrugated", "single corrugated polycarbonate or glass-fibre sheet", 1, 0.86, 1.59, 0.0, 0.03,
     0.90, 1400.0, MAKERS},
};

const struct dawn_glazing_type *dawn_scenario_glazing_types(size_t *count)
{
    *count = sizeof TYPES / sizeof TYPES[0];
    return TYPES;
}

static double own_or(double own, double usual)
{
    return isnan(own) ? usual : own;
}

static size_t skins_of(const struct dawn_glazing *glazing, const struct dawn_glazing_type *type)
{
    size_t usual = (size_t)type->skins;
    if (!isnan(glazing->skins))
        return (size_t)glazing->skins;
    if (isnan(glazing->gap_resistance_m2K_W))
        return usual;
    if (glazing->gap_resistance_m2K_W <= 0)
        return 1;
    return usual > 1 ? usual : 2;
}

/* Straight on; a wish for the whole sets what each skin takes up, else it is as in the type. */
static void fill_light(struct dawn_glazing_build *build, const struct dawn_glazing *glazing,
                       const struct dawn_glazing_type *type)
{
    struct dawn_glazing_layer layer = {
        .index = own_or(glazing->refractive_index, type->refractive_index)};
    double own = glazing->solar_transmittance;
    (void)dawn_scenario_angles_of(glazing->by_angle, &build->angles);
    if (build->angles.count > 0)
        own = build->angles.transmittance[0];
    layer.extinction =
        dawn_glazing_extinction(layer.index, isnan(own) ? (size_t)type->skins : build->skins,
                                own_or(own, type->solar_transmittance));
    for (size_t i = 0; i < DAWN_GLAZING_LAYERS_MOST; ++i)
        build->layers[i] = layer;
    build->solar_transmittance =
        dawn_glazing_measured_beam(build->layers, build->skins, &build->angles, 1.0).transmitted;
}

struct dawn_glazing_build dawn_scenario_glazing_build(const struct dawn_glazing *glazing)
{
    const struct dawn_glazing_type *type = &TYPES[glazing->type];
    struct dawn_glazing_build build = {.skins = skins_of(glazing, type),
                                       .heat_J_m2K = type->heat_J_m2K / type->skins};
    double gap = type->gap_resistance_m2K_W > 0 ? type->gap_resistance_m2K_W : air_gap_m2K_W;
    if (build.skins > 1)
        build.gap_m2K_W = own_or(glazing->gap_resistance_m2K_W, gap);
    build.longwave_transmittance =
        own_or(glazing->longwave_transmittance,
               pow(type->longwave_transmittance, (double)build.skins / type->skins));
    /* What passes is not absorbed: a face cannot emit more than it absorbs (Kirchhoff). */
    build.emissivity =
        fmin(own_or(glazing->emissivity, type->emissivity), 1.0 - build.longwave_transmittance);
    fill_light(&build, glazing, type);
    return build;
}
