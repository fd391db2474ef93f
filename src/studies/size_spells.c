/* Which nights decide: springs, and the cold spells of the weather. */
#include <math.h>

#include "base/civil.h"
#include "studies/size_parts.h"

static const double spell_s = 86400.0;
static const double joined_d = 4.0;

/* Whether the spring of a calendar year, March to May or south of the equator September to
 * November, has a day in a stretch of weather. */
static bool has_spring(const struct dawn_year *year, const struct dawn_scenario *scenario,
                       int calendar_year)
{
    const int first = scenario->site.latitude_deg < 0.0 ? 9 : 3;
    const double offset_h = scenario->site.utc_offset_h;
    const int64_t from_s = dawn_civil_seconds(
        &(struct dawn_civil){.year = calendar_year, .month = first, .day = 1}, offset_h);
    const int64_t to_s = dawn_civil_seconds(
        &(struct dawn_civil){.year = calendar_year, .month = first + 3, .day = 1}, offset_h);

    return year->from_s < to_s - 86400 && year->to_s > from_s + 86400;
}

size_t dawn_size_springs(const struct size_search *search)
{
    const struct dawn_years *years = search->plan->years;
    const double offset_h = search->scenario->site.utc_offset_h;
    size_t springs = 0;

    for (size_t y = 0; y < years->count; y++) {
        const struct dawn_year *year = &years->year[y];
        const int last = dawn_civil_at(year->to_s, offset_h).year;
        size_t here = 0;
        for (int i = dawn_civil_at(year->from_s, offset_h).year; i <= last; i++) {
            here += has_spring(year, search->scenario, i);
        }
        springs += here > 0 ? here : 1;
    }
    return springs;
}

static bool inside(const struct dawn_year *year, int64_t t_s)
{
    return t_s >= year->from_s && t_s <= year->to_s;
}

/* From the noon before a night to the evening after it, on whole hours of its year. */
static struct dawn_year spell_around(const struct dawn_year *year, int64_t dusk_s)
{
    const int64_t from_s = dusk_s - (int64_t)(0.5 * spell_s);
    const int64_t to_s = dusk_s + (int64_t)spell_s;
    struct dawn_year spell = *year;

    spell.from_s = from_s - from_s % 3600 > year->from_s ? from_s - from_s % 3600 : year->from_s;
    spell.to_s = to_s - to_s % 3600 < year->to_s ? to_s - to_s % 3600 : year->to_s;
    return spell;
}

/* A night that is in a spell already changes nothing; one within some days of a spell makes that
 * longer, which costs less than living up to another. */
static void add_spell(struct size_search *search, const struct dawn_year *year, int64_t dusk_s,
                      size_t most)
{
    const struct dawn_year new = spell_around(year, dusk_s);

    for (size_t i = 0; i < search->spells.count; i++) {
        struct dawn_year *spell = &search->spell[i];
        if (spell->weather == year->weather && inside(year, spell->from_s) &&
            new.from_s <= spell->to_s + (int64_t)(joined_d * spell_s) &&
            new.to_s >= spell->from_s - (int64_t)(joined_d * spell_s)) {
            spell->from_s = new.from_s < spell->from_s ? new.from_s : spell->from_s;
            spell->to_s = new.to_s > spell->to_s ? new.to_s : spell->to_s;
            return;
        }
    }
    if (search->spells.count < most) {
        search->spell[search->spells.count++] = new;
    }
}

/* The coldest nights of some designs over all the weather decide. */
void dawn_size_spells(struct size_search *search, const struct size_low lows[], size_t designs,
                      size_t most)
{
    const struct dawn_years *years = search->plan->years;

    for (size_t rank = 0; rank < search->allowed + 2 && rank < DAWN_SIZE_LOWS; rank++) {
        for (size_t i = 0; i < designs; i++) {
            const struct size_low *low = &lows[i * DAWN_SIZE_LOWS + rank];
            for (size_t y = 0; y < years->count; y++) {
                if (low->dusk_s != 0 && !isnan(low->low_C) &&
                    inside(&years->year[y], low->dusk_s)) {
                    add_spell(search, &years->year[y], low->dusk_s, most);
                    break;
                }
            }
        }
    }
}

/* ---- the nights that may decide ---- */

static const double may_decide_K = 5.0;

/* The latest night of a year that may decide a design; 0 = none, -1 = that cannot be told. */
static int64_t last_night_s(const struct size_search *search, const struct dawn_year *year,
                            const struct size_low lows[])
{
    const double line_C = lows[search->allowed].low_C + may_decide_K;
    int64_t last_s = 0;
    bool all = false;

    for (size_t i = 0; i < DAWN_SIZE_LOWS && !all; i++) {
        all = lows[i].dusk_s == 0 || lows[i].low_C > line_C;
        if (!all && inside(year, lows[i].dusk_s) && lows[i].dusk_s > last_s) {
            last_s = lows[i].dusk_s;
        }
    }
    return all ? last_s : -1;
}

void dawn_size_cut(struct size_search *search, const struct size_low first[],
                   const struct size_low second[])
{
    const struct dawn_years *years = search->plan->years;

    for (size_t y = 0; y < years->count; y++) {
        struct dawn_year *cut = &search->night[y];
        *cut = years->year[y];
        const int64_t one_s = last_night_s(search, cut, first);
        const int64_t other_s = last_night_s(search, cut, second);
        const int64_t last_s = one_s > other_s ? one_s : other_s;
        if (one_s > 0 && other_s > 0 && last_s < cut->to_s - (int64_t)(2.0 * spell_s)) {
            cut->to_s = last_s + (int64_t)(1.5 * spell_s);
            cut->to_s -= cut->to_s % 3600;
        }
    }
    search->nights = (struct dawn_years){years->count, search->night};
}
