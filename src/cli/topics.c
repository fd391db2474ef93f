/* dawnlow help TOPIC: short pages about what no single command tells. */
#include "cli/topics.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "base/unit.h"
#include "cli/lexicon.h"
#include "cli/options.h"
#include "dawnlow/problems.h"
#include "report/report_parts.h"

static void put_paragraph(const char *text)
{
    dawn_options_put_words(stdout, text, 0);
}

static void put_scenario(void)
{
    put_paragraph("A scenario is a text file that describes the nursery: one 'key: value' a line, "
                  "keys of a section indented by two blanks, items of a list begun with '- ', "
                  "remarks behind '#', no tabs. Every quantity carries its unit.");
    fputs("\n"
          "  dawnlow: 1\n"
          "  site:\n"
          "    latitude: 45.2 N\n"
          "    longitude: 6.9 E\n"
          "    utc_offset: +1 h\n"
          "  house:\n"
          "    length: 33 ft\n"
          "    width: 20 ft\n"
          "    height: 2.7 m\n"
          "  glazing:\n"
          "    - area: 118 m2\n"
          "      slope: 35 deg\n"
          "      azimuth: S\n"
          "      type: film\n"
          "\n",
          stdout);
    put_paragraph("dawnlow new writes one from your answers, dawnlow check looks it over, dawnlow "
                  "show draws it, dawnlow explain lists all keys and tells what each means. --set "
                  "KEY=VALUE lays a value over it for one run. man 5 dawnlow-scenario has every "
                  "key.");
}

static void put_weather(void)
{
    put_paragraph(
        "Any hourly CSV of some days that has a time and the air temperature; the more of "
        "dew point or humidity, wind, cloud, solar radiation and snow it has, the better. "
        "Columns are known by their names. NREL TMY3, NREL NSRDB, PVGIS TMY and the hourly "
        "files of Environment and Climate Change Canada are read as downloaded; those of "
        "other national services mostly are too, by their column names.");
    fputs("\n", stdout);
    put_paragraph("Take it from the nearest station that is as high and as open as you are: frost "
                  "runs down into hollows. Its place must lie within 15 degrees of yours. Let it "
                  "begin some weeks before the night that matters. For past springs ask the "
                  "national weather service, for a typical year NSRDB or PVGIS, for the coming "
                  "nights any hourly forecast saved as CSV.");
    fputs("\n"
          "  dawnlow weather station.csv              what was understood of it\n"
          "  dawnlow check nursery.yaml station.csv   whether the two go together\n"
          "\n",
          stdout);
    put_paragraph("Then name it in the scenario, as file: under weather:, or with --weather. The "
                  "clock must be in the file, in the scenario or on the command line; summer time "
                  "is a common trap, and so is what a stamp stands for. man 5 dawnlow-weather has "
                  "the details, dawnlow weather --help the command.");
}

static void put_units(void)
{
    put_paragraph(
        "Values carry their unit, metric or US: 18 t, 20 short ton, 12 yd3, 350 cfm, 80 F, "
        "20 ft 6 in. A decimal point or comma will do; thousands are not parted. --units "
        "us prints Fahrenheit; CSV and JSON are always metric.");
    fputs("\n", stdout);
    for (int measure = DAWN_MEASURE_NONE + 1; measure < DAWN_MEASURES; measure++) {
        const char *words = dawn_unit_measure_words((enum dawn_measure)measure);
        const char *list = dawn_unit_list((enum dawn_measure)measure);
        if (words != NULL && list != NULL) {
            printf("  %-26s  ", words);
            dawn_options_put_words(stdout, list, 30);
        }
    }
    fputs("\n", stdout);
    put_paragraph("A plain 'ton' is refused: metric (1000 kg) and short (2000 lb) ones differ by a "
                  "tenth. A difference of temperature is in K, C or F, without the 32.");
}

static void put_exit_status(void)
{
    static const enum dawn_status all[] = {
#define TOPICS_STATUS(name, exit_status, meaning) name,
        DAWN_STATUS_LIST(TOPICS_STATUS)
#undef TOPICS_STATUS
    };
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        printf("  %d  %s\n", dawn_problems_exit_status(all[i]), dawn_problems_meaning(all[i]));
    }
    fputs("\n", stdout);
    put_paragraph(
        "Results go to standard output, complaints and warnings to standard error. With 2 "
        "nothing is written or lost; every mistake found is told at once. Warnings alone "
        "leave 0.");
}

static void put_cautions(void)
{
    size_t count = 0;
    const struct dawn_report_caution *cautions = dawn_report_cautions(&count);

    for (size_t i = 0; i < count; i++) {
        char text[600];
        (void)snprintf(text, sizeof text, "%s %s", cautions[i].title, cautions[i].text);
        fputs("* ", stdout);
        dawn_options_put_words(stdout, text, 2);
    }
    fputs("\n", stdout);
    put_paragraph(dawn_report_deference());
}

static void put_lexicon(const struct dawn_lexicon *entries, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        printf("%s\n    ", entries[i].term);
        dawn_options_put_words(stdout, entries[i].meaning, 4);
    }
}

static void put_word_list(void)
{
    size_t count = 0;
    const struct dawn_lexicon *words = dawn_lexicon_words(&count);

    put_lexicon(words, count);
}

static void put_complaints(void)
{
    size_t count = 0;
    const struct dawn_lexicon *complaints = dawn_lexicon_complaints(&count);

    put_lexicon(complaints, count);
    fputs("\n", stdout);
    put_paragraph("dawnlow explain \"MESSAGE\" finds the one you met.");
}

static const struct dawn_topic TOPICS[] = {
    {"scenario", "how a nursery is described", put_scenario},
    {"weather", "which weather files are read, and where to get one", put_weather},
    {"units", "every unit that is understood", put_units},
    {"exit-status", "what a script can tell from the exit status", put_exit_status},
    {"cautions", "what can hurt people or lose a crop", put_cautions},
    {"words", "the words in tables and reports", put_word_list},
    {"complaints", "what common messages mean", put_complaints},
};

const struct dawn_topic *dawn_topics(size_t *count)
{
    *count = sizeof TOPICS / sizeof TOPICS[0];
    return TOPICS;
}
