/* What messages mean, by a part of each that does not change. Of several that fit the first counts,
 * so what is said of few stands before what is said of many. */
#include <string.h>

#include "base/text.h"
#include "cli/lexicon.h"

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
    {"cannot be opened",
     "There is no such file from where you stand, or it may not be read. Look at the folder with "
     "ls; a name with blanks needs quotation marks around it."},
    {"cannot be read", "The file is not there under that name, or may not be read. A weather file "
                       "named in a scenario is sought from the scenario's folder."},
    {"cannot write", "The folder is not there, may not be written to, or the disk is full. Nothing "
                     "is left half written: an older file of that name is as it was."},
    {"the unit is missing behind",
     "Every amount carries its unit, so that nobody takes 12 for tonnes who meant pounds. Write it "
     "behind the number: 12 t, 33 ft, 18 C."},
    {"is needed: ", "The unit behind the number measures something else than the key. dawnlow "
                    "explain KEY tells which units it takes."},
    {"unknown key", "The section has no such key; mostly a letter is wrong. dawnlow explain "
                    "SECTION lists those it has."},
    {"unknown option", "The command has no such option; mostly a letter is wrong. --help behind "
                       "the command lists those it has."},
    {"' needs ", "The command works on something that must be named behind it; --help behind the "
                 "command shows how."},
    {"one word too many", "The command takes fewer words than were given. A name with blanks in it "
                          "needs quotation marks around it."},
    {"is unusual", "Only a warning: the value may be right, but few houses have it. "
                   "Look whether its unit is the one you meant."},
    {"is impossible",
     "No house has that. Mostly the unit is another than was meant: F for C, mm for m, kg for t."},
    {"is missing; it must give", "A section without which there is no house was left out. dawnlow "
                                 "new writes a whole scenario to start from."},
    {"of rock under a bed of",
     "The rock's volume over the bed's area is its depth, and nobody digs so deep or spreads so "
     "thin. Check the mass and which ton it is, rock.volume and bed.area."},
    {"has no glazing at all", "Without glazing no light comes in and there is nothing to "
                              "calculate. Write a section glazing: for each face."},
    {"are not used in a scenario",
     "A scenario is plain lines of key: value, with - for lists. What else YAML knows (brackets, "
     "anchors, several documents) is left out, so that what you see is what is read."},
    {"no header line found", "No line names both a time and a weather quantity. Is it the right "
                             "file? Its first lines are shown by dawnlow weather FILE; columns may "
                             "be called time, air temperature [C], wind [m/s] and so on."},
    {"YYYY-MM-DD or MM-DD", "Days are written 2026-03-08, or 03-08 for the weather's own year."},
    {"is not in the weather", "The weather begins later or ends earlier. dawnlow weather FILE "
                              "tells from when to when it goes."},
    {"no night begins on the evening of",
     "A night is named by its evening, and counts only when the weather goes from before its "
     "sunset to two hours after sunrise."},
    {"the run holds no complete night",
     "The weather must go from before a sunset to two hours after the next sunrise. Take --to a "
     "day later, or a longer file."},
    {"cannot both be had",
     "The two say different things about the same result. Leave one of them away."},
    {"would write over", "The result would take the place of a file that is read, and your "
                         "scenario or weather would be lost. Give the result another name."},
    {"is guessed from the forecast's own first days",
     "Rock, barrels and soil stand where the days before have brought them. Give these days with "
     "--history, or what you read off with --now rock=14C."},
    {"neither a temperature at a place nor a crop",
     "A goal is a line at a place, as \"0 C at trays, 1 night in 10 springs\", or a crop of the "
     "scenario, as \"tomato unharmed, never\"."},
    {"cannot vary", "What is varied is a key of the scenario and its values: \"rock.mass=6 t..24 "
                    "t/4\" or \"glazing.south roof.type=film|glass\"."},
    {"cannot be drawn with characters",
     "Bars need room for their names. --svg FILE draws them for a browser or a printer."},
    {"this is no JSON", "The file breaks off or was changed by hand. Write the result anew with "
                        "--json --output FILE."},
    {"this result lacks", "The file is JSON, but not a result of this dawnlow, or a part of one. "
                          "Write it anew with --json --output FILE."},
    {"standard input holds no answers",
     "Nobody answered, and a nursery that nobody described would be taken for yours. --answers "
     "/dev/null takes every default on purpose."},
    {"may be in another time zone",
     "By the sun in the file its clock is hours off. Say weather.utc_offset, or --utc-offset."},
    {"hours apart from",
     "The file's rows are some hours apart, as forecasts are some days ahead. The hours between "
     "are drawn; a low between two rows may be missed by some tenths."},
    {"than the site; air there is",
     "Higher places are colder, by about 6 K a kilometre. dawnlow offset finds the true difference "
     "from your own readings; site.offset counts it in."},
    {"of --fail-above",
     "--fail-above was asked to raise an alarm, and ends with exit status 10 for the "
     "job that runs dawnlow."},
    {"stopped",
     "You pressed Ctrl-C, or the job was ended. Exit status 130; what says so was kept."},
    {"which hour a radiation value belongs to",
     "Solar radiation is a mean over an hour, and files differ in whether a row's stamp is the "
     "hour's "
     "end or its beginning. Say weather.stamp when you know better."},
    {"unknown ",
     "There is nothing of that name; mostly a letter is wrong, and the hint names what is "
     "nearest. dawnlow --help lists the commands."},
};

const struct dawn_lexicon *dawn_lexicon_complaints(size_t *count)
{
    *count = sizeof COMPLAINTS / sizeof COMPLAINTS[0];
    return COMPLAINTS;
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
