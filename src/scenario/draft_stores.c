/* What stands and lies in the house: bed, rock, fan, barrels, trays, crops; and the weather file.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/draft.h"
#include "scenario/scenario_parts.h"

/* "18 of 55 gal" at " of ": the rest behind it, or NULL. */
static const char *behind_of(const char *text, char before[DAWN_DRAFT_ANSWER_SIZE])
{
    const char *at = strstr(text, " of ");
    (void)dawn_draft_trimmed(before, DAWN_DRAFT_ANSWER_SIZE, text,
                             at == NULL ? strlen(text) : (size_t)(at - text));
    return at == NULL ? NULL : at + 4;
}

static bool fits_floor(const struct dawn_draft *draft, double m2, const char *what,
                       struct dawn_text *why)
{
    if (m2 <= dawn_draft_floor_m2(draft))
        return true;
    dawn_text_add(
        why, "%s of %s would not fit on the floor of %s", what,
        dawn_draft_figure_of(m2, DAWN_MEASURE_AREA, draft->us).text,
        dawn_draft_figure_of(dawn_draft_floor_m2(draft), DAWN_MEASURE_AREA, draft->us).text);
    return false;
}

bool dawn_draft_read_bed(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    double m2 = 0;
    if (!dawn_draft_none(answer) &&
        (!dawn_draft_area(answer, "bed", &m2, why) || !fits_floor(draft, m2, "a bed", why)))
        return false;
    draft->bed_m2 = m2;
    return true;
}

/* ---- rock ---- */

struct amount {
    double kg, m3, tons; /* one of them */
};

static const char *const YARDS[] = {"yard", "yards", "yd", "yds", "cubic yard", "cubic yards"};

static bool is_unit(const char *text, const char *const words[], size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (dawn_text_same(text, words[i]))
            return true;
    return false;
}

static bool read_amount(const char *text, struct amount *amount, struct dawn_text *why)
{
    static const char *const tons[] = {"ton", "tons"};
    char unit[32];
    const char *end = NULL;
    double value = 0;
    *amount = (struct amount){NAN, NAN, NAN};
    bool number = dawn_text_number(text, &end, &value);
    const char *word = number ? end + strspn(end, " ") : text;
    if (number && is_unit(word, tons, 2))
        amount->tons = value;
    else if (number && is_unit(word, YARDS, sizeof YARDS / sizeof YARDS[0]))
        amount->m3 = value * 0.764554857984;
    else if (dawn_unit_quantity(text, DAWN_MEASURE_MASS, &value, unit) == DAWN_QUANTITY_OK)
        amount->kg = value;
    else if (dawn_unit_quantity(text, DAWN_MEASURE_VOLUME, &value, unit) == DAWN_QUANTITY_OK)
        amount->m3 = value;
    else if (dawn_unit_hint(DAWN_MEASURE_MASS, text) != NULL)
        dawn_text_add(why, "'%s': %s", text, dawn_unit_hint(DAWN_MEASURE_MASS, text));
    else
        dawn_text_add(why,
                      "'%s' is no amount of rock, such as 18 t, 20 short ton, 12 yd3 or "
                      "3 loads of 10 yd3",
                      text);
    return why->size == 0;
}

/* Many times an amount into the draft, within what a scenario may hold. */
static bool keep_rock(struct dawn_draft *draft, struct amount amount, double times,
                      struct dawn_text *why)
{
    double t = amount.kg * times / 1000;
    double tons = amount.tons * times;
    double m3 = amount.m3 * times;
    if (t < 0.01 || t > 10000 || tons < 0.02 || tons > 9000 || m3 < 0.01 || m3 > 5000) {
        dawn_text_add(why, "so much rock is outside what is possible, 0.01 to 10000 t");
        return false;
    }
    draft->rock_kg = amount.kg * times;
    draft->rock_tons = tons;
    draft->rock_m3 = m3;
    return true;
}

static bool counts_loads(const char *text, double *loads)
{
    static const char *const words[] = {"load",  "loads",  "trailer",   "trailers",
                                        "truck", "trucks", "truckload", "truckloads"};
    const char *end = NULL;
    return dawn_text_number(text, &end, loads) && *loads > 0 && *loads <= 1000 &&
           is_unit(end + strspn(end, " "), words, sizeof words / sizeof words[0]);
}

bool dawn_draft_read_rock(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    char before[DAWN_DRAFT_ANSWER_SIZE];
    struct amount amount = {NAN, NAN, NAN};
    double loads = 1;
    const char *each = behind_of(answer, before);
    bool in_loads = counts_loads(before, &loads);
    bool none = dawn_draft_none(answer);
    if (!none && !in_loads && !read_amount(before, &amount, why))
        return false;
    if (in_loads && each != NULL && !read_amount(each, &amount, why))
        return false;
    if (!keep_rock(draft, amount, in_loads ? loads : 1, why))
        return false;
    draft->rock_loads = in_loads && each == NULL ? loads : NAN;
    return true;
}

bool dawn_draft_read_load(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    struct amount amount;
    return read_amount(answer, &amount, why) && keep_rock(draft, amount, draft->rock_loads, why);
}

bool dawn_draft_read_ton(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    static const double short_kg = 907.18474; /* 2000 lb, exact */
    bool metric = dawn_text_same(answer, "metric");
    if (!metric && !dawn_text_same(answer, "short")) {
        dawn_text_add(why, "'%s' is neither metric (1000 kg) nor short (2000 lb)", answer);
        return false;
    }
    draft->rock_kg = draft->rock_tons * (metric ? 1000 : short_kg);
    return true;
}

bool dawn_draft_read_stone(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    char parts[2][DAWN_DRAFT_ANSWER_SIZE];
    char unit[32];
    double small = 0;
    double large = 0;
    const char *dash = strchr(answer, '-');
    /* "20-40 mm" is what fell between two sieves. */
    if (dash != NULL && dash > answer &&
        dawn_draft_trimmed(parts[0], sizeof parts[0], answer, (size_t)(dash - answer)) &&
        dawn_unit_quantity(dash + 1, DAWN_MEASURE_LENGTH, &large, unit) == DAWN_QUANTITY_OK) {
        (void)snprintf(parts[1], sizeof parts[1], "%.200s %s", parts[0], unit);
        if (dawn_draft_quantity(parts[1], "rock", "stone_size", &small, why) &&
            dawn_draft_quantity(dash + 1, "rock", "stone_size", &large, why)) {
            draft->stone_m = 0.5 * (small + large);
            return true;
        }
        return false;
    }
    return dawn_draft_quantity(answer, "rock", "stone_size", &draft->stone_m, why);
}

/* ---- fan ---- */

bool dawn_draft_read_fan(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    if (dawn_draft_none(answer)) {
        draft->fan_m3_s = NAN;
        return true;
    }
    return dawn_draft_quantity(answer, "fan", "free_air", &draft->fan_m3_s, why);
}

bool dawn_draft_read_pressure(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    if (dawn_text_same(answer, "unknown") || dawn_draft_none(answer)) {
        draft->fan_Pa = NAN;
        return true;
    }
    return dawn_draft_quantity(answer, "fan", "greatest_pressure", &draft->fan_Pa, why);
}

bool dawn_draft_read_watts(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    return dawn_draft_quantity(answer, "fan", "power", &draft->fan_W, why);
}

/* ---- barrels ---- */

static bool barrels_fit(const struct dawn_draft *draft, double count, double each_m3,
                        struct dawn_text *why)
{
    return isnan(each_m3) ||
           fits_floor(draft, count * dawn_scenario_barrel_stand_m2(each_m3), "barrels", why);
}

bool dawn_draft_read_barrels(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    char before[DAWN_DRAFT_ANSWER_SIZE];
    char size[DAWN_DRAFT_ANSWER_SIZE];
    const char *end = NULL;
    double count = 0;
    double each = NAN;
    const char *each_text = behind_of(answer, before);
    if (each_text == NULL && dawn_draft_two(answer, before, size))
        each_text = size;
    bool none = dawn_draft_none(answer);
    if (!none && (!dawn_text_number(before, &end, &count) || *(end + strspn(end, " ")) != '\0' ||
                  count != floor(count) || count < 1 || count > 5000)) {
        dawn_text_add(why, "'%s' is no number of barrels, such as 14 or 14 of 55 gal", answer);
        return false;
    }
    if (each_text != NULL && !dawn_draft_quantity(each_text, "barrels", "volume", &each, why))
        return false;
    if (!barrels_fit(draft, count, each, why))
        return false;
    draft->barrels = none ? 0 : count;
    draft->barrel_m3 = each;
    draft->ask_barrel = !none && each_text == NULL;
    return true;
}

bool dawn_draft_read_barrel(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    double each = NAN;
    if (!dawn_draft_quantity(answer, "barrels", "volume", &each, why) ||
        !barrels_fit(draft, draft->barrels, each, why))
        return false;
    draft->barrel_m3 = each;
    return true;
}

/* ---- trays and crops ---- */

/* Cuts "on the bed" or "on benches" off the end. */
static bool stands_on_bed(char *text)
{
    char *on = strstr(text, " on ");
    if (on == NULL)
        return false;
    bool bed = strstr(on, "bed") != NULL;
    *on = '\0';
    return bed;
}

bool dawn_draft_read_trays(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    /* A standard flat, 11 by 21.5 in outside (common practice, no source). */
    static const double flat_m2 = 0.2794 * 0.5461;
    static const char *const flats[] = {"tray", "trays", "flat", "flats"};
    char text[DAWN_DRAFT_ANSWER_SIZE];
    const char *end = NULL;
    double count = 0;
    double m2 = 0;
    (void)dawn_text_copy(text, sizeof text, answer);
    bool bed = stands_on_bed(text);
    bool counted = dawn_text_number(text, &end, &count) &&
                   is_unit(end + strspn(end, " "), flats, sizeof flats / sizeof flats[0]);
    if (counted && count > 0 && count <= 100000)
        m2 = count * flat_m2;
    else if (!dawn_draft_none(text) && !dawn_draft_area(text, "trays", &m2, why))
        return false;
    if (!fits_floor(draft, m2, "trays", why))
        return false;
    if (bed && m2 > draft->bed_m2) {
        dawn_text_add(why, "the bed is too small for so many trays, or there is none");
        return false;
    }
    draft->trays_m2 = m2;
    draft->trays_on_bed = bed;
    return true;
}

static bool plain_name(const char *name)
{
    for (const char *c = name; *c != '\0'; c++)
        if ((unsigned char)*c < 0x80 && strchr("abcdefghijklmnopqrstuvwxyz"
                                               "ABCDEFGHIJKLMNOPQRSTUVWXYZ -'",
                                               *c) == NULL)
            return false;
    return name[0] != '\0' && strchr(" -'", name[0]) == NULL;
}

/* "leek -4 C": the temperature begins at a sign or digit behind a blank. */
static bool read_crop(const char *part, struct dawn_crop *crop, struct dawn_text *why)
{
    const char *at = strpbrk(part, "+0123456789");
    if (at != NULL && at > part && at[-1] == '-')
        at--;
    size_t size = at == NULL ? strlen(part) : (size_t)(at - part);
    *crop = (struct dawn_crop){.damage_C = NAN};
    if (!dawn_draft_trimmed(crop->name, sizeof crop->name, part, size) || !plain_name(crop->name)) {
        dawn_text_add(why, "'%s' is no name of a crop", part);
        return false;
    }
    if (at != NULL)
        return dawn_draft_quantity(at, "crops", "damage_below", &crop->damage_C, why);
    crop->damage_C = dawn_draft_crop_damage_C(crop->name);
    if (isnan(crop->damage_C))
        dawn_text_add(why, "write below which leaf temperature '%s' is harmed, as in %s -1 C",
                      crop->name, crop->name);
    return !isnan(crop->damage_C);
}

static bool named_before(const struct dawn_draft *draft, const char *name)
{
    for (size_t i = 0; i < draft->crop_count; i++)
        if (dawn_text_same(draft->crops[i].name, name))
            return true;
    return false;
}

bool dawn_draft_read_crops(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    draft->crop_count = 0;
    for (const char *at = answer; !dawn_draft_none(answer) && *at != '\0';) {
        char part[DAWN_DRAFT_ANSWER_SIZE];
        struct dawn_crop crop;
        size_t size = strcspn(at, ",;");
        if (!dawn_draft_trimmed(part, sizeof part, at, size) || !read_crop(part, &crop, why))
            return false;
        if (draft->crop_count == DAWN_CROPS_MOST || named_before(draft, crop.name)) {
            dawn_text_add(why, "name each crop once, at most %d", DAWN_CROPS_MOST);
            return false;
        }
        draft->crops[draft->crop_count++] = crop;
        at += size + (at[size] != '\0');
    }
    return true;
}

/* ---- weather ---- */

bool dawn_draft_read_weather(struct dawn_draft *draft, const char *answer, struct dawn_text *why)
{
    bool none = dawn_draft_none(answer);
    bool invented = dawn_text_same(answer, "invented");
    if (invented && draft->demo_weather[0] == '\0') {
        dawn_text_add(why, "the invented weather is not found here; answer none, or name a file");
        return false;
    }
    if (!dawn_text_copy(draft->weather, sizeof draft->weather,
                        none       ? ""
                        : invented ? draft->demo_weather
                                   : answer)) {
        dawn_text_add(why, "the name of the file is too long");
        return false;
    }
    FILE *file = none ? NULL : fopen(draft->weather, "r");
    if (!none && file == NULL)
        dawn_text_add(why, "'%s' cannot be read; answer none if you have no file yet", answer);
    if (file != NULL)
        (void)fclose(file);
    return none || file != NULL;
}
