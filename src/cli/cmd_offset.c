/* dawnlow offset: how much colder it is here than at the station. */
#include <math.h>
#include <stdio.h>

#include "cli/cmd.h"
#include "cli/study.h"
#include "dawnlow/studies/offset.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_option table[] = {
    {.group = "What is compared",
     .name = "mine",
     .argument = "LOG.csv",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(mine),
     .help = "your own readings outdoors at the house: a time and a temperature, hourly or closer"},
    {.name = "station",
     .argument = "FILE",
     .kind = DAWN_OPTIONS_TEXT,
     .offset = AT(station),
     .help = "hourly weather of the station for the same weeks, with cloud and wind if it can be"},
    {.name = "utc-offset",
     .argument = "HOURS",
     .kind = DAWN_OPTIONS_QUANTITY,
     .measure = DAWN_MEASURE_HOURS_OFFSET,
     .offset = AT(utc_offset_h),
     .bare = true,
     .least = -12.0,
     .most = 14.0,
     .help = "clock of both files less UTC, where a file does not say"},
    {.name = "latitude",
     .argument = "DEGREES",
     .kind = DAWN_OPTIONS_QUANTITY,
     .measure = DAWN_MEASURE_ANGLE,
     .offset = AT(latitude_deg),
     .bare = true,
     .least = -90.0,
     .most = 90.0,
     .help = "where the house is, where the station's file does not say"},
    {.name = "longitude",
     .argument = "DEGREES",
     .kind = DAWN_OPTIONS_QUANTITY,
     .measure = DAWN_MEASURE_ANGLE,
     .offset = AT(longitude_deg),
     .bare = true,
     .least = -180.0,
     .most = 180.0,
     .help = "the same, east positive"},
    DAWN_STUDY_UNITS,
    {.name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "JSON instead of the text (always metric)"},
};
static const char *const examples[] = {
    "dawnlow offset --mine log.csv --station march.csv",
    " your nights are 2.5 K colder than the station's, 2.5 K to 2.5 K, in 5 nights",
    " ",
    " site:                       # into your scenario, beside what stands there",
    "   offset: 2.5 K",
    " ...",

    "dawnlow offset --mine log.csv --station march.csv --json",
    NULL};
const struct dawn_options_command dawn_cmd_offset_options = {
    .name = "offset",
    .operands = "",
    .purpose = "How much colder the nights are at your house than at the station, on overcast and "
               "windy nights and on clear calm ones, and how much single nights differ from that; "
               "written as the keys that a scenario takes under site:.",
    .examples = examples,
    .notes = "Lows of each night from sunset to sunrise are compared, at least 5 nights. Hang the "
             "thermometer outdoors, shaded from the sky, at the height of the vents.",
    .operands_least = 0,
    .operands_most = 0,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

static enum dawn_status read_both(const struct dawn_options *options, struct dawn_weather *mine,
                                  struct dawn_weather *station, struct dawn_problems *problems)
{
    struct dawn_weather_hints hints = {.latitude_deg = options->latitude_deg,
                                       .longitude_deg = options->longitude_deg,
                                       .elevation_m = NAN,
                                       .utc_offset_h = options->utc_offset_h,
                                       .site_utc_offset_h = options->utc_offset_h,
                                       .stamp = -1};
    enum dawn_status status = dawn_weather_read(station, options->station, &hints, problems);

    if (status == DAWN_OK) {
        /* The log stands near the station: it need not say where. */
        hints.latitude_deg = station->latitude_deg;
        hints.longitude_deg = station->longitude_deg;
        hints.elevation_m = station->elevation_m;
        hints.site_utc_offset_h = station->utc_offset_h;
        /* What the log lacks beside the temperature is not asked for. */
        struct dawn_problems notes = {0};
        status = dawn_weather_read(mine, options->mine, &hints, &notes);
        if (status != DAWN_OK) {
            dawn_problems_add_all(problems, &notes);
        }
        dawn_problems_release(&notes);
    }
    return status;
}

enum dawn_status dawn_cmd_offset(int argument_count, const char *const *arguments,
                                 struct dawn_problems *problems)
{
    struct dawn_options options;
    struct dawn_weather mine = {0};
    struct dawn_weather station = {0};
    struct dawn_offset offset;
    enum dawn_status status =
        dawn_options_parse(&options, &dawn_cmd_offset_options, argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_offset_options);
        return DAWN_OK;
    }
    if (options.mine == NULL || options.station == NULL) {
        return dawn_study_refuse(problems, "dawnlow offset --mine log.csv --station march.csv",
                                 "both --mine and --station are needed");
    }
    status = read_both(&options, &mine, &station, problems);
    if (status == DAWN_OK) {
        status = dawn_offset_fit(&offset, &mine, &station, problems);
    }
    if (status == DAWN_OK) {
        dawn_report_offset(stdout, dawn_study_format(&options), dawn_study_units(&options),
                           &offset);
    }
    dawn_weather_release(&mine);
    dawn_weather_release(&station);
    return status;
}
