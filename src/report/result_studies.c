/* Studies read again. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "report/result.h"

static dawn_jsonin_node list_of(const struct dawn_result *result, const char *key, size_t *count)
{
    const dawn_jsonin_node list = dawn_jsonin_member(&result->json, result->root, key);

    *count = dawn_jsonin_count(&result->json, list);
    return list;
}

static dawn_jsonin_node member(const struct dawn_result *result, const char *key)
{
    return dawn_jsonin_member(&result->json, result->root, key);
}

/* ---- size ---- */

static void read_design(const struct dawn_result *result, dawn_jsonin_node node, const char *key,
                        struct dawn_size_design *design)
{
    design->value[0] = dawn_result_number(result, node, key);
    design->low_C = dawn_result_number(result, node, "low_C");
    design->band_low_C = dawn_result_number(result, node, "band_low_C");
    design->band_high_C = dawn_result_number(result, node, "band_high_C");
    design->failed = isnan(design->low_C);
}

static void read_goal(const struct dawn_result *result, struct dawn_goal *goal)
{
    const char *place = dawn_result_text(result, member(result, "goal"), "place");

    goal->line_C = dawn_result_number(result, member(result, "goal"), "line_C");
    goal->spring_only = dawn_jsonin_true(
        &result->json, dawn_jsonin_member(&result->json, member(result, "goal"), "spring_only"));
    for (int i = DAWN_GOAL_TRAYS; i <= DAWN_GOAL_ROOTS; i++) {
        if (strcmp(place, dawn_goal_place_words((enum dawn_goal_place)i)) == 0) {
            goal->place = (enum dawn_goal_place)i;
        }
    }
}

enum dawn_status dawn_result_studies_size(struct dawn_picture *picture, struct dawn_result *result,
                                          enum dawn_units units, struct dawn_problems *problems)
{
    struct dawn_size *size = dawn_result_hold(result, 1, sizeof *size);
    struct dawn_size_lever *lever = dawn_result_hold(result, 1, sizeof *lever);
    struct dawn_size_plan plan = {.lever = lever, .levers = 1};
    const dawn_jsonin_node list = list_of(result, "curve", &(size_t){0});

    if (size == NULL || lever == NULL) {
        return DAWN_ERR_NOMEM;
    }
    lever->key = dawn_result_text(result, member(result, "curve_of"), "key");
    lever->words = dawn_result_text(result, member(result, "curve_of"), "words");
    lever->unit = dawn_result_text(result, member(result, "curve_of"), "unit");
    read_goal(result, &plan.goal);
    size->curve_count = dawn_jsonin_count(&result->json, list);
    if (size->curve_count < 1 || size->curve_count > DAWN_SIZE_CURVE || lever->key[0] == '\0' ||
        isnan(plan.goal.line_C)) {
        return dawn_result_lacks(result, "curve", problems);
    }
    for (size_t i = 0; i < size->curve_count; i++) {
        read_design(result, dawn_jsonin_item(&result->json, list, i), lever->key, &size->curve[i]);
    }
    size->knee = dawn_result_number(result, result->root, "knee");
    /* That there is a fit is all the picture asks. */
    size->own.fit.scale_K =
        0.0 * dawn_result_number(result, member(result, "band"), "one_in_years");
    size->met = dawn_jsonin_true(&result->json, member(result, "met"));
    read_design(result, member(result, "answer"), lever->key, &size->best);
    return dawn_picture_size(picture, size, &plan, units) ? DAWN_OK : DAWN_ERR_NOMEM;
}

/* ---- setpoint ---- */

static void read_setting(const struct dawn_result *result, dawn_jsonin_node node,
                         struct dawn_setpoint_row *row)
{
    row->on_C = dawn_result_number(result, node, "on_C");
    /* Of two rounded numbers; settings are told apart by far more than a hundredth. */
    row->gap_K = round(100.0 * (row->on_C - dawn_result_number(result, node, "off_C"))) / 100.0;
    row->margin_K = dawn_result_number(result, node, "start_margin_K");
    row->cold_C = dawn_result_number(result, node, "cold_nights_C");
    row->cold.from_C = dawn_result_number(result, node, "cold_nights_low_C");
    row->cold.to_C = dawn_result_number(result, node, "cold_nights_high_C");
    row->sum.coldest_C = dawn_result_number(result, node, "coldest_C");
    row->failed = isnan(row->cold_C);
}

enum dawn_status dawn_result_studies_setpoint(struct dawn_picture *picture,
                                              struct dawn_result *result, enum dawn_units units,
                                              struct dawn_problems *problems)
{
    struct dawn_setpoint setpoint = {0};
    size_t count = 0;
    const dawn_jsonin_node list = list_of(result, "settings", &count);

    /* The first row is the scenario's own setting, as in the study. */
    setpoint.count = count + 2;
    setpoint.row = dawn_result_hold(result, setpoint.count, sizeof *setpoint.row);
    if (setpoint.row == NULL) {
        return DAWN_ERR_NOMEM;
    }
    for (size_t i = 0; i < count; i++) {
        read_setting(result, dawn_jsonin_item(&result->json, list, i), &setpoint.row[i + 1]);
    }
    setpoint.best = count + 1;
    read_setting(result, member(result, "recommended"), &setpoint.row[setpoint.best]);
    if (count == 0 || setpoint.row[setpoint.best].failed) {
        return dawn_result_lacks(result, "recommended", problems);
    }
    const double years = dawn_result_number(result, result->root, "years");
    setpoint.years = years > 1.0 ? (size_t)years : 1;
    setpoint.from_C = dawn_result_number(result, result->root, "as_good_from_C");
    setpoint.to_C = dawn_result_number(result, result->root, "as_good_to_C");
    setpoint.row[0].failed = true;
    /* The recommended one is among the settings already. */
    const struct dawn_setpoint_row best = setpoint.row[setpoint.best];
    setpoint.count--;
    for (size_t i = 1; i < setpoint.count; i++) {
        const struct dawn_setpoint_row *row = &setpoint.row[i];
        if (row->on_C == best.on_C && row->gap_K == best.gap_K && row->margin_K == best.margin_K) {
            setpoint.best = i;
        }
    }
    return dawn_picture_setpoint(picture, &setpoint, units) ? DAWN_OK : DAWN_ERR_NOMEM;
}

/* ---- bars ---- */

/* What a picture of money's worth is drawn from: a named list of as many rows as there may be. */
static enum dawn_status begin_worth(struct dawn_result *result, const char *key,
                                    struct dawn_worth **worth, dawn_jsonin_node *list,
                                    size_t *count, struct dawn_problems *problems)
{
    *worth = dawn_result_hold(result, 1, sizeof **worth);
    *list = list_of(result, key, count);
    if (*worth == NULL) {
        return DAWN_ERR_NOMEM;
    }
    if (*count < 1 || *count > DAWN_WORTH_MOST) {
        return dawn_result_lacks(result, key, problems);
    }
    return DAWN_OK;
}

enum dawn_status dawn_result_studies_worth(struct dawn_picture *picture, struct dawn_result *result,
                                           enum dawn_units units, struct dawn_problems *problems)
{
    struct dawn_worth *worth = NULL;
    size_t count = 0;
    dawn_jsonin_node list = 0;
    const enum dawn_status status =
        begin_worth(result, "improvements", &worth, &list, &count, problems);

    if (status != DAWN_OK) {
        return status;
    }
    worth->ways = count;
    for (size_t i = 0; i < count; i++) {
        const dawn_jsonin_node item = dawn_jsonin_item(&result->json, list, i);
        (void)dawn_text_copy(worth->way[i].name, sizeof worth->way[i].name,
                             dawn_result_text(result, item, "name"));
        worth->way[i].gain_K = dawn_result_number(result, item, "gain_K");
        worth->way[i].failed = isnan(worth->way[i].gain_K);
    }
    return dawn_picture_worth(picture, worth, units) ? DAWN_OK : DAWN_ERR_NOMEM;
}

enum dawn_status dawn_result_studies_guesses(struct dawn_picture *picture,
                                             struct dawn_result *result, enum dawn_units units,
                                             struct dawn_problems *problems)
{
    struct dawn_worth *worth = NULL;
    size_t count = 0;
    dawn_jsonin_node list = 0;
    const enum dawn_status status = begin_worth(result, "guesses", &worth, &list, &count, problems);

    if (status != DAWN_OK) {
        return status;
    }
    worth->guesses = count;
    for (size_t i = 0; i < count; i++) {
        const dawn_jsonin_node item = dawn_jsonin_item(&result->json, list, i);
        (void)dawn_text_copy(worth->guess[i].name, sizeof worth->guess[i].name,
                             dawn_result_text(result, item, "name"));
        worth->guess[i].swing_K = dawn_result_number(result, item, "apart_K");
        worth->guess[i].failed = isnan(worth->guess[i].swing_K);
    }
    return dawn_picture_guesses(picture, worth, units) ? DAWN_OK : DAWN_ERR_NOMEM;
}

/* Changes are differences of lows: the lows as they are count as 0. */
enum dawn_status dawn_result_studies_effects(struct dawn_picture *picture,
                                             struct dawn_result *result, enum dawn_units units,
                                             struct dawn_problems *problems)
{
    struct dawn_effects *effects = dawn_result_hold(result, 1, sizeof *effects);
    size_t count = 0;
    const dawn_jsonin_node list = list_of(result, "effects", &count);

    if (effects == NULL) {
        return DAWN_ERR_NOMEM;
    }
    if (count < 1 || count > DAWN_EFFECTS_MOST) {
        return dawn_result_lacks(result, "effects", problems);
    }
    effects->count = count;
    effects->at_trays = strcmp(dawn_result_text(result, result->root, "place"), "trays") == 0;
    effects->by_air = effects->at_trays &&
                      strcmp(dawn_result_text(result, result->root, "ordered_by"), "air") == 0;
    for (size_t i = 0; i < count; i++) {
        const dawn_jsonin_node item = dawn_jsonin_item(&result->json, list, i);
        struct dawn_effects_row *row = &effects->row[i];
        row->name = dawn_result_text(result, item, "without");
        row->place.coldest_C = dawn_result_number(result, item, "coldest_change_K");
        row->air.coldest_C = dawn_result_number(result, item, "air_coldest_change_K");
        row->failed = isnan(row->place.coldest_C);
    }
    return dawn_picture_effects(picture, effects, units) ? DAWN_OK : DAWN_ERR_NOMEM;
}

enum dawn_status dawn_result_studies_compare(struct dawn_picture *picture,
                                             struct dawn_result *result, enum dawn_units units,
                                             struct dawn_problems *problems)
{
    size_t count = 0;
    const dawn_jsonin_node list = list_of(result, "nurseries", &count);
    const char **name = dawn_result_hold(result, count, sizeof *name);
    double *coldest_C = dawn_result_hold(result, count, sizeof *coldest_C);

    if (name == NULL || coldest_C == NULL) {
        return DAWN_ERR_NOMEM;
    }
    if (count < 1) {
        return dawn_result_lacks(result, "nurseries", problems);
    }
    for (size_t i = 0; i < count; i++) {
        const dawn_jsonin_node item = dawn_jsonin_item(&result->json, list, i);
        name[i] = dawn_result_text(result, item, "name");
        coldest_C[i] = dawn_result_number(
            result, dawn_jsonin_member(&result->json, item, "results"), "coldest_C");
    }
    return dawn_picture_compare(picture, name, coldest_C, count, units) ? DAWN_OK : DAWN_ERR_NOMEM;
}

/* ---- sweep ---- */

/* A value as its table has it; numbers are no texts in JSON. */
static void read_value(const struct dawn_result *result, dawn_jsonin_node nursery, const char *key,
                       char out[DAWN_REPORT_ROOM])
{
    const double number = dawn_result_number(result, nursery, key);
    struct dawn_text text = {0};

    if (isnan(number)) {
        dawn_text_add(&text, "%s", dawn_result_text(result, nursery, key));
    } else {
        dawn_text_add(&text, "%.10g", number);
    }
    snprintf(out, DAWN_REPORT_ROOM, "%s", text.data != NULL ? text.data : "");
    dawn_text_release(&text);
}

enum dawn_status dawn_result_studies_sweep(struct dawn_picture *picture, struct dawn_result *result,
                                           enum dawn_units units, struct dawn_problems *problems)
{
    size_t keys = 0;
    size_t rows = 0;
    const dawn_jsonin_node varied = list_of(result, "varied", &keys);
    const dawn_jsonin_node list = list_of(result, "nurseries", &rows);
    const char **name = dawn_result_hold(result, keys, sizeof *name);
    const char **value = dawn_result_hold(result, keys * rows, sizeof *value);
    char(*text)[DAWN_REPORT_ROOM] = dawn_result_hold(result, keys * rows, sizeof *text);
    double *coldest_C = dawn_result_hold(result, rows, sizeof *coldest_C);

    if (name == NULL || value == NULL || text == NULL || coldest_C == NULL) {
        return DAWN_ERR_NOMEM;
    }
    if (keys < 1 || rows < 1) {
        return dawn_result_lacks(result, keys < 1 ? "varied" : "nurseries", problems);
    }
    for (size_t k = 0; k < keys; k++) {
        const char *key =
            dawn_jsonin_text(&result->json, dawn_jsonin_item(&result->json, varied, k));
        name[k] = key != NULL ? key : "";
    }
    for (size_t i = 0; i < rows; i++) {
        const dawn_jsonin_node nursery = dawn_jsonin_item(&result->json, list, i);
        for (size_t k = 0; k < keys; k++) {
            read_value(result, nursery, name[k], text[i * keys + k]);
            value[i * keys + k] = text[i * keys + k];
        }
        coldest_C[i] = dawn_result_number(result, nursery, "coldest_C");
    }
    return dawn_picture_sweep(
               picture, &(struct dawn_picture_swept){keys, rows, name, value, coldest_C}, units)
               ? DAWN_OK
               : DAWN_ERR_NOMEM;
}
