/* dawnlow-scenario(5): every section and key, from the table that also reads them. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "base/unit.h"
#include "cli/manual.h"
#include "cli/mdoc.h"
#include "dawnlow/scenario.h"

/* "a|b|c" as "a, b, c". */
static void add_words(struct dawn_text *text, const char *words)
{
    for (const char *c = words; *c != '\0'; c++) {
        dawn_text_add(text, "%s%c", *c == '|' ? "," : "", *c == '|' ? ' ' : *c);
    }
}

static void add_limits(struct dawn_text *text, const struct dawn_key *key)
{
    const char *blank = key->unit[0] != '\0' ? " " : "";

    if (isfinite(key->least) || isfinite(key->most)) {
        dawn_text_add(text, "Possible: %g to %g%s%s. ", key->least, key->most, blank, key->unit);
    }
    if (key->doubt_least > key->least || key->doubt_most < key->most) {
        dawn_text_add(text, "Usual: %g to %g%s%s. ", key->doubt_least, key->doubt_most, blank,
                      key->unit);
    }
}

static void put_key(const struct dawn_key *key)
{
    struct dawn_text text = {0};

    dawn_mdoc_entry(key->name);
    dawn_mdoc_text(key->meaning);
    if (key->kind == DAWN_KIND_QUANTITY && key->measure != DAWN_MEASURE_NONE) {
        dawn_text_add(&text, "Measured: %s in %s. ",
                      dawn_unit_measure_words((enum dawn_measure)key->measure),
                      dawn_unit_list((enum dawn_measure)key->measure));
    }
    if (key->kind == DAWN_KIND_QUANTITY || key->kind == DAWN_KIND_COUNT) {
        add_limits(&text, key);
    }
    if (key->words != NULL) {
        dawn_text_add(&text, key->kind == DAWN_KIND_CHOICE ? "One of: " : "Or else: ");
        add_words(&text, key->words);
        dawn_text_add(&text, ". ");
    }
    if (key->usual == NULL) {
        dawn_text_add(&text, "Must be given.");
    } else {
        dawn_text_add(&text, "Default: %s.", key->usual[0] != '\0' ? key->usual : "empty");
    }
    dawn_mdoc_text(text.failed ? "" : text.data);
    dawn_text_release(&text);
}

static void put_keys(void)
{
    size_t count = 0;
    const struct dawn_key *keys = dawn_scenario_keys(&count);

    puts(".Sh KEYS");
    dawn_mdoc_text("Sections follow in the order in which a scenario usually has them.");
    for (size_t i = 0; i < count; i++) {
        const bool first = i == 0 || strcmp(keys[i].section, keys[i - 1].section) != 0;
        const bool last = i + 1 == count || strcmp(keys[i].section, keys[i + 1].section) != 0;
        if (first) {
            dawn_mdoc_macro("Ss", keys[i].section[0] != '\0' ? keys[i].section : "At the top");
            dawn_mdoc_text(dawn_scenario_section_meaning(keys[i].section));
            dawn_mdoc_list();
        }
        put_key(&keys[i]);
        if (last) {
            dawn_mdoc_list_end();
        }
    }
}

static void put_glazings(void)
{
    size_t count = 0;
    const struct dawn_glazing_type *types = dawn_scenario_glazing_types(&count);

    puts(".Sh GLAZINGS");
    dawn_mdoc_list();
    for (size_t i = 0; i < count; i++) {
        dawn_mdoc_entry(types[i].word);
        dawn_mdoc_text(types[i].meaning);
    }
    dawn_mdoc_list_end();
}

static void put_example(void)
{
    static const char *const lines[] = {
        "dawnlow: 1            # the form of the file",
        "site:",
        "  latitude: 45.2 N",
        "  longitude: 6.9 E",
        "  utc_offset: +1 h",
        "house:",
        "  length: 10 m",
        "  width: 6 m",
        "  height: 2.7 m",
        "glazing:",
        "  - name: roof",
        "    area: 118 m2",
        "    slope: 35 deg",
        "    azimuth: S",
        "    type: film",
    };

    puts(".Sh EXAMPLES");
    dawn_mdoc_text("The least that makes a nursery:");
    puts(".Bd -literal -offset indent");
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        printf("%s\n", lines[i]);
    }
    puts(".Ed");
}

void dawn_manual_scenario(void)
{
    static const char *const see[] = {"dawnlow 1", "dawnlow-weather 5", "dawnlow-tutorial 7", NULL};

    dawn_mdoc_head("dawnlow-scenario", 5, "description of a nursery for dawnlow", NULL);
    dawn_mdoc_text("A scenario is a text file in UTF-8 that describes a nursery: a strict part of "
                   "YAML. Each line is 'key: value'; the keys of a section are indented by two "
                   "blanks, items of a list begin with '- ', and what follows a '#' is a remark. "
                   "Tabs, anchors, tags and more than one document are refused, and so is a key "
                   "that is not known: the nearest one is named then.");
    puts(".Pp");
    dawn_mdoc_text("Every quantity carries its unit, such as 18 t, 350 cfm or 20 ft 6 in, with a "
                   "decimal point or comma. What is outside the possible is refused, what is "
                   "outside the usual is warned of. Keys left out take their default, which "
                   "dawnlow check shows.");
    puts(".Pp");
    dawn_mdoc_text("The option --set of dawnlow lays a value over the file for one run: "
                   "rock.mass=12 t, or glazing.south roof.area=30 m2 for an item of a list.");
    put_keys();
    put_glazings();
    put_example();
    dawn_mdoc_see(see);
}
