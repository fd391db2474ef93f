/* A sketch of the house across its length: its scenario holds faces, not a shape, so the roof is
 * made up from their slopes and the mean height. */
#include "report/report_sketch.h"

#include <math.h>
#include <string.h>

#include "physics/constants.h"

enum { COLUMNS = 76, ROWS = 26, MARGIN = 6 };

/* Roofs are flatter than this; walls and steep sides are steeper. */
static const double upright_deg = 60.0;

struct sketch {
    const struct dawn_scenario *scenario;
    char cell[ROWS][COLUMNS + 1];
    double columns_m, rows_m; /* a metre is so many of them */
    int left, right;          /* the outer columns of the house */
    int floor;                /* the row the floor line is drawn in */
    double eaves_m, ridge_m;
    double front_deg; /* where the left side looks */
    bool two_slopes;
    bool solid_front, solid_back, solid_front_roof, solid_back_roof;
};

static void put(struct sketch *sketch, int row, int column, char mark)
{
    if (row >= 0 && row < ROWS && column >= 0 && column < COLUMNS)
        sketch->cell[row][column] = mark;
}

/* ---- the shape ---- */

static bool looks_back(const struct sketch *sketch, double azimuth_deg)
{
    double off = fabs(fmod(azimuth_deg - sketch->front_deg + 540.0, 360.0) - 180.0);
    return off > 90.0;
}

static bool looks_along(const struct sketch *sketch, double azimuth_deg)
{
    double off = fabs(fmod(azimuth_deg - sketch->front_deg + 540.0, 360.0) - 180.0);
    return off > 45.0 && off < 135.0;
}

/* The front is where the largest glazed roof looks, else the largest glazed face. */
static void find_front(struct sketch *sketch)
{
    const struct dawn_scenario *scenario = sketch->scenario;
    double best = -1;
    for (size_t i = 0; i < scenario->glazing_count; i++) {
        const struct dawn_glazing *face = &scenario->glazing[i];
        bool roof = face->slope_deg < upright_deg && face->slope_deg > 1.0;
        double weight = face->area_m2 * (roof ? 100.0 : 1.0);
        if (weight > best) {
            best = weight;
            sketch->front_deg = face->azimuth_deg;
        }
    }
}

struct slope {
    double front_m2, back_m2, weighted; /* areas of the roofs, slope times area */
    double wall_m2[2], roof_m2[2];      /* opaque: front, back */
    double pane_m2[2], roof_pane_m2[2]; /* glazed */
};

static void count_face(const struct sketch *sketch, struct slope *slope, double area_m2,
                       double slope_deg, double azimuth_deg, bool glazed)
{
    int back = looks_back(sketch, azimuth_deg);
    if (slope_deg < upright_deg) {
        *(back ? &slope->back_m2 : &slope->front_m2) += area_m2;
        slope->weighted += area_m2 * slope_deg;
        (glazed ? slope->roof_pane_m2 : slope->roof_m2)[back] += area_m2;
    } else if (!looks_along(sketch, azimuth_deg)) {
        (glazed ? slope->pane_m2 : slope->wall_m2)[back] += area_m2;
    }
}

static void find_shape(struct sketch *sketch)
{
    const struct dawn_scenario *scenario = sketch->scenario;
    struct slope slope = {0};
    for (size_t i = 0; i < scenario->glazing_count; i++)
        count_face(sketch, &slope, scenario->glazing[i].area_m2, scenario->glazing[i].slope_deg,
                   scenario->glazing[i].azimuth_deg, true);
    for (size_t i = 0; i < scenario->wall_count; i++)
        if (!dawn_scenario_is_floor(&scenario->walls[i]))
            count_face(sketch, &slope, scenario->walls[i].area_m2, scenario->walls[i].slope_deg,
                       scenario->walls[i].azimuth_deg, false);
    sketch->two_slopes = slope.back_m2 > 0.1 * slope.front_m2;
    double roofs_m2 = slope.front_m2 + slope.back_m2;
    double deg = roofs_m2 > 0 ? slope.weighted / roofs_m2 : 0;
    double span_m = scenario->house.width_m * (sketch->two_slopes ? 0.5 : 1.0);
    double mean_m = dawn_scenario_air_m3(scenario) / dawn_scenario_floor_m2(scenario);
    double rise_m = fmin(span_m * tan(deg * PHYSICS_RADIANS), 2.0 * mean_m);
    sketch->eaves_m = mean_m - 0.5 * rise_m;
    sketch->ridge_m = mean_m + 0.5 * rise_m;
    sketch->solid_front = slope.wall_m2[0] > slope.pane_m2[0];
    sketch->solid_back = slope.wall_m2[1] > slope.pane_m2[1];
    sketch->solid_front_roof = slope.roof_m2[0] > slope.roof_pane_m2[0];
    sketch->solid_back_roof = slope.roof_m2[1] > slope.roof_pane_m2[1];
}

static void find_scale(struct sketch *sketch)
{
    double width_m = sketch->scenario->house.width_m;
    double columns = fmin(fmax(width_m * 7.0, 28.0), COLUMNS - 2.0 * MARGIN);
    sketch->columns_m = columns / width_m;
    sketch->rows_m = fmin(sketch->columns_m / 2.0, 15.0 / sketch->ridge_m);
    sketch->left = MARGIN;
    sketch->right = MARGIN + (int)columns - 1;
    sketch->floor = (int)ceil(sketch->ridge_m * sketch->rows_m) + 1;
}

/* ---- the shell ---- */

static int row_of(const struct sketch *sketch, double height_m)
{
    return sketch->floor - (int)floor(height_m * sketch->rows_m + 0.5);
}

/* Height of the roof over a column, 0..1 across the house. */
static double roof_m(const struct sketch *sketch, double across)
{
    double up = across;
    if (sketch->two_slopes)
        up = across < 0.5 ? 2.0 * across : 2.0 * (1.0 - across);
    return sketch->eaves_m + (sketch->ridge_m - sketch->eaves_m) * up;
}

static char slope_sign(bool solid, bool level, bool falls)
{
    if (solid)
        return '#';
    if (level)
        return '_';
    return falls ? '\\' : '/';
}

/* One column of the roof on its way from a row to the next column's. */
static void draw_slope(struct sketch *sketch, int column, int row, int next, char sign)
{
    int from = row < next ? row + 1 : row;
    int to = next < row ? next + 1 : next;
    if (row == next)
        from = to = row;
    for (int at = from < to ? from : to; at <= (from > to ? from : to); at++)
        put(sketch, at, column, sign);
}

static char soil_sign(bool rock, int column)
{
    if (!rock)
        return ':';
    return column % 2 != 0 ? ' ' : 'o';
}

static void draw_roof(struct sketch *sketch)
{
    int span = sketch->right - sketch->left;
    for (int column = 0; column <= span; column++) {
        double here = (double)column / span;
        double there = (double)(column + 1) / span;
        bool falls = sketch->two_slopes && here >= 0.5;
        bool solid = falls ? sketch->solid_back_roof : sketch->solid_front_roof;
        int row = row_of(sketch, roof_m(sketch, here));
        int next = row_of(sketch, roof_m(sketch, fmin(there, 1.0)));
        draw_slope(sketch, sketch->left + column, row, next, slope_sign(solid, row == next, falls));
    }
}

static void draw_walls(struct sketch *sketch)
{
    double back_m = sketch->two_slopes ? sketch->eaves_m : sketch->ridge_m;
    for (int row = row_of(sketch, sketch->eaves_m) + 1; row <= sketch->floor; row++)
        put(sketch, row, sketch->left, sketch->solid_front ? '#' : '|');
    for (int row = row_of(sketch, back_m) + 1; row <= sketch->floor; row++)
        put(sketch, row, sketch->right, sketch->solid_back ? '#' : '|');
    for (int column = 0; column < sketch->left; column++) {
        put(sketch, sketch->floor, column, '_');
        put(sketch, sketch->floor, sketch->right + 1 + column, '_');
    }
    for (int column = sketch->left + 1; column < sketch->right; column++)
        put(sketch, sketch->floor, column, '_');
}

/* ---- what is in it ---- */

static int columns_of(const struct sketch *sketch, double m)
{
    int room = sketch->right - sketch->left - 1;
    int columns = (int)floor(m * sketch->columns_m + 0.5);
    return columns < 1 ? 1 : columns > room ? room : columns;
}

/* Below the floor, from the front on: soil, and rock under it. */
static void draw_ground(struct sketch *sketch)
{
    const struct dawn_scenario *scenario = sketch->scenario;
    double length_m = scenario->house.length_m;
    bool bed = scenario->bed.present;
    double footprint_m2 = bed ? scenario->bed.area_m2 : dawn_scenario_floor_m2(scenario) / 3.0;
    int columns = columns_of(sketch, footprint_m2 / length_m);
    int first = sketch->left + 1 + (sketch->right - sketch->left - 1 - columns) / 2;
    int row = sketch->floor;
    int soil = bed ? 1 : 0;
    int rock = 0;
    if (scenario->rock.present) {
        double deep_m = dawn_scenario_rock_m3(scenario) / footprint_m2;
        rock = (int)fmin(fmax(floor(deep_m * sketch->rows_m + 0.5), 1), 4);
    }
    for (int k = 1; k <= soil + rock; k++)
        for (int column = 0; column < columns; column++)
            put(sketch, row + k, first + column, soil_sign(k > soil, column));
}

/* A bench in the middle, trays on it; trays on the bed lie on the floor line. */
static void draw_trays(struct sketch *sketch)
{
    const struct dawn_scenario *scenario = sketch->scenario;
    const struct dawn_trays *trays = &scenario->trays;
    int columns = columns_of(sketch, trays->area_m2 / scenario->house.length_m);
    int first = sketch->left + 1 + (sketch->right - sketch->left - 1 - columns) / 2;
    bool bench = trays->stand_on == DAWN_ON_BENCH;
    int row = bench ? row_of(sketch, 0.8) : sketch->floor - 1;
    if (row >= sketch->floor)
        row = sketch->floor - 1;
    for (int column = 0; column < columns; column++)
        put(sketch, row, first + column, '=');
    for (int leg = row + 1; bench && leg < sketch->floor; leg++) {
        put(sketch, leg, first, '!');
        put(sketch, leg, first + columns - 1, '!');
    }
}

static void draw_barrels(struct sketch *sketch)
{
    int rows = (int)fmax(floor(0.85 * sketch->rows_m + 0.5), 1);
    int columns = (int)fmax(floor(0.57 * sketch->columns_m + 0.5), 1);
    for (int row = sketch->floor - rows; row < sketch->floor; row++)
        for (int column = 0; column < columns; column++)
            put(sketch, row, sketch->right - 1 - column, 'B');
}

static void draw_inside(struct sketch *sketch)
{
    const struct dawn_scenario *scenario = sketch->scenario;
    if (scenario->bed.present || scenario->rock.present)
        draw_ground(sketch);
    if (scenario->trays.present)
        draw_trays(sketch);
    if (scenario->barrels_count > 0)
        draw_barrels(sketch);
    if (scenario->fan.present) {
        int top = sketch->two_slopes ? (sketch->left + sketch->right) / 2 : sketch->right - 3;
        put(sketch, row_of(sketch, sketch->ridge_m) + 2, top, 'F');
    }
}

/* ---- on paper ---- */

/* The same picture in box-drawing characters. */
static const char *drawn(char mark)
{
    switch (mark) {
    case '/':
        return "\xe2\x95\xb1";
    case '\\':
        return "\xe2\x95\xb2";
    case '|':
        return "\xe2\x94\x82";
    case '!':
        return "\xe2\x95\x8e";
    case '=':
        return "\xe2\x95\x90";
    case '#':
        return "\xe2\x96\x93";
    case ':':
        return "\xe2\x96\x91";
    case 'o':
        return "\xe2\x97\x8b";
    default:
        return NULL;
    }
}

static void write_cells(FILE *out, const struct sketch *sketch, bool boxes)
{
    for (int row = 0; row < ROWS; row++) {
        int end = COLUMNS;
        while (end > 0 && sketch->cell[row][end - 1] == ' ')
            end--;
        if (end == 0)
            continue;
        for (int column = 0; column < end; column++) {
            char mark = sketch->cell[row][column];
            const char *box = boxes ? drawn(mark) : NULL;
            if (box != NULL)
                fputs(box, out);
            else
                fputc(mark == '!' ? '|' : mark, out);
        }
        fputc('\n', out);
    }
}

static void write_legend(FILE *out, const struct sketch *sketch, bool boxes)
{
    const struct dawn_scenario *scenario = sketch->scenario;
    const struct {
        bool there;
        char mark;
        const char *what;
    } marks[] = {
        {scenario->wall_count > 0, '#', "wall"},
        {scenario->trays.present, '=', "trays"},
        {scenario->barrels_count > 0, 'B', "barrels"},
        {scenario->fan.present, 'F', "air to the fan"},
        {scenario->bed.present, ':', "bed soil"},
        {scenario->rock.present, 'o', "rock"},
    };
    const char *between = "";
    for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++) {
        if (!marks[i].there)
            continue;
        const char *box = boxes ? drawn(marks[i].mark) : NULL;
        fputs(between, out);
        if (box != NULL)
            fputs(box, out);
        else
            fputc(marks[i].mark, out);
        fprintf(out, " %s", marks[i].what);
        between = "   ";
    }
    fputs(between[0] != '\0' ? "\n" : "", out);
}

void dawn_report_sketch(FILE *out, const struct dawn_scenario *scenario, bool boxes)
{
    struct sketch sketch = {.scenario = scenario};
    for (int row = 0; row < ROWS; row++)
        memset(sketch.cell[row], ' ', COLUMNS);
    find_front(&sketch);
    find_shape(&sketch);
    find_scale(&sketch);
    draw_walls(&sketch);
    draw_roof(&sketch);
    draw_inside(&sketch);
    write_cells(out, &sketch, boxes);
    write_legend(out, &sketch, boxes);
}
