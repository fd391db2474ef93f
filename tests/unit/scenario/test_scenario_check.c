/* Rules across keys: contradictions are refused, odd combinations are warned of. */
#include "tiny_nursery.h"

static const struct mistake RULES[] = {
    /* fan */
    {"power: 90 W", "power: 90 W\n  on_at: 26 C\n  off_at: 25.8 C", DAWN_ERROR, 41, 11,
     "off_at 25.8 C|0.5 K below on_at 26 C"},
    {"power: 90 W", "power: 90 W\n  on_at: 26 C\n  off_at: 25.5 C", DAWN_NOTE, 0, 0, ""},
    {"power: 90 W", "power: 90 W\n  on_at: 80 F\n  off_at: 79 F", DAWN_NOTE, 0, 0, ""},
    {"power: 90 W", "power: 90 W\n  stop_margin: 6 K", DAWN_ERROR, 40, 16,
     "stop_margin 6 K must be smaller than start_margin 5 K"},
    {"power: 90 W", "power: 900 W", DAWN_WARNING, 39, 10, "900 W for 1000 m3/h is unusual"},
    {"rock:\n  mass: 18 t\n", "", DAWN_ERROR, 35, 1, "no section 'rock'"},
    {"trays:\n  area: 15 m2\n", "", DAWN_NOTE, 0, 0, ""},
    /* the fan's curve */
    {"flow: 1000 m3/h", "free_air: 1800 m3/h\n  greatest_pressure: 120 Pa", DAWN_NOTE, 0, 0, ""},
    {"flow: 1000 m3/h", "free_air: 1060 cfm\n  greatest_pressure: 0.5 in wg", DAWN_NOTE, 0, 0, ""},
    {"flow: 1000 m3/h",
     "free_air: 1800 m3/h\n  greatest_pressure: 120 Pa\n  middle_flow: 900 m3/h\n"
     "  middle_pressure: 80 Pa",
     DAWN_NOTE, 0, 0, ""},
    {"flow: 1000 m3/h", "flow: 1000 m3/h\n  free_air: 1800 m3/h\n  greatest_pressure: 120 Pa",
     DAWN_ERROR, 38, 9, "both a flow and a curve|drop 'flow'|drop free_air and greatest_pressure"},
    {"  flow: 1000 m3/h\n", "", DAWN_ERROR, 37, 1,
     "needs its flow, or free_air and greatest_pressure|in wg"},
    {"flow: 1000 m3/h", "flow: from curve", DAWN_ERROR, 37, 1, "needs its flow, or free_air"},
    {"flow: 1000 m3/h", "free_air: 1800 m3/h", DAWN_ERROR, 38, 13,
     "free_air and greatest_pressure belong together; greatest_pressure is missing|both its ends"},
    {"flow: 1000 m3/h", "greatest_pressure: 120 Pa", DAWN_ERROR, 38, 22,
     "belong together; free_air is missing"},
    {"flow: 1000 m3/h", "free_air: 1800 m3/h\n  greatest_pressure: 120 Pa\n  middle_flow: 900 m3/h",
     DAWN_ERROR, 40, 16,
     "middle_flow and middle_pressure belong together; middle_pressure is missing"},
    {"flow: 1000 m3/h",
     "free_air: 1800 m3/h\n  greatest_pressure: 120 Pa\n  middle_pressure: 80 Pa", DAWN_ERROR, 40,
     20, "middle_flow is missing"},
    {"flow: 1000 m3/h", "flow: 1000 m3/h\n  middle_flow: 900 m3/h\n  middle_pressure: 80 Pa",
     DAWN_ERROR, 39, 16, "a point in the middle alone makes no curve|curve's ends"},
    {"flow: 1000 m3/h",
     "free_air: 1800 m3/h\n  greatest_pressure: 120 Pa\n  middle_flow: 1800 m3/h\n"
     "  middle_pressure: 80 Pa",
     DAWN_ERROR, 40, 16, "middle_flow 1800 m3/h must be less than free_air 1800 m3/h"},
    {"flow: 1000 m3/h",
     "free_air: 1800 m3/h\n  greatest_pressure: 120 Pa\n  middle_flow: 900 m3/h\n"
     "  middle_pressure: 130 Pa",
     DAWN_ERROR, 41, 20, "middle_pressure 130 Pa must be less than greatest_pressure 120 Pa|hump"},
    /* 2/(3 sqrt(3)) x 500 Pa x 0.5 m3/s = 96.225 W: computed closed form */
    {"flow: 1000 m3/h", "free_air: 1800 m3/h\n  greatest_pressure: 500 Pa", DAWN_WARNING, 40, 10,
     "give the air 96.225 W|only 90 W"},
    /* 2000 m3/h x 180 Pa = 100 W */
    {"flow: 1000 m3/h",
     "free_air: 3600 m3/h\n  greatest_pressure: 200 Pa\n  middle_flow: 2000 m3/h\n"
     "  middle_pressure: 180 Pa",
     DAWN_WARNING, 42, 10, "give the air 100 W|only 90 W"},
    /* covers */
    {"over: house", "over: trays\n    area: 15 m2", DAWN_NOTE, 0, 0, ""},
    {"over: house", "over: trays\n    area: 10 m2", DAWN_WARNING, 67, 11,
     "cover 'covers 1' of 10 m2 is smaller than the 15 m2 below it"},
    {"over: house\n", "over: trays\n  - over: bed\n  - over: trays\n  - over: house\n", DAWN_NOTE,
     0, 0, ""},
    {"over: house\n", "over: trays\n  - over: trays\n  - over: trays\n", DAWN_ERROR, 68, 11,
     "more than two covers over the trays"},
    {"over: house\n", "over: house\n  - over: house\n", DAWN_ERROR, 67, 11,
     "more than one cover over the house"},
    {"over: house", "over: house\n    put_on_at: 18:00\n    take_off_at: 6 pm", DAWN_ERROR, 68, 18,
     "would be taken off when it is put on"},
    {"over: house", "over: house\n    put_on_at: 18:00\n    after_sunset: 20 min", DAWN_WARNING, 68,
     19, "after_sunset counts for nothing"},
    {"over: house", "over: house\n    take_off_at: 8:00\n    after_sunrise: 20 min", DAWN_WARNING,
     68, 20, "after_sunrise counts for nothing"},
    {"over: house", "over: house\n    after_sunrise: 2 h", DAWN_WARNING, 67, 20, "unusual"},
    {"trays:\n  area: 15 m2\ncrops:\n  - name: tomato\n    damage_below: 0 C\n",
     "crops:\n  - name: tomato\n    damage_below: 0 C\n  - name: leek\n    damage_below: -3 C\n",
     DAWN_NOTE, 0, 0, ""},
    /* ducts */
    {"fan:\n  flow: 1000 m3/h\n  power: 90 W\n", "", DAWN_WARNING, 52, 5,
     "no section 'fan'; they count for nothing"},
    {"ducts:\n",
     "ducts:\n  - name: pipe\n    length: 2 m\n    diameter: 25 cm\n  - name: pipe\n"
     "    length: 2 m\n    diameter: 25 cm\n",
     DAWN_ERROR, 58, 11, "two items of 'ducts' are called 'pipe'"},
    {"    diameter: 30 cm\n", "", DAWN_ERROR, 55, 5, "'diameter' is missing in duct"},
    {"diameter: 30 cm", "diameter: 30 cm\n    kind: ribbed", DAWN_ERROR, 57, 11,
     "ribbed|smooth, corrugated"},
    {"diameter: 30 cm", "diameter: 30 cm\n    bends: 2.5", DAWN_ERROR, 57, 12, "bends|whole"},
    {"diameter: 30 cm",
     "diameter: 30 cm\n    kind: corrugated\n    bends: 2\n    screens: 1\n"
     "    side_by_side: 3",
     DAWN_NOTE, 0, 0, ""},
    {"power: 90 W", "power: 90 W\n  night_on_at: 6 C", DAWN_ERROR, 40, 16,
     "night_on_at is 6 C, but night_off_at is never|set both to never"},
    {"power: 90 W", "power: 90 W\n  night_on_at: never\n  night_off_at: 8 C", DAWN_ERROR, 41, 17,
     "night_off_at is 8 C, but night_on_at is never|set both to never"},
    {"power: 90 W", "power: 90 W\n  night_on_at: never\n  night_off_at: never", DAWN_NOTE, 0, 0,
     ""},
    {"power: 90 W", "power: 90 W\n  night_on_at: 6 C\n  night_off_at: 8 C", DAWN_NOTE, 0, 0, ""},
    {"power: 90 W", "power: 90 W\n  night_way: reversed", DAWN_WARNING, 40, 14,
     "reversed, but the fan never runs at night|give night_on_at"},
    {"power: 90 W",
     "power: 90 W\n  night_on_at: 6 C\n  night_off_at: 8 C\n  night_way: reversed\n  senses: ridge",
     DAWN_WARNING, 42, 14, "where the thermostat hangs|senses: air"},
    {"power: 90 W", "power: 90 W\n  night_on_at: 6 C\n  night_off_at: 8 C\n  night_way: reversed",
     DAWN_NOTE, 0, 0, ""},
    /* outdoor fan and built floor */
    {"  until: 7 h", "  until: 6 pm", DAWN_ERROR, 64, 10, "starts and stops at the same time"},
    {"  until: 7 h", "  until: 25:00", DAWN_ERROR, 64, 10, "until"},
    {"    area: 25 m2\n", "    area: 45 m2\n    slope: 180 deg\n", DAWN_ERROR, 26, 11,
     "built floors and bed, 65 m2 together|60 m2"},
    /* leaks: told once */
    {"height: 2.5 m", "height: 2.5 m\n  leakage: leaky\n  air_changes: 2 /h", DAWN_ERROR, 12, 16,
     "both leakage and air_changes tell how leaky"},
    {"height: 2.5 m", "height: 2.5 m\n  fan_test: 20 /h\n  air_changes: 2 /h", DAWN_ERROR, 11, 13,
     "both air_changes and fan_test"},
    {"height: 2.5 m", "height: 2.5 m\n  leakage: leaky\n  air_changes: from leakage", DAWN_NOTE, 0,
     0, ""},
    /* openings */
    {"opens_at: 30 C", "opens_at: 30 C\n    fully_open_at: 29 C", DAWN_ERROR, 61, 20,
     "fully_open_at 29 C must be warmer than opens_at 30 C"},
    {"opens_at: 30 C", "opens_at: 20 C", DAWN_WARNING, 60, 15,
     "'openings 1' opens at 20 C|from 27 C"},
    {"    opens_at: 30 C\n", "", DAWN_ERROR, 58, 5, "nothing ever opens|least_open"},
    {"opens_at: 30 C", "fully_open_at: 30 C", DAWN_ERROR, 60, 20, "needs opens_at"},
    {"opens_at: 30 C", "from: 10:00\n    until: 10:00", DAWN_ERROR, 61, 12,
     "at the same time of day"},
    {"opens_at: 30 C", "from: 10:00\n    until: 3:30 pm", DAWN_NOTE, 0, 0, ""},
    {"opens_at: 30 C", "until: 15:30", DAWN_NOTE, 0, 0, ""},
    {"opens_at: 30 C", "least_open: 5 %", DAWN_NOTE, 0, 0, ""},
    /* rock */
    {"mass: 18 t", "stone_size: 5 cm", DAWN_ERROR, 35, 1, "rock needs its volume or its mass"},
    {"mass: 18 t", "mass: from volume\n  volume: from mass", DAWN_ERROR, 35, 1,
     "rock needs its volume or its mass"},
    {"mass: 18 t", "volume: 12 m3", DAWN_NOTE, 0, 0, ""},
    {"mass: 18 t", "mass: 18 t\n  volume: 11.7 m3", DAWN_NOTE, 0, 0, ""},
    /* 20 m3 x 2650 kg/m3 x (1 - 0.42) = 30.74 t: computed closed form */
    {"mass: 18 t", "mass: 18 t\n  volume: 20 m3", DAWN_ERROR, 36, 9,
     "mass 18 t contradicts volume 20 m3, which weighs 30.74 t"},
    {"mass: 18 t", "mass: 180 t", DAWN_WARNING, 36, 9, "117.111 m3|20 m2|5.85556 m deep"},
    {"bed:\n  area: 20 m2\n", "", DAWN_ERROR, 33, 1, "without a bed|path_length or face_area"},
    {"bed:\n  area: 20 m2\nrock:\n", "rock:\n  path_length: 4 m\n", DAWN_NOTE, 0, 0, ""},
    {"mass: 18 t", "mass: 18 t\n  path_length: 4 m\n  face_area: 1 m2", DAWN_WARNING, 38, 14,
     "path_length x face_area is 4 m3|11.7111 m3"},
    {"mass: 18 t", "mass: 18 t\n  path_length: 0.35 m\n  stone_size: 10 cm", DAWN_WARNING, 38, 15,
     "stones of 100 mm|path of only 0.35 m"},
    {"fan:\n  flow: 1000 m3/h\n  power: 90 W\n", "", DAWN_WARNING, 35, 1,
     "rock without a fan stores little|section 'fan:'"},
    {"rock:\n  mass: 18 t\nfan:\n  flow: 1000 m3/h\n  power: 90 W\n", "", DAWN_WARNING, 50, 5,
     "ducts lead the fan's air|no section 'fan'"},
    /* areas */
    {"width: 6 m", "width: 6 m\n  floor_area: 90 m2", DAWN_ERROR, 10, 15,
     "floor_area is 90 m2|only 60 m2"},
    {"width: 6 m", "width: 6 m\n  floor_area: 35.5 m2", DAWN_WARNING, 10, 15,
     "far less than length x width"},
    {"width: 6 m", "width: 6 m\n  floor_area: 55 m2", DAWN_NOTE, 0, 0, ""},
    {"width: 6 m", "width: 6 m\n  air_volume: 300 m3", DAWN_WARNING, 10, 15,
     "air_volume is 300 m3|150 m3"},
    {"area: 20 m2", "area: 61 m2", DAWN_ERROR, 34, 9, "bed, 61 m2, is larger than the floor, 60"},
    {"area: 15 m2\ncrops", "area: 45 m2\ncrops", DAWN_WARNING, 44, 9,
     "65 m2 together|floor, 60 m2"},
    {"area: 15 m2\ncrops", "area: 61 m2\ncrops", DAWN_ERROR, 44, 9, "trays, 61 m2|floor, 60 m2"},
    {"area: 15 m2\ncrops", "area: 25 m2\n  stand_on: bed\ncrops", DAWN_ERROR, 44, 9,
     "trays, 25 m2, are larger than the bed"},
    {"area: 15 m2\ncrops", "area: 18 m2\n  stand_on: bed\ncrops", DAWN_NOTE, 0, 0, ""},
    {"bed:\n  area: 20 m2\nrock:\n  mass: 18 t\nfan:\n  flow: 1000 m3/h\n  power: 90 W\n"
     "barrels:\n  - count: 8\n    volume: 200 L\ntrays:\n",
     "trays:\n  stand_on: bed\n", DAWN_ERROR, 34, 13, "no section 'bed'"},
    {"count: 8", "count: 300", DAWN_ERROR, 41, 12, "barrels need|more than the floor"},
    {"count: 8", "count: 180", DAWN_WARNING, 41, 12, "beside the bed only 40 m2"},
    {"area: 60 m2", "area: 500 m2", DAWN_WARNING, 15, 11, "all glazing is 515 m2"},
    {"area: 60 m2", "area: 6 m2", DAWN_WARNING, 14, 5, "46 m2 together|60 m2"},
    {"  - name: south roof\n    area: 60 m2\n    slope: 35 deg\n    azimuth: S\n"
     "    type: glass\n  - name: end\n    area: 15 m2\n    slope: 90 deg\n"
     "    azimuth: 90 deg\n    type: twinwall-8mm\nwalls:\n",
     "walls:\n", DAWN_ERROR, 0, 0, "no glazing at all"},
    /* glass and soil */
    {"type: glass\n", "type: glass\n    gap_resistance: 0.2 m2K/W\n", DAWN_WARNING, 19, 21,
     "glass is one skin"},
    {"type: glass\n", "type: glass\n    longwave_transmittance: 0.5\n", DAWN_ERROR, 19, 29,
     "more than 1 together"},
    {"area: 20 m2", "area: 20 m2\n  heat_capacity: 1.2 MJ/m3K\n  water_share: 0.4", DAWN_ERROR, 35,
     18, "less than its water alone holds, 1.6744 MJ/m3K"},
    {"    layers:\n      - name: wood\n        thickness: 40 mm\n"
     "        conductivity: 0.13 W/mK\n        density: 500 kg/m3\n"
     "        specific_heat: 1600 J/kgK\n",
     "", DAWN_ERROR, 25, 5, "wall 'north' has no layers"},
    /* place */
    {"longitude: 7 E", "longitude: 75 W", DAWN_WARNING, 6, 15, "+1 h|-75 deg|-5 h|minus"},
    {"utc_offset: +1 h", "utc_offset: +3 h", DAWN_NOTE, 0, 0, ""},
    {"utc_offset: +1 h", "utc_offset: -05:00", DAWN_WARNING, 6, 15, "-5 h does not fit"},
    {"power: 90 W", "power: 90 W\n  senses: bed", DAWN_NOTE, 0, 0, ""},
};

static void every_rule_speaks_when_broken_and_only_then(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof RULES / sizeof RULES[0]; i++)
        try_mistake(&RULES[i]);
}

static void a_fan_senses_only_what_is_there(void **state)
{
    (void)state;
    char *text = spoilt("trays:\n  area: 15 m2\n", "");
    struct reading r;
    read_with(&r, text, "fan.senses=trays");
    assert_int_equal(r.status, DAWN_ERR_SCENARIO);
    assert_int_equal(r.problems.count, 1);
    assert_true(says(&r.problems.items[0], "senses the trays|no section 'trays'"));
    put_away(&r);
    free(text);
}

/* A temperature that was refused is complained of once, not missed as well. */
static void a_refused_night_temperature_is_no_never(void **state)
{
    (void)state;
    char *text = spoilt("power: 90 W", "power: 90 W\n  night_on_at: 6\n  night_off_at: 8 C");
    struct reading r;
    read_with(&r, text, NULL);
    assert_int_equal(r.status, DAWN_ERR_SCENARIO);
    assert_int_equal(r.problems.count, 1);
    assert_true(says(&r.problems.items[0], "unit is missing"));
    put_away(&r);
    free(text);
}

/* What --set takes, without the item. */
static void a_path_tells_its_key(void **state)
{
    (void)state;
    static const struct {
        const char *path, *key; /* NULL = names no item of a list */
    } paths[] = {
        {"glazing.south roof.area", "glazing.area"},
        {"glazing.1.area", "glazing.area"},
        {"barrels.no. 2.count", "barrels.count"},
        {"walls.north.layers.2.thickness", "walls.layers.thickness"},
        {"walls. north .area", "walls.area"},
        {"barrels.x.nonsense", "barrels.nonsense"},
        {"glazing.area", NULL},
        {"fan.1.on_at", NULL},
        {"nonsense.1.area", NULL},
        {"area", NULL},
        {"", NULL},
    };
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        char key[32];
        bool found = dawn_scenario_plain_key(paths[i].path, key, sizeof key);
        assert_int_equal(found, paths[i].key != NULL);
        assert_string_equal(key, found ? paths[i].key : "");
    }
    char small[8];
    assert_false(dawn_scenario_plain_key("glazing.1.area", small, sizeof small));
    assert_string_equal(small, "");
}

/* Drum of 208 L, 0.572 m across: 8 of them stand on 8 x pi/4 x 0.572^2 = 2.06 m2. On a floor of
 * 2.1 m2 there is just room, on 2.0 m2 there is not (computed closed form). */
static void drums_need_their_footprint(void **state)
{
    (void)state;
    static const char form[] = "dawnlow: 1\nsite:\n  latitude: 45 N\n  longitude: 7 E\n"
                               "  utc_offset: 1 h\nhouse:\n  length: 2 m\n  width: %s m\n"
                               "  height: 2 m\nglazing:\n  - area: 4 m2\n    slope: 0 deg\n"
                               "    azimuth: S\n    type: film\nbarrels:\n  - count: 8\n"
                               "    volume: 208 L\n";
    static const char *const widths[] = {"1.05", "1.00"};
    for (int i = 0; i < 2; i++) {
        char text[sizeof form + 16];
        (void)snprintf(text, sizeof text, form, widths[i]);
        struct reading r;
        read_with(&r, text, NULL);
        assert_int_equal(r.status, i == 0 ? DAWN_OK : DAWN_ERR_SCENARIO);
        put_away(&r);
    }
}

static void works_out_what_was_left_open(void **state)
{
    (void)state;
    struct reading r;
    read_with(&r, TINY_NURSERY, NULL);
    /* 18 000 kg / (2650 kg/m3 x 0.58) = 11.711 m3: computed closed form */
    assert_near(dawn_scenario_rock_m3(&r.scenario), 11.7111, 1e-4);
    assert_near(dawn_scenario_rock_kg(&r.scenario), 18000, 1e-9);
    assert_near(dawn_scenario_floor_m2(&r.scenario), 60, 1e-12);
    assert_near(dawn_scenario_air_m3(&r.scenario), 150, 1e-12);
    put_away(&r);
    char *text = spoilt("mass: 18 t", "volume: 10 m3");
    read_with(&r, text, NULL);
    assert_near(dawn_scenario_rock_kg(&r.scenario), 15370, 1e-9);
    put_away(&r);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_rule_speaks_when_broken_and_only_then),
        cmocka_unit_test(a_fan_senses_only_what_is_there),
        cmocka_unit_test(a_refused_night_temperature_is_no_never),
        cmocka_unit_test(a_path_tells_its_key),
        cmocka_unit_test(drums_need_their_footprint),
        cmocka_unit_test(works_out_what_was_left_open),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
