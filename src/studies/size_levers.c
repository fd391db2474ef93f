/* What may be varied, how it is written into a trial, and what would be silly to build. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "base/unit.h"
#include "dawnlow/network.h"
#include "studies/range.h"
#include "studies/second_skin.h"
#include "studies/size_parts.h"

/* Common practice, no source: nobody digs a bed deeper or spreads rock thinner, and air that goes
 * faster through rock makes a noise and takes too much pressure. */
static const double deepest_m = 1.2;
static const double shallowest_m = 0.15;
static const double fastest_m_s = 0.3;

static const struct {
    const char *key, *words, *unit;
    enum dawn_measure measure;
    double least, most, step;
    bool continuous;
} known[DAWN_SIZE_KINDS] = {
    [DAWN_SIZE_ROCK] = {"rock", "rock", "t", DAWN_MEASURE_MASS, 0.0, 30.0, 0.5, true},
    [DAWN_SIZE_STONE] = {"stone", "stone size", "mm", DAWN_MEASURE_LENGTH, 20.0, 100.0, 5.0, true},
    [DAWN_SIZE_DEPTH] = {"depth", "depth of the rock", "m", DAWN_MEASURE_LENGTH, 0.3, 1.0, 0.05,
                         true},
    [DAWN_SIZE_FAN] = {"fan", "fan", "m3/h", DAWN_MEASURE_FLOW, 300.0, 3000.0, 50.0, true},
    [DAWN_SIZE_BARRELS] = {"barrels", "barrels", "", DAWN_MEASURE_NONE, 0.0, 40.0, 1.0, false},
    [DAWN_SIZE_SKINS] = {"skins", "skins of glazing", "", DAWN_MEASURE_NONE, 1.0, 2.0, 1.0, false},
    [DAWN_SIZE_EDGE] = {"edge", "board along the edge", "cm", DAWN_MEASURE_LENGTH, 0.0, 90.0, 30.0,
                        false},
    [DAWN_SIZE_COVERS] = {"covers", "night covers", "", DAWN_MEASURE_NONE, 0.0, 3.0, 1.0, false},
};

static enum dawn_status refuse(struct dawn_problems *problems, const char *hint, const char *what,
                               const char *found)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, hint,
                      "--vary: %s: '%s'", what, found);
    return DAWN_ERR_USAGE;
}

/* ---- reading ---- */

static double in_unit(enum dawn_size_kind kind, double si)
{
    static const double scale[DAWN_SIZE_KINDS] = {
        [DAWN_SIZE_ROCK] = 1e-3,  [DAWN_SIZE_STONE] = 1e3,   [DAWN_SIZE_DEPTH] = 1.0,
        [DAWN_SIZE_FAN] = 3600.0, [DAWN_SIZE_BARRELS] = 1.0, [DAWN_SIZE_SKINS] = 1.0,
        [DAWN_SIZE_EDGE] = 100.0, [DAWN_SIZE_COVERS] = 1.0};

    return si * scale[kind];
}

/* An end of the range in the lever's unit: "4..20" has it already. */
static bool read_end(enum dawn_size_kind kind, double number, const char *unit, double *value)
{
    char text[64];
    char unused[32];
    double si = 0.0;

    *value = number;
    if (unit[0] == '\0') {
        return true;
    }
    (void)snprintf(text, sizeof text, "%.12g %s", number, unit);
    if (dawn_unit_quantity(text, known[kind].measure, &si, unused) != DAWN_QUANTITY_OK) {
        return false;
    }
    *value = in_unit(kind, si);
    return true;
}

static enum dawn_status read_range(struct dawn_size_lever *lever, const char *text,
                                   struct dawn_problems *problems)
{
    static const char example[] = "for example rock=4..20 t";
    struct dawn_range range;
    const char *wrong = dawn_range_read(&range, text);
    double least = 0.0;
    double most = 0.0;

    if (wrong != NULL) {
        return refuse(problems, example, wrong, text);
    }
    if (range.steps > 0) {
        return refuse(problems, example, "how many values are tried is the search's to choose",
                      text);
    }
    if (!read_end(lever->kind, range.from, range.unit, &least) ||
        !read_end(lever->kind, range.to, range.unit, &most)) {
        return refuse(problems, example, "this is no unit for it", text);
    }
    if (least < 0.0 || most > 20.0 * known[lever->kind].most ||
        (lever->kind >= DAWN_SIZE_SKINS && most > known[lever->kind].most + 100.0)) {
        return refuse(problems, NULL, "nothing of the kind can be built", text);
    }
    lever->least = least;
    lever->most = most;
    return DAWN_OK;
}

/* Why the nursery has nothing of the kind to vary; NULL = it has. */
static const char *missing(enum dawn_size_kind kind, const struct dawn_scenario *scenario)
{
    switch (kind) {
    case DAWN_SIZE_ROCK:
    case DAWN_SIZE_STONE:
    case DAWN_SIZE_FAN:
        return scenario->rock.present && scenario->fan.present
                   ? NULL
                   : "this needs sections 'rock:' and 'fan:' to start from";
    case DAWN_SIZE_DEPTH:
        return scenario->rock.present && scenario->bed.present
                   ? NULL
                   : "this needs sections 'rock:' and 'bed:' to start from";
    case DAWN_SIZE_COVERS:
        return scenario->cover_count + 2 <= DAWN_COVERS_MOST ? NULL
                                                             : "this nursery has covers enough";
    default:
        return NULL;
    }
}

static double barrels_that_fit(const struct dawn_scenario *scenario)
{
    const double bed_m2 = scenario->bed.present ? scenario->bed.area_m2 : 0.0;
    struct dawn_scenario one = *scenario;

    one.barrels_count = 1;
    one.barrels[0].count = 1.0;
    if (scenario->barrels_count == 0) {
        one.barrels[0].volume_m3 = 0.208;
    }
    return floor((dawn_scenario_floor_m2(scenario) - bed_m2) / dawn_scenario_barrels_m2(&one));
}

/* How far it makes sense to look: as much rock as lies 1 m deep under the bed, as many barrels as
 * stand beside it, up to the trade's 75 m3/h of air for each m2 of floor. */
static void usual_range(struct dawn_size_lever *lever, const struct dawn_scenario *scenario)
{
    const struct dawn_rock *rock = &scenario->rock;

    switch (lever->kind) {
    case DAWN_SIZE_ROCK:
        if (scenario->bed.present) {
            lever->most = floor(2.0 * scenario->bed.area_m2 * rock->density_kg_m3 *
                                (1.0 - rock->void_share) / 1e3) /
                          2.0;
        }
        break;
    case DAWN_SIZE_FAN:
        if (scenario->fan_offer_count > 0) {
            lever->least = 1.0;
            lever->most = (double)scenario->fan_offer_count;
            lever->step = 1.0;
            lever->continuous = false;
            lever->unit = "";
        } else {
            lever->most = 100.0 * ceil(0.75 * dawn_scenario_floor_m2(scenario));
        }
        break;
    case DAWN_SIZE_BARRELS:
        lever->most = fmax(fmin(barrels_that_fit(scenario), 200.0), 1.0);
        lever->least = scenario->barrels_count > 1 ? 1.0 : 0.0;
        break;
    default:
        break;
    }
}

static enum dawn_status read_one(struct dawn_size_lever *lever, char *text,
                                 const struct dawn_scenario *scenario,
                                 struct dawn_problems *problems)
{
    static const char hint[] = "rock, stone, depth, fan, barrels, skins, edge and covers can be";
    char *equals = strchr(text, '=');
    int kind = 0;

    if (equals != NULL) {
        *equals = '\0';
    }
    while (kind < DAWN_SIZE_KINDS && !dawn_text_same(text, known[kind].key)) {
        kind++;
    }
    if (kind == DAWN_SIZE_KINDS) {
        return refuse(problems, hint, "nothing of that name can be varied", text);
    }
    if (missing((enum dawn_size_kind)kind, scenario) != NULL) {
        return refuse(problems, NULL, missing((enum dawn_size_kind)kind, scenario), text);
    }
    *lever = (struct dawn_size_lever){.kind = (enum dawn_size_kind)kind,
                                      .key = known[kind].key,
                                      .words = known[kind].words,
                                      .unit = known[kind].unit,
                                      .least = known[kind].least,
                                      .most = known[kind].most,
                                      .step = known[kind].step,
                                      .continuous = known[kind].continuous};
    usual_range(lever, scenario);
    return equals == NULL ? DAWN_OK : read_range(lever, equals + 1, problems);
}

static const char *usual_levers(const struct dawn_scenario *scenario)
{
    return scenario->rock.present && scenario->fan.present ? "rock,fan,barrels" : "barrels,covers";
}

enum dawn_status dawn_size_levers(struct dawn_size_lever lever[DAWN_SIZE_KINDS], size_t *count,
                                  const char *text, const struct dawn_scenario *scenario,
                                  struct dawn_problems *problems)
{
    char part[128];

    *count = 0;
    if (text == NULL) {
        text = usual_levers(scenario);
    }
    if (text[0] == '\0') {
        return refuse(problems, "for example rock,barrels,fan", "there is nothing in it", text);
    }
    while (*text != '\0') {
        const size_t size = strcspn(text, ",");
        if (size == 0 || size >= sizeof part) {
            return refuse(problems, "for example rock,barrels,fan", "a name is missing or too long",
                          text);
        }
        memcpy(part, text + strspn(text, " "), size - strspn(text, " "));
        part[size - strspn(text, " ")] = '\0';
        text += size + (text[size] == ',');
        if (*count >= DAWN_SIZE_KINDS) {
            return refuse(problems, NULL, "more things than there are", part);
        }
        const enum dawn_status status = read_one(&lever[*count], part, scenario, problems);
        if (status != DAWN_OK) {
            return status;
        }
        for (size_t i = 0; i < *count; i++) {
            if (lever[i].kind == lever[*count].kind) {
                return refuse(problems, NULL, "named twice", part);
            }
        }
        ++*count;
    }
    return DAWN_OK;
}

double dawn_size_round(const struct dawn_size_lever *lever, double value)
{
    const double steps = round((value - lever->least) / lever->step);
    const double most = floor((lever->most - lever->least) / lever->step + 1e-9);

    return lever->least + lever->step * fmin(fmax(steps, 0.0), most);
}

/* ---- writing a design ---- */

static const double *value_of(const struct dawn_size_design *design,
                              const struct size_search *search, enum dawn_size_kind kind)
{
    for (size_t i = 0; i < search->plan->levers; i++) {
        if (search->plan->lever[i].kind == kind) {
            return &design->value[i];
        }
    }
    return NULL;
}

static void set_offer(struct dawn_trial *trial, const struct dawn_fan_offer *offer)
{
    dawn_trials_set(trial, "fan.flow=from curve");
    dawn_trials_set(trial, "fan.free_air=%.9g m3/h", offer->free_air_m3_s * 3600.0);
    dawn_trials_set(trial, "fan.greatest_pressure=%.9g Pa", offer->greatest_Pa);
    if (isnan(offer->middle_m3_s)) {
        dawn_trials_set(trial, "fan.middle_flow=unknown");
        dawn_trials_set(trial, "fan.middle_pressure=unknown");
    } else {
        dawn_trials_set(trial, "fan.middle_flow=%.9g m3/h", offer->middle_m3_s * 3600.0);
        dawn_trials_set(trial, "fan.middle_pressure=%.9g Pa", offer->middle_Pa);
    }
    dawn_trials_set(trial, "fan.power=%.9g W", offer->power_W);
    dawn_trials_set(trial, "fan.price=%.9g", offer->price);
}

/* A fan of another size of the same kind: power in proportion to flow. */
static void set_flow(struct dawn_trial *trial, const struct dawn_scenario *scenario, double m3_h)
{
    const struct dawn_fan *fan = &scenario->fan;
    const bool curve = isnan(fan->flow_m3_s);
    const double own_m3_h = 3600.0 * (curve ? fan->free_air_m3_s : fan->flow_m3_s);

    if (curve) {
        dawn_trials_set(trial, "fan.free_air=%.9g m3/h", m3_h);
        if (!isnan(fan->middle_m3_s)) {
            dawn_trials_set(trial, "fan.middle_flow=%.9g m3/h",
                            fan->middle_m3_s * 3600.0 * m3_h / own_m3_h);
        }
    } else {
        dawn_trials_set(trial, "fan.flow=%.9g m3/h", m3_h);
    }
    dawn_trials_set(trial, "fan.power=%.6g W", fan->power_W * m3_h / own_m3_h);
    if (!isnan(fan->price)) {
        dawn_trials_set(trial, "fan.price=by flow");
    }
}

static void set_rock(struct dawn_size_design *design, const struct size_search *search)
{
    const struct dawn_scenario *scenario = search->scenario;
    const double *rock = value_of(design, search, DAWN_SIZE_ROCK);
    const double *stone = value_of(design, search, DAWN_SIZE_STONE);
    const double *depth = value_of(design, search, DAWN_SIZE_DEPTH);
    const double *fan = value_of(design, search, DAWN_SIZE_FAN);

    if (rock != NULL && *rock <= 0.0) {
        dawn_trials_set(&design->trial, "rock=none");
        dawn_trials_set(&design->trial, "fan=none");
        return;
    }
    const double kg = rock != NULL ? *rock * 1e3 : dawn_scenario_rock_kg(scenario);
    if (rock != NULL) {
        dawn_trials_set(&design->trial, "rock.volume=from mass");
        dawn_trials_set(&design->trial, "rock.mass=%.9g t", *rock);
    }
    if (stone != NULL) {
        dawn_trials_set(&design->trial, "rock.stone_size=%.9g mm", *stone);
    }
    if (depth != NULL) {
        dawn_trials_set(&design->trial, "bed.area=%.9g m2",
                        kg / scenario->rock.density_kg_m3 / (1.0 - scenario->rock.void_share) /
                            *depth);
    }
    if (fan != NULL && scenario->fan_offer_count > 0) {
        set_offer(&design->trial, &scenario->fans[(size_t)fmax(*fan, 1.0) - 1]);
    } else if (fan != NULL) {
        set_flow(&design->trial, scenario, *fan);
    }
}

static void set_barrels(struct dawn_size_design *design, const struct size_search *search)
{
    const double *barrels = value_of(design, search, DAWN_SIZE_BARRELS);

    if (barrels == NULL) {
        return;
    }
    if (*barrels < 0.5) {
        if (search->scenario->barrels_count > 0) {
            dawn_trials_set(&design->trial, "barrels=none");
        }
    } else if (search->scenario->barrels_count > 0) {
        dawn_trials_set(&design->trial, "barrels.1.count=%.0f", *barrels);
    } else {
        dawn_trials_set(&design->trial, "barrels.+new.count=%.0f", *barrels);
        dawn_trials_set(&design->trial, "barrels.+new.volume=208 L");
    }
}

static void set_shell(struct dawn_size_design *design, const struct size_search *search)
{
    const double *skins = value_of(design, search, DAWN_SIZE_SKINS);
    const double *edge = value_of(design, search, DAWN_SIZE_EDGE);
    const double *covers = value_of(design, search, DAWN_SIZE_COVERS);

    if (skins != NULL && *skins > 1.5) {
        (void)dawn_second_skin(&design->trial, search->scenario);
    }
    if (edge != NULL) {
        dawn_trials_set(&design->trial, "ground.edge_depth=%.6g cm", *edge);
    }
    if (covers != NULL && ((int)*covers & 1) != 0) {
        dawn_trials_set(&design->trial, "covers.+night fleece.over=trays");
        dawn_trials_set(&design->trial, "covers.+night fleece.sheet=fleece");
    }
    if (covers != NULL && ((int)*covers & 2) != 0) {
        dawn_trials_set(&design->trial, "covers.+night curtain.over=house");
        dawn_trials_set(&design->trial, "covers.+night curtain.sheet=curtain");
    }
}

/* ---- what would be silly ---- */

static const char *silly_rock(const struct dawn_scenario *s)
{
    struct dawn_problems unheard = {0};
    struct dawn_fan_work work;
    const double deep_m = dawn_scenario_rock_m3(s) / s->bed.area_m2;

    if (s->bed.present && (deep_m > deepest_m || deep_m < shallowest_m)) {
        return deep_m > deepest_m ? "rock deeper than 1.2 m" : "rock thinner than 0.15 m";
    }
    if (!s->fan.present) {
        return NULL;
    }
    const enum dawn_status status = dawn_network_fan_work(s, &work, &unheard);
    dawn_problems_release(&unheard);
    if (status != DAWN_OK) {
        return "the fan could not be worked out";
    }
    if (work.path_m > fmax(s->house.length_m, s->house.width_m)) {
        return "air path longer than the house";
    }
    if (work.face_m_s > fastest_m_s) {
        return "air faster than 0.3 m/s";
    }
    return work.verdict == DAWN_FAN_FLOW_BEYOND_POWER ? "more air than the fan can move" : NULL;
}

static const char *silly(const struct dawn_scenario *s)
{
    const double bed_m2 = s->bed.present ? s->bed.area_m2 : 0.0;

    if (dawn_scenario_barrels_m2(s) + bed_m2 > dawn_scenario_floor_m2(s) + 1e-9) {
        return "barrels do not fit the floor";
    }
    return s->rock.present ? silly_rock(s) : NULL;
}

void dawn_size_make(struct dawn_size_design *design, const struct size_search *search)
{
    const char *set[DAWN_TRIAL_SETS];
    struct dawn_problems unheard = {0};
    struct dawn_scenario with;

    design->trial.sets = 0;
    design->excluded = NULL;
    design->failed = false;
    design->slack_K = design->low_C = NAN;
    dawn_size_unborne(design);
    set_rock(design, search);
    set_barrels(design, search);
    set_shell(design, search);
    for (size_t i = 0; i < design->trial.sets && i < DAWN_TRIAL_SETS; i++) {
        set[i] = design->trial.set[i];
    }
    if (design->trial.sets > DAWN_TRIAL_SETS ||
        dawn_scenario_with(&with, search->scenario, set, design->trial.sets, &unheard) != DAWN_OK) {
        design->excluded = "against the scenario's rules";
        design->cost = (struct dawn_cost){.total = NAN};
    } else {
        design->cost = dawn_cost_of(&with);
        design->excluded = silly(&with);
    }
    if (design->trial.sets <= DAWN_TRIAL_SETS) {
        dawn_scenario_release(&with);
    }
    dawn_problems_release(&unheard);
}
