/* Forecasts and evenings read again. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "report/result.h"

static struct dawn_forecast_range range_of(const struct dawn_result *result, dawn_jsonin_node night,
                                           const char *key)
{
    const dawn_jsonin_node range = dawn_jsonin_member(&result->json, night, key);

    return (struct dawn_forecast_range){dawn_result_number(result, range, "tenth_C"),
                                        dawn_result_number(result, range, "middle_C"),
                                        dawn_result_number(result, range, "ninth_C")};
}

/* By the words reports use: "at the leaves". */
static enum dawn_crop_place crop_place_of(const struct dawn_result *result)
{
    const char *words = dawn_result_text(result, result->root, "crop_place");

    for (int place = DAWN_CROP_AT_LEAVES; place < DAWN_CROP_IN_AIR; place++) {
        if (strcmp(words, dawn_nights_crop_place_words((enum dawn_crop_place)place)) == 0) {
            return (enum dawn_crop_place)place;
        }
    }
    return DAWN_CROP_IN_AIR;
}

static void read_crops(const struct dawn_result *result, struct dawn_forecast *forecast,
                       struct dawn_scenario *scenario)
{
    const dawn_jsonin_node list = dawn_jsonin_member(
        &result->json, dawn_jsonin_member(&result->json, result->root, "all_nights"), "crops");

    forecast->crop_count = dawn_jsonin_count(&result->json, list);
    if (forecast->crop_count > DAWN_CROPS_MOST) {
        forecast->crop_count = DAWN_CROPS_MOST;
    }
    for (size_t i = 0; i < forecast->crop_count; i++) {
        const dawn_jsonin_node crop = dawn_jsonin_item(&result->json, list, i);
        (void)dawn_text_copy(scenario->crops[i].name, sizeof scenario->crops[i].name,
                             dawn_result_text(result, crop, "name"));
        scenario->crops[i].damage_C = dawn_result_number(result, crop, "damage_below_C");
    }
}

static bool read_night(const struct dawn_result *result, dawn_jsonin_node node,
                       struct dawn_forecast_night *night, double *offset_h)
{
    if (!dawn_result_night(result, node, &night->dusk_s, &night->dawn_s, offset_h)) {
        return false;
    }
    night->any_harmed = dawn_result_number(result, node, "chance_any_harmed");
    night->outside_C = range_of(result, node, "outside_low");
    night->air_C = range_of(result, node, "air_low");
    night->tray_C = range_of(result, node, "tray_low");
    night->leaf_C = range_of(result, node, "leaf_low");
    return true;
}

/* The forecast and what else its pictures ask a story for. */
static enum dawn_status read_forecast(struct dawn_forecast_story *story,
                                      struct dawn_forecast *forecast, struct dawn_result *result,
                                      struct dawn_problems *problems)
{
    const dawn_jsonin_node list = dawn_jsonin_member(&result->json, result->root, "nights");
    struct dawn_scenario *scenario = dawn_result_hold(result, 1, sizeof *scenario);
    const double members = dawn_result_number(result, result->root, "members");
    const double worst = dawn_result_number(result, result->root, "worst_night");

    forecast->nights = dawn_jsonin_count(&result->json, list);
    forecast->night = dawn_result_hold(result, forecast->nights, sizeof *forecast->night);
    if (scenario == NULL || forecast->night == NULL) {
        return DAWN_ERR_NOMEM;
    }
    if (!(members >= 1.0) || !(worst >= 0.0 && worst < (double)forecast->nights)) {
        return dawn_result_lacks(result, "nights", problems);
    }
    forecast->members = (size_t)members;
    forecast->worst = (size_t)worst;
    forecast->crop_place = crop_place_of(result);
    forecast->at_trays = strcmp(dawn_result_text(result, result->root, "place"), "trays") == 0;
    read_crops(result, forecast, scenario);
    for (size_t i = 0; i < forecast->nights; i++) {
        if (!read_night(result, dawn_jsonin_item(&result->json, list, i), &forecast->night[i],
                        &scenario->site.utc_offset_h)) {
            return dawn_result_lacks(result, "dusk", problems);
        }
    }
    *story = (struct dawn_forecast_story){.scenario = scenario, .forecast = forecast};
    return DAWN_OK;
}

enum dawn_status dawn_result_coming_forecast(struct dawn_picture *picture,
                                             struct dawn_result *result, enum dawn_units units,
                                             struct dawn_problems *problems)
{
    struct dawn_forecast forecast = {0};
    struct dawn_forecast_story story = {.forecast = &forecast};
    const enum dawn_status status = read_forecast(&story, &forecast, result, problems);

    if (status != DAWN_OK) {
        return status;
    }
    return dawn_picture_forecast(picture, &story, units) ? DAWN_OK : DAWN_ERR_NOMEM;
}

enum dawn_status dawn_result_coming_chances(struct dawn_picture *picture,
                                            struct dawn_result *result, enum dawn_units units,
                                            struct dawn_problems *problems)
{
    struct dawn_forecast forecast = {0};
    struct dawn_forecast_story story = {.forecast = &forecast};
    const enum dawn_status status = read_forecast(&story, &forecast, result, problems);

    (void)units; /* chances are no temperatures */
    if (status != DAWN_OK) {
        return status;
    }
    return dawn_picture_chances(picture, &story) ? DAWN_OK : DAWN_ERR_NOMEM;
}

/* ---- tonight ---- */

static void read_action(const struct dawn_result *result, dawn_jsonin_node node,
                        struct dawn_tonight *tonight, struct dawn_action *action, size_t i)
{
    struct dawn_tonight_row *row = &tonight->row[i];
    const char *name = dawn_result_text(result, node, "action");

    row->harmed = dawn_result_number(result, node, "chance_harmed");
    row->carried =
        dawn_jsonin_true(&result->json, dawn_jsonin_member(&result->json, node, "carried_out"));
    /* The row of doing nothing is called that. */
    if (strcmp(name, "nothing") != 0) {
        (void)dawn_text_copy(action->name, sizeof action->name, name);
        row->action = action;
    }
    if (strcmp(name, dawn_result_text(result, result->root, "least")) == 0) {
        tonight->least = i;
    }
}

enum dawn_status dawn_result_coming_tonight(struct dawn_picture *picture,
                                            struct dawn_result *result, enum dawn_units units,
                                            struct dawn_problems *problems)
{
    const dawn_jsonin_node list = dawn_jsonin_member(&result->json, result->root, "actions");
    const size_t count = dawn_jsonin_count(&result->json, list);
    const double members = dawn_result_number(result, result->root, "members");
    struct dawn_tonight *tonight = dawn_result_hold(result, 1, sizeof *tonight);
    struct dawn_action *action = dawn_result_hold(result, DAWN_TONIGHT_ROWS, sizeof *action);

    (void)units; /* chances are no temperatures */
    if (tonight == NULL || action == NULL) {
        return DAWN_ERR_NOMEM;
    }
    if (count < 1 || count > DAWN_TONIGHT_ROWS || !(members >= 1.0)) {
        return dawn_result_lacks(result, "actions", problems);
    }
    tonight->members = (size_t)members;
    tonight->count = tonight->least = count;
    tonight->crop_place = crop_place_of(result);
    tonight->crop_count = (size_t)dawn_jsonin_true(
        &result->json, dawn_jsonin_member(&result->json, result->root, "crops_named"));
    tonight->accepted = dawn_result_number(result, result->root, "accepted_risk");
    for (size_t i = 0; i < count; i++) {
        read_action(result, dawn_jsonin_item(&result->json, list, i), tonight, &action[i], i);
    }
    const struct dawn_tonight_story story = {.tonight = tonight};
    return dawn_picture_tonight(picture, &story) ? DAWN_OK : DAWN_ERR_NOMEM;
}
