/* What a scenario comes to: sizes, heat lost and stored per kelvin, weights with their caution. */
#include <string.h>

#include "base/jsonout.h"
#include "base/tableout.h"
#include "base/text.h"
#include "physics/constants.h"
#include "report/report_parts.h"
#include "report/report_sketch.h"

/* ---- measures for people ---- */

enum measure { LENGTH, AREA, VOLUME, LOSS, STORE, ENERGY, MASS, LOAD };

/* SI value to what is printed: times scale, before its unit. */
static const struct {
    double scale;
    int decimals;
    const char *unit;
} measures[][2] = {
    [LENGTH] = {{1.0, 1, "m"}, {1.0 / 0.3048, 1, "ft"}},
    [AREA] = {{1.0, 1, "m2"}, {1.0 / 0.09290304, 0, "sq ft"}},
    [VOLUME] = {{1.0, 0, "m3"}, {1.0 / 0.028316846592, 0, "cu ft"}},
    [LOSS] = {{1.0, 0, "W/K"}, {3600.0 / 1055.05585262 / 1.8, 0, "Btu/h F"}},
    [STORE] = {{1.0 / PHYSICS_J_PER_kWh, 2, "kWh/K"}, {1.0 / 1055.05585262 / 1.8, 0, "Btu/F"}},
    [ENERGY] = {{1.0 / PHYSICS_J_PER_kWh, 1, "kWh"}, {1.0 / 1055055.85262, 0, "kBtu"}},
    [MASS] = {{1.0 / 1000.0, 1, "t"}, {1.0 / 907.18474, 1, "short ton"}},
    [LOAD] = {{1.0, 0, "kg/m2"}, {0.09290304 / 0.45359237, 0, "lb/sq ft"}},
};

static const char *measured(double value, enum measure measure, enum dawn_units units,
                            char out[DAWN_REPORT_ROOM])
{
    const int us = units == DAWN_US;
    char number[DAWN_REPORT_ROOM];

    snprintf(out, DAWN_REPORT_ROOM, "%.40s %s",
             dawn_report_fixed(value * measures[measure][us].scale, measures[measure][us].decimals,
                               number),
             measures[measure][us].unit);
    return out;
}

/* ---- text ---- */

static void write_sizes(FILE *out, enum dawn_units units, const struct dawn_scenario *scenario,
                        const struct dawn_network_figures *figures)
{
    char a[DAWN_REPORT_ROOM];
    char b[DAWN_REPORT_ROOM];
    char c[DAWN_REPORT_ROOM];

    fprintf(out, "floor       %s: %s by %s\n", measured(figures->floor_m2, AREA, units, a),
            measured(scenario->house.length_m, LENGTH, units, b),
            measured(scenario->house.width_m, LENGTH, units, c));
    fprintf(out, "air         %s\n", measured(figures->air_m3, VOLUME, units, a));
    fprintf(out, "glazed      %s, %s times the floor\n",
            measured(figures->glazed_m2, AREA, units, a),
            dawn_report_fixed(figures->glazed_m2 / figures->floor_m2, 1, b));
    if (figures->walls_m2 > 0) {
        fprintf(out, "opaque      %s of walls and roofs\n",
                measured(figures->walls_m2, AREA, units, a));
    }
}

struct part {
    const char *name;
    double value;
};

static double sum_of(const struct part *parts, size_t count)
{
    double sum = 0;

    for (size_t i = 0; i < count; i++) {
        sum += parts[i].value;
    }
    return sum;
}

/* Each part with its share, and the sum. */
static void write_parts(FILE *out, const char *title, const struct part *parts, size_t count,
                        enum measure measure, enum dawn_units units)
{
    struct dawn_tableout table;
    char text[DAWN_REPORT_ROOM];
    const double sum = sum_of(parts, count);
    const int us = units == DAWN_US;

    dawn_tableout_begin(&table, 3, "lrr");
    dawn_tableout_cell(&table, "%s", title);
    dawn_tableout_cell(&table, "%s", measures[measure][us].unit);
    dawn_tableout_cell(&table, "share");
    for (size_t i = 0; i <= count; i++) {
        const double value = i < count ? parts[i].value : sum;
        if (i < count && value <= 0) {
            continue;
        }
        dawn_tableout_cell(&table, "  %s", i < count ? parts[i].name : "together");
        dawn_tableout_cell(&table, "%s",
                           dawn_report_fixed(value * measures[measure][us].scale,
                                             measures[measure][us].decimals, text));
        dawn_tableout_cell(&table, "%s %%", dawn_report_fixed(100.0 * value / sum, 0, text));
    }
    dawn_tableout_end(&table, out);
}

enum { LOSSES = 4, STORES = 5 };

static void find_losses(const struct dawn_network_figures *figures, struct part parts[LOSSES])
{
    parts[0] = (struct part){"glazing", figures->glazing_W_K};
    parts[1] = (struct part){"walls and roofs", figures->walls_W_K};
    parts[2] = (struct part){"leaks", figures->leaks_W_K};
    parts[3] = (struct part){"edge of the floor", figures->edge_W_K};
}

static void find_stores(const struct dawn_network_figures *figures, struct part parts[STORES])
{
    parts[0] = (struct part){"rock", figures->rock_J_K};
    parts[1] = (struct part){"barrels", figures->barrels_J_K};
    parts[2] = (struct part){"bed soil", figures->bed_J_K};
    parts[3] = (struct part){"trays", figures->trays_J_K};
    parts[4] = (struct part){"walls and roofs", figures->walls_J_K};
}

/* The two tables in one sentence: a night's need against what a swing of the stores gives. */
static void write_balance(FILE *out, enum dawn_units units, double loss_W_K, double store_J_K)
{
    static const double night_s = 12 * 3600.0;
    static const double lift_K = 10.0;
    static const double swing_K = 5.0;
    const bool us = units == DAWN_US;
    char need[DAWN_REPORT_ROOM];
    char gift[DAWN_REPORT_ROOM];
    char text[400];

    snprintf(text, sizeof text,
             "Twelve hours at %s warmer than outside take about %s; all stores together give %s "
             "when they cool by %s. The soil below gives some as well, a clear sky takes more: "
             "dawnlow nights reckons with all of it, hour by hour.",
             us ? "18 F" : "10 K", measured(loss_W_K * lift_K * night_s, ENERGY, units, need),
             measured(store_J_K * swing_K, ENERGY, units, gift), us ? "9 F" : "5 K");
    dawn_report_wrapped(out, "", text);
}

static void write_load(FILE *out, enum dawn_units units, const char *name, double kg, double m2)
{
    char mass[DAWN_REPORT_ROOM];
    char area[DAWN_REPORT_ROOM];
    char load[DAWN_REPORT_ROOM];

    if (kg > 0 && m2 > 0) {
        fprintf(out, "  %-8s  %s on %s: %s\n", name, measured(kg, MASS, units, mass),
                measured(m2, AREA, units, area), measured(kg / m2, LOAD, units, load));
    }
}

static void write_caution(FILE *out, const char *key)
{
    size_t count = 0;
    const struct dawn_report_caution *cautions = dawn_report_cautions(&count);

    for (size_t i = 0; i < count; i++) {
        if (strcmp(cautions[i].key, key) == 0) {
            /* A title that is no sentence begins one. */
            const bool begins = strchr(cautions[i].title, '.') == NULL;
            char text[512];
            snprintf(text, sizeof text, "Caution: %s%s%s", begins ? cautions[i].title : "",
                     begins ? " " : "", cautions[i].text);
            dawn_report_wrapped(out, "", text);
        }
    }
}

static void write_snow(FILE *out, enum dawn_units units, const struct dawn_network_figures *figures)
{
    if (figures->snow_kg <= 0) {
        return;
    }
    fputs("\nWeight on the roof\n", out);
    write_load(out, units, "snow", figures->snow_kg, figures->snow_m2);
    write_caution(out, "snow");
    fputs("Local building codes name the snow a roof must bear there.\n", out);
}

static void write_loads(FILE *out, enum dawn_units units,
                        const struct dawn_network_figures *figures)
{
    if (figures->rock_kg <= 0 && figures->barrels_kg <= 0) {
        return;
    }
    fputs("\nWeight on the ground\n", out);
    write_load(out, units, "rock", figures->rock_kg, figures->rock_stand_m2);
    write_load(out, units, "barrels", figures->barrels_kg, figures->barrels_stand_m2);
    write_caution(out, "weight");
    fputs("On a floor, a wall or a slope: ask a licensed engineer before filling anything.\n", out);
}

void dawn_report_house(FILE *out, enum dawn_units units, const struct dawn_scenario *scenario,
                       bool boxes)
{
    const struct dawn_network_figures figures = dawn_network_figures(scenario);
    struct part losses[LOSSES];
    struct part stores[STORES];

    fprintf(out, "Across the house, its glazed roof to the left (a sketch, not a plan)\n\n");
    dawn_report_sketch(out, scenario, boxes);
    fputc('\n', out);
    write_sizes(out, units, scenario, &figures);
    find_losses(&figures, losses);
    find_stores(&figures, stores);
    fputc('\n', out);
    write_parts(out, "Heat lost, calm dull night", losses, LOSSES, LOSS, units);
    fputc('\n', out);
    if (sum_of(stores, STORES) > 0) {
        write_parts(out, "Heat stored", stores, STORES, STORE, units);
    }
    write_balance(out, units, sum_of(losses, LOSSES), sum_of(stores, STORES));
    write_loads(out, units, &figures);
    write_snow(out, units, &figures);
}

void dawn_report_snow_load(struct dawn_text *text, enum dawn_units units,
                           const struct dawn_scenario *scenario)
{
    const struct dawn_network_figures figures = dawn_network_figures(scenario);
    char mass[DAWN_REPORT_ROOM];
    char area[DAWN_REPORT_ROOM];
    char load[DAWN_REPORT_ROOM];

    dawn_text_add(text,
                  "up to %s of snow on the roof, %s on %s; what the frame carries is for its "
                  "maker, local codes or an engineer to say",
                  measured(figures.snow_kg / figures.snow_m2, LOAD, units, load),
                  measured(figures.snow_kg, MASS, units, mass),
                  measured(figures.snow_m2, AREA, units, area));
}

/* ---- JSON ---- */

void dawn_report_house_json(struct dawn_jsonout *json, const struct dawn_scenario *scenario)
{
    const struct dawn_network_figures f = dawn_network_figures(scenario);
    const struct part numbers[] = {
        {"floor_m2", f.floor_m2},
        {"air_m3", f.air_m3},
        {"glazed_m2", f.glazed_m2},
        {"opaque_m2", f.walls_m2},
        {"loss_glazing_W_K", f.glazing_W_K},
        {"loss_walls_W_K", f.walls_W_K},
        {"loss_leaks_W_K", f.leaks_W_K},
        {"loss_edge_W_K", f.edge_W_K},
        {"store_rock_kWh_K", f.rock_J_K / PHYSICS_J_PER_kWh},
        {"store_barrels_kWh_K", f.barrels_J_K / PHYSICS_J_PER_kWh},
        {"store_bed_kWh_K", f.bed_J_K / PHYSICS_J_PER_kWh},
        {"store_trays_kWh_K", f.trays_J_K / PHYSICS_J_PER_kWh},
        {"store_walls_kWh_K", f.walls_J_K / PHYSICS_J_PER_kWh},
        {"rock_kg", f.rock_kg},
        {"rock_stands_on_m2", f.rock_stand_m2},
        {"barrels_kg", f.barrels_kg},
        {"barrels_stand_on_m2", f.barrels_stand_m2},
        {"snow_kg", f.snow_kg},
        {"snow_lies_on_m2", f.snow_m2},
    };

    dawn_jsonout_object(json, "figures");
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        dawn_jsonout_number(json, numbers[i].name, numbers[i].value, 4);
    }
    dawn_jsonout_close_object(json);
}
