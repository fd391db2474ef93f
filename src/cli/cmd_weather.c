/* dawnlow weather: what a weather file holds, and what had to be estimated. */
#include <math.h>

#include "cli/cmd.h"
#include "cli/options.h"
#include "cli/output.h"
#include "dawnlow/report.h"

#define AT(field) offsetof(struct dawn_options, field)

static const struct dawn_option table[] = {
    {.group = "What the file does not say",
     .name = "utc-offset",
     .argument = "HOURS",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = AT(utc_offset_h),
     .measure = DAWN_MEASURE_HOURS_OFFSET,
     .bare = true,
     .least = -14.0,
     .most = 14.0,
     .help = "clock of the stamps ahead of UTC: +1 or -05:00; 0 is UTC"},
    {.name = "stamp",
     .argument = "WORD",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(stamp),
     .words = "instant|hour-before|hour-after|hour-around",
     .help = "which hour a row's sunlight is the mean of: instant, hour-before, hour-after or "
             "hour-around"},
    {.name = "temperature-unit",
     .argument = "UNIT",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(temperature_unit),
     .words = "C|F|K",
     .help = "C, F or K"},
    {.name = "latitude",
     .argument = "DEGREES",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = AT(latitude_deg),
     .measure = DAWN_MEASURE_ANGLE,
     .bare = true,
     .least = -90.0,
     .most = 90.0,
     .help = "of the station, north positive"},
    {.name = "longitude",
     .argument = "DEGREES",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = AT(longitude_deg),
     .measure = DAWN_MEASURE_ANGLE,
     .bare = true,
     .least = -180.0,
     .most = 180.0,
     .help = "of the station, east positive"},
    {.name = "elevation",
     .argument = "LENGTH",
     .kind = DAWN_OPTIONS_QUANTITY,
     .offset = AT(elevation_m),
     .measure = DAWN_MEASURE_LENGTH,
     .least = -450.0,
     .most = 6000.0,
     .help = "of the station above the sea: \"450 m\" or \"1500 ft\""},
    {.group = "What is shown",
     .name = "json",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(json),
     .help = "every hour as it will be used, as JSON (always metric)"},
    {.name = "csv",
     .kind = DAWN_OPTIONS_FLAG,
     .offset = AT(csv),
     .help = "every hour as it will be used, as CSV (always metric; lines end in CR LF)"},
    {.name = "units",
     .argument = "metric|us",
     .kind = DAWN_OPTIONS_CHOICE,
     .offset = AT(units),
     .words = "metric|us",
     .help = "units of the summary; metric when left out"},
};
static const char *const examples[] = {
    "dawnlow weather march.csv",
    " ...",
    " hours       144, Sun 8 Mar 2026 00:00 to Fri 13 Mar 2026 23:00",
    " clock       UTC+01:00, as the file says",
    " stamp       mean of the hour before the stamp, as the file says",
    " air         -10.0 C to 6.6 C, mean 0.6 C; coldest Fri 13 Mar 2026 08:00",
    " ...",
    "dawnlow weather station.csv --utc-offset -5 --stamp hour-before",
    NULL};
const struct dawn_options_command dawn_cmd_weather_options = {
    .name = "weather",
    .operands = "FILE",
    .purpose = "What was understood of a weather file: its clock, its columns, the coldest hour, "
               "and what had to be estimated.",
    .examples = examples,
    .operands_least = 1,
    .operands_most = 1,
    .option = table,
    .option_count = sizeof table / sizeof table[0],
};

static struct dawn_weather_hints hints_of(const struct dawn_options *options)
{
    static const char *const unit[] = {"C", "F", "K"};
    const struct dawn_weather_hints hints = {
        .latitude_deg = options->latitude_deg,
        .longitude_deg = options->longitude_deg,
        .elevation_m = options->elevation_m,
        .utc_offset_h = options->utc_offset_h,
        .site_utc_offset_h = NAN,
        .stamp = options->stamp,
        .temperature_unit = options->temperature_unit < 0 ? NULL : unit[options->temperature_unit],
    };
    return hints;
}

static enum dawn_format format_of(const struct dawn_options *options)
{
    if (options->json) {
        return DAWN_JSON;
    }
    return options->csv ? DAWN_CSV : DAWN_TEXT;
}

enum dawn_status dawn_cmd_weather(int argument_count, const char *const *arguments,
                                  struct dawn_problems *problems)
{
    struct dawn_options options;
    struct dawn_weather weather = {0};
    enum dawn_status status = dawn_options_parse(&options, &dawn_cmd_weather_options,
                                                 argument_count, arguments, problems);

    if (status != DAWN_OK) {
        return status;
    }
    if (options.help) {
        dawn_options_help(stdout, &dawn_cmd_weather_options);
        return DAWN_OK;
    }
    if (options.json && options.csv) {
        dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){0}, NULL,
                          "--json and --csv cannot both be had");
        return DAWN_ERR_USAGE;
    }
    const struct dawn_weather_hints hints = hints_of(&options);
    status = dawn_weather_read(&weather, options.operand[0], &hints, problems);
    if (status == DAWN_OK) {
        dawn_report_weather(stdout, format_of(&options),
                            options.units == DAWN_US ? DAWN_US : DAWN_METRIC, &weather);
    }
    if (status == DAWN_ERR_WEATHER) {
        dawn_problems_add(problems, DAWN_NOTE, (struct dawn_place_in_file){0}, NULL,
                          "what a scenario would say is said here by --utc-offset, --stamp, "
                          "--temperature-unit, --latitude, --longitude and --elevation");
    }
    dawn_weather_release(&weather);
    return status;
}
