/* Nights read again: their lows, and where the heat of the night explained came from. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "physics/constants.h"
#include "report/result.h"

static bool read_night(const struct dawn_result *result, dawn_jsonin_node node,
                       struct dawn_scenario *scenario, bool at_trays, struct dawn_night *night)
{
    double *offset_h = &scenario->site.utc_offset_h;

    if (!dawn_result_night(result, node, &night->dusk_s, &night->dawn_s, offset_h)) {
        return false;
    }
    night->low_at_s = dawn_result_moment(result, node, "low_at", offset_h);
    night->outside_low_C = dawn_result_number(result, node, "outside_low_C");
    night->leaf_low_C = dawn_result_number(result, node, "leaf_low_C");
    night->place_low_C = dawn_result_number(result, node, at_trays ? "tray_low_C" : "air_low_C");
    return true;
}

/* The nights and what else the pictures ask a story for. */
static enum dawn_status read_nights(struct dawn_nights_story *story, struct dawn_nights *nights,
                                    struct dawn_result *result, struct dawn_problems *problems)
{
    const dawn_jsonin_node list = dawn_jsonin_member(&result->json, result->root, "nights");
    struct dawn_scenario *scenario = dawn_result_hold(result, 1, sizeof *scenario);

    nights->count = dawn_jsonin_count(&result->json, list);
    nights->night = dawn_result_hold(result, nights->count, sizeof *nights->night);
    if (scenario == NULL || nights->night == NULL) {
        return DAWN_ERR_NOMEM;
    }
    nights->at_trays = strcmp(dawn_result_text(result, result->root, "place"), "trays") == 0;
    nights->crop_line_C = dawn_result_number(result, result->root, "crop_line_C");
    (void)dawn_text_copy(
        nights->crop_name, sizeof nights->crop_name,
        dawn_result_text(result, dawn_jsonin_member(&result->json, result->root, "crop"), "name"));
    for (size_t i = 0; i < nights->count; i++) {
        if (!read_night(result, dawn_jsonin_item(&result->json, list, i), scenario,
                        nights->at_trays, &nights->night[i])) {
            return dawn_result_lacks(result, "dusk", problems);
        }
    }
    *story = (struct dawn_nights_story){.scenario = scenario, .nights = nights};
    return nights->count > 0 ? DAWN_OK : dawn_result_lacks(result, "nights", problems);
}

enum dawn_status dawn_result_nights_lows(struct dawn_picture *picture, struct dawn_result *result,
                                         enum dawn_units units, struct dawn_problems *problems)
{
    struct dawn_nights nights = {0};
    struct dawn_nights_story story = {.nights = &nights};
    const enum dawn_status status = read_nights(&story, &nights, result, problems);

    if (status != DAWN_OK) {
        return status;
    }
    return dawn_picture_lows(picture, &story, units) ? DAWN_OK : DAWN_ERR_NOMEM;
}

/* ---- heat ---- */

static struct dawn_ledger_row *read_rows(struct dawn_result *result, dawn_jsonin_node ledger,
                                         const char *key, size_t *count)
{
    const dawn_jsonin_node list = dawn_jsonin_member(&result->json, ledger, key);

    *count = dawn_jsonin_count(&result->json, list);
    struct dawn_ledger_row *row = dawn_result_hold(result, *count, sizeof *row);
    for (size_t i = 0; i < *count && row != NULL; i++) {
        const dawn_jsonin_node item = dawn_jsonin_item(&result->json, list, i);
        row[i].name = dawn_result_text(result, item, "name");
        row[i].J = dawn_result_number(result, item, "kWh") * PHYSICS_J_PER_kWh;
    }
    return row;
}

/* The night of the ledger's evening. */
static const struct dawn_night *explained(const struct dawn_nights *nights, double offset_h,
                                          const char *evening)
{
    char date[DAWN_REPORT_ROOM];

    for (size_t i = 0; i < nights->count; i++) {
        dawn_report_date(nights->night[i].dusk_s, offset_h, date);
        if (strcmp(date, evening) == 0) {
            return &nights->night[i];
        }
    }
    return NULL;
}

enum dawn_status dawn_result_nights_heat(struct dawn_picture *picture, struct dawn_result *result,
                                         enum dawn_units units, struct dawn_problems *problems)
{
    const dawn_jsonin_node node = dawn_jsonin_member(&result->json, result->root, "ledger");
    struct dawn_nights nights = {0};
    struct dawn_nights_story story = {.nights = &nights};
    struct dawn_ledger ledger = {0};
    double offset_h = 0.0;
    const enum dawn_status status = read_nights(&story, &nights, result, problems);

    (void)units; /* heat is in kWh for everybody */
    if (status != DAWN_OK) {
        return status;
    }
    const double from_s = dawn_result_moment(result, node, "from", &offset_h);
    const double to_s = dawn_result_moment(result, node, "to", &offset_h);
    story.explained = explained(&nights, offset_h, dawn_result_text(result, node, "evening"));
    if (story.explained == NULL || isnan(from_s) || isnan(to_s)) {
        return dawn_result_lacks(result, "ledger (of nights --explain DATE)", problems);
    }
    ledger.from_s = llround(from_s);
    ledger.to_s = llround(to_s);
    ledger.boundary = read_rows(result, node, "boundary", &ledger.boundary_count);
    ledger.stores = read_rows(result, node, "stores", &ledger.store_count);
    story.ledger = &ledger;
    if (ledger.boundary == NULL || ledger.stores == NULL) {
        return DAWN_ERR_NOMEM;
    }
    return dawn_picture_heat(picture, &story) ? DAWN_OK : DAWN_ERR_NOMEM;
}
