/* What a face is made of: skins, gaps and light, from its type and what is said beside it. */
#include "tiny_nursery.h"

static struct dawn_glazing glazing(const char *word)
{
    size_t count = 0;
    const struct dawn_glazing_type *types = dawn_scenario_glazing_types(&count);
    struct dawn_glazing it = {.skins = NAN,
                              .solar_transmittance = NAN,
                              .gap_resistance_m2K_W = NAN,
                              .longwave_transmittance = NAN,
                              .emissivity = NAN,
                              .refractive_index = NAN};
    while (strcmp(types[it.type].word, word) != 0)
        it.type++;
    return it;
}

static const struct dawn_glazing_type *type_of(const struct dawn_glazing *glazing)
{
    size_t count = 0;
    return dawn_scenario_glazing_types(&count) + glazing->type;
}

/* Without a word beside it every type is what its row says. */
static void a_type_is_what_its_row_says(void **state)
{
    (void)state;
    size_t count = 0;
    const struct dawn_glazing_type *types = dawn_scenario_glazing_types(&count);
    for (size_t i = 0; i < count; i++) {
        struct dawn_glazing it = glazing(types[i].word);
        struct dawn_glazing_build build = dawn_scenario_glazing_build(&it);
        assert_int_equal(build.skins, types[i].skins);
        assert_near(build.gap_m2K_W, types[i].gap_resistance_m2K_W, 1e-12);
        assert_near(build.solar_transmittance, types[i].solar_transmittance, 1e-9);
        assert_near(build.longwave_transmittance, types[i].longwave_transmittance, 1e-12);
        assert_near(build.emissivity, types[i].emissivity, 1e-12);
        assert_near(build.heat_J_m2K * (double)build.skins, types[i].heat_J_m2K, 1e-9);
    }
}

/* N clear plates let (1 - r)/(1 + (2N - 1) r) of straight light through, r = ((n - 1)/(n + 1))^2
 * (Duffie & Beckman, Solar Engineering of Thermal Processes, 5.1; from memory); what they take up
 * multiplies it nearly, "for practical collector covers" within 1 % (the same, 5.3). */
static void plates_let_through_what_the_textbook_says(void **state)
{
    (void)state;
    for (int skins = 1; skins <= 4; skins++) {
        struct dawn_glazing it = glazing("glass");
        it.skins = skins;
        it.solar_transmittance = 0.98;
        double r = 0.526 * 0.526 / (2.526 * 2.526);
        double clear = (1 - r) / (1 + (2 * skins - 1) * r);
        assert_near(dawn_scenario_glazing_build(&it).solar_transmittance, clear, 1e-9);
        it.solar_transmittance = NAN;
        struct dawn_glazing_build build = dawn_scenario_glazing_build(&it);
        double about = clear * exp(-build.layers[0].extinction * skins);
        assert_near(build.solar_transmittance, about, 0.01 * about);
    }
}

/* Two films come near what is printed of whole double film: 0.78 and 0.55 (extension.org "Glazing
 * materials", from memory); heat radiation passes one after the other (computed closed form). */
static void skins_add_up(void **state)
{
    (void)state;
    struct dawn_glazing it = glazing("film");
    struct dawn_glazing twice = glazing("double-film");
    it.skins = 2;
    struct dawn_glazing_build build = dawn_scenario_glazing_build(&it);
    assert_near(build.solar_transmittance, type_of(&twice)->solar_transmittance, 0.01);
    assert_near(build.longwave_transmittance, 0.75 * 0.75, 1e-12);
    assert_near(build.longwave_transmittance, type_of(&twice)->longwave_transmittance, 0.02);
    assert_near(build.gap_m2K_W, 0.16, 1e-12);
    assert_near(build.heat_J_m2K, type_of(&it)->heat_J_m2K, 1e-12);
    it.skins = NAN;
    it.gap_resistance_m2K_W = 0.3;
    assert_int_equal(dawn_scenario_glazing_build(&it).skins, 2);
    twice.gap_resistance_m2K_W = 0;
    assert_int_equal(dawn_scenario_glazing_build(&twice).skins, 1);
    assert_near(dawn_scenario_glazing_build(&twice).gap_m2K_W, 0, 0);
}

static void a_table_stands_over_the_layers(void **state)
{
    (void)state;
    struct dawn_glazing it = glazing("twinwall-8mm");
    (void)snprintf(it.by_angle, sizeof it.by_angle, "0 deg 0.7; 45 68 %%, 60 deg 0,6");
    struct dawn_glazing_build build = dawn_scenario_glazing_build(&it);
    assert_int_equal(build.angles.count, 4);
    assert_near(build.angles.transmittance[1], 0.68, 1e-12);
    assert_near(build.angles.transmittance[2], 0.6, 1e-12);
    assert_near(build.angles.angle_deg[3], 90, 0);
    assert_near(build.angles.transmittance[3], 0, 0);
    assert_near(build.solar_transmittance, 0.7, 1e-12);
}

#define BESIDE(line) "    type: glass\n", "    type: glass\n    " line "\n"
#define TABLE(text)  BESIDE("transmittance_by_angle: " text)

static const struct mistake RULES[] = {
    {BESIDE("skins: 3"), DAWN_NOTE, 0, 0, ""},
    {BESIDE("skins: 3\n    gap_resistance: 0.2 m2K/W"), DAWN_NOTE, 0, 0, ""},
    {BESIDE("skins: 5"), DAWN_ERROR, 19, 12, "5"},
    {BESIDE("skins: 1.5"), DAWN_ERROR, 19, 12, "1.5"},
    {BESIDE("skins: 1\n    gap_resistance: 0.2 m2K/W"), DAWN_ERROR, 20, 21,
     "skins 1 and gap_resistance 0.2 m2K/W do not go together"},
    {BESIDE("skins: 2\n    gap_resistance: 0 m2K/W"), DAWN_ERROR, 20, 21,
     "skins 2 and gap_resistance 0 m2K/W do not go together|leave gap_resistance out"},
    {TABLE("0 deg 0.82, 60 deg 0.70"), DAWN_NOTE, 0, 0, ""},
    {TABLE("0 0.82, 60 deg 70 %, 90 0"), DAWN_NOTE, 0, 0, ""},
    {TABLE("0.82"), DAWN_ERROR, 19, 29, "'0.82': it is written as 0 deg 0.82, 60 deg 0.70"},
    {TABLE("0 deg 0.82 60 deg 0.7"), DAWN_ERROR, 19, 29, "it is written as"},
    {TABLE("0 deg 0.82, steep 0.7"), DAWN_ERROR, 19, 29, "it is written as"},
    {TABLE("0 deg 0.82"), DAWN_ERROR, 19, 29, "one angle is no table"},
    {TABLE("10 deg 0.82, 60 deg 0.7"), DAWN_ERROR, 19, 29, "must begin with 0 deg"},
    {TABLE("0 deg 0.82, 60 deg 0.7, 60 deg 0.6"), DAWN_ERROR, 19, 29, "angles must rise"},
    {TABLE("0 deg 0.82, 95 deg 0"), DAWN_ERROR, 19, 29, "90 deg, more there is not"},
    {TABLE("0 deg 82, 60 deg 70"), DAWN_ERROR, 19, 29, "from 0 to 0.98"},
    {TABLE("0 .9, 1 .9, 2 .9, 3 .9, 4 .9, 5 .9, 6 .9, 7 .9, 8 .9, 9 .9, 10 .9, 11 .9"), DAWN_ERROR,
     19, 29, "11 angles are the most"},
    {TABLE("0 deg 0.82, 60 deg 0.7\n    solar_transmittance: 0.8"), DAWN_ERROR, 20, 26,
     "tell the same|at 0 deg"},
};

static void every_wrong_plan_is_told(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof RULES / sizeof RULES[0]; i++)
        try_mistake(&RULES[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_type_is_what_its_row_says),
        cmocka_unit_test(plates_let_through_what_the_textbook_says),
        cmocka_unit_test(skins_add_up),
        cmocka_unit_test(a_table_stands_over_the_layers),
        cmocka_unit_test(every_wrong_plan_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
