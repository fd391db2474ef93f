/* Scenario files: what is read, and what every mistake says. */
#include "tiny_nursery.h"

/* ---- what is read ---- */

static void reads_every_section(void **state)
{
    (void)state;
    struct reading r;
    read_with(&r, TINY_NURSERY, NULL);
    print_problems(&r.problems);
    assert_int_equal(r.status, DAWN_OK);
    assert_int_equal(r.problems.count, 0);
    const struct dawn_scenario *s = &r.scenario;
    assert_string_equal(s->path, "tiny.yaml");
    assert_string_equal(s->name, "Tiny");
    assert_near(s->site.latitude_deg, 45, 1e-12);
    assert_near(s->site.utc_offset_h, 1, 1e-12);
    assert_true(s->opening_count == 1 && s->bed.present && s->rock.present && s->fan.present &&
                s->trays.present);
    assert_int_equal(s->glazing_count, 2);
    assert_string_equal(s->glazing[1].name, "end");
    assert_near(s->glazing[0].azimuth_deg, 180, 1e-12);
    assert_near(s->glazing[1].azimuth_deg, 90, 1e-12);
    assert_int_equal(s->wall_count, 1);
    assert_int_equal(s->walls[0].layer_count, 1);
    assert_near(s->walls[0].layers[0].thickness_m, 0.04, 1e-12);
    assert_near(s->rock.mass_kg, 18000, 1e-9);
    assert_near(s->fan.flow_m3_s, 1000.0 / 3600, 1e-12);
    assert_near(s->barrels[0].volume_m3, 0.2, 1e-12);
    assert_string_equal(s->barrels[0].name, "barrels 1");
    assert_near(s->start.spin_up_s, 5 * 86400.0, 1e-9);
    assert_string_equal(s->weather.file, "w.csv");
    assert_true(isnan(s->house.floor_area_m2));
    put_away(&r);
}

static void optional_sections_are_absent_unless_written(void **state)
{
    (void)state;
    char *text = spoilt("rock:\n  mass: 18 t\nfan:\n  flow: 1000 m3/h\n  power: 90 W\n", "");
    struct reading r;
    read_with(&r, text, NULL);
    assert_int_equal(r.status, DAWN_OK);
    assert_false(r.scenario.rock.present);
    assert_false(r.scenario.fan.present);
    put_away(&r);
    free(text);
}

static void takes_other_line_ends_and_a_byte_order_mark(void **state)
{
    (void)state;
    char text[2 * sizeof TINY_NURSERY + 3] = "\xEF\xBB\xBF";
    size_t size = 3;
    for (const char *c = TINY_NURSERY; *c != '\0'; c++) {
        if (*c == '\n')
            text[size++] = '\r';
        text[size++] = *c;
    }
    struct reading r;
    read_bytes(&r, text, size);
    assert_int_equal(r.status, DAWN_OK);
    assert_near(r.scenario.start.spin_up_s, 5 * 86400.0, 1e-9);
    put_away(&r);
}

static void decimal_comma_is_a_decimal_mark(void **state)
{
    (void)state;
    char *text = spoilt("height: 2.5 m", "height: 2,5 m");
    struct reading r;
    read_with(&r, text, NULL);
    assert_int_equal(r.status, DAWN_OK);
    assert_near(r.scenario.house.height_m, 2.5, 1e-12);
    put_away(&r);
    free(text);
}

/* ---- mistakes ---- */

static const struct mistake MISTAKES[] = {
    /* keys */
    {"latitude", "lattitude", DAWN_ERROR, 4, 3, "unknown key 'lattitude' in site|'latitude'"},
    {"  area: 20 m2", "  aera: 20 m2", DAWN_ERROR, 34, 3, "unknown key 'aera'|'area'"},
    {"  power: 90 W", "  power: 90 W\n  depth: 3 m", DAWN_ERROR, 40, 3,
     "unknown key 'depth' in fan|belongs in: bed, trays"},
    {"  power: 90 W", "  power: 90 W\n  colour: red", DAWN_ERROR, 40, 3,
     "unknown key 'colour' in fan|keys known here: flow power"},
    {"name: Tiny", "latitude: 45 N", DAWN_ERROR, 2, 1, "'latitude'|belongs in: site"},
    {"house:\n", "hosue:\n", DAWN_ERROR, 7, 1, "unknown section or key 'hosue'|'house'"},
    {"    layers:", "    layer:", DAWN_ERROR, 27, 5, "unknown key 'layer'|'layers'"},
    {"  width: 6 m", "  width: 6 m\n  openings:\n    area: 1 m2", DAWN_ERROR, 10, 3,
     "unknown key 'openings' in house|left edge"},
    {"  width: 6 m", "  width: 6 m\n  width: 7 m", DAWN_ERROR, 10, 3,
     "'width' stands here a second time|line 9"},
    {"start:\n", "bed:\n", DAWN_ERROR, 52, 1, "section 'bed'|second time|line 33"},
    {"  longitude: 7 E\n", "", DAWN_ERROR, 3, 1, "'longitude' is missing in site|west is W"},
    {"    type: glass\n", "", DAWN_ERROR, 14, 5, "'type' is missing in glazing 'south roof'"},
    {"    volume: 200 L\n", "", DAWN_ERROR, 41, 5, "'volume' is missing in group of barrels"},
    {"        density: 500 kg/m3\n", "", DAWN_ERROR, 28, 9,
     "'density' is missing in layer 'wood' of wall 'north'"},
    {"dawnlow: 1\n", "", DAWN_ERROR, 0, 0, "'dawnlow' is missing|form"},
    {"dawnlow: 1", "dawnlow: 2", DAWN_ERROR, 1, 10, "form 1|'2'|newer"},
    /* numbers and units */
    {"latitude: 45 N", "latitude: 45", DAWN_ERROR, 4, 13, "unit is missing|'45 N'|'45 deg'"},
    {"length: 10 m", "length: 10", DAWN_ERROR, 8, 11, "unit is missing behind '10'|ft|'10 m'"},
    {"length: 10 m", "length: 10 mmm", DAWN_ERROR, 8, 11, "unknown unit 'mmm'|a length|mm"},
    {"mass: 18 t", "mass: 18 ft", DAWN_ERROR, 36, 9, "ft is a length; a mass is needed|kg|lb"},
    {"mass: 18 t", "mass: 18 ton", DAWN_ERROR, 36, 9, "unknown unit 'ton'|short"},
    {"power: 90 W", "power: ninety", DAWN_ERROR, 39, 10, "'ninety' is not a number|W, kW"},
    {"power: 90 W", "power:", DAWN_ERROR, 39, 3, "nothing stands behind 'power:'"},
    {"power: 90 W", "power: 90 W in all", DAWN_ERROR, 39, 10, "behind the unit|#"},
    {"power: 90 W", "power: 1,500 W", DAWN_ERROR, 39, 10, "comma|1500"},
    {"power: 90 W", "power: nan W", DAWN_ERROR, 39, 10, "not a number"},
    {"power: 90 W", "power: 0x20 W", DAWN_ERROR, 39, 10, "power"},
    {"count: 8", "count: 8.5", DAWN_ERROR, 41, 12, "'8.5' is not a whole number"},
    {"count: 8", "count: 8 %", DAWN_ERROR, 41, 12, "count takes no unit"},
    {"count: 8", "count: eight", DAWN_ERROR, 41, 12, "'eight' is not a number"},
    {"azimuth: S\n", "azimuth: SSX\n", DAWN_ERROR, 17, 14, "'SSX'|did you mean 'SSE'"},
    {"azimuth: S\n", "azimuth: -90 deg\n", DAWN_ERROR, 17, 14, "0 to 360 deg|west 270"},
    {"area: 20 m2", "area: 20 m2\n  water_share: 30", DAWN_ERROR, 35, 16, "impossible|30 %"},
    {"area: 20 m2", "area: 20 m2\n  water_share: 0.3 m", DAWN_ERROR, 35, 16,
     "m is a length; water_share takes no unit"},
    /* bounds, in the user's own unit */
    {"latitude: 45 N", "latitude: 95 N", DAWN_ERROR, 4, 13, "95 N|impossible|-90 to 90 deg"},
    {"latitude: 45 N", "latitude: 70 N", DAWN_WARNING, 4, 13, "70 N is unusual|-66 to 66 deg"},
    {"mass: 18 t", "mass: 18 t\n  stone_size: 5 ft", DAWN_ERROR, 37, 15,
     "5 ft|0.00984252 to 1.31234 ft"},
    {"mass: 18 t", "mass: 18 t\n  stone_size: 8 in", DAWN_WARNING, 37, 15,
     "8 in is unusual|0.590551 to 5.90551 in"},
    {"opens_at: 30 C", "opens_at: 250 F", DAWN_ERROR, 60, 15, "14 to 140 F"},
    {"area: 20 m2", "area: 20 m2\n  water_share: 90 %", DAWN_ERROR, 35, 16, "0 to 80 %"},
    {"flow: 1000 m3/h", "flow: 1000 m3/s", DAWN_ERROR, 38, 9, "55.5556 m3/s"},
    {"height: 2.5 m", "height: 7 m", DAWN_WARNING, 10, 11, "7 m is unusual|1.2 to 5 m"},
    /* words and texts */
    {"type: glass\n", "type: glas\n", DAWN_ERROR, 18, 11, "unknown type 'glas'|'glass'|film"},
    {"power: 90 W", "power: 90 W\n  senses: roof", DAWN_ERROR, 40, 11, "'roof'|air, trays, bed"},
    {"file: w.csv", "temperature_unit: R", DAWN_ERROR, 51, 21, "'R'|C, F, K"},
    {"name: Tiny",
     "name: A name that is a good deal longer than any name of any nursery ought ever to be",
     DAWN_ERROR, 2, 7, "name is too long|63"},
    {"name: north", "name: south roof", DAWN_NOTE, 0, 0, ""}, /* two lists may use one name */
    {"name: end", "name: South Roof", DAWN_ERROR, 19, 11, "two items of 'glazing'|South Roof"},
    /* shape */
    {"site:\n", "site: here\nplace:\n", DAWN_ERROR, 3, 7, "'site' is a section|indented"},
    {"bed:\n  area: 20 m2", "bed:\n  - area: 20 m2", DAWN_ERROR, 34, 3, "not a list|'-'"},
    {"crops:\n  - name: tomato\n    damage_below: 0 C", "crops:\n  name: tomato", DAWN_ERROR, 46, 3,
     "'crops' is a list|- "},
    {"crops:\n  - name: tomato\n    damage_below: 0 C", "crops:\n  - tomato", DAWN_ERROR, 46, 5,
     "a list item consists of keys"},
    {"crops:\n  - name: tomato\n    damage_below: 0 C", "crops: tomato", DAWN_ERROR, 45, 8,
     "'crops' is a list and takes no value"},
    {"crops:\n  - name: tomato\n    damage_below: 0 C", "crops:", DAWN_WARNING, 45, 1,
     "'crops' is written but holds no items"},
    {"power: 90 W", "power:\n    - 90 W", DAWN_ERROR, 39, 3, "'power' takes one value|a list"},
    {"power: 90 W", "power:\n    watts: 90", DAWN_ERROR, 39, 3, "'power' takes one value|keys"},
    /* what the YAML subset leaves out */
    {"  power: 90 W", "\tpower: 90 W", DAWN_ERROR, 39, 1, "indent with blanks, not tabs"},
    {"power: 90 W", "power: &p 90 W", DAWN_ERROR, 39, 10, "anchors"},
    {"power: 90 W", "power: *p", DAWN_ERROR, 39, 10, "references"},
    {"power: 90 W", "power: !!str 90 W", DAWN_ERROR, 39, 10, "type tags"},
    {"power: 90 W", "power: [90 W]", DAWN_ERROR, 39, 10, "brackets"},
    {"bed:\n  area: 20 m2", "bed: {area: 20 m2}", DAWN_ERROR, 33, 6, "braces"},
    {"name: Tiny", "name: |\n  Tiny", DAWN_ERROR, 2, 7, "several lines"},
    {"name: Tiny", "name: Tiny\n  house", DAWN_ERROR, 2, 7, "next line"},
    {"start:\n", "---\nstart:\n", DAWN_ERROR, 52, 1, "second document"},
    {"name: Tiny", "name: Tiny: small", DAWN_ERROR, 2, 11, "second ': '|quotes"},
    {"name: Tiny", "name: 'Tiny", DAWN_ERROR, 2, 7, "quotation mark"},
    {"  width: 6 m", "   width: 6 m", DAWN_ERROR, 9, 9, "indented"},
    {"  width: 6 m", " width: 6 m", DAWN_ERROR, 9, 2, "not indented like"},
    {"  width: 6 m", "  width 6 m", DAWN_ERROR, 9, 3, "neither 'key: value'"},
    {"name: Tiny", "name: @Tiny", DAWN_ERROR, 2, 7, "cannot start with this character"},
    {"name: Tiny", "? name", DAWN_ERROR, 2, 3, "nothing stands behind"},
};

static void every_mistake_says_what_and_where(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof MISTAKES / sizeof MISTAKES[0]; i++)
        try_mistake(&MISTAKES[i]);
}

/* One slip, one message: a mistyped key is not also missed, a refused value breaks no rule. */
static void one_slip_gives_one_message(void **state)
{
    (void)state;
    static const char *const slips[][2] = {
        {"  latitude", "  lattitude"}, {"mass: 18 t", "mass: 18 ft"}, {"power: 90 W", "power: x"},
        {"area: 20 m2", "area: 20"},   {"house:\n", "hosue:\n"},      {"rock:\n", "rok:\n"},
        {"type: glass\n", "type: g\n"}};
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        char *text = spoilt(slips[i][0], slips[i][1]);
        struct reading r;
        read_with(&r, text, NULL);
        if (r.problems.count != 1)
            print_problems(&r.problems);
        assert_int_equal(r.problems.count, 1);
        put_away(&r);
        free(text);
    }
}

static void problems_come_all_at_once_and_sorted(void **state)
{
    (void)state;
    static const char text[] = "dawnlow: 1\n"
                               "fan:\n"
                               "  flow: 3\n"
                               "glazing:\n"
                               "  - area: 3 kg\n"
                               "site:\n"
                               "  utc_offset: x\n"
                               "  latitude: 45\n";
    struct reading r;
    read_with(&r, text, NULL);
    assert_int_equal(r.status, DAWN_ERR_SCENARIO);
    assert_true(r.problems.count >= 8);
    for (size_t i = 1; i < r.problems.count; i++)
        assert_true(r.problems.items[i].line >= r.problems.items[i - 1].line);
    assert_true(is_said(&r.problems, DAWN_ERROR, 0, 0, "section 'house' is missing|length, width"));
    assert_true(is_said(&r.problems, DAWN_ERROR, 3, 9, "unit is missing"));
    assert_true(is_said(&r.problems, DAWN_ERROR, 2, 1, "'power' is missing in fan"));
    assert_true(is_said(&r.problems, DAWN_ERROR, 5, 11, "kg is a mass"));
    assert_true(is_said(&r.problems, DAWN_ERROR, 7, 15, "'x' is not a number"));
    put_away(&r);
}

static void a_problem_brings_its_line(void **state)
{
    (void)state;
    char *text = spoilt("power: 90 W", "power: 90   # watts");
    struct reading r;
    read_with(&r, text, NULL);
    assert_int_equal(r.problems.count, 1);
    assert_string_equal(r.problems.items[0].file, "tiny.yaml");
    assert_string_equal(r.problems.items[0].source_line, "  power: 90   # watts");
    put_away(&r);
    free(text);
}

static void expect_only(const char *text, size_t size, int line, int column, const char *words)
{
    struct reading r;
    read_bytes(&r, text, size);
    if (r.problems.count != 1 || !is_said(&r.problems, DAWN_ERROR, line, column, words)) {
        print_problems(&r.problems);
        fail_msg("expected only '%s'", words);
    }
    assert_int_equal(r.status, DAWN_ERR_SCENARIO);
    put_away(&r);
}

static void refuses_what_is_no_scenario(void **state)
{
    (void)state;
    expect_only("", 0, 0, 0, "says nothing|empty");
    expect_only("# only a remark\n", 16, 0, 0, "says nothing");
    expect_only("just words", 10, 1, 1, "'key: value'");
    expect_only("- a\n- b\n", 8, 1, 1, "'key: value'");
    expect_only("dawnlow: 1\nname: \x01\n", 19, 2, 7, "not a text file");
    expect_only("dawnlow: 1\nname: a\0b\n", 21, 2, 8, "not a text file");
    expect_only("name: B\xE4rbel\n", 14, 1, 8, "not UTF-8");
    expect_only("name: \xC0\xAF\n", 9, 1, 7, "not UTF-8");
    expect_only("name: a\xE2\x80\xA8 b\n", 13, 1, 8, "invisible character");
    expect_only("\xFF\xFE"
                "d\0a\0",
                6, 0, 0, "UTF-16");
}

static void refuses_files_of_more_than_a_megabyte(void **state)
{
    (void)state;
    size_t size = ((size_t)1 << 20) + 1;
    char *text = malloc(size);
    assert_non_null(text);
    memset(text, '#', size);
    expect_only(text, size, 0, 0, "larger than 1 MB");
    free(text);
}

static void refuses_sections_in_sections_without_end(void **state)
{
    (void)state;
    static const char text[] = "a:\n b:\n  c:\n   d:\n    e:\n     f:\n      g:\n       h:\n"
                               "        i: 1\n";
    struct reading r;
    read_with(&r, text, NULL);
    assert_true(is_said(&r.problems, DAWN_ERROR, 9, 9, "deeper than any scenario"));
    put_away(&r);
}

static void stops_at_a_hundred_problems(void **state)
{
    (void)state;
    enum { LINES = 500 };
    char text[LINES * 16] = "dawnlow: 1\n";
    size_t used = strlen(text);
    for (int i = 0; i < LINES; i++)
        used += (size_t)snprintf(text + used, sizeof text - used, "key%04d: 1\n", i);
    struct reading r;
    read_with(&r, text, NULL);
    assert_int_equal(r.status, DAWN_ERR_SCENARIO);
    assert_int_equal(r.problems.count, 100);
    assert_true(r.problems.errors >= LINES);
    put_away(&r);
}

static void refuses_one_item_too_many(void **state)
{
    (void)state;
    char text[4096] = "crops:\n";
    size_t used = strlen(text);
    for (int i = 0; i < DAWN_CROPS_MOST + 2; i++)
        used += (size_t)snprintf(text + used, sizeof text - used,
                                 "  - name: crop %d\n    damage_below: 0 C\n", i);
    char *whole = spoilt("crops:\n  - name: tomato\n    damage_below: 0 C\n", text);
    struct reading r;
    read_with(&r, whole, NULL);
    assert_int_equal(r.problems.count, 1);
    assert_true(is_said(&r.problems, DAWN_ERROR, 45 + 2 * DAWN_CROPS_MOST + 1, 5,
                        "too many items|12 are the most"));
    assert_int_equal(r.scenario.crop_count, DAWN_CROPS_MOST);
    put_away(&r);
    free(whole);
}

static void names_the_reason_a_file_cannot_be_opened(void **state)
{
    (void)state;
    struct dawn_scenario scenario;
    struct dawn_problems problems = {0};
    assert_int_equal(dawn_scenario_read(&scenario, "no/such/file.yaml", NULL, 0, &problems),
                     DAWN_ERR_IO);
    assert_true(is_said(&problems, DAWN_ERROR, 0, 0, "cannot be opened|no such file"));
    dawn_scenario_release(&scenario);
    dawn_problems_release(&problems);
    assert_int_equal(dawn_scenario_read(&scenario, ".", NULL, 0, &problems), DAWN_ERR_IO);
    assert_true(is_said(&problems, DAWN_ERROR, 0, 0, "folder"));
    dawn_scenario_release(&scenario);
    dawn_problems_release(&problems);
}

/* ---- --set ---- */

static void overrides_reach_every_kind_of_place(void **state)
{
    (void)state;
    static const char *const sets[] = {"fan.on_at = 25 C",
                                       "glazing.2.area=18 m2",
                                       "glazing.south roof.slope=40 deg",
                                       "walls.1.layers.1.thickness=60 mm",
                                       "walls.north.layers.wood.density=450 kg/m3",
                                       "name=Other",
                                       "house.floor_area=58 m2"};
    struct dawn_scenario s;
    struct dawn_problems problems = {0};
    enum dawn_status status = dawn_scenario_parse(&s, "t", TINY_NURSERY, strlen(TINY_NURSERY), sets,
                                                  sizeof sets / sizeof sets[0], &problems);
    print_problems(&problems);
    assert_int_equal(status, DAWN_OK);
    assert_near(s.fan.on_C, 25, 1e-12);
    assert_near(s.glazing[1].area_m2, 18, 1e-12);
    assert_near(s.glazing[0].slope_deg, 40, 1e-12);
    assert_near(s.walls[0].layers[0].thickness_m, 0.06, 1e-12);
    assert_near(s.walls[0].layers[0].density_kg_m3, 450, 1e-12);
    assert_string_equal(s.name, "Other");
    assert_near(s.house.floor_area_m2, 58, 1e-12);
    dawn_scenario_release(&s);
    dawn_problems_release(&problems);
}

static void overrides_are_checked_like_the_file(void **state)
{
    (void)state;
    static const char *const slips[][2] = {
        {"fan.on_at=25", "unit is missing"},
        {"fan.onat=25 C", "unknown key 'onat'|'on_at'"},
        {"fn.on_at=25 C", "unknown section 'fn'|'fan'"},
        {"fan.1.on_at=25 C", "not a list"},
        {"fan", "there is no '='"},
        {"rock=4", "'rock' is a section|write rock.KEY=value"},
        {"glazing=4", "'glazing' is a section|write glazing.1.KEY=value"},
        {"glazing.area=3 m2", "is a list"},
        {"glazing.3.area=3 m2", "there is no glazing '3'|2 in the list"},
        {"glazing.0.area=3 m2", "there is no glazing '0'"},
        {"glazing.x.area=3 m2", "there is no glazing 'x'"},
        {"walls.1.layers.9.density=3 kg/m3", "there is no layer '9'"},
        {"fan.off_at=30 C", "off_at 30 C must be at least 0.5 K below"},
        {"rock.mass=", "nothing stands behind 'mass:'"},
    };
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        struct reading r;
        read_with(&r, TINY_NURSERY, slips[i][0]);
        assert_int_equal(r.status, DAWN_ERR_SCENARIO);
        bool found = false;
        for (size_t j = 0; j < r.problems.count; j++)
            found = found || says(&r.problems.items[j], slips[i][1]);
        if (!found) {
            print_problems(&r.problems);
            fail_msg("%s should say '%s'", slips[i][0], slips[i][1]);
        }
        put_away(&r);
    }
}

static void an_override_mends_what_the_file_lacks(void **state)
{
    (void)state;
    char *text = spoilt("  power: 90 W\n", "");
    struct reading r;
    read_with(&r, text, "fan.power=90 W");
    assert_int_equal(r.status, DAWN_OK);
    assert_near(r.scenario.fan.power_W, 90, 1e-12);
    put_away(&r);
    free(text);
}

static void setting_a_key_brings_its_section(void **state)
{
    (void)state;
    char *text = spoilt("moisture:\n  film: 0.2 mm\n", "");
    struct reading r;
    read_with(&r, text, "moisture.film=0.1 mm");
    assert_int_equal(r.status, DAWN_OK);
    assert_true(r.scenario.moisture.present);
    assert_near(r.scenario.moisture.floor_wet, 0.1, 1e-12);
    put_away(&r);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_every_section),
        cmocka_unit_test(optional_sections_are_absent_unless_written),
        cmocka_unit_test(takes_other_line_ends_and_a_byte_order_mark),
        cmocka_unit_test(decimal_comma_is_a_decimal_mark),
        cmocka_unit_test(every_mistake_says_what_and_where),
        cmocka_unit_test(one_slip_gives_one_message),
        cmocka_unit_test(problems_come_all_at_once_and_sorted),
        cmocka_unit_test(a_problem_brings_its_line),
        cmocka_unit_test(refuses_what_is_no_scenario),
        cmocka_unit_test(refuses_files_of_more_than_a_megabyte),
        cmocka_unit_test(refuses_sections_in_sections_without_end),
        cmocka_unit_test(stops_at_a_hundred_problems),
        cmocka_unit_test(refuses_one_item_too_many),
        cmocka_unit_test(names_the_reason_a_file_cannot_be_opened),
        cmocka_unit_test(overrides_reach_every_kind_of_place),
        cmocka_unit_test(overrides_are_checked_like_the_file),
        cmocka_unit_test(an_override_mends_what_the_file_lacks),
        cmocka_unit_test(setting_a_key_brings_its_section),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
