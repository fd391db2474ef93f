/* From a few answers to a scenario: every answer in its forms, geometry against school formulas,
 * and whatever is answered, the file that comes out can be read. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "dawnlow/physics/crop.h"
#include "scenario/draft.h"
#include "support/near.h"
#include "support/random_nursery.h"

static size_t question(const char *key)
{
    size_t count = 0;
    const struct dawn_draft_question *questions = dawn_draft_questions(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(questions[i].key, key) == 0)
            return i;
    fail_msg("no question %s", key);
    return 0;
}

static bool answer(struct dawn_draft *draft, const char *key, const char *text)
{
    struct dawn_text why = {0};
    bool read = dawn_draft_answer(draft, question(key), text, &why);
    if (read == (why.size > 0))
        fail_msg("%s: '%s' is %s, reason: %s", key, text, read ? "taken" : "refused",
                 why.data != NULL ? why.data : "none");
    dawn_text_release(&why);
    return read;
}

/* Answers by key; what is not among them takes its default. */
struct said {
    const char *key, *text;
};

static void complete(struct dawn_draft *draft, const struct said *said, size_t count)
{
    size_t questions = 0;
    const struct dawn_draft_question *table = dawn_draft_questions(&questions);
    dawn_draft_begin(draft, "test", false, NULL);
    for (size_t i = 0; i < questions; i++) {
        const char *text = "";
        for (size_t k = 0; k < count; k++)
            if (strcmp(said[k].key, table[i].key) == 0)
                text = said[k].text;
        if (dawn_draft_applies(draft, i))
            assert_true(answer(draft, table[i].key, text));
    }
}

#define COMPLETE(draft, ...)                                                                       \
    do {                                                                                           \
        const struct said said[] = {__VA_ARGS__};                                                  \
        complete(draft, said, sizeof said / sizeof said[0]);                                       \
    } while (0)

/* What was drafted, read as a scenario; the caller releases it. */
static void read_back(const struct dawn_draft *draft, struct dawn_scenario *scenario)
{
    struct dawn_text text = {0};
    struct dawn_problems problems = {0};
    memset(scenario, 0, sizeof *scenario);
    dawn_draft_write(draft, &text);
    assert_false(text.failed);
    enum dawn_status status =
        dawn_scenario_parse(scenario, "draft", text.data, text.size, NULL, 0, &problems);
    if (status != DAWN_OK) {
        for (size_t i = 0; i < problems.count; i++)
            print_message("%d: %s\n", problems.items[i].line, problems.items[i].message);
        fail_msg("cannot be read:\n%s", text.data);
    }
    dawn_problems_release(&problems);
    dawn_text_release(&text);
}

/* ---- answers ---- */

static void places_in_many_notations(void **state)
{
    static const struct {
        const char *text;
        double latitude, longitude, elevation;
    } cases[] = {
        {"45.2 N 6.9 E 480 m", 45.2, 6.9, 480},
        {"44.95, -73.12, 350 ft", 44.95, -73.12, 106.68},
        {"45,5 N 6,25 E", 45.5, 6.25, NAN},
        {"6.9 E 45.2 N", 45.2, 6.9, NAN},
        {"45\xc2\xb0 12' N, 6\xc2\xb0 54' E", 45.2, 6.9, NAN},
        {"43\xc2\xb0 30' 36\" S 172 deg W 20 m", -43.51, -172, 20},
        {"-33.9 18.4", -33.9, 18.4, NAN},
        {"60n 10e", 60, 10, NAN},
    };
    struct dawn_draft draft;
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        dawn_draft_begin(&draft, "test", false, NULL);
        assert_true(answer(&draft, "place", cases[i].text));
        near(draft.latitude_deg, cases[i].latitude, 1e-9, "draft");
        near(draft.longitude_deg, cases[i].longitude, 1e-9, "draft");
        if (isnan(cases[i].elevation))
            assert_true(isnan(draft.elevation_m));
        else
            near(draft.elevation_m, cases[i].elevation, 1e-9, "draft");
    }
    static const char *const wrong[] = {"somewhere",  "45.2",        "95 N 6 E",       "45 N 200 E",
                                        "45 N 6 N",   "-45 S 6.9 E", "45 N 6 E 480",   "45 E 6 E",
                                        "45 N 6 E x", "N E",         "45 N 6 E 9000 m"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_false(answer(&draft, "place", wrong[i]));
}

static void sizes_in_feet_and_metres(void **state)
{
    struct dawn_draft draft;
    (void)state;
    COMPLETE(&draft, {"size", "33 x 20 ft"});
    near(draft.length_m, 10.0584, 1e-9, "draft");
    near(draft.width_m, 6.096, 1e-9, "draft");
    assert_true(draft.us);
    assert_true(answer(&draft, "size", "20 ft 6 in by 12 ft"));
    near(draft.length_m, 6.2484, 1e-9, "draft");
    assert_true(answer(&draft, "size", "10,5 m, 6 m"));
    near(draft.length_m, 10.5, 1e-9, "draft");
    static const char *const wrong[] = {"10", "10 x 6", "10 m", "10 kg x 6 m", "900 m x 6 m", "x"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_false(answer(&draft, "size", wrong[i]));
}

static void rock_by_weight_volume_and_load(void **state)
{
    struct dawn_draft draft;
    (void)state;
    COMPLETE(&draft, {"rock", "18 t"});
    near(draft.rock_kg, 18000, 1e-6, "draft");
    assert_true(answer(&draft, "rock", "20 short ton"));
    near(draft.rock_kg, 18143.6948, 1e-4, "draft"); /* 2000 lb of 0.45359237 kg, exact */
    assert_true(answer(&draft, "rock", "12 yards"));
    near(draft.rock_m3, 12 * 0.764554857984, 1e-9, "draft"); /* 27 cubic feet, exact */
    assert_true(isnan(draft.rock_kg));
    assert_true(answer(&draft, "rock", "3 loads of 10 yd3"));
    near(draft.rock_m3, 30 * 0.764554857984, 1e-9, "draft");
    assert_false(dawn_draft_applies(&draft, question("load")));
    /* What a load is has to be asked. */
    assert_true(answer(&draft, "rock", "3 loads"));
    assert_true(dawn_draft_applies(&draft, question("load")));
    assert_true(answer(&draft, "load", "8 t"));
    near(draft.rock_kg, 24000, 1e-6, "draft");
    static const char *const wrong[] = {"much",   "18", "18 W", "t", "-3 t", "3 loads of much",
                                        "0 loads"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_false(answer(&draft, "rock", wrong[i]));
}

static void which_ton_has_to_be_said(void **state)
{
    struct dawn_draft draft;
    (void)state;
    dawn_draft_begin(&draft, "test", false, NULL);
    assert_true(answer(&draft, "rock", "20 tons"));
    assert_true(isnan(draft.rock_kg));
    assert_true(dawn_draft_applies(&draft, question("ton")));
    assert_true(answer(&draft, "ton", "short"));
    near(draft.rock_kg, 18143.6948, 1e-4, "draft");
    assert_true(answer(&draft, "ton", "metric"));
    near(draft.rock_kg, 20000, 1e-6, "draft");
    assert_false(answer(&draft, "ton", "long"));
    /* In loads as well. */
    assert_true(answer(&draft, "rock", "2 loads of 10 tons"));
    assert_true(answer(&draft, "ton", "metric"));
    near(draft.rock_kg, 20000, 1e-6, "draft");
    assert_true(answer(&draft, "rock", "2 loads"));
    assert_true(answer(&draft, "load", "10 tons"));
    assert_true(dawn_draft_applies(&draft, question("ton")));
    assert_true(answer(&draft, "rock", "20 t"));
    assert_false(dawn_draft_applies(&draft, question("ton")));
}

static void other_answers_are_read(void **state)
{
    struct dawn_draft draft;
    (void)state;
    COMPLETE(&draft, {"barrels", "14 of 55 gal"}, {"crops", "tomatoes, Leek -4 C, rare thing 30 F"},
             {"trays", "60 trays"}, {"rock", "9 t"}, {"stone", "20-40 mm"}, {"leaks", "1.5 /h"},
             {"clock", "-5"}, {"facing", "south-east"});
    near(draft.barrel_m3, 55 * 3.785411784e-3, 1e-12, "draft");
    assert_int_equal(draft.crop_count, 3);
    near(draft.crops[0].damage_C, 0, 1e-9, "draft");
    near(draft.crops[1].damage_C, -4, 1e-9, "draft");
    near(draft.crops[2].damage_C, -10.0 / 9, 1e-9, "draft");
    /* What the table of crops knows comes from there, under its other names too. */
    near(dawn_draft_crop_damage_C("Onions"), dawn_crop_find("onion")->damage_C, 1e-12, "draft");
    near(dawn_draft_crop_damage_C("aubergine"), dawn_crop_find("eggplant")->damage_C, 1e-12,
         "draft");
    near(dawn_draft_crop_damage_C("leeks"), -3, 1e-12, "draft");
    assert_true(isnan(dawn_draft_crop_damage_C("fern")));
    near(draft.trays_m2, 60 * 0.2794 * 0.5461, 1e-9, "draft");
    near(draft.stone_m, 0.03, 1e-9, "draft");
    near(draft.air_changes_per_h, 1.5, 1e-9, "draft");
    near(draft.utc_offset_h, -5, 1e-9, "draft");
    near(draft.facing_deg, 135, 1e-9, "draft");
    static const struct said wrong[] = {
        {"barrels", "some"},        {"barrels", "2.5"},      {"barrels", "900 of 55 gal"},
        {"crops", "fern"},          {"crops", "leek, leek"}, {"crops", "- name"},
        {"trays", "70 m2"},         {"bed", "61 m2"},        {"stone", "2 m"},
        {"glazing", "paper"},       {"glazing", "14"},       {"sides", "back paper"},
        {"sides", "lid brick"},     {"leaks", "very"},       {"facing", "up"},
        {"facing", "400"},          {"vents", "wide"},       {"clock", "+20"},
        {"heights", "3 m x 2 m"},   {"heights", "3 m"},      {"shape", "dome"},
        {"fan", "strong"},          {"watts", "12"},         {"pressure", "much"},
        {"weather", "no/such.csv"}, {"weather", "invented"}, {"place", "45 N\t6 E\a"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        assert_false(answer(&draft, wrong[i].key, wrong[i].text));
    assert_false(answer(&draft, "sides", "roof boards, front brick, back brick, ends brick"));
}

/* ---- geometry: computed closed forms ---- */

static double face_m2(const struct dawn_draft *draft, const char *name, double *slope_deg)
{
    struct dawn_draft_face faces[DAWN_DRAFT_FACES_MOST];
    size_t count = dawn_draft_faces(draft, faces);
    for (size_t i = 0; i < count; i++)
        if (strcmp(faces[i].name, name) == 0) {
            *slope_deg = faces[i].slope_deg;
            return faces[i].area_m2;
        }
    fail_msg("no %s", name);
    return NAN;
}

static void gable_and_lean_to(void **state)
{
    struct dawn_draft draft;
    double slope = 0;
    (void)state;
    /* Half a span of 3 m and a rise of 4 m: rafters of 5 m. */
    COMPLETE(&draft, {"size", "10 m x 6 m"}, {"heights", "2 m x 6 m"}, {"facing", "E"});
    near(face_m2(&draft, "east roof", &slope), 50, 1e-9, "draft");
    near(slope, atan2(4, 3) * 180 / 3.14159265358979, 1e-9, "draft");
    near(face_m2(&draft, "west roof", &slope), 50, 1e-9, "draft");
    near(face_m2(&draft, "east wall", &slope), 20, 1e-9, "draft");
    near(face_m2(&draft, "south end", &slope), 6 * 2 + 6 * 4 / 2.0, 1e-9, "draft");
    near(dawn_draft_mean_height_m(&draft), 4, 1e-9, "draft");
    COMPLETE(&draft, {"size", "10 m x 4 m"}, {"heights", "2 m x 5 m"}, {"shape", "Lean to"});
    near(face_m2(&draft, "south roof", &slope), 50, 1e-9, "draft");
    near(face_m2(&draft, "north wall", &slope), 50, 1e-9, "draft");
    near(face_m2(&draft, "west end", &slope), 4 * 3.5, 1e-9, "draft");
}

static void half_round_tunnel(void **state)
{
    struct dawn_draft draft;
    double steep = 0;
    double flat = 0;
    const double pi = 3.14159265358979;
    (void)state;
    /* A half circle of radius 3 m: its arc is 3 pi, parted at 45 deg into four alike; the chord of
     * an eighth of a circle slopes 67.5 or 22.5 deg; half a disk at each end. */
    COMPLETE(&draft, {"size", "10 m x 6 m"}, {"heights", "3 m"}, {"shape", "tunnel"});
    near(face_m2(&draft, "south side", &steep), 10 * 3 * pi / 4, 0.03, "draft");
    near(face_m2(&draft, "south roof", &flat), 10 * 3 * pi / 4, 0.03, "draft");
    near(steep, 67.5, 0.2, "draft");
    near(flat, 22.5, 0.2, "draft");
    near(face_m2(&draft, "east end", &flat), pi * 9 / 2, 1e-9, "draft");
}

static void sides_have_their_own_skin(void **state)
{
    struct dawn_draft draft;
    struct dawn_scenario scenario;
    (void)state;
    COMPLETE(&draft, {"sides", "north insulated, back roof insulated, ends twin-wall"},
             {"glazing", "double poly"});
    read_back(&draft, &scenario);
    assert_int_equal(scenario.glazing_count, 4);
    assert_int_equal(scenario.wall_count, 2);
    assert_string_equal(scenario.walls[0].name, "north roof");
    assert_string_equal(scenario.glazing[0].name, "south wall");
    size_t types = 0;
    const struct dawn_glazing_type *type = dawn_scenario_glazing_types(&types);
    assert_string_equal(type[scenario.glazing[0].type].word, "double-film");
    assert_string_equal(type[scenario.glazing[3].type].word, "twinwall-8mm");
    dawn_scenario_release(&scenario);
}

/* ---- the file ---- */

static void values_arrive_in_either_unit(void **state)
{
    struct dawn_draft draft;
    struct dawn_scenario scenario;
    (void)state;
    COMPLETE(&draft, {"size", "33 x 20 ft"}, {"rock", "12 yd3"}, {"fan", "1200 cfm"},
             {"pressure", "0.5 in wg"}, {"barrels", "6 of 55 gal"}, {"crops", "lettuce 30 F"});
    read_back(&draft, &scenario);
    /* four digits are written */
    near(scenario.house.length_m, draft.length_m, 5e-4 * draft.length_m, "draft");
    near(scenario.rock.volume_m3, draft.rock_m3, 5e-4 * draft.rock_m3, "draft");
    near(scenario.fan.free_air_m3_s, 1200 * 0.3048 * 0.3048 * 0.3048 / 60, 1e-9, "draft");
    near(scenario.fan.greatest_Pa, 0.5 * 249.08891, 1e-6, "draft");
    near(scenario.barrels[0].volume_m3, draft.barrel_m3, 1e-9, "draft");
    near(scenario.crops[0].damage_C, -10.0 / 9, 1e-9, "draft");
    dawn_scenario_release(&scenario);
}

static const char *one_of(struct dice *dice, const char *const words[], size_t count)
{
    return words[dice_count(dice, 0, count - 1)];
}

/* An answer by lot, mostly one that can be taken. */
static void draw(struct dice *dice, const char *key, char out[DAWN_DRAFT_ANSWER_SIZE])
{
    static const struct {
        const char *key, *words[6];
    } some[] = {
        {"shape", {"gable", "lean-to", "tunnel", "", "Lean to", "tunnel"}},
        {"facing", {"S", "NNW", "117", "south-west", "", "E"}},
        {"glazing", {"film", "glass", "9", "triplewall-16mm", "double poly", ""}},
        {"sides",
         {"", "back brick", "back roof boards, back building", "ends insulated", "none",
          "roof concrete"}},
        {"leaks", {"tight", "usual", "leaky", "draughty", "0.3 /h", ""}},
        {"vents", {"none", "", "1.5 m2", "3 x 4 ft", "10 sq ft", "0.2 m2"}},
        {"bed", {"none", "", "1.2 m2", "2 x 3 ft", "", ""}},
        {"rock", {"none", "18 t", "20 tons", "3 loads", "12 yards", "2 loads of 9 tons"}},
        {"load", {"10 t", "10 yd3", "7 tons", "5 m3", "9000 lb", "10 t"}},
        {"ton", {"metric", "short", "metric", "short", "metric", "short"}},
        {"stone", {"50 mm", "3/4 in", "20-40 mm", "", "4 in", "63 mm"}},
        {"fan", {"none", "", "900 cfm", "400 m3/h", "5000 m3/h", "0.2 m3/s"}},
        {"pressure", {"unknown", "", "120 Pa", "0.5 in wg", "60 Pa", "unknown"}},
        {"watts", {"", "160 W", "1/4 hp", "", "40 W", ""}},
        {"barrels", {"none", "1", "2 of 30 gal", "", "1 of 1000 L", "3"}},
        {"barrel", {"", "200 L", "55 gal", "30 gal", "", "60 L"}},
        {"trays", {"", "none", "4 trays", "0.5 m2", "2 trays on the bed", ""}},
        {"crops", {"", "none", "tomato", "leek -4 C, kale", "basil, sweet corn", "pea"}},
    };
    out[0] = '\0';
    for (size_t i = 0; i < sizeof some / sizeof some[0]; i++)
        if (strcmp(some[i].key, key) == 0)
            (void)dawn_text_copy(out, DAWN_DRAFT_ANSWER_SIZE, one_of(dice, some[i].words, 6));
    if (strcmp(key, "place") == 0)
        snprintf(out, DAWN_DRAFT_ANSWER_SIZE, "%.4f, %.4f", dice_between(dice, -65, 65),
                 dice_between(dice, -180, 180));
    if (strcmp(key, "size") == 0)
        snprintf(out, DAWN_DRAFT_ANSWER_SIZE, "%.2f x %.2f %s", dice_between(dice, 3, 90),
                 dice_between(dice, 3, 40), dice_yes(dice, 0.5) ? "m" : "ft");
}

static void whatever_is_answered_can_be_read(void **state)
{
    struct dice dice = {.state = 20260311};
    struct dawn_draft draft;
    struct dawn_scenario scenario;
    struct dawn_text why = {0};
    char text[DAWN_DRAFT_ANSWER_SIZE];
    size_t questions = 0;
    size_t refused = 0;
    const struct dawn_draft_question *table = dawn_draft_questions(&questions);
    (void)state;
    for (int round = 0; round < 400; round++) {
        dawn_draft_begin(&draft, "by: lot # \"1\" \\", dice_yes(&dice, 0.3), NULL);
        for (size_t i = 0; i < questions; i++) {
            draw(&dice, table[i].key, text);
            if (!dawn_draft_applies(&draft, i) || dawn_draft_answer(&draft, i, text, &why))
                continue;
            /* Too large for so small a house: a smaller answer fits every one. */
            refused++;
            dawn_text_release(&why);
            const char *fits = strcmp(table[i].key, "sides") == 0    ? "ends film"
                               : strcmp(table[i].key, "barrel") == 0 ? "20 L"
                                                                     : "none";
            assert_true(answer(&draft, table[i].key, fits));
        }
        dawn_text_release(&why);
        read_back(&draft, &scenario);
        near(scenario.house.width_m, draft.width_m, 5e-4 * draft.width_m, "draft");
        dawn_scenario_release(&scenario);
    }
    assert_true(refused < 400);
}

static void every_default_is_an_answer(void **state)
{
    static const char *const sizes[] = {"0.5 m x 0.5 m", "200 m x 100 m", "10 m x 0.5 m",
                                        "2 x 60 ft", "100 m x 200 m"};
    static const char *const shapes[] = {"gable", "lean-to", "tunnel"};
    struct dawn_draft draft;
    struct dawn_scenario scenario;
    (void)state;
    for (size_t i = 0; i < 5; i++)
        for (size_t k = 0; k < 3; k++) {
            COMPLETE(&draft, {"size", sizes[i]}, {"shape", shapes[k]}, {"rock", "1 t"});
            read_back(&draft, &scenario);
            dawn_scenario_release(&scenario);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(places_in_many_notations),
        cmocka_unit_test(sizes_in_feet_and_metres),
        cmocka_unit_test(rock_by_weight_volume_and_load),
        cmocka_unit_test(which_ton_has_to_be_said),
        cmocka_unit_test(other_answers_are_read),
        cmocka_unit_test(gable_and_lean_to),
        cmocka_unit_test(half_round_tunnel),
        cmocka_unit_test(sides_have_their_own_skin),
        cmocka_unit_test(values_arrive_in_either_unit),
        cmocka_unit_test(whatever_is_answered_can_be_read),
        cmocka_unit_test(every_default_is_an_answer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
