/* The table of keys: sane, complete, each key reaching its own field and no other. */
#include <ctype.h>

#include "base/unit.h"
#include "dawnlow/physics/airflow.h"
#include "dawnlow/physics/cover.h"
#include "scenario/scenario_parts.h"
#include "tiny_nursery.h"

static const struct dawn_key *keys;
static size_t key_count;

static int find_keys(void **state)
{
    (void)state;
    keys = dawn_scenario_keys(&key_count);
    return 0;
}

/* ---- the table itself ---- */

static bool is_snake(const char *name)
{
    for (const char *c = name; *c != '\0'; c++)
        if (!islower((unsigned char)*c) && *c != '_')
            return false;
    return name[0] != '\0';
}

static void check_number_key(const struct dawn_key *key)
{
    assert_int_equal(key->size, sizeof(double));
    assert_true(key->least <= key->doubt_least);
    assert_true(key->doubt_least <= key->doubt_most);
    assert_true(key->doubt_most <= key->most);
    if (key->measure == DAWN_MEASURE_NONE)
        assert_string_equal(key->unit, "");
    else
        assert_non_null(dawn_unit_find((enum dawn_measure)key->measure, key->unit));
}

static void every_key_is_sane(void **state)
{
    (void)state;
    for (size_t i = 0; i < key_count; i++) {
        const struct dawn_key *key = &keys[i];
        assert_true(is_snake(key->name));
        assert_non_null(dawn_scenario_section_named(key->section));
        assert_ptr_equal(dawn_scenario_key_named(key->section, key->name), key);
        size_t length = strlen(key->meaning);
        assert_true(length > 10 && key->meaning[length - 1] == '.');
        if (key->kind == DAWN_KIND_CHOICE)
            assert_true(key->size == sizeof(int) && key->words != NULL);
        else if (key->kind == DAWN_KIND_TEXT)
            assert_true(key->size > 2);
        else
            check_number_key(key);
    }
}

/* Two keys of one section that share bytes would overwrite each other. */
static void no_two_keys_share_a_field(void **state)
{
    (void)state;
    for (size_t i = 0; i < key_count; i++)
        for (size_t j = 0; j < i; j++)
            if (strcmp(keys[i].section, keys[j].section) == 0)
                assert_true(keys[i].offset >= keys[j].offset + keys[j].size ||
                            keys[j].offset >= keys[i].offset + keys[i].size);
}

static void sections_stand_together_and_in_order(void **state)
{
    (void)state;
    size_t count = 0;
    const struct dawn_scenario_section *sections = dawn_scenario_sections(&count);
    size_t at = 0;
    for (size_t i = 0; i < count; i++) {
        size_t before = at;
        while (at < key_count && strcmp(keys[at].section, sections[i].name) == 0)
            at++;
        assert_true(at > before);
    }
    assert_int_equal(at, key_count);
}

/* ---- every key can be set ---- */

static void path_of(const struct dawn_key *key, char *path, size_t size)
{
    const struct dawn_scenario_section *section = dawn_scenario_section_named(key->section);
    if (section->form == DAWN_SCENARIO_TOP)
        (void)snprintf(path, size, "%s", key->name);
    else if (section->form == DAWN_SCENARIO_LIST)
        (void)snprintf(path, size, "%s.1.%s", key->section, key->name);
    else if (section->form == DAWN_SCENARIO_SUBLIST)
        (void)snprintf(path, size, "walls.1.layers.1.%s", key->name);
    else
        (void)snprintf(path, size, "%s.%s", key->section, key->name);
}

static bool is_complained_of(const struct reading *r)
{
    for (size_t i = 0; i < r->problems.count; i++)
        if (strncmp(r->problems.items[i].file, "--set", 5) == 0)
            return true;
    return false;
}

/* Sets the key in a read scenario and shows that its own bytes changed and no others did. */
static void set_and_compare(const struct dawn_key *key, const char *value, struct reading *after)
{
    char override[200];
    char path[120];
    struct reading before;
    path_of(key, path, sizeof path);
    (void)snprintf(override, sizeof override, "%s=%s", path, value);
    read_with(&before, TINY_NURSERY, NULL);
    read_with(after, TINY_NURSERY, override);
    if (is_complained_of(after)) {
        print_problems(&after->problems);
        fail_msg("%s is refused", override);
    }
    struct dawn_scenario_spot spot = {dawn_scenario_section_named(key->section), 0, 0};
    size_t start =
        (size_t)((char *)dawn_scenario_at(&after->scenario, spot) - (char *)&after->scenario) +
        key->offset;
    const char *a = (const char *)&before.scenario;
    const char *b = (const char *)&after->scenario;
    for (size_t i = 0; i < offsetof(struct dawn_scenario, origins); i++)
        if ((i < start || i >= start + key->size) && a[i] != b[i])
            fail_msg("%s changes byte %zu, outside its field", override, i);
    put_away(&before);
}

static const void *field_of(const struct dawn_key *key, const struct reading *r)
{
    struct dawn_scenario_spot spot = {dawn_scenario_section_named(key->section), 0, 0};
    return (const char *)dawn_scenario_at_const(&r->scenario, spot) + key->offset;
}

static void try_number(const struct dawn_key *key)
{
    struct reading r;
    char value[64];
    double wanted = key->doubt_least + 0.25 * (key->doubt_most - key->doubt_least);
    if (key->kind == DAWN_KIND_COUNT)
        wanted = floor(wanted);
    (void)snprintf(value, sizeof value, "%.10g %s", wanted, key->unit);
    set_and_compare(key, value, &r);
    double field = 0;
    memcpy(&field, field_of(key, &r), sizeof field);
    assert_near(dawn_scenario_in_table_unit(key, field), wanted, 1e-8 * (1 + fabs(wanted)));
    put_away(&r);
}

static void try_choice(const struct dawn_key *key)
{
    char word[64];
    for (int n = 0; dawn_scenario_word(key->words, n, word, sizeof word); n++) {
        struct reading r;
        int field = -1;
        set_and_compare(key, word, &r);
        memcpy(&field, field_of(key, &r), sizeof field);
        assert_int_equal(field, n);
        put_away(&r);
    }
}

static void try_text(const struct dawn_key *key)
{
    char word[64] = "a b, c";
    struct reading r;
    if (key->words != NULL)
        assert_true(dawn_scenario_word(key->words, 1, word, sizeof word));
    set_and_compare(key, word, &r);
    assert_string_equal(field_of(key, &r), word);
    put_away(&r);
}

static void every_key_reaches_its_field_and_no_other(void **state)
{
    (void)state;
    for (size_t i = 0; i < key_count; i++) {
        if (keys[i].kind == DAWN_KIND_CHOICE)
            try_choice(&keys[i]);
        else if (keys[i].kind == DAWN_KIND_TEXT)
            try_text(&keys[i]);
        else
            try_number(&keys[i]);
    }
}

static void every_default_may_be_written(void **state)
{
    (void)state;
    for (size_t i = 0; i < key_count; i++) {
        struct reading r;
        if (keys[i].usual == NULL || keys[i].usual[0] == '\0')
            continue;
        set_and_compare(&keys[i], keys[i].usual, &r);
        put_away(&r);
    }
}

static void bounds_are_refused_just_outside(void **state)
{
    (void)state;
    for (size_t i = 0; i < key_count; i++) {
        const struct dawn_key *key = &keys[i];
        if (key->kind != DAWN_KIND_QUANTITY)
            continue;
        double step = 1e-3 * (key->most - key->least);
        double tries[2] = {key->least - step, key->most + step};
        for (int side = 0; side < 2; side++) {
            char path[120];
            char override[200];
            struct reading r;
            path_of(key, path, sizeof path);
            (void)snprintf(override, sizeof override, "%s=%.9f %s", path, tries[side], key->unit);
            read_with(&r, TINY_NURSERY, override);
            assert_true(is_complained_of(&r));
            assert_int_equal(r.status, DAWN_ERR_SCENARIO);
            put_away(&r);
        }
    }
}

static void defaults_are_what_the_table_says(void **state)
{
    (void)state;
    struct dawn_scenario s;
    assert_int_equal(dawn_scenario_usual(&s), DAWN_OK);
    assert_near(dawn_scenario_air_changes_per_h(&s), 1, 1e-12);
    assert_near(s.ground.heat_J_m3K, 2.3e6, 1e-6);
    assert_near(s.rock.stone_m, 0.05, 1e-12);
    assert_near(s.rock.segments, 8, 1e-12);
    assert_near(s.fan.on_C, 27, 1e-12);
    assert_near(s.fan.stop_margin_K, 2, 1e-12);
    assert_near(s.fan.sensor_lag_s, 300, 1e-9);
    assert_near(s.start.spin_up_s, 10 * 86400.0, 1e-9);
    assert_true(isnan(s.start.temperature_C) && isnan(s.site.latitude_deg));
    assert_true(isnan(s.rock.mass_kg) && isnan(s.rock.path_m));
    assert_false(s.rock.present || s.fan.present || s.bed.present || s.opening_count > 0);
    assert_int_equal(s.glazing_count + s.wall_count + s.barrels_count + s.crop_count, 0);
    assert_true(s.duct_count == 0 && isnan(s.fan.flow_m3_s) && isnan(s.fan.free_air_m3_s));
    assert_int_equal(s.weather.stamp, 0);
    assert_string_equal(s.weather.temperature_unit, "");
    assert_null(s.origins);
}

/* ---- units ---- */

struct unit_case {
    const char *override;
    const char *section, *key;
    double field;
};

/* Factors: NIST Special Publication 811 (2008), appendix B.8 (foot 0.3048 m, inch 25.4 mm, US
 * gallon 3.785412e-3 m3, cubic yard 0.764555 m3, cubic foot 0.02831685 m3, pound 0.45359237 kg,
 * short ton 907.18474 kg, Btu_IT/h 0.2930711 W, Btu/(h ft F) 1.730735 W/(m K), h ft2 F/Btu
 * 0.1761102 m2K/W, lb/ft3 16.01846 kg/m3, Btu/(lb F) 4186.8 J/(kg K)), from memory. */
static const struct unit_case UNIT_CASES[] = {
    {"house.length=20 ft", "house", "length", 6.096},
    {"house.length=20 ft 6 in", "house", "length", 6.2484},
    {"house.length=640 cm", "house", "length", 6.4},
    {"house.width=20'", "house", "width", 6.096},
    {"rock.stone_size=3 in", "rock", "stone_size", 0.0762},
    {"rock.stone_size=1 1/2 in", "rock", "stone_size", 0.0381},
    {"glazing.1.area=500 sq ft", "glazing", "area", 46.4515},
    {"glazing.1.area=60 m\xC2\xB2", "glazing", "area", 60},
    {"rock.volume=15 yd3", "rock", "volume", 11.468325},
    {"barrels.1.volume=55 gal", "barrels", "volume", 0.20819766},
    {"barrels.1.volume=0.2 m3", "barrels", "volume", 0.2},
    {"barrels.1.volume=7 ft3", "barrels", "volume", 0.19821795},
    {"rock.mass=20 short ton", "rock", "mass", 18143.6948},
    {"rock.mass=40000 lb", "rock", "mass", 18143.6948},
    {"rock.mass=17500 kg", "rock", "mass", 17500},
    {"fan.flow=600 cfm", "fan", "flow", 0.2831685},
    {"fan.flow=280 L/s", "fan", "flow", 0.28},
    {"fan.free_air=600 cfm", "fan", "free_air", 0.2831685},
    /* inch of water (39.2 F) 249.082 Pa, conventional 249.0889 Pa: half an inch of the second */
    {"fan.greatest_pressure=0.5 in wg", "fan", "greatest_pressure", 124.54445},
    {"ducts.1.diameter=12 in", "ducts", "diameter", 0.3048},
    {"covers.1.put_on_at=6:30 pm", "covers", "put_on_at", 66600},
    {"covers.1.after_sunset=-30 min", "covers", "after_sunset", -1800},
    {"fan.power=0.09 kW", "fan", "power", 90},
    {"house.heat=1000 Btu/h", "house", "heat", 293.0711},
    {"fan.on_at=80 F", "fan", "on_at", 26.6667},
    {"fan.on_at=300 K", "fan", "on_at", 26.85},
    {"fan.on_at=26,5 \xC2\xB0"
     "C",
     "fan", "on_at", 26.5},
    {"fan.start_margin=9 F", "fan", "start_margin", 5},
    {"house.air_changes=0.8 ACH", "house", "air_changes", 0.8},
    {"walls.1.layers.1.conductivity=0.075 Btu/(h ft F)", "walls.layers", "conductivity", 0.129805},
    {"walls.1.layers.1.density=30 lb/ft3", "walls.layers", "density", 480.5538},
    {"walls.1.layers.1.specific_heat=1.6 kJ/(kg K)", "walls.layers", "specific_heat", 1600},
    {"walls.1.layers.1.specific_heat=0.4 Btu/lbF", "walls.layers", "specific_heat", 1674.72},
    {"rock.insulation=10 ft2.F.h/Btu", "rock", "insulation", 1.761102},
    {"ground.heat_capacity=2400 kJ/m3K", "ground", "heat_capacity", 2.4e6},
    {"trays.depth=2 in", "trays", "depth", 0.0508},
    {"start.spin_up=2 weeks", "start", "spin_up", 14 * 86400.0},
    {"start.spin_up=120 h", "start", "spin_up", 5 * 86400.0},
    {"site.utc_offset=-05:00", "site", "utc_offset", -5},
    {"site.utc_offset=UTC+1", "site", "utc_offset", 1},
    {"site.latitude=33.5 S", "site", "latitude", -33.5},
    {"site.latitude=33.5 deg S", "site", "latitude", -33.5},
    {"site.longitude=73.5 W", "site", "longitude", -73.5},
    {"site.longitude=-73.5 deg", "site", "longitude", -73.5},
    {"bed.water_share=30 %", "bed", "water_share", 0.3},
    {"bed.water_share=0,3", "bed", "water_share", 0.3},
    {"glazing.1.azimuth=SSW", "glazing", "azimuth", 202.5},
    {"glazing.1.azimuth=south-east", "glazing", "azimuth", 135},
    {"glazing.1.azimuth=West", "glazing", "azimuth", 270},
};

static void every_unit_lands_in_si(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof UNIT_CASES / sizeof UNIT_CASES[0]; i++) {
        const struct unit_case *it = &UNIT_CASES[i];
        struct reading r;
        double field = 0;
        read_with(&r, TINY_NURSERY, it->override);
        if (is_complained_of(&r)) {
            print_problems(&r.problems);
            fail_msg("%s is refused", it->override);
        }
        memcpy(&field, field_of(dawn_scenario_key_named(it->section, it->key), &r), sizeof field);
        if (fabs(field - it->field) > 2e-6 * fabs(it->field))
            fail_msg("%s gives %.9g, not %.9g", it->override, field, it->field);
        put_away(&r);
    }
}

/* ---- glazing ---- */

/* One list of words in the table, one in physics: the same, in the same order. */
static void leakage_words_are_the_classes(void **state)
{
    (void)state;
    size_t count = 0;
    char word[32];
    const struct dawn_airflow_class *classes = dawn_airflow_classes(&count);
    const struct dawn_key *key = dawn_scenario_key_named("house", "leakage");
    assert_non_null(key);
    for (size_t i = 0; i < count; ++i) {
        assert_true(dawn_scenario_word(key->words, (int)i, word, sizeof word));
        assert_string_equal(word, classes[i].word);
        assert_non_null(strstr(key->meaning, word));
    }
    assert_false(dawn_scenario_word(key->words, (int)count, word, sizeof word));
}

static void glazing_words_are_the_types(void **state)
{
    (void)state;
    size_t count = 0;
    const struct dawn_glazing_type *types = dawn_scenario_glazing_types(&count);
    const char *words = dawn_scenario_key_named("glazing", "type")->words;
    char word[64];
    for (size_t i = 0; i < count; i++) {
        assert_true(dawn_scenario_word(words, (int)i, word, sizeof word));
        assert_string_equal(word, types[i].word);
        assert_true((types[i].skins > 1) == (types[i].gap_resistance_m2K_W > 0));
        assert_true(types[i].longwave_transmittance + types[i].emissivity <= 1);
        assert_true(types[i].solar_transmittance > 0.5 && types[i].solar_transmittance < 0.95);
        assert_true(types[i].heat_J_m2K > 0 && strlen(types[i].source) > 5);
    }
    assert_false(dawn_scenario_word(words, (int)count, word, sizeof word));
}

/* The table of covers lies in physics, its words here: they must stay side by side. */
static void cover_words_are_the_sheets(void **state)
{
    (void)state;
    size_t count = 0;
    const struct dawn_cover_sheet *sheets = dawn_cover_table(&count);
    const char *words = dawn_scenario_key_named("covers", "sheet")->words;
    char word[64];
    for (size_t i = 0; i < count; i++) {
        assert_true(dawn_scenario_word(words, (int)i, word, sizeof word));
        assert_string_equal(word, sheets[i].word);
    }
    assert_false(dawn_scenario_word(words, (int)count, word, sizeof word));
}

static double gap_of(const char *word)
{
    size_t count = 0;
    const struct dawn_glazing_type *types = dawn_scenario_glazing_types(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(types[i].word, word) == 0)
            return types[i].gap_resistance_m2K_W;
    fail_msg("no glazing '%s'", word);
    return NAN;
}

/* Heat transmission printed for whole sheets, Btu/(h ft2 F), extension.org "Glazing materials":
 * single glass 1.13, twin-wall 8 mm 0.58, triple-wall 16 mm 0.38 to 0.42; sealed double glass 3.0
 * to 3.7 W/(m2 K), ASAE EP406, from memory. One Btu/(h ft2 F) is 5.678263 W/(m2 K) (NIST SP 811).
 */
static void gaps_give_back_the_printed_heat_loss(void **state)
{
    (void)state;
    const double btu = 5.678263;
    double films = 1 / (1.13 * btu);
    assert_near(1 / (films + gap_of("twinwall-8mm")), 0.58 * btu, 0.05 * 0.58 * btu);
    double triple = 1 / (films + 2 * gap_of("triplewall-16mm"));
    assert_true(triple > 0.38 * btu && triple < 0.42 * btu);
    double glass = 1 / (films + gap_of("double-glass"));
    assert_true(glass > 3.0 && glass < 3.7);
}

/* ---- nearest ---- */

static void finds_the_key_that_was_meant(void **state)
{
    (void)state;
    assert_string_equal(dawn_scenario_nearest_key("site", "lattitude")->name, "latitude");
    assert_string_equal(dawn_scenario_nearest_key("fan", "onat")->name, "on_at");
    assert_string_equal(dawn_scenario_nearest_key("rock", "Stone-Size")->name, "stone_size");
    assert_null(dawn_scenario_nearest_key("fan", "temperature"));
    assert_null(dawn_scenario_nearest_key("nowhere", "area"));
}

/* ---- what was understood ---- */

struct heard {
    size_t count, given;
    bool key[256];
    bool line_of_area, leaks_from_word, rock_from_mass, absent_is_none;
};

static void hear(const struct dawn_understood *line, void *user)
{
    struct heard *heard = user;
    const char *dot = strrchr(line->key, '.');
    const char *name = dot == NULL ? line->key : dot + 1;
    heard->count++;
    heard->given += line->given;
    assert_non_null(line->meaning);
    assert_true(line->value[0] != '\0' && strstr(line->value, "nan") == NULL);
    assert_true(line->given || line->line == 0);
    for (size_t i = 0; i < key_count; i++) {
        size_t length = strcspn(line->key, "[.");
        bool layer = strstr(line->key, ".layers[") != NULL;
        const char *section = layer ? "walls.layers" : keys[i].section;
        if (strcmp(keys[i].name, name) == 0 && strcmp(keys[i].section, section) == 0 &&
            (layer || (dot == NULL && section[0] == '\0') ||
             (strlen(section) == length && strncmp(line->key, section, length) == 0)))
            heard->key[i] = true;
    }
    if (strcmp(line->key, "glazing[end].area") == 0)
        heard->line_of_area = line->given && line->line == 20 && strcmp(line->value, "15 m2") == 0;
    if (strcmp(line->key, "house.air_changes") == 0)
        heard->leaks_from_word = strcmp(line->value, "1 /h (from leakage)") == 0;
    if (strcmp(line->key, "rock.volume") == 0)
        heard->rock_from_mass = !line->given && strcmp(line->value, "11.7111 m3 (from mass)") == 0;
    if (strcmp(line->key, "rock") == 0)
        heard->absent_is_none = strcmp(line->value, "none") == 0;
}

static void says_what_was_understood_of_every_key(void **state)
{
    (void)state;
    struct heard heard = {0};
    struct reading r;
    assert_true(key_count < sizeof heard.key / sizeof heard.key[0]);
    read_with(&r, TINY_NURSERY, NULL);
    dawn_scenario_understood(&r.scenario, hear, &heard);
    for (size_t i = 0; i < key_count; i++)
        if (!heard.key[i])
            fail_msg("nothing is said of %s.%s", keys[i].section, keys[i].name);
    assert_true(heard.line_of_area && heard.leaks_from_word && heard.rock_from_mass &&
                !heard.absent_is_none);
    /* One line in the tiny nursery for each given value: 79 lines less 22 that are headings. */
    assert_int_equal(heard.given, 79 - 22);
    put_away(&r);
}

static void says_of_absent_sections_that_there_are_none(void **state)
{
    (void)state;
    struct heard heard = {0};
    struct dawn_scenario s;
    (void)dawn_scenario_usual(&s);
    dawn_scenario_understood(&s, hear, &heard);
    assert_true(heard.absent_is_none);
    assert_int_equal(heard.given, 0);
}

/* ---- the shipped scenarios ---- */

static void shipped_scenarios_read_without_a_word(void **state)
{
    (void)state;
    static const char *const names[] = {"alder-hollow", "alder-hollow-no-storage",
                                        "lean-to-with-barrels", "film-tunnel",
                                        "tunnel-under-fleece"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[128];
        struct reading r = {0};
        (void)snprintf(path, sizeof path, "scenarios/%s.yaml", names[i]);
        r.status = dawn_scenario_read(&r.scenario, path, NULL, 0, &r.problems);
        print_problems(&r.problems);
        assert_int_equal(r.status, DAWN_OK);
        assert_int_equal(r.problems.count, 0);
        assert_string_equal(r.scenario.path, path);
        put_away(&r);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_key_is_sane),
        cmocka_unit_test(no_two_keys_share_a_field),
        cmocka_unit_test(sections_stand_together_and_in_order),
        cmocka_unit_test(every_key_reaches_its_field_and_no_other),
        cmocka_unit_test(every_default_may_be_written),
        cmocka_unit_test(bounds_are_refused_just_outside),
        cmocka_unit_test(defaults_are_what_the_table_says),
        cmocka_unit_test(every_unit_lands_in_si),
        cmocka_unit_test(leakage_words_are_the_classes),
        cmocka_unit_test(glazing_words_are_the_types),
        cmocka_unit_test(cover_words_are_the_sheets),
        cmocka_unit_test(gaps_give_back_the_printed_heat_loss),
        cmocka_unit_test(finds_the_key_that_was_meant),
        cmocka_unit_test(says_what_was_understood_of_every_key),
        cmocka_unit_test(says_of_absent_sections_that_there_are_none),
        cmocka_unit_test(shipped_scenarios_read_without_a_word),
    };
    return cmocka_run_group_tests(tests, find_keys, NULL);
}
