/* What every page ends with: inputs and defaults, what was assumed, cautions, sources, version. */
#include <math.h>

#include "base/text.h"
#include "dawnlow/trajectory.h"
#include "dawnlow/version.h"
#include "report/page.h"
#include "report/report_parts.h"

static void add_value(const struct dawn_understood *value, void *user)
{
    struct dawn_tableout *table = user;

    dawn_tableout_cell(table, "%s", value->key);
    dawn_tableout_cell(table, "%s", value->value);
    if (value->given && value->line > 0) {
        dawn_tableout_cell(table, "yours, line %d", value->line);
    } else {
        dawn_tableout_cell(table, "%s", value->given ? "set for this run" : "default");
    }
}

static void put_inputs(struct dawn_page *page, const struct dawn_scenario *scenario)
{
    struct dawn_tableout table;

    dawn_tableout_begin(&table, 3, "lll");
    dawn_tableout_cell(&table, "Key");
    dawn_tableout_cell(&table, "Value");
    dawn_tableout_cell(&table, "From");
    dawn_scenario_understood(scenario, add_value, &table);
    dawn_page_words(page, "The nursery: %s.",
                    scenario->path[0] != '\0' ? scenario->path : "not from a file");
    dawn_page_table(page, &table, 1, "Every value, yours and defaults");
}

static void put_weather(struct dawn_page *page, const struct dawn_weather *weather)
{
    struct dawn_report_estimate estimate[DAWN_REPORT_ESTIMATES];
    const size_t count = dawn_report_estimates(weather, estimate);
    struct dawn_text text = {0};

    dawn_text_add(&text, "The weather: %s (%s%s)", weather->path, weather->layout,
                  weather->typical_year ? ", a typical year put together from several" : "");
    for (size_t i = 0; i < count; i++) {
        dawn_text_add(&text, "%s%s (%s)", i == 0 ? "; estimated: " : ", ", estimate[i].quantity,
                      estimate[i].how);
    }
    if (weather->filled_hours > 0) {
        dawn_text_add(&text, "; %zu missing hours filled in", weather->filled_hours);
    }
    if (text.failed) {
        page->xml.failed = true;
    } else {
        dawn_page_words(page, "%s.", text.data);
    }
    dawn_text_release(&text);
}

static void put_sentence(struct dawn_page *page, const char *lead, const char *text)
{
    if (text != NULL) {
        dawn_page_words(page, "%s: %s.", lead, text);
    }
}

void dawn_page_basis(struct dawn_page *page, const struct dawn_page_basis *basis)
{
    char zone[DAWN_REPORT_ROOM];

    dawn_page_section(page, "What this rests on");
    put_inputs(page, basis->scenario);
    if (basis->weather != NULL) {
        put_weather(page, basis->weather);
    }
    put_sentence(page, "Assumed", basis->assumed);
    put_sentence(page, "Checked", basis->checked);
    put_sentence(page, "Left to chance",
                 basis->chance != NULL ? basis->chance
                                       : "nothing; the same input gives the same page");
    dawn_page_words(page, "Times are the site's standard time, %s.",
                    dawn_report_zone(basis->scenario->site.utc_offset_h, zone));
}

static void put_list(struct dawn_page *page, const char *const *item)
{
    dawn_xmlout_open(&page->xml, "ul");
    dawn_xmlout_line(&page->xml);
    for (; *item != NULL; item++) {
        dawn_xmlout_element(&page->xml, "li", *item);
        dawn_xmlout_line(&page->xml);
    }
    dawn_xmlout_close(&page->xml);
    dawn_xmlout_line(&page->xml);
}

/* The physics with its sources: the heads of the headers in dawnlow/physics/. */
static const char *const sources[] = {
    "sun and light: Reda & Andreas 2004; Perez et al. 1990 as in ISO 52010-1:2017; Erbs, Klein & "
    "Duffie 1982",
    "glazing: Duffie & Beckman, Solar Engineering of Thermal Processes, ch. 5; Brandemuehl & "
    "Beckman "
    "1980",
    "sky: Berdahl & Martin 1984; Unsworth & Monteith 1975",
    "moist air: ASHRAE Fundamentals 2017, ch. 1",
    "leaks and openings: Sherman & Grimsrud 1980; Boulard & Baille 1995",
    "rock: Hughes, Klein & Close 1976; Loef & Hawley 1948; Wakao & Kaguei 1982; Dunkle & Ellul "
    "1972",
    "ground: Kusuda & Achenbach 1965",
    "snow: Calonne et al. 2011; Jordan 1991",
    NULL};

static const char *const cautions[] = {
    "Keep an alarm thermometer at the coldest tray, and covers at hand. Lows within a degree of "
    "the "
    "line may fall on either side.",
    "Electricity near water: residual-current protection for every circuit, sockets above "
    "splashing, "
    "drip loops. A tripped device stops the fan, unseen.",
    "Weight: rock weighs about 1.6 t/m3; a full 208 L barrel about 220 kg, on firm and level "
    "ground, "
    "never stacked.",
    "Snow loads a cold roof; what the frame carries is for its maker or an engineer to say.",
    "Fuel heaters make carbon monoxide, which kills people, and ethylene, which harms plants: none "
    "without a flue, fresh air and a working alarm.",
    "Covers left on in the sun cook what they protected at night.",
    "This is a model's estimate and no substitute for local building and electrical codes or for "
    "people licensed to apply them; where they say otherwise, they are right.",
    NULL};

void dawn_page_cautions(struct dawn_page *page)
{
    dawn_page_section(page, "Cautions");
    put_list(page, cautions);
    dawn_page_section(page, "Where the method comes from");
    put_list(page, sources);
    dawn_xmlout_open(&page->xml, "footer");
    dawn_xmlout_text(&page->xml, "dawnlow %s, SUNDIALS CVODE %s", DAWN_VERSION,
                     dawn_trajectory_solver_version());
    dawn_xmlout_close(&page->xml);
    dawn_xmlout_line(&page->xml);
}
