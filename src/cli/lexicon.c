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

const struct dawn_lexicon *dawn_lexicon_words(size_t *count)
{
    *count = sizeof WORDS / sizeof WORDS[0];
    return WORDS;
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
