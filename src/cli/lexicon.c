/* Words that growers meet in what the program prints, and what its commonest complaints mean. */
#include "cli/lexicon.h"

#include <stdbool.h>
#include <string.h>

#include "base/text.h"

static const struct dawn_lexicon WORDS[] = {
    {"Air",
     "The lowest temperature of the air at the benches, as a thermometer shows it that hangs "
     "there shaded from the open sky."},
    {"air changes", "How often an hour the wind and the warmth change the air of the house through "
                    "its leaks: 0.5 is tight, 1 usual, 2 leaky, 4 draughty."},
    {"At", "The time of the low at the trays; where there are no trays, in the air. Standard time, "
           "never summer time."},
    {"bench air", "With zones: 2, the lower two thirds of the air, where the trays stand."},
    {"close", "A risk: the low stays 1 to 3 K above its line. A dip in the forecast crosses it."},
    {"Crop", "How many hours the leaves are below the damage_below of your most tender crop."},
    {"damage_below", "The leaf temperature below which a crop is harmed. Ask your own years: "
                     "hardened plants bear more, wet and soft ones less."},
    {"default", "A value you did not give, so the program's own was taken; check shows which."},
    {"dew point", "The temperature at which the air's water begins to settle on what it touches. "
                  "Dry air lets more heat out to the sky."},
    {"estimated", "The weather file did not hold it, so it was worked out from what it holds."},
    {"Fan", "How many hours the fan ran since the night before."},
    {"free air", "What a fan moves with nothing in its way, as its label says. Through rock and "
                 "pipes it moves less: dawnlow fan works it out."},
    {"freezes", "A risk: the trays go below 0 C, or the leaves below what your crop bears."},
    {"holds", "A risk: the low stays more than 3 K above its line."},
    {"Leaf", "The lowest temperature of the leaves. Under a clear sky and a thin roof they get "
             "colder than the air around them."},
    {"long-wave", "Heat that warm things radiate and cold sky takes. Film lets most of it through, "
                  "glass and twin-wall take it up."},
    {"low", "The lowest temperature of a night."},
    {"night", "From sunset to two hours after sunrise, named by its evening and its morning."},
    {"Out", "The lowest temperature of the outdoor air."},
    {"ridge air", "With zones: 2, the hot upper third of the air, from which the fan takes it."},
    {"Risk", "The worse of two: the trays against 0 C, the leaves against your most tender crop."},
    {"Rock", "The heat the rock gave back from dusk to dawn; below 0 it took some up."},
    {"Root", "The lowest temperature in the root zone: the planting bed, else the trays."},
    {"set-point", "Where a thermostat is set: fan.on_at, fan.off_at."},
    {"Soil", "The heat that bed, floor and ground gave back from dusk to dawn."},
    {"spin-up",
     "The days before the first night that the house lives through, so that soil and rock "
     "are as warm as they should be."},
    {"standard time", "The clock of your zone in winter. It is never put forward here."},
    {"stamp", "The time of a row of weather, and what it stands for: that instant, or the mean of "
              "the hour before, after or around it."},
    {"touch and go", "A risk: the low stays 1 K or less above its line. The sum itself is not "
                     "surer than that."},
    {"Tray", "The lowest temperature in the trays. At -0.0 C their water is turning to ice."},
    {"Water", "The heat the barrels gave back from dusk to dawn."},
    {"<0 C", "How many hours the trays are below freezing; where there are none, the air."},
};

static const struct dawn_lexicon COMPLAINTS[] = {
    {"no weather file is named", "Neither --weather FILE nor file: under weather: in the scenario "
                                 "says where the weather is. dawnlow help weather tells where to "
                                 "get some."},
    {"another sun", "The weather was taken so far from your site that days and nights do not fit. "
                    "Mostly a sign is wrong: west of Greenwich and south of the equator are a "
                    "minus, or W and S."},
    {"hours are missing between", "A gap of up to three hours is filled between its neighbours; a "
                                  "longer one would be guessing. Fill it from a station near by, "
                                  "or use --from and --to with what lies before or behind it."},
    {"is missing in", "A key that has no default was not given. Write it in its section; dawnlow "
                      "explain KEY tells how."},
    {"is given twice", "Only one of the two can count. Take the other away."},
    {"contradicts", "Two values of the scenario cannot both be right. For rock, mind which ton the "
                    "invoice means, and whether the volume counts the gaps."},
    {"rock without a fan stores little", "Warm air does not go down into rock by itself. Write a "
                                         "section fan:, or take the rock out to see what the house "
                                         "does without."},
    {"lets out heat before the fan stores it", "The vents open at a lower temperature than the fan "
                                               "starts at, so the day's heat leaves. Let them open "
                                               "some 3 K later, or the fan start earlier."},
    {"does not fit longitude", "The clock you gave and the sun at your longitude are hours apart. "
                               "Give standard time, and a minus west of Greenwich for both."},
    {"the fan needs its flow", "Give the flow you measured through the rock, or the two numbers of "
                               "the label: free_air and greatest_pressure."},
    {"the fan blows through the rock, but", "A fan: section stands without rock:. Write down the "
                                            "rock, or leave the fan out."},
    {"is no time stamp", "The first column with times cannot be read. Stamps like 2026-03-12 05:00 "
                         "are best; day and month in either order are told apart where the file "
                         "allows it."},
    {"does not say its unit", "A header such as 'temp' does not tell C from F. Write the unit into "
                              "it, or say weather.temperature_unit."},
    {"the calculation found no result", "The house you described behaves in a way no house does: "
                                        "look at the warnings, then at values far from the usual; "
                                        "dawnlow check shows all of them."},
    {"and is not overwritten", "dawnlow new writes new files only. Name another, or move the old "
                               "one away."},
};

const struct dawn_lexicon *dawn_lexicon_words(size_t *count)
{
    *count = sizeof WORDS / sizeof WORDS[0];
    return WORDS;
}

const struct dawn_lexicon *dawn_lexicon_complaints(size_t *count)
{
    *count = sizeof COMPLAINTS / sizeof COMPLAINTS[0];
    return COMPLAINTS;
}

const struct dawn_lexicon *dawn_lexicon_word(const char *asked)
{
    for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
        if (dawn_text_same(WORDS[i].term, asked)) {
            return &WORDS[i];
        }
    }
    return NULL;
}

/* Whether term stands anywhere in text, in any case. */
static bool holds(const char *text, const char *term)
{
    for (; *text != '\0'; text++) {
        if (dawn_text_starts(text, term)) {
            return true;
        }
    }
    return false;
}

const struct dawn_lexicon *dawn_lexicon_complaint(const char *asked)
{
    enum { WORD_LEAST = 6 };

    for (size_t i = 0; i < sizeof COMPLAINTS / sizeof COMPLAINTS[0]; i++) {
        if (holds(asked, COMPLAINTS[i].term) ||
            (strlen(asked) >= WORD_LEAST && dawn_text_starts(COMPLAINTS[i].term, asked))) {
            return &COMPLAINTS[i];
        }
    }
    return NULL;
}
