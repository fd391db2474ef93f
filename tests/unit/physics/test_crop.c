/* The table of crops: complete, in order, and within what handbooks print. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "../../support/near.h"
#include "dawnlow/physics/crop.h"

static void rows_are_complete_and_in_order(void **state)
{
    size_t count = 0;
    const struct dawn_crop_facts *crop = dawn_crop_table(&count);

    (void)state;
    assert_true(count >= 11);
    for (size_t i = 0; i < count; i++) {
        assert_true(i == 0 || strcmp(crop[i - 1].name, crop[i].name) < 0);
        assert_ptr_equal(dawn_crop_find(crop[i].name), &crop[i]);
        assert_true(crop[i].damage_C < crop[i].growth_C);
        assert_true(isnan(crop[i].chilling_C) || crop[i].chilling_C > crop[i].damage_C);
        assert_true(crop[i].growth_C < crop[i].sprout_least_C);
        assert_true(crop[i].sprout_least_C < crop[i].sprout_most_C);
    }
    assert_ptr_equal(dawn_crop_find("Tomato"), dawn_crop_find("tomato"));
    assert_null(dawn_crop_find("moonflower"));
    for (size_t i = 0; i < DAWN_CROP_COLUMNS; i++) {
        assert_true(strlen(dawn_crop_source((enum dawn_crop_column)i)) > 20);
    }
}

/* Highest freezing points of the produce, C: USDA Agriculture Handbook 66 (from memory). Unhardened
 * tender seedlings must count as harmed no later than the produce freezes; the hardy ones, frosted
 * seedlings of which recover, at most 1.5 K later (common practice, no source). */
static void lines_lie_beside_the_freezing_points(void **state)
{
    static const struct {
        const char *name;
        double freezes_C;
    } produce[] = {{"tomato", -0.5},   {"pepper", -0.7},  {"eggplant", -0.8},
                   {"cucumber", -0.5}, {"lettuce", -0.2}, {"cabbage", -0.9},
                   {"broccoli", -0.6}, {"onion", -0.8},   {"cauliflower", -0.8}};

    (void)state;
    for (size_t i = 0; i < sizeof produce / sizeof produce[0]; i++) {
        const struct dawn_crop_facts *crop = dawn_crop_find(produce[i].name);
        assert_non_null(crop);
        if (!isnan(crop->chilling_C)) {
            assert_true(crop->damage_C >= produce[i].freezes_C);
        } else {
            assert_true(crop->damage_C >= produce[i].freezes_C - 1.5);
        }
    }
}

/* Soil for sprouting, F, of the Mid-Atlantic recommendations as quoted by the University of
 * Delaware's Weekly Crop Update (seen in quotation). */
static void sprouting_is_the_published_one(void **state)
{
    static const struct {
        const char *name;
        double least_F, most_F;
    } published[] = {{"lettuce", 60, 70}, {"pepper", 80, 90}, {"tomato", 70, 80},
                     {"cabbage", 60, 85}, {"onion", 65, 85},  {"summer squash", 85, 95}};

    (void)state;
    for (size_t i = 0; i < sizeof published / sizeof published[0]; i++) {
        const struct dawn_crop_facts *crop = dawn_crop_find(published[i].name);
        near(crop->sprout_least_C * 1.8 + 32.0, published[i].least_F, 1e-9, "least");
        near(crop->sprout_most_C * 1.8 + 32.0, published[i].most_F, 1e-9, "most");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_are_complete_and_in_order),
        cmocka_unit_test(lines_lie_beside_the_freezing_points),
        cmocka_unit_test(sprouting_is_the_published_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
